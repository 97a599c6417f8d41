//! The ground under a crown from radii paced out around the trunk.
//!
//! Source: Zhang and others 2024, Journal of Forestry Research 35:79, who set such figures beside mapped crowns:
//! the circle of the quadratic mean radius is 4.5 % too large on average, the interpolated outline 2.2 %; the polygon
//! through the points is too small and so is never used.

use core::f64::consts::{PI, TAU};

/// From this many radii on the outline is interpolated.
const ENOUGH_FOR_AN_OUTLINE: usize = 6;
/// Most radii that are read.
const MOST_RADII: usize = 360;

/// Why radii make no outline.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum DripLineError {
    /// Not a number of radii that can be used.
    #[error("{count} radii: give 1 to {MOST_RADII}, at equal angles around the trunk")]
    Count {
        /// As given.
        count: usize,
    },
    /// A radius that is no length.
    #[error("radius {number} is {radius_m} m: give more than 0 and at most 100 m")]
    Radius {
        /// Which, from 1.
        number: usize,
        /// As given.
        radius_m: f64,
    },
}

/// Area under a crown, m², from radii at equal angles, m.
///
/// One to five: the circle of their quadratic mean. Six and more: half of the integral of r² of the periodic cubic
/// spline through them, exact. Five radii are not in the source; they are taken as four.
///
/// # Errors
/// No radius or more than 360; one that is not above 0 and at most 100 m.
pub fn drip_line_m2(radii_m: &[f64]) -> Result<f64, DripLineError> {
    let count = radii_m.len();
    if !(1..=MOST_RADII).contains(&count) {
        return Err(DripLineError::Count { count });
    }
    for (number, radius_m) in (1..).zip(radii_m.iter().copied()) {
        if !(radius_m > 0.0 && radius_m <= 100.0) {
            return Err(DripLineError::Radius { number, radius_m });
        }
    }
    if count < ENOUGH_FOR_AN_OUTLINE { Ok(quadratic_mean_m2(radii_m)) } else { Ok(outline_m2(radii_m)) }
}

/// The radius of the circle of the same area, m.
///
/// # Errors
/// As [`drip_line_m2`].
pub fn drip_radius_m(radii_m: &[f64]) -> Result<f64, DripLineError> {
    drip_line_m2(radii_m).map(|area| (area / PI).sqrt())
}

#[expect(clippy::cast_precision_loss, reason = "at most 360 radii")]
fn quadratic_mean_m2(radii: &[f64]) -> f64 {
    PI * radii.iter().map(|radius| radius * radius).sum::<f64>() / radii.len() as f64
}

#[expect(clippy::cast_precision_loss, reason = "at most 360 radii")]
fn outline_m2(radii: &[f64]) -> f64 {
    let step = TAU / radii.len() as f64;
    let bends = bends(radii, step);
    let next = |values: &[f64]| values.iter().copied().cycle().skip(1).take(values.len()).collect::<Vec<_>>();
    let pieces = radii.iter().zip(next(radii)).zip(bends.iter().zip(next(&bends)));
    pieces.map(|((r0, r1), (m0, m1))| sector_m2(*r0, r1, *m0, m1, step)).sum()
}

/// Half of the integral of r² over one step of the spline: Gauss and Legendre's four points are exact to degree seven.
fn sector_m2(r0: f64, r1: f64, m0: f64, m1: f64, step: f64) -> f64 {
    const POINTS: [(f64, f64); 2] = [
        (0.339_981_043_584_856_3, 0.652_145_154_862_546_1),
        (0.861_136_311_594_052_6, 0.347_854_845_137_453_8),
    ];
    let radius = |part: f64| {
        let rest = 1.0 - part;
        let bent = (part * part * part - part) * m1 + (rest * rest * rest - rest) * m0;
        rest * r0 + part * r1 + bent * step * step / 6.0
    };
    let mut sum = 0.0;
    for (point, weight) in POINTS {
        for part in [0.5 - 0.5 * point, 0.5 + 0.5 * point] {
            sum += weight * radius(part) * radius(part);
        }
    }
    0.25 * step * sum
}

/// Second derivatives of the periodic spline: m₋ + 4 m + m₊ = 6 (r₋ − 2 r + r₊) / step².
///
/// The matrix shrinks errors at least to half in each sweep (Gauss and Seidel; row sum 2 against 4), so that sixty
/// sweeps leave rounding alone.
fn bends(radii: &[f64], step: f64) -> Vec<f64> {
    const SWEEPS: usize = 60;
    let count = radii.len();
    let at = |values: &[f64], index: usize| values.get(index % count).copied().unwrap_or_default();
    let mut bends = vec![0.0; count];
    for _ in 0..SWEEPS {
        for index in 0..count {
            let (before, after) = (index + count - 1, index + 1);
            let second = at(radii, before) - 2.0 * at(radii, index) + at(radii, after);
            let bend = (6.0 * second / (step * step) - at(&bends, before) - at(&bends, after)) / 4.0;
            if let Some(slot) = bends.get_mut(index) {
                *slot = bend;
            }
        }
    }
    bends
}

#[cfg(test)]
#[expect(clippy::unwrap_used, reason = "a test may stop where it stands")]
mod tests {
    use super::*;

    #[test]
    fn equal_radii_make_a_circle_whatever_their_number() {
        for count in 1..=24 {
            let area = drip_line_m2(&vec![2.5; count]).unwrap();
            assert!((area - PI * 6.25).abs() < 1e-12, "{count}: {area}");
        }
    }

    #[test]
    fn an_outline_that_a_spline_follows_is_integrated() {
        // r = 3 + cos 2t: half the integral of r² is π (9 + 1/2).
        let radii: Vec<f64> = (0..36).map(|i| 3.0 + libm::cos(2.0 * TAU * f64::from(i) / 36.0)).collect();
        let area = drip_line_m2(&radii).unwrap();
        assert!((area - 9.5 * PI).abs() < 2e-3, "{area}");
    }

    #[test]
    fn where_the_first_radius_stands_does_not_matter() {
        let mut radii = vec![2.0, 3.1, 2.4, 1.8, 2.9, 3.3, 2.2];
        let area = drip_line_m2(&radii).unwrap();
        radii.rotate_left(3);
        assert!((drip_line_m2(&radii).unwrap() - area).abs() < 1e-12);
    }

    #[test]
    fn what_is_no_length_is_refused() {
        assert_eq!(drip_line_m2(&[]), Err(DripLineError::Count { count: 0 }));
        for wrong in [0.0, -1.0, f64::NAN, f64::INFINITY, 101.0] {
            assert!(matches!(drip_line_m2(&[2.0, wrong]), Err(DripLineError::Radius { number: 2, .. })));
        }
    }
}
