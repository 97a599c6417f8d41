//! A pile became a batch.

use super::kinded;
use crate::entry::field::{Label, record};
use crate::entry::id::EntryId;

record! {
    /// Opens a batch that a pile became, whole or in part.
    PileFinished {
        /// What the batch is called here.
        label: Label,
        /// The pile.
        pile: EntryId,
        /// Name in the table of materials.
        material: Label,
        /// Mass with its water, g.
        wet_g: Option<u64>,
        /// Loose volume, mL.
        volume_ml: Option<u64>,
        /// Water by mass of the moist batch, 0.01 %.
        moisture_bp: Option<u32>,
        /// Carbon to nitrogen by mass, x 100.
        carbon_nitrogen_x100: Option<u32>,
        /// Nitrogen that a crop can use in the first year, of all in it, 0.01 %.
        supply_bp: Option<u32>,
        /// How those figures stand.
        standing: Option<Label>,
    }
}

kinded!(PileFinished, version 1, about Nothing, naming { "pile": [PileBuilt] });
