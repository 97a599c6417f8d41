//! Units people name, as exact fractions of SI; a word that means several things is asked back.
//!
//! Basis: inch = 0.0254 m and pound = 0.453 592 37 kg exactly (1959), US gallon 231 in³, US bushel 2150.42 in³; tables of
//! the same relations: NIST Handbook 44 appendix C, NIST SP 811 appendix B.

use std::sync::OnceLock;

use crate::lookup::{Index, Match};

/// An exact fraction in lowest terms.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Factor {
    numerator: u64,
    denominator: u64,
}

impl Factor {
    const fn new(numerator: u64, denominator: u64) -> Self {
        Self::lowest(numerator as u128, denominator as u128)
    }

    #[expect(clippy::cast_possible_truncation, reason = "every unit of the table fits; its test counts them")]
    const fn lowest(numerator: u128, denominator: u128) -> Self {
        let (mut a, mut b) = (numerator, denominator);
        while b != 0 {
            (a, b) = (b, a % b);
        }
        Self { numerator: (numerator / a) as u64, denominator: (denominator / a) as u64 }
    }

    const fn times(self, other: Self) -> Self {
        Self::lowest(
            self.numerator as u128 * other.numerator as u128,
            self.denominator as u128 * other.denominator as u128,
        )
    }

    const fn over(self, other: Self) -> Self {
        self.times(Self { numerator: other.denominator, denominator: other.numerator })
    }

    const fn of(self, count: u64) -> Self {
        self.times(Self::new(count, 1))
    }

    /// Above the line.
    pub const fn numerator(self) -> u64 {
        self.numerator
    }

    /// Below the line.
    pub const fn denominator(self) -> u64 {
        self.denominator
    }

    /// The nearest double.
    #[expect(clippy::cast_precision_loss, reason = "the fraction itself is exact")]
    pub const fn decimal(self) -> f64 {
        self.numerator as f64 / self.denominator as f64
    }
}

/// What a unit measures, and in which SI unit its factor is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Dimension {
    /// m.
    Length,
    /// m².
    Area,
    /// m³.
    Volume,
    /// kg.
    Mass,
    /// kg/m².
    AreaMass,
    /// kg/m³.
    Density,
    /// m: a volume over an area.
    Depth,
}

/// A unit with its factor to SI.
#[derive(Debug, PartialEq, Eq)]
pub struct Unit {
    /// Its plain name.
    pub name: &'static str,
    /// What it measures.
    pub dimension: Dimension,
    /// SI units in one.
    pub factor: Factor,
    /// Where the factor comes from, where it is not the basis of this table.
    pub basis: &'static str,
    /// Other names, English and Spanish, and symbols.
    also: &'static [&'static str],
}

