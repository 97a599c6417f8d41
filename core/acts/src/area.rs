//! The area of a place from a file: drawn, walked or taped.

use kerfbook_ledger::exchange::{
    self, Drawn, ExchangeError, Feature, Polygon, Shape, Track, TrackPoint, Wrong, tape as sheet,
};
use kerfbook_science::geometry::advice::Advice;
use kerfbook_science::geometry::area;
use kerfbook_science::geometry::averaging::accuracy_of_hdop_m;
use kerfbook_science::geometry::crossing::Meeting;
use kerfbook_science::geometry::frame::{Frame, Point, Position, PositionError};
use kerfbook_science::geometry::ring::{LEAST_AREA_M2, Piece, Ring, RingError};
use kerfbook_science::geometry::tape::sides::{self, Quadrilateral};
use kerfbook_science::geometry::tape::traverse::{Closure, Course, Traverse, TraverseError, azimuth_deg};
use kerfbook_science::geometry::tape::{TapeError, offsets};
use kerfbook_science::geometry::walk::{Fix, LapReading, LeftOut, Manner, QUANTILE_95, Walk, WalkError};
use kerfbook_science::units::{Area, Length};

use crate::outline::Sketch;

/// How a place was measured.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Method {
    /// Drawn on a map, or from another program.
    Drawn,
    /// Walked round with a receiver.
    Walked,
    /// Sides and diagonals.
    Sides,
    /// Offsets from a base line.
    Offsets,
    /// Compass and tape.
    Traverse,
    /// Corners in metres.
    Corners,
}

impl Method {
    /// Its name in files.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Drawn => "drawn",
            Self::Walked => "walked",
            Self::Sides => "sides",
            Self::Offsets => "offsets",
            Self::Traverse => "traverse",
            Self::Corners => "corners",
        }
    }
}

/// Something to know about a measured place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Remark {
    /// What the walk or the size tells.
    Advice(Advice),
    /// The outline was not closed, and has been.
    Unclosed,
    /// It touches itself.
    Touches,
    /// Too tangled to look for crossings.
    Unchecked,
    /// One taped length does not fit the others.
    Misfit {
        /// The second diagonal less what it should be.
        by: Length,
    },
    /// How well the traverse closed.
    Closed {
        /// From the end to the start.
        by: Length,
        /// Part of the way round.
        precision: f64,
        /// Verdict.
        closure: Closure,
    },
}

/// A walk's own figures.
#[derive(Debug, Clone, PartialEq)]
pub struct Walked {
    /// Root mean square distance of fixes from the truth, as believed.
    pub drms: Length,
    /// Fixes used; a pause counts as one.
    pub used: usize,
    /// Fixes left out.
    pub left_out: LeftOut,
    /// Laps.
    pub laps: Vec<LapReading>,
    /// From the last fix to the start.
    pub gap: Length,
}

/// A measured place.
#[derive(Debug, Clone, PartialEq)]
pub struct Measured {
    /// Its area; of several outlines together.
    pub area: Area,
    /// Half-width of the 95 % interval, where the way of measuring tells one.
    pub half_width_95: Option<Area>,
    /// The boundary, holes included; nothing for offsets.
    pub perimeter: Option<Length>,
    /// How it was measured.
    pub method: Method,
    /// Outlines.
    pub outlines: usize,
    /// What to know.
    pub remarks: Vec<Remark>,
    /// The walk, where it was one.
    pub walked: Option<Walked>,
    /// Its outline, where the way of measuring tells one.
    pub sketch: Sketch,
}

