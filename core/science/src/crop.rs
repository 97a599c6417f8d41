//! Crops: what each takes up, when, and how much nitrogen its growth needs at the least.

use std::sync::LazyLock;

use crate::lookup::{Index, Match};
use crate::source::{Source, Sourced, Standing};
use crate::units::{AreaMass, Mass};

/// Nitrogen taken up in a season, whole plant.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Uptake {
    /// Low end.
    pub low: AreaMass,
    /// Usual.
    pub typical: AreaMass,
    /// High end.
    pub high: AreaMass,
}

impl Uptake {
    const fn kg_ha(low: f64, typical: f64, high: f64) -> Self {
        Self {
            low: AreaMass::from_kg_ha(low),
            typical: AreaMass::from_kg_ha(typical),
            high: AreaMass::from_kg_ha(high),
        }
    }

    /// One published figure; the ends a quarter either side, an assumption.
    const fn lb_acre(value: f64) -> Self {
        Self {
            low: AreaMass::from_lb_acre(value * 0.75),
            typical: AreaMass::from_lb_acre(value),
            high: AreaMass::from_lb_acre(value * 1.25),
        }
    }
}

/// How a crop lives.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Life {
    /// Sown or planted and harvested within a year.
    Annual,
    /// Stays for years in a row or bed: berries, vines.
    Perennial,
    /// Stays for years, counted by the tree; with the usual number a hectare.
    Tree {
        /// Trees a hectare.
        per_ha: f64,
    },
}

/// Whether what is eaten touches the soil: decides the days between raw manure and harvest.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Edible {
    /// Touches soil, or soil splashes on it. Taken where nobody knows.
    TouchesSoil,
    /// Hangs clear of it.
    Clear,
    /// Not for people.
    NotForPeople,
}

/// Critical nitrogen: per cent = a W^-b, W in t dry/ha.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Dilution {
    /// Per cent at 1 t/ha.
    pub a: f64,
    /// Exponent.
    pub b: f64,
    /// Growth from which the line falls, t dry/ha; constant below.
    pub from_t_ha: f64,
    /// Where it comes from.
    pub source: Source,
}

impl Dilution {
    /// Critical nitrogen, per cent of dry mass, at a growth of `dry_t_ha`.
    pub fn critical_pct(&self, dry_t_ha: f64) -> f64 {
        self.a * libm::pow(dry_t_ha.max(self.from_t_ha), -self.b)
    }

    /// Nitrogen in growth that has just enough.
    pub fn critical_uptake(&self, dry_t_ha: f64) -> AreaMass {
        AreaMass::from_kg_ha(self.critical_pct(dry_t_ha) * dry_t_ha * 10.0)
    }

    /// Nitrogen nutrition index: measured per cent over the critical one; 1 is just enough.
    pub fn nutrition_index(&self, nitrogen_pct: f64, dry_t_ha: f64) -> f64 {
        nitrogen_pct / self.critical_pct(dry_t_ha)
    }
}

/// A crop.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Crop {
    /// Its name in the table.
    pub name: &'static str,
    /// Other names, English and Spanish.
    pub also: &'static [&'static str],
    /// How it lives.
    pub life: Life,
    /// Nitrogen it takes up in a season.
    pub uptake: Uptake,
    /// The yield that goes with it.
    pub basis: &'static str,
    /// Part of the nitrogen that it fixes itself.
    pub fixed: f64,
    /// Whether what is eaten touches the soil.
    pub edible: Edible,
    /// Where the uptake comes from.
    pub source: Source,
}

impl Crop {
    /// Grams a tree a year, for trees.
    pub fn per_tree(&self) -> Option<Mass> {
        match self.life {
            Life::Tree { per_ha } if per_ha > 0.0 => {
                Some(Mass::from_kg(self.uptake.typical.kg_ha() / per_ha))
            }
            _ => None,
        }
    }
}

const NEW_ENGLAND: Source = Source::new(
    "New England Vegetable Management Guide",
    0,
    "Approximate nutrient removal by crops",
    "table 4",
    Standing::Published,
);

/// A crop of the New England table, in lb N/ac.
const fn listed(
    name: &'static str,
    also: &'static [&'static str],
    lb_acre: f64,
    basis: &'static str,
    edible: Edible,
) -> Crop {
    Crop {
        name,
        also,
        life: Life::Annual,
        uptake: Uptake::lb_acre(lb_acre),
        basis,
        fixed: 0.0,
        edible,
        source: NEW_ENGLAND,
    }
}

