//! Places and quantities on the ground: walked, taped, ringed and weighed.
//!
//! Reading order: [`frame`] (positions, flat frames), [`area`], [`ring`] and [`crossing`] (does an outline bound a
//! place), [`simplify`], [`averaging`], [`advice`], [`walk`], [`corners`], [`tape`]; then [`disc`] and [`discs`],
//! [`drip_line`], [`tree_rings`], [`row`], [`strip`], [`run`]; and [`probe`], [`settling`], [`pile`], [`load`].

pub mod advice;
mod arc;
pub mod area;
pub mod averaging;
pub mod corners;
pub mod crossing;
pub mod disc;
pub mod discs;
pub mod drip_line;
pub mod frame;
mod grid;
pub mod load;
pub mod pile;
pub mod probe;
pub mod ring;
pub mod row;
pub mod run;
pub mod settling;
pub mod simplify;
pub mod strip;
pub mod tape;
pub mod tree_rings;
pub mod walk;
