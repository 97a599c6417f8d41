//! `mix`: a recipe for a heap, as given or solved.

mod recipe;

use std::path::Path;

use kerfbook_acts::mix::{Mixed, Portion, Recipe, Verdict, mix};
use kerfbook_acts::scenario::Containers;
use kerfbook_acts::told_mix;
use kerfbook_science::compost::balance::{Goal, Impossible, Side};
use kerfbook_science::compost::window::{Lies, Property, Span};
use kerfbook_science::units::{Density, Mass, Share};
use kerfbook_words::{Container, Words};
use serde_json::{Value, json};

use crate::cli;
use crate::compare::{assumed_document, assumed_list, new_table};
use crate::context::Context;
use crate::fault::{Fault, Message};
use crate::heat;

pub(crate) fn run(args: &cli::Mix, context: &Context) -> Result<(), Fault> {
    let words = context.words();
    let (recipe, containers) = recipe::read(&args.recipe, words)?;
    let mixed = mix(&recipe).map_err(|why| refused(&args.recipe, &recipe, &why, words))?;
    if context.json {
        context.print_json(&document(&mixed, &containers, words))
    } else {
        context.print(&told(&mixed, &containers, words))
    }
}

/// Why there is no recipe, and what would make one possible.
fn refused(file: &Path, recipe: &Recipe, why: &Impossible, words: &Words) -> Fault {
    let moisture = recipe.goals.moisture.map_or_else(|| words.unknown(), |goal| words.percent(goal));
    let ratio = recipe.goals.carbon_nitrogen.map_or_else(|| words.unknown(), |goal| words.rounded(goal));
    let (what, remedy) = match *why {
        Impossible::NothingKnown => (Message::new("mix-nothing-known"), "mix-say-amount"),
        Impossible::Goal => (Message::new("mix-goal-impossible"), "mix-goal-form"),
        Impossible::OneSide { goal: Goal::Moisture, side: Side::Above } => {
            (Message::new("mix-all-wet").text("goal", moisture), "mix-add-dry")
        }
        Impossible::OneSide { goal: Goal::Moisture, side: Side::Below } => {
            (Message::new("mix-all-dry").text("goal", moisture), "mix-add-water")
        }
        Impossible::OneSide { goal: Goal::CarbonNitrogen, side: Side::Above } => {
            (Message::new("mix-all-carbon").text("goal", ratio), "mix-add-nitrogen")
        }
        Impossible::OneSide { goal: Goal::CarbonNitrogen, side: Side::Below } => {
            (Message::new("mix-all-nitrogen").text("goal", ratio), "mix-add-carbon")
        }
        Impossible::NotTogether { driest, wettest } => {
            let too_wet = recipe.goals.moisture.is_some_and(|goal| goal < driest);
            let what = Message::new("mix-not-together")
                .text("ratio", ratio)
                .text("driest", words.percent(driest))
                .text("wettest", words.percent(wettest))
                .text("goal", moisture);
            (what, if too_wet { "mix-together-dry" } else { "mix-together-wet" })
        }
        Impossible::Short { ingredient, needed, at_hand } => {
            let name = recipe.ingredients.get(ingredient).map_or_else(String::new, |one| one.name.clone());
            let what = Message::new("mix-short")
                .text("name", name)
                .text("needed", words.mass(needed))
                .text("at_hand", words.mass(at_hand));
            return Fault::input(
                file,
                what,
                Some(Message::new("mix-get-more").text("more", words.mass(needed - at_hand))),
            );
        }
        Impossible::Kept => (Message::new("mix-kept"), "mix-let-change"),
    };
    Fault::input(file, what, Some(Message::new(remedy)))
}

/// For programs.
fn document(mixed: &Mixed, containers: &Containers, words: &Words) -> Value {
    json!({
        "format": 1,
        "mass_kg": mixed.mix.wet.kg(),
        "dry_kg": mixed.mix.dry().kg(),
        "moisture_pct": mixed.mix.moisture().map(Share::percent),
        "carbon_nitrogen": mixed.mix.carbon_nitrogen(),
        "free_air_space": mixed.free_air_space.map(Share::fraction),
        "volume_m3": mixed.volume.map(kerfbook_science::units::Volume::m3),
        "water_to_add_kg": mixed.water_to_add.kg(),
        "nitrogen_to_add_kg": mixed.nitrogen_to_add.kg(),
        "goal": {
            "moisture_pct": mixed.goals.moisture.map(Share::percent),
            "carbon_nitrogen": mixed.goals.carbon_nitrogen,
        },
        "solved": mixed.solved,
        "ingredients": mixed.portions.iter().map(|one| portion_document(one, containers)).collect::<Vec<_>>(),
        "verdicts": mixed.verdicts.iter().map(verdict_document).collect::<Vec<_>>(),
        "cautions": mixed.cautions.iter().map(|caution| caution.id).collect::<Vec<_>>(),
        "told": told_mix::tell(mixed, words),
        "assumed": assumed_document(&[], &mixed.assumed),
    })
}

