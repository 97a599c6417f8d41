//! What holds for every place: areas, frames, simplifying, tapes and corners.
#![expect(clippy::disallowed_methods, reason = "a shape to measure needs no bits")]

use kerfbook_science::geometry::area::{geodesic_ring, planar_ring};
use kerfbook_science::geometry::averaging::left_of_variance;
use kerfbook_science::geometry::corners::{CornerError, mark};
use kerfbook_science::geometry::frame::{Frame, Point, Position, QuickFrame};
use kerfbook_science::geometry::ring::{Piece, Ring, union};
use kerfbook_science::geometry::simplify::{kept, kept_of_ring};
use kerfbook_science::geometry::tape::sides::{Checked, Quadrilateral, trapezoid, triangle};
use kerfbook_science::geometry::tape::traverse::{Closure, Course, Traverse, azimuth_deg};
use kerfbook_science::geometry::tape::{TapeError, offsets};
use kerfbook_science::geometry::walk::{Fix, Manner, Walk};
use proptest::prelude::*;

fn position() -> impl Strategy<Value = Position> {
    (-89.9..89.9, -180.0..180.0).prop_map(|(latitude, longitude)| {
        Position::new(latitude, longitude).unwrap_or_else(|_| unreachable!("within range"))
    })
}

/// A ring that goes once round its middle, so that it cannot cross itself; east and north in metres.
fn star() -> impl Strategy<Value = Vec<Point>> {
    proptest::collection::vec(5.0..500.0, 3..40).prop_map(|radii| {
        let count = f64::from(u32::try_from(radii.len()).unwrap_or(1));
        (0_u32..)
            .zip(radii)
            .map(|(index, radius): (u32, f64)| {
                let angle = core::f64::consts::TAU * f64::from(index) / count;
                Point::new(radius * angle.cos(), radius * angle.sin())
            })
            .collect()
    })
}

fn tangled() -> impl Strategy<Value = Vec<Point>> {
    proptest::collection::vec((-100.0..100.0, -100.0..100.0), 3..30)
        .prop_map(|corners| corners.into_iter().map(|(x, y)| Point::new(x, y)).collect())
}

