//! Nitrogen was given.

use super::kinded;
use crate::entry::field::{Label, codes, record};

codes! {
    /// Where a feed went.
    Placed, "placing" {
        /// Mixed into the soil.
        Mixed = 1, "mixed";
        /// On the soil, under the layer.
        Under = 2, "under";
        /// On top of whatever lies there.
        Top = 3, "top";
    }
}

record! {
    /// A feed went to the place that the entry is about.
    FeedGiven {
        /// Name in the table of feeds.
        source: Label,
        /// Nitrogen in it, mg.
        nitrogen_mg: u64,
        /// Product, g.
        product_g: Option<u64>,
        /// Product, mL.
        volume_ml: Option<u64>,
        /// Where it went.
        placed: Placed,
        /// Part for the crop anyway, mg nitrogen.
        crop_mg: Option<u64>,
        /// Part because of the wood, mg nitrogen.
        wood_mg: Option<u64>,
    }
}

kinded!(FeedGiven, version 1, about Place);