fn portion_document(portion: &Portion, containers: &Containers) -> Value {
    let of = portion.ingredient.of;
    let volume = portion.volume();
    json!({
        "name": portion.ingredient.name,
        "material": portion.ingredient.material.map(|material| material.name),
        "wet_kg": portion.wet.kg(),
        "dry_kg": of.times(portion.wet).dry().kg(),
        "volume_m3": volume.map(kerfbook_science::units::Volume::m3),
        "barrows": volume.map(|volume| volume.m3() / containers.barrow.m3()),
        "moisture_pct": of.moisture.percent(),
        "carbon_pct": of.carbon.percent(),
        "nitrogen_pct": of.nitrogen.percent(),
        "carbon_nitrogen": of.carbon_nitrogen(),
        "at_hand_kg": portion.ingredient.at_hand.map(Mass::kg),
        "solved": portion.solved,
    })
}

fn verdict_document(verdict: &Verdict) -> Value {
    let span = |span: Span| json!({ "low": span.low, "high": span.high });
    let source = verdict.window.source;
    json!({
        "property": verdict.window.property.name(),
        "value": verdict.value,
        "verdict": verdict.lies.name(),
        "acceptable": span(verdict.window.acceptable),
        "preferred": span(verdict.window.preferred),
        "body": source.author,
        "year": (source.year > 0).then_some(source.year),
        "work": source.title,
        "standing": heat::standing_name(source.standing),
    })
}

/// For people.
fn told(mixed: &Mixed, containers: &Containers, words: &Words) -> String {
    let mut parts = vec![told_mix::tell(mixed, words).join(" ")];
    let heads = ["mix-ingredient", "mix-amount", "mix-volume", "mix-moisture", "mix-ratio"];
    let mut table = new_table(heads.map(|head| words.label(head)).to_vec());
    for portion in &mixed.portions {
        let of = portion.ingredient.of;
        let mark = if portion.solved { " *" } else { "" };
        let volume = portion.volume().map_or_else(
            || words.unknown(),
            |volume| {
                if portion.ingredient.is_water() {
                    words.liquid(volume)
                } else {
                    words.containers(Container::Barrow, volume.m3() / containers.barrow.m3())
                }
            },
        );
        table.add_row(vec![
            format!("{}{mark}", portion.ingredient.name),
            words.mass(portion.wet),
            volume,
            words.percent(of.moisture),
            of.carbon_nitrogen().map_or_else(|| words.unknown(), |ratio| words.rounded(ratio)),
        ]);
    }
    let mut text = table.to_string();
    if mixed.portions.iter().any(|portion| portion.solved) {
        text.push_str("\n* ");
        text.push_str(&words.label("mix-found-here"));
    }
    parts.push(text);
    parts.push(verdict_table(&mixed.verdicts, words));
    parts.extend(mixed.cautions.iter().map(|caution| heat::caution_line(caution, words)));
    parts.push(assumed_list(&assumed_document(&[], &mixed.assumed), words));
    parts.retain(|part| !part.is_empty());
    parts.join("\n\n")
}

fn verdict_table(verdicts: &[Verdict], words: &Words) -> String {
    let heads = ["mix-what", "mix-here", "mix-window", "mix-verdict", "mix-source"];
    let mut table = new_table(heads.map(|head| words.label(head)).to_vec());
    for verdict in verdicts {
        let property = verdict.window.property;
        let figure = |value: f64| match property {
            Property::Moisture | Property::FreeAirSpace => words.percent(Share::from_percent(value)),
            Property::Density => words.density(Density::from_kg_m3(value)),
            _ => words.rounded(value),
        };
        let span = match (verdict.window.preferred.low, verdict.window.preferred.high) {
            (Some(low), Some(high)) => words.range(&figure(low), &figure(high)),
            (Some(low), None) => words.say("mix-from", &[("low", figure(low))]),
            (None, Some(high)) => words.say("mix-to", &[("high", figure(high))]),
            (None, None) => words.unknown(),
        };
        table.add_row(vec![
            words.label(property_id(property)),
            figure(verdict.value),
            span,
            words.label(match verdict.lies {
                Lies::Preferred => "mix-lies-preferred",
                Lies::Acceptable => "mix-lies-acceptable",
                Lies::Under => "mix-lies-under",
                Lies::Over => "mix-lies-over",
            }),
            words.body_and_year(&verdict.window.source),
        ]);
    }
    table.to_string()
}

const fn property_id(property: Property) -> &'static str {
    match property {
        Property::CarbonNitrogen => "mix-carbon-nitrogen",
        Property::Moisture => "mix-moisture",
        Property::FreeAirSpace => "mix-free-air-space",
        Property::Density => "mix-density",
        Property::Acidity => "mix-acidity",
        Property::Particle => "mix-particle",
        Property::Oxygen => "mix-oxygen",
    }
}
