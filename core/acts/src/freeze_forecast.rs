//! Freezing a forecast that someone acts on: inputs, weekly quantiles and the advice, as integers.

use kerfbook_ledger::kind::{ForecastFrozen, Way as EntryWay, Weeks};
use kerfbook_ledger::{Book, Date, EntryId, Label, Series, Text};

use crate::answer::{Give, Not};
use crate::compare::{Comparison, Three};
use crate::error::ActError;
use crate::figure::{whole, whole_u32};
use crate::forecast::{self, Day, Forecast};
use crate::moment::Moment;
use crate::scenario::Scenario;
use crate::take_in_load::first;
use crate::way::Row;

/// Writes the forecast of a place, and what was advised, into the book. `salt` keeps the inputs' hash from being
/// guessed.
///
/// # Errors
/// A place that is not there, or a book that cannot be written.
pub fn freeze(
    book: &mut Book,
    place: EntryId,
    scenario: &Scenario,
    comparison: &Comparison,
    forecast: &Forecast,
    salt: [u8; 16],
    moment: Moment,
) -> Result<EntryId, ActError> {
    let (_, input, _) = forecast::inputs(scenario, crate::compare::SEASON_DAYS, &mut Vec::new())?;
    let inputs =
        Text::new(salt, &serde_json::to_string(&input).map_err(|error| ActError::Model(error.to_string()))?);
    let answer = &comparison.answer;
    let lost = answer.cost.lost_kg_ha;
    let (carried, count) = answer.amount.counted.told_in();
    let area = scenario.place.area;
    let (give_mg, give_source) = match &answer.give {
        Give::Feed { wood_kg_ha, source, .. } => {
            let dose = kerfbook_science::units::AreaMass::from_kg_ha(*wood_kg_ha);
            (whole(area.mass_of(dose).g() * 1000.0), Some(Label::new(source)?))
        }
        Give::Nothing | Give::NothingCatchingNitrate { .. } => (0, None),
    };
    let body = ForecastFrozen {
        engine: forecast.engine,
        parameters: forecast.parameters,
        seed: forecast.seed,
        runs: forecast.runs,
        inputs: inputs.hash(),
        first: Date::of(forecast.calendar.first())?,
        weeks: weeks(forecast),
        hungry_p10: forecast.hungry_day.p10.map(whole_u32),
        hungry_p50: forecast.hungry_day.p50.map(whole_u32),
        hungry_p90: forecast.hungry_day.p90.map(whole_u32),
        way: entry_way(answer.row),
        wet_g: Some(whole(answer.amount.wet_kg * 1000.0)),
        containers: Some(whole_u32(count)),
        container: Some(carried.into()),
        give_mg,
        give_source,
        look: Some(Date::of(answer.look)?),
        avoid: Some(Label::new(match answer.not {
            Not::DigIn { .. } => "dig in",
            Not::SameAgain { .. } => "same again",
            Not::AgainstStems => "against stems",
        })?),
        cost_p10: cost(lost.and_then(|lost| lost.p10)),
        cost_p50: cost(lost.and_then(|lost| lost.p50)),
        cost_p90: cost(lost.and_then(|lost| lost.p90)),
        least_known: Some(Label::new(answer.least_known)?),
    };
    first(&book.append(&[moment.draft(body)?.about(place)], &[inputs], moment.wall_ms)?)
}

fn entry_way(row: Row) -> Option<EntryWay> {
    match row {
        Row::Bare => None,
        Row::WorkedIn => Some(EntryWay::WorkedIn),
        Row::OnTop => Some(EntryWay::OnTop),
        Row::OverCompost | Row::OverUrine => Some(EntryWay::OnTopOverNitrogen),
        Row::CompostedFirst => Some(EntryWay::CompostedFirst),
        Row::Path => Some(EntryWay::Path),
        Row::Ring => Some(EntryWay::Ring),
    }
}

fn cost(kg_ha: Option<f64>) -> i32 {
    hundredths(kg_ha.unwrap_or(0.0))
}

/// 0.01 kg/ha, which is 1 mg/m2.
#[expect(clippy::cast_possible_truncation, reason = "kept within the type")]
fn hundredths(kg_ha: f64) -> i32 {
    (kg_ha * 100.0).round().clamp(f64::from(i32::MIN), f64::from(i32::MAX)) as i32
}

fn weeks(forecast: &Forecast) -> Weeks {
    let series = |of: fn(&Day) -> Three, which: fn(Three) -> Option<f64>| {
        Series(
            forecast
                .days
                .iter()
                .filter(|day| day.day % 7 == 0)
                .map(|day| hundredths(which(of(day)).unwrap_or(0.0)))
                .collect(),
        )
    };
    Weeks {
        tied_p10: series(|day| day.tied, |three| three.p10),
        tied_p50: series(|day| day.tied, |three| three.p50),
        tied_p90: series(|day| day.tied, |three| three.p90),
        mineral_p10: series(|day| day.mineral, |three| three.p10),
        mineral_p50: series(|day| day.mineral, |three| three.p50),
        mineral_p90: series(|day| day.mineral, |three| three.p90),
    }
}
