//! The draw test: how much of a known dose of nitrate a batch leaves in four days.

use kerfbook_ledger::kind::DrawTested;
use kerfbook_ledger::{Book, EntryId};
use kerfbook_science::units::Temperature;

use crate::error::ActError;
use crate::figure::{between, whole_u32};
use crate::moment::Moment;
use crate::take_in_load::first;

/// A draw test that was read.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NewDrawTest {
    /// Of which batch.
    pub batch: EntryId,
    /// Temperature at which it stood.
    pub temperature: Temperature,
    /// Nitrogen given, mg a litre.
    pub dose_mg_l: f64,
    /// Dry matter in the jar, g a litre.
    pub dry_g_l: f64,
    /// What was left of the nitrogen after four days: 1 where nothing was drawn.
    pub index: f64,
}

/// Writes a draw test.
///
/// # Errors
/// A batch that is not there, a figure that cannot be, or a book that cannot be written.
#[expect(clippy::cast_possible_truncation, reason = "between 0 and 4,000")]
pub fn test(book: &mut Book, new: &NewDrawTest, moment: Moment) -> Result<EntryId, ActError> {
    book.batch(new.batch)?.ok_or(ActError::NotThere { what: "batch" })?;
    between("temperature_c", Some(new.temperature.c()), 0.0, 40.0)?;
    between("dose_mg_litre", Some(new.dose_mg_l), 1.0, 1_000.0)?;
    between("dry_g_per_litre", Some(new.dry_g_l), 1.0, 500.0)?;
    between("index", Some(new.index), 0.0, 1.5)?;
    let body = DrawTested {
        temperature_centi_c: (new.temperature.c() * 100.0).round() as i32,
        dose_mg_l: whole_u32(new.dose_mg_l),
        dry_mg_l: whole_u32(new.dry_g_l * 1000.0),
        index_bp: whole_u32(new.index * 10_000.0),
    };
    first(&book.append(&[moment.draft(body)?.about(new.batch)], &[], moment.wall_ms)?)
}
