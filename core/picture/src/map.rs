//! Places to scale, seen from above: outlines, rows, rings, and what lies where by pattern.

use crate::list::{Anchor, DisplayList, Point, Role, Screen};
use crate::pattern::{self, Pattern};
use crate::text;

/// From the edge of the picture, pixels.
const EDGE_PX: f64 = 12.0;
/// Between two sheets.
const GAP_PX: f64 = 26.0;
/// Most height of the sheets together.
const MOST_HEIGHT_PX: f64 = 460.0;
/// Most pixels a metre: a single pot does not fill the picture.
const MOST_SCALE: f64 = 60.0;
/// Radius of the disc that holds a place's number.
const BADGE_PX: f64 = 9.5;
/// Most width of a number.
const MOST_NUMBER_PX: f64 = 60.0;
/// Room for arrow and bar below the sheets.
const FOOT_PX: f64 = 44.0;
/// Corners of a circle that is drawn as an area.
const CORNERS: u32 = 48;

/// What lies on a place, by the way it was put down.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Lies {
    /// Nothing.
    Nothing,
    /// Mixed into the soil.
    WorkedIn,
    /// On the soil.
    OnTop,
    /// On the soil over compost, manure or urine.
    OverNitrogen,
    /// Composted first, then mixed in.
    Composted,
    /// On a path.
    Path,
    /// In rings under trees.
    Ring,
}

impl Lies {
    const fn pattern(self) -> Pattern {
        match self {
            Self::Nothing => Pattern::Empty,
            Self::WorkedIn => Pattern::Level,
            Self::OnTop => Pattern::Rising,
            Self::OverNitrogen => Pattern::Crossed,
            Self::Composted => Pattern::Dots,
            Self::Path => Pattern::Upright,
            Self::Ring => Pattern::Falling,
        }
    }
}

/// A tree with the ground around it, metres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ring {
    /// East and north in the sheet's frame.
    pub at: [f64; 2],
    /// Drip line.
    pub radius: f64,
    /// Kept bare at the trunk.
    pub gap: f64,
}

/// A place on a sheet.
#[derive(Debug, Clone, PartialEq)]
pub struct MapPlace {
    /// What it is called on the map: a number that a list beside it explains.
    pub number: String,
    /// Corners, metres east and north of the sheet's frame; a line has two, and trees may stand without any.
    pub outline: Vec<[f64; 2]>,
    /// More ground of the place, and holes in it: ground within an odd number of outlines belongs to it.
    pub further: Vec<Vec<[f64; 2]>>,
    /// Its trees.
    pub rings: Vec<Ring>,
    /// What lies there.
    pub lies: Lies,
}

impl MapPlace {
    /// Corners that are on the Earth.
    fn corners(&self) -> impl Iterator<Item = [f64; 2]> + '_ {
        self.outline.iter().copied().filter(|at| on_earth(*at))
    }

    fn further(&self) -> impl Iterator<Item = [f64; 2]> + '_ {
        self.further.iter().flatten().copied().filter(|at| on_earth(*at))
    }

    fn rings(&self) -> impl Iterator<Item = Ring> + '_ {
        let sound = |ring: &Ring| on_earth(ring.at) && (0.0..MOST_M).contains(&ring.radius);
        self.rings.iter().copied().filter(sound)
    }
}

/// Furthest from a frame's origin that anything is drawn, metres.
const MOST_M: f64 = 1e7;

fn on_earth(at: [f64; 2]) -> bool {
    at.iter().all(|at| at.abs() < MOST_M)
}

/// Places in one frame: they lie to each other as drawn.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Sheet {
    /// Its places.
    pub places: Vec<MapPlace>,
}

/// Words of a map.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct MapLabels {
    /// The letter at the arrow's head; empty where nobody knows where north is.
    pub north: String,
    /// For each thing that lies somewhere, what its pattern means.
    pub lies: Vec<(Lies, String)>,
}

/// Places to scale.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct MapChart {
    /// What it is, in a few words.
    pub title: String,
    /// What it shows, in a sentence or two.
    pub description: String,
    /// One for places whose frames are joined, and one for each other place; all at one scale.
    pub sheets: Vec<Sheet>,
    /// Metres of the unit that the bar counts in: 1, or a foot.
    pub unit_m: f64,
    /// Words.
    pub labels: MapLabels,
}

/// The corner of a box that holds all of a sheet, and its size, metres.
#[derive(Debug, Clone, Copy)]
struct Frame {
    west: f64,
    north: f64,
    width: f64,
    height: f64,
}

