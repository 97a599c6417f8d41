//! The science of woody residue on soil: pure functions, no I/O, no clock, no randomness but from a seed.
//!
//! Reading order: [`units`], [`factor`], [`source`], [`material`], [`weather`], [`soil`], [`crop`], [`crop_residue`],
//! [`feed`], [`limit`], [`mulch`], [`geometry`], [`distribution`], [`student`], [`dose`], [`compost`], [`nitrogen`],
//! [`soil_carbon`], [`plain`], [`trial`], [`caution`].

pub mod caution;
pub mod compost;
pub mod crop;
pub mod crop_residue;
pub mod distribution;
pub mod dose;
pub mod factor;
pub mod feed;
pub mod geometry;
pub mod limit;
pub mod lookup;
pub mod material;
pub mod mulch;
pub mod nitrogen;
pub mod plain;
pub mod published;
pub mod soil;
pub mod soil_carbon;
pub mod source;
pub mod student;
pub mod trial;
pub mod units;
pub mod weather;
