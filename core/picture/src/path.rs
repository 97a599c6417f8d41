//! A walked path as it grows: where it began, where it is, and a bar for its scale.

use crate::axis::round_numbers;
use crate::band::EDGE_PX;
use crate::list::{Anchor, DisplayList, Point, Role, Screen};

/// Height of the ground, pixels.
const HEIGHT_PX: f64 = 220.0;
/// The bar is about this part of the width.
const BAR: f64 = 0.3;
/// Least ground that is drawn, so that a person who stands still draws no wild zigzag, m.
const LEAST_M: f64 = 10.0;

/// A path in metres, east and north.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct PathChart {
    /// What it is.
    pub title: String,
    /// What it shows, for who cannot see it.
    pub description: String,
    /// Parts of the walk, each in its order.
    pub parts: Vec<Vec<(f64, f64)>>,
    /// What a length of so many metres is called.
    pub unit: String,
}

impl PathChart {
    /// Draws it; `number` writes the length of the bar.
    pub fn draw(&self, screen: Screen, number: &dyn Fn(f64) -> String) -> DisplayList {
        let mut list = DisplayList::new(screen.width(), &self.title, &self.description);
        list.height = HEIGHT_PX;
        let all = || self.parts.iter().flatten().filter(|(x, y)| x.is_finite() && y.is_finite());
        let reach = |of: fn(&(f64, f64)) -> f64| {
            let (low, high) =
                all().map(of).fold((f64::MAX, f64::MIN), |(low, high), at| (low.min(at), high.max(at)));
            if low <= high { (low, high) } else { (0.0, 0.0) }
        };
        let ((west, east), (south, north)) = (reach(|at| at.0), reach(|at| at.1));
        let room = (list.width - 2.0 * EDGE_PX, HEIGHT_PX - 2.0 * EDGE_PX - 24.0);
        let scale = (room.0 / (east - west).max(LEAST_M)).min(room.1 / (north - south).max(LEAST_M));
        let middle = (f64::midpoint(west, east), f64::midpoint(south, north));
        let at = |(x, y): (f64, f64)| {
            let across = list_middle(screen) + (x - middle.0) * scale;
            Point::at(across, EDGE_PX + room.1 / 2.0 - (y - middle.1) * scale)
        };
        for part in &self.parts {
            list.polyline(Role::Median, part.iter().copied().map(at).collect());
        }
        if let Some(first) = all().next() {
            let start = at(*first);
            list.circle(Role::Reading, (start.x, start.y), 5.0, true);
        }
        if let Some(last) = all().next_back() {
            let end = at(*last);
            list.circle(Role::Look, (end.x, end.y), 7.0, false);
        }
        let wanted = room.0 * BAR / scale;
        let bar =
            round_numbers(0.0, wanted, 1).into_iter().rfind(|step| *step > 0.0 && *step <= wanted * 2.0);
        if let Some(metres) = bar {
            let (left, below) = (EDGE_PX, HEIGHT_PX - EDGE_PX);
            list.line(Role::Axis, (left, below), (left + metres * scale, below));
            let label = format!("{} {}", number(metres), self.unit);
            list.text(Role::Label, (left, below - 6.0), Anchor::Start, &label);
        }
        list
    }
}

fn list_middle(screen: Screen) -> f64 {
    screen.width() / 2.0
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::list::Item;

    fn points(chart: &PathChart) -> Vec<Point> {
        let list = chart.draw(Screen::Hand, &|value| value.to_string());
        list.items
            .iter()
            .filter_map(|item| match item {
                Item::Circle { at, .. } => Some(*at),
                _ => None,
            })
            .collect()
    }

    #[test]
    fn a_path_lies_within_its_picture_with_north_above() {
        let square = vec![(0.0, 0.0), (0.0, 60.0), (90.0, 60.0)];
        let chart = PathChart { parts: vec![square], unit: "m".to_owned(), ..PathChart::default() };
        let [start, end]: [Point; 2] = points(&chart).try_into().unwrap_or([Point::at(0.0, 0.0); 2]);
        assert!(end.x > start.x && end.y < start.y, "east is right, north is up");
        for at in [start, end] {
            assert!(at.x >= 0.0 && at.x <= 280.0 && at.y >= 0.0 && at.y <= HEIGHT_PX);
        }
    }

    #[test]
    fn who_stands_still_draws_a_dot() {
        let chart = PathChart { parts: vec![vec![(1.0, 1.0), (1.2, 0.9)]], ..PathChart::default() };
        let [start, end]: [Point; 2] = points(&chart).try_into().unwrap_or([Point::at(0.0, 0.0); 2]);
        assert!((start.x - end.x).abs() < 8.0);
        assert!(points(&PathChart::default()).is_empty());
    }
}
