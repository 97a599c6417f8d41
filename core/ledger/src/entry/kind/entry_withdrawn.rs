//! An entry was taken out.

use super::kinded;
use crate::entry::field::record;
use crate::entry::id::{EntryId, TextRef};

record! {
    /// The target no longer counts. Withdrawing a correction or a withdrawal restores what was before it.
    EntryWithdrawn {
        /// An entry, a correction or a withdrawal.
        target: EntryId,
        /// Changes of it that were known and are built on.
        seen: Vec<EntryId>,
        /// Why.
        reason: Option<TextRef>,
    }
}

kinded!(EntryWithdrawn, version 1, about Nothing);
