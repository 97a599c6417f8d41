//! A trial came to its end.

use super::kinded;
use crate::entry::field::record;
use crate::entry::id::TextRef;

record! {
    /// The trial that the entry is about takes no more scores; its treatments may be seen.
    TrialClosed {
        /// What was said about it.
        note: Option<TextRef>,
    }
}

kinded!(TrialClosed, version 1, about Trial);
