//! Figures on their way into an entry: in bounds, and whole.

use kerfbook_science::units::{Mass, Share, Volume};

use crate::error::ActError;

/// Whole grams.
pub(crate) fn grams(mass: Mass) -> u64 {
    whole(mass.g())
}

/// Whole millilitres.
pub(crate) fn millilitres(volume: Volume) -> u64 {
    whole(volume.litres() * 1000.0)
}

/// The nearest whole number that is not below zero.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "kept at zero or above and finite"
)]
pub(crate) fn whole(value: f64) -> u64 {
    if value.is_finite() { value.max(0.0).round() as u64 } else { 0 }
}

/// The same in 32 bits.
pub(crate) fn whole_u32(value: f64) -> u32 {
    u32::try_from(whole(value)).unwrap_or(u32::MAX)
}

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
