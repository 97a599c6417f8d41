//! Parameters of residue decay: Nicolardot, Recous & Mary 2001, Plant Soil 228:83-103 (restated in a public
//! re-implementation). Fitted to crop residues of C:N 9 to 150; not to be stretched to wood.

/// What the residue's carbon to nitrogen sets.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Parameters {
    /// Rate of decay at 15 degrees C, per day.
    pub rate: f64,
    /// Carbon to nitrogen of the microbes.
    pub biomass_carbon_nitrogen: f64,
    /// Part of dead microbes that turns to humus.
    pub humified: f64,
}

impl Parameters {
    /// For a residue of this carbon to nitrogen, above zero.
    pub fn of(carbon_nitrogen: f64) -> Self {
        let r = carbon_nitrogen;
        Self {
            rate: 0.07 + 1.94 / r,
            biomass_carbon_nitrogen: (16.1 - 123.0 / r).max(7.8),
            humified: 1.0 - 0.69 * r / (11.2 + r),
        }
    }
}

/// Rate modifier of temperature, degrees C; 0.99 at 15.
pub fn temperature(celsius: f64) -> f64 {
    12.0 / (1.0 + 52.0 * libm::exp(-0.103 * celsius))
}
