//! Every plot of a trial as a dot, those of a block joined, with the mean of each treatment and its interval.

use crate::axis::{Scale, round_numbers};
use crate::list::{Anchor, DisplayList, Point, Role, Screen};
use crate::text;

/// One treatment.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct DotsRow {
    /// What it is called.
    pub name: String,
    /// Its mean.
    pub mean: f64,
    /// Ends of its interval; none where nothing is judged.
    pub ends: Option<(f64, f64)>,
    /// One value a block, or a plot where there are no blocks; `None` for a lost one.
    pub values: Vec<Option<f64>>,
}

/// A trial.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct DotsChart {
    /// What it is, in a few words.
    pub title: String,
    /// What it shows, in a sentence or two.
    pub description: String,
    /// Treatments, from above.
    pub rows: Vec<DotsRow>,
    /// Whether the values of one place in the lists belong to one block.
    pub joined: bool,
}

const EDGE: f64 = 14.0;
const TOP: f64 = 34.0;
const TALL: f64 = 52.0;

impl DotsChart {
    /// Draws it; `number` writes the figures of the axis.
    pub fn draw(&self, screen: Screen, number: &dyn Fn(f64) -> String) -> DisplayList {
        let mut list = DisplayList::new(screen.width(), &self.title, &self.description);
        let ends = |row: &DotsRow| row.ends.map_or([row.mean, row.mean], |(low, high)| [low, high]);
        let all = self.rows.iter().flat_map(|row| row.values.iter().flatten().copied().chain(ends(row)));
        let (low, high) = all
            .filter(|value| value.is_finite())
            .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), value| (low.min(value), high.max(value)));
        let (low, high) = if low <= high { (low, high) } else { (0.0, 1.0) };
        let ticks = round_numbers(low, high, 5);
        let across = Scale::new(
            ticks.first().copied().unwrap_or(0.0),
            ticks.last().copied().unwrap_or(1.0),
            EDGE + 8.0,
            list.width - EDGE - 8.0,
        );
        let below = TOP + TALL * self.rows.len() as f64;
        list.height = below + 30.0;
        list.text(Role::Heading, (EDGE, 20.0), Anchor::Start, &self.title);
        for &tick in &ticks {
            let x = across.place(tick);
            list.line(Role::Grid, (x, TOP), (x, below));
            list.text(Role::Tick, (x, below + 18.0), Anchor::Middle, &number(tick));
        }
        let height = |row: usize| TOP + TALL * row as f64 + 34.0;
        if self.joined {
            let blocks = self.rows.iter().map(|row| row.values.len()).max().unwrap_or(0);
            for block in 0..blocks {
                let points = self.rows.iter().enumerate().filter_map(|(at, row)| {
                    let value = row.values.get(block).copied().flatten()?;
                    Some(Point::at(across.place(value), height(at)))
                });
                list.polyline(Role::Axis, points.collect());
            }
        }
        for (at, row) in self.rows.iter().enumerate() {
            let y = height(at);
            let name = text::fit(Role::Label, &row.name, list.width - 2.0 * EDGE);
            list.text(Role::Label, (EDGE, y - 18.0), Anchor::Start, &name);
            for value in row.values.iter().flatten().filter(|value| value.is_finite()) {
                list.circle(Role::Reading, (across.place(*value), y), 4.0, false);
            }
            if let Some((low, high)) = row.ends {
                list.line(Role::Median, (across.place(low), y + 9.0), (across.place(high), y + 9.0));
            }
            let x = across.place(row.mean);
            list.line(Role::Median, (x, y + 3.0), (x, y + 15.0));
        }
        list
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::list::Item;

    #[test]
    fn every_plot_is_a_dot_and_lost_ones_are_none() {
        let row = |mean, values: &[Option<f64>]| DotsRow {
            name: "chips".to_owned(),
            mean,
            ends: Some((mean - 1.0, mean + 1.0)),
            values: values.to_vec(),
        };
        let chart = DotsChart {
            rows: vec![row(4.0, &[Some(3.0), Some(5.0)]), row(9.0, &[Some(9.0), None])],
            joined: true,
            ..DotsChart::default()
        };
        let list = chart.draw(Screen::Phone, &|value| value.to_string());
        let count = |wanted: fn(&Item) -> bool| list.items.iter().filter(|item| wanted(item)).count();
        assert_eq!(count(|item| matches!(item, Item::Circle { .. })), 3);
        // The second block has one plot only: nothing to join.
        assert_eq!(count(|item| matches!(item, Item::Polyline { .. })), 1);
        assert!(DotsChart::default().draw(Screen::Desk, &|value| value.to_string()).height > 0.0);
    }
}
