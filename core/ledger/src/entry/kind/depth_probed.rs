//! A layer's depth was measured.

use super::kinded;
use super::plain::LaidBy;
use crate::entry::field::record;
use crate::entry::id::EntryId;

record! {
    /// How deep it lies on the place that the entry is about.
    #[derive(Default)]
    DepthProbed {
        /// One layer; all that lies there where absent.
        layer: Option<EntryId>,
        /// Depth at each point, mm.
        depths_mm: Vec<u32>,
        /// By what the depths were measured, where not by a rule; the depths are then what that stands for.
        laid_by: Option<LaidBy>,
        /// How many of them at each point, x 10.
        laid_x10: Option<Vec<u32>>,
    }
}

kinded!(DepthProbed, version 2, about Place, naming { "layer": [PutDown] }, before [(1, 2)]);
