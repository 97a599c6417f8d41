//! Humus by two old, short formulas: what enters each year and what goes each year.

use crate::source::{Source, Sourced, Standing};

const ENCYCLOPAEDIA: Source =
    Source::new("EPFL", 0, "French encyclopaedic entry on humus", "k1", Standing::Published);
const FRESH_WOOD: Source =
    Source::new("", 0, "isohumic coefficient of bark and wood", "", Standing::FromMemory);

/// Part of dry matter that becomes humus: low, high.
pub const STRAW: Sourced<[f64; 2]> = Sourced::new([0.10, 0.15], ENCYCLOPAEDIA);
/// The same of fresh manure.
pub const FRESH_MANURE: Sourced<[f64; 2]> = Sourced::new([0.30, 0.30], ENCYCLOPAEDIA);
/// The same of composted manure.
pub const COMPOSTED_MANURE: Sourced<[f64; 2]> = Sourced::new([0.50, 0.50], ENCYCLOPAEDIA);
/// The same of fresh bark and wood, poorly known.
pub const WOOD: Sourced<[f64; 2]> = Sourced::new([0.20, 0.50], FRESH_WOOD);
/// Part of humus that goes each year from a silt soil: about 1.5 of 90 t/ha.
pub const YEARLY_LOSS: Sourced<f64> = Sourced::new(
    1.5 / 90.0,
    Source::new("EPFL", 0, "French encyclopaedic entry on humus", "silt soil, 2 %", Standing::Recomputed),
);

/// Humus after some years of the same yearly input (Hénin and Dupuis 1945): `dH/dt = k1 m - k2 H`.
pub fn henin_dupuis(start: f64, input: f64, k1: f64, k2: f64, years: f64) -> f64 {
    let steady = k1 * input / k2;
    steady + (start - steady) * libm::exp(-k2 * years)
}

/// Part of organic matter left after some years, from its apparent initial age in years (Janssen 1984).
pub fn janssen(initial_age: f64, years: f64) -> f64 {
    let power = |age: f64| libm::pow(age, -0.6);
    libm::exp(4.7 * (power(initial_age + years) - power(initial_age)))
}
