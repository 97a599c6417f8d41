//! A plot was measured.

use super::kinded;
use crate::entry::field::record;

record! {
    /// What was measured on the net plot of the trial that the entry is about.
    PlotMeasured {
        /// The plot by its number.
        plot: u32,
        /// Yield of the net plot, g.
        yield_g: Option<u64>,
        /// Ground under weeds, 0.01 %.
        weed_bp: Option<u32>,
        /// Water in the soil by volume, 0.01 %.
        moisture_bp: Option<u32>,
        /// Plants that stand on the net plot.
        stand: Option<u32>,
    }
}

kinded!(PlotMeasured, version 1, about Trial);
