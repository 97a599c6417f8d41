//! A place is no longer used.

use super::kinded;
use crate::entry::field::record;
use crate::entry::id::TextRef;

record! {
    /// From its date on the place is closed; entries for later days are kept and flagged.
    PlaceClosed {
        /// Why.
        reason: Option<TextRef>,
    }
}

kinded!(PlaceClosed, version 1, about Place);
