//! Nitrogen sources: what each holds, how it enters the model, and the rules that come with it.

use std::sync::LazyLock;

use crate::lookup::{Index, Match};
use crate::material::ModelClass;
use crate::source::{Source, Sourced, Standing};
use crate::units::{AreaMass, Mass, Volume};

/// Nitrogen in a source.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Content {
    /// Part of the product as it is given.
    Share {
        /// Low end.
        low: f64,
        /// Usual.
        typical: f64,
        /// High end.
        high: f64,
    },
    /// Grams a litre.
    GramsPerLitre {
        /// Low end.
        low: f64,
        /// Usual.
        typical: f64,
        /// High end.
        high: f64,
    },
}

/// A soluble source, as the model calls it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Gift {
    /// Nitrate, and ammonium nitrate, which loses next to no ammonia.
    Nitrate,
    /// Urea.
    Urea,
    /// Ammonium sulfate.
    AmmoniumSulfate,
    /// Urine.
    Urine,
}

impl Gift {
    /// The model's own word for it.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Nitrate => "nitrate",
            Self::Urea => "urea",
            Self::AmmoniumSulfate => "ammonium_sulfate",
            Self::Urine => "urine",
        }
    }
}

/// How a source enters the model.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Enters {
    /// As mineral nitrogen.
    Gift(Gift),
    /// As a layer that decays.
    Layer {
        /// Its class.
        class: ModelClass,
        /// Carbon to nitrogen of its organic part.
        carbon_nitrogen: f64,
        /// Part of its nitrogen that is ammonium already.
        ammonium: f64,
        /// Water, part of the product as given.
        moisture: f64,
    },
}

/// Time that must pass before harvest.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Wait {
    /// None.
    None,
    /// Raw manure: 120 days where what is eaten touches the soil, 90 where not (7 CFR 205.203).
    RawManure,
    /// Urine: one month (WHO 2006).
    Urine,
}

/// Days between raw manure and harvest where what is eaten touches the soil.
pub const MANURE_DAYS_TOUCHING: Sourced<u32> = Sourced::new(120, ORGANIC_RULE);
/// Days between raw manure and harvest where what is eaten hangs clear of the soil.
pub const MANURE_DAYS_CLEAR: Sourced<u32> = Sourced::new(90, ORGANIC_RULE);
/// Days between urine and harvest: one month.
pub const URINE_DAYS: Sourced<u32> = Sourced::new(
    30,
    Source::new(
        "World Health Organization",
        2006,
        "use of wastewater, excreta and greywater",
        "volume 4",
        Standing::SecondHand,
    ),
);

const ORGANIC_RULE: Source =
    Source::new("US National Organic Program", 2000, "7 CFR 205.203(c)(1)", "", Standing::Published);

impl Wait {
    /// Days that must pass for a crop whose eaten part is so placed.
    pub const fn days(self, edible: crate::crop::Edible) -> u32 {
        use crate::crop::Edible;
        match (self, edible) {
            (Self::None, _) | (_, Edible::NotForPeople) => 0,
            (Self::RawManure, Edible::TouchesSoil) => MANURE_DAYS_TOUCHING.value,
            (Self::RawManure, Edible::Clear) => MANURE_DAYS_CLEAR.value,
            (Self::Urine, _) => URINE_DAYS.value,
        }
    }
}

/// Most nitrogen to give at once.
pub const PRACTICAL_LIMIT: Sourced<AreaMass> = Sourced::new(AreaMass::from_kg_ha(120.0), Source::ASSUMPTION);
/// The published dose nearest to such a limit: 100 lb/ac with 10 tons of chips.
pub const RUTGERS_DOSE: Sourced<AreaMass> = Sourced::new(
    AreaMass::from_lb_acre(100.0),
    Source::new(
        "Rutgers Cooperative Extension",
        2012,
        "wood chips on vegetable land",
        "",
        Standing::Published,
    ),
);

/// How much of a source.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Amount {
    /// Product as given.
    Product(Mass),
    /// Liquid.
    Liquid(Volume),
}

/// A nitrogen source.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Feed {
    /// Its name in the table.
    pub name: &'static str,
    /// Other names, English and Spanish.
    pub also: &'static [&'static str],
    /// Nitrogen in it.
    pub content: Content,
    /// Where that figure comes from.
    pub source: Source,
    /// How it enters the model.
    pub enters: Enters,
    /// Whether organic production allows it (US National Organic Program; local rules may differ).
    pub organic: bool,
    /// Time before harvest.
    pub wait: Wait,
    /// Lime that makes up for its acidity, kg `CaCO3` for 100 kg of product; negative where it acts as lime.
    pub lime_per_100: Option<f64>,
}

impl Feed {
    /// How much of the product holds this nitrogen.
    pub fn amount_for(&self, nitrogen: Mass) -> Amount {
        match self.content {
            Content::Share { typical, .. } => Amount::Product(nitrogen / typical),
            Content::GramsPerLitre { typical, .. } => {
                Amount::Liquid(Volume::from_litres(nitrogen.g() / typical))
            }
        }
    }

