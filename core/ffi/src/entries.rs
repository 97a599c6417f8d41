//! Book: entries as sentences, newest first, by the page; taking one out, putting it back, moving it.

use kerfbook_acts::mistake::{self, Unit};
use kerfbook_acts::told_entry::Teller;
use kerfbook_ledger::{EntryId, Flag, LedgerError, Line, Position};

use crate::error::CoreError;
use crate::field_book::{FieldBook, Speech, of_act, of_book, text};

/// Most entries of one page.
const PAGE: u32 = 200;

/// An entry as a person reads it.
#[derive(Debug, Clone, PartialEq, Eq, uniffi::Record)]
pub struct EntryView {
    /// Its id.
    pub id: String,
    /// The day it happened, told.
    pub day: String,
    /// What happened.
    pub text: String,
    /// Who, where somebody is named.
    pub by: String,
    /// What has to be said about it.
    pub flags: Vec<String>,
    /// It was taken out.
    pub out: bool,
    /// It may be taken out, or put back.
    pub changes: bool,
    /// It is about a place and may be moved to another.
    pub moves: bool,
    /// The place that it is about; empty where it is about none.
    pub place: String,
    /// Units that its amount may have been meant in.
    pub slips: Vec<SlipView>,
}

/// A unit that was written down for another one.
#[derive(Debug, Clone, PartialEq, Eq, uniffi::Record)]
pub struct SlipView {
    /// Sign of the unit written down, as `wrong_unit` takes it.
    pub written: String,
    /// Sign of the unit meant.
    pub meant: String,
    /// Both, told.
    pub text: String,
}

/// A page of entries.
#[derive(Debug, Clone, PartialEq, Eq, uniffi::Record)]
pub struct EntriesView {
    /// Newest first.
    pub entries: Vec<EntryView>,
    /// There are older ones: ask with the last one's id.
    pub more: bool,
}

#[uniffi::export]
impl FieldBook {
    /// Entries, newest first: the first page, or those older than an entry. At most 200 at once.
    ///
    /// # Errors
    /// A book that cannot be read, or an entry that is not there.
    pub fn entries(&self, older_than: Option<String>, limit: u32) -> Result<EntriesView, CoreError> {
        let speech = self.speech();
        let book = self.book();
        let limit = limit.clamp(1, PAGE);
        let before = match older_than {
            None => None,
            Some(id) => {
                let id = speech.typed().entry("older_than", &id)?;
                let entry =
                    of_book(book.entry(id).and_then(|entry| entry.ok_or(LedgerError::Unknown(id))), &speech)?;
                Some(Position::of(&entry))
            }
        };
        let mut lines = of_book(book.latest(before, limit + 1), &speech)?;
        let more = lines.len() > usize::try_from(limit).unwrap_or(usize::MAX);
        lines.truncate(usize::try_from(limit).unwrap_or(usize::MAX));
        let teller = of_book(Teller::new(&book, &speech.words), &speech)?;
        let entries = lines.iter().map(|line| told(line, &teller, &speech)).collect::<Result<_, _>>()?;
        Ok(EntriesView { entries, more })
    }

    /// Takes an entry out: what rests on it stays, flagged. Undo is this. Gives the withdrawal's id.
    ///
    /// # Errors
    /// An entry that is not there, is out already or holds the book up; a book that cannot be written.
    pub fn withdraw(&self, entry: String, reason: String) -> Result<String, CoreError> {
        let (speech, moment) = (self.speech(), self.moment()?);
        let id = speech.typed().entry("entry", &entry)?;
        let reason = text(&reason)?;
        let out = mistake::taken_out(&mut self.book(), id, reason.as_ref(), moment);
        of_act(out, "entry", &speech).map(|id| id.to_string())
    }

    /// Puts an entry back that was taken out.
    ///
    /// # Errors
    /// An entry that is not there or was not taken out; a book that cannot be written.
    pub fn put_back(&self, entry: String, reason: String) -> Result<(), CoreError> {
        let (speech, moment) = (self.speech(), self.moment()?);
        let id = speech.typed().entry("entry", &entry)?;
        let reason = text(&reason)?;
        of_act(mistake::put_back(&mut self.book(), id, reason.as_ref(), moment), "entry", &speech).map(|_| ())
    }

