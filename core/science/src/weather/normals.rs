//! Monthly normals as a person types them.

use super::{MOST_EVAPORATION_MM_DAY, MOST_RAIN_MM_MONTH, PLAUSIBLE_MEAN_C};

/// A monthly value that cannot be weather.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum NormalsError {
    /// A mean temperature.
    #[error("month {month}: mean temperature {value} degrees C is outside {low} to {high}; give degrees Celsius", low = PLAUSIBLE_MEAN_C.0, high = PLAUSIBLE_MEAN_C.1)]
    Mean {
        /// Month, 1 to 12.
        month: usize,
        /// What was given.
        value: f64,
    },
    /// A month's rain.
    #[error(
        "month {month}: rain of {value} mm is outside 0 to {MOST_RAIN_MM_MONTH}; give the total of the month"
    )]
    Rain {
        /// Month, 1 to 12.
        month: usize,
        /// What was given.
        value: f64,
    },
    /// A month's evaporation.
    #[error(
        "month {month}: evaporation of {value} mm a day is outside 0 to {MOST_EVAPORATION_MM_DAY}; give the mean a day, not the total of the month"
    )]
    Evaporation {
        /// Month, 1 to 12.
        month: usize,
        /// What was given.
        value: f64,
    },
}

/// Checks twelve months of mean temperature (degrees C), rain (mm a month) and evaporation (mm a day).
pub fn check_normals(
    mean_c: &[f64; 12],
    rain_mm: &[f64; 12],
    evaporation_mm_day: Option<&[f64; 12]>,
) -> Result<(), NormalsError> {
    for (i, value) in mean_c.iter().copied().enumerate() {
        if !(PLAUSIBLE_MEAN_C.0..=PLAUSIBLE_MEAN_C.1).contains(&value) {
            return Err(NormalsError::Mean { month: i + 1, value });
        }
    }
    for (i, value) in rain_mm.iter().copied().enumerate() {
        if !(0.0..=MOST_RAIN_MM_MONTH).contains(&value) {
            return Err(NormalsError::Rain { month: i + 1, value });
        }
    }
    for (i, value) in evaporation_mm_day.into_iter().flatten().copied().enumerate() {
        if !(0.0..=MOST_EVAPORATION_MM_DAY).contains(&value) {
            return Err(NormalsError::Evaporation { month: i + 1, value });
        }
    }
    Ok(())
}
