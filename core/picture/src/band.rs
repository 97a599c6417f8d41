//! A band over time: what eight runs in ten say of tie-up or mineral nitrogen, with what was done on which day.

use crate::axis::{Scale, every, round_numbers};
use crate::flag::{self, Flag, LANE_PX, Sign};
use crate::legend::{self, Swatch};
use crate::list::{Anchor, DisplayList, Point, Role, Screen};
use crate::range::{Range, drawable};
use crate::text;

/// Free space at the left and right of a picture, pixels.
pub(crate) const EDGE_PX: f64 = 8.0;
/// Height of a line of the heading.
pub(crate) const HEADING_PX: f64 = 20.0;
/// Steps of the upright axis.
const STEPS: u32 = 6;

/// A day with its words, for the axis.
#[derive(Debug, Clone, PartialEq)]
pub struct Tick {
    /// Days from the left end.
    pub day: f64,
    /// Short name of a month, as a rule.
    pub label: String,
}

/// What happened or is expected on a day.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum MarkKind {
    /// Residue was put down.
    PutDown,
    /// Nitrogen was given.
    Feed,
    /// The crop is behind its need.
    Hungry,
    /// It would be with nothing put down.
    HungryBare,
    /// The day to look.
    Look,
    /// The layer was dug in.
    Worked,
    /// The layer was lifted to a batch.
    Lifted,
}

/// A day with its kind and its words.
#[derive(Debug, Clone, PartialEq)]
pub struct Mark {
    /// Days from the left end.
    pub day: f64,
    /// What it is.
    pub kind: MarkKind,
    /// A few words.
    pub label: String,
}

/// Something measured.
#[derive(Debug, Clone, PartialEq)]
pub struct Reading {
    /// Days from the left end.
    pub day: f64,
    /// The figure.
    pub value: f64,
    /// How far it may be off, where that is known.
    pub ends: Option<(f64, f64)>,
    /// A few words.
    pub label: String,
}

/// What the band and the lines are called.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct BandLabels {
    /// Eight runs in ten.
    pub band: String,
    /// The middle run.
    pub median: String,
    /// Nothing put down.
    pub bare: String,
}

/// A band over the days of a season.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct BandChart {
    /// What it is.
    pub title: String,
    /// What it shows, for who cannot see it.
    pub description: String,
    /// The unit of every value.
    pub unit: String,
    /// What the band and the lines are called.
    pub labels: BandLabels,
    /// Right end of the axis; the left end is day 0.
    pub days: f64,
    /// The runs, by rising day.
    pub band: Vec<(f64, Range)>,
    /// The middle with nothing put down, by rising day; empty where there is none.
    pub bare: Vec<(f64, f64)>,
    /// Names along the axis.
    pub months: Vec<Tick>,
    /// What was done or is expected.
    pub marks: Vec<Mark>,
    /// What was measured.
    pub readings: Vec<Reading>,
}

