//! Figures on their way into an entry: in bounds, and whole.

use kerfbook_science::units::Share;

use crate::error::ActError;
use crate::take_in_load::whole_u32;

/// Hundredths of a per cent.
pub(crate) fn basis_points(share: Share) -> u32 {
    whole_u32(share.percent() * 100.0)
}

/// A figure, where one is given, lies between two ends.
pub(crate) fn between(key: &'static str, value: Option<f64>, low: f64, high: f64) -> Result<(), ActError> {
    match value {
        Some(value) if !(low..=high).contains(&value) => Err(ActError::Figure { key, value, low, high }),
        _ => Ok(()),
    }
}

/// A figure, where one is given, is above zero.
pub(crate) fn above_zero(key: &'static str, value: Option<f64>, high: f64) -> Result<(), ActError> {
    match value {
        Some(value) if !(value > 0.0 && value <= high) => {
            Err(ActError::Figure { key, value, low: 0.0, high })
        }
        _ => Ok(()),
    }
}
