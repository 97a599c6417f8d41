//! A place was measured anew.

use super::kinded;
use super::place_outlined::Measured;
use crate::entry::field::record;
use crate::entry::outline::{Anchor, Outline};

record! {
    /// New figures for the place that the entry is about; they hold from its date.
    PlaceReoutlined {
        /// How its size came about.
        measured: Measured,
        /// Area, mm2; of rings, all together less the gaps.
        area_mm2: u64,
        /// Where the outline's frame lies, where it is known.
        anchor: Option<Anchor>,
        /// Corners, mm; empty where only the area is known.
        outline: Outline,
        /// Volume of one container, mL.
        container_ml: Option<u64>,
        /// Number of containers or trees.
        containers: Option<u32>,
        /// Depth that roots reach, mm.
        rooting_depth_mm: Option<u32>,
    }
}

kinded!(PlaceReoutlined, version 1, about Place);
