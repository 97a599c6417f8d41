//! The one question that would narrow the range most: computed over the runs, for every question and test that could
//! be asked now.
//!
//! What a question settles is one figure of every run. Runs with nearly the same figure are put together, and the range
//! of the outcome within such a group is what would be left once the answer is known. A test has its error: what it
//! settles is what it would read, not what is.

use kerfbook_science::nitrogen::{
    Drawn, DrawnName, Input, Reading, Runs, Sample, Series, normal_quantile, quantile, uniform,
};
use serde::Serialize;

use crate::answer::NO_DIFFERENCE_KG_HA;
use crate::compare;
use crate::error::ActError;
use crate::forecast::nitrogen_in;
use crate::scenario::Scenario;
use crate::season::Season;

/// Narrower by less than this is not worth a question, part of the range (common practice).
pub const WORTH_ASKING: f64 = 0.05;
/// Runs in a group of like figures: enough for its tenth and ninetieth hundredth.
const GROUP: usize = 40;
/// Fewest groups.
const FEWEST_GROUPS: usize = 4;
/// First index of sampling of the errors of tests that nobody has done: far from those of parameters.
const ERRORS_FIRST: u64 = 1 << 40;

/// Days from now to a test of a place that could be done.
const TEST_AFTER_DAYS: u32 = 28;

/// Something to ask or to test.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Question {
    /// What wood it is.
    Wood,
    /// How fine the pieces are.
    Particle,
    /// How much there is.
    Amount,
    /// How a handful feels.
    Moisture,
    /// Carbon and nitrogen of a sample.
    CarbonNitrogen,
    /// Nitrate in the soil, or whether the last crop was fed.
    SoilNitrogen,
    /// The soil's colour or organic matter.
    SoilSupply,
    /// How damp soil rolls.
    SoilWater,
    /// What grows, or its appetite.
    CropNeed,
    /// Rain and water noted.
    Rain,
    /// A four-day draw test of the load.
    DrawTest,
    /// Nitrate in the soil some weeks on.
    SoilTestLater,
    /// Old leaves against a reference plot some weeks on.
    Leaf,
}

impl Question {
    /// Its id: the words are `narrow-…`.
    pub const fn id(self) -> &'static str {
        match self {
            Self::Wood => "wood",
            Self::Particle => "particle",
            Self::Amount => "amount",
            Self::Moisture => "moisture",
            Self::CarbonNitrogen => "carbon-nitrogen",
            Self::SoilNitrogen => "soil-nitrogen",
            Self::SoilSupply => "soil-supply",
            Self::SoilWater => "soil-water",
            Self::CropNeed => "crop-need",
            Self::Rain => "rain",
            Self::DrawTest => "draw-test",
            Self::SoilTestLater => "soil-test-later",
            Self::Leaf => "leaf",
        }
    }

    /// The question that settles a parameter; none where nobody can say.
    fn settling(parameter: &str, pieces_unknown: bool) -> Option<Self> {
        Some(match parameter {
            "wood" => Self::Wood,
            "kL" if pieces_unknown => Self::Particle,
            "mass" => Self::Amount,
            "moist" => Self::Moisture,
            "cn" => Self::CarbonNitrogen,
            "n0" => Self::SoilNitrogen,
            "organic" => Self::SoilSupply,
            "capacity" => Self::SoilWater,
            "demand" => Self::CropNeed,
            "rain" => Self::Rain,
            _ => return None,
        })
    }

    /// The question whose answer a reading is.
    const fn reading(reading: &Reading) -> Self {
        match reading {
            Reading::DrawTest { .. } => Self::DrawTest,
            Reading::SoilNitrate { .. } => Self::SoilTestLater,
            Reading::Leaf { .. } => Self::Leaf,
        }
    }
}

/// How much narrower the range would be.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Narrowing {
    /// What to ask.
    pub question: Question,
    /// Expected part of the range, P10 to P90, that goes.
    pub narrower: f64,
}

/// Draw test as it is described to people: a warm room, a solution of potassium nitrate, enough sawdust to see a draw and
/// too little to empty the jar (the specification's section 6).
const JAR_C: f64 = 22.0;
const JAR_MG_LITRE: f64 = 150.0;
const JAR_DRY_G_LITRE: f64 = 30.0;

/// The tests that could be done, as readings of nothing yet: added to an input, the runs foretell them. The load's first
/// layer is drawn; soil and leaves are looked at on the evening of `day`.
pub(crate) fn tests(input: &Input, load_batch: u32, day: u32) -> Vec<Reading> {
    let mut tests = Vec::new();
    if let Some(layer) = input.put_down.iter().position(|put| put.batch == Some(load_batch)) {
        tests.push(Reading::DrawTest {
            layer,
            temperature_c: JAR_C,
            dose_mg_litre: JAR_MG_LITRE,
            dry_g_per_litre: JAR_DRY_G_LITRE,
            index: 1.0,
        });
    }
    if day <= input.days {
        tests.push(Reading::SoilNitrate { day, kg_ha: 0.0 });
        if !input.crops.is_empty() {
            tests.push(Reading::Leaf { day, crop: 0, nni: 1.0 });
        }
    }
    tests
}

