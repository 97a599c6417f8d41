//! Loose against settled: residue packs, and so a depth needs its date.

use crate::material::Range;
use crate::source::{Source, Sourced, Standing};
use crate::units::{Length, Volume};

const BRIGGS: Source = Source::new(
    "Briggs",
    1994,
    "Forest Products Measurements and Conversion Factors",
    "table 7-1, after Dobie & Wright 1972",
    Standing::Published,
);

/// What is measured as so many parts of loose or packed residue for one part of solid wood.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Residue {
    /// Pulp chips as poured.
    ChipsLoose,
    /// Pulp chips packed.
    ChipsCompacted,
    /// Sawdust.
    Sawdust,
    /// Planer shavings.
    Shavings,
    /// Bark, for one part of solid bark.
    Bark,
    /// Hog fuel.
    HogFuel,
}

impl Residue {
    /// Volume of residue for one volume of solid wood.
    pub const fn expansion(self) -> Sourced<f64> {
        let factor = match self {
            Self::ChipsLoose => 2.86,
            Self::ChipsCompacted | Self::Sawdust => 2.50,
            Self::Shavings => 4.00,
            Self::Bark => 2.35,
            Self::HogFuel => 2.74,
        };
        Sourced::new(factor, BRIGGS)
    }
}

/// Settled volume of chips, part of the loose: the ratios of five printed pairs of density.
pub const CHIPS_SETTLE_TO: Range = Range {
    low: 0.743,
    typical: 0.79,
    high: 0.808,
    source: Source::new(
        "Briggs",
        1994,
        "Forest Products Measurements and Conversion Factors",
        "table 7-2A, loose over compacted",
        Standing::Recomputed,
    ),
    ends: Standing::Recomputed,
};

/// How a layer or a load has settled, as measured.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Settling(f64);

impl Settling {
    /// Not settled yet.
    pub const NONE: Self = Self(1.0);

    /// From the depth as laid and the depth later; `None` where either is none or the layer has grown by more than a
    /// tenth, which is another layer or a mistake.
    pub fn measured(loose: Length, settled: Length) -> Option<Self> {
        Self::of(settled.m() / loose.m())
    }

    /// A settled part of the loose volume, above 0 and at most 1.1.
    pub fn of(settled_over_loose: f64) -> Option<Self> {
        (settled_over_loose > 0.0 && settled_over_loose <= 1.1).then_some(Self(settled_over_loose))
    }

    /// Settled, part of loose.
    pub const fn factor(self) -> f64 {
        self.0
    }

    /// What a loose volume settles to.
    pub fn settled(self, loose: Volume) -> Volume {
        loose * self.0
    }

    /// What a settled volume was when loose.
    pub fn loose(self, settled: Volume) -> Volume {
        settled / self.0
    }
}

#[cfg(test)]
#[expect(clippy::unwrap_used, reason = "a test may stop where it stands")]
mod tests {
    use super::*;

    #[test]
    fn a_layer_settles_and_comes_back() {
        let settling = Settling::measured(Length::from_cm(10.0), Length::from_cm(8.0)).unwrap();
        let loose = Volume::from_m3(3.0);
        assert!((settling.settled(loose).m3() - 2.4).abs() < 1e-12);
        assert!((settling.loose(settling.settled(loose)).m3() - 3.0).abs() < 1e-12);
        for (laid, later) in [(0.0, 8.0), (10.0, 0.0), (10.0, 12.0), (f64::NAN, 1.0)] {
            assert_eq!(Settling::measured(Length::from_cm(laid), Length::from_cm(later)), None);
        }
    }

    #[test]
    fn the_printed_pairs_of_density_lie_within_the_range() {
        // Wet kg/m³ loose and compacted: Douglas-fir, hemlock, redcedar, redcedar shakes, Douglas-fir planer mill.
        for (loose, compacted) in
            [(251.0, 317.0), (255.0, 322.0), (210.0, 260.0), (200.0, 269.0), (176.0, 219.0)]
        {
            let part = loose / compacted;
            assert!(part > CHIPS_SETTLE_TO.low && part < CHIPS_SETTLE_TO.high, "{part}");
        }
    }
}
