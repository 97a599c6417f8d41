//! Triangles from three sides, and four-sided places from sides and diagonals.

use super::{TapeError, length, sd_m};

/// An area from lengths, in the square of their unit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Taped {
    /// The area.
    pub area: f64,
    /// Its standard deviation, for a garden tape and lengths in metres.
    pub sd: f64,
}

/// The area of a triangle, by Heron's formula in the form that keeps its digits for needles (Kahan, from memory).
///
/// # Errors
/// A side that is no length, or sides that close no triangle.
pub fn triangle(a: f64, b: f64, c: f64) -> Result<Taped, TapeError> {
    let mut sides = [length("a side", a)?, length("a side", b)?, length("a side", c)?];
    sides.sort_unstable_by(|one, other| other.total_cmp(one));
    let [a, b, c] = sides;
    if a > b + c {
        return Err(TapeError::NoTriangle { a, b, c });
    }
    let area = ((a + (b + c)) * (c - (a - b)) * (c + (a - b)) * (a + (b - c))).max(0.0).sqrt() / 4.0;
    Ok(Taped {
        area,
        sd: sum_of_squares(by_side(sides, area).iter().zip(sides).map(|(slope, side)| slope * sd_m(side))),
    })
}

/// The area of a place with four right angles.
///
/// # Errors
/// A side that is no length.
pub fn rectangle(long: f64, wide: f64) -> Result<Taped, TapeError> {
    let (long, wide) = (length("a side", long)?, length("a side", wide)?);
    Ok(Taped { area: long * wide, sd: sum_of_squares([wide * sd_m(long), long * sd_m(wide)].into_iter()) })
}

/// Corners of a triangle, the second side from the end of the first: the first at the origin, the third on the axis.
///
/// # Errors
/// As [`triangle`].
pub fn triangle_corners(a: f64, b: f64, c: f64) -> Result<[(f64, f64); 3], TapeError> {
    let area = triangle(a, b, c)?.area;
    Ok([(0.0, 0.0), over(c, a, b, area), (c, 0.0)])
}

/// Where a corner lies over a base on the axis, from its distances to both ends and the area of the triangle.
fn over(base: f64, from_start: f64, from_end: f64, area: f64) -> (f64, f64) {
    let along = (from_start * from_start - from_end * from_end + base * base) / (2.0 * base);
    (along, 2.0 * area / base)
}

/// How the area grows with each side: a (b² + c² - a²) / 8 T.
fn by_side([a, b, c]: [f64; 3], area: f64) -> [f64; 3] {
    let slope = |one: f64, two: f64, three: f64| {
        if area > 0.0 { one * (two * two + three * three - one * one) / (8.0 * area) } else { 0.0 }
    };
    [slope(a, b, c), slope(b, c, a), slope(c, a, b)]
}

fn sum_of_squares(figures: impl Iterator<Item = f64>) -> f64 {
    figures.map(|figure| figure * figure).sum::<f64>().sqrt()
}

/// A place with corners A, B, C, D in order.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Quadrilateral {
    /// Side from A to B.
    pub ab: f64,
    /// Side from B to C.
    pub bc: f64,
    /// Side from C to D.
    pub cd: f64,
    /// Side from D to A.
    pub da: f64,
    /// Diagonal from A to C.
    pub ac: f64,
    /// Diagonal from B to D, the check.
    pub bd: Option<f64>,
}

/// What four sides and a diagonal or two measure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Checked {
    /// Area and its standard deviation.
    pub taped: Taped,
    /// The second diagonal as taped less as it follows from the other five lengths; nothing where it was not taped.
    pub misfit: Option<f64>,
    /// Whether the misfit is more than three standard deviations of the tape: one length is wrong.
    pub wrong: bool,
    /// Whether corner B or D points inwards, as the second diagonal shows.
    pub hollow: bool,
    /// A, B, C, D: A at the origin, C on the axis.
    pub corners: [(f64, f64); 4],
}

impl Quadrilateral {
    /// The area as two triangles on A–C. The second diagonal tells whether a corner points inwards, and checks the
    /// others.
    ///
    /// # Errors
    /// A length that is none, or triangles that do not close.
    pub fn measure(self) -> Result<Checked, TapeError> {
        let (one, other) = (triangle(self.ab, self.bc, self.ac)?, triangle(self.cd, self.da, self.ac)?);
        // A at the origin, C on the axis: B above, D below, or above as well where a corner points inwards.
        let ((b_along, b_off), (d_along, d_off)) =
            (over(self.ac, self.ab, self.bc, one.area), over(self.ac, self.da, self.cd, other.area));
        let across = |off: f64| ((b_along - d_along) * (b_along - d_along) + off * off).sqrt();
        let (full, folded) = (across(b_off + d_off), across(b_off - d_off));
        let mut hollow = false;
        let mut misfit = None;
        if let Some(taped) = self.bd {
            let taped = length("the second diagonal", taped)?;
            hollow = (taped - folded).abs() < (taped - full).abs();
            misfit = Some(taped - if hollow { folded } else { full });
        }
        let area = if hollow { (one.area - other.area).abs() } else { one.area + other.area };
        // Both triangles share the diagonal: its slopes add, or take from each other.
        let sign = if hollow { -1.0 } else { 1.0 };
        let slopes = |sides: [f64; 3], area: f64| by_side(sides, area);
        let [ab, bc, ac] = slopes([self.ab, self.bc, self.ac], one.area);
        let [cd, da, ca] = slopes([self.cd, self.da, self.ac], other.area);
        let sd = sum_of_squares(
            [(ab, self.ab), (bc, self.bc), (cd, self.cd), (da, self.da), (ac + sign * ca, self.ac)]
                .into_iter()
                .map(|(slope, side)| slope * sd_m(side)),
        );
        let lengths = [self.ab, self.bc, self.cd, self.da, self.ac, self.bd.unwrap_or_default()];
        let allowed = 3.0 * sum_of_squares(lengths.into_iter().map(sd_m));
        Ok(Checked {
            taped: Taped { area, sd },
            misfit,
            wrong: misfit.is_some_and(|misfit| misfit.abs() > allowed),
            hollow,
            corners: [
                (0.0, 0.0),
                (b_along, b_off),
                (self.ac, 0.0),
                (d_along, if hollow { d_off } else { -d_off }),
            ],
        })
    }
}

/// A trapezoid from its two parallel sides and the distance between them.
///
/// # Errors
/// A length that is none.
pub fn trapezoid(one: f64, other: f64, apart: f64) -> Result<Taped, TapeError> {
    let (one, other) = (length("a parallel side", one)?, length("a parallel side", other)?);
    let apart = length("the distance between", apart)?;
    let mean = f64::midpoint(one, other);
    let slopes = [(apart / 2.0, one), (apart / 2.0, other), (mean, apart)];
    Ok(Taped {
        area: mean * apart,
        sd: sum_of_squares(slopes.into_iter().map(|(slope, of)| slope * sd_m(of))),
    })
}
