//! `heat`: a heat log judged by a named rule.

mod log;

use chrono::NaiveDate;
use kerfbook_acts::heat::{Heat, zone_told};
use kerfbook_science::caution::Caution;
use kerfbook_science::compost::heat_log::ZoneJudged;
use kerfbook_science::compost::heat_rule::{self, Rule};
use kerfbook_science::lookup::Match;
use kerfbook_science::source::Standing;
use kerfbook_words::Words;
use serde_json::{Value, json};

use crate::cli;
use crate::compare::new_table;
use crate::context::Context;
use crate::fault::{Fault, Message};
use crate::toml_file::text;

/// Longest log that is read: a reading a minute for a year.
const MOST_BYTES: u64 = 64 * 1024 * 1024;

pub(crate) fn run(args: &cli::Heat, context: &Context) -> Result<(), Fault> {
    let rule = find(&args.rule)?;
    let table = text::read(&args.log, MOST_BYTES)?;
    let read = log::read(&table).map_err(|complaints| Fault::Input { file: args.log.clone(), complaints })?;
    let animal_matter = args.plants_only.then_some(false);
    let heat = Heat::of(&read.log, rule, animal_matter);
    let words = context.words();
    let mut asked = heat.questions(words);
    if read.out_of_order {
        asked.push(words.label("heat-out-of-order"));
    }
    if read.perhaps_celsius {
        asked.push(words.label("heat-perhaps-celsius"));
    }
    if context.json {
        context.print_json(&document(&heat, &asked, words))
    } else {
        context.print(&told(&heat, &read, words))
    }
}

/// The rule of that name; where there is none, those like it, or all.
fn find(name: &str) -> Result<&'static Rule, Fault> {
    match heat_rule::find(name) {
        Match::Exact(rule) => Ok(rule),
        Match::Near(near) => {
            let known: Vec<&str> = if near.is_empty() {
                heat_rule::all().iter().map(|rule| rule.id).collect()
            } else {
                near.iter().map(|rule| rule.id).collect()
            };
            let what = Message::new("heat-unknown-rule").text("name", name);
            Err(Fault::usage(what, Message::new("heat-known-rules").text("names", known.join(", "))))
        }
    }
}

/// The name of a standing in documents.
pub(crate) const fn standing_name(standing: Standing) -> &'static str {
    match standing {
        Standing::Published => "published",
        Standing::SecondHand => "second-hand",
        Standing::Recomputed => "recomputed",
        Standing::Fitted => "fitted",
        Standing::FromMemory => "from-memory",
        Standing::CommonPractice => "common-practice",
        Standing::Assumption => "assumption",
    }
}

/// A caution in one line: gravity, text, body and year.
pub(crate) fn caution_line(caution: &Caution, words: &Words) -> String {
    let told = words.caution(caution);
    format!("{}: {} ({})", told.severity, told.text, told.source)
}

/// For programs.
fn document(heat: &Heat, asked: &[String], words: &Words) -> Value {
    let days = |days: &[NaiveDate]| days.iter().map(NaiveDate::to_string).collect::<Vec<_>>();
    let (worst, rule) = (heat.judged.worst(), heat.rule);
    let source = rule.source;
    json!({
        "format": 1,
        "rule": rule.id,
        "standing": standing_name(source.standing),
        "body": source.author,
        "year": (source.year > 0).then_some(source.year),
        "work": source.title,
        "verdict": heat.judged.verdict.name(),
        "zone": worst.map(|worst| &worst.zone),
        "days_counted": worst.map_or(0, |worst| worst.days_counted),
        "days_wanted": rule.days() * rule.cycles,
        "longest_run": worst.map_or(0, |worst| worst.longest_run),
        "turnings_counted": worst.map_or(0, |worst| worst.turnings_counted),
        "turnings_wanted": rule.turnings,
        "hours_counted": worst.and_then(|worst| worst.hours_counted),
        "still_needed": {
            "days": worst.map_or(rule.days() * rule.cycles, |worst| worst.days_needed),
            "turnings": worst.map_or(rule.turnings, |worst| worst.turnings_needed),
            "zones": heat.judged.zones_missing,
        },
        "missing_days": worst.map_or_else(Vec::new, |worst| days(&worst.missing_days)),
        "over_days": worst.map_or_else(Vec::new, |worst| days(&worst.over_days)),
        "zones": heat.judged.zones.iter().map(zone_document).collect::<Vec<_>>(),
        "fire_level": heat.fire_highest.map(|(_, level)| level.name()),
        "fire_day": heat.fire_highest.map(|(date, _)| date.to_string()),
        "fire_level_now": heat.fire_now.map(|(_, level)| level.name()),
        "phase": heat.phase.map(kerfbook_science::compost::phase::Phase::name),
        "turn_because": heat.triggers.iter().map(|trigger| trigger.name()).collect::<Vec<_>>(),
        "besides": rule.besides,
        "questions": asked,
        "told": heat.told(words),
        "cautions": heat.cautions.iter().map(|caution| caution.id).collect::<Vec<_>>(),
    })
}

fn zone_document(zone: &ZoneJudged) -> Value {
    let days = |days: &[NaiveDate]| days.iter().map(NaiveDate::to_string).collect::<Vec<_>>();
    json!({
        "zone": zone.zone,
        "verdict": zone.verdict.name(),
        "days_counted": zone.days_counted,
        "longest_run": zone.longest_run,
        "turnings_counted": zone.turnings_counted,
        "cycles_counted": zone.cycles_counted,
        "hours_counted": zone.hours_counted,
        "first": zone.window.map(|(first, _)| first.to_string()),
        "last": zone.window.map(|(_, last)| last.to_string()),
        "missing_days": days(&zone.missing_days),
        "over_days": days(&zone.over_days),
        "cool_days": days(&zone.cool_days),
    })
}

/// For people.
fn told(heat: &Heat, read: &log::Read, words: &Words) -> String {
    let mut said = heat.told(words);
    if read.out_of_order {
        said.push(words.label("heat-out-of-order"));
    }
    if read.perhaps_celsius {
        said.push(words.label("heat-perhaps-celsius"));
    }
    let mut parts = vec![said.join(" ")];
    let heads = ["heat-zone", "heat-days", "heat-turnings", "heat-first", "heat-last"];
    let mut table = new_table(heads.map(|head| words.label(head)).to_vec());
    for zone in &heat.judged.zones {
        let date = |date: Option<NaiveDate>| date.map_or_else(|| words.unknown(), |date| words.date(date));
        table.add_row(vec![
            zone_told(&zone.zone, words),
            words.stated(f64::from(zone.days_counted)),
            words.stated(f64::from(zone.turnings_counted)),
            date(zone.window.map(|(first, _)| first)),
            date(zone.window.map(|(_, last)| last)),
        ]);
    }
    parts.push(table.to_string());
    parts.extend(heat.cautions.iter().map(|caution| caution_line(caution, words)));
    parts.join("\n\n")
}
