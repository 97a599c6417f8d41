//! What the hand and the eye tell of soil.

use super::{Likely, question};

question! {
    /// Damp soil, rolled between the palms.
    Rolled {
        /// Falls apart: sandy.
        Crumbles = "crumbles",
        /// Holds as a ball and breaks as it is bent: loamy.
        Ball = "ball",
        /// Makes a ribbon that bends: clayey.
        Ribbon = "ribbon",
        /// Nobody tried.
        Unknown = "unknown",
    }
}

impl Rolled {
    /// Clay, per cent of the fine earth.
    pub const fn clay_pct(self) -> Likely {
        match self {
            Self::Crumbles => Likely::practice(3.0, 8.0, 14.0),
            Self::Ball => Likely::practice(12.0, 20.0, 28.0),
            Self::Ribbon => Likely::practice(27.0, 38.0, 52.0),
            Self::Unknown => Likely::assumed(6.0, 20.0, 42.0),
        }
    }

    /// Sand, per cent of the fine earth.
    pub const fn sand_pct(self) -> Likely {
        match self {
            Self::Crumbles => Likely::practice(60.0, 75.0, 88.0),
            Self::Ball => Likely::practice(25.0, 40.0, 55.0),
            Self::Ribbon => Likely::practice(10.0, 25.0, 42.0),
            Self::Unknown => Likely::assumed(15.0, 40.0, 75.0),
        }
    }
}

question! {
    /// The colour of moist topsoil.
    Colour {
        /// Pale, yellowish or grey.
        Pale = "pale",
        /// Brown.
        Brown = "brown",
        /// Dark brown.
        Dark = "dark",
        /// Nearly black.
        Black = "black",
        /// Nobody looked.
        Unknown = "unknown",
    }
}

impl Colour {
    /// Organic matter, per cent of mass.
    pub const fn organic_matter_pct(self) -> Likely {
        match self {
            Self::Pale => Likely::practice(0.8, 1.5, 2.5),
            Self::Brown => Likely::practice(1.8, 2.8, 4.2),
            Self::Dark => Likely::practice(3.0, 4.5, 7.0),
            Self::Black => Likely::practice(5.0, 8.0, 12.0),
            Self::Unknown => Likely::assumed(1.2, 3.0, 8.5),
        }
    }
}

question! {
    /// Whether the crop before was fed.
    LastCropFed {
        /// Manured or fertilised well.
        Yes = "yes",
        /// Little or nothing was given.
        No = "no",
        /// Nobody knows.
        Unknown = "unknown",
    }
}

impl LastCropFed {
    /// Mineral nitrogen of the root zone as the season starts, kg/ha.
    pub const fn mineral_nitrogen_kg_ha(self) -> Likely {
        match self {
            Self::Yes => Likely::practice(32.0, 60.0, 112.0),
            Self::No => Likely::practice(13.0, 25.0, 48.0),
            Self::Unknown => Likely::assumed(18.0, 45.0, 112.0),
        }
    }
}
