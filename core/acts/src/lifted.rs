//! What to find out about material that was lifted from a place before it is laid where something grows.

use kerfbook_ledger::BatchView;
use kerfbook_ledger::projection::batch::Origin;

/// A test that material asks for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum TestWanted {
    /// Four days with nitrate in a jar: how much it still takes up. A forecast gives an upper bound only, for it has wood
    /// without nitrogen nearly stand still.
    Draw,
    /// Seedlings in it beside seedlings without it: whatever else it may have picked up where it lay.
    Seedling,
}

/// Tests that a batch still asks for: none where it was never lifted; no draw test where one was read since.
pub fn tests_wanted(batch: &BatchView) -> Vec<TestWanted> {
    if batch.origin != Origin::Layer {
        return Vec::new();
    }
    let mut wanted = Vec::new();
    if batch.draw_tests.iter().all(|test| test.date < batch.date) {
        wanted.push(TestWanted::Draw);
    }
    wanted.push(TestWanted::Seedling);
    wanted
}
