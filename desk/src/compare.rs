//! `compare`: every way side by side, the answer first.

use comfy_table::{ContentArrangement, LineStyle, Table, TableStyle};
use kerfbook_acts::assumed::Assumed;
use kerfbook_acts::compare::{
    self, Comparison, EqualResult, LONG_DAYS, RUNS, Reach, SEASON_DAYS, Three, WayResult,
};
use kerfbook_acts::scenario::Scenario;
use kerfbook_acts::told;
use kerfbook_acts::way::Row;
use kerfbook_science::caution;
use kerfbook_science::units::AreaMass;
use kerfbook_words::Words;
use serde_json::{Map, Value, json};

use crate::acted;
use crate::book::place_of_book;
use crate::cli;
use crate::context::Context;
use crate::fault::Fault;
use crate::{next_load, scenario};

/// Seed of the runs: the same file gives the same answer.
pub(crate) const SEED: u64 = 1;

pub(crate) fn run(args: &cli::Compare, context: &Context) -> Result<(), Fault> {
    if let Some((book, place)) = place_of_book(&args.file, args.name.as_deref())? {
        return next_load::run(args, &book, &place, context);
    }
    let described = scenario::read(&args.file)?;
    let comparison = compare::compare(&described.scenario, Reach::ThreeYears, RUNS, SEED)
        .map_err(|error| acted::fault(&args.file, &error))?;
    if context.json {
        context.print_json(&document(&comparison, &described.scenario, &described.assumed, context.words()))
    } else {
        context.print(&text(&comparison, &described.scenario, &described.assumed, context.words()))
    }
}

/// Everything, for programs.
fn document(comparison: &Comparison, scenario: &Scenario, read: &[Assumed], words: &Words) -> Value {
    let told = told::tell(comparison, scenario, words);
    json!({
        "format": 1,
        "answer": told,
        "way": comparison.answer.row.way(),
        "first_day": comparison.calendar.first().to_string(),
        "horizon": { "name": "season", "days": SEASON_DAYS },
        "runs": RUNS,
        "seed": SEED,
        "ways": comparison.season.iter().map(way_document).collect::<Vec<_>>(),
        "both_seasons": {
            "horizon": { "name": "both-seasons", "days": 2 * SEASON_DAYS },
            "ways": comparison.both.iter().map(way_document).collect::<Vec<_>>(),
        },
        "equal_nitrogen": {
            "nitrogen_kg_ha": comparison.equal_nitrogen_kg_ha,
            "ways": equal_best_first(comparison).iter().map(|row| json!({
                "way": row.way.way(),
                "name": row.way.id(),
                "crop_nitrogen_kg_ha": row.crop_nitrogen,
                "median_run_crop_nitrogen_kg_ha": row.median_run_kg_ha,
            })).collect::<Vec<_>>(),
            "said": equal_sentence(comparison, words),
        },
        "question": comparison.answer.question.map(|best| json!({
            "id": best.question.id(), "narrower_pct": (best.narrower * 1000.0).round() / 10.0,
        })),
        "release_looked_at_days": LONG_DAYS,
        "assumed": assumed_document(read, &comparison.assumed),
    })
}

fn way_document(way: &WayResult) -> Value {
    let tied: Map<String, Value> =
        way.tied.iter().map(|(day, tied)| (day.to_string(), json!(tied))).collect();
    json!({
        "way": way.row.way(),
        "over": way.row.over(),
        "crop_nitrogen_kg_ha": way.crop_nitrogen,
        "lost_kg_ha": way.lost,
        "tied_kg_ha": tied,
        "leached_kg_ha": way.leached,
        "leached_less_kg_ha": way.leached_less,
        "hungry_day": way.hungry_day,
        "chance_hungry": way.chance_hungry,
        "release_day": way.release_day,
        "released_share": way.released_share,
        "feed_kg_ha": way.feed,
        "nitrogen_brought_kg_ha": way.brought_kg_ha,
        "median_run_crop_nitrogen_kg_ha": way.median_run_kg_ha,
        "doable": way.doable,
        "allowed": way.allowed,
        "assumed": assumed_document(&[], &way.assumed),
        "cautions": way.cautions,
    })
}

