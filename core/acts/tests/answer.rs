//! The answer in the cases that change its shape.

#![allow(clippy::unwrap_used, reason = "a test stops at the first surprise")]

mod site;

use kerfbook_acts::answer::{Give, Not};
use kerfbook_acts::compare::{Comparison, Reach, compare};
use kerfbook_acts::scenario::{Amount, CropNeed, PlaceKind, Scenario};
use kerfbook_acts::told::tell;
use kerfbook_acts::way::Row;
use kerfbook_science::units::{AreaMass, Length, Mass, Share, Volume};
use kerfbook_words::{Language, Units, Words};

fn season(scenario: &Scenario) -> Comparison {
    compare(scenario, Reach::Season, 200, 1).unwrap()
}

fn way(comparison: &Comparison, row: Row) -> &kerfbook_acts::compare::WayResult {
    comparison.season.iter().find(|way| way.row == row).unwrap()
}

#[test]
fn bare_comes_first_and_path_and_ring_come_last_without_a_crop() {
    let found = season(&site::golden_site(10.0));
    assert_eq!(found.season.first().unwrap().row, Row::Bare);
    let last: Vec<Row> = found.season.iter().rev().take(2).map(|way| way.row).collect();
    assert!(last.contains(&Row::Path) && last.contains(&Row::Ring));
    for row in [Row::Path, Row::Ring] {
        let listed = way(&found, row);
        assert!(listed.crop_nitrogen.is_none() && listed.lost.is_none() && listed.hungry_day.is_none());
        assert!(listed.tied[3].1.p50.unwrap() > 0.0);
    }
}

#[test]
fn digging_a_mulch_in_is_what_not_to_do() {
    let found = season(&site::golden_site(10.0));
    assert!(found.answer.row.is_mulch());
    assert!(matches!(found.answer.not, Not::DigIn { costs_kg_ha } if costs_kg_ha > 10.0));
}

#[test]
fn urine_stays_off_where_food_is_sold_until_local_rules_are_confirmed() {
    let mut scenario = site::golden_site(10.0);
    scenario.holding.sells = true;
    scenario.holding.at_hand = vec!["urine".into()];
    assert!(!way(&season(&scenario), Row::OverUrine).allowed);
    scenario.holding.urine_confirmed = true;
    let found = season(&scenario);
    assert!(way(&found, Row::OverUrine).allowed);
    assert_eq!(found.answer.row, Row::OverUrine);
}

#[test]
fn composting_first_is_the_answer_only_where_there_are_months_enough() {
    let mut scenario = site::golden_site(10.0);
    assert!(!way(&season(&scenario), Row::CompostedFirst).doable);
    assert!(season(&scenario).answer.if_you_can_wait.is_some());
    for put in &mut scenario.put_down {
        put.date = put.date - chrono::Days::new(170);
    }
    let found = season(&scenario);
    assert_eq!(found.answer.row, Row::CompostedFirst);
    assert!(found.answer.if_you_can_wait.is_none());
}

#[test]
fn not_knowing_the_wood_widens_the_range() {
    let mut scenario = site::golden_site(10.0);
    let known = way(&season(&scenario), Row::WorkedIn).tied[1].1;
    scenario.put_down[0].material = "unknown wood".into();
    let found = season(&scenario);
    let unknown = way(&found, Row::WorkedIn).tied[1].1;
    let width = |three: kerfbook_acts::compare::Three| three.p90.unwrap() - three.p10.unwrap();
    assert!(width(unknown) > 1.3 * width(known), "{unknown:?} against {known:?}");
}

#[test]
fn a_rich_soil_is_told_to_be_catching_nitrate() {
    let mut scenario = site::golden_site(10.0);
    scenario.soil.mineral_nitrogen = Some(AreaMass::from_kg_ha(250.0));
    scenario.crops[0].need = CropNeed::Annual(AreaMass::from_kg_ha(60.0));
    let found = season(&scenario);
    assert!(matches!(found.answer.give, Give::NothingCatchingNitrate { saved_kg_ha } if saved_kg_ha >= 10.0));
}

