//! Side-by-side plots: laying them out, scoring them, and what may be said afterwards.
//!
//! Reading order: [`treatment`], [`design`], [`generator`], [`layout`], [`power`] before the season; [`score`], [`curve`] during it;
//! [`response`], [`structure`], [`least_squares`], [`anova`], [`comparison`], [`simultaneous`], [`rank`],
//! [`randomisation`], [`diagnostic`], [`efficiency`], [`verdict`] after it.

pub mod anova;
pub mod comparison;
pub mod curve;
pub mod design;
pub mod diagnostic;
pub mod efficiency;
pub mod generator;
pub mod layout;
pub mod least_squares;
pub mod power;
pub mod randomisation;
pub mod rank;
pub mod response;
pub mod score;
pub mod simultaneous;
pub mod structure;
pub mod treatment;
pub mod verdict;

pub use power::LINE;

#[expect(clippy::cast_precision_loss, reason = "counts of plots, visits and steps")]
const fn real(count: usize) -> f64 {
    count as f64
}
