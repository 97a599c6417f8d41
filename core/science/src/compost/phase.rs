//! What a pile is doing, and what calls for turning it.

use crate::source::{Source, Sourced, Standing};
use crate::units::{Share, Temperature};

const HAUG: Source =
    Source::new("Haug", 1993, "Practical Handbook of Compost Engineering", "", Standing::FromMemory);
const NEBRASKA: Source =
    Source::new("University of Nebraska", 0, "G1315, composting manure", "", Standing::Published);
const HANDBOOK: Source =
    Source::new("NRAES-54", 1992, "On-Farm Composting Handbook", "chapter 4", Standing::FromMemory);
const OXYGEN: Source = Source::new(
    "NRAES-54, as reproduced by Saskatchewan Agriculture",
    2008,
    "Composting Solid Manure",
    "table 1",
    Standing::SecondHand,
);
const TEACHING: Source =
    Source::new("open teaching pages", 0, "heat and the organisms of compost", "", Standing::SecondHand);

/// Where the middle range of organisms begins.
pub const MESOPHILIC_FROM: Sourced<Temperature> = Sourced::new(Temperature::from_c(20.0), HAUG);
/// Where the heat-loving ones begin.
pub const THERMOPHILIC_FROM: Sourced<Temperature> = Sourced::new(Temperature::from_c(40.0), NEBRASKA);
/// Where even they slow.
pub const SLOWED_ABOVE: Sourced<Temperature> = Sourced::new(Temperature::from_c(60.0), TEACHING);
/// Where they die.
pub const KILLED_ABOVE: Sourced<Temperature> = Sourced::new(Temperature::from_c(70.0), TEACHING);
/// Turn at this heat and above.
pub const TURN_HOT_FROM: Sourced<Temperature> = Sourced::new(Temperature::from_c(65.0), HANDBOOK);
/// Turn a pile that is still active and has cooled under this.
pub const TURN_COOL_UNDER: Sourced<Temperature> = Sourced::new(Temperature::from_c(43.0), HANDBOOK);
/// Turn under this part of oxygen in the pores.
pub const TURN_OXYGEN_UNDER: Sourced<f64> = Sourced::new(0.05, OXYGEN);
/// Turn over this part of carbon dioxide.
pub const TURN_DIOXIDE_OVER: Sourced<f64> =
    Sourced::new(0.12, Source::new("a maker of turners", 0, "gas in windrows", "", Standing::SecondHand));
/// Near the air's own temperature after turning: heating is over.
pub const NEAR_AIR: Sourced<f64> = Sourced::new(5.0, Source::ASSUMPTION);

/// What a pile is doing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Phase {
    /// Cold.
    Cold,
    /// Warming, or cooling.
    Warm,
    /// Hot, as it should be.
    Hot,
    /// So hot that its organisms slow.
    Slowed,
    /// So hot that they die.
    Killed,
}

impl Phase {
    /// Its name in documents.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Cold => "cold",
            Self::Warm => "warm",
            Self::Hot => "hot",
            Self::Slowed => "slowed",
            Self::Killed => "killed",
        }
    }

    /// At a temperature.
    pub fn at(temperature: Temperature) -> Self {
        if temperature < MESOPHILIC_FROM.value {
            Self::Cold
        } else if temperature < THERMOPHILIC_FROM.value {
            Self::Warm
        } else if temperature <= SLOWED_ABOVE.value {
            Self::Hot
        } else if temperature <= KILLED_ABOVE.value {
            Self::Slowed
        } else {
            Self::Killed
        }
    }
}

/// What calls for turning.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Trigger {
    /// Too hot.
    Hot,
    /// Cooled while still active.
    Cooled,
    /// Short of air.
    Airless,
}

impl Trigger {
    /// Its name in documents.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Hot => "hot",
            Self::Cooled => "cooled",
            Self::Airless => "airless",
        }
    }
}

/// What is known of a pile at one time.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct State {
    /// Its hottest reading.
    pub hottest: Temperature,
    /// The hottest reading before that, since it was last turned.
    pub peak: Temperature,
    /// Oxygen in the pores.
    pub oxygen: Option<Share>,
    /// Carbon dioxide in the pores.
    pub dioxide: Option<Share>,
}

/// What calls for turning now.
pub fn triggers(state: &State) -> Vec<Trigger> {
    let cooled = state.hottest < TURN_COOL_UNDER.value
        && state.peak >= THERMOPHILIC_FROM.value
        && state.peak > state.hottest;
    let airless = state.oxygen.is_some_and(|oxygen| oxygen.fraction() < TURN_OXYGEN_UNDER.value)
        || state.dioxide.is_some_and(|dioxide| dioxide.fraction() > TURN_DIOXIDE_OVER.value);
    [
        (state.hottest >= TURN_HOT_FROM.value, Trigger::Hot),
        (cooled, Trigger::Cooled),
        (airless, Trigger::Airless),
    ]
    .into_iter()
    .filter_map(|(due, trigger)| due.then_some(trigger))
    .collect()
}

/// Whether heating is over: near the air's own temperature although it was turned.
pub fn is_spent(after_turning: Temperature, air: Temperature) -> bool {
    after_turning.c() - air.c() <= NEAR_AIR.value
}