/// What was taken for granted, by key.
pub(crate) fn assumed_document(read: &[Assumed], taken: &[Assumed]) -> Value {
    let entries = read.iter().chain(taken);
    Value::Object(
        entries.map(|assumed| (assumed.key.to_owned(), json!(assumed.value))).collect::<Map<_, _>>(),
    )
}

/// The ways at equal nitrogen, best first; the bare place stays on top.
pub(crate) fn equal_best_first(comparison: &Comparison) -> Vec<&EqualResult> {
    let mut rows: Vec<&EqualResult> = comparison.equal.iter().collect();
    rows.sort_by(|a, b| {
        let bare = |row: &EqualResult| row.way.way() != "bare";
        bare(a).cmp(&bare(b)).then(b.crop_nitrogen.middle().total_cmp(&a.crop_nitrogen.middle()))
    });
    rows
}

/// Whether composting first stays first at equal nitrogen.
pub(crate) fn composted_leads(comparison: &Comparison) -> bool {
    equal_best_first(comparison)
        .iter()
        .find(|row| row.way.way() != "bare")
        .is_some_and(|row| row.way.way() == "composted-first")
}

fn equal_sentence(comparison: &Comparison, words: &Words) -> Option<String> {
    (!comparison.equal.is_empty()).then(|| {
        words.label(if composted_leads(comparison) {
            "compare-equal-nitrogen-first"
        } else {
            "compare-equal-nitrogen-not-first"
        })
    })
}

/// Everything, for people.
fn text(comparison: &Comparison, scenario: &Scenario, read: &[Assumed], words: &Words) -> String {
    let told = told::tell(comparison, scenario, words);
    let mut parts = vec![told.paragraph(words)];
    let mut after: Vec<String> = told.more.clone();
    after.push(told.narrow.clone());
    after.extend(told.wait.clone());
    after.extend(told.hangs_on.clone());
    parts.push(after.join(" "));
    parts.push(format!(
        "{}\n{}",
        words.label("compare-this-season"),
        table(&comparison.season, comparison, words)
    ));
    parts.push(words.label("compare-sorted"));
    parts.push(format!(
        "{}\n{}",
        words.label("compare-both-seasons"),
        table(&comparison.both, comparison, words)
    ));
    if let Some(sentence) = equal_sentence(comparison, words) {
        let about = words.say(
            "compare-equal-nitrogen-about",
            &[("nitrogen", nitrogen(comparison.equal_nitrogen_kg_ha, words))],
        );
        parts.push(format!(
            "{}\n{about} {sentence}\n{}",
            words.label("compare-equal-nitrogen"),
            equal_table(comparison, words)
        ));
    }
    parts.push(cautions(comparison, words));
    parts.push(assumed_text(read, comparison, words));
    parts.retain(|part| !part.is_empty());
    parts.join("\n\n")
}

fn nitrogen(kg_ha: f64, words: &Words) -> String {
    words.nitrogen(AreaMass::from_kg_ha(kg_ha))
}

/// A middle with its range.
pub(crate) fn range(three: Option<Three>, words: &Words) -> String {
    let Some(Three { p10: Some(low), p50: Some(middle), p90: Some(high) }) = three else {
        return words.unknown();
    };
    let number = |kg_ha: f64| words.nitrogen_number(AreaMass::from_kg_ha(kg_ha));
    words.around(number(middle), &number(low), &number(high))
}

/// The told name of a row.
pub(crate) fn row_name(row: Row, words: &Words) -> String {
    words.way(match row {
        Row::OverCompost => "over-compost",
        Row::OverUrine => "over-urine",
        other => other.way(),
    })
}

/// Whether there is room for a whole table.
pub(crate) fn wide() -> bool {
    new_table(Vec::new()).width().is_none_or(|width| width >= WIDE)
}

/// Rules above, below and under the head; rows stand close.
const fn ruled() -> TableStyle {
    let rule = LineStyle::none().fill('─').junction('─');
    TableStyle::new().top_border(rule).header_separator(rule).bottom_border(rule)
}

/// Characters of a line where no terminal says how wide it is.
const WIDTH: u16 = 120;
/// From this width on the whole table is shown; below it the way, what the crop gets and what it loses.
const WIDE: u16 = 90;
/// Narrower than this no table can be read.
const LEAST_WIDTH: u16 = 40;

