//! Reference polygons, published polygon tests of the geodesic library, and tape and compass examples, as cases under
//! `fixtures/science/geometry/`.
#![expect(clippy::unwrap_used, reason = "a broken fixture must stop the test")]

use std::fs;
use std::path::{Path, PathBuf};

use kerfbook_science::geometry::area::{geodesic, geodesic_ring, planar_ring};
use kerfbook_science::geometry::frame::{Frame, Point, Position};
use kerfbook_science::geometry::ring::{Piece, Ring};
use kerfbook_science::geometry::tape::traverse::{Course, Traverse, azimuth_deg};
use kerfbook_science::geometry::tape::{offsets, sides};
use serde_json::Value;

fn cases(kind: &str) -> Vec<(String, Value)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../fixtures/science/geometry");
    let mut files: Vec<PathBuf> = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    files.sort();
    files
        .into_iter()
        .filter_map(|path| {
            let name = path.file_stem()?.to_str()?.to_owned();
            (path.extension()? == "json" && name.starts_with(kind))
                .then(|| (name, serde_json::from_str(&fs::read_to_string(&path).unwrap()).unwrap()))
        })
        .collect()
}

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap_or_else(|| panic!("{value} is no number"))
}

fn pair(value: &Value) -> [f64; 2] {
    [number(&value[0]), number(&value[1])]
}

fn numbers(value: &Value) -> Vec<f64> {
    value.as_array().unwrap().iter().map(number).collect()
}

/// Rings in the order of RFC 7946: longitude, latitude.
fn rings(value: &Value) -> Vec<Vec<Position>> {
    let ring = |ring: &Value| {
        let at = |at: &Value| Position::new(number(&at[1]), number(&at[0])).unwrap();
        ring.as_array().unwrap().iter().map(at).collect()
    };
    value.as_array().unwrap().iter().map(ring).collect()
}

fn close(name: &str, what: &str, value: f64, expected: f64, tolerance: f64) {
    assert!((value - expected).abs() <= tolerance, "{name}: {what} is {value}, expected {expected}");
}

#[test]
fn reference_polygons() {
    let cases = cases("polygon-");
    assert_eq!(cases.len(), 28);
    for (name, case) in cases {
        let rings = rings(&case["input"]["rings"]);
        let (outer, holes) = rings.split_first().unwrap();
        let (expected, tolerance) = (&case["expected"], &case["tolerance"]);
        let (area, perimeter) = (number(&tolerance["area_m2"]), number(&tolerance["perimeter_m"]));
        // Whatever the winding of any ring, and wherever it begins.
        for turn in 0..4 {
            let turned = |ring: &[Position], back: bool| {
                let mut ring = ring[1..].to_vec();
                ring.rotate_left(turn % 3);
                if back {
                    ring.reverse();
                }
                ring
            };
            let outer = turned(outer, turn & 1 == 1);
            let holes: Vec<Vec<Position>> = holes.iter().map(|hole| turned(hole, turn & 2 == 2)).collect();
            let extent = geodesic(&outer, holes.iter().map(Vec::as_slice));
            close(&name, "area", extent.area.m2(), number(&expected["area_m2"]), area);
            close(&name, "perimeter", extent.perimeter.m(), number(&expected["perimeter_m"]), perimeter);
            close(
                &name,
                "perimeter with holes",
                extent.perimeter_with_holes.m(),
                number(&expected["perimeter_with_holes_m"]),
                perimeter,
            );
            let sign = if turn & 1 == 1 { -1.0 } else { 1.0 };
            close(
                &name,
                "signed area",
                sign * geodesic_ring(&outer).signed_m2,
                number(&expected["signed_m2"]),
                area,
            );
        }
    }
}

#[test]
fn flat_frames_agree_with_the_reference() {
    for (name, case) in cases("polygon-") {
        let rings = rings(&case["input"]["rings"]);
        let frame = Frame::about(rings[0][0]);
        let flat = |ring: &[Position]| {
            let ring: Vec<Point> = ring.iter().map(|at| frame.point(*at)).collect();
            planar_ring(&ring).signed_m2.abs()
        };
        let area = flat(&rings[0]) - rings[1..].iter().map(|ring| flat(ring)).sum::<f64>();
        let expected = number(&case["expected"]["area_m2"]);
        close(&name, "flat area", area, expected, 1e-6 + expected * 1e-7);
    }
}

#[test]
fn rings_that_meet_themselves_are_found_and_repaired() {
    for (name, case) in cases("polygon-") {
        let outer = rings(&case["input"]["rings"]).swap_remove(0);
        let frame = Frame::about(outer[0]);
        let points: Vec<Point> = outer.iter().map(|at| frame.point(*at)).collect();
        let ring = Ring::new(&points).unwrap();
        assert!(ring.closed, "{name}");
        let valid = case["input"]["valid"].as_bool().unwrap();
        let met = ring.meeting != kerfbook_science::geometry::crossing::Meeting::None;
        assert_eq!(met, !valid, "{name}: {:?}", ring.meeting);
        let repaired: f64 = ring.repaired().iter().map(Piece::area_m2).sum();
        let expected = case["expected"].get("repaired_m2").map_or(ring.signed_m2().abs(), number);
        close(&name, "repaired area", repaired, expected, 2e-3 + expected * 1e-7);
    }
}

