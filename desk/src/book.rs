//! `book`: entries as sentences, verification, balances worked out again, corrections.

mod export;
mod field;
mod import;
mod mistake;

use std::collections::BTreeMap;
use std::io::Read;
use std::path::Path;
use std::sync::Arc;

use comfy_table::{ContentArrangement, Table, presets};
use kerfbook_acts::error::ActError;
pub(crate) use kerfbook_acts::told_entry as told;
use kerfbook_ledger::store::append::Change;
use kerfbook_ledger::{
    BatchView, Book, Date, DeviceKey, EntryId, Finding, Head, Kind, LedgerError, Missing, PlaceView, Text,
    When, salvage, set_aside,
};
use serde::Serialize;

use self::told::{Teller, Told};
use crate::acted;
use crate::cli;
use crate::context::Context;
use crate::entries;
use crate::fault::{Fault, Message};
use crate::keys;
use crate::toml_file::layout::nearest;

pub(crate) fn run(command: &cli::Book, context: &Context) -> Result<(), Fault> {
    match command {
        cli::Book::Entries(args) => entries(&args.file, context),
        cli::Book::Verify(args) => verify(&args.file, context),
        cli::Book::Rebuild(args) => rebuild(&args.file, context),
        cli::Book::Correct(args) => correct(args, context),
        cli::Book::Enter(args) => entries::enter(args, context),
        cli::Book::Scores(args) => entries::score_sheet::take(args, context),
        cli::Book::Move(args) => mistake::moved(args, context),
        cli::Book::Same(args) => mistake::same(args, context),
        cli::Book::Unit(args) => mistake::unit(args, context),
        cli::Book::PutBack(args) => mistake::put_back(args, context),
        cli::Book::Export(args) => export::export(args, context),
        cli::Book::Import(args) => import::import(args, context),
    }
}

/// The device's key.
pub(crate) fn device_key() -> Result<DeviceKey, Fault> {
    keys::device_secret().map(|secret| DeviceKey::from_bytes(&secret))
}

/// Random bytes for salts and nonces.
pub(crate) fn random() -> Result<[u8; 16], Fault> {
    let mut bytes = [0; 16];
    getrandom::fill(&mut bytes)
        .map_err(|error| Fault::other(Message::new("desk-no-randomness").text("why", error)))?;
    Ok(bytes)
}

fn entries(path: &Path, context: &Context) -> Result<(), Fault> {
    let (told, report) = of(path, || {
        let book = Book::open(path, None)?;
        Ok((Teller::new(&book, context.words())?.all()?, book.verify()?))
    })?;
    if context.json {
        let verified = report.sound();
        return context.print_json(&Listed { format: 1, told: &told, verified, heads: report.heads });
    }
    let words = context.words();
    let heads = ["column-entry", "column-date", "column-what", "column-by"]
        .map(|id| words.label(&format!("book-{id}")));
    let mut table = plain_table();
    table.set_header(heads);
    for entry in &told {
        let mut text = entry.text.clone();
        if !entry.flags.is_empty() {
            text = format!("{text} [{}]", entry.flags.join("; "));
        }
        table.add_row([entry.entry.clone(), entry.date.clone(), text, entry.by.clone()]);
    }
    context.print(&table.to_string())
}

/// What every answer about a book holds.
#[derive(Serialize)]
struct State {
    format: u32,
    entries: u64,
    verified: bool,
    heads: Vec<Head>,
    findings: Vec<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    set_aside: Option<String>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    missing: Vec<Missing>,
}

/// Entries with what every answer holds.
#[derive(Serialize)]
struct Listed<'a> {
    format: u32,
    #[serde(rename = "entries")]
    told: &'a [Told],
    verified: bool,
    heads: Vec<Head>,
}

fn verify(path: &Path, context: &Context) -> Result<(), Fault> {
    let state = of(path, || state(&Book::open(path, None)?, context))?;
    show(&state, context)
}

fn state(book: &Book, context: &Context) -> Result<State, LedgerError> {
    let teller = Teller::new(book, context.words())?;
    let report = book.verify()?;
    Ok(State {
        format: 1,
        entries: report.entries,
        verified: report.sound(),
        findings: report.findings.iter().map(|finding| teller.finding(finding)).collect(),
        heads: report.heads,
        set_aside: None,
        missing: Vec::new(),
    })
}

/// Prints a book's state; what is not as it was written ends with exit code 1.
fn show(state: &State, context: &Context) -> Result<(), Fault> {
    if context.json {
        context.print_json(state)?;
    } else {
        let words = context.words();
        let entries = state.entries.to_string();
        let mut lines = Vec::new();
        if state.verified {
            lines.push(words.say("chain-sound", &[("entries", entries)]));
        } else {
            let findings = state.findings.len().to_string();
            lines.push(words.say("chain-broken", &[("entries", entries), ("findings", findings)]));
        }
        lines.extend(state.findings.iter().map(|finding| format!("  {finding}")));
        for head in &state.heads {
            let arguments = [
                ("device", head.device.to_string()),
                ("seq", head.seq.to_string()),
                ("hash", head.hash.to_string()),
            ];
            lines.push(words.say("chain-head", &arguments));
        }
        lines.push(words.label(if state.heads.len() > 1 { "chain-proves" } else { "chain-sole-device" }));
        context.print(&lines.join("\n"))?;
    }
    if state.verified { Ok(()) } else { Err(Fault::Told) }
}

