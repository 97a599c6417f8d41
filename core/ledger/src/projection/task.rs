//! Something to do, and whether it was done.

use super::current::{Current, Flag, Standing};
use super::fold::about;
use super::graph::Entries;
use super::view::{Flagged, Said, carries, flagged};
use crate::entry::field::{Label, record};
use crate::entry::id::{Date, EntryId, TextRef};
use crate::entry::kind::{Body, TaskClosed, TaskKind, TaskSet};
use crate::error::Result;

record! {
    /// A task.
    TaskView {
        /// The entry that set it.
        id: EntryId,
        /// When it was set.
        date: Date,
        /// Who set it, where named.
        by: Option<EntryId>,
        /// What it is about.
        subject: Option<EntryId>,
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
        /// Its closing: the first in order of days.
        closed: Option<Said<TaskClosed>>,
        /// Entries about it that carry a flag, its own included.
        flagged: Vec<Flagged>,
    }
}

impl TaskView {
    /// Still to be done: not closed, not withdrawn, and what it is about is still there.
    pub fn open(&self) -> bool {
        self.closed.is_none()
            && ![Flag::Withdrawn, Flag::RestsOnWithdrawn, Flag::RestsOnUnknown]
                .iter()
                .any(|flag| carries(&self.flagged, self.id, *flag))
    }
}

/// Folds a task.
pub(super) fn task<E: Entries>(
    entries: &E,
    standing: &Standing<'_, E>,
    opening: &Current,
    body: &TaskSet,
) -> Result<TaskView> {
    let id = opening.original.id;
    let mut view = TaskView {
        id,
        date: opening.date,
        by: opening.by,
        subject: opening.subject,
        what: body.what,
        due: body.due,
        to: body.to,
        text: body.text,
        source: body.source.clone(),
        nitrogen_mg: body.nitrogen_mg,
        wet_g: body.wet_g,
        closed: None,
        flagged: flagged(opening).into_iter().collect(),
    };
    for current in about(entries, standing, id)? {
        match &current.body {
            Body::TaskClosed(closing) if closing.task == id => {
                if current.counts() && view.closed.is_none() {
                    view.closed = Some(Said::of(&current, closing));
                }
            }
            _ if current.subject == Some(id) => {}
            _ => continue,
        }
        view.flagged.extend(flagged(&current));
    }
    Ok(view)
}
