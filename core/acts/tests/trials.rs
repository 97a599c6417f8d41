//! A trial from the draw to what may be said of it, through the book.

#![allow(clippy::unwrap_used, reason = "a test stops at the first surprise")]

mod holding;

use chrono::Days;
use holding::Kept;
use kerfbook_acts::error::ActError;
use kerfbook_acts::lay_out_trial::{LaidOut, Named, NewTrial, lay_out};
use kerfbook_acts::measure_plot::{NewMeasurement, measure};
use kerfbook_acts::score_plot::{NewScores, score};
use kerfbook_acts::told_entry::Teller;
use kerfbook_acts::trial_fault::TrialFault;
use kerfbook_acts::trial_result::{Measured, TrialResult, readings, result};
use kerfbook_acts::{close_trial, lose_plot, refusal};
use kerfbook_ledger::kind::LeafLayer;
use kerfbook_ledger::{EntryId, Text};
use kerfbook_science::trial::anova::Line;
use kerfbook_science::trial::design::{Design, Standing};
use kerfbook_science::trial::layout::Given;
use kerfbook_science::trial::treatment::Treatment;
use kerfbook_science::trial::verdict::{Refusal, Saying};
use kerfbook_science::units::{Mass, Share};
use kerfbook_words::{Language, Units, Words};
use serde_json::Value;

const TREATMENTS: [&str; 4] = ["bare", "chips on top", "chips dug in", "chips dug in + N"];

fn named<'a>(names: &[&'a str]) -> Vec<Named<'a>> {
    names.iter().map(|name| Named { name, brings: Treatment::default() }).collect()
}

fn wanted<'a>(design: &'a Design, treatments: &'a [Named<'a>]) -> NewTrial<'a> {
    NewTrial {
        label: "Chips on beans",
        place: None,
        design,
        seed: 20_260_415,
        per_row: 0,
        refused: &[],
        treatments,
        subs: &[],
        factors: [None, None],
        check: Some(0),
        sub_check: None,
        pairs: &[],
        contrasts: &[],
        margin: None,
        size: None,
    }
}

/// Complete blocks of the four treatments.
fn blocks(kept: &mut Kept, blocks: usize) -> LaidOut {
    let design = Design::RandomisedBlocks { treatments: 4, blocks };
    let treatments = named(&TREATMENTS);
    let now = kept.now;
    lay_out(&mut kept.book, &wanted(&design, &treatments), now).unwrap()
}

fn walk(kept: &mut Kept, trial: EntryId, after: u64, plots: &[(u32, f64)]) -> Result<Vec<EntryId>, ActError> {
    let plots: Vec<(u32, Share)> =
        plots.iter().map(|(plot, pct)| (*plot, Share::from_percent(*pct))).collect();
    let new = NewScores { trial, rater: None, layer: LeafLayer::Old, plots: &plots, again: false };
    let then = kept.now.on(kept.now.date + Days::new(after));
    score(&mut kept.book, &new, then)
}

fn close(kept: &mut Kept, trial: EntryId) -> EntryId {
    let end = kept.now.on(kept.now.date + Days::new(120));
    close_trial::close(&mut kept.book, trial, None, end).unwrap()
}

fn said(found: &TrialResult) -> String {
    found.sentences(&Words::new(Language::English, Units::Metric)).join(" ")
}

fn treatment(given: Given) -> usize {
    match given {
        Given::Treatment(level) | Given::Crossed { main: level, .. } => level,
    }
}

