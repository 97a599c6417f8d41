//! Entries and who names whom.

use std::collections::BTreeMap;
use std::rc::Rc;

use crate::entry::Entry;
use crate::entry::id::EntryId;
use crate::entry::kind::{Body, Kind};
use crate::error::Result;

/// Where a fold finds its entries.
pub(crate) trait Entries {
    /// The entry, where it has arrived.
    fn entry(&self, id: EntryId) -> Result<Option<Rc<Entry>>>;
    /// All entries that name this one as subject, in a field, or as what they change.
    fn naming(&self, id: EntryId) -> Result<Vec<EntryId>>;
    /// Those among them that are of one kind.
    fn naming_as(&self, id: EntryId, kind: Kind) -> Result<Vec<EntryId>>;

    /// Corrections and withdrawals among them.
    fn changing(&self, id: EntryId) -> Result<Vec<EntryId>>;
    /// All that name this one will be asked for, with their changes.
    fn foresee(&self, _id: EntryId) -> Result<()> {
        Ok(())
    }
}

/// Everything that an entry names but the person: subject and fields.
pub(crate) fn names_of(entry: &Entry) -> Vec<EntryId> {
    let mut names: Vec<EntryId> = entry.subject.into_iter().chain(entry.read().names()).collect();
    names.sort_unstable();
    names.dedup();
    names
}

/// The entry that an entry changes, where it is a correction or a withdrawal.
pub(crate) fn changes(entry: &Entry) -> Option<EntryId> {
    match entry.known_kind() {
        Some(Kind::EntryCorrected | Kind::EntryWithdrawn) => target_of(&entry.read()),
        _ => None,
    }
}

/// The entry that a correction or withdrawal changes.
pub(crate) fn target_of(body: &Body) -> Option<EntryId> {
    match body {
        Body::EntryCorrected(change) => Some(change.target),
        Body::EntryWithdrawn(change) => Some(change.target),
        _ => None,
    }
}

/// All entries in memory: for a rebuild.
#[derive(Default)]
pub(crate) struct InMemory {
    entries: BTreeMap<EntryId, Rc<Entry>>,
    naming: BTreeMap<EntryId, Vec<(u16, EntryId)>>,
}

impl InMemory {
    pub(crate) fn insert(&mut self, entry: Entry) {
        for named in names_of(&entry) {
            self.naming.entry(named).or_default().push((entry.kind, entry.id));
        }
        self.entries.insert(entry.id, Rc::new(entry));
    }

    pub(crate) fn all(&self) -> impl Iterator<Item = &Rc<Entry>> {
        self.entries.values()
    }

    fn named(&self, id: EntryId) -> &[(u16, EntryId)] {
        self.naming.get(&id).map_or(&[], Vec::as_slice)
    }
}

impl Entries for InMemory {
    fn entry(&self, id: EntryId) -> Result<Option<Rc<Entry>>> {
        Ok(self.entries.get(&id).cloned())
    }

    fn naming(&self, id: EntryId) -> Result<Vec<EntryId>> {
        Ok(self.named(id).iter().map(|(_, by)| *by).collect())
    }

    fn naming_as(&self, id: EntryId, kind: Kind) -> Result<Vec<EntryId>> {
        Ok(self.named(id).iter().filter(|(code, _)| *code == kind.number()).map(|(_, by)| *by).collect())
    }

    fn changing(&self, id: EntryId) -> Result<Vec<EntryId>> {
        let mut changes = self.naming_as(id, Kind::EntryCorrected)?;
        changes.extend(self.naming_as(id, Kind::EntryWithdrawn)?);
        Ok(changes)
    }
}
