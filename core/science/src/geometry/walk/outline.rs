//! What is kept of a walk when it ends: the outline, simplified and free of crossings, and its final figures.

use super::lap::Lap;
use super::{Closed, Reading, Walk, is_back, summary};
use crate::geometry::advice::Advice;
use crate::geometry::area::{geodesic_ring, planar_ring};
use crate::geometry::frame::{Point, Position};
use crate::geometry::ring::{Ring, RingError};
use crate::geometry::simplify;
use crate::source::{Source, Sourced};
use crate::units::{Area, Length};

/// Simplifying moves the outline by no more than this, metres, or than this part of the accuracy.
const SIMPLIFY_M: Sourced<f64> = Sourced::new(0.5, Source::COMMON_PRACTICE);
const SIMPLIFY_ACCURACY: Sourced<f64> = Sourced::new(1.0 / 3.0, Source::COMMON_PRACTICE);
/// A crossing is shown where the largest piece is less than this part of the signed area …
const LARGEST_PIECE: Sourced<f64> = Sourced::new(0.95, Source::COMMON_PRACTICE);
/// … or signed area and covered ground differ by more than this part.
const COVERED_DIFFERS: Sourced<f64> = Sourced::new(0.05, Source::COMMON_PRACTICE);

/// Corners of a lap that the ellipsoid is asked for, at most.
const COMPARED: usize = 10_000;
/// The ratio of two areas of the same ring; where lobes cancel it means nothing.
const NEAR_ONE: f64 = 1e-3;

/// Why a walk gives no outline.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum WalkError {
    /// Nothing that counts.
    #[error("no fix of this walk can be used ({left_out} were left out); walk it again under open sky")]
    NoFix {
        /// Fixes left out.
        left_out: u32,
    },
    /// The outline bounds nothing.
    #[error("the walk bounds nothing: {0}")]
    Ring(#[from] RingError),
}

/// A finished walk.
#[derive(Debug, Clone, PartialEq)]
pub struct Outline {
    /// Final figures; the perimeter is that of the simplified outline.
    pub reading: Reading,
    /// Corners to keep, counter-clockwise, the first not repeated: of the lap nearest to the mean.
    pub corners: Vec<Position>,
    /// Whether the walked line crossed itself and the outline is its largest piece.
    pub repaired: bool,
}

pub(super) fn of(walk: &Walk) -> Result<Outline, WalkError> {
    let round = &walk.round;
    let nothing = WalkError::NoFix { left_out: walk.gate.left_out.all() };
    let (Some(frame), Some(current)) = (walk.frame, round.lap) else { return Err(nothing) };
    let closed: Vec<Lap> = round.laps.iter().map(|closed| closed.lap).collect();
    let mut reading = summary(&closed, Some(&current), &walk.manner, round.corners.len(), walk.gate.left_out);

    let last = Closed { lap: current, from: round.from, to: round.corners.len() - 1 };
    let off = |closed: &Closed| (super::measured(&closed.lap).signed_m2.abs() - reading.laps_mean_m2()).abs();
    let best = round
        .laps
        .iter()
        .copied()
        .chain((closed.is_empty() || is_back(&current)).then_some(last))
        .min_by(|a, b| off(a).total_cmp(&off(b)))
        .unwrap_or(last);

    let walked = corners(walk, &best);
    let within_m = SIMPLIFY_M.value.max(SIMPLIFY_ACCURACY.value * best.lap.accuracy_m());
    let kept: Vec<Point> = simplify::kept_of_ring(&walked, within_m)
        .into_iter()
        .filter_map(|index| walked.get(index).copied())
        .collect();
    let ring = Ring::new(&kept)?;
    let signed_m2 = ring.signed_m2().abs();
    let mut outer = ring.points.clone();
    let mut repaired = false;
    if ring.meeting.crosses() {
        let pieces = ring.repaired();
        let covered_m2: f64 = pieces.iter().map(crate::geometry::ring::Piece::area_m2).sum();
        if let Some(largest) = pieces.into_iter().next() {
            if largest.area_m2() < LARGEST_PIECE.value * signed_m2
                || (covered_m2 - signed_m2).abs() > COVERED_DIFFERS.value * signed_m2
            {
                reading.advice.retain(|advice| *advice != Advice::Fine);
                reading.advice.push(Advice::Crosses {
                    signed: Area::from_m2(signed_m2),
                    covered: Area::from_m2(covered_m2),
                });
            }
            outer = largest.outer;
            repaired = true;
        }
    }
    if planar_ring(&outer).signed_m2 < 0.0 {
        outer.reverse();
    }
    let corners: Vec<Position> = outer.iter().map(|point| frame.position(*point)).collect();

    // The running area is that of the quick frame; the same corners over the ellipsoid tell what it is off by.
    let thinned: Vec<Point> = walked.iter().step_by(walked.len().div_ceil(COMPARED)).copied().collect();
    let flat_m2 = planar_ring(&thinned).signed_m2;
    let thinned: Vec<Position> = thinned.iter().map(|point| frame.position(*point)).collect();
    let ratio = geodesic_ring(&thinned).signed_m2 / flat_m2;
    if (ratio - 1.0).abs() < NEAR_ONE {
        reading.scale(ratio);
    }
    let round_earth = geodesic_ring(&corners);
    reading.perimeter = Length::from_m(round_earth.perimeter_m);
    Ok(Outline { reading, corners, repaired })
}

/// The corners of a lap, its gap spread where that was done for its area.
fn corners(walk: &Walk, closed: &Closed) -> Vec<Point> {
    let lap = &closed.lap;
    let corners = walk.round.corners.get(closed.from..=closed.to).unwrap_or_default();
    let spread = lap.duration_s() < super::SPREAD_BELOW_S.value && is_back(lap) && lap.duration_s() > 0.0;
    let gap = lap.last.point - lap.first.point;
    corners
        .iter()
        .map(|corner| {
            let share = if spread { (corner.time_s - lap.first.time_s) / lap.duration_s() } else { 0.0 };
            corner.point - gap * share
        })
        .collect()
}

impl Reading {
    fn laps_mean_m2(&self) -> f64 {
        self.laps.iter().map(|lap| lap.area.m2()).sum::<f64>() / super::lap::as_figure(self.laps.len().max(1))
    }

    fn scale(&mut self, by: f64) {
        self.area = self.area * by;
        self.half_width_95 = self.half_width_95 * by;
        self.spread = self.spread * by;
        for lap in &mut self.laps {
            lap.area = lap.area * by;
            lap.sd = lap.sd * by;
        }
    }
}