/// What a written unit means.
#[derive(Debug, Clone, PartialEq)]
pub enum Read {
    /// One unit.
    Unit(&'static Unit),
    /// One of these: which is meant has to be asked.
    AskBack(Vec<&'static Unit>),
    /// None; these are written much like it.
    Near(Vec<&'static Unit>),
}

const ONE: Factor = Factor::new(1, 1);
const INCH: Factor = Factor::new(127, 5000);
const FOOT: Factor = INCH.of(12);
const YARD: Factor = FOOT.of(3);
const ROD: Factor = FOOT.times(Factor::new(33, 2));
const CHAIN: Factor = ROD.of(4);
const SURVEY_FOOT: Factor = Factor::new(1200, 3937);
const SQUARE_FOOT: Factor = FOOT.times(FOOT);
const ACRE: Factor = SQUARE_FOOT.of(43_560);
const CUBIC_INCH: Factor = INCH.times(INCH).times(INCH);
const CUBIC_FOOT: Factor = SQUARE_FOOT.times(FOOT);
const CUBIC_YARD: Factor = CUBIC_FOOT.of(27);
const BUSHEL: Factor = CUBIC_INCH.times(Factor::new(215_042, 100));
const IMPERIAL_GALLON: Factor = Factor::new(454_609, 100_000_000);
const POUND: Factor = Factor::new(45_359_237, 100_000_000);
const SHORT_TON: Factor = POUND.of(2000);

const DEFINITION: &str = "";
const MEMORY: &str = "from memory";

const fn unit(
    name: &'static str,
    dimension: Dimension,
    factor: Factor,
    basis: &'static str,
    also: &'static [&'static str],
) -> Unit {
    Unit { name, dimension, factor, basis, also }
}

use Dimension::{Area, AreaMass, Density, Depth, Length, Mass, Volume};

/// Every unit that is known by name.
static UNITS: [Unit; 58] = [
    unit("metre", Length, ONE, DEFINITION, &["m", "meter", "metro"]),
    unit("centimetre", Length, Factor::new(1, 100), DEFINITION, &["cm", "centimeter", "centímetro"]),
    unit("millimetre", Length, Factor::new(1, 1000), DEFINITION, &["mm", "millimeter", "milímetro"]),
    unit("kilometre", Length, ONE.of(1000), DEFINITION, &["km", "kilometer", "kilómetro"]),
    unit("inch", Length, INCH, DEFINITION, &["in", "pulgada"]),
    unit("foot", Length, FOOT, DEFINITION, &["ft", "feet", "pie"]),
    unit("linear yard", Length, YARD, DEFINITION, &["yard of length", "yarda lineal"]),
    unit("rod", Length, ROD, DEFINITION, &["pole", "pértiga"]),
    unit("chain", Length, CHAIN, DEFINITION, &["Gunter's chain", "ch", "cadena"]),
    unit("link", Length, CHAIN.over(ONE.of(100)), DEFINITION, &["li", "eslabón"]),
    unit("mile", Length, FOOT.of(5280), DEFINITION, &["mi", "milla"]),
    unit(
        "US survey foot",
        Length,
        SURVEY_FOOT,
        "retired from federal use at the end of 2022, from memory",
        &["survey foot", "survey feet", "ftUS"],
    ),
    unit("square metre", Area, ONE, DEFINITION, &["m2", "sq m", "square meter", "metro cuadrado"]),
    unit("hectare", Area, ONE.of(10_000), DEFINITION, &["ha", "hectárea"]),
    unit("are", Area, ONE.of(100), DEFINITION, &["área"]),
    unit("square foot", Area, SQUARE_FOOT, DEFINITION, &["ft2", "sq ft", "square feet", "pie cuadrado"]),
    unit("square yard", Area, YARD.times(YARD), DEFINITION, &["yd2", "sq yd", "yarda cuadrada"]),
    unit("square rod", Area, ROD.times(ROD), DEFINITION, &["square perch", "square pole", "sq rod"]),
    unit("acre", Area, ACRE, "43 560 international square feet", &["ac", "international acre"]),
    unit(
        "US survey acre",
        Area,
        SURVEY_FOOT.times(SURVEY_FOOT).of(43_560),
        "43 560 square survey feet",
        &["survey acre"],
    ),
    unit("rood", Area, ACRE.over(ONE.of(4)), DEFINITION, &[]),
    unit(
        "square mile",
        Area,
        FOOT.of(5280).times(FOOT.of(5280)),
        DEFINITION,
        &["mi2", "sq mi", "milla cuadrada"],
    ),
    unit(
        "thousand square feet",
        Area,
        SQUARE_FOOT.of(1000),
        DEFINITION,
        &["1000 ft2", "1000 sq ft", "1000 square feet", "msf"],
    ),
    unit("cubic metre", Volume, ONE, DEFINITION, &["m3", "cu m", "cubic meter", "metro cúbico"]),
    unit("litre", Volume, Factor::new(1, 1000), DEFINITION, &["l", "liter", "litro"]),
    unit("cubic inch", Volume, CUBIC_INCH, DEFINITION, &["in3", "cu in", "pulgada cúbica"]),
    unit("cubic foot", Volume, CUBIC_FOOT, DEFINITION, &["ft3", "cu ft", "cubic feet", "pie cúbico"]),
    unit("cubic yard", Volume, CUBIC_YARD, DEFINITION, &["yd3", "cu yd", "cu yds", "yarda cúbica"]),
    unit("US gallon", Volume, CUBIC_INCH.of(231), DEFINITION, &["US gal", "galón estadounidense"]),
    unit("imperial gallon", Volume, IMPERIAL_GALLON, MEMORY, &["imp gal", "UK gallon", "galón imperial"]),
    unit("US bushel", Volume, BUSHEL, "struck, 2150.42 cubic inches", &["US bu", "struck bushel"]),
    unit(
        "US heaped bushel",
        Volume,
        CUBIC_INCH.times(Factor::new(2_747_715, 1000)),
        "2747.715 cubic inches, NIST Handbook 44 appendix C, from memory",
        &["heaped bushel"],
    ),
    unit("imperial bushel", Volume, IMPERIAL_GALLON.of(8), DEFINITION, &["UK bushel", "imp bu"]),
    unit("board foot", Volume, CUBIC_INCH.of(144), DEFINITION, &["bf", "fbm", "board feet", "pie tablar"]),
    unit("cord", Volume, CUBIC_FOOT.of(128), "128 cubic feet", &["cuerda"]),
    unit(
        "unit of residue",
        Volume,
        CUBIC_FOOT.of(200),
        "200 cubic feet; Briggs 1994, table 7-1",
        &["gravity packed unit", "200 ft3 unit", "unit of sawdust", "unit of chips"],
    ),
    unit("dry barrel", Volume, CUBIC_INCH.of(7056), "NIST Handbook 44, from memory", &["US dry barrel"]),
    unit(
        "perch of stone",
        Volume,
        CUBIC_FOOT.times(Factor::new(99, 4)),
        "24 3/4 cubic feet, from memory",
        &["stone perch", "cubic perch"],
    ),
    unit("acre-inch", Volume, ACRE.times(INCH), DEFINITION, &["acre in"]),
    unit("acre-foot", Volume, ACRE.times(FOOT), DEFINITION, &["acre feet", "acre ft"]),
    unit("kilogram", Mass, ONE, DEFINITION, &["kg", "kilo", "kilogramo"]),
    unit("gram", Mass, Factor::new(1, 1000), DEFINITION, &["g", "gramo"]),
    unit("tonne", Mass, ONE.of(1000), DEFINITION, &["t", "metric ton", "tonelada métrica"]),
    unit("pound", Mass, POUND, DEFINITION, &["lb", "lbs", "libra"]),
    unit("ounce", Mass, POUND.over(ONE.of(16)), DEFINITION, &["oz", "onza"]),
    unit("short ton", Mass, SHORT_TON, "2000 pounds", &["US ton", "green ton", "tonelada corta"]),
    unit("long ton", Mass, POUND.of(2240), "2240 pounds", &["UK ton", "tonelada larga"]),
    unit("US hundredweight", Mass, POUND.of(100), "100 pounds", &["cwt", "quintal corto"]),
    unit("bone-dry unit", Mass, POUND.of(2400), "2400 pounds, dry, from memory", &["BDU"]),
    unit("kilogram per square metre", AreaMass, ONE, DEFINITION, &["kg/m2"]),
    unit("tonne per hectare", AreaMass, Factor::new(1, 10), DEFINITION, &["t/ha", "tonelada por hectárea"]),
    unit("short ton per acre", AreaMass, SHORT_TON.over(ACRE), DEFINITION, &["US ton per acre"]),
    unit(
        "pound per thousand square feet",
        AreaMass,
        POUND.over(SQUARE_FOOT.of(1000)),
        DEFINITION,
        &["lb/1000 ft2", "lb per 1000 ft2", "lb per 1000 sq ft"],
    ),
    unit("kilogram per cubic metre", Density, ONE, DEFINITION, &["kg/m3"]),
    unit(
        "pound per cubic yard",
        Density,
        POUND.over(CUBIC_YARD),
        DEFINITION,
        &["lb/yd3", "lb per cubic yard"],
    ),
    unit(
        "pound per cubic foot",
        Density,
        POUND.over(CUBIC_FOOT),
        DEFINITION,
        &["lb/ft3", "lb per cubic foot"],
    ),
    unit("cubic yard per acre", Depth, CUBIC_YARD.over(ACRE), DEFINITION, &["yd3/acre"]),
    unit("cubic metre per hectare", Depth, Factor::new(1, 10_000), DEFINITION, &["m3/ha"]),
];

/// Words that mean several things, and the units that each may be.
const AMBIGUOUS: [(&[&str], &[&str]); 7] = [
    (&["perch", "percha"], &["rod", "square rod", "perch of stone"]),
    (&["yard", "yd", "yds", "yarda"], &["linear yard", "square yard", "cubic yard"]),
    (&["unit", "unidad"], &["unit of residue", "bone-dry unit"]),
    (&["ton", "tonelada"], &["tonne", "short ton", "long ton"]),
    (&["ton per acre", "ton/acre"], &["short ton per acre", "tonne per hectare"]),
    (&["gallon", "gal", "galón"], &["US gallon", "imperial gallon"]),
    (&["bushel", "bu"], &["US bushel", "US heaped bushel", "imperial bushel"]),
];

/// All units.
pub fn all() -> &'static [Unit] {
    &UNITS
}

/// A unit by its plain name.
pub fn of_name(name: &str) -> Option<&'static Unit> {
    UNITS.iter().find(|unit| unit.name == name)
}

