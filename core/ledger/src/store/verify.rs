//! Whether the book is what its devices wrote.

use std::collections::{BTreeMap, BTreeSet};

use rusqlite::Connection;
use serde::Serialize;

use super::{Book, tables};
use crate::chain::Head;
use crate::entry::Entry;
use crate::entry::field::Field;
use crate::entry::id::{DeviceId, EntryId, Hash, HoldingId, Nonce, PublicKey, Signature, TextRef};
use crate::entry::kind::Body;
use crate::error::{LedgerError, Result};
use crate::text::Text;

/// Something that is not as it was written.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, thiserror::Error)]
#[serde(tag = "finding", rename_all = "snake_case")]
pub enum Finding {
    /// The entry's bytes are no envelope.
    #[error("entry {entry} does not read: {why}")]
    Unreadable {
        /// Where.
        entry: EntryId,
        /// Why.
        why: String,
    },
    /// The entry stands under another device, position, clock or kind than it says.
    #[error("entry {entry} stands in another's place")]
    Misplaced {
        /// Where.
        entry: EntryId,
    },
    /// The entry belongs to another holding.
    #[error("entry {entry} belongs to another holding")]
    OtherHolding {
        /// Where.
        entry: EntryId,
    },
    /// The entry does not follow from the one before it: one of the two was changed.
    #[error("entry {entry} does not follow from the one before it")]
    Broken {
        /// Where.
        entry: EntryId,
    },
    /// The device's clock went backwards.
    #[error("entry {entry} is earlier than the one before it")]
    Backwards {
        /// Where.
        entry: EntryId,
    },
    /// Entries are missing.
    #[error("entries {from} to {to} of device {device} are missing")]
    Missing {
        /// Whose.
        device: DeviceId,
        /// First.
        from: u64,
        /// Last.
        to: u64,
    },
    /// A head does not bear its device's signature.
    #[error("the signature over entry {entry} is not its device's")]
    BadSignature {
        /// Which head.
        entry: EntryId,
    },
    /// A head signs another entry than stands there.
    #[error("entry {entry} is not the one that was signed")]
    NotSigned {
        /// Which head.
        entry: EntryId,
    },
    /// The last entries bear no signature.
    #[error("entries {from} to {to} of device {device} bear no signature")]
    Unsigned {
        /// Whose.
        device: DeviceId,
        /// First.
        from: u64,
        /// Last.
        to: u64,
    },
    /// No enrolment gives the device's key.
    #[error("device {device} is not enrolled")]
    NotEnrolled {
        /// Which.
        device: DeviceId,
    },
    /// The entry that founds the holding is missing or founds another.
    #[error("the entry that founds the holding is missing")]
    NotFounded,
    /// A text is not the one that entries refer to.
    #[error("a text was changed")]
    TextChanged {
        /// Its hash as stored.
        hash: TextRef,
    },
    /// Projections differ from what the entries add up to.
    #[error("projections differ from the entries; rebuild the book")]
    ProjectionDiffers,
    /// The file itself is damaged.
    #[error("the file is damaged: {what}")]
    File {
        /// What SQLite says.
        what: String,
    },
}

/// The state of a book.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Report {
    /// Entries that were read and rehashed.
    pub entries: u64,
    /// The end of each device's chain.
    pub heads: Vec<Head>,
    /// What is not as it was written.
    pub findings: Vec<Finding>,
}

impl Report {
    /// Nothing was found.
    pub fn sound(&self) -> bool {
        self.findings.is_empty()
    }
}

/// One part of the check; adds what it finds.
type Step = fn(&Connection, HoldingId, &mut Report) -> Result<()>;

impl Book {
    /// Reads and rehashes every entry, checks order, links, gaps, signatures, texts, projections and the file.
    ///
    /// Damage is a finding, not an error; an error means that the book could not be looked at.
    pub fn verify(&self) -> Result<Report> {
        let connection = self.connection()?;
        let mut report = Report { entries: 0, heads: Vec::new(), findings: Vec::new() };
        let steps: [Step; 4] = [file, chains, texts, projections];
        for step in steps {
            match step(connection, self.holding, &mut report) {
                Ok(()) => {}
                Err(error @ (LedgerError::Damaged(_) | LedgerError::NotABook)) => {
                    report.findings.push(Finding::File { what: error.to_string() });
                }
                Err(error) => return Err(error),
            }
        }
        report.findings.dedup();
        Ok(report)
    }
}

