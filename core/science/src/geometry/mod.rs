//! Places and quantities on the ground: walked, taped, ringed and weighed.

mod arc;
pub mod disc;
pub mod discs;
pub mod drip_line;
mod grid;
pub mod load;
pub mod pile;
pub mod probe;
pub mod row;
pub mod run;
pub mod settling;
pub mod strip;
pub mod tree_rings;
