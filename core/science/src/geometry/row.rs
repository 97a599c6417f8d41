//! A row of plants: a line, straight or curved, with trees at equal spacing.

/// Most points of a row's line.
const MOST_POINTS: usize = 100_000;

/// A row's line and spacing, in metres of one frame.
#[derive(Debug, Clone, PartialEq)]
#[expect(clippy::struct_field_names, reason = "a name says the unit")]
pub struct Row {
    line_m: Vec<[f64; 2]>,
    spacing_m: f64,
    first_m: f64,
}

/// Why numbers make no row.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum RowError {
    /// Not a number of points that can be used.
    #[error("{count} points: a row's line needs 2 to {MOST_POINTS}")]
    Points {
        /// As given.
        count: usize,
    },
    /// A point that is no place, or the one before again.
    #[error("point {number} of the row's line is no new place: give finite metres, each point once")]
    Point {
        /// Which, from 1.
        number: usize,
    },
    /// A spacing of nothing.
    #[error("spacing {spacing_m} m: give more than 0 and at most 1000 m")]
    Spacing {
        /// As given.
        spacing_m: f64,
    },
    /// A first tree before the line.
    #[error("first tree at {first_m} m: give 0 or more along the line")]
    First {
        /// As given.
        first_m: f64,
    },
    /// A bend that is too tight for a band of this width: it would lie on itself.
    #[error(
        "the bend at point {number} has a radius of {radius_m:.1} m, too tight for a band {width_m} m wide: measure the band in pieces"
    )]
    Bend {
        /// Which point, from 1.
        number: usize,
        /// Radius of the bend.
        radius_m: f64,
        /// Of the band.
        width_m: f64,
    },
    /// A width of nothing.
    #[error("width {width_m} m: give more than 0 and at most 10 km")]
    Width {
        /// As given.
        width_m: f64,
    },
}

/// Where a stem stands beside a row.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Snapped {
    /// The tree, from 1.
    pub tree: u32,
    /// Along the line, m.
    pub along_m: f64,
    /// From the line, m; left of it positive.
    pub aside_m: f64,
    /// From where that tree should stand, along the line, m.
    pub off_m: f64,
}

impl Row {
    /// A row along a line; the first tree stands `first_m` from its start.
    ///
    /// # Errors
    /// Fewer than two points, points that are none, or a spacing or start that is no length.
    pub fn new(line_m: Vec<[f64; 2]>, spacing_m: f64, first_m: f64) -> Result<Self, RowError> {
        if !(2..=MOST_POINTS).contains(&line_m.len()) {
            return Err(RowError::Points { count: line_m.len() });
        }
        let mut before = [f64::NAN; 2];
        for (number, point) in (1..).zip(line_m.iter().copied()) {
            // Written so that a coordinate that is no number is refused, too.
            let new = number == 1 || distance(before, point) > 0.0;
            if !(new && point.iter().all(|at| at.abs() <= 1e8)) {
                return Err(RowError::Point { number });
            }
            before = point;
        }
        if !(spacing_m > 0.0 && spacing_m <= 1000.0) {
            return Err(RowError::Spacing { spacing_m });
        }
        if !(first_m >= 0.0 && first_m.is_finite()) {
            return Err(RowError::First { first_m });
        }
        Ok(Self { line_m, spacing_m, first_m })
    }

    /// Length of the line, m.
    pub fn length_m(&self) -> f64 {
        self.segments().map(|(from, to)| distance(from, to)).sum()
    }

    /// How many trees the line has room for.
    pub fn trees(&self) -> u32 {
        whole((self.length_m() - self.first_m) / self.spacing_m + 1.0 + 1e-9)
    }

    /// The tree that a stem beside the row is: the line's nearest point, then the nearest multiple of the spacing.
    ///
    /// Never before the first tree nor beyond the last; `off_m` tells how badly it fits.
    pub fn snap(&self, stem_m: [f64; 2]) -> Snapped {
        let (mut gone, mut best) = (0.0, (f64::INFINITY, 0.0, 0.0));
        for (from, to) in self.segments() {
            let length = distance(from, to);
            let along = [(to[0] - from[0]) / length, (to[1] - from[1]) / length];
            let stem = [stem_m[0] - from[0], stem_m[1] - from[1]];
            let at = (stem[0] * along[0] + stem[1] * along[1]).clamp(0.0, length);
            let away = distance(stem, [along[0] * at, along[1] * at]);
            if away < best.0 {
                let left = along[0] * stem[1] - along[1] * stem[0];
                best = (away, gone + at, if left < 0.0 { -away } else { away });
            }
            gone += length;
        }
        let (_, along_m, aside_m) = best;
        let last = f64::from(self.trees().max(1) - 1);
        let number = ((along_m - self.first_m) / self.spacing_m + 0.5).floor().clamp(0.0, last);
        let off_m = along_m - self.first_m - number * self.spacing_m;
        Snapped { tree: whole(number) + 1, along_m, aside_m, off_m }
    }

    /// Where a tree stands by the spacing, from 1; nothing beyond the line.
    pub fn place_m(&self, tree: u32) -> Option<[f64; 2]> {
        let mut left = self.first_m + self.spacing_m * f64::from(tree.checked_sub(1)?);
        for (from, to) in self.segments() {
            let length = distance(from, to);
            if left <= length * (1.0 + 1e-9) {
                let part = left / length;
                return Some([from[0] + (to[0] - from[0]) * part, from[1] + (to[1] - from[1]) * part]);
            }
            left -= length;
        }
        None
    }

