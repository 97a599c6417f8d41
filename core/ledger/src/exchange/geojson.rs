//! GeoJSON, RFC 7946: polygons of geometries, features and collections. Winding and closing are taken as they come.
//!
//! The document is taken apart level by level as slices of its text, so that every fault has its line and no more is
//! built in memory than its points.

use std::borrow::Cow;
use std::fmt;

use serde::Deserialize;
use serde::de::{Deserializer, IgnoredAny, MapAccess, SeqAccess, Visitor};
use serde_json::value::RawValue;

use super::fault::Lines;
use super::feature::KEYS;
use super::{
    Count, ExchangeError, Feature, MOST_POINTS, MOST_RING_POINTS, Polygon, Ring, Shape, Wrong, closed,
    degrees, written,
};

/// Largest file, MB.
const MOST_MB: usize = 20;
/// Levels inside each other.
const MOST_DEPTH: usize = 32;

/// Reads all places of a document: features, or geometries that stand alone.
///
/// # Errors
/// Not JSON, another system of coordinates, over a limit.
pub fn read(text: &str) -> Result<Vec<Feature>, ExchangeError> {
    ExchangeError::within(text, MOST_MB)?;
    depth(text)?;
    let mut reader = Reader { text, lines: Lines::new(text), count: Count::default(), features: Vec::new() };
    let root: &RawValue = serde_json::from_str(text).map_err(|error| ExchangeError {
        line: error.line(),
        wrong: Wrong::Broken { detail: error.to_string() },
    })?;
    let node = reader.node(root)?;
    if let Some(crs) = node.crs {
        let crs: serde_json::Value = reader.parsed(crs)?;
        let name = crs.pointer("/properties/name").and_then(serde_json::Value::as_str);
        if let Some(name) = name.filter(|name| !(name.ends_with("CRS84") || name.ends_with("4326"))) {
            return Err(ExchangeError::whole(Wrong::OtherSystem { name: name.chars().take(60).collect() }));
        }
    }
    reader.gather(root, &node)?;
    Ok(reader.features)
}

/// Refuses deep nesting before anything is built from it.
fn depth(text: &str) -> Result<(), ExchangeError> {
    let (mut depth, mut quoted, mut escaped) = (0_usize, false, false);
    for (at, byte) in text.bytes().enumerate() {
        if quoted {
            (quoted, escaped) = (byte != b'"' || escaped, byte == b'\\' && !escaped);
            continue;
        }
        match byte {
            b'"' => quoted = true,
            b'{' | b'[' => depth += 1,
            b'}' | b']' => depth = depth.saturating_sub(1),
            _ => {}
        }
        if depth > MOST_DEPTH {
            return Err(ExchangeError::at(text, at, Wrong::TooDeep { most: MOST_DEPTH }));
        }
    }
    Ok(())
}

/// An object, as far as it is looked at.
#[derive(Deserialize)]
struct Node<'a> {
    #[serde(borrow, rename = "type")]
    kind: Option<Cow<'a, str>>,
    #[serde(borrow)]
    crs: Option<&'a RawValue>,
    #[serde(borrow)]
    features: Option<&'a RawValue>,
    #[serde(borrow)]
    geometries: Option<&'a RawValue>,
    #[serde(borrow)]
    geometry: Option<&'a RawValue>,
    #[serde(borrow)]
    coordinates: Option<&'a RawValue>,
    #[serde(borrow)]
    properties: Option<&'a RawValue>,
}

/// A list, its items unread.
struct Items<'a> {
    items: Vec<&'a RawValue>,
    /// There were more.
    over: bool,
}

impl<'de: 'a, 'a> Deserialize<'de> for Items<'a> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct List;
        impl<'de> Visitor<'de> for List {
            type Value = Items<'de>;

            fn expecting(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
                out.write_str("a list")
            }

            fn visit_seq<A: SeqAccess<'de>>(self, mut list: A) -> Result<Self::Value, A::Error> {
                let mut items = Vec::new();
                while items.len() < MOST_POINTS {
                    match list.next_element()? {
                        Some(item) => items.push(item),
                        None => return Ok(Items { items, over: false }),
                    }
                }
                let over = list.next_element::<IgnoredAny>()?.is_some();
                while list.next_element::<IgnoredAny>()?.is_some() {}
                Ok(Items { items, over })
            }
        }
        deserializer.deserialize_seq(List)
    }
}

/// The figures of a feature, the rest unread.
struct Properties<'a>(Vec<(Cow<'a, str>, &'a RawValue)>);

