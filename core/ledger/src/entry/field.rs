//! How a field of a body is written and read, and the shapes that records and coded words share.

use super::id::EntryId;
use super::value::Value;

/// Why a field does not read.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum FieldError {
    /// Another type than asked for.
    #[error("expected {0}")]
    Type(&'static str),
    /// The right type, but beyond its bounds.
    #[error("out of range: expected {0}")]
    Range(&'static str),
    /// A code that this version does not know.
    #[error("code {code} is not a {of}")]
    Code {
        /// What was looked for.
        of: &'static str,
        /// The code found.
        code: i64,
    },
    /// Too few or too many fields.
    #[error("{found} fields where {expected} belong")]
    Count {
        /// Fields of this version.
        expected: usize,
        /// Fields found.
        found: usize,
    },
    /// A label that is empty, too long or holds control characters.
    #[error("a label has 1 to 40 characters and no control characters; put longer text in a note")]
    Label,
    /// The field with that name failed.
    #[error("{name}: {source}")]
    In {
        /// Field.
        name: &'static str,
        /// What was wrong with it.
        source: Box<FieldError>,
    },
    /// No field of that name or number.
    #[error("there is no field {0}")]
    NoField(String),
}

/// Something that stands in a body.
pub trait Field: Sized {
    /// As it is written.
    fn to_value(&self) -> Value;
    /// Read back.
    fn from_value(value: &Value) -> Result<Self, FieldError>;
    /// Entries that it names.
    fn names(&self, _into: &mut Vec<EntryId>) {}
}

/// Fields by position.
pub trait Record: Sized {
    /// Names of the fields; a field's number is its place here.
    const FIELDS: &'static [&'static str];
    /// As written.
    fn fields(&self) -> Vec<Value>;
    /// Read back.
    fn from_fields(fields: &[Value]) -> Result<Self, FieldError>;
    /// Entries that the fields name.
    fn names_in(&self, into: &mut Vec<EntryId>);
}

/// The next field of a record, with its name in the error.
pub(crate) fn next<T: Field>(
    fields: &mut std::slice::Iter<'_, Value>,
    name: &'static str,
) -> Result<T, FieldError> {
    let value = fields.next().ok_or(FieldError::Type("one more field"))?;
    T::from_value(value).map_err(|source| FieldError::In { name, source: Box::new(source) })
}

