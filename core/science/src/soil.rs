//! Soil: water from texture, mineral nitrogen from soil tests, and what organic matter supplies.
//!
//! Water: Saxton & Rawls 2006; equation numbers are theirs. Sand and clay are parts of the fine earth by
//! mass, organic matter is per cent by mass, as in the paper.

use crate::source::{Source, Sourced, Standing};
use crate::units::{AreaMass, Density, Length, Share};

/// The pedotransfer function.
pub const WATER_SOURCE: Source = Source::new(
    "Saxton & Rawls",
    2006,
    "Soil water characteristic estimates by texture and organic matter for hydrologic solutions",
    "Soil Sci. Soc. Am. J. 70:1569-1578, table 1",
    Standing::FromMemory,
);

/// Clay where nobody knows the soil: a loam.
pub const TYPICAL_CLAY: Sourced<Share> = Sourced::new(Share::from_percent(20.0), Source::ASSUMPTION);
/// Dry bulk density of a tilled soil where none is known.
pub const TYPICAL_BULK_DENSITY: Sourced<Density> =
    Sourced::new(Density::from_g_cm3(1.3), Source::COMMON_PRACTICE);
/// Mineral nitrogen of the root zone in spring where none was measured.
pub const TYPICAL_MINERAL_NITROGEN: Sourced<AreaMass> =
    Sourced::new(AreaMass::from_kg_ha(45.0), Source::ASSUMPTION);

/// Nitrogen that 1 % of organic matter supplies a year, down to the depth of a plough layer.
pub const SUPPLY_PER_PERCENT: Sourced<AreaMass> = Sourced::new(
    AreaMass::from_lb_acre(20.0),
    Source::new(
        "Kansas State University",
        0,
        "soil test interpretations",
        "20 lb/ac per 1 %",
        Standing::SecondHand,
    ),
);

/// Mass of nitrate in one mass of its nitrogen: molar masses 62.005 and 14.007 (IUPAC).
pub const NITRATE_PER_NITROGEN: f64 = 62.005 / 14.007;

/// Most clay that the function was fitted to: Saxton & Rawls 2006.
pub const MOST_CLAY: Share = Share::from_percent(60.0);
/// Most organic matter that the function was fitted to: Saxton & Rawls 2006.
pub const MOST_ORGANIC_MATTER: Share = Share::from_percent(8.0);
/// Compaction that the function's density term covers, part of the normal density: Saxton & Rawls 2006.
pub const DENSITY_FACTOR: (f64, f64) = (0.9, 1.3);
/// Density of soil particles, g/cm³: Saxton & Rawls 2006, eq. 6.
const PARTICLE_DENSITY_G_CM3: f64 = 2.65;

/// Water that a depth of soil holds.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SoilWater {
    /// Water that plants can take up: field capacity less wilting point.
    pub available: Length,
    /// All water at field capacity (33 kPa).
    pub field_capacity: Length,
    /// Clay, organic matter or density lay beyond what the function was fitted to and were taken at its edge.
    pub at_edge: bool,
}

/// A soil that cannot be.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum SoilError {
    /// A share is not between 0 and 1.
    #[error("{what} of {percent} % is outside 0 to 100")]
    Share {
        /// Clay, sand or organic matter.
        what: &'static str,
        /// What was given.
        percent: f64,
    },
    /// Clay and sand make more than the whole.
    #[error("clay {clay} % and sand {sand} % add to more than 100; both are parts of the fine earth")]
    Texture {
        /// Per cent.
        clay: f64,
        /// Per cent.
        sand: f64,
    },
    /// A bulk density that no mineral soil has.
    #[error("a bulk density of {g_cm3} g/cm3 is outside 0.2 to 2.2; give the dry mass of a volume of soil")]
    Density {
        /// What was given.
        g_cm3: f64,
    },
    /// A depth that is no depth.
    #[error("a depth of {cm} cm is outside 1 to 300")]
    Depth {
        /// What was given.
        cm: f64,
    },
}

