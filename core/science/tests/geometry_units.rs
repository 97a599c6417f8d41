//! Unit factors, exact as fractions, and the same as the quantities compute with.
#![allow(clippy::unwrap_used, reason = "a test may stop where it stands")]

mod case;

use case::cases;
use kerfbook_science::factor::{
    self, CUBIC_YARDS_IN_ACRE_INCH, CUBIC_YARDS_IN_INCH_ON_1000_FT2, Read, of_name,
};
use kerfbook_science::units::{Area, AreaMass, Density, Length, Mass, Volume};

#[test]
fn factors_are_exact() {
    for case in cases("unit-", 46) {
        let factor = match case.text("unit") {
            "acre-inch in cubic yards" => CUBIC_YARDS_IN_ACRE_INCH,
            "inch on 1000 ft2 in cubic yards" => CUBIC_YARDS_IN_INCH_ON_1000_FT2,
            name => of_name(name).unwrap_or_else(|| panic!("no unit {name}")).factor,
        };
        // Whole numbers below 2^53: a double holds them, and a tolerance of nothing is meant so.
        let whole = |number: u64| {
            f64::from(u32::try_from(number >> 32).unwrap()) * 4_294_967_296.0
                + f64::from(u32::try_from(number & 0xffff_ffff).unwrap())
        };
        case.check(&[("numerator", whole(factor.numerator())), ("denominator", whole(factor.denominator()))]);
    }
}

#[test]
fn quantities_compute_with_the_same_factors() {
    for (name, value) in [
        ("inch", Length::from_inches(1.0).m()),
        ("foot", Length::from_feet(1.0).m()),
        ("square foot", Area::from_square_feet(1.0).m2()),
        ("acre", Area::from_acres(1.0).m2()),
        ("cubic foot", Volume::from_cubic_feet(1.0).m3()),
        ("cubic yard", Volume::from_cubic_yards(1.0).m3()),
        ("US gallon", Volume::from_us_gallons(1.0).m3()),
        ("pound", Mass::from_lb(1.0).kg()),
        ("short ton", Mass::from_us_tons(1.0).kg()),
        ("pound per cubic yard", Density::from_lb_yd3(1.0).kg_m3()),
        ("short ton per acre", AreaMass::from_us_tons_acre(1.0).kg_m2()),
        ("pound per thousand square feet", AreaMass::from_lb_1000_ft2(1.0).kg_m2()),
    ] {
        let exact = of_name(name).unwrap().factor.decimal();
        assert!((value / exact - 1.0).abs() < 1e-15, "{name}: {value} is not {exact}");
    }
}

#[test]
fn every_unit_is_read_by_its_own_name() {
    for unit in factor::all() {
        assert_eq!(factor::read(unit.name), Read::Unit(unit), "{}", unit.name);
        assert!(unit.factor.decimal() > 0.0);
    }
}
