//! A recipe from what is at hand: the smallest change from what the grower has in mind that reaches the goals.
//!
//! A linear program: each amount lies between nothing and what is at hand, both goals are equations that are linear in the
//! amounts, and the sum of the changes is least. What is offered without an amount in mind is there to be used: it hardly
//! counts as a change, and water not at all.

use microlp::{ComparisonOp, OptimizationDirection, Problem, Variable};

use super::balance::{Goal, Goals, Impossible, Side, carbon_beyond, water_beyond};
use super::mix::{Composition, Ingredient, Mix};
use crate::source::{Source, Sourced};
use crate::units::{Mass, Share};

/// Least part of what the grower has in mind that a recipe uses, so that nothing at all is no answer.
pub const LEAST_USED: Sourced<f64> = Sourced::new(0.01, Source::ASSUMPTION);

/// What a kilogram of something offered without an amount in mind counts beside one that is changed.
const OFFERED_COUNTS: f64 = 0.001;

/// How closely a recipe put back through the mixture returns its goals, as a part of each.
const GOALS_RETURN: f64 = 1e-9;

/// An ingredient as it is offered to a recipe.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Offer {
    /// What it is made of.
    pub of: Composition,
    /// How much of it the grower has in mind; nothing where that is for the recipe to say.
    pub amount: Mass,
    /// How much there is; no end where it is not said.
    pub at_hand: Option<Mass>,
    /// Whether the amount is to stay as it is.
    pub kept: bool,
}

impl Offer {
    /// Any amount, none in mind.
    pub fn free(of: Composition) -> Self {
        Self { of, amount: Mass::default(), at_hand: None, kept: false }
    }

    /// An amount that stays.
    pub fn kept(of: Composition, amount: Mass) -> Self {
        Self { of, amount, at_hand: None, kept: true }
    }

    /// Whether it is water alone.
    fn is_water(&self) -> bool {
        self.of.dry() <= 0.0
    }

    fn bounds(&self, whole: f64, with: Bounds) -> (f64, f64) {
        let amount = self.amount.kg() / whole;
        match (self.kept && with != Bounds::Open, self.at_hand) {
            (true, _) => (amount, amount),
            (false, Some(most)) if with == Bounds::AsSaid => (0.0, (most.kg() / whole).max(0.0)),
            (false, _) => (0.0, f64::INFINITY),
        }
    }
}

/// How far amounts may go.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Bounds {
    /// Up to what is at hand; what is to stay stays.
    AsSaid,
    /// As much as is needed; what is to stay stays.
    Endless,
    /// Any amount of anything.
    Open,
}

/// The amounts, in the order of the offers, that reach the goals with the smallest change; of so much in all where
/// `whole` is given.
///
/// Put back through [`super::mix::Mix`] they return the goals to 1e-9. Where there is no answer, [`Impossible`] says why
/// and carries what would make one possible.
pub fn solve(offers: &[Offer], goals: Goals, whole: Option<Mass>) -> Result<Vec<Mass>, Impossible> {
    if !goals.possible() {
        return Err(Impossible::Goal);
    }
    let in_mind: f64 = offers.iter().map(|offer| offer.amount.kg()).sum();
    let scale = whole.map_or(in_mind, Mass::kg);
    if !(scale > 0.0 && scale.is_finite()) {
        return Err(Impossible::NothingKnown);
    }
    let least = match (whole, offers.iter().any(|offer| offer.kept && offer.amount.kg() > 0.0)) {
        (Some(_), _) => Whole::Exactly,
        (None, true) => Whole::Any,
        (None, false) => Whole::AtLeast,
    };
    let task = Task { offers, goals, scale, whole: least };
    let Some(mut amounts) = task.amounts(Bounds::AsSaid) else { return Err(task.why()) };
    task.polish(&mut amounts);
    if !task.met(&amounts) {
        return Err(task.why());
    }
    Ok(amounts.into_iter().map(|amount| Mass::from_kg(amount * scale)).collect())
}

/// What is asked of the sum of all amounts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Whole {
    Any,
    AtLeast,
    Exactly,
}

/// A recipe to be found, in parts of its scale.
struct Task<'a> {
    offers: &'a [Offer],
    goals: Goals,
    scale: f64,
    whole: Whole,
}

