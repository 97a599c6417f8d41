//! KML 2.2: the polygons of placemarks, `lon,lat[,alt]` separated by spaces, with their names and extended data.

use std::fmt::Write as _;

use super::fault::Lines;
use super::xml::{Step, Walk, escaped};
use super::{
    Count, ExchangeError, Feature, MOST_RING_POINTS, Polygon, Ring, Shape, Wrong, closed, degrees, number,
    written,
};

/// Largest file, MB.
const MOST_MB: usize = 50;

/// Reads all placemarks of a document.
///
/// # Errors
/// Not well formed, a DOCTYPE, over a limit.
pub fn read(text: &str) -> Result<Vec<Feature>, ExchangeError> {
    ExchangeError::within(text, MOST_MB)?;
    let mut walk = Walk::new(text);
    let mut lines = Lines::new(text);
    let mut count = Count::default();
    let mut open: Vec<String> = Vec::new();
    let mut features: Vec<Feature> = Vec::new();
    // The key of the figure that is open.
    let mut key = String::new();
    let (mut content, mut at) = (String::new(), 0);
    loop {
        match walk.step()? {
            Step::Open(start) => {
                let name = start.local_name().as_ref().to_owned();
                let alone = name == "Polygon" && !open.iter().any(|name| name == "Placemark");
                if name == "Placemark" || alone {
                    count.feature(text, walk.position())?;
                    features.push(Feature::at(lines.of(walk.position())));
                }
                if name == "Polygon" {
                    polygons(&mut features, |polygons| polygons.push(Polygon::default()));
                }
                if matches!(name.as_str(), "Data" | "SimpleData") {
                    key.clear();
                    for attribute in start.attributes().flatten() {
                        if attribute.key.as_ref() == "name" {
                            key.push_str(&attribute.value);
                        }
                    }
                }
                open.push(name);
                content.clear();
                at = walk.position();
            }
            Step::Text(text) => content.push_str(&text),
            Step::Close => {
                let name = open.pop().unwrap_or_default();
                let inside = |parent: &str| open.iter().any(|name| name == parent);
                let under = open.last().map(String::as_str);
                match name.as_str() {
                    "coordinates" if inside("outerBoundaryIs") => {
                        let ring = ring(text, &content, at, &mut count)?;
                        polygons(&mut features, |polygons| {
                            polygons
                                .last_mut()
                                .into_iter()
                                .for_each(|polygon| polygon.outer.clone_from(&ring));
                        });
                    }
                    "coordinates" if inside("innerBoundaryIs") => {
                        let ring = ring(text, &content, at, &mut count)?;
                        polygons(&mut features, |polygons| {
                            polygons
                                .last_mut()
                                .into_iter()
                                .for_each(|polygon| polygon.holes.push(ring.clone()));
                        });
                    }
                    "name" if under == Some("Placemark") => {
                        features.last_mut().into_iter().for_each(|feature| feature.take("name", &content));
                    }
                    "value" | "SimpleData" if inside("Placemark") => {
                        features.last_mut().into_iter().for_each(|feature| feature.take(&key, &content));
                    }
                    _ => {}
                }
                content.clear();
            }
            Step::End => break,
        }
    }
    for feature in &mut features {
        if let Shape::Polygons(polygons) = &mut feature.shape {
            polygons.retain(|polygon| !polygon.outer.is_empty());
            if polygons.is_empty() {
                feature.shape = Shape::Unknown;
            }
        }
    }
    Ok(features)
}

/// Does something with the polygons of the last feature.
fn polygons(features: &mut [Feature], change: impl FnOnce(&mut Vec<Polygon>)) {
    if let Some(feature) = features.last_mut() {
        if feature.shape == Shape::Unknown {
            feature.shape = Shape::Polygons(Vec::new());
        }
        if let Shape::Polygons(polygons) = &mut feature.shape {
            change(polygons);
        }
    }
}

fn ring(text: &str, coordinates: &str, at: usize, count: &mut Count) -> Result<Ring, ExchangeError> {
    let mut ring = Ring::new();
    for tuple in coordinates.split_ascii_whitespace() {
        // Where the tuple stands; a little off where entities stand between.
        let within = tuple.as_ptr().addr().saturating_sub(coordinates.as_ptr().addr());
        let fault = |wrong| ExchangeError::at(text, at + within, wrong);
        count.one(text, at + within)?;
        if ring.len() >= MOST_RING_POINTS {
            return Err(fault(Wrong::TooManyPoints { most: MOST_RING_POINTS }));
        }
        // A fourth figure means that commas stand for points.
        if tuple.split(',').count() > 3 {
            return Err(fault(Wrong::DecimalComma { text: tuple.chars().take(40).collect() }));
        }
        let mut figures = tuple.split(',');
        let mut figure = || number::read(figures.next().unwrap_or_default()).map_err(fault);
        ring.push([figure()?, figure()?]);
    }
    Ok(ring)
}

/// A document with a placemark a place.
pub fn write(features: &[Feature]) -> String {
    let mut out = String::from(
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<kml xmlns=\"http://www.opengis.net/kml/2.2\"><Document>\n",
    );
    for feature in features {
        out.push_str("<Placemark>");
        if let Some(name) = &feature.name {
            let _ = write!(out, "<name>{}</name>", escaped(name));
        }
        if !feature.figures.is_empty() {
            out.push_str("<ExtendedData>");
            for (key, text) in &feature.figures {
                let _ = write!(out, "<Data name=\"{key}\"><value>{}</value></Data>", escaped(text));
            }
            out.push_str("</ExtendedData>");
        }
        let polygons = written(&feature.shape);
        let several = polygons.len() > 1;
        out.push_str(if several { "<MultiGeometry>" } else { "" });
        for polygon in &polygons {
            out.push_str("<Polygon>");
            boundary(&mut out, "outerBoundaryIs", &polygon.outer);
            polygon.holes.iter().for_each(|hole| boundary(&mut out, "innerBoundaryIs", hole));
            out.push_str("</Polygon>");
        }
        out.push_str(if several { "</MultiGeometry>" } else { "" });
        out.push_str("</Placemark>\n");
    }
    out.push_str("</Document></kml>\n");
    out
}

fn boundary(out: &mut String, element: &str, ring: &Ring) {
    let tuples: Vec<String> = closed(ring).map(|[x, y]| format!("{},{}", degrees(*x), degrees(*y))).collect();
    let tuples = tuples.join(" ");
    let _ =
        write!(out, "<{element}><LinearRing><coordinates>{tuples}</coordinates></LinearRing></{element}>");
}