impl<'de: 'a, 'a> Deserialize<'de> for Properties<'a> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Object;
        impl<'de> Visitor<'de> for Object {
            type Value = Properties<'de>;

            fn expecting(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
                out.write_str("an object")
            }

            fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Self::Value, A::Error> {
                let mut found = Vec::new();
                while let Some(key) = map.next_key::<Cow<'de, str>>()? {
                    let wanted = key.eq_ignore_ascii_case("name") || KEYS.contains(&&*key);
                    if wanted && found.len() <= KEYS.len() {
                        found.push((key, map.next_value()?));
                    } else {
                        map.next_value::<IgnoredAny>()?;
                    }
                }
                Ok(Properties(found))
            }
        }
        deserializer.deserialize_map(Object)
    }
}

/// Longitude and latitude; a height is passed over.
enum Position {
    Of([f64; 2]),
    /// Four figures, as decimal commas make of two.
    Four,
}

impl<'de> Deserialize<'de> for Position {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Figures;
        impl<'de> Visitor<'de> for Figures {
            type Value = Position;

            fn expecting(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
                out.write_str("longitude and latitude")
            }

            fn visit_seq<A: SeqAccess<'de>>(self, mut list: A) -> Result<Position, A::Error> {
                use serde::de::Error;
                let mut figure =
                    || list.next_element::<f64>()?.ok_or_else(|| A::Error::custom("two figures"));
                let point = [figure()?, figure()?];
                let mut rest = 0;
                while list.next_element::<IgnoredAny>()?.is_some() {
                    rest += 1;
                }
                Ok(if rest == 2 { Position::Four } else { Position::Of(point) })
            }
        }
        deserializer.deserialize_seq(Figures)
    }
}

struct Reader<'a> {
    text: &'a str,
    lines: Lines<'a>,
    count: Count,
    features: Vec<Feature>,
}

impl<'a> Reader<'a> {
    /// Where a part of the text begins.
    fn byte(&self, raw: &RawValue) -> usize {
        raw.get().as_ptr().addr().saturating_sub(self.text.as_ptr().addr())
    }

    fn fault(&mut self, raw: &RawValue, wrong: Wrong) -> ExchangeError {
        ExchangeError { line: self.lines.of(self.byte(raw)), wrong }
    }

