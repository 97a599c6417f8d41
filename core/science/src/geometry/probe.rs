//! Depth probes: a mean, how far it may be off, how many more are needed, and the volume that follows.
//!
//! Depths may be in any one unit; results are in the same.

use crate::student::{NORMAL_95, t_95};

/// Most probes that a wish for narrowness may ask for.
const MOST_NEEDED: u32 = 1_000_000;

/// Why probes tell nothing.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum ProbeError {
    /// No probe.
    #[error("no depth is given: probe at least once, better nine times")]
    None,
    /// A depth that is none.
    #[error("depth {number} is {depth}: give 0 or more")]
    Depth {
        /// Which, from 1.
        number: usize,
        /// As given.
        depth: f64,
    },
    /// A part of the place with no size, or all of them together with none.
    #[error("the size of part {number} is {size}: give more than 0, in one unit for all parts")]
    Size {
        /// Which, from 1.
        number: usize,
        /// As given.
        size: f64,
    },
    /// Too few probes in a part for a spread.
    #[error("part {number} has {count} probes: at least two are needed in each")]
    TooFew {
        /// Which, from 1.
        number: usize,
        /// As given.
        count: u32,
    },
    /// A margin of nothing.
    #[error("a margin of {margin}: give more than 0")]
    Margin {
        /// As given.
        margin: f64,
    },
}

/// A mean of probes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mean {
    /// How many.
    pub count: u32,
    /// Their mean.
    pub mean: f64,
    /// Standard deviation of one probe; infinite for a single one, which tells no spread.
    pub sd: f64,
    /// Standard error of the mean.
    pub standard_error: f64,
    /// Half-width of the mean's 95 % interval (Student's t).
    pub half_width_95: f64,
}

/// Mean of probes on a regular grid or a zigzag, away from the edge.
///
/// # Errors
/// No probe, or a depth that is negative or no number.
pub fn mean(depths: &[f64]) -> Result<Mean, ProbeError> {
    let mut running = Running::default();
    for (number, depth) in (1..).zip(depths.iter().copied()) {
        if !(depth >= 0.0 && depth.is_finite()) {
            return Err(ProbeError::Depth { number, depth });
        }
        running.add(depth);
    }
    running.mean().ok_or(ProbeError::None)
}

/// Mean and spread kept up to date with every probe (Welford 1962).
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Running {
    count: u32,
    mean: f64,
    squares: f64,
}

impl Running {
    /// Takes one probe in.
    pub fn add(&mut self, depth: f64) {
        self.count = self.count.saturating_add(1);
        let off = depth - self.mean;
        self.mean += off / f64::from(self.count);
        self.squares += off * (depth - self.mean);
    }

    /// What is known by now; nothing before the first probe.
    pub fn mean(&self) -> Option<Mean> {
        let count = f64::from(self.count);
        if self.count == 0 {
            return None;
        }
        if self.count == 1 {
            let unknown = f64::INFINITY;
            return Some(Mean {
                count: 1,
                mean: self.mean,
                sd: unknown,
                standard_error: unknown,
                half_width_95: unknown,
            });
        }
        let sd = (self.squares / (count - 1.0)).sqrt();
        let standard_error = sd / count.sqrt();
        let half_width_95 = standard_error * t_95(count - 1.0);
        Some(Mean { count: self.count, mean: self.mean, sd, standard_error, half_width_95 })
    }
}

/// One part of a place that was probed on its own: the middle of a bed, its edge, the alley.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stratum {
    /// Its size, in one unit for all parts.
    pub size: f64,
    /// Probes in it.
    pub count: u32,
    /// Their mean.
    pub mean: f64,
    /// Their variance.
    pub variance: f64,
}

impl Stratum {
    /// A part from its probes.
    ///
    /// # Errors
    /// As [`mean`].
    pub fn of(size: f64, depths: &[f64]) -> Result<Self, ProbeError> {
        let probed = mean(depths)?;
        Ok(Self { size, count: probed.count, mean: probed.mean, variance: probed.sd * probed.sd })
    }
}

