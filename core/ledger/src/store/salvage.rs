//! What can be kept of a damaged book. Nothing is ever deleted.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

use rusqlite::{Connection, OpenFlags, params};
use serde::Serialize;
use sha2::{Digest, Sha256};

use super::open::{beside, from_io, sync_folder};
use super::{Book, tables};
use crate::chain::Head;
use crate::entry::Entry;
use crate::entry::codec;
use crate::entry::id::{DeviceId, EntryId, Hash, HoldingId, Nonce, PublicKey, Signature, TextRef};
use crate::entry::kind::Body;
use crate::entry::value::Value;
use crate::error::{LedgerError, Result};
use crate::key::DeviceKey;
use crate::text::Text;

/// Entries that are known to have been there and were not found whole.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct Missing {
    /// Whose.
    pub device: DeviceId,
    /// First.
    pub from: u64,
    /// Last.
    pub to: u64,
}

/// What was kept.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Salvaged {
    /// Entries that verify and are in the new book.
    pub kept: u64,
    /// Texts that are whole.
    pub texts: u64,
    /// Entries that are missing, by device and position.
    pub missing: Vec<Missing>,
    /// Entries that read but do not fit their chain; they were left in the damaged file.
    pub doubtful: Vec<EntryId>,
}

/// Gives a damaged book another name, with the files that SQLite keeps beside it, and returns that name.
pub fn set_aside(path: &Path, stamp: &str) -> Result<PathBuf> {
    let aside = beside(path, &format!(".damaged-{stamp}"));
    if aside.exists() {
        return Err(LedgerError::Exists);
    }
    for suffix in ["-wal", "-shm"] {
        let from = beside(path, suffix);
        if from.exists() {
            std::fs::rename(&from, beside(&aside, suffix)).map_err(|error| from_io(&error))?;
        }
    }
    std::fs::rename(path, &aside).map_err(|error| from_io(&error))?;
    sync_folder(path)?;
    Ok(aside)
}

/// Reads what is left of a damaged book into a new one: every entry that is whole and tied to its chain.
///
/// Entries are looked for through SQLite and in the raw bytes of the file. With the device's own key, the end of its
/// chain is signed again where the signature was lost.
pub fn salvage(damaged: &Path, fresh: &Path, key: Option<&DeviceKey>) -> Result<Salvaged> {
    if fresh.exists() {
        return Err(LedgerError::Exists);
    }
    let mut found = Found::default();
    found.read_raw(damaged)?;
    found.read_tables(damaged);
    let holding = found.holding()?;
    found.entries.retain(|_, (entry, _)| entry.holding == holding);
    let keys = found.keys();
    found.read_raw_around(damaged, &holding, &keys)?;
    found.heads.retain(|_, head| keys.get(&head.device).is_some_and(|key| head.verifies(&holding, key)));

    let whole = found.whole(&keys);
    let mut missing = Vec::new();
    for device in found.devices() {
        missing.extend(gaps(device, &whole, &found.heads));
    }
    let doubtful = found.entries.keys().filter(|id| !whole.contains(id)).copied().collect();

    Book::lay_out(fresh, holding, |connection| {
        for id in &whole {
            if let Some((entry, bytes)) = found.entries.get(id) {
                tables::insert(connection, entry, bytes)?;
            }
        }
        for head in found.heads.values() {
            tables::insert_head(connection, head)?;
        }
        let texts: Vec<Text> = found.texts.values().cloned().collect();
        tables::insert_texts(connection, &texts)?;
        sign_again(connection, &holding, key, &keys)?;
        tables::rebuild(connection)
    })?;
    Ok(Salvaged { kept: whole.len() as u64, texts: found.texts.len() as u64, missing, doubtful })
}

/// Signs the end of our own chain where its signature was lost.
fn sign_again(
    connection: &Connection,
    holding: &HoldingId,
    key: Option<&DeviceKey>,
    keys: &BTreeMap<DeviceId, PublicKey>,
) -> Result<()> {
    let Some(key) = key.filter(|key| keys.contains_key(&key.device())) else { return Ok(()) };
    if let Some((seq, hash)) = tables::last(connection, key.device())?
        && tables::last_head(connection, key.device())?.is_none_or(|head| head.seq < seq)
    {
        tables::insert_head(connection, &Head::sign(key, holding, seq, hash))?;
    }
    Ok(())
}

#[derive(Default)]
struct Found {
    entries: BTreeMap<EntryId, (Entry, Vec<u8>)>,
    /// By position and signature: damage can leave two heads at one position, and only one verifies.
    heads: BTreeMap<(EntryId, Signature), Head>,
    texts: BTreeMap<TextRef, Text>,
}

impl Found {
    fn add(&mut self, bytes: &[u8]) {
        if let Ok(entry) = Entry::decode(bytes) {
            self.entries.entry(entry.id).or_insert_with(|| (entry, bytes.to_vec()));
        }
    }

