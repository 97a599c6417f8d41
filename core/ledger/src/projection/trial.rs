//! A trial: its plots with what was scored and measured on them. What each plot got is in it only once the trial is
//! closed, so that whoever looks at an open trial scores blind.

use std::collections::{BTreeMap, BTreeSet};
use std::rc::Rc;

use super::current::{Current, Flag, Standing};
use super::fold::about;
use super::graph::Entries;
use super::view::{Flagged, Said, carries, flagged};
use crate::entry::field::{Label, record};
use crate::entry::hlc::Hlc;
use crate::entry::id::{Date, EntryId, TextRef};
use crate::entry::kind::{
    Body, Kind, LeafLayer, PlotLost, PlotMeasured, TrialClosed, TrialContrast, TrialDesign, TrialLaidOut,
    TrialTreatment,
};
use crate::error::Result;

record! {
    /// One look at a plot.
    PlotScore {
        /// The entry.
        entry: EntryId,
        /// When.
        date: Date,
        /// Minute of the day, where known.
        minute: Option<u16>,
        /// Who looked, where named.
        rater: Option<EntryId>,
        /// Which leaves were looked at.
        layer: LeafLayer,
        /// Yellow of the leaf area, 0.01 %.
        yellow_bp: u32,
        /// Scored a second time on purpose.
        again: bool,
    }
}

record! {
    /// A plot as one sees it who does not know what it got.
    PlotView {
        /// What stands on its stake.
        number: u32,
        /// Block, pair or row of a square, from 0.
        block: u16,
        /// Row in the field, from 0.
        row: u16,
        /// Position in its row, from 0.
        column: u16,
        /// What was scored, in order of days.
        scores: Vec<PlotScore>,
        /// What was measured, in order of days.
        measured: Vec<Said<PlotMeasured>>,
        /// That it was lost.
        lost: Option<Said<PlotLost>>,
    }
}

record! {
    /// What a plot got.
    PlotGiven {
        /// Treatment or level of the main factor, from 0.
        treatment: u16,
        /// Level of the factor inside, from 0.
        sub: Option<u16>,
    }
}

record! {
    /// What may be seen once a trial is closed.
    Opened {
        /// Seed of the draw: with the design it gives the layout.
        seed: u64,
        /// Its generator.
        generator: Label,
        /// Version of the generator.
        generator_version: u32,
        /// Why earlier layouts of the same seed were refused.
        refused: Vec<TextRef>,
        /// What the plots got, in their order.
        given: Vec<PlotGiven>,
    }
}

record! {
    /// A trial.
    TrialView {
        /// The entry that laid it out.
        id: EntryId,
        /// What it is called.
        label: Label,
        /// When it was laid out.
        date: Date,
        /// Where it lies.
        place: Option<EntryId>,
        /// How treatments went to plots.
        design: TrialDesign,
        /// Treatments, or levels of the main factor.
        treatments: Vec<TrialTreatment>,
        /// Levels of the factor inside.
        subs: Vec<Label>,
        /// The main factor's name.
        factor: Option<Label>,
        /// The name of the factor inside.
        sub_factor: Option<Label>,
        /// The check among the treatments.
        check: Option<u16>,
        /// The check among the levels inside.
        sub_check: Option<u16>,
        /// Pairs named beforehand.
        pairs: Vec<Vec<u16>>,
        /// Contrasts named beforehand.
        contrasts: Vec<TrialContrast>,
        /// Difference in yellow leaf that does not matter, 0.01 %.
        margin_bp: Option<u32>,
        /// Width of a plot with its guards, mm.
        width_mm: Option<u32>,
        /// Length of a plot with its guards, mm.
        length_mm: Option<u32>,
        /// What is not measured at every side, mm.
        guard_mm: Option<u32>,
        /// Bare way between rows of plots, mm.
        alley_mm: Option<u32>,
        /// The plots, row by row.
        plots: Vec<PlotView>,
        /// Its closing: the first in order of days.
        closed: Option<Said<TrialClosed>>,
        /// What each plot got; nothing before it is closed.
        opened: Option<Opened>,
        /// Entries about it that carry a flag, its own included.
        flagged: Vec<Flagged>,
    }
}

