//! How far an open trial is, by plot numbers only: who reads it still scores blind.

use std::collections::BTreeSet;

use chrono::NaiveDate;
use kerfbook_ledger::kind::LeafLayer;
use kerfbook_ledger::{PlotView, TrialView};

/// A walk through the plots on one day.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Visit {
    /// The day.
    pub date: NaiveDate,
    /// Which leaves were looked at.
    pub layer: LeafLayer,
    /// How many plots were scored.
    pub scored: usize,
    /// Plots that stand and were passed by, in walking order.
    pub missing: Vec<u32>,
}

/// How far a trial is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Progress {
    /// All plots, lost ones too.
    pub plots: usize,
    /// Lost plots, in walking order.
    pub lost: Vec<u32>,
    /// Walks, in order of days.
    pub visits: Vec<Visit>,
    /// Plots on which something was measured, by number; yield, weeds, soil moisture or stand.
    pub measured: usize,
}

/// Plots in the order in which they are walked: row by row, every second row backwards.
pub fn walk(trial: &TrialView) -> Vec<&PlotView> {
    let mut plots: Vec<&PlotView> = trial.plots.iter().collect();
    plots.sort_by_key(|plot| {
        let column = i32::from(plot.column);
        (plot.row, if plot.row % 2 == 0 { column } else { -column })
    });
    plots
}

/// How far it is.
pub fn progress(trial: &TrialView) -> Progress {
    let walk = walk(trial);
    let first = |plot: &PlotView| {
        let scores = plot.scores.iter().filter(|score| !score.again);
        scores.map(|score| (score.date, score.layer)).collect::<BTreeSet<_>>()
    };
    let days: BTreeSet<_> = walk.iter().flat_map(|plot| first(plot)).collect();
    let visits = days.into_iter().map(|day| {
        let (there, passed): (Vec<&PlotView>, Vec<&PlotView>) =
            walk.iter().copied().partition(|plot| first(plot).contains(&day));
        let stood = |plot: &&PlotView| plot.lost.as_ref().is_none_or(|loss| loss.date > day.0);
        Visit {
            date: day.0.naive(),
            layer: day.1,
            scored: there.len(),
            missing: passed.into_iter().filter(stood).map(|plot| plot.number).collect(),
        }
    });
    Progress {
        plots: walk.len(),
        lost: walk.iter().filter(|plot| plot.lost.is_some()).map(|plot| plot.number).collect(),
        visits: visits.collect(),
        measured: walk.iter().filter(|plot| !plot.measured.is_empty()).count(),
    }
}
