//! What a bucket, a bed or a trailer carries: struck, heaped, measured, and by weight.

use crate::source::{Source, Sourced, Standing};
use crate::units::{Density, Length, Mass, Volume};

const LOADER_STANDARD: Source = Source::new(
    "ISO",
    0,
    "ISO 7546: Loader and front loading excavator buckets, volumetric ratings",
    "section 4.4; the same slope in SAE J742",
    Standing::Published,
);
const HOE_STANDARD: Source = Source::new(
    "ISO",
    0,
    "ISO 7451: Hoe-type buckets, volumetric rating",
    "with SAE J296",
    Standing::Published,
);

/// How steep a rated heap stands, horizontal for one vertical.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HeapSlope(Sourced<f64>);

impl HeapSlope {
    /// Loader buckets: 2 to 1.
    pub const LOADER: Self = Self(Sourced::new(2.0, LOADER_STANDARD));
    /// Hoe buckets: 1 to 1.
    pub const HOE: Self = Self(Sourced::new(1.0, HOE_STANDARD));

    /// A slope as measured, horizontal for one vertical; `None` where it is no slope.
    pub fn measured(horizontal: f64) -> Option<Self> {
        (horizontal > 0.0 && horizontal <= 100.0)
            .then_some(Self(Sourced::new(horizontal, Source::ASSUMPTION)))
    }

    /// Horizontal for one vertical.
    pub const fn horizontal(self) -> f64 {
        self.0.value
    }

    /// Where it comes from.
    pub const fn source(self) -> Source {
        self.0.source
    }
}

/// A heap on a rectangle, above its rim: W²/(4m) (L − W/3), L the longer side. A rating, "not intended to define actual
/// capacities" (ISO 7546, 1.3): measure one load.
pub fn heap_on(length: Length, width: Length, slope: HeapSlope) -> Volume {
    let (long, short) = (length.m().max(width.m()), length.m().min(width.m()));
    if short.is_nan() || short <= 0.0 {
        return Volume::default();
    }
    Volume::from_m3(short * short / (4.0 * slope.horizontal()) * (long - short / 3.0))
}

/// Height of the ridge of that heap above the rim.
pub fn heap_height(length: Length, width: Length, slope: HeapSlope) -> Length {
    Length::from_m(length.m().min(width.m()) / (2.0 * slope.horizontal()))
}

/// A load as carried against its rating, from one load that was measured. `None` where either is nothing, or the load is
/// over three times its rating.
pub fn fill_factor(measured: Volume, rated: Volume) -> Option<f64> {
    let factor = measured.m3() / rated.m3();
    (factor > 0.0 && factor <= 3.0).then_some(factor)
}

/// What a load weighs against what its carrier may carry.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Payload {
    /// Mass of the load at the lightest it may be.
    pub low: Mass,
    /// At the density given.
    pub typical: Mass,
    /// At the heaviest it may be.
    pub high: Mass,
    /// Whether it may be carried.
    pub verdict: Verdict,
    /// The most that may be loaded at the heaviest density.
    pub most: Volume,
}

/// Whether a load may be carried.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Verdict {
    /// Under the limit even at the heaviest.
    Under,
    /// Over it if the load is as heavy as it may be: weigh it, or take less.
    Unsure,
    /// Over it.
    Over,
}

/// Checks a load against a payload before it is taken: wet residue weighs more than it looks. Densities are wet; `None`
/// where a figure is no measure, or the densities are not in order.
pub fn payload(load: Volume, density: [Density; 3], limit: Mass) -> Option<Payload> {
    let [low, typical, high] = density.map(Density::kg_m3);
    let ordered = low > 0.0 && low <= typical && typical <= high && high.is_finite();
    if !(ordered && load.m3() > 0.0 && load.m3().is_finite() && limit.kg() > 0.0 && limit.kg().is_finite()) {
        return None;
    }
    let [low, typical, high] = density.map(|density| load.mass_at(density));
    let verdict = if high <= limit {
        Verdict::Under
    } else if typical <= limit {
        Verdict::Unsure
    } else {
        Verdict::Over
    };
    let [.., heaviest] = density;
    Some(Payload { low, typical, high, verdict, most: limit.volume_at(heaviest) })
}

