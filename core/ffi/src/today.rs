//! Today: what needs doing and why, and what there is.

use kerfbook_ledger::LedgerError;

use crate::error::CoreError;
use crate::field_book::{FieldBook, of_book};
use crate::port::day_of_date;

/// The first screen.
#[derive(Debug, Clone, PartialEq, Eq, uniffi::Record)]
pub struct TodayView {
    /// What the holding is called.
    pub holding: String,
    /// Today, told.
    pub day: String,
    /// Today, days since 1970.
    pub day_number: i32,
    /// Places that are open.
    pub places: u32,
    /// Batches in the book.
    pub batches: u32,
}

#[uniffi::export]
impl FieldBook {
    /// What needs doing.
    ///
    /// # Errors
    /// A book that cannot be read.
    pub fn today(&self) -> Result<TodayView, CoreError> {
        let (speech, on) = (self.speech(), self.now()?.date()?);
        let book = self.book();
        let count = |count: usize| u32::try_from(count).unwrap_or(u32::MAX);
        let read = || -> Result<TodayView, LedgerError> {
            let holding = book.holding_view()?;
            Ok(TodayView {
                holding: holding.map_or_else(String::new, |holding| holding.name.as_str().to_owned()),
                day: speech.words.date(on),
                day_number: day_of_date(on),
                places: count(
                    book.places()?
                        .iter()
                        .filter(|place| !place.withdrawn() && place.closed.is_none())
                        .count(),
                ),
                batches: count(book.batches()?.iter().filter(|batch| !batch.withdrawn()).count()),
            })
        };
        of_book(read(), &speech)
    }
}
