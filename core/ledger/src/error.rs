//! What can go wrong with a book.

use rusqlite::ErrorCode;

use crate::entry::Refused;
use crate::entry::field::FieldError;
use crate::entry::id::{DeviceId, EntryId};

/// Why a book did not do what was asked. Messages name no file: whoever asked knows which one it was.
#[derive(Debug, thiserror::Error)]
pub enum LedgerError {
    /// The file exists already.
    #[error("there is a file of that name already; choose another name")]
    Exists,
    /// No such file.
    #[error("there is no such file or folder; check the name")]
    NotFound,
    /// A file of another program.
    #[error("this is not a Kerfbook book but a file of another program; it was left as it is")]
    NotABook,
    /// Written by a later version.
    #[error(
        "the book has schema {found}, this version knows {known}; open it with the version that wrote it or a later one"
    )]
    Newer {
        /// Schema found.
        found: i32,
        /// Schema known.
        known: i32,
    },
    /// The file does not read.
    #[error("the book is damaged ({0}); set it aside and keep what verifies")]
    Damaged(String),
    /// The file or its folder cannot be written.
    #[error("the book's file or folder cannot be written; check its permissions")]
    ReadOnly,
    /// No room.
    #[error(
        "the disk is full; nothing of this was written, everything before is kept; make room and try again"
    )]
    Full,
    /// Another program is writing.
    #[error("another program is writing the book; nothing of this was written, try again")]
    Locked,
    /// Reading or writing failed below SQLite.
    #[error("reading or writing the disk failed ({0}); the book was closed, open it again and verify it")]
    Io(String),
    /// An earlier failure closed the book.
    #[error("the book was closed after a failed write; open it again and verify it")]
    Closed,
    /// SQLite is too old to be trusted with a write-ahead log.
    #[error("SQLite {0} can lose entries; 3.51.3 or later is needed")]
    OldSqlite(String),
    /// No key was given, or the book's file can only be read.
    #[error("the book is open for reading only; give the key of an enrolled device to write")]
    NoKey,
    /// The key's device may not write here.
    #[error("device {0} is not enrolled in this book; enrol it from a device that is")]
    NotEnrolled(DeviceId),
    /// A named entry is not in the book.
    #[error("entry {0} is not in the book")]
    Unknown(EntryId),
    /// A named entry is of the wrong kind.
    #[error("{what} does not fit: entry {id} is of another kind")]
    WrongKind {
        /// Which field or item.
        what: String,
        /// What it names.
        id: EntryId,
    },
    /// The entry names nothing, but has to.
    #[error("the entry has to say which place or batch it is about")]
    NoSubject,
    /// The entry names something, but its kind is about nothing.
    #[error("an entry of this kind is about nothing else; leave the subject out")]
    HasSubject,
    /// The entry has been withdrawn.
    #[error("entry {0} has been withdrawn; withdraw the withdrawal first")]
    Withdrawn(EntryId),
    /// It cannot be withdrawn or corrected.
    #[error("entry {0} founds the book or enrols a device and stays as it is")]
    Fixed(EntryId),
    /// A field is wrong.
    #[error("{0}")]
    Field(#[from] FieldError),
    /// Bytes that are no entry.
    #[error("entry refused: {0}")]
    Refused(#[from] Refused),
    /// A text is too long.
    #[error("a text has {found} bytes, at most {most} are kept; shorten it")]
    TextTooLong {
        /// Bytes found.
        found: usize,
        /// Most.
        most: usize,
    },
    /// An entry from another holding.
    #[error("entry {0} belongs to another holding")]
    OtherHolding(EntryId),
    /// Two entries at one position of a chain.
    #[error("device {} wrote two entries at position {}; the second was not taken, ask the owner", .0.device, .0.seq)]
    Forked(EntryId),
    /// Entries in between are missing.
    #[error("entry {0} does not follow what the book holds of its device; get those before it first")]
    Gap(EntryId),
    /// No valid signature covers the entries.
    #[error("the entries of device {0} are not signed by it; they were not taken")]
    Unsigned(DeviceId),
    /// Anything else that SQLite reports.
    #[error("the book could not be used: {0}")]
    Sqlite(String),
}

/// Result of whatever a book does.
pub type Result<T, E = LedgerError> = std::result::Result<T, E>;

impl From<rusqlite::Error> for LedgerError {
    fn from(error: rusqlite::Error) -> Self {
        let text = error.to_string();
        match error {
            rusqlite::Error::SqliteFailure(cause, _) => match cause.code {
                ErrorCode::DiskFull => Self::Full,
                ErrorCode::DatabaseBusy
                | ErrorCode::DatabaseLocked
                | ErrorCode::FileLockingProtocolFailed => Self::Locked,
                ErrorCode::ReadOnly | ErrorCode::CannotOpen | ErrorCode::PermissionDenied => Self::ReadOnly,
                ErrorCode::DatabaseCorrupt => Self::Damaged(text),
                ErrorCode::NotADatabase => Self::NotABook,
                ErrorCode::SystemIoFailure => Self::Io(text),
                _ => Self::Sqlite(text),
            },
            rusqlite::Error::FromSqlConversionFailure(..)
            | rusqlite::Error::IntegralValueOutOfRange(..)
            | rusqlite::Error::InvalidColumnType(..)
            | rusqlite::Error::Utf8Error(..) => Self::Damaged(text),
            _ => Self::Sqlite(text),
        }
    }
}
