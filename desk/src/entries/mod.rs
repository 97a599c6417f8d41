//! `book enter`: a file of entries, in the trade's words, into a book: all of them, or none.
//!
//! Rows go in by date; rows of one day in the order in which they stand in the file. Places, batches and people are
//! called by their names.

mod batches;
mod keys;
mod layers;
mod people;
mod piles;
mod places;
mod readings;
pub(crate) mod score_sheet;
mod season;
mod trees;
mod trials;
mod writer;

use std::path::Path;

use chrono::NaiveDate;
use kerfbook_acts::error::ActError;
use kerfbook_acts::moment::Moment;
use kerfbook_acts::read_weather::{self, UsualYear, YearInWords};
use kerfbook_ledger::{Book, Date, Founding, Label, LedgerError, When};
use kerfbook_science::plain::{Rain, Summers, Winters};
use serde::Serialize;
use toml::de::DeTable;

use self::writer::Writer;
use crate::book::told::{Teller, Told};
use crate::book::{device_key, of, open_to_write, random};
use crate::context::Context;
use crate::fault::{Fault, Message};
use crate::scenario::{ground, weather};
use crate::toml_file::layout::Layout;
use crate::toml_file::section::{Notes, Section};
use crate::{acted, cli, toml_file};

/// What a row becomes; nothing where it was wrong, which is noted.
type Act = fn(&Section<'_>, &mut Writer<'_>) -> Option<()>;

/// Every kind of row, the key that holds its day, and what it becomes.
const ROWS: [(&Layout, &str, Act); 33] = [
    (&keys::PERSON, "date", people::person),
    (&keys::PLACE, "date", places::place),
    (&keys::SETTING, "date", places::setting),
    (&keys::SOIL_TEST, "date", readings::soil_test),
    (&keys::LOAD, "date", batches::load),
    (&keys::BLEND, "date", batches::blend),
    (&keys::COUNT, "date", batches::count),
    (&keys::BATCH_TEST, "date", batches::test),
    (&keys::DRAW_TEST, "date", readings::draw_test),
    (&keys::PILE, "date", piles::built),
    (&keys::HEAT, "date", piles::heat),
    (&keys::MOISTURE, "date", piles::moisture),
    (&keys::TURNED, "date", piles::turned),
    (&keys::FINISHED, "date", piles::finished),
    (&keys::ENDED, "date", season::ended),
    (&keys::LIFTED, "date", layers::lifted),
    (&keys::WORKED, "date", layers::worked),
    (&keys::FEED, "date", season::feed),
    (&keys::PUT_DOWN, "date", layers::put_down),
    (&keys::CROP, "started", season::crop),
    (&keys::DEPTH, "date", readings::depth),
    (&keys::GAP, "date", readings::gap),
    (&keys::WATER, "date", season::water),
    (&keys::RAIN, "date", readings::rain),
    (&keys::LEAF, "date", readings::leaf),
    (&keys::SCORED, "date", trials::scored),
    (&keys::PLOT_MEASURED, "date", trials::measured),
    (&keys::PLOT_LOST, "date", trials::lost),
    (&keys::TRIAL_CLOSED, "date", trials::closed),
    (&keys::TASK, "date", people::task),
    (&keys::DONE, "date", people::done),
    (&keys::NOTE, "date", people::note),
    (&keys::CLOSED, "date", places::closed),
];

pub(crate) fn enter(args: &cli::Enter, context: &Context) -> Result<(), Fault> {
    let text = toml_file::text::read(&args.entries, toml_file::MOST_BYTES)?;
    let new = !args.file.exists();
    let mut book = if new { found(&text, args, context)? } else { open_to_write(&args.file)? };
    let outcome = book.together(|book| write(book, &text, args, context));
    match outcome {
        Ok(entered) => {
            of(&args.file, || book.settle())?;
            show(&entered, context)
        }
        Err(Stop::Tried(entered)) => {
            remove_new(new, book, &args.file);
            show(&entered, context)
        }
        Err(Stop::Fault(fault)) => {
            remove_new(new, book, &args.file);
            Err(fault)
        }
    }
}

/// A book begun for entries that do not go in is not left behind.
fn remove_new(new: bool, book: Book, file: &Path) {
    drop(book);
    if new {
        for ending in ["", "-wal", "-shm"] {
            let mut name = file.file_name().unwrap_or_default().to_os_string();
            name.push(ending);
            // What is not there need not go.
            let _ = std::fs::remove_file(file.with_file_name(name));
        }
    }
}

/// Why the book stays as it was.
enum Stop {
    /// It was only tried.
    Tried(Entered),
    /// Something is wrong.
    Fault(Fault),
}

impl From<LedgerError> for Stop {
    fn from(error: LedgerError) -> Self {
        Self::Fault(Fault::other(Message::new("act-book").text("why", error)))
    }
}

/// What went in.
#[derive(Serialize)]
struct Entered {
    format: u32,
    /// The entries, in order.
    entries: Vec<Told>,
    /// What to mind, in words.
    cautions: Vec<String>,
    /// What these entries change that a person may not want.
    warnings: Vec<String>,
    /// Whether they are in the book.
    written: bool,
}

fn show(entered: &Entered, context: &Context) -> Result<(), Fault> {
    if context.json {
        return context.print_json(entered);
    }
    let words = context.words();
    let mut lines: Vec<String> =
        entered.entries.iter().map(|told| format!("{}  {}  {}", told.entry, told.date, told.text)).collect();
    for (heading, sentences) in [("enter-warnings", &entered.warnings), ("enter-cautions", &entered.cautions)]
    {
        if !sentences.is_empty() {
            lines.push(String::new());
            lines.push(words.label(heading));
            lines.extend(sentences.iter().map(|sentence| format!("  {sentence}")));
        }
    }
    let id = if entered.written { "enter-written" } else { "enter-tried" };
    lines.push(String::new());
    lines.push(words.say(id, &[("count", entered.entries.len().to_string())]));
    context.print(&lines.join("\n"))
}

