//! Today: what needs doing and why, and what there is.

use chrono::NaiveDate;
use kerfbook_acts::close_task::{self, NewClosing};
use kerfbook_acts::feed_plan::{Measure, Terms};
use kerfbook_acts::outlook::Ahead;
use kerfbook_acts::today::{Item, Standing, standing};
use kerfbook_acts::told_item::{self, ToldItem};
use kerfbook_ledger::kind::Outcome;
use kerfbook_ledger::{Book, LedgerError};
use kerfbook_words::{Units, Words};

use crate::entries::{SavedView, saved};
use crate::error::{CoreError, capital};
use crate::field_book::{FieldBook, Speech, of_act, of_book};
use crate::port::day_of_date;

/// How far ahead a person looks, days: two weeks (common practice, no source).
const AHEAD_DAYS: u64 = 14;

/// The first screen.
#[derive(Debug, Clone, PartialEq, Eq, uniffi::Record)]
pub struct TodayView {
    /// What the holding is called.
    pub holding: String,
    /// Today, told.
    pub day: String,
    /// Today, days since 1970.
    pub day_number: i32,
    /// Places that are open.
    pub places: u32,
    /// Batches of which something is left.
    pub batches: u32,
    /// What needs doing in two weeks, most urgent first.
    pub tasks: Vec<TaskLine>,
}

/// Something to do.
#[derive(Debug, Clone, PartialEq, Eq, uniffi::Record)]
pub struct TaskLine {
    /// Where, or about which batch; the holding where about neither.
    pub at: String,
    /// What to do.
    pub what: String,
    /// Why, with who was asked.
    pub why: String,
    /// By when.
    pub day: String,
    /// Its day is past.
    pub overdue: bool,
    /// The place that it is about.
    pub place: Option<String>,
    /// The pile that it is about.
    pub pile: Option<String>,
    /// The order, where a person gave one: it is ticked off.
    pub task: Option<String>,
}

#[uniffi::export]
impl FieldBook {
    /// What needs doing, by what the book says. Nothing is foretold for it: it is there at once.
    ///
    /// # Errors
    /// A book that cannot be read.
    pub fn today(&self) -> Result<TodayView, CoreError> {
        let (speech, on) = (self.speech(), self.now()?.date()?);
        let book = self.book();
        let standing = of_act(standing(&book, &[], on, AHEAD_DAYS), "", &speech)?;
        view(&book, &standing, on, &speech)
    }

    /// The same with what is foretold of each place: feeds to give, layers that want more, hunger to come. It takes a
    /// while where there are many places; other calls are answered meanwhile.
    ///
    /// # Errors
    /// A book that cannot be read; what the model refuses.
    pub fn today_foretold(&self) -> Result<TodayView, CoreError> {
        let (speech, on) = (self.speech(), self.now()?.date()?);
        let ahead = of_act(Ahead::of(&self.book(), on), "", &speech)?;
        let measure = match speech.words.units() {
            Units::Metric => Measure::Metric,
            Units::Us => Measure::Us,
        };
        let terms = Terms { measure, ..Terms::default() };
        let outlooks = of_act(ahead.foretell(&terms), "", &speech)?;
        let book = self.book();
        let standing = of_act(standing(&book, &outlooks, on, AHEAD_DAYS), "", &speech)?;
        view(&book, &standing, on, &speech)
    }

    /// Ticks an order off. It is in the book when this returns.
    ///
    /// # Errors
    /// An order that is not there or is ticked off already; a book that cannot be written.
    pub fn tick_off(&self, task: String) -> Result<SavedView, CoreError> {
        let (speech, moment) = (self.speech(), self.moment()?);
        let task = speech.typed().entry("task", &task)?;
        let closing = NewClosing { task, outcome: Outcome::Done, entry: None, reason: None };
        let mut book = self.book();
        let entry = of_act(close_task::close(&mut book, &closing, moment), "task", &speech)?;
        saved(&book, entry, &speech)
    }
}

fn view(book: &Book, standing: &Standing, on: NaiveDate, speech: &Speech) -> Result<TodayView, CoreError> {
    let words = &speech.words;
    let count = |count: usize| u32::try_from(count).unwrap_or(u32::MAX);
    let read = || -> Result<TodayView, LedgerError> {
        let holding = book.holding_view()?;
        let told = told_item::tell(book, &standing.items, on, words)?;
        let lines = standing.items.iter().zip(told);
        Ok(TodayView {
            holding: holding.map_or_else(String::new, |holding| holding.name.as_str().to_owned()),
            day: words.date(on),
            day_number: day_of_date(on),
            places: count(standing.places),
            batches: count(standing.batches),
            tasks: lines.map(|(item, told)| line(item, told, on, words)).collect(),
        })
    };
    of_book(read(), speech)
}

fn line(item: &Item, told: ToldItem, on: NaiveDate, words: &Words) -> TaskLine {
    let why = if told.who.is_empty() {
        told.why.clone()
    } else {
        format!("{} ({})", told.why, words.say("today-for", &[("person", told.who.clone())]))
    };
    TaskLine {
        day: told.day(on, words),
        at: if told.at.is_empty() { words.label("today-holding") } else { told.at },
        what: told.todo,
        why: sentence(&why),
        overdue: told.overdue,
        place: item.place.map(|place| place.to_string()),
        pile: item.pile.map(|pile| pile.to_string()),
        task: told.task,
    }
}

/// With a capital at the start and a full stop at the end, as it stands alone.
fn sentence(text: &str) -> String {
    format!("{}{}", capital(text), if text.is_empty() || text.ends_with('.') { "" } else { "." })
}
