//! Trials: laid out, scored blind by plot number, closed, and what they show then.

use std::sync::Arc;

use kerfbook_acts::lay_out_trial::{self, Named, NewTrial};
use kerfbook_acts::measure_plot::{self, NewMeasurement};
use kerfbook_acts::score_plot::{self, NewScores};
use kerfbook_acts::trial::rarity;
use kerfbook_acts::trial_charts::charts;
use kerfbook_acts::trial_in_book::design;
use kerfbook_acts::trial_progress::{progress, walk};
use kerfbook_acts::trial_result::{of_view, readings};
use kerfbook_acts::{close_trial, lose_plot};
use kerfbook_ledger::kind::{LeafLayer, TrialLaidOut};
use kerfbook_ledger::{Body, Book, EntryId, PlotView, TrialView};
use kerfbook_picture::Screen;
use kerfbook_science::trial::design::{Design, FEW_BLOCKS, FEW_PAIRS, Kind, Standing};
use kerfbook_science::trial::score::STEPS_PCT;
use kerfbook_science::trial::treatment::Treatment;
use kerfbook_science::units::Share;
use kerfbook_words::Words;

use crate::drawing::{DrawingView, drawing};
use crate::entries::{SavedView, saved};
use crate::error::CoreError;
use crate::field_book::{FieldBook, Speech, of_act, of_book, random, text};

/// Most treatments that a phone lays out: more than this is planned at a table.
const MOST_TREATMENTS: usize = 6;
/// Most blocks that a phone lays out.
const MOST_BLOCKS: u32 = 12;

/// Which leaves are looked at.
#[derive(Debug, Clone, Copy, PartialEq, Eq, uniffi::Enum)]
pub enum Leaves {
    /// The lowest.
    Old,
    /// Those between.
    Middle,
    /// The newest.
    Young,
}

/// A trial in complete blocks.
#[derive(Debug, Clone, PartialEq, Eq, uniffi::Record)]
pub struct TrialGiven {
    /// What it is called.
    pub name: String,
    /// What is compared; the first is what the others are held against. Empty ones do not count.
    pub treatments: Vec<String>,
    /// How many complete blocks.
    pub blocks: String,
}

/// A trial in a list.
#[derive(Debug, Clone, PartialEq, Eq, uniffi::Record)]
pub struct TrialLine {
    /// Its id.
    pub id: String,
    /// Its name.
    pub label: String,
    /// Plots, and whether it is open.
    pub about: String,
    /// Plots may still be scored.
    pub open: bool,
}

/// A plot as whoever scores blind sees it.
#[derive(Debug, Clone, PartialEq, Eq, uniffi::Record)]
pub struct PlotLine {
    /// What stands on its stake.
    pub number: u32,
    /// Where it is.
    pub at: String,
    /// Scored today by whoever writes on this phone, told; none where not yet.
    pub scored: Option<String>,
    /// Something was weighed on it today.
    pub weighed: bool,
    /// It is lost.
    pub lost: bool,
}

/// What a trial shows of one thing that was read.
#[derive(Debug, Clone, PartialEq, uniffi::Record)]
pub struct ShownLine {
    /// What was read.
    pub measured: String,
    /// What may be said.
    pub said: Vec<String>,
    /// Every plot as a dot, factor by factor, and what the fit leaves where each plot stands.
    pub charts: Vec<DrawingView>,
}

/// A trial.
#[derive(Debug, Clone, PartialEq, uniffi::Record)]
pub struct TrialPage {
    /// As in the list.
    pub line: TrialLine,
    /// How far it is.
    pub said: Vec<String>,
    /// Plots in walking order.
    pub walk: Vec<PlotLine>,
    /// The steps by which yellow is scored, per cent.
    pub steps: Vec<u32>,
    /// What it shows; nothing while it is open.
    pub shown: Vec<ShownLine>,
}

