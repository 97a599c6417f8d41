//! Reading entries, texts and projections.

use std::collections::BTreeSet;
use std::sync::Arc;

use rusqlite::{OptionalExtension, params};
use serde::Serialize;

use super::{Book, tables};
use crate::chain::Head;
use crate::entry::Entry;
use crate::entry::field::Field;
use crate::entry::hlc::Hlc;
use crate::entry::id::{DeviceId, EntryId, Hash, TextRef};
use crate::entry::kind::Kind;
use crate::error::{LedgerError, Result};
use crate::projection::batch::BatchView;
use crate::projection::current::{Current, Standing};
use crate::projection::holding::HoldingView;
use crate::projection::pile::PileView;
use crate::projection::place::PlaceView;
use crate::projection::single::{DeviceView, ForecastView, PersonView};
use crate::projection::task::TaskView;
use crate::projection::trial::TrialView;
use crate::projection::{Entries, Sort};

/// Where a page of entries ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Position {
    hlc: Hlc,
    id: EntryId,
}

impl Position {
    /// Where an entry stands.
    pub const fn of(entry: &Entry) -> Self {
        Self { hlc: entry.hlc, id: entry.id }
    }

    /// As the table keeps it.
    fn columns(self) -> (i64, [u8; 16], i64) {
        let hlc = match self.hlc.to_value() {
            crate::Value::Int(hlc) => hlc,
            _ => i64::MAX,
        };
        (hlc, self.id.device.0, tables::column(self.id.seq))
    }
}

/// An entry in the list of entries.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Line {
    /// The entry as it stands; `current.original` is what was written.
    pub current: Current,
    /// SHA-256 of its envelope.
    pub hash: Hash,
    /// Its clock ran more than a day ahead of ours when it came.
    pub ahead: bool,
}

impl Line {
    /// Where the next page begins.
    pub fn position(&self) -> Position {
        Position::of(&self.current.original)
    }
}

impl Book {
    /// An entry as it was written; none where it is not here.
    pub fn entry(&self, id: EntryId) -> Result<Option<Entry>> {
        tables::entry(self.connection()?, id)
    }

    /// An entry as it stands now; none where it is not here.
    pub fn current(&self, id: EntryId) -> Result<Option<Current>> {
        let stored = tables::Stored::new(self.connection()?);
        let current = Standing::new(&stored).current(id)?;
        Ok(current.map(|current| Current::clone(&current)))
    }

    /// A text that an entry refers to; none where it was erased or has not come.
    pub fn text(&self, hash: TextRef) -> Result<Option<String>> {
        Ok(self
            .connection()?
            .prepare_cached("SELECT body FROM text WHERE hash = ?1")?
            .query_row([hash.0], |row| row.get(0))
            .optional()?)
    }

    /// A page of entries in the order of display: clock, device, position.
    pub fn entries(&self, after: Option<Position>, limit: u32) -> Result<Vec<Line>> {
        let from = after.map_or((-1, [0; 16], 0), Position::columns);
        self.page(
            "SELECT entry.bytes, entry.device, entry.seq, ahead.seq IS NOT NULL FROM entry
             LEFT JOIN ahead ON ahead.device = entry.device AND ahead.seq = entry.seq
             WHERE (entry.hlc, entry.device, entry.seq) > (?1, ?2, ?3)
             ORDER BY entry.hlc, entry.device, entry.seq LIMIT ?4",
            from,
            limit,
        )
    }

    /// The same from the other end: the latest first, those before a position where one is given.
    pub fn latest(&self, before: Option<Position>, limit: u32) -> Result<Vec<Line>> {
        let from = before.map_or((i64::MAX, [0xff; 16], i64::MAX), Position::columns);
        self.page(
            "SELECT entry.bytes, entry.device, entry.seq, ahead.seq IS NOT NULL FROM entry
             LEFT JOIN ahead ON ahead.device = entry.device AND ahead.seq = entry.seq
             WHERE (entry.hlc, entry.device, entry.seq) < (?1, ?2, ?3)
             ORDER BY entry.hlc DESC, entry.device DESC, entry.seq DESC LIMIT ?4",
            from,
            limit,
        )
    }