    /// Nitrogen in an amount; nothing where a liquid is stated for a solid, or the other way round.
    pub fn nitrogen_in(&self, amount: Amount) -> Option<Mass> {
        match (self.content, amount) {
            (Content::Share { typical, .. }, Amount::Product(product)) => Some(product * typical),
            (Content::GramsPerLitre { typical, .. }, Amount::Liquid(liquid)) => {
                Some(Mass::from_g(liquid.litres() * typical))
            }
            _ => None,
        }
    }

    /// Whether it is animal manure that was not composted.
    pub fn is_raw_manure(&self) -> bool {
        self.wait == Wait::RawManure
    }

    /// Whether it is human urine.
    pub fn is_urine(&self) -> bool {
        self.enters == Enters::Gift(Gift::Urine)
    }
}

const GRADE: Source = Source::new(
    "USDA Natural Resources Conservation Service",
    0,
    "NM Agronomy Technical Note 76",
    "section 9e",
    Standing::Published,
);
const HANDBOOK: Source =
    Source::new("NRAES-54", 1992, "On-Farm Composting Handbook", "Table A.1", Standing::FromMemory);
const EARTH_KIND: Source = Source::new(
    "Texas A&M AgriLife",
    0,
    "Earth-Kind Gardening",
    "organic fertilizer table",
    Standing::Published,
);

/// A mineral fertiliser by its grade, per cent.
const fn mineral(
    name: &'static str,
    also: &'static [&'static str],
    (low, typical, high): (f64, f64, f64),
    gift: Gift,
    lime_per_100: Option<f64>,
) -> Feed {
    Feed {
        name,
        also,
        content: Content::Share { low: low / 100.0, typical: typical / 100.0, high: high / 100.0 },
        source: GRADE,
        enters: Enters::Gift(gift),
        organic: false,
        wait: Wait::None,
        lime_per_100,
    }
}

/// A manure: per cent of dry mass, moisture and C:N of the handbook; its ammonium is an assumption. The C:N of
/// its organic part is that of the whole with the ammonium taken out of the nitrogen.
const fn manure(
    name: &'static str,
    also: &'static [&'static str],
    (low, typical, high): (f64, f64, f64),
    moisture: f64,
    carbon_nitrogen: f64,
    ammonium: f64,
) -> Feed {
    let dry = (1.0 - moisture) / 100.0;
    Feed {
        name,
        also,
        content: Content::Share { low: low * dry, typical: typical * dry, high: high * dry },
        source: HANDBOOK,
        enters: Enters::Layer {
            class: ModelClass::Manure,
            carbon_nitrogen: carbon_nitrogen / (1.0 - ammonium),
            ammonium,
            moisture,
        },
        organic: true,
        wait: Wait::RawManure,
        lime_per_100: None,
    }
}

/// A meal: per cent of the product, which holds a tenth of water (assumption).
const fn meal(
    name: &'static str,
    also: &'static [&'static str],
    (low, typical, high): (f64, f64, f64),
    carbon_nitrogen: f64,
    source: Source,
    lime_per_100: Option<f64>,
) -> Feed {
    Feed {
        name,
        also,
        content: Content::Share { low: low / 100.0, typical: typical / 100.0, high: high / 100.0 },
        source,
        enters: Enters::Layer { class: ModelClass::Meal, carbon_nitrogen, ammonium: 0.0, moisture: 0.10 },
        organic: true,
        wait: Wait::None,
        lime_per_100,
    }
}

/// A finished compost: per cent of dry mass.
const fn compost(
    name: &'static str,
    also: &'static [&'static str],
    (low, typical, high): (f64, f64, f64),
    carbon_nitrogen: f64,
    source: Source,
) -> Feed {
    // Moisture of finished compost, from memory of NRAES-54.
    let moisture = 0.45;
    let dry = (1.0 - moisture) / 100.0;
    Feed {
        name,
        also,
        content: Content::Share { low: low * dry, typical: typical * dry, high: high * dry },
        source,
        enters: Enters::Layer { class: ModelClass::Compost, carbon_nitrogen, ammonium: 0.0, moisture },
        organic: true,
        wait: Wait::None,
        lime_per_100: None,
    }
}

