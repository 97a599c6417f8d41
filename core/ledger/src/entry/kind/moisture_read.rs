//! A pile's moisture was read.

use super::kinded;
use crate::entry::field::{Label, record};

record! {
    /// How wet the pile that the entry is about is.
    MoistureRead {
        /// Zone of the pile; the pile as a whole where absent.
        zone: Option<Label>,
        /// Water by mass of the moist pile, 0.01 %.
        moisture_bp: u32,
    }
}

kinded!(MoistureRead, version 1, about Pile);
