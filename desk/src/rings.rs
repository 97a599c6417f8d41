//! `rings`: the ground under tree rings, from a table of trees.

use csv::{ReaderBuilder, StringRecord, Trim};
use kerfbook_science::geometry::disc::DiscError;
use kerfbook_science::geometry::tree_rings::{Ring, RingArea, ring_area};
use kerfbook_science::units::{Area, Share};
use kerfbook_words::Words;
use serde_json::{Value, json};

use crate::cli;
use crate::compare::new_table;
use crate::context::Context;
use crate::fault::{Complaint, Fault, Message, Spot};
use crate::toml_file::layout::nearest;
use crate::toml_file::text;

/// Longest table that is read: a million trees and more.
const MOST_BYTES: u64 = 64 * 1024 * 1024;
/// Most complaints about one table; after the first few they follow from each other.
const MOST_COMPLAINTS: usize = 12;
/// From this share on that rings overlap is worth a sentence; assumption.
const WORTH_TELLING: f64 = 0.005;

const COLUMNS: [&str; 4] = ["x_m", "y_m", "radius_m", "gap_m"];

pub(crate) fn run(args: &cli::Rings, context: &Context) -> Result<(), Fault> {
    let table = text::read(&args.file, MOST_BYTES)?;
    let rings = read(&table).map_err(|complaints| Fault::Input { file: args.file.clone(), complaints })?;
    let area = ring_area(&rings);
    if context.json {
        context.print_json(&document(&rings, &area))
    } else {
        context.print(&told(&rings, &area, context.words()))
    }
}

/// For programs.
fn document(rings: &[Ring], area: &RingArea) -> Value {
    json!({
        "format": 1,
        "rings": rings.len(),
        "union_m2": area.union_m2,
        "net_m2": area.net_m2,
        "sum_m2": area.sum_m2,
    })
}

/// For people.
fn told(rings: &[Ring], area: &RingArea, words: &Words) -> String {
    let ground = |m2: f64| words.area(Area::from_m2(m2));
    #[expect(clippy::cast_precision_loss, reason = "a count of trees, told in words")]
    let count = rings.len() as f64;
    let trees = words.say_count("rings-trees", count, &[("trees", words.stated(count))]);
    let bare_m2 = area.union_m2 - area.net_m2;
    let has_gaps = rings.iter().any(|ring| ring.gap().is_some());
    let mut parts = Vec::new();
    let values = [("trees", trees), ("net", ground(area.net_m2)), ("bare", ground(bare_m2))];
    parts.push(match (has_gaps, area.net_m2 > 0.0) {
        (true, true) => words.say("rings-answer-bare", &values),
        (false, _) => words.say("rings-answer", &values),
        (true, false) => words.say("rings-nothing", &values),
    });
    let over = area.sum_m2 / area.union_m2 - 1.0;
    if over >= WORTH_TELLING {
        let share = words.percent(Share::from_fraction(over));
        parts.push(words.say("rings-overlap", &[("sum", ground(area.sum_m2)), ("share", share)]));
    }
    let mut table = new_table(vec![words.label("rings-title"), String::new()]);
    let mut row = |id: &str, m2: f64| {
        table.add_row(vec![words.label(id), ground(m2)]);
    };
    row("rings-union", area.union_m2);
    if has_gaps {
        row("rings-bare", bare_m2);
        row("rings-net", area.net_m2);
    }
    row("rings-sum", area.sum_m2);
    parts.push(table.to_string());
    parts.join("\n\n")
}

/// A table of trees, or what is wrong with it.
fn read(text: &str) -> Result<Vec<Ring>, Vec<Complaint>> {
    let mut reader =
        ReaderBuilder::new().has_headers(false).flexible(true).trim(Trim::All).from_reader(text.as_bytes());
    let mut records = reader.records().map_while(Result::ok);
    let heading = records.next().unwrap_or_default();
    let columns = Columns::of(&heading, text)?;
    let (mut rings, mut complaints) = (Vec::new(), Vec::new());
    for record in records {
        if record.iter().all(str::is_empty) {
            continue;
        }
        match columns.ring(&record) {
            Ok(ring) => rings.push(ring),
            Err((key, what, remedy)) => complaints.push(at(text, line(&record, text), key, what, remedy)),
        }
        if complaints.len() == MOST_COMPLAINTS {
            complaints.push(at(text, line(&record, text), "", Message::new("rings-more"), None));
            break;
        }
    }
    if complaints.is_empty() && rings.is_empty() {
        complaints.push(at(text, 1, "", Message::new("rings-none"), Some(Message::new("rings-form"))));
    }
    if complaints.is_empty() { Ok(rings) } else { Err(complaints) }
}

/// The line of a record, from 1; the reader counts empty lines before it to the record.
fn line(record: &StringRecord, text: &str) -> usize {
    let start = record.position().and_then(|position| usize::try_from(position.byte()).ok()).unwrap_or(0);
    let rest = text.get(start..).unwrap_or_default();
    let start = start + (rest.len() - rest.trim_start_matches(['\r', '\n']).len());
    text.get(..start).unwrap_or_default().matches('\n').count() + 1
}

