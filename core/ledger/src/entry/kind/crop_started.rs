//! A crop was sown or planted.

use super::kinded;
use crate::entry::field::{Label, codes, record};
use crate::entry::id::Date;

codes! {
    /// How hungry a crop is, where no figure is known.
    Appetite, "appetite" {
        /// Little.
        Light = 1, "light";
        /// Middling.
        Middling = 2, "middling";
        /// Much.
        Hungry = 3, "hungry";
        /// Don't know.
        Unknown = 4, "unknown";
    }
}

record! {
    /// Opens a crop on the place that the entry is about.
    CropStarted {
        /// What is grown.
        crop: Label,
        /// Nitrogen taken up in full, mg/m2 (1 kg/ha is 100).
        need_mg_m2: Option<u32>,
        /// Nitrogen a tree takes up in a year, mg.
        tree_mg: Option<u64>,
        /// How hungry, where no figure is known.
        appetite: Option<Appetite>,
        /// When it is expected to end.
        ends: Option<Date>,
        /// Days from the start to half of the uptake.
        midpoint_day: Option<u32>,
        /// Part that a legume fixes itself, 0.01 %.
        fixed_bp: u32,
        /// Number of plants or trees.
        plants: Option<u32>,
    }
}

// The second version knows one appetite more.
kinded!(CropStarted, version 2, about Place, before [(1, 8)]);
