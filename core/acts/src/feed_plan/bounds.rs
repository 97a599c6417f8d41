//! What may be given: the practical limits and those of the chosen rules, in steps of one source.

use kerfbook_science::limit::{self, Bound, Limit, Origin};

use super::ground::{Given, Ground};
use super::step::Step;

/// Days of a month of a rule's stretch of time.
const MONTH: f64 = 365.0 / 12.0;
/// Days of a season: feeds of any such stretch count together.
const SEASON: i64 = 365;
/// Room for rounding, kg/ha.
const ROUNDING: f64 = 1e-9;

/// What keeps a plan from giving more.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Tight {
    /// The most at once.
    AtOnce,
    /// The most in a season.
    InASeason,
    /// A limit of the chosen rules.
    Rule(&'static Limit),
    /// Days between giving and harvest.
    DaysToHarvest,
    /// Nothing but that more does not help: hunger comes before it can act, or decay takes it first.
    NoUse,
}

/// Limits on the doses of one source on one place.
pub(super) struct Bounds {
    days: Vec<i64>,
    step_kg_ha: f64,
    /// Given already, of whatever source, on each day.
    at_once: Vec<f64>,
    stretches: Vec<Stretch>,
}

/// A limit over a stretch of time that counts this source.
struct Stretch {
    tight: Tight,
    most_kg_ha: f64,
    days: i64,
    given: Vec<(i64, f64)>,
}

impl Bounds {
    pub(super) fn new(
        ground: &Ground,
        days: &[u32],
        origin: Origin,
        step: &Step,
        rules: &[&'static Limit],
    ) -> Self {
        let crops: Vec<&str> = ground.crops.iter().filter_map(|crop| crop.name).collect();
        let feeds = || ground.given.iter().filter(|given| given.feed);
        let days: Vec<i64> = days.iter().map(|day| i64::from(*day)).collect();
        Self {
            at_once: days
                .iter()
                .map(|day| feeds().filter(|given| given.day == *day).map(|given| given.kg_ha).sum())
                .collect(),
            stretches: rules
                .iter()
                .filter(|limit| limit.concerns(&crops))
                .filter_map(|limit| Stretch::of(limit, origin, &ground.given))
                .chain([Stretch {
                    tight: Tight::InASeason,
                    most_kg_ha: limit::IN_A_SEASON.value.kg_ha(),
                    days: SEASON,
                    given: feeds().map(|given| (given.day, given.kg_ha)).collect(),
                }])
                .collect(),
            step_kg_ha: step.kg_ha,
            days,
        }
    }

    /// The limit that doses break, where they break one.
    pub(super) fn broken(&self, doses: &[u32]) -> Option<Tight> {
        let kg_ha = |steps: u32| f64::from(steps) * self.step_kg_ha;
        let over = |have: f64, most: f64| have > most + ROUNDING;
        if doses.iter().all(|steps| *steps == 0) {
            return None;
        }
        let mut once = doses.iter().zip(&self.at_once).filter(|(steps, _)| **steps > 0);
        if once.any(|(steps, given)| over(kg_ha(*steps) + given, limit::AT_ONCE.value.kg_ha())) {
            return Some(Tight::AtOnce);
        }
        let fed: Vec<(i64, f64)> = self
            .days
            .iter()
            .zip(doses)
            .filter(|(_, steps)| **steps > 0)
            .map(|(day, steps)| (*day, kg_ha(*steps)))
            .collect();
        let full = self.stretches.iter().find(|stretch| over(stretch.fullest(&fed), stretch.most_kg_ha));
        full.map(|stretch| stretch.tight)
    }

    /// Most steps that a day takes besides the other doses; never fewer than it has.
    pub(super) fn most_on(&self, doses: &[u32], at: usize) -> u32 {
        let mut tried = doses.to_vec();
        let Some(have) = doses.get(at).copied() else { return 0 };
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "a small number of steps"
        )]
        let whole = (limit::AT_ONCE.value.kg_ha() / self.step_kg_ha + ROUNDING).floor() as u32;
        let fits = |steps: &u32| {
            tried[at] = *steps;
            self.broken(&tried).is_none()
        };
        (have..=whole).rev().find(fits).unwrap_or(have)
    }

    /// Everything that stands against one step more, on whichever day; each once.
    pub(super) fn tight(&self, doses: &[u32]) -> Vec<Tight> {
        let mut all: Vec<Tight> = Vec::new();
        for at in 0..doses.len() {
            let mut more = doses.to_vec();
            more[at] += 1;
            if let Some(tight) = self.broken(&more)
                && !all.contains(&tight)
            {
                all.push(tight);
            }
        }
        all
    }
}

impl Stretch {
    fn of(limit: &'static Limit, origin: Origin, given: &[Given]) -> Option<Self> {
        let Bound::Nitrogen { counts, most, months } = limit.bound else { return None };
        let counted = given.iter().filter(|given| counts.takes(given.origin));
        #[expect(clippy::cast_possible_truncation, reason = "a few years")]
        let days = (f64::from(months) * MONTH).floor() as i64;
        counts.takes(origin).then(|| Self {
            tight: Tight::Rule(limit),
            most_kg_ha: most.kg_ha(),
            days,
            given: counted.map(|given| (given.day, given.kg_ha)).collect(),
        })
    }

    /// The most in any stretch that holds some of the plan.
    fn fullest(&self, fed: &[(i64, f64)]) -> f64 {
        let all = || self.given.iter().chain(fed);
        let held = |from: i64| {
            let within = from..from + self.days;
            if fed.iter().any(|(day, _)| within.contains(day)) {
                all().filter(|(day, _)| within.contains(day)).map(|(_, kg_ha)| kg_ha).sum()
            } else {
                0.0
            }
        };
        all().map(|(day, _)| held(*day)).fold(0.0, f64::max)
    }
}