impl BandChart {
    /// Draws it; `number` writes the figures of the axis.
    ///
    /// Days outside the axis and figures that are not finite are left out.
    pub fn draw(&self, screen: Screen, number: &dyn Fn(f64) -> String) -> DisplayList {
        let days = if self.days.is_finite() && self.days >= 1.0 { self.days } else { 1.0 };
        let shown = |day: f64| (0.0..=days).contains(&day);
        let band: Vec<(f64, Range)> = rising(
            self.band
                .iter()
                .filter_map(|(day, range)| Some((*day, range.drawable()?)))
                .filter(|(day, _)| shown(*day)),
        );
        let bare: Vec<(f64, f64)> = rising(
            self.bare
                .iter()
                .filter_map(|(day, value)| Some((*day, drawable(*value)?)))
                .filter(|(day, _)| shown(*day)),
        );
        let readings: Vec<&Reading> = self
            .readings
            .iter()
            .filter(|reading| shown(reading.day) && drawable(reading.value).is_some())
            .collect();
        let (low, high) = ends(&band, &bare, &readings);

        let ticks = round_numbers(low, high, STEPS);
        let figures: Vec<String> = ticks.iter().map(|tick| number(*tick)).collect();
        let widest = figures.iter().map(|figure| text::width(Role::Tick, figure)).fold(0.0, f64::max);
        let mut list = DisplayList::new(screen.width(), &self.title, &self.description);
        let left = (EDGE_PX + widest + 7.0).min(list.width / 3.0);
        let across = Scale::new(0.0, days, left, list.width - EDGE_PX - 4.0);

        let top = self.head(&mut list, &band, &bare);
        let (mut flags, feet) = self.flags(&list, &across, &readings, shown);
        let above = top + LANE_PX * flag::stack(&mut flags) as f64 + 6.0;
        let below = above + if screen == Screen::Desk { 230.0 } else { 170.0 };
        let up = Scale::new(
            ticks.first().copied().unwrap_or(0.0),
            ticks.last().copied().unwrap_or(1.0),
            below,
            above,
        );
        list.height = below + 26.0;

        for (tick, figure) in ticks.iter().zip(&figures) {
            let y = up.place(*tick);
            let role = if *tick == 0.0 { Role::Axis } else { Role::Grid };
            list.line(role, (left, y), (list.width - EDGE_PX, y));
            let room = left - EDGE_PX - 6.0;
            list.text(Role::Tick, (left - 6.0, y + 4.0), Anchor::End, &text::fit(Role::Tick, figure, room));
        }
        let months = self.months.iter().filter(|tick| shown(tick.day)).map(|tick| (tick.day, tick));
        let months: Vec<&Tick> = rising(months).into_iter().map(|(_, tick)| tick).collect();
        self::days(&mut list, &across, below, &months);
        plot(&mut list, &band, &bare, &across, &up);
        for reading in &readings {
            whisker(&mut list, reading, across.place(reading.day), &up);
        }
        flag::draw(&mut list, &flags, above - 4.0, |index| {
            feet.get(index).copied().flatten().map_or(below, |value| up.place(value) - 5.0)
        });
        list
    }

    /// Heading and legend; gives the lower edge.
    fn head(&self, list: &mut DisplayList, band: &[(f64, Range)], bare: &[(f64, f64)]) -> f64 {
        let top = heading(list, &self.title, &self.unit);
        let mut names = Vec::new();
        if !band.is_empty() {
            names.push((Swatch::Fill(Role::Band), self.labels.band.as_str()));
            names.push((Swatch::Line(Role::Median), self.labels.median.as_str()));
        }
        if !bare.is_empty() {
            names.push((Swatch::Line(Role::Bare), self.labels.bare.as_str()));
        }
        legend::draw(list, top, EDGE_PX, &names) + 4.0
    }

    /// The flags of marks and readings, and the value at which the needle of each ends; `None` = at the axis.
    fn flags(
        &self,
        list: &DisplayList,
        across: &Scale,
        readings: &[&Reading],
        shown: impl Fn(f64) -> bool,
    ) -> (Vec<Flag>, Vec<Option<f64>>) {
        let new = |sign, day, words: &str| Flag::new(sign, across.place(day), words, EDGE_PX, list.width);
        let marks = self.marks.iter().filter(|mark| shown(mark.day));
        let mut flags: Vec<Flag> =
            marks.map(|mark| new(Sign::Mark(mark.kind), mark.day, &mark.label)).collect();
        let mut feet = vec![None; flags.len()];
        for reading in readings.iter().filter(|reading| !reading.label.is_empty()) {
            flags.push(new(Sign::Reading, reading.day, &reading.label));
            feet.push(Some(reading.value));
        }
        (flags, feet)
    }
}

