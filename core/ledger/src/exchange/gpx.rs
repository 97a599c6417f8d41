//! GPX 1.1: tracks with time and accuracy, or a drawn outline where there is no time. Accuracy in metres has no
//! standard element: it is taken from any extension that is named for it.

use quick_xml::events::BytesStart;

use super::xml::{Step, Walk};
use super::{Count, Drawn, ExchangeError, Polygon, Ring, Track, TrackPoint, Wrong, number};

/// Largest file, MB.
const MOST_MB: usize = 256;
/// Local names of extensions that hold a horizontal accuracy in metres.
const ACCURACY: [&str; 5] = ["hacc", "hAcc", "accuracy", "horizontalAccuracy", "horizontal_accuracy"];

/// Reads the tracks of a document as one, cut between segments; a track without times, or a route, is an outline.
///
/// # Errors
/// Not well formed, a DOCTYPE, a coordinate or time that is none, no track, over a limit.
pub fn read(text: &str) -> Result<Drawn, ExchangeError> {
    ExchangeError::within(text, MOST_MB)?;
    let mut walk = Walk::new(text);
    let mut count = Count::default();
    let mut track = Track::default();
    // How deep the point lies that is open, and which of its figures comes next.
    let mut point: Option<usize> = None;
    let mut wanted: Option<Field> = None;
    loop {
        match walk.step()? {
            Step::Open(start) => {
                wanted = None;
                match start.local_name().as_ref() {
                    "trkseg" | "rte" => track.segments.push(Vec::new()),
                    "trkpt" | "rtept" => {
                        count.one(text, walk.position())?;
                        let place = place(&walk, &start)?;
                        match track.segments.last_mut() {
                            Some(segment) => segment.push(place),
                            None => track.segments.push(vec![place]),
                        }
                        point = Some(walk.depth());
                    }
                    "time" => wanted = Some(Field::Time),
                    "hdop" => wanted = Some(Field::Hdop),
                    name if ACCURACY.contains(&name) => wanted = Some(Field::Accuracy),
                    _ => {}
                }
            }
            Step::Text(content) => {
                let last = track.segments.last_mut().and_then(|segment| segment.last_mut());
                if let (Some(_), Some(field), Some(at)) = (point, wanted.take(), last) {
                    let figure = || number::read(&content);
                    let read = match field {
                        Field::Time => time(&content).map(|time| at.time_ms = Some(time)),
                        Field::Hdop => figure().map(|hdop| at.hdop = Some(hdop)),
                        Field::Accuracy => figure().map(|accuracy| at.accuracy_m = Some(accuracy)),
                    };
                    read.map_err(|wrong| walk.fault(wrong))?;
                }
            }
            Step::Close => {
                wanted = None;
                if point.is_some_and(|depth| walk.depth() < depth) {
                    point = None;
                }
            }
            Step::End => break,
        }
    }
    track.segments.retain(|segment| !segment.is_empty());
    if track.segments.is_empty() {
        return Err(ExchangeError::whole(Wrong::NoPlace));
    }
    let timed = track.segments.iter().flatten().all(|point| point.time_ms.is_some());
    Ok(if timed { Drawn::Track(track) } else { Drawn::Polygons(outlines(&track)) })
}

enum Field {
    Time,
    Hdop,
    Accuracy,
}

fn place(walk: &Walk<'_>, start: &BytesStart<'_>) -> Result<TrackPoint, ExchangeError> {
    let mut point = TrackPoint { longitude: f64::NAN, latitude: f64::NAN, ..TrackPoint::default() };
    for attribute in start.attributes() {
        let attribute = attribute.map_err(|error| walk.fault(Wrong::Broken { detail: error.to_string() }))?;
        let figure = || number::read(&attribute.value).map_err(|wrong| walk.fault(wrong));
        match attribute.key.as_ref() {
            "lat" => point.latitude = figure()?,
            "lon" => point.longitude = figure()?,
            _ => {}
        }
    }
    if point.latitude.is_nan() || point.longitude.is_nan() {
        return Err(walk.fault(Wrong::NotANumber { text: "lat, lon".to_owned() }));
    }
    Ok(point)
}

fn time(text: &str) -> Result<i64, Wrong> {
    chrono::DateTime::parse_from_rfc3339(text.trim())
        .map(|time| time.timestamp_millis())
        .map_err(|_| Wrong::NotANumber { text: text.trim().chars().take(40).collect() })
}

fn outlines(track: &Track) -> Vec<Polygon> {
    let ring = |segment: &Vec<TrackPoint>| -> Ring {
        segment.iter().map(|point| [point.longitude, point.latitude]).collect()
    };
    track.segments.iter().map(|segment| Polygon { outer: ring(segment), holes: Vec::new() }).collect()
}