/// Why a file gives no area.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum AreaError {
    /// It cannot be read.
    #[error(transparent)]
    File(#[from] ExchangeError),
    /// A point that is no position.
    #[error("line {line}: outline {outline}, point {point}: {error}")]
    Position {
        /// Line on which its place begins, from 1.
        line: usize,
        /// Which outline or part of a track, from 1.
        outline: usize,
        /// Which point, from 1.
        point: usize,
        /// Why.
        error: PositionError,
    },
    /// An outline that bounds nothing.
    #[error("line {line}: outline {outline}: {error}")]
    Outline {
        /// Line on which its place begins, from 1; 0 for what was taped.
        line: usize,
        /// Which, from 1.
        outline: usize,
        /// Why.
        error: RingError,
    },
    /// A walk that gives nothing.
    #[error(transparent)]
    Walk(#[from] WalkError),
    /// Lengths that give nothing.
    #[error(transparent)]
    Tape(#[from] TapeError),
    /// Courses that give nothing.
    #[error(transparent)]
    Traverse(#[from] TraverseError),
}

/// Reads what somebody drew, walked or taped, and measures it. Outlines of a file are added up; tracks are one walk.
///
/// # Errors
/// What cannot be read, or bounds nothing.
pub fn of_text(text: &str, manner: Manner) -> Result<Measured, AreaError> {
    let features = match exchange::read(text)? {
        Drawn::Places(features) => features,
        Drawn::Tape(sheet) => return of_sheet(&sheet),
    };
    let mut polygons: Vec<(usize, Polygon)> = Vec::new();
    let mut tracks: Vec<(usize, Track)> = Vec::new();
    for Feature { line, shape, .. } in features {
        match shape {
            Shape::Unknown => {}
            Shape::Polygons(drawn) => polygons.extend(drawn.into_iter().map(|polygon| (line, polygon))),
            Shape::Track(track) => tracks.push((line, track)),
        }
    }
    if polygons.is_empty() {
        return match tracks.first() {
            Some((line, _)) => {
                let line = *line;
                let segments = tracks.into_iter().flat_map(|(_, track)| track.segments).collect();
                walked(line, &Track { segments }, manner)
            }
            None => Err(ExchangeError { line: 0, wrong: Wrong::NoPlace }.into()),
        };
    }
    // Beside drawings, a track is one as well.
    for (line, track) in tracks {
        polygons.extend(exchange::outlines(&track).into_iter().map(|polygon| (line, polygon)));
    }
    drawn(&polygons, false)
}

/// Measures one place of a file; nothing where the file has no shape of it. `repair` takes the ground that an outline
/// goes round where it crosses itself.
///
/// # Errors
/// What bounds nothing.
pub fn of_feature(feature: &Feature, manner: Manner, repair: bool) -> Result<Option<Measured>, AreaError> {
    match &feature.shape {
        Shape::Unknown => Ok(None),
        Shape::Polygons(polygons) => {
            let polygons: Vec<(usize, Polygon)> =
                polygons.iter().map(|polygon| (feature.line, polygon.clone())).collect();
            drawn(&polygons, repair).map(Some)
        }
        Shape::Track(track) => walked(feature.line, track, manner).map(Some),
    }
}

/// The outlines of a file as places of another: repaired where they cross themselves, walks as what is kept of them.
///
/// # Errors
/// What cannot be read, bounds nothing, or has no place on the earth.
pub fn repaired(text: &str, manner: Manner) -> Result<Vec<Feature>, AreaError> {
    let nowhere = || AreaError::from(ExchangeError { line: 0, wrong: Wrong::NoPlace });
    let Drawn::Places(features) = exchange::read(text)? else { return Err(nowhere()) };
    let mut places = Vec::new();
    for feature in features {
        if let Some(measured) = of_feature(&feature, manner, true)? {
            let polygons = measured.sketch.polygons().ok_or_else(nowhere)?;
            places.push(Feature { shape: Shape::Polygons(polygons), figures: Vec::new(), ..feature });
        }
    }
    if places.is_empty() { Err(nowhere()) } else { Ok(places) }
}

fn positions(ring: &[[f64; 2]], line: usize, outline: usize) -> Result<Vec<Position>, AreaError> {
    ring.iter()
        .enumerate()
        .map(|(index, [longitude, latitude])| {
            Position::new(*latitude, *longitude).map_err(|error| AreaError::Position {
                line,
                outline,
                point: index + 1,
                error,
            })
        })
        .collect()
}

/// Beyond this distance a frame is no longer that of a place, m.
const FAR_M: f64 = 2_000.0;

/// Measures outlines, each with the line that it stands on.
fn drawn(polygons: &[(usize, Polygon)], repair: bool) -> Result<Measured, AreaError> {
    let (mut area_m2, mut perimeter_m) = (0.0, 0.0);
    let mut remarks = Vec::new();
    let mut frame: Option<Frame> = None;
    let mut rings = Vec::new();
    for (index, (line, polygon)) in polygons.iter().enumerate() {
        let (line, outline) = (*line, index + 1);
        let outer = positions(&polygon.outer, line, outline)?;
        let holes =
            polygon.holes.iter().map(|hole| positions(hole, line, outline)).collect::<Result<Vec<_>, _>>()?;
        let Some(origin) = outer.first() else {
            return Err(AreaError::Outline { line, outline, error: RingError::TooFewPoints { found: 0 } });
        };
        // All are kept in the frame of the first; one that lies far from it is checked in a frame of its own.
        let common = *frame.get_or_insert_with(|| Sketch::frame(*origin));
        let far = common.point(*origin).length() > FAR_M;
        let own = if far { Frame::about(*origin) } else { common };
        let in_common = |points: &[Point]| -> Vec<Point> {
            if far {
                points.iter().map(|point| common.point(own.position(*point))).collect()
            } else {
                points.to_vec()
            }
        };
        let mut whole = area::geodesic(&outer, holes.iter().map(Vec::as_slice));
        for (number, ring) in std::iter::once(&outer).chain(&holes).enumerate() {
            let points: Vec<Point> = ring.iter().map(|at| own.point(*at)).collect();
            let checked = Ring::new(&points).map_err(|error| AreaError::Outline { line, outline, error })?;
            remarks.extend((!checked.closed).then_some(Remark::Unclosed));
            if repair && number == 0 && checked.meeting.crosses() {
                let pieces = checked.repaired();
                let on_earth = |ring: &[Point]| -> Vec<Position> {
                    ring.iter().map(|point| own.position(*point)).collect()
                };
                let mut repaired_m2 = 0.0;
                let mut around_m = 0.0;
                for piece in &pieces {
                    let gaps: Vec<Vec<Position>> = piece.holes.iter().map(|hole| on_earth(hole)).collect();
                    let extent = area::geodesic(&on_earth(&piece.outer), gaps.iter().map(Vec::as_slice));
                    repaired_m2 += extent.area.m2();
                    around_m += extent.perimeter_with_holes.m();
                    rings.push(in_common(&piece.outer));
                    rings.extend(piece.holes.iter().map(|hole| in_common(hole)));
                }
                for hole in &holes {
                    let measure = area::geodesic_ring(hole);
                    repaired_m2 -= measure.signed_m2.abs();
                    around_m += measure.perimeter_m;
                }
                whole.area = Area::from_m2(repaired_m2.max(0.0));
                whole.perimeter_with_holes = Length::from_m(around_m);
                continue;
            }
            remarks.extend(met(&checked));
            let mut kept = in_common(&checked.points);
            if (area::planar_ring(&kept).signed_m2 > 0.0) != (number == 0) {
                kept.reverse();
            }
            rings.push(kept);
        }
        area_m2 += whole.area.m2();
        perimeter_m += whole.perimeter_with_holes.m();
    }
    Ok(Measured {
        area: Area::from_m2(area_m2),
        half_width_95: None,
        perimeter: Some(Length::from_m(perimeter_m)),
        method: Method::Drawn,
        outlines: polygons.len(),
        remarks,
        walked: None,
        sketch: frame.map_or_else(Sketch::default, |frame| Sketch::in_frame(frame, rings)),
    })
}

/// Where a ring meets itself, and what that costs.
fn met(ring: &Ring) -> Option<Remark> {
    match ring.meeting {
        Meeting::None => None,
        Meeting::Touches { .. } => Some(Remark::Touches),
        Meeting::Unknown => Some(Remark::Unchecked),
        Meeting::Crosses { .. } => {
            let covered_m2 = ring.repaired().iter().map(Piece::area_m2).sum();
            // Lobes of one size leave nothing but roundings.
            let signed_m2 = ring.signed_m2().abs();
            let signed_m2 = if signed_m2 < LEAST_AREA_M2.value { 0.0 } else { signed_m2 };
            Some(Remark::Advice(Advice::Crosses {
                signed: Area::from_m2(signed_m2),
                covered: Area::from_m2(covered_m2),
            }))
        }
    }
}

fn walked(line: usize, track: &Track, manner: Manner) -> Result<Measured, AreaError> {
    let mut walk = Walk::new(manner);
    for (part, segment) in track.segments.iter().enumerate() {
        walk.interrupted();
        for (index, point) in segment.iter().enumerate() {
            let position = Position::new(point.latitude, point.longitude)
                .map_err(|error| AreaError::Position { line, outline: part + 1, point: index + 1, error })?;
            walk.take(Fix {
                position,
                time_ms: point.time_ms.unwrap_or_default(),
                accuracy_m: accuracy_m(point),
            });
        }
    }
    let outline = walk.finish()?;
    let sketch = outline.corners.first().map_or_else(Sketch::default, |first| {
        let frame = Sketch::frame(*first);
        Sketch::in_frame(frame, vec![outline.corners.iter().map(|corner| frame.point(*corner)).collect()])
    });
    let reading = outline.reading;
    Ok(Measured {
        area: reading.area,
        half_width_95: Some(reading.half_width_95),
        perimeter: Some(reading.perimeter),
        method: Method::Walked,
        outlines: 1,
        remarks: reading.advice.into_iter().map(Remark::Advice).collect(),
        walked: Some(Walked {
            drms: reading.drms,
            used: reading.corners,
            left_out: reading.left_out,
            laps: reading.laps,
            gap: reading.gap,
        }),
        sketch,
    })
}

/// Accuracy as stated, or from the dilution of precision, or that of a phone under open sky.
fn accuracy_m(point: &TrackPoint) -> f64 {
    point.accuracy_m.unwrap_or_else(|| accuracy_of_hdop_m(point.hdop))
}

/// Measures a place with four right angles.
///
/// # Errors
/// A side that is no length.
pub fn of_rectangle(length: Length, width: Length) -> Result<Measured, AreaError> {
    let (long, wide) = (length.m(), width.m());
    let taped = sides::rectangle(long, wide)?;
    Ok(Measured {
        area: Area::from_m2(taped.area),
        half_width_95: Some(Area::from_m2(QUANTILE_95 * taped.sd)),
        perimeter: Some((length + width) * 2.0),
        method: Method::Sides,
        outlines: 1,
        remarks: Vec::new(),
        walked: None,
        sketch: sketch(&[(0.0, 0.0), (long, 0.0), (long, wide), (0.0, wide)]),
    })
}

fn sketch(corners: &[(f64, f64)]) -> Sketch {
    Sketch::taped(vec![corners.iter().map(|(x, y)| Point::new(*x, *y)).collect()])
}

/// Measures a sheet of taped lengths.
///
/// # Errors
/// Lengths that bound nothing.
pub fn of_sheet(sheet: &sheet::Sheet) -> Result<Measured, AreaError> {
    let metres = if sheet.feet { Length::from_feet(1.0).m() } else { 1.0 };
    let scaled = |pair: &[f64; 2]| (pair[0] * metres, pair[1] * metres);
    let result = |method, area_m2: f64, sd_m2: Option<f64>, perimeter_m: Option<f64>, remarks| Measured {
        area: Area::from_m2(area_m2),
        half_width_95: sd_m2.map(|sd| Area::from_m2(QUANTILE_95 * sd)),
        perimeter: perimeter_m.map(Length::from_m),
        method,
        outlines: 1,
        remarks,
        walked: None,
        sketch: Sketch::default(),
    };
    Ok(match &sheet.taped {
        sheet::Taped::Triangle(lengths) => {
            let [a, b, c] = lengths.map(|length| length * metres);
            let taped = sides::triangle(a, b, c)?;
            Measured {
                sketch: sketch(&sides::triangle_corners(a, b, c)?),
                ..result(Method::Sides, taped.area, Some(taped.sd), Some(a + b + c), Vec::new())
            }
        }
        sheet::Taped::Quadrilateral(lengths, second) => {
            let [ab, bc, cd, da, ac] = lengths.map(|length| length * metres);
            let bd = second.map(|length| length * metres);
            let checked = Quadrilateral { ab, bc, cd, da, ac, bd }.measure()?;
            let misfit = checked.misfit.filter(|_| checked.wrong);
            let remarks = misfit.map(|by| Remark::Misfit { by: Length::from_m(by) }).into_iter().collect();
            let taped = checked.taped;
            Measured {
                sketch: sketch(&checked.corners),
                ..result(Method::Sides, taped.area, Some(taped.sd), Some(ab + bc + cd + da), remarks)
            }
        }
        sheet::Taped::Offsets(rows) => {
            let rows: Vec<(f64, f64)> = rows.iter().map(scaled).collect();
            result(Method::Offsets, offsets::trapezoids(&rows)?, None, None, Vec::new())
        }
        sheet::Taped::Traverse(rows) => {
            let courses = rows
                .iter()
                .map(|(bearing, length)| {
                    Ok(Course { azimuth_deg: azimuth_deg(bearing)?, length: length * metres })
                })
                .collect::<Result<Vec<_>, TapeError>>()?;
            let traverse = Traverse::closed(&courses)?;
            let closed = Remark::Closed {
                by: Length::from_m(traverse.misclosure()),
                precision: traverse.precision(),
                closure: traverse.closure(),
            };
            Measured {
                sketch: Sketch::taped(vec![traverse.corners]),
                ..result(Method::Traverse, traverse.area, None, Some(traverse.perimeter), vec![closed])
            }
        }
        sheet::Taped::Corners(rows) => {
            let points: Vec<Point> = rows.iter().map(scaled).map(|(x, y)| Point::new(x, y)).collect();
            let ring =
                Ring::new(&points).map_err(|error| AreaError::Outline { line: 0, outline: 1, error })?;
            let measure = area::planar_ring(&ring.points);
            let remarks = met(&ring).into_iter().collect();
            Measured {
                sketch: Sketch::taped(vec![ring.points.clone()]),
                ..result(Method::Corners, measure.signed_m2.abs(), None, Some(measure.perimeter_m), remarks)
            }
        }
    })
}
