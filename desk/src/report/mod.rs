//! The report: one HTML file that needs no network, for a phone, a desk and paper, by day and by night.

mod answer;
mod book;
mod cautions;
pub(crate) mod made;
mod map;
pub(crate) mod of_book;
pub(crate) mod piles;
mod places;
mod records;
mod stock;
mod table;
mod todo;
pub(crate) mod trials;
mod view;
mod ways;

#[cfg(test)]
mod made_up;
#[cfg(test)]
mod tests;

use kerfbook_picture::{BandLabels, DisplayList, Screen, svg};
use kerfbook_words::Words;
use maud::{DOCTYPE, Markup, PreEscaped, html};

pub(crate) use view::*;

const STYLE: &str = include_str!("style.css");

/// The whole file.
pub(crate) fn page(view: &ReportView, words: &Words) -> String {
    let title = words.say("report-title", &[("holding", view.holding.clone())]);
    let count = u32::try_from(view.book.entries.len()).unwrap_or(u32::MAX);
    let entries = words.number(f64::from(count), 0);
    let made = words.say("report-made", &[("date", view.date.clone()), ("entries", entries)]);
    let sections = sections(view, words);
    html! {
        (DOCTYPE)
        html lang=(words.language().code()) {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                meta name="color-scheme" content="light dark";
                // The page asks for nothing; a browser holds it to that.
                meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'";
                title { (title) }
                style { (PreEscaped(svg::STYLE)) (PreEscaped(STYLE)) }
            }
            body {
                header {
                    h1 { (title) }
                    p.quiet { (made) "." }
                    @for sentence in &view.about {
                        p.quiet { (sentence) }
                    }
                }
                main {
                    @if let Some(answer) = &view.answer { (answer::section(answer, words)) }
                    nav aria-label=(words.label("report-contents")) {
                        ul {
                            @for section in &sections {
                                li { a href={ "#" (section.id) } { (section.heading) } }
                            }
                        }
                    }
                    @for section in &sections {
                        section id=(section.id) {
                            h2 { (section.heading) }
                            (section.content)
                        }
                    }
                }
                footer {
                    p { (words.label("report-colophon")) }
                }
            }
        }
    }
    .into_string()
}

/// What the band and the lines of a picture are called.
pub(crate) fn band_labels(words: &Words) -> BandLabels {
    BandLabels {
        band: words.label("picture-legend-band"),
        median: words.label("picture-legend-median"),
        bare: words.label("picture-legend-bare"),
    }
}

/// A part of the page that the contents point to.
struct Section {
    id: &'static str,
    heading: String,
    content: Markup,
}

/// The parts that have something to say.
fn sections(view: &ReportView, words: &Words) -> Vec<Section> {
    let section = |id, heading: &str, content| Section { id, heading: words.label(heading), content };
    let mut sections = Vec::new();
    if let Some(todo) = &view.todo {
        sections.push(section("todo", "report-todo", todo::section(todo, words)));
    }
    if let Some(map) = &view.map {
        sections.push(section("map", "report-map", map::section(map, words)));
    }
    if !view.places.is_empty() {
        sections.push(section("places", "report-places", places::section(&view.places, words)));
    }
    if let Some(ways) = &view.ways {
        sections.push(section("ways", "report-ways", ways::section(ways, words)));
    }
    if !view.assumed.is_empty() {
        sections.push(section("assumed", "report-assumed", assumed(&view.assumed, words)));
    }
    if !view.cautions.is_empty() {
        sections.push(section("cautions", "report-cautions", cautions::section(&view.cautions)));
    }
    if !view.piles.is_empty() {
        sections.push(section("piles", "report-piles", piles::section(&view.piles, words)));
    }
    if !view.trials.is_empty() {
        sections.push(section("trials", "report-trials", trials::section(&view.trials, words)));
    }
    if !view.stock.is_empty() {
        sections.push(section("stock", "report-stock", stock::section(&view.stock, words)));
    }
    if !view.records.is_empty() {
        sections.push(section("records", "report-records", records::section(&view.records, words)));
    }
    sections.push(section("entries", "report-entries", book::section(&view.book, words)));
    if !view.sources.is_empty() {
        sections.push(section("sources", "report-sources", sources(&view.sources, words)));
    }
    sections
}

fn assumed(all: &[AssumedView], words: &Words) -> Markup {
    let heads = ["report-assumed-what", "report-assumed-value", "report-assumed-source"];
    let rows = all.iter().map(|one| {
        let what = html! {
            code { (one.key) }
            @if !one.of.is_empty() { " " span.quiet { (one.of) } }
        };
        vec![what, html! { (one.value) }, html! { (one.source) }]
    });
    html! {
        p { (words.label("report-assumed-about")) }
        (table::table(&heads.map(|id| words.label(id)), rows))
    }
}

fn sources(all: &[SourceView], words: &Words) -> Markup {
    html! {
        p { (words.label("report-sources-about")) }
        ul.sources {
            @for source in all {
                li { (source.text) @if !source.used.is_empty() { " " span.quiet { (source.used) } } }
            }
        }
    }
}

/// A picture in the size of a phone and in that of a desk or a sheet of paper; the style shows one of them.
fn picture(id: &str, words: &Words, draw: impl Fn(Screen, &dyn Fn(f64) -> String) -> DisplayList) -> Markup {
    let number = |value: f64| words.number(value, 2);
    let sized = |screen, size: &str| PreEscaped(svg::inline(&draw(screen, &number), &format!("{id}-{size}")));
    html! {
        figure {
            div.phone { (sized(Screen::Phone, "phone")) }
            div.desk { (sized(Screen::Desk, "desk")) }
        }
    }
}
