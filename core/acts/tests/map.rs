//! Where places lie and what lies on them: what a map shows.
#![allow(clippy::unwrap_used, reason = "a test may stop where it stands")]

mod holding;

use holding::{Kept, date};
use kerfbook_acts::map::map;
use kerfbook_acts::outline_place::{Shape, outline_with};
use kerfbook_acts::scenario::{Amount, Place, PlaceKind, Way};
use kerfbook_ledger::kind::{Measured, PlaceKind as EntryKind};
use kerfbook_ledger::{Anchor, EntryId, Outline};
use kerfbook_science::units::Area;

const HERE: Anchor = Anchor { latitude_e9: 45_000_000_000, longitude_e9: 8_000_000_000 };

fn place(kept: &mut Kept, kind: PlaceKind, m2: f64, count: Option<u32>, shape: Shape) -> EntryId {
    let place = Place { kind, area: Area::from_m2(m2), area_sd: None, rooting_depth: None, container: None };
    outline_with(&mut kept.book, "Somewhere", &place, count, shape, kept.now).unwrap()
}

fn taped(anchor: Option<Anchor>, outline: &[[i32; 2]]) -> Shape {
    Shape { measured: Measured::Taped, anchor, outline: Outline(outline.to_vec()) }
}

const BED: [[i32; 2]; 4] = [[0, 0], [1_200, 0], [1_200, 10_000], [0, 10_000]];

#[test]
fn anchored_places_lie_to_each_other_as_on_the_ground() {
    let mut kept = Kept::new();
    let first = place(&mut kept, PlaceKind::Bed, 12.0, None, taped(Some(HERE), &BED));
    // A tenth of a second of latitude further north: 3.087 m there.
    let north = Anchor { latitude_e9: HERE.latitude_e9 + 27_778, ..HERE };
    let second = place(&mut kept, PlaceKind::Bed, 12.0, None, taped(Some(north), &BED));
    let alone = place(&mut kept, PlaceKind::Bed, 12.0, None, taped(None, &BED));
    let sized = kept.place("A bed of which only the size is known", EntryKind::Bed, 12.0);
    let found = map(&kept.book, kept.now.date).unwrap();
    let ids = |places: &[kerfbook_acts::map::OnMap]| places.iter().map(|one| one.place).collect::<Vec<_>>();
    assert_eq!((ids(&found.joined), ids(&found.apart)), (vec![first, second], vec![alone]));
    assert_eq!(found.unmapped, [sized]);
    let [one, other] = [&found.joined[0].outline, &found.joined[1].outline];
    assert!((one[2].x - 1.2).abs() < 1e-6 && (one[2].y - 10.0).abs() < 1e-6);
    assert!((other[0].y - one[0].y - 3.087).abs() < 0.001 && (other[0].x - one[0].x).abs() < 1e-6);
    // None before the day on which they were outlined.
    let before = map(&kept.book, date(2026, 4, 14)).unwrap();
    assert!(before.joined.is_empty() && before.apart.is_empty() && before.unmapped.is_empty());
}

#[test]
fn trees_stand_along_their_row_with_rings_of_their_area() {
    let mut kept = Kept::new();
    let line = taped(None, &[[0, 0], [6_000, 8_000]]);
    place(&mut kept, PlaceKind::Rings, 20.0, Some(5), line);
    // An outline stands for its middle line, whichever way it is turned.
    let turned = [[0, 0], [8_000, 6_000], [7_400, 6_800], [-600, 800]];
    place(&mut kept, PlaceKind::Rings, 20.0, Some(4), taped(None, &turned));
    let found = map(&kept.book, kept.now.date).unwrap();
    let row = &found.apart[0].trees;
    assert_eq!(row.len(), 5);
    assert!((row[0].at.x - 0.6).abs() < 1e-9 && (row[4].at.y - 7.2).abs() < 1e-9);
    let net: f64 = row
        .iter()
        .map(|tree| core::f64::consts::PI * (tree.radius_m * tree.radius_m - tree.gap_m * tree.gap_m))
        .sum();
    assert!((net - 20.0).abs() < 1e-9);
    let across = &found.apart[1].trees;
    // Through (-0.3, 0.4), the middle of one end, along (0.8, 0.6): tree k stands at so many metres of ten.
    for (tree, part) in across.iter().zip([1.25, 3.75, 6.25, 8.75]) {
        assert!((tree.at.x - (-0.3 + 0.8 * part)).abs() < 1e-9, "{tree:?}");
        assert!((tree.at.y - (0.4 + 0.6 * part)).abs() < 1e-9, "{tree:?}");
    }
}

#[test]
fn a_map_tells_what_lies_where() {
    let mut kept = Kept::new();
    let beds: Vec<EntryId> =
        (0..3).map(|_| place(&mut kept, PlaceKind::Bed, 12.0, None, taped(None, &BED))).collect();
    let sawdust = kept.load("hardwood sawdust", 2_000.0);
    kept.put_down(beds[0], sawdust, Way::OnTop, Amount::Barrows(5.0), None);
    kept.put_down(beds[1], sawdust, Way::WorkedIn, Amount::Barrows(2.0), None);
    let found = map(&kept.book, kept.now.date).unwrap();
    let lies: Vec<_> = found.apart.iter().map(|one| (one.lies, one.depth.is_some())).collect();
    assert_eq!(lies, [(Some(Way::OnTop), true), (Some(Way::WorkedIn), false), (None, false)]);
}
