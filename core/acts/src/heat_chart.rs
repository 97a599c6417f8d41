//! The chart of a pile's heat: readings by zone against the lines of its rule, turnings marked.

use std::collections::BTreeMap;

use chrono::{Days, NaiveDate};
use kerfbook_ledger::PileView;
use kerfbook_picture::{HeatChart, HeatLimit, HeatLine, Tick};
use kerfbook_science::units::Temperature;
use kerfbook_words::{Units, Words};

use crate::heat::zone_told;
use crate::month_ticks::months;
use crate::pile::{log, rule};

/// Days from which on a log is told by months.
const LONG_DAYS: u32 = 70;

/// Of a pile; none where nobody read its heat.
pub fn chart(pile: &PileView, words: &Words) -> Option<HeatChart> {
    let (log, first) = (log(pile), pile.date.naive());
    let last = log.readings.iter().map(|reading| reading.date).max()?;
    let day = |date: NaiveDate| (date - first).num_days() as f64;
    let scale = |temperature: Temperature| match words.units() {
        Units::Metric => temperature.c(),
        Units::Us => temperature.f(),
    };
    let mut zones: BTreeMap<String, Vec<(f64, f64)>> = BTreeMap::new();
    for reading in &log.readings {
        let at = day(reading.date) + f64::from(reading.minute.unwrap_or(0)) / 1440.0;
        zones.entry(reading.zone.clone()).or_default().push((at, scale(reading.temperature)));
    }
    let limit = |id, heat| HeatLimit {
        value: scale(heat),
        label: words.say(id, &[("heat", words.temperature(heat))]),
    };
    let limits = rule(pile).into_iter().flat_map(|rule| {
        let upper = rule.upper.map(|upper| limit("pile-too-hot-above", upper));
        std::iter::once(limit("pile-counts-from", rule.at_least)).chain(upper)
    });
    let name = pile.label.as_str().to_owned();
    let days = day(last);
    Some(HeatChart {
        title: words.say("pile-heat", &[("pile", name.clone())]),
        description: words.say("pile-heat-about", &[("pile", name), ("days", words.days(days))]),
        unit: words.label(match words.units() {
            Units::Metric => "pile-celsius",
            Units::Us => "pile-fahrenheit",
        }),
        days: days + 1.0,
        zones: zones
            .into_iter()
            .map(|(zone, readings)| HeatLine { zone: zone_told(&zone, words), readings })
            .collect(),
        limits: limits.collect(),
        turnings: log.turnings.iter().map(|date| day(*date)).collect(),
        turning: words.label("pile-turned"),
        months: ticks(first, last, words),
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