    /// Envelopes that lie in one piece in the file or its log, wherever they are.
    fn read_raw(&mut self, damaged: &Path) -> Result<()> {
        // An array of sixteen, format 1, algorithm 1, 32 bytes of holding.
        const START: [u8; 5] = [0x90, 0x01, 0x01, 0x58, 0x20];
        for bytes in raw(damaged)? {
            for (at, window) in bytes.windows(START.len()).enumerate() {
                if window == START
                    && let Some(rest) = bytes.get(at..)
                    && let Ok((_, used)) = codec::decode_prefix(rest)
                    && let Some(envelope) = rest.get(..used)
                {
                    self.add(envelope);
                }
            }
        }
        Ok(())
    }

    /// Heads and texts that lie in one piece: a head follows its device's id, a text the hash that an entry names.
    fn read_raw_around(
        &mut self,
        damaged: &Path,
        holding: &HoldingId,
        keys: &BTreeMap<DeviceId, PublicKey>,
    ) -> Result<()> {
        let mut wanted = BTreeSet::new();
        let mut ends = BTreeMap::new();
        for (id, (entry, bytes)) in &self.entries {
            hashes(&Value::List(entry.body.clone()), &mut wanted);
            ends.insert(Hash::of(bytes), *id);
        }
        wanted.retain(|hash| !self.texts.contains_key(hash));
        for bytes in raw(damaged)? {
            for at in 0..bytes.len() {
                let rest = bytes.get(at..).unwrap_or_default();
                let device = rest.get(..16).and_then(DeviceId::from_slice);
                if let Some((device, key)) = device.and_then(|device| Some((device, keys.get(&device)?))) {
                    let head = head_after(rest, device, &ends).filter(|head| {
                        let known = self.heads.contains_key(&(head.end(), head.signature));
                        !known && head.verifies(holding, key)
                    });
                    self.heads.extend(head.map(|head| ((head.end(), head.signature), head)));
                }
                let named = rest.get(..32).and_then(TextRef::from_slice);
                if let Some(hash) = named.filter(|hash| wanted.contains(hash))
                    && let Some(text) = text_after(rest, hash)
                {
                    wanted.remove(&hash);
                    self.texts.insert(hash, text);
                }
            }
        }
        Ok(())
    }

    /// Whatever SQLite still finds. Every failure here is damage that was expected.
    fn read_tables(&mut self, damaged: &Path) {
        let Ok(connection) = Connection::open_with_flags(damaged, OpenFlags::SQLITE_OPEN_READ_WRITE) else {
            return;
        };
        let mut ids: BTreeSet<EntryId> = self.entries.keys().copied().collect();
        for direction in ["ASC", "DESC"] {
            let _ = rows(
                &connection,
                &format!("SELECT device, seq, bytes FROM entry ORDER BY device {direction}, seq {direction}"),
                |row| {
                    ids.insert(tables::id_of(row.get(0)?, row.get(1)?)?);
                    self.add(row.get_ref(2)?.as_blob().unwrap_or_default());
                    Ok(())
                },
            );
            let _ = rows(
                &connection,
                &format!(
                    "SELECT device, seq, hash, checkpoint, signature FROM head ORDER BY device {direction}, seq {direction}"
                ),
                |row| {
                    let id = tables::id_of(row.get(0)?, row.get(1)?)?;
                    ids.insert(id);
                    let head = Head {
                        device: id.device,
                        seq: id.seq,
                        hash: Hash(row.get(2)?),
                        checkpoint: row.get::<_, Option<[u8; 32]>>(3)?.map(Hash),
                        signature: Signature(row.get(4)?),
                    };
                    self.heads.insert((id, head.signature), head);
                    Ok(())
                },
            );
            let _ = rows(
                &connection,
                &format!("SELECT hash, salt, body FROM text ORDER BY hash {direction}"),
                |row| {
                    let text = Text { salt: Nonce(row.get(1)?), body: row.get(2)? };
                    if text.hash().0 == row.get::<_, [u8; 32]>(0)? {
                        self.texts.insert(text.hash(), text);
                    }
                    Ok(())
                },
            );
        }
        // Entries too long to lie in one piece, on the far side of a page that does not read.
        let mut ends: BTreeMap<DeviceId, u64> = BTreeMap::new();
        for id in ids {
            ends.insert(id.device, id.seq);
        }
        for (device, end) in ends {
            for seq in 1..=end {
                let id = EntryId { device, seq };
                if !self.entries.contains_key(&id)
                    && let Ok(Some(bytes)) = tables::bytes_of(&connection, id)
                {
                    self.add(&bytes);
                }
            }
        }
    }

    fn devices(&self) -> BTreeSet<DeviceId> {
        self.entries.keys().map(|id| id.device).chain(self.heads.values().map(|head| head.device)).collect()
    }

    /// The holding that most entries belong to.
    fn holding(&self) -> Result<HoldingId> {
        let mut count: BTreeMap<HoldingId, u64> = BTreeMap::new();
        for (entry, _) in self.entries.values() {
            *count.entry(entry.holding).or_default() += 1;
        }
        count
            .into_iter()
            .max_by_key(|(_, count)| *count)
            .map(|(holding, _)| holding)
            .ok_or_else(|| LedgerError::Damaged("no entry in it reads".to_owned()))
    }

