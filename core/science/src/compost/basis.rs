//! The two bases of moisture: composting states water by wet mass, wood science by oven-dry mass.

use crate::units::Share;

/// Wet-basis moisture of a moisture on oven-dry basis, which may be above 100 %. `None` below zero or where it is no number.
pub fn wet_of_oven_dry(moisture: Share) -> Option<Share> {
    let oven_dry = moisture.fraction();
    (oven_dry >= 0.0 && oven_dry.is_finite()).then(|| Share::from_fraction(oven_dry / (1.0 + oven_dry)))
}

/// Oven-dry moisture of a moisture on wet basis. `None` at 100 % and above, where nothing is dry.
pub fn oven_dry_of_wet(moisture: Share) -> Option<Share> {
    let wet = moisture.fraction();
    (0.0..1.0).contains(&wet).then(|| Share::from_fraction(wet / (1.0 - wet)))
}

/// Moisture of a sample, wet basis, from what it weighed before and after the oven. `None` where it gained, or weighed
/// nothing.
pub fn of_sample(wet_g: f64, dry_g: f64) -> Option<Share> {
    (wet_g > 0.0 && (0.0..=wet_g).contains(&dry_g)).then(|| Share::from_fraction((wet_g - dry_g) / wet_g))
}
