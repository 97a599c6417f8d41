//! Free air space: the part of a pile that is neither water nor solid.

use crate::source::{Source, Sourced, Standing};
use crate::units::{Density, Share};

/// Particle densities of organic matter and of ash, g/cm³.
pub const PARTICLE_DENSITIES: Sourced<[f64; 2]> = Sourced::new(
    [1.6, 2.5],
    Source::new(
        "Agnew and Leonard",
        2003,
        "the physical properties of compost",
        "Compost Science & Utilization 11:238-264",
        Standing::FromMemory,
    ),
);

/// Free air space of a pile, from its wet bulk density as it lies, its moisture (wet basis), and organic matter by dry
/// mass. Below zero the figures cannot belong together, and it is `None`.
pub fn free_air_space(wet_density: Density, moisture: Share, organic_matter: Share) -> Option<Share> {
    let [organic, ash] = PARTICLE_DENSITIES.value;
    let (water, matter) = (moisture.fraction(), organic_matter.fraction());
    let dry = 1.0 - water;
    let filled = wet_density.g_cm3() * (water + dry * matter / organic + dry * (1.0 - matter) / ash);
    ((0.0..=1.0).contains(&filled)).then(|| Share::from_fraction(1.0 - filled))
}

/// Free air space by filling: water that fills the pores by volume of the sample.
pub fn by_water(filled_l: f64, sample_l: f64) -> Option<Share> {
    (sample_l > 0.0 && (0.0..=sample_l).contains(&filled_l))
        .then(|| Share::from_fraction(filled_l / sample_l))
}