#[test]
fn need_beyond_the_limit_gives_the_most_and_never_more() {
    let found = season(&site::golden_site(40.0));
    let need = way(&found, Row::WorkedIn).feed.unwrap();
    assert!(need.beyond_limit);
    assert!(need.crop + need.wood <= 120.0 + 1e-9);
}

#[test]
fn a_deep_load_of_dust_is_cut_to_what_the_place_takes() {
    let mut scenario = site::golden_site(10.0);
    scenario.put_down[0].amount = Amount::Depth(Length::from_cm(12.0));
    let found = season(&scenario);
    assert!(found.answer.amount.less_than_load);
    assert!(found.answer.amount.depth_mm <= 50.0 + 1e-9);
}

#[test]
fn trees_are_told_by_the_tree_and_have_no_hungry_day() {
    let mut scenario = site::golden_site(10.0);
    scenario.place.kind = PlaceKind::Rings;
    scenario.put_down[0].amount = Amount::Depth(Length::from_cm(5.0));
    scenario.crops[0].need = CropNeed::Tree(Mass::from_g(100.0));
    scenario.crops[0].plants = Some(5);
    let found = season(&scenario);
    assert!(found.answer.cost.lost_g_tree.is_some());
    assert!(found.season.iter().all(|way| way.hungry_day.is_none()));
}

#[test]
fn containers_are_told_by_the_litre() {
    let mut scenario = site::golden_site(10.0);
    scenario.place.kind = PlaceKind::Container;
    scenario.place.container = Some(Volume::from_litres(10.0));
    scenario.place.area = kerfbook_science::units::Area::from_m2(0.04);
    let found = season(&scenario);
    assert!(found.answer.cost.lost_mg_litre.is_some());
    assert!(found.season.iter().all(|way| way.row.ranked()));
}

#[test]
fn a_path_is_told_without_a_crop() {
    let mut scenario = site::golden_site(10.0);
    scenario.place.kind = PlaceKind::Path;
    scenario.crops.clear();
    let found = season(&scenario);
    assert_eq!(found.answer.row, Row::Path);
    assert!(found.answer.cost.lost_kg_ha.is_none());
    let told = tell(&found, &scenario, &Words::new(Language::English, Units::Metric));
    assert!(told.cost.starts_with("Nothing grows here"), "{}", told.cost);
}

#[test]
fn under_cover_watered_and_fed_into_the_soil_a_mulch_never_costs_more_than_digging_in() {
    let mut scenario = site::golden_site(10.0);
    scenario.weather.cover = true;
    scenario.weather.watered_enough = true;
    for dry in [2.0, 10.0, 30.0] {
        scenario.put_down[0].amount = Amount::DryPerArea(AreaMass::from_t_ha(dry));
        let found = season(&scenario);
        let median = |row| way(&found, row).median_run_kg_ha.unwrap();
        assert!(median(Row::OnTop) >= median(Row::WorkedIn) - 0.2);
    }
}

#[test]
fn a_legume_that_fixes_all_it_needs_is_fed_nothing() {
    let mut scenario = site::golden_site(2.0);
    scenario.crops[0].fixed = Share::from_fraction(1.0);
    assert!(!matches!(season(&scenario).answer.give, Give::Feed { .. }));
}

#[test]
fn the_answer_is_said_in_both_languages_and_both_systems_of_units() {
    let scenario = site::golden_site(10.0);
    let found = season(&scenario);
    for language in Language::ALL {
        for units in [Units::Metric, Units::Us] {
            let words = Words::new(language, units);
            let told = tell(&found, &scenario, &words);
            insta::assert_snapshot!(format!("answer_{}_{units:?}", language.code()), told.paragraph(&words));
        }
    }
}