proptest! {
    #[test]
    fn a_place_has_one_area(origin in position(), ring in star(), turn in 0_usize..40) {
        let frame = Frame::about(origin);
        let positions: Vec<Position> = ring.iter().map(|point| frame.position(*point)).collect();
        let area = geodesic_ring(&positions);
        let flat = planar_ring(&ring);
        prop_assert!((area.signed_m2 - flat.signed_m2).abs() <= 3e-3 + 1e-7 * flat.signed_m2.abs());
        prop_assert!((area.perimeter_m - flat.perimeter_m).abs() <= 1e-6 + 1e-7 * flat.perimeter_m);
        let quick = QuickFrame::about(origin);
        let quick: Vec<Point> = positions.iter().map(|at| quick.point(*at)).collect();
        // Straight in the quick frame bends over the ground by the square of an edge and the tangent of latitude.
        let bend: f64 = ring
            .iter()
            .zip(ring.iter().cycle().skip(1))
            .map(|(a, b)| a.distance(*b).powi(3) * origin.latitude().to_radians().tan().abs() / (12.0 * 6.35e6))
            .sum();
        if origin.latitude().abs() < 85.0 {
            let off = planar_ring(&quick).signed_m2 - area.signed_m2;
            prop_assert!(off.abs() < 3e-3 + 1.01 * bend + 1e-6 * area.signed_m2, "{off} {bend}");
        }
        let mut other = positions.clone();
        other.rotate_left(turn % positions.len());
        other.reverse();
        prop_assert!((geodesic_ring(&other).signed_m2 + area.signed_m2).abs() < 3e-3);
        other.push(other[0]);
        prop_assert!((geodesic_ring(&other).signed_m2 + area.signed_m2).abs() < 3e-3);
    }

    #[test]
    fn frames_go_there_and_back(origin in position(), east in -3000.0..3000.0, north in -3000.0..3000.0) {
        let point = Point::new(east, north);
        let frame = Frame::about(origin);
        prop_assert!(frame.point(frame.position(point)).distance(point) < 1e-6);
        let quick = QuickFrame::about(origin);
        prop_assume!(origin.latitude().abs() < 88.0);
        prop_assert!(quick.point(quick.position(point)).distance(point) < 1e-6);
    }

    #[test]
    fn repair_covers_the_ring_and_crosses_nowhere(ring in tangled()) {
        if let Ok(checked) = Ring::new(&ring) {
            let pieces = checked.repaired();
            let covered: f64 = pieces.iter().map(Piece::area_m2).sum();
            prop_assert!(covered + 1e-3 >= checked.signed_m2().abs() || !pieces.is_empty());
            prop_assert!(pieces.windows(2).all(|pair| pair[0].area_m2() >= pair[1].area_m2()));
            for piece in &pieces {
                prop_assert!(planar_ring(&piece.outer).signed_m2 > 0.0);
                prop_assert!(piece.holes.iter().all(|hole| planar_ring(hole).signed_m2 < 0.0));
                let again: f64 = union(&[&piece.outer]).iter().map(Piece::area_m2).sum();
                prop_assert!((again - planar_ring(&piece.outer).signed_m2).abs() < 1e-2);
            }
        }
    }

    #[test]
    fn simplified_lines_stay_close(line in tangled(), within in 0.1..50.0) {
        let keep = kept(&line, within);
        prop_assert_eq!(keep.first(), Some(&0));
        prop_assert_eq!(keep.last(), Some(&(line.len() - 1)));
        for pair in keep.windows(2) {
            let (a, b) = (line[pair[0]], line[pair[1]]);
            for point in &line[pair[0]..=pair[1]] {
                let along = b - a;
                let length = along.dot(along);
                let share = if length > 0.0 { (along.dot(*point - a) / length).clamp(0.0, 1.0) } else { 0.0 };
                prop_assert!((a + along * share).distance(*point) <= within + 1e-9);
            }
        }
        let ring = kept_of_ring(&line, within);
        prop_assert!(ring.windows(2).all(|pair| pair[0] < pair[1]) && ring.len() <= line.len());
    }

    #[test]
    fn tapes_and_coordinates_agree(ring in proptest::array::uniform4((1.0..80.0, 0.0..1.0))) {
        // Four corners, one in each quarter of the circle: convex or with one corner inwards.
        let corners: Vec<Point> = ring
            .iter()
            .zip(0_u32..)
            .map(|((radius, turn), quarter): (&(f64, f64), u32)| {
                let angle = (f64::from(quarter) + 0.2 + 0.6 * turn) * core::f64::consts::FRAC_PI_2;
                Point::new(radius * angle.cos(), radius * angle.sin())
            })
            .collect();
        let [a, b, c, d] = [corners[0], corners[1], corners[2], corners[3]];
        let taped = Quadrilateral {
            ab: a.distance(b), bc: b.distance(c), cd: c.distance(d), da: d.distance(a),
            ac: a.distance(c), bd: Some(b.distance(d)),
        };
        // The diagonal A-C must lie inside for two triangles to add up, or the second one tells that it does not.
        let checked = taped.measure();
        if let Ok(checked) = checked {
            let area = planar_ring(&corners).signed_m2;
            prop_assert!((checked.taped.area - area).abs() < 1e-4 * (1.0 + area), "{} {area}", checked.taped.area);
            prop_assert!(!checked.wrong && checked.misfit.is_some_and(|misfit| misfit.abs() < 1e-3));
            let bad = Quadrilateral { bd: Some(b.distance(d) * 1.3 + 3.0), ..taped }.measure();
            // Five lengths make two shapes, one with a corner inwards: a wrong second diagonal that happens to be that of
            // the other one cannot be told from a right one of that shape.
            let told = |bad: Checked| bad.hollow != checked.hollow || bad.misfit.is_some_and(|by| by.abs() > 0.1);
            prop_assert!(bad.is_ok_and(told));
        }
        let courses: Vec<Course> = corners
            .iter()
            .zip(corners.iter().cycle().skip(1))
            .map(|(from, to)| {
                let leg = *to - *from;
                let azimuth = leg.x.atan2(leg.y).to_degrees();
                Course { azimuth_deg: if azimuth < 0.0 { azimuth + 360.0 } else { azimuth }, length: leg.length() }
            })
            .collect();
        if let Ok(traverse) = Traverse::closed(&courses) {
            prop_assert!((traverse.area - planar_ring(&corners).signed_m2.abs()).abs() < 1e-6);
            prop_assert_eq!(traverse.closure(), Closure::Good);
        }
    }

    #[test]
    fn any_fixes_make_a_walk_without_a_panic(
        fixes in proptest::collection::vec((-90.0..=90.0, -180.0..=180.0, -1000_i64..100_000, -1.0..40.0), 0..60),
        near in any::<bool>(),
        outside in -50.0..50.0,
    ) {
        let mut walk = Walk::new(Manner {
            edge_outside: kerfbook_science::units::Length::from_m(outside),
            ..Manner::default()
        });
        for (latitude, longitude, time_ms, accuracy_m) in fixes {
            let (latitude, longitude) = if near { (latitude / 1e5, longitude / 1e5) } else { (latitude, longitude) };
            let Ok(position) = Position::new(latitude, longitude) else { continue };
            walk.take(Fix { position, time_ms, accuracy_m });
            let reading = walk.reading();
            prop_assert!(reading.area.m2() >= 0.0 && reading.half_width_95.m2() >= 0.0);
        }
        if let Ok(outline) = walk.finish() {
            prop_assert!(outline.reading.area.m2().is_finite() && outline.corners.len() > 2);
        }
    }
}

