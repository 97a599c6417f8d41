//! Well-known text of OGC Simple Features: polygons, x before y, longitude before latitude.

use super::{Count, ExchangeError, MOST_RING_POINTS, Polygon, Ring, Wrong, number};

/// Largest file, MB.
const MOST_MB: usize = 20;

const KINDS: [&str; 3] = ["MULTIPOLYGON", "POLYGON", "SRID="];

/// Whether a text begins as one of these.
pub(super) fn begins(text: &str) -> bool {
    KINDS.iter().any(|kind| text.get(..kind.len()).is_some_and(|start| start.eq_ignore_ascii_case(kind)))
}

/// Reads polygons and multipolygons, one after another.
///
/// # Errors
/// Not well formed, another system of coordinates, no polygon, over a limit.
pub fn read(text: &str) -> Result<Vec<Polygon>, ExchangeError> {
    ExchangeError::within(text, MOST_MB)?;
    let mut reader = Reader { text, at: 0, count: Count::default() };
    let mut polygons = Vec::new();
    while reader.peek().is_some() {
        reader.geometry(&mut polygons)?;
        reader.takes(b';');
    }
    if polygons.is_empty() { Err(ExchangeError::whole(Wrong::NoPlace)) } else { Ok(polygons) }
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
            return Err(self.broken("a coordinate expected"));
        }
        number::read(word).map_err(|wrong| ExchangeError::at(text, at, wrong))
    }
}
