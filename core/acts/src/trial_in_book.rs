//! A trial of the book on a day: the checks that scoring, measuring and losing share.

use std::sync::Arc;

use chrono::NaiveDate;
use kerfbook_ledger::{Book, EntryId, TrialView};
use kerfbook_science::trial::design::{Design, Kind};

use crate::error::ActError;
use crate::trial_fault::TrialFault;

/// A trial that is open on a day.
pub(crate) fn open(book: &Book, trial: EntryId, on: NaiveDate) -> Result<Arc<TrialView>, ActError> {
    let view = book.trial(trial)?.ok_or(ActError::NotThere { what: "trial" })?;
    if view.withdrawn() {
        return Err(ActError::NotThere { what: "trial" });
    }
    if !view.open() {
        return Err(ActError::ClosedAlready { what: "trial" });
    }
    if view.date.naive() > on {
        return Err(ActError::Before { what: "trial", first: view.date.naive() });
    }
    Ok(view)
}

/// A plot that is there and was not lost until a day: what was read before it was lost may be written later.
pub(crate) fn there(view: &TrialView, plot: u32, on: NaiveDate) -> Result<(), ActError> {
    let Some(own) = view.plot(plot) else {
        let mut numbers: Vec<u32> = view.plots.iter().map(|own| own.number).collect();
        numbers.sort_unstable();
        let end = |number: Option<&u32>| number.copied().unwrap_or(0);
        let (first, last) = (end(numbers.first()), end(numbers.last()));
        return Err(TrialFault::NoPlot { plot, first, last }.into());
    };
    match &own.lost {
        Some(loss) if loss.date.naive() <= on => Err(TrialFault::Lost { plot, on: loss.date.naive() }.into()),
        _ => Ok(()),
    }
}

/// The kind of its design.
pub fn kind(view: &TrialView) -> Kind {
    Kind::of_name(view.design.name()).unwrap_or(Kind::RandomisedBlocks)
}

/// Its design, told without what the plots got.
pub fn design(view: &TrialView) -> Design {
    let (plots, treatments) = (view.plots.len(), view.treatments.len());
    let (main, sub) = (treatments, view.subs.len());
    let blocks = |cell: usize| plots.checked_div(cell).unwrap_or(0);
    match kind(view) {
        Kind::Pairs => Design::Pairs { pairs: blocks(2) },
        Kind::Strips => Design::Strips { treatments, blocks: blocks(treatments) },
        Kind::CompletelyRandomised => Design::CompletelyRandomised { plots: dealt(view) },
        Kind::RandomisedBlocks => Design::RandomisedBlocks { treatments, blocks: blocks(treatments) },
        Kind::LatinSquare => Design::LatinSquare { side: treatments },
        Kind::SplitPlot => Design::SplitPlot { main, sub, blocks: blocks(main * sub) },
        Kind::StripPlot => Design::StripPlot { main, sub, blocks: blocks(main * sub) },
    }
}

/// Plots of each treatment; dealt evenly as long as nobody may know.
fn dealt(view: &TrialView) -> Vec<usize> {
    let (plots, treatments) = (view.plots.len(), view.treatments.len().max(1));
    match &view.opened {
        Some(opened) => (0..treatments)
            .map(|level| opened.given.iter().filter(|own| usize::from(own.treatment) == level).count())
            .collect(),
        None => (0..treatments)
            .map(|level| plots / treatments + usize::from(level < plots % treatments))
            .collect(),
    }
}
