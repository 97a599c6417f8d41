//! How residue enters a soil's carbon: its shares of quick and slow, and what of it becomes humus, each as a band.

use super::humus;
use super::rothc::{CROPS, Input, SCRUB, TREES};
use crate::material::{ModelClass, Part};
use crate::source::{Source, Sourced, Standing};

/// A figure with its two ends.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Ends {
    /// Low end.
    pub low: f64,
    /// Usual.
    pub typical: f64,
    /// High end.
    pub high: f64,
}

impl Ends {
    /// The same done to each.
    #[must_use]
    pub fn map(self, of: impl Fn(f64) -> f64) -> Self {
        Self { low: of(self.low), typical: of(self.typical), high: of(self.high) }
    }

    /// End by end.
    #[must_use]
    pub fn with(self, other: Self, of: impl Fn(f64, f64) -> f64) -> Self {
        Self {
            low: of(self.low, other.low),
            typical: of(self.typical, other.typical),
            high: of(self.high, other.high),
        }
    }

    const fn new(low: f64, typical: f64, high: f64) -> Self {
        Self { low, typical, high }
    }
}

/// One end of what nobody knows: all of it together on the side that leaves less, in the middle, or on the other.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum End {
    /// Less stays.
    Low,
    /// Usual.
    Typical,
    /// More stays.
    High,
}

impl End {
    /// All three.
    pub const ALL: [Self; 3] = [Self::Low, Self::Typical, Self::High];

    /// The figure of a band at this end.
    pub const fn of(self, ends: Ends) -> f64 {
        match self {
            Self::Low => ends.low,
            Self::Typical => ends.typical,
            Self::High => ends.high,
        }
    }
}

/// Carbon of wood by dry mass, against its mean: 43.4 to 56.8 of 49.3 %.
pub const CARBON_OF_WOOD: Sourced<Ends> = Sourced::new(
    Ends::new(43.4 / 49.3, 1.0, 56.8 / 49.3),
    Source::new(
        "Harmon et al.",
        2013,
        "For. Ecol. Manage. 291:259-267",
        "mean and ends",
        Standing::Published,
    ),
);
/// Carbon in the organic matter of compost and manure.
pub const CARBON_OF_ORGANIC_MATTER: Sourced<f64> = Sourced::new(
    0.54,
    Source::new("Clemson University", 0, "compost interpretation", "organic matter", Standing::Published),
);
/// Decomposable to resistant in wood and bark: as scrub, as what falls from trees, and nothing but resistant.
/// Nobody fitted the model to sawdust.
pub const OF_WOOD: Sourced<Ends> = Sourced::new(Ends::new(SCRUB.value, TREES.value, 0.0), Source::ASSUMPTION);
/// The same of straw, leaves and meals: as residue of crops; the high end as scrub.
pub const OF_GREEN: Sourced<Ends> =
    Sourced::new(Ends::new(CROPS.value, CROPS.value, SCRUB.value), Source::ASSUMPTION);
/// The same of compost and manure at the ends; in the middle they are farmyard manure.
pub const OF_COMPOST: Sourced<[f64; 2]> = Sourced::new([CROPS.value, TREES.value], Source::ASSUMPTION);

/// Where a class stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Sort {
    Wood,
    Green,
    Manure,
    Compost,
}

const fn sort(class: ModelClass) -> Sort {
    match class {
        ModelClass::Straw | ModelClass::Leaves | ModelClass::Meal => Sort::Green,
        ModelClass::Manure => Sort::Manure,
        ModelClass::Compost | ModelClass::CompostedWood => Sort::Compost,
        _ => Sort::Wood,
    }
}

/// The sort of a part of a material; the classes that one part may be are of one sort.
fn sort_of(part: &Part) -> Sort {
    part.one_of.first().map_or(Sort::Wood, |class| sort(*class))
}

/// Carbon of a part by dry mass.
pub fn carbon_share(part: &Part, end: End) -> f64 {
    let factor = if sort_of(part) == Sort::Wood { end.of(CARBON_OF_WOOD.value) } else { 1.0 };
    part.carbon_share() * factor
}

/// So much carbon of a part as it enters the model, t/ha.
pub fn input(part: &Part, carbon_t_ha: f64, end: End) -> Input {
    let plant = |ratio: f64| Input { plant: carbon_t_ha, decomposable_resistant: ratio, ..Input::default() };
    let [quick, slow] = OF_COMPOST.value;
    match (sort_of(part), end) {
        (Sort::Wood, end) => plant(end.of(OF_WOOD.value)),
        (Sort::Green, end) => plant(end.of(OF_GREEN.value)),
        (Sort::Manure | Sort::Compost, End::Low) => plant(quick),
        (Sort::Manure | Sort::Compost, End::High) => plant(slow),
        (Sort::Manure | Sort::Compost, End::Typical) => Input { manure: carbon_t_ha, ..Input::default() },
    }
}

/// What of a part's dry mass becomes humus: its organic matter times the isohumic coefficient.
pub fn humus_share(part: &Part) -> Ends {
    let [low, high] = match sort_of(part) {
        Sort::Wood => humus::WOOD.value,
        Sort::Green => humus::STRAW.value,
        Sort::Manure => humus::FRESH_MANURE.value,
        Sort::Compost => humus::COMPOSTED_MANURE.value,
    };
    let organic = match sort_of(part) {
        Sort::Wood | Sort::Green => 1.0,
        Sort::Manure | Sort::Compost => (part.carbon_share() / CARBON_OF_ORGANIC_MATTER.value).min(1.0),
    };
    Ends { low, typical: f64::midpoint(low, high), high }.map(|share| share * organic)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_end_that_keeps_less_is_quicker_and_holds_less_carbon() {
        for class in ModelClass::ALL {
            let classes: &'static [ModelClass] = Box::leak(Box::new([class]));
            let part = Part { share: 1.0, one_of: classes };
            let shares = End::ALL.map(|end| carbon_share(&part, end));
            assert!(shares.is_sorted(), "{class:?}: {shares:?}");
            let humus = humus_share(&part);
            assert!(0.0 < humus.low && humus.low <= humus.high && humus.high <= 0.5, "{class:?}: {humus:?}");
            let entered = End::ALL.map(|end| input(&part, 1.0, end));
            assert!(entered.iter().all(|input| (input.plant + input.manure - 1.0).abs() < 1e-12));
            let [low, _, high] = entered.map(|input| input.decomposable_resistant);
            assert!(low >= high, "{class:?}");
        }
    }
}