/// The axis of days with its ticks, which rise; a label stands where it is inside and touches no other.
pub(crate) fn days(list: &mut DisplayList, across: &Scale, below: f64, ticks: &[&Tick]) {
    let places: Vec<f64> = ticks.iter().map(|tick| across.place(tick.day)).collect();
    let widths: Vec<f64> = ticks.iter().map(|tick| text::width(Role::Tick, &tick.label)).collect();
    let shown = every(&places, &widths, 6.0);
    list.line(Role::Axis, (across.place(0.0), below), (list.width - EDGE_PX, below));
    for (index, ((tick, x), wide)) in ticks.iter().zip(&places).zip(&widths).enumerate() {
        list.line(Role::Axis, (*x, below), (*x, below + 5.0));
        let inside = x - wide / 2.0 >= 0.0 && x + wide / 2.0 <= list.width;
        if index % shown == 0 && inside {
            list.text(Role::Tick, (*x, below + 19.0), Anchor::Middle, &tick.label);
        }
    }
}

/// The heading with its unit; gives the lower edge.
pub(crate) fn heading(list: &mut DisplayList, title: &str, unit: &str) -> f64 {
    let words = if unit.is_empty() { title.to_owned() } else { format!("{title}, {unit}") };
    let mut y = 2.0;
    for line in text::wrap(Role::Heading, &words, list.width - 2.0 * EDGE_PX) {
        list.text(Role::Heading, (EDGE_PX, y + 14.0), Anchor::Start, &line);
        y += HEADING_PX;
    }
    y + 2.0
}

/// Only what comes later than all before it.
fn rising<T>(all: impl Iterator<Item = (f64, T)>) -> Vec<(f64, T)> {
    let mut kept: Vec<(f64, T)> = Vec::new();
    for (day, value) in all {
        if kept.last().is_none_or(|(last, _)| day > *last) {
            kept.push((day, value));
        }
    }
    kept
}

/// The lowest and the highest value, zero included.
fn ends(band: &[(f64, Range)], bare: &[(f64, f64)], readings: &[&Reading]) -> (f64, f64) {
    let runs = band.iter().flat_map(|(_, range)| [range.p10, range.p90]);
    let measured = readings.iter().flat_map(|reading| {
        let (low, high) = reading.ends.unwrap_or((reading.value, reading.value));
        [Some(reading.value), drawable(low), drawable(high)].into_iter().flatten()
    });
    runs.chain(bare.iter().map(|(_, value)| *value))
        .chain(measured)
        .fold((0.0, 0.0), |(low, high), value| (f64::min(low, value), f64::max(high, value)))
}

fn plot(list: &mut DisplayList, band: &[(f64, Range)], bare: &[(f64, f64)], across: &Scale, up: &Scale) {
    let points = |value: fn(&Range) -> f64| {
        band.iter()
            .map(|(day, range)| Point::at(across.place(*day), up.place(value(range))))
            .collect::<Vec<_>>()
    };
    let (low, middle, high) =
        (points(|range| range.p10), points(|range| range.p50), points(|range| range.p90));
    list.area(Role::Band, high.iter().chain(low.iter().rev()).copied().collect());
    list.polyline(Role::BandEdge, high);
    list.polyline(Role::BandEdge, low);
    list.polyline(
        Role::Bare,
        bare.iter().map(|(day, value)| Point::at(across.place(*day), up.place(*value))).collect(),
    );
    list.polyline(Role::Median, middle);
}

fn whisker(list: &mut DisplayList, reading: &Reading, x: f64, up: &Scale) {
    if let Some((low, high)) = reading.ends.and_then(|(low, high)| Some((drawable(low)?, drawable(high)?))) {
        let (low, high) = (up.place(low), up.place(high));
        list.line(Role::Reading, (x, low), (x, high));
        list.line(Role::Reading, (x - 4.0, low), (x + 4.0, low));
        list.line(Role::Reading, (x - 4.0, high), (x + 4.0, high));
    }
    flag::symbol(list, Sign::Reading, x, up.place(reading.value));
}
