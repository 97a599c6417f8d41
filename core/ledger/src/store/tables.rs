//! Rows to entries and back.

use std::cell::RefCell;
use std::collections::{BTreeMap, BTreeSet};
use std::rc::Rc;

use rusqlite::{Connection, OptionalExtension, params};
use sha2::{Digest, Sha256};

use crate::chain::Head;
use crate::entry::Entry;
use crate::entry::field::Field;
use crate::entry::id::{DeviceId, EntryId, Hash, HoldingId, PublicKey, Signature};
use crate::entry::kind::{Body, Kind};
use crate::entry::value::Value;
use crate::error::{LedgerError, Result};
use crate::projection::current::Standing;
use crate::projection::{Entries, InMemory, affected, fold, names_of};
use crate::text::{MAX_BYTES, Text};

/// The tables and triggers of a book.
pub(super) const TABLES: &str = include_str!("migrations/001_book.sql");

/// SQLite's integers are signed; positions are held below.
pub(super) fn column(number: u64) -> i64 {
    i64::try_from(number).unwrap_or(i64::MAX)
}

pub(super) fn position(number: i64) -> Result<u64> {
    u64::try_from(number).map_err(|_| LedgerError::Damaged("a position below zero".to_owned()))
}

pub(super) fn id_of(device: [u8; 16], seq: i64) -> Result<EntryId> {
    Ok(EntryId { device: DeviceId(device), seq: position(seq)? })
}

/// Adds an entry and what it names.
pub(super) fn insert(connection: &Connection, entry: &Entry, bytes: &[u8]) -> Result<()> {
    let hlc = match entry.hlc.to_value() {
        Value::Int(hlc) => hlc,
        _ => i64::MAX,
    };
    connection
        .prepare_cached("INSERT INTO entry (device, seq, hlc, kind, bytes) VALUES (?1, ?2, ?3, ?4, ?5)")?
        .execute(params![entry.id.device.0, column(entry.id.seq), hlc, entry.kind, bytes])?;
    mention(connection, entry)
}

fn mention(connection: &Connection, entry: &Entry) -> Result<()> {
    let mut statement = connection.prepare_cached(
        "INSERT INTO mention (named_device, named_seq, kind, device, seq) VALUES (?1, ?2, ?3, ?4, ?5)",
    )?;
    for named in names_of(entry) {
        statement.execute(params![
            named.device.0,
            column(named.seq),
            entry.kind,
            entry.id.device.0,
            column(entry.id.seq)
        ])?;
    }
    Ok(())
}

/// Keeps a head; one that is there already stays.
pub(super) fn insert_head(connection: &Connection, head: &Head) -> Result<()> {
    connection
        .prepare_cached(
            "INSERT INTO head (device, seq, hash, checkpoint, signature) SELECT ?1, ?2, ?3, ?4, ?5
             WHERE NOT EXISTS (SELECT 1 FROM head WHERE device = ?1 AND seq = ?2)",
        )?
        .execute(params![
            head.device.0,
            column(head.seq),
            head.hash.0,
            head.checkpoint.map(|hash| hash.0),
            head.signature.0
        ])?;
    Ok(())
}

/// Keeps texts; one that is there already stays.
pub(super) fn insert_texts(connection: &Connection, texts: &[Text]) -> Result<()> {
    let mut statement = connection
        .prepare_cached("INSERT INTO text (hash, salt, body) VALUES (?1, ?2, ?3) ON CONFLICT DO NOTHING")?;
    for text in texts {
        if text.body.len() > MAX_BYTES {
            return Err(LedgerError::TextTooLong { found: text.body.len(), most: MAX_BYTES });
        }
        statement.execute(params![text.hash().0, text.salt.0, text.body])?;
    }
    Ok(())
}

pub(super) fn bytes_of(connection: &Connection, id: EntryId) -> Result<Option<Vec<u8>>> {
    Ok(connection
        .prepare_cached("SELECT bytes FROM entry WHERE device = ?1 AND seq = ?2")?
        .query_row(params![id.device.0, column(id.seq)], |row| row.get(0))
        .optional()?)
}

pub(super) fn decode(bytes: &[u8]) -> Result<Entry> {
    Entry::decode(bytes).map_err(|refused| LedgerError::Damaged(format!("an entry does not read: {refused}")))
}

pub(super) fn entry(connection: &Connection, id: EntryId) -> Result<Option<Entry>> {
    bytes_of(connection, id)?.map(|bytes| decode(&bytes)).transpose()
}

