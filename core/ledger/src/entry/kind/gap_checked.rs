//! The gap at a trunk was checked.

use super::kinded;
use crate::entry::field::record;

record! {
    /// What was found at the trunks of the place that the entry is about.
    GapChecked {
        /// Gap between trunk and layer, mm.
        gap_mm: u32,
        /// Plants or trees looked at.
        plants: Option<u32>,
        /// Emitters found blocked.
        blocked_emitters: Option<u32>,
        /// What was wrong was put right.
        mended: bool,
    }
}

kinded!(GapChecked, version 1, about Place);
