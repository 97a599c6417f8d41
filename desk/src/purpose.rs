//! `purpose`: the ways of using a load that serve what it is wanted for, and their price.

use std::path::Path;

use kerfbook_acts::compare::Three;
use kerfbook_acts::purpose::{
    self, Cover, ForPurpose, Intake, NO_WEED_COVER, Purpose, WEED_COVER, WayFor, Weeds, Wish,
};
use kerfbook_acts::scenario::Scenario;
use kerfbook_acts::told;
use kerfbook_ledger::Book;
use kerfbook_science::caution;
use kerfbook_science::units::{AreaMass, Length, Share};
use kerfbook_words::{Container, Per, Spread, Words};
use serde_json::{Value, json};

use crate::acted;
use crate::book::{named_batch, of};
use crate::cli;
use crate::compare::{assumed_document, assumed_list, new_table, range, row_name, wide};
use crate::context::Context;
use crate::fault::Fault;
use crate::scenario;

pub(crate) fn run(args: &cli::Purpose, context: &Context) -> Result<(), Fault> {
    let described = scenario::read(&args.scenario)?;
    let purpose = match args.wanted {
        cli::For::Weeds => Purpose::Weeds,
        cli::For::Water => Purpose::Water,
        cli::For::Soil => Purpose::Soil,
        cli::For::UseUp => Purpose::UseUp,
    };
    let wish = Wish {
        load_price: args.load_price,
        hour_price: args.hour_price,
        compost_price_m3: args.compost_price,
        minutes_a_barrow: args.minutes,
        haul: args.haul.map(Length::from_m),
        fetch_minutes: args.fetch_minutes,
        hauled: args.hauled.map(|km| Length::from_m(km * 1000.0)),
        km_price: args.km_price,
        ..Wish::of(purpose)
    };
    let intake = match (&args.book, &args.batch) {
        (Some(book), Some(batch)) => Some(intake(book, batch, &described.scenario)?),
        _ => None,
    };
    let wish = intake.as_ref().map_or(wish, |intake| wish.or_intake(intake));
    let found =
        purpose::purpose(&described.scenario, &wish).map_err(|error| acted::fault(&args.scenario, &error))?;
    let assumed = assumed_document(&described.assumed, &found.assumed);
    if context.json {
        context.print_json(&document(&found, &wish, intake.as_ref(), &assumed))
    } else {
        let words = context.words();
        let mut told = text(&found, &described.scenario, &assumed, words);
        if let Some(said) = intake.as_ref().and_then(|intake| brought(&wish, intake, words)) {
            told = format!("{told}\n\n{said}");
        }
        context.print(&told)
    }
}

/// What the book says of the load when it was taken in.
fn intake(path: &Path, label: &str, scenario: &Scenario) -> Result<Intake, Fault> {
    let book = of(path, || Book::open(path, None))?;
    let batch = named_batch(&book, path, label)?;
    Intake::of(scenario, &batch).map_err(|error| acted::fault(path, &error))
}

/// What the load cost and the way it came, as the sums have it.
fn brought(wish: &Wish, intake: &Intake, words: &Words) -> Option<String> {
    let price = wish.load_price.map(|price| {
        let currency = intake.currency.as_deref().unwrap_or_default();
        words.say(
            "purpose-intake-price",
            &[("money", words.rounded(price)), ("currency", currency.to_owned())],
        )
    });
    let minutes = wish
        .fetch_minutes
        .map(|minutes| words.say("purpose-intake-work", &[("hours", words.hours_about(minutes / 60.0))]));
    let way = wish
        .hauled
        .map(|way| words.say("purpose-intake-way", &[("km", words.significant(way.m() / 1000.0, 3))]));
    let told: Vec<String> = [price, minutes, way].into_iter().flatten().collect();
    let part = [("part", percent(intake.part, words)), ("told", words.list(&told))];
    (!told.is_empty()).then(|| words.say("purpose-intake", &part))
}

