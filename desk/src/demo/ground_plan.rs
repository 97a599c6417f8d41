//! Where the invented holding's places lie: taped beds, a path and a row of trees, at a point of the open sea.

use std::cmp::Ordering;

use kerfbook_acts::outline_place::Shape;
use kerfbook_ledger::kind::Measured;
use kerfbook_ledger::{Anchor, Outline};

/// Where equator and prime meridian cross: nobody grows anything there.
const NOWHERE: Anchor = Anchor { latitude_e9: 0, longitude_e9: 0 };
/// Beds of the holding, the first places of the demo.
const BEDS: i32 = 6;
/// From the edge of one bed to that of the next, mm.
const STEP_MM: i32 = 1_800;

/// The shape of one of the demo's places, in the order in which they come into the book.
pub(super) fn shape(number: usize) -> Shape {
    let number = i32::try_from(number).unwrap_or(i32::MAX);
    let outline = match number.cmp(&BEDS) {
        // 1.2 by 10 m.
        Ordering::Less => rectangle(number * STEP_MM, 0, 1_200, 10_000),
        // 1.5 by 12 m along the ends of the beds.
        Ordering::Equal => rectangle(-900, -2_100, 12_000, 1_500),
        // A row of six trees.
        Ordering::Greater => vec![[-2_300, 12_400], [12_500, 12_400]],
    };
    Shape { measured: Measured::Taped, anchor: Some(NOWHERE), outline: Outline(outline) }
}

/// Counter-clockwise from the south-western corner.
fn rectangle(west: i32, south: i32, width: i32, length: i32) -> Vec<[i32; 2]> {
    let (east, north) = (west + width, south + length);
    vec![[west, south], [east, south], [east, north], [west, north]]
}
