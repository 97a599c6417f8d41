//! Decay limited by nitrogen in EPIC, after Seligman & van Keulen 1981 (restated in the model's public
//! description). Far too harsh for wood.

/// Factor from carbon to nitrogen of residue and layer together; 1 up to 25.
pub fn nitrogen_factor(carbon_nitrogen: f64) -> f64 {
    libm::exp(-0.693 * (carbon_nitrogen - 25.0) / 25.0).min(1.0)
}
