//! How near a pile is to fire, from its heat, how wet it is, and smoke.

use crate::source::{Source, Sourced, Standing};
use crate::units::{Share, Temperature};

const JOB_SHEET: Source = Source::new(
    "USDA Natural Resources Conservation Service",
    0,
    "code 317 job sheet",
    "watch above 165 F, act above 185 F",
    Standing::Published,
);

/// Up to here a moist pile is green.
pub const AMBER_FROM: Sourced<Temperature> = Sourced::new(Temperature::from_c(65.0), Source::ASSUMPTION);
/// Above this, watch: 165 °F as the body wrote it.
pub const RED_ABOVE: Sourced<Temperature> = Sourced::new(Temperature::from_c(74.0), JOB_SHEET);
/// Above this, act: 185 °F.
pub const STOP_ABOVE: Sourced<Temperature> = Sourced::new(Temperature::from_c(85.0), JOB_SHEET);
/// A dry pile is amber above this already.
pub const DRY_AMBER_ABOVE: Sourced<Temperature> = Sourced::new(Temperature::from_c(60.0), Source::ASSUMPTION);
/// Moisture under which a pile is dry for this purpose, part of wet mass: dry pockets of 20 to 45 %.
pub const DRY_UNDER: Sourced<f64> = Sourced::new(
    0.45,
    Source::new(
        "Buggeln and Rynk",
        2002,
        "self-heating in yard trimmings",
        "Compost Science & Utilization 10:162-182",
        Standing::FromMemory,
    ),
);

/// How near to fire, in order.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum FireLevel {
    /// No cause.
    Green,
    /// Look daily.
    Amber,
    /// Act: water, lower, spread, but open nothing that may smoulder.
    Red,
    /// Stop work and call help.
    Stop,
}

impl FireLevel {
    /// Its name in documents.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Green => "green",
            Self::Amber => "amber",
            Self::Red => "red",
            Self::Stop => "stop",
        }
    }

    /// Of the hottest reading, moisture (wet basis) where it is known, and whether there is smoke.
    pub fn of(hottest: Temperature, moisture: Option<Share>, smoke: bool) -> Self {
        let dry = moisture.is_some_and(|moisture| moisture.fraction() < DRY_UNDER.value);
        if smoke || hottest > STOP_ABOVE.value {
            Self::Stop
        } else if hottest > RED_ABOVE.value {
            Self::Red
        } else if hottest >= AMBER_FROM.value || (dry && hottest > DRY_AMBER_ABOVE.value) {
            Self::Amber
        } else {
            Self::Green
        }
    }
}
