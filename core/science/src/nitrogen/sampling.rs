//! Drawing parameters: splitmix64 keyed by seed, run and parameter, and the distributions.
//!
//! A value depends on nothing but its key, so runs can be added, reordered or computed apart.

use super::parameter::{GLOBALS, Global, Parameter, Spread};

const GAMMA: u64 = 0x9E37_79B9_7F4A_7C15;

/// The output function of splitmix64 (Steele, Lea & Flood 2014, Fast splittable pseudorandom number
/// generators, OOPSLA; constants after Stafford's Mix13).
const fn mix(z: u64) -> u64 {
    let z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
    let z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
    z ^ (z >> 31)
}

const fn run_key(seed: u64, run: u64) -> u64 {
    let key = mix(seed.wrapping_add(GAMMA));
    mix(key.wrapping_add(GAMMA.wrapping_mul(run.wrapping_add(1))))
}

#[expect(clippy::cast_precision_loss, reason = "53 bits fit a double exactly")]
fn unit(key: u64, index: u64) -> f64 {
    let bits = mix(key.wrapping_add(GAMMA.wrapping_mul(index.wrapping_add(1))));
    ((bits >> 11) as f64 + 0.5) * (1.0 / 9_007_199_254_740_992.0)
}

/// The uniform number in (0, 1) of a seed, a run counted from 0, and an index of sampling.
pub fn uniform(seed: u64, run: u64, index: u64) -> f64 {
    unit(run_key(seed, run), index)
}

/// The normal quantile: Wichura 1988, Algorithm AS 241 (PPND16), Applied Statistics 37:477-484; for 0 < p < 1.
pub fn normal_quantile(p: f64) -> f64 {
    const A: [f64; 8] = [
        3.387_132_872_796_366_5,
        1.331_416_678_917_843_8e2,
        1.971_590_950_306_551_3e3,
        1.373_169_376_550_946e4,
        4.592_195_393_154_987e4,
        6.726_577_092_700_87e4,
        3.343_057_558_358_813e4,
        2.509_080_928_730_122_7e3,
    ];
    const B: [f64; 8] = [
        1.0,
        4.231_333_070_160_091e1,
        6.871_870_074_920_579e2,
        5.394_196_021_424_751e3,
        2.121_379_430_158_659_7e4,
        3.930_789_580_009_271e4,
        2.872_908_573_572_194_3e4,
        5.226_495_278_852_854e3,
    ];
    const C: [f64; 8] = [
        1.423_437_110_749_683_5,
        4.630_337_846_156_546,
        5.769_497_221_460_691,
        3.647_848_324_763_204_5,
        1.270_458_252_452_368_4,
        2.417_807_251_774_506e-1,
        2.272_384_498_926_918_4e-2,
        7.745_450_142_783_414e-4,
    ];
    const D: [f64; 8] = [
        1.0,
        2.053_191_626_637_759,
        1.676_384_830_183_803_8,
        6.897_673_349_851e-1,
        1.481_039_764_274_800_8e-1,
        1.519_866_656_361_645_7e-2,
        5.475_938_084_995_345e-4,
        1.050_750_071_644_416_9e-9,
    ];
    const E: [f64; 8] = [
        6.657_904_643_501_103,
        5.463_784_911_164_114,
        1.784_826_539_917_291_3,
        2.965_605_718_285_048_7e-1,
        2.653_218_952_657_612_4e-2,
        1.242_660_947_388_078_4e-3,
        2.711_555_568_743_487_6e-5,
        2.010_334_399_292_288e-7,
    ];
    const F: [f64; 8] = [
        1.0,
        5.998_322_065_558_88e-1,
        1.369_298_809_227_358e-1,
        1.487_536_129_085_061_5e-2,
        7.868_691_311_456_133e-4,
        1.846_318_317_510_054_8e-5,
        1.421_511_758_316_446e-7,
        2.044_263_103_389_939_8e-15,
    ];
    let ratio = |above: &[f64; 8], below: &[f64; 8], x: f64| {
        let sum = |c: &[f64; 8]| c.iter().rev().fold(0.0, |sum, k| sum * x + k);
        sum(above) / sum(below)
    };
    let q = p - 0.5;
    if q.abs() <= 0.425 {
        return q * ratio(&A, &B, 0.180_625 - q * q);
    }
    let r = (-libm::log(if q < 0.0 { p } else { 1.0 - p })).sqrt();
    let z = if r <= 5.0 { ratio(&C, &D, r - 1.6) } else { ratio(&E, &F, r - 5.0) };
    if q < 0.0 { -z } else { z }
}

/// The value at position `u` of a triangle; the most likely where the triangle has no width.
pub(super) fn triangular((low, mode, high): (f64, f64, f64), u: f64) -> f64 {
    if high <= low {
        return mode;
    }
    let width = high - low;
    if u < (mode - low) / width {
        low + (u * width * (mode - low)).sqrt()
    } else {
        high - ((1.0 - u) * width * (high - mode)).sqrt()
    }
}

impl Spread {
    /// The value at position `u`, 0 < u < 1.
    pub fn at(self, u: f64) -> f64 {
        self.quantile()(u)
    }

