//! The demo's report, filled from the book and the comparison.

#![allow(clippy::cast_precision_loss, reason = "grams, millilitres, days and areas are far below 2^53")]

use kerfbook_acts::compare::{self, Comparison, RUNS, WayResult};
use kerfbook_acts::error::ActError;
use kerfbook_acts::scenario::Scenario;
use kerfbook_acts::told;
use kerfbook_acts::way::{self, Row};
use kerfbook_ledger::Book;
use kerfbook_science::caution::{self, Severity};
use kerfbook_science::soil;
use kerfbook_science::source::Source;
use kerfbook_science::units::{AreaMass, Share};
use kerfbook_words::Words;

use super::season::{self, Played};
use super::second_year;
use crate::compare::{
    assumed_document, assumed_value, composted_leads, equal_best_first, equal_name, row_name,
};
use crate::report::of_book::{of_book, range_of, sources};
use crate::report::{AnswerView, AssumedView, CautionView, EqualView, Gravity, ReportView, WayRow, WaysView};

/// Everything the report shows.
pub(super) fn view(
    book: &Book,
    played: &Played,
    comparison: &Comparison,
    scenario: &Scenario,
    seed: u64,
    words: &Words,
) -> Result<ReportView, ActError> {
    let today = second_year::today();
    let of_book = of_book(book, today, seed, words)?;
    Ok(ReportView {
        holding: of_book.holding,
        date: words.date_with_year(today),
        about: vec![
            words.label("demo-invented"),
            words.say(
                "forecast-runs",
                &[
                    ("runs", words.number(f64::from(RUNS), 0)),
                    ("seed", seed.to_string()),
                    ("engine", kerfbook_science::nitrogen::ENGINE.to_string()),
                    ("parameters", kerfbook_science::nitrogen::PARAMETERS.to_string()),
                ],
            ),
            of_book.judged,
        ],
        answer: Some(answer(book, played, comparison, scenario, words)?),
        todo: Some(of_book.todo),
        map: of_book.map,
        places: of_book.places,
        ways: Some(ways(comparison, words)),
        assumed: assumed(comparison, words),
        cautions: cautions(comparison, played, words),
        piles: of_book.piles,
        trials: of_book.trials,
        stock: of_book.stock,
        records: of_book.records,
        book: of_book.book,
        sources: sources(words),
    })
}

fn answer(
    book: &Book,
    played: &Played,
    comparison: &Comparison,
    scenario: &Scenario,
    words: &Words,
) -> Result<AnswerView, ActError> {
    let told = told::tell(comparison, scenario, words);
    let place = book.place(played.asked)?.map(|view| view.label.as_str().to_owned()).unwrap_or_default();
    let instruct =
        words.say("answer-do-amount", &[("do", told.instruction.clone()), ("amount", told.amount.clone())]);
    let asked = words.say(
        "demo-asked",
        &[
            ("containers", told::in_containers(&comparison.load.counted(&scenario.containers), words)),
            ("material", words.material(comparison.load.material.name)),
            ("place", place),
            ("crop", scenario.crops.first().map(|crop| words.crop(&crop.name)).unwrap_or_default()),
            ("date", words.date_with_year(season::first_day())),
        ],
    );
    Ok(AnswerView {
        asked,
        instruct,
        keep_off: told.keep_off,
        give: told.give,
        look: told.look,
        not: told.not,
        cost: told.cost,
        least_known: told.least_known,
        narrow: Some(told.narrow),
        wait: told.wait,
        more: told.more,
        hangs_on: told.hangs_on,
    })
}

fn ways(comparison: &Comparison, words: &Words) -> WaysView {
    let row = |way: &WayResult| way_row(way, comparison, words);
    let composted = comparison.season.iter().find(|way| way.row == Row::CompostedFirst);
    let mut said = vec![words.label("compare-sorted")];
    if let Some(way) = composted {
        let brought = words.nitrogen(AreaMass::from_kg_ha(way.brought_kg_ha));
        said.push(words.say("compare-nitrogen-explains", &[("brought", brought)]));
    }
    WaysView {
        unit: words.nitrogen_unit_name(),
        season: comparison.season.iter().map(row).collect(),
        both: comparison.both.iter().map(row).collect(),
        equal: (!comparison.equal.is_empty()).then(|| EqualView {
            nitrogen: words.nitrogen(AreaMass::from_kg_ha(comparison.equal_nitrogen_kg_ha)),
            rows: equal_best_first(comparison)
                .into_iter()
                .filter_map(|row| Some((equal_name(row, words), range_of(row.crop_nitrogen, words)?)))
                .collect(),
            composted_leads: composted_leads(comparison),
        }),
        said,
    }
}

