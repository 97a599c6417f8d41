//! What needs doing on a day: from the book, with reason and date; what is done falls off.

#![allow(clippy::unwrap_used, reason = "a test stops at the first surprise")]

mod holding;

use chrono::NaiveDate;
use holding::{Kept, date};
use kerfbook_acts::check_gap::{self, NewGapCheck};
use kerfbook_acts::close_task::{self, NewClosing};
use kerfbook_acts::error::ActError;
use kerfbook_acts::give_water::{self, Watering};
use kerfbook_acts::lift_layer::{NewLift, lift};
use kerfbook_acts::read_leaf::{self, NewLeafReading};
use kerfbook_acts::read_weather::{self, NewWeather, UsualYear};
use kerfbook_acts::scenario::{Amount, Way};
use kerfbook_acts::set_task::{self, NewTask};
use kerfbook_acts::storage::Smell;
use kerfbook_acts::test_batch::{self, NewBatchTest};
use kerfbook_acts::test_draw::{self, NewDrawTest};
use kerfbook_acts::test_soil::{self, NewSoilTest, NitrogenFigure};
use kerfbook_acts::today::{DueFeed, Item, Outlook, Reason, TopUp, drop_item, today};
use kerfbook_acts::work_soil::{self, NewWorking};
use kerfbook_acts::{close_place, name_person};
use kerfbook_ledger::kind::{
    CropEnded, Fate, ForecastFrozen, NitrogenForm, Outcome, PlaceKind, TaskKind, Tool, Weeks,
};
use kerfbook_ledger::{Date, EntryId, Series, Text};
use kerfbook_science::feed;
use kerfbook_science::units::{Length, Mass, Share, Temperature, Volume};

impl Kept {
    fn on(&mut self, day: NaiveDate) -> &mut Self {
        self.now = self.now.on(day);
        self
    }

    fn crop_ended(&mut self, place: EntryId, crop: EntryId) -> EntryId {
        self.write(place, CropEnded { crop, fate: Fate::CarriedOff, yield_g: None })
    }

    fn forecast(&mut self, place: EntryId, look: NaiveDate, hungry_after: Option<u32>) -> EntryId {
        let none = || Series(Vec::new());
        let body = ForecastFrozen {
            engine: 1,
            parameters: 1,
            seed: 1,
            runs: 200,
            inputs: Text::new([4; 16], "{}").hash(),
            first: Date::of(self.now.date).unwrap(),
            weeks: Weeks {
                tied_p10: none(),
                tied_p50: none(),
                tied_p90: none(),
                mineral_p10: none(),
                mineral_p50: none(),
                mineral_p90: none(),
            },
            hungry_p10: hungry_after,
            hungry_p50: hungry_after,
            hungry_p90: hungry_after,
            way: None,
            wet_g: None,
            containers: None,
            container: None,
            give_mg: 0,
            give_source: None,
            look: Some(Date::of(look).unwrap()),
            avoid: None,
            cost_p10: 0,
            cost_p50: 0,
            cost_p90: 0,
            least_known: None,
        };
        self.write(place, body)
    }

    fn items(&self, on: NaiveDate) -> Vec<Item> {
        today(&self.book, &[], on, 14).unwrap()
    }

    /// What is to be done of a kind, within a fortnight.
    fn due(&self, on: NaiveDate, what: TaskKind) -> Vec<Item> {
        self.items(on).into_iter().filter(|item| item.what == what).collect()
    }
}

#[test]
fn an_empty_holding_has_nothing_to_do() {
    assert_eq!(Kept::new().items(date(2026, 6, 1)), []);
}

