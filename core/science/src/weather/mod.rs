//! Weather: checks of monthly normals, daily files, and evaporation after FAO-56 where only temperature is
//! known.

mod daily;
mod evaporation;
mod normals;

pub use daily::{Daily, DailyError, read_daily};
pub use evaporation::{
    EVAPORATION_SOURCE, LATENT_HEAT_MM_PER_MJ, TYPICAL_RANGE_C, day_length, extraterrestrial_radiation,
    hargreaves, reference_evaporation, reference_evaporation_on,
};
pub use normals::{NormalsError, check_normals};

/// Lowest and highest daily mean temperature taken as weather, degrees C: the recorded extremes of -89.2 and
/// 56.7 (World Meteorological Organization, from memory) are of minutes; a day's mean beyond these is a slip.
pub const PLAUSIBLE_MEAN_C: (f64, f64) = (-75.0, 50.0);
/// Most rain in a day, mm: the record is 1825 (World Meteorological Organization, Foc-Foc 1966, from memory).
pub const MOST_RAIN_MM_DAY: f64 = 1825.0;
/// Most rain in a month, mm: the record is 9300 (World Meteorological Organization, Cherrapunji 1861, from
/// memory).
pub const MOST_RAIN_MM_MONTH: f64 = 9300.0;
/// Most reference evaporation in a day, mm. Assumption: deserts in wind reach 15.
pub const MOST_EVAPORATION_MM_DAY: f64 = 20.0;

/// Days of the months; 29 February repeats the values of the 28th.
pub const MONTH_DAYS: [f64; 12] = [31.0, 28.0, 31.0, 30.0, 31.0, 30.0, 31.0, 31.0, 30.0, 31.0, 30.0, 31.0];

/// Days before the first of each month in a year of 365 days.
pub const DAYS_BEFORE_MONTH: [u32; 12] = [0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334];
