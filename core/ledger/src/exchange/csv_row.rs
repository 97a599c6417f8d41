//! Rows of CSV as RFC 4180 has them, every cell guarded against spreadsheets that would run it as a formula.

use std::borrow::Cow;

use super::{ExchangeError, Wrong};

/// Beginnings that spreadsheets take for a formula.
const FORMULA: [char; 6] = ['=', '+', '-', '@', '\t', '\r'];

/// Columns of a sheet that is read, at most.
const MOST_COLUMNS: usize = 1_000;

/// Refuses rows of very many fields before anything is built from them.
pub(super) fn within(text: &str) -> Result<(), ExchangeError> {
    let (mut fields, mut quoted) = (1, false);
    for (at, byte) in text.bytes().enumerate() {
        match byte {
            b'"' => quoted = !quoted,
            b',' if !quoted => fields += 1,
            b'\n' if !quoted => fields = 1,
            _ => {}
        }
        if fields > MOST_COLUMNS {
            return Err(ExchangeError::at(text, at, Wrong::Fields { found: fields, expected: MOST_COLUMNS }));
        }
    }
    Ok(())
}

/// A row with its line end. A cell that a spreadsheet would take for a formula begins with an apostrophe.
pub fn write<'a>(cells: impl IntoIterator<Item = &'a str>) -> String {
    let mut row = String::new();
    for (index, cell) in cells.into_iter().enumerate() {
        if index > 0 {
            row.push(',');
        }
        let cell = guarded(cell);
        if cell.contains([',', '"', '\r', '\n']) {
            row.push('"');
            row.push_str(&cell.replace('"', "\"\""));
            row.push('"');
        } else {
            row.push_str(&cell);
        }
    }
    row.push_str("\r\n");
    row
}

/// A cell as it is written. An apostrophe that would read as a guard gets one of its own.
fn guarded(cell: &str) -> Cow<'_, str> {
    if is_formula(cell.trim_start_matches('\'')) {
        Cow::Owned(format!("'{cell}"))
    } else {
        Cow::Borrowed(cell)
    }
}

fn is_formula(text: &str) -> bool {
    text.starts_with(FORMULA)
}

/// A cell as it was before it was guarded.
pub fn unguarded(cell: &str) -> &str {
    match cell.strip_prefix('\'') {
        Some(rest) if is_formula(rest.trim_start_matches('\'')) => rest,
        _ => cell,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_cell_reads_back_and_none_is_a_formula() {
        let cells = [
            "plain",
            "",
            "=1+1",
            "+1",
            "-1",
            "@SUM(A1)",
            "\tx",
            "\rx",
            "'=1",
            "''=1",
            "'t hof",
            "a,b",
            "say \"=x\"",
            "two\r\nlines",
            " spaces ",
            "ñandú",
        ];
        let text = write(cells);
        assert!(text.ends_with("\r\n"));
        let mut reader = csv::ReaderBuilder::new().has_headers(false).from_reader(text.as_bytes());
        let row = reader.records().next().unwrap().unwrap();
        assert!(row.iter().all(|cell| !is_formula(cell)));
        assert_eq!(row.iter().map(unguarded).collect::<Vec<_>>(), cells);
    }
}