#[test]
fn the_frozen_forecast_asks_to_look_until_somebody_looked() {
    let mut kept = Kept::new();
    let bed = kept.place("Bed", PlaceKind::Bed, 10.0);
    let crop = kept.crop(bed, "cabbage", Some(date(2026, 9, 1)));
    let first = kept.forecast(bed, date(2026, 5, 20), None);
    assert_eq!(kept.items(date(2026, 5, 1)), [], "not yet within a fortnight");
    let [item] = kept.due(date(2026, 5, 10), TaskKind::Look).try_into().unwrap();
    assert_eq!(
        (item.due, item.place, &item.reason),
        (Some(date(2026, 5, 20)), Some(bed), &Reason::Forecast { hungry: None })
    );
    assert_eq!(item.rests_on, [first]);
    assert!(!item.overdue(date(2026, 5, 20)));
    // A later forecast takes its place.
    kept.on(date(2026, 5, 12)).forecast(bed, date(2026, 5, 25), None);
    let [item] = kept.due(date(2026, 5, 28), TaskKind::Look).try_into().unwrap();
    assert_eq!(item.due, Some(date(2026, 5, 25)));
    assert!(item.overdue(date(2026, 5, 28)));
    // A look on the day before the forecast was made is none.
    let look = NewLeafReading { nutrition: Some(0.9), crop: Some(crop), ..NewLeafReading::of(bed) };
    let now = kept.on(date(2026, 5, 11)).now;
    read_leaf::read(&mut kept.book, &look, now).unwrap();
    assert_eq!(kept.due(date(2026, 5, 28), TaskKind::Look).len(), 1);
    let now = kept.on(date(2026, 5, 27)).now;
    read_leaf::read(&mut kept.book, &look, now).unwrap();
    assert_eq!(kept.due(date(2026, 5, 28), TaskKind::Look), []);
    assert_eq!(kept.due(date(2026, 5, 26), TaskKind::Look).len(), 1, "on the day before it was still to do");
}

#[test]
fn nobody_looks_at_a_crop_that_is_gone() {
    let mut kept = Kept::new();
    let bed = kept.place("Bed", PlaceKind::Bed, 10.0);
    let crop = kept.crop(bed, "lettuce", None);
    kept.forecast(bed, date(2026, 5, 20), Some(50));
    assert_eq!(kept.items(date(2026, 5, 20)).len(), 2);
    kept.on(date(2026, 5, 15)).crop_ended(bed, crop);
    assert_eq!(kept.items(date(2026, 5, 20)), []);
}

#[test]
fn soil_is_tested_three_weeks_before_hunger_may_come() {
    let mut kept = Kept::new();
    let bed = kept.place("Bed", PlaceKind::Bed, 10.0);
    kept.crop(bed, "cabbage", Some(date(2026, 9, 1)));
    kept.forecast(bed, date(2026, 5, 20), Some(54));
    let hungry = date(2026, 6, 8);
    let [item] = kept.due(date(2026, 5, 10), TaskKind::Test).try_into().unwrap();
    assert_eq!((item.due, item.reason), (Some(date(2026, 5, 18)), Reason::BeforeHunger { hungry }));
    assert_eq!(kept.due(date(2026, 6, 20), TaskKind::Test), [], "too late to help");
    let colour = NewSoilTest { organic_matter: Some(Share::from_percent(3.0)), ..NewSoilTest::of(bed) };
    let now = kept.on(date(2026, 5, 16)).now;
    test_soil::test(&mut kept.book, &colour, now).unwrap();
    assert_eq!(
        kept.due(date(2026, 5, 17), TaskKind::Test).len(),
        1,
        "organic matter says nothing of nitrate"
    );
    let nitrate = NewSoilTest {
        bottom: Some(Length::from_cm(30.0)),
        nitrogen: Some((NitrogenForm::NitrateN, NitrogenFigure::Ppm(12.0))),
        ..NewSoilTest::of(bed)
    };
    test_soil::test(&mut kept.book, &nitrate, now).unwrap();
    assert_eq!(kept.due(date(2026, 5, 17), TaskKind::Test), []);
}

#[test]
fn planned_feeds_and_top_ups_are_told_and_fall_off() {
    let mut kept = Kept::new();
    let bed = kept.place("Bed", PlaceKind::Bed, 10.0);
    let feed = |day| DueFeed {
        on: day,
        source: "urea".to_owned(),
        nitrogen: Mass::from_g(40.0),
        amount: feed::Amount::Product(Mass::from_g(87.0)),
    };
    let outlook = Outlook {
        place: bed,
        top_up: Some(TopUp {
            on: date(2026, 6, 3),
            lies: Some(Length::from_cm(4.0)),
            wanted: Some(Length::from_cm(7.5)),
        }),
        feeds: vec![feed(date(2026, 6, 1)), feed(date(2026, 6, 10))],
        hungry: None,
    };
    let on = date(2026, 6, 2);
    let what = |kept: &Kept| -> Vec<(TaskKind, Option<NaiveDate>)> {
        let items = today(&kept.book, std::slice::from_ref(&outlook), on, 14).unwrap();
        items.iter().map(|item| (item.what, item.due)).collect()
    };
    assert_eq!(
        what(&kept),
        [
            (TaskKind::Feed, Some(date(2026, 6, 1))),
            (TaskKind::TopUp, Some(date(2026, 6, 3))),
            (TaskKind::Feed, Some(date(2026, 6, 10))),
        ]
    );
    kept.on(date(2026, 5, 31)).feed(bed, 40);
    assert_eq!(
        what(&kept),
        [(TaskKind::TopUp, Some(date(2026, 6, 3))), (TaskKind::Feed, Some(date(2026, 6, 10)))],
        "one feed stands for one of the plan"
    );
    let items = today(&kept.book, std::slice::from_ref(&outlook), on, 14).unwrap();
    let reason = Text::new([8; 16], "deep enough still");
    let now = kept.on(on).now;
    drop_item(&mut kept.book, &items[0], Some(&reason), now).unwrap();
    assert_eq!(what(&kept), [(TaskKind::Feed, Some(date(2026, 6, 10)))]);
}

