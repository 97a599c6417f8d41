//! A leaf's colour was read.

use super::kinded;
use crate::entry::field::record;
use crate::entry::id::EntryId;

record! {
    /// What leaves of the place that the entry is about look like.
    #[derive(Default)]
    LeafRead {
        /// Which crop.
        crop: Option<EntryId>,
        /// Colour against that of plants with ample nitrogen, 0.01 %.
        nutrition_bp: Option<u32>,
        /// The reference plot that it is compared with.
        against: Option<EntryId>,
        /// Dark green colour index, x 10,000.
        dgci_x10000: Option<u32>,
        /// Hue, 0.01 degree.
        hue_centideg: Option<u32>,
        /// Part of the leaf that is yellow, 0.01 %.
        yellow_bp: Option<u32>,
        /// Part of the leaf that is brown, 0.01 %.
        brown_bp: Option<u32>,
        /// The photo it was read from.
        photo: Option<EntryId>,
    }
}

kinded!(LeafRead, version 1, about Place, naming {
    "crop": [CropStarted],
    "against": [PlaceOutlined],
    "photo": [PhotoKept]
});
