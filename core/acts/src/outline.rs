//! A place's outline, between what was measured, what the book keeps and what files hold.

use kerfbook_ledger::exchange::Polygon;
use kerfbook_ledger::exchange::antimeridian::holds;
use kerfbook_ledger::projection::place::Measure;
use kerfbook_ledger::{Anchor, Outline};
use kerfbook_science::geometry::area::{geodesic_ring, planar_ring};
use kerfbook_science::geometry::frame::{Frame, Point, Position};
use kerfbook_science::geometry::simplify;

/// Corners of all rings that an entry keeps; a ring with more is simplified.
const MOST_CORNERS: usize = 4_000;
/// Where simplifying begins, m; doubled until the corners fit.
const SIMPLIFY_FROM_M: f64 = 0.005;

/// Rings in metres of a frame.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Sketch {
    /// Where the frame lies; nothing for what was taped.
    pub anchor: Option<Position>,
    /// The outline first. Of the others, those that run as it does are more ground, the rest are holes. Empty where only
    /// a size is known.
    pub rings: Vec<Vec<Point>>,
}

impl Sketch {
    /// Rings that were taped: no frame on the earth.
    pub(crate) const fn taped(rings: Vec<Vec<Point>>) -> Self {
        Self { anchor: None, rings }
    }

    /// The frame about a position as the book keeps it.
    pub(crate) fn frame(about: Position) -> Frame {
        Frame::about(position_of(&anchor_of(about)).unwrap_or(about))
    }

    /// Rings in the frame of [`Self::frame`].
    pub(crate) const fn in_frame(frame: Frame, rings: Vec<Vec<Point>>) -> Self {
        Self { anchor: Some(frame.origin()), rings }
    }

    /// As the book keeps it: anchor, outline, further rings; nothing where it reaches too far for millimetres. Rings of
    /// very many corners are simplified.
    pub(crate) fn kept(&self) -> Option<(Option<Anchor>, Outline, Option<Vec<Outline>>)> {
        let mut rings = self.rings.clone();
        let mut within_m = SIMPLIFY_FROM_M;
        while rings.iter().map(Vec::len).sum::<usize>() > MOST_CORNERS && within_m < 1e6 {
            rings = self.rings.iter().map(|ring| simplified(ring, within_m)).collect();
            // Holes and parts that have come to nothing are below what is kept.
            rings.retain(|ring| ring.len() > 2);
            within_m *= 2.0;
        }
        let mut outlines = rings.iter().map(|ring| outline_of(ring)).collect::<Option<Vec<_>>>()?.into_iter();
        let Some(first) = outlines.next() else { return Some((None, Outline::default(), None)) };
        let further: Vec<Outline> = outlines.collect();
        Some((self.anchor.map(anchor_of), first, (!further.is_empty()).then_some(further)))
    }

    /// From the book; nothing where only a size is known.
    pub fn of(measure: &Measure) -> Option<Self> {
        if measure.outline.0.len() < 3 {
            return None;
        }
        let further = measure.further.iter().flatten();
        let rings = std::iter::once(&measure.outline).chain(further).map(points_of).collect();
        Some(Self { anchor: measure.anchor.as_ref().and_then(position_of), rings })
    }

    /// The parts, each its outer ring first and then its holes.
    pub fn parts(&self) -> Vec<Vec<&Vec<Point>>> {
        let Some(first) = self.rings.first() else { return Vec::new() };
        let sign = planar_ring(first).signed_m2;
        let (outers, holes): (Vec<&Vec<Point>>, Vec<&Vec<Point>>) =
            self.rings.iter().partition(|ring| planar_ring(ring).signed_m2 * sign > 0.0);
        let mut parts: Vec<Vec<&Vec<Point>>> = outers.into_iter().map(|outer| vec![outer]).collect();
        for hole in holes {
            let Some(at) = hole.first() else { continue };
            let around = parts.iter_mut().find(|part| {
                part.first().is_some_and(|outer| {
                    let ring: Vec<[f64; 2]> = outer.iter().map(|point| [point.x, point.y]).collect();
                    holds(&ring, [at.x, at.y])
                })
            });
            if let Some(part) = around {
                part.push(hole);
            }
        }
        parts
    }

    /// In degrees to a tenth of a millimetre, as files are written; nothing where it has no frame on the earth.
    pub fn polygons(&self) -> Option<Vec<Polygon>> {
        let frame = Frame::about(self.anchor?);
        let degrees = |ring: &Vec<Point>| {
            let on_earth = |point: &Point| {
                let position = frame.position(*point);
                [position.longitude(), position.latitude()].map(|degrees| (degrees * 1e9).round() / 1e9)
            };
            ring.iter().map(on_earth).collect::<Vec<_>>()
        };
        Some(self.in_parts(degrees))
    }

    /// In metres of its frame.
    pub fn polygons_m(&self) -> Vec<Polygon> {
        self.in_parts(|ring| ring.iter().map(|point| [point.x, point.y]).collect())
    }

    fn in_parts(&self, ring: impl Fn(&Vec<Point>) -> Vec<[f64; 2]>) -> Vec<Polygon> {
        self.parts()
            .into_iter()
            .filter_map(|part| {
                let (outer, holes) = part.split_first()?;
                Some(Polygon { outer: ring(outer), holes: holes.iter().map(|hole| ring(hole)).collect() })
            })
            .collect()
    }
}

/// The geodesic area of polygons, holes taken off, m2; nothing where a point is no position.
pub fn area_m2(polygons: &[Polygon]) -> Option<f64> {
    let ring = |ring: &Vec<[f64; 2]>| {
        let positions: Option<Vec<Position>> = ring.iter().map(|[x, y]| Position::new(*y, *x).ok()).collect();
        Some(geodesic_ring(&positions?).signed_m2.abs())
    };
    polygons
        .iter()
        .map(|polygon| {
            let holes = polygon.holes.iter().map(ring).sum::<Option<f64>>()?;
            Some(ring(&polygon.outer)? - holes)
        })
        .sum()
}

fn simplified(ring: &[Point], within_m: f64) -> Vec<Point> {
    simplify::kept_of_ring(ring, within_m).into_iter().filter_map(|index| ring.get(index).copied()).collect()
}

#[expect(clippy::cast_possible_truncation, reason = "within 360 degrees")]
fn anchor_of(position: Position) -> Anchor {
    let whole = |degrees: f64| (degrees * 1e9).round() as i64;
    Anchor { latitude_e9: whole(position.latitude()), longitude_e9: whole(position.longitude()) }
}

/// The position of an anchor.
fn position_of(anchor: &Anchor) -> Option<Position> {
    Position::new(anchor.latitude_e9 as f64 / 1e9, anchor.longitude_e9 as f64 / 1e9).ok()
}

#[expect(clippy::cast_possible_truncation, reason = "checked first")]
fn outline_of(ring: &[Point]) -> Option<Outline> {
    let mm = |metres: f64| {
        let mm = (metres * 1000.0).round();
        (mm.abs() < f64::from(i32::MAX)).then_some(mm as i32)
    };
    ring.iter().map(|point| Some([mm(point.x)?, mm(point.y)?])).collect::<Option<_>>().map(Outline)
}

fn points_of(outline: &Outline) -> Vec<Point> {
    let metres = |mm: i32| f64::from(mm) / 1000.0;
    outline.0.iter().map(|[east, north]| Point::new(metres(*east), metres(*north))).collect()
}
