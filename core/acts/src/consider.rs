//! A batch that might be put down: the whole answer, before anything is written.

use chrono::{Days, NaiveDate};
use kerfbook_ledger::{Book, EntryId, TreeRun};

use crate::book_place::Reader;
use crate::compare::{self, Comparison, Reach};
use crate::error::ActError;
use crate::scenario::{Amount, Containers, Scenario};

/// What is asked.
#[derive(Debug, Clone, PartialEq)]
pub struct Proposal {
    /// Where.
    pub place: EntryId,
    /// Of which batch.
    pub batch: EntryId,
    /// How much.
    pub amount: Amount,
    /// Along which trees; the whole place where absent.
    pub run: Option<TreeRun>,
}

/// The answer, with what it rests on.
#[derive(Debug, Clone, PartialEq)]
pub struct Considered {
    /// The place with the load, its way open.
    pub scenario: Scenario,
    /// Every way beside nothing put down.
    pub comparison: Comparison,
    /// Something lay there before, was fed or grew there, and is not in this answer.
    pub past_left_out: bool,
}

/// Days that a season looks back: what came earlier has its own forecast.
const SEASON_BEGINS_DAYS: u64 = 120;

/// Sets each way of a load beside leaving the place as it is. Nothing is written.
///
/// # Errors
/// A place or batch that is not in the book, a run of trees that the place does not have, an amount of nothing, a batch of which the table knows nothing, or what the
/// model refuses.
pub fn consider(
    book: &Book,
    asked: &Proposal,
    containers: &Containers,
    on: NaiveDate,
    runs: u32,
    seed: u64,
) -> Result<Considered, ActError> {
    let batch = book.batch(asked.batch)?.ok_or(ActError::NotThere { what: "batch" })?;
    if batch.date.naive() > on {
        return Err(ActError::Before { what: "batch", first: batch.date.naive() });
    }
    let mut scenario = Reader::new(book, on)?.with_load(asked, &batch, containers, on)?;
    let past_left_out = leave_past(&mut scenario, on);
    let comparison = compare::compare(&scenario, Reach::Answer, runs, seed)?;
    Ok(Considered { scenario, comparison, past_left_out })
}

/// Leaves what began before this season: the days of a comparison count from its first event.
fn leave_past(scenario: &mut Scenario, on: NaiveDate) -> bool {
    let from = on.checked_sub_days(Days::new(SEASON_BEGINS_DAYS)).unwrap_or(on);
    let before = scenario.put_down.len() + scenario.feeds.len() + scenario.crops.len();
    scenario
        .put_down
        .retain(|put| put.date >= from && put.kept.as_ref().is_none_or(|kept| kept.taken.is_none()));
    scenario.feeds.retain(|feed| feed.date >= from);
    scenario.crops.retain(|crop| crop.started >= from && crop.ended > on);
    scenario.worked.retain(|worked| worked.date >= from);
    scenario.lifted.clear();
    scenario.origins.clear();
    before > scenario.put_down.len() + scenario.feeds.len() + scenario.crops.len()
}
