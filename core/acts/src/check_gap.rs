//! Checking the gap between a layer and trunks, and what the layer did to the watering.

use kerfbook_ledger::kind::GapChecked;
use kerfbook_ledger::{Book, EntryId};
use kerfbook_science::units::Length;

use crate::error::ActError;
use crate::figure::{between, whole_u32};
use crate::moment::Moment;
use crate::take_in_load::first;

/// What was found.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NewGapCheck {
    /// Where.
    pub place: EntryId,
    /// The least gap that was found, or is left after mending.
    pub gap: Length,
    /// Plants or trees looked at.
    pub plants: Option<u32>,
    /// Emitters found blocked.
    pub blocked_emitters: Option<u32>,
    /// What was wrong was put right.
    pub mended: bool,
}

/// Writes a check.
///
/// # Errors
/// A place that is not there, a gap that cannot be, or a book that cannot be written.
pub fn check(book: &mut Book, new: &NewGapCheck, moment: Moment) -> Result<EntryId, ActError> {
    book.place(new.place)?.ok_or(ActError::NotThere { what: "place" })?;
    between("gap_mm", Some(new.gap.mm()), 0.0, 10_000.0)?;
    let body = GapChecked {
        gap_mm: whole_u32(new.gap.mm()),
        plants: new.plants,
        blocked_emitters: new.blocked_emitters,
        mended: new.mended,
    };
    first(&book.append(&[moment.draft(body)?.about(new.place)], &[], moment.wall_ms)?)
}