/// A crop from memory, in kg N/ha: low and high, the middle between.
const fn remembered(
    name: &'static str,
    also: &'static [&'static str],
    life: Life,
    (low, high): (f64, f64),
    edible: Edible,
) -> Crop {
    Crop {
        name,
        also,
        life,
        uptake: Uptake::kg_ha(low, f64::midpoint(low, high), high),
        basis: "",
        fixed: 0.0,
        edible,
        source: Source::FROM_MEMORY,
    }
}

/// A tree fruit for which no figure is at hand: as apple.
const fn like_apple(name: &'static str, also: &'static [&'static str]) -> Crop {
    Crop {
        source: Source::ASSUMPTION,
        ..remembered(name, also, Life::Tree { per_ha: TREES_PER_HA.value }, (40.0, 70.0), Clear)
    }
}

/// A legume: part of its nitrogen from the air.
const fn fixing(crop: Crop, fixed: f64) -> Crop {
    Crop { fixed, ..crop }
}

/// Trees a hectare of a fruit orchard on middling stocks.
pub const TREES_PER_HA: Sourced<f64> = Sourced::new(1000.0, Source::ASSUMPTION);
/// Part of its nitrogen that a bean fixes; the ends 0.2 and 0.6 are common in reviews, from memory.
pub const BEAN_FIXED: Sourced<f64> = Sourced::new(0.4, Source::ASSUMPTION);
/// Part of its nitrogen that a pea, a broad bean or clover fixes.
pub const PEA_FIXED: Sourced<f64> = Sourced::new(0.6, Source::ASSUMPTION);

use Edible::{Clear, NotForPeople, TouchesSoil};

// Edible part and soil: common practice, no source.
static CROPS: [Crop; 40] = [
    listed("broccoli", &["brócoli", "brécol"], 165.0, "5 US tons of heads an acre", Clear),
    listed(
        "cabbage",
        &["col", "repollo", "white cabbage", "brassicas"],
        125.0,
        "20 US tons an acre",
        TouchesSoil,
    ),
    listed("carrots", &["zanahoria"], 145.0, "25 US tons an acre", TouchesSoil),
    listed("cauliflower", &["coliflor"], 45.0, "6 US tons an acre", Clear),
    listed("celery", &["apio"], 195.0, "50 US tons of tops an acre, and roots", TouchesSoil),
    Crop {
        uptake: Uptake {
            low: AreaMass::from_lb_acre(100.0),
            typical: AreaMass::from_lb_acre(150.0),
            high: AreaMass::from_lb_acre(200.0),
        },
        ..listed("cucumber", &["pepino"], 150.0, "24 US tons an acre", TouchesSoil)
    },
    listed("eggplant", &["aubergine", "berenjena"], 207.0, "16 US tons an acre", Clear),
    listed("kale", &["col rizada", "berza"], 125.0, "10 US tons an acre", TouchesSoil),
    listed("lettuce", &["lechuga", "salad"], 75.0, "15 US tons an acre", TouchesSoil),
    listed("muskmelon", &["melon", "melón", "cantaloupe"], 155.0, "11 US tons of fruit an acre", TouchesSoil),
    listed("onion", &["cebolla"], 145.0, "20 US tons an acre", TouchesSoil),
    remembered("sweet corn", &["maíz dulce", "corn", "elote"], Life::Annual, (150.0, 190.0), Clear),
    remembered("maize", &["field maize", "field corn", "maíz"], Life::Annual, (190.0, 290.0), Clear),
    remembered("tomato", &["tomate", "jitomate", "fresh tomato"], Life::Annual, (150.0, 250.0), Clear),
    remembered("processing tomato", &["tomate de industria"], Life::Annual, (220.0, 300.0), TouchesSoil),
    remembered("pepper", &["pimiento", "bell pepper", "chile"], Life::Annual, (150.0, 220.0), Clear),
    remembered("potato", &["patata", "papa"], Life::Annual, (180.0, 250.0), TouchesSoil),
    remembered(
        "squash",
        &["courgette", "zucchini", "calabacín", "calabaza", "pumpkin"],
        Life::Annual,
        (120.0, 180.0),
        TouchesSoil,
    ),
    fixing(
        remembered(
            "beans",
            &["green bean", "judía", "alubia", "frijol", "habichuela"],
            Life::Annual,
            (90.0, 130.0),
            Clear,
        ),
        BEAN_FIXED.value,
    ),
    fixing(
        Crop {
            source: Source::ASSUMPTION,
            ..remembered("peas", &["guisante", "arveja", "chícharo"], Life::Annual, (90.0, 130.0), Clear)
        },
        PEA_FIXED.value,
    ),
    fixing(
        Crop {
            source: Source::ASSUMPTION,
            ..remembered("broad beans", &["fava", "haba", "faba bean"], Life::Annual, (120.0, 180.0), Clear)
        },
        PEA_FIXED.value,
    ),
    fixing(
        Crop {
            source: Source::ASSUMPTION,
            ..remembered("clover", &["trébol"], Life::Annual, (100.0, 200.0), NotForPeople)
        },
        PEA_FIXED.value,
    ),
    Crop {
        source: Source::ASSUMPTION,
        ..remembered("wheat", &["trigo", "cereal", "grain"], Life::Annual, (120.0, 220.0), Clear)
    },
    Crop {
        source: Source::ASSUMPTION,
        ..remembered("radish", &["rábano", "rabanito"], Life::Annual, (40.0, 80.0), TouchesSoil)
    },
    Crop {
        source: Source::ASSUMPTION,
        ..remembered("spinach", &["espinaca"], Life::Annual, (80.0, 140.0), TouchesSoil)
    },
    Crop {
        source: Source::ASSUMPTION,
        ..remembered("beet", &["beetroot", "remolacha", "betabel"], Life::Annual, (100.0, 180.0), TouchesSoil)
    },
    Crop {
        source: Source::ASSUMPTION,
        ..remembered("chard", &["acelga", "swiss chard"], Life::Annual, (100.0, 180.0), TouchesSoil)
    },
    Crop {
        source: Source::ASSUMPTION,
        ..remembered("garlic", &["ajo"], Life::Annual, (100.0, 150.0), TouchesSoil)
    },
    Crop {
        source: Source::ASSUMPTION,
        ..remembered("leek", &["puerro"], Life::Annual, (120.0, 200.0), TouchesSoil)
    },
    remembered(
        "strawberry",
        &["fresa", "frutilla", "annual strawberry"],
        Life::Annual,
        (180.0, 225.0),
        TouchesSoil,
    ),
    remembered(
        "strawberry, matted row",
        &["fresa en línea", "perennial strawberry"],
        Life::Perennial,
        (50.0, 90.0),
        TouchesSoil,
    ),
    remembered("raspberry", &["frambuesa"], Life::Perennial, (60.0, 90.0), Clear),
    remembered(
        "blueberry",
        &["arándano", "mature blueberry", "highbush blueberry"],
        Life::Perennial,
        (60.0, 110.0),
        Clear,
    ),
    remembered(
        "blueberry, young",
        &["arándano joven", "young blueberry"],
        Life::Perennial,
        (20.0, 30.0),
        Clear,
    ),
    remembered("grape", &["vid", "uva", "vine", "grapevine", "viña"], Life::Perennial, (40.0, 70.0), Clear),
    remembered(
        "apple",
        &["manzano", "manzana", "apple tree", "fruit tree", "frutal"],
        Life::Tree { per_ha: TREES_PER_HA.value },
        (40.0, 70.0),
        Clear,
    ),
    like_apple("pear", &["peral", "pera", "pear tree"]),
    like_apple("plum", &["ciruelo", "ciruela", "plum tree"]),
    like_apple("cherry", &["cerezo", "cereza", "cherry tree"]),
    like_apple("peach", &["melocotonero", "melocotón", "durazno", "peach tree"]),
];

/// All crops.
pub fn all() -> &'static [Crop] {
    &CROPS
}

