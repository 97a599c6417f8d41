//! Heaps: their volume from a few lengths, and how far it may be off.
//!
//! The first seven shapes are the catalogue of Hardy 1996 (PNW-GTR-364) and of Wright, Balog & Kelly 2010
//! (PNW-GTR-805), who measured 121 heaps; the formulas are geometry.

use core::f64::consts::PI;

use crate::source::{Source, Sourced, Standing};
use crate::units::Volume;

/// Longest length that is believed, m; assumption.
const LONGEST_M: f64 = 10_000.0;

/// The section across a ridge.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Section {
    /// Straight sides to a sharp crest: too little for most windrows.
    Triangle,
    /// A parabola.
    Parabola,
    /// Half an ellipse; half a circle where the height is half the width.
    HalfEllipse,
    /// A flat top of this width, m.
    Trapezoid {
        /// Width of the top.
        top_m: f64,
    },
    /// Upright sides: too much for any heap, and so the other end of the range.
    Rectangle,
}

/// A heap, all lengths in metres: `height` above the ground, `width` and `length` at the ground and in full.
#[derive(Debug, Clone, Copy, PartialEq)]
#[expect(missing_docs, reason = "the lengths are named in full and drawn in the formula of each shape")]
pub enum Shape {
    /// 2 π h³ / 3.
    HalfSphere { height_m: f64 },
    /// π h w² / 8.
    Paraboloid { height_m: f64, width_m: f64 },
    /// π w l h / 4: a log pile, rounded on top, with upright ends.
    HalfEllipticCylinder { width_m: f64, length_m: f64, height_m: f64 },
    /// π l (h1² + h1 h2 + h2²) / 6: the same, tapering from one half circle to another.
    HalfFrustum { length_m: f64, first_height_m: f64, second_height_m: f64 },
    /// π [l (w1² + w1 w2 + w2²) + w1³ + w2³] / 24: with a quarter sphere at either end.
    RoundedHalfFrustum { length_m: f64, first_width_m: f64, second_width_m: f64 },
    /// π w l h / 6.
    HalfEllipsoid { width_m: f64, length_m: f64, height_m: f64 },
    /// π r² h / 3.
    Cone { radius_m: f64, height_m: f64 },
    /// π h (R² + R r + r²) / 3.
    TruncatedCone { bottom_radius_m: f64, top_radius_m: f64, height_m: f64 },
    /// A windrow: its section along the straight ridge, and rounded ends of the same section.
    Ridge { section: Section, width_m: f64, height_m: f64, ridge_m: f64 },
    /// A windrow that runs from one end of the yard to the other: its section alone.
    OpenRidge { section: Section, width_m: f64, height_m: f64, length_m: f64 },
    /// h/6 [(2a + a1) b + (2a1 + a) b1]: rectangular, flat on top.
    FlatTopped { length_m: f64, width_m: f64, top_length_m: f64, top_width_m: f64, height_m: f64 },
    /// b h (2a + a1) / 6: rectangular, rising to a crest; no crest is a pyramid, a crest as long as the base a prism.
    Wedge { length_m: f64, crest_m: f64, width_m: f64, height_m: f64 },
    /// l w d: a bin, a box, a struck trailer.
    Box { length_m: f64, width_m: f64, depth_m: f64 },
}

/// Why lengths make no heap.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum PileError {
    /// A length that is none.
    #[error("length {number} of the shape is {length_m} m: give more than 0 and at most {LONGEST_M} m")]
    Length {
        /// Which, in the order of the shape's lengths, from 1.
        number: usize,
        /// As given.
        length_m: f64,
    },
    /// A part of a whole that is none.
    #[error("measured within {share}: give 0 to 0.5 of a length")]
    Within {
        /// As given.
        share: f64,
    },
}

impl Shape {
    /// Volume.
    ///
    /// # Errors
    /// A length that is not above 0, or over 10 km; the top of a shape, its crest and its ridge may be 0.
    pub fn volume(&self) -> Result<Volume, PileError> {
        self.check()?;
        Ok(Volume::from_m3(self.cubic()))
    }

