//! Nitrate washed below a depth.

/// Part washed below `depth_cm` by `drainage_cm` of water in a soil that holds `capacity_pct` of its volume:
/// Burns 1975, J. Agric. Sci. 85:443 (form from memory).
pub fn burns(drainage_cm: f64, capacity_pct: f64, depth_cm: f64) -> f64 {
    if drainage_cm <= 0.0 {
        return 0.0;
    }
    libm::pow(drainage_cm / (drainage_cm + capacity_pct / 100.0), depth_cm)
}

/// The same restated: Scotter, White & Dyson 1993 (read in the source). `water` is the part of the volume
/// that holds water.
pub fn scotter(drainage_cm: f64, water: f64, depth_cm: f64) -> f64 {
    if drainage_cm <= 0.0 { 0.0 } else { libm::exp(-depth_cm * water / drainage_cm) }
}
