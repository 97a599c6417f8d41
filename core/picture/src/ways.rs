//! Ways side by side: one bar a way from P10 to P90 with its middle, and a line where nothing put down stands.

use crate::axis::{Scale, every, round_numbers};
use crate::band::{EDGE_PX, heading};
use crate::legend::{self, Swatch, hatch};
use crate::list::{Anchor, DisplayList, Point, Role, Screen};
use crate::range::Range;
use crate::text;

const BAR_PX: f64 = 13.0;
const GAP_PX: f64 = 12.0;

/// One way.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct WayBar {
    /// Its name.
    pub name: String,
    /// What the crop gets.
    pub value: Range,
    /// The same in words, to stand beside the bar.
    pub label: String,
    /// Nothing put down: its middle is the line.
    pub bare: bool,
    /// The way that the answer names.
    pub chosen: bool,
}

/// What the bars and the line are called.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct WaysLabels {
    /// Eight runs in ten.
    pub band: String,
    /// The middle run.
    pub median: String,
    /// Nothing put down.
    pub bare: String,
    /// Less than with nothing put down.
    pub less: String,
}

/// The ways in the order given.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct WaysChart {
    /// What it is.
    pub title: String,
    /// What it shows, for who cannot see it.
    pub description: String,
    /// The unit of every value.
    pub unit: String,
    /// What the bars and the line are called.
    pub labels: WaysLabels,
    /// The ways; those whose figures cannot be drawn are left out.
    pub ways: Vec<WayBar>,
}

/// Where the parts of a row stand.
#[derive(Debug, Clone, Copy)]
struct Columns {
    /// Name, bar and value stand side by side; else the bar stands below them.
    beside: bool,
    left: f64,
    right: f64,
    row_px: f64,
}

impl WaysChart {
    /// Draws it; `number` writes the figures of the axis.
    pub fn draw(&self, screen: Screen, number: &dyn Fn(f64) -> String) -> DisplayList {
        let mut list = DisplayList::new(screen.width(), &self.title, &self.description);
        let ways: Vec<(&WayBar, Range)> =
            self.ways.iter().filter_map(|way| Some((way, way.value.drawable()?))).collect();
        let bare = ways.iter().find(|(way, _)| way.bare).map(|(_, value)| value.p50);
        let (low, high) = ways
            .iter()
            .flat_map(|(_, value)| [value.p10, value.p90])
            .fold((0.0, 0.0), |(low, high), value| (f64::min(low, value), f64::max(high, value)));

        let columns = Columns::of(&ways, list.width);
        let ticks = round_numbers(low, high, if columns.beside { 6 } else { 5 });
        let across = Scale::new(
            ticks.first().copied().unwrap_or(0.0),
            ticks.last().copied().unwrap_or(1.0),
            columns.left,
            columns.right,
        );
        let top = heading(&mut list, &self.title, &self.unit);
        let mut names = vec![
            (Swatch::Fill(Role::Bar), self.labels.band.as_str()),
            (Swatch::Upright(Role::Median), &self.labels.median),
        ];
        if let Some(bare) = bare {
            if ways.iter().any(|(way, value)| !way.bare && value.p10 < bare) {
                names.push((Swatch::Hatched(Role::Bar), &self.labels.less));
            }
            names.push((Swatch::Line(Role::Bare), &self.labels.bare));
        }
        let above = legend::draw(&mut list, top, EDGE_PX, &names) + 8.0;
        let below = above + columns.row_px * ways.len() as f64;
        list.height = below + 28.0;

        grid(&mut list, &across, &ticks, (above, below), number);
        for (index, (way, value)) in ways.iter().enumerate() {
            let top = above + columns.row_px * index as f64;
            columns.words(&mut list, way, top);
            bar(&mut list, way, *value, bare, &across, columns.bar_top(top));
        }
        if let Some(bare) = bare {
            let x = across.place(bare);
            if columns.beside {
                list.line(Role::Bare, (x, above), (x, below));
            } else {
                // Beside the bars only, so that it does not cross the names.
                for index in 0..ways.len() {
                    let top = columns.bar_top(above + columns.row_px * index as f64);
                    list.line(Role::Bare, (x, top - 4.0), (x, top + BAR_PX + 4.0));
                }
            }
        }
        for (index, (_, value)) in ways.iter().enumerate() {
            let top = columns.bar_top(above + columns.row_px * index as f64);
            let x = across.place(value.p50);
            list.line(Role::Median, (x, top - 3.0), (x, top + BAR_PX + 3.0));
        }
        list
    }
}

