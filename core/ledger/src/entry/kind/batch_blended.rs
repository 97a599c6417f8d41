//! Batches were mixed.

use super::kinded;
use super::load_taken_in::Particle;
use crate::entry::field::{Label, record};
use crate::entry::id::EntryId;

record! {
    /// What a blend took from one batch.
    Part {
        /// The batch.
        batch: EntryId,
        /// Moist mass, g.
        wet_g: Option<u64>,
        /// Loose volume, mL.
        volume_ml: Option<u64>,
    }
}

record! {
    /// Opens a batch that is mixed from others; the parts leave theirs.
    BatchBlended {
        /// What the blend is called here.
        label: Label,
        /// Name in the table of materials.
        material: Label,
        /// Size of pieces.
        particle: Option<Particle>,
        /// What was taken from which batch.
        parts: Vec<Part>,
        /// Mass, g.
        wet_g: Option<u64>,
        /// Loose volume, mL.
        volume_ml: Option<u64>,
        /// Water by mass of the moist blend, 0.01 %.
        moisture_bp: Option<u32>,
        /// Carbon to nitrogen by mass, x 100.
        carbon_nitrogen_x100: Option<u32>,
    }
}

kinded!(BatchBlended, version 1, about Nothing, naming {
    "parts": [LoadTakenIn, BatchBlended, LayerLifted, PileFinished]
});
