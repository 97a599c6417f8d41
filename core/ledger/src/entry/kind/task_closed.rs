//! A task was done or dropped.

use super::kinded;
use crate::entry::field::{codes, record};
use crate::entry::id::{EntryId, TextRef};

codes! {
    /// What became of a task.
    Outcome, "outcome" {
        /// Done.
        Done = 1, "done";
        /// Not to be done.
        Dropped = 2, "dropped";
    }
}

record! {
    /// Closes a task.
    TaskClosed {
        /// Which.
        task: EntryId,
        /// What became of it.
        outcome: Outcome,
        /// What was written for it.
        entry: Option<EntryId>,
        /// Why.
        reason: Option<TextRef>,
    }
}

kinded!(TaskClosed, version 1, about Nothing, naming { "task": [TaskSet], "entry": [] });
