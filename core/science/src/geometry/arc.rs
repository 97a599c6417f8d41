//! The arcs of a circle that nothing else covers, and what they add to an area by Green's theorem.

use core::f64::consts::{PI, TAU};

use super::disc::Disc;

/// A full round in [`Rim::turn`].
const ROUND: f64 = 4.0;

/// A point on a circle, seen from its centre.
#[derive(Debug, Clone, Copy)]
pub(super) struct Rim {
    /// East of the centre.
    x: f64,
    /// North of the centre.
    y: f64,
    /// Grows with the angle from east through north, 0 to 4: orders points without trigonometry.
    turn: f64,
}

impl Rim {
    pub(super) fn new(x: f64, y: f64) -> Self {
        let along = y / (x.abs() + y.abs());
        let turn = if x < 0.0 {
            2.0 - along
        } else if y < 0.0 {
            ROUND + along
        } else {
            along
        };
        Self { x, y, turn }
    }

    const fn east(radius: f64, turn: f64) -> Self {
        Self { x: radius, y: 0.0, turn }
    }
}

/// An arc, counter-clockwise.
#[derive(Debug, Clone, Copy)]
pub(super) struct Arc {
    from: Rim,
    to: Rim,
}

/// Arcs of one circle, none of which passes over east.
#[derive(Debug, Default)]
pub(super) struct Arcs(Vec<Arc>);

impl Arcs {
    pub(super) fn clear(&mut self) {
        self.0.clear();
    }

    /// Adds an arc; `more_than_half` decides where both ends fall together.
    pub(super) fn add(&mut self, radius: f64, from: Rim, to: Rim, more_than_half: bool) {
        if from.turn < to.turn {
            self.0.push(Arc { from, to });
        } else if from.turn > to.turn || more_than_half {
            self.0.push(Arc { from, to: Rim::east(radius, ROUND) });
            self.0.push(Arc { from: Rim::east(radius, 0.0), to });
        }
    }

    /// How many there are.
    pub(super) const fn count(&self) -> usize {
        self.0.len()
    }

    /// Whether together they leave nothing of the circle.
    pub(super) fn are_whole(&mut self, radius: f64) -> bool {
        let mut whole = true;
        self.between(radius, |_, _| whole = false);
        whole
    }

    /// Adds all arcs of another set.
    pub(super) fn extend(&mut self, other: &Self) {
        self.0.extend_from_slice(&other.0);
    }

    /// What is left of the circle beside these arcs.
    pub(super) fn others(&mut self, radius: f64) -> Self {
        let mut free = Vec::new();
        self.between(radius, |from, to| free.push(Arc { from, to }));
        Self(free)
    }

    /// What the arcs beside these add to the area that they bound, m²; the whole disc where there are none.
    ///
    /// Half of r²·angle + x·Δy − y·Δx for every arc (Green). `origin` is where x and y count from: a point near,
    /// so that little is lost in rounding.
    pub(super) fn free_area(&mut self, disc: Disc, origin: [f64; 2]) -> f64 {
        if self.0.is_empty() {
            return PI * disc.radius_m * disc.radius_m;
        }
        let [x, y] = [disc.x_m - origin[0], disc.y_m - origin[1]];
        let square = disc.radius_m * disc.radius_m;
        let mut twice = 0.0;
        self.between(disc.radius_m, |from, to| {
            twice += square * angle(from, to) + x * (to.y - from.y) - y * (to.x - from.x);
        });
        0.5 * twice
    }

    /// Goes through the gaps between the arcs.
    fn between(&mut self, radius: f64, mut gap: impl FnMut(Rim, Rim)) {
        self.0.sort_unstable_by(|a, b| a.from.turn.total_cmp(&b.from.turn));
        let mut reached = Rim::east(radius, 0.0);
        for arc in &self.0 {
            if arc.from.turn > reached.turn {
                gap(reached, arc.from);
            }
            if arc.to.turn > reached.turn {
                reached = arc.to;
            }
        }
        if reached.turn < ROUND {
            gap(reached, Rim::east(radius, ROUND));
        }
    }
}

/// The angle from one point to a later one, 0 to a full round.
fn angle(from: Rim, to: Rim) -> f64 {
    let cross = from.x * to.y - from.y * to.x;
    let dot = from.x * to.x + from.y * to.y;
    let angle = libm::atan2(cross, dot);
    // Near nothing, half and a full round the sign of `cross` is rounding; `turn` and `dot` tell them apart.
    let beyond_half = if dot > 0.0 { to.turn - from.turn > ROUND / 2.0 } else { angle < 0.0 };
    if beyond_half { angle + TAU } else { angle }
}
