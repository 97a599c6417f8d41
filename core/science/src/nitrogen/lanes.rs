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

    /// Whether some lane is so. Looks at all of them: that is one comparison a register.
    #[inline(always)]
    pub(super) fn any(&self, f: impl Fn(f64) -> bool) -> bool {
        let mut found = false;
        for value in &self.0 {
            found |= f(*value);
        }
        found
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

/// exp(x) - 1 for |x| <= 0.34: with 1 added, the bits of [`exp`] for less.
#[inline(always)]
pub(super) fn small_growth(x: f64) -> f64 {
    growth(x) * x
}

/// Up to here [`some_gone`] serves.
pub(super) const SOME: f64 = 0.17;

/// Chebyshev fits to (1 - exp(-x))/x from 0 up to 0.17, 0.0125 and 0.0016; relative errors below 3e-12, 2e-12
/// and 6e-12.
const SOME_GONE: [f64; 6] = [
    0.999_999_999_997_805_4,
    -0.499_999_999_070_269_1,
    0.166_666_602_763_526_68,
    -0.041_665_057_717_702_15,
    0.008_314_969_363_735_793,
    -0.001_291_617_704_502_793,
];
const TRACE_GONE: [f64; 4] =
    [0.999_999_999_998_417_2, -0.499_999_995_947_638_3, 0.166_665_045_151_773_97, -0.041_458_928_864_221_437];
const HINT_GONE: [f64; 3] = [0.999_999_999_994_669_3, -0.499_999_940_027_725_13, 0.166_566_702_656_891_08];

/// 1 - exp(-x) for 0 <= x <= 0.17.
#[inline(always)]
pub(super) fn some_gone(x: f64) -> f64 {
    let (c, x2) = (SOME_GONE, x * x);
    ((c[0] + c[1] * x) + x2 * ((c[2] + c[3] * x) + x2 * (c[4] + c[5] * x))) * x
}

/// 1 - exp(-x) for x >= 0: the bits of [`some_gone`] where that serves.
#[inline(always)]
pub(super) fn gone(x: f64) -> f64 {
    let (some, much) = (some_gone(x), share_gone(x));
    if x <= SOME { some } else { much }
}

/// 1 - exp(-x) for 0 <= x <= 0.0125.
#[inline(always)]
pub(super) fn trace_gone(x: f64) -> f64 {
    let c = TRACE_GONE;
    ((c[0] + c[1] * x) + (x * x) * (c[2] + c[3] * x)) * x
}

/// 1 - exp(-x) for 0 <= x <= 0.0016.
#[inline(always)]
pub(super) fn hint_gone(x: f64) -> f64 {
    let c = HINT_GONE;
    (c[0] + (c[1] + c[2] * x) * x) * x
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
        for x in positions(SOME) {
            assert!(off(some_gone(x), -libm::expm1(-x)) < 3e-12, "some_gone({x})");
        }
        for x in positions(0.0125) {
            assert!(off(trace_gone(x), -libm::expm1(-x)) < 2e-12, "trace_gone({x})");
        }
        for x in positions(0.0016) {
            assert!(off(hint_gone(x), -libm::expm1(-x)) < 6e-12, "hint_gone({x})");
        }
    }

    #[test]
    fn the_shorter_way_has_the_same_bits() {
        for x in positions(SOME) {
            assert_eq!(some_gone(x).to_bits(), gone(x).to_bits(), "{x}");
        }
        for x in positions(0.34) {
            for x in [x, -x] {
                assert_eq!((1.0 + small_growth(x)).to_bits(), exp(x).to_bits(), "{x}");
            }
        }
    }
}
