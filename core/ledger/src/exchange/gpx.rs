//! GPX 1.1: tracks with time and accuracy, or drawn outlines where there is no time. Accuracy in metres has no standard
//! element: it is taken from any extension that is named for it. What is written keeps figures, holes and accuracy in
//! extensions of a namespace of its own.

use std::fmt::Write as _;

use quick_xml::events::BytesStart;

use super::fault::Lines;
use super::feature::KEYS;
use super::xml::{Step, Walk, escaped};
use super::{
    Count, ExchangeError, Feature, MOST_RING_POINTS, Polygon, Ring, Shape, Track, TrackPoint, Wrong, closed,
    degrees, number, written,
};

/// Largest file, MB.
const MOST_MB: usize = 256;
/// Local names of extensions that hold a horizontal accuracy in metres.
const ACCURACY: [&str; 5] = ["hacc", "hAcc", "accuracy", "horizontalAccuracy", "horizontal_accuracy"];
/// The namespace of what is written beside the standard.
const NAMESPACE: &str = "urn:kerfbook:gpx:1";
/// What the extension of a segment says that is a hole in the one before.
const HOLE: &str = "hole";

/// An open element, as far as it matters.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Tag {
    /// A track or a route.
    Track,
    Segment,
    Point,
    Extensions,
    Name,
    Time,
    Hdop,
    Accuracy,
    Figure(&'static str),
    /// What a segment's ring is.
    Ring,
    Other,
}

impl Tag {
    fn of(name: &str, open: &[Self]) -> Self {
        let in_point = open.contains(&Self::Point);
        let in_extensions = open.contains(&Self::Extensions);
        match (name, open.last()) {
            ("trk" | "rte", _) => Self::Track,
            ("trkseg", _) => Self::Segment,
            ("trkpt" | "rtept", _) => Self::Point,
            ("extensions", _) => Self::Extensions,
            ("time", Some(Self::Point)) => Self::Time,
            ("hdop", Some(Self::Point)) => Self::Hdop,
            ("name", Some(Self::Track)) => Self::Name,
            (name, _) if in_point && ACCURACY.contains(&name) => Self::Accuracy,
            ("ring", _) if in_extensions && open.contains(&Self::Segment) => Self::Ring,
            (name, _) if in_extensions && !in_point => {
                KEYS.iter().find(|key| **key == name).map_or(Self::Other, |key| Self::Figure(key))
            }
            _ => Self::Other,
        }
    }

    const fn has_text(self) -> bool {
        matches!(self, Self::Name | Self::Time | Self::Hdop | Self::Accuracy | Self::Figure(_) | Self::Ring)
    }
}

/// A track or route that is being read.
struct Open {
    feature: Feature,
    track: Track,
    /// Segments that are holes.
    holes: Vec<usize>,
}

/// Reads every track, cut between segments, and every route. Without times they are outlines, a ring each segment.
///
/// # Errors
/// Not well formed, a DOCTYPE, a coordinate or time that is none, over a limit.
pub fn read(text: &str) -> Result<Vec<Feature>, ExchangeError> {
    ExchangeError::within(text, MOST_MB)?;
    let mut walk = Walk::new(text);
    let mut lines = Lines::new(text);
    let mut count = Count::default();
    let mut features = Vec::new();
    let mut open: Vec<Tag> = Vec::new();
    let mut track: Option<Open> = None;
    let mut content = String::new();
    loop {
        match walk.step()? {
            Step::Open(start) => {
                let tag = Tag::of(start.local_name().as_ref(), &open);
                open.push(tag);
                content.clear();
                match (tag, &mut track) {
                    (Tag::Track, _) => {
                        features.extend(track.take().map(Open::feature).transpose()?);
                        count.feature(text, walk.position())?;
                        let feature = Feature::at(lines.of(walk.position()));
                        track = Some(Open { feature, track: Track::default(), holes: Vec::new() });
                    }
                    (Tag::Segment, Some(track)) => track.track.segments.push(Vec::new()),
                    (Tag::Point, Some(track)) => {
                        count.one(text, walk.position())?;
                        let place = place(&walk, &start)?;
                        match track.track.segments.last_mut() {
                            Some(segment) => segment.push(place),
                            None => track.track.segments.push(vec![place]),
                        }
                    }
                    _ => {}
                }
            }
            Step::Text(text) => {
                if open.last().is_some_and(|tag| tag.has_text()) {
                    content.push_str(&text);
                }
            }
            Step::Close => {
                let tag = open.pop();
                if let (Some(tag), Some(track)) = (tag.filter(|tag| tag.has_text()), &mut track) {
                    track.take(tag, &content).map_err(|wrong| walk.fault(wrong))?;
                }
                content.clear();
            }
            Step::End => break,
        }
    }
    features.extend(track.take().map(Open::feature).transpose()?);
    Ok(features)
}

