//! Files about places: each format read, each fault told, and no bytes that bring the readers down.
#![expect(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

use std::path::Path;

use kerfbook_ledger::exchange::tape::{Sheet, Taped};
use kerfbook_ledger::exchange::{Drawn, ExchangeError, Polygon, Wrong, read};

const GEOJSON: &str = r#"{"type":"FeatureCollection","features":[
 {"type":"Feature","properties":{"name":"bed"},"geometry":null},
 {"type":"Feature","properties":{},"geometry":{"type":"Polygon","coordinates":
  [[[0,0],[0.001,0],[0.001,0.001],[0,0.001],[0,0]],[[0.0002,0.0002],[0.0004,0.0002],[0.0004,0.0004],[0.0002,0.0002]]]}}]}"#;
const WKT: &str = "SRID=4326;MULTIPOLYGON Z (((0 0 5, 0.001 0 5, 0.001 0.001 5, 0 0 5), (1e-4 2e-4 0, 3e-4 2e-4 0, 3e-4 3e-4 0, 1e-4 2e-4 0)), ((1 1 1, 2 1 1, 2 2 1, 1 1 1)))";
const KML: &str = r#"<?xml version="1.0"?><kml xmlns="http://www.opengis.net/kml/2.2"><Document><Placemark><name>bed</name>
<Polygon><outerBoundaryIs><LinearRing><coordinates> 0,0,3 0.001,0,3
 0.001,0.001,3 0,0,3 </coordinates></LinearRing></outerBoundaryIs><innerBoundaryIs><LinearRing>
<coordinates>1e-4,2e-4 3e-4,2e-4 3e-4,3e-4 1e-4,2e-4</coordinates></LinearRing></innerBoundaryIs></Polygon></Placemark></Document></kml>"#;
const GPX: &str = r#"<gpx version="1.1" creator="x" xmlns="http://www.topografix.com/GPX/1/1" xmlns:a="urn:a"><metadata><time>2026-01-01T00:00:00Z</time></metadata>
<trk><trkseg><trkpt lat="1.5" lon="-2.25"><ele>7</ele><time>2026-01-01T00:00:01.5Z</time><hdop>1.1</hdop><extensions><a:hacc>3.5</a:hacc></extensions></trkpt>
<trkpt lat="1.5" lon="-2.3"><time>2026-01-01T00:00:02Z</time></trkpt></trkseg><trkseg><trkpt lat="1.6" lon="-2.3"><time>2026-01-01T00:00:09Z</time></trkpt></trkseg></trk></gpx>"#;
const TAPE: &str = "side,length_m\r\nab,10\r\nbc,10\r\ncd,10\r\nda,10\r\nac,14.14\r\n";

fn polygons(text: &str) -> Vec<Polygon> {
    match read(text) {
        Ok(Drawn::Polygons(polygons)) => polygons,
        other => panic!("{other:?}"),
    }
}

fn wrong(text: &str) -> (usize, Wrong) {
    let ExchangeError { line, wrong } = read(text).unwrap_err();
    (line, wrong)
}

#[test]
fn every_format_is_read() {
    for text in [GEOJSON, &format!("\u{FEFF}{GEOJSON}")] {
        let polygons = polygons(text);
        assert_eq!((polygons.len(), polygons[0].outer.len(), polygons[0].holes.len()), (1, 5, 1));
    }
    let several = polygons(WKT);
    assert_eq!((several.len(), several[0].holes.len(), several[1].outer.len()), (2, 1, 4));
    let drawn = polygons(KML);
    assert_eq!((drawn.len(), drawn[0].outer.len(), drawn[0].holes[0].len()), (1, 4, 4));
    let Ok(Drawn::Track(track)) = read(GPX) else { panic!("no track") };
    assert_eq!(track.segments.iter().map(Vec::len).collect::<Vec<_>>(), [2, 1]);
    let first = track.segments[0][0];
    assert_eq!(
        (first.time_ms, first.accuracy_m, first.hdop),
        (Some(1_767_225_601_500), Some(3.5), Some(1.1))
    );
    assert_eq!(track.segments[0][1].accuracy_m, None);
    // A track without time is an outline, and so is a route.
    let route = "<gpx version='1.1'><rte><rtept lat='0' lon='0'/><rtept lat='0' lon='1'/><rtept lat='1' lon='1'/></rte></gpx>";
    assert_eq!(polygons(route)[0].outer, [[0.0, 0.0], [1.0, 0.0], [1.0, 1.0]]);
    let Ok(Drawn::Tape(sheet)) = read(TAPE) else { panic!("no sheet") };
    assert_eq!(
        sheet,
        Sheet { feet: false, taped: Taped::Quadrilateral([10.0, 10.0, 10.0, 10.0, 14.14], None) }
    );
    let Ok(Drawn::Tape(sheet)) = read("bearing,length_ft\nS 68 05 35 W,472.68\n") else { panic!("no sheet") };
    assert_eq!(
        sheet,
        Sheet { feet: true, taped: Taped::Traverse(vec![("S 68 05 35 W".to_owned(), 472.68)]) }
    );
}

#[test]
fn recorded_walks_are_read() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../fixtures/science/geometry/walks");
    for (name, points) in [("W1", 331), ("W2", 183), ("W3", 624), ("W4", 437)] {
        let text = std::fs::read_to_string(folder.join(format!("{name}.gpx"))).unwrap();
        let Ok(Drawn::Track(track)) = read(&text) else { panic!("{name}") };
        assert_eq!(track.segments.iter().map(Vec::len).sum::<usize>(), points);
        assert!(track.segments.iter().flatten().all(|point| point.accuracy_m.is_some()));
    }
}