/// A table that fits the terminal.
pub(crate) fn new_table(head: Vec<String>) -> Table {
    let mut table = Table::new();
    table.load_style(ruled()).set_content_arrangement(ContentArrangement::Dynamic);
    if !table.is_tty() {
        let columns = std::env::var("COLUMNS").ok().and_then(|columns| columns.parse().ok());
        table.set_width(columns.unwrap_or(WIDTH).max(LEAST_WIDTH));
    }
    table.set_header(head);
    table
}

fn table(rows: &[WayResult], comparison: &Comparison, words: &Words) -> String {
    let unit = words.nitrogen_unit_name();
    let in_unit = |text: String| format!("{text}, {unit}");
    let mut head = vec![
        words.label("compare-way"),
        in_unit(words.label("compare-crop-nitrogen")),
        in_unit(words.label("compare-lost")),
    ];
    let wide = wide();
    if wide {
        head.push(in_unit(words.say("compare-tied", &[("days", words.days(60.0))])));
        head.push(words.label("compare-hungry-day"));
        head.push(in_unit(words.label("compare-feed-wood")));
    }
    let mut table = new_table(head);
    for way in rows {
        let name = row_name(way.row, words);
        let mut cells = vec![
            if way.doable || way.row == Row::Bare { name } else { format!("{name} *") },
            range(way.crop_nitrogen, words),
            range(way.lost, words),
        ];
        if wide {
            let tied = way.tied.iter().find(|(day, _)| *day == 60).map(|(_, tied)| *tied);
            let hungry = way.hungry_day.and_then(|day| compare::date_of(comparison, day.p50));
            cells.push(range(tied, words));
            cells.push(hungry.map_or_else(|| words.unknown(), |date| words.date(date)));
            cells.push(way.feed.map_or_else(
                || words.unknown(),
                |feed| words.nitrogen_number(AreaMass::from_kg_ha(feed.wood)),
            ));
        }
        table.add_row(cells);
    }
    let mut told = table.to_string();
    if rows.iter().any(|way| !way.doable) {
        told.push_str("\n* ");
        told.push_str(&words.label("compare-not-doable"));
    }
    told
}

/// The told name of a way at equal nitrogen.
pub(crate) fn equal_name(row: &EqualResult, words: &Words) -> String {
    words.label(&format!("equal-{}", row.way.id()))
}

fn equal_table(comparison: &Comparison, words: &Words) -> String {
    let mut table = new_table(vec![
        words.label("compare-way"),
        format!("{}, {}", words.label("compare-crop-nitrogen"), words.nitrogen_unit_name()),
    ]);
    for row in equal_best_first(comparison) {
        table.add_row(vec![equal_name(row, words), range(Some(row.crop_nitrogen), words)]);
    }
    table.to_string()
}

/// The cautions of the answer's way.
fn cautions(comparison: &Comparison, words: &Words) -> String {
    let Some(way) = comparison.season.iter().find(|way| way.row == comparison.answer.row) else {
        return String::new();
    };
    let lines: Vec<String> = way
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

fn assumed_text(read: &[Assumed], comparison: &Comparison, words: &Words) -> String {
    assumed_list(&assumed_document(read, &comparison.assumed), words)
}

/// What was taken for granted, told line by line; nothing where nothing was.
pub(crate) fn assumed_list(assumed: &Value, words: &Words) -> String {
    let Value::Object(map) = assumed else { return String::new() };
    if map.is_empty() {
        return String::new();
    }
    let lines: Vec<String> =
        map.iter().map(|(key, value)| format!("- {key}: {}", assumed_value(value, words))).collect();
    format!("{}\n{}", words.label("report-assumed"), lines.join("\n"))
}

/// A value taken for granted, told: numbers to three digits, words in the reader's language.
pub(crate) fn assumed_value(value: &Value, words: &Words) -> String {
    match value {
        Value::Number(number) => words.significant(number.as_f64().unwrap_or(f64::NAN), 3),
        Value::String(text) => {
            let id = format!("taken-{}", text.replace(' ', "-"));
            if words.has(&id) { words.label(&id) } else { text.clone() }
        }
        other => other.to_string(),
    }
}
