//! `dose`: how much a load is, how well that is known, how it is carried, and what it will hold.

mod by_load;

use kerfbook_acts::assumed::Assumed;
use kerfbook_acts::dose::{self, Dose, SourceDose};
use kerfbook_acts::load::Counted;
use kerfbook_acts::scenario::{Scenario, Way};
use kerfbook_acts::told;
use kerfbook_science::dose::Method;
use kerfbook_science::feed;
use kerfbook_science::geometry::load::{Payload, Verdict};
use kerfbook_science::units::{AreaMass, Mass, Share};
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
        context.print_json(&document(&dose, &described.scenario, &described.assumed))
    } else {
        context.print(&text(&dose, &described.scenario, context.words()))
    }
}

/// Everything, for programs.
fn document(dose: &Dose, scenario: &Scenario, read: &[Assumed]) -> Value {
    let load = &dose.load;
    let doubts = &load.doubts;
    let [low, typical, high] = dose.dry_range.map(AreaMass::t_ha);
    json!({
        "format": 1,
        "material": load.material.name,
        "way": dose.way.name(),
        "dry_kg": load.dry.kg(),
        "wet_kg": load.wet.kg(),
        "volume_m3": load.loose.m3(),
        "depth_mm": load.depth.mm(),
        "dry_t_ha": load.dry_per_area.t_ha(),
        "settled_volume_m3": load.settled.m3(),
        "settled_depth_mm": load.settled_depth.mm(),
        "settles_to_pct": load.settling.factor() * 100.0,
        "bulk_density": {
            "kg_m3": load.wet_density.kg_m3(),
            "method": dose.density_by.name(),
            "sd_pct": doubts.parts.density * 100.0,
        },
        "moisture_pct": load.moisture.percent(),
        "dry_t_ha_range": { "low": low, "typical": typical, "high": high },
        "doubts": {
            "area_sd_pct": doubts.parts.area * 100.0,
            "amount_sd_pct": doubts.parts.known * 100.0,
            "bulk_density_sd_pct": doubts.parts.density * 100.0,
            "moisture_sd_points": load.moisture_sd.percent(),
            "counts": dose.leans_on(),
            "dry_sd_pct": doubts.spread.relative_sd * 100.0,
        },
        "loads": {
            "barrow": dose.counted.barrows,
            "bucket": dose.counted.buckets,
            "trailer": dose.counted.trailers,
        },
        "payload": dose.payload.map(|payload| json!({
            "kg": { "low": payload.low.kg(), "typical": payload.typical.kg(), "high": payload.high.kg() },
            "most_m3": payload.most.m3(),
            "verdict": verdict(payload.verdict),
        })),
        "by_load": dose.by_load.as_ref().zip(scenario.orchard.as_ref())
            .map(|(by_load, orchard)| by_load::document(by_load, orchard)),
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
    let depths = [("loose", words.depth(load.depth)), ("settled", words.depth(load.settled_depth))];
    row("dose-depth", words.say("dose-loose-and-settled", &depths));
    row("dose-volume", words.volume(load.loose));
    row("dose-wet", words.mass(load.wet));
    row("dose-dry", words.mass(load.dry));
    let [low, middle, high] = dose.dry_range;
    row("dose-per-area", words.area_mass_range(middle, low, high));
    row("dose-density", density(dose, words));
    row("dose-area", words.area(scenario.place.area));
    let mut parts = vec![head.to_string(), doubt(dose, words)];
    if let Some(payload) = dose.payload {
        parts.push(carried(payload, scenario, words));
    }
    if let (Some(by_load), Some(orchard)) = (&dose.by_load, &scenario.orchard) {
        parts.push(by_load::text(by_load, orchard, words));
    }
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

/// The density with how it is known.
fn density(dose: &Dose, words: &Words) -> String {
    let (id, filled) = match dose.density_by {
        Method::Bucket(filling) => {
            ("dose-density-bucket", words.label(&format!("filled-{}", filling.name())))
        }
        Method::WeighedLoad => ("dose-density-weighed", String::new()),
        Method::Stated => ("dose-density-stated", String::new()),
        Method::Table => ("dose-density-table", String::new()),
    };
    words.say(id, &[("density", words.density(dose.load.wet_density)), ("filled", filled)])
}

/// What is least known of the amount, and what would narrow it.
fn doubt(dose: &Dose, words: &Words) -> String {
    let spread = dose.load.doubts.spread;
    let off = words.percent(Share::from_fraction(spread.factor() - 1.0));
    let mut said = vec![words.say("dose-within", &[("share", off)])];
    if let Some(part) = dose.least_known() {
        let narrow = if part == "bulk-density" && dose.density_by == Method::Table {
            "dose-weigh-a-bucket".to_owned()
        } else {
            format!("dose-least-{part}")
        };
        said.push(words.label(&narrow));
    }
    said.join(" ")
}

const fn verdict(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Under => "under",
        Verdict::Unsure => "unsure",
        Verdict::Over => "over",
    }
}

/// What a trailer weighs against what it may carry.
fn carried(payload: Payload, scenario: &Scenario, words: &Words) -> String {
    let limit = scenario.containers.trailer_carries.unwrap_or_default();
    let figures = [
        ("range", words.mass_range(payload.typical, payload.low, payload.high)),
        ("limit", words.mass(limit)),
        ("most", words.volume(payload.most)),
    ];
    words.say(&format!("dose-payload-{}", verdict(payload.verdict)), &figures)
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
