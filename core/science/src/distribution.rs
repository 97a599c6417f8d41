//! Tails of the distributions that tests of differences need: normal, chi-square, t, F, also non-central.
//!
//! All by `libm`, so that the same inputs give the same bits everywhere.

use core::f64::consts::FRAC_1_SQRT_2;

/// Probability that a standard normal value lies below z.
pub fn normal_below(z: f64) -> f64 {
    0.5 * libm::erfc(-z * FRAC_1_SQRT_2)
}

/// Probability that |T| of Student's t exceeds |t|; 1 where nothing is known of the spread.
pub fn t_beyond(t: f64, degrees: f64) -> f64 {
    if degrees.is_nan() || degrees <= 0.0 || t.is_nan() {
        return 1.0;
    }
    let whole = degrees + t * t;
    if whole.is_infinite() {
        return 0.0;
    }
    incomplete_beta(degrees / whole, t * t / whole, 0.5 * degrees, 0.5)
}

/// Probability that F on these degrees of freedom exceeds a value; 1 where it is not defined.
pub fn f_beyond(f: f64, above: f64, below: f64) -> f64 {
    if !(above > 0.0 && below > 0.0) || f.is_nan() || f <= 0.0 {
        return 1.0;
    }
    let whole = below + above * f;
    if whole.is_infinite() {
        return 0.0;
    }
    incomplete_beta(below / whole, above * f / whole, 0.5 * below, 0.5 * above)
}

/// Probability that chi-square on these degrees of freedom exceeds a value.
pub fn chi_square_beyond(value: f64, degrees: f64) -> f64 {
    if !(value > 0.0 && degrees > 0.0) {
        return 1.0;
    }
    if value.is_infinite() {
        return 0.0;
    }
    incomplete_gamma_upper(0.5 * degrees, 0.5 * value)
}

/// The value that F on these degrees of freedom exceeds with a probability, by bisection to the last bits.
pub fn f_exceeded_with(probability: f64, above: f64, below: f64) -> f64 {
    falling_to(probability, |f| f_beyond(f, above, below))
}

/// Probability that F exceeds a value where the non-centrality is `shift`: a Poisson mixture of beta tails
/// (Abramowitz & Stegun 1964, 26.6.18).
pub fn shifted_f_beyond(f: f64, above: f64, below: f64, shift: f64) -> f64 {
    let half = 0.5 * shift;
    let whole = below + above * f;
    let (rest, share) = (below / whole, above * f / whole);
    let weight = |step: f64| libm::exp(step * libm::log(half) - half - libm::lgamma(step + 1.0));
    if half.is_nan() || half <= 0.0 {
        return f_beyond(f, above, below);
    }
    let middle = half.floor();
    let term = |step: f64| weight(step) * incomplete_beta(rest, share, 0.5 * below, 0.5 * above + step);
    let mut sum = term(middle);
    for outward in [-1.0, 1.0] {
        let mut step = middle + outward;
        while step >= 0.0 && weight(step) > 1e-17 {
            sum += term(step);
            step += outward;
        }
    }
    sum.min(1.0)
}

/// The argument at which a falling function comes down to a value; for functions that start above it at 0.
pub(crate) fn falling_to(value: f64, falling: impl Fn(f64) -> f64) -> f64 {
    let (mut low, mut high) = (0.0, 1.0);
    while falling(high) > value && high < f64::MAX / 4.0 {
        low = high;
        high *= 2.0;
    }
    for _ in 0..80 {
        let middle = f64::midpoint(low, high);
        if falling(middle) > value {
            low = middle;
        } else {
            high = middle;
        }
    }
    f64::midpoint(low, high)
}

/// The regularised incomplete beta function at x, with 1 − x given as well, by its continued fraction
/// (Abramowitz & Stegun 1964, 26.5.8, evaluated after Lentz).
pub(crate) fn incomplete_beta(x: f64, rest: f64, a: f64, b: f64) -> f64 {
    if x <= 0.0 {
        return 0.0;
    }
    if rest <= 0.0 {
        return 1.0;
    }
    let log_front =
        libm::lgamma(a + b) - libm::lgamma(a) - libm::lgamma(b) + a * libm::log(x) + b * libm::log(rest);
    let front = libm::exp(log_front);
    // The fraction converges quickly on its own side of the mean.
    if x < (a + 1.0) / (a + b + 2.0) {
        front * beta_fraction(x, a, b) / a
    } else {
        1.0 - front * beta_fraction(rest, b, a) / b
    }
}

