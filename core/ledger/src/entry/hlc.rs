//! Hybrid logical clock: 48 bits of milliseconds, 16 bits of counter.
//!
//! After Kulkarni, Demirbas, Madeppa, Avva and Leone, "Logical Physical Clocks", 2014. It keeps what was known
//! before from being shown after, whatever the clocks say. It orders the display and nothing else.

use super::field::{Field, FieldError};
use super::value::Value;

/// How far ahead of our own wall time another device may move our clock, ms.
pub const LEAD_MS: i64 = 24 * 60 * 60 * 1000;

/// A reading of the clock.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Hlc(u64);

impl Hlc {
    /// The earliest reading.
    pub const ZERO: Self = Self(0);
    /// Milliseconds stay below 2^47 (the year 6429), so that a reading fits a signed 64-bit column.
    const MAX_MS: u64 = (1 << 47) - 1;

    /// From its parts; milliseconds are held within 0 and the largest.
    pub fn new(ms: i64, counter: u16) -> Self {
        Self(u64::try_from(ms).unwrap_or(0).min(Self::MAX_MS) << 16 | u64::from(counter))
    }

    /// Milliseconds since 1970-01-01 UTC.
    pub const fn ms(self) -> u64 {
        self.0 >> 16
    }

    /// Readings within that millisecond.
    pub const fn counter(self) -> u16 {
        (self.0 & 0xffff) as u16
    }

    /// The reading for a new entry: after everything known, and not behind the wall clock.
    #[must_use]
    pub fn tick(last: Self, wall_ms: i64) -> Self {
        Self::new(wall_ms, 0).max(Self((last.0 + 1).min(Self::MAX_MS << 16 | 0xffff)))
    }

    /// Whether it lies further ahead of the wall clock than a device is followed.
    pub fn ahead_of(self, wall_ms: i64) -> bool {
        self > Self::horizon(wall_ms)
    }

    /// The last reading that may move a clock whose wall time is `wall_ms`.
    #[must_use]
    pub fn horizon(wall_ms: i64) -> Self {
        Self::new(wall_ms.saturating_add(LEAD_MS), 0xffff)
    }
}

impl Field for Hlc {
    fn to_value(&self) -> Value {
        self.0.to_value()
    }

    fn from_value(value: &Value) -> Result<Self, FieldError> {
        u64::from_value(value).map(Self)
    }
}
