//! What a closed trial of the book shows: one number a plot, judged as the trial was laid out.

use std::collections::{BTreeMap, BTreeSet};

use chrono::{Datelike, NaiveDate};
use kerfbook_ledger::{Book, Date, EntryId, PlotView, TrialView};
use kerfbook_science::trial::curve::{CommonVisits, Curve, CurveError, common_visits};
use kerfbook_science::trial::design::Kind;
use kerfbook_science::trial::least_squares::Factor;
use kerfbook_science::trial::response::Response;
use kerfbook_science::trial::score::disagreement;
use kerfbook_science::trial::structure::{Structure, Trial, TrialError};
use kerfbook_science::trial::verdict::{Question, Verdict, judge};
use kerfbook_words::Words;

use crate::error::ActError;
use crate::trial::{Names, sentences};
use crate::trial_fault::TrialFault;
use crate::trial_in_book::kind;

/// What is compared.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Measured {
    /// Yellow of the leaf area as a mean over the season, per cent.
    Yellow,
    /// The last score.
    LastYellow,
    /// The highest score.
    MostYellow,
    /// All that was picked of the net plot, kg.
    Yield,
    /// Ground under weeds, per cent.
    Weeds,
    /// Water in the soil by volume, per cent.
    SoilMoisture,
    /// Plants that stand.
    Stand,
}

impl Measured {
    /// All of them.
    pub const ALL: [Self; 7] = [
        Self::Yellow,
        Self::LastYellow,
        Self::MostYellow,
        Self::Yield,
        Self::Weeds,
        Self::SoilMoisture,
        Self::Stand,
    ];

    /// As files and commands name it.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Yellow => "yellow",
            Self::LastYellow => "last-yellow",
            Self::MostYellow => "most-yellow",
            Self::Yield => "yield",
            Self::Weeds => "weeds",
            Self::SoilMoisture => "soil-moisture",
            Self::Stand => "stand",
        }
    }

    /// The one of a name.
    pub fn of_name(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|one| one.name() == name)
    }

    /// Whether it is yellow of leaves.
    pub const fn is_yellow(self) -> bool {
        matches!(self, Self::Yellow | Self::LastYellow | Self::MostYellow)
    }
}

/// How far second scorings lie from the first ones.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Agreement {
    /// Plots that were scored a second time.
    pub pairs: usize,
    /// Mean absolute difference, points.
    pub points: f64,
}

/// A trial that was judged.
#[derive(Debug, Clone, PartialEq)]
pub struct TrialResult {
    /// The kind of its design.
    pub kind: Kind,
    /// What was compared.
    pub measured: Measured,
    /// Design and numbers.
    pub trial: Trial,
    /// What things are called.
    pub names: Names,
    /// What was asked beforehand.
    pub question: Question,
    /// Contrasts named beforehand, with their weights.
    pub contrasts: Vec<(String, Vec<f64>)>,
    /// Row and column of every plot in the field.
    pub places: Vec<(usize, usize)>,
    /// Where scores over time became one number a plot.
    pub visits: Option<CommonVisits>,
    /// Plots were scored on several days and share fewer than two: the last score of each stands for it.
    pub apart: bool,
    /// Second scorings.
    pub agreement: Option<Agreement>,
    /// Blocks that more than one person scored on one day, from 0: the raters' difference lies among their plots.
    pub shared: Vec<(usize, NaiveDate)>,
    /// What may be said.
    pub verdict: Verdict,
}

impl TrialResult {
    /// All that may be said, in order.
    pub fn sentences(&self, words: &Words) -> Vec<String> {
        let mut said = sentences(&self.verdict, &self.names, words);
        said.extend(self.notes(words));
        said
    }

    /// What has to be known of the scoring.
    pub fn notes(&self, words: &Words) -> Vec<String> {
        let mut said = Vec::new();
        if self.apart {
            said.push(words.label("trial-visits-apart"));
        }
        said.extend(self.agreement.map(|own| {
            let count = own.pairs as f64;
            let values = [("number", words.stated(count)), ("points", words.rounded(own.points))];
            words.say_count("trial-agreement", count, &values)
        }));
        said.extend(self.shared.iter().map(|(block, day)| {
            let values = [("block", (block + 1).to_string()), ("date", words.date(*day))];
            words.say("trial-block-shared", &values)
        }));
        said
    }
}

/// Judges a closed trial by one of the things that were read in it.
///
/// # Errors
/// A trial that is not there or still open, nothing read of that sort, or a book that cannot be read.
pub fn result(book: &Book, trial: EntryId, measured: Measured) -> Result<TrialResult, ActError> {
    let view = book.trial(trial)?.filter(|view| !view.withdrawn());
    of_view(view.as_deref().ok_or(ActError::NotThere { what: "trial" })?, measured)
}

