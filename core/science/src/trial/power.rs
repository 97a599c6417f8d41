//! What a trial can find: power of a planned pair and of the whole table, replicates, the difference it could miss.

use crate::distribution::{f_exceeded_with, falling_to, shifted_f_beyond};
use crate::student;

use super::design::{Design, Stratum};
use super::real;
use super::simultaneous::shifted_t_beyond;

/// The line that is drawn everywhere: one in twenty.
pub const LINE: f64 = 0.05;
/// How often a difference worth finding should be found.
pub const POWER: f64 = 0.8;
/// More replicates than this are not looked for.
pub const MOST_REPLICATES: usize = 400;

/// Chance that a planned pair is told apart at the 5 % line, two-sided; difference and variation in the same units.
pub fn of_pair(stratum: Stratum, difference: f64, variation: f64) -> f64 {
    let degrees = real(stratum.degrees);
    let shift = difference / variation * (0.5 * real(stratum.plots_per_mean)).sqrt();
    shifted_t_beyond(student::t_95(degrees), degrees, shift)
}

/// Chance that the F test of the treatments comes out at the 5 % line, where two means lie so far apart and the others
/// midway; complete blocks.
pub fn of_table(treatments: usize, blocks: usize, difference: f64, variation: f64) -> f64 {
    let above = real(treatments.saturating_sub(1));
    let below = real(treatments.saturating_sub(1) * blocks.saturating_sub(1));
    let ratio = difference / variation;
    shifted_f_beyond(f_exceeded_with(LINE, above, below), above, below, 0.5 * real(blocks) * ratio * ratio)
}

/// Fewest complete blocks that find a difference of a planned pair so often; `None` where [`MOST_REPLICATES`] do not.
pub fn replicates(treatments: usize, difference: f64, variation: f64, power: f64) -> Option<usize> {
    fewest(|blocks| of_pair(blocked(treatments, blocks), difference, variation) >= power)
}

/// The same for the F test of the treatments.
pub fn replicates_by_table(treatments: usize, difference: f64, variation: f64, power: f64) -> Option<usize> {
    fewest(|blocks| of_table(treatments, blocks, difference, variation) >= power)
}

/// Fewest complete blocks by the formula of the hand, r ≥ 2 (CV / difference)² (t₁ + t₂)² (Cochran & Cox 1957,
/// Experimental Designs, from memory).
pub fn replicates_by_hand(treatments: usize, difference: f64, variation: f64, power: f64) -> Option<usize> {
    let ratio = variation / difference;
    fewest(|blocks| {
        let degrees = real(blocked(treatments, blocks).degrees);
        let sum = student::t_95(degrees) + student::two_sided(2.0 * power - 1.0, degrees);
        real(blocks) >= 2.0 * ratio * ratio * sum * sum
    })
}

/// Least difference of a planned pair that is found four times in five, in units of the variation.
pub fn detectable(stratum: Stratum) -> f64 {
    if stratum.degrees == 0 {
        return f64::INFINITY;
    }
    falling_to(1.0 - POWER, |difference| 1.0 - of_pair(stratum, difference, 1.0))
}

/// Least difference of a planned pair that a design finds four times in five, in per cent of the mean; of two factors
/// that of the main one.
pub fn detectable_pct(design: &Design, variation_pct: f64) -> Option<f64> {
    let stratum = design.strata().first().copied().filter(|stratum| stratum.degrees > 0)?;
    Some(detectable(stratum) * variation_pct)
}

/// What a finished trial could have missed: the difference that its intervals would be clear of four times in five.
/// `limit` is the multiple of the standard error that the intervals were made with.
pub fn could_have_missed(limit: f64, standard_error: f64, degrees: usize) -> f64 {
    (limit + student::two_sided(2.0 * POWER - 1.0, real(degrees))) * standard_error
}

/// Least significant difference of two treatments, in units of the variation.
pub fn least_significant(stratum: Stratum) -> f64 {
    student::t_95(real(stratum.degrees)) * (2.0 / real(stratum.plots_per_mean)).sqrt()
}

fn blocked(treatments: usize, blocks: usize) -> Stratum {
    Stratum { degrees: treatments.saturating_sub(1) * blocks.saturating_sub(1), plots_per_mean: blocks }
}

fn fewest(enough: impl Fn(usize) -> bool) -> Option<usize> {
    (2..=MOST_REPLICATES).find(|&blocks| enough(blocks))
}
