//! A pile from batches to a batch: mass moves and is never created, and what stands in between is judged.

#![allow(clippy::unwrap_used, reason = "a test stops at the first surprise")]

mod holding;

use chrono::Days;
use holding::{Kept, date};
use kerfbook_acts::blend_batch::{NewPart, Taken};
use kerfbook_acts::build_pile::{Built, NewPile, build};
use kerfbook_acts::consider_pile::consider;
use kerfbook_acts::error::ActError;
use kerfbook_acts::finish_pile::{NewBatch, finish};
use kerfbook_acts::put_down::{NewPutDown, put_down};
use kerfbook_acts::read_heat::{NewHeat, read as read_heat};
use kerfbook_acts::scenario::{Amount, Way};
use kerfbook_acts::stock::of;
use kerfbook_acts::test_batch::{self, NewBatchTest, ReadyTests};
use kerfbook_acts::today::today;
use kerfbook_acts::told_item::tell;
use kerfbook_acts::{maturity, mistake, pile, read_moisture, turn_pile};
use kerfbook_ledger::EntryId;
use kerfbook_ledger::kind::PlaceKind;
use kerfbook_science::compost::fire::FireLevel;
use kerfbook_science::compost::heat_log::Verdict;
use kerfbook_science::compost::maturity::Maturity;
use kerfbook_science::units::{Length, Mass, Share, Temperature};
use kerfbook_words::{Language, Units, Words};

fn words() -> Words {
    Words::new(Language::English, Units::Metric)
}

fn left_kg(kept: &Kept, batch: EntryId) -> f64 {
    of(&kept.book.batch(batch).unwrap().unwrap()).unwrap().left.unwrap().wet.kg()
}

/// Sawdust and manure, 1000 kg of each as they came, and a pile of some of both.
fn with_pile(rule: Option<&str>) -> (Kept, [EntryId; 2], Built) {
    let mut kept = Kept::new();
    let batches = ["hardwood sawdust", "cattle manure"]
        .map(|material| kept.load_with(material, |load| load.wet = Some(Mass::from_kg(1000.0))));
    let [wood, manure] = batches;
    let parts = [
        NewPart { batch: wood, amount: Taken::Wet(Mass::from_kg(300.0)) },
        NewPart { batch: manure, amount: Taken::Wet(Mass::from_kg(900.0)) },
    ];
    let new = NewPile {
        label: "pile by the gate",
        place: None,
        parts: &parts,
        water: Some(Mass::from_kg(100.0)),
        volume: None,
        moisture: None,
        rule,
    };
    let (containers, now) = (kept.containers, kept.now);
    let built = build(&mut kept.book, &new, &containers, now).unwrap();
    (kept, batches, built)
}

#[test]
fn mass_moves_from_batches_to_the_pile_to_a_batch() {
    let (mut kept, [wood, manure], built) = with_pile(None);
    assert!((left_kg(&kept, wood) - 700.0).abs() < 0.01 && (left_kg(&kept, manure) - 100.0).abs() < 0.01);
    let view = kept.book.pile(built.pile).unwrap().unwrap();
    assert_eq!(view.wet_g, Some(1_300_000));
    assert!((built.mix.wet.kg() - 1300.0).abs() < 1e-6);
    assert!(built.cautions.iter().any(|caution| caution.id == "by-products-authority"));
    let end = kept.now.on(kept.now.date + Days::new(150));
    let new = NewBatch {
        pile: built.pile,
        label: "compost",
        material: None,
        wet: None,
        volume: None,
        moisture: None,
        carbon_nitrogen: None,
    };
    let done = finish(&mut kept.book, &new, end).unwrap();
    let dry_out = done.wet.kg() * (1.0 - done.moisture.fraction());
    assert!(dry_out < built.mix.dry().kg() && done.lost.fraction() > 0.2);
    assert!((dry_out + done.lost.fraction() * built.mix.dry().kg() - built.mix.dry().kg()).abs() < 1e-6);
    assert!(done.carbon_nitrogen < built.mix.carbon_nitrogen().unwrap());
    assert!(done.band.low <= done.carbon_nitrogen && done.carbon_nitrogen <= done.band.high);
    let batch = kept.book.batch(done.batch).unwrap().unwrap();
    assert_eq!(batch.pile, Some(built.pile));
    let mut loads = vec![wood, manure];
    loads.sort_unstable();
    assert_eq!(batch.loads, loads);
    assert_eq!((batch.supply_bp, batch.standing.as_ref().unwrap().as_str()), (Some(1_000), "reckoned"));
    assert!(!kept.book.pile(built.pile).unwrap().unwrap().stands());
    // It goes on as any batch does, and nothing more happens to the pile.
    let bed = kept.place("Bed", PlaceKind::Bed, 10.0);
    let (containers, later) = (kept.containers, end);
    let amount = Amount::Barrows(1.0);
    let put = NewPutDown { place: bed, batch: done.batch, way: Way::WorkedIn, amount, over: None };
    put_down(&mut kept.book, &put, &containers, later).unwrap();
    assert!(left_kg(&kept, done.batch) < done.wet.kg());
    assert!(matches!(
        turn_pile::turn(&mut kept.book, built.pile, None, later),
        Err(ActError::ClosedAlready { what: "pile" })
    ));
    assert!(kept.book.verify().unwrap().sound());
}

