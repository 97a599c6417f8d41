//! What the shell brings: where the device's key is kept, and what time it is.

use chrono::NaiveDate;

use crate::error::CoreError;

/// Keeps the device's secret: on a phone, wrapped by the platform's key store. It never enters the book.
#[uniffi::export(foreign)]
pub trait KeyStore: Send + Sync {
    /// The secret, where one was kept.
    fn fetch(&self) -> Result<Option<Vec<u8>>, CoreError>;
    /// Keeps a secret; it is called once, before the first entry is written.
    fn keep(&self, secret: Vec<u8>) -> Result<(), CoreError>;
}

/// The phone's clock and calendar.
#[uniffi::export(foreign)]
pub trait Clock: Send + Sync {
    /// Now, where the phone is.
    fn now(&self) -> Result<Now, CoreError>;
}

/// A moment where the phone is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, uniffi::Record)]
pub struct Now {
    /// Milliseconds since 1970, UTC.
    pub wall_ms: i64,
    /// Days since 1970 of the calendar day where the phone is.
    pub day: i32,
}

impl Now {
    /// The calendar day.
    pub(crate) fn date(self) -> Result<NaiveDate, CoreError> {
        date_of_day(self.day)
    }
}

/// The date of a number of days since 1970.
pub(crate) fn date_of_day(day: i32) -> Result<NaiveDate, CoreError> {
    NaiveDate::from_ymd_opt(1970, 1, 1)
        .and_then(|first| first.checked_add_signed(chrono::TimeDelta::days(i64::from(day))))
        .ok_or_else(|| CoreError::Platform { reason: format!("day {day} is in no calendar") })
}

/// Days since 1970.
pub(crate) fn day_of_date(date: NaiveDate) -> i32 {
    let days = (date - NaiveDate::from_ymd_opt(1970, 1, 1).unwrap_or_default()).num_days();
    i32::try_from(days).unwrap_or(i32::MAX)
}
