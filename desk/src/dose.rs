//! `dose`: how much a load is, and what it will hold.

use kerfbook_acts::assumed::Assumed;
use kerfbook_acts::dose::{self, Dose, SourceDose};
use kerfbook_acts::load::Counted;
use kerfbook_acts::scenario::{Scenario, Way};
use kerfbook_acts::told;
use kerfbook_science::feed;
use kerfbook_science::units::{AreaMass, Mass};
use kerfbook_words::Words;
use serde_json::{Value, json};

use crate::acted;
use crate::cli;
use crate::compare::{assumed_document, new_table};
use crate::context::Context;
use crate::fault::Fault;
use crate::scenario;

pub(crate) fn run(args: &cli::Dose, context: &Context) -> Result<(), Fault> {
    let described = scenario::read(&args.scenario)?;
    let dose = dose::dose(&described.scenario).map_err(|error| acted::fault(&args.scenario, &error))?;
    if context.json {
        context.print_json(&document(&dose, &described.assumed))
    } else {
        context.print(&text(&dose, &described.scenario, context.words()))
    }
}

/// Everything, for programs.
fn document(dose: &Dose, read: &[Assumed]) -> Value {
    let load = &dose.load;
    json!({
        "format": 1,
        "material": load.material.name,
        "way": dose.way.name(),
        "dry_kg": load.dry.kg(),
        "wet_kg": load.wet.kg(),
        "volume_m3": load.loose.m3(),
        "depth_mm": load.depth.mm(),
        "dry_t_ha": load.dry_per_area.t_ha(),
        "loads": {
            "barrow": dose.counted.barrows,
            "bucket": dose.counted.buckets,
            "trailer": dose.counted.trailers,
        },
        "quick_nitrogen_kg": dose.quick_nitrogen_kg.map(|quick| json!({
            "low": quick.low, "typical": quick.typical, "high": quick.high,
        })),
        "most_dry_t_ha": dose.most_dry_t_ha,
        "sources": dose.sources.iter().map(source_document).collect::<Vec<_>>(),
        "assumed": assumed_document(read, &dose.assumed),
    })
}

fn source_document(source: &SourceDose) -> Value {
    let (product, liquid) = match source.amount {
        feed::Amount::Product(mass) => (Some(mass.kg()), None),
        feed::Amount::Liquid(volume) => (None, Some(volume.litres())),
    };
    json!({
        "source": source.feed.name,
        "amount_kg": product,
        "volume_l": liquid,
        "nitrogen_kg": source.nitrogen_kg,
        "days_to_harvest": source.days_to_harvest,
        "allowed": source.allowed,
    })
}

/// For people.
fn text(dose: &Dose, scenario: &Scenario, words: &Words) -> String {
    let load = &dose.load;
    let loads = told::in_containers(&dose.counted, words);
    let mut head = new_table(vec![words.label("dose-title"), words.material(load.material.name)]);
    let mut row = |id: &str, value: String| {
        head.add_row(vec![words.label(id), value]);
    };
    row("dose-loads", loads);
    row("dose-depth", words.depth(load.depth));
    row("dose-volume", words.volume(load.loose));
    row("dose-wet", words.mass(load.wet));
    row("dose-dry", words.mass(load.dry));
    row("dose-per-area", words.area_mass(load.dry_per_area));
    row("dose-area", words.area(scenario.place.area));
    let mut parts = vec![head.to_string()];
    if let Some(quick) = dose.quick_nitrogen_kg {
        let kg = |value: f64| words.nitrogen_mass(Mass::from_kg(value));
        parts.push(format!(
            "{} {}",
            words.say(
                quick_sentence(dose.way),
                &[("middle", kg(quick.typical)), ("low", kg(quick.low)), ("high", kg(quick.high))],
            ),
            words.label("dose-quick-about")
        ));
        if let Some(most) = dose.most_dry_t_ha {
            let most = AreaMass::from_t_ha(most);
            let part = most.t_ha() / load.dry_per_area.t_ha();
            let counted = Counted::of(load.loose * part, &scenario.containers);
            parts.push(format!(
                "{} {}",
                words.say(
                    "dose-most-sentence",
                    &[
                        ("limit", words.nitrogen(feed::PRACTICAL_LIMIT.value)),
                        ("most", words.area_mass(most)),
                        ("containers", told::in_containers(&counted, words)),
                    ],
                ),
                words.label("dose-more-than-most")
            ));
        }
        parts.push(sources(dose, words));
    } else {
        parts.push(words.label("dose-gives"));
    }
    parts.join("\n\n")
}

fn quick_sentence(way: Way) -> &'static str {
    if way == Way::WorkedIn { "dose-quick-sentence" } else { "dose-quick-on-top" }
}

fn sources(dose: &Dose, words: &Words) -> String {
    let mut table = new_table(vec![
        words.label("dose-source"),
        words.label("dose-source-amount"),
        words.label("report-interval"),
    ]);
    for source in dose.sources.iter().filter(|source| source.allowed) {
        let amount = match source.amount {
            feed::Amount::Product(mass) => words.mass(mass),
            feed::Amount::Liquid(volume) => words.liquid(volume),
        };
        let wait = match source.days_to_harvest {
            0 => words.unknown(),
            days => words.days(f64::from(days)),
        };
        table.add_row(vec![words.feed(source.feed.name), amount, wait]);
    }
    format!("{}\n{table}", words.label("dose-sources"))
}
