//! A straight band along a row together with rings under its trees, less the trunks' gaps; a hedgerow is a band with
//! gaps alone.

use core::f64::consts::PI;

use super::arc::{Arcs, Rim};
use super::disc::Disc;
use super::discs::{Discs, sum};

/// How a band ends.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ends {
    /// Cut straight across: length × width.
    Butt,
    /// With half a disc beyond either end.
    Round,
}

/// A straight band of ground.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Strip {
    from_m: [f64; 2],
    /// Unit vector along it.
    along: [f64; 2],
    length_m: f64,
    half_width_m: f64,
    ends: Ends,
}

/// Why numbers make no band.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum StripError {
    /// A length of nothing or of no number.
    #[error("a band {length_m} m long: give two ends apart, at most 100 km")]
    Length {
        /// Between the ends.
        length_m: f64,
    },
    /// A width of nothing or of no number.
    #[error("a band {width_m} m wide: give more than 0 and at most 10 km")]
    Width {
        /// As given.
        width_m: f64,
    },
}

/// Ground under a band and rings, m².
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StripArea {
    /// The band alone.
    pub strip_m2: f64,
    /// Band and rings; what lies under both counts once.
    pub union_m2: f64,
    /// Band and rings, less every gap.
    pub net_m2: f64,
}

impl Strip {
    /// A band of a width about the line between two points, in metres of one frame.
    ///
    /// # Errors
    /// Ends that are one point or no points; a width that is none.
    pub fn new(from_m: [f64; 2], to_m: [f64; 2], width_m: f64, ends: Ends) -> Result<Self, StripError> {
        let [x, y] = [to_m[0] - from_m[0], to_m[1] - from_m[1]];
        let length_m = (x * x + y * y).sqrt();
        if !(length_m > 0.0 && length_m <= 1e5) {
            return Err(StripError::Length { length_m });
        }
        if !(width_m > 0.0 && width_m <= 1e4) {
            return Err(StripError::Width { width_m });
        }
        let along = [x / length_m, y / length_m];
        Ok(Self { from_m, along, length_m, half_width_m: 0.5 * width_m, ends })
    }

    /// The band alone, m².
    pub fn area_m2(&self) -> f64 {
        let caps = if self.ends == Ends::Round { PI * self.half_width_m * self.half_width_m } else { 0.0 };
        2.0 * self.half_width_m * self.length_m + caps
    }

    /// The band with rings, less gaps. Gaps are bare wherever they reach; ground outside band and rings is not taken
    /// off. A hedgerow has no rings: its gaps are clipped to the band.
    pub fn with_rings(&self, drips: &[Disc], gaps: &[Disc]) -> StripArea {
        let union_m2 = self.union_m2(drips);
        let with_gaps = if gaps.is_empty() { union_m2 } else { self.union_m2(&[drips, gaps].concat()) };
        let net_m2 = (with_gaps - Discs::new(gaps.to_vec()).area_m2()).clamp(0.0, union_m2);
        StripArea { strip_m2: self.area_m2(), union_m2, net_m2 }
    }

    /// Area of the band and discs together: arcs outside the others and the band, and the band's edges outside the
    /// discs.
    fn union_m2(&self, discs: &[Disc]) -> f64 {
        let mut local: Vec<Disc> = discs.iter().map(|disc| self.in_own_frame(*disc)).collect();
        if self.ends == Ends::Round {
            let cap = |x_m| Disc { x_m, y_m: 0.0, radius_m: self.half_width_m };
            local.extend([cap(0.0), cap(self.length_m)]);
        }
        let union = Discs::gathered(local);
        let mut covered = Arcs::default();
        let mut parts = Vec::with_capacity(union.discs().len() + 4);
        for (index, disc) in (0..).zip(union.discs()) {
            if !union.cover(index, &mut covered) {
                continue;
            }
            match self.inside(*disc) {
                Inside::Whole => continue,
                Inside::Arcs(arcs) => covered.extend(&arcs),
                Inside::Nothing => {}
            }
            parts.push(covered.free_area(*disc, union.origin()));
        }
        parts.extend(SIDES.map(|side| self.edge(side, &union)));
        sum(&parts)
    }

