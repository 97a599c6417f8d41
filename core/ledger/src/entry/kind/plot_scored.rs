//! A plot was scored by eye.

use super::kinded;
use crate::entry::field::{codes, record};
use crate::entry::id::EntryId;

codes! {
    /// Which leaves were looked at.
    LeafLayer, "leaf layer" {
        /// The lowest ones.
        Old = 1, "old";
        /// Those between.
        Middle = 2, "middle";
        /// The newest ones.
        Young = 3, "young";
    }
}

record! {
    /// How yellow a plot of the trial is that the entry is about.
    PlotScored {
        /// The plot by its number.
        plot: u32,
        /// Who looked; the person who wrote where absent.
        rater: Option<EntryId>,
        /// Which leaves were looked at.
        layer: LeafLayer,
        /// Yellow of the leaf area, 0.01 %.
        yellow_bp: u32,
        /// Scored a second time on purpose, to see how far two scorings lie apart.
        again: bool,
    }
}

kinded!(PlotScored, version 1, about Trial, naming { "rater": [PersonNamed] });