/// Whole trees that a load is enough for, with rings of one volume each; none where either is nothing.
pub fn trees_per_load(load: Volume, ring: Volume) -> u64 {
    let trees = load.m3() / ring.m3();
    if trees.is_nan() { 0 } else { floor(trees * (1.0 + 1e-12)) }
}

/// How far along a row a load reaches when it is spread over a width to a depth.
pub fn reach(load: Volume, width: Length, depth: Length) -> Length {
    let across = width.m() * depth.m();
    if across > 0.0 { Length::from_m(load.m3() / across) } else { Length::default() }
}

/// Passes that a spreader of a width needs for a band, and the depth that each lays so that the band gets its depth on
/// average; `None` where a width is none. A spreader wider than the band goes once, at the full depth: what falls beside
/// is lost to the band.
pub fn passes(band: Length, spreader: Length, depth: Length) -> Option<(u64, Length)> {
    let widths = band.m() / spreader.m();
    if !(widths > 0.0 && widths.is_finite()) {
        return None;
    }
    if widths <= 1.0 {
        return Some((1, depth));
    }
    let count = floor((widths * (1.0 - 1e-12)).ceil());
    Some((count, depth * (widths / float(count))))
}

#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a cast from float saturates")]
fn floor(count: f64) -> u64 {
    count.floor() as u64
}

#[expect(clippy::cast_precision_loss, reason = "passes are few")]
fn float(count: u64) -> f64 {
    count as f64
}

#[cfg(test)]
#[expect(clippy::unwrap_used, reason = "a test may stop where it stands")]
mod tests {
    use super::*;

    #[test]
    fn a_wet_load_is_checked_at_its_heaviest() {
        let yard = Volume::from_cubic_yards(2.0);
        let density = [300.0, 350.0, 400.0].map(Density::from_kg_m3);
        let check = |kg: f64| payload(yard, density, Mass::from_kg(kg)).unwrap();
        assert_eq!(check(700.0).verdict, Verdict::Under);
        assert_eq!(check(600.0).verdict, Verdict::Unsure);
        assert_eq!(check(500.0).verdict, Verdict::Over);
        assert!((check(600.0).most.m3() - 1.5).abs() < 1e-12);
        // Wet sawdust at 300 to 400 kg/m³ is given as 230 to 306 kg for a cubic yard.
        assert!((check(600.0).low.kg() / 2.0 - 230.0).abs() < 1.0);
        assert!((check(600.0).high.kg() / 2.0 - 306.0).abs() < 1.0);
        assert_eq!(payload(yard, [400.0, 350.0, 300.0].map(Density::from_kg_m3), Mass::from_kg(1.0)), None);
        assert_eq!(payload(Volume::default(), density, Mass::from_kg(1.0)), None);
    }

    #[test]
    fn loads_trees_and_metres() {
        assert_eq!(trees_per_load(Volume::from_m3(3.0), Volume::from_m3(0.1)), 30);
        assert_eq!(trees_per_load(Volume::from_m3(3.0), Volume::default()), u64::MAX);
        assert_eq!(trees_per_load(Volume::default(), Volume::default()), 0);
        let far = reach(Volume::from_m3(3.0), Length::from_m(1.5), Length::from_cm(8.0));
        assert!((far.m() - 25.0).abs() < 1e-12);
        let (count, laid) = passes(Length::from_m(3.0), Length::from_m(1.0), Length::from_cm(8.0)).unwrap();
        assert!(count == 3 && (laid.cm() - 8.0).abs() < 1e-12);
        let (count, laid) = passes(Length::from_m(3.0), Length::from_m(2.0), Length::from_cm(8.0)).unwrap();
        assert!(count == 2 && (laid.cm() - 6.0).abs() < 1e-12);
        assert_eq!(passes(Length::from_m(3.0), Length::default(), Length::from_cm(8.0)), None);
    }

    #[test]
    fn one_measured_load_corrects_the_rating() {
        let rated = Volume::from_m3(2.0);
        assert!((fill_factor(Volume::from_m3(1.7), rated).unwrap() - 0.85).abs() < 1e-12);
        assert_eq!(fill_factor(Volume::from_m3(9.0), rated), None);
        assert_eq!(fill_factor(Volume::default(), rated), None);
    }
}