/// Water of a depth of soil. Clay is [`TYPICAL_CLAY`] and sand half of the rest where not known (assumptions);
/// a stated bulk density moves field capacity as the paper's density term does.
pub fn water(
    clay: Option<Share>,
    sand: Option<Share>,
    organic_matter: Share,
    bulk_density: Option<Density>,
    depth: Length,
) -> Result<SoilWater, SoilError> {
    let clay = checked("clay", clay.unwrap_or(TYPICAL_CLAY.value))?;
    let organic = checked("organic matter", organic_matter)?;
    let sand = match sand {
        Some(sand) => checked("sand", sand)?,
        None => (1.0 - clay) / 2.0,
    };
    // A rounding hair is allowed: 60.1 + 39.9 is not always 100.
    if clay + sand > 1.0 + 1e-9 {
        return Err(SoilError::Texture { clay: clay * 100.0, sand: sand * 100.0 });
    }
    if !(1.0..=300.0).contains(&depth.cm()) {
        return Err(SoilError::Depth { cm: depth.cm() });
    }
    let inside = (clay.min(MOST_CLAY.fraction()), organic.min(MOST_ORGANIC_MATTER.fraction()));
    let mut at_edge = clay > inside.0 || organic > inside.1;
    let moisture = Moisture::of(sand, inside.0, inside.1 * 100.0);
    let mut capacity = moisture.field_capacity;
    if let Some(density) = bulk_density {
        let g_cm3 = density.g_cm3();
        if !(0.2..=2.2).contains(&g_cm3) {
            return Err(SoilError::Density { g_cm3 });
        }
        let factor = g_cm3 / moisture.normal_density();
        let kept = factor.clamp(DENSITY_FACTOR.0, DENSITY_FACTOR.1);
        at_edge |= !(DENSITY_FACTOR.0..=DENSITY_FACTOR.1).contains(&factor);
        capacity = moisture.field_capacity_at(kept);
    }
    // The regressions foretell less than no water at the wilting point of sand without clay and organic matter.
    at_edge |= moisture.wilting_point < 0.0;
    let available = (capacity - moisture.wilting_point.max(0.0)).max(0.0);
    Ok(SoilWater {
        available: Length::from_mm(depth.mm() * available),
        field_capacity: Length::from_mm(depth.mm() * capacity),
        at_edge,
    })
}

fn checked(what: &'static str, share: Share) -> Result<f64, SoilError> {
    let fraction = share.fraction();
    if (0.0..=1.0).contains(&fraction) {
        Ok(fraction)
    } else {
        Err(SoilError::Share { what, percent: share.percent() })
    }
}

/// Volumetric water of a soil of normal density, parts of the volume.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Moisture {
    /// At 1500 kPa, eq. 1.
    pub wilting_point: f64,
    /// At 33 kPa, eq. 2.
    pub field_capacity: f64,
    /// At saturation, eq. 5.
    pub saturation: f64,
}

impl Moisture {
    /// From sand and clay (fractions) and organic matter (per cent).
    pub fn of(sand: f64, clay: f64, organic_pct: f64) -> Self {
        let (s, c, o) = (sand, clay, organic_pct);
        let t1500 =
            -0.024 * s + 0.487 * c + 0.006 * o + 0.005 * s * o - 0.013 * c * o + 0.068 * s * c + 0.031;
        let wilting_point = t1500 + (0.14 * t1500 - 0.02);
        let t33 = -0.251 * s + 0.195 * c + 0.011 * o + 0.006 * s * o - 0.027 * c * o + 0.452 * s * c + 0.299;
        let field_capacity = t33 + (1.283 * t33 * t33 - 0.374 * t33 - 0.015);
        let t_drained =
            0.278 * s + 0.034 * c + 0.022 * o - 0.018 * s * o - 0.027 * c * o - 0.584 * s * c + 0.078;
        let drained = t_drained + (0.636 * t_drained - 0.107);
        let saturation = field_capacity + drained - 0.097 * s + 0.043;
        Self { wilting_point, field_capacity, saturation }
    }

    /// Dry bulk density, g/cm³: eq. 6.
    pub fn normal_density(&self) -> f64 {
        (1.0 - self.saturation) * PARTICLE_DENSITY_G_CM3
    }

    /// Field capacity where the density is `factor` times the normal one: eq. 7 to 9.
    fn field_capacity_at(&self, factor: f64) -> f64 {
        let saturation = 1.0 - self.normal_density() * factor / PARTICLE_DENSITY_G_CM3;
        self.field_capacity - 0.2 * (self.saturation - saturation)
    }
}

/// Nitrogen per area from parts per million of dry soil: kg/ha = ppm x g/cm³ x cm x 0.1.
pub fn nitrogen_of_ppm(ppm: f64, bulk_density: Density, depth: Length) -> AreaMass {
    AreaMass::from_kg_ha(ppm * bulk_density.g_cm3() * depth.cm() * 0.1)
}

/// The inverse of [`nitrogen_of_ppm`]; zero where the soil has no mass.
pub fn ppm_of_nitrogen(nitrogen: AreaMass, bulk_density: Density, depth: Length) -> f64 {
    let soil = bulk_density.g_cm3() * depth.cm() * 0.1;
    if soil > 0.0 { nitrogen.kg_ha() / soil } else { 0.0 }
}

/// Nitrogen in an amount of nitrate, both in the same unit.
pub fn nitrogen_of_nitrate(nitrate: f64) -> f64 {
    nitrate / NITRATE_PER_NITROGEN
}

/// Nitrogen that organic matter supplies in a usual year.
pub fn supply(organic_matter: Share) -> AreaMass {
    SUPPLY_PER_PERCENT.value * organic_matter.percent()
}