impl TrialView {
    /// Withdrawn: it never was.
    pub fn withdrawn(&self) -> bool {
        carries(&self.flagged, self.id, Flag::Withdrawn)
    }

    /// Still scored: neither closed nor withdrawn.
    pub fn open(&self) -> bool {
        self.closed.is_none() && !self.withdrawn()
    }

    /// The plot of a number.
    pub fn plot(&self, number: u32) -> Option<&PlotView> {
        self.plots.iter().find(|plot| plot.number == number)
    }

    /// The plots in the order of walking: every second row backwards.
    pub fn walk(&self) -> Vec<&PlotView> {
        let mut plots: Vec<&PlotView> = self.plots.iter().collect();
        plots.sort_by_key(|plot| {
            let column = i32::from(plot.column);
            (plot.row, if plot.row.is_multiple_of(2) { column } else { -column })
        });
        plots
    }

    /// How many plots count no longer.
    pub fn lost(&self) -> usize {
        self.plots.iter().filter(|plot| plot.lost.is_some()).count()
    }
}

/// Folds a trial.
pub(super) fn trial<E: Entries>(
    entries: &E,
    standing: &Standing<'_, E>,
    opening: &Current,
    body: &TrialLaidOut,
) -> Result<TrialView> {
    let id = opening.original.id;
    let plot = |own: &crate::entry::kind::TrialPlot| PlotView {
        number: own.number,
        block: own.block,
        row: own.row,
        column: own.column,
        scores: Vec::new(),
        measured: Vec::new(),
        lost: None,
    };
    let mut view = TrialView {
        id,
        label: body.label.clone(),
        date: opening.date,
        place: body.place,
        design: body.design,
        treatments: body.treatments.clone(),
        subs: body.subs.clone(),
        factor: body.factor.clone(),
        sub_factor: body.sub_factor.clone(),
        check: body.check,
        sub_check: body.sub_check,
        pairs: body.pairs.clone(),
        contrasts: body.contrasts.clone(),
        margin_bp: body.margin_bp,
        width_mm: body.width_mm,
        length_mm: body.length_mm,
        guard_mm: body.guard_mm,
        alley_mm: body.alley_mm,
        plots: body.plots.iter().map(plot).collect(),
        closed: None,
        opened: None,
        flagged: flagged(opening).into_iter().collect(),
    };
    for current in about(entries, standing, id)? {
        if current.subject != Some(id) {
            continue;
        }
        if current.counts() && current.flags.is_disjoint(&OUTSIDE) {
            add(&mut view, &current);
        }
        view.flagged.extend(flagged(&current));
    }
    view.opened = view.closed.is_some().then(|| Opened {
        seed: body.seed,
        generator: body.generator.clone(),
        generator_version: body.generator_version,
        refused: body.refused.clone(),
        given: body.plots.iter().map(|plot| PlotGiven { treatment: plot.treatment, sub: plot.sub }).collect(),
    });
    Ok(view)
}

/// What stands in no sum of a trial: an eye that knew, a plot that is not there, a score that counted before.
static OUTSIDE: std::sync::LazyLock<BTreeSet<Flag>> = std::sync::LazyLock::new(|| {
    [Flag::TrialWasClosed, Flag::PlotWasLost, Flag::NoSuchPlot, Flag::ScoredTwice, Flag::ClosedTwice].into()
});

fn add(view: &mut TrialView, current: &Current) {
    if let Body::TrialClosed(closing) = &current.body {
        view.closed = Some(Said::of(current, closing));
        return;
    }
    let Some(number) = plot_of(&current.body) else { return };
    let Some(plot) = view.plots.iter_mut().find(|plot| plot.number == number) else { return };
    match &current.body {
        Body::PlotScored(score) => plot.scores.push(PlotScore {
            entry: current.original.id,
            date: current.date,
            minute: current.minute,
            rater: score.rater.or(current.by),
            layer: score.layer,
            yellow_bp: score.yellow_bp,
            again: score.again,
        }),
        Body::PlotMeasured(measured) => plot.measured.push(Said::of(current, measured)),
        Body::PlotLost(loss) => plot.lost = Some(Said::of(current, loss)),
        _ => {}
    }
}

