//! The book: one SQLite file with entries, heads, texts and projections.

pub mod append;
mod copy;
pub mod open;
pub mod read;
mod receive;
pub mod salvage;
mod tables;
pub mod verify;
mod views;

use std::path::PathBuf;

use rusqlite::Connection;

use crate::entry::id::HoldingId;
use crate::error::{LedgerError, Result};
use crate::key::DeviceKey;
use views::Views;

/// Marks the file as a book: "KFBK".
pub const APPLICATION_ID: i32 = 0x4b46_424b;
/// Schema that this version writes.
pub const SCHEMA: i32 = 1;
/// First SQLite without the race that could lose commits of a write-ahead log.
pub const OLDEST_SQLITE: i32 = 3_051_003;

/// A holding's book. Entries are added, never changed.
#[derive(Debug)]
pub struct Book {
    path: PathBuf,
    /// Gone once a write to disk has failed: what SQLite then holds in memory is not to be trusted.
    connection: Option<Connection>,
    holding: HoldingId,
    key: Option<DeviceKey>,
    views: Views,
}

impl Book {
    /// The holding's id.
    pub const fn holding(&self) -> HoldingId {
        self.holding
    }

    /// Whether entries can be added: a key was given, its device is enrolled, and the file can be written.
    pub const fn writable(&self) -> bool {
        self.key.is_some()
    }

    /// Opens the file again where a write to disk has failed: what was in the book then is in it, and nothing of that
    /// write. Does nothing to a book that is open.
    ///
    /// # Errors
    /// As [`Book::open`]; the book then stays closed, and this may be tried again.
    pub fn reopen(&mut self) -> Result<()> {
        if self.connection.is_none() {
            *self = Self::open(&self.path, self.key.as_ref())?;
        }
        Ok(())
    }

    fn connection(&self) -> Result<&Connection> {
        self.connection.as_ref().ok_or(LedgerError::Closed)
    }

    /// Runs a change in one transaction: all of it is on the disk when this returns, or none. Within
    /// [`Book::together`] it becomes part of the greater one.
    fn write<T>(&mut self, change: impl FnOnce(&Connection) -> Result<T>) -> Result<T> {
        let connection = self.connection.as_mut().ok_or(LedgerError::Closed)?;
        let outcome = if connection.is_autocommit() {
            connection
                .transaction_with_behavior(rusqlite::TransactionBehavior::Immediate)
                .map_err(LedgerError::from)
                .and_then(|transaction| {
                    let value = change(&transaction)?;
                    transaction.commit()?;
                    Ok(value)
                })
        } else {
            connection.savepoint().map_err(LedgerError::from).and_then(|savepoint| {
                let value = change(&savepoint)?;
                savepoint.commit()?;
                Ok(value)
            })
        };
        if matches!(outcome, Err(LedgerError::Io(_))) {
            self.connection = None;
        }
        outcome
    }

    /// Runs several acts as one: what all of them wrote is on the disk when this returns, or, where one of them fails,
    /// none of it. Within the acts the book reads as if what they wrote so far were there.
    ///
    /// # Errors
    /// The first error of the acts; a book that cannot be written.
    pub fn together<T, E: From<LedgerError>>(
        &mut self,
        acts: impl FnOnce(&mut Self) -> std::result::Result<T, E>,
    ) -> std::result::Result<T, E> {
        self.run("BEGIN IMMEDIATE")?;
        let outcome = acts(self).and_then(|value| {
            // A full disk may have ended the transaction already.
            let open = !self.connection()?.is_autocommit();
            let ended = if open { self.run("COMMIT") } else { Err(LedgerError::Full) };
            ended.map(|()| value).map_err(E::from)
        });
        if outcome.is_err() && self.connection.as_ref().is_some_and(|connection| !connection.is_autocommit())
        {
            self.run("ROLLBACK")?;
        }
        outcome
    }

    /// Runs a statement that gives nothing; a failed write closes the book.
    fn run(&mut self, statement: &str) -> Result<()> {
        let outcome = self.connection()?.execute_batch(statement).map_err(LedgerError::from);
        if matches!(outcome, Err(LedgerError::Io(_))) {
            self.connection = None;
        }
        outcome
    }

    /// Holds the file below a number of pages of 4096 bytes; what does not fit fails as on a full disk.
    pub fn limit_pages(&self, pages: u32) -> Result<()> {
        self.connection()?.query_row(&format!("PRAGMA max_page_count = {pages}"), [], |_| Ok(()))?;
        Ok(())
    }

    /// Writes the log back into the file, so that the file alone is the book. For before the app goes to sleep.
    pub fn settle(&self) -> Result<()> {
        self.connection()?.query_row("PRAGMA wal_checkpoint(TRUNCATE)", [], |_| Ok(()))?;
        Ok(())
    }
}

/// The SQLite that books are kept with.
pub fn library_version() -> &'static str {
    rusqlite::version()
}
