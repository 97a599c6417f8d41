//! Water was given.

use super::kinded;
use crate::entry::field::record;

record! {
    /// Water went to the place that the entry is about.
    WaterGiven {
        /// Depth over the place, mm.
        depth_mm: Option<u32>,
        /// Volume, mL.
        volume_ml: Option<u64>,
    }
}

kinded!(WaterGiven, version 1, about Place);
