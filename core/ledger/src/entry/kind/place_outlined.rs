//! A place was named and measured.

use super::kinded;
use super::plain::{Cover, Watering};
use crate::entry::field::{Label, codes, record};
use crate::entry::outline::{Anchor, Outline};
use crate::entry::trees::Trees;
use crate::entry::walked::Walked;

codes! {
    /// What kind of ground it is.
    PlaceKind, "kind of place" {
        /// A bed.
        Bed = 1, "bed";
        /// A row.
        Row = 2, "row";
        /// Rings under trees.
        Rings = 3, "rings";
        /// A path.
        Path = 4, "path";
        /// Where heaps lie; nothing grows there.
        Yard = 5, "yard";
        /// A trial plot.
        Plot = 6, "plot";
        /// A pot, bag or box.
        Container = 7, "container";
    }
}

codes! {
    /// How the size came about.
    Measured, "way of measuring" {
        /// A figure was typed.
        Typed = 1, "typed";
        /// Sides or offsets were taped.
        Taped = 2, "taped";
        /// Its edge was walked.
        Walked = 3, "walked";
        /// It was read from a file.
        File = 4, "file";
        /// Somebody stood at its corners with a receiver.
        Marked = 5, "marked";
        /// Compass and tape, all round.
        Traverse = 6, "traverse";
        /// The rings of its trees, less what overlaps and the gaps.
        Rings = 7, "rings";
        /// Length and width of its rows.
        Rows = 8, "rows";
    }
}

record! {
    /// Opens a place.
    PlaceOutlined {
        /// What it is called.
        label: Label,
        /// What kind of ground.
        place_kind: PlaceKind,
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
        /// What is over it.
        cover: Option<Cover>,
        /// How it is watered.
        watered: Option<Watering>,
    }
}

impl PlaceOutlined {
    /// A place of which nothing is known but its size.
    pub const fn of(label: Label, place_kind: PlaceKind, measured: Measured, area_mm2: u64) -> Self {
        Self {
            label,
            place_kind,
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

kinded!(PlaceOutlined, version 3, about Nothing, before [(1, 9), (2, 13)]);