    /// Volume with the half-width that follows from its lengths, each measured within a part of itself at 95 % and on
    /// its own.
    ///
    /// # Errors
    /// As [`Shape::volume`]; a part that is not 0 to 0.5.
    pub fn volume_within(&self, share: f64) -> Result<(Volume, Volume), PileError> {
        if !(0.0..=0.5).contains(&share) {
            return Err(PileError::Within { share });
        }
        let volume = self.volume()?;
        let with = |lengths: &[f64]| {
            let mut lengths = lengths.iter().copied();
            self.map(&mut |length| lengths.next().unwrap_or(length)).cubic()
        };
        Ok((volume, Volume::from_m3(half_width(&self.lengths(), share, with))))
    }

    /// The lengths, in the order in which the shape names them.
    fn lengths(&self) -> Vec<f64> {
        let mut lengths = Vec::new();
        self.map(&mut |length| {
            lengths.push(length);
            length
        });
        lengths
    }

    fn check(&self) -> Result<(), PileError> {
        // A top may shrink to a point or a line.
        let may_be_none: &[usize] = match self {
            Self::TruncatedCone { .. } | Self::Wedge { .. } => &[2],
            Self::FlatTopped { .. } | Self::Ridge { section: Section::Trapezoid { .. }, .. } => &[3, 4],
            Self::OpenRidge { section: Section::Trapezoid { .. }, .. } => &[4],
            Self::Ridge { .. } => &[3],
            _ => &[],
        };
        for (number, length_m) in (1..).zip(self.lengths()) {
            let enough = length_m > 0.0 || (length_m == 0.0 && may_be_none.contains(&number));
            if !(enough && length_m <= LONGEST_M) {
                return Err(PileError::Length { number, length_m });
            }
        }
        Ok(())
    }

    fn cubic(&self) -> f64 {
        match *self {
            Self::HalfSphere { height_m: h } => 2.0 * PI * h * h * h / 3.0,
            Self::Paraboloid { height_m: h, width_m: w } => PI * h * w * w / 8.0,
            Self::HalfEllipticCylinder { width_m: w, length_m: l, height_m: h } => PI * w * l * h / 4.0,
            Self::HalfFrustum { length_m: l, first_height_m: a, second_height_m: b } => {
                PI * l * (a * a + a * b + b * b) / 6.0
            }
            Self::RoundedHalfFrustum { length_m: l, first_width_m: a, second_width_m: b } => {
                PI * (l * (a * a + a * b + b * b) + a * a * a + b * b * b) / 24.0
            }
            Self::HalfEllipsoid { width_m: w, length_m: l, height_m: h } => PI * w * l * h / 6.0,
            Self::Cone { radius_m: r, height_m: h } => frustum(r, 0.0, h),
            Self::TruncatedCone { bottom_radius_m, top_radius_m, height_m } => {
                frustum(bottom_radius_m, top_radius_m, height_m)
            }
            Self::Ridge { section, width_m, height_m, ridge_m } => {
                section.across(width_m, height_m) * ridge_m + section.turned(width_m, height_m)
            }
            Self::OpenRidge { section, width_m, height_m, length_m } => {
                section.across(width_m, height_m) * length_m
            }
            Self::FlatTopped { length_m: a, width_m: b, top_length_m: a1, top_width_m: b1, height_m: h } => {
                h / 6.0 * ((2.0 * a + a1) * b + (2.0 * a1 + a) * b1)
            }
            Self::Wedge { length_m: a, crest_m: a1, width_m: b, height_m: h } => b * h * (2.0 * a + a1) / 6.0,
            Self::Box { length_m, width_m, depth_m } => length_m * width_m * depth_m,
        }
    }

