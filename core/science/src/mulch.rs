//! Depth of a mulch through time: loose to settled, yearly loss, and the depth that still does its work.
//!
//! The loss is published practice, not the nitrogen model: that one keeps a mulch for decades.

use crate::material::Particle;
use crate::source::{Source, Sourced, Standing};
use crate::units::Length;

/// Low, usual and high of a figure with its source.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Span {
    /// Low end.
    pub low: f64,
    /// Usual.
    pub typical: f64,
    /// High end.
    pub high: f64,
    /// Where the usual value comes from.
    pub source: Source,
}

const BRIGGS: Source = Source::new(
    "Briggs",
    1994,
    "Forest products measurements and conversion factors",
    "tables 7-1 and 7-2A: loose against compacted chips, ratios 1.24 to 1.34",
    Standing::Published,
);
const NORTHWEST: Source = Source::new(
    "Northwest Berry & Grape Network",
    0,
    "sawdust mulch of blueberries",
    "about an inch lost a year; 2 to 3 inches every 2 to 3 years",
    Standing::Published,
);

/// Settled depth as a part of the loose depth.
pub fn settled_share(particle: Particle) -> Span {
    match particle {
        // 1/1.34, 1/1.26 and the 2.50/2.86 of the table by volume.
        Particle::Chips => Span { low: 0.75, typical: 0.79, high: 0.87, source: BRIGGS },
        // Uniform sawdust packs more than chips (Washington State University FS160E); how much nobody measured.
        Particle::Dust => Span { low: 0.65, typical: 0.78, high: 0.90, source: Source::ASSUMPTION },
        Particle::Shavings => Span { low: 0.55, typical: 0.70, high: 0.85, source: Source::ASSUMPTION },
        Particle::Chunks => Span { low: 0.85, typical: 0.92, high: 1.0, source: Source::ASSUMPTION },
    }
}

/// Days after which a fresh layer has settled.
pub const SETTLING_DAYS: Sourced<f64> = Sourced::new(60.0, Source::ASSUMPTION);

/// Depth that a settled layer loses in a year, mm.
pub fn yearly_loss_mm(particle: Particle, bark: bool) -> Span {
    match (particle, bark) {
        // An inch a year; 2 in in 3 years and 3 in in 2 years are the ends of the same page's top-up.
        (Particle::Dust, false) => Span { low: 17.0, typical: 25.0, high: 38.0, source: NORTHWEST },
        // Between sawdust and chips.
        (Particle::Shavings, _) => Span { low: 17.0, typical: 30.0, high: 50.0, source: Source::ASSUMPTION },
        (Particle::Chips, false) => {
            Span { low: 25.0, typical: 37.5, high: 50.0, source: Source::COMMON_PRACTICE }
        }
        // Bark decays at a half to a tenth of its wood's pace in the model's classes.
        (Particle::Dust | Particle::Chips, true) => {
            Span { low: 8.0, typical: 15.0, high: 30.0, source: Source::ASSUMPTION }
        }
        (Particle::Chunks, _) => Span { low: 5.0, typical: 12.0, high: 25.0, source: Source::ASSUMPTION },
    }
}

/// What a mulch lies there for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Purpose {
    /// Keeping weeds down and water in on a bed or row.
    Weeds,
    /// A ring under a tree.
    Ring,
    /// A path to walk on.
    Path,
}

/// Depth under which a mulch no longer does what it lies there for.
pub fn least_depth(purpose: Purpose) -> Sourced<Length> {
    match purpose {
        Purpose::Weeds => Sourced::new(
            Length::from_mm(50.0),
            Source::new(
                "van Donk et al.",
                2011,
                "wood chip mulch thickness effects on soil water, soil temperature, weed growth and landscape \
                 plant growth",
                "J. Appl. Hort. 13:91-95: more weeds at 0 and 2.5 cm than at 5 and 10 cm",
                Standing::Published,
            ),
        ),
        Purpose::Ring => Sourced::new(
            Length::from_mm(50.0),
            Source::new(
                "Iowa State University Extension",
                0,
                "Mulching trees and shrubs",
                "2 to 3 in on heavy soil, 3 to 4 in where it drains",
                Standing::Published,
            ),
        ),
        Purpose::Path => Sourced::new(Length::from_mm(50.0), Source::ASSUMPTION),
    }
}

/// How far one look at a depth with finger or rule may be off, mm: standard deviation.
pub const PROBE_DEVIATION_MM: Sourced<f64> = Sourced::new(5.0, Source::ASSUMPTION);

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn spans_are_in_order() {
        for particle in [Particle::Dust, Particle::Shavings, Particle::Chips, Particle::Chunks] {
            for span in
                [settled_share(particle), yearly_loss_mm(particle, false), yearly_loss_mm(particle, true)]
            {
                assert!(span.low <= span.typical && span.typical <= span.high, "{particle:?} {span:?}");
            }
        }
    }

    #[test]
    fn chips_settle_to_what_the_tables_say() {
        // 251 to 317 kg/m3 loose and compacted, Douglas-fir; 200 to 269, redcedar shakes; 2.86 to 2.50 by volume.
        let chips = settled_share(Particle::Chips);
        assert!((chips.typical - 251.0 / 317.0).abs() < 0.005);
        assert!((chips.low - 200.0 / 269.0).abs() < 0.01);
        assert!((chips.high - 2.50 / 2.86).abs() < 0.005);
    }
}
