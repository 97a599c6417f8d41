//! Rows of trees as one place, and a load that goes along them, through the command.
#![allow(missing_docs, clippy::unwrap_used, reason = "a test that cannot go on has failed")]

mod desk;

use desk::Desk;
use kerfbook_ledger::{Book, Drive, TreeRun};

const ORCHARD: &str = r#"
[holding]
name = "Invented orchard"
opened = 2026-03-01

[[place]]
name = "Block 1"
first_row = 12
row_trees = [20, 20, 18]
spacing_m = 4
row_spacing_m = 5
radius_m = 1.2
gap_cm = 15
missing = ["13/4"]
dead = ["14/18"]
other_radius = ["14/1/0.8"]

[[load]]
date = 2026-04-01
name = "chips"
material = "wood waste chips, mixed"
volume_m3 = 20
treated = "no"

[[put_down]]
date = 2026-04-02
place = "Block 1"
batch = "chips"
way = "ring"
depth_mm = 50
from_tree = "12/9"
to_tree = "14/3"
"#;

fn ring_m2(radius: f64) -> f64 {
    core::f64::consts::PI * (radius * radius - 0.15 * 0.15)
}

#[test]
fn a_load_along_rows_of_trees_is_one_entry() {
    let desk = Desk::new();
    std::fs::write(desk.folder().join("orchard.toml"), ORCHARD).unwrap();
    let done = desk.run(&["book", "enter", "book", "orchard.toml"]);
    assert_eq!(done.code, 0, "{}{}", done.out, done.err);
    let book = Book::open(&desk.folder().join("book"), None).unwrap();
    let place = book.places().unwrap().remove(0);
    #[expect(clippy::cast_precision_loss, reason = "far below 2^53")]
    let m2 = |mm2: u64| mm2 as f64 / 1e6;
    // Of 58 places one is empty, one tree is dead, one has a ring of its own; no two rings meet.
    assert_eq!(place.containers, Some(56));
    assert!((m2(place.area_mm2) - (55.0 * ring_m2(1.2) + ring_m2(0.8))).abs() < 1e-5, "{}", place.area_mm2);
    let layer = &place.layers[0];
    let run = TreeRun { from_row: 12, from_tree: 9, to_row: 14, to_tree: 3, drive: Drive::Serpentine };
    assert_eq!(layer.trees, Some(run));
    // Twelve of row 12, nineteen of row 13, three of row 14, one of which has a ring of its own.
    let covered = 33.0 * ring_m2(1.2) + ring_m2(0.8);
    assert!((m2(layer.area_mm2) - covered).abs() < 1e-5, "{} {covered}", layer.area_mm2);
    assert_eq!(layer.depth_mm, Some(50));
}

#[test]
fn trees_that_are_not_there_are_told() {
    let desk = Desk::new();
    for (from, to, told) in [
        ("\"12/9\"", "\"12/21\"", "there is no tree 12/21"),
        ("\"14/3\"", "\"14/20\"", "there is no tree 14/20"),
        ("\"12/9\"", "\"row 12\"", "row 12 names no tree"),
        ("\"13/4\"", "\"15/4\"", "there is no tree 15/4"),
    ] {
        let text = ORCHARD.replacen(from, to, 1);
        assert_ne!(text, ORCHARD);
        std::fs::write(desk.folder().join("orchard.toml"), text).unwrap();
        let done = desk.run(&["book", "enter", "book", "orchard.toml"]);
        assert_eq!(done.code, 2, "{to}");
        assert!(done.err.contains(told), "{told}: {}", done.err);
    }
    assert!(!desk.folder().join("book").exists());
}
