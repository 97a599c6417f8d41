//! One act a file: read a projection, compute, append. The only place where ledger and science meet.
//!
//! Reading order: [`scenario`], [`load`], [`site`], [`way`], [`treatment`], [`compare`], [`answer`], [`dose`],
//! [`forecast`].

pub mod answer;
pub mod assumed;
pub mod calendar;
pub mod cautions;
pub mod compare;
pub mod dose;
pub mod error;
pub mod forecast;
pub mod load;
pub mod scenario;
pub mod site;
pub mod treatment;
pub mod way;
