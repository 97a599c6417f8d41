//! Fields of an entry were replaced.

use super::kinded;
use crate::entry::field::{Field, FieldError, record};
use crate::entry::id::{Date, EntryId, TextRef};
use crate::entry::kind::Kind;
use crate::entry::value::Value;

record! {
    /// One field and what it should say.
    Replacement {
        /// Number of the body's field, or one of the negative numbers that stand for items of the envelope.
        field: i32,
        /// New value.
        value: Value,
    }
}

impl Replacement {
    /// Stands for the envelope's subject.
    pub const SUBJECT: i32 = -1;
    /// Stands for the envelope's date.
    pub const DATE: i32 = -2;
    /// Stands for the envelope's minute.
    pub const MINUTE: i32 = -3;
    /// Stands for the envelope's person.
    pub const BY: i32 = -4;

    /// A field of the kind's body, by name.
    pub fn field(kind: Kind, name: &str, value: &impl Field) -> Result<Self, FieldError> {
        kind.fields()
            .and_then(|fields| fields.iter().position(|field| *field == name))
            .and_then(|position| i32::try_from(position).ok())
            .map(|field| Self { field, value: value.to_value() })
            .ok_or_else(|| FieldError::NoField(name.to_owned()))
    }

    /// It was about something else.
    pub fn subject(subject: EntryId) -> Self {
        Self { field: Self::SUBJECT, value: subject.to_value() }
    }

    /// It was another day.
    pub fn date(date: Date) -> Self {
        Self { field: Self::DATE, value: date.to_value() }
    }

    /// It was another minute, or none is known.
    pub fn minute(minute: Option<u16>) -> Self {
        Self { field: Self::MINUTE, value: minute.to_value() }
    }

    /// It was another person, or none is named.
    pub fn by(by: Option<EntryId>) -> Self {
        Self { field: Self::BY, value: by.to_value() }
    }
}

record! {
    /// The target reads as if it had been written with these values; the original stays as it is.
    EntryCorrected {
        /// The original entry.
        target: EntryId,
        /// Changes of it that were known and are built on; none for the first.
        seen: Vec<EntryId>,
        /// What changes.
        replaced: Vec<Replacement>,
        /// Why.
        reason: Option<TextRef>,
    }
}

kinded!(EntryCorrected, version 1, about Nothing);
