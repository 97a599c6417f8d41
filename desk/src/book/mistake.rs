//! `book move`, `book same`, `book unit`, `book restore`: mistakes put right whole, each in one step.

use std::path::Path;

use kerfbook_acts::error::ActError;
use kerfbook_acts::mistake::{self, Unit};
use kerfbook_acts::moment::Moment;
use kerfbook_ledger::{Book, EntryId, Text};
use serde::Serialize;

use super::told::{Teller, Told};
use super::{named_place, of, open_to_write, random};
use crate::context::Context;
use crate::fault::{Fault, Message};
use crate::toml_file::layout::nearest;
use crate::{acted, cli};

/// What was written to put a mistake right.
#[derive(Serialize)]
struct Righted {
    format: u32,
    entries: Vec<Told>,
}

fn entry(book: &Book, path: &Path, text: &str, context: &Context) -> Result<EntryId, Fault> {
    let found = of(path, || Teller::new(book, context.words())?.find(text))?;
    let there = found.map(|id| of(path, || Ok(book.entry(id)?.map(|_| id)))).transpose()?.flatten();
    there.ok_or_else(|| {
        let what = Message::new("error-no-such-entry").text("entry", text);
        Fault::usage(what, Message::new("book-list-entries"))
    })
}

/// The batch of a name or of an entry's number.
fn batch(book: &Book, path: &Path, name: &str, context: &Context) -> Result<EntryId, Fault> {
    let batches = of(path, || book.batches())?;
    let mut called = batches.iter().filter(|batch| !batch.withdrawn() && batch.label.as_str() == name);
    if let (Some(batch), None) = (called.next(), called.next()) {
        return Ok(batch.id);
    }
    let meant = of(path, || Teller::new(book, context.words())?.find(name))?;
    if let Some(batch) = batches.iter().find(|batch| Some(batch.id) == meant) {
        return Ok(batch.id);
    }
    let near = nearest(name, batches.iter().map(|batch| batch.label.as_str()), 3).join(", ");
    let remedy = if near.is_empty() {
        Message::new("book-list-entries")
    } else {
        Message::new("desk-did-you-mean").text("name", near)
    };
    Err(Fault::usage(Message::new("enter-unknown-name").text("name", name), remedy))
}

/// Runs one flow, and tells what it wrote.
fn right(
    path: &Path,
    reason: &str,
    context: &Context,
    flow: impl FnOnce(&mut Book, &Text, Moment) -> Result<Result<Vec<EntryId>, ActError>, Fault>,
) -> Result<(), Fault> {
    let mut book = open_to_write(path)?;
    let reason = Text::new(random()?, reason);
    let moment = Moment { date: context.today(), wall_ms: context.wall_ms(), by: None };
    let written = flow(&mut book, &reason, moment)?.map_err(|error| acted::fault(path, &error))?;
    let entries = of(path, || {
        let teller = Teller::new(&book, context.words())?;
        written.iter().map(|entry| teller.tell_id(*entry)).collect::<Result<Vec<_>, _>>()
    })?;
    if context.json {
        return context.print_json(&Righted { format: 1, entries });
    }
    let lines: Vec<String> = entries.iter().map(|told| format!("{}  {}", told.entry, told.text)).collect();
    context.print(&lines.join("\n"))
}

/// The wrong place: entries go to the right one, with what hangs on them.
pub(super) fn moved(args: &cli::Move, context: &Context) -> Result<(), Fault> {
    right(&args.file, &args.reason, context, |book, reason, moment| {
        let place = named_place(book, &args.file, &args.to)?.id;
        let entries: Vec<EntryId> =
            args.entry.iter().map(|text| entry(book, &args.file, text, context)).collect::<Result<_, _>>()?;
        Ok(mistake::moved_to(book, &entries, place, Some(reason), moment))
    })
}

/// One load entered twice: the second goes, its uses become the first's.
pub(super) fn same(args: &cli::Same, context: &Context) -> Result<(), Fault> {
    right(&args.file, &args.reason, context, |book, reason, moment| {
        let keep = batch(book, &args.file, &args.keep, context)?;
        let second = batch(book, &args.file, &args.second, context)?;
        Ok(mistake::same_load(book, keep, second, Some(reason), moment))
    })
}

/// The wrong unit: the same figure, in the unit that was meant.
pub(super) fn unit(args: &cli::Unit, context: &Context) -> Result<(), Fault> {
    let named = |name: &str| {
        Unit::of_name(name).ok_or_else(|| {
            let known = Unit::ALL.map(Unit::name).join(", ");
            Fault::usage(
                Message::new("usage-value").text("name", "--written, --meant").text("value", name),
                Message::new("desk-choose").text("names", known),
            )
        })
    };
    let (written, meant) = (named(&args.written)?, named(&args.meant)?);
    right(&args.file, &args.reason, context, |book, reason, moment| {
        let entry = entry(book, &args.file, &args.entry, context)?;
        Ok(mistake::wrong_unit(book, entry, written, meant, Some(reason), moment).map(|one| vec![one]))
    })
}

/// An entry that was taken out goes back in.
pub(super) fn put_back(args: &cli::PutBack, context: &Context) -> Result<(), Fault> {
    right(&args.file, &args.reason, context, |book, reason, moment| {
        let entry = entry(book, &args.file, &args.entry, context)?;
        Ok(mistake::put_back(book, entry, Some(reason), moment))
    })
}