/// The same of a trial that was read already.
///
/// # Errors
/// A trial that is still open, or nothing read of that sort.
pub fn of_view(view: &TrialView, measured: Measured) -> Result<TrialResult, ActError> {
    let structure = structure(view).ok_or(TrialFault::Open)?;
    let (numbers, visits) = numbers(view, measured)?;
    let apart = measured.is_yellow() && visits.is_none() && days_scored(view) > 1;
    let kind = kind(view);
    let trial =
        Trial::new(kind, structure, Response::from_numbers(&numbers)).map_err(|error| match error {
            TrialError::Nothing => TrialFault::Nothing,
            other => TrialFault::Structure(other),
        })?;
    let question = Question {
        check: view.check.map(usize::from),
        sub_check: view.sub_check.map(usize::from),
        pairs: view.pairs.iter().filter_map(|pair| pair_of(pair)).collect(),
        margin: view.margin_bp.filter(|_| measured.is_yellow()).map(|bp| f64::from(bp) / 100.0),
        seed: view.opened.as_ref().map_or(0, |opened| opened.seed),
    };
    let verdict = judge(kind, &trial, &question);
    let weights = |weights: &[i32]| weights.iter().map(|weight| f64::from(*weight) / 1_000.0).collect();
    Ok(TrialResult {
        kind,
        measured,
        trial,
        names: names(view, kind, measured),
        question,
        contrasts: view
            .contrasts
            .iter()
            .map(|own| (own.label.as_str().to_owned(), weights(&own.weights_x1000)))
            .collect(),
        places: view.plots.iter().map(|plot| (usize::from(plot.row), usize::from(plot.column))).collect(),
        visits,
        apart,
        agreement: measured.is_yellow().then(|| agreement(view)).flatten(),
        shared: if measured.is_yellow() { shared(view, kind) } else { Vec::new() },
        verdict,
    })
}

/// What was read in a trial, in the order in which it is told.
pub fn readings(view: &TrialView) -> Vec<Measured> {
    let read = |has: fn(&PlotView) -> bool| view.plots.iter().filter(|plot| plot.lost.is_none()).any(has);
    let mut there = Vec::new();
    let mut add = |measured, has| {
        if has {
            there.push(measured);
        }
    };
    add(Measured::Yellow, read(|plot| !plot.scores.is_empty()));
    add(Measured::Yield, read(|plot| plot.measured.iter().any(|own| own.body.yield_g.is_some())));
    add(Measured::Weeds, read(|plot| plot.measured.iter().any(|own| own.body.weed_bp.is_some())));
    add(Measured::SoilMoisture, read(|plot| plot.measured.iter().any(|own| own.body.moisture_bp.is_some())));
    add(Measured::Stand, read(|plot| plot.measured.iter().any(|own| own.body.stand.is_some())));
    there
}

fn pair_of(pair: &[u16]) -> Option<(usize, usize)> {
    match pair {
        [a, b] => Some((usize::from(*a), usize::from(*b))),
        _ => None,
    }
}

fn names(view: &TrialView, kind: Kind, measured: Measured) -> Names {
    let labels = |labels: &mut dyn Iterator<Item = &kerfbook_ledger::Label>| {
        labels.map(|label| label.as_str().to_owned()).collect::<Vec<_>>()
    };
    let factor = |label: &Option<kerfbook_ledger::Label>, otherwise: &str| {
        label.as_ref().map_or_else(|| otherwise.to_owned(), |label| label.as_str().to_owned())
    };
    Names {
        treatments: labels(&mut view.treatments.iter().map(|own| &own.label)),
        subs: labels(&mut view.subs.iter()),
        factors: kind
            .is_two_factor()
            .then(|| [factor(&view.factor, "main"), factor(&view.sub_factor, "sub")]),
        plots: view.plots.iter().map(|plot| plot.number.to_string()).collect(),
        pairs: kind == Kind::Pairs,
        no_blocks: kind == Kind::CompletelyRandomised,
        yellow: measured.is_yellow(),
    }
}

/// What the plots got, as factors; none while nobody may know.
fn structure(view: &TrialView) -> Option<Structure> {
    let given = &view.opened.as_ref()?.given;
    let factor = |of: Vec<usize>, known: usize| {
        let levels = of.iter().max().map_or(0, |most| most + 1).max(known);
        Factor { levels, of }
    };
    let of_plots = |part: fn(&PlotView) -> u16| {
        factor(view.plots.iter().map(|plot| usize::from(part(plot))).collect(), 0)
    };
    let treatment =
        factor(given.iter().map(|own| usize::from(own.treatment)).collect(), view.treatments.len());
    let sub = || {
        let of = given.iter().map(|own| own.sub.map_or(0, usize::from)).collect();
        factor(of, view.subs.len())
    };
    let block = || of_plots(|plot| plot.block);
    Some(match kind(view) {
        Kind::CompletelyRandomised => Structure::Single { treatment },
        Kind::Pairs | Kind::Strips | Kind::RandomisedBlocks => {
            Structure::Blocks { block: block(), treatment }
        }
        Kind::LatinSquare => Structure::Square {
            row: of_plots(|plot| plot.row),
            column: of_plots(|plot| plot.column),
            treatment,
        },
        Kind::SplitPlot => Structure::Split { block: block(), main: treatment, sub: sub() },
        Kind::StripPlot => Structure::Strip { block: block(), main: treatment, sub: sub() },
    })
}

type Numbers = (Vec<Option<f64>>, Option<CommonVisits>);

