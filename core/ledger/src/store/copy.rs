//! A copy of the book in one file, to hand over or to keep elsewhere.

use std::path::Path;

use rusqlite::limits::Limit;

use super::Book;
use super::open::{beside, from_io, sync_folder};
use crate::error::{LedgerError, Result};

impl Book {
    /// Writes all that the book holds into a new file. It gets its name when it is whole; nothing is left behind where
    /// that fails. Whoever opens it without this device's key can read it, not write in it.
    pub fn copy_to(&self, path: &Path) -> Result<()> {
        if path.exists() {
            return Err(LedgerError::Exists);
        }
        let draft = beside(path, "-new");
        // One that was cut off before.
        match std::fs::remove_file(&draft) {
            Err(error) if error.kind() != std::io::ErrorKind::NotFound => return Err(from_io(&error)),
            _ => {}
        }
        let copied = self.vacuum_into(&draft).and_then(|()| {
            std::fs::rename(&draft, path).map_err(|error| from_io(&error))?;
            sync_folder(path)
        });
        if copied.is_err() {
            // Nobody has seen this file.
            let _ = std::fs::remove_file(&draft);
        }
        copied
    }

    fn vacuum_into(&self, path: &Path) -> Result<()> {
        let connection = self.connection()?;
        let name = path.to_str().ok_or(LedgerError::ReadOnly)?;
        // The copy is attached while it is written, which is else forbidden.
        connection.set_limit(Limit::SQLITE_LIMIT_ATTACHED, 1)?;
        let copied = connection.execute("VACUUM INTO ?1", [name]);
        connection.set_limit(Limit::SQLITE_LIMIT_ATTACHED, 0)?;
        copied?;
        std::fs::File::open(path).and_then(|file| file.sync_all()).map_err(|error| from_io(&error))
    }
}