/// A struct whose fields are written by position.
macro_rules! record {
    ($(#[$meta:meta])* $name:ident { $($(#[$field_meta:meta])* $field:ident: $type:ty),* $(,)? }) => {
        $(#[$meta])*
        #[derive(Debug, Clone, PartialEq, Eq, serde::Serialize)]
        pub struct $name {
            $($(#[$field_meta])* pub $field: $type,)*
        }

        impl $crate::entry::field::Record for $name {
            const FIELDS: &'static [&'static str] = &[$(stringify!($field)),*];

            fn fields(&self) -> Vec<$crate::entry::value::Value> {
                vec![$($crate::entry::field::Field::to_value(&self.$field)),*]
            }

            fn from_fields(
                fields: &[$crate::entry::value::Value],
            ) -> Result<Self, $crate::entry::field::FieldError> {
                let expected = Self::FIELDS.len();
                if fields.len() != expected {
                    return Err($crate::entry::field::FieldError::Count { expected, found: fields.len() });
                }
                let mut fields = fields.iter();
                Ok(Self { $($field: $crate::entry::field::next(&mut fields, stringify!($field))?),* })
            }

            fn names_in(&self, into: &mut Vec<$crate::entry::id::EntryId>) {
                $($crate::entry::field::Field::names(&self.$field, into);)*
            }
        }

        impl $crate::entry::field::Field for $name {
            fn to_value(&self) -> $crate::entry::value::Value {
                $crate::entry::value::Value::List($crate::entry::field::Record::fields(self))
            }

            fn from_value(
                value: &$crate::entry::value::Value,
            ) -> Result<Self, $crate::entry::field::FieldError> {
                match value {
                    $crate::entry::value::Value::List(fields) => {
                        $crate::entry::field::Record::from_fields(fields)
                    }
                    _ => Err($crate::entry::field::FieldError::Type("a list of fields")),
                }
            }

            fn names(&self, into: &mut Vec<$crate::entry::id::EntryId>) {
                $crate::entry::field::Record::names_in(self, into);
            }
        }
    };
}
pub(crate) use record;

/// A word that is written as a number; codes are never given to another word.
macro_rules! codes {
    ($(#[$meta:meta])* $name:ident, $what:literal {
        $($(#[$variant_meta:meta])* $variant:ident = $code:literal, $word:literal;)*
    }) => {
        $(#[$meta])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum $name {
            $($(#[$variant_meta])* $variant,)*
        }

        impl $name {
            /// Every one, by code.
            pub const ALL: &'static [Self] = &[$(Self::$variant),*];

            /// The number written.
            pub const fn code(self) -> i64 {
                match self { $(Self::$variant => $code,)* }
            }

            /// The one with that number.
            pub const fn from_code(code: i64) -> Option<Self> {
                match code { $($code => Some(Self::$variant),)* _ => None }
            }

            /// The word used in files.
            pub const fn name(self) -> &'static str {
                match self { $(Self::$variant => $word,)* }
            }

            /// The one with that word.
            pub fn from_name(name: &str) -> Option<Self> {
                Self::ALL.iter().copied().find(|one| one.name() == name)
            }
        }

        impl $crate::entry::field::Field for $name {
            fn to_value(&self) -> $crate::entry::value::Value {
                $crate::entry::value::Value::Int(self.code())
            }

            fn from_value(
                value: &$crate::entry::value::Value,
            ) -> Result<Self, $crate::entry::field::FieldError> {
                match value {
                    $crate::entry::value::Value::Int(code) => Self::from_code(*code)
                        .ok_or($crate::entry::field::FieldError::Code { of: $what, code: *code }),
                    _ => Err($crate::entry::field::FieldError::Type("a code")),
                }
            }
        }

        impl serde::Serialize for $name {
            fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
                serializer.serialize_str(self.name())
            }
        }
    };
}
pub(crate) use codes;

macro_rules! whole_number {
    ($($type:ty, $what:literal;)*) => {
        $(impl Field for $type {
            fn to_value(&self) -> Value {
                // Only u64 can exceed i64; appending refuses an entry that does not read back the same.
                Value::Int(i64::try_from(*self).unwrap_or(i64::MAX))
            }

            fn from_value(value: &Value) -> Result<Self, FieldError> {
                match value {
                    Value::Int(number) => Self::try_from(*number).map_err(|_| FieldError::Range($what)),
                    _ => Err(FieldError::Type("a whole number")),
                }
            }
        })*
    };
}

whole_number! {
    u16, "0 to 65535";
    u32, "0 to 4294967295";
    u64, "a number that is not negative";
    i16, "-32768 to 32767";
    i32, "-2147483648 to 2147483647";
    i64, "64 bits";
}

impl Field for bool {
    fn to_value(&self) -> Value {
        Value::Int(i64::from(*self))
    }

    fn from_value(value: &Value) -> Result<Self, FieldError> {
        match value {
            Value::Int(0) => Ok(false),
            Value::Int(1) => Ok(true),
            _ => Err(FieldError::Type("0 or 1")),
        }
    }
}

impl Field for Value {
    fn to_value(&self) -> Value {
        self.clone()
    }

    fn from_value(value: &Value) -> Result<Self, FieldError> {
        Ok(value.clone())
    }

    fn names(&self, into: &mut Vec<EntryId>) {
        if let Ok(id) = EntryId::from_value(self) {
            into.push(id);
        } else if let Self::List(items) = self {
            for item in items {
                item.names(into);
            }
        }
    }
}

impl<T: Field> Field for Option<T> {
    fn to_value(&self) -> Value {
        self.as_ref().map_or(Value::Null, Field::to_value)
    }

    fn from_value(value: &Value) -> Result<Self, FieldError> {
        match value {
            Value::Null => Ok(None),
            _ => T::from_value(value).map(Some),
        }
    }

    fn names(&self, into: &mut Vec<EntryId>) {
        if let Some(inner) = self {
            inner.names(into);
        }
    }
}

impl<T: Field> Field for Vec<T> {
    fn to_value(&self) -> Value {
        Value::List(self.iter().map(Field::to_value).collect())
    }

    fn from_value(value: &Value) -> Result<Self, FieldError> {
        match value {
            Value::List(items) => items.iter().map(T::from_value).collect(),
            _ => Err(FieldError::Type("a list")),
        }
    }

    fn names(&self, into: &mut Vec<EntryId>) {
        for item in self {
            item.names(into);
        }
    }
}

/// A short name inside an entry: 1 to 40 characters.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Label(String);

impl Label {
    /// Longest label, characters.
    pub const MAX: usize = 40;

    /// Checks the length and that nothing invisible is in it.
    pub fn new(text: &str) -> Result<Self, FieldError> {
        let length = text.chars().count();
        if length == 0 || length > Self::MAX || text.chars().any(char::is_control) {
            return Err(FieldError::Label);
        }
        Ok(Self(text.to_owned()))
    }

    /// The text.
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl Field for Label {
    fn to_value(&self) -> Value {
        Value::Text(self.0.clone())
    }

    fn from_value(value: &Value) -> Result<Self, FieldError> {
        match value {
            Value::Text(text) => Self::new(text),
            _ => Err(FieldError::Type("text")),
        }
    }
}

impl std::fmt::Display for Label {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        out.write_str(&self.0)
    }
}

impl serde::Serialize for Label {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(&self.0)
    }
}
