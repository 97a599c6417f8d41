//! Well-known text of OGC Simple Features: polygons, x before y, longitude before latitude.

use super::fault::Lines;
use super::{
    Count, ExchangeError, Feature, MOST_RING_POINTS, Polygon, Ring, Shape, Wrong, closed, degrees, number,
    written,
};

/// Largest file, MB.
const MOST_MB: usize = 20;

const KINDS: [&str; 3] = ["MULTIPOLYGON", "POLYGON", "SRID="];

/// Whether a text begins as one of these.
pub(super) fn begins(text: &str) -> bool {
    KINDS.iter().any(|kind| text.get(..kind.len()).is_some_and(|start| start.eq_ignore_ascii_case(kind)))
}

/// Reads polygons and multipolygons, one after another; each is a place.
///
/// # Errors
/// Not well formed, another system of coordinates, over a limit.
pub fn read(text: &str) -> Result<Vec<Feature>, ExchangeError> {
    ExchangeError::within(text, MOST_MB)?;
    let mut reader = Reader { text, at: 0, count: Count::default() };
    let mut lines = Lines::new(text);
    let mut features = Vec::new();
    while reader.peek().is_some() {
        reader.count.feature(text, reader.at)?;
        let mut feature = Feature::at(lines.of(reader.at));
        let mut polygons = Vec::new();
        reader.geometry(&mut polygons)?;
        if !polygons.is_empty() {
            feature.shape = Shape::Polygons(polygons);
        }
        features.push(feature);
        reader.takes(b';');
    }
    Ok(features)
}

/// The shapes of places, one a line; a place without one is empty.
pub fn write(features: &[Feature]) -> String {
    features.iter().map(|feature| geometry(&written(&feature.shape)) + "\n").collect()
}

/// Polygons in a plane of their own as one geometry: neither cut nor wound.
pub fn plain(polygons: &[Polygon]) -> String {
    geometry(polygons)
}

/// Polygons as one geometry.
pub(super) fn geometry(polygons: &[Polygon]) -> String {
    let ring = |ring: &Ring| {
        let points: Vec<String> =
            closed(ring).map(|[x, y]| format!("{} {}", degrees(*x), degrees(*y))).collect();
        format!("({})", points.join(", "))
    };
    let polygon = |polygon: &Polygon| {
        let rings: Vec<String> = std::iter::once(&polygon.outer).chain(&polygon.holes).map(ring).collect();
        format!("({})", rings.join(", "))
    };
    match polygons {
        [] => "POLYGON EMPTY".to_owned(),
        [one] => format!("POLYGON {}", polygon(one)),
        several => {
            let parts: Vec<String> = several.iter().map(polygon).collect();
            format!("MULTIPOLYGON ({})", parts.join(", "))
        }
    }
}

struct Reader<'a> {
    text: &'a str,
    at: usize,
    count: Count,
}

impl Reader<'_> {
    /// The next byte that is no space.
    fn peek(&mut self) -> Option<u8> {
        let rest = self.text.as_bytes().get(self.at..)?;
        let spaces = rest.iter().take_while(|byte| byte.is_ascii_whitespace()).count();
        self.at += spaces;
        rest.get(spaces).copied()
    }

    fn takes(&mut self, byte: u8) -> bool {
        let there = self.peek() == Some(byte);
        self.at += usize::from(there);
        there
    }

    fn wants(&mut self, byte: u8) -> Result<(), ExchangeError> {
        if self.takes(byte) { Ok(()) } else { Err(self.broken(&format!("`{}` expected", char::from(byte)))) }
    }

    fn broken(&self, detail: &str) -> ExchangeError {
        ExchangeError::at(self.text, self.at, Wrong::Broken { detail: detail.to_owned() })
    }

    /// The next run of bytes that belong together.
    fn word(&mut self, belongs: impl Fn(u8) -> bool) -> &str {
        self.peek();
        let rest = self.text.as_bytes().get(self.at..).unwrap_or_default();
        let from = self.at;
        self.at += rest.iter().take_while(|byte| belongs(**byte)).count();
        self.text.get(from..self.at).unwrap_or_default()
    }

    fn geometry(&mut self, polygons: &mut Vec<Polygon>) -> Result<(), ExchangeError> {
        let mut kind = self.word(|byte| byte.is_ascii_alphabetic()).to_ascii_uppercase();
        if kind == "SRID" {
            self.wants(b'=')?;
            let system = self.word(|byte| byte.is_ascii_alphanumeric()).to_owned();
            if system != "4326" {
                return Err(ExchangeError::at(self.text, self.at, Wrong::OtherSystem { name: system }));
            }
            self.wants(b';')?;
            kind = self.word(|byte| byte.is_ascii_alphabetic()).to_ascii_uppercase();
        }
        let several = match kind.as_str() {
            "POLYGON" => false,
            "MULTIPOLYGON" => true,
            _ => return Err(self.broken("POLYGON or MULTIPOLYGON expected")),
        };
        let mut flag = self.word(|byte| byte.is_ascii_alphabetic()).to_ascii_uppercase();
        if matches!(flag.as_str(), "Z" | "M" | "ZM") {
            flag = self.word(|byte| byte.is_ascii_alphabetic()).to_ascii_uppercase();
        }
        match (flag.as_str(), several) {
            ("EMPTY", _) => Ok(()),
            ("", false) => {
                polygons.push(self.polygon()?);
                Ok(())
            }
            ("", true) => {
                self.wants(b'(')?;
                loop {
                    polygons.push(self.polygon()?);
                    if !self.takes(b',') {
                        return self.wants(b')');
                    }
                }
            }
            _ => Err(self.broken("`(` expected")),
        }
    }

    fn polygon(&mut self) -> Result<Polygon, ExchangeError> {
        self.wants(b'(')?;
        let mut polygon = Polygon { outer: self.ring()?, holes: Vec::new() };
        while self.takes(b',') {
            polygon.holes.push(self.ring()?);
        }
        self.wants(b')')?;
        Ok(polygon)
    }

    fn ring(&mut self) -> Result<Ring, ExchangeError> {
        self.wants(b'(')?;
        let mut ring = Ring::new();
        loop {
            let at = self.at;
            self.count.one(self.text, at)?;
            if ring.len() >= MOST_RING_POINTS {
                return Err(ExchangeError::at(
                    self.text,
                    at,
                    Wrong::TooManyPoints { most: MOST_RING_POINTS },
                ));
            }
            let point = [self.figure()?, self.figure()?];
            ring.push(point);
            // Height and measure are passed over.
            while self.peek().is_some_and(|byte| !matches!(byte, b',' | b')')) {
                self.figure()?;
            }
            if !self.takes(b',') {
                self.wants(b')')?;
                return Ok(ring);
            }
        }
    }

    fn figure(&mut self) -> Result<f64, ExchangeError> {
        let text = self.text;
        self.peek();
        let at = self.at;
        let word = self.word(|byte| !byte.is_ascii_whitespace() && !matches!(byte, b',' | b'(' | b')'));
        if word.is_empty() {
            return Err(self.broken("a coordinate expected; is there a decimal comma?"));
        }
        number::read(word).map_err(|wrong| ExchangeError::at(text, at, wrong))
    }
}