/// Cubic yards in a layer one inch deep on an acre: 1210/9.
pub const CUBIC_YARDS_IN_ACRE_INCH: Factor = ACRE.times(INCH).over(CUBIC_YARD);
/// Cubic yards in a layer one inch deep on 1000 square feet: 250/81.
pub const CUBIC_YARDS_IN_INCH_ON_1000_FT2: Factor = SQUARE_FOOT.of(1000).times(INCH).over(CUBIC_YARD);

/// Reads a unit as people write it: case, plural, accents, dots, `²` and `^2`, English or Spanish.
///
/// "Perch" is a length, an area and a volume of stone, "yard" of mulch a cubic yard, "unit" a trade unit: these and the
/// other words that depend on country or trade are asked back, never guessed.
pub fn read(written: &str) -> Read {
    static INDEX: OnceLock<Index> = OnceLock::new();
    let plain = plain(written);
    for (words, candidates) in AMBIGUOUS {
        let known = Index::new(words.iter().map(|word| (*word, 0)));
        if matches!(known.find(&plain), Match::Exact(_)) {
            return Read::AskBack(candidates.iter().filter_map(|name| of_name(name)).collect());
        }
    }
    if let Some(unit) = of_sign(written) {
        return Read::Unit(unit);
    }
    let index = INDEX.get_or_init(|| {
        let names = (0..).zip(&UNITS);
        Index::new(names.flat_map(|(at, unit)| {
            core::iter::once(unit.name).chain(unit.also.iter().copied()).map(move |name| (name, at))
        }))
    });
    match index.find(&plain) {
        Match::Exact(at) => UNITS.get(at).map_or(Read::Near(Vec::new()), Read::Unit),
        Match::Near(near) => Read::Near(near.into_iter().filter_map(|at| UNITS.get(at)).collect()),
    }
}

