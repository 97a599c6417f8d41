//! What a measured area tells the person who measured it: values, not sentences.

use crate::source::{Source, Sourced};
use crate::units::{Area, Length};

/// Half-width over area beyond which a tape is the better tool.
pub const TAPE_BEYOND: Sourced<f64> = Sourced::new(0.10, Source::COMMON_PRACTICE);
/// Half-width over area beyond which a second lap is worth its time.
pub const SECOND_LAP_BEYOND: Sourced<f64> = Sourced::new(0.05, Source::COMMON_PRACTICE);
/// A place narrower than this many root mean square distances is not walked.
pub const LEAST_WIDTH_DRMS: Sourced<f64> = Sourced::new(4.0, Source::COMMON_PRACTICE);
/// Below this a place is taped, m².
pub const LEAST_AREA_M2: Sourced<f64> = Sourced::new(1_000.0, Source::COMMON_PRACTICE);
/// Accuracy, metres of root mean square distance, that only trees or walls explain.
pub const OPEN_SKY_DRMS_M: Sourced<f64> = Sourced::new(5.0, Source::ASSUMPTION);

/// Why a tape measures this place better.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum TapeBecause {
    /// Small beside the receiver's error.
    Small,
    /// Narrow beside the receiver's error.
    Narrow,
    /// The receiver sees too little sky.
    LittleSky,
}

/// What to do about a measured outline.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Advice {
    /// Good enough for what is laid on a place.
    Fine,
    /// Measure it with a tape: sides and one diagonal.
    Tape(TapeBecause),
    /// Walk it once more, at least five minutes later.
    SecondLap,
    /// The outline is not closed.
    FinishLoop {
        /// Metres from here to the start.
        gap: Length,
    },
    /// Laps differ by more than their errors explain.
    LapsDisagree {
        /// Largest less smallest.
        spread: Area,
    },
    /// The outline crosses itself, and it matters.
    Crosses {
        /// Signed area, lobes against each other.
        signed: Area,
        /// Ground that the outline goes round.
        covered: Area,
    },
    /// Most fixes were too fast for a walk.
    TooFast,
}

/// Whether to tape, by half-width, width and accuracy; nothing where the walk serves.
pub(super) fn of_size(area_m2: f64, half_width_m2: f64, width_m: f64, drms_m: f64) -> Advice {
    let share = if area_m2 > 0.0 { half_width_m2 / area_m2 } else { f64::INFINITY };
    let because = if width_m < LEAST_WIDTH_DRMS.value * drms_m {
        Some(TapeBecause::Narrow)
    } else if area_m2 < LEAST_AREA_M2.value {
        Some(TapeBecause::Small)
    } else if share > TAPE_BEYOND.value {
        Some(if drms_m >= OPEN_SKY_DRMS_M.value { TapeBecause::LittleSky } else { TapeBecause::Small })
    } else {
        None
    };
    match because {
        Some(because) => Advice::Tape(because),
        None if share > SECOND_LAP_BEYOND.value => Advice::SecondLap,
        None => Advice::Fine,
    }
}

/// The short side of the rectangle with this area and perimeter; for rounder shapes a quarter of the perimeter.
pub fn width_m(area_m2: f64, perimeter_m: f64) -> f64 {
    let half = perimeter_m / 2.0;
    (half - (half * half - 4.0 * area_m2).max(0.0).sqrt()) / 2.0
}