/// What a plot got.
#[derive(Debug, Clone, PartialEq, Eq, uniffi::Record)]
pub struct GivenLine {
    /// What stands on its stake.
    pub number: u32,
    /// Where it is.
    pub at: String,
    /// What it got.
    pub treatment: String,
}

#[uniffi::export]
impl FieldBook {
    /// Trials of the book, open ones first.
    ///
    /// # Errors
    /// A book that cannot be read.
    pub fn trials(&self) -> Result<Vec<TrialLine>, CoreError> {
        let speech = self.speech();
        let mut trials = of_book(self.book().trials(), &speech)?;
        trials.retain(|trial| !trial.withdrawn());
        trials.sort_by_key(|trial| !trial.open());
        Ok(trials.iter().map(|trial| line(trial, &speech.words)).collect())
    }

    /// A trial: how far it is, or what it shows. What plots got is not in it while it is open.
    ///
    /// # Errors
    /// A trial that is not there; a book that cannot be read.
    pub fn trial(&self, trial: String, leaves: Leaves) -> Result<TrialPage, CoreError> {
        let (speech, today) = (self.speech(), self.now()?.date()?);
        let by = self.moment()?.by;
        let book = self.book();
        let view = found(&book, &trial, &speech)?;
        let words = &speech.words;
        let plot = |plot: &PlotView| PlotLine {
            number: plot.number,
            at: at(plot, words),
            scored: plot
                .scores
                .iter()
                .rfind(|score| {
                    // Each person scores by their own eye; what others said is not shown to them.
                    let own = score.rater == by && !score.again;
                    own && score.date.naive() == today && score.layer == leaves.layer()
                })
                .map(|score| words.percent(Share::from_percent(f64::from(score.yellow_bp) / 100.0))),
            weighed: plot.measured.iter().any(|own| own.date.naive() == today),
            lost: plot.lost.is_some(),
        };
        let mut shown = Vec::new();
        if !view.open() {
            for measured in readings(&view) {
                // What cannot be judged at all is no result; the others still are.
                let Ok(result) = of_view(&view, measured) else { continue };
                shown.push(ShownLine {
                    measured: words.label(&format!("measured-{}", measured.name())),
                    said: result.sentences(words),
                    charts: charts(&result, Screen::Hand, words).into_iter().map(drawing).collect(),
                });
            }
        }
        Ok(TrialPage {
            line: line(&view, words),
            said: said(&view, words),
            walk: walk(&view).into_iter().map(plot).collect(),
            steps: STEPS_PCT.iter().map(|step| u32::from(*step)).collect(),
            shown,
        })
    }

    /// Draws a trial in complete blocks and writes it down.
    ///
    /// # Errors
    /// A field that does not read, named; a book that cannot be written.
    pub fn lay_out_trial(&self, given: TrialGiven) -> Result<SavedView, CoreError> {
        let (speech, moment) = (self.speech(), self.moment()?);
        let typed = speech.typed();
        let label = typed.name("name", &given.name)?;
        let mut names: Vec<String> = Vec::new();
        for (at, name) in given.treatments.iter().enumerate() {
            if name.trim().is_empty() {
                continue;
            }
            let field = format!("treatment-{at}");
            let name = typed.name(&field, name)?;
            if names.contains(&name) {
                return Err(typed.wrong(&field, "phone-trial-name-twice"));
            }
            names.push(name);
        }
        if !(2..=MOST_TREATMENTS).contains(&names.len()) {
            return Err(typed.wrong("treatment-1", "phone-trial-two"));
        }
        let blocks = typed.count("blocks", &given.blocks)?;
        if blocks > MOST_BLOCKS {
            return Err(typed.wrong("blocks", "phone-trial-many-blocks"));
        }
        let treatments: Vec<Named<'_>> =
            names.iter().map(|name| Named { name, brings: Treatment::default() }).collect();
        let design = Design::RandomisedBlocks {
            treatments: treatments.len(),
            blocks: usize::try_from(blocks).unwrap_or_default(),
        };
        let seed = u64::from(u32::from_le_bytes(random()?));
        let new = NewTrial {
            label: &label,
            place: None,
            design: &design,
            seed,
            per_row: 0,
            refused: &[],
            treatments: &treatments,
            subs: &[],
            factors: [None, None],
            check: Some(0),
            sub_check: None,
            pairs: &[],
            contrasts: &[],
            margin: None,
            size: None,
        };
        let mut book = self.book();
        let there = of_book(book.trials(), &speech)?;
        if there.iter().any(|trial| !trial.withdrawn() && trial.label.as_str() == label) {
            return Err(typed.wrong("name", "phone-trial-name-there"));
        }
        let laid = of_act(lay_out_trial::lay_out(&mut book, &new, moment), "blocks", &speech)?;
        saved(&book, laid.trial, &speech)
    }

