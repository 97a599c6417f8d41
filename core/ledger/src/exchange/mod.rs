//! What other programs and people wrote down about places, and what is written for them.
//!
//! Files are read, checked for form and size, and handed on as they are. Nothing here knows the earth; whether figures
//! are positions is for who uses them. What is written reads back as it was.
//!
//! One file a format: [`geojson`] (RFC 7946), [`gpx`] (1.1, accuracy in extensions), [`kml`] (2.2), [`wkt`], [`sheet`]
//! (a CSV of places) and [`tape`] (a CSV of taped lengths). [`feature`] is what all of them hold; [`antimeridian`] cuts
//! and winds what is written; [`csv_row`] quotes and guards cells.

pub mod antimeridian;
pub mod csv_row;
mod fault;
pub mod feature;
pub mod geojson;
pub mod gpx;
pub mod kml;
mod number;
pub mod sheet;
pub mod tape;
pub mod wkt;
mod xml;

pub use fault::{ExchangeError, Wrong};
pub use feature::{Feature, Polygon, Ring, Shape, Track, TrackPoint};
pub use number::read as figure;

use feature::MOST_FEATURES;

/// Points of all rings or tracks together, at most.
pub const MOST_POINTS: usize = 1_000_000;
/// Points of one drawn ring, at most.
pub const MOST_RING_POINTS: usize = 10_000;

/// What a file holds.
#[derive(Debug, Clone, PartialEq)]
pub enum Drawn {
    /// Places that somebody drew or walked.
    Places(Vec<Feature>),
    /// Lengths from a tape.
    Tape(tape::Sheet),
}

/// A format that places are written in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Format {
    /// RFC 7946.
    GeoJson,
    /// 1.1.
    Gpx,
    /// 2.2.
    Kml,
    /// Well-known text, shapes alone.
    Wkt,
    /// A sheet, RFC 4180.
    Csv,
}

impl Format {
    /// Endings of file names, the usual one first.
    pub const ENDINGS: [(Self, &'static str); 6] = [
        (Self::GeoJson, "geojson"),
        (Self::GeoJson, "json"),
        (Self::Gpx, "gpx"),
        (Self::Kml, "kml"),
        (Self::Wkt, "wkt"),
        (Self::Csv, "csv"),
    ];

    /// The format of a file name's ending.
    pub fn of_ending(ending: &str) -> Option<Self> {
        Self::ENDINGS.iter().find(|(_, known)| known.eq_ignore_ascii_case(ending)).map(|(format, _)| *format)
    }

    /// Places in this format. Outlines are cut at the antimeridian and wound counter-clockwise, holes clockwise.
    pub fn write(self, features: &[Feature]) -> String {
        match self {
            Self::GeoJson => geojson::write(features),
            Self::Gpx => gpx::write(features),
            Self::Kml => kml::write(features),
            Self::Wkt => wkt::write(features),
            Self::Csv => sheet::write(features),
        }
    }
}

/// Reads a file by what it holds, not by its name; a byte order mark does no harm.
///
/// # Errors
/// A format that is none of these, or whatever its reader says.
pub fn read(text: &str) -> Result<Drawn, ExchangeError> {
    let text = text.strip_prefix('\u{FEFF}').unwrap_or(text);
    let start = text.trim_start();
    let features = if start.starts_with('{') || start.starts_with('[') {
        geojson::read(text)?
    } else if start.starts_with('<') {
        match xml::root(text)?.as_str() {
            "gpx" => gpx::read(text)?,
            "kml" => kml::read(text)?,
            other => {
                let found = other.chars().take(40).collect();
                return Err(ExchangeError::whole(Wrong::UnknownFormat { found }));
            }
        }
    } else if wkt::begins(start) {
        wkt::read(text)?
    } else if sheet::begins(start) {
        sheet::read(text)?
    } else if tape::begins(start) {
        return tape::read(text).map(Drawn::Tape);
    } else {
        let found: String = start.lines().next().unwrap_or_default().chars().take(40).collect();
        return Err(ExchangeError::whole(Wrong::UnknownFormat { found }));
    };
    if features.iter().any(Feature::has_size) {
        Ok(Drawn::Places(features))
    } else {
        Err(ExchangeError::whole(Wrong::NoPlace))
    }
}

/// Counts points and features against the limits.
#[derive(Debug, Default)]
struct Count {
    points: usize,
    features: usize,
}

impl Count {
    fn one(&mut self, text: &str, at: usize) -> Result<(), ExchangeError> {
        self.points += 1;
        if self.points > MOST_POINTS {
            return Err(ExchangeError::at(text, at, Wrong::TooManyPoints { most: MOST_POINTS }));
        }
        Ok(())
    }

    fn feature(&mut self, text: &str, at: usize) -> Result<(), ExchangeError> {
        self.features += 1;
        if self.features > MOST_FEATURES {
            return Err(ExchangeError::at(text, at, Wrong::TooManyPlaces { most: MOST_FEATURES }));
        }
        Ok(())
    }
}

/// Degrees as they are written: a tenth of a millimetre, no zeros at the end.
fn degrees(figure: f64) -> String {
    let text = format!("{figure:.9}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    if text.is_empty() || text == "-0" { "0".to_owned() } else { text.to_owned() }
}

/// A ring with its first point again at the end.
fn closed(ring: &Ring) -> impl Iterator<Item = &[f64; 2]> {
    let open = ring.first() != ring.last() || ring.len() == 1;
    ring.iter().chain(ring.first().filter(|_| open))
}

/// The polygons of a shape as they are written; of a track, its parts.
fn written(shape: &Shape) -> Vec<Polygon> {
    match shape {
        Shape::Unknown => Vec::new(),
        Shape::Polygons(polygons) => antimeridian::cut(polygons),
        Shape::Track(track) => antimeridian::cut(&outlines(track)),
    }
}

/// The parts of a track as outlines.
pub fn outlines(track: &Track) -> Vec<Polygon> {
    let ring =
        |segment: &Vec<TrackPoint>| segment.iter().map(|point| [point.longitude, point.latitude]).collect();
    track.segments.iter().map(|segment| Polygon { outer: ring(segment), holes: Vec::new() }).collect()
}
