//! What a crop leaves on its place: how much of its nitrogen, and at which carbon to nitrogen.
//!
//! The dry mass follows from the nitrogen that the crop took up, so that no nitrogen appears from nowhere:
//! dry mass = nitrogen × C:N / carbon share.

use crate::crop;
use crate::lookup::Match;
use crate::source::{Source, Sourced, Standing};

/// Carbon to nitrogen of fresh plant matter.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ratio {
    /// Low end.
    pub low: f64,
    /// Usual.
    pub typical: f64,
    /// High end.
    pub high: f64,
    /// Where the usual value comes from.
    pub source: Source,
}

impl Ratio {
    const fn new(low: f64, typical: f64, high: f64, source: Source) -> Self {
        Self { low, typical, high, source }
    }

    /// Standard deviation of the logarithm that puts nine in ten between the ends.
    pub fn log_deviation(&self) -> f64 {
        /// The 95 % point of the normal distribution.
        const Z95: f64 = 1.645;
        (libm::log(self.high) - libm::log(self.low)) / (2.0 * Z95)
    }
}

/// What is left of a crop.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Residue {
    /// The whole plant, cut green: a cover dug in or mown.
    pub whole: Ratio,
    /// What is left once the harvest is carried off.
    pub left: Ratio,
    /// Part of the crop's nitrogen that is left then.
    pub left_share: Sourced<f64>,
}

const NRCS: Source = Source::new(
    "USDA Natural Resources Conservation Service",
    2011,
    "Carbon to nitrogen ratios in cropping systems",
    "table 1",
    Standing::SecondHand,
);
const KUO: Source = Source::new(
    "Kuo & Jellum",
    2002,
    "ryegrass and hairy vetch as winter covers",
    "vegetative growth",
    Standing::SecondHand,
);
const KIRCHMANN: Source = Source::new(
    "Kirchmann",
    1988,
    "shoot and root growth and nitrogen uptake by six green manure legumes",
    "clovers at 101 days",
    Standing::SecondHand,
);
const COMPOSTING: Source = Source::new(
    "Rynk",
    1992,
    "On-Farm Composting Handbook, NRAES-54",
    "Table A.1, vegetable waste; potato tops",
    Standing::FromMemory,
);

/// Fruiting and leafy vegetables: soft green matter.
const SOFT: Ratio = Ratio::new(10.0, 12.0, 20.0, COMPOSTING);
/// Potato haulm and its like.
const HAULM: Ratio = Ratio::new(15.0, 25.0, 35.0, COMPOSTING);
/// Ripe straw of cereals: wheat 80, oats 70, rye 82.
const STRAW: Ratio = Ratio::new(60.0, 80.0, 100.0, NRCS);
/// Ripe stalks of maize.
const STALKS: Ratio = Ratio::new(45.0, 57.0, 70.0, NRCS);
/// A cereal cut green: rye 26 before, 37 at flowering.
const GREEN_CEREAL: Ratio = Ratio::new(18.0, 26.0, 37.0, NRCS);
/// Green grass.
const GREEN_GRASS: Ratio = Ratio::new(18.0, 30.0, 40.0, KUO);
/// A legume cut green: hairy vetch 11, young lucerne 13, legume hay 17.
const GREEN_LEGUME: Ratio = Ratio::new(11.0, 13.0, 17.0, NRCS);
/// Clovers.
const CLOVER: Ratio = Ratio::new(10.0, 13.7, 17.0, KIRCHMANN);
/// Ripe pea straw.
const PEA_STRAW: Ratio = Ratio::new(20.0, 29.0, 40.0, NRCS);

const fn assumed(share: f64) -> Sourced<f64> {
    Sourced::new(share, Source::ASSUMPTION)
}

const fn of(whole: Ratio, left: Ratio, left_share: f64) -> Residue {
    Residue { whole, left, left_share: assumed(left_share) }
}