    /// The value by position, with what does not depend on the position worked out once.
    fn quantile(self) -> impl Fn(f64) -> f64 {
        let (log_low, log_width) = match self {
            Self::LogUniform(low, high) => (libm::log(low), libm::log(high) - libm::log(low)),
            _ => (0.0, 0.0),
        };
        move |u| match self {
            Self::Normal(mean, deviation) => mean + deviation * normal_quantile(u),
            Self::Lognormal(deviation) => libm::exp(deviation * normal_quantile(u)),
            Self::Uniform(low, high) => low + (high - low) * u,
            Self::LogUniform(..) => libm::exp(log_low + log_width * u),
            Self::Triangular(low, mode, high) => triangular((low, mode, high), u),
        }
    }
}

/// How positions are drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Scheme {
    /// Every parameter at its median; one run.
    Median,
    /// Each run apart.
    Plain,
    /// Every parameter in as many equal steps as there are runs, one run a step, in an order of its own.
    Stratified,
}

/// The runs of an ensemble: positions of all parameters, and the values of those that belong to the place.
///
/// One sample serves many inputs: differences between them are then taken run by run.
#[derive(Debug, Clone, PartialEq)]
pub struct Sample {
    seed: u64,
    /// How many were drawn.
    drawn: usize,
    scheme: Scheme,
    /// Those of them that count, where not all do.
    chosen: Option<Vec<usize>>,
    /// By index of parameter, then run.
    globals: Vec<Vec<f64>>,
}

impl Sample {
    /// Runs drawn apart from each other, as many as asked for (at least one).
    pub fn new(seed: u64, runs: u32) -> Self {
        Self::with(seed, runs, Scheme::Plain)
    }

    /// Runs spread evenly over every parameter (Latin hypercube; `McKay`, Beckman & Conover 1979, Technometrics
    /// 21:239-245): steadier for a reweighting.
    pub fn stratified(seed: u64, runs: u32) -> Self {
        Self::with(seed, runs, Scheme::Stratified)
    }

    /// The one run with every parameter at its median.
    pub fn median() -> Self {
        Self::with(0, 1, Scheme::Median)
    }

    fn with(seed: u64, runs: u32, scheme: Scheme) -> Self {
        let runs = usize::try_from(runs).unwrap_or(1).max(1);
        let sample = Self { seed, drawn: runs, scheme, chosen: None, globals: Vec::new() };
        sample.with_globals()
    }

    fn with_globals(mut self) -> Self {
        let values = |(index, (_, parameter)): (u64, &(Global, Parameter))| {
            self.values(index, parameter.median, parameter.spread)
        };
        self.globals = (0..).zip(&GLOBALS).map(values).collect();
        self
    }

    /// Some of the runs, by number, in this order; numbers that are not there are left out. What is drawn for a run
    /// stays the same.
    #[must_use]
    pub fn chosen(&self, runs: &[usize]) -> Self {
        let chosen = runs.iter().filter_map(|run| match &self.chosen {
            Some(before) => before.get(*run).copied(),
            None => Some(*run).filter(|run| *run < self.drawn),
        });
        let chosen = Some(chosen.collect());
        Self { seed: self.seed, drawn: self.drawn, scheme: self.scheme, chosen, globals: Vec::new() }
            .with_globals()
    }

    /// How many runs.
    pub fn runs(&self) -> usize {
        self.chosen.as_ref().map_or(self.drawn, Vec::len)
    }

    /// The seed.
    pub fn seed(&self) -> u64 {
        self.seed
    }

    /// Whether this is the run at the medians.
    pub fn is_median(&self) -> bool {
        self.scheme == Scheme::Median
    }

    /// The values of a parameter of the place, run by run.
    pub(super) fn global(&self, global: Global) -> &[f64] {
        self.globals.get(global as usize).map_or(&[], Vec::as_slice)
    }

    /// The values of one parameter over the runs.
    pub(super) fn values(&self, index: u64, median: f64, spread: Spread) -> Vec<f64> {
        let value = spread.quantile();
        let plain = |run: u64| value(uniform(self.seed, run, index));
        match (self.scheme, &self.chosen) {
            (Scheme::Median, _) => vec![median; self.runs()],
            (Scheme::Plain, None) => (0..self.drawn as u64).map(plain).collect(),
            (Scheme::Plain, Some(chosen)) => chosen.iter().map(|run| plain(*run as u64)).collect(),
            (Scheme::Stratified, None) => self.strata(index).into_iter().map(value).collect(),
            (Scheme::Stratified, Some(chosen)) => {
                let strata = self.strata(index);
                chosen.iter().filter_map(|run| strata.get(*run)).map(|u| value(*u)).collect()
            }
        }
    }

    /// Positions, one in each of as many steps as there are runs; the order is a shuffle (Fisher & Yates) keyed
    /// by seed and index.
    #[expect(clippy::cast_precision_loss, reason = "a number of runs is far below 2^53")]
    fn strata(&self, index: u64) -> Vec<f64> {
        /// Sets the shuffle's numbers apart from those of the positions.
        const SHUFFLE: u64 = 1 << 32;
        let count = self.drawn;
        let mut order: Vec<usize> = (0..count).collect();
        for last in (1..count).rev() {
            let u = uniform(self.seed, last as u64, SHUFFLE + index);
            #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "0 <= u < 1")]
            let other = (u * (last + 1) as f64) as usize;
            order.swap(last, other.min(last));
        }
        order
            .into_iter()
            .enumerate()
            .map(|(run, step)| (step as f64 + uniform(self.seed, run as u64, index)) / count as f64)
            .collect()
    }
}
