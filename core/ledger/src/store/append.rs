//! Adding entries of our own.

use rusqlite::{Connection, OptionalExtension};

use super::{Book, tables};
use crate::chain::Head;
use crate::entry::field::Field;
use crate::entry::hlc::Hlc;
use crate::entry::id::{Date, EntryId, Hash, HoldingId};
use crate::entry::kind::{Body, EntryCorrected, EntryWithdrawn, Kind, Replacement, Subject};
use crate::entry::{Entry, Refused, check_time};
use crate::error::{LedgerError, Result};
use crate::key::DeviceKey;
use crate::projection::current::Flag;
use crate::text::Text;

/// When something happened, where it happened.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct When {
    /// The day.
    pub date: Date,
    /// Minute of the day, where known.
    pub minute: Option<u16>,
    /// Local time less UTC, minutes.
    pub offset_min: i16,
}

impl When {
    /// A day, nothing nearer.
    pub const fn on(date: Date) -> Self {
        Self { date, minute: None, offset_min: 0 }
    }
}

/// An entry to be written.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Draft {
    /// When it happened.
    pub when: When,
    /// The person named on the device.
    pub by: Option<EntryId>,
    /// What it is about.
    pub subject: Option<EntryId>,
    /// What it says.
    pub body: Body,
}

impl Draft {
    /// An entry about nothing, by nobody named.
    pub fn new(when: When, body: impl Into<Body>) -> Self {
        Self { when, by: None, subject: None, body: body.into() }
    }

    /// Names the person.
    #[must_use]
    pub fn by(mut self, person: Option<EntryId>) -> Self {
        self.by = person;
        self
    }

    /// Says what it is about.
    #[must_use]
    pub fn about(mut self, subject: EntryId) -> Self {
        self.subject = Some(subject);
        self
    }
}

/// Who writes, into which holding's book.
#[derive(Debug, Clone, Copy)]
pub(super) struct Author<'a> {
    pub(super) holding: HoldingId,
    pub(super) key: &'a DeviceKey,
}

impl Author<'_> {
    /// Position, hash before it and clock of the next entry.
    fn next(&self, connection: &Connection, wall_ms: i64) -> Result<(u64, Hash, Hlc)> {
        let device = self.key.device();
        let entry = tables::last(connection, device)?;
        // A book that was damaged may have lost its last entries but not the signature over them: others may hold
        // them, so their positions are not used again.
        let head = tables::last_head(connection, device)?.map(|head| (head.seq, head.hash));
        let (seq, prev) = match (entry, head) {
            (Some(entry), Some(head)) if head.0 > entry.0 => head,
            (Some(end), _) | (None, Some(end)) => end,
            (None, None) => (0, Hash::ZERO),
        };
        let horizon = match Hlc::horizon(wall_ms).to_value() {
            crate::Value::Int(horizon) => horizon,
            _ => i64::MAX,
        };
        // Entries from clocks that run too far ahead do not move ours; our own always do.
        let latest: Option<i64> = connection
            .prepare_cached(
                "SELECT max(hlc) FROM (SELECT max(hlc) AS hlc FROM entry WHERE hlc <= ?1
                 UNION ALL SELECT max(hlc) FROM entry WHERE device = ?2)",
            )?
            .query_row(rusqlite::params![horizon, device.0], |row| row.get(0))
            .optional()?
            .flatten();
        let latest = match latest {
            Some(hlc) => Hlc::from_value(&crate::Value::Int(hlc))?,
            None => Hlc::ZERO,
        };
        Ok((seq, prev, latest))
    }

    pub(super) fn append(
        &self,
        connection: &Connection,
        drafts: &[Draft],
        texts: &[Text],
        wall_ms: i64,
    ) -> Result<Vec<EntryId>> {
        let device = self.key.device();
        let (mut seq, mut prev, mut hlc) = self.next(connection, wall_ms)?;
        let mut written = Vec::with_capacity(drafts.len());
        for draft in drafts {
            seq += 1;
            hlc = Hlc::tick(hlc, wall_ms);
            let entry = self.entry(draft, EntryId { device, seq }, hlc, prev, wall_ms)?;
            check_names(connection, draft)?;
            let bytes = entry.encode();
            // What does not read back the same was out of range: better refused now than never read again.
            if Entry::decode(&bytes)?.read() != draft.body {
                return Err(Refused::Item(crate::FieldError::Range("figures that an entry can hold")).into());
            }
            tables::insert(connection, &entry, &bytes)?;
            prev = Hash::of(&bytes);
            written.push(entry.id);
        }
        if !written.is_empty() {
            tables::insert_head(connection, &Head::sign(self.key, &self.holding, seq, prev))?;
        }
        tables::insert_texts(connection, texts)?;
        tables::refold(connection, &written)?;
        Ok(written)
    }

    fn entry(&self, draft: &Draft, id: EntryId, hlc: Hlc, prev: Hash, wall_ms: i64) -> Result<Entry> {
        let (kind, version, body) = draft.body.write().ok_or(Refused::Shape)?;
        Body::check(kind, version, &body)?;
        check_time(draft.when.minute, draft.when.offset_min)?;
        Ok(Entry {
            holding: self.holding,
            id,
            hlc,
            prev,
            by: draft.by,
            subject: draft.subject,
            date: draft.when.date,
            minute: draft.when.minute,
            offset_min: draft.when.offset_min,
            wall_ms,
            kind: kind.number(),
            version,
            body,
        })
    }
}

