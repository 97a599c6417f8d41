//! What goes wrong in geometry libraries, and does not here: each trap known of `geo` 0.33 and its forerunners.
#![expect(clippy::unwrap_used, reason = "a test")]
#![expect(clippy::disallowed_methods, reason = "a shape to measure needs no bits")]

use std::f64::consts::PI;

use kerfbook_science::geometry::area::{geodesic, geodesic_ring, planar, planar_ring};
use kerfbook_science::geometry::crossing::{Meeting, find};
use kerfbook_science::geometry::frame::{Frame, Point, Position, PositionError, QuickFrame};
use kerfbook_science::geometry::ring::{Piece, Ring, RingError, union};
use kerfbook_science::geometry::row::Row;
use kerfbook_science::geometry::simplify;

fn disc(x: f64, y: f64, radius: f64, corners: u32) -> Vec<Point> {
    (0..corners)
        .map(|k| 2.0 * PI * f64::from(k) / f64::from(corners))
        .map(|angle| Point::new(x + radius * angle.cos(), y + radius * angle.sin()))
        .collect()
}

fn square(x: f64, y: f64, side: f64) -> Vec<Point> {
    [(0.0, 0.0), (side, 0.0), (side, side), (0.0, side)]
        .map(|(east, north)| Point::new(x + east, y + north))
        .to_vec()
}

fn backwards(ring: &[Point]) -> Vec<Point> {
    ring.iter().rev().copied().collect()
}

fn covered(rings: &[&[Point]]) -> f64 {
    union(rings).iter().map(Piece::area_m2).sum()
}

fn close(value: f64, expected: f64, tolerance: f64) {
    assert!((value - expected).abs() <= tolerance, "{value} is not {expected}");
}

#[test]
fn a_clockwise_hectare_is_not_the_rest_of_the_earth() {
    let frame = Frame::about(Position::new(45.0, 8.0).unwrap());
    let outer: Vec<Position> =
        backwards(&square(0.0, 0.0, 100.0)).into_iter().map(|at| frame.position(at)).collect();
    close(geodesic_ring(&outer).signed_m2, -10_000.0, 0.01);
    // A hole wound as its shell is still a hole.
    let hole: Vec<Position> =
        backwards(&square(40.0, 40.0, 10.0)).into_iter().map(|at| frame.position(at)).collect();
    close(geodesic(&outer, [hole.as_slice()]).area.m2(), 9_900.0, 0.01);
}

#[test]
fn mixed_windings_do_not_cancel_in_a_union() {
    let (one, other) = (disc(0.0, 0.0, 2.0, 64), backwards(&disc(2.0, 0.0, 2.0, 64)));
    let same = covered(&[&one, &backwards(&other)]);
    close(covered(&[&one, &other]), same, 1e-6);
    close(same, 2.0 * planar_ring(&one).signed_m2 - 4.0 * (2.0 * PI / 3.0 - 3.0_f64.sqrt() / 2.0), 0.03);
    // And a bow-tie keeps both lobes.
    let tie = [(0.0, 0.0), (10.0, 10.0), (10.0, 0.0), (0.0, 10.0)].map(|(x, y)| Point::new(x, y));
    let ring = Ring::new(&tie).unwrap();
    assert!(ring.meeting.crosses());
    close(ring.repaired().iter().map(Piece::area_m2).sum(), 50.0, 1e-6);
    assert_eq!(ring.repaired().len(), 2);
}

#[test]
fn twice_round_is_the_ground_and_not_the_sliver_between() {
    let mut twice = disc(0.0, 0.0, 10.0, 64);
    twice.extend(disc(0.2, 0.1, 10.0, 64));
    let ground: f64 = Ring::new(&twice).unwrap().repaired().iter().map(Piece::area_m2).sum();
    let once = planar_ring(&disc(0.0, 0.0, 10.0, 64)).signed_m2;
    assert!(ground > once && ground < 1.03 * once, "{ground}");
}

#[test]
fn rings_without_ground_are_dropped_before_anything_is_joined() {
    let whole = square(0.0, 0.0, 10.0);
    let empty: [Point; 0] = [];
    let line = [Point::new(0.0, 0.0), Point::new(5.0, 5.0), Point::new(0.0, 0.0)];
    let speck = square(3.0, 3.0, 1e-3);
    close(covered(&[&whole, &empty, &line, &speck]), 100.0, 1e-6);
    assert!(union(&[&empty, &line]).is_empty());
    assert!(union(&[]).is_empty());
    assert_eq!(planar(&whole, [empty.as_slice()]).area.m2().to_bits(), 100.0_f64.to_bits());
}

