//! The map: places to scale, and what lies where.

use kerfbook_acts::told_map::ToldMap;
use kerfbook_words::Words;
use maud::{Markup, html};

use super::{picture, table};

pub(super) fn section(view: &ToldMap, words: &Words) -> Markup {
    let heads = ["map-place", "map-lies"];
    let rows =
        view.rows.iter().map(|row| vec![html! { (row.number) ". " (row.place) }, html! { (row.lies) }]);
    html! {
        (picture("map", words, |screen, _| view.draw(screen, words)))
        @for sentence in &view.said { p { (sentence) } }
        (table::table(&heads.map(|id| words.label(id)), rows))
    }
}
