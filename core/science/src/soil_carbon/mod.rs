//! The long view: what repeated use leaves in a soil over years. A band with a caution, never a promise: gains level off,
//! and are lost where the practice stops.

pub mod humus;
pub mod residue;
pub mod rothc;

use crate::source::{Source, Sourced, Standing};
use crate::units::{AreaMass, Length, Share};

/// Organic carbon in a layer of soil. `stones` is the volume of coarse fragments.
pub fn stock(carbon: Share, bulk_density_g_cm3: f64, depth: Length, stones: Share) -> AreaMass {
    // Per cent times g/cm³ times cm gives t/ha: the factor is one.
    AreaMass::from_t_ha(carbon.percent() * bulk_density_g_cm3 * depth.cm() * (1.0 - stones.fraction()))
}

/// Carbon that decay hardly reaches, of all the carbon of a soil.
pub fn inert(carbon: AreaMass) -> AreaMass {
    let [factor, power] = INERT.value;
    AreaMass::from_t_ha(factor * libm::pow(carbon.t_ha().max(0.0), power))
}

/// Organic matter of soil to its carbon.
pub const ORGANIC_MATTER_PER_CARBON: Sourced<f64> = Sourced::new(
    1.724,
    Source::new("van Bemmelen", 1890, "organic matter of soil", "factor", Standing::FromMemory),
);

/// Gains level off, and are lost where the practice stops.
pub const GAINS_END: Source =
    Source::new("FAO", 2020, "GSOCseq Technical Manual", "chapter 2", Standing::Published);
/// Carbon is compared on equal soil mass.
pub const EQUAL_MASS: Source = Source::new("FAO", 2020, "GSOC-MRV protocol", "", Standing::FromMemory);

/// Factor and power of the inert pool, t C/ha.
pub const INERT: Sourced<[f64; 2]> = Sourced::new([0.049, 1.139], FAO);
/// Carbon dioxide for each part of carbon.
pub const DIOXIDE_PER_CARBON: Sourced<f64> =
    Sourced::new(44.0 / 12.0, Source::new("", 0, "molar masses", "", Standing::Recomputed));

pub(crate) const FAO: Source =
    Source::new("FAO", 2020, "GSOCseq Technical Manual", "chapter 4", Standing::Published);