/// Devices that have entries, in order.
pub(super) fn devices(connection: &Connection) -> Result<Vec<DeviceId>> {
    // Jumps from device to device through the key instead of walking all entries.
    let mut statement =
        connection.prepare_cached("SELECT device FROM entry WHERE device > ?1 ORDER BY device LIMIT 1")?;
    let mut found = Vec::new();
    let mut last: Vec<u8> = Vec::new();
    while let Some(device) = statement.query_row([&last], |row| row.get::<_, [u8; 16]>(0)).optional()? {
        found.push(DeviceId(device));
        last = device.to_vec();
    }
    Ok(found)
}

/// Position and hash of the last entry of a device.
pub(super) fn last(connection: &Connection, device: DeviceId) -> Result<Option<(u64, Hash)>> {
    connection
        .prepare_cached("SELECT seq, bytes FROM entry WHERE device = ?1 ORDER BY seq DESC LIMIT 1")?
        .query_row([device.0], |row| Ok((row.get::<_, i64>(0)?, row.get::<_, Vec<u8>>(1)?)))
        .optional()?
        .map(|(seq, bytes)| Ok((position(seq)?, Hash::of(&bytes))))
        .transpose()
}

/// The last signed head of a device, whatever entries are here.
pub(super) fn last_head(connection: &Connection, device: DeviceId) -> Result<Option<Head>> {
    connection
        .prepare_cached(
            "SELECT seq, hash, checkpoint, signature FROM head WHERE device = ?1 ORDER BY seq DESC LIMIT 1",
        )?
        .query_row([device.0], |row| {
            Ok((
                row.get::<_, i64>(0)?,
                row.get::<_, [u8; 32]>(1)?,
                row.get::<_, Option<[u8; 32]>>(2)?,
                row.get::<_, [u8; 64]>(3)?,
            ))
        })
        .optional()?
        .map(|(seq, hash, checkpoint, signature)| {
            Ok(Head {
                device,
                seq: position(seq)?,
                hash: Hash(hash),
                checkpoint: checkpoint.map(|hash: [u8; 32]| Hash(hash)),
                signature: Signature(signature),
            })
        })
        .transpose()
}

/// The key of an enrolled device.
pub(super) fn enrolled(connection: &Connection, device: DeviceId) -> Result<Option<PublicKey>> {
    let mut statement = connection.prepare_cached("SELECT bytes FROM entry WHERE kind = ?1")?;
    let mut rows = statement.query([Kind::DeviceEnrolled.number()])?;
    while let Some(row) = rows.next()? {
        let bytes: Vec<u8> = row.get(0)?;
        if let Ok(Body::DeviceEnrolled(body)) = Entry::decode(&bytes).map(|entry| entry.read())
            && body.public_key.device() == device
        {
            return Ok(Some(body.public_key));
        }
    }
    Ok(None)
}

/// Entries in the file, read as a fold asks for them.
pub(super) struct Stored<'a> {
    connection: &'a Connection,
    read: RefCell<BTreeMap<EntryId, Rc<Entry>>>,
    /// Entries that are known to have no changes.
    unchanged: RefCell<BTreeSet<EntryId>>,
}

impl<'a> Stored<'a> {
    pub(super) fn new(connection: &'a Connection) -> Self {
        Self { connection, read: RefCell::default(), unchanged: RefCell::default() }
    }
}