/// Finds a crop by name, in English or Spanish.
pub fn find(name: &str) -> Match<&'static Crop> {
    match INDEX.find(name) {
        Match::Exact(at) => CROPS.get(at).map_or(Match::Near(Vec::new()), Match::Exact),
        Match::Near(near) => Match::Near(near.into_iter().filter_map(|at| CROPS.get(at)).collect()),
    }
}

static INDEX: LazyLock<Index> = LazyLock::new(|| {
    let named = CROPS.iter().enumerate();
    Index::new(named.flat_map(|(at, crop)| {
        core::iter::once((crop.name, at)).chain(crop.also.iter().map(move |other| (*other, at)))
    }))
});

/// Part of the season by which half of the nitrogen is in.
pub const MIDPOINT_SHARE: Sourced<f64> = Sourced::new(0.6, Source::COMMON_PRACTICE);
/// Part of the season that the steep stretch of uptake takes.
pub const STEEP_SHARE: Sourced<f64> = Sourced::new(2.0 / 3.0, Source::COMMON_PRACTICE);
/// The logistic curve rises from 5 to 95 % in six times the inverse of its rate.
const STEEP_WIDTH: f64 = 6.0;

/// Days to half of the uptake in a season of this length.
pub fn midpoint_days(season_days: f64) -> f64 {
    MIDPOINT_SHARE.value * season_days
}

