//! What was measured weighs the runs: how much weight is left, what that does to the answer, and why.
//!
//! Runs are spread evenly over every parameter. Where readings leave few of them in effect, more are drawn; where even
//! the most leave too few, the reading is one that hardly any run foretold, and it is made to count for less, and said so:
//! a forecast never rests on one run.

use kerfbook_science::nitrogen::{
    self, DrawnName, Input, Reading, Runs, Sample, Series, chance, log_weights, quantile, resample,
};

use crate::answer;
use crate::compare::{self, Three};
use crate::error::ActError;
use crate::forecast::{first_hungry, nitrogen_in};

/// Fewest runs that readings weigh: a reweighting of fewer is rough.
pub const FEWEST_RUNS: u32 = 2_000;
/// Most runs that are drawn to keep enough of them in effect.
pub const MOST_RUNS: u32 = 16_000;
/// Fewest runs in effect (assumption).
pub const FEWEST_EFFECTIVE: f64 = 60.0;
/// Runs that are told from the weights.
const TOLD: usize = 2_000;

/// How many runs are tried, one number after the other.
pub fn sizes(fewest: u32) -> impl Iterator<Item = u32> {
    let first = fewest.clamp(FEWEST_RUNS, MOST_RUNS);
    core::iter::successors(Some(first), |size| (*size < MOST_RUNS).then(|| (size * 2).min(MOST_RUNS)))
}

/// The weights of the runs.
#[derive(Debug, Clone, PartialEq)]
pub struct Weights {
    /// Logarithms.
    pub log: Vec<f64>,
    /// How many runs they are worth.
    pub effective_size: f64,
    /// Power that the likelihood was raised to: 1 where the readings count in full.
    pub counts: f64,
}

impl Weights {
    /// From what each run foretold of each reading, by reading, then run. Without readings all weigh the same.
    pub fn of(readings: &[Reading], foretold: &[Vec<f64>], runs: usize) -> Self {
        let log = log_weights(readings, foretold).unwrap_or_else(|| vec![0.0; runs]);
        Self { effective_size: effective(&log, 1.0), log, counts: 1.0 }
    }

    /// Enough runs are left in effect.
    pub fn enough(&self) -> bool {
        self.effective_size >= FEWEST_EFFECTIVE
    }

    /// The same where enough runs are left; else with the readings counting for less, just so much that there are.
    #[must_use]
    pub fn eased(self) -> Self {
        /// Halvings until the power is known to a part in a million.
        const HALVINGS: u32 = 20;
        if self.enough() {
            return self;
        }
        let (mut low, mut high) = (0.0, 1.0);
        for _ in 0..HALVINGS {
            let middle = 0.5 * (low + high);
            if effective(&self.log, middle) < FEWEST_EFFECTIVE {
                high = middle;
            } else {
                low = middle;
            }
        }
        let log: Vec<f64> = self.log.iter().map(|weight| weight * low).collect();
        Self { effective_size: effective(&log, 1.0), log, counts: low }
    }

    /// The runs to tell, by number, in order; some more than once.
    pub fn told(&self) -> Vec<usize> {
        resample(&self.log, TOLD).runs
    }
}

/// How many runs the weights are worth, raised to a power.
fn effective(log: &[f64], power: f64) -> f64 {
    let log: Vec<f64> = log.iter().map(|weight| weight * power).collect();
    let weights = nitrogen::weights(&log);
    let sum: f64 = weights.iter().sum();
    let squares: f64 = weights.iter().map(|weight| weight * weight).sum();
    if squares > 0.0 { sum * sum / squares } else { 0.0 }
}

/// Runs of a place before anything was measured, and of the same place bare.
#[derive(Debug, Clone, PartialEq)]
pub struct Prior {
    sample: Sample,
    here: Runs,
    bare: Runs,
    /// Result day at which the season is counted up.
    horizon: u32,
    /// Which of the input's crops the answer is about.
    crops: Vec<usize>,
}

