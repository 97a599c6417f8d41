//! `RothC`, month by month: five pools of carbon, t/ha.
//!
//! Coleman and Jenkinson, model description; the shares of inputs as FAO restates them. Each month the pools decay, what
//! decayed is split into carbon dioxide, biomass and humus, then the month's input enters.

use super::{FAO, inert};
use crate::published::rothc as published;
use crate::source::{Source, Sourced, Standing};
use crate::units::AreaMass;

/// The model.
pub const COLEMAN: Source = Source::new(
    "Coleman and Jenkinson",
    2014,
    "RothC, a model for the turnover of carbon in soil",
    "model description",
    Standing::FromMemory,
);

/// Decay a year of decomposable and resistant plant material, biomass and humus.
pub const RATES: Sourced<[f64; 4]> = Sourced::new([10.0, 0.3, 0.66, 0.02], COLEMAN);
/// Biomass of what is kept; the rest is humus.
pub const BIOMASS_OF_KEPT: Sourced<f64> = Sourced::new(0.46, FAO);
/// Decomposable, resistant and humified part of farmyard manure.
pub const MANURE: Sourced<[f64; 3]> = Sourced::new([0.49, 0.49, 0.02], COLEMAN);
/// Decomposable to resistant in crop residue.
pub const CROPS: Sourced<f64> = Sourced::new(1.44, FAO);
/// The same in scrub and rough grass.
pub const SCRUB: Sourced<f64> = Sourced::new(0.67, FAO);
/// The same in what falls from trees.
pub const TREES: Sourced<f64> = Sourced::new(0.25, FAO);

/// Carbon in each pool, t/ha.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Pools {
    /// Decomposable plant material.
    pub decomposable: f64,
    /// Resistant plant material.
    pub resistant: f64,
    /// Biomass.
    pub biomass: f64,
    /// Humus.
    pub humus: f64,
    /// Inert.
    pub inert: f64,
}

impl Pools {
    /// All of it.
    pub fn total(&self) -> f64 {
        self.decomposable + self.resistant + self.biomass + self.humus + self.inert
    }

    /// A soil of which only the sum is known: the inert part by formula, the rest in the shares that settle under an
    /// input of crop residue alone.
    pub fn of_stock(stock: AreaMass, clay_pct: f64) -> Self {
        let inert = inert(stock).t_ha().min(stock.t_ha());
        let active = stock.t_ha() - inert;
        let settled = settled(clay_pct);
        let share = active / settled.total();
        Self {
            decomposable: settled.decomposable * share,
            resistant: settled.resistant * share,
            biomass: settled.biomass * share,
            humus: settled.humus * share,
            inert,
        }
    }
}

/// Carbon that enters in a month, t/ha.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Input {
    /// Plant residue.
    pub plant: f64,
    /// Decomposable to resistant in it.
    pub decomposable_resistant: f64,
    /// Farmyard manure and what is taken as such.
    pub manure: f64,
}

/// What growing plants leave of the rate of decay.
pub const COVERED: Sourced<f64> = Sourced::new(0.6, COLEMAN);
/// Open-pan evaporation whose part counts as evaporation of a cropped soil.
pub const OF_PAN: Sourced<f64> = Sourced::new(0.75, COLEMAN);

/// Usual months of a place, as the model wants them.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Months {
    /// Mean temperature, °C.
    pub mean_c: [f64; 12],
    /// Rain and water given, mm.
    pub rain_mm: [f64; 12],
    /// Reference evaporation, mm a month.
    pub evaporation_mm: [f64; 12],
    /// Something grows.
    pub covered: [bool; 12],
}

/// The rate modifier of each month: temperature, moisture and cover together. Moisture is that of a soil that is cropped
/// where anything grows in the year. `wet` where water never lacks.
pub fn modifiers(months: &Months, clay_pct: f64, depth_cm: f64, wet: bool) -> [f64; 12] {
    let bare = !months.covered.contains(&true);
    let largest = published::largest_deficit(clay_pct, depth_cm, bare);
    let moisture = if wet { [1.0; 12] } else { moisture(&months.rain_mm, &months.evaporation_mm, largest) };
    let mut all = [0.0; 12];
    for (at, modifier) in all.iter_mut().enumerate() {
        let of = |values: &[f64; 12]| values.get(at).copied().unwrap_or_default();
        let cover = if months.covered.get(at) == Some(&true) { COVERED.value } else { 1.0 };
        *modifier = published::temperature(of(&months.mean_c)) * of(&moisture) * cover;
    }
    all
}

