//! Turning a pile.

use kerfbook_ledger::kind::PileTurned;
use kerfbook_ledger::{Book, EntryId};
use kerfbook_science::caution::{self, AtPile, Caution};
use kerfbook_science::units::Mass;

use crate::error::ActError;
use crate::figure::{between, grams};
use crate::moment::Moment;
use crate::pile::standing;
use crate::take_in_load::first;

/// Writes a turning, with the water that was added; what to heed comes with it.
///
/// # Errors
/// A pile that is not there, is a batch already, or was built later; or a book that cannot be written.
pub fn turn(
    book: &mut Book,
    pile: EntryId,
    water: Option<Mass>,
    moment: Moment,
) -> Result<(EntryId, Vec<&'static Caution>), ActError> {
    standing(book, pile, moment.date)?;
    between("water_kg", water.map(Mass::kg), 0.0, 1e8)?;
    let draft = moment.draft(PileTurned { water_ml: water.map(grams) })?.about(pile);
    let entry = first(&book.append(&[draft], &[], moment.wall_ms)?)?;
    Ok((entry, caution::at_pile(AtPile::Turning)))
}
