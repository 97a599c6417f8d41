//! Side-by-side plots: what each trial shows, every plot as a dot, and where the residuals lie.

use kerfbook_acts::error::ActError;
use kerfbook_acts::trial::sentences;
use kerfbook_acts::trial_in_book::kind;
use kerfbook_acts::trial_progress::progress;
use kerfbook_acts::trial_result::{self, Measured};
use kerfbook_ledger::{Book, TrialView as BookTrial};
use kerfbook_words::Words;
use maud::{Markup, html};

use super::view::{ResultView, TrialView};
use super::{picture, places};
use crate::trial::{counted, of_book as described};

pub(super) fn section(trials: &[TrialView], words: &Words) -> Markup {
    html! {
        @for (number, trial) in trials.iter().enumerate() {
            article.trial {
                h3 { (trial.name) }
                (places::facts(&trial.facts))
                @for sentence in &trial.said { p { (sentence) } }
                @for (at, result) in trial.results.iter().enumerate() {
                    (one(result, &format!("trial-{number}-{at}"), words))
                }
            }
        }
    }
}

fn one(result: &ResultView, id: &str, words: &Words) -> Markup {
    html! {
        h4 { (result.measured) }
        @for sentence in &result.said { p { (sentence) } }
        @for (at, dots) in result.dots.iter().enumerate() {
            (picture(&format!("{id}-dots-{at}"), words, |screen, _| {
                dots.draw(screen, &|value| words.significant(value, 4))
            }))
        }
        p.quiet { (words.label("trial-dots-about")) }
        (picture(&format!("{id}-left"), words, |screen, _| result.residuals.draw(screen)))
        p.quiet { (words.label("trial-residuals-about")) }
        @for note in &result.notes { p.quiet { (note) } }
    }
}

/// The trials of a book.
pub(crate) fn of_book(book: &Book, words: &Words) -> Result<Vec<TrialView>, ActError> {
    let trials = book.trials()?;
    trials.iter().filter(|trial| !trial.withdrawn()).map(|trial| view(trial, words)).collect()
}

fn view(trial: &BookTrial, words: &Words) -> Result<TrialView, ActError> {
    let whole = |number: usize| words.stated(counted(number));
    let combinations = trial.treatments.len() * trial.subs.len().max(1);
    let plots =
        words.say_count("plan-plots", counted(trial.plots.len()), &[("number", whole(trial.plots.len()))]);
    let mut facts = vec![
        words.label(&format!("plan-design-{}", kind(trial).name())),
        words.say_count(
            if trial.subs.is_empty() { "report-trial-treatments" } else { "report-trial-combinations" },
            counted(combinations),
            &[("number", whole(combinations))],
        ),
        plots,
        words.say("report-trial-laid-out", &[("date", words.date_with_year(trial.date.naive()))]),
    ];
    facts.extend(trial.closed.iter().map(|closed| {
        words.say("report-trial-closed", &[("date", words.date_with_year(closed.date.naive()))])
    }));
    let mut said = Vec::new();
    let mut results = Vec::new();
    if trial.open() {
        let scored = progress(trial).visits.last().map_or(0, |visit| visit.scored);
        let values = [("scored", whole(scored)), ("plots", whole(trial.plots.len()))];
        said.push(words.say("report-trial-open", &values));
    } else {
        for measured in trial_result::readings(trial) {
            results.extend(result(trial, measured, words)?);
        }
        if results.is_empty() {
            said.push(words.label("report-trial-nothing"));
        }
    }
    Ok(TrialView { name: trial.label.as_str().to_owned(), facts, said, results })
}

/// What may be said of one thing that was read; nothing where too little of it was read to be judged at all.
fn result(trial: &BookTrial, measured: Measured, words: &Words) -> Result<Option<ResultView>, ActError> {
    let found = match trial_result::of_view(trial, measured) {
        Ok(found) => found,
        Err(ActError::Trial(_)) => return Ok(None),
        Err(other) => return Err(other),
    };
    let verdict = found.verdict.clone();
    let described = described::describe(trial, found, words);
    Ok(Some(ResultView {
        measured: described.response.clone(),
        said: sentences(&verdict, &described.names, words),
        notes: described.notes(words),
        dots: verdict.analysis.groups.iter().map(|group| described.dots(&verdict, group, words)).collect(),
        residuals: described.residuals(&verdict, words),
    }))
}
