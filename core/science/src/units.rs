//! Quantities. A name says what it is, a constructor says in which unit; factors are exact by definition.
//!
//! Sources of the factors: international yard and pound agreement 1959 (inch = 25.4 mm exactly, pound =
//! 0.453 592 37 kg exactly); NIST Handbook 44 appendix C (US gallon = 231 in³, US short ton = 2000 lb).

/// One pound in kilograms, exact.
pub const KG_PER_LB: f64 = 0.453_592_37;
/// One inch in metres, exact.
pub const M_PER_INCH: f64 = 0.025_4;
/// One foot in metres, exact.
pub const M_PER_FOOT: f64 = 0.304_8;
/// One US liquid gallon in cubic metres, exact.
pub const M3_PER_US_GALLON: f64 = 231.0 * M_PER_INCH * M_PER_INCH * M_PER_INCH;
/// One acre (43 560 international square feet) in square metres, exact.
pub const M2_PER_ACRE: f64 = 43_560.0 * M_PER_FOOT * M_PER_FOOT;

macro_rules! quantity {
    ($(#[$doc:meta])* $name:ident { $( $(#[$udoc:meta])* $from:ident, $get:ident = $factor:expr; )+ }) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
        pub struct $name(f64);

        impl $name {
            $(
                $(#[$udoc])*
                pub const fn $from(value: f64) -> Self { Self(value * $factor) }
                $(#[$udoc])*
                pub const fn $get(self) -> f64 { self.0 / $factor }
            )+
        }

        impl core::ops::Add for $name {
            type Output = Self;
            fn add(self, other: Self) -> Self { Self(self.0 + other.0) }
        }

        impl core::ops::Sub for $name {
            type Output = Self;
            fn sub(self, other: Self) -> Self { Self(self.0 - other.0) }
        }

        impl core::ops::Mul<f64> for $name {
            type Output = Self;
            fn mul(self, times: f64) -> Self { Self(self.0 * times) }
        }

        impl core::ops::Div<f64> for $name {
            type Output = Self;
            fn div(self, by: f64) -> Self { Self(self.0 / by) }
        }
    };
}

quantity!(
    /// A length or a depth.
    Length {
        /// Metres.
        from_m, m = 1.0;
        /// Centimetres.
        from_cm, cm = 0.01;
        /// Millimetres.
        from_mm, mm = 0.001;
        /// Inches.
        from_inches, inches = M_PER_INCH;
        /// Feet.
        from_feet, feet = M_PER_FOOT;
    }
);

quantity!(
    /// An area on the ground.
    Area {
        /// Square metres.
        from_m2, m2 = 1.0;
        /// Hectares.
        from_ha, ha = 10_000.0;
        /// Square feet.
        from_square_feet, square_feet = M_PER_FOOT * M_PER_FOOT;
        /// Acres.
        from_acres, acres = M2_PER_ACRE;
    }
);

quantity!(
    /// A volume.
    Volume {
        /// Cubic metres.
        from_m3, m3 = 1.0;
        /// Litres.
        from_litres, litres = 0.001;
        /// Cubic feet.
        from_cubic_feet, cubic_feet = M_PER_FOOT * M_PER_FOOT * M_PER_FOOT;
        /// Cubic yards.
        from_cubic_yards, cubic_yards = 27.0 * M_PER_FOOT * M_PER_FOOT * M_PER_FOOT;
        /// US gallons.
        from_us_gallons, us_gallons = M3_PER_US_GALLON;
    }
);

quantity!(
    /// A mass.
    Mass {
        /// Kilograms.
        from_kg, kg = 1.0;
        /// Grams.
        from_g, g = 0.001;
        /// Tonnes.
        from_t, t = 1_000.0;
        /// Pounds.
        from_lb, lb = KG_PER_LB;
        /// US short tons.
        from_us_tons, us_tons = 2_000.0 * KG_PER_LB;
    }
);

quantity!(
    /// Mass per volume; say at every use whether wet or dry.
    Density {
        /// Kilograms per cubic metre.
        from_kg_m3, kg_m3 = 1.0;
        /// Grams per cubic centimetre.
        from_g_cm3, g_cm3 = 1_000.0;
        /// Pounds per cubic yard.
        from_lb_yd3, lb_yd3 = KG_PER_LB / (27.0 * M_PER_FOOT * M_PER_FOOT * M_PER_FOOT);
    }
);

quantity!(
    /// Mass per area, such as dry residue on a bed.
    AreaMass {
        /// Kilograms per square metre.
        from_kg_m2, kg_m2 = 1.0;
        /// Tonnes per hectare.
        from_t_ha, t_ha = 0.1;
        /// Kilograms per hectare: nitrogen and carbon.
        from_kg_ha, kg_ha = 0.000_1;
        /// Pounds per acre.
        from_lb_acre, lb_acre = KG_PER_LB / M2_PER_ACRE;
        /// US short tons per acre.
        from_us_tons_acre, us_tons_acre = 2_000.0 * KG_PER_LB / M2_PER_ACRE;
        /// Pounds per thousand square feet.
        from_lb_1000_ft2, lb_1000_ft2 = KG_PER_LB / (1_000.0 * M_PER_FOOT * M_PER_FOOT);
    }
);

/// A temperature.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
pub struct Temperature(f64);

impl Temperature {
    /// Degrees Celsius.
    pub const fn from_c(value: f64) -> Self {
        Self(value)
    }
    /// Degrees Fahrenheit.
    pub const fn from_f(value: f64) -> Self {
        Self((value - 32.0) / 1.8)
    }
    /// Degrees Celsius.
    pub const fn c(self) -> f64 {
        self.0
    }
    /// Degrees Fahrenheit.
    pub const fn f(self) -> f64 {
        self.0 * 1.8 + 32.0
    }
}

quantity!(
    /// A part of a whole, 0 to 1.
    Share {
        /// Part of one.
        from_fraction, fraction = 1.0;
        /// Per cent.
        from_percent, percent = 0.01;
    }
);

impl Area {
    /// The mass that a dose per area makes on this ground.
    pub fn mass_of(self, dose: AreaMass) -> Mass {
        Mass::from_kg(self.m2() * dose.kg_m2())
    }

    /// The volume of a layer of this depth.
    pub fn volume_of(self, depth: Length) -> Volume {
        Volume::from_m3(self.m2() * depth.m())
    }
}

impl Volume {
    /// The mass of this volume at a density.
    pub fn mass_at(self, density: Density) -> Mass {
        Mass::from_kg(self.m3() * density.kg_m3())
    }

    /// The depth of this volume spread over an area; zero on no area.
    pub fn depth_over(self, area: Area) -> Length {
        if area.m2() > 0.0 { Length::from_m(self.m3() / area.m2()) } else { Length::default() }
    }
}

impl Mass {
    /// The volume of this mass at a density; zero at no density.
    pub fn volume_at(self, density: Density) -> Volume {
        if density.kg_m3() > 0.0 { Volume::from_m3(self.kg() / density.kg_m3()) } else { Volume::default() }
    }

    /// The density of this mass in a volume; zero in no volume.
    pub fn per_volume(self, volume: Volume) -> Density {
        if volume.m3() > 0.0 { Density::from_kg_m3(self.kg() / volume.m3()) } else { Density::default() }
    }

    /// This mass spread over an area; zero on no area.
    pub fn per(self, area: Area) -> AreaMass {
        if area.m2() > 0.0 { AreaMass::from_kg_m2(self.kg() / area.m2()) } else { AreaMass::default() }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn close(a: f64, b: f64, tolerance: f64) {
        assert!((a - b).abs() <= tolerance * b.abs().max(1.0), "{a} is not {b}");
    }

    #[test]
    fn published_helper_factors_hold() {
        // Rounded factors as printed in extension tables.
        close(AreaMass::from_lb_acre(1.0).kg_ha(), 1.1209, 1e-4);
        close(Mass::from_us_tons(1.0).kg(), 907.185, 1e-6);
        close(Density::from_lb_yd3(1.0).kg_m3(), 0.5933, 1e-4);
        close(Area::from_square_feet(1000.0).volume_of(Length::from_inches(1.0)).m3(), 2.360, 1e-3);
        close(AreaMass::from_kg_m2(0.001).kg_ha(), 10.0, 1e-12);
    }

    #[test]
    fn a_rutgers_strip_is_ten_tons_an_acre() {
        // Rutgers Cooperative Extension 2012: 20 lb on 15 x 3 ft is given as 10 tons per acre; exactly 9.68.
        let strip = Area::from_square_feet(45.0);
        close(Mass::from_lb(20.0).per(strip).us_tons_acre(), 9.68, 1e-9);
    }
}
