//! A layer's depth was measured.

use super::kinded;
use crate::entry::field::record;
use crate::entry::id::EntryId;

record! {
    /// How deep it lies on the place that the entry is about.
    DepthProbed {
        /// One layer; all that lies there where absent.
        layer: Option<EntryId>,
        /// Depth at each point, mm.
        depths_mm: Vec<u32>,
    }
}

kinded!(DepthProbed, version 1, about Place, naming { "layer": [PutDown] });
