//! Files made to hurt: refused or read in bounded time and memory. One test, for memory is told of a whole process.
#![cfg(target_os = "linux")]
#![expect(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

use std::time::{Duration, Instant};

use kerfbook_ledger::exchange::{Wrong, read};

/// Most memory of this process so far, bytes.
fn peak() -> usize {
    let status = std::fs::read_to_string("/proc/self/status").unwrap();
    let line = status.lines().find(|line| line.starts_with("VmHWM:")).unwrap();
    line.split_ascii_whitespace().nth(1).unwrap().parse::<usize>().unwrap() * 1024
}

/// A text of about so many MB: what repeats, between a beginning and an end.
fn big(begin: &str, again: &str, end: &str, mb: usize) -> String {
    let mut text = String::with_capacity(mb * 1024 * 1024 + end.len());
    text.push_str(begin);
    while text.len() + again.len() + end.len() < mb * 1024 * 1024 {
        text.push_str(again);
    }
    text.push_str(end);
    text
}

/// Makes a file when its turn comes, so that one lies in memory at a time.
type Make = Box<dyn Fn() -> String>;

#[test]
#[expect(clippy::disallowed_methods, reason = "the test times the readers, which have no clock")]
fn hostile_files_are_bounded() {
    const POLYGON: &str = r#"{"type":"Polygon","coordinates":["#;
    const KML: &str = "<kml><Placemark><Polygon><outerBoundaryIs><LinearRing><coordinates>";
    const KML_END: &str = "</coordinates></LinearRing></outerBoundaryIs></Polygon></Placemark></kml>";
    let million = |point: &str, between: &str| vec![point; 1_000_000].join(between);
    let files: Vec<(&str, Make)> = vec![
        ("ring of a million, GeoJSON", Box::new(move || format!("{POLYGON}[{}]]}}", million("[1,2]", ",")))),
        ("ring of a million, KML", Box::new(move || format!("{KML}{}{KML_END}", million("1,2", " ")))),
        ("ring of a million, WKT", Box::new(move || format!("POLYGON (({}))", million("1 2", ",")))),
        (
            "ring of a million, GPX",
            Box::new(move || {
                format!("<gpx><trk><trkseg>{}</trkseg></trk></gpx>", million("<trkpt lat='1' lon='2'/>", ""))
            }),
        ),
        ("rings of nothing", Box::new(|| big(POLYGON, "[],", "[]]}", 19))),
        ("numbers", Box::new(|| big(POLYGON, "1,", "1]}", 19))),
        ("objects", Box::new(|| big(r#"{"type":"FeatureCollection","features":["#, "{},", "{}]}", 19))),
        (
            "properties",
            Box::new(|| big(r#"{"type":"Feature","properties":{"#, r#""name":1,"#, r#""a":1}}"#, 19)),
        ),
        ("a long name", Box::new(|| big(r#"{"type":"Feature","properties":{"name":""#, "a", r#""}}"#, 19))),
        (
            "collections",
            Box::new(|| big(r#"{"type":"GeometryCollection","geometries":["#, "{},", "{}]}", 19)),
        ),
        ("too large", Box::new(|| big(POLYGON, " ", "]}", 21))),
        ("placemarks", Box::new(|| big("<kml>", "<Placemark></Placemark>", "</kml>", 49))),
        ("names", Box::new(|| big("<kml><Placemark>", "<name>a</name>", "</Placemark></kml>", 49))),
        ("attributes", Box::new(|| big("<kml><Data ", "name='a' ", "></Data></kml>", 49))),
        ("entities", Box::new(|| big("<kml><Placemark><name>", "&amp;", "</name></Placemark></kml>", 49))),
        ("tracks", Box::new(|| big("<gpx>", "<trk/>", "</gpx>", 64))),
        ("points without a track", Box::new(|| big("<gpx>", "<trkpt lat='1' lon='1'/>", "</gpx>", 64))),
        ("empty outlines", Box::new(|| big("", "POLYGON EMPTY;", "", 19))),
        ("rows", Box::new(|| big("name,area_m2\n", "a,1\n", "", 49))),
        ("one row", Box::new(|| big("name,area_m2\n", "a,", "", 49))),
        ("one cell", Box::new(|| big("name,area_m2\n\"", "a\"\"", "\",1\n", 49))),
        ("taped rows", Box::new(|| big("along_m,offset_m\n", "1,1\n", "", 49))),
    ];
    let before = peak();
    for (name, make) in files {
        let text = make();
        let start = Instant::now();
        let outcome = read(&text);
        let took = start.elapsed();
        assert!(took < Duration::from_secs(20), "{name}: {took:?}");
        if name.starts_with("ring of") {
            assert!(
                matches!(outcome, Err(ref error) if error.wrong == Wrong::TooManyPoints { most: 10_000 }),
                "{name}"
            );
        }
        // The file itself, and a few times its size.
        let grown = peak().saturating_sub(before);
        assert!(grown < 500 * 1024 * 1024, "{name}: {} MB", grown >> 20);
    }
}
