//! The union of 20 000 rings beside `unary_union` of 64-gons in the same run, as JSON: seconds, and what both make of
//! the area.

#![allow(missing_docs, clippy::unwrap_used, reason = "a benchmark; a ring that is none ends it")]
#![allow(clippy::print_stdout, clippy::disallowed_methods, reason = "it prints times, so it reads a clock")]

use std::f64::consts::TAU;
use std::hint::black_box;
use std::time::Instant;

use geo::{Area, LineString, Polygon, unary_union};
use kerfbook_science::geometry::disc::Disc;
use kerfbook_science::geometry::discs::Discs;
use kerfbook_science::geometry::tree_rings::{Ring, ring_area};
use serde_json::json;

const ROWS: u32 = 100;
const TREES: u32 = 200;
const CORNERS: u32 = 64;

/// An orchard of 5 by 4 m whose rings are 1.5 to 3.5 m wide: every ring meets about six others.
fn orchard() -> Vec<Ring> {
    let mut state = 20_000_u64;
    let mut share = || {
        state = state.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mixed = (state ^ (state >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        f64::from(u32::try_from(mixed >> 32).unwrap()) / f64::from(u32::MAX)
    };
    let mut rings = Vec::new();
    for row in 0..ROWS {
        for tree in 0..TREES {
            let (x, y) = (4.0 * f64::from(tree) + 0.3 * share(), 5.0 * f64::from(row) + 0.3 * share());
            rings.push(Ring::new(x, y, 1.5 + 2.0 * share(), 0.15 + 0.25 * share()).unwrap());
        }
    }
    rings
}

fn polygon(disc: Disc) -> Polygon {
    let [x, y] = disc.centre_m();
    let corner = |number: u32| {
        let angle = TAU * f64::from(number) / f64::from(CORNERS);
        (x + disc.radius_m() * angle.cos(), y + disc.radius_m() * angle.sin())
    };
    Polygon::new((0..CORNERS).map(corner).collect::<LineString>(), Vec::new())
}

fn shortest<T>(times: u32, mut work: impl FnMut() -> T) -> f64 {
    let mut best = f64::INFINITY;
    for _ in 0..times {
        let start = Instant::now();
        black_box(work());
        best = best.min(start.elapsed().as_secs_f64());
    }
    best
}

fn main() {
    let rings = orchard();
    let drips: Vec<Disc> = rings.iter().map(|ring| ring.drip()).collect();
    let polygons: Vec<Polygon> = drips.iter().copied().map(polygon).collect();
    let moved = Disc::new(402.0, 251.0, 2.0).unwrap();
    let mut live = Discs::new(drips.clone());
    let told = json!({
        "20000 rings, union and net": shortest(20, || ring_area(&rings)),
        "20000 rings, union": shortest(20, || Discs::new(drips.clone()).area_m2()),
        "20000 rings, one moved": shortest(20, || { live.replace(10_100, moved); live.area_m2() }),
        "20000 64-gons, unary_union": shortest(3, || unary_union(&polygons)),
        "union_m2": ring_area(&rings).union_m2,
        "unary_union_m2": unary_union(&polygons).unsigned_area(),
    });
    println!("{told:#}");
}
