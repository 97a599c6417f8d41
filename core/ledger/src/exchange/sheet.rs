//! Places as a sheet, CSV by RFC 4180: a heading with `name` and figures of [`KEYS`], and `wkt` for the outline. Other
//! columns are passed over.

use super::fault::Lines;
use super::feature::KEYS;
use super::tape::line_of;
use super::{Count, ExchangeError, Feature, Shape, Wrong, csv_row, wkt, written};

/// Largest file, MB.
const MOST_MB: usize = 50;
/// The column of outlines.
const WKT: &str = "wkt";

/// Whether a text may be a sheet of places: its first line names a size.
pub(super) fn begins(text: &str) -> bool {
    let first = text.lines().next().unwrap_or_default().to_ascii_lowercase();
    first.split(',').any(|column| matches!(column.trim().trim_matches('"'), WKT | "area_m2"))
}

/// Reads the places of a sheet.
///
/// # Errors
/// A row with other fields than the heading, an outline that is none, over a limit.
pub fn read(text: &str) -> Result<Vec<Feature>, ExchangeError> {
    ExchangeError::within(text, MOST_MB)?;
    csv_row::within(text)?;
    let mut reader = csv::ReaderBuilder::new().flexible(true).from_reader(text.as_bytes());
    let broken = |error: &csv::Error| ExchangeError {
        line: error.position().map_or(0, |at| usize::try_from(at.line()).unwrap_or(0)),
        wrong: Wrong::Broken { detail: error.to_string() },
    };
    let heading: Vec<String> = reader
        .headers()
        .map_err(|error| broken(&error))?
        .iter()
        .map(|column| column.trim().to_ascii_lowercase())
        .collect();
    let mut lines = Lines::new(text);
    let mut count = Count::default();
    let mut features = Vec::new();
    for record in reader.records() {
        let record = record.map_err(|error| broken(&error))?;
        let byte = record.position().map_or(0, csv::Position::byte);
        let line = line_of(&mut lines, text, byte);
        if record.len() != heading.len() {
            let wrong = Wrong::Fields { found: record.len(), expected: heading.len() };
            return Err(ExchangeError { line, wrong });
        }
        count.feature(text, usize::try_from(byte).unwrap_or(usize::MAX))?;
        let mut feature = Feature::at(line);
        for (column, cell) in heading.iter().zip(&record) {
            let cell = csv_row::unguarded(cell);
            if column == WKT && !cell.trim().is_empty() {
                let drawn = wkt::read(cell)
                    .map_err(|error| ExchangeError { line: line + error.line.saturating_sub(1), ..error })?;
                let mut polygons = Vec::new();
                for part in drawn {
                    if let Shape::Polygons(more) = part.shape {
                        polygons.extend(more);
                    }
                }
                for _ in polygons.iter().flat_map(|polygon| &polygon.outer) {
                    count.one(text, usize::try_from(byte).unwrap_or(usize::MAX))?;
                }
                if !polygons.is_empty() {
                    feature.shape = Shape::Polygons(polygons);
                }
            } else {
                feature.take(column, cell);
            }
        }
        features.push(feature);
    }
    Ok(features)
}

/// A sheet of places.
pub fn write(features: &[Feature]) -> String {
    let mut out = csv_row::write(std::iter::once("name").chain(KEYS).chain([WKT]));
    for feature in features {
        let shape = match written(&feature.shape).as_slice() {
            [] => String::new(),
            polygons => wkt::geometry(polygons),
        };
        let figures = KEYS.iter().map(|key| feature.figure(key).unwrap_or_default());
        let cells = std::iter::once(feature.name.as_deref().unwrap_or_default()).chain(figures);
        out.push_str(&csv_row::write(cells.chain([shape.as_str()])));
    }
    out
}
