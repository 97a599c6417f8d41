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

/// exp(x) as 2^n (1 + grown), for |x| <= 700: the power and `grown`.
#[inline(always)]
fn split(x: f64) -> (f64, f64) {
    let rounded = x * core::f64::consts::LOG2_E + ROUNDER;
    let n = rounded - ROUNDER;
    let r = (x - n * LN_2_HIGH) - n * LN_2_LOW;
    let mut sum = GROWTH[8];
    sum = sum * r + GROWTH[7];
    sum = sum * r + GROWTH[6];
    sum = sum * r + GROWTH[5];
    sum = sum * r + GROWTH[4];
    sum = sum * r + GROWTH[3];
    sum = sum * r + GROWTH[2];
    sum = sum * r + GROWTH[1];
    sum = sum * r + GROWTH[0];
    let power = f64::from_bits((rounded.to_bits() << 52).wrapping_add(1.0_f64.to_bits()));
    (power, sum * r)
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
    let (power, grown) = split(-least(x, ALL_GONE));
    (1.0 - power) - power * grown
}

/// 1 - exp(-x) for 0 <= x <= 0.1, by the first seven terms of its series, to 1e-11 relative at the upper end and
/// 1e-12 below 0.07.
#[inline(always)]
pub(super) fn little_gone(x: f64) -> f64 {
    let mut sum = 1.0 / 5_040.0;
    sum = sum * x - 1.0 / 720.0;
    sum = sum * x + 1.0 / 120.0;
    sum = sum * x - 1.0 / 24.0;
    sum = sum * x + 1.0 / 6.0;
    sum = sum * x - 1.0 / 2.0;
    sum = sum * x + 1.0;
    sum * x
}

/// 1 - exp(-x) for 0 <= x <= 0.02, by the first five terms of its series, to 1e-11 relative at the upper end and
/// 1e-12 below 0.01.
#[inline(always)]
pub(super) fn trace_gone(x: f64) -> f64 {
    let mut sum = 1.0 / 120.0;
    sum = sum * x - 1.0 / 24.0;
    sum = sum * x + 1.0 / 6.0;
    sum = sum * x - 1.0 / 2.0;
    sum = sum * x + 1.0;
    sum * x
}
