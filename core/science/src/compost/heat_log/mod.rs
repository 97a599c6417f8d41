//! A pile's heat log, and how a rule judges it.
//!
//! A day counts in a zone where the zone was read on it and its lowest reading was hot enough; a day without a reading is
//! unknown, never counted. Each zone is judged alone and the worst decides. Turnings count inside the days that count.

mod hours;
mod zone;

use std::collections::BTreeMap;

use chrono::NaiveDate;

pub use zone::ZoneJudged;

use super::fire::FireLevel;
use super::heat_rule::{Rule, tenths};
use super::phase::{self, State, Trigger};
use crate::source::{Source, Sourced};
use crate::units::{Share, Temperature};

/// Hotter than this a pile does not get without burning: water boils.
pub const HOTTEST: Sourced<Temperature> = Sourced::new(Temperature::from_c(100.0), Source::COMMON_PRACTICE);

/// One reading of a probe.
#[derive(Debug, Clone, PartialEq)]
pub struct Reading {
    /// The day.
    pub date: NaiveDate,
    /// Minute of the day, where it was written down.
    pub minute: Option<u16>,
    /// Zone of the pile, or probe.
    pub zone: String,
    /// Depth of the probe, cm.
    pub depth_cm: Option<f64>,
    /// What it read.
    pub temperature: Temperature,
}

/// Everything that was written down about one pile's heat.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Log {
    /// Readings, in any order.
    pub readings: Vec<Reading>,
    /// Days on which it was turned.
    pub turnings: Vec<NaiveDate>,
    /// Moisture (wet basis) by day.
    pub moistures: Vec<(NaiveDate, Share)>,
    /// Days on which smoke was seen or smelt.
    pub smoke: Vec<NaiveDate>,
}

/// What a rule says of a log.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Verdict {
    /// Its figures are met.
    Met,
    /// The figures are reached, but they are only remembered: that is not *met*.
    FiguresReached,
    /// Not yet.
    NotReached,
    /// It hangs on days without a reading, or on zones that were not read.
    Unknown,
    /// It would be met but for the upper limit.
    TooHot,
    /// The rule is for animal matter, and there is none.
    DoesNotApply,
}

impl Verdict {
    /// Its name in documents.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Met => "met",
            Self::FiguresReached => "figures-reached",
            Self::NotReached => "not-reached",
            Self::Unknown => "unknown",
            Self::TooHot => "too-hot",
            Self::DoesNotApply => "does-not-apply",
        }
    }

    /// Whether it is good news.
    pub const fn is_reached(self) -> bool {
        matches!(self, Self::Met | Self::FiguresReached)
    }
}

/// A zone that ends where another begins: it may be one probe under two names.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Renamed {
    /// The one that ends.
    pub from: String,
    /// The one that begins after it.
    pub to: String,
    /// First day of the second.
    pub on: NaiveDate,
}

/// A log as judged by a rule.
#[derive(Debug, Clone, PartialEq)]
pub struct Judged {
    /// The answer.
    pub verdict: Verdict,
    /// Every zone, by name; the worst first.
    pub zones: Vec<ZoneJudged>,
    /// Zones the rule wants read that were not.
    pub zones_missing: Vec<&'static str>,
    /// Readings outside the depths of the rule.
    pub set_aside: usize,
    /// Zones that may be one under two names.
    pub renamed: Vec<Renamed>,
}

impl Judged {
    /// The zone that decides.
    pub fn worst(&self) -> Option<&ZoneJudged> {
        self.zones.first()
    }
}

