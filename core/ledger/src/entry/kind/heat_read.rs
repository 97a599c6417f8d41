//! A pile's temperature was read.

use super::kinded;
use crate::entry::field::{Label, record};

record! {
    /// One reading of a probe in the pile that the entry is about.
    HeatRead {
        /// Zone of the pile, or probe; the pile as a whole where absent.
        zone: Option<Label>,
        /// Depth of the probe, mm.
        depth_mm: Option<u32>,
        /// What it read, 0.01 degree C.
        temperature_centi_c: i32,
        /// Whether smoke was seen or smelt.
        smoke: bool,
    }
}

kinded!(HeatRead, version 1, about Pile);
