//! What other programs and people wrote down about places: read, checked for form and size, and handed on as it is.
//! Nothing here knows the earth; whether figures are positions is for who uses them.
//!
//! One file a format: [`geojson`] (RFC 7946), [`gpx`] (1.1, accuracy in extensions), [`kml`] (2.2), [`wkt`] and
//! [`tape`] (a sheet of taped lengths, as CSV).

mod fault;
pub mod geojson;
pub mod gpx;
pub mod kml;
mod number;
pub mod tape;
pub mod wkt;
mod xml;

pub use fault::{ExchangeError, Wrong};

/// Points of all rings or tracks together, at most.
pub const MOST_POINTS: usize = 1_000_000;
/// Points of one drawn ring, at most.
pub const MOST_RING_POINTS: usize = 10_000;

/// What a file holds.
#[derive(Debug, Clone, PartialEq)]
pub enum Drawn {
    /// Outlines that somebody drew.
    Polygons(Vec<Polygon>),
    /// The track of a receiver.
    Track(Track),
    /// Lengths from a tape.
    Tape(tape::Sheet),
}

/// A ring of points, longitude then latitude in degrees, as written: closed or not, wound either way.
pub type Ring = Vec<[f64; 2]>;

/// An outline with its holes.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Polygon {
    /// Outside.
    pub outer: Ring,
    /// Holes.
    pub holes: Vec<Ring>,
}

/// A track, cut where the receiver lost its signal or was switched off.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Track {
    /// Its parts.
    pub segments: Vec<Vec<TrackPoint>>,
}

/// A point of a track.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct TrackPoint {
    /// Degrees, east positive.
    pub longitude: f64,
    /// Degrees, north positive.
    pub latitude: f64,
    /// Milliseconds since 1970, UTC.
    pub time_ms: Option<i64>,
    /// Accuracy in metres, from an extension.
    pub accuracy_m: Option<f64>,
    /// Horizontal dilution of precision.
    pub hdop: Option<f64>,
}

/// Reads a file by what it holds, not by its name; a byte order mark does no harm.
///
/// # Errors
/// A format that is none of these, or whatever its reader says.
pub fn read(text: &str) -> Result<Drawn, ExchangeError> {
    let text = text.strip_prefix('\u{FEFF}').unwrap_or(text);
    let start = text.trim_start();
    if start.starts_with('{') || start.starts_with('[') {
        return geojson::read(text).map(Drawn::Polygons);
    }
    if start.starts_with('<') {
        return match xml::root(text)?.as_str() {
            "gpx" => gpx::read(text),
            "kml" => kml::read(text).map(Drawn::Polygons),
            other => {
                Err(ExchangeError::whole(Wrong::UnknownFormat { found: other.chars().take(40).collect() }))
            }
        };
    }
    if wkt::begins(start) {
        return wkt::read(text).map(Drawn::Polygons);
    }
    if tape::begins(start) {
        return tape::read(text).map(Drawn::Tape);
    }
    let found: String = start.lines().next().unwrap_or_default().chars().take(40).collect();
    Err(ExchangeError::whole(Wrong::UnknownFormat { found }))
}

/// Counts points against the limits.
#[derive(Debug, Default)]
struct Count {
    all: usize,
}

impl Count {
    fn one(&mut self, text: &str, at: usize) -> Result<(), ExchangeError> {
        self.all += 1;
        if self.all > MOST_POINTS {
            return Err(ExchangeError::at(text, at, Wrong::TooManyPoints { most: MOST_POINTS }));
        }
        Ok(())
    }
}