#[test]
fn several_tests_together_say_whether_a_batch_is_ready() {
    let (mut kept, _, built) = with_pile(None);
    let later = |days| kept.now.on(kept.now.date + Days::new(days));
    let [hot, cool, end, last] = [later(5), later(40), later(80), later(100)];
    let heat = |book: &mut kerfbook_ledger::Book, celsius, on| {
        let temperature = Temperature::from_c(celsius);
        let pile = built.pile;
        let new = NewHeat { pile, zone: Some("core"), depth: None, temperature, smoke: false, minute: None };
        read_heat(book, &new, on).unwrap();
    };
    heat(&mut kept.book, 58.0, hot);
    let view = kept.book.pile(built.pile).unwrap().unwrap();
    assert_eq!(maturity::cured(&view, cool.date), None);
    assert!(maturity::cure_told(&view, cool.date, &words()).unwrap().contains("does not cure yet"));
    heat(&mut kept.book, 31.0, cool);
    let view = kept.book.pile(built.pile).unwrap().unwrap();
    assert_eq!(maturity::cured(&view, end.date), Some(40));
    assert!(maturity::cure_told(&view, end.date, &words()).unwrap().contains("40 days"));
    let band = pile::carbon_nitrogen_on(&view, end.date).unwrap();
    assert!(band.low < band.typical && band.typical < band.high);
    assert!(band.typical < built.mix.carbon_nitrogen().unwrap());
    let new = NewBatch {
        pile: built.pile,
        label: "compost",
        material: None,
        wet: None,
        volume: None,
        moisture: None,
        carbon_nitrogen: Some(19.0),
    };
    let batch = finish(&mut kept.book, &new, end).unwrap().batch;
    let ready = |kept: &Kept| maturity::of_batch(&kept.book.batch(batch).unwrap().unwrap(), last.date);
    assert_eq!(ready(&kept), None, "a ratio alone says nothing of decay");
    let test = |kept: &mut Kept, ready| {
        let new = NewBatchTest { ready, ..NewBatchTest::of(batch) };
        test_batch::test(&mut kept.book, &new, last)
    };
    let one = ReadyTests { ammonium_nitrate: Some(0.4), ..ReadyTests::NONE };
    test(&mut kept, one).unwrap();
    let reckoned = ready(&kept).unwrap();
    assert_eq!(
        (reckoned.maturity, reckoned.tests.len()),
        (Maturity::TooFew, 1),
        "a ratio that nobody tested is no test"
    );
    let ratio = NewBatchTest { carbon_nitrogen: Some(19.0), ..NewBatchTest::of(batch) };
    test_batch::test(&mut kept.book, &ratio, last).unwrap();
    assert_eq!(ready(&kept).unwrap().maturity, Maturity::TooFew);
    test(&mut kept, ReadyTests { emergence_pct: Some(95.0), ..ReadyTests::NONE }).unwrap();
    assert_eq!(ready(&kept).unwrap().maturity, Maturity::VeryMature);
    test(&mut kept, ReadyTests { self_heating_c: Some(25.0), ..ReadyTests::NONE }).unwrap();
    let worst = ready(&kept).unwrap();
    assert_eq!((worst.maturity, worst.tests.len()), (Maturity::Immature, 4));
    assert!(
        worst.told(&words()).iter().any(|line| line.contains("19") && line.contains("2001")),
        "{worst:?}"
    );
    // What a flowerpot shows of weedkillers is said at once.
    let hurt = test(&mut kept, ReadyTests { seedlings_hurt: Some(true), ..ReadyTests::NONE }).unwrap();
    assert_eq!(hurt.cautions.first().unwrap().id, "persistent-weedkillers");
    assert!(ready(&kept).unwrap().told(&words()).first().unwrap().contains("Do not put it where"));
    let before = kept.count();
    let impossible = ReadyTests { self_heating_c: Some(400.0), ..ReadyTests::NONE };
    assert!(matches!(test(&mut kept, impossible), Err(ActError::Figure { key: "self_heating_c", .. })));
    assert_eq!(kept.count(), before);
}

