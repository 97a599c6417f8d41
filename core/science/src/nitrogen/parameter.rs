//! The parameters of the model, version 1: medians, draws and where each comes from.
//!
//! A changed number here is a new version of [`super::PARAMETERS`], with new golden results.

use crate::material::{ModelClass, Particle};
use crate::source::{Source, Standing};

/// How a parameter differs between runs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Spread {
    /// Mean and standard deviation.
    Normal(f64, f64),
    /// Median 1 and standard deviation of the logarithm.
    Lognormal(f64),
    /// Low and high.
    Uniform(f64, f64),
    /// Low and high, even in the logarithm.
    LogUniform(f64, f64),
    /// Low, most likely, high.
    Triangular(f64, f64, f64),
}

/// A parameter: its value in the median run, its spread over runs, its source.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Parameter {
    /// Key of the model's input and name in answers.
    pub name: &'static str,
    /// Value in the median run.
    pub median: f64,
    /// Spread over runs.
    pub spread: Spread,
    /// Where the figures come from.
    pub source: Source,
}

const fn parameter(name: &'static str, median: f64, spread: Spread, source: Source) -> Parameter {
    Parameter { name, median, spread, source }
}

const ASSUMED: Source = Source::ASSUMPTION;
/// Adjusted until the model met the carbon release of Allison & Murphy 1962 and the nitrogen peaks of `McKenzie` 1958.
const FITTED: Source = Source::new(
    "Allison & Murphy; McKenzie",
    1962,
    "Comparative rates of decomposition in soil of wood and bark particles of several hardwood species; The \
     effect on nitrogen availability of adding fragmented wood to the soil (1958)",
    "Soil Sci. Soc. Am. Proc. 26:463-466; Aust. J. Agric. Res. 9:664-679",
    Standing::Fitted,
);
const NICOLARDOT: Source = Source::new(
    "Nicolardot, Recous & Mary",
    2001,
    "Simulation of C and N mineralisation during crop residue decomposition",
    "Plant and Soil 228:83-103",
    Standing::SecondHand,
);
const ROTHC: Source = Source::new(
    "Coleman & Jenkinson",
    1999,
    "RothC-26.3: a model for the turnover of carbon in soil",
    "moisture factor; the range is assumed",
    Standing::SecondHand,
);
const ROTHC_HUMUS: Source = Source::new(
    "Coleman & Jenkinson",
    1999,
    "RothC-26.3: a model for the turnover of carbon in soil",
    "humus, 0.02 a year",
    Standing::SecondHand,
);
const RATE_RESPONSE: Source = Source::new(
    "Nicolardot, Recous & Mary; Sierra et al.",
    2015,
    "logistic response to temperature (2001); table of response functions",
    "Plant and Soil 228:83-103; JAMES 7:335",
    Standing::SecondHand,
);
const SUPPLY: Source = Source::new(
    "state extension rule",
    0,
    "20 lb N an acre a year for each 1 % of organic matter; 1 to 3 % of its nitrogen a year",
    "",
    Standing::SecondHand,
);
const STICS: Source = Source::new(
    "Brisson et al.",
    2008,
    "Conceptual basis, formalisations and parameterization of the STICS crop model",
    "decomposition short of nitrogen: form of the rule; the range is assumed",
    Standing::SecondHand,
);
const EPIC: Source = Source::new(
    "Williams",
    1990,
    "The erosion-productivity impact calculator (EPIC) model",
    "daily leaching of a layer: form of the rule; the value is assumed",
    Standing::SecondHand,
);
const URINE: Source = Source::new(
    "urine fertiliser leaflet; WHO",
    2006,
    "nitrogen in stored urine, 3 to 7 g/L",
    "",
    Standing::SecondHand,
);

