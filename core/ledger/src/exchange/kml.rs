//! KML 2.2: the polygons of a document, `lon,lat[,alt]` separated by spaces.

use super::xml::{Step, Walk};
use super::{Count, ExchangeError, MOST_RING_POINTS, Polygon, Ring, Wrong, number};

/// Largest file, MB.
const MOST_MB: usize = 50;

/// Reads all polygons of a document.
///
/// # Errors
/// Not well formed, a DOCTYPE, no polygon, over a limit.
pub fn read(text: &str) -> Result<Vec<Polygon>, ExchangeError> {
    ExchangeError::within(text, MOST_MB)?;
    let mut walk = Walk::new(text);
    let mut count = Count::default();
    let mut open: Vec<String> = Vec::new();
    let mut polygons: Vec<Polygon> = Vec::new();
    let (mut coordinates, mut at) = (String::new(), 0);
    loop {
        match walk.step()? {
            Step::Open(start) => {
                open.push(start.local_name().as_ref().to_owned());
                if open.last().is_some_and(|name| name == "Polygon") {
                    polygons.push(Polygon::default());
                }
                coordinates.clear();
                at = walk.position();
            }
            Step::Text(text) => coordinates.push_str(&text),
            Step::Close => {
                let name = open.pop().unwrap_or_default();
                let inside = |parent: &str| open.iter().any(|name| name == parent);
                if name == "coordinates"
                    && let Some(polygon) = polygons.last_mut()
                {
                    if inside("outerBoundaryIs") {
                        polygon.outer = ring(text, &coordinates, at, &mut count)?;
                    } else if inside("innerBoundaryIs") {
                        polygon.holes.push(ring(text, &coordinates, at, &mut count)?);
                    }
                }
            }
            Step::End => break,
        }
    }
    polygons.retain(|polygon| !polygon.outer.is_empty());
    if polygons.is_empty() { Err(ExchangeError::whole(Wrong::NoPlace)) } else { Ok(polygons) }
}

fn ring(text: &str, coordinates: &str, at: usize, count: &mut Count) -> Result<Ring, ExchangeError> {
    let mut ring = Ring::new();
    for tuple in coordinates.split_ascii_whitespace() {
        count.one(text, at)?;
        if ring.len() >= MOST_RING_POINTS {
            return Err(ExchangeError::at(text, at, Wrong::TooManyPoints { most: MOST_RING_POINTS }));
        }
        let fault = |wrong| ExchangeError::at(text, at, wrong);
        let mut figures = tuple.split(',');
        let mut figure = || number::read(figures.next().unwrap_or_default()).map_err(fault);
        ring.push([figure()?, figure()?]);
        // A fourth figure means that commas stand for points.
        if tuple.split(',').count() > 3 {
            return Err(fault(Wrong::DecimalComma { text: tuple.chars().take(40).collect() }));
        }
    }
    Ok(ring)
}
