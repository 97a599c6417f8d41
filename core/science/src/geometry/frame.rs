//! Positions on the earth, and the flat frames in which places are measured.
//!
//! Longitude and latitude are the record; a frame is derived from them and never stored as truth.

use core::f64::consts::PI;
use std::sync::LazyLock;

use geographiclib_rs::{DirectGeodesic, Geodesic, InverseGeodesic};

use crate::source::{Source, Sourced, Standing};

/// The geodesics of this module.
pub const GEODESIC_SOURCE: Source = Source::new(
    "Karney",
    2013,
    "Algorithms for geodesics",
    "J. Geodesy 87:43-55, doi 10.1007/s00190-012-0578-z",
    Standing::Published,
);

/// Equatorial radius of WGS84, metres.
pub const EQUATORIAL_RADIUS_M: Sourced<f64> = Sourced::new(6_378_137.0, WGS84_SOURCE);
/// Flattening of WGS84.
pub const FLATTENING: Sourced<f64> = Sourced::new(1.0 / 298.257_223_563, WGS84_SOURCE);

const WGS84_SOURCE: Source =
    Source::new("NIMA", 2000, "World Geodetic System 1984", "TR8350.2, table 3.1", Standing::FromMemory);

/// Square of the first eccentricity.
const E2: f64 = FLATTENING.value * (2.0 - FLATTENING.value);
const RADIANS: f64 = PI / 180.0;

/// Beyond this latitude metres per degree of longitude fade away, and the quick frame uses geodesics.
const POLAR_DEG: f64 = 89.0;

pub(super) static WGS84: LazyLock<Geodesic> = LazyLock::new(Geodesic::wgs84);

/// A checked position: finite, latitude within ±90, longitude within ±180 degrees.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Position {
    latitude: f64,
    longitude: f64,
}

/// Why two figures are no position.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum PositionError {
    /// Not a number, or infinite.
    #[error("a coordinate is no number; give latitude and longitude in decimal degrees")]
    NotFinite,
    /// Beyond a pole.
    #[error("latitude {latitude} is beyond 90 degrees; check the figure")]
    Latitude {
        /// As given.
        latitude: f64,
    },
    /// Beyond a pole, but a position when read the other way round.
    #[error(
        "latitude {latitude} is beyond 90 degrees; latitude and longitude seem to have been swapped, so give \
         them the other way round"
    )]
    Swapped {
        /// As given.
        latitude: f64,
        /// As given.
        longitude: f64,
    },
    /// More than once round.
    #[error("longitude {longitude} is beyond 360 degrees; check the figure")]
    Longitude {
        /// As given.
        longitude: f64,
    },
}

impl Position {
    /// A position from decimal degrees, north and east positive. A longitude up to once round is brought within
    /// ±180.
    ///
    /// # Errors
    /// No number, a latitude beyond 90 degrees (and whether the order was swapped), a longitude beyond 360.
    pub fn new(latitude: f64, longitude: f64) -> Result<Self, PositionError> {
        if !latitude.is_finite() || !longitude.is_finite() {
            return Err(PositionError::NotFinite);
        }
        if latitude.abs() > 90.0 {
            return Err(if latitude.abs() <= 180.0 && longitude.abs() <= 90.0 {
                PositionError::Swapped { latitude, longitude }
            } else {
                PositionError::Latitude { latitude }
            });
        }
        if longitude.abs() > 360.0 {
            return Err(PositionError::Longitude { longitude });
        }
        Ok(Self { latitude, longitude: within_half_turn(longitude) })
    }

    /// Degrees, north positive.
    pub const fn latitude(self) -> f64 {
        self.latitude
    }

    /// Degrees, east positive, within ±180.
    pub const fn longitude(self) -> f64 {
        self.longitude
    }

    /// The shortest way over the ellipsoid, metres.
    pub fn distance_m(self, other: Self) -> f64 {
        WGS84.inverse(self.latitude, self.longitude, other.latitude, other.longitude)
    }
}

/// Degrees of a full circle brought within ±180; 180 and -180 stay as they are.
fn within_half_turn(degrees: f64) -> f64 {
    if degrees > 180.0 {
        degrees - 360.0
    } else if degrees < -180.0 {
        degrees + 360.0
    } else {
        degrees
    }
}

/// A point of a flat frame, metres.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Point {
    /// East of the origin.
    pub x: f64,
    /// North of the origin.
    pub y: f64,
}

impl Point {
    /// A point from metres east and north.
    pub const fn new(x: f64, y: f64) -> Self {
        Self { x, y }
    }

    /// Metres between two points.
    pub fn distance(self, other: Self) -> f64 {
        (other - self).length()
    }

