//! A disc on the ground: what lies under a tree, or the bare gap around its trunk.

use core::f64::consts::PI;

/// Farthest from the origin of its frame that a disc may lie: beyond it a double cannot hold the area to 1e-6 m².
const FARTHEST_M: f64 = 1e8;
/// Largest radius.
const LARGEST_M: f64 = 1e6;

/// A disc in a plane of metres.
#[derive(Debug, Clone, Copy, PartialEq)]
#[expect(clippy::struct_field_names, reason = "a name says the unit")]
pub struct Disc {
    /// East of the frame's origin, m.
    pub(super) x_m: f64,
    /// North of the frame's origin, m.
    pub(super) y_m: f64,
    /// Radius, m.
    pub(super) radius_m: f64,
}

/// Why numbers make no disc.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum DiscError {
    /// A centre that is no number or lies too far off.
    #[error("centre at {x_m}, {y_m} m: give finite metres within {FARTHEST_M} m of the origin")]
    Centre {
        /// As given.
        x_m: f64,
        /// As given.
        y_m: f64,
    },
    /// A radius that is no length.
    #[error("radius {radius_m} m: give more than 0 and at most {LARGEST_M} m")]
    Radius {
        /// As given.
        radius_m: f64,
    },
}

impl Disc {
    /// A disc about a centre, all in metres.
    ///
    /// # Errors
    /// A centre that is not finite or over 1e8 m away; a radius that is not above 0 or over 1e6 m.
    pub fn new(x_m: f64, y_m: f64, radius_m: f64) -> Result<Self, DiscError> {
        if !(x_m.abs() <= FARTHEST_M && y_m.abs() <= FARTHEST_M) {
            return Err(DiscError::Centre { x_m, y_m });
        }
        if !(radius_m > 0.0 && radius_m <= LARGEST_M) {
            return Err(DiscError::Radius { radius_m });
        }
        Ok(Self { x_m, y_m, radius_m })
    }

    /// Centre, m.
    pub const fn centre_m(self) -> [f64; 2] {
        [self.x_m, self.y_m]
    }

    /// Radius, m.
    pub const fn radius_m(self) -> f64 {
        self.radius_m
    }

    /// Area, m².
    pub const fn area_m2(self) -> f64 {
        PI * self.radius_m * self.radius_m
    }

    /// Whether a disc lies wholly in another; both of two equal discs do.
    pub fn lies_in(self, other: Self) -> bool {
        self.distance(other) <= other.radius_m - self.radius_m
    }

    /// Between the centres, m; the same bits from either side.
    pub(super) fn distance(self, other: Self) -> f64 {
        self.square_distance(other).sqrt()
    }

    /// Its square, which costs no root.
    pub(super) fn square_distance(self, other: Self) -> f64 {
        let [east, north] = [self.x_m - other.x_m, self.y_m - other.y_m];
        east * east + north * north
    }
}

/// Area that two discs share, m²: radii and distance of the centres in one unit. Exact to rounding of r².
///
/// Nothing where they are apart, the smaller where it lies in the larger. Source: Weisstein, "Circle-circle
/// intersection", eq. 14, with the angles taken from the half chord so that thin lenses keep their digits.
pub fn lens_m2(first_radius: f64, second_radius: f64, distance: f64) -> f64 {
    if distance >= first_radius + second_radius {
        return 0.0;
    }
    let smaller = first_radius.min(second_radius);
    if distance <= (first_radius - second_radius).abs() {
        return PI * smaller * smaller;
    }
    let chord = Chord::of(first_radius, second_radius, distance);
    let segment =
        |radius: f64, apart: f64| radius * radius * libm::atan2(chord.half, apart) - apart * chord.half;
    segment(first_radius, chord.apart) + segment(second_radius, distance - chord.apart)
}

/// The chord that two crossing circles have in common.
#[derive(Debug, Clone, Copy)]
pub(super) struct Chord {
    /// From the first centre towards the second.
    pub(super) apart: f64,
    /// Half its length; the same bits from either side.
    pub(super) half: f64,
}

impl Chord {
    /// The circles must cross: `|r1 − r2| < distance < r1 + r2`.
    pub(super) fn of(first: f64, second: f64, distance: f64) -> Self {
        let (sum, difference) = (first + second, first - second);
        let apart = 0.5 * (distance + difference * sum / distance);
        // Heron; symmetric in the two circles, so that both see the same points.
        let product =
            (sum - distance) * (sum + distance) * ((distance + difference) * (distance - difference));
        Self { apart, half: 0.5 * product.max(0.0).sqrt() / distance }
    }
}
