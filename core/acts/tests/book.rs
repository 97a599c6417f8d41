//! Acts write into a book, and the book gives the scenario back.

#![allow(clippy::unwrap_used, reason = "a test stops at the first surprise")]

mod site;

use kerfbook_acts::error::ActError;
use kerfbook_acts::moment::Moment;
use kerfbook_acts::place_scenario::{Surroundings, scenario_of};
use kerfbook_acts::put_down::{NewPutDown, put_down};
use kerfbook_acts::scenario::{Amount, Way};
use kerfbook_acts::take_in_load::{Intake, NewLoad, take_in};
use kerfbook_acts::{compare, forecast, freeze_forecast, grow_crop, outline_place};
use kerfbook_ledger::kind::{Answer, LoadRefused, RefusalReason};
use kerfbook_ledger::store::append::Change;
use kerfbook_ledger::{Body, Book, Date, DeviceKey, EntryId, Founding, Label, Replacement, Text, When};
use kerfbook_science::units::Volume;

struct Kept {
    _folder: tempfile::TempDir,
    book: Book,
    now: Moment,
}

fn book() -> Kept {
    let folder = tempfile::tempdir().unwrap();
    let founding = Founding {
        name: Label::new("A holding").unwrap(),
        device_label: Label::new("Desk").unwrap(),
        nonce: [7; 16],
        sells: false,
        certified: false,
        latitude_centidegree: None,
        when: When::on(Date::of(site::first_day()).unwrap()),
        wall_ms: 1_776_000_000_000,
    };
    let book =
        Book::create(&folder.path().join("a.kerfbook"), &DeviceKey::from_bytes(&[3; 32]), &founding).unwrap();
    Kept {
        _folder: folder,
        book,
        now: Moment { date: site::first_day(), wall_ms: 1_776_000_000_000, by: None },
    }
}

fn load(material: &str) -> NewLoad<'_> {
    NewLoad {
        volume: Some(Volume::from_litres(1000.0)),
        treated: Answer::No,
        salty: Answer::No,
        medicines: Answer::No,
        weedkillers: Answer::No,
        ..NewLoad::of("A load", material)
    }
}

fn taken(kept: &mut Kept, material: &str) -> EntryId {
    match take_in(&mut kept.book, &load(material), kept.now).unwrap() {
        Intake::Taken { batch, .. } => batch,
        Intake::Refused { .. } => panic!("{material} was refused"),
    }
}

#[test]
fn treated_and_painted_wood_and_board_are_refused_with_the_reason_and_the_caution() {
    let mut kept = book();
    for (material, reason) in [
        ("treated wood chips", RefusalReason::Treated),
        ("painted boards", RefusalReason::Painted),
        ("MDF dust", RefusalReason::Board),
        ("plywood", RefusalReason::Board),
    ] {
        let Intake::Refused { entry, cautions, .. } =
            take_in(&mut kept.book, &load(material), kept.now).unwrap()
        else {
            panic!("{material} was taken in");
        };
        assert!(!cautions.is_empty(), "{material}");
        let current = kept.book.current(entry).unwrap().unwrap();
        assert!(
            matches!(&current.body, Body::LoadRefused(LoadRefused { reason: found, .. }) if *found == reason)
        );
    }
    let mut owned_up = load("hardwood sawdust");
    owned_up.treated = Answer::Yes;
    assert!(matches!(take_in(&mut kept.book, &owned_up, kept.now).unwrap(), Intake::Refused { .. }));
    assert!(kept.book.batches().unwrap().is_empty());
}

#[test]
fn an_unknown_material_writes_nothing() {
    let mut kept = book();
    let before = kept.book.entries(None, 100).unwrap().len();
    let refused = take_in(&mut kept.book, &load("hardwod sawdst"), kept.now);
    assert!(matches!(refused, Err(ActError::UnknownMaterial { .. })));
    assert_eq!(kept.book.entries(None, 100).unwrap().len(), before);
}

#[test]
fn what_was_put_down_comes_back_as_the_scenario_and_a_correction_moves_it() {
    let mut kept = book();
    let asked = site::golden_site(10.0);
    let place = |kept: &mut Kept, label| {
        outline_place::outline(&mut kept.book, label, &asked.place, None, kept.now).unwrap()
    };
    let (right, wrong) = (place(&mut kept, "Bed 1"), place(&mut kept, "Bed 2"));
    let batch = taken(&mut kept, "hardwood sawdust");
    grow_crop::start(&mut kept.book, right, &asked.crops[0], kept.now).unwrap();
    let new = NewPutDown { place: wrong, batch, way: Way::OnTop, amount: Amount::Barrows(4.0), over: None };
    let entry = put_down(&mut kept.book, &new, &asked.containers, kept.now).unwrap();
    let around = Surroundings {
        holding: asked.holding.clone(),
        weather: asked.weather.clone(),
        soil: asked.soil.clone(),
        containers: asked.containers,
    };
    assert!(scenario_of(&kept.book, right, &around).unwrap().put_down.is_empty());
    let reason = Text::new([1; 16], "the wrong bed");
    let change = Change { when: When::on(Date::of(kept.now.date).unwrap()), by: None, reason: Some(&reason) };
    kept.book.correct(entry, &[Replacement::subject(right)], change, kept.now.wall_ms).unwrap();
    let scenario = scenario_of(&kept.book, right, &around).unwrap();
    assert_eq!(scenario.put_down.len(), 1);
    assert_eq!(scenario.crops.len(), 1);
    assert!(scenario_of(&kept.book, wrong, &around).unwrap().put_down.is_empty());
    // 4 barrows of 80 L out of 1000 L.
    let batch = kept.book.batch(batch).unwrap().unwrap();
    assert_eq!(batch.left_ml, Some(680_000));

    let comparison = compare::compare(&asked, compare::Reach::Season, 50, 1).unwrap();
    let foretold = forecast::forecast(&scenario, 50, 1).unwrap();
    let frozen =
        freeze_forecast::freeze(&mut kept.book, right, &scenario, &comparison, &foretold, [2; 16], kept.now)
            .unwrap();
    let current = kept.book.current(frozen).unwrap().unwrap();
    let Body::ForecastFrozen(body) = &current.body else { panic!("not a forecast") };
    assert_eq!(body.weeks.tied_p50.0.len(), 53);
    let week8 = foretold.days[56].tied.p50.unwrap();
    assert!((f64::from(body.weeks.tied_p50.0[8]) - week8 * 100.0).abs() <= 0.5);
    assert!(kept.book.verify().unwrap().sound());
}