const TINY: f64 = 1e-300;
const TERMS: u32 = 500;

fn away_from_zero(value: f64) -> f64 {
    if value.abs() < TINY { TINY } else { value }
}

fn beta_fraction(x: f64, a: f64, b: f64) -> f64 {
    let mut above = 1.0;
    let mut below = 1.0 / away_from_zero(1.0 - (a + b) * x / (a + 1.0));
    let mut value = below;
    for term in 1..=TERMS {
        let m = f64::from(term);
        let even = m * (b - m) * x / ((a + 2.0 * m - 1.0) * (a + 2.0 * m));
        let odd = -(a + m) * (a + b + m) * x / ((a + 2.0 * m) * (a + 2.0 * m + 1.0));
        let mut change = 1.0;
        for step in [even, odd] {
            below = 1.0 / away_from_zero(1.0 + step * below);
            above = away_from_zero(1.0 + step / above);
            change = below * above;
            value *= change;
        }
        if (change - 1.0).abs() < 1e-16 {
            break;
        }
    }
    value
}

/// The upper regularised incomplete gamma function: its series below a + 1 (Abramowitz & Stegun 6.5.29), its
/// continued fraction above (6.5.31).
fn incomplete_gamma_upper(a: f64, x: f64) -> f64 {
    let front = libm::exp(a * libm::log(x) - x - libm::lgamma(a));
    if x < a + 1.0 {
        let (mut term, mut sum, mut at) = (1.0 / a, 1.0 / a, a);
        for _ in 0..10 * TERMS {
            at += 1.0;
            term *= x / at;
            sum += term;
            if term < sum * 1e-17 {
                break;
            }
        }
        return 1.0 - front * sum;
    }
    let mut odd = x + 1.0 - a;
    let mut above = 1.0 / TINY;
    let mut below = 1.0 / away_from_zero(odd);
    let mut value = below;
    for term in 1..=10 * TERMS {
        let m = f64::from(term);
        let step = -m * (m - a);
        odd += 2.0;
        below = 1.0 / away_from_zero(step * below + odd);
        above = away_from_zero(odd + step / above);
        let change = below * above;
        value *= change;
        if (change - 1.0).abs() < 1e-16 {
            break;
        }
    }
    front * value
}

#[cfg(test)]
mod tests {
    use super::*;

    fn close(value: f64, expected: f64, within: f64) {
        assert!((value - expected).abs() <= within, "{value} is not {expected}");
    }

    #[test]
    fn closed_forms_hold() {
        // Chi-square on two degrees is an exponential; F on (2, n) and t on one have closed tails.
        for value in [0.1, 1.0, 3.0, 20.0, 80.0] {
            close(chi_square_beyond(value, 2.0) / libm::exp(-0.5 * value), 1.0, 1e-13);
            close(f_beyond(value, 2.0, 6.0), libm::pow(1.0 + value / 3.0, -3.0), 1e-14);
            close(t_beyond(value, 1.0), 1.0 - libm::atan(value) * core::f64::consts::FRAC_2_PI, 1e-14);
            close(f_beyond(value * value, 1.0, 7.0), t_beyond(value, 7.0), 1e-15);
            close(chi_square_beyond(value * value, 1.0), 2.0 * normal_below(-value), 1e-14);
        }
    }

    #[test]
    fn quantiles_come_back() {
        for (above, below) in [(1.0, 3.0), (4.0, 12.0), (9.0, 100.0)] {
            close(f_beyond(f_exceeded_with(0.05, above, below), above, below), 0.05, 1e-13);
        }
    }

    #[test]
    fn a_shift_of_nothing_changes_nothing_and_more_shift_more() {
        close(shifted_f_beyond(3.0, 3.0, 12.0, 0.0), f_beyond(3.0, 3.0, 12.0), 1e-15);
        let powers = [0.1, 1.0, 5.0, 20.0, 200.0].map(|shift| shifted_f_beyond(3.0, 3.0, 12.0, shift));
        assert!(powers.is_sorted());
        close(powers[4], 1.0, 1e-9);
    }

    #[test]
    fn nothing_known_is_no_evidence() {
        for degrees in [0.0, -1.0, f64::NAN] {
            close(t_beyond(5.0, degrees), 1.0, 0.0);
            close(f_beyond(5.0, degrees, 3.0), 1.0, 0.0);
            close(f_beyond(5.0, 3.0, degrees), 1.0, 0.0);
        }
        close(f_beyond(f64::INFINITY, 3.0, 4.0), 0.0, 0.0);
    }
}
