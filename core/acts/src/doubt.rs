//! How well a load on its place is known: what was measured, and what is taken where nobody says; carried to the runs.

use kerfbook_science::dose::{self, Doubt, Known, Method, Packing, Spread};
use kerfbook_science::material::Material;
use kerfbook_science::plain;
use kerfbook_science::source::{Source, Sourced};
use kerfbook_science::units::{AreaMass, Length, Mass, Share, Volume};

use crate::scenario::{Amount, Place, PutDown};
use crate::storage;

/// Of an area that was typed or drawn; standard deviation as part of it.
pub const TYPED_AREA: Sourced<f64> = Sourced::new(0.05, Source::ASSUMPTION);
/// Of one that was taped.
pub const TAPED_AREA: Sourced<f64> = Sourced::new(0.02, Source::ASSUMPTION);
/// Of one that was walked with a receiver, where the walk's own figure is not kept.
pub const WALKED_AREA: Sourced<f64> = Sourced::new(0.10, Source::ASSUMPTION);
/// Of a weighed load where nobody says more: the scale, its water, the area and how evenly it lies together; the nitrogen
/// model's, of the logarithm.
pub const STATED_MASS: Sourced<f64> = Sourced::new(0.10, Source::ASSUMPTION);
/// Of a volume, a filled container or a raked layer that was looked at and not measured at several points.
pub const BY_EYE: Sourced<f64> = Sourced::new(0.10, Source::ASSUMPTION);
/// Of a bulk density that was stated without its weighings.
pub const STATED_DENSITY: Sourced<f64> = Sourced::new(0.05, Source::ASSUMPTION);
/// A table's density knows no single heap better than this, however narrow its range.
pub const TABLE_DENSITY_LEAST: Sourced<f64> = Sourced::new(0.15, Source::ASSUMPTION);
/// And no better than this where nobody knows which wood it is: those of the table differ by a factor of two.
pub const UNKNOWN_DENSITY_LEAST: Sourced<f64> = Sourced::new(0.20, Source::ASSUMPTION);
/// Standard deviations from a figure to the ends that hold nineteen cases in twenty.
pub const NINETEEN_OF_TWENTY: f64 = 1.959_963_984_540_054;

/// How a load was measured, and how well: standard deviations as parts of the figure itself.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Measured {
    /// What the amount rests on, where it is not the figure that is stated: a book keeps masses whatever was measured.
    pub known_by: Option<KnownBy>,
    /// Of the amount: its mass, volume, depth or containers.
    pub amount: Option<f64>,
    /// Of the bulk density.
    pub density: Option<f64>,
    /// How that density is known, where it is no table's.
    pub density_by: Option<Method>,
}

/// What the amount of a load in a book rests on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum KnownBy {
    /// A scale: the moist mass.
    Mass,
    /// A dry mass for each area.
    Dry,
    /// A volume or a count of containers.
    Volume,
    /// The depth of the layer.
    Depth,
    /// A depth by finger or hand.
    Laid(plain::LaidBy),
}

/// The parts of what is not known, and what they make of the mass on the ground.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Doubts {
    /// Each part by itself; moisture in parts of the wet mass.
    pub parts: Doubt,
    /// The figure that all others follow from.
    pub known: Known,
    /// Of the dry mass per area.
    pub spread: Spread,
    /// What the runs draw the mass with: the same without a moisture that they draw by itself.
    pub of_runs: Spread,
}

/// Works out how far the dry mass per area of a load may be off.
///
/// A weighed load needs no density, a depth no area; a table's density is a dry one, which needs no moisture. Where the
/// runs draw the moisture (`drawn`), it is no part of what they draw the mass with.
pub(crate) fn of(
    put: &PutDown,
    place: &Place,
    material: &Material,
    moisture: Share,
    moisture_half: Option<Share>,
    drawn: bool,
) -> Option<Doubts> {
    let (known, usual) = match put.measured.known_by {
        Some(by) => of_book(by),
        None => of_amount(put.amount),
    };
    let (density, of_table) = density(put, material);
    // Water of a weighed load that nobody gave a span to is in the spread of weighed loads already.
    let leans_on_moisture = if matches!(known, Known::Wet(_)) { moisture_half.is_some() } else { !of_table };
    let parts = Doubt {
        area: place.area_sd.unwrap_or(TYPED_AREA.value).clamp(0.0, 1.0),
        known: put.measured.amount.unwrap_or(usual).clamp(0.0, 1.0),
        density: density.clamp(0.0, 1.0),
        moisture: if leans_on_moisture { moisture_sd(moisture_half).fraction() } else { 0.0 },
    };
    let spread = dose::spread(known, moisture, parts).ok()?;
    let of_runs =
        if drawn { dose::spread(known, moisture, Doubt { moisture: 0.0, ..parts }).ok()? } else { spread };
    Some(Doubts { parts, known, spread, of_runs })
}