/// The plot that an entry is about.
const fn plot_of(body: &Body) -> Option<u32> {
    match body {
        Body::PlotScored(score) => Some(score.plot),
        Body::PlotMeasured(measured) => Some(measured.plot),
        Body::PlotLost(loss) => Some(loss.plot),
        _ => None,
    }
}

/// Order within a projection: the day, then the order of writing.
type Order = (Date, Hlc, EntryId);

/// What decides whether an entry about a trial can have happened so.
#[derive(Default)]
pub(super) struct Course {
    plots: BTreeSet<u32>,
    closed: Option<Order>,
    lost: BTreeMap<u32, Order>,
    twice: BTreeSet<EntryId>,
}

impl<E: Entries> Standing<'_, E> {
    /// Flags for an entry about a trial.
    pub(super) fn of_trial(&self, current: &Current) -> Result<BTreeSet<Flag>> {
        let mut flags = BTreeSet::new();
        let Some(trial) = current.subject else { return Ok(flags) };
        let course = self.course(trial)?;
        let order = current.order();
        if let Body::TrialClosed(_) = current.body {
            if course.closed.is_some_and(|closed| closed < order) {
                flags.insert(Flag::ClosedTwice);
            }
            return Ok(flags);
        }
        let Some(plot) = plot_of(&current.body) else { return Ok(flags) };
        if !course.plots.contains(&plot) {
            flags.insert(Flag::NoSuchPlot);
        }
        if course.closed.is_some_and(|closed| closed < order) {
            flags.insert(Flag::TrialWasClosed);
        }
        if course.lost.get(&plot).is_some_and(|lost| *lost < order) {
            flags.insert(Flag::PlotWasLost);
        }
        if course.twice.contains(&current.original.id) {
            flags.insert(Flag::ScoredTwice);
        }
        Ok(flags)
    }

    fn course(&self, trial: EntryId) -> Result<Rc<Course>> {
        if let Some(known) = self.courses.borrow().get(&trial) {
            return Ok(Rc::clone(known));
        }
        let mut course = Course::default();
        if let Some(layout) = self.changed(trial)?
            && let Body::TrialLaidOut(body) = &layout.body
        {
            course.plots = body.plots.iter().map(|plot| plot.number).collect();
        }
        for id in self.candidates(trial, Kind::TrialClosed)? {
            if let Some(order) = self.standing_about(id, trial)?.map(|closing| closing.order()) {
                course.closed = Some(course.closed.map_or(order, |known| known.min(order)));
            }
        }
        for id in self.candidates(trial, Kind::PlotLost)? {
            let Some(loss) = self.standing_about(id, trial)? else { continue };
            let Some(plot) = plot_of(&loss.body) else { continue };
            let order = loss.order();
            course.lost.entry(plot).and_modify(|known| *known = order.min(*known)).or_insert(order);
        }
        let mut scores = Vec::new();
        for id in self.candidates(trial, Kind::PlotScored)? {
            let Some(current) = self.standing_about(id, trial)? else { continue };
            if let Body::PlotScored(score) = &current.body
                && !score.again
            {
                let rater = score.rater.or(current.by);
                scores.push((current.order(), (score.plot, current.date, rater, score.layer)));
            }
        }
        scores.sort_unstable();
        let mut seen = BTreeSet::new();
        course.twice =
            scores.into_iter().filter(|(_, look)| !seen.insert(*look)).map(|((_, _, id), _)| id).collect();
        let course = Rc::new(course);
        self.courses.borrow_mut().insert(trial, Rc::clone(&course));
        Ok(course)
    }

    /// An entry that counts and is about the trial as it stands now.
    fn standing_about(&self, id: EntryId, trial: EntryId) -> Result<Option<Current>> {
        Ok(self.resting(id)?.filter(|current| current.counts() && current.subject == Some(trial)))
    }
}