    /// A disc with x along the band from its start, and y to its left.
    fn in_own_frame(&self, disc: Disc) -> Disc {
        let [x, y] = [disc.x_m - self.from_m[0], disc.y_m - self.from_m[1]];
        let [east, north] = self.along;
        Disc { x_m: x * east + y * north, y_m: y * east - x * north, radius_m: disc.radius_m }
    }

    /// How far within a side a point lies.
    fn within(&self, side: Side, disc: Disc) -> f64 {
        match side {
            Side::Right => self.half_width_m + disc.y_m,
            Side::Far => self.length_m - disc.x_m,
            Side::Left => self.half_width_m - disc.y_m,
            Side::Near => disc.x_m,
        }
    }

    /// What of a circle lies within the band.
    fn inside(&self, disc: Disc) -> Inside {
        let radius = disc.radius_m;
        let mut outside = Arcs::default();
        let mut crosses = false;
        for side in SIDES {
            let within = self.within(side, disc);
            if within <= -radius {
                return Inside::Nothing;
            }
            if within < radius {
                crosses = true;
                let [x, y] = side.outward();
                let half = ((radius - within) * (radius + within)).sqrt();
                let rim = |half: f64| Rim::new(within * x - half * y, within * y + half * x);
                outside.add(radius, rim(-half), rim(half), within < 0.0);
            }
        }
        if crosses { Inside::Arcs(outside.others(radius)) } else { Inside::Whole }
    }

    /// What the parts of an edge outside all discs add to the area.
    fn edge(&self, side: Side, union: &Discs) -> f64 {
        let (from, to) = self.corners(side);
        let [x, y] = side.outward();
        // Counter-clockwise, so that the band lies to the left.
        let along = [-y, x];
        let length = (to[0] - from[0]) * along[0] + (to[1] - from[1]) * along[1];
        let mut covered: Vec<[f64; 2]> = Vec::new();
        for disc in union.discs() {
            let within = self.within(side, *disc);
            if within.abs() < disc.radius_m {
                let half = ((disc.radius_m - within) * (disc.radius_m + within)).sqrt();
                let foot = (disc.x_m - from[0]) * along[0] + (disc.y_m - from[1]) * along[1];
                covered.push([(foot - half).max(0.0), (foot + half).min(length)]);
            }
        }
        covered.retain(|[start, end]| start < end);
        covered.sort_unstable_by(|a, b| a[0].total_cmp(&b[0]));
        // x·Δy − y·Δx of a piece is the distance of its line from the origin times its length.
        let origin = union.origin();
        let [x0, y0] = [from[0] - origin[0], from[1] - origin[1]];
        let away = x0 * along[1] - y0 * along[0];
        let (mut reached, mut free) = (0.0_f64, 0.0);
        for [start, end] in covered {
            free += (start - reached).max(0.0);
            reached = reached.max(end);
        }
        0.5 * away * (free + (length - reached).max(0.0))
    }

    const fn corners(&self, side: Side) -> ([f64; 2], [f64; 2]) {
        let (length, half) = (self.length_m, self.half_width_m);
        match side {
            Side::Right => ([0.0, -half], [length, -half]),
            Side::Far => ([length, -half], [length, half]),
            Side::Left => ([length, half], [0.0, half]),
            Side::Near => ([0.0, half], [0.0, -half]),
        }
    }
}

enum Inside {
    Whole,
    Nothing,
    Arcs(Arcs),
}

#[derive(Debug, Clone, Copy)]
enum Side {
    Right,
    Far,
    Left,
    Near,
}

const SIDES: [Side; 4] = [Side::Right, Side::Far, Side::Left, Side::Near];

impl Side {
    const fn outward(self) -> [f64; 2] {
        match self {
            Self::Right => [0.0, -1.0],
            Self::Far => [1.0, 0.0],
            Self::Left => [0.0, 1.0],
            Self::Near => [-1.0, 0.0],
        }
    }
}
