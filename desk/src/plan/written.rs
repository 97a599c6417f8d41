//! A plan into a book: the layout with its seed, and what was asked beforehand.

use std::path::Path;

use kerfbook_acts::error::ActError;
use kerfbook_acts::lay_out_trial::{Named, NewTrial, lay_out};
use kerfbook_acts::moment::Moment;
use kerfbook_acts::told_entry::Teller;
use kerfbook_acts::trial_plots::outline_plots;
use kerfbook_ledger::Text;
use kerfbook_science::trial::treatment::Treatment;
use kerfbook_science::units::Share;

use super::Plan;
use crate::book::{named_place, of, open_to_write, random};
use crate::context::Context;
use crate::fault::{Fault, Message};
use crate::{acted, cli};

/// Writes the trial and gives its entry as it is shown.
pub(super) fn write(
    plan: &Plan<'_>,
    file: &Path,
    args: &cli::Plan,
    context: &Context,
) -> Result<String, Fault> {
    let described = plan.described;
    if described.name.is_empty() {
        let what = Message::new("plan-needs-name");
        return Err(Fault::input(&args.trial, what, Some(Message::new("plan-needs-name-help"))));
    }
    let mut book = open_to_write(file)?;
    let place = args.place.as_ref().map(|name| named_place(&book, file, name)).transpose()?;
    let refused: Vec<Text> =
        described.refused.iter().map(|why| Ok(Text::new(random()?, why))).collect::<Result<_, Fault>>()?;
    let named: Vec<Named<'_>> = described
        .treatments
        .iter()
        .enumerate()
        .map(|(at, name)| Named {
            name,
            brings: described.brings.get(at).cloned().unwrap_or_else(Treatment::default),
        })
        .collect();
    let subs: Vec<&str> = described.subs.iter().map(String::as_str).collect();
    let contrasts: Vec<(&str, Vec<f64>)> =
        described.contrasts.iter().map(|(name, weights)| (name.as_str(), weights.clone())).collect();
    let among = |names: &[String]| {
        described.check.as_ref().and_then(|check| names.iter().position(|name| name == check))
    };
    let factor = |at: usize| described.factors.get(at).map(String::as_str);
    let check = among(&described.treatments);
    let new = NewTrial {
        label: &described.name,
        place: place.map(|place| place.id),
        design: &described.design,
        seed: plan.seed,
        per_row: described.per_row,
        refused: &refused,
        treatments: &named,
        subs: &subs,
        factors: [factor(0), factor(1)],
        check,
        sub_check: if check.is_some() { None } else { among(&described.subs) },
        pairs: &described.pairs,
        contrasts: &contrasts,
        margin: described.margin_points.map(Share::from_percent),
        size: described.size,
    };
    let date = args.on.unwrap_or_else(|| context.today());
    let moment = Moment { date, wall_ms: context.wall_ms(), by: None };
    let same = of(file, || book.trials())?;
    if same.iter().any(|trial| !trial.withdrawn() && trial.label.as_str() == described.name) {
        let what = Message::new("plan-in-book-twice").text("name", &described.name);
        return Err(Fault::input(&args.trial, what, Some(Message::new("plan-in-book-twice-help"))));
    }
    let plots = match (args.plots, described.size) {
        (false, _) => None,
        (true, Some(size)) => Some(size),
        (true, None) => {
            let what = Message::new("plan-plots-no-size");
            return Err(Fault::input(&args.trial, what, Some(Message::new("plan-plots-no-size-help"))));
        }
    };
    let written = book.together(|book| {
        let laid = lay_out(book, &new, moment)?;
        if let Some(size) = &plots {
            outline_plots(book, &described.name, &laid.layout, size, moment)?;
        }
        Ok::<_, ActError>(laid)
    });
    let laid = written.map_err(|error| acted::fault(&args.trial, &error))?;
    of(file, || book.settle())?;
    of(file, || Ok(Teller::new(&book, context.words())?.short(laid.trial)))
}