    fn keys(&self) -> BTreeMap<DeviceId, PublicKey> {
        self.entries
            .values()
            .filter_map(|(entry, _)| match entry.read() {
                Body::DeviceEnrolled(body) => Some(body.public_key),
                Body::HoldingOpened(body) => Some(body.public_key),
                _ => None,
            })
            .map(|key| (key.device(), key))
            .collect()
    }

    /// Entries whose hash stands in something that stands fast: a signed head, or the entry that follows. An entry
    /// at the end of what is left, with nothing to vouch for it, is in doubt.
    fn whole(&self, keys: &BTreeMap<DeviceId, PublicKey>) -> BTreeSet<EntryId> {
        let mut whole = BTreeSet::new();
        for device in keys.keys() {
            let mut before = Hash::ZERO;
            for seq in 1.. {
                let id = EntryId { device: *device, seq };
                let (Some((entry, bytes)), Some((next, _))) =
                    (self.entries.get(&id), self.entries.get(&id.after(1)))
                else {
                    break;
                };
                let hash = Hash::of(bytes);
                if entry.prev != before || next.prev != hash {
                    break;
                }
                whole.insert(id);
                before = hash;
            }
        }
        for head in self.heads.values() {
            let (mut seq, mut hash) = (head.seq, head.hash);
            while let Some((entry, bytes)) = self.entries.get(&EntryId { device: head.device, seq }) {
                if Hash::of(bytes) != hash {
                    break;
                }
                whole.insert(entry.id);
                (seq, hash) = (seq.saturating_sub(1), entry.prev);
            }
        }
        whole
    }
}

/// The bytes of the file and of its log.
fn raw(damaged: &Path) -> Result<Vec<Vec<u8>>> {
    let mut found = vec![std::fs::read(damaged).map_err(|error| from_io(&error))?];
    match std::fs::read(beside(damaged, "-wal")) {
        Ok(log) => found.push(log),
        Err(error) if error.kind() == std::io::ErrorKind::NotFound => {}
        Err(error) => return Err(from_io(&error)),
    }
    Ok(found)
}

/// Everything of a hash's length in a body.
fn hashes(value: &Value, into: &mut BTreeSet<TextRef>) {
    match value {
        Value::Bytes(bytes) => into.extend(TextRef::from_slice(bytes)),
        Value::List(items) => items.iter().for_each(|item| hashes(item, into)),
        _ => {}
    }
}

/// A row of the table of heads: device, position, hash, no checkpoint, signature.
fn head_after(rest: &[u8], device: DeviceId, ends: &BTreeMap<Hash, EntryId>) -> Option<Head> {
    // SQLite writes a whole number in so many bytes; 0 and 1 take none.
    [0, 1, 2, 3, 4, 6, 8].into_iter().find_map(|width| {
        let at = 16 + width;
        let hash = Hash::from_slice(rest.get(at..at + 32)?)?;
        let signature = Signature::from_slice(rest.get(at + 32..at + 96)?)?;
        let end = ends.get(&hash).filter(|end| end.device == device)?;
        Some(Head { device, seq: end.seq, hash, checkpoint: None, signature })
    })
}

/// A row of the table of texts: hash, salt, text. The hash tells where the text ends.
fn text_after(rest: &[u8], hash: TextRef) -> Option<Text> {
    // More does not lie in one piece.
    const PAGE: usize = 4096;
    let salt = Nonce::from_slice(rest.get(32..48)?)?;
    let body = rest.get(48..)?;
    let mut digest = Sha256::new();
    digest.update(salt.0);
    for (length, byte) in body.iter().take(PAGE).enumerate() {
        if TextRef(digest.clone().finalize().into()) == hash {
            let body = std::str::from_utf8(body.get(..length)?).ok()?.to_owned();
            return Some(Text { salt, body });
        }
        digest.update([*byte]);
    }
    None
}

fn rows(
    connection: &Connection,
    sql: &str,
    mut each: impl FnMut(&rusqlite::Row<'_>) -> Result<()>,
) -> Result<()> {
    let mut statement = connection.prepare(sql)?;
    let mut rows = statement.query(params![])?;
    while let Some(row) = rows.next()? {
        // One row that does not read says nothing about the next.
        let _ = each(row);
    }
    Ok(())
}

/// Positions between 1 and the last known one that are not whole.
fn gaps(
    device: DeviceId,
    whole: &BTreeSet<EntryId>,
    heads: &BTreeMap<(EntryId, Signature), Head>,
) -> Vec<Missing> {
    let signed = heads.values().filter(|head| head.device == device).map(|head| head.seq);
    let here: Vec<u64> = whole
        .range(EntryId { device, seq: 0 }..=EntryId { device, seq: u64::MAX })
        .map(|id| id.seq)
        .collect();
    let end = signed.chain(here.last().copied()).max().unwrap_or(0);
    let mut missing = Vec::new();
    let mut expected = 1;
    for seq in here.into_iter().chain([end + 1]) {
        if seq > expected {
            missing.push(Missing { device, from: expected, to: seq - 1 });
        }
        expected = seq + 1;
    }
    missing
}
