//! A place as files hold it: a name, some figures, and what was drawn or walked.

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

/// What is known of a place's shape.
#[derive(Debug, Clone, PartialEq)]
pub enum Shape {
    /// Nothing but figures.
    Unknown,
    /// Outlines that somebody drew; several are one place in parts.
    Polygons(Vec<Polygon>),
    /// The track of a receiver.
    Track(Track),
}

/// One place of a file.
#[derive(Debug, Clone, PartialEq)]
pub struct Feature {
    /// Line on which it begins, from 1.
    pub line: usize,
    /// What it is called.
    pub name: Option<String>,
    /// Figures by their keys, as written; only keys of [`KEYS`].
    pub figures: Vec<(&'static str, String)>,
    /// Its shape.
    pub shape: Shape,
}

/// Figures that files carry beside a shape. Other keys are passed over.
pub const KEYS: [&str; 9] = [
    "kind",
    "measured",
    "area_m2",
    "area_sd_m2",
    "outline_m2",
    "containers",
    "container_l",
    "rooting_depth_cm",
    "local_outline_m",
];

/// Features of one file, at most.
pub const MOST_FEATURES: usize = 100_000;

/// Longest name or figure that is kept, characters.
const MOST_TEXT: usize = 65_536;

impl Feature {
    /// A feature of which nothing is known yet.
    pub const fn at(line: usize) -> Self {
        Self { line, name: None, figures: Vec::new(), shape: Shape::Unknown }
    }

    /// A figure by its key.
    pub fn figure(&self, key: &str) -> Option<&str> {
        self.figures.iter().find(|(known, _)| *known == key).map(|(_, text)| text.as_str())
    }

    /// Whether it says anything of a place's size.
    pub(super) fn has_size(&self) -> bool {
        self.shape != Shape::Unknown || self.figure("area_m2").is_some()
    }

    /// Takes a name or a figure by its key; unknown keys and empty texts are passed over.
    pub(super) fn take(&mut self, key: &str, text: &str) {
        let text: String =
            text.trim().chars().filter(|character| !character.is_control()).take(MOST_TEXT).collect();
        if text.is_empty() {
            return;
        }
        if key.eq_ignore_ascii_case("name") {
            self.name.get_or_insert(text);
        } else if let Some(known) = KEYS.iter().find(|known| **known == key)
            && self.figure(known).is_none()
        {
            self.figures.push((known, text));
        }
    }
}
