//! One or two unknown amounts from one or two goals, solved exactly.
//!
//! With `a = M - G` and `b = d (C - R N)` of each ingredient, a mixture has the moisture G where the sum of `Q a` is zero and
//! the ratio R where the sum of `Q b` is zero (Richard, Cornell composting, solving the moisture and carbon-nitrogen
//! equations simultaneously).

use super::mix::{Composition, Ingredient};
use crate::units::{Mass, Share};

/// What a recipe is to come to; moisture by wet mass.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Goals {
    /// Water by wet mass.
    pub moisture: Option<Share>,
    /// Carbon to nitrogen.
    pub carbon_nitrogen: Option<f64>,
}

/// Which goal.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Goal {
    /// Moisture.
    Moisture,
    /// Carbon to nitrogen.
    CarbonNitrogen,
}

/// Where everything lies that there is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Side {
    /// Above the goal: all too wet, or all too rich in carbon.
    Above,
    /// Below it: all too dry, or all too rich in nitrogen.
    Below,
}

/// Why no amounts reach the goals.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum Impossible {
    /// Nothing is known to which an amount could be fitted.
    #[error("no amount is known: say how much there is of one ingredient, or how much the whole is to be")]
    NothingKnown,
    /// A goal that no mixture can have.
    #[error("no mixture can have such a goal: moisture lies between 0 and 100 %, C:N above zero")]
    Goal,
    /// Everything lies on one side of one goal.
    #[error("everything lies on one side of the goal")]
    OneSide {
        /// Of which goal.
        goal: Goal,
        /// On which side.
        side: Side,
    },
    /// Each goal can be reached, but not both at once.
    #[error("each goal can be reached alone, not both together")]
    NotTogether {
        /// The driest mixture with that C:N.
        driest: Share,
        /// The wettest.
        wettest: Share,
    },
    /// What is at hand is too little.
    #[error("an ingredient is short")]
    Short {
        /// The ingredient, by its position.
        ingredient: usize,
        /// How much would be needed.
        needed: Mass,
        /// How much there is.
        at_hand: Mass,
    },
    /// What is to stay as it is does not allow it.
    #[error("the amounts that are to stay as they are do not allow it")]
    Kept,
}

impl Goals {
    /// Whether a mixture could have them.
    pub(super) fn possible(&self) -> bool {
        self.moisture.is_none_or(|goal| (0.0..1.0).contains(&goal.fraction()))
            && self.carbon_nitrogen.is_none_or(|goal| goal > 0.0 && goal.is_finite())
    }
}

/// Water beyond the goal, part of wet mass.
pub(super) fn water_beyond(of: &Composition, goal: Share) -> f64 {
    of.moisture.fraction() - goal.fraction()
}

/// Carbon beyond the goal, part of wet mass.
pub(super) fn carbon_beyond(of: &Composition, goal: f64) -> f64 {
    of.dry() * (of.carbon.fraction() - goal * of.nitrogen.fraction())
}

/// How much of a second thing brings what is known to a moisture.
pub fn for_moisture(known: &[Ingredient], second: &Composition, goal: Share) -> Result<Mass, Impossible> {
    one(known, second, Goal::Moisture, |of| water_beyond(of, goal))
}

/// How much of a second thing brings what is known to a C:N.
pub fn for_carbon_nitrogen(
    known: &[Ingredient],
    second: &Composition,
    goal: f64,
) -> Result<Mass, Impossible> {
    one(known, second, Goal::CarbonNitrogen, |of| carbon_beyond(of, goal))
}

fn one(
    known: &[Ingredient],
    second: &Composition,
    goal: Goal,
    beyond: impl Fn(&Composition) -> f64,
) -> Result<Mass, Impossible> {
    let so_far: f64 = known.iter().map(|one| one.wet.kg() * beyond(&one.of)).sum();
    let each = beyond(second);
    if known.iter().all(|one| one.wet.kg() <= 0.0) {
        return Err(Impossible::NothingKnown);
    }
    let needed = -so_far / each;
    if so_far == 0.0 {
        Ok(Mass::default())
    } else if needed > 0.0 && needed.is_finite() {
        Ok(Mass::from_kg(needed))
    } else {
        Err(Impossible::OneSide { goal, side: if so_far > 0.0 { Side::Above } else { Side::Below } })
    }
}

/// How much of two things brings what is known to both goals at once. Water may be one of them.
///
/// An answer below zero is refused: [`super::recipe`] says why.
pub fn for_both(
    known: &[Ingredient],
    unknown: [&Composition; 2],
    moisture: Share,
    carbon_nitrogen: f64,
) -> Option<[Mass; 2]> {
    let sum = |beyond: &dyn Fn(&Composition) -> f64| -> f64 {
        known.iter().map(|one| one.wet.kg() * beyond(&one.of)).sum()
    };
    let water = |of: &Composition| water_beyond(of, moisture);
    let carbon = |of: &Composition| carbon_beyond(of, carbon_nitrogen);
    let ([a1, a2], [b1, b2]) = (unknown.map(water), unknown.map(carbon));
    let (a, b) = (sum(&water), sum(&carbon));
    let determinant = a1 * b2 - a2 * b1;
    let amounts = [(a2 * b - a * b2) / determinant, (a * b1 - a1 * b) / determinant];
    amounts.iter().all(|amount| amount.is_finite() && *amount >= 0.0).then(|| amounts.map(Mass::from_kg))
}

/// The handbook's short cut for two things: mass of `a` for each unit of `b` at a C:N.
pub fn handbook_ratio(a: &Composition, b: &Composition, goal: f64) -> Option<f64> {
    let (of_a, of_b) = (a.carbon_nitrogen()?, b.carbon_nitrogen()?);
    let ratio =
        b.nitrogen.fraction() / a.nitrogen.fraction() * (goal - of_b) / (of_a - goal) * b.dry() / a.dry();
    (ratio > 0.0 && ratio.is_finite()).then_some(ratio)
}