/// Everything, for programs.
fn document(found: &ForPurpose, wish: &Wish, intake: Option<&Intake>, assumed: &Value) -> Value {
    json!({
        "format": 1,
        "for": found.purpose.name(),
        "first_day": found.calendar.first().to_string(),
        "chance_bare": found.chance_bare,
        "ways": found.ways.iter().map(way_document).collect::<Vec<_>>(),
        "others": found.others.iter().map(|row| json!({ "way": row.way(), "over": row.over() }))
            .collect::<Vec<_>>(),
        "weed_cover_mm": WEED_COVER.value.mm(),
        "no_weed_cover_mm": NO_WEED_COVER.value.mm(),
        "intake": intake.map(|intake| json!({
            "part": intake.part,
            "price": intake.price,
            "currency": intake.currency,
            "minutes": intake.minutes,
            "hauled_km": intake.hauled.map(|way| way.m() / 1000.0),
        })),
        "runs": wish.runs,
        "seed": wish.seed,
        "assumed": assumed,
    })
}

fn way_document(way: &WayFor) -> Value {
    json!({
        "way": way.row.way(),
        "over": way.row.over(),
        "doable": way.doable,
        "used_dry_kg": way.used.dry.kg(),
        "used_volume_m3": way.used.loose.m3(),
        "whole_load": way.whole,
        "ground_m2": way.ground.m2(),
        "weeds": way.weeds.map(|weeds| json!({
            "depth_mm": weeds.depth.mm(),
            "cover": cover_name(weeds.cover),
            "missing_m3": weeds.missing.m3(),
            "covers_m2": weeds.makes.m2(),
        })),
        "water": way.water.map(|water| json!({
            "until_day": water.until,
            "kept_mm": water.kept_mm,
            "watering_less_mm": water.watering_less_mm,
            "dry_days_fewer": water.dry_days_fewer,
        })),
        "organic_matter": {
            "t_ha": way.organic.t_ha,
            "points_pct": way.organic.points,
            "kg": way.organic.kg,
        },
        "lost_kg_ha": way.lost,
        "chance_hungry": way.chance_hungry,
        "tied_kg_ha": way.tied,
        "work": { "barrows": way.cost.barrows, "hours": way.cost.hours },
        "money": way.cost.money,
        "compost_instead": way.compost.map(|compost| json!({
            "volume_m3": compost.volume.m3(), "money": compost.money,
        })),
        "cautions": way.cautions,
    })
}

const fn cover_name(cover: Cover) -> &'static str {
    match cover {
        Cover::Covers => "covers",
        Cover::Between => "between",
        Cover::TooThin => "too-thin",
    }
}

/// Everything, for people: the best way and its price, then all of them.
fn text(found: &ForPurpose, scenario: &Scenario, assumed: &Value, words: &Words) -> String {
    let wanted = words.label(&format!("purpose-for-{}", found.purpose.name()));
    let mut parts = Vec::new();
    if let Some(best) = found.ways.iter().find(|way| way.doable) {
        parts.push(answer(found, best, scenario, &wanted, words));
    } else {
        parts.push(words.say("purpose-none", &[("purpose", wanted)]));
    }
    if !found.ways.is_empty() {
        parts.push(format!("{}\n{}", words.label("purpose-ways"), table(found, scenario, words)));
    }
    if !found.others.is_empty() {
        let names: Vec<String> = found.others.iter().map(|row| row_name(*row, words)).collect();
        parts.push(words.say("purpose-others", &[("ways", words.list(&names))]));
    }
    parts.push(cautions(found, words));
    parts.push(assumed_list(assumed, words));
    parts.retain(|part| !part.is_empty());
    parts.join("\n\n")
}

fn percent(share: f64, words: &Words) -> String {
    words.percent(Share::from_fraction(share))
}

/// A load that is used, in containers, with its depth where it lies on top.
fn amount(way: &WayFor, scenario: &Scenario, words: &Words) -> String {
    let containers = told::in_containers(&way.counted(scenario), words);
    match way.weeds {
        Some(weeds) => {
            words.say("purpose-depth", &[("depth", words.depth(weeds.depth)), ("containers", containers)])
        }
        None => containers,
    }
}

