//! What the hand, the eye and the nose tell of sawdust and chips.

use super::{Likely, question};
use crate::material::Particle;
use crate::source::{Source, Sourced};

question! {
    /// What wood it is.
    Wood {
        /// From trees with broad leaves.
        Hardwood = "hardwood",
        /// From trees with needles.
        Softwood = "softwood",
        /// Both.
        Mixed = "mixed",
        /// Nobody knows.
        Unknown = "unknown",
    }
}

question! {
    /// A handful rubbed: what the pieces are like.
    Pieces {
        /// As fine as flour.
        Flour = "flour",
        /// Like ground coffee.
        Coffee = "coffee",
        /// Thin flakes and curls.
        Flakes = "flakes",
        /// Like matchsticks.
        Matchsticks = "matchsticks",
        /// Bigger.
        Bigger = "bigger",
        /// Nobody looked.
        Unknown = "unknown",
    }
}

/// Spread that unknown pieces add to the rate of decay, standard deviation of its logarithm: dust and chips differ
/// fourfold.
const UNKNOWN_PIECES_SPREAD: f64 = 0.54;

impl Pieces {
    /// Size in the model; none where nobody looked.
    pub const fn particle(self) -> Option<Sourced<Particle>> {
        let size = match self {
            Self::Flour | Self::Coffee => Particle::Dust,
            Self::Flakes => Particle::Shavings,
            Self::Matchsticks | Self::Bigger => Particle::Chips,
            Self::Unknown => return None,
        };
        Some(Sourced::new(size, Source::COMMON_PRACTICE))
    }

    /// Share of the mass under 10 mm.
    pub const fn fines_share(self) -> Sourced<f64> {
        let share = match self {
            Self::Flour | Self::Coffee | Self::Flakes | Self::Unknown => 0.0,
            Self::Matchsticks => 0.35,
            Self::Bigger => 0.10,
        };
        Sourced::new(share, Source::ASSUMPTION)
    }

    /// Standard deviation that not knowing them adds to the logarithm of the rate of decay.
    pub const fn rate_spread(self) -> Sourced<f64> {
        let spread = match self {
            Self::Unknown => UNKNOWN_PIECES_SPREAD,
            _ => 0.0,
        };
        Sourced::new(spread, Source::ASSUMPTION)
    }
}

impl Wood {
    /// The row of the table of materials that it is, by the size of its pieces.
    pub const fn material(self, pieces: Pieces) -> &'static str {
        match (self, pieces) {
            (Self::Hardwood, Pieces::Flakes) => "shavings, hardwood",
            (Self::Softwood, Pieces::Flakes) => "shavings, softwood",
            (Self::Mixed, Pieces::Flakes) => "shavings, hardwood and softwood",
            (Self::Unknown, Pieces::Flakes) => "shavings, mixed",
            (Self::Hardwood, Pieces::Matchsticks | Pieces::Bigger) => "wood chips, hardwood",
            (Self::Softwood, Pieces::Matchsticks | Pieces::Bigger) => "wood chips, softwood",
            (Self::Mixed, Pieces::Matchsticks | Pieces::Bigger) => "chips, hardwood and softwood",
            (Self::Unknown, Pieces::Matchsticks | Pieces::Bigger) => "wood waste chips, mixed",
            (Self::Hardwood, _) => "sawdust, hardwood",
            (Self::Softwood, _) => "sawdust, softwood",
            (Self::Mixed, _) => "sawdust, hardwood and softwood",
            (Self::Unknown, _) => "wood, unknown",
        }
    }
}

question! {
    /// A handful squeezed.
    Handful {
        /// Gives off dust.
        Dusty = "dusty",
        /// Cool and damp, no water comes.
        Damp = "damp",
        /// Water drips.
        Drips = "drips",
        /// Nobody tried.
        Unknown = "unknown",
    }
}

impl Handful {
    /// Water, per cent of the wet mass.
    pub const fn moisture_pct(self) -> Likely {
        match self {
            Self::Dusty => Likely::practice(9.5, 15.0, 20.5),
            Self::Damp => Likely::practice(34.0, 42.0, 50.0),
            Self::Drips => Likely::practice(60.5, 65.0, 69.5),
            Self::Unknown => Likely::assumed(14.0, 40.0, 64.0),
        }
    }
}

question! {
    /// How old it looks and smells.
    Age {
        /// Bright, smells of wood or resin.
        Fresh = "fresh",
        /// Some months in a heap, still bright inside.
        Months = "months",
        /// A year or so, grey, smells of little.
        Year = "year",
        /// Years, dark, smells of earth.
        Years = "years",
        /// Nobody knows.
        Unknown = "unknown",
    }
}

impl Age {
    /// What is left of the part that decays fast, against fresh wood.
    ///
    /// The rate of the accessible carbon is taken down by it. C:N is left as it is: where it stays in the hundreds,
    /// the nitrogen in the wood decides little.
    pub const fn left(self) -> Likely {
        match self {
            Self::Fresh => Likely::assumed(0.95, 1.0, 1.05),
            Self::Months => Likely::assumed(0.82, 0.92, 1.0),
            Self::Year => Likely::assumed(0.60, 0.78, 0.95),
            Self::Years => Likely::assumed(0.30, 0.50, 0.75),
            Self::Unknown => Likely::assumed(0.48, 0.88, 1.05),
        }
    }
}