#[test]
fn more_dry_mass_than_went_in_cannot_come_out() {
    let (mut kept, _, built) = with_pile(None);
    let new = NewBatch {
        pile: built.pile,
        label: "compost",
        material: None,
        wet: Some(built.mix.dry() * 2.0),
        volume: None,
        moisture: Some(Share::from_percent(40.0)),
        carbon_nitrogen: Some(18.0),
    };
    let before = kept.count();
    let later = kept.now.on(kept.now.date + Days::new(100));
    assert!(matches!(finish(&mut kept.book, &new, later), Err(ActError::MoreThanWentIn { .. })));
    assert_eq!(kept.count(), before);
    // Half as much is possible, and stands as measured.
    let new = NewBatch { wet: Some(built.mix.dry()), ..new };
    assert!(finish(&mut kept.book, &new, later).unwrap().measured);
}

#[test]
fn a_log_in_the_book_is_judged_by_the_rule_of_the_pile() {
    let (mut kept, _, built) = with_pile(Some("us-organic-windrow"));
    for day in 0..15_u64 {
        let on = kept.now.on(kept.now.date + Days::new(day));
        for (zone, heat) in [("core", 62.0), ("edge", 57.0)] {
            let new = NewHeat {
                pile: built.pile,
                zone: Some(zone),
                depth: Some(Length::from_cm(45.0)),
                temperature: Temperature::from_c(heat),
                smoke: false,
                minute: None,
            };
            read_heat(&mut kept.book, &new, on).unwrap();
        }
        if day % 3 == 2 {
            turn_pile::turn(&mut kept.book, built.pile, Some(Mass::from_kg(20.0)), on).unwrap();
        }
    }
    let wet = kept.now.on(date(2026, 4, 20));
    read_moisture::read(&mut kept.book, built.pile, None, Share::from_percent(55.0), wet).unwrap();
    let view = kept.book.pile(built.pile).unwrap().unwrap();
    assert_eq!((view.heat.len(), view.turnings.len(), view.moistures.len()), (30, 5, 1));
    let heat = pile::judged(&view).unwrap();
    assert_eq!(heat.judged.verdict, Verdict::Met);
    assert_eq!(heat.judged.worst().unwrap().days_counted, 15);
    assert_eq!(heat.fire_highest.unwrap().1, FireLevel::Green);
    // A reading that was wrong comes out, and with it its day.
    let one = view.heat.first().unwrap().entry;
    let now = kept.now;
    mistake::taken_out(&mut kept.book, one, None, now).unwrap();
    let view = kept.book.pile(built.pile).unwrap().unwrap();
    assert_eq!(pile::judged(&view).unwrap().judged.worst().unwrap().days_counted, 14);
}

