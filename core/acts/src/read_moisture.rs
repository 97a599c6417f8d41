//! Reading a pile's moisture.

use kerfbook_ledger::kind::MoistureRead;
use kerfbook_ledger::{Book, EntryId, Label};
use kerfbook_science::units::Share;

use crate::error::ActError;
use crate::figure::{basis_points, between};
use crate::moment::Moment;
use crate::pile::standing;
use crate::take_in_load::first;

/// Writes how wet a pile is, by wet mass, in a zone or as a whole.
///
/// # Errors
/// A pile that is not there, is a batch already, or was built later; a moisture that leaves nothing dry; or a book that
/// cannot be written.
pub fn read(
    book: &mut Book,
    pile: EntryId,
    zone: Option<&str>,
    moisture: Share,
    moment: Moment,
) -> Result<EntryId, ActError> {
    standing(book, pile, moment.date)?;
    between("moisture_pct", Some(moisture.percent()), 0.0, 95.0)?;
    let body = MoistureRead { zone: zone.map(Label::new).transpose()?, moisture_bp: basis_points(moisture) };
    let draft = moment.draft(body)?.about(pile);
    first(&book.append(&[draft], &[], moment.wall_ms)?)
}