    /// Moves an entry to the place that it is about in truth, with what hangs on it.
    ///
    /// # Errors
    /// An entry about no place, or about this place already; a book that cannot be written.
    pub fn move_to(&self, entry: String, place: String, reason: String) -> Result<(), CoreError> {
        let (speech, moment) = (self.speech(), self.moment()?);
        let id = speech.typed().entry("entry", &entry)?;
        let place = speech.typed().entry("place", &place)?;
        let reason = text(&reason)?;
        let moved = mistake::moved_to(&mut self.book(), &[id], place, reason.as_ref(), moment);
        of_act(moved, "place", &speech).map(|_| ())
    }

    /// Puts an amount right that was written down in one unit and meant in another.
    ///
    /// # Errors
    /// An entry without such an amount, a unit that is none; a book that cannot be written.
    pub fn wrong_unit(
        &self,
        entry: String,
        written: String,
        meant: String,
        reason: String,
    ) -> Result<(), CoreError> {
        let (speech, moment) = (self.speech(), self.moment()?);
        let typed = speech.typed();
        let id = typed.entry("entry", &entry)?;
        let unit = |field, sign: &str| Unit::of_name(sign).ok_or_else(|| typed.wrong(field, "phone-choose"));
        let (written, meant) = (unit("written", &written)?, unit("meant", &meant)?);
        let reason = text(&reason)?;
        let right = mistake::wrong_unit(&mut self.book(), id, written, meant, reason.as_ref(), moment);
        of_act(right, "meant", &speech).map(|_| ())
    }
}

fn told(line: &Line, teller: &Teller<'_>, speech: &Speech) -> Result<EntryView, CoreError> {
    let current = &line.current;
    let told = of_book(teller.tell(current), speech)?;
    let kind = current.original.known_kind();
    let mut flags = told.flags;
    if line.ahead {
        flags.push(speech.words.label("flag-clock-ahead"));
    }
    Ok(EntryView {
        id: told.id,
        day: speech.words.date_with_year(current.date.naive()),
        text: told.text,
        by: told.by,
        flags,
        out: current.flags.contains(&Flag::Withdrawn),
        changes: kind.is_some_and(changes),
        moves: current.subject.is_some() && kind.is_some_and(of_place),
        place: current
            .subject
            .filter(|_| kind.is_some_and(of_place))
            .map_or_else(String::new, |place| place.to_string()),
        slips: mistake::slips(&current.body).into_iter().map(|pair| slip(pair, speech)).collect(),
    })
}

fn slip((written, meant): (Unit, Unit), speech: &Speech) -> SlipView {
    let sign = |unit: Unit| speech.words.label(&format!("slip-unit-{}", unit.name()));
    SlipView {
        written: written.name().to_owned(),
        meant: meant.name().to_owned(),
        text: speech.words.say("slip", &[("written", sign(written)), ("meant", sign(meant))]),
    }
}

fn changes(kind: kerfbook_ledger::kind::Kind) -> bool {
    use kerfbook_ledger::kind::Kind;
    !matches!(kind, Kind::HoldingOpened | Kind::DeviceEnrolled | Kind::EntryWithdrawn)
}

fn of_place(kind: kerfbook_ledger::kind::Kind) -> bool {
    use kerfbook_ledger::kind::Subject;
    matches!(kind.subject(), Subject::Place)
}

/// An entry that was just written, and how it reads.
#[derive(Debug, Clone, PartialEq, Eq, uniffi::Record)]
pub struct SavedView {
    /// Its id, for undoing it.
    pub entry: String,
    /// What the book now says.
    pub text: String,
}

/// What the book says of an entry that was just written.
pub(crate) fn saved(
    book: &kerfbook_ledger::Book,
    entry: EntryId,
    speech: &Speech,
) -> Result<SavedView, CoreError> {
    let told = of_book(Teller::new(book, &speech.words).and_then(|teller| teller.tell_id(entry)), speech)?;
    Ok(SavedView { entry: entry.to_string(), text: told.text })
}