/// A mean over the parts of a place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stratified {
    /// Mean by size.
    pub mean: f64,
    /// Variance of that mean.
    pub variance: f64,
    /// Effective degrees of freedom (Satterthwaite 1946).
    pub degrees: f64,
    /// Half-width of the 95 % interval, by Student's t with those.
    pub half_width_95: f64,
    /// The same with 1.96 standard errors, as textbooks print it: too narrow for few probes.
    pub half_width_95_normal: f64,
}

/// Mean of a place whose parts were probed on their own: Σ W d, variance Σ W² s² / n, W by size.
///
/// Source: Berthouex & Brown 2002, "Statistics for Environmental Engineers", 2nd edition, chapter 23.
///
/// # Errors
/// No part; one with no size or with fewer than two probes.
pub fn stratified(strata: &[Stratum]) -> Result<Stratified, ProbeError> {
    let total = checked_size(strata)?;
    let (mut mean, mut variance, mut spread) = (0.0, 0.0, 0.0);
    for (number, part) in (1..).zip(strata) {
        if part.count < 2 {
            return Err(ProbeError::TooFew { number, count: part.count });
        }
        let (weight, count) = (part.size / total, f64::from(part.count));
        let own = weight * weight * part.variance / count;
        mean += weight * part.mean;
        variance += own;
        spread += own * own / (count - 1.0);
    }
    // Without any spread the probes agree to the last digit, and no interval is needed.
    let degrees = if spread > 0.0 { variance * variance / spread } else { f64::INFINITY };
    let error = variance.sqrt();
    let half_width_95 = if error > 0.0 { error * t_95(degrees) } else { 0.0 };
    Ok(Stratified { mean, variance, degrees, half_width_95, half_width_95_normal: error * NORMAL_95 })
}

/// Probes in each part for a mean within a margin at 95 %: 4 W s² / E² each.
///
/// Source: Berthouex & Brown 2002, example 23.10.
///
/// # Errors
/// No part, one with no size, or a margin of nothing.
pub fn needed_in_strata(strata: &[Stratum], margin: f64) -> Result<Vec<f64>, ProbeError> {
    let total = checked_size(strata)?;
    if margin.is_nan() || margin <= 0.0 {
        return Err(ProbeError::Margin { margin });
    }
    Ok(strata.iter().map(|part| 4.0 * part.size / total * part.variance / (margin * margin)).collect())
}

fn checked_size(strata: &[Stratum]) -> Result<f64, ProbeError> {
    if strata.is_empty() {
        return Err(ProbeError::None);
    }
    for (number, part) in (1..).zip(strata) {
        if !(part.size > 0.0 && part.size.is_finite()) {
            return Err(ProbeError::Size { number, size: part.size });
        }
    }
    Ok(strata.iter().map(|part| part.size).sum())
}

/// Probes for a mean within a margin at 95 %, by the simple rule n = 4 s² / E² (Manly 2001).
///
/// # Errors
/// A margin of nothing.
pub fn needed(sd: f64, margin: f64) -> Result<u32, ProbeError> {
    if !(margin > 0.0 && sd >= 0.0) {
        return Err(ProbeError::Margin { margin });
    }
    let ratio = sd / margin;
    Ok(whole_up(4.0 * ratio * ratio))
}

/// Probes for a mean within a margin at 95 %, n = (t s / E)² with t for that many: a few more than [`needed`] says
/// where they are few.
///
/// # Errors
/// A margin of nothing.
pub fn needed_by_t(sd: f64, margin: f64) -> Result<u32, ProbeError> {
    if !(margin > 0.0 && sd >= 0.0) {
        return Err(ProbeError::Margin { margin });
    }
    let enough = |count: u32| t_95(f64::from(count) - 1.0) * sd <= margin * f64::from(count).sqrt();
    // The half-width shrinks with every probe: the first count that is enough, by halving.
    let (mut too_few, mut count) = (1_u32, 2_u32);
    while !enough(count) && count < MOST_NEEDED {
        too_few = count;
        count = (count * 2).min(MOST_NEEDED);
    }
    while count - too_few > 1 {
        let middle = too_few.midpoint(count);
        if enough(middle) {
            count = middle;
        } else {
            too_few = middle;
        }
    }
    Ok(count)
}