/// One number a plot; none of a plot that was lost or never read.
fn numbers(view: &TrialView, measured: Measured) -> Result<Numbers, TrialFault> {
    if measured.is_yellow() {
        return yellow(view, measured);
    }
    let one = |plot: &PlotView| {
        if plot.lost.is_some() {
            return None;
        }
        let bodies = plot.measured.iter().map(|own| &own.body);
        let share = |bp: Option<u32>| bp.map(|bp| f64::from(bp) / 100.0);
        match measured {
            // Several pickings are one yield.
            Measured::Yield => {
                let picked: Vec<f64> =
                    bodies.filter_map(|own| own.yield_g).map(|grams| grams as f64 / 1_000.0).collect();
                (!picked.is_empty()).then(|| picked.iter().sum())
            }
            Measured::Weeds => mean(bodies.filter_map(|own| share(own.weed_bp))),
            Measured::SoilMoisture => mean(bodies.filter_map(|own| share(own.moisture_bp))),
            _ => bodies.filter_map(|own| own.stand).next_back().map(f64::from),
        }
    };
    Ok((view.plots.iter().map(one).collect(), None))
}

fn mean(values: impl Iterator<Item = f64>) -> Option<f64> {
    let values: Vec<f64> = values.collect();
    (!values.is_empty()).then(|| values.iter().sum::<f64>() / values.len() as f64)
}

/// First scores of a plot by day; those of several people on one day are averaged.
fn scores_of(plot: &PlotView) -> Vec<(f64, f64)> {
    let mut days: BTreeMap<Date, Vec<f64>> = BTreeMap::new();
    for score in plot.scores.iter().filter(|score| !score.again) {
        days.entry(score.date).or_default().push(f64::from(score.yellow_bp) / 100.0);
    }
    days.into_iter()
        .filter_map(|(day, scores)| {
            Some((f64::from(day.naive().num_days_from_ce()), mean(scores.into_iter())?))
        })
        .collect()
}

/// Days on which plots that stand were scored.
fn days_scored(view: &TrialView) -> usize {
    let stand = view.plots.iter().filter(|plot| plot.lost.is_none());
    stand.flat_map(|plot| plot.scores.iter().map(|score| score.date)).collect::<BTreeSet<_>>().len()
}

fn yellow(view: &TrialView, measured: Measured) -> Result<Numbers, TrialFault> {
    let visits: Vec<Vec<(f64, f64)>> = view
        .plots
        .iter()
        .map(|plot| if plot.lost.is_some() { Vec::new() } else { scores_of(plot) })
        .collect();
    let scored: Vec<Vec<(f64, f64)>> = visits.iter().filter(|own| !own.is_empty()).cloned().collect();
    if scored.is_empty() {
        return Err(TrialFault::Nothing);
    }
    let common = match common_visits(&scored) {
        Ok(common) => common,
        // One visit, or none in common to all: each plot's last score stands for it.
        Err(CurveError::OneVisit | CurveError::Order | CurveError::NotANumber) => {
            let last = |own: &Vec<(f64, f64)>| own.last().map(|(_, score)| *score);
            return Ok((visits.iter().map(last).collect(), None));
        }
    };
    let mut curves = common.curves.iter();
    let numbers = visits
        .iter()
        .map(|own| {
            let curve = if own.is_empty() { None } else { curves.next() };
            curve.map(match measured {
                Measured::LastYellow => Curve::last,
                Measured::MostYellow => Curve::highest,
                _ => Curve::season_mean,
            })
        })
        .collect();
    Ok((numbers, Some(common)))
}

/// Second scorings beside the first ones of their day.
fn agreement(view: &TrialView) -> Option<Agreement> {
    let mut pairs = Vec::new();
    for plot in &view.plots {
        for again in plot.scores.iter().filter(|score| score.again) {
            let first = plot
                .scores
                .iter()
                .find(|first| !first.again && first.date == again.date && first.layer == again.layer);
            pairs.extend(
                first.map(|first| (f64::from(first.yellow_bp) / 100.0, f64::from(again.yellow_bp) / 100.0)),
            );
        }
    }
    Some(Agreement { pairs: pairs.len(), points: disagreement(&pairs)? })
}

/// Who scored each plot of a block on a day.
type Raters = BTreeMap<u32, BTreeSet<Option<EntryId>>>;

/// Blocks whose plots were divided among several people on one day.
fn shared(view: &TrialView, kind: Kind) -> Vec<(usize, NaiveDate)> {
    if kind == Kind::CompletelyRandomised {
        return Vec::new();
    }
    let mut raters: BTreeMap<(u16, Date), Raters> = BTreeMap::new();
    for plot in &view.plots {
        for score in plot.scores.iter().filter(|score| !score.again) {
            let own = raters.entry((plot.block, score.date)).or_default();
            own.entry(plot.number).or_default().insert(score.rater);
        }
    }
    raters
        .into_iter()
        .filter(|(_, plots)| {
            let mut each = plots.values();
            let first = each.next();
            each.any(|own| Some(own) != first)
        })
        .map(|((block, day), _)| (usize::from(block), day.naive()))
        .collect()
}
