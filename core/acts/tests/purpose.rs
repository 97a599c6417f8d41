//! What a load is for: depth against weeds, water kept, organic matter left, work and money.

#![allow(clippy::unwrap_used, reason = "a test stops at the first surprise")]

mod site;

use kerfbook_acts::purpose::{Cover, ForPurpose, Purpose, WayFor, Wish, purpose};
use kerfbook_acts::scenario::{Amount, PlaceKind, Scenario};
use kerfbook_acts::way::Row;
use kerfbook_science::units::Length;

fn layer(cm: f64) -> Scenario {
    let mut scenario = site::golden_site(1.0);
    scenario.put_down[0].amount = Amount::Depth(Length::from_cm(cm));
    scenario.put_down[0].material = "hardwood chips".into();
    scenario
}

fn found(scenario: &Scenario, wanted: Purpose) -> ForPurpose {
    purpose(scenario, &Wish::of(wanted)).unwrap()
}

fn way(found: &ForPurpose, row: Row) -> &WayFor {
    found.ways.iter().find(|way| way.row == row).unwrap()
}

fn rows(found: &ForPurpose) -> Vec<Row> {
    found.ways.iter().map(|way| way.row).collect()
}

#[test]
fn weeds_are_covered_from_the_published_depth_on() {
    // Five and ten centimetres had fewer weeds than none and two and a half; 20 m2.
    for (cm, cover, missing_m3) in [
        (2.5, Cover::TooThin, 0.5),
        (2.7, Cover::TooThin, 0.46),
        (4.0, Cover::Between, 0.2),
        (5.0, Cover::Covers, 0.0),
        (10.0, Cover::Covers, 0.0),
    ] {
        let found = found(&layer(cm), Purpose::Weeds);
        let weeds = way(&found, Row::OnTop).weeds.unwrap();
        assert_eq!(weeds.cover, cover, "{cm} cm");
        assert!((weeds.missing.m3() - missing_m3).abs() < 1e-9, "{cm} cm: {:?}", weeds.missing);
        assert!((weeds.makes.m2() - 20.0 * cm / 5.0).abs() < 1e-9, "{cm} cm: {:?}", weeds.makes);
        assert!(found.others.contains(&Row::WorkedIn) && !rows(&found).contains(&Row::CompostedFirst));
    }
}

#[test]
fn more_than_a_place_takes_is_not_used() {
    let mut scenario = layer(10.0);
    scenario.put_down[0].material = "hardwood sawdust".into();
    let found = found(&scenario, Purpose::Weeds);
    let on_top = way(&found, Row::OnTop);
    assert!(!on_top.whole && (on_top.weeds.unwrap().depth.cm() - 5.0).abs() < 1e-9);
    // As a path, 10 cm deep, all of it goes.
    let path = way(&found, Row::Path);
    assert!(path.whole && (path.ground.m2() - 20.0).abs() < 1e-6, "{:?}", path.ground);
}

#[test]
fn a_layer_keeps_water_and_saves_watering_where_the_place_is_kept_moist() {
    let dry = found(&layer(5.0), Purpose::Water);
    let water = way(&dry, Row::OnTop).water.unwrap();
    assert!(water.kept_mm.p50.unwrap() > 0.0 && water.watering_less_mm.p50 == Some(0.0), "{water:?}");
    let mut scenario = layer(5.0);
    scenario.weather.watered_enough = true;
    let watered = found(&scenario, Purpose::Water);
    let water = way(&watered, Row::OnTop).water.unwrap();
    assert!(water.watering_less_mm.p50.unwrap() > 10.0, "{water:?}");
    assert!(water.dry_days_fewer.p90.unwrap() < 1e-9, "a moist place has no dry days: {water:?}");
    assert!(!rows(&watered).contains(&Row::Path) && !rows(&watered).contains(&Row::WorkedIn));
}

#[test]
fn organic_matter_is_what_the_carbon_leaves_after_a_year() {
    let found = found(&site::golden_site(10.0), Purpose::Soil);
    // 10 t/ha of hardwood hold 4.8 t/ha of carbon; 1.724 of organic matter for each of carbon.
    let all = 10.0 * 0.48 * 1.724;
    let left = |row| way(&found, row).organic.t_ha.p50.unwrap();
    assert!(left(Row::OnTop) > left(Row::WorkedIn), "on top decays slower");
    assert!((0.3 * all..0.95 * all).contains(&left(Row::WorkedIn)), "{} of {all}", left(Row::WorkedIn));
    let worked_in = way(&found, Row::WorkedIn);
    // 25 cm at 1.3 g/cm3 weigh 3250 t/ha; 20 m2 are a five-hundredth of a hectare.
    let points = worked_in.organic.t_ha.p50.unwrap() / 3250.0 * 100.0;
    assert!((worked_in.organic.points.p50.unwrap() - points).abs() < 1e-9);
    assert!((worked_in.organic.kg - left(Row::WorkedIn) * 2.0).abs() < 1e-9);
    assert!(!rows(&found).contains(&Row::Path));
    // What can be done comes first.
    let late = found.ways.iter().position(|way| !way.doable).unwrap_or(usize::MAX);
    assert!(found.ways.iter().skip(late).all(|way| !way.doable));
}

#[test]
fn work_and_money_add_up_and_nothing_is_guessed() {
    let scenario = layer(5.0);
    let bare = found(&scenario, Purpose::UseUp);
    assert!(bare.ways.iter().all(|way| way.cost.money.is_none() && way.compost.is_none()));
    let wish = Wish {
        load_price: Some(30.0),
        hour_price: Some(12.0),
        compost_price_m3: Some(40.0),
        minutes_a_barrow: Some(6.0),
        ..Wish::of(Purpose::UseUp)
    };
    let priced = purpose(&scenario, &wish).unwrap();
    // 5 cm on 20 m2 are 1000 L: 12.5 barrows of 80 L, 75 minutes.
    let on_top = way(&priced, Row::OnTop);
    assert!((on_top.cost.barrows - 12.5).abs() < 1e-9 && (on_top.cost.hours - 1.25).abs() < 1e-9);
    assert!((on_top.cost.money.unwrap() - 45.0).abs() < 1e-9, "{:?}", on_top.cost);
    // A centimetre of compost under it: 200 L, 2.5 barrows, 8 of the person's money, 15 minutes.
    let over = way(&priced, Row::OverCompost);
    assert!((over.cost.money.unwrap() - 56.0).abs() < 1e-9, "{:?}", over.cost);
    let compost = on_top.compost.unwrap();
    let spreading = compost.volume.litres() / 80.0 * 6.0 / 60.0 * 12.0;
    assert!((compost.money - compost.volume.m3() * 40.0 - spreading).abs() < 1e-9);
    assert!(compost.volume.m3() > 0.05 && compost.volume.m3() < 2.0, "{:?}", compost.volume);
}

#[test]
fn where_nothing_grows_only_the_path_is_left() {
    let mut scenario = layer(5.0);
    scenario.place.kind = PlaceKind::Path;
    let found = found(&scenario, Purpose::UseUp);
    assert_eq!(rows(&found), [Row::Path]);
    assert!(found.ways[0].lost.is_none() && found.ways[0].water.is_none());
    assert!(purpose(&scenario, &Wish::of(Purpose::Soil)).unwrap().ways.is_empty());
}

#[test]
fn the_same_wish_is_answered_the_same() {
    let scenario = layer(5.0);
    assert_eq!(found(&scenario, Purpose::Water), found(&scenario, Purpose::Water));
}
