//! Nitrogen that decaying woody residue holds, day by day and run by run: the model of `docs/nitrogen-model.md`.
//!
//! Reading order: [`Input`] (what the model is told), [`parameter`] (its figures and their sources),
//! [`sampling`](Sample) (how runs differ), `drivers` (what all runs share), [`Site`] (a place made ready), `engine`
//! (the day), [`Runs`] (what is kept), [`Fork`] (what-ifs from one morning), `enough` (the least gift that does), [`quantile`] and [`report`] (what is told).
//! Feeds are `gifts`, runs `draws`, release `turn` in the keys of the input and the report, which are those of the
//! specification.
//!
//! The same input gives the same bits on every target: only + - × ÷, square roots and polynomials, no sums
//! across runs but for the weights of readings.

mod batch;
mod drivers;
mod engine;
mod enough;
mod fork;
mod ground;
mod input;
mod lanes;
mod layer;
pub mod parameter;
mod quick;
mod rank;
mod reading;
mod report;
mod runs;
mod sampling;
mod site;
mod summary;

pub use drivers::ammonia_share;
pub use fork::Fork;
pub use input::{
    Crop, Daily, Event, Gift, GiftSource, Input, InputError, Irrigation, LayerWay, Lift, Placement, PutDown,
    Reading, Soil, Stage, Watered, Weather,
};
pub use quick::{Quick, potential, quick, quick_answers};
pub use rank::Ranks;
pub use reading::{Update, log_weights, nitrate_within, resample, weights};
pub use report::{
    CropOutcome, DayOutcome, EnsembleOutcome, Lifted, MedianOutcome, Outcome, Report, StageOutcome,
    UpdatedOutcome, report,
};
pub use runs::{CropRuns, Drawn, DrawnName, Runs, Series, StageRuns, median, simulate};
pub use sampling::{Sample, normal_quantile, uniform};
pub use site::Site;
pub use summary::{Spread3, chance, quantile, spread};

/// Version of the equations and their order.
pub const ENGINE: u32 = 1;
/// Version of the parameters.
pub const PARAMETERS: u32 = 1;