    /// Metres from the origin.
    pub fn length(self) -> f64 {
        (self.x * self.x + self.y * self.y).sqrt()
    }

    /// Twice the signed area of the triangle of the origin and the two points.
    pub const fn cross(self, other: Self) -> f64 {
        self.x * other.y - self.y * other.x
    }

    /// The product of the lengths and the cosine between.
    pub const fn dot(self, other: Self) -> f64 {
        self.x * other.x + self.y * other.y
    }

    /// Whether both figures are numbers.
    pub const fn is_finite(self) -> bool {
        self.x.is_finite() && self.y.is_finite()
    }
}

impl core::ops::Add for Point {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self::new(self.x + other.x, self.y + other.y)
    }
}

impl core::ops::Sub for Point {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self::new(self.x - other.x, self.y - other.y)
    }
}

impl core::ops::Mul<f64> for Point {
    type Output = Self;
    fn mul(self, times: f64) -> Self {
        Self::new(self.x * times, self.y * times)
    }
}

/// The frame of a place: azimuthal equidistant about its origin, by geodesics. Exact to nanometres from the origin,
/// at the antimeridian and the poles as anywhere; areas of places up to 2 km within 1e-8.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Frame {
    origin: Position,
}

impl Frame {
    /// The frame about a position.
    pub const fn about(origin: Position) -> Self {
        Self { origin }
    }

    /// Where the frame lies.
    pub const fn origin(self) -> Position {
        self.origin
    }

    /// Metres east and north of the origin.
    pub fn point(self, position: Position) -> Point {
        let Position { latitude, longitude } = self.origin;
        let (distance, azimuth, _, _) =
            WGS84.inverse(latitude, longitude, position.latitude, position.longitude);
        let (sine, cosine) = libm::sincos(azimuth * RADIANS);
        Point::new(distance * sine, distance * cosine)
    }

    /// The position of a point.
    pub fn position(self, point: Point) -> Position {
        let azimuth = libm::atan2(point.x, point.y) / RADIANS;
        let (latitude, longitude) =
            WGS84.direct(self.origin.latitude, self.origin.longitude, azimuth, point.length());
        Position { latitude: latitude.clamp(-90.0, 90.0), longitude: within_half_turn(longitude) }
    }
}

/// The frame for fixes as they come: metres per degree at each point's own latitude, which keeps areas (a sinusoidal
/// map); within 1e-7 of the geodesic area for places up to 2 km. Close to a pole it is the exact frame.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct QuickFrame {
    origin: Position,
    /// Metres of meridian a radian at the origin.
    meridian: f64,
    /// How fast that grows, part a radian, halved.
    growth: f64,
}

impl QuickFrame {
    /// The frame about a position.
    pub fn about(origin: Position) -> Self {
        let (sine, cosine) = libm::sincos(origin.latitude * RADIANS);
        let left = 1.0 - E2 * sine * sine;
        Self {
            origin,
            meridian: EQUATORIAL_RADIUS_M.value * (1.0 - E2) / (left * left.sqrt()),
            growth: 1.5 * E2 * sine * cosine / left,
        }
    }

    /// Where the frame lies.
    pub const fn origin(&self) -> Position {
        self.origin
    }

    const fn is_polar(&self) -> bool {
        self.origin.latitude.abs() > POLAR_DEG
    }

    /// Metres east and north of the origin.
    pub fn point(&self, position: Position) -> Point {
        if self.is_polar() {
            return Frame::about(self.origin).point(position);
        }
        let north = (position.latitude - self.origin.latitude) * RADIANS;
        let east = within_half_turn(position.longitude - self.origin.longitude) * RADIANS;
        Point::new(
            east * parallel_m(position.latitude * RADIANS),
            self.meridian * north * (1.0 + self.growth * north),
        )
    }

    /// The position of a point.
    pub fn position(&self, point: Point) -> Position {
        if self.is_polar() {
            return Frame::about(self.origin).position(point);
        }
        let arc = point.y / self.meridian;
        let north = 2.0 * arc / (1.0 + (1.0 + 4.0 * self.growth * arc).max(0.0).sqrt());
        let latitude = (self.origin.latitude + north / RADIANS).clamp(-90.0, 90.0);
        let radius = parallel_m(latitude * RADIANS);
        let east = if radius > 0.0 { point.x / radius / RADIANS } else { 0.0 };
        Position { latitude, longitude: within_half_turn(self.origin.longitude + east.clamp(-180.0, 180.0)) }
    }
}

/// Radius of a parallel, metres; latitude in radians.
fn parallel_m(latitude: f64) -> f64 {
    let (sine, cosine) = libm::sincos(latitude);
    EQUATORIAL_RADIUS_M.value * cosine / (1.0 - E2 * sine * sine).sqrt()
}
