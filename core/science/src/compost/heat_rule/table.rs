//! The table of heat rules, embedded.

use std::str::FromStr;
use std::sync::LazyLock;

use super::{Consecutive, Hold, Method, Rule};
use crate::source::{Source, Standing};
use crate::units::Temperature;

const RULES: &str = include_str!("rules.csv");

/// All rules, those of one body together. A test holds that the embedded table parses whole.
pub fn all() -> &'static [Rule] {
    static TABLE: LazyLock<Vec<Rule>> = LazyLock::new(|| parse(RULES).unwrap_or_default());
    &TABLE
}

/// A table that cannot be read.
#[derive(Debug, thiserror::Error, PartialEq)]
pub enum TableError {
    /// A row has too few columns or broken quotes.
    #[error("row {row}: not a row of the table of heat rules")]
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

fn parse(text: &'static str) -> Result<Vec<Rule>, TableError> {
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    let heads = reader.headers().map_err(|_| TableError::Row { row: 1 })?.clone();
    let mut rules = Vec::new();
    for (i, cells) in reader.records().enumerate() {
        let number = i + 2;
        let cells = cells.map_err(|_| TableError::Row { row: number })?;
        rules.push(rule(&Row { number, heads: &heads, cells })?);
    }
    Ok(rules)
}

/// One row with its number, for messages.
struct Row<'a> {
    number: usize,
    heads: &'a csv::StringRecord,
    cells: csv::StringRecord,
}

impl Row<'_> {
    /// A cell, kept for as long as the program runs: the table is read once.
    fn text(&self, column: &'static str) -> Result<&'static str, TableError> {
        let at = self.heads.iter().position(|head| head == column);
        let cell = at.and_then(|at| self.cells.get(at)).ok_or(TableError::Row { row: self.number })?;
        Ok(cell.trim().to_owned().leak())
    }

    fn number<T: FromStr>(&self, column: &'static str) -> Result<Option<T>, TableError> {
        let text = self.text(column)?;
        if text.is_empty() {
            return Ok(None);
        }
        text.parse().map(Some).map_err(|_| self.cannot_use(column, text))
    }

    fn word<T: Copy>(&self, column: &'static str, known: &[(&str, T)]) -> Result<T, TableError> {
        let text = self.text(column)?;
        let found = known.iter().find(|(word, _)| *word == text);
        found.map(|(_, meaning)| *meaning).ok_or_else(|| self.cannot_use(column, text))
    }

    fn words(&self, column: &'static str) -> Result<Vec<&'static str>, TableError> {
        Ok(self.text(column)?.split_whitespace().collect())
    }

    fn cannot_use(&self, column: &'static str, text: &str) -> TableError {
        TableError::Cell { row: self.number, column, text: text.to_owned() }
    }
}

const YES_NO: [(&str, bool); 2] = [("yes", true), ("no", false)];

fn rule(row: &Row) -> Result<Rule, TableError> {
    let fahrenheit = row.word("scale", &[("C", false), ("F", true)])?;
    let heat = |column| {
        let of = if fahrenheit { Temperature::from_f } else { Temperature::from_c };
        Ok(row.number::<f64>(column)?.map(of))
    };
    let missing = |column| row.cannot_use(column, "");
    let hold = match (row.number("days")?, row.number("hours")?) {
        (Some(days), None) => Hold::Days(days),
        (None, Some(hours)) => Hold::Hours(hours),
        _ => return Err(missing("days")),
    };
    Ok(Rule {
        id: row.text("id")?,
        method: row.word(
            "method",
            &[
                ("windrow", Method::Windrow),
                ("vessel-or-aerated", Method::VesselOrAerated),
                ("static", Method::Static),
                ("any", Method::Any),
            ],
        )?,
        at_least: heat("at_least")?.ok_or_else(|| missing("at_least"))?,
        strict: row.word("strict", &YES_NO)?,
        fahrenheit,
        hold,
        consecutive: row.word(
            "consecutive",
            &[("yes", Consecutive::Yes), ("no", Consecutive::No), ("unsaid", Consecutive::Unsaid)],
        )?,
        turnings: row.number("turnings")?.unwrap_or(0),
        spacing_days: row.number("spacing_days")?.unwrap_or(0),
        cycles: row.number("cycles")?.unwrap_or(1),
        mean_above: heat("mean_above")?,
        peak: heat("peak_above")?.zip(row.number("peak_hours")?),
        upper: heat("upper")?,
        within_days: row.number("within_days")?,
        zones: row.words("zones")?,
        depth_cm: row.number("depth_low_cm")?.zip(row.number("depth_high_cm")?),
        besides: row.words("besides")?,
        animal_matter: row.word("animal_matter", &YES_NO)?,
        source: Source::new(
            row.text("body")?,
            row.number("year")?.ok_or_else(|| missing("year"))?,
            row.text("work")?,
            row.text("place")?,
            row.word(
                "standing",
                &[
                    ("published", Standing::Published),
                    ("second-hand", Standing::SecondHand),
                    ("from-memory", Standing::FromMemory),
                ],
            )?,
        ),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_table_parses_whole() {
        assert_eq!(parse(RULES).map(|rows| rows.len()), Ok(RULES.lines().count() - 1));
    }

    #[test]
    fn a_spoilt_row_is_told_by_its_place() {
        let head = RULES.lines().next().unwrap_or_default();
        let first = RULES.lines().nth(1).unwrap_or_default();
        let spoilt = |row: &str| parse(format!("{head}\n{row}\n").leak());
        assert_eq!(spoilt("a,b"), Err(TableError::Row { row: 2 }));
        let told = TableError::Cell { row: 2, column: "at_least", text: "hot".to_owned() };
        assert_eq!(spoilt(&first.replace(",55,", ",hot,")), Err(told));
        let told = TableError::Cell { row: 2, column: "standing", text: "rumour".to_owned() };
        assert_eq!(spoilt(&first.replace("from-memory", "rumour")), Err(told));
    }
}
