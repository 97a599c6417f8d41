//! Finds whether a ring crosses or touches itself: edges in the cells of a grid, compared cell by cell.

use super::frame::Point;

/// Pairs of edges compared at most; a ring of up to 10,000 edges is always compared whole.
const MOST_PAIRS: usize = 64_000_000;

/// Whether a ring meets itself. Edges are counted from 0 and start at the corner of that number.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Meeting {
    /// Nowhere.
    None,
    /// It touches itself without crossing: a corner on an edge, a corner twice, an edge run back.
    Touches {
        /// The two edges.
        edges: [usize; 2],
    },
    /// It crosses itself.
    Crosses {
        /// The two edges first found.
        edges: [usize; 2],
    },
    /// Too tangled to compare in bounded time; none was found so far.
    Unknown,
}

impl Meeting {
    /// Whether a crossing was found.
    pub const fn crosses(self) -> bool {
        matches!(self, Self::Crosses { .. })
    }
}

/// Looks for a place where a ring of finite points, its first not repeated, meets itself. Work and memory grow with
/// the number of edges and stay bounded for any input.
pub fn find(ring: &[Point]) -> Meeting {
    if ring.len() < 4 {
        return Meeting::None;
    }
    let edges = Edges { ring };
    let grid = Grid::over(&edges);
    let mut left = MOST_PAIRS;
    let mut touching = Meeting::None;
    for cell in grid.cells() {
        for (place, &(_, first)) in cell.iter().enumerate() {
            let others = cell.get(place + 1..).unwrap_or_default();
            if others.len() > left {
                return if touching == Meeting::None { Meeting::Unknown } else { touching };
            }
            left -= others.len();
            for &(_, second) in others {
                match edges.meet(first as usize, second as usize) {
                    Meet::Apart => {}
                    Meet::Touch => {
                        if touching == Meeting::None {
                            touching = Meeting::Touches { edges: [first as usize, second as usize] };
                        }
                    }
                    Meet::Cross => return Meeting::Crosses { edges: [first as usize, second as usize] },
                }
            }
        }
    }
    touching
}

enum Meet {
    Apart,
    Touch,
    Cross,
}

struct Edges<'a> {
    ring: &'a [Point],
}

impl Edges<'_> {
    const fn len(&self) -> usize {
        self.ring.len()
    }

    fn ends(&self, edge: usize) -> [Point; 2] {
        let at = |index: usize| self.ring.get(index % self.len()).copied().unwrap_or_default();
        [at(edge), at(edge + 1)]
    }

    fn meet(&self, first: usize, second: usize) -> Meet {
        let ([a, b], [c, d]) = (self.ends(first), self.ends(second));
        if a.x.max(b.x) < c.x.min(d.x)
            || c.x.max(d.x) < a.x.min(b.x)
            || a.y.max(b.y) < c.y.min(d.y)
            || c.y.max(d.y) < a.y.min(b.y)
        {
            return Meet::Apart;
        }
        let (low, high) = (first.min(second), first.max(second));
        if high == low + 1 || (low == 0 && high == self.len() - 1) {
            // Neighbours share a corner; they meet elsewhere only where the way runs back on itself.
            let [before, corner, after] = if high == low + 1 {
                [self.ends(low)[0], self.ends(low)[1], self.ends(high)[1]]
            } else {
                [self.ends(high)[0], self.ends(high)[1], self.ends(low)[1]]
            };
            let back = side(before, corner, after) == 0 && (before - corner).dot(after - corner) > 0.0;
            return if back { Meet::Touch } else { Meet::Apart };
        }
        let (of_c, of_d) = (side(a, b, c), side(a, b, d));
        let (of_a, of_b) = (side(c, d, a), side(c, d, b));
        if of_c * of_d < 0 && of_a * of_b < 0 {
            Meet::Cross
        } else if of_c * of_d > 0 || of_a * of_b > 0 {
            Meet::Apart
        } else {
            Meet::Touch
        }
    }
}

