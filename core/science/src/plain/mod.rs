//! Plain answers that stand in for tests: damp soil rolled in the hand, a handful of sawdust, the look of the ground.
//!
//! Every answer is a figure with its two ends, one case in ten below the low and one in ten above the high. None of
//! them has been measured for this purpose: each is common practice or an assumption and says so. "Unknown" is an
//! answer to every question; it is the widest.
//!
//! One file for what is asked of the [`soil`], the [`residue`], the [`weather`], the [`work`] done and the [`crop`].

pub mod crop;
pub mod residue;
pub mod soil;
pub mod weather;
pub mod work;

pub use crop::Appetite;
pub use residue::{Age, Handful, Pieces, Wood};
pub use soil::{Colour, LastCropFed, Rolled};
pub use weather::{Rain, Summers, Watering, Winters};
pub use work::{DugInWith, LaidBy};

use crate::source::Source;

/// The factor from the middle to the point that one case in ten lies beyond, from the standard deviation of a logarithm.
pub fn tenth_of_log(spread: f64) -> f64 {
    libm::exp(TENTH * spread)
}

/// The way from the middle to that point, from a standard deviation.
pub fn tenth_of(spread: f64) -> f64 {
    TENTH * spread
}

/// Standard deviations from the middle to the point that one case in ten lies beyond.
pub(crate) const TENTH: f64 = 1.281_551_565_544_600_5;
/// Part of the half-width of an even-sided triangle at which one case in ten lies beyond: 1 − √0.2.
const TENTH_OF_TRIANGLE: f64 = 0.552_786_404_500_042_1;

/// A figure as a plain answer tells it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Likely {
    /// One case in ten lies below.
    pub low: f64,
    /// The middle.
    pub typical: f64,
    /// One case in ten lies above.
    pub high: f64,
    /// Where it comes from.
    pub source: Source,
}

impl Likely {
    const fn new(low: f64, typical: f64, high: f64, source: Source) -> Self {
        Self { low, typical, high, source }
    }

    /// What people go by; nobody measured it.
    const fn practice(low: f64, typical: f64, high: f64) -> Self {
        Self::new(low, typical, high, Source::COMMON_PRACTICE)
    }

    /// Chosen here.
    const fn assumed(low: f64, typical: f64, high: f64) -> Self {
        Self::new(low, typical, high, Source::ASSUMPTION)
    }

    /// Standard deviation of the logarithm.
    pub fn log_spread(&self) -> f64 {
        log_spread(self.low, self.high)
    }

    /// Standard deviation.
    pub fn spread(&self) -> f64 {
        (self.high - self.low) / (2.0 * TENTH)
    }

    /// Half-width of a triangle that has the ends one case in ten from its own.
    pub fn half_width(&self) -> f64 {
        half_width(self.low, self.high)
    }
}

/// Standard deviation of the logarithm of what lies between two ends, one case in ten beyond each.
pub fn log_spread(low: f64, high: f64) -> f64 {
    if low > 0.0 && high > low { libm::log(high / low) / (2.0 * TENTH) } else { 0.0 }
}

/// Half-width of a triangle between two ends, one case in ten beyond each.
pub fn half_width(low: f64, high: f64) -> f64 {
    f64::max(0.0, high - low) / (2.0 * TENTH_OF_TRIANGLE)
}

/// Standard deviation of the sum of two errors that have nothing to do with each other.
pub fn together(a: f64, b: f64) -> f64 {
    (a * a + b * b).sqrt()
}

/// A question and its answers by name.
macro_rules! question {
    ($(#[$doc:meta])* $name:ident { $( $(#[$answer_doc:meta])* $answer:ident = $text:literal, )+ }) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
        pub enum $name { $( $(#[$answer_doc])* $answer, )+ }

        impl $name {
            /// Every answer.
            pub const ALL: &'static [Self] = &[ $( Self::$answer, )+ ];

            /// The answer's name in files.
            pub const fn name(self) -> &'static str {
                match self { $( Self::$answer => $text, )+ }
            }

            /// Every answer with its name.
            pub fn choices() -> Vec<(&'static str, Self)> {
                Self::ALL.iter().map(|answer| (answer.name(), *answer)).collect()
            }

            /// The answer of that name.
            pub fn of_name(name: &str) -> Option<Self> {
                Self::ALL.iter().copied().find(|answer| answer.name() == name)
            }
        }
    };
}
use question;

#[cfg(test)]
mod tests {
    use super::*;
    use crate::source::Standing;

    /// Every figure, with the widest of its question.
    fn all() -> Vec<(&'static str, Likely, Likely)> {
        let mut all = Vec::new();
        macro_rules! each {
            ($question:ident, $figure:ident) => {
                for answer in $question::ALL {
                    all.push((answer.name(), answer.$figure(), $question::Unknown.$figure()));
                }
            };
        }
        each!(Rolled, clay_pct);
        each!(Colour, organic_matter_pct);
        each!(LastCropFed, mineral_nitrogen_kg_ha);
        each!(Handful, moisture_pct);
        each!(Age, left);
        each!(Winters, coldest_month_c);
        each!(Summers, warmest_month_c);
        each!(Rain, month_mm);
        each!(Appetite, need_kg_ha);
        each!(DugInWith, depth_cm);
        all
    }

    #[test]
    fn ends_lie_on_both_sides_and_unknown_is_widest() {
        for (name, figure, unknown) in all() {
            assert!(figure.low < figure.typical && figure.typical < figure.high, "{name}");
            assert!(figure.high - figure.low <= unknown.high - unknown.low, "{name}");
        }
    }

    #[test]
    fn nothing_here_claims_to_be_published() {
        for (name, figure, _) in all() {
            assert!(
                matches!(figure.source.standing, Standing::CommonPractice | Standing::Assumption),
                "{name}: {:?}",
                figure.source
            );
        }
    }

    #[test]
    fn a_spread_puts_one_case_in_ten_beyond_each_end() {
        let figure = Likely::assumed(20.0, 40.0, 80.0);
        assert!((libm::exp(TENTH * figure.log_spread()) - 2.0).abs() < 1e-12);
        assert!((2.0 * TENTH * figure.spread() - 60.0).abs() < 1e-12);
        let beyond = 1.0 - TENTH_OF_TRIANGLE;
        assert!((beyond * beyond / 2.0 - 0.1).abs() < 1e-12);
    }

    #[test]
    fn answers_have_names_of_their_own() {
        for answer in Rolled::ALL {
            assert_eq!(Rolled::of_name(answer.name()), Some(*answer));
        }
        assert_eq!(Rolled::of_name("Ribbon"), None);
    }
}
