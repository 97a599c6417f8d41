//! A load at the gate: what is asked, what is refused, what is kept of the answers.

#![allow(clippy::unwrap_used, reason = "a test stops at the first surprise")]

mod holding;

use holding::{Kept, date};
use kerfbook_acts::error::ActError;
use kerfbook_acts::intake::{self, Age, Question, Verdict};
use kerfbook_acts::storage::{self, Follows, Handful, Smell, Sourness};
use kerfbook_acts::take_in_load::{Cost, Intake, NewLoad, NewRefusal, refuse, take_in};
use kerfbook_ledger::kind::{Answer, RefusalReason, Storage};
use kerfbook_ledger::{Body, Text};
use kerfbook_science::caution::Caution;
use kerfbook_science::material::{self, Found, Refusal};
use kerfbook_science::units::{Length, Mass, Share, Volume};
use rstest::rstest;

fn ids(cautions: &[&'static Caution]) -> Vec<&'static str> {
    cautions.iter().map(|caution| caution.id).collect()
}

fn verdict(load: &NewLoad<'_>) -> Verdict {
    intake::judge(load, date(2026, 4, 15)).unwrap()
}

fn refused(load: &NewLoad<'_>) -> RefusalReason {
    match verdict(load) {
        Verdict::Refuse { reason, cautions } => {
            assert!(!cautions.is_empty(), "{load:?}");
            reason
        }
        Verdict::Take { .. } => panic!("taken in: {load:?}"),
    }
}

#[rstest]
#[case("railway sleepers", None, Answer::Unknown, None, RefusalReason::Treated)]
#[case("painted boards", None, Answer::No, None, RefusalReason::Painted)]
#[case("MDF dust", None, Answer::Unknown, None, RefusalReason::Board)]
#[case("demolition wood", None, Answer::No, None, RefusalReason::Demolition)]
#[case("hardwood chips", None, Answer::Yes, None, RefusalReason::Treated)]
#[case("hardwood chips", None, Answer::Yes, Some(Refusal::Painted), RefusalReason::Painted)]
#[case("pine sawdust", None, Answer::Yes, Some(Refusal::Board), RefusalReason::Board)]
#[case("wood, unknown", Some("demolition site"), Answer::Unknown, None, RefusalReason::Demolition)]
fn wood_that_goes_on_no_growing_place_is_refused(
    #[case] material: &str,
    #[case] source: Option<&str>,
    #[case] treated: Answer,
    #[case] treatment: Option<Refusal>,
    #[case] reason: RefusalReason,
) {
    let load = NewLoad { source, treated, treatment, ..NewLoad::of("A load", material) };
    assert_eq!(refused(&load), reason);
}

#[test]
fn weedkillers_that_last_send_bedding_away_and_medicines_only_warn() {
    let bedding = NewLoad::of("Bedding", "stable bedding, straw");
    assert_eq!(refused(&NewLoad { weedkillers: Answer::Yes, ..bedding.clone() }), RefusalReason::Medicated);
    let Verdict::Take { cautions, .. } = verdict(&NewLoad { medicines: Answer::Yes, ..bedding }) else {
        panic!("medicines alone refuse nothing")
    };
    assert!(ids(&cautions).contains(&"bedding-medicines"));
}

#[test]
fn what_is_not_known_stays_open_and_says_so() {
    let load = NewLoad::of("A load", "hardwood sawdust");
    let Verdict::Take { cautions, unanswered, .. } = verdict(&load) else { panic!("refused") };
    assert!(ids(&cautions).contains(&"treatment-unknown"));
    assert_eq!(
        unanswered,
        [
            Question::Treated,
            Question::Source,
            Question::Diseased,
            Question::Salty,
            Question::Cut,
            Question::Smell,
            Question::Storage,
            Question::Moisture,
            Question::Amount,
        ]
    );
    let answered = NewLoad {
        treated: Answer::No,
        source: Some("sawmill"),
        diseased: Answer::No,
        salty: Answer::No,
        age: Some(Age::Months),
        smell: Some(Smell::Wood),
        stored: Some(Storage::Covered),
        handful: Some(Handful::Damp),
        volume: Some(Volume::from_litres(500.0)),
        ..load
    };
    let Verdict::Take { cautions, unanswered, .. } = verdict(&answered) else { panic!("refused") };
    assert_eq!(unanswered, []);
    assert!(!ids(&cautions).contains(&"treatment-unknown"));
    assert!(ids(&cautions).contains(&"heap-fire"), "a stored heap brings its cautions");
}

#[test]
fn salt_disease_green_wood_and_a_sour_smell_are_told() {
    let load = NewLoad {
        treated: Answer::No,
        diseased: Answer::Yes,
        salty: Answer::Yes,
        cut: Some(date(2026, 4, 1)),
        smell: Some(Smell::Sour),
        ..NewLoad::of("Chips", "hardwood chips")
    };
    let Verdict::Take { cautions, .. } = verdict(&load) else { panic!("refused") };
    let said = ids(&cautions);
    for id in ["diseased-wood", "floated-logs-salt", "fresh-green-wood", "sour-mulch"] {
        assert!(said.contains(&id), "{id} not among {said:?}");
    }
    let old = NewLoad { cut: Some(date(2024, 4, 1)), ..load };
    let Verdict::Take { cautions, .. } = verdict(&old) else { panic!("refused") };
    assert!(!ids(&cautions).contains(&"fresh-green-wood"));
}

#[test]
fn questions_fit_the_material() {
    let of = |name| {
        let Found::Material(material) = material::find(name) else { panic!("{name}") };
        intake::questions(material)
    };
    assert!(of("hardwood sawdust").contains(&Question::Treated));
    assert!(!of("finished compost").contains(&Question::Treated));
    assert!(of("stable bedding, shavings").contains(&Question::Treated), "shavings may be of treated wood");
    assert!(of("stable bedding, straw").contains(&Question::Medicines));
    assert!(!of("bark, hardwood").contains(&Question::Medicines));
}

#[test]
fn a_person_may_send_any_load_away_and_the_reason_is_kept() {
    let mut kept = Kept::new();
    for reason in RefusalReason::ALL.iter().copied() {
        let note = Text::new([5; 16], "smelled of the sea");
        let refusal = NewRefusal {
            material: "hardwood chips",
            reason,
            wet: None,
            volume: Some(Volume::from_m3(3.0)),
            from: None,
            note: Some(note.clone()),
        };
        let now = kept.now;
        let (entry, cautions) = refuse(&mut kept.book, &refusal, now).unwrap();
        assert_eq!(cautions.is_empty(), reason == RefusalReason::Other, "{reason:?}");
        let Body::LoadRefused(body) = kept.book.current(entry).unwrap().unwrap().body else {
            panic!("another entry")
        };
        assert_eq!((body.reason, body.volume_ml), (reason, Some(3_000_000)));
        assert_eq!(kept.book.text(note.hash()).unwrap().as_deref(), Some("smelled of the sea"));
    }
    assert!(kept.book.batches().unwrap().is_empty());
}

#[test]
fn figures_that_no_load_has_write_nothing() {
    let mut kept = Kept::new();
    let load = NewLoad::of("A load", "hardwood sawdust");
    let wrong = [
        NewLoad { moisture: Some(Share::from_percent(101.0)), ..load.clone() },
        NewLoad { wet: Some(Mass::from_kg(0.0)), ..load.clone() },
        NewLoad { wet: Some(Mass::from_kg(f64::NAN)), ..load.clone() },
        NewLoad { volume: Some(Volume::from_m3(-1.0)), ..load.clone() },
        NewLoad { carbon_nitrogen: Some(0.0), ..load.clone() },
        NewLoad { haul: Some(Length::from_m(f64::INFINITY)), ..load },
    ];
    let before = kept.count();
    for load in wrong {
        let now = kept.now;
        assert!(matches!(take_in(&mut kept.book, &load, now), Err(ActError::Figure { .. })), "{load:?}");
    }
    assert_eq!(kept.count(), before);
}

#[test]
fn a_handful_stands_in_for_a_moisture_test_and_rain_widens_it() {
    let felt = |handful, open| storage::moisture(None, None, Some(handful), open).unwrap();
    assert!(felt(Handful::Dusty, false).middle < felt(Handful::Damp, false).middle);
    assert!(felt(Handful::Damp, false).middle < felt(Handful::Drips, false).middle);
    assert!(felt(Handful::Damp, true).half > felt(Handful::Damp, false).half);
    let stated =
        storage::moisture(Some(Share::from_percent(33.0)), None, Some(Handful::Drips), true).unwrap();
    assert!((stated.middle.percent() - 33.0).abs() < 1e-9, "a figure beats a handful");
    assert_eq!(storage::moisture(None, None, None, true), None);
    // 100 kg at 20 % holds 80 kg of dry matter, which is half of 160 kg.
    let water =
        storage::water_to_reach(Mass::from_kg(100.0), Share::from_percent(20.0), Share::from_percent(50.0))
            .unwrap();
    assert!((water.kg() - 60.0).abs() < 1e-9);
    assert_eq!(
        storage::water_to_reach(Mass::from_kg(100.0), Share::from_percent(60.0), Share::from_percent(50.0)),
        None
    );
}

#[rstest]
#[case(Some(Smell::Sour), None, Some(Sourness::Sour))]
#[case(Some(Smell::Wood), Some(2.2), Some(Sourness::Sour))]
#[case(None, Some(3.6), Some(Sourness::Sour))]
#[case(Some(Smell::Wood), Some(4.0), Some(Sourness::Doubtful))]
#[case(Some(Smell::Earth), Some(6.8), Some(Sourness::Sweet))]
#[case(Some(Smell::Sour), Some(6.8), Some(Sourness::Sour))]
#[case(None, None, None)]
fn smell_and_ph_tell_a_sour_heap(
    #[case] smell: Option<Smell>,
    #[case] ph: Option<f64>,
    #[case] found: Option<Sourness>,
) {
    assert_eq!(storage::sourness(smell, ph), found);
}

#[test]
fn a_sour_heap_is_aired_a_day_to_three() {
    let on = date(2026, 5, 1);
    assert_eq!(
        storage::follows(Sourness::Sour, on),
        Follows::Air { from: date(2026, 5, 2), until: date(2026, 5, 4) }
    );
    assert_eq!(storage::follows(Sourness::Doubtful, on), Follows::TryFirst);
    assert_eq!(storage::follows(Sourness::Sweet, on), Follows::Spread);
}

#[test]
fn what_was_answered_is_kept_with_the_batch() {
    let mut kept = Kept::new();
    let from = Text::new([9; 16], "a sawmill (invented)");
    let load = NewLoad {
        volume: Some(Volume::from_m3(2.0)),
        handful: Some(Handful::Damp),
        from: Some(from.clone()),
        source: Some("sawmill"),
        treated: Answer::No,
        cut: Some(date(2026, 2, 1)),
        stored: Some(Storage::Open),
        cost: Some(Cost { hundredths: 4_500, currency: "EUR" }),
        haul: Some(Length::from_m(12_000.0)),
        minutes: Some(90),
        ..NewLoad::of("Sawdust", "hardwood sawdust")
    };
    let now = kept.now;
    let Intake::Taken { batch, .. } = take_in(&mut kept.book, &load, now).unwrap() else { panic!("refused") };
    let Body::LoadTakenIn(body) = kept.book.current(batch).unwrap().unwrap().body else {
        panic!("another entry")
    };
    assert_eq!(body.moisture_bp, Some(4200));
    assert_eq!(body.moisture_half_bp, Some(2247), "a handful from a heap in the open");
    assert_eq!((body.haul_m, body.minutes, body.stored), (Some(12_000), Some(90), Some(Storage::Open)));
    assert_eq!(body.cost_hundredths, Some(4_500));
    assert_eq!(body.currency.unwrap().as_str(), "EUR");
    assert_eq!(body.source.unwrap().as_str(), "sawmill");
    assert_eq!(body.cut.unwrap().naive(), date(2026, 2, 1));
    assert_eq!(kept.book.text(from.hash()).unwrap().as_deref(), Some("a sawmill (invented)"));
}