/// On which side of the line from `a` to `b` a point lies: 1 left, -1 right, 0 on it as far as doubles can tell.
fn side(a: Point, b: Point, point: Point) -> i8 {
    // Each difference, product and the last difference is off by one rounding at most.
    const ROUNDING: f64 = 4.0 * f64::EPSILON;
    let (left, right) = ((b.x - a.x) * (point.y - a.y), (b.y - a.y) * (point.x - a.x));
    let cross = left - right;
    let doubt = ROUNDING * (left.abs() + right.abs());
    if cross > doubt {
        1
    } else if cross < -doubt {
        -1
    } else {
        0
    }
}

/// Edges by the cells that they pass, only cells that hold any.
struct Grid {
    entries: Vec<(u64, u32)>,
}

impl Grid {
    fn over(edges: &Edges<'_>) -> Self {
        let (mut low, mut high) = (edges.ends(0)[0], edges.ends(0)[0]);
        let mut length = 0.0;
        for edge in 0..edges.len() {
            let [a, b] = edges.ends(edge);
            low = Point::new(low.x.min(a.x), low.y.min(a.y));
            high = Point::new(high.x.max(a.x), high.y.max(a.y));
            length += a.distance(b);
        }
        let cells = Cells::new(low, high, length, edges.len());
        let mut entries = Vec::with_capacity(edges.len() * 3);
        for (number, edge) in (0_u32..).zip(0..edges.len()) {
            cells.visit(edges.ends(edge), |cell| entries.push((cell, number)));
        }
        entries.sort_unstable();
        Self { entries }
    }

    fn cells(&self) -> impl Iterator<Item = &[(u64, u32)]> {
        self.entries.chunk_by(|(one, _), (other, _)| one == other)
    }
}

/// Where a cell lies: as large as the mean edge, so that edges pass a few cells each.
struct Cells {
    low: Point,
    size: f64,
    columns: usize,
    rows: usize,
}

impl Cells {
    fn new(low: Point, high: Point, length: f64, edges: usize) -> Self {
        let size = (length / as_figure(edges)).max(f64::MIN_POSITIVE);
        // A closed ring is at least twice as long as it is wide.
        let last = |extent: f64| index(extent / size, edges);
        Self { low, size, columns: last(high.x - low.x) + 1, rows: last(high.y - low.y) + 1 }
    }

    /// Every cell that an edge may pass, a little more rather than less.
    fn visit(&self, [a, b]: [Point; 2], mut cell: impl FnMut(u64)) {
        const MARGIN: f64 = 1e-6;
        let column = |x: f64| index((x - self.low.x) / self.size, self.columns - 1);
        let row = |y: f64| index((y - self.low.y) / self.size, self.rows - 1);
        let slack = MARGIN * self.size;
        let (from, to) = if a.x <= b.x { (a, b) } else { (b, a) };
        let rise = (to.y - from.y) / (to.x - from.x);
        for across in column(from.x - slack)..=column(to.x + slack) {
            let (mut bottom, mut top) = (from.y.min(to.y), from.y.max(to.y));
            if rise.is_finite() {
                let west = self.low.x + self.size * as_figure(across);
                let at = |x: f64| from.y + rise * (x.clamp(from.x, to.x) - from.x);
                let (one, other) = (at(west - slack), at(west + self.size + slack));
                bottom = bottom.max(one.min(other) - slack);
                top = top.min(one.max(other) + slack);
            }
            for up in row(bottom - slack)..=row(top + slack) {
                cell((up as u64) << 32 | across as u64);
            }
        }
    }
}

#[expect(clippy::cast_precision_loss, reason = "a count of cells")]
const fn as_figure(count: usize) -> f64 {
    count as f64
}

/// A figure as a count from 0 to `most`.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "held within 0 and `most` first")]
fn index(figure: f64, most: usize) -> usize {
    if figure > 0.0 { (figure.min(as_figure(most))) as usize } else { 0 }
}