fn rebuild(path: &Path, context: &Context) -> Result<(), Fault> {
    let key = keys::existing_secret()?.map(|secret| DeviceKey::from_bytes(&secret));
    let opened = Book::open(path, key.as_ref()).and_then(|mut book| {
        let damaged = book.verify()?.findings.into_iter().find_map(|finding| match finding {
            Finding::File { what } => Some(LedgerError::Damaged(what)),
            _ => None,
        });
        if let Some(damaged) = damaged {
            return Err(damaged);
        }
        book.rebuild()?;
        state(&book, context)
    });
    let state = match opened {
        Err(LedgerError::Damaged(_)) => of(path, || keep_what_verifies(path, key.as_ref(), context))?,
        other => of(path, || other)?,
    };
    if let (Some(aside), false) = (&state.set_aside, context.json) {
        let words = context.words();
        let shown = path.display().to_string();
        let mut lines = vec![words.say("error-book-damaged", &[("path", shown), ("aside", aside.clone())])];
        for gap in &state.missing {
            let arguments = [
                ("device", gap.device.to_string()),
                ("from", gap.from.to_string()),
                ("to", gap.to.to_string()),
            ];
            lines.push(words.say("error-book-missing-entries", &arguments));
        }
        context.print(&lines.join("\n"))?;
    }
    show(&state, context)
}

/// Writes what verifies of a damaged book to a new file, then lets the two change places.
fn keep_what_verifies(path: &Path, key: Option<&DeviceKey>, context: &Context) -> Result<State, LedgerError> {
    let stamp = context.wall_ms().to_string();
    let mut name = path.file_name().unwrap_or_default().to_os_string();
    name.push(format!(".kept-{stamp}"));
    let fresh = path.with_file_name(name);
    let salvaged = salvage(path, &fresh, key)?;
    let aside = set_aside(path, &stamp)?;
    std::fs::rename(&fresh, path).map_err(|error| LedgerError::Io(error.to_string()))?;
    let mut state = state(&Book::open(path, key)?, context)?;
    state.set_aside = Some(aside.display().to_string());
    state.missing = salvaged.missing;
    Ok(state)
}

fn correct(args: &cli::Correct, context: &Context) -> Result<(), Fault> {
    let path = args.file.as_path();
    let mut book = open_to_write(path)?;
    let no_such_entry = || {
        let what = Message::new("error-no-such-entry").text("entry", &args.entry);
        Fault::usage(what, Message::new("book-list-entries"))
    };
    let today = Date::of(context.today())
        .map_err(|error| Fault::other(Message::new("book-other").text("why", error)))?;
    let reason = Text::new(random()?, &args.reason);
    let change = Change { when: When::on(today), by: None, reason: Some(&reason) };

    let teller = of(path, || Teller::new(&book, context.words()))?;
    let target = of(path, || teller.find(&args.entry))?.ok_or_else(no_such_entry)?;
    let current = of(path, || book.current(target))?.ok_or_else(no_such_entry)?;
    if matches!(current.original.known_kind(), Some(Kind::HoldingOpened | Kind::DeviceEnrolled)) {
        return Err(Fault::of_book(path, &LedgerError::Fixed(target)));
    }
    let mut replaced = Vec::new();
    let mut texts = Vec::new();
    for assignment in &args.set {
        let assigned = field::assign(assignment, &current, &teller, random()?)
            .map_err(|what| Fault::usage(what, Message::new("book-set-form")))?;
        replaced.push(assigned.replacement);
        texts.extend(assigned.text);
    }
    let wall_ms = context.wall_ms();
    let written = of(path, || {
        if args.withdraw {
            return book.withdraw(target, change, wall_ms);
        }
        if !texts.is_empty() {
            book.append(&[], &texts, wall_ms)?;
        }
        book.correct(target, &replaced, change, wall_ms)
    })?;
    let (change, corrected) = of(path, || {
        let teller = Teller::new(&book, context.words())?;
        Ok((teller.tell_id(written)?, teller.tell_id(target)?))
    })?;
    if context.json {
        return context.print_json(&Changed { format: 1, entry: change, corrected });
    }
    context.print(&format!("{}  {}\n{}  {}", change.entry, change.text, corrected.entry, corrected.text))
}

/// A correction or withdrawal, and the entry as it stands after it.
#[derive(Serialize)]
struct Changed {
    format: u32,
    entry: Told,
    corrected: Told,
}

