//! Where places lie, and what lies on them on a day: what a map shows.

use chrono::NaiveDate;
use kerfbook_ledger::kind::{PlaceKind, Way as EntryWay};
use kerfbook_ledger::projection::place::Measure;
use kerfbook_ledger::{Anchor, Book, Date, EntryId, Outline, PlaceView, Trees};
use kerfbook_science::geometry::frame::{Frame, Point, Position};
use kerfbook_science::units::Length;

use crate::error::ActError;
use crate::lying;
use crate::put_down::way_of;
use crate::scenario::Way;
use crate::way;

/// Most trees of one place that are drawn one by one.
const MOST_TREES: u32 = 2_000;

/// A tree and the ground around it, metres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MapTree {
    /// Where its trunk stands.
    pub at: Point,
    /// Its drip line.
    pub radius_m: f64,
    /// Kept bare.
    pub gap_m: f64,
}

/// A place as a map has it.
#[derive(Debug, Clone, PartialEq)]
pub struct OnMap {
    /// Which.
    pub place: EntryId,
    /// Corners, metres east and north; two of them are a line.
    pub outline: Vec<Point>,
    /// More ground of the place, and holes in it.
    pub further: Vec<Vec<Point>>,
    /// Its trees: where they stand, or, where only their number is known, evenly along its longer side.
    pub trees: Vec<MapTree>,
    /// The way of what lies on it, or else in its soil; none where nothing does.
    pub lies: Option<Way>,
    /// How deep it lies on the soil, where it does.
    pub depth: Option<Length>,
}

/// Places that can be drawn, and those that cannot.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Map {
    /// Places whose frames are tied to the ground, in one frame: they lie to each other as they do, north up.
    pub joined: Vec<OnMap>,
    /// Places of which only the own shape is known, each in its own frame.
    pub apart: Vec<OnMap>,
    /// Places of which only the size is known.
    pub unmapped: Vec<EntryId>,
}

/// Every place of a book as it was on a day.
///
/// # Errors
/// A book that cannot be read.
pub fn map(book: &Book, on: NaiveDate) -> Result<Map, ActError> {
    let day = Date::of(on)?;
    let mut map = Map::default();
    let mut joined_about: Option<Frame> = None;
    let standing = |view: &PlaceView| {
        let closed = view.closed.is_some_and(|closed| closed <= day);
        !view.withdrawn() && !closed && view.measures.first().is_some_and(|first| first.date <= day)
    };
    for view in book.places()?.iter().filter(|view| standing(view)) {
        let Some(measure) = shape(view, day) else {
            map.unmapped.push(view.id);
            continue;
        };
        let (lies, depth) = lies(book, view, on)?;
        let outline = points(&measure.outline);
        let mut made = OnMap {
            place: view.id,
            trees: trees(view, measure, &outline),
            outline,
            further: measure.further.iter().flatten().map(points).collect(),
            lies,
            depth,
        };
        match measure.anchor.as_ref().and_then(position) {
            Some(position) => {
                let own = Frame::about(position);
                let about = *joined_about.get_or_insert(own);
                let moved = |at: &mut Point| *at = about.point(own.position(*at));
                made.outline.iter_mut().chain(made.further.iter_mut().flatten()).for_each(moved);
                made.trees.iter_mut().for_each(|tree| moved(&mut tree.at));
                map.joined.push(made);
            }
            None => map.apart.push(made),
        }
    }
    Ok(map)
}

/// The last measuring until a day that has corners or rows of trees.
fn shape(view: &PlaceView, day: Date) -> Option<&Measure> {
    let drawn = |measure: &&Measure| {
        let rows = measure.trees.iter().flat_map(|trees| &trees.rows);
        measure.outline.0.len() >= 2 || rows.into_iter().any(|row| !row.line.0.is_empty())
    };
    view.measures.iter().rev().filter(|measure| measure.date <= day).find(drawn)
}

/// Millimetres of an entry as metres.
fn points(outline: &Outline) -> Vec<Point> {
    let point = |[east, north]: &[i32; 2]| Point::new(f64::from(*east) / 1000.0, f64::from(*north) / 1000.0);
    outline.0.iter().map(point).collect()
}

fn position(anchor: &Anchor) -> Option<Position> {
    let degrees = |e9: i64| e9 as f64 / 1e9;
    Position::new(degrees(anchor.latitude_e9), degrees(anchor.longitude_e9)).ok()
}