    fn page(
        &self,
        statement: &str,
        (hlc, device, seq): (i64, [u8; 16], i64),
        limit: u32,
    ) -> Result<Vec<Line>> {
        let connection = self.connection()?;
        let mut statement = connection.prepare_cached(statement)?;
        let mut rows = statement.query(params![hlc, device, seq, limit])?;
        let stored = tables::Stored::new(connection);
        let standing = Standing::new(&stored);
        let mut lines = Vec::new();
        while let Some(row) = rows.next()? {
            let bytes: Vec<u8> = row.get(0)?;
            let id = tables::id_of(row.get(1)?, row.get(2)?)?;
            let current = standing.current(id)?.ok_or(LedgerError::Unknown(id))?;
            lines.push(Line {
                current: Current::clone(&current),
                hash: Hash::of(&bytes),
                ahead: row.get(3)?,
            });
        }
        Ok(lines)
    }

    /// Entries of one kind, as they stand, in the order of display.
    pub fn of_kind(&self, kind: Kind) -> Result<Vec<Current>> {
        let connection = self.connection()?;
        let mut statement = connection
            .prepare_cached("SELECT device, seq FROM entry WHERE kind = ?1 ORDER BY hlc, device, seq")?;
        let ids = statement
            .query_map([kind.number()], |row| Ok((row.get(0)?, row.get(1)?)))?
            .collect::<Result<Vec<([u8; 16], i64)>, _>>()?;
        standing(&tables::Stored::new(connection), ids)
    }

    /// Entries that name this one: those about a place, the uses of a batch, the changes of an entry. As they stand,
    /// in the order of display.
    pub fn naming(&self, id: EntryId) -> Result<Vec<Current>> {
        let connection = self.connection()?;
        let mut statement = connection.prepare_cached(
            "SELECT entry.device, entry.seq FROM mention
             JOIN entry ON entry.device = mention.device AND entry.seq = mention.seq
             WHERE named_device = ?1 AND named_seq = ?2 ORDER BY hlc, entry.device, entry.seq",
        )?;
        let ids = statement
            .query_map(params![id.device.0, tables::column(id.seq)], |row| Ok((row.get(0)?, row.get(1)?)))?
            .collect::<Result<Vec<([u8; 16], i64)>, _>>()?;
        let stored = tables::Stored::new(connection);
        stored.foresee(id)?;
        standing(&stored, ids)
    }

    /// A device's envelopes from a position on, as they are passed on.
    pub fn envelopes(&self, device: DeviceId, from: u64, limit: u32) -> Result<Vec<Vec<u8>>> {
        let mut statement = self.connection()?.prepare_cached(
            "SELECT bytes FROM entry WHERE device = ?1 AND seq >= ?2 ORDER BY seq LIMIT ?3",
        )?;
        let rows = statement.query_map(params![device.0, tables::column(from), limit], |row| row.get(0))?;
        Ok(rows.collect::<Result<_, _>>()?)
    }

    /// Devices with entries in the book.
    pub fn writers(&self) -> Result<BTreeSet<DeviceId>> {
        Ok(tables::devices(self.connection()?)?.into_iter().collect())
    }

    /// The last signed head of each device.
    pub fn heads(&self) -> Result<Vec<Head>> {
        let connection = self.connection()?;
        let mut heads = Vec::new();
        for device in tables::devices(connection)? {
            heads.extend(tables::last_head(connection, device)?);
        }
        Ok(heads)
    }

    /// Drops all projections and folds every entry again; gives their hash.
    pub fn rebuild(&mut self) -> Result<Hash> {
        self.write(|connection| {
            tables::rebuild(connection)?;
            tables::projection_hash(connection)
        })
    }

    /// SHA-256 of all projections: equal on every device that holds the same entries.
    pub fn projection_hash(&self) -> Result<Hash> {
        tables::projection_hash(self.connection()?)
    }

    /// All places, withdrawn ones included, in the order they were opened.
    pub fn places(&self) -> Result<Vec<Arc<PlaceView>>> {
        self.views(Sort::Place)
    }

