//! A strip between a base line and a bent edge, from offsets square to the line.

use super::{TapeError, length};

/// The area between a base line and offsets at given distances along it, by trapezoids, each in metres.
///
/// # Errors
/// Fewer than two offsets, one below zero or no number, distances that do not grow.
pub fn trapezoids(offsets: &[(f64, f64)]) -> Result<f64, TapeError> {
    enough(offsets.len())?;
    let mut area = 0.0;
    for (index, ((from, one), (to, other))) in offsets.iter().zip(offsets.iter().skip(1)).enumerate() {
        if !(to > from && from.is_finite() && to.is_finite()) {
            return Err(TapeError::OutOfOrder { index: index + 2 });
        }
        area += (to - from) * f64::midpoint(offset(*one)?, offset(*other)?);
    }
    Ok(area)
}

/// The area between a base line and offsets at equal spacing, by Simpson's one-third rule; with an even number of
/// offsets the last strip is a trapezoid.
///
/// # Errors
/// Fewer than two offsets, one below zero or no number, a spacing that is no length.
pub fn simpson(spacing: f64, offsets: &[f64]) -> Result<f64, TapeError> {
    enough(offsets.len())?;
    let spacing = length("the spacing", spacing)?;
    for value in offsets {
        offset(*value)?;
    }
    let mut area = 0.0;
    let mut rest = offsets;
    while let [one, middle, last, ..] = rest {
        area += spacing / 3.0 * (one + 4.0 * middle + last);
        rest = rest.get(2..).unwrap_or_default();
    }
    if let [one, last] = rest {
        area += spacing * f64::midpoint(*one, *last);
    }
    Ok(area)
}

/// The area as mean offset times length, a check by hand.
///
/// # Errors
/// As [`simpson`].
pub fn average_ordinate(spacing: f64, offsets: &[f64]) -> Result<f64, TapeError> {
    enough(offsets.len())?;
    let spacing = length("the spacing", spacing)?;
    let mut sum = 0.0;
    for value in offsets {
        sum += offset(*value)?;
    }
    #[expect(clippy::cast_precision_loss, reason = "a count of offsets")]
    let number = offsets.len() as f64;
    Ok(sum / number * spacing * (number - 1.0))
}

fn enough(found: usize) -> Result<(), TapeError> {
    if found < 2 { Err(TapeError::TooFewOffsets { found }) } else { Ok(()) }
}

/// An offset may be nothing, where the edge meets the line.
fn offset(value: f64) -> Result<f64, TapeError> {
    if value.is_finite() && value >= 0.0 {
        Ok(value)
    } else {
        Err(TapeError::Length { what: "an offset", value })
    }
}
