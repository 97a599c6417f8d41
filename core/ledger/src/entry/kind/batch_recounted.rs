//! What is left of a batch was counted.

use super::kinded;
use crate::entry::field::record;
use crate::entry::id::TextRef;

record! {
    /// What is there of the batch that the entry is about. It settles the balance from its day on.
    BatchRecounted {
        /// Moist mass there, g.
        wet_g: Option<u64>,
        /// Loose volume there, mL.
        volume_ml: Option<u64>,
        /// Why it differs.
        reason: Option<TextRef>,
    }
}

kinded!(BatchRecounted, version 1, about Batch);