impl Entries for Stored<'_> {
    fn entry(&self, id: EntryId) -> Result<Option<Rc<Entry>>> {
        if let Some(entry) = self.read.borrow().get(&id) {
            return Ok(Some(Rc::clone(entry)));
        }
        let Some(found) = entry(self.connection, id)? else { return Ok(None) };
        let found = Rc::new(found);
        self.read.borrow_mut().insert(id, Rc::clone(&found));
        Ok(Some(found))
    }

    fn naming(&self, id: EntryId) -> Result<Vec<EntryId>> {
        let mut statement = self
            .connection
            .prepare_cached("SELECT device, seq FROM mention WHERE named_device = ?1 AND named_seq = ?2")?;
        let rows = statement
            .query_map(params![id.device.0, column(id.seq)], |row| Ok((row.get(0)?, row.get(1)?)))?
            .collect::<Result<Vec<([u8; 16], i64)>, _>>()?;
        rows.into_iter().map(|(device, seq)| id_of(device, seq)).collect()
    }

    fn naming_as(&self, id: EntryId, kind: Kind) -> Result<Vec<EntryId>> {
        let mut statement = self.connection.prepare_cached(
            "SELECT device, seq FROM mention WHERE named_device = ?1 AND named_seq = ?2 AND kind = ?3",
        )?;
        let rows = statement
            .query_map(params![id.device.0, column(id.seq), kind.number()], |row| {
                Ok((row.get(0)?, row.get(1)?))
            })?
            .collect::<Result<Vec<([u8; 16], i64)>, _>>()?;
        rows.into_iter().map(|(device, seq)| id_of(device, seq)).collect()
    }

    fn changing(&self, id: EntryId) -> Result<Vec<EntryId>> {
        if self.unchanged.borrow().contains(&id) {
            return Ok(Vec::new());
        }
        let mut changes = self.naming_as(id, Kind::EntryCorrected)?;
        changes.extend(self.naming_as(id, Kind::EntryWithdrawn)?);
        Ok(changes)
    }

    /// Reads in one go what would be asked for entry by entry.
    fn foresee(&self, id: EntryId) -> Result<()> {
        let mut changed = BTreeSet::new();
        let mut statement = self.connection.prepare_cached(
            "SELECT change.named_device, change.named_seq FROM mention JOIN mention AS change
             ON change.named_device = mention.device AND change.named_seq = mention.seq AND change.kind IN (?3, ?4)
             WHERE mention.named_device = ?1 AND mention.named_seq = ?2",
        )?;
        let (corrected, withdrawn) = (Kind::EntryCorrected.number(), Kind::EntryWithdrawn.number());
        let mut rows = statement.query(params![id.device.0, column(id.seq), corrected, withdrawn])?;
        while let Some(row) = rows.next()? {
            changed.insert(id_of(row.get(0)?, row.get(1)?)?);
        }
        let mut statement = self.connection.prepare_cached(
            "SELECT entry.bytes FROM mention JOIN entry ON entry.device = mention.device AND entry.seq = mention.seq
             WHERE mention.named_device = ?1 AND mention.named_seq = ?2",
        )?;
        let mut rows = statement.query(params![id.device.0, column(id.seq)])?;
        let (mut read, mut unchanged) = (self.read.borrow_mut(), self.unchanged.borrow_mut());
        while let Some(row) = rows.next()? {
            let entry = decode(row.get_ref(0)?.as_blob().unwrap_or_default())?;
            if !changed.contains(&entry.id) {
                unchanged.insert(entry.id);
            }
            read.entry(entry.id).or_insert_with(|| Rc::new(entry));
        }
        Ok(())
    }
}

/// Folds again what the new entries touch.
pub(super) fn refold(connection: &Connection, new: &[EntryId]) -> Result<()> {
    let stored = Stored::new(connection);
    let mut subjects = BTreeSet::new();
    for id in new {
        subjects.extend(affected(&stored, *id)?);
    }
    let standing = Standing::new(&stored);
    for subject in subjects {
        keep(connection, &stored, &standing, subject)?;
    }
    mark_built(connection)
}

fn keep<E: Entries>(
    connection: &Connection,
    entries: &E,
    standing: &Standing<'_, E>,
    subject: EntryId,
) -> Result<()> {
    if let Some(folded) = fold(entries, standing, subject)? {
        connection
            .prepare_cached(
                "INSERT OR REPLACE INTO projection (sort, device, seq, bytes) VALUES (?1, ?2, ?3, ?4)",
            )?
            .execute(params![folded.sort.code(), subject.device.0, column(subject.seq), folded.bytes])?;
    }
    Ok(())
}

/// Raised whenever a fold or a view changes: books folded by another version are rebuilt when they are opened.
const FOLDS: i64 = 6;

/// Notes the ends of the chains that the projections now stand for.
fn mark_built(connection: &Connection) -> Result<()> {
    connection.execute("DELETE FROM built", [])?;
    connection.execute("INSERT OR REPLACE INTO folds (id, version) VALUES (1, ?1)", [FOLDS])?;
    for device in devices(connection)? {
        if let Some((seq, hash)) = last(connection, device)? {
            connection
                .prepare_cached("INSERT INTO built (device, seq, hash) VALUES (?1, ?2, ?3)")?
                .execute(params![device.0, column(seq), hash.0])?;
        }
    }
    Ok(())
}

/// Whether the projections were built from the entries that are here.
pub(super) fn projections_stand(connection: &Connection) -> Result<bool> {
    let folds: Option<i64> =
        connection.query_row("SELECT version FROM folds", [], |row| row.get(0)).optional()?;
    if folds != Some(FOLDS) {
        return Ok(false);
    }
    let mut here = BTreeMap::new();
    for device in devices(connection)? {
        if let Some(end) = last(connection, device)? {
            here.insert(device, end);
        }
    }
    let mut statement = connection.prepare_cached("SELECT device, seq, hash FROM built")?;
    let mut built = BTreeMap::new();
    let mut rows = statement.query([])?;
    while let Some(row) = rows.next()? {
        built.insert(DeviceId(row.get(0)?), (position(row.get(1)?)?, Hash(row.get(2)?)));
    }
    Ok(here == built)
}

