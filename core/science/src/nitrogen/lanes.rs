//! Arithmetic on lanes: several runs side by side, one value each, in an array the compiler can hold in vector
//! registers. Everything here is without branches and uses only operations that IEEE 754 rounds exactly, so a
//! run gives the same bits whatever the number of lanes, the target or the level of optimisation.

#![expect(
    clippy::inline_always,
    reason = "a call in the middle of a loop over lanes keeps it from being vector code"
)]

use core::ops::{Deref, DerefMut};

/// One value for each run of a block, aligned so that vector instructions can read it from memory.
#[derive(Debug, Clone, Copy, PartialEq)]
#[repr(align(64))]
pub(super) struct Lanes<const L: usize>([f64; L]);

impl<const L: usize> Lanes<L> {
    /// Zero in every lane.
    pub(super) const ZERO: Self = Self([0.0; L]);

    /// The same in every lane.
    pub(super) const fn all(value: f64) -> Self {
        Self([value; L])
    }

    /// Each lane is `f` of its number.
    pub(super) fn of(f: impl FnMut(usize) -> f64) -> Self {
        Self(core::array::from_fn(f))
    }
}

impl<const L: usize> Deref for Lanes<L> {
    type Target = [f64; L];
    fn deref(&self) -> &[f64; L] {
        &self.0
    }
}

impl<const L: usize> DerefMut for Lanes<L> {
    fn deref_mut(&mut self) -> &mut [f64; L] {
        &mut self.0
    }
}

/// The smallest divisor: where a total is zero, what is divided by it is zero as well.
pub(super) const TINY: f64 = 1e-300;

/// ln 2 in two parts; the first has so few digits that its multiples are exact.
const LN_2_HIGH: f64 = 0.693_147_180_369_123_8;
const LN_2_LOW: f64 = 1.908_214_929_270_587_7e-10;
/// Adding this to a number of modest size leaves its nearest integer in the low bits.
const ROUNDER: f64 = 6_755_399_441_055_744.0;
/// Beyond this 1 - exp(-x) is 1.
const ALL_GONE: f64 = 40.0;

/// Chebyshev fit to (exp(r) - 1)/r for |r| <= ln 2 / 2; relative error below 1e-13.
const GROWTH: [f64; 9] = [
    1.000_000_000_000_001_6,
    0.499_999_999_997_977_45,
    0.166_666_666_666_144_63,
    0.041_666_666_891_138_196,
    0.008_333_333_367_698_481,
    0.001_388_882_164_212_964_3,
    0.000_198_411_901_067_299_42,
    2.487_618_308_929_207e-5,
    2.763_289_252_962_711_2e-6,
];

/// The smaller of two; where they are equal, the second.
#[inline(always)]
pub(super) fn least(a: f64, b: f64) -> f64 {
    if a < b { a } else { b }
}

/// The larger of two; where they are equal, the second.
#[inline(always)]
pub(super) fn most(a: f64, b: f64) -> f64 {
    if a > b { a } else { b }
}

/// (exp(r) - 1)/r for |r| <= ln 2 / 2.
#[inline(always)]
fn growth(r: f64) -> f64 {
    // Estrin's scheme: short chains, which wait less for each other than Horner's one long one.
    let (c, r2) = (GROWTH, r * r);
    let low = (c[0] + c[1] * r) + (c[2] + c[3] * r) * r2;
    let high = (c[4] + c[5] * r) + ((c[6] + c[7] * r) + c[8] * r2) * r2;
    low + high * (r2 * r2)
}

/// exp(x) as 2^n (1 + g), for |x| <= 700: the power and g.
#[inline(always)]
fn split(x: f64) -> (f64, f64) {
    let rounded = x * core::f64::consts::LOG2_E + ROUNDER;
    let n = rounded - ROUNDER;
    let r = (x - n * LN_2_HIGH) - n * LN_2_LOW;
    (f64::from_bits((rounded.to_bits() << 52).wrapping_add(1.0_f64.to_bits())), growth(r) * r)
}

/// exp(x) for |x| <= 700, to 1e-12 relative.
#[inline(always)]
pub(super) fn exp(x: f64) -> f64 {
    let (power, grown) = split(x);
    power + power * grown
}

/// 1 - exp(-x) for x >= 0, to 1e-12 relative however small x is.
#[inline(always)]
pub(super) fn share_gone(x: f64) -> f64 {
    let (power, grown) = split(most(-x, -ALL_GONE));
    (1.0 - power) - power * grown
}

/// Up to here [`some_gone`] serves.
pub(super) const SOME: f64 = 0.34;

/// 1 - exp(-x) for 0 <= x <= 0.34: the bits of [`share_gone`] for less.
#[inline(always)]
pub(super) fn some_gone(x: f64) -> f64 {
    growth(-x) * x
}

/// 1 - exp(-x) for 0 <= x <= 0.1, by the first seven terms of its series, to 1e-11 relative at the upper end and
/// 1e-12 below 0.07.
#[inline(always)]
pub(super) fn little_gone(x: f64) -> f64 {
    // Horner's scheme: the fewest operations.
    let tail = ((x * (1.0 / 5_040.0) - 1.0 / 720.0) * x + 1.0 / 120.0) * x - 1.0 / 24.0;
    (((tail * x + 1.0 / 6.0) * x - 1.0 / 2.0) * x + 1.0) * x
}

/// 1 - exp(-x) for 0 <= x <= 0.02, by the first five terms of its series, to 1e-11 relative at the upper end and
/// 1e-12 below 0.01.
#[inline(always)]
pub(super) fn trace_gone(x: f64) -> f64 {
    ((((x * (1.0 / 120.0) - 1.0 / 24.0) * x + 1.0 / 6.0) * x - 1.0 / 2.0) * x + 1.0) * x
}

/// 1 - exp(-x) for 0 <= x <= 0.003, by the first four terms of its series, to 1e-12 relative.
#[inline(always)]
pub(super) fn hint_gone(x: f64) -> f64 {
    (((x * (-1.0 / 24.0) + 1.0 / 6.0) * x - 1.0 / 2.0) * x + 1.0) * x
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Positions spread over a range, many of them small.
    fn positions(high: f64) -> impl Iterator<Item = f64> {
        (0..=4000).map(move |k| {
            let part = f64::from(k) / 4000.0;
            high * part * part * part * part
        })
    }

    #[test]
    fn exponentials_keep_their_digits() {
        let off = |found: f64, expected: f64| {
            if expected == 0.0 { found.abs() } else { (found / expected - 1.0).abs() }
        };
        for x in positions(700.0) {
            for x in [x, -x] {
                assert!(off(exp(x), libm::exp(x)) < 1e-12, "exp({x})");
            }
        }
        for x in positions(60.0) {
            assert!(off(share_gone(x), -libm::expm1(-x)) < 1e-12, "share_gone({x})");
        }
        for x in positions(0.07) {
            assert!(off(little_gone(x), -libm::expm1(-x)) < 1e-12, "little_gone({x})");
        }
        for x in positions(0.01) {
            assert!(off(trace_gone(x), -libm::expm1(-x)) < 1e-12, "trace_gone({x})");
        }
        for x in positions(0.003) {
            assert!(off(hint_gone(x), -libm::expm1(-x)) < 1e-12, "hint_gone({x})");
        }
    }

    #[test]
    fn the_shorter_way_has_the_same_bits() {
        for x in positions(SOME) {
            assert_eq!(some_gone(x).to_bits(), share_gone(x).to_bits(), "{x}");
        }
    }
}