/// The moisture account of a year that comes again and again: it begins where the year is wettest, on either side of the
/// equator, so that no deficit is left from the year before.
fn moisture(rain_mm: &[f64; 12], evaporation_mm: &[f64; 12], largest: f64) -> [f64; 12] {
    let surplus = |month: usize| match (rain_mm.get(month), evaporation_mm.get(month)) {
        (Some(rain), Some(evaporation)) => rain - evaporation,
        _ => 0.0,
    };
    let wettest = (0..12).max_by(|a, b| surplus(*a).total_cmp(&surplus(*b))).unwrap_or(0);
    let turned = |of: &[f64; 12]| {
        let mut turned = *of;
        turned.rotate_left(wettest);
        turned
    };
    let pan = evaporation_mm.map(|mm| mm / OF_PAN.value);
    let mut account =
        published::moisture(&turned(rain_mm), &turned(&pan), largest).map(|month| month.modifier);
    account.rotate_right(wettest);
    account
}

/// Carbon dioxide for each part kept, of what decays in a soil of so much clay.
pub fn dioxide_per_kept(clay_pct: f64) -> f64 {
    1.67 * (1.85 + 1.60 * libm::exp(-0.0786 * clay_pct))
}

/// One month: decay under the month's rate modifier (temperature, moisture and cover together), then the input.
pub fn month(pools: &Pools, modifier: f64, clay_pct: f64, input: &Input) -> Pools {
    let [decomposable, resistant, biomass, humus] = RATES.value;
    let left = |pool: f64, rate: f64| pool * libm::exp(-rate * modifier / 12.0);
    let after = Pools {
        decomposable: left(pools.decomposable, decomposable),
        resistant: left(pools.resistant, resistant),
        biomass: left(pools.biomass, biomass),
        humus: left(pools.humus, humus),
        inert: pools.inert,
    };
    let kept = (pools.total() - after.total()) / (1.0 + dioxide_per_kept(clay_pct));
    let ratio = input.decomposable_resistant;
    let [manure_decomposable, manure_resistant, manure_humus] = MANURE.value;
    Pools {
        decomposable: after.decomposable
            + input.plant * ratio / (1.0 + ratio)
            + input.manure * manure_decomposable,
        resistant: after.resistant + input.plant / (1.0 + ratio) + input.manure * manure_resistant,
        biomass: after.biomass + kept * BIOMASS_OF_KEPT.value,
        humus: after.humus + kept * (1.0 - BIOMASS_OF_KEPT.value) + input.manure * manure_humus,
        inert: after.inert,
    }
}

/// The same month in so many steps, with its input at the end. One step is the model as published: what a month's decay
/// makes does not decay in that month. Many steps come to the equations in continuous time, by which some programs run
/// it; over a century the two differ by less than 0.2 % of all carbon.
pub fn month_in_steps(pools: &Pools, modifier: f64, clay_pct: f64, input: &Input, steps: u32) -> Pools {
    let part = modifier / f64::from(steps.max(1));
    let last = (1..steps).fold(*pools, |pools, _| month(&pools, part, clay_pct, &Input::default()));
    month(&last, part, clay_pct, input)
}

/// Years of the same twelve months: the pools at the end of each year.
pub fn years(
    start: Pools,
    modifiers: &[f64; 12],
    clay_pct: f64,
    inputs: &[Input; 12],
    years: u32,
) -> Vec<Pools> {
    let mut pools = start;
    (0..years)
        .map(|_| {
            for (modifier, input) in modifiers.iter().zip(inputs) {
                pools = month(&pools, *modifier, clay_pct, input);
            }
            pools
        })
        .collect()
}

/// Pools that an input of one t/ha and year of crop residue settles at, without weather: each stands where what decays is
/// what enters. Only their proportions matter.
fn settled(clay_pct: f64) -> Pools {
    let [decomposable, resistant, biomass, humus] = RATES.value;
    let ratio = CROPS.value;
    let kept = 1.0 / (1.0 + dioxide_per_kept(clay_pct));
    let (to_biomass, to_humus) = (kept * BIOMASS_OF_KEPT.value, kept * (1.0 - BIOMASS_OF_KEPT.value));
    // All that decays in a year is the input and what comes back through biomass and humus.
    let flow = 1.0 / (1.0 - to_biomass - to_humus);
    Pools {
        decomposable: ratio / (1.0 + ratio) / decomposable,
        resistant: 1.0 / (1.0 + ratio) / resistant,
        biomass: flow * to_biomass / biomass,
        humus: flow * to_humus / humus,
        inert: 0.0,
    }
}
