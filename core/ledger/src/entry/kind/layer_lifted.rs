//! A layer was taken off.

use super::kinded;
use crate::entry::field::{Label, record};
use crate::entry::id::EntryId;

record! {
    /// Opens a batch: what was lifted from the place that the entry is about.
    LayerLifted {
        /// What it is called here.
        label: Label,
        /// The layer.
        layer: EntryId,
        /// Part of the layer as it was put down, 0.01 %.
        share_bp: u32,
        /// Moist mass, g.
        wet_g: Option<u64>,
        /// Loose volume, mL.
        volume_ml: Option<u64>,
        /// Water by mass of what was lifted, 0.01 %.
        moisture_bp: Option<u32>,
    }
}

kinded!(LayerLifted, version 1, about Place, naming { "layer": [PutDown] });