impl Sheet {
    /// Everything that has to be in the picture.
    fn corners(&self) -> impl Iterator<Item = [f64; 2]> + '_ {
        self.places.iter().flat_map(|place| {
            let rings = place.rings().flat_map(|ring| {
                let ([x, y], r) = (ring.at, ring.radius);
                [[x - r, y - r], [x + r, y + r]]
            });
            place.corners().chain(place.further()).chain(rings)
        })
    }

    /// None where nothing is drawn, or not with numbers.
    fn frame(&self) -> Option<Frame> {
        let (mut low, mut high) = ([f64::INFINITY; 2], [f64::NEG_INFINITY; 2]);
        for [x, y] in self.corners() {
            (low, high) = ([low[0].min(x), low[1].min(y)], [high[0].max(x), high[1].max(y)]);
        }
        (low[0] <= high[0]).then(|| Frame {
            west: low[0],
            north: high[1],
            width: high[0] - low[0],
            height: high[1] - low[1],
        })
    }
}

/// A sheet with its place in the picture: the upper left corner, pixels.
struct Placed<'a> {
    sheet: &'a Sheet,
    frame: Frame,
    at: (f64, f64),
}

impl MapChart {
    /// Whether there is anything to draw.
    pub fn is_empty(&self) -> bool {
        self.sheets.iter().all(|sheet| sheet.frame().is_none())
    }

    /// Draws it. `write` writes a number of the bar's unit with that unit.
    pub fn draw(&self, screen: Screen, write: impl Fn(f64) -> String) -> DisplayList {
        let width = screen.width();
        let mut list = DisplayList::new(width, &self.title, &self.description);
        for (number, line) in text::wrap(Role::Heading, &self.title, width - 2.0 * EDGE_PX).iter().enumerate()
        {
            list.text(Role::Heading, (EDGE_PX, 20.0 + 19.0 * number as f64), Anchor::Start, line);
            list.height = 30.0 + 19.0 * number as f64;
        }
        let framed: Vec<(&Sheet, Frame)> =
            self.sheets.iter().filter_map(|sheet| Some((sheet, sheet.frame()?))).collect();
        let room = width - 2.0 * EDGE_PX;
        let scale = scale(&framed, room);
        let (placed, bottom) = packed(&framed, scale, room, list.height + BADGE_PX + 2.0);
        for sheet in &placed {
            sheet.draw(&mut list, scale);
        }
        let mut badges: Vec<(f64, f64, f64)> = Vec::new();
        for sheet in &placed {
            sheet.number(&mut list, scale, bottom, &mut badges);
        }
        let foot = bottom + 14.0;
        self.foot(&mut list, scale, foot, write);
        list.height = self.legend(&mut list, foot + FOOT_PX) + 6.0;
        list
    }

    /// Arrow and bar.
    fn foot(&self, list: &mut DisplayList, scale: f64, top: f64, write: impl Fn(f64) -> String) {
        let unit = if self.unit_m > 0.0 { self.unit_m } else { 1.0 };
        let count = nice((list.width * 0.3 / scale / unit).max(f64::MIN_POSITIVE));
        let long = count * unit * scale;
        let (left, y) = (EDGE_PX, top + 24.0);
        list.line(Role::Border, (left, y), (left + long, y));
        for part in [0.0, 0.5, 1.0] {
            let tick = if part > 0.4 && part < 0.6 { 3.0 } else { 5.0 };
            list.line(Role::Border, (left + part * long, y - tick), (left + part * long, y + tick));
        }
        list.text(Role::Tick, (left, y - 10.0), Anchor::Start, "0");
        list.text(Role::Tick, (left + long, y - 10.0), Anchor::Middle, &write(count));
        if self.labels.north.is_empty() {
            return;
        }
        let x = list.width - EDGE_PX - 14.0;
        let (tip, end) = (top - 2.0, top + 32.0);
        list.area(
            Role::Border,
            [(x, tip), (x + 6.0, tip + 14.0), (x, tip + 10.0), (x - 6.0, tip + 14.0)]
                .map(|(x, y)| Point::at(x, y))
                .to_vec(),
        );
        list.line(Role::Border, (x, tip + 9.0), (x, end));
        list.text(Role::Strong, (x - 10.0, end - 4.0), Anchor::End, &self.labels.north);
    }

    /// What the patterns mean: those that are on the map. Gives the lower edge.
    fn legend(&self, list: &mut DisplayList, top: f64) -> f64 {
        const SWATCH: (f64, f64) = (30.0, 18.0);
        const ROW_PX: f64 = 26.0;
        let (mut x, mut y, mut any) = (EDGE_PX, top, false);
        for (lies, name) in self.labels.lies.iter().filter(|(_, name)| !name.is_empty()) {
            let name = text::fit(Role::Label, name, list.width - 2.0 * EDGE_PX - SWATCH.0 - 8.0);
            let wide = SWATCH.0 + 8.0 + text::width(Role::Label, &name);
            if x > EDGE_PX && x + wide > list.width - EDGE_PX {
                (x, y) = (EDGE_PX, y + ROW_PX);
            }
            let outline = vec![(x, y), (x + SWATCH.0, y), (x + SWATCH.0, y + SWATCH.1), (x, y + SWATCH.1)];
            shape(list, &[outline], lies.pattern());
            list.text(Role::Label, (x + SWATCH.0 + 8.0, y + 13.5), Anchor::Start, &name);
            x += wide + 18.0;
            any = true;
        }
        if any { y + ROW_PX } else { top }
    }
}

