//! Weighing runs by what was measured (section 6 of the specification).

use super::engine::Ended;
use super::input::Reading;
use super::lanes::{exp, least, most, share_gone};
use super::layer::{Globals, Layer};
use super::parameter::Global;
use super::runs::{Series, StageRuns};

/// Standard deviation of the draw test's index; assumption.
const INDEX_DEVIATION: f64 = 0.10;
/// Below this the jar counts as emptied, and says only that; assumption.
const EMPTIED: f64 = 0.05;
/// Standard deviation of the logarithm of soil nitrate: a coefficient of variation of 30 %.
const NITRATE_DEVIATION: f64 = 0.294;
/// Standard deviation of the nutrition index from a leaf; assumption.
const LEAF_DEVIATION: f64 = 0.15;

/// Runs drawn again by their weights.
#[derive(Debug, Clone, PartialEq)]
pub struct Update {
    /// Numbers of the runs, as many as there were, some more than once.
    pub runs: Vec<usize>,
    /// How many runs the weights are worth.
    pub effective_size: f64,
}

impl Update {
    /// The values of the runs drawn.
    pub fn pick(&self, values: &[f64]) -> Vec<f64> {
        self.runs.iter().filter_map(|run| values.get(*run)).copied().collect()
    }
}

impl Reading {
    /// What one run of a block foretells of it: kg/ha, nutrition index, or what is left of the dose.
    pub(super) fn foretold<const L: usize>(
        &self,
        stage: &StageRuns,
        end: &Ended<L>,
        globals: &Globals<L>,
        (run, lane): (usize, usize),
    ) -> f64 {
        match *self {
            Self::SoilNitrate { day, .. } => {
                stage.on(Series::Mineral, day).and_then(|values| values.get(run)).copied().unwrap_or(1.0)
            }
            Self::Leaf { day, crop, .. } => stage.nutrition_in(crop, day, run).unwrap_or(1.0),
            Self::DrawTest { layer, temperature_c, dose_mg_litre, dry_g_per_litre, .. } => {
                let jar = Jar { celsius: temperature_c, dose: dose_mg_litre, dry: dry_g_per_litre };
                end.layers().get(layer).map_or(1.0, |layer| jar.index(layer, globals, lane))
            }
        }
    }

    /// Logarithm of the likelihood of what was read, but for a constant, where `foretold` was to be expected.
    pub fn log_likelihood(&self, foretold: f64) -> f64 {
        match *self {
            Self::SoilNitrate { kg_ha, .. } => {
                square(libm::log(f64::max(1.0, kg_ha) / f64::max(1.0, foretold)) / NITRATE_DEVIATION)
            }
            Self::Leaf { nni, .. } => square((f64::min(1.0, nni) - f64::min(1.0, foretold)) / LEAF_DEVIATION),
            Self::DrawTest { index, .. } if index <= EMPTIED => {
                let below =
                    0.5 * libm::erfc((foretold - EMPTIED) / INDEX_DEVIATION / core::f64::consts::SQRT_2);
                libm::log(f64::max(1e-12, below))
            }
            Self::DrawTest { index, .. } => square((index - foretold) / INDEX_DEVIATION),
        }
    }

    /// What was read: kg/ha, nutrition index, or what is left of the dose.
    pub const fn figure(&self) -> f64 {
        match *self {
            Self::SoilNitrate { kg_ha, .. } => kg_ha,
            Self::Leaf { nni, .. } => nni,
            Self::DrawTest { index, .. } => index,
        }
    }

    /// The same reading as it would come out where `foretold` is the truth and the error of reading lies `z` standard
    /// deviations off.
    #[must_use]
    pub fn made(&self, foretold: f64, z: f64) -> Self {
        let mut made = *self;
        match &mut made {
            Self::SoilNitrate { kg_ha, .. } => {
                *kg_ha = f64::max(1.0, foretold) * libm::exp(NITRATE_DEVIATION * z);
            }
            Self::Leaf { nni, .. } => *nni = f64::max(0.0, f64::min(1.0, foretold) + LEAF_DEVIATION * z),
            Self::DrawTest { index, .. } => *index = f64::max(0.0, foretold + INDEX_DEVIATION * z),
        }
        made
    }
}

/// Chance that a reading of soil nitrate lies between two ends, kg/ha, between which the truth lies in eight cases of ten:
/// fewer, because the reading has an error of its own. Both are taken as lognormal.
pub fn nitrate_within(low: f64, high: f64) -> f64 {
    let width = libm::log(f64::max(1.0, high) / f64::max(1.0, low));
    let truth = f64::max(0.0, width) / (2.0 * crate::plain::TENTH);
    let both = crate::plain::together(truth, NITRATE_DEVIATION);
    libm::erf(crate::plain::TENTH * truth / both / core::f64::consts::SQRT_2)
}

