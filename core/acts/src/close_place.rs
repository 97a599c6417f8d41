//! A place that is no longer used. Late entries about it are kept and flagged.

use kerfbook_ledger::kind::PlaceClosed;
use kerfbook_ledger::{Book, EntryId, Text};

use crate::error::ActError;
use crate::moment::Moment;
use crate::take_in_load::first;

/// Closes a place on the day of the moment.
///
/// # Errors
/// A place that is not there or is closed already, or a book that cannot be written.
pub fn close(
    book: &mut Book,
    place: EntryId,
    reason: Option<&Text>,
    moment: Moment,
) -> Result<EntryId, ActError> {
    let view = book.place(place)?.ok_or(ActError::NotThere { what: "place" })?;
    if view.closed.is_some() {
        return Err(ActError::ClosedAlready { what: "place" });
    }
    let texts: Vec<Text> = reason.into_iter().cloned().collect();
    let body = PlaceClosed { reason: reason.map(Text::hash) };
    first(&book.append(&[moment.draft(body)?.about(place)], &texts, moment.wall_ms)?)
}