/// By the crop table's names. Shares left are assumptions, ordered as the vegetables that leave much (cauliflower,
/// broccoli) and little (lettuce, onion); reviews tell of up to 200 kg N/ha left by cabbages of all sorts.
const RESIDUES: [(&str, Residue); 24] = [
    ("broccoli", of(SOFT, SOFT, 0.6)),
    ("cauliflower", of(SOFT, SOFT, 0.6)),
    ("cabbage", of(SOFT, SOFT, 0.4)),
    ("kale", of(SOFT, SOFT, 0.4)),
    ("lettuce", of(SOFT, SOFT, 0.2)),
    ("spinach", of(SOFT, SOFT, 0.3)),
    ("onion", of(SOFT, HAULM, 0.2)),
    ("garlic", of(SOFT, HAULM, 0.2)),
    ("leek", of(SOFT, SOFT, 0.3)),
    ("carrots", of(SOFT, SOFT, 0.35)),
    ("beet", of(SOFT, SOFT, 0.45)),
    ("radish", of(SOFT, SOFT, 0.3)),
    ("potato", of(HAULM, HAULM, 0.25)),
    ("tomato", of(SOFT, HAULM, 0.4)),
    ("processing tomato", of(SOFT, HAULM, 0.4)),
    ("pepper", of(SOFT, HAULM, 0.5)),
    ("eggplant", of(SOFT, HAULM, 0.5)),
    ("wheat", of(GREEN_CEREAL, STRAW, 0.3)),
    ("maize", of(GREEN_CEREAL, STALKS, 0.35)),
    ("sweet corn", of(GREEN_CEREAL, HAULM, 0.6)),
    ("beans", of(GREEN_LEGUME, PEA_STRAW, 0.4)),
    ("peas", of(GREEN_LEGUME, PEA_STRAW, 0.4)),
    ("broad beans", of(GREEN_LEGUME, PEA_STRAW, 0.4)),
    ("clover", of(CLOVER, CLOVER, 0.3)),
];

/// Covers that are in no table of crops, by words in their names, English and Spanish.
const COVERS: [(&[&str], Ratio); 3] = [
    (&["vetch", "veza", "lupin", "altramuz", "alfalfa", "lucerne", "legume", "leguminosa"], GREEN_LEGUME),
    (&["rye", "centeno", "oats", "avena", "barley", "cebada", "triticale"], GREEN_CEREAL),
    (&["grass", "ryegrass", "raigras", "hierba", "pasto"], GREEN_GRASS),
];

/// A crop of which nothing is known.
const UNKNOWN: Residue = Residue {
    whole: Ratio::new(11.0, 20.0, 37.0, Source::ASSUMPTION),
    left: Ratio::new(11.0, 20.0, 57.0, Source::ASSUMPTION),
    left_share: assumed(0.4),
};

/// Carbon of fresh plant matter, part of dry mass.
pub const CARBON_SHARE: Sourced<f64> = Sourced::new(0.45, Source::COMMON_PRACTICE);

/// How well the mass of what a crop leaves is known: standard deviation of its logarithm.
pub const MASS_DEVIATION: Sourced<f64> = Sourced::new(0.25, Source::ASSUMPTION);

/// What a crop leaves, by its name; figures for any green matter where the name tells nothing.
pub fn of_crop(name: &str) -> Residue {
    if let Match::Exact(found) = crop::find(name)
        && let Some((_, residue)) = RESIDUES.iter().find(|(known, _)| *known == found.name)
    {
        return *residue;
    }
    match COVERS.iter().find(|(known, _)| is_called(name, known)) {
        Some((_, ratio)) => Residue { whole: *ratio, left: *ratio, ..UNKNOWN },
        None => UNKNOWN,
    }
}

/// Whether a crop is grown to be dug in or mown, not to be harvested: by its name, no where that tells nothing.
pub fn is_cover(name: &str) -> bool {
    /// Covers whose leavings are like any green matter.
    const OTHERS: [&str; 9] =
        ["cover", "manure", "phacelia", "facelia", "mustard", "mostaza", "buckwheat", "cobertura", "abono"];
    if let Match::Exact(found) = crop::find(name) {
        return found.edible == crop::Edible::NotForPeople;
    }
    is_called(name, &OTHERS) || COVERS.iter().any(|(known, _)| is_called(name, known))
}

/// Whether one of some words stands in a name, in any form that names are looked up by.
fn is_called(name: &str, known: &[&str]) -> bool {
    let words = crate::lookup::words(name);
    known.iter().any(|known| crate::lookup::words(known).iter().all(|word| words.contains(word)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_name_is_a_crop_of_the_table_and_every_range_is_in_order() {
        for (name, residue) in RESIDUES {
            assert!(matches!(crop::find(name), Match::Exact(found) if found.name == name), "{name}");
            assert!((0.0..1.0).contains(&residue.left_share.value), "{name}");
            for ratio in [residue.whole, residue.left] {
                assert!(ratio.low <= ratio.typical && ratio.typical <= ratio.high, "{name}");
            }
        }
    }

    #[test]
    fn a_cover_is_known_by_a_word_of_its_name() {
        assert_eq!(of_crop("hairy vetch").whole, GREEN_LEGUME);
        assert_eq!(of_crop("winter rye").whole, GREEN_CEREAL);
        assert_eq!(of_crop("repollo"), of_crop("cabbage"));
        assert_eq!(of_crop("something else"), UNKNOWN);
        for cover in ["winter rye", "clover", "green manure", "avena", "mustard", "lucerne", "barley"] {
            assert!(is_cover(cover), "{cover}");
        }
        for crop in ["cabbage", "something else"] {
            assert!(!is_cover(crop), "{crop}");
        }
    }
}