impl Prior {
    /// Runs both inputs; the readings of the first are foretold.
    ///
    /// # Errors
    /// What the model refuses.
    pub fn of(
        input: &Input,
        bare: &Input,
        sample: Sample,
        horizon: u32,
        crops: &[usize],
    ) -> Result<Self, ActError> {
        let keep = [horizon];
        let here = compare::run(input, &sample, &keep)?;
        let bare = compare::run(bare, &sample, &keep)?;
        Ok(Self { sample, here, bare, horizon, crops: crops.to_vec() })
    }

    /// How many runs.
    pub fn runs(&self) -> usize {
        self.sample.runs()
    }

    /// What each run foretold of each reading.
    pub fn foretold(&self) -> &[Vec<f64>] {
        self.here.foretold()
    }

    /// Nitrogen in the crops by the horizon, run by run, kg/ha.
    pub fn crop_nitrogen(&self) -> Vec<f64> {
        nitrogen_in(&self.here, &self.crops, self.horizon)
    }

    /// The bare place's crop nitrogen less that, run by run, kg/ha.
    pub fn lost(&self) -> Vec<f64> {
        compare::less(&nitrogen_in(&self.bare, &self.crops, self.horizon), &self.crop_nitrogen())
    }

    /// Held by decay at the horizon, run by run, kg/ha.
    pub fn tied(&self) -> Vec<f64> {
        compare::series(&self.here, Series::Tied, self.horizon).to_vec()
    }

    fn headline(&self, told: Option<&[usize]>) -> Headline {
        let picked = |values: &[f64]| match told {
            Some(told) => told.iter().filter_map(|run| values.get(*run)).copied().collect(),
            None => values.to_vec(),
        };
        let hungry = picked(&first_hungry(&self.here, &self.crops));
        Headline {
            crop_nitrogen: Three::of(&picked(&self.crop_nitrogen())),
            lost: Three::of(&picked(&self.lost())),
            tied: Three::of(&picked(&self.tied())),
            hungry_day: Three::of(&hungry),
            chance_hungry: chance(&hungry),
        }
    }

    /// What the answer hangs on: crop nitrogen lost, or what is tied up where nothing grows.
    fn outcome(&self) -> Vec<f64> {
        if self.crops.is_empty() { self.tied() } else { self.lost() }
    }
}

/// The figures of the answer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Headline {
    /// Nitrogen in the crops, kg/ha.
    pub crop_nitrogen: Three,
    /// The bare place's less that, run by run, kg/ha.
    pub lost: Three,
    /// Held by decay, kg/ha.
    pub tied: Three,
    /// First hungry day.
    pub hungry_day: Three,
    /// Share of the runs that go hungry.
    pub chance_hungry: f64,
}

/// A reading beside what was foretold of it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Moved {
    /// Position among the readings.
    pub reading: usize,
    /// What was read, in its own unit.
    pub read: f64,
    /// The middle of what the runs foretold before.
    pub foretold: f64,
}

/// What the readings taught.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Learned {
    /// The parameter of the model.
    pub parameter: &'static str,
    /// Id of the plain thing behind it: `least-known-…`.
    pub behind: &'static str,
    /// How far its mean moved, in standard deviations of what was taken before.
    pub by: f64,
}

/// A mean that moved by less than this, in standard deviations, taught nothing (assumption).
const LEAST_LEARNED: f64 = 0.2;

/// What changed in the answer, and why.
#[derive(Debug, Clone, PartialEq)]
pub struct Change {
    /// Before anything was measured.
    pub before: Headline,
    /// With it.
    pub after: Headline,
    /// The reading without which the answer would differ most.
    pub moved: Option<Moved>,
    /// The parameter that moved most.
    pub learned: Option<Learned>,
}

/// Runs weighed by the readings of an input.
#[derive(Debug, Clone, PartialEq)]
pub struct Weighed {
    /// The runs that are told, each once.
    pub sample: Sample,
    /// Positions in that sample, in order, each as often as it counts.
    pub told: Vec<usize>,
    /// How many runs were weighed.
    pub runs: u32,
    /// How many they are worth.
    pub effective_size: f64,
    /// Power that the likelihood was raised to: 1 where the readings count in full.
    pub counts: f64,
    /// What changed.
    pub change: Change,
}

