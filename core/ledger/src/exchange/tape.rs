//! A sheet of taped lengths, as CSV (RFC 4180). What it measures is told by its heading:
//!
//! | heading | rows |
//! |---|---|
//! | `side,length_m` | a triangle `a`, `b`, `c`, or a four-sided place `ab`, `bc`, `cd`, `da`, `ac` and perhaps `bd` |
//! | `along_m,offset_m` | offsets from a base line |
//! | `bearing,length_m` | the courses of a closed traverse |
//! | `east_m,north_m` | corners |
//!
//! Feet are `_ft` in place of `_m`.

use super::fault::Lines;
use super::{Count, ExchangeError, Wrong, csv_row, number};

/// Largest file, MB.
const MOST_MB: usize = 50;
const KNOWN: &str = "side,length_m; along_m,offset_m; bearing,length_m; east_m,north_m; or the same in _ft";

/// A sheet.
#[derive(Debug, Clone, PartialEq)]
pub struct Sheet {
    /// Lengths are feet rather than metres.
    pub feet: bool,
    /// What was taped.
    pub taped: Taped,
}

/// What was taped.
#[derive(Debug, Clone, PartialEq)]
pub enum Taped {
    /// Three sides.
    Triangle([f64; 3]),
    /// Sides ab, bc, cd, da, diagonal ac, and perhaps diagonal bd.
    Quadrilateral([f64; 5], Option<f64>),
    /// Distance along the base line, and offset.
    Offsets(Vec<[f64; 2]>),
    /// Bearing as written, and length.
    Traverse(Vec<(String, f64)>),
    /// East and north.
    Corners(Vec<[f64; 2]>),
}

const QUADRILATERAL: [&str; 5] = ["ab", "bc", "cd", "da", "ac"];

/// Whether a text may be a sheet: its first line has a comma or semicolon and letters.
pub(super) fn begins(text: &str) -> bool {
    let first = text.lines().next().unwrap_or_default();
    first.contains([',', ';']) && first.starts_with(|first: char| first.is_ascii_alphabetic() || first == '"')
}

/// Reads a sheet.
///
/// # Errors
/// Unknown columns, mixed units, a row with other fields, a length that is no number.
pub fn read(text: &str) -> Result<Sheet, ExchangeError> {
    ExchangeError::within(text, MOST_MB)?;
    csv_row::within(text)?;
    let mut reader =
        csv::ReaderBuilder::new().flexible(true).trim(csv::Trim::All).from_reader(text.as_bytes());
    let broken = |error: &csv::Error| ExchangeError {
        line: error.position().map_or(0, |at| usize::try_from(at.line()).unwrap_or(0)),
        wrong: Wrong::Broken { detail: error.to_string() },
    };
    let heading: Vec<String> =
        reader.headers().map_err(|error| broken(&error))?.iter().map(str::to_ascii_lowercase).collect();
    let unknown =
        || ExchangeError { line: 1, wrong: Wrong::Columns { found: heading.join(","), known: KNOWN } };
    let [first, second] = heading.as_slice() else { return Err(unknown()) };
    let units = [unit(first), unit(second)];
    let feet = match (units, first.as_str()) {
        ([None, Some(feet)], "side" | "bearing") => feet,
        ([Some(one), Some(other)], _) if one == other => one,
        ([Some(_), Some(_)], _) => return Err(ExchangeError { line: 1, wrong: Wrong::MixedUnits }),
        _ => return Err(unknown()),
    };
    let mut lines = Lines::new(text);
    let mut rows: Vec<(usize, String, f64)> = Vec::new();
    let mut count = Count::default();
    for record in reader.records() {
        let record = record.map_err(|error| broken(&error))?;
        let line = record.position().map_or(0, |at| line_of(&mut lines, text, at.byte()));
        let fault = |wrong| ExchangeError { line, wrong };
        if record.len() != 2 {
            return Err(fault(Wrong::Fields { found: record.len(), expected: 2 }));
        }
        count.one("", 0)?;
        let field = |index| record.get(index).unwrap_or_default();
        rows.push((line, field(0).to_owned(), number::read(field(1)).map_err(fault)?));
    }
    if rows.is_empty() {
        return Err(ExchangeError::whole(Wrong::NoPlace));
    }
    let taped = match (stem(first), stem(second)) {
        ("side", "length") => sides(&rows)?,
        ("bearing", "length") => {
            Taped::Traverse(rows.into_iter().map(|(_, bearing, length)| (bearing, length)).collect())
        }
        ("along", "offset") => Taped::Offsets(pairs(&rows)?),
        ("east", "north") => Taped::Corners(pairs(&rows)?),
        _ => return Err(unknown()),
    };
    Ok(Sheet { feet, taped })
}

/// The line of a record that begins at a byte, or after the end of the line before it.
pub(super) fn line_of(lines: &mut Lines<'_>, text: &str, byte: u64) -> usize {
    let byte = usize::try_from(byte).unwrap_or(usize::MAX).min(text.len());
    let rest = text.as_bytes().get(byte..).unwrap_or_default();
    let ends = rest.iter().take_while(|byte| matches!(byte, b'\r' | b'\n')).count();
    lines.of(byte + ends)
}

/// Whether a column is in feet; nothing where it has no unit.
fn unit(column: &str) -> Option<bool> {
    if column.ends_with("_ft") {
        Some(true)
    } else if column.ends_with("_m") {
        Some(false)
    } else {
        None
    }
}

fn stem(column: &str) -> &str {
    column.strip_suffix("_ft").or_else(|| column.strip_suffix("_m")).unwrap_or(column)
}

fn pairs(rows: &[(usize, String, f64)]) -> Result<Vec<[f64; 2]>, ExchangeError> {
    rows.iter()
        .map(|(line, first, second)| {
            let first = number::read(first).map_err(|wrong| ExchangeError { line: *line, wrong })?;
            Ok([first, *second])
        })
        .collect()
}

fn sides(rows: &[(usize, String, f64)]) -> Result<Taped, ExchangeError> {
    let known = |name: &str| matches!(name, "a" | "b" | "c" | "bd") || QUADRILATERAL.contains(&name);
    let mut seen: Vec<String> = Vec::new();
    for (line, name, _) in rows {
        let name = name.to_ascii_lowercase();
        if !known(&name) || seen.contains(&name) {
            let name = name.chars().take(40).collect();
            return Err(ExchangeError { line: *line, wrong: Wrong::UnknownSide { name } });
        }
        seen.push(name);
    }
    let of = |wanted: &str| {
        rows.iter().find(|(_, name, _)| name.eq_ignore_ascii_case(wanted)).map(|(_, _, length)| *length)
    };
    if let (Some(a), Some(b), Some(c), 3) = (of("a"), of("b"), of("c"), rows.len()) {
        return Ok(Taped::Triangle([a, b, c]));
    }
    let sides: Vec<f64> = QUADRILATERAL.iter().filter_map(|name| of(name)).collect();
    match <[f64; 5]>::try_from(sides) {
        Ok(sides) if seen.iter().all(|name| name.len() == 2) => Ok(Taped::Quadrilateral(sides, of("bd"))),
        _ => Err(ExchangeError::whole(Wrong::UnknownSide { name: seen.join(", ") })),
    }
}
