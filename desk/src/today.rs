//! `today`: what needs doing on a day and soon after it, per place, with the reason.

use std::collections::BTreeMap;

use chrono::{Days, NaiveDate};
use kerfbook_acts::error::ActError;
use kerfbook_acts::feed_plan::{Terms, told};
use kerfbook_acts::today::{Item, Reason, today_of};
use kerfbook_ledger::{Book, EntryId, LedgerError};
use kerfbook_words::Words;
use serde::Serialize;

use crate::book::of;
use crate::context::Context;
use crate::fault::Fault;
use crate::{acted, cli, feeds};

/// Longest look ahead: a year.
pub(crate) const MOST_DAYS: u32 = 366;

/// Something to do, as it is told.
#[derive(Serialize)]
pub(crate) struct Told {
    /// Name of the place or batch; empty for the holding.
    pub at: String,
    what: &'static str,
    /// What to do, in words.
    pub todo: String,
    /// Why, in words.
    pub why: String,
    /// By when.
    pub due: Option<NaiveDate>,
    /// Its day is past.
    pub overdue: bool,
    /// Who was asked; empty where nobody was.
    pub who: String,
    task: Option<String>,
    rests_on: Vec<String>,
}

#[derive(Serialize)]
struct Document {
    format: u32,
    on: NaiveDate,
    ahead_days: u32,
    items: Vec<Told>,
}

pub(crate) fn run(args: &cli::Today, context: &Context) -> Result<(), Fault> {
    let on = args.on.unwrap_or_else(|| context.today());
    let book = of(&args.file, || Book::open(&args.file, None))?;
    let words = context.words();
    let terms = Terms { rules: args.rules.clone(), measure: feeds::measure(context), ..Terms::default() };
    let items =
        items(&book, on, args.ahead, &terms, words).map_err(|error| acted::fault(&args.file, &error))?;
    if context.json {
        return context.print_json(&Document { format: 1, on, ahead_days: args.ahead, items });
    }
    if items.is_empty() {
        let until = on.checked_add_days(Days::new(u64::from(args.ahead))).unwrap_or(on);
        return context.print(&words.say("today-nothing", &[("date", words.date_with_year(until))]));
    }
    let mut lines = vec![
        words.say("today-heading", &[("date", words.date_with_year(on)), ("days", args.ahead.to_string())]),
    ];
    // By place, in the order of the most urgent thing there.
    let mut places: Vec<(&str, Vec<&Told>)> = Vec::new();
    for item in &items {
        match places.iter_mut().find(|(at, _)| *at == item.at) {
            Some((_, there)) => there.push(item),
            None => places.push((&item.at, vec![item])),
        }
    }
    for (at, there) in places {
        lines.push(String::new());
        lines.push(if at.is_empty() { words.label("today-holding") } else { at.to_owned() });
        lines.extend(there.into_iter().map(|item| format!("  {}", item.line(on, words))));
    }
    context.print(&lines.join("\n"))
}

impl Told {
    /// The day by which, told.
    pub(crate) fn day(&self, on: NaiveDate, words: &Words) -> String {
        let day = match self.due {
            Some(due) => words.date_beside(due, on),
            None => words.label("today-no-day"),
        };
        if self.overdue { format!("{day} ({})", words.label("today-overdue")) } else { day }
    }

    /// One line: the day, what to do, why, and who.
    pub(crate) fn line(&self, on: NaiveDate, words: &Words) -> String {
        let day = self.day(on, words);
        let who = if self.who.is_empty() {
            String::new()
        } else {
            format!(" ({})", words.say("today-for", &[("person", self.who.clone())]))
        };
        format!("{day}: {} – {}{who}.", self.todo, self.why)
    }
}

/// What needs doing, told.
pub(crate) fn items(
    book: &Book,
    on: NaiveDate,
    ahead: u32,
    terms: &Terms,
    words: &Words,
) -> Result<Vec<Told>, ActError> {
    let names = names(book)?;
    let items = today_of(book, on, u64::from(ahead), terms)?;
    items.iter().map(|item| Ok(tell(item, book, on, &names, words)?)).collect()
}

