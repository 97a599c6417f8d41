//! Soil was worked.

use super::kinded;
use crate::entry::field::{codes, record};

codes! {
    /// What the soil was worked with.
    Tool, "tool" {
        /// A hoe.
        Hoe = 1, "hoe";
        /// A fork.
        Fork = 2, "fork";
        /// A spade.
        Spade = 3, "spade";
        /// A tiller.
        Tiller = 4, "tiller";
        /// A plough.
        Plough = 5, "plough";
        /// Don't know.
        Unknown = 6, "unknown";
    }
}

record! {
    /// The soil of the place that the entry is about was worked; what lay there is dug in.
    SoilWorked {
        /// Depth, mm.
        depth_mm: u32,
        /// Part of the place, 0.01 %; all of it where absent.
        share_bp: Option<u32>,
        /// What with.
        tool: Option<Tool>,
        /// Nobody measured: the depth is what the tool stands for.
        by_tool: Option<bool>,
    }
}

kinded!(SoilWorked, version 2, about Place, before [(1, 3)]);