/// The invented yellowing trial, written plot by plot into a book whose own draw put the treatments elsewhere.
#[test]
fn yellowing_example_goes_from_scores_to_conclusions() {
    let text = include_str!("../../../fixtures/science/trial/yellowing-example.json");
    let example: Value = serde_json::from_str(text).unwrap();
    let input = &example["input"];
    let mut kept = Kept::new();
    let laid = blocks(&mut kept, 5);
    let rows = input["plots"].as_array().unwrap();
    let days: Vec<u64> = input["days"].as_array().unwrap().iter().map(|day| day.as_u64().unwrap()).collect();
    let percents: Vec<(u32, Vec<f64>)> = laid
        .layout
        .plots
        .iter()
        .map(|plot| {
            let row = rows
                .iter()
                .find(|row| {
                    row["block"] == format!("B{}", plot.block + 1)
                        && row["treatment"] == TREATMENTS[treatment(plot.given)]
                })
                .unwrap();
            let scores = row["percent_yellow"].as_array().unwrap();
            (plot.number, scores.iter().map(|score| score.as_f64().unwrap()).collect())
        })
        .collect();
    for (at, day) in days.iter().enumerate() {
        let visit: Vec<(u32, f64)> = percents.iter().map(|(plot, scores)| (*plot, scores[at])).collect();
        walk(&mut kept, laid.trial, *day, &visit).unwrap();
    }
    // While it is open nobody learns what a plot got, by result or by sentence.
    let early = result(&kept.book, laid.trial, Measured::Yellow).unwrap_err();
    assert!(matches!(early, ActError::Trial(TrialFault::Open)));
    let words = Words::new(Language::English, Units::Metric);
    let told = Teller::new(&kept.book, &words).unwrap().all().unwrap();
    assert!(told.iter().all(|entry| !entry.text.contains("chips dug")), "{told:?}");
    assert!(told.iter().any(|entry| entry.text.contains("Laid out the trial Chips on beans: 20 plots")));
    close(&mut kept, laid.trial);
    let found = result(&kept.book, laid.trial, Measured::Yellow).unwrap();
    let expected = &example["expected"]["saudpc_rcbd"]["anova"];
    for (line, name) in [(Line::Block, "block"), (Line::Treatment, "treatment"), (Line::Error, "error")] {
        let squares = found.verdict.analysis.row(line).unwrap().squares;
        let wanted = expected[name]["ss"].as_f64().unwrap();
        assert!((squares / wanted - 1.0).abs() < 1e-9, "{name}: {squares} for {wanted}");
    }
    let said = said(&found);
    assert!(said.contains("chips dug in yellowed more than plots with bare"), "{said}");
    assert!(said.ends_with("Holds for this field and season."), "{said}");
    assert_eq!(found.visits.unwrap().days.len(), 6);
}

#[test]
fn what_cannot_be_scored_is_refused_with_a_sentence_and_nothing_is_written() {
    let mut kept = Kept::new();
    let laid = blocks(&mut kept, 4);
    let trial = laid.trial;
    walk(&mut kept, trial, 7, &[(101, 5.0), (102, 10.0)]).unwrap();
    let reason = Text::new([1; 16], "moles");
    let later = kept.now.on(kept.now.date + Days::new(8));
    lose_plot::lose(&mut kept.book, trial, 103, &reason, later).unwrap();
    let count = kept.count();
    let words = Words::new(Language::English, Units::Metric);
    let mut refused = |after: u64, plots: &[(u32, f64)], wanted: &str| {
        let error = walk(&mut kept, trial, after, plots).unwrap_err();
        let said = refusal::told(&error).0.say(&words);
        assert!(said.contains(wanted), "{said}");
    };
    refused(9, &[(104, 20.0), (101, 101.0)], "yellow_pct cannot be 101");
    refused(9, &[(999, 5.0)], "no plot 999");
    refused(9, &[(103, 5.0)], "was lost on 2026-04-23");
    refused(7, &[(101, 5.0)], "has a score of these leaves");
    refused(9, &[(104, 5.0), (104, 6.0)], "has a score of these leaves");
    refused(9, &[], "nothing was measured");
    let again = NewScores {
        trial,
        rater: None,
        layer: LeafLayer::Old,
        plots: &[(104, Share::default())],
        again: true,
    };
    assert!(matches!(
        score(&mut kept.book, &again, later),
        Err(ActError::Trial(TrialFault::NothingToRepeat { plot: 104 }))
    ));
    let nothing = NewMeasurement { trial, plot: 101, picked: None, weeds: None, moisture: None, stand: None };
    assert!(matches!(measure(&mut kept.book, &nothing, later), Err(ActError::NothingMeasured)));
    let too_much = NewMeasurement { weeds: Some(Share::from_percent(120.0)), ..nothing };
    assert!(matches!(measure(&mut kept.book, &too_much, later), Err(ActError::Figure { .. })));
    // Before the last score nothing closes; after closing nothing is scored.
    let (before, now) = (kept.now.on(kept.now.date + Days::new(3)), kept.now);
    assert!(matches!(
        close_trial::close(&mut kept.book, trial, None, before),
        Err(ActError::Before { what: "last score", .. })
    ));
    assert_eq!(kept.count(), count);
    close(&mut kept, trial);
    assert!(matches!(
        walk(&mut kept, trial, 130, &[(101, 5.0)]),
        Err(ActError::ClosedAlready { what: "trial" })
    ));
    assert!(matches!(
        close_trial::close(&mut kept.book, trial, None, now.on(now.date + Days::new(200))),
        Err(ActError::ClosedAlready { what: "trial" })
    ));
}

