//! Files about places: each format read, each fault told, and no bytes that bring the readers down.
#![expect(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

use std::path::Path;

use kerfbook_ledger::exchange::tape::{Sheet, Taped};
use kerfbook_ledger::exchange::{
    Drawn, ExchangeError, Feature, Format, Polygon, Shape, Track, TrackPoint, Wrong, read,
};

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

const SHEET: &str = "name,area_m2,wkt,soil\r\n\"bed, long\",12.5,\"POLYGON ((0 0, 0.001 0, 0.001 0.001))\",loam\r\n'=pot,0.1,,\r\n";
const OFFSETS: &str = "along_ft,offset_ft\n0,3.15\n10,4.3\n20,8.2\n";
const TRAVERSE: &str = "bearing,length_ft\nS 68 05 35 W,472.68\nN 12 E,300\n";

fn features(text: &str) -> Vec<Feature> {
    match read(text) {
        Ok(Drawn::Places(features)) => features,
        other => panic!("{other:?}"),
    }
}

fn polygons(text: &str) -> Vec<Polygon> {
    features(text)
        .into_iter()
        .flat_map(|feature| match feature.shape {
            Shape::Polygons(polygons) => polygons,
            Shape::Unknown => Vec::new(),
            Shape::Track(_) => panic!("a track"),
        })
        .collect()
}

