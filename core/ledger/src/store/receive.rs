//! Taking entries of other devices.

use std::collections::{BTreeMap, BTreeSet};

use rusqlite::{Connection, params};

use super::{Book, tables};
use crate::chain::Head;
use crate::entry::Entry;
use crate::entry::id::{DeviceId, EntryId, Hash, HoldingId, PublicKey};
use crate::entry::kind::Body;
use crate::error::{LedgerError, Result};
use crate::text::Text;

impl Book {
    /// Takes envelopes that other devices wrote, with a signed head for each device, in one transaction.
    ///
    /// Those that are here already are passed over. A gap, a fork, another holding, a missing or false signature
    /// refuse the whole call and change nothing. An entry from a clock that runs ahead is taken and flagged.
    /// Gives the number of new entries.
    pub fn receive(
        &mut self,
        envelopes: &[Vec<u8>],
        heads: &[Head],
        texts: &[Text],
        wall_ms: i64,
    ) -> Result<usize> {
        let holding = self.holding;
        self.write(|connection| {
            let new = take(connection, holding, envelopes, wall_ms)?;
            check_heads(connection, holding, &new, heads)?;
            tables::insert_texts(connection, texts)?;
            tables::refold(connection, &new)?;
            Ok(new.len())
        })
    }
}

fn take(
    connection: &Connection,
    holding: HoldingId,
    envelopes: &[Vec<u8>],
    wall_ms: i64,
) -> Result<Vec<EntryId>> {
    let mut ends: BTreeMap<DeviceId, (u64, Hash)> = BTreeMap::new();
    let mut new = Vec::new();
    for bytes in envelopes {
        let entry = Entry::decode(bytes)?;
        let id = entry.id;
        if entry.holding != holding {
            return Err(LedgerError::OtherHolding(id));
        }
        if let Some(known) = tables::bytes_of(connection, id)? {
            if known != *bytes {
                return Err(LedgerError::Forked(id));
            }
            continue;
        }
        let (seq, hash) = match ends.get(&id.device) {
            Some(end) => *end,
            None => tables::last(connection, id.device)?.unwrap_or((0, Hash::ZERO)),
        };
        if id.seq != seq + 1 {
            return Err(LedgerError::Gap(id));
        }
        if entry.prev != hash {
            return Err(LedgerError::Forked(id));
        }
        tables::insert(connection, &entry, bytes)?;
        if entry.hlc.ahead_of(wall_ms) {
            connection
                .prepare_cached("INSERT OR IGNORE INTO ahead (device, seq, arrived_ms) VALUES (?1, ?2, ?3)")?
                .execute(params![id.device.0, tables::column(id.seq), wall_ms])?;
        }
        ends.insert(id.device, (id.seq, Hash::of(bytes)));
        new.push(id);
    }
    Ok(new)
}

/// Each device that brought something new has signed the end of it.
fn check_heads(connection: &Connection, holding: HoldingId, new: &[EntryId], heads: &[Head]) -> Result<()> {
    let writers: BTreeSet<DeviceId> = new.iter().map(|id| id.device).collect();
    for device in writers {
        let key = known_key(connection, device)?.ok_or(LedgerError::NotEnrolled(device))?;
        let end = tables::last(connection, device)?;
        let head = heads
            .iter()
            .find(|head| head.device == device && Some((head.seq, head.hash)) == end)
            .filter(|head| head.verifies(&holding, &key))
            .ok_or(LedgerError::Unsigned(device))?;
        tables::insert_head(connection, head)?;
    }
    Ok(())
}

/// The key of a device: from its enrolment, or from the founding entry, which is its own proof.
fn known_key(connection: &Connection, device: DeviceId) -> Result<Option<PublicKey>> {
    if let Some(key) = tables::enrolled(connection, device)? {
        return Ok(Some(key));
    }
    let first = tables::entry(connection, EntryId { device, seq: 1 })?;
    Ok(first.and_then(|entry| match entry.read() {
        Body::HoldingOpened(body) if body.public_key.device() == device => Some(body.public_key),
        _ => None,
    }))
}