#[test]
fn published_polygons_of_the_library() {
    let cases = cases("planimeter-");
    assert_eq!(cases.len(), 13);
    for (name, case) in cases {
        let ring: Vec<Position> = if let Some(vertices) = case["input"]["vertices_lat_lon"].as_array() {
            vertices.iter().map(|at| Position::new(number(&at[0]), number(&at[1])).unwrap()).collect()
        } else {
            let [latitude, longitude] = pair(&case["input"]["start_lat_lon"]);
            let mut at = Position::new(latitude, longitude).unwrap();
            let mut ring = vec![at];
            for edge in case["input"]["edges_east_north_m"].as_array().unwrap() {
                let [east, north] = pair(edge);
                at = Frame::about(at).position(Point::new(east, north));
                ring.push(at);
            }
            ring
        };
        let measure = geodesic_ring(&ring);
        let (expected, tolerance) = (&case["expected"], &case["tolerance"]);
        let area = measure.signed_m2.abs();
        close(&name, "area", area, number(&expected["area_m2"]), number(&tolerance["area_m2"]));
        if let Some(perimeter) = expected.get("perimeter_m") {
            close(
                &name,
                "perimeter",
                measure.perimeter_m,
                number(perimeter),
                number(&tolerance["perimeter_m"]),
            );
        }
    }
}

type Results = Vec<(String, f64)>;

fn traverse(input: &Value) -> Results {
    let courses: Vec<Course> = input["courses"]
        .as_array()
        .unwrap()
        .iter()
        .map(|course| Course {
            azimuth_deg: azimuth_deg(course[0].as_str().unwrap()).unwrap(),
            length: number(&course[1]),
        })
        .collect();
    let traverse = Traverse::closed(&courses).unwrap();
    let mut results = vec![
        ("north_error".to_owned(), traverse.north_error),
        ("east_error".to_owned(), traverse.east_error),
        ("perimeter".to_owned(), traverse.perimeter),
        ("area".to_owned(), traverse.area),
        ("one_in".to_owned(), 1.0 / traverse.precision()),
    ];
    for (index, course) in traverse.courses.iter().enumerate() {
        results.push((format!("north_{}", index + 1), course.y));
        results.push((format!("east_{}", index + 1), course.x));
    }
    if let Some(start) = input.get("start") {
        for (corner, letter) in traverse.corners.iter().zip('A'..) {
            results.push((format!("corner_{letter}_north"), corner.y + number(&start["N"])));
            results.push((format!("corner_{letter}_east"), corner.x + number(&start["E"])));
        }
    }
    results
}

fn points(value: &Value) -> Vec<Point> {
    value.as_array().unwrap().iter().map(|at| Point::new(number(&at[0]), number(&at[1]))).collect()
}

#[test]
fn tape_and_compass() {
    let cases = cases("tape-");
    assert_eq!(cases.len(), 11);
    for (name, case) in cases {
        let input = &case["input"];
        let one = |what: &str, value: f64| vec![(what.to_owned(), value)];
        let results: Results = match input["method"].as_str().unwrap() {
            "triangles" => {
                let mut results = Vec::new();
                let mut total = 0.0;
                for (index, triangle) in input["triangles"].as_array().unwrap().iter().enumerate() {
                    let [a, b, c] = numbers(triangle).try_into().unwrap();
                    let area = sides::triangle(a, b, c).unwrap().area;
                    total += area;
                    results.push((format!("triangle_{}", index + 1), area));
                }
                if let Some(offset) = input.get("offset_triangle") {
                    let strip = [
                        (0.0, 0.0),
                        (number(&offset["base"]) / 2.0, number(&offset["height"])),
                        (number(&offset["base"]), 0.0),
                    ];
                    let area = offsets::trapezoids(&strip).unwrap();
                    total += area;
                    results.push(("offset".to_owned(), area));
                }
                results.push(("total".to_owned(), total));
                results
            }
            "offsets" => {
                let (spacing, figures) = (number(&input["spacing"]), numbers(&input["offsets"]));
                let mut along = -spacing;
                let pairs: Vec<(f64, f64)> = figures
                    .iter()
                    .map(|offset| {
                        along += spacing;
                        (along, *offset)
                    })
                    .collect();
                vec![
                    ("average_ordinate".to_owned(), offsets::average_ordinate(spacing, &figures).unwrap()),
                    ("trapezoid".to_owned(), offsets::trapezoids(&pairs).unwrap()),
                    ("simpson".to_owned(), offsets::simpson(spacing, &figures).unwrap()),
                ]
            }
            "traverse" => traverse(input),
            "coordinates" => one("area", planar_ring(&points(&input["points_east_north"])).signed_m2.abs()),
            "balanced" => {
                let mut at = Point::default();
                let corners: Vec<Point> = points(&input["courses_east_north"])
                    .into_iter()
                    .map(|course| {
                        at = at + course;
                        at
                    })
                    .collect();
                one("area", planar_ring(&corners).signed_m2.abs())
            }
            "trapezoid" => {
                let [a, b] = pair(&input["parallel"]);
                one("area", sides::trapezoid(a, b, number(&input["height"])).unwrap().area)
            }
            other => panic!("{name}: nothing runs the method `{other}`"),
        };
        for (key, expected) in case["expected"].as_object().unwrap() {
            let (_, value) = results
                .iter()
                .find(|(result, _)| result == key)
                .unwrap_or_else(|| panic!("{name}: nothing computes `{key}`"));
            close(&name, key, *value, number(expected), number(&case["tolerance"]["absolute"]));
        }
    }
}
