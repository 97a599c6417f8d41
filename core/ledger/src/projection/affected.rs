//! Which subjects an entry touches, so that only they are folded again.

use std::collections::BTreeSet;
use std::rc::Rc;

use super::Sort;
use super::graph::{Entries, changes, names_of};
use crate::entry::id::EntryId;
use crate::entry::kind::Kind;
use crate::error::Result;

/// Subjects whose fold may look at the entry or at what it changes.
pub(crate) fn affected<E: Entries>(entries: &E, new: EntryId) -> Result<BTreeSet<EntryId>> {
    let mut changed = BTreeSet::new();
    let mut open = vec![new];
    while let Some(id) = open.pop() {
        if !changed.insert(id) {
            continue;
        }
        // What names a changed entry may now rest on something else.
        open.extend(entries.naming(id)?);
        let Some(entry) = entries.entry(id)? else { continue };
        let target = changes(&entry);
        open.extend(target);
        // Some entries flag others that they do not name: a closing whatever is about its place, a lifting the other
        // liftings of its layer. Both where it stood before and where it stands now.
        let said = match target {
            Some(target) => entries.entry(target)?,
            None => Some(Rc::clone(&entry)),
        };
        match said.and_then(|said| said.known_kind()) {
            Some(Kind::PlaceClosed) => open.extend(names_of(&entry)),
            Some(Kind::LayerLifted) => {
                for named in names_of(&entry) {
                    if entries.entry(named)?.is_some_and(|layer| layer.known_kind() == Some(Kind::PutDown)) {
                        open.push(named);
                    }
                }
            }
            _ => {}
        }
    }
    let mut subjects = BTreeSet::new();
    for id in changed {
        let Some(entry) = entries.entry(id)? else { continue };
        for subject in names_of(&entry).into_iter().chain([id]) {
            if let Some(opening) = entries.entry(subject)?
                && opening.known_kind().and_then(Sort::opened_by).is_some()
            {
                subjects.insert(subject);
            }
        }
    }
    Ok(subjects)
}
