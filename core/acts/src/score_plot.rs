//! Scoring plots by eye, by their numbers only.

use kerfbook_ledger::kind::{LeafLayer, PlotScored};
use kerfbook_ledger::{Book, EntryId};
use kerfbook_science::units::Share;

use crate::error::ActError;
use crate::figure::{basis_points, between};
use crate::moment::Moment;
use crate::trial_fault::TrialFault;
use crate::trial_in_book::{open, there};

/// One walk through a trial, or part of one.
#[derive(Debug, Clone, PartialEq)]
pub struct NewScores<'a> {
    /// The trial.
    pub trial: EntryId,
    /// Who looks; the person of the moment where absent.
    pub rater: Option<EntryId>,
    /// Which leaves are looked at.
    pub layer: LeafLayer,
    /// Plots by number, with the yellow of their leaf area.
    pub plots: &'a [(u32, Share)],
    /// Scored a second time on purpose, to see how far two scorings lie apart.
    pub again: bool,
}

/// Writes the scores, all of them or none.
///
/// # Errors
/// A trial that is not there, is closed or was laid out later; a plot that it has not, that is lost, or that the same
/// person scored on that day; a second scoring without a first; more than all of the leaf; or a book that cannot be
/// written.
pub fn score(book: &mut Book, new: &NewScores<'_>, moment: Moment) -> Result<Vec<EntryId>, ActError> {
    let view = open(book, new.trial, moment.date)?;
    if let Some(rater) = new.rater
        && !book.people()?.iter().any(|person| person.id == rater)
    {
        return Err(ActError::NotThere { what: "person" });
    }
    if new.plots.is_empty() {
        return Err(ActError::NothingMeasured);
    }
    let rater = new.rater.or(moment.by);
    let mut seen = std::collections::BTreeSet::new();
    let mut drafts = Vec::with_capacity(new.plots.len());
    for &(plot, yellow) in new.plots {
        there(&view, plot, moment.date)?;
        between("yellow_pct", Some(yellow.percent()), 0.0, 100.0)?;
        let mut that_day =
            view.plot(plot).into_iter().flat_map(|own| &own.scores).filter(|score| {
                score.date.naive() == moment.date && score.layer == new.layer && !score.again
            });
        if new.again {
            that_day.next().ok_or(TrialFault::NothingToRepeat { plot })?;
        } else if that_day.any(|score| score.rater == rater) || !seen.insert(plot) {
            return Err(TrialFault::Twice { plot }.into());
        }
        let body = PlotScored {
            plot,
            rater: new.rater,
            layer: new.layer,
            yellow_bp: basis_points(yellow),
            again: new.again,
        };
        drafts.push(moment.draft(body)?.about(new.trial));
    }
    Ok(book.append(&drafts, &[], moment.wall_ms)?)
}