/// Begins a book as the file's `[holding]` says.
fn found(text: &str, args: &cli::Enter, context: &Context) -> Result<Book, Fault> {
    let founding = toml_file::read(text, &args.entries, &keys::LAYOUTS, |notes, root| {
        let section = Section::single(notes, root, &keys::HOLDING);
        let name = section.required_text("name");
        let device = section.text("device").unwrap_or("Desk");
        let latitude = section.number("latitude_deg", ground::LATITUDE);
        let opened = section.date("opened").unwrap_or_else(|| context.today());
        let label = |key: &str, text: &str| {
            Label::new(text).map_err(|_| section.complain(key, Message::new("book-why-label"), None)).ok()
        };
        #[expect(clippy::cast_possible_truncation, reason = "degrees of latitude")]
        Some(Founding {
            name: label("name", name?)?,
            device_label: label("device", device)?,
            nonce: [0; 16],
            sells: section.flag("sells"),
            certified: section.flag("certified"),
            latitude_centidegree: latitude.map(|degrees| (degrees * 100.0).round() as i32),
            when: When::on(Date::of(opened).ok()?),
            wall_ms: context.wall_ms(),
        })
    })?;
    let founding = Founding { nonce: random()?, ..founding };
    let key = device_key()?;
    of(&args.file, || Book::create(&args.file, &key, &founding))
}

/// Writes every row. What is wrong is noted, row by row, and then nothing stays.
fn write(book: &mut Book, text: &str, args: &cli::Enter, context: &Context) -> Result<Entered, Stop> {
    let written = toml_file::read(text, &args.entries, &keys::LAYOUTS, |notes, root| {
        let containers =
            ground::containers_of(&Section::single(notes, root, &crate::scenario::keys::CONTAINERS));
        let mut writer = Writer::new(book, containers, context)?;
        usual_year(notes, root, &mut writer);
        // A place needs no day: it is there from the first, before all that happens on it.
        let mut rows: Vec<(Option<NaiveDate>, Section<'_>, Act)> = Vec::new();
        for (layout, day, act) in ROWS {
            for section in Section::rows(notes, root, layout) {
                if layout.name == keys::PLACE.name && !section.has(day) {
                    rows.push((None, section, act));
                } else if let Some(date) = section.required_date(day) {
                    rows.push((Some(date), section, act));
                }
            }
        }
        rows.sort_by_key(|(date, section, _)| (*date, section.position()));
        if let Some(name) = &args.by {
            writer.speak_for(notes, name);
        }
        for (date, section, act) in &rows {
            writer.on(date.unwrap_or(writer.opened()));
            // What is wrong with a row is noted; the next ones are read all the same, so that all is told at once.
            let _ = act(section, &mut writer);
        }
        Some(writer.finish())
    })
    .map_err(Stop::Fault)?;
    let told = || -> Result<Vec<Told>, LedgerError> {
        let teller = Teller::new(book, context.words())?;
        written.entries.iter().map(|entry| teller.tell_id(*entry)).collect()
    };
    let entered = Entered {
        format: 1,
        entries: told()?,
        cautions: written.cautions,
        warnings: written.warnings,
        written: !args.r#try,
    };
    if args.r#try {
        return Err(Stop::Tried(entered));
    }
    if entered.warnings.is_empty() || args.even_so {
        return Ok(entered);
    }
    let what = Message::new("enter-stopped").text("warnings", entered.warnings.join(" "));
    Err(Stop::Fault(Fault::input(&args.entries, what, Some(Message::new("enter-even-so")))))
}

/// The usual year, where the file gives one.
fn usual_year(notes: &Notes<'_>, root: &DeTable<'_>, writer: &mut Writer<'_>) {
    let section = Section::single(notes, root, &keys::WEATHER);
    if !section.is_there() {
        return;
    }
    for answer in ["winters", "summers"] {
        section.one_alone("month_mean_c", answer);
    }
    section.one_alone("month_rain_mm", "rain");
    let told = YearInWords {
        place: None,
        winters: section.choice("winters", &Winters::choices()),
        summers: section.choice("summers", &Summers::choices()),
        rain: section.choice("rain", &Rain::choices()),
    };
    if told != YearInWords::default() {
        writer.on(writer.opened());
        let moment = writer.moment();
        let kept = read_weather::year_in_words(writer.book, &told, moment);
        let _ = writer.keep(&section, kept);
        return;
    }
    for key in ["month_mean_c", "month_rain_mm"] {
        if !section.has(key) {
            section.missing(key, None);
        }
    }
    let mean = section.months("month_mean_c", weather::MONTH_MEAN);
    let rain = section.months("month_rain_mm", weather::MONTH_RAIN);
    let evaporation = section.months("month_et0_mm_day", weather::MONTH_ET0);
    let (Some(month_mean_c), Some(month_rain_mm)) = (mean, rain) else { return };
    let year = UsualYear { month_mean_c, month_rain_mm, month_et0_mm_day: evaporation, month_range_c: None };
    writer.on(writer.opened());
    let moment: Moment = writer.moment();
    let entered: Result<_, ActError> = read_weather::usual_year(writer.book, &year, moment);
    match entered {
        Ok(entries) => writer.entries.extend(entries),
        Err(error) => {
            let (what, remedy) = acted::told(&error);
            section.complain_whole(what, remedy);
        }
    }
}
