//! Soil as a book has it: tests as people have them, and what is taken where nobody tested.

use chrono::NaiveDate;
use kerfbook_ledger::EntryId;
use kerfbook_ledger::kind::{NitrogenForm, SoilTested};
use kerfbook_ledger::projection::view::Said;
use kerfbook_science::plain::{Colour, LastCropFed, Rolled};
use kerfbook_science::source::{Source, Sourced};
use kerfbook_science::units::{AreaMass, Density, Length, Share};

use crate::assumed::{Assumed, Value};
use crate::book_place::Read;
use crate::in_words::InWords;
use crate::scenario::{Scenario, Soil, SoilAnswers};
use crate::season::Why;
use crate::soil_test::{Form, Reported, SoilTest};

/// Depth of soil where the place has no rooting depth, cm: a spade's depth.
const DEPTH_CM: Sourced<f64> = Sourced::new(25.0, Source::COMMON_PRACTICE);
/// Part of the available water that is there at the start, per cent: spring, after winter rain.
const WATER_AT_START_PCT: Sourced<f64> = Sourced::new(90.0, Source::ASSUMPTION);
/// Days before the first within which a test says how the season began.
const FRESH_DAYS: Sourced<i64> = Sourced::new(45, Source::ASSUMPTION);

/// What the tests come to.
pub(crate) struct Found {
    pub(crate) soil: Soil,
    pub(crate) readings: Vec<Read>,
    pub(crate) left_out: Vec<(EntryId, Why)>,
}

/// Nothing known yet.
pub(crate) fn unknown() -> Soil {
    Soil {
        clay: None,
        sand: None,
        organic_matter: Share::from_percent(Colour::Unknown.organic_matter_pct().typical),
        bulk_density: None,
        depth: Length::from_cm(DEPTH_CM.value),
        mineral_nitrogen: None,
        sampled: None,
        available_water: None,
        field_capacity: None,
        water_at_start: Share::from_percent(WATER_AT_START_PCT.value),
        // Not even its colour is known: the runs spread accordingly.
        answers: SoilAnswers { colour: Some(Colour::Unknown), ..SoilAnswers::default() },
    }
}

/// Whether a test's figures are such as a soil has: as far as the model takes them.
pub(crate) fn can_be(test: &SoilTested) -> bool {
    let (clay, sand) = (test.clay_bp.unwrap_or(0), test.sand_bp.unwrap_or(0));
    clay.saturating_add(sand) <= 10_000
        && test.organic_matter_bp.is_none_or(|bp| bp <= 10_000)
        && test.water_bp.is_none_or(|bp| bp <= 10_000)
        && test.bulk_density_g_m3.is_none_or(|density| (200_000..=2_200_000).contains(&density))
        && test.available_water_mm.is_none_or(|mm| (1..=5_000).contains(&mm))
        && test.field_capacity_mm.is_none_or(|mm| (1..=10_000).contains(&mm))
        && test.mg_kg_x100.is_none_or(|ppm| ppm <= 10_000_000)
        && test.mg_m2.is_none_or(|mg| mg <= 100_000_000)
}

