//! People, notes, and orders given and closed.

use kerfbook_acts::close_task::{self, NewClosing};
use kerfbook_acts::name_person;
use kerfbook_acts::set_task::{self, NewTask};
use kerfbook_ledger::kind::{NoteMade, Outcome, TaskKind};
use kerfbook_ledger::{Date, Draft, When};

use super::writer::Writer;
use crate::fault::Message;
use crate::toml_file::section::Section;

/// What may have to be done.
const TASKS: [(&str, TaskKind); 9] = [
    ("look", TaskKind::Look),
    ("feed", TaskKind::Feed),
    ("top-up", TaskKind::TopUp),
    ("check-gap", TaskKind::CheckGap),
    ("water", TaskKind::Water),
    ("test", TaskKind::Test),
    ("dig-in", TaskKind::DigIn),
    ("air", TaskKind::Air),
    ("other", TaskKind::Other),
];

pub(super) fn person(section: &Section<'_>, writer: &mut Writer<'_>) -> Option<()> {
    let name = section.required_text("name")?;
    let name = Writer::text(section, name)?;
    let moment = writer.moment();
    let named = name_person::name(writer.book, &name, moment);
    writer.keep(section, named).map(drop)
}

pub(super) fn note(section: &Section<'_>, writer: &mut Writer<'_>) -> Option<()> {
    let place = writer.place_or_none(section).ok()?;
    let text = section.required_text("text")?;
    let text = Writer::text(section, text)?;
    let moment = writer.moment();
    let draft =
        Draft::new(When::on(Date::of(moment.date).ok()?), NoteMade { text: text.hash() }).by(moment.by);
    let draft = match place {
        Some(place) => draft.about(place.id),
        None => draft,
    };
    let noted = writer.book.append(&[draft], &[text], moment.wall_ms);
    let noted = noted.map_err(Into::into);
    let entries = Writer::heed(section, noted)?;
    writer.entries.extend(entries);
    Some(())
}

pub(super) fn task(section: &Section<'_>, writer: &mut Writer<'_>) -> Option<()> {
    let place = writer.place_or_none(section).ok()?;
    if !section.has("what") {
        section.missing("what", None);
    }
    let what = section.choice("what", &TASKS)?;
    let text = match section.text("text") {
        Some(text) => Some(Writer::text(section, text)?),
        None => None,
    };
    let new = NewTask {
        due: section.date("due"),
        to: writer.person(section, "to").ok()?,
        text,
        ..NewTask::of(what, place.map(|place| place.id))
    };
    let moment = writer.moment();
    let set = set_task::set(writer.book, &new, moment);
    writer.keep(section, set).map(drop)
}

/// Closes the oldest open task of that sort at the place.
pub(super) fn done(section: &Section<'_>, writer: &mut Writer<'_>) -> Option<()> {
    let place = writer.place_or_none(section).ok()?.map(|place| place.id);
    if !section.has("what") {
        section.missing("what", None);
    }
    let what = section.choice("what", &TASKS)?;
    let tasks = writer.book.tasks().map_err(Into::into);
    let tasks = Writer::heed(section, tasks)?;
    let open = tasks
        .into_iter()
        .filter(|task| task.what == what && task.subject == place && task.closed.is_none())
        .min_by_key(|task| (task.due, task.date));
    let Some(task) = open else {
        section.complain("what", Message::new("enter-no-task"), Some(Message::new("enter-no-task-remedy")));
        return None;
    };
    let reason = match section.text("reason") {
        Some(reason) => Some(Writer::text(section, reason)?),
        None => None,
    };
    let outcome = if section.flag("dropped") { Outcome::Dropped } else { Outcome::Done };
    let new = NewClosing { task: task.id, outcome, entry: None, reason };
    let moment = writer.moment();
    let closed = close_task::close(writer.book, &new, moment);
    writer.keep(section, closed).map(drop)
}
