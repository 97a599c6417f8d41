//! The pre-sidedress nitrate test for maize: Penn State Agronomy Guide, table 1.4-4 (read in the source).

/// Nitrate nitrogen of the top foot at and above which no nitrogen is needed, ppm: Penn State.
pub const ENOUGH_PENN_STATE_PPM: f64 = 21.0;
/// The same for field and sweet corn: University of Connecticut.
pub const ENOUGH_CORN_PPM: f64 = 25.0;
/// The same for lettuce and celery, 5 to 30 cm: Hartz et al. 2000.
pub const ENOUGH_LETTUCE_PPM: f64 = 20.0;

/// What grew there before.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Previous {
    /// Maize or anything not named.
    Other,
    /// Soybean.
    Soybean,
    /// Lucerne, clover.
    ForageLegume,
}

/// Nitrogen to give, lb/ac, for a yield in bushels an acre and nitrate nitrogen in ppm.
pub fn rate_lb_acre(
    yield_bushels: f64,
    nitrate_ppm: f64,
    manure_since_harvest: bool,
    manure_in_three_years: bool,
    previous: Previous,
) -> f64 {
    if nitrate_ppm >= ENOUGH_PENN_STATE_PPM {
        return 0.0;
    }
    let recent = if manure_since_harvest { 3.5 } else { 0.75 };
    let earlier = if manure_in_three_years { 1.75 } else { 0.0 };
    let crop = match previous {
        Previous::Other => 0.0,
        Previous::Soybean => 1.0,
        Previous::ForageLegume => 3.5,
    };
    (1.1 * yield_bushels - (recent + earlier + crop) * nitrate_ppm).max(0.0)
}
