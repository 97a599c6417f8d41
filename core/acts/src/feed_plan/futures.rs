//! One side of a place from the first day that may be fed: the past is run once, every trial only what comes after.

use kerfbook_science::nitrogen::{Fork, Input, Runs, Sample};

use super::ground::{Ground, Side};
use crate::compare;
use crate::error::ActError;

/// The runs of one side.
pub(super) enum Futures {
    /// They wait on that day.
    Fork(Box<Fork>),
    /// Feeds change the past, too: what crops leave follows from what they are fed.
    Whole(Sample),
}

impl Futures {
    pub(super) fn of(ground: &Ground, side: Side, sample: &Sample, from: u32) -> Result<Self, ActError> {
        if ground.leaves.is_some() {
            return Ok(Self::Whole(sample.clone()));
        }
        let fork = Fork::new(ground.input(side), sample, from.min(ground.horizon() - 1));
        Ok(Self::Fork(Box::new(fork.map_err(|error| ActError::Model(error.to_string()))?)))
    }

    /// Runs an input that differs only from that day on.
    pub(super) fn run(&self, input: &Input, keep: &[u32]) -> Result<Runs, ActError> {
        match self {
            Self::Fork(fork) => fork.go_on(input, keep).map_err(|error| ActError::Model(error.to_string())),
            Self::Whole(sample) => compare::run(input, sample, keep),
        }
    }
}
