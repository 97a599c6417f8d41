//! A file of plots: its columns by name, its rows with their lines.

use std::path::{Path, PathBuf};

use csv::{ReaderBuilder, Trim};
use kerfbook_science::trial::least_squares::Factor;

use crate::fault::{Complaint, Fault, Message, Spot};
use crate::toml_file::layout::nearest;
use crate::toml_file::text;

/// Longest file that is read.
const MOST_BYTES: u64 = 16 * 1024 * 1024;
/// Most lines of plots, visits counted one by one.
const MOST_ROWS: usize = 100_000;
/// Most complaints about one file.
const MOST_COMPLAINTS: usize = 12;

/// The file as text cells.
pub(crate) struct Table {
    path: PathBuf,
    text: String,
    names: Vec<String>,
    rows: Vec<Row>,
}

struct Row {
    line: usize,
    cells: Vec<String>,
}

/// A column by name.
#[derive(Debug, Clone)]
pub(crate) struct Column {
    /// As the heading writes it.
    pub name: String,
    at: usize,
}

/// The levels of a column in the order in which they come up.
pub(crate) struct Levels {
    /// What they are called.
    pub names: Vec<String>,
    /// Level of each row.
    pub of: Vec<usize>,
}

impl Levels {
    /// As a factor.
    pub(crate) fn factor(&self) -> Factor {
        Factor { levels: self.names.len(), of: self.of.clone() }
    }

    /// Of some rows only, in their order; all levels stay.
    pub(crate) fn of_rows(&self, rows: &[usize]) -> Self {
        Self { names: self.names.clone(), of: rows.iter().map(|&row| self.of[row]).collect() }
    }
}

impl Table {
    /// Reads a file whose columns are parted by commas, as a figure with a comma would be two.
    pub(crate) fn read(path: &Path) -> Result<Self, Fault> {
        let table = Self::parted(path, b',')?;
        if table.names.len() == 1 && table.names.iter().any(|name| name.contains([';', '\t'])) {
            let form = Some(Message::new("trial-form"));
            return Err(table.fault(vec![table.at(1, "", Message::new("trial-separator"), form)]));
        }
        table.checked()
    }

    /// Reads a file that a spreadsheet wrote: parted by what its first line has, be that commas, semicolons or tabs.
    pub(crate) fn read_sheet(path: &Path) -> Result<Self, Fault> {
        let text = text::read(path, MOST_BYTES)?;
        let heading = text.lines().next().unwrap_or_default();
        let by = [b';', b'\t'].into_iter().find(|by| heading.contains(char::from(*by))).unwrap_or(b',');
        Self::parted(path, by)?.checked()
    }

    fn parted(path: &Path, by: u8) -> Result<Self, Fault> {
        let text = text::read(path, MOST_BYTES)?;
        let mut reader = ReaderBuilder::new()
            .delimiter(by)
            .has_headers(false)
            .flexible(true)
            .trim(Trim::All)
            .from_reader(text.as_bytes());
        let mut rows: Vec<Row> = Vec::new();
        for record in reader.records().map_while(Result::ok) {
            if record.iter().all(str::is_empty) {
                continue;
            }
            let start = record.position().and_then(|at| usize::try_from(at.byte()).ok()).unwrap_or(0);
            let rest = text.get(start..).unwrap_or_default();
            let start = start + (rest.len() - rest.trim_start_matches(['\r', '\n']).len());
            let line = text.get(..start).unwrap_or_default().matches('\n').count() + 1;
            rows.push(Row { line, cells: record.iter().map(str::to_owned).collect() });
            if rows.len() > MOST_ROWS + 1 {
                break;
            }
        }
        let mut rows = rows.into_iter();
        let names = rows.next().map(|row| row.cells).unwrap_or_default();
        Ok(Self { path: path.to_owned(), text, names, rows: rows.collect() })
    }

    fn checked(self) -> Result<Self, Fault> {
        if self.rows.is_empty() {
            let form = Some(Message::new("trial-form"));
            return Err(self.fault(vec![self.at(1, "", Message::new("trial-no-rows"), form)]));
        }
        if self.rows.len() > MOST_ROWS {
            let what = Message::new("trial-too-many").text("most", MOST_ROWS);
            return Err(self.fault(vec![self.at(1, "", what, None)]));
        }
        Ok(self)
    }

    /// What the columns are called.
    pub(crate) fn names(&self) -> &[String] {
        &self.names
    }

    /// How many rows there are.
    pub(crate) fn len(&self) -> usize {
        self.rows.len()
    }

    /// The line of a row in the file.
    pub(crate) fn line(&self, row: usize) -> usize {
        self.rows.get(row).map_or(1, |row| row.line)
    }

