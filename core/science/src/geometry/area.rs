//! Area and perimeter of polygons with holes, over the ellipsoid and in a flat frame.

use geographiclib_rs::{PolygonArea, Winding};

use super::frame::{Point, Position, WGS84};
use crate::units::{Area, Length};

/// What a ring measures.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RingMeasure {
    /// Square metres, positive where the ring runs counter-clockwise; lobes of a ring that crosses itself count
    /// against each other.
    pub signed_m2: f64,
    /// Metres, the closing edge included.
    pub perimeter_m: f64,
}

/// What a polygon measures.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Extent {
    /// The outer ring less its holes.
    pub area: Area,
    /// The outer ring.
    pub perimeter: Length,
    /// All rings.
    pub perimeter_with_holes: Length,
}

/// A ring's geodesic area and perimeter. It needs no closing point; the smaller side counts, so a place may hold a
/// pole or lie across the antimeridian. Nothing for fewer than two points.
pub fn geodesic_ring(ring: &[Position]) -> RingMeasure {
    // Signed on purpose: the unsigned area of a clockwise ring is the rest of the earth.
    let mut sum = PolygonArea::new(&WGS84, Winding::CounterClockwise);
    for position in open(ring) {
        sum.add_point(position.latitude(), position.longitude());
    }
    if ring.len() < 2 {
        return RingMeasure { signed_m2: 0.0, perimeter_m: 0.0 };
    }
    let (perimeter_m, signed_m2, _) = sum.compute(true);
    RingMeasure { signed_m2, perimeter_m }
}

/// A polygon's geodesic extent: the outer ring less the holes, whichever way each is wound. Never below zero.
pub fn geodesic<'a>(outer: &[Position], holes: impl IntoIterator<Item = &'a [Position]>) -> Extent {
    extent(geodesic_ring(outer), holes.into_iter().map(geodesic_ring))
}

/// A ring's area and perimeter in a flat frame.
pub fn planar_ring(ring: &[Point]) -> RingMeasure {
    let ring = open(ring);
    let (Some(first), Some(last)) = (ring.first(), ring.last()) else {
        return RingMeasure { signed_m2: 0.0, perimeter_m: 0.0 };
    };
    // Taken from the first point, so that a far origin costs no digits.
    let (mut twice, mut perimeter_m) = (0.0, last.distance(*first));
    for (a, b) in ring.iter().zip(ring.iter().skip(1)) {
        twice += (*a - *first).cross(*b - *first);
        perimeter_m += a.distance(*b);
    }
    RingMeasure { signed_m2: twice / 2.0, perimeter_m }
}

/// A polygon's extent in a flat frame, as [`geodesic`].
pub fn planar<'a>(outer: &[Point], holes: impl IntoIterator<Item = &'a [Point]>) -> Extent {
    extent(planar_ring(outer), holes.into_iter().map(planar_ring))
}

fn extent(outer: RingMeasure, holes: impl Iterator<Item = RingMeasure>) -> Extent {
    let (mut area, mut perimeter) = (outer.signed_m2.abs(), outer.perimeter_m);
    for hole in holes {
        area -= hole.signed_m2.abs();
        perimeter += hole.perimeter_m;
    }
    Extent {
        area: Area::from_m2(area.max(0.0)),
        perimeter: Length::from_m(outer.perimeter_m),
        perimeter_with_holes: Length::from_m(perimeter),
    }
}

/// A ring without the repeated closing point.
pub(super) fn open<T: PartialEq>(ring: &[T]) -> &[T] {
    match ring {
        [first, rest @ .., last] if first == last && !rest.is_empty() => {
            ring.get(..ring.len() - 1).unwrap_or(ring)
        }
        _ => ring,
    }
}