fn answer(found: &ForPurpose, way: &WayFor, scenario: &Scenario, wanted: &str, words: &Words) -> String {
    let part = percent(way.used.dry.kg() / found.load.dry.kg(), words);
    let best = words.say(
        if way.whole { "purpose-best" } else { "purpose-best-part" },
        &[
            ("purpose", wanted.to_owned()),
            ("way", told_manner(way, words)),
            ("amount", amount(way, scenario, words)),
            ("part", part.clone()),
        ],
    );
    let mut sentences = vec![best];
    match found.purpose {
        Purpose::Weeds => sentences.extend(way.weeds.map(|weeds| against_weeds(weeds, words))),
        Purpose::Water => sentences.extend(water(found, way, words)),
        Purpose::Soil => sentences.push(organic(way, words)),
        Purpose::UseUp => sentences.push(words.say(
            if way.whole { "purpose-use-up-all" } else { "purpose-use-up-part" },
            &[("part", part), ("area", words.area(way.ground))],
        )),
    }
    sentences.extend(price(found, way, words));
    let barrows = words.containers(Container::Barrow, way.cost.barrows);
    let hours = words.hours_about(way.cost.hours);
    sentences.push(words.say("purpose-work", &[("barrows", barrows), ("hours", hours)]));
    if let Some(money) = way.cost.money {
        sentences.push(words.say("purpose-money", &[("money", words.rounded(money))]));
    }
    sentences.push(match way.compost {
        Some(compost) => words.say(
            "purpose-compost",
            &[("volume", words.volume(compost.volume)), ("money", words.rounded(compost.money))],
        ),
        None => words.label("purpose-compost-unpriced"),
    });
    sentences.join(" ")
}

fn told_manner(way: &WayFor, words: &Words) -> String {
    words.manner(match way.row.over() {
        Some("compost") => "over-compost",
        Some(_) => "over-urine",
        None => way.row.way(),
    })
}

fn against_weeds(weeds: Weeds, words: &Words) -> String {
    words.say(
        &format!("purpose-weeds-{}", cover_name(weeds.cover)),
        &[
            ("depth", words.depth(weeds.depth)),
            ("cover", words.depth(WEED_COVER.value)),
            ("thin", words.depth(NO_WEED_COVER.value)),
            ("missing", words.volume(weeds.missing)),
            ("area", words.area(weeds.makes)),
            ("source", words.body_and_year(&WEED_COVER.source)),
        ],
    )
}

/// Less water than this is no difference, mm; common practice.
const NO_DIFFERENCE_MM: f64 = 2.0;

fn water(found: &ForPurpose, way: &WayFor, words: &Words) -> Vec<String> {
    let Some(water) = way.water else { return Vec::new() };
    let date = ("date", words.date(found.calendar.date(f64::from(water.until))));
    let depth = |mm: Option<f64>| words.water(Length::from_mm(mm.unwrap_or(f64::NAN)));
    let ends = |three: Three| [("low", depth(three.p10)), ("high", depth(three.p90))];
    let middle = water.kept_mm.middle();
    let [low, high] = ends(water.kept_mm);
    let mut told = vec![if middle.abs() < NO_DIFFERENCE_MM {
        words.say("purpose-water-even", &[date, low, high])
    } else if middle > 0.0 {
        words.say("purpose-water-keeps", &[date, ("kept", depth(water.kept_mm.p50)), low, high])
    } else {
        words.say("purpose-water-loses", &[date, ("lost", depth(Some(-middle)))])
    }];
    if water.watering_less_mm.middle() > 0.0 {
        let [low, high] = ends(water.watering_less_mm);
        let less = ("less", depth(water.watering_less_mm.p50));
        told.push(words.say("purpose-water-watering", &[less, low, high]));
    }
    if water.dry_days_fewer.middle() >= 1.0 {
        let days = words.days(water.dry_days_fewer.middle());
        told.push(words.say("purpose-water-dry-days", &[("days", days)]));
    }
    told
}

