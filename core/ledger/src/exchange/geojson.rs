//! GeoJSON, RFC 7946: polygons of geometries, features and collections. Winding and closing are taken as they come.

use serde_json::Value;

use super::{Count, ExchangeError, MOST_RING_POINTS, Polygon, Ring, Wrong};

/// Largest file, MB.
const MOST_MB: usize = 20;
/// Levels inside each other.
const MOST_DEPTH: usize = 32;

/// Reads all polygons of a document.
///
/// # Errors
/// Not JSON, another system of coordinates, no polygon, over a limit.
pub fn read(text: &str) -> Result<Vec<Polygon>, ExchangeError> {
    ExchangeError::within(text, MOST_MB)?;
    depth(text)?;
    let root: Value = serde_json::from_str(text).map_err(|error| ExchangeError {
        line: error.line(),
        wrong: Wrong::Broken { detail: error.to_string() },
    })?;
    if let Some(name) =
        root.get("crs").and_then(|crs| crs.pointer("/properties/name")).and_then(Value::as_str)
        && !(name.ends_with("CRS84") || name.ends_with("4326"))
    {
        return Err(ExchangeError::whole(Wrong::OtherSystem { name: name.chars().take(60).collect() }));
    }
    let mut polygons = Vec::new();
    gather(&root, &mut Count::default(), &mut polygons)?;
    if polygons.is_empty() { Err(ExchangeError::whole(Wrong::NoPlace)) } else { Ok(polygons) }
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

fn gather(value: &Value, count: &mut Count, polygons: &mut Vec<Polygon>) -> Result<(), ExchangeError> {
    let list = |key: &str| value.get(key).and_then(Value::as_array).map(Vec::as_slice).unwrap_or_default();
    match value.get("type").and_then(Value::as_str) {
        Some("FeatureCollection") => {
            list("features").iter().try_for_each(|feature| gather(feature, count, polygons))
        }
        Some("GeometryCollection") => {
            list("geometries").iter().try_for_each(|geometry| gather(geometry, count, polygons))
        }
        Some("Feature") => value.get("geometry").map_or(Ok(()), |geometry| gather(geometry, count, polygons)),
        Some("Polygon") => {
            polygons.extend(polygon(list("coordinates"), count)?);
            Ok(())
        }
        Some("MultiPolygon") => {
            for rings in list("coordinates") {
                polygons.extend(polygon(rings.as_array().map(Vec::as_slice).unwrap_or_default(), count)?);
            }
            Ok(())
        }
        _ => Ok(()),
    }
}

fn polygon(rings: &[Value], count: &mut Count) -> Result<Option<Polygon>, ExchangeError> {
    let mut rings = rings.iter().map(|points| ring(points, count));
    let Some(outer) = rings.next() else { return Ok(None) };
    Ok(Some(Polygon { outer: outer?, holes: rings.collect::<Result<_, _>>()? }))
}

fn ring(points: &Value, count: &mut Count) -> Result<Ring, ExchangeError> {
    let shown = |value: &Value| value.to_string().chars().take(40).collect::<String>();
    let bad = |value: &Value| ExchangeError::whole(Wrong::NotANumber { text: shown(value) });
    let points = points.as_array().ok_or_else(|| bad(points))?;
    if points.len() > MOST_RING_POINTS {
        return Err(ExchangeError::whole(Wrong::TooManyPoints { most: MOST_RING_POINTS }));
    }
    points
        .iter()
        .map(|point| {
            count.one("", 0)?;
            match (point.get(0).and_then(Value::as_f64), point.get(1).and_then(Value::as_f64)) {
                (Some(longitude), Some(latitude)) => Ok([longitude, latitude]),
                _ => Err(bad(point)),
            }
        })
        .collect()
}
