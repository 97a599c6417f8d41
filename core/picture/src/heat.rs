//! A pile's heat over its days: a line for each zone against the line of its rule, turnings marked.

use crate::axis::{Scale, round_numbers};
use crate::band::{self, EDGE_PX, Tick, heading};
use crate::legend::{self, Swatch};
use crate::list::{Anchor, DisplayList, Point, Role, Screen};
use crate::range::drawable;
use crate::text;

/// Steps of the upright axis.
const STEPS: u32 = 6;
/// Lines of zones, which differ in dash and width; more zones begin anew.
const LINES: [Role; 4] = [Role::Median, Role::Bare, Role::Worked, Role::Look];

/// The readings of one zone.
#[derive(Debug, Clone, PartialEq)]
pub struct HeatLine {
    /// Its name.
    pub zone: String,
    /// Day and reading, by rising day.
    pub readings: Vec<(f64, f64)>,
}

/// A line that a rule draws.
#[derive(Debug, Clone, PartialEq)]
pub struct HeatLimit {
    /// At which heat.
    pub value: f64,
    /// What it says.
    pub label: String,
}

/// The heat of a pile over its days.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct HeatChart {
    /// What it is.
    pub title: String,
    /// What it shows, for who cannot see it.
    pub description: String,
    /// The unit of every value.
    pub unit: String,
    /// Right end of the axis; the left end is day 0.
    pub days: f64,
    /// The zones.
    pub zones: Vec<HeatLine>,
    /// The lines of the rule: what counts, and what is too hot.
    pub limits: Vec<HeatLimit>,
    /// Days on which it was turned.
    pub turnings: Vec<f64>,
    /// What a turning is called.
    pub turning: String,
    /// Names along the axis.
    pub months: Vec<Tick>,
}

impl HeatChart {
    /// Draws it; `number` writes the figures of the axis.
    ///
    /// Days outside the axis and figures that are not finite are left out.
    pub fn draw(&self, screen: Screen, number: &dyn Fn(f64) -> String) -> DisplayList {
        let days = if self.days.is_finite() && self.days >= 1.0 { self.days } else { 1.0 };
        let shown = |day: f64| (0.0..=days).contains(&day);
        let limits: Vec<&HeatLimit> =
            self.limits.iter().filter(|limit| drawable(limit.value).is_some()).collect();
        let values = self
            .zones
            .iter()
            .flat_map(|zone| zone.readings.iter().map(|(_, value)| *value))
            .chain(limits.iter().map(|limit| limit.value))
            .filter(|value| value.is_finite());
        let (low, high) =
            values.fold((f64::MAX, f64::MIN), |(low, high), value| (low.min(value), high.max(value)));
        let (low, high) = if low <= high { (low, high) } else { (0.0, 1.0) };
        let ticks = round_numbers(low, high, STEPS);
        let figures: Vec<String> = ticks.iter().map(|tick| number(*tick)).collect();
        let widest = figures.iter().map(|figure| text::width(Role::Tick, figure)).fold(0.0, f64::max);
        let mut list = DisplayList::new(screen.width(), &self.title, &self.description);
        let left = (EDGE_PX + widest + 7.0).min(list.width / 3.0);
        let right = list.width - EDGE_PX - 4.0;
        let across = Scale::new(0.0, days, left, right);
        let top = heading(&mut list, &self.title, &self.unit);
        let mut names: Vec<(Swatch, &str)> = self
            .zones
            .iter()
            .zip(LINES.iter().cycle())
            .map(|(zone, role)| (Swatch::Line(*role), zone.zone.as_str()))
            .collect();
        if self.turnings.iter().any(|day| shown(*day)) {
            names.push((Swatch::Upright(Role::Lifted), &self.turning));
        }
        let above = legend::draw(&mut list, top, EDGE_PX, &names) + 10.0;
        let below = above + if screen == Screen::Desk { 230.0 } else { 170.0 };
        let ends = ticks.first().copied().zip(ticks.last().copied()).unwrap_or((0.0, 1.0));
        let up = Scale::new(ends.0, ends.1, below, above);
        list.height = below + 26.0;
        for (tick, figure) in ticks.iter().zip(&figures) {
            let y = up.place(*tick);
            list.line(Role::Grid, (left, y), (right, y));
            let room = left - EDGE_PX - 6.0;
            list.text(Role::Tick, (left - 6.0, y + 4.0), Anchor::End, &text::fit(Role::Tick, figure, room));
        }
        let ticks: Vec<&Tick> = self.months.iter().filter(|tick| shown(tick.day)).collect();
        band::days(&mut list, &across, below, &ticks);
        for day in self.turnings.iter().filter(|day| shown(**day)) {
            let x = across.place(*day);
            list.line(Role::Lifted, (x, below), (x, above));
        }
        for (zone, role) in self.zones.iter().zip(LINES.iter().cycle()) {
            let points: Vec<Point> = zone
                .readings
                .iter()
                .filter(|(day, value)| shown(*day) && value.is_finite())
                .map(|(day, value)| Point::at(across.place(*day), up.place(*value)))
                .collect();
            for point in &points {
                list.circle(*role, (point.x, point.y), 2.2, true);
            }
            list.polyline(*role, points);
        }
        for (number, limit) in limits.into_iter().enumerate() {
            let y = up.place(limit.value);
            list.line(Role::Hungry, (left, y), (right, y));
            let words = text::fit(Role::Flag, &limit.label, right - left - 8.0);
            // The first is what counts: readings that count are above it, so its words go below.
            let beside = if number == 0 { y + 15.0 } else { y - 5.0 };
            list.text(Role::Flag, (right - 4.0, beside), Anchor::End, &words);
        }
        list
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::list::Item;

    fn chart() -> HeatChart {
        HeatChart {
            title: "Pile by the gate".to_owned(),
            description: "Core and edge over two weeks".to_owned(),
            unit: "°C".to_owned(),
            days: 14.0,
            zones: vec![
                HeatLine { zone: "core".to_owned(), readings: vec![(0.0, 20.0), (3.0, 61.0), (20.0, 70.0)] },
                HeatLine { zone: "edge".to_owned(), readings: vec![(0.0, f64::NAN), (3.0, 54.0)] },
            ],
            limits: vec![HeatLimit { value: 55.0, label: "the rule, 55 °C".to_owned() }],
            turnings: vec![4.0, 40.0],
            turning: "turned".to_owned(),
            months: vec![Tick { day: 2.0, label: "May".to_owned() }],
        }
    }

    #[test]
    fn what_is_drawn_lies_within_the_picture() {
        for screen in [Screen::Hand, Screen::Phone, Screen::Desk] {
            let list = chart().draw(screen, &|value| value.to_string());
            let mut circles = 0;
            for item in &list.items {
                if let Item::Circle { at, .. } = item {
                    circles += 1;
                    assert!(at.x >= 0.0 && at.x <= list.width && at.y <= list.height);
                }
            }
            assert_eq!(circles, 3, "days outside and figures that are none are left out");
        }
    }

    #[test]
    fn an_empty_log_is_an_empty_chart() {
        let list = HeatChart::default().draw(Screen::Phone, &|value| value.to_string());
        assert!(list.height.is_finite());
    }
}
