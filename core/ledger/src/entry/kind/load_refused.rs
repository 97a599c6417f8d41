//! A load was sent away.

use super::kinded;
use crate::entry::field::{Label, codes, record};
use crate::entry::id::TextRef;

codes! {
    /// Why a load was refused.
    RefusalReason, "reason for refusing" {
        /// Treated wood.
        Treated = 1, "treated";
        /// Painted wood.
        Painted = 2, "painted";
        /// Board or its dust.
        Board = 3, "board";
        /// From demolition.
        Demolition = 4, "demolition";
        /// From diseased plants.
        Diseased = 5, "diseased";
        /// Salty.
        Salty = 6, "salty";
        /// Medicines or weedkillers.
        Medicated = 7, "medicated";
        /// Nobody could say what it is.
        Unknown = 8, "unknown";
        /// Something else; see the note.
        Other = 9, "other";
    }
}

record! {
    /// A load that did not become a batch.
    LoadRefused {
        /// What it was said to be.
        material: Label,
        /// Why it was refused.
        reason: RefusalReason,
        /// Mass, g.
        wet_g: Option<u64>,
        /// Loose volume, mL.
        volume_ml: Option<u64>,
        /// From whom.
        from: Option<TextRef>,
        /// More about it.
        note: Option<TextRef>,
    }
}

kinded!(LoadRefused, version 1, about Nothing);