#[test]
fn what_cannot_be_is_refused_and_nothing_is_written() {
    let (mut kept, [wood, _], built) = with_pile(None);
    let before = kept.count();
    let (containers, now) = (kept.containers, kept.now);
    let hot = NewHeat {
        pile: built.pile,
        zone: None,
        depth: None,
        temperature: Temperature::from_c(140.0),
        smoke: false,
        minute: None,
    };
    assert!(matches!(read_heat(&mut kept.book, &hot, now), Err(ActError::Figure { .. })));
    let early = now.on(date(2026, 4, 14));
    let warm = NewHeat { temperature: Temperature::from_c(50.0), ..hot };
    assert!(matches!(read_heat(&mut kept.book, &warm, early), Err(ActError::Before { what: "pile", .. })));
    let lost = NewHeat { pile: wood, ..warm };
    assert!(matches!(read_heat(&mut kept.book, &lost, now), Err(ActError::NotThere { what: "pile" })));
    let none = NewPile {
        label: "nothing",
        place: None,
        parts: &[],
        water: None,
        volume: None,
        moisture: None,
        rule: Some("no such rule"),
    };
    assert!(matches!(build(&mut kept.book, &none, &containers, now), Err(ActError::NoPile)));
    let parts = [NewPart { batch: wood, amount: Taken::Barrows(2.0) }];
    let ruled = NewPile { parts: &parts, ..none };
    assert!(matches!(build(&mut kept.book, &ruled, &containers, now), Err(ActError::UnknownHeatRule { .. })));
    assert_eq!(kept.count(), before);
    // Smoke calls for help whatever the probe says.
    let smoke = NewHeat { smoke: true, ..warm };
    let (_, level, cautions) = read_heat(&mut kept.book, &smoke, now).unwrap();
    assert_eq!((level, cautions.iter().any(|caution| caution.id == "fire-stop")), (FireLevel::Stop, true));
}

#[test]
fn ash_of_both_ends_says_how_much_went_off() {
    let (mut kept, parts, _) = with_pile(None);
    let ash = |kept: &mut Kept, batch: EntryId, percent: f64| {
        let new = NewBatchTest { ash: Some(Share::from_percent(percent)), ..NewBatchTest::of(batch) };
        let now = kept.now;
        test_batch::test(&mut kept.book, &new, now).unwrap();
    };
    for batch in parts {
        ash(&mut kept, batch, 10.0);
    }
    let containers = kept.containers;
    let inside = parts.map(|batch| NewPart { batch, amount: Taken::Wet(Mass::from_kg(100.0)) });
    let new = NewPile {
        label: "second pile",
        place: None,
        parts: &inside,
        water: None,
        volume: None,
        moisture: None,
        rule: None,
    };
    let now = kept.now;
    let built = build(&mut kept.book, &new, &containers, now).unwrap();
    let new = NewBatch {
        pile: built.pile,
        label: "compost",
        material: None,
        wet: None,
        volume: None,
        moisture: None,
        carbon_nitrogen: None,
    };
    let end = kept.now.on(kept.now.date + Days::new(120));
    let done = finish(&mut kept.book, &new, end).unwrap();
    kept.now = end;
    let says = |kept: &Kept, text: &str| {
        let view = kept.book.pile(built.pile).unwrap().unwrap();
        let told = pile::state_told(&kept.book, &view, end.date, &words()).unwrap();
        told.iter().any(|said| said.contains(text))
    };
    assert!(!says(&kept, "ash"), "one end alone says nothing");
    // 10 % before and 20 % after: the same ash in half of the mass.
    ash(&mut kept, done.batch, 20.0);
    assert!(says(&kept, "50 % of the dry mass went off"));
    ash(&mut kept, done.batch, 8.0);
    assert!(says(&kept, "one of the two tests is off"));
}

/// What the rules ask for of the pile on a day: what to do, why, by when.
fn asked(kept: &Kept, pile: EntryId, on: chrono::NaiveDate) -> Vec<(String, chrono::NaiveDate)> {
    let items = today(&kept.book, &[], on, 14).unwrap();
    let items: Vec<_> = items.into_iter().filter(|item| item.pile == Some(pile)).collect();
    let told = tell(&kept.book, &items, on, &words()).unwrap();
    assert!(told.iter().all(|item| item.at == "pile by the gate"));
    told.into_iter().map(|item| (format!("{}: {}", item.todo, item.why), item.due.unwrap())).collect()
}

fn heat(kept: &mut Kept, pile: EntryId, zone: &str, degrees: f64, day: u64) {
    let at = kept.now.on(kept.now.date + Days::new(day));
    let new = NewHeat {
        pile,
        zone: Some(zone),
        depth: None,
        temperature: Temperature::from_c(degrees),
        smoke: false,
        minute: None,
    };
    read_heat(&mut kept.book, &new, at).unwrap();
}

