//! How hungry a crop is.

use super::{Likely, question};

question! {
    /// The appetite of a crop of which no figure is known.
    Appetite {
        /// Light.
        Light = "light",
        /// Middling.
        Middling = "middling",
        /// Hungry.
        Hungry = "hungry",
        /// Nobody knows.
        Unknown = "unknown",
    }
}

impl Appetite {
    /// Nitrogen taken up in a season, kg/ha.
    pub const fn need_kg_ha(self) -> Likely {
        match self {
            Self::Light => Likely::practice(40.0, 60.0, 85.0),
            Self::Middling => Likely::practice(80.0, 110.0, 150.0),
            Self::Hungry => Likely::practice(135.0, 180.0, 240.0),
            Self::Unknown => Likely::assumed(50.0, 110.0, 215.0),
        }
    }
}