    /// What each plot gets, in walking order: for whoever lays it out, who then is no longer blind.
    ///
    /// # Errors
    /// A trial that is not there; a book that cannot be read.
    pub fn trial_layout(&self, trial: String) -> Result<Vec<GivenLine>, CoreError> {
        let speech = self.speech();
        let book = self.book();
        let view = found(&book, &trial, &speech)?;
        let laid = of_book(book.current(view.id), &speech)?;
        let Some(Body::TrialLaidOut(body)) = laid.map(|current| current.body) else {
            return Err(speech.typed().wrong("trial", "phone-choose"));
        };
        let given = |plot: &PlotView| GivenLine {
            number: plot.number,
            at: at(plot, &speech.words),
            treatment: treatment(&body, plot.number),
        };
        Ok(walk(&view).into_iter().map(given).collect())
    }

    /// Scores a plot by eye: the yellow of its leaves, per cent.
    ///
    /// # Errors
    /// A plot that cannot be scored today; a book that cannot be written.
    pub fn score_plot(
        &self,
        trial: String,
        plot: u32,
        leaves: Leaves,
        yellow_pct: u32,
    ) -> Result<SavedView, CoreError> {
        let (speech, moment) = (self.speech(), self.moment()?);
        let trial = speech.typed().entry("trial", &trial)?;
        let plots = [(plot, Share::from_percent(f64::from(yellow_pct)))];
        let new = NewScores { trial, rater: None, layer: leaves.layer(), plots: &plots, again: false };
        let mut book = self.book();
        let written = of_act(score_plot::score(&mut book, &new, moment), "yellow", &speech)?;
        written.first().map_or_else(
            || Err(speech.typed().wrong("yellow", "phone-choose")),
            |entry| saved(&book, *entry, &speech),
        )
    }

    /// Writes down what was picked of a plot.
    ///
    /// # Errors
    /// An amount that does not read; a plot that is lost; a book that cannot be written.
    pub fn weigh_plot(&self, trial: String, plot: u32, picked: String) -> Result<SavedView, CoreError> {
        let (speech, moment) = (self.speech(), self.moment()?);
        let trial = speech.typed().entry("trial", &trial)?;
        let picked = speech.typed().mass("picked", &picked)?;
        let new =
            NewMeasurement { trial, plot, picked: Some(picked), weeds: None, moisture: None, stand: None };
        let mut book = self.book();
        let entry = of_act(measure_plot::measure(&mut book, &new, moment), "picked", &speech)?;
        saved(&book, entry, &speech)
    }

    /// Strikes a plot out, with the reason.
    ///
    /// # Errors
    /// No reason; a plot that is lost already; a book that cannot be written.
    pub fn lose_plot(&self, trial: String, plot: u32, reason: String) -> Result<SavedView, CoreError> {
        let (speech, moment) = (self.speech(), self.moment()?);
        let trial = speech.typed().entry("trial", &trial)?;
        let reason = text(&reason)?.ok_or_else(|| speech.typed().wrong("reason", "phone-needed"))?;
        let mut book = self.book();
        let entry = of_act(lose_plot::lose(&mut book, trial, plot, &reason, moment), "reason", &speech)?;
        saved(&book, entry, &speech)
    }

