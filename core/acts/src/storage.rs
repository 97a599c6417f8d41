//! A batch that lies and waits: what a handful tells, what rain does, whether it went sour, and what follows.

use chrono::{Days, NaiveDate};
pub use kerfbook_science::plain::Handful;
use kerfbook_science::source::{Source, Sourced, Standing};
use kerfbook_science::units::{Mass, Share};

/// Water in a batch, with half the width of the span in which it may lie: the ends of the triangle that the runs draw from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Moisture {
    /// Water by mass of the moist batch.
    pub middle: Share,
    /// Half of the span.
    pub half: Share,
}

/// What lying in the open adds to that half.
pub const OPEN_ADDS: Sourced<Share> = Sourced::new(Share::from_percent(8.0), Source::ASSUMPTION);
/// Half of the span where a figure was stated and nothing says how it was measured.
pub const STATED_HALF: Sourced<Share> = Sourced::new(Share::from_percent(5.0), Source::ASSUMPTION);

/// Water in a load from what is known of it: a stated figure, a handful, and whether it lay in the open. `None` where
/// nothing is known: the table of materials then says.
pub fn moisture(
    stated: Option<Share>,
    half: Option<Share>,
    handful: Option<Handful>,
    open: bool,
) -> Option<Moisture> {
    let known = match (stated, handful) {
        (Some(middle), _) => Moisture { middle, half: half.unwrap_or(STATED_HALF.value) },
        (None, None | Some(Handful::Unknown)) => return None,
        (None, Some(handful)) => {
            let told = handful.moisture_pct();
            Moisture {
                middle: Share::from_percent(told.typical),
                half: Share::from_percent(told.half_width()),
            }
        }
    };
    // What was measured already has its rain in it; what was felt on the outside of a heap has not.
    let felt = stated.is_none() && open;
    Some(if felt { Moisture { half: known.half + OPEN_ADDS.value, ..known } } else { known })
}

/// Water to add to bring a batch from one moisture to another; `None` where it is wetter already or where the aim is
/// all water.
pub fn water_to_reach(wet: Mass, from: Share, to: Share) -> Option<Mass> {
    let solid = 1.0 - to.fraction();
    (to > from && solid > 0.0).then(|| wet * ((to.fraction() - from.fraction()) / solid))
}

/// What it smells of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Smell {
    /// Wood, resin, nothing.
    Wood,
    /// Forest soil.
    Earth,
    /// Vinegar, silage, ammonia or rotten eggs.
    Sour,
    /// Nobody smelled it.
    Unknown,
}

impl Smell {
    /// All.
    pub const ALL: [Self; 4] = [Self::Wood, Self::Earth, Self::Sour, Self::Unknown];

    /// Its name in files.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Wood => "wood",
            Self::Earth => "earth",
            Self::Sour => "sour",
            Self::Unknown => "unknown",
        }
    }

    /// The smell of that name.
    pub fn of_name(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|smell| smell.name() == name)
    }

    /// What it says by itself, where it says anything.
    pub const fn says(self) -> Option<Sourness> {
        match self {
            Self::Sour => Some(Sourness::Sour),
            Self::Wood | Self::Earth => Some(Sourness::Sweet),
            Self::Unknown => None,
        }
    }
}

/// Whether a heap went sour.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Sourness {
    /// It burns plants within a day.
    Sour,
    /// More acid than residue usually is, though not sour: smell it again, try it on a seedling.
    Doubtful,
    /// As it should be.
    Sweet,
}

const PURDUE: Source = Source::new(
    "Purdue University",
    2023,
    "Plant and Pest Diagnostic Laboratory, sour mulch",
    "pH 1.8 to 3.6",
    Standing::Published,
);
/// Most acid that sour mulch was measured.
pub const SOUR_PH_LOW: Sourced<f64> = Sourced::new(1.8, PURDUE);
/// Least acid of it.
pub const SOUR_PH_HIGH: Sourced<f64> = Sourced::new(3.6, PURDUE);
/// Extract of fresh chips can be about this acid without being sour, so that it settles nothing by itself.
pub const FRESH_PH: Sourced<f64> = Sourced::new(
    4.5,
    Source::new(
        "Purdue University",
        2014,
        "pH of fresh wood chips",
        "about 4; half a unit above it for strips",
        Standing::Recomputed,
    ),
);
/// A sour heap is spread thin and aired at least this long, days: 24 hours.
pub const AIR_DAYS_LEAST: Sourced<u64> = Sourced::new(1, Source::COMMON_PRACTICE);
/// And this long where the smell stays, days.
pub const AIR_DAYS_MOST: Sourced<u64> = Sourced::new(3, Source::COMMON_PRACTICE);
/// An unturned heap is smelled before it is spread once it has lain this long, days: heaps are turned once or twice a
/// month to keep them sweet.
pub const SMELL_AFTER_DAYS: Sourced<u64> = Sourced::new(30, Source::COMMON_PRACTICE);

/// What smell and a pH strip say together; `None` where neither is known. The worse of the two counts.
pub fn sourness(smell: Option<Smell>, ph: Option<f64>) -> Option<Sourness> {
    let by_ph = ph.map(|ph| {
        if ph <= SOUR_PH_HIGH.value {
            Sourness::Sour
        } else if ph < FRESH_PH.value {
            Sourness::Doubtful
        } else {
            Sourness::Sweet
        }
    });
    let of = |found| smell.and_then(Smell::says) == Some(found) || by_ph == Some(found);
    [Sourness::Sour, Sourness::Doubtful, Sourness::Sweet].into_iter().find(|found| of(*found))
}

/// What to do with a heap after it was smelled.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Follows {
    /// Spread it as planned.
    Spread,
    /// Smell it again, or try it on a seedling, before it is spread.
    TryFirst,
    /// Spread it thin in the air, turn it, smell it again; no feed on plants that it burnt until they grow again.
    Air {
        /// It may be fit from this day.
        from: NaiveDate,
        /// If the smell stays, wait until this day.
        until: NaiveDate,
    },
}

/// What follows from what was found on a day.
pub fn follows(found: Sourness, on: NaiveDate) -> Follows {
    let after = |days| on.checked_add_days(Days::new(days)).unwrap_or(on);
    match found {
        Sourness::Sweet => Follows::Spread,
        Sourness::Doubtful => Follows::TryFirst,
        Sourness::Sour => {
            Follows::Air { from: after(AIR_DAYS_LEAST.value), until: after(AIR_DAYS_MOST.value) }
        }
    }
}
