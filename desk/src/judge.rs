//! `judge`: forecasts that were acted on, against what was read afterwards.

use chrono::NaiveDate;
use kerfbook_acts::judge::{Line, Tally, What, judge};
use kerfbook_acts::told;
use kerfbook_ledger::{Book, EntryId, LedgerError};
use kerfbook_science::units::AreaMass;
use kerfbook_words::Words;
use serde::Serialize;

use crate::book::{of, plain_table};
use crate::context::Context;
use crate::fault::Fault;
use crate::{acted, cli};

#[derive(Serialize)]
struct Document {
    format: u32,
    mineral: Counted,
    hungry: Counted,
    lines: Vec<Row>,
    said: String,
}

#[derive(Serialize)]
struct Counted {
    hits: u32,
    of: u32,
    expected: f64,
    give_or_take: f64,
}

#[derive(Serialize)]
struct Row {
    place: String,
    forecast: String,
    reading: String,
    date: NaiveDate,
    what: &'static str,
    read: Option<f64>,
    p10: Option<f64>,
    p90: Option<f64>,
    hit: bool,
}

pub(crate) fn run(args: &cli::BookFile, context: &Context) -> Result<(), Fault> {
    let book = of(&args.file, || Book::open(&args.file, None))?;
    let judging = judge(&book).map_err(|error| acted::fault(&args.file, &error))?;
    let words = context.words();
    let said = told::judged(&judging, words).join(" ");
    if context.json {
        let lines = of(&args.file, || judging.lines.iter().map(|line| row(line, &book)).collect())?;
        let counted = |tally: Tally| Counted {
            hits: tally.hits,
            of: tally.of,
            expected: tally.expected,
            give_or_take: tally.give_or_take,
        };
        let (mineral, hungry) = (counted(judging.mineral()), counted(judging.hungry()));
        return context.print_json(&Document { format: 1, mineral, hungry, lines, said });
    }
    if judging.lines.is_empty() {
        return context.print(&said);
    }
    let mut table = plain_table();
    let heads = ["judge-where", "judge-when", "judge-what", "judge-foretold", "judge-read", "judge-inside"];
    table.set_header(heads.map(|id| words.label(id)));
    for line in &judging.lines {
        table.add_row(of(&args.file, || cells(line, &book, words))?);
    }
    context.print(&format!("{said}\n\n{table}"))
}

fn place(book: &Book, id: EntryId) -> Result<String, LedgerError> {
    Ok(book.place(id)?.map(|view| view.label.as_str().to_owned()).unwrap_or_default())
}

fn row(line: &Line, book: &Book) -> Result<Row, LedgerError> {
    let (what, read, p10, p90) = match line.what {
        What::Mineral { read, p10, p90 } => ("mineral_kg_ha", Some(read), Some(p10), Some(p90)),
        What::Hungry { by, p10, p90, .. } => ("hungry_day", by, p10, p90),
    };
    Ok(Row {
        place: place(book, line.place)?,
        forecast: line.forecast.to_string(),
        reading: line.reading.to_string(),
        date: line.date,
        what,
        read,
        p10,
        p90,
        hit: line.hit,
    })
}

fn cells(line: &Line, book: &Book, words: &Words) -> Result<Vec<String>, LedgerError> {
    let nitrogen = |kg_ha: f64| words.nitrogen_number(AreaMass::from_kg_ha(kg_ha));
    let day =
        |day: Option<f64>| day.map_or_else(|| words.label("judge-never"), |day| words.days(day.round()));
    let (what, foretold, read) = match line.what {
        What::Mineral { read, p10, p90 } => (
            "judge-mineral",
            words.range(&nitrogen(p10), &words.nitrogen(AreaMass::from_kg_ha(p90))),
            words.nitrogen(AreaMass::from_kg_ha(read)),
        ),
        What::Hungry { by, p10, p90, .. } => ("judge-hungry", words.range(&day(p10), &day(p90)), day(by)),
    };
    let inside = if line.hit { "judge-inside" } else { "judge-outside" };
    Ok(vec![
        place(book, line.place)?,
        words.date_with_year(line.date),
        words.label(what),
        foretold,
        read,
        words.label(inside),
    ])
}