/// Trees of a place where they stand; where only their number is known, evenly along its longer side, with rings as large
/// as its area has it.
fn trees(view: &PlaceView, measure: &Measure, outline: &[Point]) -> Vec<MapTree> {
    let known = measure.trees.as_ref().map(|trees| in_rows(trees, usual_gap(view))).unwrap_or_default();
    if !known.is_empty() {
        return known;
    }
    let Some(count) = measure.containers.filter(|count| (1..=MOST_TREES).contains(count)) else {
        return Vec::new();
    };
    if view.place_kind != PlaceKind::Rings {
        return Vec::new();
    }
    let Some((from, to)) = middle_line(outline) else { return Vec::new() };
    let gap = usual_gap(view);
    let each = measure.area_mm2 as f64 / 1e6 / f64::from(count);
    let radius_m = (each / core::f64::consts::PI + gap * gap).sqrt();
    (0..count)
        .map(|tree| (f64::from(tree) + 0.5) / f64::from(count))
        .map(|part| Point::new(from.x + (to.x - from.x) * part, from.y + (to.y - from.y) * part))
        .map(|at| MapTree { at, radius_m, gap_m: gap })
        .collect()
}

/// The gap last checked, or the usual one, m.
fn usual_gap(view: &PlaceView) -> f64 {
    let checked = view.gaps.last().map(|gap| f64::from(gap.body.gap_mm) / 1000.0);
    checked.unwrap_or(way::RING_GAP_CM.value / 100.0)
}

/// Trees of rows whose lines are known; those that are missing or dead have no ring.
fn in_rows(trees: &Trees, gap_m: f64) -> Vec<MapTree> {
    let metres = |mm: u32| f64::from(mm) / 1000.0;
    let mut found = Vec::new();
    for row in &trees.rows {
        let line = points(&row.line);
        for tree in 1..=row.trees.min(MOST_TREES) {
            let unlike = trees.unlike.iter().find(|one| (one.row, one.tree) == (row.row, tree));
            if unlike.is_some_and(|one| one.state.is_some()) {
                continue;
            }
            let stem = (tree as usize).checked_sub(1).and_then(|at| line.get(at)).copied();
            let spaced = trees.spacing_mm.is_some();
            let Some(at) = (if spaced { along(&line, tree, row.trees) } else { stem }) else { continue };
            let radius = unlike.and_then(|one| one.radius_mm).or(trees.radius_mm);
            let gap = unlike.and_then(|one| one.gap_mm).or(trees.gap_mm).map_or(gap_m, metres);
            found.push(MapTree { at, radius_m: radius.map_or(gap, metres), gap_m: gap });
        }
    }
    found.truncate(MOST_TREES as usize);
    found
}

/// Where a tree stands on a line that goes from the first to the last of so many.
fn along(line: &[Point], tree: u32, trees: u32) -> Option<Point> {
    let length: f64 =
        line.windows(2).map(|pair| pair.first().zip(pair.last()).map_or(0.0, |(a, b)| a.distance(*b))).sum();
    let mut left = length * f64::from(tree - 1) / f64::from(trees.max(2) - 1);
    for pair in line.windows(2) {
        let (from, to) = pair.first().zip(pair.last())?;
        let long = from.distance(*to);
        if left <= long {
            let part = if long > 0.0 { left / long } else { 0.0 };
            return Some(*from + (*to - *from) * part);
        }
        left -= long;
    }
    line.last().copied()
}

/// A line itself; of an outline, from the middle of one end to that of the other, along the direction of its longest side.
fn middle_line(outline: &[Point]) -> Option<(Point, Point)> {
    if let [from, to] = outline {
        return Some((*from, *to));
    }
    let next = outline.iter().cycle().skip(1);
    let side = outline.iter().zip(next).map(|(from, to)| *to - *from);
    // Of sides as long as each other the first: trees count the way the outline was drawn.
    let longer =
        |best: Point, side: Point| if side.length() > best.length() * (1.0 + 1e-9) { side } else { best };
    let longest = side.reduce(longer)?;
    if longest.length() <= 0.0 {
        return None;
    }
    let along = longest * (1.0 / longest.length());
    let span = |of: &dyn Fn(Point) -> f64| {
        outline
            .iter()
            .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), at| (low.min(of(*at)), high.max(of(*at))))
    };
    let (near, far) = span(&|at| at.dot(along));
    let (left, right) = span(&|at| along.cross(at));
    let aside = 0.5 * (left + right);
    let at = |reach: f64| Point::new(along.x * reach - along.y * aside, along.y * reach + along.x * aside);
    Some((at(near), at(far)))
}

/// What lies on the soil, the last laid first; else what was worked in.
fn lies(book: &Book, view: &PlaceView, on: NaiveDate) -> Result<(Option<Way>, Option<Length>), ActError> {
    let lying = lying::lying(book, view.id, on, None)?;
    let of = |entry: EntryId| view.layers.iter().find(|layer| layer.entry == entry);
    if let Some(top) = lying.layers.iter().rev().find_map(|layer| of(layer.entry)) {
        return Ok((Some(way_of(top.way)), Some(lying.depth.typical)));
    }
    let within = view.layers.iter().rev().find(|layer| layer.date.naive() <= on && layer.lies_bp > 0);
    let way = within.map(|layer| match layer.way {
        EntryWay::CompostedFirst => Way::CompostedFirst,
        _ => Way::WorkedIn,
    });
    Ok((way, None))
}