fn stand(origin: Position, east: f64, north: f64, seconds: i64) -> Vec<Fix> {
    let position = Frame::about(origin).position(Point::new(east, north));
    (0..=seconds).map(|second| Fix { position, time_ms: second * 1000, accuracy_m: 3.0 / 0.94 }).collect()
}

#[test]
fn corners_of_a_hectare() -> Result<(), Box<dyn std::error::Error>> {
    let origin = Position::new(-33.0, 18.5)?;
    let corners = [(0.0, 0.0), (100.0, 0.0), (100.0, 100.0), (0.0, 100.0)];
    let stands = |seconds| corners.map(|(east, north)| stand(origin, east, north, seconds)).to_vec();
    // One fix at each corner at 3 m: 3.0 % of a hectare, one standard deviation.
    let quick = mark(&stands(0), 60.0, false)?;
    assert!((quick.area.m2() - 10_000.0).abs() < 0.01);
    assert!((quick.half_width_95.m2() / 1.96 / 10_000.0 - 0.03).abs() < 5e-4, "{}", quick.half_width_95.m2());
    let long = mark(&stands(600), 60.0, false)?;
    let gain = long.half_width_95.m2() / quick.half_width_95.m2();
    assert!((gain * gain - 0.18).abs() < 0.005, "{gain}");
    let mut missing = stands(5);
    missing[2].clear();
    assert_eq!(mark(&missing, 60.0, false), Err(CornerError::NoFix { corner: 3 }));
    assert_eq!(mark(&[], 60.0, false), Err(CornerError::NoFix { corner: 1 }));
    let mut swapped = stands(5);
    swapped.swap(1, 2);
    assert!(mark(&swapped, 60.0, false)?.crosses);
    Ok(())
}

#[test]
fn averaging_is_worth_what_is_published() {
    for (seconds, left) in [(30.0, 0.85), (120.0, 0.57), (600.0, 0.18), (0.0, 1.0)] {
        assert!((left_of_variance(seconds, 60.0) - left).abs() < 0.005);
    }
}

#[test]
fn lengths_that_cannot_be_are_told() {
    assert!(matches!(triangle(50.0, 60.0, 111.0), Err(TapeError::NoTriangle { .. })));
    assert!(matches!(triangle(-1.0, 2.0, 2.0), Err(TapeError::Length { .. })));
    assert!(matches!(triangle(f64::NAN, 2.0, 2.0), Err(TapeError::Length { .. })));
    assert!(matches!(trapezoid(1.0, 2.0, 0.0), Err(TapeError::Length { .. })));
    assert!(matches!(offsets::trapezoids(&[(0.0, 1.0)]), Err(TapeError::TooFewOffsets { found: 1 })));
    assert!(matches!(
        offsets::trapezoids(&[(0.0, 1.0), (0.0, 2.0)]),
        Err(TapeError::OutOfOrder { index: 2 })
    ));
    assert!(matches!(offsets::simpson(1.0, &[1.0, -1.0]), Err(TapeError::Length { .. })));
    assert!(Traverse::closed(&[]).is_err());
    for text in
        ["", "N", "N E", "N 95 E", "N 10 70 E", "Q 10 E", "N 10 10 10 10 E", "361", "-1", "NaN", "N nan E"]
    {
        assert_eq!(azimuth_deg(text), Err(TapeError::Bearing), "{text}");
    }
    assert_eq!(azimuth_deg("n76e").map(f64::to_bits), Ok(76.0_f64.to_bits()));
    assert_eq!(azimuth_deg("S 68° 30' W").map(f64::to_bits), Ok(248.5_f64.to_bits()));
}

#[test]
fn heron_as_it_is() {
    // A page in print gives 4647.58 for 50, 60, 70.
    assert!(triangle(50.0, 60.0, 70.0).is_ok_and(|taped| (taped.area - 1_469.693_845).abs() < 1e-5));
    // Even number of offsets: Simpson but for the last strip, exact for a parabola up to there.
    let parabola = [0.0, 1.0, 4.0, 9.0, 16.0, 25.0];
    assert!(offsets::simpson(1.0, &parabola).is_ok_and(|area| (area - (64.0 / 3.0 + 20.5)).abs() < 1e-12));
}