    /// One place.
    pub fn place(&self, id: EntryId) -> Result<Option<Arc<PlaceView>>> {
        self.view(Sort::Place, id)
    }

    /// All batches, withdrawn ones included.
    pub fn batches(&self) -> Result<Vec<Arc<BatchView>>> {
        self.views(Sort::Batch)
    }

    /// One batch.
    pub fn batch(&self, id: EntryId) -> Result<Option<Arc<BatchView>>> {
        self.view(Sort::Batch, id)
    }

    /// All tasks, closed and withdrawn ones included.
    pub fn tasks(&self) -> Result<Vec<Arc<TaskView>>> {
        self.views(Sort::Task)
    }

    /// One task.
    pub fn task(&self, id: EntryId) -> Result<Option<Arc<TaskView>>> {
        self.view(Sort::Task, id)
    }

    /// All piles, finished and withdrawn ones included.
    pub fn piles(&self) -> Result<Vec<Arc<PileView>>> {
        self.views(Sort::Pile)
    }

    /// One pile.
    pub fn pile(&self, id: EntryId) -> Result<Option<Arc<PileView>>> {
        self.view(Sort::Pile, id)
    }

    /// All trials, closed and withdrawn ones included; blind as long as they are open.
    pub fn trials(&self) -> Result<Vec<Arc<TrialView>>> {
        self.views(Sort::Trial)
    }

    /// One trial.
    pub fn trial(&self, id: EntryId) -> Result<Option<Arc<TrialView>>> {
        self.view(Sort::Trial, id)
    }

    /// The holding; none where the entry that opens it is lost.
    pub fn holding_view(&self) -> Result<Option<Arc<HoldingView>>> {
        for view in self.views::<HoldingView>(Sort::Holding)? {
            // An entry of that kind may have come from anywhere: this holding is the one that its key and nonce found.
            if self.entry(view.id)?.is_some_and(|opening| tables::founded(&opening) == Some(self.holding)) {
                return Ok(Some(view));
            }
        }
        Ok(None)
    }

    /// All people.
    pub fn people(&self) -> Result<Vec<Arc<PersonView>>> {
        self.views(Sort::Person)
    }

    /// All frozen forecasts.
    pub fn forecasts(&self) -> Result<Vec<Arc<ForecastView>>> {
        self.views(Sort::Forecast)
    }

    /// All enrolled devices.
    pub fn devices(&self) -> Result<Vec<Arc<DeviceView>>> {
        self.views(Sort::Device)
    }

    fn views<T: Field + Send + Sync + 'static>(&self, sort: Sort) -> Result<Vec<Arc<T>>> {
        let mut statement = self.connection()?.prepare_cached(
            "SELECT bytes, device, seq FROM projection WHERE sort = ?1 ORDER BY device, seq",
        )?;
        let mut rows = statement.query([sort.code()])?;
        let mut views = Vec::new();
        while let Some(row) = rows.next()? {
            let id = tables::id_of(row.get(1)?, row.get(2)?)?;
            views.push(self.views.read(sort, id, row.get_ref(0)?.as_blob().unwrap_or_default())?);
        }
        Ok(views)
    }

    fn view<T: Field + Send + Sync + 'static>(&self, sort: Sort, id: EntryId) -> Result<Option<Arc<T>>> {
        let mut statement = self
            .connection()?
            .prepare_cached("SELECT bytes FROM projection WHERE sort = ?1 AND device = ?2 AND seq = ?3")?;
        let mut rows = statement.query(params![sort.code(), id.device.0, tables::column(id.seq)])?;
        let Some(row) = rows.next()? else { return Ok(None) };
        self.views.read(sort, id, row.get_ref(0)?.as_blob().unwrap_or_default()).map(Some)
    }
}

/// Entries as they stand.
fn standing(stored: &tables::Stored<'_>, ids: Vec<([u8; 16], i64)>) -> Result<Vec<Current>> {
    let standing = Standing::new(stored);
    let mut found = Vec::with_capacity(ids.len());
    for (device, seq) in ids {
        let current = standing.current(tables::id_of(device, seq)?)?;
        found.extend(current.map(|current| Current::clone(&current)));
    }
    Ok(found)
}
