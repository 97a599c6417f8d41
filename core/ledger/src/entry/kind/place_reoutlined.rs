//! A place was measured anew.

use super::kinded;
use super::place_outlined::Measured;
use super::plain::{Cover, Watering};
use crate::entry::field::record;
use crate::entry::outline::{Anchor, Outline};
use crate::entry::trees::Trees;
use crate::entry::walked::Walked;

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
        /// Standard uncertainty of the area, mm2, where the way of measuring tells one.
        area_sd_mm2: Option<u64>,
        /// How a receiver measured it.
        walk: Option<Walked>,
        /// More rings in the outline's frame: those that run as the outline does are more ground, the others holes.
        further: Option<Vec<Outline>>,
        /// The trees that stand there.
        trees: Option<Trees>,
        /// What is over it; as before where absent.
        cover: Option<Cover>,
        /// How it is watered; as before where absent.
        watered: Option<Watering>,
    }
}

impl PlaceReoutlined {
    /// A place of which nothing is known but its new size.
    pub const fn of(measured: Measured, area_mm2: u64) -> Self {
        Self {
            measured,
            area_mm2,
            anchor: None,
            outline: Outline(Vec::new()),
            container_ml: None,
            containers: None,
            rooting_depth_mm: None,
            area_sd_mm2: None,
            walk: None,
            further: None,
            trees: None,
            cover: None,
            watered: None,
        }
    }
}

kinded!(PlaceReoutlined, version 3, about Place, before [(1, 7), (2, 11)]);