/// Rate of the logistic curve, per day, in a season of this length; zero for no season.
pub fn rate(season_days: f64) -> f64 {
    if season_days > 0.0 { STEEP_WIDTH / (STEEP_SHARE.value * season_days) } else { 0.0 }
}

/// Uptake by a day of the season as part of the whole: the logistic curve.
pub fn logistic(days: f64, midpoint_days: f64, rate: f64) -> f64 {
    1.0 / (1.0 + libm::exp(-rate * (days - midpoint_days)))
}

/// When trees, berries and vines take nitrogen up: days after bud break, and the part of the year's need. Two
/// stretches, spring for leaf and fruit, summer for storage (`TerAvest` et al. 2010 found this split of use);
/// the days and halves are an assumption.
pub const PERENNIAL_WINDOWS: Sourced<[(f64, f64, f64); 2]> =
    Sourced::new([(0.0, 60.0, 0.5), (60.0, 150.0, 0.5)], Source::ASSUMPTION);

/// Critical nitrogen of crops for which a line is published.
pub const DILUTIONS: [(&str, Dilution); 11] = [
    ("maize", line(3.40, 0.37, 1.0, "Plenet & Lemaire", 2000, Standing::SecondHand)),
    ("wheat", line(5.35, 0.44, 1.55, "Justes et al.", 1994, Standing::SecondHand)),
    ("cabbage", line(5.1, 0.33, 1.5, "Ekbladh & Witter", 2010, Standing::Published)),
    ("rapeseed", line(4.48, 0.25, 1.55, "", 0, Standing::SecondHand)),
    ("grass", line(4.80, 0.32, 1.0, "", 0, Standing::SecondHand)),
    ("sunflower", line(4.53, 0.42, 1.0, "", 0, Standing::SecondHand)),
    ("sorghum", line(3.90, 0.39, 1.0, "", 0, Standing::SecondHand)),
    ("rice", line(5.18, 0.52, 1.0, "", 0, Standing::SecondHand)),
    ("lettuce", line(4.56, 0.357, 1.0, "Tei et al.", 1999, Standing::FromMemory)),
    ("processing tomato", line(4.53, 0.327, 1.0, "Tei et al.", 2002, Standing::FromMemory)),
    ("potato", line(5.36, 0.59, 1.0, "Greenwood et al.", 0, Standing::FromMemory)),
];

const fn line(
    a: f64,
    b: f64,
    from_t_ha: f64,
    author: &'static str,
    year: u16,
    standing: Standing,
) -> Dilution {
    Dilution {
        a,
        b,
        from_t_ha,
        source: Source::new(author, year, "critical nitrogen dilution", "", standing),
    }
}

/// The line of a crop, by its name in [`DILUTIONS`].
pub fn dilution(crop: &str) -> Option<Dilution> {
    DILUTIONS.iter().find(|(name, _)| *name == crop).map(|(_, line)| *line)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_are_not_ambiguous() {
        assert_eq!(INDEX.clashes(), vec![]);
    }

    #[test]
    fn uptakes_are_in_order_and_shares_are_shares() {
        for crop in all() {
            let Uptake { low, typical, high } = crop.uptake;
            assert!(low.kg_ha() > 0.0 && low <= typical && typical <= high, "{}", crop.name);
            assert!((0.0..1.0).contains(&crop.fixed), "{}", crop.name);
        }
    }
}
