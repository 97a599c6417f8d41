//! Places to files and back, through the command.
#![allow(missing_docs, clippy::unwrap_used, reason = "a test that cannot go on has failed")]

mod desk;

use std::path::Path;

use desk::{Desk, Done};
use serde_json::Value;

const BEDS: &str = r#"{"type":"FeatureCollection","features":[
{"type":"Feature","properties":{"name":"long bed","kind":"bed"},"geometry":{"type":"Polygon","coordinates":[[[-3.0001,40.0001],[-3.0001,40.0011],[-3.0,40.0011],[-3.0,40.0001],[-3.0001,40.0001]],[[-3.00008,40.0003],[-3.00008,40.0005],[-3.00004,40.0005],[-3.00008,40.0003]]]}},
{"type":"Feature","properties":{"name":"on the line"},"geometry":{"type":"MultiPolygon","coordinates":[[[[179.9999,10],[-179.9998,10],[-179.9998,10.0002],[179.9999,10.0002],[179.9999,10]]],[[[179.99,10],[179.9901,10],[179.9901,10.0001],[179.99,10]]]]}},
{"type":"Feature","properties":{"name":"a tree"},"geometry":{"type":"Point","coordinates":[1,2]}}
]}"#;
const HOLDING: &str = "[holding]\nname = \"Invented holding\"\nopened = 2026-03-01\n";
const BOOK: &str = "[holding]\nname = \"Invented holding\"\nopened = 2026-03-01\n\n[[place]]\nname = \"=typed\"\narea_m2 = 12.5\n\n\
                    [[place]]\nname = \"pots, red\"\nkind = \"container\"\nvolume_l = 45\nrooting_depth_cm = 30\nplants = 12\narea_m2 = 3\n";
const TAPE: &str = "east_m,north_m\n0,0\n10,0.5\n9.5,4\n0,4\n";

fn write(desk: &Desk, name: &str, text: &str) {
    std::fs::write(desk.folder().join(name), text).unwrap();
}

fn ok(desk: &Desk, arguments: &[&str]) -> Value {
    let mut all = arguments.to_vec();
    all.push("--json");
    let done = desk.run(&all);
    assert_eq!(done.code, 0, "{arguments:?}: {}{}", done.out, done.err);
    serde_json::from_str(&done.out).unwrap()
}

fn refused(desk: &Desk, arguments: &[&str]) -> Done {
    let done = desk.run(arguments);
    assert_eq!(done.code, 2, "{arguments:?}: {}{}", done.out, done.err);
    done
}

/// A book with places typed, drawn, walked and taped.
fn filled() -> Desk {
    let desk = Desk::new();
    write(&desk, "book.toml", BOOK);
    write(&desk, "beds.geojson", BEDS);
    write(&desk, "bed.csv", TAPE);
    ok(&desk, &["book", "enter", "book", "book.toml"]);
    let drawn =
        ok(&desk, &["book", "import", "book", "beds.geojson", "--kind", "plot", "--on", "2026-04-01"]);
    assert_eq!((drawn["passed_over"].clone(), drawn["places"][1]["kind"].clone()), (1.into(), "plot".into()));
    assert_eq!(drawn["places"][0]["measured"], "file");
    let walk = Path::new(env!("CARGO_MANIFEST_DIR")).join("../fixtures/science/geometry/walks/W1.gpx");
    let area = ok(&desk, &["area", walk.to_str().unwrap()]);
    let walked = ok(&desk, &["book", "import", "book", walk.to_str().unwrap(), "--name", "walked"]);
    let walked = &walked["places"][0];
    assert_eq!((&walked["area_m2"], &walked["measured"]), (&area["area_m2"], &"walked".into()));
    let half = walked["half_width_95_m2"].as_f64().unwrap() - area["half_width_95_m2"].as_f64().unwrap();
    assert!(half.abs() < 1e-9);
    let taped = ok(&desk, &["book", "import", "book", "bed.csv", "--name", "taped bed"]);
    assert_eq!(
        (&taped["places"][0]["measured"], &taped["places"][0]["area_m2"]),
        (&"taped".into(), &36.625.into())
    );
    desk
}

/// Name, kind, measured, area and its uncertainty of every place, by name.
fn sizes(desk: &Desk, book: &str) -> Vec<[String; 7]> {
    let out = format!("{book}-sizes.csv");
    ok(desk, &["book", "export", book, &out]);
    let mut reader = csv::Reader::from_path(desk.folder().join(out)).unwrap();
    let mut rows: Vec<[String; 7]> = reader
        .records()
        .map(|row| {
            let row = row.unwrap();
            // All but the outline's own figures: a walk's outline is not the walk.
            [0, 1, 2, 3, 4, 6, 8].map(|column| row.get(column).unwrap().to_owned())
        })
        .collect();
    rows.sort();
    rows
}