    fn parsed<T: Deserialize<'a>>(&mut self, raw: &'a RawValue) -> Result<T, ExchangeError> {
        serde_json::from_str(raw.get()).map_err(|error| ExchangeError {
            line: self.lines.of(self.byte(raw)) + error.line().saturating_sub(1),
            wrong: Wrong::Broken { detail: error.to_string() },
        })
    }

    fn node(&mut self, raw: &'a RawValue) -> Result<Node<'a>, ExchangeError> {
        self.parsed(raw)
    }

    fn list(
        &mut self,
        raw: Option<&'a RawValue>,
        most: usize,
        wrong: Wrong,
    ) -> Result<Vec<&'a RawValue>, ExchangeError> {
        let Some(raw) = raw else { return Ok(Vec::new()) };
        let Items { items, over } = self.parsed(raw)?;
        if over || items.len() > most { Err(self.fault(raw, wrong)) } else { Ok(items) }
    }

    fn gather(&mut self, raw: &'a RawValue, node: &Node<'a>) -> Result<(), ExchangeError> {
        match node.kind.as_deref() {
            Some("FeatureCollection") => {
                let most = super::feature::MOST_FEATURES;
                for raw in self.list(node.features, most, Wrong::TooManyPlaces { most })? {
                    let node = self.node(raw)?;
                    self.gather(raw, &node)?;
                }
                Ok(())
            }
            kind => {
                let at = self.byte(raw);
                self.count.feature(self.text, at)?;
                let mut feature = Feature::at(self.lines.of(at));
                let mut polygons = Vec::new();
                if kind == Some("Feature") {
                    if let Some(properties) = node.properties {
                        let Properties(found) = self.parsed(properties)?;
                        for (key, raw) in found {
                            self.take(&mut feature, &key, raw)?;
                        }
                    }
                    if let Some(geometry) = node.geometry {
                        let node = self.node(geometry)?;
                        self.geometry(&node, &mut polygons)?;
                    }
                } else {
                    self.geometry(node, &mut polygons)?;
                }
                if !polygons.is_empty() {
                    feature.shape = Shape::Polygons(polygons);
                }
                self.features.push(feature);
                Ok(())
            }
        }
    }

    /// A text, a number or a truth value; lists and objects are passed over.
    fn take(&mut self, feature: &mut Feature, key: &str, raw: &'a RawValue) -> Result<(), ExchangeError> {
        match raw.get().as_bytes().first() {
            Some(b'"') => feature.take(key, &self.parsed::<Cow<'a, str>>(raw)?),
            Some(b'{' | b'[' | b'n') | None => {}
            Some(_) => feature.take(key, raw.get()),
        }
        Ok(())
    }

    fn geometry(&mut self, node: &Node<'a>, polygons: &mut Vec<Polygon>) -> Result<(), ExchangeError> {
        let most = MOST_POINTS;
        let many = || Wrong::TooManyPoints { most };
        match node.kind.as_deref() {
            Some("GeometryCollection") => {
                for raw in self.list(node.geometries, most, many())? {
                    let node = self.node(raw)?;
                    self.geometry(&node, polygons)?;
                }
            }
            Some("Polygon") => {
                let rings = self.list(node.coordinates, most, many())?;
                polygons.extend(self.polygon(&rings)?);
            }
            Some("MultiPolygon") => {
                for raw in self.list(node.coordinates, most, many())? {
                    let rings = self.list(Some(raw), most, many())?;
                    polygons.extend(self.polygon(&rings)?);
                }
            }
            _ => {}
        }
        Ok(())
    }

    fn polygon(&mut self, rings: &[&'a RawValue]) -> Result<Option<Polygon>, ExchangeError> {
        let Some((outer, holes)) = rings.split_first() else { return Ok(None) };
        let outer = self.ring(outer)?;
        Ok(Some(Polygon {
            outer,
            holes: holes.iter().map(|hole| self.ring(hole)).collect::<Result<_, _>>()?,
        }))
    }

    fn ring(&mut self, raw: &'a RawValue) -> Result<Ring, ExchangeError> {
        let most = MOST_RING_POINTS;
        let points = self.list(Some(raw), most, Wrong::TooManyPoints { most })?;
        let mut ring = Ring::with_capacity(points.len());
        for point in points {
            self.count.one(self.text, self.byte(point))?;
            let shown = || point.get().chars().take(40).collect::<String>();
            match serde_json::from_str(point.get()) {
                Ok(Position::Of(position)) => ring.push(position),
                Ok(Position::Four) => {
                    return Err(self.fault(point, Wrong::DecimalComma { text: shown() }));
                }
                Err(_) => return Err(self.fault(point, Wrong::NotANumber { text: shown() })),
            }
        }
        Ok(ring)
    }
}

/// A collection of features, one a line.
pub fn write(features: &[Feature]) -> String {
    let features: Vec<String> = features.iter().map(written_feature).collect();
    format!("{{\"type\":\"FeatureCollection\",\"features\":[\n{}\n]}}\n", features.join(",\n"))
}

fn written_feature(feature: &Feature) -> String {
    let quoted = |text: &str| serde_json::Value::from(text).to_string();
    let mut properties: Vec<String> = Vec::new();
    if let Some(name) = &feature.name {
        properties.push(format!("\"name\":{}", quoted(name)));
    }
    for (key, text) in &feature.figures {
        // A number stands as one.
        let value = if super::figure(text).is_ok() && serde_json::from_str::<f64>(text).is_ok() {
            text.clone()
        } else {
            quoted(text)
        };
        properties.push(format!("\"{key}\":{value}"));
    }
    let polygons = written(&feature.shape);
    let ring = |ring: &Ring| {
        let points: Vec<String> =
            closed(ring).map(|[x, y]| format!("[{},{}]", degrees(*x), degrees(*y))).collect();
        format!("[{}]", points.join(","))
    };
    let polygon = |polygon: &Polygon| {
        let rings: Vec<String> = std::iter::once(&polygon.outer).chain(&polygon.holes).map(ring).collect();
        format!("[{}]", rings.join(","))
    };
    let geometry = match polygons.as_slice() {
        [] => "null".to_owned(),
        [one] => format!("{{\"type\":\"Polygon\",\"coordinates\":{}}}", polygon(one)),
        several => {
            let parts: Vec<String> = several.iter().map(polygon).collect();
            format!("{{\"type\":\"MultiPolygon\",\"coordinates\":[{}]}}", parts.join(","))
        }
    };
    format!("{{\"type\":\"Feature\",\"properties\":{{{}}},\"geometry\":{geometry}}}", properties.join(","))
}