#[test]
fn too_few_plots_are_a_demonstration_and_too_many_lost_refuse_a_verdict() {
    let mut kept = Kept::new();
    let one = blocks(&mut kept, 1);
    assert_eq!(one.standing, Standing::Demonstration);
    let plots: Vec<(u32, f64)> = one.layout.plots.iter().map(|plot| (plot.number, 10.0)).collect();
    walk(&mut kept, one.trial, 7, &plots).unwrap();
    close(&mut kept, one.trial);
    let found = result(&kept.book, one.trial, Measured::Yellow).unwrap();
    assert!(found.verdict.refused);
    assert_eq!(found.verdict.sayings[0], Saying::Refused(Refusal::Demonstration));

    let four = blocks(&mut kept, 4);
    let plots: Vec<(u32, f64)> =
        four.layout.plots.iter().map(|plot| (plot.number, f64::from(plot.number % 7))).collect();
    walk(&mut kept, four.trial, 7, &plots).unwrap();
    let reason = Text::new([1; 16], "flood");
    for (plot, _) in plots.iter().take(5) {
        let later = kept.now.on(kept.now.date + Days::new(8));
        lose_plot::lose(&mut kept.book, four.trial, *plot, &reason, later).unwrap();
    }
    close(&mut kept, four.trial);
    let found = result(&kept.book, four.trial, Measured::Yellow).unwrap();
    assert!(
        matches!(
            found.verdict.sayings[0],
            Saying::Refused(Refusal::TooManyLost { lost: 5, planned: 16 } | Refusal::LevelLost { .. })
        ),
        "{:?}",
        found.verdict.sayings
    );
    assert!(matches!(
        result(&kept.book, four.trial, Measured::Yield),
        Err(ActError::Trial(TrialFault::Nothing))
    ));
}

