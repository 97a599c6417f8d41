//! A plot was lost.

use super::kinded;
use crate::entry::field::record;
use crate::entry::id::TextRef;

record! {
    /// A plot of the trial that the entry is about counts no longer; what was scored before stays written.
    PlotLost {
        /// The plot by its number.
        plot: u32,
        /// Why.
        reason: TextRef,
    }
}

kinded!(PlotLost, version 1, about Trial);
