//! Frozen forecasts of a book against readings that came later.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops where it fails")]

mod holding;

use chrono::Days;
use holding::{Kept, date};
use kerfbook_acts::judge::{What, judge};
use kerfbook_acts::told;
use kerfbook_ledger::kind::{
    CropEnded, CropStarted, Fate, ForecastFrozen, LeafRead, NitrogenForm, PlaceKind, SoilTested, Weeks,
};
use kerfbook_ledger::{Date, EntryId, Label, Series, Text};
use kerfbook_words::{Language, Units, Words};

/// Mineral nitrogen from 20 to 60 kg/ha falling to half of that over 20 weeks; hungry between day 50 and 80.
fn forecast(hungry: (Option<u32>, Option<u32>, Option<u32>)) -> ForecastFrozen {
    let weekly = |start: i32| Series((0..=20).map(|week| start - start * week / 40).collect());
    ForecastFrozen {
        engine: 1,
        parameters: 1,
        seed: 1,
        runs: 200,
        inputs: Text::new([0; 16], "{}").hash(),
        first: Date::of(date(2026, 4, 15)).unwrap(),
        weeks: Weeks {
            tied_p10: weekly(0),
            tied_p50: weekly(500),
            tied_p90: weekly(1000),
            mineral_p10: weekly(2000),
            mineral_p50: weekly(4000),
            mineral_p90: weekly(6000),
        },
        hungry_p10: hungry.0,
        hungry_p50: hungry.1,
        hungry_p90: hungry.2,
        way: None,
        wet_g: None,
        containers: None,
        container: None,
        give_mg: 0,
        give_source: None,
        look: None,
        avoid: None,
        cost_p10: 0,
        cost_p50: 0,
        cost_p90: 0,
        least_known: None,
    }
}

/// Soil of the whole root zone, mg/m2 of mineral nitrogen.
fn soil(mg_m2: u32) -> SoilTested {
    SoilTested { nitrogen_form: Some(NitrogenForm::MineralN), mg_m2: Some(mg_m2), ..SoilTested::default() }
}

fn leaf(nutrition_bp: u32) -> LeafRead {
    LeafRead {
        crop: None,
        nutrition_bp: Some(nutrition_bp),
        against: None,
        dgci_x10000: None,
        hue_centideg: None,
        yellow_bp: None,
        brown_bp: None,
        photo: None,
    }
}

/// A bed with a frozen forecast, and the means to read it days after the first.
struct Bed {
    kept: Kept,
    place: EntryId,
}

impl Bed {
    fn new(hungry: (Option<u32>, Option<u32>, Option<u32>)) -> Self {
        let mut kept = Kept::new();
        let place = kept.place("Bed", PlaceKind::Bed, 12.0);
        kept.write(place, forecast(hungry));
        Self { kept, place }
    }

    fn on(&mut self, day: u64) -> &mut Self {
        self.kept.now.date = date(2026, 4, 15) + Days::new(day);
        self
    }
}

const BETWEEN: (Option<u32>, Option<u32>, Option<u32>) = (Some(50), Some(60), Some(80));

#[test]
fn soil_tests_are_counted_inside_or_outside_and_fewer_than_eight_in_ten_are_expected() {
    let mut bed = Bed::new(BETWEEN);
    let place = bed.place;
    // Read on the day it was frozen: it may have been known.
    bed.kept.write(place, soil(4000));
    assert!(judge(&bed.kept.book).unwrap().lines.is_empty());
    // After ten weeks the range is 15 to 45 kg/ha.
    for mg_m2 in [1600, 3000, 4400, 4600, 1400] {
        bed.on(69).kept.write(place, soil(mg_m2));
    }
    let judging = judge(&bed.kept.book).unwrap();
    let What::Mineral { p10, p90, .. } = judging.lines[0].what else { panic!("{:?}", judging.lines[0]) };
    assert!((p10 - 15.0).abs() < 1e-9 && (p90 - 45.0).abs() < 1e-9, "{p10} {p90}");
    let tally = judging.mineral();
    assert_eq!((tally.hits, tally.of), (3, 5));
    assert!((3.5..4.0).contains(&tally.expected), "{}", tally.expected);
    let told = told::judged(&judging, &Words::new(Language::English, Units::Metric));
    assert_eq!(told.len(), 1);
    assert!(told[0].starts_with("Soil tests: 3 of 5 lay inside"), "{told:?}");
    // Beyond the last week nothing was foretold.
    bed.on(200).kept.write(place, soil(3000));
    assert_eq!(judge(&bed.kept.book).unwrap().mineral().of, 5);
}

#[test]
fn a_reading_is_held_against_the_forecast_frozen_last_before_it() {
    let mut bed = Bed::new(BETWEEN);
    let place = bed.place;
    let again = bed.on(30).kept.write(place, forecast(BETWEEN));
    bed.on(40).kept.write(place, soil(3000));
    let judging = judge(&bed.kept.book).unwrap();
    assert_eq!(judging.lines.len(), 1);
    assert_eq!(judging.lines[0].forecast, again);
}

#[test]
fn hunger_is_judged_once_leaves_tell() {
    let mut bed = Bed::new(BETWEEN);
    let place = bed.place;
    bed.on(39).kept.write(place, leaf(9_800));
    assert!(judge(&bed.kept.book).unwrap().lines.is_empty(), "enough before the range tells nothing");
    bed.on(64).kept.write(place, leaf(8_500));
    let judging = judge(&bed.kept.book).unwrap();
    assert_eq!((judging.hungry().hits, judging.hungry().of), (1, 1));

    let mut early = Bed::new(BETWEEN);
    let place = early.place;
    early.on(30).kept.write(place, leaf(8_500));
    assert_eq!(judge(&early.kept.book).unwrap().hungry().hits, 0);

    let mut late = Bed::new(BETWEEN);
    let place = late.place;
    late.on(90).kept.write(place, leaf(9_700));
    let tally = judge(&late.kept.book).unwrap().hungry();
    assert_eq!((tally.hits, tally.of), (0, 1));
}

#[test]
fn hunger_that_never_comes_is_known_when_the_crop_has_ended() {
    let mut bed = Bed::new((Some(70), None, None));
    let place = bed.place;
    let started = CropStarted {
        crop: Label::new("cabbage").unwrap(),
        need_mg_m2: Some(12_000),
        tree_mg: None,
        appetite: None,
        ends: None,
        midpoint_day: None,
        fixed_bp: 0,
        plants: None,
    };
    let crop = bed.on(0).kept.write(place, started);
    bed.on(120).kept.write(place, leaf(9_500));
    assert_eq!(judge(&bed.kept.book).unwrap().hungry().of, 0);
    bed.on(140).kept.write(place, CropEnded { crop, fate: Fate::CarriedOff, yield_g: None });
    let tally = judge(&bed.kept.book).unwrap().hungry();
    assert_eq!((tally.hits, tally.of), (1, 1));
    assert!((tally.expected - 0.9).abs() < 1e-12);
}