fn track(text: &str) -> Track {
    match features(text).remove(0).shape {
        Shape::Track(track) => track,
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
    let track = track(GPX);
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
    let sheet = features(SHEET);
    assert_eq!(sheet[0].name.as_deref(), Some("bed, long"));
    assert_eq!((sheet[0].line, sheet[1].line, sheet[1].name.as_deref()), (2, 3, Some("=pot")));
    assert_eq!((sheet[1].figure("area_m2"), &sheet[1].shape), (Some("0.1"), &Shape::Unknown));
    let Ok(Drawn::Tape(sheet)) = read("bearing,length_ft\nS 68 05 35 W,472.68\n") else { panic!("no sheet") };
    assert_eq!(
        sheet,
        Sheet { feet: true, taped: Taped::Traverse(vec![("S 68 05 35 W".to_owned(), 472.68)]) }
    );
}

#[test]
fn recorded_walks_are_read() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../fixtures/science/geometry/walks");
    for (name, expected) in [("W1", 331), ("W2", 183), ("W3", 624), ("W4", 437)] {
        let text = std::fs::read_to_string(folder.join(format!("{name}.gpx"))).unwrap();
        // Each lap may be a track of its own.
        let points: Vec<TrackPoint> = features(&text)
            .into_iter()
            .flat_map(|feature| match feature.shape {
                Shape::Track(track) => track.segments.concat(),
                other => panic!("{other:?}"),
            })
            .collect();
        assert_eq!(points.len(), expected);
        assert!(points.iter().all(|point| point.accuracy_m.is_some()));
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
    assert!(matches!(wrong(&GEOJSON.replace("0.0004", "1e999")), (4, Wrong::NotANumber { .. })));
    assert!(matches!(wrong(&GEOJSON.replace("[0.0004,0.0002]", "[null,1]")), (4, Wrong::NotANumber { .. })));
    assert!(matches!(
        wrong(&GEOJSON.replace("[0.0004,0.0002]", "[0,0004,0,0002]")),
        (4, Wrong::Broken { .. })
    ));
    assert!(matches!(
        wrong(&GEOJSON.replace("[0.0004,0.0002]", "[8,4,9,2]")),
        (4, Wrong::DecimalComma { .. })
    ));
    assert!(matches!(
        wrong(&GEOJSON.replace("\"type\":\"Polygon\"", "\"type\":7")),
        (3, Wrong::Broken { .. })
    ));
    assert!(matches!(wrong(&SHEET.replace("0.001))", "x))")), (2, Wrong::NotANumber { .. })));
    assert!(matches!(wrong(&SHEET.replace(",loam", "")), (2, Wrong::Fields { found: 3, expected: 4 })));
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
    for text in [GEOJSON, WKT, KML, GPX, Format::GeoJson.write(&features(GEOJSON)).trim_end()] {
        for end in (0..text.len()).filter(|end| text.is_char_boundary(*end)) {
            assert!(read(&text[..end]).is_err(), "{end} of {text}");
        }
    }
}

/// splitmix64, as elsewhere in this project.
struct Chance(u64);

impl Chance {
    fn below(&mut self, most: usize) -> usize {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let z = (self.0 ^ (self.0 >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        let z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        usize::try_from((z ^ (z >> 31)) % most as u64).unwrap()
    }

    fn degrees(&mut self, around: f64) -> f64 {
        // Whole 1e-9 degrees, which is what is written.
        let figure = around * 1e9 + f64::from(i32::try_from(self.below(4_000_000)).unwrap());
        figure.round() / 1e9
    }
}

const NAMES: [&str; 10] =
    ["bed", "=1+1", "'=x", "a \"b\", <c> & 'd'", "row 12; 9", "ñandú 🌱", "  spaced  ", "]]>", "&amp;", "-5"];

/// A place with a triangle, a hole in it, and a square beside it, wound as they are written.
fn invented(number: usize, chance: &mut Chance) -> Feature {
    let (x, y) = (chance.degrees(-70.0), chance.degrees(35.0));
    let at = |east: f64, north: f64| [((x + east) * 1e9).round() / 1e9, ((y + north) * 1e9).round() / 1e9];
    let mut feature = Feature {
        name: Some(NAMES[number % NAMES.len()].trim().to_owned()),
        figures: vec![("kind", "bed".to_owned()), ("area_m2", "12.5".to_owned())],
        ..Feature::at(0)
    };
    let drawn = vec![
        Polygon {
            outer: vec![at(0.0, 0.0), at(0.01, 0.0), at(0.0, 0.01)],
            holes: vec![vec![at(0.001, 0.001), at(0.001, 0.002), at(0.002, 0.001)]],
        },
        Polygon { outer: vec![at(1.0, 0.0), at(1.1, 0.0), at(1.1, 0.1), at(1.0, 0.1)], holes: Vec::new() },
    ];
    feature.shape = match number % 3 {
        0 => Shape::Polygons(drawn),
        1 => Shape::Polygons(drawn.into_iter().take(1).collect()),
        _ => Shape::Unknown,
    };
    feature
}

/// What is left of a ring when its closing point is taken off.
fn open(feature: &mut Feature) {
    if let Shape::Polygons(polygons) = &mut feature.shape {
        for ring in polygons
            .iter_mut()
            .flat_map(|polygon| std::iter::once(&mut polygon.outer).chain(&mut polygon.holes))
        {
            assert_eq!(ring.first(), ring.last(), "closed when written");
            ring.pop();
        }
    }
    feature.line = 0;
}

#[test]
fn what_is_written_reads_back() {
    let mut chance = Chance(11);
    let places: Vec<Feature> = (0..60).map(|number| invented(number, &mut chance)).collect();
    for (format, _) in Format::ENDINGS {
        let text = format.write(&places);
        let mut back = features(&text);
        back.iter_mut().for_each(open);
        if format == Format::Wkt {
            let shapes =
                |places: &[Feature]| places.iter().map(|place| place.shape.clone()).collect::<Vec<_>>();
            assert_eq!(shapes(&back), shapes(&places));
            continue;
        }
        assert_eq!(back, places, "{format:?}");
        assert_eq!(features(&format!("\u{FEFF}{text}")).len(), places.len());
    }
}

#[test]
fn a_walk_is_written_with_its_times_and_accuracies() {
    let point = |ms: i64, accuracy: Option<f64>, hdop: Option<f64>| TrackPoint {
        longitude: 7.000_000_1,
        latitude: -0.000_000_3,
        time_ms: Some(1_767_225_600_000 + ms),
        accuracy_m: accuracy,
        hdop,
    };
    let walk = Track {
        segments: vec![
            vec![point(0, Some(3.5), None), point(1_500, None, Some(1.25))],
            vec![point(90_000, None, None)],
        ],
    };
    let place = Feature { name: Some("bed".to_owned()), shape: Shape::Track(walk), ..Feature::at(0) };
    let mut back = features(&Format::Gpx.write(std::slice::from_ref(&place)));
    back[0].line = 0;
    assert_eq!(back, [place]);
}

#[test]
fn rings_are_wound_right_and_cut_at_the_antimeridian() {
    let clockwise = vec![[179.9, 0.0], [179.9, 0.2], [-179.9, 0.2], [-179.9, 0.0]];
    let hole = vec![[179.95, 0.05], [179.98, 0.05], [179.98, 0.1], [179.95, 0.1]];
    let place = Feature {
        shape: Shape::Polygons(vec![Polygon { outer: clockwise, holes: vec![hole] }]),
        ..Feature::at(0)
    };
    let signed = |ring: &[[f64; 2]]| -> f64 {
        ring.windows(2).map(|pair| pair[0][0] * pair[1][1] - pair[1][0] * pair[0][1]).sum()
    };
    for (format, _) in Format::ENDINGS {
        let parts = polygons(&format.write(std::slice::from_ref(&place)));
        assert_eq!(parts.len(), 2, "{format:?}");
        for part in &parts {
            assert!(signed(&part.outer) > 0.0 && part.holes.iter().all(|hole| signed(hole) < 0.0));
            let east = part.outer.iter().filter(|point| point[0] > 0.0).count();
            assert!(east == 0 || east == part.outer.len(), "{part:?}");
        }
        assert_eq!(parts.iter().map(|part| part.holes.len()).sum::<usize>(), 1);
    }
}

#[test]
fn files_changed_anyhow_bring_nothing_down() {
    let mut chance = Chance(5);
    let mut next = |below: usize| chance.below(below);
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
        "&#x0;",
        "<!--",
        "\0",
        "999999999999999999999",
        "NaN",
        "\r\n",
        "'=",
    ];
    let walk = Format::Gpx.write(&features(GPX));
    let drawn = Format::Gpx.write(&features(GEOJSON));
    for text in [GEOJSON, WKT, KML, GPX, TAPE, SHEET, OFFSETS, TRAVERSE, &walk, &drawn] {
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
            if let Ok(Drawn::Places(features)) = read(&String::from_utf8_lossy(&bytes)) {
                for feature in &features {
                    if let Shape::Polygons(polygons) = &feature.shape {
                        let all = polygons.iter().flat_map(|polygon| &polygon.outer).flatten();
                        assert!(all.into_iter().all(|at| at.is_finite()));
                    }
                }
                // Whatever was read can be written.
                for (format, _) in Format::ENDINGS {
                    assert!(!format.write(&features).is_empty());
                }
            }
        }
    }
}