/// Standard deviation of a moisture that is drawn from an even-sided triangle of a half-width; of a stated one whose
/// half-width nobody said, where none is given.
pub(crate) fn moisture_sd(half: Option<Share>) -> Share {
    half.unwrap_or(storage::STATED_HALF.value) / 6.0_f64.sqrt()
}

/// Standard deviation of a figure that lies within so much of itself in nineteen cases of twenty.
pub fn sd_of_within(within: f64) -> f64 {
    within / NINETEEN_OF_TWENTY
}

/// Half-width of the triangle with that standard deviation.
pub fn triangle_of_within(within: Share) -> Share {
    Share::from_fraction(sd_of_within(within.fraction()) * 6.0_f64.sqrt())
}

/// The figure that an amount is, and how well it is known where nobody says.
fn of_amount(amount: Amount) -> (Known, f64) {
    match amount {
        Amount::DryPerArea(dry) => (Known::DryPerArea(dry), dose::relative_sd(STATED_MASS.value)),
        Amount::Wet(mass) => (Known::Wet(mass), weighed()),
        Amount::Loose(volume) => (Known::Volume(volume, Packing::Loose), BY_EYE.value),
        Amount::Depth(depth) => (Known::Depth(depth, Packing::Loose), BY_EYE.value),
        Amount::SettledDepth(depth) => (Known::Depth(depth, Packing::Settled), BY_EYE.value),
        Amount::Barrows(count) => (Known::Barrows(count), BY_EYE.value),
        Amount::Trailers(count) => (Known::Loads(count), BY_EYE.value),
        Amount::Laid { by, count } => laid(by, count),
    }
}

fn of_book(by: KnownBy) -> (Known, f64) {
    match by {
        KnownBy::Mass => (Known::Wet(Mass::default()), weighed()),
        KnownBy::Dry => (Known::DryPerArea(AreaMass::default()), dose::relative_sd(STATED_MASS.value)),
        KnownBy::Volume => (Known::Volume(Volume::default(), Packing::Loose), BY_EYE.value),
        KnownBy::Depth => (Known::Depth(Length::default(), Packing::Loose), BY_EYE.value),
        KnownBy::Laid(by) => laid(by, 1.0),
    }
}

/// Of a weighed load by itself: with the area as it is taken where nobody says more, it makes [`STATED_MASS`].
fn weighed() -> f64 {
    let whole = dose::relative_sd(STATED_MASS.value);
    ((1.0 + whole * whole) / (1.0 + TYPED_AREA.value * TYPED_AREA.value) - 1.0).sqrt()
}

/// A depth by finger or hand: as wide as fingers differ, and no more even than any other layer.
fn laid(by: plain::LaidBy, count: f64) -> (Known, f64) {
    let width = by.width_mm();
    let log_sd = plain::together(width.log_spread(), BY_EYE.value);
    (Known::Depth(Length::from_mm(width.typical * count), Packing::Loose), dose::relative_sd(log_sd))
}

/// How well the density is known, and whether it is the table's.
fn density(put: &PutDown, material: &Material) -> (f64, bool) {
    if put.bulk_density.is_some() {
        return (put.measured.density.unwrap_or(STATED_DENSITY.value), false);
    }
    let range = material.wet_density;
    let unknown = material.composition.iter().any(|part| part.one_of.len() > 1);
    let least = if unknown { UNKNOWN_DENSITY_LEAST } else { TABLE_DENSITY_LEAST };
    (plain::log_spread(range.low, range.high).max(least.value), true)
}
