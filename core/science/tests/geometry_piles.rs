//! Heaps, loads, probes and buckets: every published figure, and the shapes' catalogue.
#![allow(clippy::unwrap_used, reason = "a test may stop where it stands")]

mod case;

use case::{Case, cases};
use kerfbook_science::dose::{Bulk, Filling};
use kerfbook_science::geometry::load::{HeapSlope, heap_height, heap_on};
use kerfbook_science::geometry::pile::{
    STEEPEST_REPOSE, Section, Shape, end_area, half_circle_windrows_depth, height_at_repose, prismoidal,
    radius_of_girth, slope_degrees,
};
use kerfbook_science::geometry::probe::{Stratum, needed, needed_in_strata, product, stratified};
use kerfbook_science::units::{Area, Length, Mass, Volume};

fn ridge(case: &Case, section: Section, width_m: f64, height_m: f64) -> Shape {
    Shape::Ridge { section, width_m, height_m, ridge_m: case.number("L") }
}

/// The shape of a case whose volume is expected in m³.
fn shape(case: &Case) -> Option<Shape> {
    let n = |key: &str| case.number(key);
    Some(match case.text("shape") {
        "half-sphere" => Shape::HalfSphere { height_m: n("h") },
        "paraboloid" => Shape::Paraboloid { height_m: n("h"), width_m: n("w") },
        "half-elliptic-cylinder" => {
            Shape::HalfEllipticCylinder { width_m: n("w"), length_m: n("l"), height_m: n("h") }
        }
        "half-frustum" => {
            Shape::HalfFrustum { length_m: n("l"), first_height_m: n("h1"), second_height_m: n("h2") }
        }
        "rounded-half-frustum" => {
            Shape::RoundedHalfFrustum { length_m: n("l"), first_width_m: n("w1"), second_width_m: n("w2") }
        }
        "half-ellipsoid" => Shape::HalfEllipsoid { width_m: n("w"), length_m: n("l"), height_m: n("h") },
        "cone" => Shape::Cone { radius_m: n("r"), height_m: n("h") },
        "truncated-cone" => {
            Shape::TruncatedCone { bottom_radius_m: n("R"), top_radius_m: n("r"), height_m: n("h") }
        }
        "ridge-triangle" => ridge(case, Section::Triangle, n("W"), n("H")),
        "ridge-half-circle" => ridge(case, Section::HalfEllipse, 2.0 * n("R"), n("R")),
        "ridge-parabola" => ridge(case, Section::Parabola, n("W"), n("H")),
        "ridge-trapezoid" => ridge(case, Section::Trapezoid { top_m: n("T") }, n("B"), n("H")),
        "flat-topped" => Shape::FlatTopped {
            length_m: n("a"),
            width_m: n("b"),
            top_length_m: n("a1"),
            top_width_m: n("b1"),
            height_m: n("H"),
        },
        "wedge" => Shape::Wedge { length_m: n("a"), crest_m: n("a1"), width_m: n("b"), height_m: n("h") },
        _ => return None,
    })
}