fn at(text: &str, line: usize, key: &str, what: Message, remedy: Option<Message>) -> Complaint {
    Complaint { file: None, spot: Some(Spot::line(text, line)), key: key.to_owned(), what, remedy }
}

type Wrong = (&'static str, Message, Option<Message>);

/// Where each of [`COLUMNS`] stands.
struct Columns {
    places: [Option<usize>; 4],
    count: usize,
}

impl Columns {
    fn of(heading: &StringRecord, text: &str) -> Result<Self, Vec<Complaint>> {
        let line = line(heading, text);
        let form = || Some(Message::new("rings-form"));
        let whole = |what| vec![at(text, line, "", what, form())];
        let first = text.lines().nth(line.saturating_sub(1)).unwrap_or_default();
        if heading.len() == 1 && first.contains([';', '\t']) {
            return Err(whole(Message::new("rings-separator")));
        }
        if !heading.iter().any(|name| COLUMNS.contains(&name.to_lowercase().as_str())) {
            return Err(whole(Message::new("rings-heading").text("text", shortened(first))));
        }
        let mut columns = Self { places: [None; 4], count: heading.len() };
        let mut complaints = Vec::new();
        for (place, name) in heading.iter().enumerate() {
            let known = COLUMNS.iter().position(|column| *column == name.to_lowercase());
            match known.and_then(|at| columns.places.get_mut(at)) {
                Some(slot @ None) => *slot = Some(place),
                Some(Some(_)) => {
                    complaints.extend(whole(Message::new("rings-column-twice").text("name", name)));
                }
                None => {
                    let what = Message::new("rings-unknown-column").text("name", shortened(name));
                    let near = nearest(name, COLUMNS, 1).first().copied();
                    let remedy = near.map(|near| Message::new("desk-did-you-mean").text("name", near));
                    complaints.push(at(text, line, "", what, remedy.or_else(form)));
                }
            }
        }
        // A name that is not known is most likely the one that is missing.
        let misnamed = !complaints.is_empty();
        for (column, place) in COLUMNS.iter().zip(columns.places) {
            if place.is_none() && *column != "gap_m" && !misnamed {
                complaints.extend(whole(Message::new("rings-missing-column").text("name", column)));
            }
        }
        if complaints.is_empty() { Ok(columns) } else { Err(complaints) }
    }

    fn ring(&self, record: &StringRecord) -> Result<Ring, Wrong> {
        if record.len() != self.count {
            let what =
                Message::new("desk-day-columns").text("found", record.len()).text("expected", self.count);
            return Err(("", what, Some(Message::new("desk-day-comma-or-column"))));
        }
        let [x, y, radius, gap] = self.places;
        let cell = |place: Option<usize>| place.and_then(|place| record.get(place)).unwrap_or_default();
        let [x, y, radius, gap] = [x, y, radius, gap].map(cell);
        let x_m = number("x_m", x)?;
        let y_m = number("y_m", y)?;
        let radius_m = number("radius_m", radius)?;
        let gap_m = if gap.is_empty() { 0.0 } else { number("gap_m", gap)? };
        let told = |id: &'static str, name: &'static str, value: &str| {
            Message::new(id).text("name", name).text("value", shortened(value))
        };
        Ring::new(x_m, y_m, radius_m, gap_m).map_err(|error| match error {
            DiscError::Centre { .. } => {
                let (name, value) = if x_m.abs() > y_m.abs() { ("x_m", x) } else { ("y_m", y) };
                (name, told("rings-too-far", name, value), Some(Message::new("rings-own-origin")))
            }
            // The radius is looked at first.
            DiscError::Radius { radius_m: wrong } if wrong.to_bits() == radius_m.to_bits() => {
                ("radius_m", told("rings-no-radius", "radius_m", radius), None)
            }
            DiscError::Radius { .. } => {
                ("gap_m", told("rings-no-gap-size", "gap_m", gap), Some(Message::new("rings-no-gap")))
            }
        })
    }
}

/// A finite number with a point.
fn number(name: &'static str, written: &str) -> Result<f64, Wrong> {
    if written.is_empty() {
        let what = Message::new("rings-empty-cell").text("name", name);
        return Err((name, what, Some(Message::new("rings-form"))));
    }
    let told = |id: &'static str| Message::new(id).text("key", name).text("value", shortened(written));
    match written.parse::<f64>() {
        Ok(value) if value.is_finite() => Ok(value),
        Ok(_) => Err((name, told("desk-not-finite"), Some(Message::new("rings-form")))),
        Err(_) => {
            let point = written.replace(',', ".");
            if point.parse::<f64>().is_ok() {
                let remedy = Message::new("desk-write-number").text("line", point);
                return Err((name, told("desk-decimal-comma"), Some(remedy)));
            }
            Err((name, told("desk-needs-number"), Some(Message::new("rings-form"))))
        }
    }
}

/// Short enough for a sentence.
fn shortened(text: &str) -> String {
    const MOST: usize = 60;
    let mut short: String = text.chars().take(MOST).collect();
    if text.chars().count() > MOST {
        short.push('…');
    }
    short
}

#[cfg(test)]
#[path = "rings/mutation.rs"]
mod mutation;
