//! The ways of using the load side by side: a picture, then the figures of this season, of both, and at equal
//! nitrogen.

use kerfbook_picture::{Range, WayBar, WaysChart, WaysLabels};
use kerfbook_words::Words;
use maud::{Markup, html};

use super::picture;
use super::table;
use super::view::{EqualView, WayRow, WaysView};

/// The days after which the tables tell what is held.
const HELD_AFTER_DAYS: f64 = 60.0;

pub(super) fn section(ways: &WaysView, words: &Words) -> Markup {
    let chart = chart(ways, words);
    html! {
        (picture("ways", words, |screen, number| chart.draw(screen, number)))
        @for sentence in &ways.said { p { (sentence) } }
        h3 { (words.label("compare-this-season")) ", " (ways.unit) }
        (rows(&ways.season, words))
        @if !ways.both.is_empty() {
            h3 { (words.label("compare-both-seasons")) ", " (ways.unit) }
            (rows(&ways.both, words))
        }
        @if let Some(equal) = &ways.equal { (equal_nitrogen(equal, &ways.unit, words)) }
    }
}

fn chart(ways: &WaysView, words: &Words) -> WaysChart {
    let bars: Vec<WayBar> = ways
        .season
        .iter()
        .filter_map(|row| {
            let value = row.crop_nitrogen?;
            let label = told(value, words);
            Some(WayBar { name: row.way.clone(), value, label, bare: row.bare, chosen: row.chosen })
        })
        .collect();
    let said: Vec<String> = bars
        .iter()
        .map(|bar| words.say("compare-chart-row", &[("way", bar.name.clone()), ("range", bar.label.clone())]))
        .collect();
    WaysChart {
        title: words.label("compare-chart-title"),
        description: words.say("compare-chart-about", &[("rows", said.join(" "))]),
        unit: ways.unit.clone(),
        labels: WaysLabels {
            band: words.label("picture-legend-band"),
            median: words.label("picture-legend-median"),
            bare: words.label("picture-legend-bare"),
            less: words.label("picture-legend-less"),
        },
        ways: bars,
    }
}

/// The middle with the ends of its range.
fn told(range: Range, words: &Words) -> String {
    words.around(words.coarse(range.p50), &words.coarse(range.p10), &words.coarse(range.p90))
}

fn rows(all: &[WayRow], words: &Words) -> Markup {
    let heads = [
        words.label("compare-way"),
        words.label("compare-crop-nitrogen"),
        words.label("compare-lost"),
        words.say("compare-tied", &[("days", words.days(HELD_AFTER_DAYS))]),
        words.label("compare-hungry-day"),
        words.label("compare-chance-hungry"),
    ];
    html! {
        table.ways role="table" {
            (table::head(&heads))
            @for row in all {
                tbody.chosen[row.chosen] role="rowgroup" {
                    tr role="row" { (table::row(&heads, &cells(row, words))) }
                    tr.detail role="row" {
                        td role="cell" colspan=(heads.len()) { (detail(row, words)) }
                    }
                }
            }
        }
        p.quiet { (words.label("report-minus-is-gain")) }
    }
}

fn cells(row: &WayRow, words: &Words) -> Vec<Markup> {
    let range =
        |range: Option<Range>| html! { @if let Some(range) = range { span.whole { (told(range, words)) } } };
    let name = html! {
        (row.way)
        @if row.chosen { " " span.pick { (words.label("report-the-answer")) } }
    };
    vec![
        name,
        range(row.crop_nitrogen),
        // Nothing put down costs nothing against itself.
        range(row.lost.filter(|_| !row.bare)),
        range(row.tied.filter(|_| !row.bare)),
        html! { @if !row.hungry.is_empty() { span.whole { (row.hungry) } } },
        html! { (row.chance) },
    ]
}

/// What is told in small type under a row.
fn detail(row: &WayRow, words: &Words) -> Markup {
    let all = [
        ("compare-feed-crop", &row.feed_crop),
        ("compare-feed-wood", &row.feed_wood),
        ("compare-brings", &row.brings),
        ("compare-leached", &row.leached),
        ("compare-release", &row.release),
    ];
    html! {
        ul.facts {
            @if !row.hindered.is_empty() { li.hindered { (row.hindered) } }
            @for (id, value) in all {
                @if !value.is_empty() { li { span { (words.label(id)) ":" } " " span { (value) } } }
            }
        }
    }
}

fn equal_nitrogen(equal: &EqualView, unit: &str, words: &Words) -> Markup {
    let heads = ["compare-way", "compare-crop-nitrogen"].map(|id| words.label(id));
    let rows = equal.rows.iter().map(|(way, range)| vec![html! { (way) }, html! { (told(*range, words)) }]);
    let order = if equal.composted_leads {
        "compare-equal-nitrogen-first"
    } else {
        "compare-equal-nitrogen-not-first"
    };
    html! {
        h3 { (words.label("compare-equal-nitrogen")) ", " (unit) }
        p { (words.say("compare-equal-nitrogen-about", &[("nitrogen", equal.nitrogen.clone())])) }
        (table::table(&heads, rows))
        p { (words.label(order)) }
    }
}