/// Whatever an entry of ours names is in the book and of the right kind.
fn check_names(connection: &Connection, draft: &Draft) -> Result<()> {
    let kind_of = |id: EntryId| -> Result<Option<Kind>> {
        tables::entry(connection, id)?.map(|entry| entry.known_kind()).ok_or(LedgerError::Unknown(id))
    };
    let Some((kind, _, _)) = draft.body.write() else { return Ok(()) };
    match (kind.subject().kinds(), draft.subject) {
        (Some(_), None) => return Err(LedgerError::NoSubject),
        (Some(kinds), Some(id)) => {
            if !kind_of(id)?.is_some_and(|kind| kinds.contains(&kind)) {
                return Err(LedgerError::WrongKind { what: "the subject".to_owned(), id });
            }
        }
        (None, Some(_)) if kind.subject() == Subject::Nothing => return Err(LedgerError::HasSubject),
        (None, Some(id)) => {
            kind_of(id)?;
        }
        (None, None) => {}
    }
    if let Some(id) = draft.by
        && kind_of(id)? != Some(Kind::PersonNamed)
    {
        return Err(LedgerError::WrongKind { what: "the person".to_owned(), id });
    }
    for id in draft.body.names() {
        kind_of(id)?;
    }
    for target in draft.body.targets() {
        let kind = kind_of(target.id)?;
        if !target.kinds.is_empty() && !kind.is_some_and(|kind| target.kinds.contains(&kind)) {
            return Err(LedgerError::WrongKind { what: target.field.to_owned(), id: target.id });
        }
    }
    Ok(())
}

/// A change of an earlier entry, by whom, when and why.
#[derive(Debug, Clone, Copy)]
pub struct Change<'a> {
    /// When it is made.
    pub when: When,
    /// By whom.
    pub by: Option<EntryId>,
    /// Why; its hash goes into the entry.
    pub reason: Option<&'a Text>,
}

impl Book {
    /// Writes entries and texts in one durable transaction: all are in the book when this returns, or none.
    pub fn append(&mut self, drafts: &[Draft], texts: &[Text], wall_ms: i64) -> Result<Vec<EntryId>> {
        let holding = self.holding;
        let key = self.key.clone().ok_or(LedgerError::NoKey)?;
        self.write(|connection| Author { holding, key: &key }.append(connection, drafts, texts, wall_ms))
    }

    /// The id that the next entry of this device will have; those after it follow by [`EntryId::after`].
    pub fn next_id(&self) -> Result<EntryId> {
        let key = self.key.as_ref().ok_or(LedgerError::NoKey)?;
        let (seq, _, _) = Author { holding: self.holding, key }.next(self.connection()?, 0)?;
        Ok(EntryId { device: key.device(), seq: seq + 1 })
    }

