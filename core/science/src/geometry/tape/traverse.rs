//! A closed traverse by compass and tape, adjusted by the compass rule (Bowditch).

use core::f64::consts::PI;

use super::{TapeError, length};
use crate::geometry::area::planar_ring;
use crate::geometry::frame::Point;
use crate::geometry::ring::{Ring, RingError};
use crate::source::{Source, Sourced};

/// A closing error below this part of the way is good work with a garden compass.
pub const GOOD_BELOW: Sourced<f64> = Sourced::new(0.01, Source::COMMON_PRACTICE);
/// Above this part of the way the traverse is walked again.
pub const AGAIN_ABOVE: Sourced<f64> = Sourced::new(0.05, Source::COMMON_PRACTICE);

/// One leg of a traverse.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Course {
    /// Degrees clockwise from north, 0 to 360.
    pub azimuth_deg: f64,
    /// Its length.
    pub length: f64,
}

/// How well a traverse closed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Closure {
    /// Within [`GOOD_BELOW`].
    Good,
    /// Usable.
    Fair,
    /// Beyond [`AGAIN_ABOVE`].
    WalkAgain,
}

/// A traverse, adjusted.
#[derive(Debug, Clone, PartialEq)]
pub struct Traverse {
    /// Sum of the norths (latitudes) as measured; nothing in a perfect one.
    pub north_error: f64,
    /// Sum of the easts (departures) as measured.
    pub east_error: f64,
    /// The way round.
    pub perimeter: f64,
    /// North and east of each course, adjusted: `y` and `x`.
    pub courses: Vec<Point>,
    /// The corners, from the start at the origin.
    pub corners: Vec<Point>,
    /// The area between, in the square of the unit of length.
    pub area: f64,
    /// Whether the adjusted outline crosses itself: a course is missing or out of order.
    pub crosses: bool,
}

impl Traverse {
    /// Adjusts a closed traverse: each course takes its part, by length, of the closing error.
    ///
    /// # Errors
    /// Fewer than three courses, a length or azimuth that is none, no area.
    pub fn closed(courses: &[Course]) -> Result<Self, TraverseError> {
        if courses.len() < 3 {
            return Err(TapeError::TooFewCourses { found: courses.len() }.into());
        }
        let mut measured = Vec::with_capacity(courses.len());
        let (mut error, mut perimeter) = (Point::default(), 0.0);
        for course in courses {
            if !(0.0..=360.0).contains(&course.azimuth_deg) {
                return Err(TapeError::Bearing.into());
            }
            let run = length("a course", course.length)?;
            let (east, north) = libm::sincos(course.azimuth_deg * PI / 180.0);
            let leg = Point::new(east * run, north * run);
            error = error + leg;
            perimeter += run;
            measured.push((leg, run));
        }
        let adjusted: Vec<Point> =
            measured.iter().map(|(leg, run)| *leg - error * (run / perimeter)).collect();
        let mut at = Point::default();
        let corners: Vec<Point> = adjusted
            .iter()
            .map(|leg| {
                let corner = at;
                at = at + *leg;
                corner
            })
            .collect();
        let ring = Ring::new(&corners)?;
        Ok(Self {
            north_error: error.y,
            east_error: error.x,
            perimeter,
            area: planar_ring(&corners).signed_m2.abs(),
            crosses: ring.meeting.crosses(),
            courses: adjusted,
            corners,
        })
    }

    /// Straight distance between start and end as measured.
    pub fn misclosure(&self) -> f64 {
        (self.north_error * self.north_error + self.east_error * self.east_error).sqrt()
    }

    /// Closing error as part of the way round: 0.01 is one in a hundred.
    pub fn precision(&self) -> f64 {
        self.misclosure() / self.perimeter
    }

    /// How well it closed.
    pub fn closure(&self) -> Closure {
        let precision = self.precision();
        if precision <= GOOD_BELOW.value {
            Closure::Good
        } else if precision <= AGAIN_ABOVE.value {
            Closure::Fair
        } else {
            Closure::WalkAgain
        }
    }
}

/// Why a traverse gives no area.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum TraverseError {
    /// A course that cannot be.
    #[error(transparent)]
    Tape(#[from] TapeError),
    /// The courses bound nothing.
    #[error("the traverse bounds nothing: {0}")]
    Ring(#[from] RingError),
}

/// Reads a bearing: an azimuth in degrees (`248.1`), or a quadrant with degrees, minutes and seconds
/// (`S 68 05 35 W`, `N76E`).
///
/// # Errors
/// Anything else.
pub fn azimuth_deg(text: &str) -> Result<f64, TapeError> {
    let text = text.trim();
    if let Ok(azimuth) = text.parse::<f64>() {
        return if (0.0..=360.0).contains(&azimuth) { Ok(azimuth) } else { Err(TapeError::Bearing) };
    }
    let mut letters = text.chars();
    let from = letters.next().ok_or(TapeError::Bearing)?.to_ascii_uppercase();
    let to = letters.next_back().ok_or(TapeError::Bearing)?.to_ascii_uppercase();
    let mut angle = 0.0;
    let mut unit = 1.0;
    let parts = letters.as_str().split([' ', '°', '\'', '′', '"', '″']).filter(|part| !part.is_empty());
    for (index, part) in parts.enumerate() {
        let figure: f64 = part.parse().map_err(|_| TapeError::Bearing)?;
        let most = if index == 0 { 90.0 } else { 60.0 };
        if index > 2 || !(0.0..=most).contains(&figure) {
            return Err(TapeError::Bearing);
        }
        angle += figure / unit;
        unit *= 60.0;
    }
    if unit <= 1.0 || angle > 90.0 {
        return Err(TapeError::Bearing);
    }
    match (from, to) {
        ('N', 'E') => Ok(angle),
        ('S', 'E') => Ok(180.0 - angle),
        ('S', 'W') => Ok(180.0 + angle),
        ('N', 'W') => Ok(360.0 - angle),
        _ => Err(TapeError::Bearing),
    }
}
