//! A crop came to its end.

use super::kinded;
use crate::entry::field::{codes, record};
use crate::entry::id::EntryId;

codes! {
    /// What became of a crop.
    Fate, "fate" {
        /// Carried off the place.
        CarriedOff = 1, "carried off";
        /// Dug in.
        DugIn = 2, "dug in";
        /// Mown and left.
        Mown = 3, "mown";
    }
}

record! {
    /// Ends a crop on the place that the entry is about.
    CropEnded {
        /// Which crop.
        crop: EntryId,
        /// What became of it.
        fate: Fate,
        /// Fresh mass carried off, g.
        yield_g: Option<u64>,
    }
}

kinded!(CropEnded, version 1, about Place, naming { "crop": [CropStarted] });