/// Logarithms of the weights of the runs from what each foretold of each reading (by reading, then run); none without
/// readings.
pub fn log_weights(readings: &[Reading], foretold: &[Vec<f64>]) -> Option<Vec<f64>> {
    let mut sums = vec![0.0; foretold.first()?.len()];
    for (reading, foretold) in readings.iter().zip(foretold) {
        for (sum, foretold) in sums.iter_mut().zip(foretold) {
            *sum += reading.log_likelihood(*foretold);
        }
    }
    Some(sums)
}

/// The logarithm of a normal density, but for a constant.
fn square(z: f64) -> f64 {
    -0.5 * z * z
}

/// A draw test: wet, well mixed, four days.
struct Jar {
    celsius: f64,
    dose: f64,
    dry: f64,
}

impl Jar {
    const DAYS: usize = 4;

    /// What is left of the dose, as a part of it (equation 19).
    fn index<const L: usize>(&self, layer: &Layer<L>, g: &Globals<L>, l: usize) -> f64 {
        let p = &layer.properties;
        let of = |global: Global| g[global as usize][l];
        let modifier = temperature_response(self.celsius, of(Global::Response), of(Global::Q10), p.wood);
        let humus_nitrogen = 1.0 / of(Global::HumusCarbonNitrogen);
        let (richest, poorest) = (1.0 / p.decomposers[l], 1.0 / (of(Global::Widening) * p.decomposers[l]));
        let gone = |rate: f64| share_gone(rate * modifier);
        let carbon = self.dry * 1000.0 * p.carbon_share[l];
        let (mut fast, mut slow) = (p.fast_share[l] * carbon, (1.0 - p.fast_share[l]) * carbon);
        let (mut life, mut life_nitrogen, mut humus, mut mineral) = (0.0, 0.0, 0.0, self.dose);
        for _ in 0..Self::DAYS {
            let fast_lost = fast * gone(p.fast_rate[l] * p.decay[l]);
            let slow_lost = slow * gone(p.slow_rate[l] * p.decay[l]);
            let dying = gone(p.death_rate[l]);
            let (dead, dead_nitrogen) = (life * dying, life_nitrogen * dying);
            let humus_made = least(p.humification[l] * dead, of(Global::HumusCarbonNitrogen) * dead_nitrogen);
            let humus_gained = humus_made - humus * gone(p.humus_rate[l]);
            let released = dead_nitrogen - humus_gained * humus_nitrogen;
            let grown = p.fast_efficiency[l] * fast_lost + p.slow_efficiency[l] * slow_lost;
            let own = (fast_lost + slow_lost) / p.carbon_nitrogen[l];
            let taken = least(most(0.0, grown * richest - own - released), mineral);
            let have = taken + released;
            let content =
                if grown > 0.0 { least(most((have + own) / grown, poorest), richest) } else { richest };
            let need = grown * content - own;
            let pace = if need > have { have / need } else { 1.0 };
            mineral -= pace * need - released;
            fast -= pace * fast_lost;
            slow -= pace * slow_lost;
            life += pace * grown - dead;
            life_nitrogen += pace * grown * content - dead_nitrogen;
            humus += humus_gained;
        }
        mineral / self.dose
    }
}

/// Equations 3 and 4, anchored at 28 °C for wood and at 15 °C for the rest.
fn temperature_response(celsius: f64, response: f64, q10: f64, wood: bool) -> f64 {
    let logistic = |celsius: f64| 12.0 / (1.0 + 52.0 * exp(-0.103 * celsius));
    let anchor = if wood { 28.0 } else { 15.0 };
    let capped = least(celsius, 35.0);
    let rate = if response < 0.5 {
        logistic(capped)
    } else {
        logistic(anchor) * exp(libm::log(q10) * (capped - anchor) / 10.0)
    };
    rate * most(0.0, least(1.0, celsius / 2.0))
}

/// The weights themselves, the greatest being 1.
pub fn weights(log_weights: &[f64]) -> Vec<f64> {
    let highest = log_weights.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    log_weights.iter().map(|weight| libm::exp(weight - highest)).collect()
}

/// Systematic resampling (equation 21): positions (k + 0.5)/n take the first run whose sum of weights is not
/// below them, for `count` = n.
pub fn resample(log_weights: &[f64], count: usize) -> Update {
    let weights = weights(log_weights);
    let sum: f64 = weights.iter().sum();
    let squares: f64 = weights.iter().map(|w| (w / sum) * (w / sum)).sum();
    #[expect(clippy::cast_precision_loss, reason = "a number of runs")]
    let positions = count as f64;
    let mut runs = Vec::with_capacity(count);
    let (mut run, mut reached) = (0, weights.first().map_or(0.0, |w| w / sum));
    let mut position = 0.5;
    while runs.len() < count && !weights.is_empty() {
        while run + 1 < weights.len() && reached < position / positions {
            run += 1;
            reached += weights[run] / sum;
        }
        runs.push(run);
        position += 1.0;
    }
    Update { runs, effective_size: 1.0 / squares }
}
