//! Setting something to do, for whoever takes it or for a person.

use chrono::NaiveDate;
use kerfbook_ledger::kind::{TaskKind, TaskSet};
use kerfbook_ledger::{Book, Date, EntryId, Label, Text};
use kerfbook_science::units::Mass;

use crate::error::ActError;
use crate::figure::{above_zero, grams, whole};
use crate::moment::Moment;
use crate::site;
use crate::take_in_load::first;

/// A task.
#[derive(Debug, Clone, PartialEq)]
pub struct NewTask<'a> {
    /// What it is about: a place, a batch, any entry, or nothing.
    pub about: Option<EntryId>,
    /// What is to be done.
    pub what: TaskKind,
    /// By when.
    pub due: Option<NaiveDate>,
    /// Who is to do it.
    pub to: Option<EntryId>,
    /// More about it, kept outside the entry.
    pub text: Option<Text>,
    /// The feed to give, by its name in the table.
    pub source: Option<&'a str>,
    /// Nitrogen to give.
    pub nitrogen: Option<Mass>,
    /// Moist mass to put down.
    pub wet: Option<Mass>,
}

impl NewTask<'_> {
    /// Something to do about a thing, by nobody and no day yet.
    pub const fn of(what: TaskKind, about: Option<EntryId>) -> Self {
        Self { about, what, due: None, to: None, text: None, source: None, nitrogen: None, wet: None }
    }
}

/// Writes a task.
///
/// # Errors
/// A person or subject that is not there, a feed that is not known, something else without a text that says what, an
/// amount of nothing, or a book that cannot be written.
pub fn set(book: &mut Book, new: &NewTask<'_>, moment: Moment) -> Result<EntryId, ActError> {
    if let Some(person) = new.to
        && !book.people()?.iter().any(|known| known.id == person)
    {
        return Err(ActError::NotThere { what: "person" });
    }
    if let Some(about) = new.about {
        book.entry(about)?.ok_or(ActError::NotThere { what: "entry" })?;
    }
    if new.what == TaskKind::Other && new.text.is_none() {
        return Err(ActError::Missing { key: "text", why: "what is to be done" });
    }
    above_zero("nitrogen_kg", new.nitrogen.map(Mass::kg), 1e6)?;
    above_zero("wet_kg", new.wet.map(Mass::kg), 1e9)?;
    let source = new.source.map(site::find_feed).transpose()?;
    let body = TaskSet {
        what: new.what,
        due: new.due.map(Date::of).transpose()?,
        to: new.to,
        text: new.text.as_ref().map(Text::hash),
        source: source.map(|feed| Label::new(feed.name)).transpose()?,
        nitrogen_mg: new.nitrogen.map(|nitrogen| whole(nitrogen.g() * 1000.0)),
        wet_g: new.wet.map(grams),
    };
    let texts: Vec<Text> = new.text.iter().cloned().collect();
    let draft = moment.draft(body)?;
    let draft = match new.about {
        Some(about) => draft.about(about),
        None => draft,
    };
    first(&book.append(&[draft], &texts, moment.wall_ms)?)
}
