//! `report`: one page of a book, to read and to print.

use kerfbook_ledger::Book;
use serde_json::json;

use super::of_book::{of_book, sources};
use super::{ReportView, page};
use crate::book::of;
use crate::context::Context;
use crate::fault::Fault;
use crate::{acted, cli, output};

pub(crate) fn run(args: &cli::Report, context: &Context) -> Result<(), Fault> {
    let on = args.on.unwrap_or_else(|| context.today());
    let book = of(&args.file, || Book::open(&args.file, None))?;
    let words = context.words();
    let found = of_book(&book, on, args.seed, words).map_err(|error| acted::fault(&args.file, &error))?;
    let entries = found.book.entries.len();
    let view = ReportView {
        holding: found.holding,
        date: words.date_with_year(on),
        about: vec![found.judged],
        answer: None,
        todo: Some(found.todo),
        map: found.map,
        places: found.places,
        ways: None,
        assumed: Vec::new(),
        cautions: Vec::new(),
        piles: found.piles,
        trials: found.trials,
        stock: found.stock,
        records: found.records,
        book: found.book,
        sources: sources(words),
    };
    output::write(&args.out, page(&view, words).as_bytes())?;
    let shown = args.out.display().to_string();
    if context.json {
        return context.print_json(&json!({ "format": 1, "report": shown, "entries": entries }));
    }
    context.print(&words.say("demo-report", &[("file", shown)]))
}