#[test]
fn places_come_back_as_large_as_they_went() {
    let desk = filled();
    write(&desk, "new.toml", HOLDING);
    let before = sizes(&desk, "book");
    assert_eq!(before.len(), 6);
    assert_eq!(before[0][..2], ["'=typed", "bed"]);
    for format in ["geojson", "json", "gpx", "kml", "csv"] {
        let (out, book) = (format!("places.{format}"), format!("book-{format}"));
        let exported = ok(&desk, &["book", "export", "book", &out]);
        assert_eq!((&exported["places"], &exported["without_outline"]), (&6.into(), &3.into()));
        ok(&desk, &["book", "enter", &book, "new.toml"]);
        let imported = ok(&desk, &["book", "import", &book, &out]);
        assert_eq!(imported["places"].as_array().unwrap().len(), 6, "{format}");
        assert_eq!(sizes(&desk, &book), before, "{format}");
    }
    // Well-known text holds shapes alone.
    ok(&desk, &["book", "export", "book", "places.wkt"]);
    ok(&desk, &["book", "enter", "book-wkt", "new.toml"]);
    let shapes = ok(&desk, &["book", "import", "book-wkt", "places.wkt", "--name", "shape"]);
    let drawn = ok(&desk, &["book", "import", "book", "beds.geojson", "--anew", "--try"]);
    assert_eq!(shapes["places"][0]["name"], "shape 1");
    for index in 0..2 {
        let off = shapes["places"][index]["area_m2"].as_f64().unwrap()
            - drawn["places"][index]["area_m2"].as_f64().unwrap();
        // An outline is kept in whole millimetres; these are about 230 m round.
        assert!(off.abs() < 0.0005 * 230.0, "{off}");
    }
}

#[test]
fn a_walk_keeps_its_fixes() {
    let desk = filled();
    ok(&desk, &["book", "export", "book", "places.gpx"]);
    let text = std::fs::read_to_string(desk.folder().join("places.gpx")).unwrap();
    assert_eq!(text.matches("<time>").count(), 331);
    assert_eq!(text.matches("hacc").count(), 2 * 331);
    let verified = ok(&desk, &["book", "verify", "book"]);
    assert_eq!(verified["verified"], true);
}

#[test]
fn an_outline_changed_elsewhere_is_measured_anew() {
    let desk = filled();
    ok(&desk, &["book", "export", "book", "places.geojson"]);
    let path = desk.folder().join("places.geojson");
    let text = std::fs::read_to_string(&path).unwrap();
    // One corner of the long bed is drawn further out.
    let changed = text.replacen("[-3.000000003,40.001100003]", "[-2.9999,40.0011]", 1);
    assert_ne!(changed, text);
    std::fs::write(&path, changed).unwrap();
    let again = ok(&desk, &["book", "import", "book", "places.geojson", "--anew", "--try"]);
    let before = sizes(&desk, "book");
    let long = &again["places"].as_array().unwrap().iter().find(|place| place["name"] == "long bed").unwrap();
    let was: f64 = before.iter().find(|row| row[0] == "long bed").unwrap()[3].parse().unwrap();
    let area = long["area_m2"].as_f64().unwrap();
    assert!(area > was * 1.2 && long["measured"] == "file", "{area} {was}");
    assert_eq!(again["written"], false);
}

#[test]
fn all_or_nothing_and_every_fault_with_its_line() {
    let desk = filled();
    let before = sizes(&desk, "book");
    write(
        &desk,
        "bad.geojson",
        r#"{"type":"FeatureCollection","features":[
{"type":"Feature","properties":{"name":"good"},"geometry":{"type":"Polygon","coordinates":[[[0,0],[0.001,0],[0.001,0.001],[0,0]]]}},
{"type":"Feature","properties":{"name":"flat"},"geometry":{"type":"Polygon","coordinates":[[[0,0],[0.001,0],[0.002,0],[0,0]]]}},
{"type":"Feature","properties":{"name":"swapped"},"geometry":{"type":"Polygon","coordinates":[[[0,100],[1,100],[1,101],[0,100]]]}},
{"type":"Feature","properties":{"name":"bow"},"geometry":{"type":"Polygon","coordinates":[[[0,0],[0.001,0.001],[0.001,0],[0,0.001],[0,0]]]}},
{"type":"Feature","properties":{},"geometry":{"type":"Polygon","coordinates":[[[0,0],[0.001,0],[0.001,0.001],[0,0]]]}},
{"type":"Feature","properties":{"name":"good"},"geometry":{"type":"Polygon","coordinates":[[[0,0],[0.001,0],[0.001,0.001],[0,0]]]}},
{"type":"Feature","properties":{"name":"hill","kind":"hill"},"geometry":{"type":"Polygon","coordinates":[[[0,0],[0.001,0],[0.001,0.001],[0,0]]]}}
]}"#,
    );
    let done = refused(&desk, &["book", "import", "book", "bad.geojson"]);
    for (line, what) in [
        (3, "flat: outline 1 encloses nothing"),
        (
            4,
            "swapped: outline 1, point 1: latitude 100 is beyond 90 degrees. Latitude and longitude seem to be swapped",
        ),
        (5, "bow: the outline crosses itself"),
        (6, "Place 5 of the file: this place has no name"),
        (7, "good: another place of this file has the same name"),
        (8, "hill: hill is no kind of place"),
    ] {
        assert!(done.err.contains(&format!("bad.geojson:{line}:1: {what}")), "{line} {what}\n{}", done.err);
    }
    assert!(done.err.contains("--repair") && done.err.contains("--name"));
    refused(&desk, &["book", "import", "book", "bad.geojson", "--try", "--language", "es"]);
    let there = refused(&desk, &["book", "import", "book", "beds.geojson"]);
    assert!(
        there.err.contains("beds.geojson:2:1: long bed: the book has a place of this name"),
        "{}",
        there.err
    );
    assert!(there.err.contains("--anew"));
    assert_eq!(sizes(&desk, "book"), before);
}