/// Judges a log by a rule. `animal_matter` is `None` where nobody said.
pub fn judge(log: &Log, rule: &Rule, animal_matter: Option<bool>) -> Judged {
    let counts = |reading: &&Reading| match (rule.depth_cm, reading.depth_cm) {
        (Some((low, high)), Some(depth)) => (low..=high).contains(&depth),
        _ => true,
    };
    let mut by_zone: BTreeMap<&str, Vec<&Reading>> = BTreeMap::new();
    for reading in log.readings.iter().filter(counts) {
        by_zone.entry(&reading.zone).or_default().push(reading);
    }
    let set_aside = log.readings.iter().filter(|reading| !counts(reading)).count();
    let span = log.readings.iter().map(|reading| reading.date).fold(None, |span, date| match span {
        None => Some((date, date)),
        Some((first, last)) => Some((date.min(first), date.max(last))),
    });
    let mut zones: Vec<ZoneJudged> = span.map_or_else(Vec::new, |span| {
        by_zone
            .iter()
            .map(|(zone, readings)| zone::judge(zone, readings, &log.turnings, span, rule))
            .collect()
    });
    zones.sort_by_key(ZoneJudged::rank);
    let zones_missing: Vec<&'static str> = rule
        .zones
        .iter()
        .copied()
        .filter(|wanted| !by_zone.keys().any(|zone| is_zone(zone, wanted)))
        .collect();
    let decided = zones.first().map_or(Verdict::NotReached, |worst| worst.verdict);
    let verdict = match decided {
        _ if rule.animal_matter && animal_matter == Some(false) => Verdict::DoesNotApply,
        Verdict::Met if !zones_missing.is_empty() => Verdict::Unknown,
        Verdict::Met if rule.is_from_memory() => Verdict::FiguresReached,
        other => other,
    };
    Judged { verdict, zones, zones_missing, set_aside, renamed: renamed(&by_zone) }
}

/// Names that people give the zones of the rules.
const ZONES: [(&str, &[&str]); 3] = [
    ("edge", &["edge", "outside", "rim", "borde", "orilla"]),
    ("core", &["core", "centre", "center", "middle", "centro", "nucleo", "núcleo"]),
    ("base", &["base", "bottom", "foot", "fondo", "pie"]),
];

fn is_zone(written: &str, wanted: &str) -> bool {
    let written = written.trim().to_lowercase();
    ZONES.iter().any(|(zone, names)| *zone == wanted && names.contains(&written.as_str()))
}

fn renamed(by_zone: &BTreeMap<&str, Vec<&Reading>>) -> Vec<Renamed> {
    let spans: Vec<(&str, NaiveDate, NaiveDate)> = by_zone
        .iter()
        .filter_map(|(zone, readings)| {
            let dates = || readings.iter().map(|reading| reading.date);
            Some((*zone, dates().min()?, dates().max()?))
        })
        .collect();
    let mut found = Vec::new();
    for (from, _, ends) in &spans {
        let next = spans.iter().filter(|(_, begins, _)| begins > ends).min_by_key(|(_, begins, _)| *begins);
        if let Some((to, begins, _)) = next {
            found.push(Renamed { from: (*from).to_owned(), to: (*to).to_owned(), on: *begins });
        }
    }
    found
}

impl Log {
    /// The fire level of each day with a reading or with smoke. Moisture is the last one read until then.
    pub fn fire(&self) -> Vec<(NaiveDate, FireLevel)> {
        let mut hottest: BTreeMap<NaiveDate, Temperature> = BTreeMap::new();
        for reading in &self.readings {
            let known = hottest.entry(reading.date).or_insert(reading.temperature);
            if reading.temperature > *known {
                *known = reading.temperature;
            }
        }
        for date in &self.smoke {
            hottest.entry(*date).or_default();
        }
        hottest
            .into_iter()
            .map(|(date, heat)| {
                let heat = Temperature::from_c(tenths(heat));
                (date, FireLevel::of(heat, self.moisture_on(date), self.smoke.contains(&date)))
            })
            .collect()
    }

    /// The last moisture read until a day.
    fn moisture_on(&self, date: NaiveDate) -> Option<Share> {
        self.moistures
            .iter()
            .filter(|(on, _)| *on <= date)
            .max_by_key(|(on, _)| *on)
            .map(|(_, moisture)| *moisture)
    }

    /// The hottest reading of the last day that was read, with that day.
    pub fn now(&self) -> Option<(NaiveDate, Temperature)> {
        let last = self.readings.iter().map(|reading| reading.date).max()?;
        let today = self.readings.iter().filter(|reading| reading.date == last);
        let hottest = today.map(|reading| reading.temperature).fold(Temperature::from_c(f64::MIN), hotter);
        Some((last, hottest))
    }

    /// What calls for turning, by the last day's readings.
    pub fn triggers(&self) -> Vec<Trigger> {
        let Some((last, hottest)) = self.now() else { return Vec::new() };
        let turned = self.turnings.iter().filter(|date| **date < last).max();
        let since = self.readings.iter().filter(|reading| turned.is_none_or(|turned| reading.date > *turned));
        let peak = since.map(|reading| reading.temperature).fold(hottest, hotter);
        phase::triggers(&State { hottest, peak, oxygen: None, dioxide: None })
    }
}

fn hotter(a: Temperature, b: Temperature) -> Temperature {
    if a > b { a } else { b }
}
