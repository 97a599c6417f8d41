//! Published formulas beside the model: what the product shows next to its own answer, and what the tests
//! check it against. One work a file.

pub mod ammonia;
pub mod epic;
pub mod leaching;
pub mod litter;
pub mod microbial_demand;
pub mod nicolardot;
pub mod psnt;
pub mod rate_modifier;
pub mod rothc;