#[test]
fn second_scorings_and_divided_blocks_are_told() {
    let mut kept = Kept::new();
    let salt = |number: u8, name: &str| Text::new([number; 16], name);
    let now = kept.now;
    let ana = kerfbook_acts::name_person::name(&mut kept.book, &salt(1, "Ana"), now).unwrap();
    let ben = kerfbook_acts::name_person::name(&mut kept.book, &salt(2, "Ben"), now).unwrap();
    let laid = blocks(&mut kept, 4);
    let plots: Vec<(u32, Share)> = laid
        .layout
        .plots
        .iter()
        .map(|plot| {
            (
                plot.number,
                Share::from_percent(
                    [5.0, 8.0, 11.0, 14.0][treatment(plot.given)] + f64::from(plot.number % 3),
                ),
            )
        })
        .collect();
    let later = kept.now.on(kept.now.date + Days::new(7));
    let by = |rater, plots, again| NewScores {
        trial: laid.trial,
        rater: Some(rater),
        layer: LeafLayer::Old,
        plots,
        again,
    };
    // The first two plots of the first block by one, all others by the other.
    score(&mut kept.book, &by(ana, &plots[..2], false), later).unwrap();
    score(&mut kept.book, &by(ben, &plots[2..], false), later).unwrap();
    let off: Vec<(u32, Share)> =
        plots[..2].iter().map(|(plot, share)| (*plot, Share::from_percent(share.percent() + 4.0))).collect();
    score(&mut kept.book, &by(ben, &off, true), later).unwrap();
    for (plot, _) in &plots {
        for kg in [1.0, 0.5] {
            let picked = Some(Mass::from_kg(kg + f64::from(*plot) / 1000.0));
            let new = NewMeasurement {
                trial: laid.trial,
                plot: *plot,
                picked,
                weeds: None,
                moisture: None,
                stand: None,
            };
            measure(&mut kept.book, &new, later).unwrap();
        }
    }
    close(&mut kept, laid.trial);
    let view = kept.book.trial(laid.trial).unwrap().unwrap();
    assert_eq!(readings(&view), [Measured::Yellow, Measured::Yield]);
    let found = result(&kept.book, laid.trial, Measured::Yellow).unwrap();
    let agreement = found.agreement.unwrap();
    assert_eq!(agreement.pairs, 2);
    assert!((agreement.points - 4.0).abs() < 1e-9);
    assert_eq!(found.shared, [(0, later.date)]);
    assert!(said(&found).contains("2 plots were scored a second time: the two scores lie 4 points apart"));
    let first = found.trial.response().values()[0].unwrap();
    assert!((first - plots[0].1.percent()).abs() < 1e-9, "second scorings stand outside the analysis");
    // Two pickings are one yield.
    let picked = result(&kept.book, laid.trial, Measured::Yield).unwrap();
    let whole = picked.trial.response().values()[0].unwrap();
    assert!((whole - (1.5 + 2.0 * f64::from(plots[0].0) / 1000.0)).abs() < 1e-6, "{whole}");
}

#[test]
fn two_factors_and_comparisons_named_beforehand_come_back() {
    let mut kept = Kept::new();
    let design = Design::SplitPlot { main: 2, sub: 2, blocks: 4 };
    let treatments = named(&["mulched", "bare"]);
    let now = kept.now;
    let new = NewTrial {
        subs: &["early", "late"],
        factors: [Some("mulch"), Some("sowing")],
        pairs: &[(0, 1)],
        contrasts: &[("mulched less bare", vec![1.0, -1.0])],
        margin: Some(Share::from_percent(3.0)),
        ..wanted(&design, &treatments)
    };
    let lopsided = NewTrial { contrasts: &[("lopsided", vec![1.0, 1.0])], ..new.clone() };
    assert!(matches!(
        lay_out(&mut kept.book, &lopsided, now),
        Err(ActError::Trial(TrialFault::Comparison { .. }))
    ));
    let twice = named(&["bare", "bare"]);
    assert!(matches!(
        lay_out(&mut kept.book, &NewTrial { treatments: &twice, ..new.clone() }, now),
        Err(ActError::Trial(TrialFault::NameTwice { .. }))
    ));
    let laid = lay_out(&mut kept.book, &new, now).unwrap();
    let plots: Vec<(u32, f64)> = laid
        .layout
        .plots
        .iter()
        .map(|plot| {
            let (main, sub) = match plot.given {
                Given::Crossed { main, sub } => (main, sub),
                Given::Treatment(_) => (0, 0),
            };
            (plot.number, [20.0, 10.0][main] + [0.0, 2.0][sub] + f64::from(plot.number % 5))
        })
        .collect();
    walk(&mut kept, laid.trial, 30, &plots).unwrap();
    close(&mut kept, laid.trial);
    let found = result(&kept.book, laid.trial, Measured::Yellow).unwrap();
    assert_eq!(found.question.pairs, [(0, 1)]);
    assert_eq!(found.question.margin, Some(3.0));
    assert_eq!(found.contrasts, [("mulched less bare".to_owned(), vec![1.0, -1.0])]);
    assert_eq!(found.names.factors, Some(["mulch".to_owned(), "sowing".to_owned()]));
    assert!(found.verdict.analysis.groups.len() == 2 && !found.verdict.refused);
}