#[test]
fn the_gap_at_trunks_is_looked_at_twice_a_year_and_at_once_where_it_closed() {
    let mut kept = Kept::new();
    let trees = kept.place("Apple row", PlaceKind::Rings, 24.0);
    let chips = kept.load("arborist chips, leafless", 4000.0);
    kept.put_down(trees, chips, Way::Ring, Amount::Barrows(20.0), None);
    let gaps = |kept: &Kept, on| kept.due(on, TaskKind::CheckGap);
    assert_eq!(gaps(&kept, date(2026, 9, 30)), []);
    let [item] = gaps(&kept, date(2026, 10, 10)).try_into().unwrap();
    assert_eq!(
        (item.due, item.reason),
        (Some(date(2026, 10, 15)), Reason::GapUnseen { since: date(2026, 4, 15) })
    );
    let mut check = NewGapCheck {
        place: trees,
        gap: Length::from_cm(3.0),
        plants: Some(6),
        blocked_emitters: Some(2),
        mended: false,
    };
    let now = kept.on(date(2026, 10, 12)).now;
    check_gap::check(&mut kept.book, &check, now).unwrap();
    let [item] = gaps(&kept, date(2026, 10, 13)).try_into().unwrap();
    assert!(matches!(item.reason, Reason::GapClosed { .. }) && item.overdue(date(2026, 10, 13)));
    check.gap = Length::from_cm(16.0);
    let now = kept.on(date(2026, 10, 14)).now;
    check_gap::check(&mut kept.book, &check, now).unwrap();
    let [item] = gaps(&kept, date(2026, 10, 15)).try_into().unwrap();
    assert_eq!(item.reason, Reason::EmittersBlocked { count: 2 });
    check.mended = true;
    let now = kept.on(date(2026, 10, 15)).now;
    check_gap::check(&mut kept.book, &check, now).unwrap();
    assert_eq!(gaps(&kept, date(2026, 10, 16)), []);
    let [item] = gaps(&kept, date(2027, 4, 10)).try_into().unwrap();
    assert_eq!(item.due, Some(date(2027, 4, 15)));
}

#[test]
fn a_dry_week_over_a_crop_asks_for_water_and_unread_days_say_nothing() {
    let mut kept = Kept::new();
    let bed = kept.place("Bed", PlaceKind::Bed, 10.0);
    let year = UsualYear {
        month_mean_c: [2.0, 3.2, 6.5, 11.0, 15.5, 18.8, 20.0, 18.8, 15.5, 11.0, 6.5, 3.2],
        month_rain_mm: [65.0; 12],
        month_et0_mm_day: Some([0.5, 0.9, 1.7, 2.7, 3.7, 4.3, 4.5, 3.9, 2.7, 1.5, 0.8, 0.4]),
        month_range_c: None,
    };
    let now = kept.now;
    let months = read_weather::usual_year(&mut kept.book, &year, now).unwrap();
    assert_eq!(months.len(), 12);
    assert_eq!(kept.book.holding_view().unwrap().unwrap().usual.len(), 12);
    let read = |kept: &mut Kept, day, mm| {
        let now = kept.on(day).now;
        let weather = NewWeather { rain: Some(Length::from_mm(mm)), ..NewWeather::default() };
        read_weather::read(&mut kept.book, &weather, now).unwrap();
    };
    for day in 1..=6 {
        read(&mut kept, date(2026, 7, day), 0.5);
    }
    let crop = kept.on(date(2026, 5, 1)).crop(bed, "cabbage", None);
    let on = date(2026, 7, 8);
    assert_eq!(kept.due(on, TaskKind::Water), [], "the day before was not read");
    read(&mut kept, date(2026, 7, 7), 0.5);
    let [item] = kept.due(on, TaskKind::Water).try_into().unwrap();
    let Reason::Dry { days, came, wanted } = item.reason else { panic!("{item:?}") };
    assert_eq!((days, item.due), (7, Some(on)));
    assert!((came.mm() - 3.5).abs() < 1e-9 && (wanted.mm() - 31.5).abs() < 1e-9, "seven days of 4.5 mm");
    let now = kept.on(date(2026, 7, 8)).now;
    give_water::give(&mut kept.book, bed, Watering::Depth(Length::from_mm(20.5)), false, now).unwrap();
    assert_eq!(kept.due(on, TaskKind::Water), []);
    kept.on(date(2026, 7, 7)).crop_ended(bed, crop);
    assert_eq!(kept.due(on, TaskKind::Water), [], "nothing stands there");
}

