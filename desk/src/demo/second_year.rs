//! The invented holding goes on: readings and orders in the first summer, a cover over winter, a mulch dug in, path
//! chips that move to a bed, two crops in the second year.

use chrono::NaiveDate;
use kerfbook_acts::check_gap::{self, NewGapCheck};
use kerfbook_acts::close_task::{self, NewClosing};
use kerfbook_acts::error::ActError;
use kerfbook_acts::lift_layer::{self, NewLift};
use kerfbook_acts::moment::Moment;
use kerfbook_acts::probe_depth::{self, Depths, NewProbe};
use kerfbook_acts::put_down::{self, NewPutDown};
use kerfbook_acts::read_leaf::{self, NewLeafReading};
use kerfbook_acts::read_weather::{self, UsualYear};
use kerfbook_acts::recount_batch::{self, NewRecount};
use kerfbook_acts::scenario::{Amount, Crop, CropNeed, Fate, Way};
use kerfbook_acts::set_task::{self, NewTask};
use kerfbook_acts::test_draw::{self, NewDrawTest};
use kerfbook_acts::test_soil::{self, NewSoilTest, NitrogenFigure};
use kerfbook_acts::work_soil::{self, NewWorking};
use kerfbook_acts::{grow_crop, name_person};
use kerfbook_ledger::kind::{NitrogenForm, Outcome, TaskKind};
use kerfbook_ledger::{Book, EntryId, Text};
use kerfbook_science::crop as crops;
use kerfbook_science::lookup::Match;
use kerfbook_science::units::{AreaMass, Length, Mass, Share, Temperature, Volume};
use kerfbook_words::Words;

use super::season::surroundings;

/// The day on which the report is made.
pub(super) fn today() -> NaiveDate {
    day(2027, 6, 5)
}

fn day(year: i32, month: u32, day: u32) -> NaiveDate {
    NaiveDate::from_ymd_opt(year, month, day).unwrap_or_default()
}

/// The beds and other places of the story.
pub(super) struct Places {
    pub(super) worked_in: EntryId,
    pub(super) on_top: EntryId,
    pub(super) path: EntryId,
    pub(super) trees: EntryId,
    pub(super) sawdust: EntryId,
}

/// What the place is: the usual weather and the soil of every bed.
pub(super) fn describe(book: &mut Book, beds: &[EntryId], now: Moment) -> Result<(), ActError> {
    let around = surroundings();
    let year = UsualYear {
        month_mean_c: around.weather.month_mean_c,
        month_rain_mm: around.weather.month_rain_mm,
        month_et0_mm_day: around.weather.month_et0_mm_day,
        month_range_c: None,
    };
    read_weather::usual_year(book, &year, now)?;
    for bed in beds {
        let soil = NewSoilTest {
            top: Some(Length::from_cm(0.0)),
            bottom: Some(around.soil.depth),
            organic_matter: Some(around.soil.organic_matter),
            clay: around.soil.clay,
            water: Some(around.soil.water_at_start),
            ..NewSoilTest::of(*bed)
        };
        test_soil::test(book, &soil, now)?;
    }
    Ok(())
}

/// The first summer: a helper, an order given and closed, readings.
pub(super) fn first_summer(
    book: &mut Book,
    places: &Places,
    salt: &dyn Fn() -> Result<[u8; 16], ActError>,
    words: &Words,
    now: Moment,
) -> Result<(), ActError> {
    let helper = Text::new(salt()?, &words.label("demo-helper"));
    let helper = name_person::name(book, &helper, now)?;
    let drawn = NewDrawTest {
        batch: places.sawdust,
        temperature: Temperature::from_c(22.0),
        dose_mg_l: 150.0,
        dry_g_l: 30.0,
        index: 0.55,
    };
    test_draw::test(book, &drawn, now.on(day(2026, 4, 19)))?;
    let order = NewTask {
        due: Some(day(2026, 6, 3)),
        to: Some(helper),
        ..NewTask::of(TaskKind::Look, Some(places.on_top))
    };
    let order = set_task::set(book, &order, now.on(day(2026, 5, 20)))?;
    for (place, kg_ha) in [(places.worked_in, 3.0), (places.on_top, 41.0)] {
        let test = NewSoilTest {
            top: Some(Length::from_cm(0.0)),
            bottom: Some(surroundings().soil.depth),
            nitrogen: Some((NitrogenForm::NitrateN, NitrogenFigure::PerArea(AreaMass::from_kg_ha(kg_ha)))),
            ..NewSoilTest::of(place)
        };
        test_soil::test(book, &test, now.on(day(2026, 5, 15)))?;
    }
    let looked = Moment { by: Some(helper), ..now.on(day(2026, 6, 3)) };
    let leaf = NewLeafReading { nutrition: Some(0.95), ..NewLeafReading::of(places.on_top) };
    let leaf = read_leaf::read(book, &leaf, looked)?;
    let closing = NewClosing { task: order, outcome: Outcome::Done, entry: Some(leaf), reason: None };
    close_task::close(book, &closing, looked)?;
    let depths = [22.0, 20.0, 24.0, 19.0].map(Length::from_mm);
    let probe = NewProbe { place: places.on_top, layer: None, depths: Depths::Measured(&depths) };
    probe_depth::probe(book, &probe, now.on(day(2026, 7, 10)))?;
    let gap = NewGapCheck {
        place: places.trees,
        gap: Length::from_cm(6.0),
        plants: Some(6),
        blocked_emitters: Some(1),
        mended: true,
    };
    check_gap::check(book, &gap, now.on(day(2026, 8, 1)))?;
    let reason = Text::new(salt()?, &words.label("demo-count-why"));
    let count = NewRecount {
        batch: places.sawdust,
        wet: None,
        volume: Some(Volume::from_litres(40.0)),
        reason: Some(reason),
    };
    recount_batch::recount(book, &count, now.on(day(2026, 9, 20)))?;
    Ok(())
}