/// The soil from tests in order of days. What does not change is taken from the last that says it; mineral nitrogen from
/// the last before the season; later ones weigh the runs.
pub(crate) fn soil(
    tests: &[&Said<SoilTested>],
    scenario: &Scenario,
    first: NaiveDate,
    assumed: &mut Vec<Assumed>,
) -> Found {
    let share = |of: fn(&SoilTested) -> Option<u32>| {
        tests
            .iter()
            .rev()
            .find_map(|test| of(&test.body))
            .map(|bp| Share::from_percent(f64::from(bp) / 100.0))
    };
    let length = |of: fn(&SoilTested) -> Option<u32>| {
        tests.iter().rev().find_map(|test| of(&test.body)).map(|mm| Length::from_mm(f64::from(mm)))
    };
    let mut soil = unknown();
    soil.clay = share(|test| test.clay_bp);
    soil.sand = share(|test| test.sand_bp);
    if let Some(known) = share(|test| test.organic_matter_bp) {
        (soil.organic_matter, soil.answers.colour) = (known, None);
    }
    let answer = |of: fn(&SoilTested) -> bool| tests.iter().rev().find(|test| of(&test.body));
    if let Some(rolled) = answer(|test| test.rolled.is_some()).and_then(|test| test.body.rolled) {
        soil.answers.rolled = Some(Rolled::said(rolled));
    }
    if let Some(colour) = answer(|test| test.colour.is_some()).and_then(|test| test.body.colour)
        && soil.answers.colour.is_some()
    {
        let colour = Colour::said(colour);
        soil.answers.colour = Some(colour);
        soil.organic_matter = Share::from_percent(colour.organic_matter_pct().typical);
    }
    if soil.answers.colour == Some(Colour::Unknown) {
        assumed.push(Assumed::number("organic_matter_pct", soil.organic_matter.percent()));
    }
    soil.bulk_density = tests
        .iter()
        .rev()
        .find_map(|test| test.body.bulk_density_g_m3)
        .map(|density| Density::from_kg_m3(f64::from(density) / 1000.0));
    soil.available_water = length(|test| test.available_water_mm);
    soil.field_capacity = length(|test| test.field_capacity_mm);
    if scenario.place.rooting_depth.is_none() {
        assumed.push(Assumed::number("depth_cm", DEPTH_CM.value));
    }
    let there = Scenario { soil: soil.clone(), ..scenario.clone() };
    let mut found = Found { soil, readings: Vec::new(), left_out: Vec::new() };
    let mut wet = None;
    for test in tests {
        let date = test.date.naive();
        let age = (first - date).num_days();
        if let Some(bp) = test.body.water_bp.filter(|_| (0..=FRESH_DAYS.value).contains(&age)) {
            wet = Some(Share::from_percent(f64::from(bp) / 100.0));
        }
        if let Some(fed) = test.body.last_crop_fed {
            // The crop before the first day, not one that came since.
            if age > FRESH_DAYS.value {
                found.left_out.push((test.entry, Why::Stale));
            } else if age < -FRESH_DAYS.value {
                found.left_out.push((test.entry, Why::PlainAnswer));
            } else {
                found.soil.answers.last_crop_fed = Some(LastCropFed::said(fed));
            }
        }
        let Some(nitrogen) = as_tested(&test.body, date).nitrogen(&there, assumed) else { continue };
        if age > FRESH_DAYS.value {
            found.left_out.push((test.entry, Why::Stale));
        } else if age >= 0 {
            (found.soil.mineral_nitrogen, found.soil.sampled) = (Some(nitrogen), Some(date));
        } else if test.body.plain.is_some() {
            found.left_out.push((test.entry, Why::PlainAnswer));
        } else {
            found.readings.push(Read::Nitrate { entry: test.entry, date, kg_ha: nitrogen.kg_ha() });
        }
    }
    match wet {
        Some(known) => found.soil.water_at_start = known,
        None => {
            assumed
                .push(Assumed::new("water_at_start_pct", Value::Percent(WATER_AT_START_PCT.value / 100.0)));
        }
    }
    found
}

/// A test as people have it.
fn as_tested(test: &SoilTested, date: NaiveDate) -> SoilTest {
    let form = match test.nitrogen_form {
        Some(NitrogenForm::Nitrate) => Form::Nitrate,
        Some(NitrogenForm::NitrateN) => Form::NitrateN,
        Some(NitrogenForm::MineralN) | None => Form::MineralN,
    };
    let per_area = test.mg_m2.map(|mg| Reported::PerArea(AreaMass::from_kg_ha(f64::from(mg) / 100.0)));
    let ppm = test.mg_kg_x100.map(|ppm| Reported::Ppm(f64::from(ppm) / 100.0));
    let sampled = test.bottom_mm.map(|bottom| f64::from(bottom.saturating_sub(test.top_mm.unwrap_or(0))));
    SoilTest {
        date,
        nitrogen: per_area.or(ppm).map(|amount| (form, amount)),
        depth: sampled.filter(|mm| *mm > 0.0).map(Length::from_mm),
        ph: None,
        organic_matter: None,
    }
}
