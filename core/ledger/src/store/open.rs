//! Making and opening a book, and the settings of its connection.

use std::fs::File;
use std::path::{Path, PathBuf};
use std::time::Duration;

use rusqlite::config::DbConfig;
use rusqlite::limits::Limit;
use rusqlite::{Connection, OpenFlags, OptionalExtension};

use super::append::{Author, Draft, When};
use super::tables;
use super::views::Views;
use super::{APPLICATION_ID, Book, OLDEST_SQLITE, SCHEMA};
use crate::entry::field::Label;
use crate::entry::id::{HoldingId, Nonce};
use crate::entry::kind::{DeviceEnrolled, HoldingOpened};
use crate::error::{LedgerError, Result};
use crate::key::DeviceKey;

/// What a book begins with.
#[derive(Debug, Clone)]
pub struct Founding {
    /// What the holding is called.
    pub name: Label,
    /// What this device is called.
    pub device_label: Label,
    /// Random bytes that make the holding's id its own.
    pub nonce: [u8; 16],
    /// Food is sold.
    pub sells: bool,
    /// Certified organic.
    pub certified: bool,
    /// North positive, 0.01 degree.
    pub latitude_centidegree: Option<i32>,
    /// The day, and where the clock stands.
    pub when: When,
    /// Wall time, ms since 1970-01-01 UTC.
    pub wall_ms: i64,
}

impl Book {
    /// Makes a book with its first two entries. Nothing is left behind where that fails.
    pub fn create(path: &Path, key: &DeviceKey, founding: &Founding) -> Result<Self> {
        if path.exists() {
            return Err(LedgerError::Exists);
        }
        if !folder_of(path).is_dir() {
            return Err(LedgerError::NotFound);
        }
        let public_key = key.public();
        let nonce = Nonce(founding.nonce);
        let holding = HoldingId::new(&public_key, &nonce);
        let draft = |body| Draft { when: founding.when, by: None, subject: None, body };
        let drafts = [
            draft(
                HoldingOpened {
                    name: founding.name.clone(),
                    public_key,
                    nonce,
                    sells: founding.sells,
                    certified: founding.certified,
                    latitude_centidegree: founding.latitude_centidegree,
                }
                .into(),
            ),
            draft(DeviceEnrolled { public_key, label: founding.device_label.clone() }.into()),
        ];
        Self::lay_out(path, holding, |connection| {
            let author = Author { holding, key };
            author.append(connection, &drafts, &[], founding.wall_ms).map(|_| ())
        })?;
        Self::open(path, Some(key))
    }

    /// Makes the file under another name, fills it in one transaction, and gives it its name when it is whole.
    pub(super) fn lay_out(
        path: &Path,
        holding: HoldingId,
        fill: impl FnOnce(&Connection) -> Result<()>,
    ) -> Result<()> {
        let draft = beside(path, "-new");
        let made = (|| {
            let mut connection = Connection::open_with_flags(
                &draft,
                OpenFlags::SQLITE_OPEN_READ_WRITE | OpenFlags::SQLITE_OPEN_CREATE,
            )?;
            settings(&connection)?;
            let transaction = connection.transaction()?;
            transaction.execute_batch(tables::TABLES)?;
            transaction.pragma_update(None, "application_id", APPLICATION_ID)?;
            transaction.pragma_update(None, "user_version", SCHEMA)?;
            transaction.execute("INSERT INTO book (id, holding) VALUES (1, ?1)", [holding.0])?;
            fill(&transaction)?;
            transaction.commit()?;
            connection.close().map_err(|(_, error)| LedgerError::from(error))?;
            if path.exists() {
                return Err(LedgerError::Exists);
            }
            std::fs::rename(&draft, path).map_err(|error| from_io(&error))?;
            sync_folder(path)
        })();
        if made.is_err() && draft.exists() {
            // Nobody has seen this file: it holds nothing that is not lost with the failure anyway.
            for leftover in [draft.clone(), beside(&draft, "-journal")] {
                let _ = std::fs::remove_file(leftover);
            }
        }
        made
    }

    /// Opens a book. Without a key, with the key of a device that is not enrolled, or where the file cannot be
    /// written, it can only be read: see [`Book::writable`].
    pub fn open(path: &Path, key: Option<&DeviceKey>) -> Result<Self> {
        if !path.exists() {
            return Err(LedgerError::NotFound);
        }
        if rusqlite::version_number() < OLDEST_SQLITE {
            return Err(LedgerError::OldSqlite(rusqlite::version().to_owned()));
        }
        let (connection, can_write) = match Self::connect(path) {
            Ok(connection) => {
                let can_write = !connection.is_readonly("main")?;
                (connection, can_write)
            }
            Err(LedgerError::ReadOnly) => (Self::connect_unwritable(path)?, false),
            Err(error) => return Err(error),
        };
        let holding = connection
            .query_row("SELECT holding FROM book WHERE id = 1", [], |row| row.get::<_, [u8; 32]>(0))
            .optional()?
            .map(HoldingId)
            .ok_or_else(|| LedgerError::Damaged("it names no holding".to_owned()))?;
        let mut book = Self {
            path: path.to_owned(),
            connection: Some(connection),
            holding,
            key: None,
            views: Views::default(),
        };
        if let (Some(key), true) = (key, can_write)
            && tables::enrolled(book.connection()?, key.device())?.is_some()
        {
            book.key = Some(key.clone());
        }
        if !tables::projections_stand(book.connection()?)? {
            if can_write {
                book.rebuild()?;
            } else {
                tables::rebuild_aside(book.connection()?)?;
            }
        }
        Ok(book)
    }