#[test]
fn a_pile_asks_to_be_read_turned_and_watered_and_then_for_nothing() {
    let (mut kept, _, built) = with_pile(Some("us-organic-windrow"));
    let (pile, start) = (built.pile, kept.now.date);
    let on = |days| start + Days::new(days);
    let first = asked(&kept, pile, on(0));
    assert_eq!(first.len(), 1);
    assert!(first[0].0.starts_with("Read the heat: nobody has read its heat since"), "{first:?}");
    assert_eq!(first[0].1, on(1));
    for day in 1..=4 {
        heat(&mut kept, pile, "core", 58.0, day);
    }
    let hot = asked(&kept, pile, on(4));
    let says = |asked: &[(String, chrono::NaiveDate)], text: &str| {
        asked.iter().find(|(told, _)| told.contains(text)).map(|(_, due)| *due)
    };
    assert_eq!(says(&hot, "Read the heat: us-organic-windrow is not met yet"), Some(on(5)));
    assert_eq!(says(&hot, "Turn the pile: us-organic-windrow wants 5 more turnings"), Some(on(4)));
    let turned = kept.now.on(on(4));
    turn_pile::turn(&mut kept.book, pile, None, turned).unwrap();
    assert_eq!(says(&asked(&kept, pile, on(4)), "Turn the pile"), None);
    heat(&mut kept, pile, "core", 66.0, 5);
    let hotter = asked(&kept, pile, on(5));
    assert_eq!(says(&hotter, "Turn the pile: it is too hot for its own organisms"), Some(on(5)));
    assert_eq!(says(&hotter, "a pile this hot is read every day"), Some(on(6)));
    heat(&mut kept, pile, "core", 86.0, 6);
    let burns = asked(&kept, pile, on(6));
    assert_eq!(says(&burns, "Keep away and call the fire service"), Some(on(6)));
    assert_eq!(says(&burns, "Turn the pile"), None, "what may smoulder is not opened");
    heat(&mut kept, pile, "core", 50.0, 7);
    read_moisture::read(&mut kept.book, pile, None, Share::from_percent(30.0), kept.now.on(on(7))).unwrap();
    assert!(says(&asked(&kept, pile, on(7)), "30 % moisture was read").is_some());
    let water = Some(Mass::from_kg(100.0));
    turn_pile::turn(&mut kept.book, pile, water, kept.now.on(on(7))).unwrap();
    assert!(says(&asked(&kept, pile, on(7)), "30 % moisture was read").is_none());
    let new = NewBatch {
        pile,
        label: "compost",
        material: None,
        wet: None,
        volume: None,
        moisture: None,
        carbon_nitrogen: None,
    };
    finish(&mut kept.book, &new, kept.now.on(on(8))).unwrap();
    assert!(asked(&kept, pile, on(8)).is_empty());
}

#[test]
fn a_pile_without_a_rule_is_read_weekly_while_it_works() {
    let (mut kept, _, built) = with_pile(None);
    let start = kept.now.date;
    heat(&mut kept, built.pile, "core", 50.0, 2);
    let asked_then = asked(&kept, built.pile, start + Days::new(3));
    assert_eq!(asked_then.len(), 1, "{asked_then:?}");
    assert_eq!(asked_then[0].1, start + Days::new(9));
    heat(&mut kept, built.pile, "core", 20.0, 60);
    turn_pile::turn(&mut kept.book, built.pile, None, kept.now.on(start + Days::new(60))).unwrap();
    assert!(asked(&kept, built.pile, start + Days::new(61)).is_empty(), "it has cooled: nothing is asked");
}

#[test]
fn what_a_pile_would_come_to_is_what_it_comes_to() {
    let (mut kept, [wood, manure], built) = with_pile(None);
    let parts = [
        NewPart { batch: wood, amount: Taken::Wet(Mass::from_kg(300.0)) },
        NewPart { batch: manure, amount: Taken::Wet(Mass::from_kg(900.0)) },
    ];
    let water = Some(Mass::from_kg(100.0));
    let (containers, on) = (kept.containers, kept.now.date);
    let mixed = consider(&kept.book, &parts, water, &containers, on).unwrap();
    assert_eq!(mixed.mix, built.mix);
    assert_eq!(mixed.cautions, built.cautions);
    let entries = kept.book.entries(None, 1000).unwrap().len();
    consider(&kept.book, &parts, None, &containers, on).unwrap();
    assert_eq!(kept.book.entries(None, 1000).unwrap().len(), entries, "nothing is written");
    assert!(matches!(consider(&kept.book, &[], None, &containers, on), Err(ActError::NoPile)));
    kept.now = kept.now.on(on);
}
