//! Weather was read.

use super::kinded;
use crate::entry::field::{codes, record};

codes! {
    /// What a weather reading stands for.
    WeatherSpan, "span of weather" {
        /// The entry's day.
        Day = 1, "day";
        /// The month of the entry's day as it usually is.
        UsualMonth = 2, "usual month";
    }
}

record! {
    /// Weather of the holding or of a place with its own gauge, whichever the entry is about.
    WeatherRead {
        /// A day that was read, or a usual month.
        span: WeatherSpan,
        /// Mean temperature, 0.01 degree C.
        mean_centi_c: Option<i32>,
        /// Warmest less coldest of a day, or the mean of that over the month, 0.01 degree C.
        range_centi_c: Option<u32>,
        /// Rain of the day, or in all of the month, mL/m2 (1 mm is 1000).
        rain_ml_m2: Option<u32>,
        /// Reference evaporation of the day, or of the month's mean day, mL/m2 (1 mm is 1000).
        evaporation_ml_m2_day: Option<u32>,
    }
}

kinded!(WeatherRead, version 1, about HoldingOrPlace);