#[test]
fn heaps() {
    for case in cases("pile-", 25) {
        if let Some(shape) = shape(&case) {
            case.check(&[("m3", shape.volume().unwrap().m3())]);
            continue;
        }
        let n = |key: &str| case.number(key);
        match case.text("shape") {
            "heap-on-box" => {
                let (long, wide) = (Length::from_m(n("L")), Length::from_m(n("W")));
                let slope = HeapSlope::measured(n("m")).unwrap();
                case.check(&[("m3", heap_on(long, wide, slope).m3())]);
                case.check(&[("m3", heap_on(wide, long, HeapSlope::LOADER).m3())]);
                assert!((heap_height(long, wide, slope).m() - 0.5).abs() < 1e-12);
            }
            "cone-ft" => {
                let (radius, height) = (Length::from_feet(n("r")), Length::from_feet(n("h")));
                let cone = Shape::Cone { radius_m: radius.m(), height_m: height.m() }.volume().unwrap();
                case.check(&[("ft3", cone.cubic_feet()), ("yd3", cone.cubic_yards())]);
                if case.input["repose_deg"].is_number() {
                    // The table's heights are rounded to whole feet.
                    assert!((height_at_repose(2.0 * n("r"), n("repose_deg")) - n("h")).abs() < 0.1);
                    let slope = slope_degrees(2.0 * n("r"), n("h"));
                    assert!((slope - n("repose_deg")).abs() < 0.1 && slope < STEEPEST_REPOSE.value);
                }
            }
            "windrows-ft" => {
                let feet = half_circle_windrows_depth(n("h"), n("aisle"));
                let volume = Area::from_acres(1.0).volume_of(Length::from_feet(feet));
                case.check(&[("yd3_per_acre", volume.cubic_yards())]);
            }
            "sections" => {
                let half_circle = |r: f64| Section::HalfEllipse.across(2.0 * r, r);
                let (first, second) = (half_circle(n("r1")), half_circle(n("r2")));
                let middle = half_circle(f64::midpoint(n("r1"), n("r2")));
                let frustum = Shape::HalfFrustum {
                    length_m: n("l"),
                    first_height_m: n("r1"),
                    second_height_m: n("r2"),
                };
                case.check(&[
                    ("first_m2", first),
                    ("second_m2", second),
                    ("end_area_m3", end_area(n("l"), first, second)),
                    ("prismoidal_m3", prismoidal(n("l"), first, middle, second)),
                    ("half_frustum_m3", frustum.volume().unwrap().m3()),
                ]);
            }
            "girth" => case.check(&[("diameter_m", 2.0 * radius_of_girth(n("girth")))]),
            other => panic!("{}: nothing computes {other}", case.name),
        }
    }
}

#[test]
fn probes() {
    for case in cases("probe-", 6) {
        match case.name.as_str() {
            "probe-bucket" => {
                let litres = Volume::from_litres(case.number("litres"));
                let (empty, full) = (case.number("empty_kg"), case.number("full_kg"));
                let bulk = Bulk::of_buckets(
                    litres,
                    Mass::from_kg(empty),
                    &[Mass::from_kg(full)],
                    Filling::TappedThirds,
                );
                case.check(&[("kg_m3", bulk.unwrap().wet_density.kg_m3())]);
            }
            name if name.starts_with("probe-strata") => {
                let lists = ["weights", "counts", "means", "variances"].map(|key| case.numbers(key));
                let strata: Vec<Stratum> = (0..3)
                    .map(|i| Stratum {
                        size: 120.0 * lists[0][i],
                        count: format!("{}", lists[1][i]).parse().unwrap(),
                        mean: lists[2][i],
                        variance: lists[3][i],
                    })
                    .collect();
                if name == "probe-strata" {
                    let whole = stratified(&strata).unwrap();
                    case.check(&[
                        ("mean", whole.mean),
                        ("variance", whole.variance),
                        ("half_width_95_normal", whole.half_width_95_normal),
                    ]);
                    assert!(whole.half_width_95 > whole.half_width_95_normal);
                } else {
                    let each = needed_in_strata(&strata, case.number("margin")).unwrap();
                    case.check(&[
                        ("needed", each.iter().sum()),
                        ("needed_1", each[0]),
                        ("needed_2", each[1]),
                        ("needed_3", each[2]),
                    ]);
                }
            }
            _ => case.check(&[("needed", needed(case.number("sd"), case.number("margin")).unwrap().into())]),
        }
    }
}

#[test]
fn a_product_of_measured_things_adds_in_squares() {
    let (volume, sd) = product(12.0, 0.6, 0.05, 0.005);
    assert!((volume - 0.6).abs() < 1e-15);
    assert!((sd / volume - (0.05_f64 * 0.05 + 0.1 * 0.1 + 0.005 * 0.005).sqrt()).abs() < 1e-12);
}