impl Task<'_> {
    /// The equations: each a coefficient for every offer, and what their sum must be.
    fn equations(&self) -> Vec<(Vec<f64>, f64)> {
        let row = |of: &dyn Fn(&Composition) -> f64| -> Vec<f64> {
            self.offers.iter().map(|offer| of(&offer.of)).collect()
        };
        let mut equations = Vec::new();
        if let Some(goal) = self.goals.moisture {
            equations.push((row(&|of| water_beyond(of, goal)), 0.0));
        }
        if let Some(goal) = self.goals.carbon_nitrogen {
            equations.push((row(&|of| carbon_beyond(of, goal)), 0.0));
        }
        if self.whole == Whole::Exactly {
            equations.push((vec![1.0; self.offers.len()], 1.0));
        }
        equations
    }

    fn amounts(&self, bounds: Bounds) -> Option<Vec<f64>> {
        let mut problem = Problem::new(OptimizationDirection::Minimize);
        let amounts: Vec<Variable> =
            self.offers.iter().map(|offer| problem.add_var(0.0, offer.bounds(self.scale, bounds))).collect();
        for (offer, amount) in self.offers.iter().zip(&amounts) {
            if !offer.is_water() {
                // The change, up or down: change >= amount - in mind and change >= in mind - amount.
                let in_mind = offer.amount.kg() / self.scale;
                let counts = if in_mind > 0.0 { 1.0 } else { OFFERED_COUNTS };
                let change = problem.add_var(counts, (0.0, f64::INFINITY));
                problem.add_constraint([(*amount, 1.0), (change, -1.0)], ComparisonOp::Le, in_mind);
                problem.add_constraint([(*amount, 1.0), (change, 1.0)], ComparisonOp::Ge, in_mind);
            }
        }
        for (row, sum) in self.equations() {
            let terms: Vec<(Variable, f64)> = amounts.iter().copied().zip(row).collect();
            problem.add_constraint(&terms, ComparisonOp::Eq, sum);
        }
        if self.whole == Whole::AtLeast || bounds == Bounds::Open {
            let terms: Vec<(Variable, f64)> = amounts.iter().map(|amount| (*amount, 1.0)).collect();
            problem.add_constraint(&terms, ComparisonOp::Ge, LEAST_USED.value);
        }
        let solution = problem.solve().ok()?.into_solution().ok()?;
        Some(amounts.iter().map(|amount| solution.var_value(*amount).max(0.0)).collect())
    }

    /// The smallest correction of the amounts that are free to move, so that the equations hold to the last digits.
    fn polish(&self, amounts: &mut [f64]) {
        let free: Vec<bool> = self
            .offers
            .iter()
            .zip(&*amounts)
            .map(|(offer, amount)| {
                let (low, high) = offer.bounds(self.scale, Bounds::AsSaid);
                *amount > low && *amount < high
            })
            .collect();
        let mut equations = self.equations();
        for (row, _) in &mut equations {
            for (coefficient, free) in row.iter_mut().zip(&free) {
                *coefficient = if *free { *coefficient } else { 0.0 };
            }
        }
        for _ in 0..2 {
            let short: Vec<f64> = self
                .equations()
                .iter()
                .map(|(row, sum)| sum - row.iter().zip(&*amounts).map(|(a, b)| a * b).sum::<f64>())
                .collect();
            let gram: Vec<Vec<f64>> = equations
                .iter()
                .map(|(row, _)| {
                    equations
                        .iter()
                        .map(|(other, _)| row.iter().zip(other).map(|(a, b)| a * b).sum())
                        .collect()
                })
                .collect();
            let Some(weights) = eliminate(gram, short) else { return };
            for ((row, _), weight) in equations.iter().zip(weights) {
                for (amount, coefficient) in amounts.iter_mut().zip(row) {
                    *amount = (*amount + weight * coefficient).max(0.0);
                }
            }
        }
    }

    /// Whether a mixture of these amounts has what was asked: beside a goal that is only just out of reach the linear
    /// program takes a heap of nearly nothing for an answer.
    fn met(&self, amounts: &[f64]) -> bool {
        let near =
            |is: Option<f64>, asked: f64| is.is_some_and(|is| (is - asked).abs() <= GOALS_RETURN * asked);
        let parts: Vec<Ingredient> = self
            .offers
            .iter()
            .zip(amounts)
            .map(|(offer, amount)| offer.of.times(Mass::from_kg(*amount)))
            .collect();
        let mix = Mix::of(&parts);
        let enough = match self.whole {
            Whole::Any => true,
            Whole::AtLeast => amounts.iter().sum::<f64>() >= LEAST_USED.value * (1.0 - GOALS_RETURN),
            Whole::Exactly => near(Some(amounts.iter().sum()), 1.0),
        };
        enough
            && self
                .goals
                .moisture
                .is_none_or(|goal| near(mix.moisture().map(Share::fraction), goal.fraction()))
            && self.goals.carbon_nitrogen.is_none_or(|goal| near(mix.carbon_nitrogen(), goal))
    }

    /// Why there is no answer, from the plainest cause on.
    fn why(&self) -> Impossible {
        if let Some(goal) = self.goals.moisture
            && let Some(side) = self.one_side(|of| water_beyond(of, goal))
        {
            return Impossible::OneSide { goal: Goal::Moisture, side };
        }
        if let Some(goal) = self.goals.carbon_nitrogen
            && let Some(side) = self.one_side(|of| carbon_beyond(of, goal))
        {
            return Impossible::OneSide { goal: Goal::CarbonNitrogen, side };
        }
        if let Some(needed) = self.amounts(Bounds::Endless) {
            let short =
                self.offers.iter().zip(&needed).enumerate().find_map(|(ingredient, (offer, needed))| {
                    let at_hand = offer.at_hand.filter(|_| !offer.kept)?;
                    let needed = Mass::from_kg(needed * self.scale);
                    (needed > at_hand).then_some(Impossible::Short { ingredient, needed, at_hand })
                });
            return short.unwrap_or(Impossible::Kept);
        }
        let free = Task { whole: Whole::AtLeast, ..*self };
        if free.amounts(Bounds::Open).is_some() {
            return Impossible::Kept;
        }
        match self.moisture_within() {
            Some((driest, wettest)) => Impossible::NotTogether { driest, wettest },
            None => Impossible::Kept,
        }
    }

    fn one_side(&self, beyond: impl Fn(&Composition) -> f64) -> Option<Side> {
        let mut usable = self.offers.iter().filter(|offer| {
            if offer.kept {
                offer.amount.kg() > 0.0
            } else {
                offer.at_hand.is_none_or(|most| most.kg() > 0.0)
            }
        });
        let signs: Vec<f64> = usable.by_ref().map(|offer| beyond(&offer.of)).collect();
        if signs.iter().all(|sign| *sign >= 0.0) && signs.iter().any(|sign| *sign > 0.0) {
            Some(Side::Above)
        } else if signs.iter().all(|sign| *sign <= 0.0) && signs.iter().any(|sign| *sign < 0.0) {
            Some(Side::Below)
        } else {
            None
        }
    }

    /// The driest and the wettest mixture with the C:N, whatever is at hand.
    fn moisture_within(&self) -> Option<(Share, Share)> {
        let goal = self.goals.carbon_nitrogen?;
        let end = |direction| {
            let mut problem = Problem::new(direction);
            let shares: Vec<Variable> = self
                .offers
                .iter()
                .map(|offer| problem.add_var(offer.of.moisture.fraction(), (0.0, 1.0)))
                .collect();
            let all: Vec<(Variable, f64)> = shares.iter().map(|share| (*share, 1.0)).collect();
            problem.add_constraint(&all, ComparisonOp::Eq, 1.0);
            let terms: Vec<(Variable, f64)> = shares
                .iter()
                .zip(self.offers)
                .map(|(share, offer)| (*share, carbon_beyond(&offer.of, goal)))
                .collect();
            problem.add_constraint(&terms, ComparisonOp::Eq, 0.0);
            let solution = problem.solve().ok()?.into_solution().ok()?;
            Some(Share::from_fraction(solution.objective()))
        };
        Some((end(OptimizationDirection::Minimize)?, end(OptimizationDirection::Maximize)?))
    }
}

/// Solves a small system by elimination with pivots; `None` where it is singular.
fn eliminate(mut matrix: Vec<Vec<f64>>, mut right: Vec<f64>) -> Option<Vec<f64>> {
    let size = right.len();
    for step in 0..size {
        let pivot = (step..size).max_by(|a, b| matrix[*a][step].abs().total_cmp(&matrix[*b][step].abs()))?;
        if matrix[pivot][step].abs() < 1e-14 {
            return None;
        }
        matrix.swap(step, pivot);
        right.swap(step, pivot);
        let (done, rest) = matrix.split_at_mut(step + 1);
        let (of_pivot, of_right) = (&done[step], right[step]);
        for (row, right) in rest.iter_mut().zip(&mut right[step + 1..]) {
            let factor = row[step] / of_pivot[step];
            for (cell, above) in row.iter_mut().zip(of_pivot) {
                *cell -= factor * above;
            }
            *right -= factor * of_right;
        }
    }
    for step in (0..size).rev() {
        let known: f64 = matrix[step].iter().zip(&right).skip(step + 1).map(|(a, b)| a * b).sum();
        right[step] = (right[step] - known) / matrix[step][step];
    }
    Some(right)
}
