//! `demo`: an invented holding's season, from intake to a correction, in a book of its own, with its report.

mod ground_plan;
mod page;
mod pile;
mod season;
mod second_year;
mod trial;

use std::path::Path;

use kerfbook_acts::compare::{self, RUNS, Reach};
use kerfbook_acts::told;
use kerfbook_ledger::{Book, LedgerError};
use serde_json::json;

use crate::cli;
use crate::context::Context;
use crate::fault::{Fault, Message};
use crate::{acted, book, output, report};

/// The book's file in the demo's folder.
const BOOK: &str = "demo.kerfbook";
/// The report's file in the demo's folder.
const REPORT: &str = "report.html";

pub(crate) fn run(args: &cli::Demo, context: &Context) -> Result<(), Fault> {
    let new = !args.out.exists();
    output::folder(&args.out)?;
    let key = book::device_key().inspect_err(|_| {
        if new {
            // Only an empty folder goes; what is in it by now is not ours.
            let _ = std::fs::remove_dir(&args.out);
        }
    })?;
    let file = args.out.join(BOOK);
    let report_file = args.out.join(REPORT);
    set_out_of_the_way(&file)?;
    let words = context.words();
    let bar = context.progress(3, &words.label("demo-plays"));
    let scenario = season::question();
    let comparison = compare::compare(&scenario, Reach::ThreeYears, RUNS, args.seed)
        .map_err(|error| acted::fault(&file, &error))?;
    bar.inc(1);
    let mut book = season::found(&file, &key, context.wall_ms())?;
    let played = season::play(&mut book, &comparison, args.seed, words)
        .map_err(|error| acted::fault(&file, &error))?;
    bar.inc(1);
    let view = page::view(&book, &played, &comparison, &scenario, args.seed, words)
        .map_err(|error| acted::fault(&file, &error))?;
    output::write(&report_file, report::page(&view, words).as_bytes())?;
    let checked = book.verify().map_err(|error| broken(&error))?;
    book.settle().map_err(|error| broken(&error))?;
    bar.finish_and_clear();
    let told = told::tell(&comparison, &scenario, words);
    if context.json {
        return context.print_json(&json!({
            "format": 1,
            "report": report_file.display().to_string(),
            "book": file.display().to_string(),
            "entries": checked.entries,
            "verified": checked.sound(),
            "answer": told,
            "seed": args.seed,
        }));
    }
    let mut lines = vec![words.label("demo-invented"), String::new(), told.paragraph(words), String::new()];
    lines.extend(told.more.iter().cloned());
    lines.extend(told.wait.iter().cloned());
    lines.push(String::new());
    lines.push(words.say("demo-report", &[("file", report_file.display().to_string())]));
    lines.push(
        words.say(
            "demo-book",
            &[("file", file.display().to_string()), ("entries", checked.entries.to_string())],
        ),
    );
    lines.push(words.say("demo-next", &[("file", file.display().to_string())]));
    context.print(&lines.join("\n"))
}

/// A demo played before gives way to this one; any other file of that name is left alone.
fn set_out_of_the_way(file: &Path) -> Result<(), Fault> {
    if !file.exists() {
        return Ok(());
    }
    let ours = Book::open(file, None).is_ok_and(|book| season::is_demo(&book));
    if !ours {
        let remedy = Some(Message::new("demo-not-ours-remedy"));
        return Err(Fault::input(file, Message::new("demo-not-ours"), remedy));
    }
    for ending in ["", "-wal", "-shm"] {
        let part = file.with_file_name(format!("{BOOK}{ending}"));
        match std::fs::remove_file(&part) {
            Ok(()) => {}
            Err(error) if error.kind() == std::io::ErrorKind::NotFound => {}
            Err(error) => {
                return Err(Fault::other(
                    Message::new("demo-cannot-replace").text("file", part.display()).text("why", error),
                ));
            }
        }
    }
    Ok(())
}

/// A book that does not do what it must.
fn broken(error: &LedgerError) -> Fault {
    Fault::other(Message::new("act-book").text("why", error))
}

/// Random bytes for the demo's key, nonce and salts.
fn random() -> Result<[u8; 16], Fault> {
    book::random()
}