impl Open {
    fn take(&mut self, tag: Tag, content: &str) -> Result<(), Wrong> {
        let last = self.track.segments.last_mut().and_then(|segment| segment.last_mut());
        match (tag, last) {
            (Tag::Time, Some(point)) => point.time_ms = Some(time(content)?),
            (Tag::Hdop, Some(point)) => point.hdop = Some(number::read(content)?),
            (Tag::Accuracy, Some(point)) => point.accuracy_m = Some(number::read(content)?),
            (Tag::Name, _) => self.feature.take("name", content),
            (Tag::Figure(key), _) => self.feature.take(key, content),
            (Tag::Ring, _) if content.trim() == HOLE => {
                self.holes.extend(self.track.segments.len().checked_sub(1));
            }
            _ => {}
        }
        Ok(())
    }

    /// What the track is: a walk where every point has its time, else outlines.
    fn feature(self) -> Result<Feature, ExchangeError> {
        let Self { mut feature, mut track, holes } = self;
        let timed = track.segments.iter().flatten().all(|point| point.time_ms.is_some());
        if track.segments.iter().all(Vec::is_empty) {
            return Ok(feature);
        }
        if timed {
            track.segments.retain(|segment| !segment.is_empty());
            feature.shape = Shape::Track(track);
            return Ok(feature);
        }
        let mut polygons: Vec<Polygon> = Vec::new();
        for (index, segment) in track.segments.iter().enumerate().filter(|(_, segment)| !segment.is_empty()) {
            if segment.len() > MOST_RING_POINTS {
                let wrong = Wrong::TooManyPoints { most: MOST_RING_POINTS };
                return Err(ExchangeError { line: feature.line, wrong });
            }
            let ring: Ring = segment.iter().map(|point| [point.longitude, point.latitude]).collect();
            match polygons.last_mut() {
                Some(polygon) if holes.contains(&index) => polygon.holes.push(ring),
                _ => polygons.push(Polygon { outer: ring, holes: Vec::new() }),
            }
        }
        feature.shape = Shape::Polygons(polygons);
        Ok(feature)
    }
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

/// A document with a track a place: a walk as it was, or a closed segment for every ring of an outline.
pub fn write(features: &[Feature]) -> String {
    let mut out = format!(
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<gpx version=\"1.1\" creator=\"Kerfbook\" \
         xmlns=\"http://www.topografix.com/GPX/1/1\" xmlns:k=\"{NAMESPACE}\">\n"
    );
    for feature in features {
        out.push_str("<trk>");
        if let Some(name) = &feature.name {
            let _ = write!(out, "<name>{}</name>", escaped(name));
        }
        if !feature.figures.is_empty() {
            out.push_str("<extensions>");
            for (key, text) in &feature.figures {
                let _ = write!(out, "<k:{key}>{}</k:{key}>", escaped(text));
            }
            out.push_str("</extensions>");
        }
        match &feature.shape {
            Shape::Track(track) => track.segments.iter().for_each(|segment| walked(&mut out, segment)),
            shape => {
                for polygon in written(shape) {
                    drawn(&mut out, &polygon.outer, false);
                    polygon.holes.iter().for_each(|hole| drawn(&mut out, hole, true));
                }
            }
        }
        out.push_str("</trk>\n");
    }
    out.push_str("</gpx>\n");
    out
}

fn point(out: &mut String, longitude: f64, latitude: f64) {
    let _ = write!(out, "<trkpt lat=\"{}\" lon=\"{}\"", degrees(latitude), degrees(longitude));
}

fn walked(out: &mut String, segment: &[TrackPoint]) {
    out.push_str("\n<trkseg>");
    for at in segment {
        out.push('\n');
        point(out, at.longitude, at.latitude);
        out.push('>');
        if let Some(time) = at.time_ms.and_then(chrono::DateTime::from_timestamp_millis) {
            let time = time.to_rfc3339_opts(chrono::SecondsFormat::AutoSi, true);
            let _ = write!(out, "<time>{time}</time>");
        }
        if let Some(hdop) = at.hdop {
            let _ = write!(out, "<hdop>{hdop}</hdop>");
        }
        if let Some(accuracy) = at.accuracy_m {
            let _ = write!(out, "<extensions><k:hacc>{accuracy}</k:hacc></extensions>");
        }
        out.push_str("</trkpt>");
    }
    out.push_str("\n</trkseg>");
}

fn drawn(out: &mut String, ring: &Ring, hole: bool) {
    out.push_str("\n<trkseg>");
    for [longitude, latitude] in closed(ring) {
        point(out, *longitude, *latitude);
        out.push_str("/>");
    }
    if hole {
        let _ = write!(out, "<extensions><k:ring>{HOLE}</k:ring></extensions>");
    }
    out.push_str("</trkseg>");
}