impl Weighed {
    /// A figure of every run of the sample, as often as it counts.
    pub fn pick(&self, values: &[f64]) -> Vec<f64> {
        self.told.iter().filter_map(|run| values.get(*run)).copied().collect()
    }
}

/// The runs that readings leave, without what they changed.
#[derive(Debug, Clone, PartialEq)]
pub struct Left {
    /// The runs that are told, each once.
    pub sample: Sample,
    /// Positions in that sample, in order, each as often as it counts.
    pub told: Vec<usize>,
}

impl Left {
    fn of(sample: &Sample, weights: &Weights) -> Self {
        let told = weights.told();
        let mut distinct = told.clone();
        distinct.dedup();
        // Both lists rise: a run's position is how many distinct ones came before.
        let positions = told.iter().filter_map(|run| distinct.binary_search(run).ok()).collect();
        Self { sample: sample.chosen(&distinct), told: positions }
    }

    /// A figure of every run of the sample, as often as it counts.
    pub fn pick(&self, values: &[f64]) -> Vec<f64> {
        self.told.iter().filter_map(|run| values.get(*run)).copied().collect()
    }

    /// So many runs that all count the same: every so many of those that are told.
    pub fn even(&self, runs: u32) -> Sample {
        let (runs, told) = (runs.max(1) as usize, self.told.len());
        let every = |run: usize| self.told.get(run * told / runs).copied();
        self.sample.chosen(&(0..runs).filter_map(every).collect::<Vec<_>>())
    }
}

/// Runs and what they weigh.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Sampled {
    pub(crate) sample: Sample,
    pub(crate) weights: Weights,
}

impl Sampled {
    /// The runs that are left.
    pub(crate) fn left(&self) -> Left {
        Left::of(&self.sample, &self.weights)
    }
}

/// Weighs ever more runs, at least `fewest` and never fewer than [`FEWEST_RUNS`], until enough of them count. Nothing after
/// the last reading is run.
///
/// # Errors
/// What the model refuses.
pub(crate) fn weights(input: &Input, fewest: u32, seed: u64) -> Result<Sampled, ActError> {
    let last = input.readings.iter().filter_map(Reading::day).max().unwrap_or(1);
    let until = Input { days: last.clamp(1, input.days), ..input.clone() };
    let mut sizes = sizes(fewest).peekable();
    loop {
        let size = sizes.next().ok_or(ActError::NoLoad)?;
        let sample = Sample::stratified(seed, size);
        let runs = compare::run(&until, &sample, &[])?;
        let weights = Weights::of(&input.readings, runs.foretold(), sample.runs());
        if weights.enough() || size >= MOST_RUNS {
            return Ok(Sampled { sample, weights: weights.eased() });
        }
        // Twice as many runs are worth about twice as much: sizes that fall far short are passed over.
        let worth = weights.effective_size / f64::from(size);
        let short = |next: &u32| *next < MOST_RUNS && 2.0 * worth * f64::from(*next) < FEWEST_EFFECTIVE;
        while sizes.next_if(short).is_some() {}
    }
}

/// Weighs the runs of an input by its readings; `bare` is the same place with nothing put down, `crops` which of the
/// input's crops the answer is about. At least `fewest` runs, and never fewer than [`FEWEST_RUNS`].
///
/// # Errors
/// What the model refuses.
pub fn weigh(
    input: &Input,
    bare: &Input,
    horizon: u32,
    crops: &[usize],
    fewest: u32,
    seed: u64,
) -> Result<Weighed, ActError> {
    weigh_with(weights(input, fewest, seed)?, input, bare, horizon, crops)
}

/// The same with runs that are weighed already.
pub(crate) fn weigh_with(
    sampled: Sampled,
    input: &Input,
    bare: &Input,
    horizon: u32,
    crops: &[usize],
) -> Result<Weighed, ActError> {
    let Left { sample: left, told } = sampled.left();
    let Sampled { sample, weights } = sampled;
    let prior = Prior::of(input, bare, sample, horizon, crops)?;
    let change = change(&prior, &input.readings, &weights, &weights.told());
    Ok(Weighed {
        sample: left,
        told,
        runs: u32::try_from(prior.runs()).unwrap_or(u32::MAX),
        effective_size: weights.effective_size,
        counts: weights.counts,
        change,
    })
}

