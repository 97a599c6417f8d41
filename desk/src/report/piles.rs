//! Every pile: its heat by zone against its rule, turnings, what it was judged, what is next.

#![allow(clippy::cast_precision_loss, reason = "grams and days are far below 2^53")]

use chrono::{Days, NaiveDate};
use kerfbook_acts::error::ActError;
use kerfbook_acts::pile::{self, Course};
use kerfbook_ledger::{Book, PileView as BookPile};
use kerfbook_picture::{HeatChart, HeatLimit, HeatLine, Tick};
use kerfbook_science::units::{Mass, Share, Temperature};
use kerfbook_words::{Units, Words};
use maud::{Markup, html};

use super::view::PileView;
use super::{months, picture, places};

/// Days from which on a log is told by months.
const LONG_DAYS: u32 = 70;

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
    let heat = pile::judged(pile, words);
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
        chart: Course::of(pile, words).map(|course| chart(pile, course, words)),
        said,
    })
}

/// A log of weeks has a date at each of them, a longer one its months.
fn ticks(first: NaiveDate, last: NaiveDate, words: &Words) -> Vec<Tick> {
    let days = u32::try_from((last - first).num_days()).unwrap_or(0);
    if days > LONG_DAYS {
        return months(first, days + 1, words);
    }
    let weeks = (0..=days).step_by(7);
    weeks
        .filter_map(|day| {
            let date = first.checked_add_days(Days::new(u64::from(day)))?;
            Some(Tick { day: f64::from(day), label: words.date(date) })
        })
        .collect()
}

fn chart(pile: &BookPile, course: Course, words: &Words) -> HeatChart {
    let scale = |temperature: Temperature| match words.units() {
        Units::Metric => temperature.c(),
        Units::Us => temperature.f(),
    };
    let name = pile.label.as_str().to_owned();
    let days = course.days();
    let zones = course.zones.into_iter().map(|(zone, readings)| HeatLine {
        zone,
        readings: readings.into_iter().map(|(day, temperature)| (day, scale(temperature))).collect(),
    });
    let limits = course.limits.into_iter().map(|(value, label)| HeatLimit { value: scale(value), label });
    HeatChart {
        title: words.say("pile-heat", &[("pile", name.clone())]),
        description: words.say("pile-heat-about", &[("pile", name), ("days", words.days(days))]),
        unit: words.label(match words.units() {
            Units::Metric => "pile-celsius",
            Units::Us => "pile-fahrenheit",
        }),
        days: days + 1.0,
        zones: zones.collect(),
        limits: limits.collect(),
        turnings: course.turnings,
        turning: words.label("pile-turned"),
        months: ticks(course.first, course.last, words),
    }
}
