//! A pile was turned.

use super::kinded;
use crate::entry::field::record;

record! {
    /// The pile that the entry is about was turned.
    PileTurned {
        /// Water that was added, mL.
        water_ml: Option<u64>,
    }
}

kinded!(PileTurned, version 1, about Pile);
