//! `pile-volume`: what a heap or a load holds, from a shape and a few lengths.

mod shape;

use kerfbook_science::geometry::pile::STEEPEST_REPOSE;
use kerfbook_science::units::{Share, Volume};
use kerfbook_words::Words;
use serde_json::{Value, json};

use self::shape::{Advice, Described};
use crate::cli;
use crate::compare::{assumed_document, new_table};
use crate::context::Context;
use crate::fault::{Fault, Message};

/// A volume with its range.
struct Figures {
    volume: Volume,
    low: Volume,
    high: Volume,
}

pub(crate) fn run(args: &cli::PileVolume, context: &Context) -> Result<(), Fault> {
    let described = shape::read(&args.shape)?;
    let [volume, low, high] = described.pile.volumes(described.within).map_err(|error| {
        Fault::input(&args.shape, Message::new("pile-cannot-be").text("why", error), None)
    })?;
    let figures = Figures { volume, low, high };
    if context.json {
        context.print_json(&document(&described, &figures, context.words()))
    } else {
        context.print(&told(&described, &figures, context.words()))
    }
}

/// For programs.
fn document(described: &Described, figures: &Figures, words: &Words) -> Value {
    json!({
        "format": 1,
        "shape": described.name,
        "volume_m3": figures.volume.m3(),
        "low_m3": figures.low.m3(),
        "high_m3": figures.high.m3(),
        "measured_within_pct": described.within * 100.0,
        "advice": described.advice.iter().map(|advice| said(*advice, words)).collect::<Vec<_>>(),
        "assumed": assumed_document(&[], &described.assumed),
    })
}

/// For people.
fn told(described: &Described, figures: &Figures, words: &Words) -> String {
    let range = words.volume_range(figures.volume, figures.low, figures.high);
    let answer = if described.pile.is_load() { "pile-answer-load" } else { "pile-answer" };
    let mut parts = vec![words.say(answer, &[("range", range)])];
    parts.extend(described.advice.iter().map(|advice| said(*advice, words)));
    let mut table = new_table(vec![words.label("pile-title"), String::new()]);
    for (id, volume) in
        [("pile-middle", figures.volume), ("pile-low", figures.low), ("pile-high", figures.high)]
    {
        table.add_row(vec![words.label(id), words.volume(volume)]);
    }
    parts.push(table.to_string());
    let share = words.percent(Share::from_fraction(described.within));
    parts.push(format!(
        "{} {}",
        words.say("pile-within", &[("share", share)]),
        words.label("pile-shape-decides")
    ));
    parts.join("\n\n")
}

fn said(advice: Advice, words: &Words) -> String {
    match advice {
        Advice::SectionOpen => words.label("pile-section-open"),
        Advice::EndArea => words.label("pile-end-area"),
        Advice::Rating => words.label("pile-rating"),
        Advice::Steep { degrees } => words.say(
            "pile-steep",
            &[("angle", words.number(degrees, 0)), ("most", words.number(STEEPEST_REPOSE.value, 0))],
        ),
    }
}
