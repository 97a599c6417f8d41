//! Whatever is done to a good table of trees, reading it ends with rings or with complaints that have a place.
#![allow(clippy::unwrap_used, reason = "a test may stop where it stands")]

use proptest::prelude::*;

const GOOD: &str = "x_m,y_m,radius_m,gap_m\n0,0,2.5,0.4\n4,0,2.5,0.4\n8.25,-0.5,1.75,\n\"12\",0,3,0\n";

/// What goes where a piece was.
const PIECES: [&str; 20] = [
    "nan",
    "-inf",
    "1e999",
    "-1",
    "0",
    "12,5",
    "\"12,5\"",
    "\"",
    "\n",
    ",",
    ";",
    "\t",
    "\r",
    "x_m",
    "1e308",
    "\u{202E}",
    "ñ",
    "=1+1",
    "#",
    "9999999999999999999999",
];

proptest! {
    #![proptest_config(ProptestConfig { cases: 10_000, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn a_changed_table_is_read_or_refused_with_places_in_it(
        changes in prop::collection::vec((0..200_usize, 0..12_usize, 0..PIECES.len()), 1..5),
    ) {
        let mut chars: Vec<char> = GOOD.chars().collect();
        for (from, cut, piece) in changes {
            let from = from % (chars.len() + 1);
            let to = (from + cut).min(chars.len());
            chars.splice(from..to, PIECES[piece].chars());
        }
        let text: String = chars.into_iter().collect();
        match super::read(&text) {
            Ok(rings) => {
                let area = super::ring_area(&rings);
                prop_assert!(area.net_m2.is_finite() && area.net_m2 <= area.union_m2);
            }
            Err(complaints) => {
                prop_assert!(!complaints.is_empty());
                for spot in complaints.iter().filter_map(|complaint| complaint.spot.as_ref()) {
                    prop_assert!(spot.line >= 1 && spot.line <= text.lines().count() + 1);
                }
            }
        }
    }
}

#[test]
fn the_good_table_is_read() {
    let rings = super::read(GOOD).unwrap();
    assert_eq!(rings.len(), 4);
    assert_eq!(rings.iter().filter(|ring| ring.gap().is_some()).count(), 2);
}

#[test]
fn columns_stand_in_any_order_and_lines_end_in_any_way() {
    let rings = super::read("\r\nGAP_M, radius_m ,Y_m,x_m\r\n0.4,2.5,0,4\r\n\r\n,2.5,0,8\r\n").unwrap();
    assert_eq!(rings.len(), 2);
    assert_eq!(rings[0].drip().centre_m().map(f64::to_bits), [4.0, 0.0].map(f64::to_bits));
}
