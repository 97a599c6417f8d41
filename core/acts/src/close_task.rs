//! Ticking a task off, or dropping it.

use kerfbook_ledger::kind::{Outcome, TaskClosed};
use kerfbook_ledger::{Book, EntryId, Text};

use crate::error::ActError;
use crate::moment::Moment;
use crate::take_in_load::first;

/// The end of a task.
#[derive(Debug, Clone, PartialEq)]
pub struct NewClosing {
    /// Which.
    pub task: EntryId,
    /// What became of it.
    pub outcome: Outcome,
    /// What was written for it, such as the feed that was given.
    pub entry: Option<EntryId>,
    /// Why, kept outside the entry.
    pub reason: Option<Text>,
}

/// Writes the end of a task.
///
/// # Errors
/// A task that is not there or is closed already, an entry that is not there, or a book that cannot be written.
pub fn close(book: &mut Book, new: &NewClosing, moment: Moment) -> Result<EntryId, ActError> {
    let task = book.task(new.task)?.ok_or(ActError::NotThere { what: "task" })?;
    if task.closed.is_some() {
        return Err(ActError::ClosedAlready { what: "task" });
    }
    if let Some(entry) = new.entry {
        book.entry(entry)?.ok_or(ActError::NotThere { what: "entry" })?;
    }
    let body = TaskClosed {
        task: new.task,
        outcome: new.outcome,
        entry: new.entry,
        reason: new.reason.as_ref().map(Text::hash),
    };
    let texts: Vec<Text> = new.reason.iter().cloned().collect();
    first(&book.append(&[moment.draft(body)?], &texts, moment.wall_ms)?)
}