    /// A column that may be there.
    pub(crate) fn find(&self, name: &str) -> Option<Column> {
        let same = |own: &&String| own.to_lowercase() == name.to_lowercase();
        let exact = self.names.iter().position(|own| own == name);
        let at = exact.or_else(|| self.names.iter().position(|own| same(&own)))?;
        Some(Column { name: self.names[at].clone(), at })
    }

    /// A column that must be there.
    pub(crate) fn column(&self, name: &str) -> Result<Column, Fault> {
        self.find(name).ok_or_else(|| {
            let remedy = match nearest(name, self.names.iter().map(String::as_str), 1).first() {
                Some(near) => Message::new("desk-did-you-mean").text("name", near),
                None => Message::new("trial-columns-are").text("names", self.names.join(", ")),
            };
            let what = Message::new("trial-no-column").text("name", name);
            self.fault(vec![self.at(1, name, what, Some(remedy))])
        })
    }

    /// A cell; empty where the row ends before it.
    pub(crate) fn cell(&self, row: usize, column: &Column) -> &str {
        self.rows.get(row).and_then(|row| row.cells.get(column.at)).map_or("", String::as_str)
    }

    /// The levels of a column; a cell without one is complained of.
    pub(crate) fn levels(&self, column: &Column) -> Result<Levels, Fault> {
        let mut levels = Levels { names: Vec::new(), of: Vec::with_capacity(self.rows.len()) };
        let mut complaints = Vec::new();
        for row in 0..self.rows.len() {
            let cell = self.cell(row, column);
            if cell.is_empty() {
                let what = Message::new("trial-empty-cell").text("name", &column.name);
                complaints.push(self.of_row(row, &column.name, what, Some(Message::new("trial-form"))));
                continue;
            }
            let known = levels.names.iter().position(|name| name == cell);
            levels.of.push(known.unwrap_or_else(|| {
                levels.names.push(cell.to_owned());
                levels.names.len() - 1
            }));
        }
        if complaints.is_empty() { Ok(levels) } else { Err(self.fault(complaints)) }
    }

    /// The values of a column as written; `None` for lost plots. `percent` keeps them from 0 to 100.
    pub(crate) fn values(&self, column: &Column, percent: bool) -> Result<Vec<Option<&str>>, Fault> {
        let mut values = Vec::with_capacity(self.rows.len());
        let mut complaints = Vec::new();
        for row in 0..self.rows.len() {
            let cell = self.cell(row, column);
            if is_lost(cell) {
                values.push(None);
                continue;
            }
            let number = cell.parse::<f64>().ok().filter(|number| number.is_finite());
            match number {
                Some(number) if percent && !(0.0..=100.0).contains(&number) => {
                    complaints.push(self.bad(row, column, cell, "trial-percent", None));
                }
                Some(_) => values.push(Some(cell)),
                None => {
                    let point = cell.replace(',', ".");
                    let remedy = if point.parse::<f64>().is_ok() {
                        Message::new("desk-write-number").text("line", point)
                    } else {
                        Message::new("trial-form")
                    };
                    complaints.push(self.bad(row, column, cell, "trial-text", Some(remedy)));
                }
            }
        }
        if complaints.is_empty() { Ok(values) } else { Err(self.fault(complaints)) }
    }

    /// Something wrong with a cell.
    pub(crate) fn bad(
        &self,
        row: usize,
        column: &Column,
        cell: &str,
        id: &'static str,
        remedy: Option<Message>,
    ) -> Complaint {
        let shown: String = cell.chars().take(60).collect();
        self.of_row(
            row,
            &column.name,
            Message::new(id).text("name", &column.name).text("value", shown),
            remedy,
        )
    }

    /// Something wrong with a row.
    pub(crate) fn of_row(&self, row: usize, key: &str, what: Message, remedy: Option<Message>) -> Complaint {
        self.at(self.line(row), key, what, remedy)
    }

    /// Something wrong with a line.
    pub(crate) fn at(&self, line: usize, key: &str, what: Message, remedy: Option<Message>) -> Complaint {
        Complaint { file: None, spot: Some(Spot::line(&self.text, line)), key: key.to_owned(), what, remedy }
    }

    /// The file cannot be used; the first few complaints say why.
    pub(crate) fn fault(&self, mut complaints: Vec<Complaint>) -> Fault {
        complaints.truncate(MOST_COMPLAINTS);
        Fault::Input { file: self.path.clone(), complaints }
    }
}

/// How people write a plot without a value.
fn is_lost(cell: &str) -> bool {
    matches!(cell, "" | "-" | "." | "*")
        || cell.eq_ignore_ascii_case("na")
        || cell.eq_ignore_ascii_case("n/a")
}