/// What places, batches and people are called.
fn names(book: &Book) -> Result<BTreeMap<EntryId, String>, LedgerError> {
    let mut names = BTreeMap::new();
    for place in book.places()? {
        names.insert(place.id, place.label.as_str().to_owned());
    }
    for batch in book.batches()? {
        names.insert(batch.id, batch.label.as_str().to_owned());
    }
    for person in book.people()? {
        names.insert(person.id, book.text(person.name)?.unwrap_or_default());
    }
    Ok(names)
}

fn tell(
    item: &Item,
    book: &Book,
    on: NaiveDate,
    names: &BTreeMap<EntryId, String>,
    words: &Words,
) -> Result<Told, LedgerError> {
    let name = |id: Option<EntryId>| id.and_then(|id| names.get(&id).cloned()).unwrap_or_default();
    let text = match item.task {
        Some(task) => book.task(task)?.and_then(|task| task.text).map(|text| book.text(text)).transpose()?,
        None => None,
    };
    let date = |date: NaiveDate| words.date_beside(date, on);
    let why = match &item.reason {
        Reason::Ordered => match text.flatten() {
            Some(text) => words.say("reason-ordered-text", &[("text", text)]),
            None => words.label("reason-ordered"),
        },
        Reason::Forecast { hungry: Some(hungry) } => {
            words.say("reason-forecast-hungry", &[("date", date(*hungry))])
        }
        Reason::Forecast { hungry: None } => words.label("reason-forecast"),
        Reason::Planned { source, nitrogen, amount } => words.say(
            "reason-planned",
            &[
                ("amount", told::amount(*amount, words)),
                ("nitrogen", words.nitrogen_mass(*nitrogen)),
                ("source", words.feed(source)),
            ],
        ),
        Reason::Settled { lies: Some(lies), wanted: Some(wanted) } => {
            words.say("reason-settled", &[("lies", words.depth(*lies)), ("wanted", words.depth(*wanted))])
        }
        Reason::Settled { .. } => words.label("reason-settled-unknown"),
        Reason::GapUnseen { since } => words.say("reason-gap-unseen", &[("date", date(*since))]),
        Reason::GapClosed { gap, wanted } => {
            words.say("reason-gap-closed", &[("gap", words.depth(*gap)), ("wanted", words.depth(*wanted))])
        }
        Reason::EmittersBlocked { count } => {
            words.say("reason-emitters-blocked", &[("count", count.to_string())])
        }
        Reason::Dry { days, came, wanted } => words.say(
            "reason-dry",
            &[("days", days.to_string()), ("came", words.water(*came)), ("wanted", words.water(*wanted))],
        ),
        Reason::DrawUnknown { lifted_from: Some(place) } => {
            words.say("reason-draw-unknown-from", &[("place", name(Some(*place)))])
        }
        Reason::DrawUnknown { lifted_from: None } => words.label("reason-draw-unknown"),
        Reason::BeforeHunger { hungry } => words.say("reason-before-hunger", &[("date", date(*hungry))]),
        Reason::HeapUnsmelled { since } => words.say("reason-heap-unsmelled", &[("date", date(*since))]),
        Reason::MulchBeforePreparation { ends } => {
            words.say("reason-mulch-before-preparation", &[("date", date(*ends))])
        }
        Reason::Sour { from, until } => {
            words.say("reason-sour", &[("from", date(*from)), ("until", date(*until))])
        }
    };
    Ok(Told {
        at: name(item.about()),
        what: item.what.name(),
        todo: words.label(&format!("todo-{}", item.what.name())),
        why,
        due: item.due,
        overdue: item.overdue(on),
        who: name(item.who),
        task: item.task.map(|task| task.to_string()),
        rests_on: item.rests_on.iter().map(ToString::to_string).collect(),
    })
}
