//! Student's t: how far a mean of few measurements may be off.

use crate::distribution::incomplete_beta;

/// Half-widths of a 95 % interval in standard errors, where the spread is known: the normal quantile at 0.975.
pub const NORMAL_95: f64 = 1.959_963_984_540_054;

/// From this many degrees of freedom on the normal quantile stands (they differ by less than 3e-6).
const PRACTICALLY_NORMAL: f64 = 1e6;

/// The two-sided quantile of Student's t: `|T|` stays below it with a probability.
///
/// Degrees of freedom may be fractional (Satterthwaite). Infinite where they are 0 or less, or the probability is not
/// between 0 and 1. The distribution is the regularised incomplete beta function (Abramowitz & Stegun 1964, 26.7.1),
/// inverted by bisection to the last bits.
pub fn two_sided(probability: f64, degrees: f64) -> f64 {
    if !(degrees > 0.0 && probability > 0.0 && probability < 1.0) {
        return f64::INFINITY;
    }
    let degrees = degrees.min(PRACTICALLY_NORMAL);
    let (mut low, mut high) = (0.0, 1.0);
    while within(high, degrees) < probability && high < f64::MAX / 4.0 {
        low = high;
        high *= 2.0;
    }
    for _ in 0..80 {
        let middle = f64::midpoint(low, high);
        if within(middle, degrees) < probability {
            low = middle;
        } else {
            high = middle;
        }
    }
    f64::midpoint(low, high)
}

/// The quantile of a 95 % interval.
pub fn t_95(degrees: f64) -> f64 {
    two_sided(0.95, degrees)
}

/// Probability that |T| is below t.
fn within(t: f64, degrees: f64) -> f64 {
    let square = t * t;
    let share = square / (degrees + square);
    incomplete_beta(share, degrees / (degrees + square), 0.5, 0.5 * degrees)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_printed_table_holds() {
        // Table of the t distribution as printed in textbooks (two-sided, 95 and 99 %).
        for (degrees, at_95, at_99) in [
            (1.0, 12.706, 63.657),
            (2.0, 4.303, 9.925),
            (3.0, 3.182, 5.841),
            (5.0, 2.571, 4.032),
            (10.0, 2.228, 3.169),
            (29.0, 2.045, 2.756),
            (30.0, 2.042, 2.750),
            (60.0, 2.000, 2.660),
            (120.0, 1.980, 2.617),
        ] {
            assert!((t_95(degrees) - at_95).abs() <= 0.000_51, "{degrees}: {}", t_95(degrees));
            assert!((two_sided(0.99, degrees) - at_99).abs() <= 0.000_51, "{degrees}");
        }
        assert!((t_95(1e9) - NORMAL_95).abs() < 3e-6);
    }

    #[test]
    fn closed_forms_hold() {
        // One degree of freedom: tan(0.475 π). Two: sqrt(2 p² / (1 − p²)).
        let one = libm::tan(0.475 * core::f64::consts::PI);
        assert!((t_95(1.0) / one - 1.0).abs() < 1e-12);
        let two = (2.0 * 0.95_f64 * 0.95 / (1.0 - 0.95 * 0.95)).sqrt();
        assert!((t_95(2.0) / two - 1.0).abs() < 1e-12);
    }

    #[test]
    fn nothing_is_known_from_one_measurement() {
        for degrees in [0.0, -1.0, f64::NAN] {
            assert!(t_95(degrees).is_infinite());
        }
        assert!(two_sided(1.0, 5.0).is_infinite());
    }
}
