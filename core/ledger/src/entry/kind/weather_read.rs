//! Weather was read.

use super::kinded;
use super::plain::{Rain, Summers, Winters};
use crate::entry::field::{codes, record};

codes! {
    /// What a weather reading stands for.
    WeatherSpan, "span of weather" {
        /// The entry's day.
        Day = 1, "day";
        /// The month of the entry's day as it usually is.
        UsualMonth = 2, "usual month";
        /// The whole year as it usually is, in words.
        UsualYear = 3, "usual year";
    }
}

record! {
    /// Weather of the holding or of a place with its own gauge, whichever the entry is about.
    WeatherRead {
        /// A day that was read, a usual month or a usual year.
        span: WeatherSpan,
        /// Mean temperature, 0.01 degree C.
        mean_centi_c: Option<i32>,
        /// Warmest less coldest of a day, or the mean of that over the month, 0.01 degree C.
        range_centi_c: Option<u32>,
        /// Rain of the day, or in all of the month, mL/m2 (1 mm is 1000).
        rain_ml_m2: Option<u32>,
        /// Reference evaporation of the day, or of the month's mean day, mL/m2 (1 mm is 1000).
        evaporation_ml_m2_day: Option<u32>,
        /// What winters are like.
        winters: Option<Winters>,
        /// What summers are like.
        summers: Option<Summers>,
        /// How much rain falls in a usual month.
        rain: Option<Rain>,
    }
}

impl WeatherRead {
    /// Of a span of which nothing was read yet.
    pub const fn of(span: WeatherSpan) -> Self {
        Self {
            span,
            mean_centi_c: None,
            range_centi_c: None,
            rain_ml_m2: None,
            evaporation_ml_m2_day: None,
            winters: None,
            summers: None,
            rain: None,
        }
    }
}

kinded!(WeatherRead, version 2, about HoldingOrPlace, before [(1, 5)]);
