//! Every place with what is expected of it.

use kerfbook_picture::BandChart;
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
                @for (band, chart) in place.bands.iter().enumerate().filter(|(_, chart)| any(chart, |value| value != 0.0)) {
                    (picture(&format!("place-{number}-{band}"), words, |screen, write| chart.draw(screen, write)))
                    @if any(chart, |value| value < 0.0) { p.quiet { (words.label("picture-below-zero")) } }
                }
                @if !place.said.is_empty() {
                    ul { @for sentence in &place.said { li { (sentence) } } }
                }
                @if let Some(years) = &place.over_years {
                    h4 { (words.label("carbon-heading")) }
                    (picture(&format!("place-{number}-years"), words, |screen, write| years.chart.draw(screen, write)))
                    ul { @for sentence in &years.said { li { (sentence) } } }
                }
            }
        }
    }
}

/// Whether any figure of the band is so. A band that is zero throughout has nothing to show.
fn any(chart: &BandChart, is: impl Fn(f64) -> bool) -> bool {
    chart.band.iter().any(|(_, range)| [range.p10, range.p50, range.p90].into_iter().any(&is))
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