macro_rules! globals {
    ($( $(#[$doc:meta])* $variant:ident = $name:literal, $median:expr, $spread:expr, $source:expr; )+) => {
        /// A parameter of the place, the weather and the soil's life; its position is its index of sampling.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
        pub enum Global { $( $(#[$doc])* $variant, )+ }

        /// All of them, in order of index.
        pub const GLOBALS: [(Global, Parameter); Global::COUNT] =
            [ $( (Global::$variant, parameter($name, $median, $spread, $source)), )+ ];

        impl Global {
            /// How many there are.
            pub const COUNT: usize = [ $( $name, )+ ].len();
        }
    };
}

globals! {
    /// Error of temperature, °C.
    Warmth = "dT", 0.0, Spread::Normal(0.0, 1.0), ASSUMED;
    /// Rain, as a factor.
    Rain = "rain", 1.0, Spread::Lognormal(0.15), ASSUMED;
    /// Mineral nitrogen at the start, as a factor.
    Start = "n0", 1.0, Spread::Lognormal(0.25), ASSUMED;
    /// The soil's own supply, as a factor.
    Supply = "supply", 1.0, Spread::Triangular(0.5, 1.0, 1.5), SUPPLY;
    /// The crop's demand, as a factor.
    Demand = "demand", 1.0, Spread::Lognormal(0.12), ASSUMED;
    /// Below 0.5 the logistic response to temperature, else Q10.
    Response = "tsel", 0.0, Spread::Uniform(0.0, 1.0), RATE_RESPONSE;
    /// Factor for 10 °C.
    Q10 = "q10", 2.25, Spread::Uniform(2.0, 2.5), RATE_RESPONSE;
    /// Rate in dry soil, as a share of that in moist soil.
    DryRate = "bmin", 0.2, Spread::Triangular(0.1, 0.2, 0.35), ROTHC;
    /// Part of the mineral nitrogen that decomposers reach in a day.
    Reach = "phi", 0.8, Spread::Triangular(0.5, 0.8, 1.0), ASSUMED;
    /// Most nitrogen that rises into a mulch, kg/ha a day at 15 °C. Bounds after Frey et al. 2000 (Soil Biol.
    /// Biochem. 32:689) and Lloyd et al. 2003.
    Upward = "umax", 0.08, Spread::LogUniform(0.03, 0.25), ASSUMED;
    /// Rate of decay at the contact of mulch and soil, as a share of that in soil.
    Contact = "contact", 0.35, Spread::Triangular(0.15, 0.35, 0.60), ASSUMED;
    /// Depth of the contact, mm.
    ContactDepth = "zc", 10.0, Spread::Triangular(5.0, 10.0, 20.0), ASSUMED;
    /// Leaching coefficient.
    Leaching = "leach", 0.8, Spread::Triangular(0.5, 0.8, 1.0), EPIC;
    /// Share denitrified in a day in saturated soil at 15 °C.
    Denitrification = "denit", 0.004, Spread::Triangular(0.0, 0.004, 0.015), ASSUMED;
    /// Nitrogen in rain, kg/ha a mm.
    RainNitrogen = "rain_n", 0.005, Spread::Triangular(0.002, 0.005, 0.012), ASSUMED;
    /// C:N of humus.
    HumusCarbonNitrogen = "cnh", 10.0, Spread::Uniform(9.0, 12.0), NICOLARDOT;
    /// Share of the contact that soil animals mix in, a day at 15 °C.
    Mixing = "mixing", 0.0003, Spread::LogUniform(0.0001, 0.001), ASSUMED;
    /// Water that empties the seam by 63 %, mm.
    Seam = "seam", 10.0, Spread::LogUniform(5.0, 20.0), ASSUMED;
    /// Catching up of a hungry crop, as a share of the day's demand.
    CatchUp = "catchup", 0.5, Spread::Uniform(0.0, 1.0), ASSUMED;
    /// Part of the mineral nitrogen that roots reach in a day.
    Roots = "psi", 0.5, Spread::Triangular(0.3, 0.5, 0.7), ASSUMED;
    /// Evaporation that a deep mulch spares, as a share.
    Shading = "mulch_e", 0.5, Spread::Triangular(0.3, 0.5, 0.7), ASSUMED;
    /// Water that a mulch holds back, as a factor.
    Interception = "icept", 1.0, Spread::Triangular(0.5, 1.0, 1.5), ASSUMED;
    /// Rate of decay of a layer under a mulch, as a share of that in soil.
    Under = "under", 0.7, Spread::Triangular(0.4, 0.7, 1.0), ASSUMED;
    /// Position within the range of every ammonia loss; below 0 the most likely loss.
    LossPosition = "loss_u", -1.0, Spread::Uniform(0.0, 1.0), ASSUMED;
    /// Nitrogen in urine, g/L.
    Urine = "urine", 5.0, Spread::Uniform(3.0, 7.0), URINE;
    /// Evaporation, as a factor.
    Evaporation = "et", 1.0, Spread::Lognormal(0.10), ASSUMED;
    /// Widest C:N of decomposers short of nitrogen, as a multiple of the usual.
    Widening = "widen", 1.5, Spread::Triangular(1.3, 1.5, 1.7), STICS;
    /// Organic matter, as a factor on the soil's supply: spread only where the input says how ill it is known.
    OrganicMatter = "organic", 1.0, Spread::Lognormal(0.0), ASSUMED;
    /// Water at field capacity, as a factor where it thins what is leached: spread as organic matter is.
    FieldCapacity = "capacity", 1.0, Spread::Lognormal(0.0), ASSUMED;
}

impl Global {
    /// Its figures.
    pub const fn parameter(self) -> &'static Parameter {
        &GLOBALS[self as usize].1
    }

    /// The parameter of that name.
    pub fn of_name(name: &str) -> Option<Self> {
        GLOBALS.iter().find(|(_, parameter)| parameter.name == name).map(|(global, _)| *global)
    }

    /// Its spread with another standard deviation: of the value where it is normal, of its logarithm where it is
    /// lognormal; none where it is neither.
    pub(super) const fn spread_by(self, deviation: f64) -> Option<Spread> {
        match self.parameter().spread {
            Spread::Normal(mean, _) => Some(Spread::Normal(mean, deviation)),
            Spread::Lognormal(_) => Some(Spread::Lognormal(deviation)),
            _ => None,
        }
    }

    /// What `fixed_parameters` may set it to.
    pub(super) const fn bounds(self) -> (f64, f64) {
        match self {
            Self::Warmth => (-10.0, 10.0),
            Self::LossPosition => (-1.0, 1.0),
            Self::Q10 => (1.0, 4.0),
            Self::DryRate
            | Self::Reach
            | Self::Roots
            | Self::Shading
            | Self::Denitrification
            | Self::Response => (0.0, 1.0),
            Self::Mixing => (0.0, 0.01),
            Self::HumusCarbonNitrogen => (5.0, 30.0),
            Self::Seam => (0.1, 1000.0),
            Self::Widening => (1.0, 3.0),
            Self::Urine | Self::ContactDepth => (0.0, 1000.0),
            Self::Contact | Self::Under => (0.0, 2.0),
            _ => (0.0, 10.0),
        }
    }
}

/// First index of sampling of a batch, and the step from one batch to the next.
pub(super) const BATCH_FIRST: u64 = 64;
/// See [`BATCH_FIRST`].
pub(super) const BATCH_STEP: u64 = 32;

/// How a class is described.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Kind {
    /// By the rates of this model: wood, bark, composts.
    Wood,
    /// By the equations of Nicolardot, Recous & Mary: straw, leaves, manure, meals.
    Nicolardot,
}

macro_rules! batch_parameters {
    ($( $(#[$doc:meta])* $variant:ident = $name:literal, $median:expr, $spread:expr, $source:expr; )+) => {
        /// A parameter of one batch; its position is its offset of sampling.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
        pub enum BatchParameter { $( $(#[$doc])* $variant, )+ }

        const WOOD: [(BatchParameter, Parameter); BatchParameter::COUNT] =
            [ $( (BatchParameter::$variant, parameter($name, $median, $spread, $source)), )+ ];

        impl BatchParameter {
            /// How many there are.
            pub const COUNT: usize = [ $( $name, )+ ].len();
            /// All of them, in order of offset.
            pub const ALL: [Self; Self::COUNT] = [ $( Self::$variant, )+ ];
        }
    };
}

batch_parameters! {
    /// Rate of the accessible carbon, as a factor.
    FastRate = "kL", 1.0, Spread::Lognormal(0.35), FITTED;
    /// Accessible share of the carbon, in half-widths of its class.
    FastShare = "fL", 0.0, Spread::Uniform(-1.0, 1.0), ASSUMED;
    /// Rate of the lignin-bound carbon, a day at 15 °C.
    SlowRate = "kS", 0.0006, Spread::LogUniform(0.0003, 0.0013), FITTED;
    /// Carbon-use efficiency on accessible carbon.
    FastEfficiency = "eL", 0.50, Spread::Triangular(0.40, 0.50, 0.60), FITTED;
    /// Carbon-use efficiency on lignin-bound carbon.
    SlowEfficiency = "eS", 0.20, Spread::Uniform(0.10, 0.30), ASSUMED;
    /// C:N of decomposers; a factor for the classes of Nicolardot.
    DecomposerCarbonNitrogen = "cnb", 9.4, Spread::Triangular(7.5, 9.4, 12.5), FITTED;
    /// Death rate of decomposers, a day at 15 °C.
    DeathRate = "kB", 0.0052, Spread::Triangular(0.003, 0.0052, 0.009), FITTED;
    /// Share of dead decomposers that turns to humus; a factor for the classes of Nicolardot.
    Humification = "h", 0.57, Spread::Triangular(0.42, 0.57, 0.68), FITTED;
    /// Rate of humus, a day at 15 °C.
    HumusRate = "kH", 1e-4, Spread::LogUniform(0.5e-4, 2e-4), ROTHC_HUMUS;
    /// C:N, as a factor; the spread is set by the load.
    CarbonNitrogen = "cn", 1.0, Spread::Lognormal(0.20), ASSUMED;
    /// Effect of particle size, as a factor.
    ParticleEffect = "part", 1.0, Spread::Uniform(0.6, 1.4), ASSUMED;
    /// Mass, as a factor; the spread is set by the load.
    Mass = "mass", 1.0, Spread::Lognormal(0.10), ASSUMED;
    /// Error of moisture, in half-widths.
    Moisture = "moist", 0.0, Spread::Triangular(-1.0, 0.0, 1.0), ASSUMED;
    /// Which of several woods an unknown one is: each is as likely.
    Wood = "wood", 0.5, Spread::Uniform(0.0, 1.0), ASSUMED;
}

impl BatchParameter {
    /// Its figures for a kind of material.
    pub const fn parameter(self, kind: Kind) -> Parameter {
        let wood = WOOD[self as usize].1;
        let (median, spread, source) = match (kind, self) {
            (Kind::Nicolardot, Self::FastRate) => (1.0, Spread::Lognormal(0.25), ASSUMED),
            (Kind::Nicolardot, Self::FastEfficiency) => {
                (0.62, Spread::Triangular(0.55, 0.62, 0.69), NICOLARDOT)
            }
            (Kind::Nicolardot, Self::DecomposerCarbonNitrogen | Self::Humification) => {
                (1.0, Spread::Triangular(0.85, 1.0, 1.15), ASSUMED)
            }
            (Kind::Nicolardot, Self::DeathRate) => {
                (0.0110, Spread::Triangular(0.0085, 0.0110, 0.0135), NICOLARDOT)
            }
            _ => return wood,
        };
        parameter(wood.name, median, spread, source)
    }

    /// Name in answers.
    pub const fn name(self) -> &'static str {
        WOOD[self as usize].1.name
    }
}

/// Figures of a class beside those of [`ModelClass`] itself.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct ClassFigures {
    pub(super) kind: Kind,
    /// Rate of the accessible carbon, a day at 15 °C; Nicolardot's equation where the kind is his.
    pub(super) fast_rate: f64,
    /// Accessible share of the carbon, and its half-width over runs.
    pub(super) fast_share: (f64, f64),
    /// Factor on the rate of the lignin-bound carbon.
    pub(super) slow_factor: f64,
}

/// The figures of a class. Rates of hardwood, soft hardwood, pine, slow softwood and barks are fitted (see
/// [`BatchParameter`]); those of resistant wood and finished compost are assumed; accessible shares follow
/// lignin of 20 to 30 % of wood (Lamlom & Savidge 2003, Biomass Bioenergy 25:381).
pub(super) const fn class_figures(class: ModelClass) -> ClassFigures {
    use ModelClass as C;
    let (fast_rate, share, half_width, slow_factor) = match class {
        C::Hardwood => (0.0143, 0.77, 0.06, 1.0),
        C::SoftHardwood => (0.0290, 0.77, 0.06, 1.0),
        C::Pine => (0.0082, 0.70, 0.06, 1.0),
        C::SlowSoftwood => (0.0024, 0.68, 0.06, 1.0),
        C::Resistant => (0.0005, 0.65, 0.06, 1.0),
        C::HardwoodBark => (0.0062, 0.50, 0.09, 1.0),
        C::SoftwoodBark => (0.0010, 0.45, 0.09, 1.0),
        C::CompostedWood => (0.0060, 0.275, 0.05, 1.0),
        C::Compost => (0.0040, 0.200, 0.05, 0.5),
        C::Straw | C::Leaves | C::Manure | C::Meal => (0.0, 1.0, 0.0, 1.0),
    };
    let kind = match class {
        C::Straw | C::Leaves | C::Manure | C::Meal => Kind::Nicolardot,
        _ => Kind::Wood,
    };
    ClassFigures { kind, fast_rate, fast_share: (share, half_width), slow_factor }
}

/// What the size of pieces does. Decay after the fit and Bending & Turner 1999 (Biol. Fertil. Soils 29:319-327);
/// the rest assumed, ordered after Hoitink & Krause 1998 and Lloyd et al. 2003: pieces under 3/8 in take more.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct ParticleFigures {
    /// Factor on the decay of carbon.
    pub(super) decay: f64,
    /// Factor on the depth of the contact.
    pub(super) contact_depth: f64,
    /// Factor on the most nitrogen that rises.
    pub(super) upward: f64,
    /// Factor on mixing by soil animals.
    pub(super) mixing: f64,
    /// Water held back, mm a mm.
    pub(super) interception: f64,
    /// Water that washes nitrogen through, mm a mm.
    pub(super) holding: f64,
    /// Share of fines.
    pub(super) fine: f64,
}

impl ParticleFigures {
    /// The figures of a size of which a share is fines.
    pub(super) fn of(particle: Particle, fines: f64) -> Self {
        let blend = |pick: fn(Self) -> f64| {
            (1.0 - fines) * pick(Self::pure(particle)) + fines * pick(Self::pure(Particle::Dust))
        };
        Self {
            decay: blend(|p| p.decay),
            contact_depth: blend(|p| p.contact_depth),
            upward: blend(|p| p.upward),
            mixing: blend(|p| p.mixing),
            interception: blend(|p| p.interception),
            holding: blend(|p| p.holding),
            fine: blend(|p| p.fine),
        }
    }

    const fn pure(particle: Particle) -> Self {
        let (decay, contact_depth, upward, mixing, interception, holding, fine) = match particle {
            Particle::Dust => (1.0, 1.0, 1.25, 1.0, 0.06, 0.35, 1.0),
            Particle::Shavings => (0.5, 0.9, 1.0, 0.5, 0.04, 0.15, 0.5),
            Particle::Chips => (0.25, 0.6, 0.6, 0.15, 0.03, 0.10, 0.0),
            Particle::Chunks => (0.1, 0.4, 0.3, 0.03, 0.02, 0.05, 0.0),
        };
        Self { decay, contact_depth, upward, mixing, interception, holding, fine }
    }
}

/// Share of a feed lost as ammonia: low, most likely, high.
pub(super) type Loss = (f64, f64, f64);