#[test]
fn a_mulch_where_the_crop_ends_asks_for_a_decision() {
    let mut kept = Kept::new();
    let bed = kept.place("Bed", PlaceKind::Bed, 10.0);
    let sawdust = kept.load("hardwood sawdust", 1000.0);
    let layer = kept.put_down(bed, sawdust, Way::OnTop, Amount::Barrows(4.0), None);
    let crop = kept.crop(bed, "cabbage", Some(date(2026, 9, 1)));
    let dig = |kept: &Kept, on| kept.due(on, TaskKind::DigIn);
    assert_eq!(dig(&kept, date(2026, 8, 1)), []);
    let [item] = dig(&kept, date(2026, 8, 25)).try_into().unwrap();
    assert_eq!(item.reason, Reason::MulchBeforePreparation { ends: date(2026, 9, 1) });
    assert_eq!(item.rests_on, [layer, crop]);
    kept.on(date(2026, 9, 10)).crop_ended(bed, crop);
    let [item] = dig(&kept, date(2026, 9, 12)).try_into().unwrap();
    assert_eq!(item.due, Some(date(2026, 9, 10)));
    let spade = NewWorking { place: bed, depth: None, share: None, tool: Some(Tool::Spade) };
    let now = kept.on(date(2026, 9, 13)).now;
    work_soil::work(&mut kept.book, &spade, now).unwrap();
    assert_eq!(dig(&kept, date(2026, 9, 14)), []);
    let path = kept.place("Path", PlaceKind::Path, 10.0);
    let refused = work_soil::work(&mut kept.book, &NewWorking { place: path, ..spade }, now);
    assert!(matches!(refused, Err(ActError::NothingGrows)));
}

#[test]
fn a_heap_is_smelled_before_it_is_spread_and_aired_where_it_is_sour() {
    let mut kept = Kept::new();
    let heap = kept.load_with("bark, hardwood", |load| {
        load.volume = Some(Volume::from_m3(5.0));
        load.moisture = Some(Share::from_percent(55.0));
    });
    kept.load_with("hardwood shavings", |load| {
        load.volume = Some(Volume::from_m3(5.0));
        load.moisture = Some(Share::from_percent(12.0));
    });
    let [item] = kept.items(date(2026, 6, 1)).try_into().unwrap();
    assert_eq!((item.batch, item.what, item.due), (Some(heap), TaskKind::Test, Some(date(2026, 5, 15))));
    assert_eq!(item.reason, Reason::HeapUnsmelled { since: date(2026, 4, 15) });
    let smell = |kept: &mut Kept, day, smell| {
        let now = kept.on(day).now;
        test_batch::test(&mut kept.book, &NewBatchTest { smell: Some(smell), ..NewBatchTest::of(heap) }, now)
            .unwrap()
    };
    let tested = smell(&mut kept, date(2026, 6, 1), Smell::Sour);
    let [item] = kept.items(date(2026, 6, 2)).try_into().unwrap();
    assert_eq!(item.what, TaskKind::Air);
    assert_eq!(item.reason, Reason::Sour { from: date(2026, 6, 2), until: date(2026, 6, 4) });
    assert_eq!(item.rests_on, [tested.entry]);
    smell(&mut kept, date(2026, 6, 4), Smell::Earth);
    assert_eq!(kept.items(date(2026, 6, 5)), []);
}