    /// The same shape with every length changed; the order is that of the fields.
    fn map(&self, change: &mut impl FnMut(f64) -> f64) -> Self {
        let mut of = |length: f64| change(length);
        match *self {
            Self::HalfSphere { height_m } => Self::HalfSphere { height_m: of(height_m) },
            Self::Paraboloid { height_m, width_m } => {
                Self::Paraboloid { height_m: of(height_m), width_m: of(width_m) }
            }
            Self::HalfEllipticCylinder { width_m, length_m, height_m } => Self::HalfEllipticCylinder {
                width_m: of(width_m),
                length_m: of(length_m),
                height_m: of(height_m),
            },
            Self::HalfFrustum { length_m, first_height_m, second_height_m } => Self::HalfFrustum {
                length_m: of(length_m),
                first_height_m: of(first_height_m),
                second_height_m: of(second_height_m),
            },
            Self::RoundedHalfFrustum { length_m, first_width_m, second_width_m } => {
                Self::RoundedHalfFrustum {
                    length_m: of(length_m),
                    first_width_m: of(first_width_m),
                    second_width_m: of(second_width_m),
                }
            }
            Self::HalfEllipsoid { width_m, length_m, height_m } => {
                Self::HalfEllipsoid { width_m: of(width_m), length_m: of(length_m), height_m: of(height_m) }
            }
            Self::Cone { radius_m, height_m } => {
                Self::Cone { radius_m: of(radius_m), height_m: of(height_m) }
            }
            Self::TruncatedCone { bottom_radius_m, top_radius_m, height_m } => Self::TruncatedCone {
                bottom_radius_m: of(bottom_radius_m),
                top_radius_m: of(top_radius_m),
                height_m: of(height_m),
            },
            Self::Ridge { section, width_m, height_m, ridge_m } => Self::Ridge {
                width_m: of(width_m),
                height_m: of(height_m),
                ridge_m: of(ridge_m),
                section: section.map(&mut of),
            },
            Self::OpenRidge { section, width_m, height_m, length_m } => Self::OpenRidge {
                width_m: of(width_m),
                height_m: of(height_m),
                length_m: of(length_m),
                section: section.map(&mut of),
            },
            Self::FlatTopped { length_m, width_m, top_length_m, top_width_m, height_m } => Self::FlatTopped {
                length_m: of(length_m),
                width_m: of(width_m),
                top_length_m: of(top_length_m),
                top_width_m: of(top_width_m),
                height_m: of(height_m),
            },
            Self::Wedge { length_m, crest_m, width_m, height_m } => Self::Wedge {
                length_m: of(length_m),
                crest_m: of(crest_m),
                width_m: of(width_m),
                height_m: of(height_m),
            },
            Self::Box { length_m, width_m, depth_m } => {
                Self::Box { length_m: of(length_m), width_m: of(width_m), depth_m: of(depth_m) }
            }
        }
    }
}

impl Section {
    /// Area of a section of a width and a height.
    pub fn across(self, width: f64, height: f64) -> f64 {
        match self {
            Self::Triangle => width * height / 2.0,
            Self::Parabola => 2.0 * width * height / 3.0,
            Self::HalfEllipse => PI * width * height / 4.0,
            Self::Trapezoid { top_m } => (width + top_m) * height / 2.0,
            Self::Rectangle => width * height,
        }
    }

    /// Volume of the section turned about its middle: the two ends of a ridge together.
    fn turned(self, width: f64, height: f64) -> f64 {
        match self {
            Self::Triangle => frustum(width / 2.0, 0.0, height),
            Self::Parabola => PI * height * width * width / 8.0,
            Self::HalfEllipse => PI * width * width * height / 6.0,
            Self::Trapezoid { top_m } => frustum(width / 2.0, top_m / 2.0, height),
            Self::Rectangle => frustum(width / 2.0, width / 2.0, height),
        }
    }

    fn map(self, change: &mut impl FnMut(f64) -> f64) -> Self {
        match self {
            Self::Trapezoid { top_m } => Self::Trapezoid { top_m: change(top_m) },
            other => other,
        }
    }
}

fn frustum(bottom: f64, top: f64, height: f64) -> f64 {
    PI * height * (bottom * bottom + bottom * top + top * top) / 3.0
}

