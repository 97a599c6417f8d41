//! Whether a ring bounds a place, and the repair offered where it does not.

use geo::algorithm::bool_ops::FillRule;
use geo::{BooleanOps, Coord, LineString, MultiPolygon, Polygon};

use super::area::{open, planar_ring};
use super::crossing::{self, Meeting};
use super::frame::Point;
use crate::source::{Source, Sourced};

/// Points closer than this are one, metres: a hundredth of the finest that a tape reads.
pub const SAME_POINT_M: Sourced<f64> = Sourced::new(1e-4, Source::ASSUMPTION);
/// A ring or a piece smaller than this bounds nothing, square metres: one square centimetre.
pub const LEAST_AREA_M2: Sourced<f64> = Sourced::new(1e-4, Source::ASSUMPTION);

/// Why points bound no place.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum RingError {
    /// A coordinate is no number.
    #[error("point {index} of the outline is no number; take it out or measure it again")]
    NotFinite {
        /// Which, counted from 1.
        index: usize,
    },
    /// Fewer than three places.
    #[error("an outline needs three different points, and this one has {found}; add the missing corners")]
    TooFewPoints {
        /// Different points.
        found: usize,
    },
    /// All points on one line, or there and back the same way.
    #[error("the outline encloses nothing; check that its points do not lie on one line")]
    NoArea,
}

/// A ring that bounds a place, and what was noticed.
#[derive(Debug, Clone, PartialEq)]
pub struct Ring {
    /// The corners in order, the first not repeated, none twice in a row.
    pub points: Vec<Point>,
    /// Corners left out because the one before lies at the same place.
    pub repeated: usize,
    /// Whether the last point was the first again.
    pub closed: bool,
    /// Whether the ring meets itself.
    pub meeting: Meeting,
}

impl Ring {
    /// Checks points that go once round a place, in metres of its frame.
    ///
    /// # Errors
    /// A coordinate that is no number, fewer than three places, no area. A ring that crosses itself is no error
    /// (its lobes may cancel): see [`Ring::meeting`] and [`Ring::repaired`].
    pub fn new(points: &[Point]) -> Result<Self, RingError> {
        if let Some(index) = points.iter().position(|point| !point.is_finite()) {
            return Err(RingError::NotFinite { index: index + 1 });
        }
        let same = |a: &Point, b: &Point| a.distance(*b) <= SAME_POINT_M.value;
        let closed =
            points.len() > 1 && matches!((points.first(), points.last()), (Some(a), Some(b)) if same(a, b));
        let mut corners: Vec<Point> = Vec::with_capacity(points.len());
        for point in points {
            if !corners.last().is_some_and(|before| same(before, point)) {
                corners.push(*point);
            }
        }
        let mut repeated = points.len() - corners.len();
        while corners.len() > 1
            && matches!((corners.first(), corners.last()), (Some(a), Some(b)) if same(a, b))
        {
            corners.pop();
            repeated += 1;
        }
        repeated = repeated.saturating_sub(usize::from(closed));
        if corners.len() < 3 {
            return Err(RingError::TooFewPoints { found: corners.len() });
        }
        let meeting = crossing::find(&corners);
        // Lobes that cancel are a ring to repair; without a crossing, no area is no place.
        if planar_ring(&corners).signed_m2.abs() < LEAST_AREA_M2.value && !meeting.crosses() {
            return Err(RingError::NoArea);
        }
        Ok(Self { points: corners, repeated, closed, meeting })
    }

    /// Square metres, positive where the ring runs counter-clockwise.
    pub fn signed_m2(&self) -> f64 {
        planar_ring(&self.points).signed_m2
    }

    /// The pieces that the ring goes round at least once, split where it crosses itself, largest first; a ring that
    /// goes round twice gives its whole ground, as both lobes of a figure of eight are kept. Lay laps apart first.
    pub fn repaired(&self) -> Vec<Piece> {
        union(&[&self.points])
    }
}

/// A polygon in a frame: counter-clockwise outside, clockwise holes, neither with a repeated point.
#[derive(Debug, Clone, PartialEq)]
pub struct Piece {
    /// The outer ring.
    pub outer: Vec<Point>,
    /// Its holes.
    pub holes: Vec<Vec<Point>>,
}

impl Piece {
    /// Square metres, the holes taken off.
    pub fn area_m2(&self) -> f64 {
        super::area::planar(&self.outer, self.holes.iter().map(Vec::as_slice)).area.m2()
    }
}

/// The ground that any of the rings goes round, as pieces, largest first. Rings with a coordinate that is no number,
/// with fewer than three points or no area add nothing. Each is turned counter-clockwise first, for with mixed turns
/// overlaps would cancel.
pub fn union(rings: &[&[Point]]) -> Vec<Piece> {
    let polygons: Vec<Polygon> = rings
        .iter()
        .map(|ring| open(ring))
        .filter(|ring| ring.len() > 2 && ring.iter().all(|point| point.is_finite()))
        .map(|ring| {
            let backwards = planar_ring(ring).signed_m2 < 0.0;
            let mut line: Vec<Coord> = ring.iter().map(|point| Coord { x: point.x, y: point.y }).collect();
            if backwards {
                line.reverse();
            }
            Polygon::new(LineString::new(line), Vec::new())
        })
        .collect();
    let nothing: MultiPolygon = MultiPolygon::new(Vec::new());
    let joined = MultiPolygon::new(polygons).union_with_fill_rule(&nothing, FillRule::NonZero);
    let mut pieces: Vec<Piece> = joined
        .into_iter()
        .map(|polygon| {
            let (outer, holes) = polygon.into_inner();
            Piece { outer: turned(&outer, 1.0), holes: holes.iter().map(|hole| turned(hole, -1.0)).collect() }
        })
        .map(|mut piece| {
            piece
                .holes
                .retain(|hole| hole.len() > 2 && planar_ring(hole).signed_m2.abs() >= LEAST_AREA_M2.value);
            piece
        })
        .filter(|piece| piece.outer.len() > 2 && piece.area_m2() >= LEAST_AREA_M2.value)
        .collect();
    pieces.sort_by(|a, b| b.area_m2().total_cmp(&a.area_m2()));
    pieces
}

/// A ring turned so that its signed area has the sign of `way`.
fn turned(line: &LineString, way: f64) -> Vec<Point> {
    let points: Vec<Point> = line.0.iter().map(|at| Point::new(at.x, at.y)).collect();
    let mut ring = open(&points).to_vec();
    if planar_ring(&ring).signed_m2 * way < 0.0 {
        ring.reverse();
    }
    ring
}
