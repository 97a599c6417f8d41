//! Marking corners by standing at them: each corner is the mean of its fixes.

use super::advice::{self, Advice};
use super::area::geodesic_ring;
use super::averaging;
use super::frame::{Frame, Point, Position};
use super::ring::{Ring, RingError};
use super::walk::{Fix, QUANTILE_95, fix::WORST_ACCURACY_M};
use crate::units::{Area, Length};

/// Why corners give no outline.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum CornerError {
    /// No fix at a corner can be used.
    #[error("corner {corner} has no fix better than 25 m; stand there again under open sky")]
    NoFix {
        /// Which, counted from 1.
        corner: usize,
    },
    /// The corners bound nothing.
    #[error("the corners bound nothing: {0}")]
    Ring(#[from] RingError),
}

/// A place whose corners were marked.
#[derive(Debug, Clone, PartialEq)]
pub struct Marked {
    /// Its area, geodesic.
    pub area: Area,
    /// Half-width of its 95 % interval.
    pub half_width_95: Area,
    /// The length of the boundary.
    pub perimeter: Length,
    /// Root mean square distance of single fixes from the truth, as believed.
    pub drms: Length,
    /// The corners, as marked.
    pub corners: Vec<Position>,
    /// Whether the outline crosses itself: corners may have been marked out of order.
    pub crosses: bool,
    /// What to do.
    pub advice: Advice,
}

/// A corner in the frame.
struct Corner {
    point: Point,
    variance: f64,
    drms_m: f64,
}

/// The place between corners, each given by the fixes taken while standing there. Corners are taken to be measured
/// apart from each other; averaging at one helps as [`averaging::left_of_variance`] says, for `correlation_s` seconds
/// of memory.
///
/// # Errors
/// A corner without a usable fix, fewer than three corners, no area.
pub fn mark(stands: &[Vec<Fix>], correlation_s: f64, under_trees: bool) -> Result<Marked, CornerError> {
    let usable = |fix: &&Fix| fix.accuracy_m > 0.0 && fix.accuracy_m <= WORST_ACCURACY_M.value;
    let Some(origin) = stands.iter().flatten().find(usable) else {
        return Err(CornerError::NoFix { corner: 1 });
    };
    let frame = Frame::about(origin.position);
    let corners: Vec<Corner> = stands
        .iter()
        .enumerate()
        .map(|(index, stand)| {
            let fixes: Vec<&Fix> = stand.iter().filter(usable).collect();
            average(&fixes, frame, correlation_s, under_trees).ok_or(CornerError::NoFix { corner: index + 1 })
        })
        .collect::<Result<_, _>>()?;
    let points: Vec<Point> = corners.iter().map(|corner| corner.point).collect();
    let ring = Ring::new(&points)?;
    let positions: Vec<Position> = points.iter().map(|point| frame.position(*point)).collect();
    let measure = geodesic_ring(&positions);

    // The area moves with a corner by half the diagonal between its neighbours.
    let before = points.iter().cycle().skip(points.len() - 1);
    let after = points.iter().cycle().skip(1);
    let variance: f64 = corners
        .iter()
        .zip(before.zip(after))
        .map(|(corner, (before, after))| {
            let diagonal = before.distance(*after);
            corner.variance * diagonal * diagonal / 4.0
        })
        .sum();
    #[expect(clippy::cast_precision_loss, reason = "a count of corners")]
    let number = corners.len() as f64;
    let drms_m = (corners.iter().map(|corner| corner.drms_m * corner.drms_m).sum::<f64>() / number).sqrt();
    let (area_m2, half_width_m2) = (measure.signed_m2.abs(), QUANTILE_95 * variance.sqrt());
    Ok(Marked {
        area: Area::from_m2(area_m2),
        half_width_95: Area::from_m2(half_width_m2),
        perimeter: Length::from_m(measure.perimeter_m),
        drms: Length::from_m(drms_m),
        corners: positions,
        crosses: ring.meeting.crosses(),
        advice: advice::of_size(
            area_m2,
            half_width_m2,
            advice::width_m(area_m2, measure.perimeter_m),
            drms_m,
        ),
    })
}

fn average(fixes: &[&Fix], frame: Frame, correlation_s: f64, under_trees: bool) -> Option<Corner> {
    let (first, last) =
        (fixes.iter().map(|fix| fix.time_ms).min()?, fixes.iter().map(|fix| fix.time_ms).max()?);
    let (mut sum, mut squares) = (Point::default(), 0.0);
    for fix in fixes {
        sum = sum + frame.point(fix.position);
        let sd = averaging::axis_sd_m(fix.accuracy_m, under_trees);
        squares += sd * sd;
    }
    #[expect(clippy::cast_precision_loss, reason = "a count of fixes and a time of minutes")]
    let (number, over_s) = (fixes.len() as f64, last.saturating_sub(first) as f64 / 1_000.0);
    let variance = squares / number;
    Some(Corner {
        point: sum * (1.0 / number),
        variance: variance * averaging::left_of_variance(over_s, correlation_s),
        drms_m: (2.0 * variance).sqrt(),
    })
}