#[test]
fn no_number_stops_at_the_door() {
    for bad in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
        assert_eq!(Position::new(bad, 0.0), Err(PositionError::NotFinite));
        assert_eq!(Position::new(0.0, bad), Err(PositionError::NotFinite));
        let mut ring = square(0.0, 0.0, 10.0);
        ring[2].y = bad;
        assert_eq!(Ring::new(&ring), Err(RingError::NotFinite { index: 3 }));
        // And where it slips in, the ring adds nothing rather than something wrong.
        close(covered(&[&ring, &square(20.0, 0.0, 10.0)]), 100.0, 1e-6);
        assert!(simplify::kept(&ring, 1.0).len() <= 4);
    }
}

#[test]
fn rings_that_share_corners_and_edges_join() {
    // The sweep of older engines stopped on these.
    close(
        covered(&[&square(0.0, 0.0, 10.0), &square(10.0, 0.0, 10.0), &square(10.0, 10.0, 10.0)]),
        300.0,
        1e-6,
    );
    let mut comb = Vec::new();
    for tooth in 0..50 {
        let x = f64::from(tooth);
        comb.extend([
            Point::new(x, 0.0),
            Point::new(x, 1.0),
            Point::new(x + 0.5, 1.0),
            Point::new(x + 0.5, 0.0),
        ]);
    }
    let piece = union(&[&comb]);
    assert!(piece.iter().all(|piece| piece.holes.iter().all(|hole| planar_ring(hole).signed_m2 < 0.0)));
    let touching =
        [(0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (2.0, 0.0), (0.0, 4.0)].map(|(x, y)| Point::new(x, y));
    assert!(matches!(find(&touching), Meeting::Touches { .. }));
    close(covered(&[&touching]), 8.0, 1e-6);
}

#[test]
fn a_disc_of_corners_loses_what_it_must() {
    // (2 pi / n)^2 / 6 of its area: 0.64 % for the 32 corners of a default buffer, which nothing here relies on.
    for (corners, lost) in [(32, 0.64), (64, 0.16), (256, 0.01)] {
        let area = planar_ring(&disc(0.0, 0.0, 1.0, corners)).signed_m2;
        close(100.0 * (1.0 - area / PI), lost, 0.005);
    }
}

#[test]
fn frames_hold_far_north_at_the_pole_and_across_the_antimeridian() {
    for (latitude, longitude) in
        [(68.0, 20.0), (89.9995, -40.0), (-90.0, 0.0), (12.0, 180.0), (-45.0, -179.9999)]
    {
        let origin = Position::new(latitude, longitude).unwrap();
        for point in [Point::new(300.0, -200.0), Point::new(-80.0, 900.0), Point::new(0.5, 0.0)] {
            let (frame, quick) = (Frame::about(origin), QuickFrame::about(origin));
            close(frame.point(frame.position(point)).distance(point), 0.0, 1e-6);
            close(quick.point(quick.position(point)).distance(point), 0.0, 1e-6);
            close(frame.position(point).distance_m(origin), point.length(), 1e-6);
        }
        let ring: Vec<Position> =
            disc(100.0, 50.0, 400.0, 40).into_iter().map(|at| Frame::about(origin).position(at)).collect();
        let quick: Vec<Point> = ring.iter().map(|at| QuickFrame::about(origin).point(*at)).collect();
        let (flat, round) = (planar_ring(&quick).signed_m2, geodesic_ring(&ring).signed_m2);
        assert!((flat / round - 1.0).abs() < 2e-7, "{latitude}: {flat} {round}");
    }
}

#[test]
fn the_nearest_point_of_a_row_is_no_end_far_north_and_no_place_comes_twice() {
    for (latitude, longitude) in [(68.0, 20.0), (84.5, -40.0), (-77.0, 179.999)] {
        let frame = Frame::about(Position::new(latitude, longitude).unwrap());
        // A row across the frame, through the positions that a file would keep.
        let line: Vec<[f64; 2]> = [Point::new(-190.0, -120.0), Point::new(190.0, 120.0)]
            .map(|at| frame.point(frame.position(at)))
            .map(|at| [at.x, at.y])
            .to_vec();
        let row = Row::new(line, 5.0, 0.0).unwrap();
        let length = row.length_m();
        for part in [0.2, 0.5, 0.8] {
            let (east, north) = (-190.0 + 380.0 * part, -120.0 + 240.0 * part);
            let beside = frame.point(frame.position(Point::new(east - 2.4, north + 3.8)));
            let snapped = row.snap([beside.x, beside.y]);
            close(snapped.along_m, length * part, 1e-3);
            close(snapped.aside_m, (2.4_f64 * 2.4 + 3.8 * 3.8).sqrt(), 1e-3);
        }
        let places: Vec<[f64; 2]> = (1..=row.trees()).map(|tree| row.place_m(tree).unwrap()).collect();
        for pair in places.windows(2) {
            let [a, b] = [pair[0], pair[1]];
            close(((a[0] - b[0]).powi(2) + (a[1] - b[1]).powi(2)).sqrt(), 5.0, 1e-9);
        }
        assert_eq!(row.place_m(row.trees() + 1), None);
    }
}

#[test]
fn joining_moves_no_more_than_the_grid_of_the_engine() {
    // Far from the origin, as in a national grid.
    let (x, y) = (500_000.0, 4_650_000.0);
    let one = square(x, y, 2_000.0);
    let other = square(x + 1_000.0, y + 1_000.0, 2_000.0);
    close(covered(&[&one, &other]), 7_000_000.0, 1e-3);
}

#[test]
fn the_library_comes_without_its_default_parts() {
    let manifest = include_str!("../../../Cargo.toml");
    let line = manifest.lines().find(|line| line.starts_with("geo = ")).unwrap();
    assert!(line.contains("default-features = false"), "{line}");
    let own = include_str!("../Cargo.toml");
    assert!(own.lines().any(|line| line == "geo.workspace = true"));
}

#[test]
fn what_bounds_nothing_is_told() {
    assert_eq!(Ring::new(&[]), Err(RingError::TooFewPoints { found: 0 }));
    let two = [Point::new(0.0, 0.0), Point::new(5.0, 0.0), Point::new(5.0, 0.0), Point::new(0.0, 0.0)];
    assert_eq!(Ring::new(&two), Err(RingError::TooFewPoints { found: 2 }));
    let line = [Point::new(0.0, 0.0), Point::new(5.0, 5.0), Point::new(9.0, 9.0)];
    assert_eq!(Ring::new(&line), Err(RingError::NoArea));
    let mut dotted = square(0.0, 0.0, 10.0);
    dotted.insert(2, dotted[1]);
    let ring = Ring::new(&dotted).unwrap();
    assert_eq!((ring.repeated, ring.closed, ring.points.len()), (1, false, 4));
    dotted.push(dotted[0]);
    let ring = Ring::new(&dotted).unwrap();
    assert_eq!((ring.repeated, ring.closed, ring.meeting), (1, true, Meeting::None));
}

#[test]
fn a_swapped_order_is_suspected() {
    assert!(matches!(Position::new(-123.2, 44.5), Err(PositionError::Swapped { .. })));
    assert!(matches!(Position::new(-123.2, 144.5), Err(PositionError::Latitude { .. })));
    assert!(matches!(Position::new(1200.0, 44.5), Err(PositionError::Latitude { .. })));
    assert!(matches!(Position::new(44.5, 720.0), Err(PositionError::Longitude { .. })));
    close(Position::new(0.0, 190.0).unwrap().longitude(), -170.0, 0.0);
}

#[test]
fn a_ring_of_a_million_corners_is_looked_through() {
    let mut ring = disc(0.0, 0.0, 1_000.0, 1_000_000);
    assert_eq!(find(&ring), Meeting::None);
    ring.swap(250_000, 700_000);
    assert!(find(&ring).crosses());
    // Fixes of a day in one spot and one far away: all in few cells, and still an end to it.
    let heap: Vec<Point> = disc(0.0, 0.0, 1.0, 999_999).into_iter().chain([Point::new(1e7, 0.0)]).collect();
    assert!(matches!(find(&heap), Meeting::Unknown | Meeting::None));
    // A comb of thin teeth: as many corners as a receiver gives in eleven days.
    let comb: Vec<Point> = (0..1_000_000)
        .map(|k| Point::new(f64::from(k) * 0.01, if k % 2 == 0 { 0.0 } else { 50.0 }))
        .chain([Point::new(1e4, -1.0), Point::new(0.0, -1.0)])
        .collect();
    assert!(!find(&comb).crosses());
    let kept = simplify::kept_of_ring(&comb, 0.001);
    assert!(kept.len() > 900_000);
}

#[test]
fn every_small_ring_is_compared_whole() {
    // Random rings against all pairs, by the signs of areas.
    let turn = |a: Point, b: Point, c: Point| (b - a).cross(c - a);
    for seed in 0..400 {
        let number = 4 + seed % 9;
        let ring: Vec<Point> = (0..number)
            .map(|corner| {
                let at = |which| 100.0 * kerfbook_science::nitrogen::uniform(seed, corner, which);
                Point::new(at(0), at(1))
            })
            .collect();
        let next = |index: usize| ring[(index + 1) % ring.len()];
        let mut crosses = false;
        for first in 0..ring.len() {
            for second in first + 2..ring.len() {
                let (a, b, c, d) = (ring[first], next(first), ring[second], next(second));
                crosses |= turn(a, b, c) * turn(a, b, d) < 0.0 && turn(c, d, a) * turn(c, d, b) < 0.0;
            }
        }
        assert_eq!(find(&ring).crosses(), crosses, "seed {seed}");
    }
}
