//! The entries, with the state of their chains and the last link of each device.

use kerfbook_words::Words;
use maud::{Markup, html};

use super::table;
use super::view::BookView;

pub(super) fn section(book: &BookView, words: &Words) -> Markup {
    let heads = ["report-device", "report-last-entry", "report-last-link"].map(|id| words.label(id));
    let links = book.heads.iter().map(|head| {
        vec![html! { (head.device) }, html! { (head.last) }, html! { code.hash { (head.hash) } }]
    });
    html! {
        p.state.broken[!book.sound] { (book.state) }
        @if !book.findings.is_empty() {
            ul { @for finding in &book.findings { li { (finding) } } }
        }
        (entries(book, words))
        @if !book.heads.is_empty() {
            h3 { (words.label("report-last-links")) }
            p { (words.label("report-chain-shows")) }
            (table::table(&heads, links))
        }
    }
}

fn entries(book: &BookView, words: &Words) -> Markup {
    let heads = ["report-entry", "report-date", "report-kind", "report-what", "report-by"];
    let rows = book.entries.iter().map(|entry| {
        let text = html! {
            (entry.text)
            @for flag in &entry.flags { " " span.flag { (flag) } }
        };
        vec![
            html! { (entry.entry) },
            html! { span.whole { (entry.date) } },
            html! { (entry.kind) },
            text,
            html! { (entry.by) },
        ]
    });
    table::table(&heads.map(|id| words.label(id)), rows)
}
