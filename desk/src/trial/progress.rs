//! An open trial: how far it is, told by plot numbers, so that nobody who reads it is less blind.

use kerfbook_acts::trial_progress::{Progress, progress, walk};
use kerfbook_ledger::TrialView;
use kerfbook_words::Words;
use serde_json::json;

use crate::cli;
use crate::compare::new_table;
use crate::context::Context;
use crate::fault::{Fault, Message};

pub(super) fn run(args: &cli::Trial, trial: &TrialView, context: &Context) -> Result<(), Fault> {
    if args.page.is_some() {
        let remedy = Message::new("act-trial-open-remedy");
        return Err(Fault::usage(Message::new("act-trial-open"), remedy));
    }
    let found = progress(trial);
    if context.json {
        return context.print_json(&json!({
            "format": 1,
            "trial": trial.label.as_str(),
            "open": true,
            "plots": { "planned": found.plots, "lost": found.lost },
            "walk": walk(trial).iter().map(|plot| plot.number).collect::<Vec<_>>(),
            "visits": found.visits.iter().map(|visit| json!({
                "date": visit.date.to_string(), "layer": visit.layer.name(),
                "scored": visit.scored, "missing": visit.missing,
            })).collect::<Vec<_>>(),
            "measured": found.measured,
        }));
    }
    context.print(&told(trial, &found, context.words()))
}

fn told(trial: &TrialView, found: &Progress, words: &Words) -> String {
    let whole = |number: usize| words.stated(super::counted(number));
    let numbers = |plots: &[u32]| plots.iter().map(u32::to_string).collect::<Vec<_>>().join(", ");
    let mut said = vec![words.say("trial-open", &[("trial", trial.label.as_str().to_owned())])];
    if found.visits.is_empty() {
        said.push(words.label("trial-open-unscored"));
    } else {
        let heads = ["trial-open-day", "trial-open-layer", "trial-open-scored", "trial-open-missing"];
        let mut table = new_table(heads.iter().map(|id| words.label(id)).collect());
        for visit in &found.visits {
            table.add_row(vec![
                words.date_with_year(visit.date),
                words.label(&format!("trial-layer-{}", visit.layer.name())),
                words.say("trial-open-of", &[("scored", whole(visit.scored)), ("plots", whole(found.plots))]),
                numbers(&visit.missing),
            ]);
        }
        said.push(table.to_string());
    }
    if !found.lost.is_empty() {
        said.push(words.say("trial-open-lost", &[("numbers", numbers(&found.lost))]));
    }
    if found.measured > 0 {
        said.push(words.say("trial-open-measured", &[("number", whole(found.measured))]));
    }
    said.push(words.label("trial-open-blind"));
    said.join("\n\n")
}
