//! A trial in the book: blind while it is open, and what cannot have happened so.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

mod ledger;

use std::sync::Arc;

use kerfbook_ledger::kind::{Body, LeafLayer, PlotLost, PlotMeasured, PlotScored, TrialClosed};
use kerfbook_ledger::{Book, Draft, EntryId, Flag, Replacement, Text, TrialView};
use ledger::*;

struct Trial {
    book: Book,
    id: EntryId,
    person: EntryId,
    now: i64,
    _folder: tempfile::TempDir,
}

impl Trial {
    /// Laid out on the tenth day.
    fn new() -> Self {
        let folder = folder();
        let season = season(&folder.path().join("book"));
        let mut trial = Self {
            book: season.book,
            id: season.first,
            person: season.person,
            now: SPRING_MS + 10_000,
            _folder: folder,
        };
        let layout = samples::trial(season.first);
        trial.id = trial.append(Draft::new(day(10), layout));
        trial
    }

    fn append(&mut self, draft: Draft) -> EntryId {
        self.now += 1_000;
        self.book.append(&[draft], &[], self.now).unwrap()[0]
    }

    fn write(&mut self, on: i32, body: impl Into<Body>) -> EntryId {
        let draft = Draft::new(day(on), body).about(self.id).by(Some(self.person));
        self.append(draft)
    }

    fn view(&mut self) -> Arc<TrialView> {
        let view = self.book.trial(self.id).unwrap().unwrap();
        let hash = self.book.projection_hash().unwrap();
        assert_eq!(self.book.rebuild().unwrap(), hash);
        view
    }

    fn flags(&self, id: EntryId) -> Vec<Flag> {
        self.book.current(id).unwrap().unwrap().flags.into_iter().collect()
    }
}

const fn score(plot: u32, yellow_bp: u32) -> PlotScored {
    PlotScored { plot, rater: None, layer: LeafLayer::Old, yellow_bp, again: false }
}

fn lost(plot: u32) -> PlotLost {
    PlotLost { plot, reason: Text::new([1; 16], "a mole").hash() }
}

#[test]
fn treatments_are_seen_when_the_trial_is_closed_and_not_before() {
    let mut trial = Trial::new();
    trial.write(20, score(101, 1_500));
    let view = trial.view();
    assert!(view.open() && view.opened.is_none());
    // Neither what a plot got nor the seed that gives it stands in the view.
    let shown = serde_json::to_string(&view).unwrap();
    assert!(!shown.contains("20260403") && !shown.contains("\"given\""), "{shown}");
    let numbers: Vec<u32> = view.walk().iter().map(|plot| plot.number).collect();
    assert_eq!(numbers, [101, 102, 202, 201]);
    let closing = trial.write(40, TrialClosed { note: None });
    let opened = trial.view().opened.clone().unwrap();
    assert_eq!(opened.seed, 20_260_403);
    assert_eq!(opened.given.iter().map(|own| own.treatment).collect::<Vec<_>>(), [1, 0, 0, 1]);
    trial.now += 1_000;
    let now = trial.now;
    trial.book.withdraw(closing, change(300), now).unwrap();
    assert!(trial.view().open() && trial.view().opened.is_none());
}

#[test]
fn what_cannot_have_happened_so_is_flagged_and_stands_outside() {
    let mut trial = Trial::new();
    let early = trial.write(5, score(101, 500));
    let first = trial.write(20, score(101, 1_500));
    let twice = trial.write(20, score(101, 2_500));
    let mut on_purpose = score(101, 2_000);
    on_purpose.again = true;
    let again = trial.write(20, on_purpose);
    let nowhere = trial.write(20, score(999, 500));
    let before = trial.write(20, score(201, 500));
    let loss = trial.write(25, lost(201));
    let after = trial.write(30, score(201, 500));
    let none = PlotMeasured { plot: 201, yield_g: Some(1), weed_bp: None, moisture_bp: None, stand: None };
    let weighed = trial.write(30, none);
    let closing = trial.write(40, TrialClosed { note: None });
    let again_closed = trial.write(41, TrialClosed { note: None });
    let late = trial.write(41, score(102, 500));
    for (entry, flags) in [
        (early, vec![Flag::Early]),
        (first, vec![]),
        (twice, vec![Flag::ScoredTwice]),
        (again, vec![]),
        (nowhere, vec![Flag::NoSuchPlot]),
        (before, vec![]),
        (loss, vec![]),
        (after, vec![Flag::PlotWasLost]),
        (weighed, vec![Flag::PlotWasLost]),
        (closing, vec![]),
        (again_closed, vec![Flag::ClosedTwice]),
        (late, vec![Flag::TrialWasClosed]),
    ] {
        assert_eq!(trial.flags(entry), flags, "{entry}");
    }
    let view = trial.view();
    let of = |plot: u32| {
        let scores = &view.plot(plot).unwrap().scores;
        scores.iter().map(|score| score.entry).collect::<Vec<_>>()
    };
    assert_eq!((of(101), of(102), of(201)), (vec![early, first, again], vec![], vec![before]));
    assert_eq!(view.plot(101).unwrap().scores[1].rater, Some(trial.person));
    assert_eq!((view.lost(), view.closed.as_ref().map(|own| own.entry)), (1, Some(closing)));
    // The loss is taken out: what came after it counts again. The first closing moves: the second one is the first now.
    trial.now += 1_000;
    let now = trial.now;
    trial.book.withdraw(loss, change(300), now).unwrap();
    trial.book.correct(closing, &[Replacement::date(day(60).date)], change(300), now + 1).unwrap();
    let view = trial.view();
    assert_eq!(view.lost(), 0);
    assert_eq!(view.plot(201).unwrap().scores.len(), 2);
    assert_eq!(view.closed.as_ref().map(|own| own.entry), Some(again_closed));
    assert_eq!((trial.flags(again_closed), trial.flags(late)), (vec![], vec![Flag::TrialWasClosed]));
}