/// The question or test that would narrow most what is foretold of a place on a day: what the crops ahead lose, else what
/// is held. None where none is worth asking. How the soil began is not asked any more.
///
/// # Errors
/// What the model refuses.
pub fn of_place(season: &Season, runs: u32, seed: u64) -> Result<Option<Narrowing>, ActError> {
    let ahead = season.ahead();
    let last = season.input.days;
    let day = season.today + TEST_AFTER_DAYS;
    let mut tests = Vec::new();
    if day <= last {
        tests.push(Reading::SoilNitrate { day, kg_ha: 0.0 });
        tests.extend(ahead.first().map(|crop| Reading::Leaf { day, crop: *crop, nni: 1.0 }));
    }
    let sample = match season.left(runs, seed)? {
        Some(left) => left.even(runs),
        None => Sample::new(seed, runs),
    };
    let input = Input { readings: tests.clone(), ..season.input.clone() };
    let here = compare::run(&input, &sample, &[last])?;
    let bare = compare::run(&season.bare, &sample, &[last])?;
    let outcome = if ahead.is_empty() {
        compare::series(&here, Series::Tied, last).to_vec()
    } else {
        compare::less(&nitrogen_in(&bare, &ahead, last), &nitrogen_in(&here, &ahead, last))
    };
    let asked = ask(&here, &tests, &outcome, pieces_unknown(&season.scenario), seed);
    let open = |one: &Narrowing| one.question != Question::SoilNitrogen && one.narrower >= WORTH_ASKING;
    Ok(asked.into_iter().find(open))
}

/// Whether the size of the pieces of any load was asked for and not known.
pub(crate) fn pieces_unknown(scenario: &Scenario) -> bool {
    use kerfbook_science::plain::Pieces;
    scenario.put_down.iter().any(|put| put.answers.pieces == Some(Pieces::Unknown) && put.particle.is_none())
}

/// Every question and test with what it would narrow, best first; those that would narrow nothing are left out, and all
/// are where the outcome, kg/ha, hardly differs between runs.
/// `tests` are the readings that were in the input the runs are of.
pub fn ask(
    runs: &Runs,
    tests: &[Reading],
    outcome: &[f64],
    pieces_unknown: bool,
    seed: u64,
) -> Vec<Narrowing> {
    let Some(whole) =
        left(&shuffled(outcome.len(), seed), outcome).filter(|width| *width >= NO_DIFFERENCE_KG_HA)
    else {
        return Vec::new();
    };
    let mut found: Vec<Narrowing> = Vec::new();
    let mut consider = |question: Question, figures: &[f64]| {
        let Some(left) = left(figures, outcome) else { return };
        let narrower = 1.0 - left / whole;
        if narrower <= 0.0 {
            return;
        }
        match found.iter_mut().find(|other| other.question == question) {
            // Several layers or parameters: the one that tells most stands for the question.
            Some(other) => other.narrower = f64::max(other.narrower, narrower),
            None => found.push(Narrowing { question, narrower }),
        }
    };
    for Drawn { name, values } in runs.parameters() {
        let name = match name {
            DrawnName::Global(global) => global.parameter().name,
            DrawnName::Layer { parameter, .. } => parameter.name(),
        };
        if let Some(question) = Question::settling(name, pieces_unknown) {
            consider(question, values);
        }
    }
    for (index, (test, foretold)) in (0..).zip(tests.iter().zip(runs.foretold())) {
        let read = |(run, foretold): (u64, &f64)| {
            test.made(*foretold, normal_quantile(uniform(seed, run, ERRORS_FIRST + index))).figure()
        };
        let read: Vec<f64> = (0..).zip(foretold).map(read).collect();
        consider(Question::reading(test), &read);
    }
    found.sort_by(|a, b| b.narrower.total_cmp(&a.narrower));
    found
}

/// Mean range of the outcome within groups of runs with like figures; none where the figures do not differ, or where
/// there are too few runs.
fn left(figures: &[f64], outcome: &[f64]) -> Option<f64> {
    let runs = figures.len().min(outcome.len());
    let groups = (runs / GROUP).max(FEWEST_GROUPS);
    if runs < 2 * FEWEST_GROUPS || figures.iter().all(|figure| figure.total_cmp(&figures[0]).is_eq()) {
        return None;
    }
    let mut order: Vec<usize> = (0..runs).collect();
    order.sort_by(|a, b| figures[*a].total_cmp(&figures[*b]));
    let mut sum = 0.0;
    for group in 0..groups {
        let members = &order[group * runs / groups..(group + 1) * runs / groups];
        let values: Vec<f64> = members.iter().map(|run| outcome[*run]).collect();
        sum += quantile(&values, 0.9)? - quantile(&values, 0.1)?;
    }
    Some(sum / groups as f64)
}

/// Figures that tell nothing: what is left of the range by chance alone, so that small groups are not taken for
/// knowledge.
fn shuffled(runs: usize, seed: u64) -> Vec<f64> {
    (0..runs as u64).map(|run| uniform(seed, run, ERRORS_FIRST - 1)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn noise(index: u64) -> Vec<f64> {
        (0..2000).map(|run| normal_quantile(uniform(3, run, index))).collect()
    }

    #[test]
    fn a_figure_that_decides_all_leaves_little_and_one_that_decides_nothing_leaves_all() {
        let (a, b) = (noise(1), noise(2));
        let whole = left(&shuffled(2000, 3), &a).unwrap_or_default();
        assert!(left(&a, &a).unwrap_or_default() < 0.1 * whole);
        assert!((left(&b, &a).unwrap_or_default() / whole - 1.0).abs() < 0.05);
    }

    #[test]
    fn half_of_the_variance_known_leaves_seven_tenths_of_the_range() {
        let (a, b) = (noise(1), noise(2));
        let sum: Vec<f64> = a.iter().zip(&b).map(|(a, b)| a + b).collect();
        let whole = left(&shuffled(2000, 3), &sum).unwrap_or_default();
        let share = left(&a, &sum).unwrap_or_default() / whole;
        assert!((share - 0.5_f64.sqrt()).abs() < 0.04, "{share}");
    }

    #[test]
    fn what_does_not_differ_is_no_question() {
        assert_eq!(left(&[1.0; 200], &noise(1)[..200]), None);
    }
}
