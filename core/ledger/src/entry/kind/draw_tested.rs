//! A draw test was read.

use super::kinded;
use crate::entry::field::record;

record! {
    /// How much nitrate the batch that the entry is about took up in four days.
    DrawTested {
        /// Temperature it stood at, 0.01 degree C.
        temperature_centi_c: i32,
        /// Nitrogen given, mg/L.
        dose_mg_l: u32,
        /// Dry matter, mg/L.
        dry_mg_l: u32,
        /// Nitrogen left after four days, of that given, 0.01 %: 10,000 where nothing was taken up.
        index_bp: u32,
    }
}

kinded!(DrawTested, version 1, about Batch);
