//! Other published modifiers of decay, as tabled by Sierra et al. 2015, JAMES 7:335: temperature in degrees C,
//! moisture as part of what the soil can hold.

/// Q10, relative to 10 degrees.
pub fn q10(q10: f64, celsius: f64) -> f64 {
    libm::pow(q10, (celsius - 10.0) / 10.0)
}

/// Lloyd & Taylor 1994; zero below its pole at -45.87.
pub fn lloyd_taylor(celsius: f64) -> f64 {
    let above_pole = celsius + 273.0 - 227.13;
    if above_pole <= 0.0 { 0.0 } else { libm::exp(308.56 * (1.0 / 56.02 - 1.0 / above_pole)) }
}

/// Kirschbaum.
pub fn kirschbaum(celsius: f64) -> f64 {
    libm::exp(-3.764 + 0.204 * celsius * (1.0 - 0.5 * celsius / 36.9))
}

/// Moisture in Demeter.
pub fn demeter_moisture(share: f64) -> f64 {
    0.25 + 0.75 * share
}

/// Moisture after Candy.
pub fn candy_moisture(share: f64) -> f64 {
    if share <= 0.5 { 4.0 * share * (1.0 - share) } else { 1.0 }
}
