//! Reference evaporation from temperature and latitude: Hargreaves, as FAO-56 gives it.

use core::f64::consts::PI;

use super::DAYS_BEFORE_MONTH;
use crate::source::{Source, Sourced, Standing};

/// The equations of this module, numbered as there.
pub const EVAPORATION_SOURCE: Source = Source::new(
    "Allen, Pereira, Raes & Smith",
    1998,
    "Crop evapotranspiration, FAO Irrigation and Drainage Paper 56",
    "eq. 20 to 25, 34 and 52",
    Standing::FromMemory,
);

/// Mean daily range of temperature where none is known, degrees C.
pub const TYPICAL_RANGE_C: Sourced<f64> = Sourced::new(10.0, Source::ASSUMPTION);

/// Millimetres of water that 1 MJ/m² evaporates: FAO-56, eq. 20.
pub const LATENT_HEAT_MM_PER_MJ: f64 = 0.408;

/// Solar constant, MJ/m² a minute: FAO-56, eq. 21.
const SOLAR_CONSTANT: f64 = 0.0820;

/// Sun's declination, radians: FAO-56, eq. 24.
fn declination(day_of_year: u32) -> f64 {
    0.409 * libm::sin(2.0 * PI / 365.0 * f64::from(day_of_year) - 1.39)
}

/// Sunset hour angle, radians: FAO-56, eq. 25; pi where the sun does not set, 0 where it does not rise.
fn sunset_hour_angle(latitude: f64, declination: f64) -> f64 {
    libm::acos((-libm::tan(latitude) * libm::tan(declination)).clamp(-1.0, 1.0))
}

/// Latitude in radians, kept a little off the poles, where the tangent has no value.
fn radians(latitude_deg: f64) -> f64 {
    latitude_deg.clamp(-89.9, 89.9) * PI / 180.0
}

/// Radiation outside the atmosphere on a day, MJ/m²: FAO-56, eq. 21. Latitude in degrees, north positive; day
/// of the year from 1.
pub fn extraterrestrial_radiation(latitude_deg: f64, day_of_year: u32) -> f64 {
    let latitude = radians(latitude_deg);
    let declination = declination(day_of_year);
    let sunset = sunset_hour_angle(latitude, declination);
    // FAO-56, eq. 23: inverse relative distance of earth and sun.
    let distance = 1.0 + 0.033 * libm::cos(2.0 * PI / 365.0 * f64::from(day_of_year));
    let sines = sunset * libm::sin(latitude) * libm::sin(declination);
    let cosines = libm::cos(latitude) * libm::cos(declination) * libm::sin(sunset);
    (24.0 * 60.0 / PI * SOLAR_CONSTANT * distance * (sines + cosines)).max(0.0)
}

/// Hours of daylight: FAO-56, eq. 34.
pub fn day_length(latitude_deg: f64, day_of_year: u32) -> f64 {
    24.0 / PI * sunset_hour_angle(radians(latitude_deg), declination(day_of_year))
}

/// Reference evaporation, mm a day, from mean temperature and daily range (degrees C) and radiation outside
/// the atmosphere (MJ/m² a day): FAO-56, eq. 52. Never below zero.
pub fn hargreaves(mean_c: f64, range_c: f64, radiation_mj: f64) -> f64 {
    let could_evaporate = LATENT_HEAT_MM_PER_MJ * radiation_mj;
    (0.0023 * (mean_c + 17.8) * range_c.max(0.0).sqrt() * could_evaporate).max(0.0)
}

/// Reference evaporation of each month, mm a day, on its middle day.
pub fn reference_evaporation(
    latitude_deg: f64,
    month_mean_c: &[f64; 12],
    month_range_c: Option<&[f64; 12]>,
) -> [f64; 12] {
    let mut month = [0.0; 12];
    for (i, (value, mean)) in month.iter_mut().zip(month_mean_c).enumerate() {
        let range = month_range_c.and_then(|ranges| ranges.get(i).copied());
        let middle = DAYS_BEFORE_MONTH.get(i).map_or(1, |before| before + 15);
        *value = reference_evaporation_on(latitude_deg, middle, *mean, range);
    }
    month
}

/// Reference evaporation of one day, mm; the daily range is [`TYPICAL_RANGE_C`] where it is not known.
pub fn reference_evaporation_on(
    latitude_deg: f64,
    day_of_year: u32,
    mean_c: f64,
    range_c: Option<f64>,
) -> f64 {
    let radiation = extraterrestrial_radiation(latitude_deg, day_of_year);
    hargreaves(mean_c, range_c.unwrap_or(TYPICAL_RANGE_C.value), radiation)
}
