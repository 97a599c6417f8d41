//! Doses tried on a place, always with the same runs.

use std::collections::BTreeMap;

use kerfbook_science::feed::Feed;
use kerfbook_science::nitrogen::{Input, Runs, chance};

use super::futures::Futures;
use super::ground::{Ground, Side};
use super::step::Step;
use crate::answer::NO_DIFFERENCE_KG_HA;
use crate::error::ActError;
use crate::forecast::first_hungry;

/// What a plan is to reach.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Goal {
    /// Hunger in no more than this share of the runs.
    Hunger(f64),
    /// For trees, which have no hungry day: in half of the runs as much nitrogen as with nothing put down, which is
    /// given run by run, kg/ha.
    AsBare(Vec<f64>),
}

impl Goal {
    /// Share of the runs that may miss it.
    fn share(&self) -> f64 {
        match self {
            Self::Hunger(share) => *share,
            Self::AsBare(_) => 0.5,
        }
    }
}

/// Nitrogen in the crops that a plan is made for, run by run, kg/ha.
pub(super) fn taken(ground: &Ground, runs: &Runs) -> Vec<f64> {
    let mut sum = vec![0.0; runs.last().runs()];
    for crop in ground.positions().iter().filter_map(|at| runs.last().crops.get(*at)) {
        for (sum, own) in sum.iter_mut().zip(&crop.uptake) {
            *sum += own;
        }
    }
    sum
}

/// What doses come to.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Tried {
    /// Share of the runs that go short: hungry, or of trees behind the bare place.
    pub chance: f64,
    /// Day by which more runs are short than may be; infinite where they never are.
    pub due: f64,
    /// Nitrogen in the crops, mean of the runs, kg/ha.
    pub crop_kg_ha: f64,
}

/// A source on a place.
pub(super) struct Trial<'a> {
    ground: &'a Ground,
    side: Side,
    futures: &'a Futures,
    goal: &'a Goal,
    source: &'static Feed,
    step: Step,
    days: &'a [u32],
    seen: BTreeMap<Vec<u32>, Tried>,
}

impl<'a> Trial<'a> {
    pub(super) fn new(
        (ground, side): (&'a Ground, Side),
        (futures, goal): (&'a Futures, &'a Goal),
        (source, step): (&'static Feed, Step),
        days: &'a [u32],
    ) -> Self {
        Self { ground, side, futures, goal, source, step, days, seen: BTreeMap::new() }
    }

    pub(super) fn days(&self) -> &'a [u32] {
        self.days
    }

    /// Nitrogen of all doses, kg/ha.
    pub(super) fn total_kg_ha(&self, doses: &[u32]) -> f64 {
        self.step.kg_ha * f64::from(doses.iter().sum::<u32>())
    }

    /// Whether no more runs go short than may.
    pub(super) fn keeps(&mut self, doses: &[u32]) -> Result<bool, ActError> {
        Ok(self.with(doses)?.chance <= self.goal.share())
    }

    /// What doses come to, one a day that may be fed.
    pub(super) fn with(&mut self, doses: &[u32]) -> Result<Tried, ActError> {
        if let Some(seen) = self.seen.get(doses) {
            return Ok(*seen);
        }
        let fed = self.ground.fed(self.side, (self.source, &self.step), self.days, doses)?;
        let input = Input { days: self.ground.horizon(), ..fed };
        let runs = self.futures.run(&input, &[])?;
        let crop = taken(self.ground, &runs);
        let mut short = match self.goal {
            Goal::Hunger(_) => first_hungry(&runs, &self.ground.positions()),
            Goal::AsBare(bare) => {
                let behind = crop.iter().zip(bare).map(|(own, bare)| bare - own > NO_DIFFERENCE_KG_HA);
                behind.map(|behind| if behind { f64::from(input.days) } else { f64::INFINITY }).collect()
            }
        };
        let chance = chance(&short);
        short.sort_by(f64::total_cmp);
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a share of the runs")]
        let may = (self.goal.share() * short.len() as f64).floor() as usize;
        let due = short.get(may).copied().unwrap_or(f64::INFINITY);
        let tried = Tried { chance, due, crop_kg_ha: crop.iter().sum::<f64>() / crop.len() as f64 };
        self.seen.insert(doses.to_vec(), tried);
        Ok(tried)
    }
}