/// How far a figure may be off when every measure it rests on may be off by a part of itself, each on its own: changes
/// add in squares.
pub fn half_width(measures: &[f64], share: f64, figure: impl Fn(&[f64]) -> f64) -> f64 {
    let with = |number: usize, factor: f64| {
        let mut measures = measures.to_vec();
        if let Some(measure) = measures.get_mut(number) {
            *measure *= factor;
        }
        figure(&measures)
    };
    let off = |number| 0.5 * (with(number, 1.0 + share) - with(number, 1.0 - share));
    (0..measures.len()).map(off).map(|off| off * off).sum::<f64>().sqrt()
}

/// Volume between two sections from their areas and the one halfway: exact for every shape above.
pub fn prismoidal(length: f64, first: f64, middle: f64, second: f64) -> f64 {
    length * (first + 4.0 * middle + second) / 6.0
}

/// Volume between two sections from their areas alone: too much where a heap tapers, by 7 % between half circles of one
/// and two radii (Sanders 2013, "Volumes by sections using prismoidal formulas").
pub fn end_area(length: f64, first: f64, second: f64) -> f64 {
    length * f64::midpoint(first, second)
}

/// Height of a pile by a board laid up its slope: how high a point some way along the board stands above the ground tells how
/// high its end does (Alberta Nutrient Management Planning Guide, p. 124).
pub fn height_by_board(board: f64, along: f64, rise: f64) -> f64 {
    board * rise / along
}

/// Diameter of the round ends of a windrow from its length at the ground and at the top, and its width (the same page).
pub fn end_diameter(bottom: f64, top: f64, width: f64) -> f64 {
    f64::midpoint(bottom - top, width)
}

/// Radius from the girth at the ground (Alberta Nutrient Management Planning Guide, p. 124).
pub fn radius_of_girth(girth: f64) -> f64 {
    girth / (2.0 * PI)
}

/// Height of a cone or a ridge of a width whose sides lie at an angle, degrees: a check only, a measured height wins.
pub fn height_at_repose(width: f64, degrees: f64) -> f64 {
    0.5 * width * libm::tan(degrees.to_radians())
}

/// The angle of the sides of a cone or a sharp ridge, degrees.
pub fn slope_degrees(width: f64, height: f64) -> f64 {
    libm::atan2(height, 0.5 * width).to_degrees()
}

/// Steepest angle at which residue was seen to lie, degrees; the least is 25.
pub const STEEPEST_REPOSE: Sourced<f64> = Sourced::new(
    55.0,
    Source::new(
        "Mattsson",
        1990,
        "Basic handling characteristics of wood fuels",
        "Scandinavian Journal of Forest Research 5:583-597",
        Standing::Published,
    ),
);

/// Volume of windrows with a half-circle section on an acre or any other area, as a depth over it: windrows of a height
/// with aisles between, running the full length.
///
/// Source: New Jersey DEP, leaf composting manual, appendix A.
pub fn half_circle_windrows_depth(height: f64, aisle: f64) -> f64 {
    PI * height * height / 2.0 / (2.0 * height + aisle)
}

#[cfg(test)]
#[expect(clippy::unwrap_used, reason = "a test may stop where it stands")]
mod tests {
    use super::*;

    fn m3(shape: Shape) -> f64 {
        shape.volume().unwrap().m3()
    }