fn organic(way: &WayFor, words: &Words) -> String {
    let mass = |t_ha: Option<f64>| words.area_mass(AreaMass::from_t_ha(t_ha.unwrap_or(f64::NAN)));
    let left = way.organic.t_ha;
    words.say(
        "purpose-soil",
        &[
            ("left", mass(left.p50)),
            ("low", mass(left.p10)),
            ("high", mass(left.p90)),
            ("points", words.significant(way.organic.points.middle(), 2)),
        ],
    )
}

fn price(found: &ForPurpose, way: &WayFor, words: &Words) -> Vec<String> {
    let Some(lost) = way.lost else {
        let tied = words.nitrogen(AreaMass::from_kg_ha(way.tied.middle()));
        return vec![words.say("purpose-price-tied", &[("tied", tied)])];
    };
    let middle = lost.middle();
    let spread = Spread { p10: lost.p10.unwrap_or(middle), p50: middle, p90: lost.p90.unwrap_or(middle) };
    let mut told = vec![words.cost(spread, Per::Area)];
    if let Some((share, bare)) = way.chance_hungry.zip(found.chance_bare) {
        let args = [("share", percent(share, words)), ("bare", percent(bare, words))];
        told.push(words.say("purpose-price-hungry", &args));
    }
    told
}

fn table(found: &ForPurpose, scenario: &Scenario, words: &Words) -> String {
    let wide = wide();
    let money = found.ways.iter().any(|way| way.cost.money.is_some());
    let own = match found.purpose {
        Purpose::Weeds => "purpose-weeds-head",
        Purpose::Water => "purpose-water-head",
        Purpose::Soil => "purpose-organic-head",
        Purpose::UseUp => "purpose-used",
    };
    let lost = words.say("purpose-lost-head", &[("unit", words.nitrogen_unit_name())]);
    let mut head = vec![words.label("purpose-way"), words.label(own), lost];
    if wide {
        head.push(words.label("purpose-hungry-head"));
        if found.purpose != Purpose::UseUp {
            head.push(words.label("purpose-used"));
        }
        head.push(words.label("purpose-work-head"));
        if money {
            head.push(words.label("purpose-money-head"));
        }
    }
    let mut table = new_table(head);
    for way in &found.ways {
        let name = row_name(way.row, words);
        let used = told::in_containers(&way.counted(scenario), words);
        let serves = match found.purpose {
            Purpose::Weeds => way.weeds.map_or_else(
                || words.unknown(),
                |weeds| {
                    let cover = words.label(&format!("purpose-cover-{}", cover_name(weeds.cover)));
                    format!("{}, {cover}", words.depth(weeds.depth))
                },
            ),
            Purpose::Water => way.water.map_or_else(
                || words.unknown(),
                |water| words.water(Length::from_mm(water.kept_mm.middle())),
            ),
            Purpose::Soil => words.area_mass(AreaMass::from_t_ha(way.organic.t_ha.middle())),
            Purpose::UseUp => used.clone(),
        };
        let mut cells =
            vec![if way.doable { name } else { format!("{name} *") }, serves, range(way.lost, words)];
        if wide {
            cells.push(way.chance_hungry.map_or_else(|| words.unknown(), |share| percent(share, words)));
            if found.purpose != Purpose::UseUp {
                cells.push(used);
            }
            cells.push(words.hours_about(way.cost.hours));
            if money {
                cells.push(way.cost.money.map_or_else(|| words.unknown(), |money| words.rounded(money)));
            }
        }
        table.add_row(cells);
    }
    let mut told = table.to_string();
    if found.ways.iter().any(|way| !way.doable) {
        told.push_str("\n* ");
        told.push_str(&words.label("purpose-not-doable"));
    }
    told
}

/// The cautions of the best way.
fn cautions(found: &ForPurpose, words: &Words) -> String {
    let Some(best) = found.ways.iter().find(|way| way.doable) else { return String::new() };
    let lines: Vec<String> = best
        .cautions
        .iter()
        .filter_map(|id| caution::of_id(id))
        .map(|caution| {
            let told = words.caution(caution);
            format!("- {}: {} ({})", told.severity, told.text, told.source)
        })
        .collect();
    format!("{}\n{}", words.label("report-cautions"), lines.join("\n"))
}
