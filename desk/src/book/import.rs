//! `book import`: places from drawings, walks, sheets and tapes into the book, all of them or none.

use std::path::Path;

use kerfbook_acts::error::ActError;
use kerfbook_acts::import_places::{self, FilePlace, FilePlaces, Reading, Untaken, Why};
use kerfbook_acts::moment::Moment;
use kerfbook_acts::told_area;
use kerfbook_ledger::kind::PlaceKind;
use kerfbook_ledger::{Book, LedgerError};
use kerfbook_science::geometry::walk::{Manner, QUANTILE_95};
use kerfbook_science::units::{Area, Length};
use serde::Serialize;

use super::told::{Teller, Told};
use super::{of, open_to_write, random};
use crate::context::Context;
use crate::fault::{Complaint, Fault, Message};
use crate::toml_file::text;
use crate::{acted, area, cli};

pub(super) fn import(args: &cli::Import, context: &Context) -> Result<(), Fault> {
    let text = text::read(&args.places, area::MOST_BYTES)?;
    let manner = Manner {
        under_trees: args.under_trees,
        edge_outside: Length::from_m(args.outside_m),
        ..Manner::default()
    };
    let reading = Reading { kind: args.kind.into(), name: args.name.as_deref(), manner, repair: args.repair };
    let found =
        import_places::places(&text, &reading).map_err(|untaken| refused(&args.places, &text, &untaken))?;
    let mut book = open_to_write(&args.file)?;
    let in_the_way = import_places::in_the_way(&book, &found.places, args.anew)
        .map_err(|error| acted::fault(&args.places, &error))?;
    if !in_the_way.is_empty() {
        return Err(refused(&args.places, &text, &in_the_way));
    }
    let by = match &args.by {
        Some(name) => Some(person(&book, &args.file, name)?),
        None => None,
    };
    let moment = Moment { date: args.on.unwrap_or_else(|| context.today()), wall_ms: context.wall_ms(), by };
    match book.together(|book| write(book, &found, args, context, moment)) {
        Ok(imported) => {
            of(&args.file, || book.settle())?;
            show(&imported, context)
        }
        Err(Stop::Tried(imported)) => show(&imported, context),
        Err(Stop::Fault(fault)) => Err(fault),
    }
}

/// Why the book stays as it was.
enum Stop {
    /// It was only tried.
    Tried(Imported),
    /// Something is wrong.
    Fault(Fault),
}

impl From<LedgerError> for Stop {
    fn from(error: LedgerError) -> Self {
        Self::Fault(Fault::other(Message::new("act-book").text("why", error)))
    }
}

/// Why an import came to no end.
enum Halt {
    Act(ActError),
    Fault(Fault),
}

impl From<ActError> for Halt {
    fn from(error: ActError) -> Self {
        Self::Act(error)
    }
}

/// What went in.
#[derive(Serialize)]
struct Imported {
    format: u32,
    places: Vec<Place>,
    passed_over: usize,
    entries: Vec<Told>,
    written: bool,
}

/// A place as it was read.
#[derive(Serialize)]
struct Place {
    line: usize,
    name: String,
    kind: &'static str,
    measured: &'static str,
    area_m2: f64,
    half_width_95_m2: Option<f64>,
    advice: Vec<Advice>,
}

/// Something to know.
#[derive(Serialize)]
struct Advice {
    id: &'static str,
    text: String,
}

fn write(
    book: &mut Book,
    found: &FilePlaces,
    args: &cli::Import,
    context: &Context,
    moment: Moment,
) -> Result<Imported, Stop> {
    let written = import_places::import(book, &found.places, || random().map_err(Halt::Fault), moment)
        .map_err(|halt| {
            Stop::Fault(match halt {
                Halt::Act(error) => acted::fault(&args.places, &error),
                Halt::Fault(fault) => fault,
            })
        })?;
    let teller = Teller::new(book, context.words())?;
    let told = |place: &FilePlace| Place {
        line: place.line,
        name: place.label.as_str().to_owned(),
        kind: place.kind.name(),
        measured: place.measured.name(),
        area_m2: place.area.m2(),
        half_width_95_m2: place.area_sd.map(|sd| QUANTILE_95 * sd.m2()),
        advice: place
            .remarks
            .iter()
            .map(|remark| Advice {
                id: told_area::id(remark),
                text: told_area::sentence(remark, context.words()),
            })
            .collect(),
    };
    let imported = Imported {
        format: 1,
        places: found.places.iter().map(told).collect(),
        passed_over: found.passed_over,
        entries: written.iter().map(|entry| teller.tell_id(*entry)).collect::<Result<_, _>>()?,
        written: !args.r#try,
    };
    if args.r#try { Err(Stop::Tried(imported)) } else { Ok(imported) }
}