    #[test]
    fn shapes_agree_where_they_meet() {
        let close = |a: f64, b: f64| assert!((a - b).abs() < 1e-9 * b, "{a} is not {b}");
        let cone = m3(Shape::Cone { radius_m: 2.0, height_m: 1.5 });
        close(
            cone,
            m3(Shape::Ridge { section: Section::Triangle, width_m: 4.0, height_m: 1.5, ridge_m: 0.0 }),
        );
        close(cone, m3(Shape::TruncatedCone { bottom_radius_m: 2.0, top_radius_m: 0.0, height_m: 1.5 }));
        let pyramid = m3(Shape::Wedge { length_m: 4.0, crest_m: 0.0, width_m: 4.0, height_m: 1.5 });
        close(cone, pyramid * PI / 4.0);
        close(
            pyramid,
            m3(Shape::FlatTopped {
                length_m: 4.0,
                width_m: 4.0,
                top_length_m: 0.0,
                top_width_m: 0.0,
                height_m: 1.5,
            }),
        );
        close(
            m3(Shape::Wedge { length_m: 6.0, crest_m: 6.0, width_m: 4.0, height_m: 1.5 }),
            m3(Shape::OpenRidge { section: Section::Triangle, width_m: 4.0, height_m: 1.5, length_m: 6.0 }),
        );
        close(
            m3(Shape::HalfSphere { height_m: 1.5 }),
            m3(Shape::HalfEllipsoid { width_m: 3.0, length_m: 3.0, height_m: 1.5 }),
        );
        close(
            m3(Shape::HalfFrustum { length_m: 5.0, first_height_m: 2.0, second_height_m: 2.0 }),
            m3(Shape::HalfEllipticCylinder { width_m: 4.0, length_m: 5.0, height_m: 2.0 }),
        );
        close(
            m3(Shape::RoundedHalfFrustum { length_m: 5.0, first_width_m: 3.0, second_width_m: 3.0 }),
            m3(Shape::Ridge { section: Section::HalfEllipse, width_m: 3.0, height_m: 1.5, ridge_m: 5.0 }),
        );
    }

    #[test]
    fn the_triangle_is_least_and_the_rectangle_most() {
        let of = |section| m3(Shape::Ridge { section, width_m: 4.0, height_m: 1.5, ridge_m: 10.0 });
        let sections = [Section::Triangle, Section::Parabola, Section::HalfEllipse, Section::Rectangle];
        assert!(sections.map(of).is_sorted());
    }

    #[test]
    fn a_volume_grows_with_the_third_power() {
        let shapes = [
            Shape::HalfSphere { height_m: 1.5 },
            Shape::RoundedHalfFrustum { length_m: 8.0, first_width_m: 2.4, second_width_m: 4.0 },
            Shape::Ridge {
                section: Section::Trapezoid { top_m: 1.0 },
                width_m: 4.0,
                height_m: 1.5,
                ridge_m: 9.0,
            },
            Shape::FlatTopped {
                length_m: 9.0,
                width_m: 6.0,
                top_length_m: 5.0,
                top_width_m: 2.0,
                height_m: 2.0,
            },
        ];
        for shape in shapes {
            let large = shape.map(&mut |length| 2.0 * length);
            assert!((m3(large) - 8.0 * m3(shape)).abs() < 1e-9 * m3(large));
        }
    }

    #[test]
    fn the_half_width_adds_the_lengths_in_squares() {
        // r² h: twice the share for r, once for h.
        let (volume, off) = Shape::Cone { radius_m: 5.0, height_m: 4.0 }.volume_within(0.05).unwrap();
        assert!((off.m3() / volume.m3() - 0.05 * 5.0_f64.sqrt()).abs() < 1e-12);
        let (_, none) = Shape::HalfSphere { height_m: 1.0 }.volume_within(0.0).unwrap();
        assert!(none.m3().abs() < 1e-15);
        assert!(Shape::HalfSphere { height_m: 1.0 }.volume_within(0.6).is_err());
    }

    #[test]
    fn what_is_no_length_is_refused_by_its_number() {
        for wrong in [0.0, -1.0, f64::NAN, f64::INFINITY, 1e5] {
            let cone = Shape::Cone { radius_m: 2.0, height_m: wrong };
            assert!(matches!(cone.volume(), Err(PileError::Length { number: 2, .. })), "{wrong}");
        }
        let top = |top_m| Shape::OpenRidge {
            section: Section::Trapezoid { top_m },
            width_m: 4.0,
            height_m: 1.0,
            length_m: 3.0,
        };
        assert!(top(0.0).volume().is_ok());
        assert!(matches!(top(-0.1).volume(), Err(PileError::Length { number: 4, .. })));
    }
}
