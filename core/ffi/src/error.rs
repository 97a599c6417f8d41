//! What can go wrong, in one enum: shells choose what to do by the variant and show the reason as it is.

use kerfbook_acts::error::ActError;
use kerfbook_acts::refusal;
use kerfbook_ledger::LedgerError;
use kerfbook_words::{Message, Words};

/// Why something was not done. Nothing has been written, whichever it is.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error, uniffi::Error)]
#[uniffi::export(Display)]
pub enum CoreError {
    /// Something typed or chosen that cannot be.
    #[error("{field}: {reason}")]
    BadInput {
        /// Which field, by the name of the record's field; empty where it is none alone.
        field: String,
        /// Why, for the person.
        reason: String,
    },
    /// The book refuses to be read: it was changed or broken outside this program.
    #[error("{reason}")]
    BookDamaged {
        /// Why, for the person.
        reason: String,
    },
    /// The book is of a newer version.
    #[error("{reason}")]
    BookNewer {
        /// Why, for the person.
        reason: String,
    },
    /// There is no book at this path, or there is one already.
    #[error("{reason}")]
    NoBook {
        /// Why, for the person.
        reason: String,
    },
    /// The book opens for reading only.
    #[error("{reason}")]
    ReadOnly {
        /// Why, for the person.
        reason: String,
    },
    /// No room is left on the phone.
    #[error("{reason}")]
    DiskFull {
        /// Why, for the person.
        reason: String,
    },
    /// The shell's key store or clock failed.
    #[error("{reason}")]
    Platform {
        /// Why.
        reason: String,
    },
    /// Anything else.
    #[error("{reason}")]
    Other {
        /// Why.
        reason: String,
    },
}

impl From<uniffi::UnexpectedUniFFICallbackError> for CoreError {
    fn from(error: uniffi::UnexpectedUniFFICallbackError) -> Self {
        Self::Platform { reason: error.reason }
    }
}

impl CoreError {
    /// What an act refused; `field` is the field that the act's own key does not name.
    pub(crate) fn of_act(error: &ActError, field: &str, words: &Words) -> Self {
        if let ActError::Ledger(error) = error {
            return Self::of_book(error, words);
        }
        let (what, remedy) = refusal::told(error);
        let mut reason = what.say(words);
        if let Some(remedy) = remedy {
            reason = format!("{reason} {}", remedy.say(words));
        }
        Self::BadInput { field: field.to_owned(), reason }
    }

    /// Why a book did not do what was asked.
    pub(crate) fn of_book(error: &LedgerError, words: &Words) -> Self {
        let say = |id: &'static str| Message::new(id).say(words);
        let why = || Message::new("book-other").text("why", error).say(words);
        match error {
            LedgerError::Damaged(_) | LedgerError::NotABook => {
                Self::BookDamaged { reason: say("phone-book-damaged") }
            }
            LedgerError::Newer { .. } => Self::BookNewer { reason: say("error-book-newer") },
            LedgerError::NotFound => Self::NoBook { reason: say("phone-no-book") },
            LedgerError::Exists => Self::NoBook { reason: say("book-exists") },
            LedgerError::ReadOnly | LedgerError::NoKey | LedgerError::NotEnrolled(_) => {
                Self::ReadOnly { reason: say("error-book-not-enrolled") }
            }
            LedgerError::Full => Self::DiskFull { reason: say("error-book-full") },
            LedgerError::Io(_) | LedgerError::Closed => Self::DiskFull { reason: say("phone-not-written") },
            LedgerError::Withdrawn(_) => {
                Self::BadInput { field: String::new(), reason: say("book-withdrawn") }
            }
            LedgerError::Fixed(_) => Self::BadInput { field: String::new(), reason: say("book-fixed") },
            LedgerError::Field(_) => Self::BadInput { field: String::new(), reason: why() },
            _ => Self::Other { reason: why() },
        }
    }
}

/// With a capital at the start, as a sentence stands alone.
pub(crate) fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| format!("{}{}", first.to_uppercase(), letters.as_str()))
}
