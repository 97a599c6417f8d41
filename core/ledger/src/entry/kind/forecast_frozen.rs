//! A forecast was acted on.

use super::kinded;
use super::put_down::{ContainerKind, Way};
use crate::entry::field::{Label, record};
use crate::entry::id::{Date, TextRef};
use crate::entry::outline::Series;

record! {
    /// One figure a week, mg nitrogen a square metre (100 are 1 kg/ha).
    Weeks {
        /// Tie-up that nine of ten runs exceed.
        tied_p10: Series,
        /// Tie-up of the middle run.
        tied_p50: Series,
        /// Tie-up that one of ten runs exceeds.
        tied_p90: Series,
        /// Mineral nitrogen that nine of ten runs exceed.
        mineral_p10: Series,
        /// Mineral nitrogen of the middle run.
        mineral_p50: Series,
        /// Mineral nitrogen that one of ten runs exceeds.
        mineral_p90: Series,
    }
}

record! {
    /// What was foretold for the place that the entry is about, and what was advised, as it stood that day.
    ForecastFrozen {
        /// Version of the engine.
        engine: u32,
        /// Version of its parameters.
        parameters: u32,
        /// Seed of the runs, below 2^63.
        seed: u64,
        /// Number of runs.
        runs: u32,
        /// The inputs as canonical text, kept outside.
        inputs: TextRef,
        /// Day of the first figure; the others follow every seven days.
        first: Date,
        /// Weekly figures.
        weeks: Weeks,
        /// Hungry day, days after the first: one run in ten is hungry before it.
        hungry_p10: Option<u32>,
        /// Half of the runs are hungry before it.
        hungry_p50: Option<u32>,
        /// Nine runs in ten are hungry before it.
        hungry_p90: Option<u32>,
        /// Way advised; absent where nothing is to be put down.
        way: Option<Way>,
        /// Moist mass advised, g.
        wet_g: Option<u64>,
        /// Containers advised.
        containers: Option<u32>,
        /// What kind of container.
        container: Option<ContainerKind>,
        /// Nitrogen advised, mg; 0 for nothing.
        give_mg: u64,
        /// Feed advised.
        give_source: Option<Label>,
        /// Day to look.
        look: Option<Date>,
        /// What not to do, by name.
        avoid: Option<Label>,
        /// Crop nitrogen lost, low end, mg/m2.
        cost_p10: i32,
        /// Crop nitrogen lost, middle run, mg/m2.
        cost_p50: i32,
        /// Crop nitrogen lost, high end, mg/m2.
        cost_p90: i32,
        /// What is least known, by name.
        least_known: Option<Label>,
    }
}

kinded!(ForecastFrozen, version 1, about Place);