    /// Area of a band of a width along the line, m²: length × width, which is exact on a bend as well as long as the
    /// band does not lie on itself (Pappus).
    ///
    /// The radius of a bend is that of the circle which touches both lines at its point within half of the shorter.
    ///
    /// # Errors
    /// A width that is none; a bend with a radius of half the width or less.
    pub fn band_m2(&self, width_m: f64) -> Result<f64, RowError> {
        if !(width_m > 0.0 && width_m <= 1e4) {
            return Err(RowError::Width { width_m });
        }
        let bends = self.segments().zip(self.segments().skip(1));
        for (number, ((a, b), (_, c))) in (2..).zip(bends) {
            let radius_m = bend_radius(a, b, c);
            if radius_m <= 0.5 * width_m {
                return Err(RowError::Bend { number, radius_m, width_m });
            }
        }
        Ok(self.length_m() * width_m)
    }

    fn segments(&self) -> impl Iterator<Item = ([f64; 2], [f64; 2])> {
        self.line_m.iter().copied().zip(self.line_m.iter().copied().skip(1))
    }
}

/// Radius of the circle that touches a line before and after its middle point, half of the shorter side away from it.
fn bend_radius(a: [f64; 2], b: [f64; 2], c: [f64; 2]) -> f64 {
    let (first, second) = ([b[0] - a[0], b[1] - a[1]], [c[0] - b[0], c[1] - b[1]]);
    let cross = first[0] * second[1] - first[1] * second[0];
    let dot = first[0] * second[0] + first[1] * second[1];
    let shorter = distance(a, b).min(distance(b, c));
    // Tangent of half the turn, from its sine and cosine.
    let tangent = cross.abs() / (dot + (cross * cross + dot * dot).sqrt());
    if tangent.is_nan() { 0.0 } else { 0.5 * shorter / tangent }
}

fn distance(a: [f64; 2], b: [f64; 2]) -> f64 {
    let [x, y] = [b[0] - a[0], b[1] - a[1]];
    (x * x + y * y).sqrt()
}

#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a cast from float saturates")]
fn whole(count: f64) -> u32 {
    count.floor() as u32
}

#[cfg(test)]
#[expect(clippy::unwrap_used, reason = "a test may stop where it stands")]
mod tests {
    use super::*;

    fn straight() -> Row {
        Row::new(vec![[0.0, 0.0], [76.0, 0.0]], 4.0, 0.0).unwrap()
    }

    #[test]
    fn stems_off_the_row_are_counted_along_it() {
        let row = straight();
        assert_eq!(row.trees(), 20);
        let snapped = row.snap([33.1, -0.7]);
        assert_eq!(snapped.tree, 9);
        assert!((snapped.aside_m + 0.7).abs() < 1e-12 && (snapped.off_m - 1.1).abs() < 1e-12);
        assert_eq!(row.snap([-9.0, 0.0]).tree, 1);
        assert_eq!(row.snap([200.0, 3.0]).tree, 20);
        for tree in 1..=20 {
            assert_eq!(row.snap(row.place_m(tree).unwrap()).tree, tree);
        }
        assert_eq!((row.place_m(0), row.place_m(21)), (None, None));
    }

    #[test]
    fn a_curved_band_is_length_times_width_until_it_lies_on_itself() {
        let quarter = |radius: f64| {
            let at = |i: i32| core::f64::consts::FRAC_PI_2 * f64::from(i) / 90.0;
            (0..=90).map(|i| [radius * libm::cos(at(i)), radius * libm::sin(at(i))]).collect::<Vec<_>>()
        };
        let row = Row::new(quarter(20.0), 3.0, 0.0).unwrap();
        let exact = core::f64::consts::FRAC_PI_4 * (21.5 * 21.5 - 18.5 * 18.5);
        assert!((row.band_m2(3.0).unwrap() / exact - 1.0).abs() < 2e-5);
        let tight = Row::new(quarter(1.0), 3.0, 0.0).unwrap();
        assert!(matches!(tight.band_m2(3.0), Err(RowError::Bend { number: 2, .. })));
        let corner = Row::new(vec![[0.0, 0.0], [0.5, 0.0], [0.5, 30.0]], 3.0, 0.0).unwrap();
        assert!(corner.band_m2(2.0).is_err());
        let back = Row::new(vec![[0.0, 0.0], [10.0, 0.0], [0.0, 0.0]], 3.0, 0.0).unwrap();
        assert!(back.band_m2(0.1).is_err());
    }

    #[test]
    fn what_is_no_row_is_refused() {
        let of = |line: &[[f64; 2]], spacing, first| Row::new(line.to_vec(), spacing, first);
        assert!(matches!(of(&[[0.0, 0.0]], 3.0, 0.0), Err(RowError::Points { count: 1 })));
        assert!(matches!(of(&[[0.0, 0.0], [0.0, 0.0]], 3.0, 0.0), Err(RowError::Point { number: 2 })));
        assert!(matches!(of(&[[f64::NAN, 0.0], [1.0, 0.0]], 3.0, 0.0), Err(RowError::Point { number: 1 })));
        assert!(matches!(of(&[[0.0, 0.0], [1.0, 0.0]], 0.0, 0.0), Err(RowError::Spacing { .. })));
        assert!(matches!(of(&[[0.0, 0.0], [1.0, 0.0]], 1.0, f64::NAN), Err(RowError::First { .. })));
        assert!(straight().band_m2(f64::NAN).is_err());
    }
}
