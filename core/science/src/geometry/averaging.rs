//! What averaging fixes at one spot is worth.

use crate::source::{Source, Sourced, Standing};

/// Errors of a receiver forget themselves within this time, s: the correlation falls to 1/e. About a minute in a log
/// of 20 days.
pub const CORRELATION_S: Sourced<f64> = Sourced::new(
    60.0,
    Source::new(
        "Wilson",
        0,
        "receiver error pages, log of 20 days; first-order correlation as in Sensors 2020, 20(21):6050",
        "",
        Standing::SecondHand,
    ),
);

/// Root mean square distance from the truth, as part of the reported accuracy: for a circular normal error the radius
/// that holds 68 % is 1.51 standard deviations of an axis, and the root mean square distance 1.414.
pub const DRMS_PER_ACCURACY: Sourced<f64> = Sourced::new(0.94, Source::ASSUMPTION);
/// No phone is taken to do better than this, metres of root mean square distance.
pub const LEAST_DRMS_M: Sourced<f64> = Sourced::new(1.5, Source::ASSUMPTION);
/// Nor better than this under trees: the best phone under canopy.
pub const LEAST_DRMS_UNDER_TREES_M: Sourced<f64> = Sourced::new(
    5.0,
    Source::new(
        "Sensors 22(3):1289",
        2022,
        "dual-frequency phone under canopy",
        "4.56 m, rounded up",
        Standing::SecondHand,
    ),
);

/// Accuracy of a phone under open sky, metres, where nothing is reported.
pub const OPEN_SKY_ACCURACY_M: Sourced<f64> = Sourced::new(
    4.9,
    Source::new(
        "GPS.gov",
        0,
        "GPS accuracy",
        "phones under open sky, after a paper of 2015",
        Standing::SecondHand,
    ),
);
/// Error of a range, metres, by which a horizontal dilution of precision is multiplied.
pub const RANGE_ERROR_M: Sourced<f64> = Sourced::new(4.0, Source::ASSUMPTION);

/// Accuracy, metres, where a receiver tells none: from its dilution of precision, or as under open sky.
pub fn accuracy_of_hdop_m(hdop: Option<f64>) -> f64 {
    hdop.map_or(OPEN_SKY_ACCURACY_M.value, |hdop| hdop * RANGE_ERROR_M.value)
}

/// Standard deviation of an axis, metres, from the accuracy that a receiver reports.
pub fn axis_sd_m(accuracy_m: f64, under_trees: bool) -> f64 {
    let least = if under_trees { LEAST_DRMS_UNDER_TREES_M } else { LEAST_DRMS_M };
    (DRMS_PER_ACCURACY.value * accuracy_m).max(least.value) / core::f64::consts::SQRT_2
}

/// Part of a fix's variance that is left in the mean of fixes over a time, for errors whose correlation falls by 1/e
/// in `correlation_s`: 1 at no time, 0.85 for half a minute and 0.18 for ten minutes of the usual minute.
pub fn left_of_variance(over_s: f64, correlation_s: f64) -> f64 {
    // Below a thousandth the closed form loses its digits, and nothing is gained anyway.
    if over_s <= 1e-3 * correlation_s || correlation_s <= 0.0 {
        return 1.0;
    }
    let ratio = correlation_s / over_s;
    2.0 * ratio * (1.0 + ratio * libm::expm1(-1.0 / ratio))
}