/// Every entry in memory.
pub(super) fn load(connection: &Connection) -> Result<InMemory> {
    let mut all = InMemory::default();
    let mut statement = connection.prepare_cached("SELECT bytes FROM entry ORDER BY device, seq")?;
    let mut rows = statement.query([])?;
    while let Some(row) = rows.next()? {
        all.insert(decode(row.get_ref(0)?.as_blob().unwrap_or_default())?);
    }
    Ok(all)
}

/// Drops what can be rebuilt, and rebuilds it.
pub(super) fn rebuild(connection: &Connection) -> Result<()> {
    connection.execute("DELETE FROM mention", [])?;
    connection.execute("DELETE FROM projection", [])?;
    let all = load(connection)?;
    for entry in all.all() {
        mention(connection, entry)?;
    }
    let standing = Standing::new(&all);
    for entry in all.all() {
        keep(connection, &all, &standing, entry.id)?;
    }
    mark_built(connection)
}

/// Rebuilds in memory what can be rebuilt, for a file that cannot be written: temporary tables of the same names are
/// found before those of the file.
pub(super) fn rebuild_aside(connection: &Connection) -> Result<()> {
    for statement in TABLES.split(';') {
        let Some((_, table)) = statement.split_once("CREATE TABLE ") else { continue };
        if ["mention ", "projection ", "built ", "folds "].iter().any(|name| table.starts_with(name)) {
            connection.execute_batch(&format!("CREATE TEMP TABLE {table}"))?;
        }
    }
    rebuild(connection)
}

/// SHA-256 of all projections in order: the same on every device that holds the same entries.
pub(super) fn projection_hash(connection: &Connection) -> Result<Hash> {
    let mut digest = Sha256::new();
    let mut statement = connection
        .prepare_cached("SELECT sort, device, seq, bytes FROM projection ORDER BY sort, device, seq")?;
    let mut rows = statement.query([])?;
    while let Some(row) = rows.next()? {
        let bytes: Vec<u8> = row.get(3)?;
        digest.update(row.get::<_, i64>(0)?.to_be_bytes());
        digest.update(row.get::<_, [u8; 16]>(1)?);
        digest.update(row.get::<_, i64>(2)?.to_be_bytes());
        digest.update((bytes.len() as u64).to_be_bytes());
        digest.update(bytes);
    }
    Ok(Hash(digest.finalize().into()))
}

/// Whether the table of mentions holds what the entries name, and nothing else.
pub(super) fn mentions_stand(connection: &Connection, all: &InMemory) -> Result<bool> {
    let mut expected = BTreeSet::new();
    for entry in all.all() {
        for named in names_of(entry) {
            expected.insert((named, entry.kind, entry.id));
        }
    }
    let mut statement =
        connection.prepare("SELECT named_device, named_seq, kind, device, seq FROM mention")?;
    let mut rows = statement.query([])?;
    let mut here = BTreeSet::new();
    while let Some(row) = rows.next()? {
        let named = id_of(row.get(0)?, row.get(1)?)?;
        here.insert((named, row.get(2)?, id_of(row.get(3)?, row.get(4)?)?));
    }
    Ok(here == expected)
}

/// The hash that a rebuild would give, without writing.
pub(super) fn hash_of_rebuild(all: &InMemory) -> Result<Hash> {
    let standing = Standing::new(all);
    let mut rows = BTreeMap::new();
    for entry in all.all() {
        if let Some(folded) = fold(all, &standing, entry.id)? {
            rows.insert((folded.sort.code(), entry.id), folded.bytes);
        }
    }
    let mut digest = Sha256::new();
    for ((sort, id), bytes) in rows {
        digest.update(sort.to_be_bytes());
        digest.update(id.device.0);
        digest.update(column(id.seq).to_be_bytes());
        digest.update((bytes.len() as u64).to_be_bytes());
        digest.update(bytes);
    }
    Ok(Hash(digest.finalize().into()))
}

/// The holding that the book's first entry founds.
pub(super) fn founded(entry: &Entry) -> Option<HoldingId> {
    match entry.read() {
        Body::HoldingOpened(body) => Some(HoldingId::new(&body.public_key, &body.nonce)),
        _ => None,
    }
}
