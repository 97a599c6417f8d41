//! Weather files, evaporation and soil water on any input.
#![expect(clippy::unwrap_used, reason = "tests stop where a value is missing")]

use chrono::NaiveDate;
use kerfbook_science::soil::{self, SoilError};
use kerfbook_science::units::{Density, Length, Share};
use kerfbook_science::weather::{self, DailyError, NormalsError, read_daily};
use proptest::prelude::*;

fn date(text: &str) -> NaiveDate {
    text.parse().unwrap()
}

#[test]
fn a_daily_file_reads_with_mark_line_ends_and_blank_lines() {
    let daily = read_daily(
        "\u{feff}date,mean_c,rain_mm,et0_mm\r\n2024-02-28,5.5,0,0.6\r\n\r\n2024-02-29, 6 ,12.5,0.7\r\n",
    )
    .unwrap();
    assert_eq!(daily.first, date("2024-02-28"));
    assert_eq!(daily.mean_c, [5.5, 6.0]);
    assert_eq!(daily.rain_mm, [0.0, 12.5]);
    assert_eq!(daily.et0_mm, Some(vec![0.6, 0.7]));
}

#[test]
fn what_is_wrong_with_a_daily_file_is_named_with_its_line() {
    let file = |rows: &str| read_daily(&format!("date,mean_c,rain_mm\n{rows}")).unwrap_err();
    let day = |text| date(text);
    assert_eq!(read_daily("").unwrap_err(), DailyError::Heading { line: 1, text: String::new() });
    assert_eq!(file(""), DailyError::Empty { line: 1 });
    assert_eq!(
        read_daily("date;mean_c;rain_mm\n").unwrap_err(),
        DailyError::Separator { line: 1, found: ';' }
    );
    assert_eq!(file("2024-01-01,12,5,0"), DailyError::Columns { line: 2, found: 4, expected: 3 });
    assert_eq!(
        file("2024-01-01,\"12,5\",0"),
        DailyError::DecimalComma { line: 2, column: "mean_c", text: "12,5".to_owned() }
    );
    assert_eq!(file("01/02/2024,5,0"), DailyError::Date { line: 2, text: "01/02/2024".to_owned() });
    assert_eq!(
        file("2024-01-01,NaN,0"),
        DailyError::Number { line: 2, column: "mean_c", text: "NaN".to_owned() }
    );
    assert_eq!(
        file("2024-01-01,5,inf"),
        DailyError::Number { line: 2, column: "rain_mm", text: "inf".to_owned() }
    );
    assert_eq!(
        file("2024-01-01,5,-1"),
        DailyError::OutOfRange { line: 2, column: "rain_mm", value: -1.0, low: 0.0, high: 1825.0 }
    );
    assert_eq!(
        file("2024-01-01,5,0\n2024-01-03,5,0"),
        DailyError::Gap { line: 3, missing: day("2024-01-02"), date: day("2024-01-03") }
    );
    assert_eq!(
        file("2024-01-01,5,0\n2024-01-02,5,0\n2024-01-01,5,0"),
        DailyError::Duplicate { line: 4, date: day("2024-01-01") }
    );
    assert_eq!(
        file("2024-01-02,5,0\n2024-01-01,5,0"),
        DailyError::Order { line: 3, date: day("2024-01-01"), before: day("2024-01-02") }
    );
    assert_eq!(file("2024-01-01,5,0\n2024-01-03,5,0").line(), 3);
}

#[test]
fn normals_outside_the_weather_of_the_earth_are_named_by_month() {
    let (mut mean, mut rain, evaporation) = ([10.0; 12], [50.0; 12], [2.0; 12]);
    assert_eq!(weather::check_normals(&mean, &rain, Some(&evaporation)), Ok(()));
    rain[6] = -1.0;
    assert_eq!(weather::check_normals(&mean, &rain, None), Err(NormalsError::Rain { month: 7, value: -1.0 }));
    mean[1] = f64::NAN;
    assert!(matches!(weather::check_normals(&mean, &rain, None), Err(NormalsError::Mean { month: 2, .. })));
}

#[test]
fn the_year_turns_round_on_the_other_half_of_the_earth() {
    let north = weather::reference_evaporation(45.0, &[10.0; 12], None);
    let south = weather::reference_evaporation(-45.0, &[10.0; 12], None);
    assert!(north[6] > 3.0 * north[0] && south[0] > 3.0 * south[6]);
}

#[test]
fn soil_that_cannot_be_is_refused() {
    let water = |clay, sand, depth| {
        soil::water(
            Some(Share::from_percent(clay)),
            Some(Share::from_percent(sand)),
            Share::from_percent(3.0),
            None,
            Length::from_cm(depth),
        )
    };
    assert!(matches!(water(60.0, 50.0, 30.0), Err(SoilError::Texture { .. })));
    assert!(matches!(water(120.0, 0.0, 30.0), Err(SoilError::Share { what: "clay", .. })));
    assert!(matches!(water(f64::NAN, 0.0, 30.0), Err(SoilError::Share { .. })));
    assert!(matches!(water(20.0, 40.0, 0.0), Err(SoilError::Depth { .. })));
    assert!(water(70.0, 10.0, 30.0).unwrap().at_edge);
    assert!(!water(20.0, 40.0, 30.0).unwrap().at_edge);
}

