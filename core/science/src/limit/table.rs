//! The table of limits, embedded.

use std::sync::LazyLock;

use super::{Bound, Counts, Limit, Over};
use crate::source::{Source, Standing};
use crate::units::AreaMass;

const LIMITS: &str = include_str!("limits.csv");

/// All limits, those of the same rules together. A test holds that the embedded table parses whole.
pub fn all() -> &'static [Limit] {
    static TABLE: LazyLock<Vec<Limit>> = LazyLock::new(|| parse(LIMITS).unwrap_or_default());
    &TABLE
}

/// A table that cannot be read.
#[derive(Debug, thiserror::Error, PartialEq)]
pub enum TableError {
    /// A row has too few columns or broken quotes.
    #[error("row {row}: not a row of the table of limits")]
    Row {
        /// Row, the heading being 1.
        row: usize,
    },
    /// A cell holds what it must not.
    #[error("row {row}, column {column}: cannot use `{text}`")]
    Cell {
        /// Row, the heading being 1.
        row: usize,
        /// Heading of the column.
        column: &'static str,
        /// What stands there.
        text: String,
    },
}

fn parse(text: &'static str) -> Result<Vec<Limit>, TableError> {
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    let mut limits = Vec::new();
    for (i, cells) in reader.records().enumerate() {
        let number = i + 2;
        let cells = cells.map_err(|_| TableError::Row { row: number })?;
        limits.push(limit(&Row { number, cells })?);
    }
    Ok(limits)
}

/// One row with its number, for messages.
struct Row {
    number: usize,
    cells: csv::StringRecord,
}

impl Row {
    /// A cell, kept for as long as the program runs: the table is read once.
    fn text(&self, at: usize) -> Result<&'static str, TableError> {
        let text = self.cells.get(at).map(str::trim).ok_or(TableError::Row { row: self.number })?;
        Ok(text.to_owned().leak())
    }

    fn number<T: std::str::FromStr>(&self, at: usize, column: &'static str) -> Result<T, TableError> {
        let text = self.text(at)?;
        text.parse().map_err(|_| self.cannot_use(column, text))
    }

    fn word<T>(
        &self,
        at: usize,
        column: &'static str,
        known: impl Fn(&str) -> Option<T>,
    ) -> Result<T, TableError> {
        let text = self.text(at)?;
        known(text).ok_or_else(|| self.cannot_use(column, text))
    }

    fn cannot_use(&self, column: &'static str, text: &str) -> TableError {
        TableError::Cell { row: self.number, column, text: text.to_owned() }
    }
}

fn limit(row: &Row) -> Result<Limit, TableError> {
    let counts = row.word(2, "counts", counts_of)?;
    let bound = match row.text(1)? {
        "nitrogen" => Bound::Nitrogen {
            counts,
            most: AreaMass::from_kg_ha(row.number(4, "kg_ha")?),
            months: row.number(5, "months")?,
        },
        "days" => Bound::Days {
            counts,
            touching: row.number(6, "touching_days")?,
            clear: row.number(7, "clear_days")?,
        },
        other => return Err(row.cannot_use("bound", other)),
    };
    Ok(Limit {
        rules: row.text(0)?,
        bound,
        crop: Some(row.text(3)?).filter(|crop| !crop.is_empty()),
        over: row.word(8, "over", |text| match text {
            "holding" => Some(Over::Holding),
            "field" => Some(Over::Field),
            _ => None,
        })?,
        source: Source::new(
            row.text(9)?,
            row.number(10, "year")?,
            row.text(11)?,
            row.text(12)?,
            row.word(13, "standing", standing_of)?,
        ),
    })
}

fn counts_of(text: &str) -> Option<Counts> {
    Some(match text {
        "livestock-manure" => Counts::LivestockManure,
        "organic" => Counts::Organic,
        "organic-and-compost" => Counts::OrganicAndCompost,
        "all" => Counts::All,
        "raw-manure" => Counts::RawManure,
        "urine" => Counts::Urine,
        _ => return None,
    })
}

fn standing_of(text: &str) -> Option<Standing> {
    Some(match text {
        "published" => Standing::Published,
        "second-hand" => Standing::SecondHand,
        "from-memory" => Standing::FromMemory,
        _ => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_table_parses_whole() {
        assert_eq!(parse(LIMITS).map(|rows| rows.len()), Ok(LIMITS.lines().count() - 1));
    }

    #[test]
    fn a_spoilt_row_is_told_by_its_place() {
        let head = LIMITS.lines().next().unwrap_or_default();
        let spoilt = |row: &str| parse(format!("{head}\n{row}\n").leak());
        assert_eq!(spoilt("a,b"), Err(TableError::Row { row: 2 }));
        let row = "x,nitrogen,all,,much,12,,,field,A,2000,B,,published";
        let told = TableError::Cell { row: 2, column: "kg_ha", text: "much".to_owned() };
        assert_eq!(spoilt(row), Err(told));
        let row = "x,nitrogen,all,,1,12,,,field,A,2000,B,,rumour";
        assert!(matches!(spoilt(row), Err(TableError::Cell { column: "standing", .. })));
    }
}
