//! Striking a plot out of a trial, with the reason. What was scored before stays written.

use chrono::NaiveDate;
use kerfbook_ledger::kind::PlotLost;
use kerfbook_ledger::{Book, EntryId, Text};

use crate::error::ActError;
use crate::moment::Moment;
use crate::take_in_load::first;
use crate::trial_in_book::{open, there};

/// Writes that a plot is lost.
///
/// # Errors
/// A trial that is not there, is closed or was laid out later; a plot that it has not or that is lost already; or a book
/// that cannot be written.
pub fn lose(
    book: &mut Book,
    trial: EntryId,
    plot: u32,
    reason: &Text,
    moment: Moment,
) -> Result<EntryId, ActError> {
    // Lost once is lost, on whatever day.
    let view = open(book, trial, moment.date)?;
    there(&view, plot, NaiveDate::MAX)?;
    let draft = moment.draft(PlotLost { plot, reason: reason.hash() })?.about(trial);
    first(&book.append(&[draft], std::slice::from_ref(reason), moment.wall_ms)?)
}
