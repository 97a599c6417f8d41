//! How far the largest of several differences goes by chance alone: the studentised range (all pairs) and Dunnett's
//! largest difference from one check.
//!
//! Both are an inner integral over a normal value, worked out once for known spread and kept as Chebyshev series, and an
//! outer one over the spread that the plots estimate, taken in its logarithm. Both integrands fall off like a normal
//! curve, where the plain trapezoid converges faster than any power (Trefethen & Weideman 2014, SIAM Review
//! 56:385-458). Studentised range: density form as in Copenhaver & Holland 1988, Journal of Statistical Computation and
//! Simulation 30:1-15. Dunnett 1955, Journal of the American Statistical Association 50:1096-1121.

use core::f64::consts::{FRAC_1_SQRT_2, PI};

use crate::distribution::{falling_to, normal_below};

use super::real;

/// Chance that the largest standardised difference stays below a limit, as a function of the limit and of the degrees of
/// freedom behind the spread.
#[derive(Debug, Clone)]
pub struct Simultaneous {
    pieces: Vec<[f64; TERMS]>,
}

/// Terms of a piece.
const TERMS: usize = 24;
/// Where the known-spread curve is cut; each piece is so wide.
const WIDE: f64 = 1.75;
/// Number of pieces: beyond the last the chance of more is below 1e-16 for up to 100 means.
const PIECES: usize = 8;
/// Where a normal value ends for an integral.
const END: f64 = 8.5;

impl Simultaneous {
    /// The range of so many independent standard normal values: all pairs of that many means.
    pub fn range(means: usize) -> Self {
        let others = i32::try_from(means.saturating_sub(1)).unwrap_or(i32::MAX);
        let nodes = normal_nodes(1.0 / 8.0);
        let below: Vec<f64> = nodes.iter().map(|&(z, _)| normal_below(z)).collect();
        Self::of(|width| {
            let sum: f64 = nodes
                .iter()
                .zip(&below)
                .map(|(&(z, weight), below)| weight * (below - normal_below(z - width)).max(0.0).powi(others))
                .sum();
            real(means) * sum
        })
    }

    /// Differences from one check, two-sided; the correlation of two of them is the product of their factors, which are
    /// sqrt(n / (n + n of the check)) for means of n plots.
    pub fn against_check(factors: &[f64]) -> Self {
        let factors: Vec<f64> = factors.iter().map(|factor| factor.clamp(0.0, MOST)).collect();
        let mut kinds: Vec<(f64, i32)> = Vec::new();
        for &factor in &factors {
            match kinds.iter_mut().find(|(known, _)| (known - factor).abs() < 1e-12) {
                Some((_, times)) => *times += 1,
                None => kinds.push((factor, 1)),
            }
        }
        let finest = factors
            .iter()
            .filter(|factor| **factor > 0.0)
            .map(|factor| (1.0 - factor * factor).sqrt() / factor / 3.0)
            .fold(1.0 / 8.0, f64::min);
        let nodes = normal_nodes(finest);
        Self::of(|limit| {
            nodes
                .iter()
                .map(|&(z, weight)| {
                    kinds.iter().fold(weight, |product, &(factor, times)| {
                        let own = (1.0 - factor * factor).sqrt();
                        let (high, low) = ((factor * z + limit) / own, (factor * z - limit) / own);
                        product * between(low, high).powi(times)
                    })
                })
                .sum()
        })
    }

    /// Chance that the largest stays below the limit.
    pub fn below(&self, limit: f64, degrees: f64) -> f64 {
        if !(limit > 0.0 && degrees > 0.0) {
            return 0.0;
        }
        over_spread(degrees, |spread| self.known(limit * spread)).clamp(0.0, 1.0)
    }

    /// Chance that the largest goes beyond the limit.
    pub fn beyond(&self, limit: f64, degrees: f64) -> f64 {
        1.0 - self.below(limit, degrees)
    }

    /// The limit that the largest stays below with a probability; infinite without degrees of freedom.
    pub fn limit(&self, probability: f64, degrees: f64) -> f64 {
        if !(degrees > 0.0 && probability > 0.0 && probability < 1.0) {
            return f64::INFINITY;
        }
        falling_to(1.0 - probability, |limit| self.beyond(limit, degrees))
    }