impl Columns {
    fn of(ways: &[(&WayBar, Range)], width: f64) -> Self {
        let widest = |of: fn(&WayBar) -> f64| ways.iter().map(|(way, _)| of(way)).fold(0.0, f64::max);
        let name_px = widest(|way| text::width(name_role(way), &way.name));
        let label_px = widest(|way| text::width(Role::Label, &way.label));
        let room = width - 2.0 * EDGE_PX;
        if name_px + label_px + 2.0 * GAP_PX <= 0.62 * room {
            let left = EDGE_PX + name_px + GAP_PX;
            let right = width - EDGE_PX - label_px - GAP_PX;
            Self { beside: true, left, right, row_px: 30.0 }
        } else {
            Self { beside: false, left: EDGE_PX + 10.0, right: width - EDGE_PX - 10.0, row_px: 50.0 }
        }
    }

    fn bar_top(&self, row: f64) -> f64 {
        if self.beside { row + (self.row_px - BAR_PX) / 2.0 } else { row + 24.0 }
    }

    fn words(&self, list: &mut DisplayList, way: &WayBar, row: f64) {
        let y = if self.beside { row + self.row_px / 2.0 + 4.5 } else { row + 15.0 };
        let role = name_role(way);
        let end = list.width - EDGE_PX;
        let room = end - EDGE_PX - GAP_PX;
        // A long value leaves the name at least half of the row.
        let name = text::fit(role, &way.name, (room - text::width(Role::Label, &way.label)).max(room / 2.0));
        let label = text::fit(Role::Label, &way.label, room - text::width(role, &name));
        list.text(role, (EDGE_PX, y), Anchor::Start, &name);
        list.text(Role::Label, (end, y), Anchor::End, &label);
    }
}

const fn name_role(way: &WayBar) -> Role {
    if way.chosen { Role::Strong } else { Role::Label }
}

fn grid(
    list: &mut DisplayList,
    across: &Scale,
    ticks: &[f64],
    (above, below): (f64, f64),
    number: &dyn Fn(f64) -> String,
) {
    let figures: Vec<String> = ticks.iter().map(|tick| number(*tick)).collect();
    let places: Vec<f64> = ticks.iter().map(|tick| across.place(*tick)).collect();
    let widths: Vec<f64> = figures.iter().map(|figure| text::width(Role::Tick, figure)).collect();
    let shown = every(&places, &widths, 6.0);
    for (index, (x, (figure, wide))) in places.iter().zip(figures.iter().zip(&widths)).enumerate() {
        list.line(Role::Grid, (*x, above), (*x, below));
        let inside = x - wide / 2.0 >= 0.0 && x + wide / 2.0 <= list.width;
        if index % shown == 0 && inside {
            list.text(Role::Tick, (*x, below + 19.0), Anchor::Middle, figure);
        }
    }
    list.line(Role::Axis, (across.place(f64::MIN), below), (across.place(f64::MAX), below));
}

/// The bar of a way; what lies below the line of nothing put down is hatched.
fn bar(list: &mut DisplayList, way: &WayBar, value: Range, bare: Option<f64>, across: &Scale, top: f64) {
    let (from, to) = (across.place(value.p10), across.place(value.p90));
    // A range of no width is still seen.
    let (from, to) = if to - from < 2.0 { (from - 1.0, to + 1.0) } else { (from, to) };
    list.rect(Role::Bar, (from, top), (to - from, BAR_PX));
    if let Some(line) = bare.map(|bare| across.place(bare)).filter(|line| !way.bare && *line > from) {
        hatch(list, (from, top), (line.min(to) - from, BAR_PX));
    }
    if way.chosen {
        let corners = [(from, top), (to, top), (to, top + BAR_PX), (from, top + BAR_PX), (from, top)];
        list.polyline(Role::Chosen, corners.map(|(x, y)| Point::at(x, y)).to_vec());
    }
}