/// A book that this computer may write in; where it may not, whether for want of a key or of the right to the file.
pub(crate) fn open_to_write(path: &Path) -> Result<Book, Fault> {
    let key = keys::existing_secret()?.map(|secret| DeviceKey::from_bytes(&secret));
    let book = of(path, || Book::open(path, key.as_ref()))?;
    if book.writable() {
        return Ok(book);
    }
    let device = key.as_ref().map(DeviceKey::device);
    let enrolled = of(path, || book.devices())?.iter().any(|view| Some(view.public_key.device()) == device);
    let why = if enrolled { LedgerError::ReadOnly } else { LedgerError::NoKey };
    Err(Fault::of_book(path, &why))
}

/// Runs something on a book, and says which book it was where it fails.
pub(crate) fn of<T>(path: &Path, act: impl FnOnce() -> Result<T, LedgerError>) -> Result<T, Fault> {
    act().map_err(|error| Fault::of_book(path, &error))
}

/// What batches are called.
pub(crate) fn batch_names(book: &Book) -> Result<BTreeMap<EntryId, String>, LedgerError> {
    Ok(book.batches()?.into_iter().map(|batch| (batch.id, batch.label.as_str().to_owned())).collect())
}

/// A place of a book, where a name says so; none where the file is not a book.
pub(crate) fn place_of_book(
    path: &Path,
    name: Option<&str>,
) -> Result<Option<(Book, Arc<PlaceView>)>, Fault> {
    if let Some(name) = name {
        let book = of(path, || Book::open(path, None))?;
        let place = named_place(&book, path, name)?;
        return Ok(Some((book, place)));
    }
    if !is_book(path) {
        return Ok(None);
    }
    let book = of(path, || Book::open(path, None))?;
    let places = of(path, || book.places())?;
    let all = places.iter().filter(|place| !place.withdrawn()).map(|place| place.label.as_str());
    Err(Fault::usage(
        Message::new("desk-book-which-place"),
        Message::new("desk-choose").text("names", all.collect::<Vec<_>>().join(", ")),
    ))
}

/// What an act refused of a place of a book.
pub(crate) fn fault_of_place(path: &Path, place: &PlaceView, error: &ActError) -> Fault {
    match error {
        ActError::NoLoad => Fault::input(
            path,
            Message::new("desk-book-no-past").text("place", place.label.as_str()),
            Some(Message::new("desk-book-no-past-remedy")),
        ),
        error => acted::fault(path, error),
    }
}

/// Whether a file begins as books do: those are SQLite files.
pub(crate) fn is_book(path: &Path) -> bool {
    let mut head = [0; 16];
    let read = std::fs::File::open(path).and_then(|mut file| file.read_exact(&mut head));
    read.is_ok() && &head == b"SQLite format 3\0"
}

/// The place of a name.
pub(crate) fn named_place(book: &Book, path: &Path, name: &str) -> Result<Arc<PlaceView>, Fault> {
    let places = of(path, || book.places())?;
    let mut called = places.iter().filter(|place| !place.withdrawn() && place.label.as_str() == name);
    match (called.next(), called.next()) {
        (Some(place), None) => Ok(Arc::clone(place)),
        (Some(_), Some(_)) => Err(two_of_a_name(name)),
        (None, _) => Err(unknown_name(name, places.iter().map(|place| place.label.as_str()))),
    }
}

/// The batch of a label.
pub(crate) fn named_batch(book: &Book, path: &Path, name: &str) -> Result<Arc<BatchView>, Fault> {
    let batches = of(path, || book.batches())?;
    let mut called = batches.iter().filter(|batch| !batch.withdrawn() && batch.label.as_str() == name);
    match (called.next(), called.next()) {
        (Some(batch), None) => Ok(Arc::clone(batch)),
        (Some(_), Some(_)) => Err(two_of_a_name(name)),
        (None, _) => Err(unknown_name(name, batches.iter().map(|batch| batch.label.as_str()))),
    }
}

fn two_of_a_name(name: &str) -> Fault {
    Fault::usage(
        Message::new("enter-two-of-a-name").text("name", name),
        Message::new("enter-two-of-a-name-remedy"),
    )
}

fn unknown_name<'a>(name: &str, known: impl Iterator<Item = &'a str> + Clone) -> Fault {
    let near = nearest(name, known.clone(), 3);
    let remedy = if near.is_empty() {
        Message::new("desk-choose").text("names", known.collect::<Vec<_>>().join(", "))
    } else {
        Message::new("desk-did-you-mean").text("name", near.join(", "))
    };
    Fault::usage(Message::new("enter-unknown-name").text("name", name), remedy)
}

/// A table without lines, as wide as the terminal allows.
pub(crate) fn plain_table() -> Table {
    let mut table = Table::new();
    table.load_style(presets::NOTHING).set_content_arrangement(ContentArrangement::Dynamic);
    table
}
