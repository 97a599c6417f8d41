//! Whether a compost is ready: several tests together, never one alone.

use crate::source::{Source, Sourced, Standing};

const CCQC: Source = Source::new(
    "California Compost Quality Council",
    2001,
    "compost maturity index",
    "groups A and B",
    Standing::FromMemory,
);
const MINNESOTA: Source =
    Source::new("Minnesota Pollution Control Agency", 0, "compost specification", "", Standing::Published);
const CLEMSON: Source =
    Source::new("Clemson University", 0, "compost interpretation", "", Standing::Published);
const FLASK: Source = Source::new(
    "Brinton et al., after Jourdan 1982",
    1995,
    "self-heating in an insulated flask",
    "classes from memory",
    Standing::FromMemory,
);
const ZUCCONI: Source = Source::new("Zucconi et al.", 1981, "germination index", "", Standing::FromMemory);
const CANADA: Source = Source::new(
    "Canadian Council of Ministers of the Environment",
    2005,
    "guidelines for compost quality",
    "",
    Standing::FromMemory,
);

/// Above this ratio of carbon to nitrogen a compost is not called mature, whatever the other tests say.
pub const GATE_CARBON_NITROGEN: Sourced<f64> = Sourced::new(25.0, CCQC);
/// Above this ratio it is likely to tie nitrogen up.
pub const TIES_UP_ABOVE: Sourced<f64> = Sourced::new(30.0, CLEMSON);
/// Below this it releases nitrogen.
pub const RELEASES_BELOW: Sourced<f64> = Sourced::new(20.0, CLEMSON);
/// Shortest cure, days.
pub const CURE_DAYS: Sourced<u32> = Sourced::new(
    30,
    Source::new("NRAES-54", 1992, "On-Farm Composting Handbook", "curing", Standing::FromMemory),
);
/// Curing begins when a pile stays under this, °C.
pub const CURES_UNDER_C: Sourced<f64> = Sourced::new(
    40.0,
    Source::new("NRAES-54", 1992, "On-Farm Composting Handbook", "curing", Standing::FromMemory),
);
/// Tests of how far decay has come that must agree before a compost is called mature.
pub const FEWEST_TESTS: Sourced<usize> = Sourced::new(2, CCQC);
/// Nitrogen of finished compost that a crop can use in the first year: low, usual, high, parts of all its nitrogen.
pub const FIRST_YEAR_SUPPLY: Sourced<[f64; 3]> = Sourced::new([0.05, 0.10, 0.15], Source::COMMON_PRACTICE);

/// A test of a compost, with its figure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Test {
    /// Carbon to nitrogen.
    CarbonNitrogen(f64),
    /// Ammonium to nitrate, both as nitrogen.
    AmmoniumNitrate(f64),
    /// Carbon dioxide, mg C a gram of organic matter and day.
    Dioxide(f64),
    /// Seedlings that came up, per cent of a control.
    Emergence(f64),
    /// Rise in an insulated flask, °C.
    SelfHeating(f64),
    /// Oxygen taken up, mg a kg of volatile solids and hour.
    OxygenUptake(f64),
    /// Germination index, per cent: germination times root length, each by its control.
    Germination(f64),
}

/// How ready a test calls a compost.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Class {
    /// Not ready.
    Immature,
    /// Ready.
    Mature,
    /// Well ready.
    VeryMature,
}

impl Class {
    /// Its name in documents.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Immature => "immature",
            Self::Mature => "mature",
            Self::VeryMature => "very-mature",
        }
    }
}

