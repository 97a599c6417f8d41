//! Every place with what is expected of it.

use kerfbook_words::Words;
use maud::{Markup, html};

use super::picture;
use super::view::PlaceView;

pub(super) fn section(places: &[PlaceView], words: &Words) -> Markup {
    html! {
        @for (number, place) in places.iter().enumerate() {
            article.place {
                h3 { (place.name) }
                (facts(&place.facts))
                @for (band, chart) in place.bands.iter().enumerate() {
                    (picture(&format!("place-{number}-{band}"), words, |screen, write| chart.draw(screen, write)))
                }
                @for sentence in &place.said { p { (sentence) } }
            }
        }
    }
}

/// Short phrases on one line.
pub(super) fn facts(facts: &[String]) -> Markup {
    html! {
        @if !facts.is_empty() {
            ul.facts {
                @for fact in facts { li { (fact) } }
            }
        }
    }
}
