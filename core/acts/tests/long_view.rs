//! Carbon and humus of the same again and again.
#![allow(missing_docs, clippy::unwrap_used, reason = "a test may stop where it stands")]

mod site;

use chrono::NaiveDate;
use kerfbook_acts::error::ActError;
use kerfbook_acts::long_view::{LongView, Practice, long_view};
use kerfbook_acts::scenario::{Amount, PlaceKind, PutDown, Scenario, Way};
use kerfbook_science::soil_carbon::humus;
use kerfbook_science::soil_carbon::rothc::{self, Input, Pools};
use kerfbook_science::units::{AreaMass, Share};

fn twenty(scenario: &Scenario) -> LongView {
    long_view(scenario, Practice::default()).unwrap()
}

fn of(material: &str, dry_t_ha: f64) -> Scenario {
    let mut scenario = site::golden_site(dry_t_ha);
    scenario.soil.clay = Some(Share::from_percent(20.0));
    scenario.put_down = vec![put(material, dry_t_ha, day(2026, 4, 15))];
    scenario
}

fn put(material: &str, dry_t_ha: f64, date: NaiveDate) -> PutDown {
    PutDown {
        material: material.to_owned(),
        amount: Amount::DryPerArea(AreaMass::from_t_ha(dry_t_ha)),
        date,
        way: None,
        ..site::golden_site(dry_t_ha).put_down.remove(0)
    }
}

fn day(year: i32, month: u32, day: u32) -> NaiveDate {
    NaiveDate::from_ymd_opt(year, month, day).unwrap()
}

fn last(view: &LongView) -> f64 {
    view.last().unwrap().carbon.typical
}

fn close(a: f64, b: f64) {
    assert!((a - b).abs() <= 1e-9 * b.abs().max(1.0), "{a} is not {b}");
}

#[test]
fn twice_as_much_leaves_twice_as_much() {
    let (one, two) = (twenty(&of("hardwood sawdust", 10.0)), twenty(&of("hardwood sawdust", 20.0)));
    for (one, two) in one.years.iter().zip(&two.years) {
        close(two.carbon.typical, 2.0 * one.carbon.typical);
        close(two.humus.high, 2.0 * one.humus.high);
    }
}

#[test]
fn two_loads_of_a_year_are_the_sum_of_each() {
    let mut both = of("hardwood sawdust", 10.0);
    both.put_down.push(put("hardwood sawdust", 10.0, day(2026, 4, 20)));
    let both = twenty(&both);
    assert_eq!(both.loads, 2);
    close(last(&both), 2.0 * last(&twenty(&of("hardwood sawdust", 10.0))));
}

#[test]
fn what_came_more_than_a_year_before_the_last_is_not_put_down_again() {
    let mut scenario = of("hardwood sawdust", 10.0);
    scenario.put_down.insert(0, put("hardwood sawdust", 90.0, day(2024, 4, 15)));
    let view = twenty(&scenario);
    assert_eq!((view.loads, view.of.0), (1, day(2026, 4, 15)));
}

#[test]
fn the_band_holds_its_middle_and_levels_off() {
    for material in ["hardwood sawdust", "softwood bark", "compost", "cattle manure", "wheat straw"] {
        let view = twenty(&of(material, 10.0));
        let mut gain = f64::INFINITY;
        let mut before = 0.0;
        for year in &view.years {
            let band = year.carbon;
            assert!(band.low < band.typical && band.typical < band.high, "{material}: {band:?}");
            assert!(band.typical - before < gain, "{material}: year {} gains more", year.year);
            (gain, before) = (band.typical - before, band.typical);
        }
        assert!(view.in_first_half().unwrap().fraction() > 0.5, "{material}");
    }
}

#[test]
fn stopped_half_way_it_is_lost_again() {
    let view = twenty(&of("hardwood sawdust", 10.0));
    let (half, end) = (view.years.get(9).unwrap(), view.last().unwrap());
    close(half.stopped, half.carbon.typical);
    assert!(end.stopped < half.stopped && end.stopped > 0.0);
    close(view.lost_when_stopped().unwrap().fraction(), 1.0 - end.stopped / half.stopped);
}

#[test]
fn every_third_year_leaves_about_a_third() {
    let scenario = of("hardwood sawdust", 10.0);
    let often = long_view(&scenario, Practice { years: 30, every: 1 }).unwrap();
    let rare = long_view(&scenario, Practice { years: 30, every: 3 }).unwrap();
    let part = last(&rare) / last(&often);
    assert!((0.25..0.40).contains(&part), "{part}");
    close(rare.last().unwrap().humus.typical, often.last().unwrap().humus.typical / 3.0);
}

/// A month that is wet, bare and at 9.3 °C has a modifier of one: nothing is left to this code but the sums.
#[test]
fn under_even_weather_it_is_the_model_itself() {
    let mut scenario = of("hardwood sawdust", 10.0);
    scenario.crops.clear();
    scenario.weather.watered_enough = true;
    scenario.weather.month_mean_c = [9.25; 12];
    let modifier = kerfbook_science::published::rothc::temperature(9.25);
    let clay = scenario.soil.clay.unwrap().percent();
    let mut inputs = [Input::default(); 12];
    inputs[0] = Input { plant: 10.0 * 0.48, decomposable_resistant: 0.25, manure: 0.0 };
    let expected = rothc::years(Pools::default(), &[modifier; 12], clay, &inputs, 20);
    let view = twenty(&scenario);
    for (year, expected) in view.years.iter().zip(&expected) {
        close(year.carbon.typical, expected.total());
        let k2 = humus::YEARLY_LOSS.value;
        close(year.humus.typical, humus::henin_dupuis(0.0, 10.0, 0.35, k2, f64::from(year.year)));
    }
}

#[test]
fn a_heap_takes_its_share_first() {
    let raw = of("hardwood sawdust", 10.0);
    let mut heaped = raw.clone();
    heaped.put_down.iter_mut().for_each(|put| put.way = Some(Way::CompostedFirst));
    close(last(&twenty(&heaped)), 0.5 * last(&twenty(&raw)));
}

#[test]
fn warmth_takes_and_dryness_keeps() {
    let usual = of("hardwood sawdust", 10.0);
    let mut warm = usual.clone();
    warm.weather.month_mean_c.iter_mut().for_each(|mean| *mean += 5.0);
    assert!(last(&twenty(&warm)) < last(&twenty(&usual)));
    let mut dry = usual.clone();
    dry.weather.month_rain_mm = [0.0; 12];
    assert!(last(&twenty(&dry)) > last(&twenty(&usual)));
}

#[test]
fn what_cannot_be_told_is_refused() {
    let mut container = of("hardwood sawdust", 10.0);
    container.place.kind = PlaceKind::Container;
    assert!(matches!(long_view(&container, Practice::default()), Err(ActError::NotOverYears)));
    let mut nothing = container;
    nothing.place.kind = PlaceKind::Bed;
    nothing.put_down.clear();
    assert!(matches!(long_view(&nothing, Practice::default()), Err(ActError::NoLoad)));
    let bed = of("hardwood sawdust", 10.0);
    for practice in
        [Practice { years: 0, every: 1 }, Practice { years: 101, every: 1 }, Practice { years: 9, every: 0 }]
    {
        assert!(matches!(long_view(&bed, practice), Err(ActError::Figure { .. })), "{practice:?}");
    }
}
