//! What people say of a climate, as months.

use super::{Likely, question, together};
use crate::source::{Source, Sourced};

question! {
    /// What winters are like.
    Winters {
        /// Hardly any frost.
        Mild = "mild",
        /// Frost comes and goes.
        Frosty = "frosty",
        /// The ground stays frozen.
        Hard = "hard",
        /// Nobody says.
        Unknown = "unknown",
    }
}

impl Winters {
    /// Mean of the coldest month, °C.
    pub const fn coldest_month_c(self) -> Likely {
        match self {
            Self::Mild => Likely::practice(4.5, 7.5, 11.0),
            Self::Frosty => Likely::practice(-2.0, 1.0, 4.0),
            Self::Hard => Likely::practice(-13.0, -7.0, -3.0),
            Self::Unknown => Likely::assumed(-7.0, 2.0, 9.0),
        }
    }
}

question! {
    /// What summers are like.
    Summers {
        /// One needs a jacket in the evening.
        Cool = "cool",
        /// Warm.
        Warm = "warm",
        /// Too hot to work at noon.
        Hot = "hot",
        /// Nobody says.
        Unknown = "unknown",
    }
}

impl Summers {
    /// Mean of the warmest month, °C.
    pub const fn warmest_month_c(self) -> Likely {
        match self {
            Self::Cool => Likely::practice(13.0, 15.5, 17.5),
            Self::Warm => Likely::practice(17.5, 20.0, 22.5),
            Self::Hot => Likely::practice(22.5, 25.5, 29.0),
            Self::Unknown => Likely::assumed(14.5, 19.5, 26.0),
        }
    }
}

question! {
    /// How much rain falls in a usual month.
    Rain {
        /// Dry country.
        Little = "little",
        /// Neither.
        Middling = "middling",
        /// Wet country.
        Much = "much",
        /// Nobody says.
        Unknown = "unknown",
    }
}

impl Rain {
    /// Rain of a month, mm, the same in every month.
    pub const fn month_mm(self) -> Likely {
        match self {
            Self::Little => Likely::practice(15.0, 30.0, 50.0),
            Self::Middling => Likely::practice(45.0, 65.0, 90.0),
            Self::Much => Likely::practice(80.0, 110.0, 160.0),
            Self::Unknown => Likely::assumed(25.0, 60.0, 145.0),
        }
    }
}

question! {
    /// How the place is watered.
    Watering {
        /// Never.
        Never = "never",
        /// When leaves hang.
        WhenLeavesHang = "when-leaves-hang",
        /// Often enough that the soil stays moist.
        Enough = "enough",
        /// Nobody says: taken for never.
        Unknown = "unknown",
    }
}

/// What is given at a time to a place watered when leaves hang, mm, and the days between.
pub const WATERED_WHEN_LEAVES_HANG: Sourced<(f64, u32)> = Sourced::new((15.0, 10), Source::ASSUMPTION);

/// Latitude that is taken for the sun where nobody says, degrees.
pub const TYPICAL_LATITUDE_DEG: Sourced<f64> = Sourced::new(45.0, Source::ASSUMPTION);
/// Spread of evaporation where the months are told in words, standard deviation of its logarithm.
pub const EVAPORATION_SPREAD: Sourced<f64> = Sourced::new(0.20, Source::ASSUMPTION);

/// The year's warmth told in words.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Seasons {
    /// Winters.
    pub winters: Winters,
    /// Summers.
    pub summers: Summers,
}

impl Seasons {
    /// Mean of each month, °C: a wave between the coldest and the warmest, which lie half a year apart, January and
    /// July north of the equator (assumption).
    pub fn month_mean_c(self, south: bool) -> [f64; 12] {
        let (cold, warm) = (self.winters.coldest_month_c().typical, self.summers.warmest_month_c().typical);
        core::array::from_fn(|month| {
            #[expect(clippy::cast_precision_loss, reason = "a month")]
            let turn = (if south { month + 6 } else { month }) as f64 / 12.0 * core::f64::consts::TAU;
            f64::midpoint(warm, cold) - (warm - cold) / 2.0 * libm::cos(turn)
        })
    }

    /// Standard deviation of temperature over the year, °C: half of each end's, which need not go together.
    pub fn spread_c(self) -> f64 {
        0.5 * together(self.winters.coldest_month_c().spread(), self.summers.warmest_month_c().spread())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn months_run_from_the_coldest_to_the_warmest() {
        let seasons = Seasons { winters: Winters::Frosty, summers: Summers::Warm };
        let north = seasons.month_mean_c(false);
        assert!((north[0] - 1.0).abs() < 1e-12 && (north[6] - 20.0).abs() < 1e-12);
        let south = seasons.month_mean_c(true);
        assert!((south[0] - 20.0).abs() < 1e-12 && (south[6] - 1.0).abs() < 1e-12);
        assert!((north.iter().sum::<f64>() / 12.0 - 10.5).abs() < 1e-12);
    }
}