    /// Closes a trial: nothing is scored any more, and what plots got is told.
    ///
    /// # Errors
    /// A trial that is closed; a book that cannot be written.
    pub fn close_trial(&self, trial: String) -> Result<SavedView, CoreError> {
        let (speech, moment) = (self.speech(), self.moment()?);
        let trial = speech.typed().entry("trial", &trial)?;
        let mut book = self.book();
        let entry = of_act(close_trial::close(&mut book, trial, None, moment), "", &speech)?;
        saved(&book, entry, &speech)
    }
}

impl Leaves {
    const fn layer(self) -> LeafLayer {
        match self {
            Self::Old => LeafLayer::Old,
            Self::Middle => LeafLayer::Middle,
            Self::Young => LeafLayer::Young,
        }
    }
}

fn found(book: &Book, trial: &str, speech: &Speech) -> Result<Arc<TrialView>, CoreError> {
    let wrong = || speech.typed().wrong("trial", "phone-choose");
    let id = EntryId::parse(trial).ok_or_else(wrong)?;
    of_book(book.trial(id), speech)?.filter(|view| !view.withdrawn()).ok_or_else(wrong)
}

fn line(trial: &TrialView, words: &Words) -> TrialLine {
    let plots = whole(trial.plots.len());
    let plots = words.say_count("plan-plots", plots, &[("number", words.stated(plots))]);
    let state = words.label(if trial.open() { "phone-trial-is-open" } else { "phone-trial-is-closed" });
    TrialLine {
        id: trial.id.to_string(),
        label: trial.label.as_str().to_owned(),
        about: format!("{plots} · {state}"),
        open: trial.open(),
    }
}

/// How far it is, and how much it can show.
fn said(trial: &TrialView, words: &Words) -> Vec<String> {
    let found = progress(trial);
    let number = |count: usize| words.stated(whole(count));
    let mut said = Vec::new();
    if !trial.open() {
        return said;
    }
    match found.visits.last() {
        None => said.push(words.label("trial-open-unscored")),
        Some(visit) => said.push(words.say(
            "phone-trial-last",
            &[
                ("date", words.date(visit.date)),
                ("scored", number(visit.scored)),
                ("plots", number(found.plots)),
            ],
        )),
    }
    let design = design(trial);
    match design.standing() {
        Standing::Demonstration => said.push(words.label("plan-demonstration")),
        Standing::TooSmall => {
            let rarity = rarity(design.smallest_p(), words);
            said.push(words.say("plan-too-small", &[("rarity", rarity)]));
        }
        Standing::Few => {
            let asked = if design.kind() == Kind::Pairs { FEW_PAIRS } else { FEW_BLOCKS };
            let values = [("number", number(design.replicates())), ("asked", number(asked))];
            said.push(words.say("plan-few", &values));
        }
        Standing::Trial => {}
    }
    said
}

/// Row and place in it, as one walks.
fn at(plot: &PlotView, words: &Words) -> String {
    let values = [("row", (plot.row + 1).to_string()), ("place", (plot.column + 1).to_string())];
    words.say("phone-plot-at", &values)
}

fn treatment(body: &TrialLaidOut, number: u32) -> String {
    let Some(plot) = body.plots.iter().find(|plot| plot.number == number) else { return String::new() };
    let main = body.treatments.get(usize::from(plot.treatment)).map(|own| own.label.as_str());
    let sub = plot.sub.and_then(|sub| body.subs.get(usize::from(sub))).map(kerfbook_ledger::Label::as_str);
    [main, sub].into_iter().flatten().collect::<Vec<_>>().join(" + ")
}

#[expect(clippy::cast_precision_loss, reason = "counts of plots")]
const fn whole(count: usize) -> f64 {
    count as f64
}