#[test]
fn a_lifted_layer_is_tested_before_it_goes_to_a_bed() {
    let mut kept = Kept::new();
    let path = kept.place("Path", PlaceKind::Path, 18.0);
    let chips = kept.load("arborist chips, leafless", 1600.0);
    let layer = kept.put_down(path, chips, Way::Path, Amount::Barrows(20.0), None);
    let new = NewLift {
        place: path,
        layer,
        label: "From the path",
        share: None,
        wet: None,
        volume: Some(Volume::from_litres(900.0)),
        moisture: None,
    };
    let now = kept.on(date(2027, 3, 1)).now;
    let lifted = lift(&mut kept.book, &new, now).unwrap();
    let [item] = kept.due(date(2027, 3, 2), TaskKind::Test).try_into().unwrap();
    assert_eq!((item.batch, item.reason), (Some(lifted), Reason::DrawUnknown { lifted_from: Some(path) }));
    let draw = NewDrawTest {
        batch: lifted,
        temperature: Temperature::from_c(20.0),
        dose_mg_l: 75.0,
        dry_g_l: 40.0,
        index: 0.7,
    };
    let now = kept.on(date(2027, 3, 6)).now;
    test_draw::test(&mut kept.book, &draw, now).unwrap();
    assert_eq!(kept.due(date(2027, 3, 7), TaskKind::Test), []);
    let nothing_left = NewDrawTest { index: 1.6, ..draw };
    assert!(matches!(test_draw::test(&mut kept.book, &nothing_left, now), Err(ActError::Figure { .. })));
}

#[test]
fn orders_go_to_a_person_stand_for_their_rule_and_are_closed_once() {
    let mut kept = Kept::new();
    let bed = kept.place("Bed", PlaceKind::Bed, 10.0);
    kept.crop(bed, "cabbage", None);
    let frozen = kept.forecast(bed, date(2026, 5, 20), None);
    let now = kept.now;
    let person = name_person::name(&mut kept.book, &Text::new([6; 16], "somebody (invented)"), now).unwrap();
    let look =
        NewTask { due: Some(date(2026, 5, 18)), to: Some(person), ..NewTask::of(TaskKind::Look, Some(bed)) };
    let task = set_task::set(&mut kept.book, &look, now).unwrap();
    let whenever =
        NewTask { text: Some(Text::new([7; 16], "mend the barrow")), ..NewTask::of(TaskKind::Other, None) };
    let mend = set_task::set(&mut kept.book, &whenever, now).unwrap();
    let items = kept.items(date(2026, 5, 15));
    let [first, last] = items.as_slice() else { panic!("{items:?}") };
    assert_eq!((first.who, first.task, first.due), (Some(person), Some(task), Some(date(2026, 5, 18))));
    assert_eq!(first.reason, Reason::Forecast { hungry: None }, "the rule's reason is kept");
    assert_eq!(first.rests_on, [frozen, task]);
    assert_eq!((last.task, last.due, &last.reason), (Some(mend), None, &Reason::Ordered));
    let closing = NewClosing { task, outcome: Outcome::Done, entry: None, reason: None };
    let now = kept.on(date(2026, 5, 18)).now;
    close_task::close(&mut kept.book, &closing, now).unwrap();
    assert_eq!(kept.items(date(2026, 5, 19)).len(), 1, "the look is done, by the order's closing");
    assert_eq!(kept.items(date(2026, 5, 17)).len(), 2, "and was not, the day before");
    assert!(matches!(close_task::close(&mut kept.book, &closing, now), Err(ActError::ClosedAlready { .. })));
    let nobody = NewTask { to: Some(bed), ..NewTask::of(TaskKind::Look, Some(bed)) };
    assert!(matches!(
        set_task::set(&mut kept.book, &nobody, now),
        Err(ActError::NotThere { what: "person" })
    ));
    let vague = NewTask::of(TaskKind::Other, None);
    assert!(matches!(set_task::set(&mut kept.book, &vague, now), Err(ActError::Missing { .. })));
}

#[test]
fn a_closed_place_asks_for_nothing_and_the_order_is_the_same_every_time() {
    let mut kept = Kept::new();
    let beds: Vec<EntryId> = (1..=3).map(|n| kept.place(&format!("Bed {n}"), PlaceKind::Bed, 10.0)).collect();
    for bed in &beds {
        kept.crop(*bed, "cabbage", None);
        kept.forecast(*bed, date(2026, 5, 20), Some(40));
    }
    let on = date(2026, 5, 20);
    let items = kept.items(on);
    assert_eq!(items.len(), 6);
    assert!(items.windows(2).all(|pair| pair[0].due <= pair[1].due), "overdue first");
    assert_eq!(items, kept.items(on));
    let now = kept.on(date(2026, 5, 19)).now;
    close_place::close(&mut kept.book, beds[0], None, now).unwrap();
    assert_eq!(kept.items(on).len(), 4);
    assert!(matches!(
        close_place::close(&mut kept.book, beds[0], None, now),
        Err(ActError::ClosedAlready { what: "place" })
    ));
}
