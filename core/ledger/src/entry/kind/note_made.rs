//! A note was written.

use super::kinded;
use crate::entry::field::record;
use crate::entry::id::TextRef;

record! {
    /// A note about the entry's subject, or about the holding.
    NoteMade {
        /// The note, kept outside so that it can be erased.
        text: TextRef,
    }
}

kinded!(NoteMade, version 1, about Anything);
