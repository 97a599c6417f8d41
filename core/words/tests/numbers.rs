//! Numbers of any kind become text, never a panic.

use kerfbook_science::units::{Area, AreaMass, Density, Length, Mass, Share, Temperature, Volume};
use kerfbook_words::{Container, Language, Per, Spread, Units, Words};
use proptest::prelude::*;

fn words() -> impl Strategy<Value = Words> {
    (prop::bool::ANY, prop::bool::ANY).prop_map(|(spanish, us)| {
        let language = if spanish { Language::Spanish } else { Language::English };
        Words::new(language, if us { Units::Us } else { Units::Metric })
    })
}

fn all(words: &Words, x: f64) -> Vec<String> {
    let mut said = vec![
        words.number(x, 0),
        words.number(x, 3),
        words.significant(x, 2),
        words.rounded(x),
        words.coarse(x),
        words.stated(x),
        words.mass(Mass::from_kg(x)),
        words.mass_about(Mass::from_kg(x)),
        words.weighed(Mass::from_kg(x)),
        words.poured(Volume::from_litres(x)),
        words.nitrogen_stated(AreaMass::from_kg_ha(x)),
        words.nitrogen_mass(Mass::from_g(x)),
        words.area_mass(AreaMass::from_t_ha(x)),
        words.bed_mass(AreaMass::from_kg_m2(x)),
        words.nitrogen(AreaMass::from_kg_ha(x)),
        words.nitrogen_range(AreaMass::from_kg_ha(x), AreaMass::from_kg_ha(-x), AreaMass::from_kg_ha(x)),
        words.depth(Length::from_mm(x)),
        words.fingers(Length::from_mm(x)),
        words.length(Length::from_m(x)),
        words.water(Length::from_mm(x)),
        words.area(Area::from_m2(x)),
        words.volume(Volume::from_litres(x)),
        words.liquid(Volume::from_litres(x)),
        words.density(Density::from_kg_m3(x)),
        words.temperature(Temperature::from_c(x)),
        words.percent(Share::from_fraction(x)),
        words.percent_exact(Share::from_fraction(x)),
        words.nitrogen_per_litre(x),
        words.hours_about(x),
        words.days(x),
        words.months(x),
        words.not_within(7, Share::from_fraction(x)),
    ];
    said.extend(
        [Container::Barrow, Container::Bucket, Container::Trailer].map(|one| words.containers(one, x)),
    );
    said.extend(
        [Per::Area, Per::Tree, Per::Litre]
            .map(|per| words.cost(Spread { p10: -x, p50: x / 2.0, p90: x }, per)),
    );
    said
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn any_number_becomes_text(words in words(), x in prop::num::f64::ANY) {
        for text in all(&words, x) {
            prop_assert!(!text.is_empty());
            prop_assert!(!text.contains("NaN") && !text.contains("inf"), "{text}");
            prop_assert!(!text.contains('[') && !text.contains('{'), "{text}");
        }
    }

    #[test]
    fn a_number_reads_back(x in -1e6..1e6_f64) {
        let words = Words::new(Language::English, Units::Metric);
        let back: f64 = words.number(x, 3).replace(',', "").replace('−', "-").parse().unwrap_or(f64::NAN);
        prop_assert!((back - x).abs() <= 0.000_500_001, "{x} read back as {back}");
    }

    #[test]
    fn spanish_differs_only_in_its_separators(x in -1e6..1e6_f64) {
        let english = Words::new(Language::English, Units::Metric).number(x, 2);
        let spanish = Words::new(Language::Spanish, Units::Metric).number(x, 2);
        let digits = |text: &str| text.chars().filter(char::is_ascii_digit).collect::<String>();
        prop_assert_eq!(digits(&english), digits(&spanish));
        prop_assert_eq!(english.contains('.'), spanish.contains(','));
    }
}

#[test]
fn what_is_no_number_is_a_dash() {
    let words = Words::new(Language::English, Units::Metric);
    for x in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
        assert_eq!(words.number(x, 1), "–");
        assert_eq!(words.nitrogen(AreaMass::from_kg_ha(x)), "– kg N/ha");
    }
}

#[test]
fn zero_has_no_sign() {
    let words = Words::new(Language::English, Units::Metric);
    assert_eq!(words.number(-0.0, 2), "0");
    assert_eq!(words.number(-0.001, 2), "0");
    assert_eq!(words.number(-1.5, 0), "−2");
}

#[test]
fn separators_are_the_language_s() {
    let english = Words::new(Language::English, Units::Metric);
    let spanish = Words::new(Language::Spanish, Units::Metric);
    assert_eq!(english.number(12_345.678, 2), "12,345.68");
    assert_eq!(spanish.number(12_345.678, 2), "12.345,68");
    assert_eq!(english.number(1_095.0, 0), "1,095");
    assert_eq!(spanish.number(1_095.0, 0), "1095");
}

#[test]
fn significant_digits_hold_across_a_power_of_ten() {
    let words = Words::new(Language::English, Units::Metric);
    assert_eq!(words.significant(99.6, 2), "100");
    assert_eq!(words.significant(0.009_96, 2), "0.01");
    assert_eq!(words.coarse(8.37), "8");
    assert_eq!(words.coarse(123.4), "120");
    assert_eq!(words.coarse(0.4), "0");
}
