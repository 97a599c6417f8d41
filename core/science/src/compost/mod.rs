//! Composting first: recipes that heat, heat logs judged by named rules, and how a pile ends.
//!
//! Moisture is wet basis everywhere: water by mass of the moist thing. The oven-dry basis of wood science enters only
//! by [`basis`], where it is named.
//!
//! Reading order: [`basis`], [`mix`], [`balance`], [`recipe`], [`air`], [`window`]; [`heat_rule`], [`heat_log`],
//! [`phase`], [`fire`]; [`loss`], [`maturity`].

pub mod air;
pub mod balance;
pub mod basis;
pub mod fire;
pub mod heat_log;
pub mod heat_rule;
pub mod loss;
pub mod maturity;
pub mod mix;
pub mod phase;
pub mod recipe;
pub mod window;