// Acidity: lb CaCO3 per 100 lb of material, as restated in extension tables (second-hand).
static FEEDS: [Feed; 19] = [
    mineral("urea", &["46-0-0", "carbamide"], (45.0, 46.0, 46.0), Gift::Urea, Some(84.0)),
    mineral(
        "ammonium sulfate",
        &["ammonium sulphate", "21-0-0", "sulfato amónico", "sulfato de amonio"],
        (21.0, 21.0, 21.0),
        Gift::AmmoniumSulfate,
        Some(110.0),
    ),
    mineral(
        "ammonium nitrate",
        &["34-0-0", "nitrato amónico", "nitrato de amonio"],
        (33.0, 34.0, 34.0),
        Gift::Nitrate,
        Some(60.0),
    ),
    mineral(
        "calcium nitrate",
        &["15.5-0-0", "nitrato cálcico", "nitrato de calcio"],
        (15.0, 15.5, 15.5),
        Gift::Nitrate,
        None,
    ),
    mineral(
        "potassium nitrate",
        &["nitrato potásico", "nitrato de potasio"],
        (13.0, 13.0, 13.0),
        Gift::Nitrate,
        None,
    ),
    Feed {
        name: "human urine",
        also: &["urine", "stored urine", "orina", "orina humana", "orina almacenada"],
        content: Content::GramsPerLitre { low: 3.0, typical: 5.0, high: 7.0 },
        // Fresh 7 g/L is published; stored and mixed 3 to 7 is remembered; 5 is their middle.
        source: Source::new("urine fertilising leaflet", 0, "about 7 g N/L fresh", "", Standing::FromMemory),
        enters: Enters::Gift(Gift::Urine),
        organic: false,
        wait: Wait::Urine,
        lime_per_100: None,
    },
    manure(
        "cattle manure",
        &["cow manure", "manure", "farmyard manure", "estiércol", "estiércol de vaca", "estiércol de vacuno"],
        (1.5, 2.4, 4.2),
        0.81,
        19.0,
        0.25,
    ),
    manure("horse manure", &["estiércol de caballo"], (1.4, 1.6, 2.3), 0.72, 30.0, 0.15),
    manure("sheep manure", &["estiércol de oveja"], (1.3, 2.7, 3.9), 0.69, 16.0, 0.25),
    manure("pig manure", &["estiércol de cerdo", "swine manure"], (1.9, 3.1, 4.3), 0.80, 14.0, 0.40),
    manure(
        "poultry manure",
        &["chicken manure", "hen manure", "gallinaza", "estiércol de gallina"],
        (4.0, 8.0, 10.0),
        0.69,
        6.0,
        0.35,
    ),
    manure(
        "poultry litter",
        &["broiler litter", "chicken litter", "cama de pollo"],
        (1.6, 2.7, 3.9),
        0.37,
        14.0,
        0.20,
    ),
    meal(
        "blood meal",
        &["dried blood", "harina de sangre", "sangre seca"],
        (10.0, 12.0, 14.0),
        3.5,
        EARTH_KIND,
        Some(22.0),
    ),
    meal("feather meal", &["harina de plumas"], (12.0, 13.0, 15.0), 4.5, HANDBOOK, None),
    meal("fish meal", &["fish scrap", "harina de pescado"], (9.0, 9.0, 10.6), 4.0, EARTH_KIND, Some(8.0)),
    meal(
        "soybean meal",
        &["soya meal", "harina de soja", "harina de soya"],
        (6.0, 7.0, 7.6),
        6.0,
        HANDBOOK,
        None,
    ),
    meal(
        "cottonseed meal",
        &["harina de algodón", "harina de semilla de algodón"],
        (6.0, 6.0, 7.7),
        7.0,
        EARTH_KIND,
        Some(9.0),
    ),
    meal(
        "alfalfa meal",
        &["alfalfa pellets", "lucerne meal", "harina de alfalfa"],
        (2.5, 2.7, 3.0),
        15.0,
        HANDBOOK,
        None,
    ),
    compost(
        "finished compost",
        &["compost", "yard compost", "garden compost", "compost maduro", "compost terminado"],
        (1.0, 1.53, 2.0),
        14.5,
        Source::new(
            "CalRecycle",
            0,
            "Average levels of compost nutrients",
            "N 1.53 %, C 22.19 %",
            Standing::Published,
        ),
    ),
];

/// All sources.
pub fn all() -> &'static [Feed] {
    &FEEDS
}

/// Finds a source by name, in English or Spanish.
pub fn find(name: &str) -> Match<&'static Feed> {
    match INDEX.find(name) {
        Match::Exact(at) => FEEDS.get(at).map_or(Match::Near(Vec::new()), Match::Exact),
        Match::Near(near) => Match::Near(near.into_iter().filter_map(|at| FEEDS.get(at)).collect()),
    }
}

static INDEX: LazyLock<Index> = LazyLock::new(|| {
    let named = FEEDS.iter().enumerate();
    Index::new(named.flat_map(|(at, feed)| {
        core::iter::once((feed.name, at)).chain(feed.also.iter().map(move |other| (*other, at)))
    }))
});

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_are_not_ambiguous() {
        assert_eq!(INDEX.clashes(), vec![]);
    }

    #[test]
    fn contents_are_in_order() {
        for feed in all() {
            let (Content::Share { low, typical, high } | Content::GramsPerLitre { low, typical, high }) =
                feed.content;
            assert!(0.0 < low && low <= typical && typical <= high, "{}", feed.name);
        }
    }
}