#[test]
fn what_is_wrong_is_told_with_its_line() {
    assert!(matches!(wrong("hello"), (0, Wrong::UnknownFormat { .. })));
    assert!(matches!(wrong("<html></html>"), (0, Wrong::UnknownFormat { .. })));
    assert!(matches!(wrong("<!DOCTYPE gpx [<!ENTITY a \"b\">]>\n<gpx/>"), (1, Wrong::Doctype)));
    assert!(matches!(wrong("<gpx version='1.1'></gpx>"), (0, Wrong::NoPlace)));
    assert!(matches!(wrong(r#"{"type":"FeatureCollection","features":[]}"#), (0, Wrong::NoPlace)));
    let utm = GEOJSON.replacen('{', r#"{"crs":{"properties":{"name":"urn:ogc:def:crs:EPSG::32618"}},"#, 1);
    assert!(matches!(wrong(&utm), (0, Wrong::OtherSystem { .. })));
    assert!(matches!(wrong(&GEOJSON.replace("0.0004", "1e999")), (4, Wrong::Broken { .. })));
    assert!(matches!(wrong(&GEOJSON.replace("[0.0004,0.0002]", "[null,1]")), (0, Wrong::NotANumber { .. })));
    assert!(matches!(
        wrong(&format!("{}{}", "[".repeat(40), "]".repeat(40))),
        (1, Wrong::TooDeep { most: 32 })
    ));
    assert!(matches!(wrong("POLYGON ((0 0, 1 0, 1,5 1))"), (1, Wrong::Broken { .. })));
    assert!(matches!(wrong("POLYGON ((0 0, 1 0, nan 1))"), (1, Wrong::NotANumber { .. })));
    assert!(matches!(wrong("POLYGON EMPTY"), (0, Wrong::NoPlace)));
    assert!(matches!(wrong("SRID=32618;POLYGON ((0 0, 1 0, 1 1))"), (1, Wrong::OtherSystem { .. })));
    assert!(matches!(wrong(&KML.replace("0.001,0,3", "0,001,0,0,3")), (2, Wrong::DecimalComma { .. })));
    assert!(matches!(wrong(&GPX.replace("-2.25", "-2,25")), (2, Wrong::DecimalComma { .. })));
    assert!(matches!(
        wrong(&GPX.replace("2026-01-01T00:00:02Z", "yesterday")),
        (3, Wrong::NotANumber { .. })
    ));
    assert!(matches!(
        wrong("side,length_m\na,3\nb,4\nc,5,5\n"),
        (4, Wrong::Fields { found: 3, expected: 2 })
    ));
    assert!(matches!(wrong("side,length_m\r\na,3,5\r\n"), (2, Wrong::Fields { .. })));
    assert!(matches!(wrong("along_m,offset_ft\n0,1\n"), (1, Wrong::MixedUnits)));
    assert!(matches!(wrong("side;length_m\na;3\n"), (1, Wrong::Columns { .. })));
    assert!(matches!(wrong("side,length_m\na,3\nb,4\nd,5\n"), (4, Wrong::UnknownSide { .. })));
    assert!(matches!(wrong("side,length_m\na,\"3,5\"\nb,4\nc,5\n"), (2, Wrong::DecimalComma { .. })));
    let long = format!("POLYGON (({}))", vec!["0 0"; 10_001].join(","));
    assert!(matches!(wrong(&long), (1, Wrong::TooManyPoints { most: 10_000 })));
    let deep = format!("<kml>{}", "<a>".repeat(100));
    assert!(matches!(wrong(&deep), (1, Wrong::TooDeep { most: 64 })));
}

#[test]
fn a_file_cut_off_anywhere_is_told_or_whole() {
    for text in [GEOJSON, WKT, KML, GPX] {
        for end in (0..text.len()).filter(|end| text.is_char_boundary(*end)) {
            assert!(read(&text[..end]).is_err(), "{end} of {text}");
        }
    }
}

#[test]
fn files_changed_anyhow_bring_nothing_down() {
    // splitmix64, as elsewhere in this project.
    let mut state = 5_u64;
    let mut next = |below: usize| {
        state = state.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let z = (state ^ (state >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        let z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        usize::try_from((z ^ (z >> 31)) % below as u64).unwrap()
    };
    let pieces = [
        "\"",
        "<",
        ">",
        "[",
        "]",
        "{",
        "(",
        ")",
        ",",
        ";",
        "1e308",
        "-",
        "\u{FEFF}",
        "é",
        "&amp;",
        "<!--",
        "\0",
        "999999999999999999999",
    ];
    for text in [GEOJSON, WKT, KML, GPX, TAPE] {
        for _ in 0..10_000 {
            let mut bytes = text.as_bytes().to_vec();
            for _ in 0..=next(3) {
                let (from, piece) = (next(bytes.len()), pieces[next(pieces.len())]);
                let to = (from + next(6)).min(bytes.len());
                match next(3) {
                    0 => bytes.splice(from..to, piece.bytes()).for_each(drop),
                    1 => bytes[from] = u8::try_from(next(256)).unwrap(),
                    _ => bytes.truncate(from.max(1)),
                }
            }
            if let Ok(Drawn::Polygons(polygons)) = read(&String::from_utf8_lossy(&bytes)) {
                assert!(
                    polygons.iter().flat_map(|polygon| &polygon.outer).flatten().all(|at| at.is_finite())
                );
            }
        }
    }
}