fn file(connection: &Connection, _: HoldingId, report: &mut Report) -> Result<()> {
    let mut statement = connection.prepare("PRAGMA integrity_check(10)")?;
    let mut rows = statement.query([])?;
    while let Some(row) = rows.next()? {
        let what: String = row.get(0)?;
        if what != "ok" {
            report.findings.push(Finding::File { what });
        }
    }
    // A table without its triggers or checks would still look whole.
    let fresh = Connection::open_in_memory()?;
    fresh.execute_batch(tables::TABLES)?;
    if schema(connection)? != schema(&fresh)? {
        report.findings.push(Finding::File { what: "its tables are not those of a book".to_owned() });
    }
    Ok(())
}

fn schema(connection: &Connection) -> Result<Vec<(String, Option<String>)>> {
    let mut statement = connection.prepare("SELECT name, sql FROM sqlite_schema ORDER BY type, name")?;
    let rows = statement.query_map([], |row| Ok((row.get(0)?, row.get(1)?)))?;
    Ok(rows.collect::<Result<_, _>>()?)
}

/// What has been read of one device's chain.
#[derive(Default)]
struct Chain {
    last: Option<(EntryId, Hash, crate::Hlc)>,
    hashes: BTreeMap<u64, Hash>,
    /// Positions that do not follow from the one before: a signature covers what lies from the last of them to its own
    /// position, and nothing before.
    breaks: BTreeSet<u64>,
}

impl Chain {
    /// The first entry that a signature over this position covers.
    fn covered_from(&self, seq: u64) -> u64 {
        self.breaks.range(..=seq).next_back().copied().unwrap_or(seq)
    }
}

fn chains(connection: &Connection, holding: HoldingId, report: &mut Report) -> Result<()> {
    let mut chains: BTreeMap<DeviceId, Chain> = BTreeMap::new();
    let mut keys: BTreeMap<DeviceId, PublicKey> = BTreeMap::new();
    let mut founded = false;
    let mut statement =
        connection.prepare("SELECT device, seq, hlc, kind, bytes FROM entry ORDER BY device, seq")?;
    let mut rows = statement.query([])?;
    while let Some(row) = rows.next()? {
        let id = tables::id_of(row.get(0)?, row.get(1)?)?;
        let bytes: Vec<u8> = row.get(4)?;
        let hash = Hash::of(&bytes);
        report.entries += 1;
        let chain = chains.entry(id.device).or_default();
        chain.hashes.insert(id.seq, hash);
        let expected = chain.last.map_or(1, |(last, _, _)| last.seq + 1);
        if id.seq > expected {
            report.findings.push(Finding::Missing { device: id.device, from: expected, to: id.seq - 1 });
        }
        let entry = match Entry::decode(&bytes) {
            Ok(entry) => entry,
            Err(why) => {
                report.findings.push(Finding::Unreadable { entry: id, why: why.to_string() });
                chain.breaks.insert(id.seq);
                chain.last = Some((id, hash, chain.last.map_or(crate::Hlc::ZERO, |(_, _, hlc)| hlc)));
                continue;
            }
        };
        let (hlc, kind): (i64, u16) = (row.get(2)?, row.get(3)?);
        if entry.id != id || entry.kind != kind || entry.hlc.to_value() != crate::Value::Int(hlc) {
            report.findings.push(Finding::Misplaced { entry: id });
        }
        if entry.holding != holding {
            report.findings.push(Finding::OtherHolding { entry: id });
        }
        let (prev, after) = match chain.last {
            Some((last, hash, hlc)) if last.seq + 1 == id.seq => (Some(hash), hlc),
            Some((_, _, hlc)) => (None, hlc),
            None if id.seq == 1 => (Some(Hash::ZERO), crate::Hlc::ZERO),
            None => (None, crate::Hlc::ZERO),
        };
        if prev.is_some_and(|prev| prev != entry.prev) {
            report.findings.push(Finding::Broken { entry: id });
        }
        if chain.last.is_none() || prev != Some(entry.prev) {
            chain.breaks.insert(id.seq);
        }
        if chain.last.is_some() && entry.hlc <= after {
            report.findings.push(Finding::Backwards { entry: id });
        }
        chain.last = Some((id, hash, entry.hlc));
        founded |= id.seq == 1
            && tables::founded(&entry) == Some(holding)
            && matches!(entry.read(), Body::HoldingOpened(body) if body.public_key.device() == id.device);
        if let Body::DeviceEnrolled(body) = entry.read() {
            keys.entry(body.public_key.device()).or_insert(body.public_key);
        }
    }
    if !founded {
        report.findings.push(Finding::NotFounded);
    }
    heads(connection, holding, &chains, &keys, report)
}

