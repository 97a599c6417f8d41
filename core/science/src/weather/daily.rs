//! Daily weather from a text of comma-separated values: `date,mean_c,rain_mm` and, where known, `et0_mm`.

use chrono::{Days, NaiveDate};

use super::{MOST_EVAPORATION_MM_DAY, MOST_RAIN_MM_DAY, PLAUSIBLE_MEAN_C};

/// Daily weather, one value a day from `first`, without gaps.
#[derive(Debug, Clone, PartialEq)]
pub struct Daily {
    /// Date of the first value.
    pub first: NaiveDate,
    /// Mean temperature, degrees C.
    pub mean_c: Vec<f64>,
    /// Rain, mm.
    pub rain_mm: Vec<f64>,
    /// Reference evaporation, mm.
    pub et0_mm: Option<Vec<f64>>,
}

/// A daily file that cannot be read. Lines count from 1.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[expect(missing_docs, reason = "the messages say what each field is")]
pub enum DailyError {
    #[error(
        "line {line}: the heading must be `date,mean_c,rain_mm`, with `,et0_mm` where known, not `{text}`"
    )]
    Heading { line: usize, text: String },
    #[error(
        "line {line}: columns are separated by `{found}`; separate them with commas and write decimals with a point"
    )]
    Separator { line: usize, found: char },
    #[error(
        "line {line}: {found} columns where the heading has {expected}; is there a decimal comma? write 12.5, not 12,5"
    )]
    Columns { line: usize, found: usize, expected: usize },
    #[error("line {line}: `{text}` in column {column} has a decimal comma; write it with a point")]
    DecimalComma { line: usize, column: &'static str, text: String },
    #[error("line {line}: `{text}` is no date; write it as 2026-04-15")]
    Date { line: usize, text: String },
    #[error("line {line}: `{text}` in column {column} is no number")]
    Number { line: usize, column: &'static str, text: String },
    #[error("line {line}: {value} in column {column} is outside {low} to {high}; check its unit")]
    OutOfRange { line: usize, column: &'static str, value: f64, low: f64, high: f64 },
    #[error("line {line}: {date} comes a second time; keep one line a day")]
    Duplicate { line: usize, date: NaiveDate },
    #[error("line {line}: {date} comes after {before}; put the days in order")]
    Order { line: usize, date: NaiveDate, before: NaiveDate },
    #[error("line {line}: {missing} is missing before {date}; every day needs a line")]
    Gap { line: usize, missing: NaiveDate, date: NaiveDate },
    #[error("line {line}: no day follows the heading")]
    Empty { line: usize },
}

impl DailyError {
    /// The line it is about.
    pub const fn line(&self) -> usize {
        match self {
            Self::Heading { line, .. }
            | Self::Separator { line, .. }
            | Self::Columns { line, .. }
            | Self::DecimalComma { line, .. }
            | Self::Date { line, .. }
            | Self::Number { line, .. }
            | Self::OutOfRange { line, .. }
            | Self::Duplicate { line, .. }
            | Self::Order { line, .. }
            | Self::Gap { line, .. }
            | Self::Empty { line } => *line,
        }
    }
}

/// Reads a daily file. A byte-order mark, Windows line ends and blank lines do not matter.
pub fn read_daily(text: &str) -> Result<Daily, DailyError> {
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let mut lines =
        text.lines().enumerate().map(|(i, line)| (i + 1, line.trim())).filter(|(_, line)| !line.is_empty());

    let (line, heading) = lines.next().unwrap_or((1, ""));
    let with_evaporation = read_heading(line, heading)?;
    let expected = if with_evaporation { 4 } else { 3 };

    let mut daily: Option<Daily> = None;
    let mut last = line;
    for (line, row) in lines {
        last = line;
        let cells = cells(line, row, expected)?;
        let date = read_date(line, cells.first().copied().unwrap_or_default())?;
        let figure = |at: usize, column, low, high| {
            read_figure(line, column, cells.get(at).copied().unwrap_or_default(), low, high)
        };
        let mean = figure(1, "mean_c", PLAUSIBLE_MEAN_C.0, PLAUSIBLE_MEAN_C.1)?;
        let rain = figure(2, "rain_mm", 0.0, MOST_RAIN_MM_DAY)?;
        let et0 =
            if with_evaporation { Some(figure(3, "et0_mm", 0.0, MOST_EVAPORATION_MM_DAY)?) } else { None };
        let days = daily.get_or_insert_with(|| Daily {
            first: date,
            mean_c: Vec::new(),
            rain_mm: Vec::new(),
            et0_mm: with_evaporation.then(Vec::new),
        });
        check_date(line, date, days)?;
        days.mean_c.push(mean);
        days.rain_mm.push(rain);
        if let (Some(values), Some(et0)) = (days.et0_mm.as_mut(), et0) {
            values.push(et0);
        }
    }
    daily.ok_or(DailyError::Empty { line: last })
}

/// Whether the heading has a column of evaporation.
fn read_heading(line: usize, heading: &str) -> Result<bool, DailyError> {
    if let Some(found) = [';', '\t'].into_iter().find(|c| heading.contains(*c)) {
        return Err(DailyError::Separator { line, found });
    }
    let names: Vec<String> =
        heading.split(',').map(|name| name.trim().trim_matches('"').to_ascii_lowercase()).collect();
    let names: Vec<&str> = names.iter().map(String::as_str).collect();
    match names.as_slice() {
        ["date", "mean_c", "rain_mm"] => Ok(false),
        ["date", "mean_c", "rain_mm", "et0_mm"] => Ok(true),
        _ => Err(DailyError::Heading { line, text: heading.chars().take(80).collect() }),
    }
}

/// The cells of a row; a quoted cell with a comma inside is a decimal comma.
fn cells(line: usize, row: &str, expected: usize) -> Result<Vec<&str>, DailyError> {
    const COLUMNS: [&str; 4] = ["date", "mean_c", "rain_mm", "et0_mm"];
    if let Some(found) = [';', '\t'].into_iter().find(|c| row.contains(*c)) {
        return Err(DailyError::Separator { line, found });
    }
    let mut cells = Vec::with_capacity(expected);
    let mut rest = row;
    loop {
        let quoted = rest.strip_prefix('"').and_then(|inside| inside.split_once('"'));
        let (cell, after) = quoted.unwrap_or_else(|| rest.split_at(rest.find(',').unwrap_or(rest.len())));
        if cell.contains(',') {
            let column = COLUMNS.get(cells.len()).copied().unwrap_or("et0_mm");
            return Err(DailyError::DecimalComma { line, column, text: cell.to_owned() });
        }
        cells.push(cell.trim());
        match after.trim_start().strip_prefix(',') {
            Some(next) => rest = next.trim_start(),
            None => break,
        }
    }
    if cells.len() == expected {
        Ok(cells)
    } else {
        Err(DailyError::Columns { line, found: cells.len(), expected })
    }
}

fn read_date(line: usize, text: &str) -> Result<NaiveDate, DailyError> {
    NaiveDate::parse_from_str(text, "%Y-%m-%d").map_err(|_| DailyError::Date { line, text: text.to_owned() })
}

fn read_figure(
    line: usize,
    column: &'static str,
    text: &str,
    low: f64,
    high: f64,
) -> Result<f64, DailyError> {
    let value = text
        .parse::<f64>()
        .ok()
        .filter(|value| value.is_finite())
        .ok_or_else(|| DailyError::Number { line, column, text: text.to_owned() })?;
    if (low..=high).contains(&value) {
        Ok(value)
    } else {
        Err(DailyError::OutOfRange { line, column, value, low, high })
    }
}

/// The day after the last one, or an error that names what is wrong.
fn check_date(line: usize, date: NaiveDate, so_far: &Daily) -> Result<(), DailyError> {
    let Some(before) = (so_far.mean_c.len() as u64).checked_sub(1) else {
        return Ok(());
    };
    let last = so_far.first.checked_add_days(Days::new(before)).unwrap_or(NaiveDate::MAX);
    let due = last.succ_opt().unwrap_or(NaiveDate::MAX);
    if date == due {
        Ok(())
    } else if date > due {
        Err(DailyError::Gap { line, missing: due, date })
    } else if date >= so_far.first {
        Err(DailyError::Duplicate { line, date })
    } else {
        Err(DailyError::Order { line, date, before: last })
    }
}
