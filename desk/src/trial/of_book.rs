//! A closed trial of a book, described as a table of plots is.

use std::sync::Arc;

use kerfbook_acts::trial_result::{Measured, TrialResult, readings, result};
use kerfbook_ledger::{Book, TrialView};
use kerfbook_science::trial::design::Kind;
use kerfbook_words::Words;

use super::described::Described;
use crate::book::of;
use crate::fault::{Fault, Message};
use crate::{acted, cli};

/// What a book has of a trial.
pub(super) enum Found {
    /// It is closed and was judged.
    Judged(Box<Described>),
    /// It is open: how far it is may be told, and nothing more.
    Open(Arc<TrialView>),
}

pub(super) fn read(args: &cli::Trial, words: &Words) -> Result<Found, Fault> {
    for (given, option) in [
        (args.design.is_some(), "--design"),
        (args.treatment.is_some(), "--treatment"),
        (args.block.is_some(), "--block"),
        (args.row.is_some(), "--row"),
        (args.column.is_some(), "--column"),
        (args.main.is_some(), "--main"),
        (args.sub.is_some(), "--sub"),
        (args.check.is_some(), "--check"),
        (args.sub_check.is_some(), "--sub-check"),
        (args.plot.is_some(), "--plot"),
        (args.day.is_some(), "--day"),
        (!args.pair.is_empty(), "--pair"),
        (!args.contrast.is_empty(), "--contrast"),
        (args.margin.is_some(), "--margin"),
        (args.percent, "--percent"),
        (args.yellow, "--yellow"),
    ] {
        if given {
            let what = Message::new("trial-book-option").text("option", option);
            return Err(Fault::usage(what, Message::new("trial-see-help")));
        }
    }
    let book = of(&args.data, || Book::open(&args.data, None))?;
    let view = chosen(&book, args)?;
    if view.open() {
        return Ok(Found::Open(view));
    }
    let measured = measured(&view, args)?;
    let found = result(&book, view.id, measured).map_err(|error| acted::fault(&args.data, &error))?;
    Ok(Found::Judged(Box::new(describe(&view, found, words))))
}

/// A judged trial of a book, described.
pub(crate) fn describe(view: &TrialView, found: TrialResult, words: &Words) -> Described {
    let extra = found.notes(words);
    let factors = found.names.factors.clone();
    let columns: Vec<String> = match (found.kind, factors) {
        (Kind::CompletelyRandomised, _) => vec!["treatment".to_owned()],
        (Kind::LatinSquare, _) => ["row", "column", "treatment"].map(str::to_owned).to_vec(),
        (_, Some([main, sub])) => vec!["block".to_owned(), main, sub],
        _ => ["block", "treatment"].map(str::to_owned).to_vec(),
    };
    let called = columns.iter().map(|column| match column.as_str() {
        "block" => words.label("plan-block"),
        "treatment" => words.label("plan-treatment"),
        "row" => words.label("trial-row"),
        "column" => words.label("trial-column"),
        other => other.to_owned(),
    });
    let called = called.collect();
    let blocks = if matches!(found.kind, Kind::CompletelyRandomised | Kind::LatinSquare) {
        Vec::new()
    } else {
        let most = view.plots.iter().map(|plot| plot.block).max().unwrap_or(0);
        (1..=most + 1).map(|block| format!("{} {block}", words.label("plan-block"))).collect()
    };
    Described {
        kind: found.kind,
        trial: found.trial,
        names: found.names,
        columns,
        called,
        blocks,
        lines: vec![None; view.plots.len()],
        places: Some(found.places),
        response: words.label(&format!("measured-{}", found.measured.name())),
        question: found.question,
        contrasts: found.contrasts,
        visits: found.visits,
        extra,
    }
}

/// The trial that is meant: the named one, or the only one.
fn chosen(book: &Book, args: &cli::Trial) -> Result<Arc<TrialView>, Fault> {
    let mut trials = of(&args.data, || book.trials())?;
    trials.retain(|trial| !trial.withdrawn());
    let names: Vec<&str> = trials.iter().map(|trial| trial.label.as_str()).collect();
    let help = if names.is_empty() {
        Message::new("trial-which-none")
    } else {
        Message::new("trial-which-help").text("names", names.join(", "))
    };
    let mut meant =
        trials.iter().filter(|trial| args.name.as_ref().is_none_or(|name| trial.label.as_str() == name));
    match (meant.next(), meant.next(), &args.name) {
        (Some(trial), None, _) => Ok(Arc::clone(trial)),
        (None, _, Some(name)) if !names.is_empty() => {
            Err(Fault::usage(Message::new("enter-unknown-name").text("name", name), help))
        }
        _ => Err(Fault::usage(
            Message::new(if names.is_empty() { "trial-which-no" } else { "trial-which" }),
            help,
        )),
    }
}

fn measured(view: &TrialView, args: &cli::Trial) -> Result<Measured, Fault> {
    let Some(name) = &args.response else {
        return Ok(readings(view).first().copied().unwrap_or(Measured::Yellow));
    };
    Measured::of_name(name).ok_or_else(|| {
        let known: Vec<&str> = Measured::ALL.iter().map(|one| one.name()).collect();
        Fault::usage(
            Message::new("trial-book-response").text("value", name),
            Message::new("trial-book-response-help").text("names", known.join(", ")),
        )
    })
}
