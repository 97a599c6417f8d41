//! A pile was built.

use super::batch_blended::Part;
use super::kinded;
use crate::entry::field::{Label, record};
use crate::entry::id::EntryId;

record! {
    /// Opens a pile that is built of batches; the parts leave theirs.
    PileBuilt {
        /// What it is called here.
        label: Label,
        /// Where it stands.
        place: Option<EntryId>,
        /// What was taken from which batch.
        parts: Vec<Part>,
        /// Water that was added, mL.
        water_ml: Option<u64>,
        /// Mass with its water, g.
        wet_g: Option<u64>,
        /// Volume as it lies, mL.
        volume_ml: Option<u64>,
        /// Water by mass of the moist pile, 0.01 %.
        moisture_bp: Option<u32>,
        /// Carbon to nitrogen by mass, x 100.
        carbon_nitrogen_x100: Option<u32>,
        /// The heat rule that it is to meet, by its name.
        rule: Option<Label>,
    }
}

kinded!(PileBuilt, version 1, about Nothing, naming {
    "place": [PlaceOutlined],
    "parts": [LoadTakenIn, BatchBlended, LayerLifted, PileFinished]
});