impl Placed<'_> {
    /// Metres of the frame as pixels.
    fn point(&self, at: [f64; 2], scale: f64) -> (f64, f64) {
        (self.at.0 + (at[0] - self.frame.west) * scale, self.at.1 + (self.frame.north - at[1]) * scale)
    }

    fn outline(&self, place: &MapPlace, scale: f64) -> Vec<(f64, f64)> {
        place.corners().map(|at| self.point(at, scale)).collect()
    }

    fn draw(&self, list: &mut DisplayList, scale: f64) {
        for place in &self.sheet.places {
            let outline = self.outline(place, scale);
            // Under trees the rings carry the pattern, and the outline is only where they stand.
            let of_outline = if place.rings.is_empty() { place.lies.pattern() } else { Pattern::Empty };
            let mut rings: Vec<Vec<(f64, f64)>> = vec![outline];
            for ring in &place.further {
                let corners = ring.iter().copied().filter(|at| on_earth(*at));
                rings.push(corners.map(|at| self.point(at, scale)).collect());
            }
            shape(list, &rings, of_outline);
            for ring in place.rings() {
                let at = self.point(ring.at, scale);
                let (radius, gap) = (ring.radius * scale, ring.gap * scale);
                let drip = circle(at, radius);
                // A gap that is no number is none.
                let trunk = circle(at, gap.max(0.0).min(radius));
                list.area(Role::Ground, points(&drip));
                pattern::fill(list, &[&drip, &trunk], place.lies.pattern());
                border(list, &drip);
                if gap > 1.0 {
                    border(list, &trunk);
                }
                list.circle(Role::Border, at, 1.6, true);
            }
        }
    }

    /// Numbers the places, each where it covers no other number.
    fn number(&self, list: &mut DisplayList, scale: f64, bottom: f64, badges: &mut Vec<(f64, f64, f64)>) {
        for place in &self.sheet.places {
            let rings = place.rings().map(|ring| ring.at);
            let all: Vec<(f64, f64)> = place.corners().chain(rings).map(|at| self.point(at, scale)).collect();
            let number = text::fit(Role::Badge, &place.number, MOST_NUMBER_PX);
            let half = (text::width(Role::Badge, &number) / 2.0 + 3.0).max(BADGE_PX);
            let (right, top) = (list.width - half - 1.0, self.at.1.max(half + 1.0));
            let within = |(x, y): (f64, f64)| (x.clamp(half + 1.0, right), y.min(bottom).max(top));
            let free = |spot: &(f64, f64)| {
                badges.iter().all(|(x, y, other)| distance((*x, *y), *spot) > half + other + 1.0)
            };
            let Some((x, y)) = spots(&all, place.outline.len() > 2).into_iter().map(within).find(free) else {
                continue;
            };
            list.circle(Role::Border, (x, y), half, false);
            list.text(Role::Badge, (x, y + 4.5), Anchor::Middle, &number);
            badges.push((x, y, half));
        }
    }
}

/// Where a number may stand: the middle first, then along the longer side, then around it.
fn spots(corners: &[(f64, f64)], outlined: bool) -> Vec<(f64, f64)> {
    let Some(first) = corners.first() else { return Vec::new() };
    let (mut low, mut high) = (*first, *first);
    for (x, y) in corners {
        (low, high) = ((low.0.min(*x), low.1.min(*y)), (high.0.max(*x), high.1.max(*y)));
    }
    let along = high.0 - low.0 > high.1 - low.1;
    let inside = [0.5, 0.3, 0.7, 0.15, 0.85].map(|part| {
        let (x, y) = if along { (part, 0.5) } else { (0.5, part) };
        (low.0 + x * (high.0 - low.0), low.1 + y * (high.1 - low.1))
    });
    let middle = (0.5 * (low.0 + high.0), 0.5 * (low.1 + high.1));
    let around = (1..=12).flat_map(|turn| circle(middle, f64::from(turn) * BADGE_PX).into_iter().step_by(4));
    let mut spots: Vec<(f64, f64)> = inside.into_iter().chain(around).collect();
    if outlined {
        // Of an outline with a corner cut out, the middle may lie outside.
        spots.sort_by_key(|spot| !pattern::within(corners, *spot));
    }
    spots
}

