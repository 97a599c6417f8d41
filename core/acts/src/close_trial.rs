//! Closing a trial: nothing is scored any more, and what the plots got may be seen.

use kerfbook_ledger::kind::TrialClosed;
use kerfbook_ledger::{Book, Date, EntryId, Text};

use crate::error::ActError;
use crate::moment::Moment;
use crate::take_in_load::first;
use crate::trial_in_book::open;

/// Closes a trial.
///
/// # Errors
/// A trial that is not there, is closed or was laid out later; a day before the last score; or a book that cannot be
/// written.
pub fn close(
    book: &mut Book,
    trial: EntryId,
    note: Option<&Text>,
    moment: Moment,
) -> Result<EntryId, ActError> {
    let view = open(book, trial, moment.date)?;
    let days = view.plots.iter().flat_map(|plot| {
        let scored = plot.scores.iter().map(|score| score.date);
        scored.chain(plot.measured.iter().map(|read| read.date)).chain(plot.lost.iter().map(|loss| loss.date))
    });
    if let Some(last) = days.max().map(Date::naive).filter(|last| *last > moment.date) {
        return Err(ActError::Before { what: "last score", first: last });
    }
    let draft = moment.draft(TrialClosed { note: note.map(Text::hash) })?.about(trial);
    first(&book.append(&[draft], note.map(std::slice::from_ref).unwrap_or_default(), moment.wall_ms)?)
}