fn heads(
    connection: &Connection,
    holding: HoldingId,
    chains: &BTreeMap<DeviceId, Chain>,
    keys: &BTreeMap<DeviceId, PublicKey>,
    report: &mut Report,
) -> Result<()> {
    let mut signed: BTreeMap<DeviceId, u64> = BTreeMap::new();
    // From the last head backwards: one that verifies covers all that its entry follows from, so that of earlier heads
    // over those only what they name is looked at.
    let mut covered: BTreeMap<DeviceId, u64> = BTreeMap::new();
    let mut statement = connection
        .prepare("SELECT device, seq, hash, checkpoint, signature FROM head ORDER BY device, seq DESC")?;
    let mut rows = statement.query([])?;
    while let Some(row) = rows.next()? {
        let entry = tables::id_of(row.get(0)?, row.get(1)?)?;
        let head = Head {
            device: entry.device,
            seq: entry.seq,
            hash: Hash(row.get(2)?),
            checkpoint: row.get::<_, Option<[u8; 32]>>(3)?.map(Hash),
            signature: Signature(row.get(4)?),
        };
        let Some(key) = keys.get(&head.device) else {
            report.findings.push(Finding::NotEnrolled { device: head.device });
            continue;
        };
        let proven = covered.get(&head.device).is_some_and(|from| head.seq >= *from);
        if !proven && !head.verifies(&holding, key) {
            report.findings.push(Finding::BadSignature { entry });
            continue;
        }
        let chain = chains.get(&head.device);
        match chain.and_then(|chain| Some((chain, chain.hashes.get(&head.seq)?))) {
            Some((chain, hash)) if *hash == head.hash => {
                signed.entry(head.device).or_insert(head.seq);
                covered.insert(head.device, chain.covered_from(head.seq));
            }
            Some(_) => report.findings.push(Finding::NotSigned { entry }),
            None => {
                let end = chain.and_then(|chain| chain.last).map_or(0, |(last, _, _)| last.seq);
                if head.seq > end {
                    report.findings.push(Finding::Missing {
                        device: head.device,
                        from: end + 1,
                        to: head.seq,
                    });
                }
            }
        }
    }
    for (device, chain) in chains {
        let Some((last, _, _)) = chain.last else { continue };
        if !keys.contains_key(device) {
            report.findings.push(Finding::NotEnrolled { device: *device });
        }
        let signed = signed.get(device).copied().unwrap_or(0);
        if signed < last.seq {
            report.findings.push(Finding::Unsigned { device: *device, from: signed + 1, to: last.seq });
        }
        report.heads.extend(tables::last_head(connection, *device)?);
    }
    Ok(())
}

fn texts(connection: &Connection, _: HoldingId, report: &mut Report) -> Result<()> {
    let mut statement = connection.prepare("SELECT hash, salt, body FROM text ORDER BY hash")?;
    let mut rows = statement.query([])?;
    while let Some(row) = rows.next()? {
        let hash = TextRef(row.get(0)?);
        let salt = Nonce(row.get(1)?);
        let sound =
            row.get_ref(2)?.as_str().is_ok_and(|body| Text { salt, body: body.to_owned() }.hash() == hash);
        if !sound {
            report.findings.push(Finding::TextChanged { hash });
        }
    }
    Ok(())
}

fn projections(connection: &Connection, _: HoldingId, report: &mut Report) -> Result<()> {
    // Folding entries that do not read would only say the same thing twice.
    if report.findings.iter().any(|finding| matches!(finding, Finding::Unreadable { .. })) {
        return Ok(());
    }
    let all = tables::load(connection)?;
    let stands = tables::projections_stand(connection)?
        && tables::mentions_stand(connection, &all)?
        && tables::projection_hash(connection)? == tables::hash_of_rebuild(&all)?;
    if !stands {
        report.findings.push(Finding::ProjectionDiffers);
    }
    Ok(())
}
