//! Something to do was set.

use super::kinded;
use crate::entry::field::{Label, codes, record};
use crate::entry::id::{Date, EntryId, TextRef};

codes! {
    /// What is to be done.
    TaskKind, "task" {
        /// Look at the plants.
        Look = 1, "look";
        /// Give a feed.
        Feed = 2, "feed";
        /// Top up a layer.
        TopUp = 3, "top-up";
        /// Check the gap at trunks.
        CheckGap = 4, "check-gap";
        /// Water.
        Water = 5, "water";
        /// Test soil or batch.
        Test = 6, "test";
        /// Dig in what lies there.
        DigIn = 7, "dig-in";
        /// Turn or air a heap.
        Air = 8, "air";
        /// Something else; see the text.
        Other = 9, "other";
    }
}

record! {
    /// Opens a task, about a place, a batch, or anything else, or about nothing.
    TaskSet {
        /// What is to be done.
        what: TaskKind,
        /// By when.
        due: Option<Date>,
        /// Who is to do it.
        to: Option<EntryId>,
        /// More about it.
        text: Option<TextRef>,
        /// The feed to give.
        source: Option<Label>,
        /// Nitrogen to give, mg.
        nitrogen_mg: Option<u64>,
        /// Moist mass to put down, g.
        wet_g: Option<u64>,
    }
}

kinded!(TaskSet, version 1, about Anything, naming { "to": [PersonNamed] });
