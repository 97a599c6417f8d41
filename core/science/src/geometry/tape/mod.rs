//! Tape and compass: areas from lengths, without a receiver.

pub mod offsets;
pub mod sides;
pub mod traverse;

use crate::source::{Source, Sourced};

/// How sure a taped length is: metres, and part of the length, one standard deviation. Slack, slope and the end of a
/// garden tape.
pub const TAPE_SD_M: Sourced<f64> = Sourced::new(0.02, Source::ASSUMPTION);
/// See [`TAPE_SD_M`].
pub const TAPE_SD_SHARE: Sourced<f64> = Sourced::new(0.005, Source::ASSUMPTION);

/// Standard deviation of a taped length, metres.
pub fn sd_m(length_m: f64) -> f64 {
    let (fixed, share) = (TAPE_SD_M.value, TAPE_SD_SHARE.value * length_m);
    (fixed * fixed + share * share).sqrt()
}

/// Why lengths give no area.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum TapeError {
    /// Zero, below zero or no number.
    #[error("length {value} of {what} is no length; give metres above zero")]
    Length {
        /// Which length.
        what: &'static str,
        /// As given.
        value: f64,
    },
    /// Two sides do not reach over the third.
    #[error("lengths {a}, {b} and {c} close no triangle; measure the longest again")]
    NoTriangle {
        /// Metres.
        a: f64,
        /// Metres.
        b: f64,
        /// Metres.
        c: f64,
    },
    /// Fewer than two offsets.
    #[error("{found} offsets bound no strip; two are needed at least")]
    TooFewOffsets {
        /// How many.
        found: usize,
    },
    /// Distances along the base line that do not grow.
    #[error("offset {index} lies no further along the line than the one before; give them in order")]
    OutOfOrder {
        /// Which, counted from 1.
        index: usize,
    },
    /// Fewer than three courses.
    #[error("a traverse of {found} courses closes no outline; three are needed at least")]
    TooFewCourses {
        /// How many.
        found: usize,
    },
    /// A bearing that cannot be read.
    #[error("a bearing reads like `S 68 05 35 W` or `248.1`, between 0 and 360; this one does not")]
    Bearing,
}

/// A length above zero.
fn length(what: &'static str, value: f64) -> Result<f64, TapeError> {
    if value.is_finite() && value > 0.0 { Ok(value) } else { Err(TapeError::Length { what, value }) }
}
