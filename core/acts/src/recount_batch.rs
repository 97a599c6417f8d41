//! Counting what is left of a batch: it settles the balance from that day on.

use kerfbook_ledger::kind::BatchRecounted;
use kerfbook_ledger::{Book, EntryId, Text};
use kerfbook_science::units::{Mass, Volume};

use crate::error::ActError;
use crate::figure::{between, grams, millilitres};
use crate::moment::Moment;
use crate::take_in_load::first;

/// What is there.
#[derive(Debug, Clone, PartialEq)]
pub struct NewRecount {
    /// Of which batch.
    pub batch: EntryId,
    /// Mass, where it was weighed.
    pub wet: Option<Mass>,
    /// Loose volume, where it was measured.
    pub volume: Option<Volume>,
    /// Why it differs, kept outside the entry.
    pub reason: Option<Text>,
}

/// Writes a count. Nothing left is a count as well.
///
/// # Errors
/// A batch that is not there, no figure, or a book that cannot be written.
pub fn recount(book: &mut Book, new: &NewRecount, moment: Moment) -> Result<EntryId, ActError> {
    book.batch(new.batch)?.ok_or(ActError::NotThere { what: "batch" })?;
    if new.wet.is_none() && new.volume.is_none() {
        return Err(ActError::NothingMeasured);
    }
    between("wet_kg", new.wet.map(Mass::kg), 0.0, 1e9)?;
    between("volume_m3", new.volume.map(Volume::m3), 0.0, 1e7)?;
    let body = BatchRecounted {
        wet_g: new.wet.map(grams),
        volume_ml: new.volume.map(millilitres),
        reason: new.reason.as_ref().map(Text::hash),
    };
    let texts: Vec<Text> = new.reason.iter().cloned().collect();
    first(&book.append(&[moment.draft(body)?.about(new.batch)], &texts, moment.wall_ms)?)
}
