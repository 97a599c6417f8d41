//! When an act happened, when it is written, and who did it. The caller reads the clock, never an act.

use chrono::NaiveDate;
use kerfbook_ledger::{Body, Date, Draft, EntryId, When};

use crate::error::ActError;

/// The moment of an act.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Moment {
    /// Day on which it happened, where it happened.
    pub date: NaiveDate,
    /// When it is written, ms since 1970.
    pub wall_ms: i64,
    /// Who did it, where a person is named on the device.
    pub by: Option<EntryId>,
}

impl Moment {
    /// The same on another day.
    #[must_use]
    pub const fn on(self, date: NaiveDate) -> Self {
        Self { date, ..self }
    }

    /// The day as entries keep it.
    pub(crate) fn when(self) -> Result<When, ActError> {
        Ok(When::on(Date::of(self.date)?))
    }

    /// An entry of this moment.
    pub(crate) fn draft(self, body: impl Into<Body>) -> Result<Draft, ActError> {
        Ok(Draft::new(self.when()?, body).by(self.by))
    }
}
