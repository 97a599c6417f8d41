//! What a pile loses, and what is left: volume, dry mass, carbon, nitrogen, and carbon to nitrogen over time as a band.

use crate::source::{Source, Sourced, Standing};
use crate::units::{Mass, Share};

use super::mix::Mix;

const SASKATCHEWAN: Source = Source::new(
    "Saskatchewan Agriculture",
    2008,
    "Composting Solid Manure",
    "volume loss",
    Standing::Published,
);
const NEBRASKA: Source =
    Source::new("University of Nebraska", 0, "G1315, composting manure", "three years", Standing::Published);

/// A loss with its span, parts of one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Span {
    /// Low end.
    pub low: f64,
    /// Usual.
    pub typical: f64,
    /// High end.
    pub high: f64,
}

impl Span {
    const fn new(low: f64, typical: f64, high: f64) -> Self {
        Self { low, typical, high }
    }
}

/// Volume that a pile loses.
pub const VOLUME: Sourced<Span> = Sourced::new(Span::new(0.50, 0.60, 0.70), SASKATCHEWAN);
/// Carbon that a pile loses by its end; the low end of an undisturbed deep litter, the high end as published, the middle
/// assumed.
pub const CARBON: Sourced<Span> = Sourced::new(Span::new(0.19, 0.50, 0.60), NEBRASKA);
/// Nitrogen that a pile loses by its end; the middle assumed.
pub const NITROGEN: Sourced<Span> = Sourced::new(Span::new(0.03, 0.20, 0.40), NEBRASKA);
/// Towards this the ratio of carbon to nitrogen falls, and no lower.
pub const ENDS_AT: Sourced<f64> = Sourced::new(
    10.0,
    Source::new("Richard and Trautmann", 1996, "Cornell composting: C/N ratio", "", Standing::Published),
);
/// Days after which most of the losses are through, in a pile that heats.
pub const DAYS: Sourced<f64> = Sourced::new(120.0, Source::ASSUMPTION);
/// How much is through by then.
const THROUGH: f64 = 0.95;

/// Part of the losses that is through after some days: quick at first, 95 % after [`DAYS`]. A shape chosen here.
pub fn through(days: f64) -> f64 {
    let rate = -libm::log(1.0 - THROUGH) / DAYS.value;
    (1.0 - libm::exp(-rate * days.max(0.0))).min(1.0)
}

/// Carbon to nitrogen after a loss of each; never under [`ENDS_AT`] unless it began there.
pub fn carbon_nitrogen_after(start: f64, carbon_lost: f64, nitrogen_lost: f64) -> f64 {
    let left = start * (1.0 - carbon_lost) / (1.0 - nitrogen_lost);
    left.max(ENDS_AT.value.min(start))
}

/// The band of carbon to nitrogen after some days: low, usual, high.
pub fn band(start: f64, days: f64) -> Span {
    let part = through(days);
    let after = |carbon: f64, nitrogen: f64| carbon_nitrogen_after(start, carbon * part, nitrogen * part);
    Span {
        low: after(CARBON.value.high, NITROGEN.value.low),
        typical: after(CARBON.value.typical, NITROGEN.value.typical),
        high: after(CARBON.value.low, NITROGEN.value.high),
    }
}

/// What a pile comes to.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Finished {
    /// Mass without water.
    pub dry: Mass,
    /// Its carbon.
    pub carbon: Mass,
    /// Its nitrogen.
    pub nitrogen: Mass,
    /// Dry mass that went off, part of what went in.
    pub lost: Share,
}

/// What is left of a pile after losing parts of its carbon and its nitrogen. Dry mass goes with the carbon: organic matter
/// is lost, ash stays. `organic` is the organic part of the dry mass at the start.
pub fn finish(start: &Mix, organic: Share, carbon_lost: f64, nitrogen_lost: f64) -> Finished {
    let dry = start.dry();
    let gone = dry * (organic.fraction() * carbon_lost);
    Finished {
        dry: dry - gone,
        carbon: start.carbon * (1.0 - carbon_lost),
        nitrogen: start.nitrogen * (1.0 - nitrogen_lost),
        lost: Share::from_fraction(if dry.kg() > 0.0 { gone.kg() / dry.kg() } else { 0.0 }),
    }
}

/// Organic matter that went off, from ash by dry mass before and after, since ash stays. `None` where a test shows less ash
/// after than before (one of them is off), or none, or nothing but ash.
pub fn organic_matter_lost(ash_before: Share, ash_after: Share) -> Option<Share> {
    let (before, after) = (ash_before.fraction(), ash_after.fraction());
    let possible = before > 0.0 && after < 1.0 && after >= before;
    possible.then(|| Share::from_fraction(1.0 - before / (1.0 - before) * ((1.0 - after) / after)))
}

/// Dry mass that went off, from the same two tests.
pub fn dry_matter_lost(ash_before: Share, ash_after: Share) -> Option<Share> {
    organic_matter_lost(ash_before, ash_after)
        .map(|lost| Share::from_fraction(lost.fraction() * (1.0 - ash_before.fraction())))
}

/// Volume left of a pile: low, usual, high, parts of what it was.
pub fn volume_left() -> Span {
    let lost = VOLUME.value;
    Span { low: 1.0 - lost.high, typical: 1.0 - lost.typical, high: 1.0 - lost.low }
}