    /// Replaces fields of an entry. A correction of a correction names the original again.
    pub fn correct(
        &mut self,
        target: EntryId,
        replaced: &[Replacement],
        change: Change<'_>,
        wall_ms: i64,
    ) -> Result<EntryId> {
        let current = self.current(target)?.ok_or(LedgerError::Unknown(target))?;
        if current.flags.contains(&Flag::Withdrawn) {
            return Err(LedgerError::Withdrawn(target));
        }
        let Some(kind) = current.original.known_kind() else {
            return Err(LedgerError::WrongKind { what: "the target".to_owned(), id: target });
        };
        // The book stands on these: a wrong key or nonce would be another device or another holding.
        let stays = |replacement: &Replacement| {
            usize::try_from(replacement.field)
                .ok()
                .and_then(|number| kind.fields()?.get(number))
                .is_some_and(|name| ["public_key", "nonce"].contains(name))
        };
        if replaced.iter().any(stays) {
            return Err(LedgerError::Fixed(target));
        }
        check_replaced(self.connection()?, &current, kind, replaced)?;
        self.change(
            EntryCorrected {
                target,
                seen: current.tips,
                replaced: replaced.to_vec(),
                reason: change.reason.map(Text::hash),
            }
            .into(),
            change,
            wall_ms,
        )
    }

    /// Takes an entry out. Of a correction or a withdrawal, it restores what was before.
    pub fn withdraw(&mut self, target: EntryId, change: Change<'_>, wall_ms: i64) -> Result<EntryId> {
        let current = self.current(target)?.ok_or(LedgerError::Unknown(target))?;
        if current.flags.contains(&Flag::Withdrawn) && current.tips.len() < 2 {
            return Err(LedgerError::Withdrawn(target));
        }
        let kind = current.original.known_kind();
        if matches!(kind, Some(Kind::HoldingOpened | Kind::DeviceEnrolled)) {
            return Err(LedgerError::Fixed(target));
        }
        self.change(
            EntryWithdrawn { target, seen: current.tips, reason: change.reason.map(Text::hash) }.into(),
            change,
            wall_ms,
        )
    }

    fn change(&mut self, body: Body, change: Change<'_>, wall_ms: i64) -> Result<EntryId> {
        let id = self.next_id()?;
        let texts: Vec<Text> = change.reason.into_iter().cloned().collect();
        let draft = Draft { when: change.when, by: change.by, subject: None, body };
        Ok(self.append(&[draft], &texts, wall_ms)?.first().copied().unwrap_or(id))
    }
}

/// What a correction puts in fits the fields that it names, and what it names is there.
fn check_replaced(
    connection: &Connection,
    current: &crate::Current,
    kind: Kind,
    replaced: &[Replacement],
) -> Result<()> {
    let (_, version, mut fields) = current
        .body
        .write()
        .ok_or_else(|| LedgerError::WrongKind { what: "the target".to_owned(), id: current.original.id })?;
    if matches!(kind, Kind::EntryCorrected | Kind::EntryWithdrawn) {
        return Err(LedgerError::WrongKind { what: "the target".to_owned(), id: current.original.id });
    }
    let (mut when, mut subject, mut by) = (
        When { date: current.date, minute: current.minute, offset_min: current.original.offset_min },
        current.subject,
        current.by,
    );
    for Replacement { field, value } in replaced {
        match *field {
            Replacement::SUBJECT => subject = Option::from_value(value)?,
            Replacement::DATE => when.date = Date::from_value(value)?,
            Replacement::MINUTE => when.minute = Option::from_value(value)?,
            Replacement::BY => by = Option::from_value(value)?,
            number => {
                *usize::try_from(number)
                    .ok()
                    .and_then(|number| fields.get_mut(number))
                    .ok_or_else(|| crate::FieldError::NoField(number.to_string()))? = value.clone();
            }
        }
    }
    check_time(when.minute, when.offset_min)?;
    Body::check(kind, version, &fields)?;
    let body = Body::read(kind.number(), version, &fields);
    check_names(connection, &Draft { when, by, subject, body })
}
