//! Doses tried on a place, always with the same runs.

use std::collections::BTreeMap;

use kerfbook_science::feed::Feed;
use kerfbook_science::nitrogen::{Input, Sample, chance};

use super::ground::{Ground, Side};
use super::step::Step;
use crate::compare;
use crate::error::ActError;

/// What doses come to.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Tried {
    /// Share of the runs that go hungry.
    pub chance: f64,
    /// Day by which more runs are hungry than may be; infinite where they never are.
    pub due: f64,
    /// Nitrogen in the crops, mean of the runs, kg/ha.
    pub crop_kg_ha: f64,
}

/// A source on a place.
pub(super) struct Trial<'a> {
    ground: &'a Ground,
    side: Side,
    sample: &'a Sample,
    source: &'static Feed,
    step: Step,
    days: &'a [u32],
    /// Share of the runs that may go hungry.
    share: f64,
    seen: BTreeMap<Vec<u32>, Tried>,
}

impl<'a> Trial<'a> {
    pub(super) fn new(
        (ground, side): (&'a Ground, Side),
        sample: &'a Sample,
        (source, step): (&'static Feed, Step),
        days: &'a [u32],
        share: f64,
    ) -> Self {
        Self { ground, side, sample, source, step, days, share, seen: BTreeMap::new() }
    }

    pub(super) fn days(&self) -> &'a [u32] {
        self.days
    }

    /// Nitrogen of all doses, kg/ha.
    pub(super) fn total_kg_ha(&self, doses: &[u32]) -> f64 {
        self.step.kg_ha * f64::from(doses.iter().sum::<u32>())
    }

    /// Whether no more runs go hungry than may.
    pub(super) fn keeps(&mut self, doses: &[u32]) -> Result<bool, ActError> {
        Ok(self.with(doses)?.chance <= self.share)
    }

    /// What doses come to, one a day that may be fed.
    pub(super) fn with(&mut self, doses: &[u32]) -> Result<Tried, ActError> {
        if let Some(seen) = self.seen.get(doses) {
            return Ok(*seen);
        }
        let fed = self.ground.fed(self.side, (self.source, &self.step), self.days, doses)?;
        let input = Input { days: self.ground.horizon(), ..fed };
        let runs = compare::run(&input, self.sample, &[])?;
        let mut hungry = compare::season_hungry(&runs, self.ground.crops.len());
        let crops = runs.last().crops.iter().take(self.ground.crops.len());
        let taken: f64 = crops.map(|crop| crop.uptake.iter().sum::<f64>()).sum();
        let chance = chance(&hungry);
        hungry.sort_by(f64::total_cmp);
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a share of the runs")]
        let may = (self.share * hungry.len() as f64).floor() as usize;
        let due = hungry.get(may).copied().unwrap_or(f64::INFINITY);
        let tried = Tried { chance, due, crop_kg_ha: taken / hungry.len() as f64 };
        self.seen.insert(doses.to_vec(), tried);
        Ok(tried)
    }
}