/// Feet and inches by their signs.
fn of_sign(written: &str) -> Option<&'static Unit> {
    match written.trim() {
        "'" | "′" | "’" => of_name("foot"),
        "\"" | "″" | "”" => of_name("inch"),
        _ => None,
    }
}

/// Powers as digits, dots as nothing: `ft²`, `ft^2` and `sq. ft.` become `ft2` and `sq ft`.
fn plain(written: &str) -> String {
    let folded = written.chars().filter_map(|sign| match sign {
        '²' => Some('2'),
        '³' => Some('3'),
        '^' | '.' => None,
        other => Some(other),
    });
    folded.collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn one(written: &str) -> &'static str {
        match read(written) {
            Read::Unit(unit) => unit.name,
            other => panic!("{written}: {other:?}"),
        }
    }

    #[test]
    fn units_are_read_as_people_write_them() {
        for (written, name) in [
            ("FT²", "square foot"),
            ("sq. ft.", "square foot"),
            ("Square Feet", "square foot"),
            ("pies cuadrados", "square foot"),
            ("yd^3", "cubic yard"),
            ("cu yds", "cubic yard"),
            ("yardas cúbicas", "cubic yard"),
            ("inches", "inch"),
            ("\"", "inch"),
            ("′", "foot"),
            ("feet", "foot"),
            ("pulgadas", "inch"),
            ("metres", "metre"),
            ("metros", "metre"),
            ("hectáreas", "hectare"),
            ("Acres", "acre"),
            ("litros", "litre"),
            ("lbs", "pound"),
            ("lb per cubic yard", "pound per cubic yard"),
            ("kg / m3", "kilogram per cubic metre"),
            ("metric tons", "tonne"),
            ("imp. gal.", "imperial gallon"),
            ("board feet", "board foot"),
            ("square perches", "square rod"),
            ("m3/ha", "cubic metre per hectare"),
        ] {
            assert_eq!(one(written), name, "{written}");
        }
    }

    #[test]
    fn words_that_mean_several_things_are_asked_back() {
        for (written, count) in [
            ("perch", 3),
            ("Perches", 3),
            ("yard", 3),
            ("yards", 3),
            ("yarda", 3),
            ("yd.", 3),
            ("unit", 2),
            ("Units", 2),
            ("unidades", 2),
            ("tons", 3),
            ("gallons", 2),
            ("galones", 2),
            ("bushels", 3),
        ] {
            match read(written) {
                Read::AskBack(candidates) => assert_eq!(candidates.len(), count, "{written}"),
                other => panic!("{written}: {other:?}"),
            }
        }
        for (_, candidates) in AMBIGUOUS {
            assert!(candidates.iter().all(|name| of_name(name).is_some()), "{candidates:?}");
        }
    }

    #[test]
    fn a_typing_error_is_never_a_unit() {
        assert!(
            matches!(read("hectrae"), Read::Near(near) if near.iter().any(|unit| unit.name == "hectare"))
        );
        assert_eq!(read(""), Read::Near(Vec::new()));
        assert!(matches!(read("furlong fortnight"), Read::Near(_)));
    }

    #[test]
    fn no_two_units_share_a_name() {
        let names = (0..).zip(&UNITS).flat_map(|(at, unit)| {
            core::iter::once(unit.name).chain(unit.also.iter().copied()).map(move |name| (name, at))
        });
        assert_eq!(Index::new(names).clashes(), Vec::new());
    }
}