/// A filled outline with its border; a line where it has two corners.
fn shape(list: &mut DisplayList, rings: &[Vec<(f64, f64)>], pattern: Pattern) {
    match rings {
        [outline] if outline.len() > 2 => list.area(Role::Ground, points(outline)),
        // The ground of a hole is not the place's: nothing is painted that would cover it.
        _ => {}
    }
    let closed: Vec<&[(f64, f64)]> = rings.iter().map(Vec::as_slice).filter(|ring| ring.len() > 2).collect();
    pattern::fill(list, &closed, pattern);
    for ring in rings {
        match ring.as_slice() {
            [] | [_] => {}
            [from, to] => list.line(Role::Border, *from, *to),
            ring => border(list, ring),
        }
    }
}

fn border(list: &mut DisplayList, corners: &[(f64, f64)]) {
    let mut closed = points(corners);
    closed.extend(closed.first().copied());
    list.polyline(Role::Border, closed);
}

fn points(corners: &[(f64, f64)]) -> Vec<Point> {
    corners.iter().map(|(x, y)| Point::at(*x, *y)).collect()
}

fn circle(at: (f64, f64), radius: f64) -> Vec<(f64, f64)> {
    // A turn of a fixed angle again and again: no functions whose last digit differs from machine to machine.
    let (cos, sin) = (0.991_444_861_373_810_4, 0.130_526_192_220_051_6);
    let (mut x, mut y) = (radius, 0.0);
    (0..CORNERS)
        .map(|_| {
            let corner = (at.0 + x, at.1 + y);
            (x, y) = (x * cos - y * sin, x * sin + y * cos);
            corner
        })
        .collect()
}

fn distance(a: (f64, f64), b: (f64, f64)) -> f64 {
    ((a.0 - b.0) * (a.0 - b.0) + (a.1 - b.1) * (a.1 - b.1)).sqrt()
}

/// Pixels a metre, so that the widest sheet fits the width and all together the height.
fn scale(framed: &[(&Sheet, Frame)], room: f64) -> f64 {
    let widest = framed.iter().map(|(_, frame)| frame.width).fold(0.0, f64::max);
    let (mut low, mut high) = (0.0, if widest > 0.0 { (room / widest).min(MOST_SCALE) } else { MOST_SCALE });
    // However many places there are, each is as large as its number.
    let most = MOST_HEIGHT_PX.max(1.5 * packed(framed, 0.0, room, 0.0).1);
    if packed(framed, high, room, 0.0).1 <= most {
        return high;
    }
    for _ in 0..40 {
        let middle = 0.5 * (low + high);
        if packed(framed, middle, room, 0.0).1 <= most { low = middle } else { high = middle }
    }
    low.max(f64::MIN_POSITIVE)
}

/// Sheets side by side in rows, each row in the middle, and the lower edge of the last.
fn packed<'a>(framed: &[(&'a Sheet, Frame)], scale: f64, room: f64, top: f64) -> (Vec<Placed<'a>>, f64) {
    let (mut x, mut y, mut bottom) = (EDGE_PX, top, top);
    let mut placed: Vec<Placed> = Vec::new();
    let mut row = 0;
    let centre = |row: &mut [Placed], end: f64| {
        let spare = (EDGE_PX + room - (end - GAP_PX)).max(0.0) / 2.0;
        for sheet in row {
            sheet.at.0 += spare;
        }
    };
    for (sheet, frame) in framed {
        // A number is as wide as its disc, however small the place.
        let wide = (frame.width * scale).max(2.0 * BADGE_PX);
        let high = (frame.height * scale).max(2.0 * BADGE_PX);
        if x > EDGE_PX && x + wide > EDGE_PX + room + 0.5 {
            centre(placed.get_mut(row..).unwrap_or_default(), x);
            (x, y, row) = (EDGE_PX, bottom + GAP_PX, placed.len());
        }
        let inset = ((wide - frame.width * scale) / 2.0, (high - frame.height * scale) / 2.0);
        placed.push(Placed { sheet, frame: *frame, at: (x + inset.0, y + inset.1) });
        bottom = bottom.max(y + high);
        x += wide + GAP_PX;
    }
    centre(placed.get_mut(row..).unwrap_or_default(), x);
    (placed, bottom)
}

/// The largest of 1, 2 and 5 times a power of ten that is not above.
fn nice(most: f64) -> f64 {
    let (mut power, mut steps) = (1.0, 0);
    while power > most && steps < 300 {
        power /= 10.0;
        steps += 1;
    }
    while power * 10.0 <= most && steps < 300 {
        power *= 10.0;
        steps += 1;
    }
    [5.0, 2.0, 1.0].into_iter().map(|times| times * power).find(|count| *count <= most).unwrap_or(power)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn bars_count_in_ones_twos_and_fives() {
        let told: Vec<f64> = [0.7, 1.0, 4.9, 5.0, 19.0, 20.0, 730.0].map(nice).to_vec();
        assert_eq!(told, [0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 500.0]);
    }
}