    fn connect(path: &Path) -> Result<Connection> {
        let connection = Connection::open_with_flags(path, OpenFlags::SQLITE_OPEN_READ_WRITE)?;
        whose(&connection)?;
        settings(&connection)?;
        if !connection.is_readonly("main")? {
            let mode: String = connection.query_row("PRAGMA journal_mode = WAL", [], |row| row.get(0))?;
            if !mode.eq_ignore_ascii_case("wal") {
                return Err(LedgerError::Sqlite(format!("the write-ahead log could not be set up ({mode})")));
            }
        }
        Ok(connection)
    }

    /// A folder that nobody here can write: the file is read as it lies, which misses nothing if no log lies beside.
    fn connect_unwritable(path: &Path) -> Result<Connection> {
        let log = beside(path, "-wal");
        if log.metadata().is_ok_and(|log| log.len() > 0) {
            return Err(LedgerError::ReadOnly);
        }
        let name: String = path
            .to_str()
            .ok_or(LedgerError::ReadOnly)?
            .chars()
            .map(|c| match c {
                '%' => "%25".to_owned(),
                '?' => "%3f".to_owned(),
                '#' => "%23".to_owned(),
                other => other.to_string(),
            })
            .collect();
        let connection = Connection::open_with_flags(
            format!("file:{name}?immutable=1"),
            OpenFlags::SQLITE_OPEN_READ_ONLY | OpenFlags::SQLITE_OPEN_URI,
        )?;
        whose(&connection)?;
        settings(&connection)?;
        Ok(connection)
    }
}

/// Refuses files of other programs and of later versions before anything is written to them.
fn whose(connection: &Connection) -> Result<()> {
    connection.busy_timeout(BUSY)?;
    let application: i32 = connection.query_row("PRAGMA application_id", [], |row| row.get(0))?;
    let schema: i32 = connection.query_row("PRAGMA user_version", [], |row| row.get(0))?;
    if application != APPLICATION_ID {
        return Err(LedgerError::NotABook);
    }
    if schema > SCHEMA {
        return Err(LedgerError::Newer { found: schema, known: SCHEMA });
    }
    if schema < 1 {
        return Err(LedgerError::Damaged("its schema has no number".to_owned()));
    }
    Ok(())
}

/// How long another writer is waited for. Common practice, no source.
const BUSY: Duration = Duration::from_secs(5);

/// Settings of every connection. Limits are those that SQLite's "Defense Against The Dark Arts" gives for files from
/// strangers, raised where said.
pub(super) fn settings(connection: &Connection) -> Result<()> {
    connection.busy_timeout(BUSY)?;
    connection.set_db_config(DbConfig::SQLITE_DBCONFIG_DEFENSIVE, true)?;
    connection.set_db_config(DbConfig::SQLITE_DBCONFIG_TRUSTED_SCHEMA, false)?;
    for (name, value) in [
        // A write-ahead log with FULL syncs after each commit: what was acknowledged outlives a power cut.
        ("synchronous", 2),
        // On Apple systems a plain sync leaves data in the drive's cache; elsewhere these do nothing.
        ("fullfsync", 1),
        ("checkpoint_fullfsync", 1),
        ("foreign_keys", 1),
        ("trusted_schema", 0),
        ("cell_size_check", 1),
        // Erased text is overwritten, not only unlinked.
        ("secure_delete", 1),
        // Temporary files fail on some phones.
        ("temp_store", 2),
        ("wal_autocheckpoint", 256),
        ("journal_size_limit", 4 * 1024 * 1024),
        // An I/O error under a memory map is a signal, not an error code.
        ("mmap_size", 0),
    ] {
        // Some of these answer with a row and some do not; both are well.
        connection.query_row(&format!("PRAGMA {name} = {value}"), [], |_| Ok(())).optional()?;
    }
    for (limit, value) in [
        // A place's projection is one value: raised, so that a place takes some 200,000 entries.
        (Limit::SQLITE_LIMIT_LENGTH, 16_000_000),
        (Limit::SQLITE_LIMIT_SQL_LENGTH, 100_000),
        (Limit::SQLITE_LIMIT_COLUMN, 100),
        (Limit::SQLITE_LIMIT_EXPR_DEPTH, 10),
        (Limit::SQLITE_LIMIT_VDBE_OP, 25_000),
        (Limit::SQLITE_LIMIT_ATTACHED, 0),
        (Limit::SQLITE_LIMIT_LIKE_PATTERN_LENGTH, 50),
        (Limit::SQLITE_LIMIT_VARIABLE_NUMBER, 10),
        (Limit::SQLITE_LIMIT_TRIGGER_DEPTH, 10),
    ] {
        connection.set_limit(limit, value)?;
    }
    Ok(())
}

fn folder_of(path: &Path) -> &Path {
    path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."))
}

/// A file beside another, as SQLite names its own.
pub(super) fn beside(path: &Path, suffix: &str) -> PathBuf {
    let mut name = path.as_os_str().to_owned();
    name.push(suffix);
    PathBuf::from(name)
}

pub(super) fn from_io(error: &std::io::Error) -> LedgerError {
    match error.kind() {
        std::io::ErrorKind::NotFound => LedgerError::NotFound,
        std::io::ErrorKind::AlreadyExists => LedgerError::Exists,
        std::io::ErrorKind::PermissionDenied | std::io::ErrorKind::ReadOnlyFilesystem => {
            LedgerError::ReadOnly
        }
        std::io::ErrorKind::StorageFull | std::io::ErrorKind::QuotaExceeded => LedgerError::Full,
        _ => LedgerError::Io(error.to_string()),
    }
}

/// A new name is on the disk only once its folder is.
pub(super) fn sync_folder(path: &Path) -> Result<()> {
    if cfg!(unix) {
        File::open(folder_of(path)).and_then(|folder| folder.sync_all()).map_err(|error| from_io(&error))?;
    }
    Ok(())
}