fn way_row(way: &WayResult, comparison: &Comparison, words: &Words) -> WayRow {
    let nitrogen = |kg_ha: f64| words.nitrogen(AreaMass::from_kg_ha(kg_ha));
    let date = |day: Option<f64>| compare::date_of(comparison, day).map(|date| words.date(date));
    let tied = way.tied.iter().find(|(day, _)| *day == 60).and_then(|(_, tied)| range_of(*tied, words));
    WayRow {
        way: row_name(way.row, words),
        bare: way.row == Row::Bare,
        chosen: way.row == comparison.answer.row,
        crop_nitrogen: way.crop_nitrogen.and_then(|three| range_of(three, words)),
        lost: way.lost.and_then(|three| range_of(three, words)),
        tied,
        hungry: way.hungry_day.and_then(|days| date(days.p50)).unwrap_or_default(),
        chance: way.chance_hungry.map(|share| words.percent(Share::from_fraction(share))).unwrap_or_default(),
        release: match way.release_day.p50 {
            Some(day) => words.month_and_year(comparison.calendar.date(day)),
            None if way.row == Row::Bare => String::new(),
            None => words.not_within(compare::LONG_DAYS, Share::from_fraction(way.released_share)),
        },
        feed_crop: way.feed.map(|feed| nitrogen(feed.crop)).unwrap_or_default(),
        feed_wood: way.feed.map(|feed| nitrogen(feed.wood)).unwrap_or_default(),
        brings: if way.brought_kg_ha > 0.0 { nitrogen(way.brought_kg_ha) } else { String::new() },
        leached: way.leached.p50.map(nitrogen).unwrap_or_default(),
        hindered: match (way.allowed, way.doable) {
            (false, _) => words.label("compare-not-allowed"),
            (true, false) if way.row == Row::OverUrine => words.label("compare-not-at-hand"),
            (true, false) => words.label("compare-not-doable"),
            (true, true) => String::new(),
        },
    }
}

fn assumed(comparison: &Comparison, words: &Words) -> Vec<AssumedView> {
    let rows = |of: String, document: serde_json::Value| {
        let serde_json::Value::Object(map) = document else { return Vec::new() };
        map.into_iter()
            .map(|(key, value)| AssumedView {
                value: assumed_value(&value, words),
                key,
                of: of.clone(),
                source: String::new(),
            })
            .collect::<Vec<_>>()
    };
    let mut all = rows(String::new(), assumed_document(&[], &comparison.assumed));
    for way in &comparison.season {
        all.extend(rows(row_name(way.row, words), assumed_document(&[], &way.assumed)));
    }
    for view in &mut all {
        let source = assumed_from(&view.key, comparison);
        view.source = if source.author.is_empty() {
            words.standing(source.standing)
        } else {
            format!("{} ({})", words.body_and_year(&source), words.standing(source.standing))
        };
    }
    all
}

/// Where a value that was taken for granted comes from.
fn assumed_from(key: &str, comparison: &Comparison) -> Source {
    match key {
        "moisture_pct" => comparison.load.material.moisture.source,
        "bulk_density_kg_m3" => comparison.load.material.wet_density.source,
        "clay_pct" => soil::TYPICAL_CLAY.source,
        "mineral_nitrogen_kg_ha" => soil::TYPICAL_MINERAL_NITROGEN.source,
        "sand_pct" | "compost_carbon_nitrogen" | "compost_mineral_nitrogen_kg_ha" => Source::ASSUMPTION,
        "manure_carbon_nitrogen" => way::MANURE_CARBON_NITROGEN.source,
        "ring_gap_cm" => way::RING_GAP_CM.source,
        _ => Source::COMMON_PRACTICE,
    }
}

fn cautions(comparison: &Comparison, played: &Played, words: &Words) -> Vec<CautionView> {
    let mut ids: Vec<&'static str> = played.cautions.clone();
    ids.extend(comparison.season.iter().flat_map(|way| way.cautions.iter().copied()));
    ids.sort_unstable();
    ids.dedup();
    ids.iter()
        .filter_map(|id| caution::of_id(id))
        .map(|caution| {
            let told = words.caution(caution);
            CautionView {
                gravity: match caution.severity {
                    Severity::Refuse => Gravity::Refuse,
                    Severity::Warn => Gravity::Warn,
                    Severity::Note => Gravity::Note,
                },
                severity: told.severity,
                text: told.text,
                source: told.source,
            }
        })
        .collect()
}
