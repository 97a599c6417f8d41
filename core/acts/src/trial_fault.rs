//! What can be wrong with a trial of a book.

use chrono::NaiveDate;
use kerfbook_science::trial::layout::LayoutError;
use kerfbook_science::trial::structure::TrialError;

/// Why a trial was not laid out, or a plot not scored. Nothing has been written.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum TrialFault {
    /// It cannot be laid out.
    #[error(transparent)]
    Layout(#[from] LayoutError),
    /// Two treatments, or two levels inside, have one name.
    #[error("two of the treatments are called '{name}'")]
    NameTwice {
        /// The name.
        name: String,
    },
    /// As many names as the design has treatments are needed.
    #[error("{names} names for {levels} treatments")]
    Names {
        /// Names given.
        names: usize,
        /// Treatments of the design.
        levels: usize,
    },
    /// A check, pair or contrast that names no treatment, one twice, or weighs them so that they do not balance.
    #[error(
        "'{what}' compares nothing: it names treatments of the trial, each once, and whole weights that sum to nothing"
    )]
    Comparison {
        /// As written.
        what: String,
    },
    /// A seed that no entry holds.
    #[error("the seed {seed} is too large")]
    Seed {
        /// As given.
        seed: u64,
    },
    /// A plot that the trial has not.
    #[error("the trial has no plot {plot}; its plots go from {first} to {last}")]
    NoPlot {
        /// As given.
        plot: u32,
        /// The first plot.
        first: u32,
        /// The last one.
        last: u32,
    },
    /// A plot that counts no longer.
    #[error("plot {plot} was lost on {on}")]
    Lost {
        /// The plot.
        plot: u32,
        /// When.
        on: NaiveDate,
    },
    /// The same leaves of the plot were scored by the same person on that day.
    #[error("plot {plot} was scored on this day already")]
    Twice {
        /// The plot.
        plot: u32,
    },
    /// A second scoring of what was not scored.
    #[error("plot {plot} has no first score on this day")]
    NothingToRepeat {
        /// The plot.
        plot: u32,
    },
    /// Treatments are told when the trial is closed.
    #[error("the trial is open; close it first")]
    Open,
    /// Nothing of that sort was measured.
    #[error("nothing of that sort was read in the trial")]
    Nothing,
    /// The layout does not make a trial, as entries may have changed it.
    #[error(transparent)]
    Structure(TrialError),
}
