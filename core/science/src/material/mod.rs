//! What residue is: a table of materials with moisture, nitrogen, carbon to nitrogen and bulk density, each as
//! a range with its source; and the materials that are refused.

mod class;
mod name;
mod refusal;
mod table;

pub use class::{ModelClass, Particle};
pub use name::{Found, find};
pub use refusal::Refusal;
pub use table::{TableError, all};

use crate::source::{Source, Standing};
use crate::units::Density;

/// A figure's usual span.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Range {
    /// Low end.
    pub low: f64,
    /// The usual value.
    pub typical: f64,
    /// High end.
    pub high: f64,
    /// Where the usual value comes from.
    pub source: Source,
    /// How the two ends stand; an assumption where the source gives one value only.
    pub ends: Standing,
}

/// What sort of thing a material is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Kind {
    /// Sawdust, shavings, chips.
    Wood,
    /// Bark.
    Bark,
    /// Paper and board of paper.
    Paper,
    /// Straw, hay, stalks, hulls.
    Straw,
    /// Leaves and green clippings.
    Green,
    /// Residue of food.
    Food,
    /// Manure, with or without bedding.
    Manure,
    /// Meals and ash.
    Meal,
    /// Mineral fertiliser.
    Fertiliser,
    /// Liquids.
    Liquid,
    /// Finished compost, composted wood and bark.
    Compost,
    /// Sewage sludge: regulated everywhere, listed to be recognised.
    Sludge,
}

/// A part of a material by dry mass.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Part {
    /// Share of the dry mass; the shares of a material add to one.
    pub share: f64,
    /// The class; where several, nobody knows which, and each run draws one.
    pub one_of: &'static [ModelClass],
}

impl Part {
    /// Carbon, part of dry mass; the mean where the class is not known.
    pub fn carbon_share(&self) -> f64 {
        self.mean(ModelClass::carbon_share)
    }

    /// Carbon to nitrogen where nothing better is known; the mean where the class is not known.
    pub fn carbon_nitrogen(&self) -> f64 {
        self.mean(ModelClass::carbon_nitrogen)
    }

    #[expect(clippy::cast_precision_loss, reason = "at most thirteen classes")]
    fn mean(&self, of: impl Fn(ModelClass) -> f64) -> f64 {
        self.one_of.iter().map(|class| of(*class)).sum::<f64>() / self.one_of.len().max(1) as f64
    }
}

/// A material.
#[derive(Debug, Clone, PartialEq)]
pub struct Material {
    /// Its name in the table.
    pub name: &'static str,
    /// What sort of thing it is.
    pub kind: Kind,
    /// What the model sees; empty where it has no place in the model.
    pub composition: Vec<Part>,
    /// Usual size of the pieces.
    pub particle: Particle,
    /// Moisture, part of wet mass.
    pub moisture: Range,
    /// Nitrogen, part of dry mass; of the product for fertilisers.
    pub nitrogen: Range,
    /// Carbon to nitrogen by mass.
    pub carbon_nitrogen: Range,
    /// Bulk density as received: wet and loose, kg/m³.
    pub wet_density: Range,
}

/// The carbon to nitrogen of one of the parts of a mixture that has `whole`, as [`Material::part_carbon_nitrogen`].
pub fn part_carbon_nitrogen(parts: &[Part], part: &Part, whole: f64) -> f64 {
    let carbon: f64 = parts.iter().map(|p| p.share * p.carbon_share()).sum();
    let nitrogen: f64 = parts.iter().map(|p| p.share * p.carbon_share() / p.carbon_nitrogen()).sum();
    if nitrogen > 0.0 { part.carbon_nitrogen() * whole * nitrogen / carbon } else { whole }
}

impl Material {
    /// Dry, loose bulk density at the usual moisture.
    pub fn dry_density(&self) -> Density {
        Density::from_kg_m3(self.wet_density.typical * (1.0 - self.moisture.typical))
    }

    /// Whether it can be put down: the model has a class for it.
    pub fn is_residue(&self) -> bool {
        !self.composition.is_empty()
    }

    /// Carbon, part of dry mass, over all parts.
    pub fn carbon_share(&self) -> f64 {
        self.composition.iter().map(|part| part.share * part.carbon_share()).sum()
    }

    /// The carbon to nitrogen of one part when the whole has `whole`: the parts keep the proportions of their
    /// classes. For a material of one part this is `whole`.
    pub fn part_carbon_nitrogen(&self, part: &Part, whole: f64) -> f64 {
        part_carbon_nitrogen(&self.composition, part, whole)
    }

    /// Whether a word stands in its name.
    pub(crate) fn is_called(&self, word: &str) -> bool {
        crate::lookup::words(self.name).iter().any(|own| own == word)
    }
}
