//! Windows in which a heap works, each by the body that printed it, and where a mixture lies in them.

use crate::source::{Source, Sourced, Standing};

/// What a window is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Property {
    /// Carbon to nitrogen at the start.
    CarbonNitrogen,
    /// Water by wet mass, per cent.
    Moisture,
    /// Free air space, per cent by volume.
    FreeAirSpace,
    /// Wet bulk density, kg/m³.
    Density,
    /// Acidity.
    Acidity,
    /// Size of the pieces, cm.
    Particle,
    /// Oxygen in the pores, per cent by volume.
    Oxygen,
}

impl Property {
    /// Its name in documents.
    pub const fn name(self) -> &'static str {
        match self {
            Self::CarbonNitrogen => "carbon_nitrogen",
            Self::Moisture => "moisture_pct",
            Self::FreeAirSpace => "free_air_space_pct",
            Self::Density => "bulk_density_kg_m3",
            Self::Acidity => "ph",
            Self::Particle => "particle_cm",
            Self::Oxygen => "oxygen_pct",
        }
    }
}

/// From here to there; an end may be open.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Span {
    /// Low end.
    pub low: Option<f64>,
    /// High end.
    pub high: Option<f64>,
}

impl Span {
    const fn between(low: f64, high: f64) -> Self {
        Self { low: Some(low), high: Some(high) }
    }

    const fn from(low: f64) -> Self {
        Self { low: Some(low), high: None }
    }

    const fn to(high: f64) -> Self {
        Self { low: None, high: Some(high) }
    }

    /// Whether a figure lies in it, ends included.
    pub fn holds(&self, figure: f64) -> bool {
        !self.is_under(figure) && !self.is_over(figure)
    }

    fn is_under(&self, figure: f64) -> bool {
        self.low.is_some_and(|low| figure < low)
    }

    fn is_over(&self, figure: f64) -> bool {
        self.high.is_some_and(|high| figure > high)
    }
}

/// What one body prints for one property.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Window {
    /// Of what.
    pub property: Property,
    /// Will do.
    pub acceptable: Span,
    /// Better.
    pub preferred: Span,
    /// Whether it is for heaps with animal matter only.
    pub animal_matter: bool,
    /// The body.
    pub source: Source,
}

/// Where a figure lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Lies {
    /// In the preferred window.
    Preferred,
    /// In the acceptable one.
    Acceptable,
    /// Under both.
    Under,
    /// Over both.
    Over,
}

impl Lies {
    /// Its name in documents.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Preferred => "preferred",
            Self::Acceptable => "acceptable",
            Self::Under => "under",
            Self::Over => "over",
        }
    }
}

impl Window {
    /// Where a figure lies in it.
    pub fn lies(&self, figure: f64) -> Lies {
        if self.preferred.holds(figure) {
            Lies::Preferred
        } else if self.acceptable.holds(figure) {
            Lies::Acceptable
        } else if self.acceptable.is_under(figure) {
            Lies::Under
        } else {
            Lies::Over
        }
    }
}

const NRAES: Source = Source::new(
    "NRAES-54, as reproduced by Saskatchewan Agriculture",
    2008,
    "Composting Solid Manure",
    "table 1",
    Standing::SecondHand,
);
const COOPERBAND: Source =
    Source::new("Cooperband", 2002, "The Art and Science of Composting", "table 1", Standing::SecondHand);
const AIR: Source = Source::new(
    "Efta and McCartney; Bramwell et al.",
    0,
    "free air space of compost, by way of a technical note",
    "note 24",
    Standing::SecondHand,
);
const ORGANIC: Source =
    Source::new("US National Organic Program", 2000, "7 CFR 205.203(c)(2)(i)", "", Standing::Published);

const fn window(property: Property, acceptable: Span, preferred: Span, source: Source) -> Window {
    Window { property, acceptable, preferred, animal_matter: false, source }
}

/// All windows, those of one property together.
pub static WINDOWS: [Window; 12] = [
    window(Property::CarbonNitrogen, Span::between(20.0, 40.0), Span::between(25.0, 30.0), NRAES),
    window(Property::CarbonNitrogen, Span::between(20.0, 40.0), Span::between(25.0, 35.0), COOPERBAND),
    Window {
        property: Property::CarbonNitrogen,
        acceptable: Span::between(25.0, 40.0),
        preferred: Span::between(25.0, 40.0),
        animal_matter: true,
        source: ORGANIC,
    },
    window(Property::Moisture, Span::between(45.0, 65.0), Span::between(50.0, 60.0), NRAES),
    window(Property::Moisture, Span::between(40.0, 65.0), Span::between(45.0, 60.0), COOPERBAND),
    window(Property::FreeAirSpace, Span::from(20.0), Span::between(35.0, 60.0), AIR),
    window(Property::Density, Span::to(593.0), Span::to(593.0), COOPERBAND),
    window(Property::Acidity, Span::between(5.5, 8.0), Span::between(5.5, 8.0), NRAES),
    window(Property::Acidity, Span::between(5.5, 9.0), Span::between(6.5, 8.0), COOPERBAND),
    window(Property::Particle, Span::between(0.5, 5.0), Span::between(0.5, 2.5), NRAES),
    window(Property::Oxygen, Span::from(5.0), Span::from(5.0), NRAES),
    window(Property::Oxygen, Span::from(5.0), Span::from(10.0), COOPERBAND),
];

/// The windows of a property.
pub fn of(property: Property) -> impl Iterator<Item = &'static Window> {
    WINDOWS.iter().filter(move |window| window.property == property)
}

/// C:N of a heap where nothing else is wished: between the preferred windows of both tables.
pub const GOAL_CARBON_NITROGEN: Sourced<f64> = Sourced::new(28.0, Source::ASSUMPTION);
/// Moisture of a heap where nothing else is wished, per cent of wet mass: the middle of the narrower preferred window.
pub const GOAL_MOISTURE_PCT: Sourced<f64> = Sourced::new(55.0, Source::ASSUMPTION);
/// Moisture below which a heap all but stops, part of wet mass.
pub const STOPS_BELOW: Sourced<f64> = Sourced::new(
    0.30,
    Source::new("Richard", 1996, "Cornell composting: getting the right mix", "", Standing::Published),
);
