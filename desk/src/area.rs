//! `area`: how large a place is, from a drawing, a walk or a tape sheet.

use std::path::Path;

use kerfbook_acts::area::{self, AreaError, Measured, Remark};
use kerfbook_ledger::exchange::{ExchangeError, Format, Wrong};
use kerfbook_science::geometry::advice::{Advice, TapeBecause};
use kerfbook_science::geometry::frame::PositionError;
use kerfbook_science::geometry::ring::RingError;
use kerfbook_science::geometry::tape::TapeError;
use kerfbook_science::geometry::tape::traverse::{Closure, TraverseError};
use kerfbook_science::geometry::walk::{Manner, WalkError};
use kerfbook_science::units::{Area, Length, Share};
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
    let size = words.area(measured.area);
    let size = match measured.half_width_95 {
        Some(half) => words.say("area-give-or-take", &[("area", size), ("half", words.area(half))]),
        None => size,
    };
    let mut table = new_table(vec![words.label("area-title"), size]);
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

/// The id of a remark's text.
pub(crate) fn id(remark: &Remark) -> &'static str {
    match remark {
        Remark::Advice(advice) => match advice {
            Advice::Fine => "area-fine",
            Advice::Tape(TapeBecause::Small) => "area-tape-small",
            Advice::Tape(TapeBecause::Narrow) => "area-tape-narrow",
            Advice::Tape(TapeBecause::LittleSky) => "area-tape-little-sky",
            Advice::SecondLap => "area-second-lap",
            Advice::FinishLoop { .. } => "area-finish-loop",
            Advice::LapsDisagree { .. } => "area-laps-disagree",
            Advice::Crosses { .. } => "area-crosses",
            Advice::TooFast => "area-too-fast",
        },
        Remark::Unclosed => "area-unclosed",
        Remark::Touches => "area-touches",
        Remark::Unchecked => "area-unchecked",
        Remark::Misfit { .. } => "area-misfit",
        Remark::Closed { closure, .. } => match closure {
            Closure::Good => "area-closure-good",
            Closure::Fair => "area-closure-fair",
            Closure::WalkAgain => "area-closure-again",
        },
    }
}

pub(crate) fn sentence(remark: &Remark, words: &Words) -> String {
    let arguments = match remark {
        Remark::Advice(Advice::FinishLoop { gap }) => vec![("gap", words.length(*gap))],
        Remark::Advice(Advice::LapsDisagree { spread }) => vec![("spread", words.area(*spread))],
        Remark::Advice(Advice::Crosses { signed, covered }) => {
            vec![("signed", words.area(*signed)), ("covered", words.area(*covered))]
        }
        Remark::Misfit { by } => vec![("by", words.length(Length::from_m(by.m().abs())))],
        Remark::Closed { by, precision, .. } => {
            vec![("by", words.depth(*by)), ("precision", words.percent(Share::from_fraction(*precision)))]
        }
        _ => Vec::new(),
    };
    words.say(id(remark), &arguments)
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

/// What is wrong with what was drawn, walked or taped, and on which line; 0 where none is known.
pub(crate) fn wrong(error: &AreaError) -> (usize, Message) {
    match error {
        AreaError::File(ExchangeError { line, wrong }) => (*line, of_file(wrong)),
        AreaError::Position { line, outline, point, error } => {
            let at = |message: Message| message.text("outline", outline).text("point", point);
            let what = match error {
                PositionError::NotFinite => at(Message::new("area-position-no-number")),
                PositionError::Latitude { latitude } => {
                    at(Message::new("area-position-latitude")).text("value", latitude)
                }
                PositionError::Swapped { latitude, .. } => {
                    at(Message::new("area-position-swapped")).text("value", latitude)
                }
                PositionError::Longitude { longitude } => {
                    at(Message::new("area-position-longitude")).text("value", longitude)
                }
            };
            (*line, what)
        }
        AreaError::Outline { line, outline, error } => (*line, of_ring(*error).text("outline", outline)),
        AreaError::Walk(WalkError::NoFix { left_out }) => {
            (0, Message::new("area-no-fix").text("count", left_out))
        }
        AreaError::Walk(WalkError::Ring(error)) | AreaError::Traverse(TraverseError::Ring(error)) => {
            (0, of_ring(*error).text("outline", 1))
        }
        AreaError::Tape(error) | AreaError::Traverse(TraverseError::Tape(error)) => (0, of_tape(error)),
    }
}

pub(crate) fn of_file(wrong: &Wrong) -> Message {
    match wrong {
        Wrong::UnknownFormat { found } => Message::new("area-unknown-format").text("found", found),
        Wrong::TooLarge { most_mb } => Message::new("area-too-large").text("most", most_mb),
        Wrong::Broken { detail } => Message::new("area-broken").text("detail", detail),
        Wrong::Doctype => Message::new("area-doctype"),
        Wrong::TooDeep { most } => Message::new("area-too-deep").text("most", most),
        Wrong::TooManyPlaces { most } => Message::new("area-too-many-places").text("most", most),
        Wrong::TooManyPoints { most } => Message::new("area-too-many-points").text("most", most),
        Wrong::NotANumber { text } => Message::new("area-not-a-number").text("value", text),
        Wrong::DecimalComma { text } => Message::new("area-decimal-comma").text("value", text),
        Wrong::NoPlace => Message::new("area-no-place"),
        Wrong::OtherSystem { name } => Message::new("area-other-system").text("name", name),
        Wrong::Columns { found, known } => {
            Message::new("area-columns").text("found", found).text("known", known)
        }
        Wrong::MixedUnits => Message::new("area-mixed-units"),
        Wrong::Fields { found, expected } => {
            Message::new("area-fields").text("found", found).text("expected", expected)
        }
        Wrong::UnknownSide { name } => Message::new("area-unknown-side").text("name", name),
    }
}

fn of_ring(error: RingError) -> Message {
    match error {
        RingError::NotFinite { index } => Message::new("area-position-no-number").text("point", index),
        RingError::TooFewPoints { found } => Message::new("area-too-few-points").text("found", found),
        RingError::NoArea => Message::new("area-none"),
    }
}

fn of_tape(error: &TapeError) -> Message {
    match error {
        TapeError::Length { value, .. } => Message::new("area-length").text("value", value),
        TapeError::NoTriangle { a, b, c } => {
            let metres = |length: &f64| format!("{length:.2}");
            Message::new("area-no-triangle").text("a", metres(a)).text("b", metres(b)).text("c", metres(c))
        }
        TapeError::TooFewOffsets { found } => Message::new("area-too-few-offsets").text("found", found),
        TapeError::OutOfOrder { index } => Message::new("area-out-of-order").text("index", index),
        TapeError::TooFewCourses { found } => Message::new("area-too-few-courses").text("found", found),
        TapeError::Bearing => Message::new("area-bearing"),
    }
}
