//! Trials: plots scored by number, measured and lost, and a trial closed. Layouts come in with `plan --book`.

use kerfbook_acts::measure_plot::{self, NewMeasurement};
use kerfbook_acts::score_plot::{self, NewScores};
use kerfbook_acts::{close_trial, lose_plot};
use kerfbook_ledger::kind::LeafLayer;
use kerfbook_science::units::{Mass, Share};

use super::writer::Writer;
use crate::fault::Message;
use crate::toml_file::section::{Bounds, Section};

pub(super) const LAYERS: [(&str, LeafLayer); 3] =
    [("old", LeafLayer::Old), ("middle", LeafLayer::Middle), ("young", LeafLayer::Young)];
const PERCENT: Bounds = Bounds::between(0.0, 100.0, "%");
const PLOTS: Bounds = Bounds::between(1.0, 99_999_999.0, "");
const YIELD_KG: Bounds = Bounds::between(0.0, 1e6, "kg");
const MOST: u32 = 99_999_999;

pub(super) fn scored(section: &Section<'_>, writer: &mut Writer<'_>) -> Option<()> {
    let trial = writer.trial(section)?;
    for key in ["plots", "yellow_pct"] {
        if !section.has(key) {
            section.missing(key, None);
        }
    }
    let plots = section.numbers("plots", PLOTS);
    let yellow = section.numbers("yellow_pct", PERCENT);
    let layer = section.choice("leaves", &LAYERS);
    let rater = writer.person(section, "rater").ok()?;
    let (plots, yellow) = (plots?, yellow?);
    if plots.len() != yellow.len() {
        let what =
            Message::new("enter-scores-unlike").text("plots", plots.len()).text("scores", yellow.len());
        section.complain("yellow_pct", what, Some(section.advice("yellow_pct")));
        return None;
    }
    if section.has("leaves") && layer.is_none() {
        return None;
    }
    let mut looked = Vec::with_capacity(plots.len());
    for (plot, percent) in plots.iter().zip(yellow) {
        if plot.fract() > 0.0 {
            let what = Message::new("desk-needs-whole-number").text("key", "plots").text("value", plot);
            section.complain("plots", what, Some(section.advice("plots")));
            return None;
        }
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "whole and within bounds"
        )]
        looked.push((*plot as u32, Share::from_percent(percent)));
    }
    let new = NewScores {
        trial,
        rater,
        layer: layer.unwrap_or(LeafLayer::Old),
        plots: &looked,
        again: section.flag("again"),
    };
    let moment = writer.moment();
    let scored = score_plot::score(writer.book, &new, moment);
    let entries = Writer::heed(section, scored)?;
    writer.entries.extend(entries);
    Some(())
}

pub(super) fn measured(section: &Section<'_>, writer: &mut Writer<'_>) -> Option<()> {
    let trial = writer.trial(section)?;
    let plot = plot(section)?;
    let share = |key: &str| section.number(key, PERCENT).map(Share::from_percent);
    let new = NewMeasurement {
        trial,
        plot,
        picked: section.number("yield_kg", YIELD_KG).map(Mass::from_kg),
        weeds: share("weeds_pct"),
        moisture: share("soil_moisture_pct"),
        stand: section.whole("stand", MOST),
    };
    let moment = writer.moment();
    let measured = measure_plot::measure(writer.book, &new, moment);
    writer.keep(section, measured).map(drop)
}

pub(super) fn lost(section: &Section<'_>, writer: &mut Writer<'_>) -> Option<()> {
    let trial = writer.trial(section)?;
    let plot = plot(section)?;
    let reason = Writer::text(section, section.required_text("reason")?)?;
    let moment = writer.moment();
    let lost = lose_plot::lose(writer.book, trial, plot, &reason, moment);
    writer.keep(section, lost).map(drop)
}

pub(super) fn closed(section: &Section<'_>, writer: &mut Writer<'_>) -> Option<()> {
    let trial = writer.trial(section)?;
    let note = match section.text("note") {
        Some(note) => Some(Writer::text(section, note)?),
        None => None,
    };
    let moment = writer.moment();
    let closed = close_trial::close(writer.book, trial, note.as_ref(), moment);
    writer.keep(section, closed).map(drop)
}

fn plot(section: &Section<'_>) -> Option<u32> {
    if !section.has("plot") {
        section.missing("plot", None);
    }
    section.count("plot", MOST)
}