/// Winter and the second spring: a cover dug in, the mulch dug in, the path's chips on another bed, two crops.
pub(super) fn second_year(
    book: &mut Book,
    places: &Places,
    words: &Words,
    now: Moment,
) -> Result<(), ActError> {
    let crop = |name: &str, from, to| Crop {
        name: name.to_owned(),
        need: match crops::find(name) {
            Match::Exact(found) => CropNeed::Annual(found.uptake.typical),
            Match::Near(_) => CropNeed::Appetite(kerfbook_acts::scenario::Appetite::Middling),
        },
        started: from,
        ended: to,
        midpoint_day: None,
        fixed: match crops::find(name) {
            Match::Exact(found) => Share::from_fraction(found.fixed),
            Match::Near(_) => Share::default(),
        },
        plants: None,
        fate: Fate::CarriedOff,
        ..super::season::cabbage()
    };
    let (sown, dug) = (day(2026, 9, 20), day(2027, 4, 8));
    let rye = grow_crop::start(book, places.worked_in, &crop("rye", sown, dug), now.on(sown))?;
    grow_crop::end(book, places.worked_in, rye, Fate::DugIn, None, now.on(dug))?;

    // The mulch of the first year is dug in where the next crop is sown.
    let spade =
        NewWorking { place: places.on_top, depth: Some(Length::from_cm(20.0)), share: None, tool: None };
    work_soil::work(book, &spade, now.on(day(2027, 4, 10)))?;

    let layer = book.place(places.path)?.and_then(|view| view.layers.first().map(|layer| layer.entry));
    if let Some(layer) = layer {
        let lift = NewLift {
            place: places.path,
            layer,
            label: &words.label("demo-batch-lifted"),
            share: Some(Share::from_percent(90.0)),
            wet: Some(Mass::from_kg(420.0)),
            volume: Some(Volume::from_litres(1400.0)),
            moisture: Some(Share::from_percent(55.0)),
        };
        let lifted = lift_layer::lift(book, &lift, now.on(day(2027, 3, 20)))?;
        let containers = surroundings().containers;
        let put = NewPutDown {
            place: places.worked_in,
            batch: lifted,
            way: Way::OnTop,
            amount: Amount::Barrows(6.0),
            over: None,
        };
        put_down::put_down(book, &put, &containers, now.on(day(2027, 5, 2)))?;
    }
    for place in [places.worked_in, places.on_top] {
        let lettuce = crop("lettuce", day(2027, 4, 15), day(2027, 6, 20));
        grow_crop::start(book, place, &lettuce, now.on(day(2027, 4, 15)))?;
        let beans = crop("beans", day(2027, 6, 25), day(2027, 9, 15));
        grow_crop::start(book, place, &beans, now.on(day(2027, 6, 25)))?;
    }
    let test = NewSoilTest {
        top: Some(Length::from_cm(0.0)),
        bottom: Some(surroundings().soil.depth),
        nitrogen: Some((NitrogenForm::NitrateN, NitrogenFigure::Ppm(1.5))),
        ..NewSoilTest::of(places.on_top)
    };
    test_soil::test(book, &test, now.on(day(2027, 5, 20)))?;
    Ok(())
}