impl Test {
    /// Its name in documents.
    pub const fn name(&self) -> &'static str {
        match self {
            Self::CarbonNitrogen(_) => "carbon_nitrogen",
            Self::AmmoniumNitrate(_) => "ammonium_nitrate",
            Self::Dioxide(_) => "dioxide_mg_g_day",
            Self::Emergence(_) => "emergence_pct",
            Self::SelfHeating(_) => "self_heating_c",
            Self::OxygenUptake(_) => "oxygen_mg_kg_h",
            Self::Germination(_) => "germination_index_pct",
        }
    }

    /// Its figure.
    pub const fn figure(&self) -> f64 {
        match *self {
            Self::CarbonNitrogen(figure)
            | Self::AmmoniumNitrate(figure)
            | Self::Dioxide(figure)
            | Self::Emergence(figure)
            | Self::SelfHeating(figure)
            | Self::OxygenUptake(figure)
            | Self::Germination(figure) => figure,
        }
    }

    /// What it says alone.
    pub fn class(&self) -> Class {
        let falling = |figure: f64, very: f64, mature: f64| match figure {
            figure if figure < very => Class::VeryMature,
            figure if figure <= mature => Class::Mature,
            _ => Class::Immature,
        };
        let rising = |figure: f64, very: f64, mature: f64| match figure {
            figure if figure > very => Class::VeryMature,
            figure if figure >= mature => Class::Mature,
            _ => Class::Immature,
        };
        match *self {
            Self::CarbonNitrogen(figure) => {
                if figure <= GATE_CARBON_NITROGEN.value {
                    Class::Mature
                } else {
                    Class::Immature
                }
            }
            Self::AmmoniumNitrate(figure) => falling(figure, 0.5, 3.0),
            Self::Dioxide(figure) => falling(figure, 2.0, 8.0),
            Self::Emergence(figure) => rising(figure, 90.0, 80.0),
            Self::SelfHeating(figure) => falling(figure, 10.0, 20.0),
            Self::OxygenUptake(figure) => falling(figure, 0.0, 400.0),
            Self::Germination(figure) => rising(figure, f64::INFINITY, 80.0),
        }
    }

    /// Who set its classes.
    pub const fn source(&self) -> Source {
        match self {
            Self::CarbonNitrogen(_) | Self::AmmoniumNitrate(_) => CCQC,
            Self::Dioxide(_) | Self::Emergence(_) => MINNESOTA,
            Self::SelfHeating(_) => FLASK,
            Self::OxygenUptake(_) => CANADA,
            Self::Germination(_) => ZUCCONI,
        }
    }

    /// Whether it tells how far decay has come, rather than a ratio that fresh things may have too.
    const fn tells_decay(&self) -> bool {
        !matches!(self, Self::CarbonNitrogen(_))
    }
}

/// What the tests say together.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Maturity {
    /// Too few tests to say.
    TooFew,
    /// One of them, at least, calls it not ready.
    Immature,
    /// All of them call it ready.
    Mature,
    /// All of them call it well ready.
    VeryMature,
}

impl Maturity {
    /// Its name in documents.
    pub const fn name(self) -> &'static str {
        match self {
            Self::TooFew => "too-few-tests",
            Self::Immature => "immature",
            Self::Mature => "mature",
            Self::VeryMature => "very-mature",
        }
    }

    /// Of several tests. The worst decides; [`FEWEST_TESTS`] of decay and the ratio of carbon to nitrogen must be among
    /// them before a compost is called ready.
    pub fn of(tests: &[Test]) -> Self {
        let worst = tests.iter().filter(|test| test.tells_decay()).map(Test::class).min();
        let gate = tests.iter().find(|test| !test.tells_decay()).map(Test::class);
        let of_decay = tests.iter().filter(|test| test.tells_decay()).count();
        match (gate, worst) {
            (Some(Class::Immature), _) | (_, Some(Class::Immature)) => Self::Immature,
            (Some(_), Some(_)) if of_decay < FEWEST_TESTS.value => Self::TooFew,
            (Some(_), Some(Class::VeryMature)) => Self::VeryMature,
            (Some(_), Some(Class::Mature)) => Self::Mature,
            _ => Self::TooFew,
        }
    }
}

/// Class of a rise in an insulated flask, 1 (fresh) to 5 (finished).
pub fn flask_class(rise_c: f64) -> u8 {
    match rise_c {
        rise if rise <= 10.0 => 5,
        rise if rise <= 20.0 => 4,
        rise if rise <= 30.0 => 3,
        rise if rise <= 40.0 => 2,
        _ => 1,
    }
}

/// Germination index, per cent: seeds that germinated and the length of their roots, each by the control's. `None` where
/// the control has none.
pub fn germination_index(germinated: f64, control: f64, root: f64, control_root: f64) -> Option<f64> {
    (control > 0.0 && control_root > 0.0).then(|| germinated / control * (root / control_root) * 100.0)
}
