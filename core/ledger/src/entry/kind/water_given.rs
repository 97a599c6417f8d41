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
        /// It went under what lies there: by lines beneath it, or before it was laid.
        under: Option<bool>,
    }
}

kinded!(WaterGiven, version 2, about Place, before [(1, 2)]);
