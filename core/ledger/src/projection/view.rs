//! What views are made of: what an entry says with its day, and entries about which something has to be said.

use std::collections::BTreeSet;

use serde::Serialize;

use super::current::{Current, Flag};
use crate::entry::field::{Field, FieldError, record};
use crate::entry::id::{Date, EntryId};
use crate::entry::value::Value;

/// What an entry says as it stands, and when it happened.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Said<T> {
    /// The entry.
    pub entry: EntryId,
    /// When.
    pub date: Date,
    /// Minute of the day, where known.
    pub minute: Option<u16>,
    /// What it says.
    pub body: T,
}

impl<T: Clone> Said<T> {
    pub(super) fn of(current: &Current, body: &T) -> Self {
        Self { entry: current.original.id, date: current.date, minute: current.minute, body: body.clone() }
    }
}

impl<T: Field> Field for Said<T> {
    fn to_value(&self) -> Value {
        Value::List(vec![
            self.entry.to_value(),
            self.date.to_value(),
            self.minute.to_value(),
            self.body.to_value(),
        ])
    }

    fn from_value(value: &Value) -> Result<Self, FieldError> {
        let Value::List(items) = value else { return Err(FieldError::Type("a list of fields")) };
        let [entry, date, minute, body] = items.as_slice() else {
            return Err(FieldError::Count { expected: 4, found: items.len() });
        };
        Ok(Self {
            entry: EntryId::from_value(entry)?,
            date: Date::from_value(date)?,
            minute: Option::from_value(minute)?,
            body: T::from_value(body)?,
        })
    }
}

record! {
    /// An entry about which something has to be said.
    Flagged {
        /// The entry.
        entry: EntryId,
        /// What.
        flags: Vec<Flag>,
    }
}

/// Flags as a list.
pub(super) fn listed(flags: &BTreeSet<Flag>) -> Vec<Flag> {
    flags.iter().copied().collect()
}

/// The entry, where something has to be said about it.
pub(super) fn flagged(current: &Current) -> Option<Flagged> {
    (!current.flags.is_empty()).then(|| Flagged { entry: current.original.id, flags: listed(&current.flags) })
}

/// Whether an entry carries a flag.
pub(super) fn carries(flagged: &[Flagged], entry: EntryId, flag: Flag) -> bool {
    flagged.iter().any(|one| one.entry == entry && one.flags.contains(&flag))
}
