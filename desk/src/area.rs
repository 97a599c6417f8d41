//! `area`: how large a place is, from a drawing, a walk or a tape sheet.

use std::path::Path;

use kerfbook_acts::area::{self, AreaError, Measured, Remark};
use kerfbook_acts::told_area::{give_or_take, id, sentence, wrong};
use kerfbook_ledger::exchange::Format;
use kerfbook_science::geometry::walk::Manner;
use kerfbook_science::units::{Area, Length};
use kerfbook_words::Words;
use serde_json::{Value, json};

use crate::cli;
use crate::compare::new_table;
use crate::context::Context;
use crate::fault::{Complaint, Fault, Message, Spot};
use crate::output;
use crate::toml_file::text;

/// Longest file that is read: a long GPX.
pub(crate) const MOST_BYTES: u64 = 256 * 1024 * 1024;

pub(crate) fn run(args: &cli::Area, context: &Context) -> Result<(), Fault> {
    let text = text::read(&args.file, MOST_BYTES)?;
    let manner = Manner {
        under_trees: args.under_trees,
        edge_outside: Length::from_m(args.outside_m),
        ..Manner::default()
    };
    let measured = area::of_text(&text, manner).map_err(|error| fault(&args.file, &text, &error))?;
    if let Some(out) = &args.repair {
        let format = format_of(out)?;
        let repaired = area::repaired(&text, manner).map_err(|error| fault(&args.file, &text, &error))?;
        output::write(out, format.write(&repaired).as_bytes())?;
    }
    if context.json {
        context.print_json(&document(&measured, context.words()))
    } else {
        context.print(&told(&measured, context.words()))
    }
}

/// The format of a file that is to be written, by its ending.
pub(crate) fn format_of(file: &Path) -> Result<Format, Fault> {
    let ending = file.extension().and_then(std::ffi::OsStr::to_str).unwrap_or_default();
    Format::of_ending(ending).ok_or_else(|| {
        let known: Vec<&str> = Format::ENDINGS.iter().map(|(_, ending)| *ending).collect();
        Fault::usage(
            Message::new("export-unknown-ending").text("file", file.display()),
            Message::new("desk-choose").text("names", known.join(", ")),
        )
    })
}

/// Everything, for programs.
fn document(measured: &Measured, words: &Words) -> Value {
    let remarks = |remark: &Remark| json!({ "id": id(remark), "text": sentence(remark, words) });
    json!({
        "format": 1,
        "area_m2": measured.area.m2(),
        "half_width_95_m2": measured.half_width_95.map(Area::m2),
        "perimeter_m": measured.perimeter.map(Length::m),
        "method": measured.method.name(),
        "outlines": measured.outlines,
        "advice": measured.remarks.iter().map(remarks).collect::<Vec<_>>(),
        "walk": measured.walked.as_ref().map(|walk| json!({
            "accuracy_m": walk.drms.m(),
            "fixes_used": walk.used,
            "fixes_left_out": walk.left_out.all(),
            "gap_m": walk.gap.m(),
            "laps": walk.laps.iter().map(|lap| json!({
                "area_m2": lap.area.m2(),
                "sd_m2": lap.sd.m2(),
                "seconds": lap.seconds,
            })).collect::<Vec<_>>(),
        })),
    })
}

/// For people.
fn told(measured: &Measured, words: &Words) -> String {
    let mut table = new_table(vec![words.label("area-title"), give_or_take(measured, words)]);
    let mut row = |id: &str, value: String| {
        table.add_row(vec![words.label(id), value]);
    };
    if let Some(perimeter) = measured.perimeter {
        row("area-perimeter", words.length(perimeter));
    }
    row("area-method", words.label(&format!("area-method-{}", measured.method.name())));
    if let Some(walk) = &measured.walked {
        let count = |count: usize| words.number(f64::from(u32::try_from(count).unwrap_or(u32::MAX)), 0);
        row("area-accuracy", words.length(walk.drms));
        row("area-fixes", count(walk.used));
        row("area-left-out", words.number(f64::from(walk.left_out.all()), 0));
        row("area-laps", count(walk.laps.len()));
    }
    let mut parts = vec![table.to_string()];
    parts.extend(measured.remarks.iter().map(|remark| sentence(remark, words)));
    parts.join("\n\n")
}

/// What keeps a file from giving an area, and on which line.
fn fault(file: &Path, text: &str, error: &AreaError) -> Fault {
    let (line, what) = wrong(error);
    let complaint = Complaint { file: None, spot: spot(text, line), key: String::new(), what, remedy: None };
    Fault::Input { file: file.to_owned(), complaints: vec![complaint] }
}

/// A line of a file, where one is known. Files of one long line are not for reading.
pub(crate) fn spot(text: &str, line: usize) -> Option<Spot> {
    (line > 0).then(|| Spot::line(text, line)).map(|mut spot| {
        spot.text = spot.text.chars().take(80).collect();
        spot.width = spot.width.min(80);
        spot
    })
}
