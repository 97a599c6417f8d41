//! How deep a layer lies by finger and hand, and how deep a tool goes.

use super::{Likely, question};

question! {
    /// What it was dug in with.
    DugInWith {
        /// A hoe or rake.
        Hoe = "hoe",
        /// A fork.
        Fork = "fork",
        /// A spade.
        Spade = "spade",
        /// A tiller.
        Tiller = "tiller",
        /// A plough.
        Plough = "plough",
        /// Nobody knows.
        Unknown = "unknown",
    }
}

impl DugInWith {
    /// Depth, cm.
    pub const fn depth_cm(self) -> Likely {
        match self {
            Self::Hoe => Likely::practice(3.0, 5.0, 8.0),
            Self::Fork => Likely::practice(12.0, 18.0, 23.0),
            Self::Spade => Likely::practice(20.0, 25.0, 30.0),
            Self::Tiller => Likely::practice(9.0, 14.0, 20.0),
            Self::Plough => Likely::practice(17.0, 22.0, 29.0),
            Self::Unknown => Likely::assumed(5.0, 18.0, 28.0),
        }
    }
}

question! {
    /// What a depth was measured by.
    LaidBy {
        /// Fingers across.
        Fingers = "fingers",
        /// Hands across, thumb and all.
        Hands = "hands",
    }
}

impl LaidBy {
    /// Width of one, mm.
    pub const fn width_mm(self) -> Likely {
        match self {
            Self::Fingers => Likely::practice(16.0, 20.0, 24.0),
            Self::Hands => Likely::practice(85.0, 100.0, 115.0),
        }
    }
}
