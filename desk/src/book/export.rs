//! `book export`: places for maps and sheets, entries for sheets.

use kerfbook_acts::export_places;
use kerfbook_ledger::Book;
use kerfbook_ledger::exchange::{Format, Shape, csv_row};
use serde_json::json;

use super::of;
use super::told::Teller;
use crate::area::format_of;
use crate::cli;
use crate::context::Context;
use crate::fault::{Fault, Message};
use crate::output;

pub(super) fn export(args: &cli::Export, context: &Context) -> Result<(), Fault> {
    let format = format_of(&args.out)?;
    let written = args.out.display().to_string();
    let words = context.words();
    if args.entries {
        if format != Format::Csv {
            return Err(Fault::usage(Message::new("export-entries-csv"), Message::new("usage-help")));
        }
        let told = of(&args.file, || Teller::new(&Book::open(&args.file, None)?, words)?.all())?;
        let mut sheet = csv_row::write(["entry", "id", "date", "kind", "text", "by", "flags"]);
        for entry in &told {
            let flags = entry.flags.join("; ");
            let cells = [&entry.entry, &entry.id, &entry.date, &entry.kind, &entry.text, &entry.by, &flags];
            sheet.push_str(&csv_row::write(cells.map(String::as_str)));
        }
        output::write(&args.out, sheet.as_bytes())?;
        if context.json {
            return context.print_json(&json!({ "format": 1, "written": written, "entries": told.len() }));
        }
        let arguments = [("count", told.len().to_string()), ("file", written)];
        return context.print(&words.say("export-entries", &arguments));
    }
    // Only GPX holds a walk as it was.
    let walks = format == Format::Gpx;
    let features = of(&args.file, || export_places::features(&Book::open(&args.file, None)?, walks))?;
    output::write(&args.out, format.write(&features).as_bytes())?;
    let without = features.iter().filter(|feature| feature.shape == Shape::Unknown).count();
    if context.json {
        return context.print_json(&json!({
            "format": 1,
            "written": written,
            "places": features.len(),
            "without_outline": without,
        }));
    }
    let mut lines =
        vec![words.say("export-places", &[("count", features.len().to_string()), ("file", written)])];
    if without > 0 {
        let id = if format == Format::Wkt { "export-without-wkt" } else { "export-without" };
        lines.push(words.say(id, &[("count", without.to_string())]));
    }
    context.print(&lines.join("\n"))
}