fn show(imported: &Imported, context: &Context) -> Result<(), Fault> {
    if context.json {
        return context.print_json(imported);
    }
    let words = context.words();
    let mut lines = Vec::new();
    for (place, entry) in imported.places.iter().zip(&imported.entries) {
        let size = words.area(Area::from_m2(place.area_m2));
        let size = match place.half_width_95_m2 {
            Some(half) => {
                words.say("area-give-or-take", &[("area", size), ("half", words.area(Area::from_m2(half)))])
            }
            None => size,
        };
        lines.push(format!("{}  {}  {}: {size}", entry.entry, entry.date, place.name));
        lines.extend(place.advice.iter().map(|advice| format!("  {}", advice.text)));
    }
    if imported.passed_over > 0 {
        lines.push(words.say("import-passed-over", &[("count", imported.passed_over.to_string())]));
    }
    let id = if imported.written { "import-written" } else { "import-tried" };
    lines.push(String::new());
    lines.push(words.say(id, &[("count", imported.places.len().to_string())]));
    context.print(&lines.join("\n"))
}

fn person(book: &Book, path: &Path, name: &str) -> Result<kerfbook_ledger::EntryId, Fault> {
    for view in of(path, || book.people())? {
        if of(path, || book.text(view.name))?.as_deref() == Some(name) {
            return Ok(view.id);
        }
    }
    let what = Message::new("enter-no-person").text("name", name);
    Err(Fault::usage(what, Message::new("usage-help")))
}

/// Why a file is not taken, place by place.
fn refused(file: &Path, text: &str, untaken: &[Untaken]) -> Fault {
    let complaints = untaken.iter().map(|untaken| {
        let (line, what, remedy) = told(untaken);
        let what = match (&untaken.name, untaken.number) {
            (_, 0) => what,
            (Some(name), _) => Message::new("import-place").text("name", name).message("what", what),
            (None, number) => {
                Message::new("import-place-number").text("number", number).message("what", what)
            }
        };
        Complaint { file: None, spot: area::spot(text, line), key: String::new(), what, remedy }
    });
    Fault::Input { file: file.to_owned(), complaints: complaints.collect() }
}

fn told(untaken: &Untaken) -> (usize, Message, Option<Message>) {
    let line = untaken.line;
    let with = |id: &'static str, remedy: &'static str| (line, Message::new(id), Some(Message::new(remedy)));
    match &untaken.why {
        Why::File(error) => (error.line, told_area::of_file(&error.wrong), None),
        Why::Area(error) => {
            let (at, what) = told_area::wrong(error);
            (if at > 0 { at } else { line }, what, None)
        }
        Why::Crosses { signed, covered } => {
            let square = |area: &Area| format!("{:.1}", area.m2());
            let what = Message::new("import-crosses")
                .text("signed", square(signed))
                .text("covered", square(covered));
            (line, what, Some(Message::new("import-crosses-remedy")))
        }
        Why::NoName => with("import-no-name", "import-no-name-remedy"),
        Why::Name => with("import-name", "book-why-label"),
        Why::Twice => with("import-twice", "import-twice-remedy"),
        Why::InBook => with("import-in-book", "import-in-book-remedy"),
        Why::TwiceInBook => with("import-twice-in-book", "enter-two-of-a-name-remedy"),
        Why::Kind { text } => {
            let known: Vec<&str> = PlaceKind::ALL.iter().map(|kind| kind.name()).collect();
            let remedy = Message::new("desk-choose").text("names", known.join(", "));
            (line, Message::new("import-kind").text("value", text), Some(remedy))
        }
        Why::Figure { key, text } => {
            (line, Message::new("import-figure").text("key", key).text("value", text), None)
        }
        Why::TooLarge => (line, Message::new("import-too-large"), None),
    }
}

impl From<cli::Ground> for PlaceKind {
    fn from(kind: cli::Ground) -> Self {
        match kind {
            cli::Ground::Bed => Self::Bed,
            cli::Ground::Row => Self::Row,
            cli::Ground::Rings => Self::Rings,
            cli::Ground::Path => Self::Path,
            cli::Ground::Yard => Self::Yard,
            cli::Ground::Plot => Self::Plot,
            cli::Ground::Container => Self::Container,
        }
    }
}
