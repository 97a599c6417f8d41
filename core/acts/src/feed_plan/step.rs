//! The smallest amount of a source that a person weighs or measures on a place; doses are whole numbers of it.

use kerfbook_science::feed::{self, Feed};
use kerfbook_science::source::{Source, Sourced};
use kerfbook_science::units::{Area, AreaMass, Mass, Volume};

use crate::scenario::FeedAmount;

/// Scales and jugs of the person.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Measure {
    /// Grams and millilitres.
    #[default]
    Metric,
    /// Ounces and fluid ounces.
    Us,
}

/// Coarsest step of a dose, kg N/ha: no hand and no small spreader is more even.
pub const COARSEST_KG_HA: Sourced<f64> = Sourced::new(5.0, Source::COMMON_PRACTICE);
/// Smallest mass that a kitchen scale tells, g.
const LEAST_G: f64 = 1.0;
/// Smallest volume that a kitchen measure tells, ml: a teaspoon.
const LEAST_ML: f64 = 5.0;
/// Smallest mass that a kitchen scale tells in ounces, and smallest volume in fluid ounces: a tablespoon.
const LEAST_OZ: f64 = 0.05;
const LEAST_FL_OZ: f64 = 0.5;
/// Largest step: as far as a trailer load of liquid on a large field.
const STEPS: i32 = 36;

/// One step of a source on a place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Step {
    /// Product or liquid.
    pub amount: feed::Amount,
    /// Nitrogen in it, kg/ha.
    pub kg_ha: f64,
}

impl Step {
    /// The largest round amount that brings at most [`COARSEST_KG_HA`]; the smallest that can be measured where even
    /// that brings more.
    pub fn of(source: &Feed, area: Area, measure: Measure) -> Self {
        let liquid = matches!(source.content, feed::Content::GramsPerLitre { .. });
        let least = match (liquid, measure) {
            (false, Measure::Metric) => feed::Amount::Product(Mass::from_g(LEAST_G)),
            (true, Measure::Metric) => feed::Amount::Liquid(Volume::from_litres(LEAST_ML / 1000.0)),
            (false, Measure::Us) => feed::Amount::Product(Mass::from_lb(LEAST_OZ / 16.0)),
            (true, Measure::Us) => feed::Amount::Liquid(Volume::from_us_gallons(LEAST_FL_OZ / 128.0)),
        };
        let kg_ha = |amount: feed::Amount| {
            source.nitrogen_in(amount).map_or(f64::INFINITY, |nitrogen| nitrogen.per(area).kg_ha())
        };
        let steps = (0..STEPS).map(|number| {
            let amount = times(least, round(number, liquid, measure));
            Self { amount, kg_ha: kg_ha(amount) }
        });
        let first = Self { amount: least, kg_ha: kg_ha(least) };
        steps.take_while(|step| step.kg_ha <= COARSEST_KG_HA.value).last().unwrap_or(first)
    }

    /// The same on each of so many equal parts of the place: a round amount a tree.
    pub fn each(source: &Feed, area: Area, parts: u32, measure: Measure) -> Self {
        let count = f64::from(parts.max(1));
        let one = Self::of(source, area / count, measure);
        Self { amount: times(one.amount, count), kg_ha: one.kg_ha }
    }

    /// So many steps.
    pub fn times(&self, count: u32) -> feed::Amount {
        times(self.amount, f64::from(count))
    }

    /// So many steps as they are given: how strong a liquid is differs from run to run.
    pub fn given(&self, count: u32) -> FeedAmount {
        match self.times(count) {
            feed::Amount::Product(_) => FeedAmount::Nitrogen(self.nitrogen(count)),
            feed::Amount::Liquid(volume) => FeedAmount::Liquid(volume),
        }
    }

    /// Nitrogen in so many steps.
    pub fn nitrogen(&self, count: u32) -> AreaMass {
        AreaMass::from_kg_ha(self.kg_ha * f64::from(count))
    }
}

/// The factor of the step of that number: 1, 2, 5, 10 … from the smallest. Ounces double to a pound and fluid ounces
/// to a gallon before they go on so.
fn round(number: i32, liquid: bool, measure: Measure) -> f64 {
    /// 0.05, 0.1, 0.2, 0.5, 1, 2, 4, 8 ounces.
    const OUNCES: [f64; 8] = [1.0, 2.0, 4.0, 10.0, 20.0, 40.0, 80.0, 160.0];
    /// A half to 64 fluid ounces.
    const FLUID_OUNCES: [f64; 8] = [1.0, 2.0, 4.0, 8.0, 16.0, 32.0, 64.0, 128.0];
    let small = match (measure, liquid) {
        (Measure::Metric, _) => return one_two_five(number, liquid),
        (Measure::Us, false) => OUNCES,
        (Measure::Us, true) => FLUID_OUNCES,
    };
    let whole = if liquid { 256.0 } else { 320.0 };
    usize::try_from(number)
        .ok()
        .and_then(|at| small.get(at).copied())
        .unwrap_or_else(|| whole * one_two_five(number - 8, false))
}

/// 1, 2, 5, 10, 20, 50 …; from five: 1, 2, 4, 10, 20, 40 …, which in fives is 5, 10, 20, 50.
fn one_two_five(number: i32, from_five: bool) -> f64 {
    let tens = (0..number.div_euclid(3)).fold(1.0, |power, _| power * 10.0);
    tens * match number.rem_euclid(3) {
        0 => 1.0,
        1 => 2.0,
        _ if from_five => 4.0,
        _ => 5.0,
    }
}

fn times(amount: feed::Amount, factor: f64) -> feed::Amount {
    match amount {
        feed::Amount::Product(mass) => feed::Amount::Product(mass * factor),
        feed::Amount::Liquid(volume) => feed::Amount::Liquid(volume * factor),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn step(source: &str, m2: f64, measure: Measure) -> Option<Step> {
        feed::find(source).exact().map(|feed| Step::of(feed, Area::from_m2(m2), measure))
    }

    fn grams(source: &str, m2: f64) -> Option<f64> {
        step(source, m2, Measure::Metric).and_then(|step| match step.amount {
            feed::Amount::Product(mass) => Some((mass.g() * 1e6).round() / 1e6),
            feed::Amount::Liquid(_) => None,
        })
    }

    #[test]
    fn a_step_is_a_round_amount_that_brings_little() {
        // 10 g of urea on 12 m2 are 3.8 kg N/ha, 20 g too many.
        assert_eq!(grams("urea", 12.0), Some(10.0));
        assert_eq!(grams("blood meal", 12.0), Some(50.0));
        assert_eq!(grams("urea", 10_000.0), Some(10_000.0));
        let litres = step("human urine", 12.0, Measure::Metric).map(|step| step.amount);
        assert!(matches!(litres, Some(feed::Amount::Liquid(volume)) if (volume.litres() - 1.0).abs() < 1e-9));
        let ounces = step("urea", 12.0, Measure::Us).map(|step| step.amount);
        assert!(matches!(ounces, Some(feed::Amount::Product(mass)) if (mass.lb() * 16.0 - 0.2).abs() < 1e-9));
        let pounds = step("urea", 4_000.0, Measure::Us).map(|step| step.amount);
        assert!(matches!(pounds, Some(feed::Amount::Product(mass)) if (mass.lb() - 5.0).abs() < 1e-9));
    }

    #[test]
    fn the_smallest_that_can_be_weighed_stays_where_a_place_is_tiny() {
        assert_eq!(grams("urea", 0.05), Some(1.0));
        let step = step("urea", 0.05, Measure::Metric);
        assert!(step.is_some_and(|step| step.kg_ha > 90.0));
    }
}