#[test]
fn a_crossing_outline_is_taken_or_written_repaired() {
    let desk = filled();
    write(&desk, "bow.wkt", "POLYGON ((0 0, 0.001 0.001, 0.001 0, 0 0.001, 0 0))");
    let area = ok(&desk, &["area", "bow.wkt", "--repair", "mended.geojson"]);
    assert_eq!(area["advice"][0]["id"], "area-crosses");
    let mended = ok(&desk, &["area", "mended.geojson"]);
    let taken = ok(&desk, &["book", "import", "book", "bow.wkt", "--name", "bow", "--repair"]);
    let (mended, taken) =
        (mended["area_m2"].as_f64().unwrap(), taken["places"][0]["area_m2"].as_f64().unwrap());
    // Two triangles, each a quarter of a square of about 110.6 by 111.3 m.
    assert!((mended - taken).abs() < 0.01 && (6_100.0..6_200.0).contains(&taken), "{mended} {taken}");
}

#[test]
fn a_place_measured_anew_keeps_its_name_and_past() {
    let desk = filled();
    write(&desk, "typed.csv", "name,area_m2,area_sd_m2\r\n'=typed,14,0.5\r\n");
    let again = ok(&desk, &["book", "import", "book", "typed.csv", "--anew", "--on", "2026-06-01"]);
    assert_eq!(again["entries"][0]["kind"], "PlaceReoutlined");
    let sizes = sizes(&desk, "book");
    assert_eq!(sizes[0], ["'=typed", "bed", "typed", "14", "0.5", "", ""]);
    assert_eq!(sizes.len(), 6);
}

#[test]
fn entries_are_a_sheet_of_which_no_cell_is_a_formula() {
    let desk = filled();
    let done = ok(&desk, &["book", "export", "book", "entries.csv", "--entries"]);
    let text = std::fs::read(desk.folder().join("entries.csv")).unwrap();
    assert!(text.ends_with(b"\r\n"));
    let mut reader = csv::Reader::from_reader(text.as_slice());
    let rows: Vec<csv::StringRecord> = reader.records().map(Result::unwrap).collect();
    assert_eq!(rows.len(), usize::try_from(done["entries"].as_u64().unwrap()).unwrap());
    assert!(rows.iter().flatten().all(|cell| !cell.starts_with(['=', '+', '-', '@', '\t', '\r'])));
    assert!(rows.iter().any(|row| &row[3] == "PlaceOutlined" && row[4].contains("=typed")));
    refused(&desk, &["book", "export", "book", "entries.gpx", "--entries"]);
    refused(&desk, &["book", "export", "book", "places.shp"]);
    assert!(!desk.folder().join("places.shp").exists());
}

#[test]
fn a_book_that_is_not_there_or_a_file_that_is_none() {
    let desk = filled();
    refused(&desk, &["book", "export", "nothing", "places.kml"]);
    write(&desk, "doctype.kml", "<?xml version=\"1.0\"?>\n<!DOCTYPE kml [<!ENTITY a \"b\">]>\n<kml/>");
    let done = refused(&desk, &["book", "import", "book", "doctype.kml"]);
    assert!(done.err.contains("doctype.kml:2:1: a DOCTYPE is not read"), "{}", done.err);
    write(&desk, "cut.geojson", &BEDS[..BEDS.len() / 2]);
    refused(&desk, &["book", "import", "book", "cut.geojson"]);
    write(&desk, "points.kml", "<kml><Placemark><name>a</name><Point/></Placemark></kml>");
    refused(&desk, &["book", "import", "book", "points.kml"]);
}