fn change(prior: &Prior, readings: &[Reading], weights: &Weights, told: &[usize]) -> Change {
    Change {
        before: prior.headline(None),
        after: prior.headline(Some(told)),
        moved: moved(prior, readings, weights, told),
        learned: learned(prior, weights),
    }
}

/// The reading whose leaving out moves the three figures of the outcome most.
fn moved(prior: &Prior, readings: &[Reading], weights: &Weights, told: &[usize]) -> Option<Moved> {
    let outcome = prior.outcome();
    let three = |told: &[usize]| {
        let values: Vec<f64> = told.iter().filter_map(|run| outcome.get(*run)).copied().collect();
        [0.1, 0.5, 0.9].map(|p| quantile(&values, p).unwrap_or(0.0))
    };
    let with = three(told);
    let mut most: Option<(f64, usize)> = None;
    for (index, (reading, foretold)) in readings.iter().zip(prior.foretold()).enumerate() {
        let without = weights.log.iter().zip(foretold);
        let without: Vec<f64> = without
            .map(|(weight, foretold)| weight - weights.counts * reading.log_likelihood(*foretold))
            .collect();
        let far: f64 =
            three(&resample(&without, TOLD).runs).iter().zip(with).map(|(a, b)| (a - b).abs()).sum();
        if most.is_none_or(|(before, _)| far > before) {
            most = Some((far, index));
        }
    }
    let (_, index) = most?;
    let foretold = quantile(prior.foretold().get(index)?, 0.5)?;
    Some(Moved { reading: index, read: readings.get(index)?.figure(), foretold })
}

/// The parameter whose mean the weights move furthest, in its own standard deviations.
fn learned(prior: &Prior, weights: &Weights) -> Option<Learned> {
    let weight = nitrogen::weights(&weights.log);
    let sum: f64 = weight.iter().sum();
    let mut most: Option<Learned> = None;
    for drawn in prior.here.parameters() {
        let count = drawn.values.len() as f64;
        let mean = drawn.values.iter().sum::<f64>() / count;
        let variance = drawn.values.iter().map(|value| (value - mean) * (value - mean)).sum::<f64>() / count;
        if variance <= 0.0 {
            continue;
        }
        let after = drawn.values.iter().zip(&weight).map(|(value, weight)| value * weight).sum::<f64>() / sum;
        let by = (after - mean) / variance.sqrt();
        if by.abs() > most.map_or(LEAST_LEARNED, |most| most.by.abs()) {
            let parameter = match drawn.name {
                DrawnName::Global(global) => global.parameter().name,
                DrawnName::Layer { parameter, .. } => parameter.name(),
            };
            most = Some(Learned { parameter, behind: answer::input_behind(parameter, false), by });
        }
    }
    most
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sizes_double_up_to_the_most() {
        assert_eq!(sizes(200).collect::<Vec<_>>(), [2_000, 4_000, 8_000, 16_000]);
        assert_eq!(sizes(5_000).collect::<Vec<_>>(), [5_000, 10_000, 16_000]);
        assert_eq!(sizes(100_000).collect::<Vec<_>>(), [16_000]);
    }

    #[test]
    fn a_reading_that_no_run_foretold_counts_for_less_and_never_leaves_one_run() {
        let foretold = vec![(0..2_000).map(|run| 20.0 * 1.003_f64.powi(run)).collect::<Vec<_>>()];
        let reading = [Reading::SoilNitrate { day: 30, kg_ha: 1e6 }];
        let hard = Weights::of(&reading, &foretold, 2_000);
        assert!(hard.effective_size < FEWEST_EFFECTIVE);
        let eased = hard.eased();
        assert!(eased.effective_size >= FEWEST_EFFECTIVE * 0.999 && eased.counts < 1.0);
        let usual = Weights::of(&[Reading::SoilNitrate { day: 30, kg_ha: 300.0 }], &foretold, 2_000);
        assert!(usual.enough() && usual.clone().eased() == usual);
    }
}