#[test]
fn a_denser_soil_holds_less_at_field_capacity() {
    let at = |density| {
        soil::water(
            Some(Share::from_percent(20.0)),
            None,
            Share::from_percent(2.5),
            Some(Density::from_g_cm3(density)),
            Length::from_cm(30.0),
        )
        .unwrap()
        .field_capacity
    };
    assert!(at(1.3) > at(1.5) && at(1.5) > at(1.7));
}

#[test]
fn sand_without_clay_and_organic_matter_holds_no_less_than_no_water() {
    let share = Share::from_fraction;
    let of = |sand| {
        soil::water(Some(share(0.0)), Some(share(sand)), share(0.0), None, Length::from_cm(25.0)).unwrap()
    };
    for sand in [0.82, 0.9, 1.0] {
        let water = of(sand);
        assert!(water.at_edge, "{sand}");
        assert!(water.available <= water.field_capacity && water.available.mm() > 0.0, "{sand}: {water:?}");
    }
}

proptest! {
    #[test]
    fn any_text_is_read_or_refused(text in "\\PC{0,200}") {
        let _ = read_daily(&text);
    }

    #[test]
    fn any_change_to_a_good_file_is_read_or_named_by_a_line_of_it(at in 0usize..60, letter in any::<char>()) {
        let mut text: Vec<char> = "date,mean_c,rain_mm\n2024-01-01,5.5,0\n2024-01-02,6.5,12.5\n".chars().collect();
        if let Some(place) = text.get_mut(at) { *place = letter; }
        let text: String = text.into_iter().collect();
        match read_daily(&text) {
            Ok(daily) => prop_assert_eq!(daily.mean_c.len(), daily.rain_mm.len()),
            Err(error) => prop_assert!((1..=text.lines().count()).contains(&error.line())),
        }
    }

    #[test]
    fn radiation_and_evaporation_are_finite_and_not_below_zero(
        latitude in -90.0f64..=90.0, day in 1u32..=366, mean in -60.0f64..50.0, range in 0.0f64..40.0,
    ) {
        let radiation = weather::extraterrestrial_radiation(latitude, day);
        prop_assert!((0.0..50.0).contains(&radiation));
        prop_assert!((0.0..=24.0).contains(&weather::day_length(latitude, day)));
        let evaporation = weather::reference_evaporation_on(latitude, day, mean, Some(range));
        prop_assert!((0.0..20.0).contains(&evaporation), "{evaporation}");
    }

    #[test]
    fn soil_water_is_in_range_and_grows_with_depth(
        clay in 0.0f64..=1.0, rest in 0.0f64..=1.0, organic in 0.0f64..=0.3, depth in 5.0f64..100.0,
    ) {
        let of = |depth| soil::water(
            Some(Share::from_fraction(clay)),
            Some(Share::from_fraction((1.0 - clay) * rest)),
            Share::from_fraction(organic),
            None,
            Length::from_cm(depth),
        ).unwrap();
        let (thin, thick) = (of(depth), of(depth * 2.0));
        prop_assert!(thin.available.mm() >= 0.0 && thin.available <= thin.field_capacity);
        prop_assert!(thin.field_capacity.mm() < depth * 10.0 * 0.75);
        prop_assert!((thick.available.mm() - 2.0 * thin.available.mm()).abs() < 1e-9 * depth);
    }

    #[test]
    fn more_clay_in_a_soil_of_equal_sand_never_lowers_the_wilting_point(
        sand in 0.0f64..0.5, clay in 0.02f64..0.4, more in 0.01f64..0.1, organic in 0.0f64..8.0,
    ) {
        let less = soil::Moisture::of(sand, clay, organic).wilting_point;
        let greater = soil::Moisture::of(sand, clay + more, organic).wilting_point;
        prop_assert!(greater > less, "{less} {greater}");
    }

    #[test]
    fn parts_per_million_and_mass_go_both_ways(ppm in 0.0f64..200.0, density in 0.5f64..1.9, depth in 5.0f64..100.0) {
        let (density, depth) = (Density::from_g_cm3(density), Length::from_cm(depth));
        let back = soil::ppm_of_nitrogen(soil::nitrogen_of_ppm(ppm, density, depth), density, depth);
        prop_assert!((back - ppm).abs() <= 1e-12 * ppm.max(1.0));
        prop_assert!((soil::nitrogen_of_nitrate(ppm * soil::NITRATE_PER_NITROGEN) - ppm).abs() <= 1e-12 * ppm.max(1.0));
    }
}
