//! What needs doing, in words: what, where, why, by when and for whom.

use std::collections::BTreeMap;

use chrono::NaiveDate;
use kerfbook_ledger::{Book, EntryId, LedgerError};
use kerfbook_words::Words;
use serde::Serialize;

use crate::feed_plan;
use crate::today::{Item, Reason};

/// Something to do, as it is told.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct ToldItem {
    /// Name of the place or batch; empty for the holding.
    pub at: String,
    /// Name of the kind of task.
    pub what: &'static str,
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
    /// The order, where a person gave one.
    pub task: Option<String>,
    /// Entries that it rests on.
    pub rests_on: Vec<String>,
}

impl ToldItem {
    /// The day by which, told.
    pub fn day(&self, on: NaiveDate, words: &Words) -> String {
        let day = match self.due {
            Some(due) => words.date_beside(due, on),
            None => words.label("today-no-day"),
        };
        if self.overdue { format!("{day} ({})", words.label("today-overdue")) } else { day }
    }

    /// One line: the day, what to do, why, and who.
    pub fn line(&self, on: NaiveDate, words: &Words) -> String {
        let day = self.day(on, words);
        let who = if self.who.is_empty() {
            String::new()
        } else {
            format!(" ({})", words.say("today-for", &[("person", self.who.clone())]))
        };
        format!("{day}: {} – {}{who}.", self.todo, self.why)
    }
}

/// Tells what needs doing.
///
/// # Errors
/// A book that cannot be read.
pub fn tell(book: &Book, items: &[Item], on: NaiveDate, words: &Words) -> Result<Vec<ToldItem>, LedgerError> {
    let names = names(book, items)?;
    items.iter().map(|item| told(item, book, on, &names, words)).collect()
}

/// What the places, batches and people of some tasks are called. Only they are read: a place carries all that ever
/// happened on it.
fn names(book: &Book, items: &[Item]) -> Result<BTreeMap<EntryId, String>, LedgerError> {
    let mut names = BTreeMap::new();
    let lifted = |item: &Item| match item.reason {
        Reason::DrawUnknown { lifted_from } => lifted_from,
        _ => None,
    };
    for id in items.iter().flat_map(|item| [item.about(), lifted(item)]).flatten() {
        if names.contains_key(&id) {
            continue;
        }
        let label = match book.place(id)? {
            Some(place) => Some(place.label.clone()),
            None => match book.batch(id)? {
                Some(batch) => Some(batch.label.clone()),
                None => book.pile(id)?.map(|pile| pile.label.clone()),
            },
        };
        names.extend(label.map(|label| (id, label.as_str().to_owned())));
    }
    if items.iter().any(|item| item.who.is_some()) {
        for person in book.people()? {
            names.insert(person.id, book.text(person.name)?.unwrap_or_default());
        }
    }
    Ok(names)
}

/// The name of what to do: at a pile it says more than the kind of task.
const fn todo(item: &Item) -> &'static str {
    match item.reason {
        Reason::HeatUnread { .. } | Reason::PileHot { .. } | Reason::RuleUnmet { .. } => "read-heat",
        Reason::RuleTurnings { .. } | Reason::TurnBecause { .. } => "turn",
        Reason::PileBurns { .. } => "keep-away",
        _ => item.what.name(),
    }
}

fn told(
    item: &Item,
    book: &Book,
    on: NaiveDate,
    names: &BTreeMap<EntryId, String>,
    words: &Words,
) -> Result<ToldItem, LedgerError> {
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
                ("amount", feed_plan::told::amount(*amount, words)),
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
        Reason::HeatUnread { since } => words.say("reason-heat-unread", &[("date", date(*since))]),
        Reason::PileHot { read, heat } => {
            words.say("reason-pile-hot", &[("date", date(*read)), ("heat", words.temperature(*heat))])
        }
        Reason::PileBurns { read } => words.say("reason-pile-burns", &[("date", date(*read))]),
        Reason::RuleUnmet { rule } => words.say("reason-rule-unmet", &[("rule", (*rule).to_owned())]),
        Reason::RuleTurnings { rule, still } => {
            let values = [("rule", (*rule).to_owned()), ("n", words.stated(f64::from(*still)))];
            words.say_count("reason-rule-turnings", f64::from(*still), &values)
        }
        Reason::TurnBecause { trigger } => words.label(&format!("reason-turn-{}", trigger.name())),
        Reason::PileDry { moisture, least } => words.say(
            "reason-pile-dry",
            &[("moisture", words.percent(*moisture)), ("least", words.percent(*least))],
        ),
    };
    Ok(ToldItem {
        at: name(item.about()),
        what: item.what.name(),
        todo: words.label(&format!("todo-{}", todo(item))),
        why,
        due: item.due,
        overdue: item.overdue(on),
        who: name(item.who),
        task: item.task.map(|task| task.to_string()),
        rests_on: item.rests_on.iter().map(ToString::to_string).collect(),
    })
}