/// The next whole number, but for rounding of the last digits.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "within 1 to a million")]
fn whole_up(count: f64) -> u32 {
    (count * (1.0 - 1e-12)).ceil().clamp(1.0, f64::from(MOST_NEEDED)) as u32
}

/// A product of two measured things with its standard deviation: volume from area and depth.
///
/// u² = d² u(A)² + A² u(d)² + u(A)² u(d)². Source: Goodman 1960, Journal of the American Statistical Association
/// 55:708 (from memory).
pub fn product(first: f64, first_sd: f64, second: f64, second_sd: f64) -> (f64, f64) {
    let (a, b, both) = (second * first_sd, first * second_sd, first_sd * second_sd);
    (first * second, (a * a + b * b + both * both).sqrt())
}

#[cfg(test)]
#[expect(clippy::unwrap_used, reason = "a test may stop where it stands")]
mod tests {
    use super::*;

    #[test]
    fn one_probe_tells_no_spread() {
        let one = mean(&[5.0]).unwrap();
        assert!((one.mean - 5.0).abs() < 1e-15 && one.half_width_95.is_infinite());
        assert_eq!(mean(&[]), Err(ProbeError::None));
        assert!(matches!(mean(&[1.0, f64::NAN]), Err(ProbeError::Depth { number: 2, .. })));
        assert!(matches!(mean(&[-1.0]), Err(ProbeError::Depth { number: 1, .. })));
    }

    #[test]
    fn probes_needed_by_t_are_a_few_more() {
        for (margin, simple) in [(0.10, 36), (0.15, 16), (0.20, 9)] {
            assert_eq!(needed(0.30, margin), Ok(simple));
            let by_t = needed_by_t(0.30, margin).unwrap();
            assert!((simple..simple + 6).contains(&by_t), "{margin}: {by_t}");
            let reached = t_95(f64::from(by_t) - 1.0) * 0.30 / f64::from(by_t).sqrt();
            assert!(reached <= margin);
        }
        assert_eq!(needed_by_t(0.0, 1.0), Ok(2));
        assert_eq!(needed_by_t(1e9, 1e-9), Ok(MOST_NEEDED));
        assert!(needed(1.0, 0.0).is_err() && needed_by_t(1.0, f64::NAN).is_err());
    }

    #[test]
    fn parts_that_are_none_are_refused() {
        let part = Stratum { size: 1.0, count: 3, mean: 5.0, variance: 1.0 };
        assert_eq!(stratified(&[]), Err(ProbeError::None));
        assert!(matches!(
            stratified(&[part, Stratum { size: 0.0, ..part }]),
            Err(ProbeError::Size { number: 2, .. })
        ));
        assert!(matches!(
            stratified(&[Stratum { count: 1, ..part }]),
            Err(ProbeError::TooFew { number: 1, count: 1 })
        ));
        assert!(needed_in_strata(&[part], 0.0).is_err());
        let alike = stratified(&[Stratum { variance: 0.0, ..part }]).unwrap();
        assert!(alike.half_width_95.abs() < 1e-300);
    }

    #[test]
    fn one_part_is_the_plain_mean() {
        let depths = [4.0, 5.5, 6.0, 4.5, 5.0];
        let (plain, part) = (mean(&depths).unwrap(), Stratum::of(12.0, &depths).unwrap());
        let one = stratified(&[part]).unwrap();
        assert!((one.mean - plain.mean).abs() < 1e-12);
        assert!((one.half_width_95 - plain.half_width_95).abs() < 1e-9);
    }
}