    fn of(curve: impl Fn(f64) -> f64) -> Self {
        let mut cosine = [0.0; 4 * TERMS];
        for (step, value) in cosine.iter_mut().enumerate() {
            *value = libm::cos(PI * real(step) / real(2 * TERMS));
        }
        let piece = |number: usize| {
            let mut values = [0.0; TERMS];
            for (node, value) in values.iter_mut().enumerate() {
                *value = curve(WIDE * (real(number) + 0.5 * (1.0 + cosine[2 * node + 1])));
            }
            let mut terms = [0.0; TERMS];
            for (term, coefficient) in terms.iter_mut().enumerate() {
                let sum: f64 = values
                    .iter()
                    .enumerate()
                    .map(|(node, value)| value * cosine[(term * (2 * node + 1)) % (4 * TERMS)])
                    .sum();
                *coefficient = sum * if term == 0 { 1.0 } else { 2.0 } / real(TERMS);
            }
            terms
        };
        Self { pieces: (0..PIECES).map(piece).collect() }
    }

    /// The curve for a known spread (Clenshaw 1955).
    fn known(&self, at: f64) -> f64 {
        let place = at / WIDE;
        let number = place.floor();
        let Some(piece) = self.pieces.get(index(number)) else { return 1.0 };
        let x = 2.0 * (place - number) - 1.0;
        let (mut next, mut after) = (0.0, 0.0);
        for coefficient in piece.iter().skip(1).rev() {
            (next, after) = (2.0 * x * next - after + coefficient, next);
        }
        x * next - after + piece[0]
    }
}

/// Largest factor of a correlation; nearer to 1 nothing can be told apart.
const MOST: f64 = 0.999_999;

/// Chance that Student's t whose middle is shifted goes beyond a limit to either side: the power of a t test.
pub fn shifted_t_beyond(limit: f64, degrees: f64, shift: f64) -> f64 {
    if degrees.is_nan() || degrees <= 0.0 {
        return 0.0;
    }
    over_spread(degrees, |spread| {
        normal_below(shift - limit * spread) + normal_below(-shift - limit * spread)
    })
}

/// The mean of a function of s, where s² is chi-square over its degrees of freedom.
fn over_spread(degrees: f64, of: impl Fn(f64) -> f64) -> f64 {
    /// From here on the spread is known (its own spread is below 1e-5).
    const KNOWN: f64 = 1e10;
    /// Share of the largest weight where the sum ends.
    const NEGLIGIBLE: f64 = 1e-18;
    if degrees >= KNOWN {
        return of(1.0);
    }
    // In u = ln s the weight is exp(n (u - exp(2u) / 2)), largest at 0, of width 1 / sqrt(2 n).
    let step = (0.5 / (2.0 * degrees).sqrt()).min(0.1);
    let (mut sum, mut weights) = (0.0, 0.0);
    for direction in [1.0, -1.0] {
        let mut at = if direction > 0.0 { 0.0 } else { 1.0 };
        loop {
            let u: f64 = direction * step * at;
            let spread = libm::exp(u);
            let weight = libm::exp(degrees * (u - 0.5 * (spread * spread - 1.0)));
            if weight < NEGLIGIBLE {
                break;
            }
            sum += weight * of(spread);
            weights += weight;
            at += 1.0;
        }
    }
    sum / weights
}

/// Nodes of a standard normal value with their weights.
fn normal_nodes(step: f64) -> Vec<(f64, f64)> {
    let density = step / (2.0 * PI).sqrt();
    let mut nodes = vec![(0.0, density)];
    let mut at = step;
    while at <= END {
        let weight = density * libm::exp(-0.5 * at * at);
        nodes.push((at, weight));
        nodes.push((-at, weight));
        at += step;
    }
    nodes
}

/// Chance of a standard normal value between two, with both tails kept.
fn between(low: f64, high: f64) -> f64 {
    // Taken on the side where neither term is near 1.
    let (low, high) = if low > 0.0 { (-high, -low) } else { (low, high) };
    0.5 * (libm::erfc(-high * FRAC_1_SQRT_2) - libm::erfc(-low * FRAC_1_SQRT_2))
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a floor at or above 0; too large saturates"
)]
fn index(number: f64) -> usize {
    number as usize
}
