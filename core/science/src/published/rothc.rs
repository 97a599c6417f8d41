//! Rate modifiers of `RothC`: Coleman & Jenkinson, model description of 2014 and before (restated in a public
//! re-implementation; the newer temperature constants are from memory).

/// Rate modifier of temperature, degrees C; 1 near 9.25. Zero from -18.27 down, where the formula has a pole.
pub fn temperature(celsius: f64) -> f64 {
    let above_pole = celsius + 18.27;
    if above_pole <= 0.0 { 0.0 } else { 47.91 / (1.0 + libm::exp(106.06 / above_pole)) }
}

/// Largest deficit of topsoil moisture, mm, below zero: clay in per cent, depth in cm, soil bare or not.
pub fn largest_deficit(clay_pct: f64, depth_cm: f64, bare: bool) -> f64 {
    let of_clay = -(20.0 + 1.3 * clay_pct - 0.01 * clay_pct * clay_pct);
    let scaled = of_clay * depth_cm / 23.0;
    if bare { scaled / 1.8 } else { scaled }
}

/// A month of the moisture account.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Month {
    /// Accumulated deficit at its end, mm, at or below zero.
    pub deficit: f64,
    /// Rate modifier of moisture.
    pub modifier: f64,
}

/// The moisture account of a year, month by month, from rain and open-pan evaporation (mm a month). It starts
/// in the first month in which three quarters of the pan exceed the rain.
pub fn moisture(rain: &[f64; 12], pan: &[f64; 12], largest_deficit: f64) -> [Month; 12] {
    let mut months = [Month { deficit: 0.0, modifier: 1.0 }; 12];
    let mut deficit = 0.0;
    for (month, (rain, pan)) in months.iter_mut().zip(rain.iter().zip(pan)) {
        // Before the first dry month the account stays at zero by itself: it is never above.
        deficit = (deficit + rain - 0.75 * pan).min(0.0).max(largest_deficit);
        *month = Month { deficit, modifier: modifier(deficit, largest_deficit) };
    }
    months
}

fn modifier(deficit: f64, largest: f64) -> f64 {
    let threshold = 0.444 * largest;
    if deficit > threshold { 1.0 } else { 0.2 + 0.8 * (largest - deficit) / (largest - threshold) }
}
