//! Every pile: its heat by zone against its rule, turnings, what it was judged, what is next.

#![allow(clippy::cast_precision_loss, reason = "grams and days are far below 2^53")]

use chrono::NaiveDate;
use kerfbook_acts::error::ActError;
use kerfbook_acts::{heat_chart, pile};
use kerfbook_ledger::{Book, PileView as BookPile};
use kerfbook_science::units::{Mass, Share};
use kerfbook_words::Words;
use maud::{Markup, html};

use super::view::PileView;
use super::{picture, places};

pub(super) fn section(piles: &[PileView], words: &Words) -> Markup {
    html! {
        @for (number, pile) in piles.iter().enumerate() {
            article.place {
                h3 { (pile.name) }
                (places::facts(&pile.facts))
                @if let Some(chart) = &pile.chart {
                    (picture(&format!("pile-{number}"), words, |screen, write| chart.draw(screen, write)))
                }
                @if !pile.said.is_empty() {
                    ul { @for sentence in &pile.said { li { (sentence) } } }
                }
            }
        }
    }
}

/// The piles of a book as they stood on a day.
pub(crate) fn of_book(book: &Book, on: NaiveDate, words: &Words) -> Result<Vec<PileView>, ActError> {
    let piles = book.piles()?;
    piles.iter().filter(|pile| !pile.withdrawn()).map(|pile| view(book, pile, on, words)).collect()
}

fn view(book: &Book, pile: &BookPile, on: NaiveDate, words: &Words) -> Result<PileView, ActError> {
    let heat = pile::judged(pile);
    let built = words.say("pile-built", &[("date", words.date_with_year(pile.date.naive()))]);
    let mass = pile.wet_g.map(|grams| words.mass(Mass::from_g(grams as f64)));
    let ratio = pile
        .carbon_nitrogen_x100
        .map(|ratio| words.say("pile-ratio", &[("ratio", words.rounded(f64::from(ratio) / 100.0))]));
    let moisture = pile.moisture_bp.map(|bp| {
        words.say("pile-moisture", &[("moisture", words.percent(Share::from_percent(f64::from(bp) / 100.0)))])
    });
    let mut said = heat.as_ref().map_or_else(Vec::new, |heat| heat.told(words));
    said.extend(pile.finished.iter().map(|end| {
        let values =
            [("batch", end.body.label.as_str().to_owned()), ("date", words.date_with_year(end.date.naive()))];
        words.say("pile-became", &values)
    }));
    if pile.stands() {
        said.push(words.say("pile-age", &[("days", words.days(pile::age(pile, on) as f64))]));
    }
    said.extend(pile::state_told(book, pile, on, words)?);
    Ok(PileView {
        name: pile.label.as_str().to_owned(),
        facts: std::iter::once(built).chain(mass).chain(ratio).chain(moisture).collect(),
        chart: heat_chart::chart(pile, words),
        said,
    })
}
