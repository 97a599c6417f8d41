//! What needs doing, most urgent first.

use kerfbook_words::Words;
use maud::{Markup, html};

use super::table;
use super::view::TodoRow;

pub(super) fn section(rows: &[TodoRow], words: &Words) -> Markup {
    let heads = ["report-place", "report-by-when", "report-what", "report-why", "report-who"];
    let cells = rows.iter().map(|row| {
        [&row.place, &row.due, &row.what, &row.why, &row.who].map(|text| html! { (text) }).to_vec()
    });
    html! {
        @if rows.is_empty() {
            p { (words.label("report-nothing-to-do")) }
        } @else {
            (table::table(&heads.map(|id| words.label(id)), cells))
        }
    }
}