#[test]
fn unequal_visit_dates_are_brought_together_or_told() {
    let mut kept = Kept::new();
    let laid = blocks(&mut kept, 4);
    let numbers: Vec<u32> = laid.layout.plots.iter().map(|plot| plot.number).collect();
    let (early, late) = numbers.split_at(8);
    let scores = |plots: &[u32], pct: f64| -> Vec<(u32, f64)> {
        plots.iter().map(|plot| (*plot, pct + f64::from(plot % 4))).collect()
    };
    // Two blocks a day before the others, and one walk between the last two that only they had.
    for (day, plots, pct) in
        [(30, early, 10.0), (31, late, 10.0), (45, early, 20.0), (60, &numbers[..], 30.0)]
    {
        walk(&mut kept, laid.trial, day, &scores(plots, pct)).unwrap();
    }
    close(&mut kept, laid.trial);
    let found = result(&kept.book, laid.trial, Measured::Yellow).unwrap();
    let visits = found.visits.as_ref().unwrap();
    // Over days 31 to 60, which all share: day 31 is drawn for the early ones, day 45 for the late ones.
    assert_eq!((visits.days.len(), visits.drawn, visits.left_out), (3, 16, 1));
    assert!(!found.apart);

    let apart = blocks(&mut kept, 4);
    let numbers: Vec<u32> = apart.layout.plots.iter().map(|plot| plot.number).collect();
    let (early, late) = numbers.split_at(8);
    walk(&mut kept, apart.trial, 30, &scores(early, 10.0)).unwrap();
    walk(&mut kept, apart.trial, 60, &scores(late, 30.0)).unwrap();
    close(&mut kept, apart.trial);
    let found = result(&kept.book, apart.trial, Measured::Yellow).unwrap();
    assert!(found.apart && found.visits.is_none());
    assert!(said(&found).contains("scored on different days"), "{}", said(&found));
}

#[test]
fn where_one_factor_turns_the_other_the_combinations_are_told() {
    let mut kept = Kept::new();
    let design = Design::SplitPlot { main: 2, sub: 2, blocks: 4 };
    let treatments = named(&["mulched", "bare"]);
    let now = kept.now;
    let new = NewTrial {
        subs: &["early", "late"],
        factors: [Some("mulch"), Some("sowing")],
        check: None,
        ..wanted(&design, &treatments)
    };
    let laid = lay_out(&mut kept.book, &new, now).unwrap();
    let expected = [[20.0, 10.0], [10.0, 20.0]];
    let mut sums = [[0.0; 2]; 2];
    let mut plots = Vec::new();
    for plot in &laid.layout.plots {
        let Given::Crossed { main, sub } = plot.given else { panic!("two factors") };
        let yellow = expected[main][sub] + f64::from(plot.number % 3);
        sums[main][sub] += yellow / 4.0;
        plots.push((plot.number, yellow));
    }
    walk(&mut kept, laid.trial, 30, &plots).unwrap();
    close(&mut kept, laid.trial);
    let found = result(&kept.book, laid.trial, Measured::Yellow).unwrap();
    assert_eq!(found.verdict.analysis.combinations.len(), 4);
    for own in &found.verdict.analysis.combinations {
        assert_eq!(own.plots, 4);
        assert!((own.mean - sums[own.main][own.sub]).abs() < 1e-9, "{own:?}");
    }
    let said = said(&found);
    assert!(said.contains("What one factor does depends on the other"), "{said}");
    assert!(said.contains("Means of the combinations: mulched with early"), "{said}");
}
