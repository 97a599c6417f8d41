//! The order of the ways on the temperate site, and the table at equal nitrogen.

#![allow(clippy::unwrap_used, reason = "a test stops at the first surprise")]

mod site;

use kerfbook_acts::compare::{Reach, WayResult, at_equal_nitrogen, compare};
use kerfbook_acts::treatment::EqualWay;
use kerfbook_acts::way::Row;

/// Growers report this order; common practice, no source. The figures are the model's own, by its reference
/// implementation.
const ORDER: [(Row, f64); 5] = [
    (Row::CompostedFirst, 89.0),
    (Row::OverUrine, 73.0),
    (Row::OverCompost, 51.0),
    (Row::OnTop, 47.0),
    (Row::WorkedIn, 8.0),
];

fn ranked(table: &[WayResult]) -> Vec<Row> {
    table.iter().map(|way| way.row).filter(|row| *row != Row::Bare && row.ranked()).collect()
}

#[test]
fn ways_come_in_the_order_that_growers_report_this_season_and_over_both() {
    let found = compare(&site::golden_site(10.0), Reach::ThreeYears, 200, 1).unwrap();
    let wanted: Vec<Row> = ORDER.iter().map(|(row, _)| *row).collect();
    assert_eq!(found.season[0].row, Row::Bare);
    assert_eq!(ranked(&found.season), wanted);
    assert_eq!(ranked(&found.both), wanted);
    for (row, figure) in ORDER.iter().chain(&[(Row::Bare, 64.0)]) {
        let median = found.season.iter().find(|way| way.row == *row).unwrap().median_run_kg_ha.unwrap();
        assert!((median - figure).abs() < 0.5, "{row:?}: {median} is not {figure}");
    }
}

#[test]
fn equal_nitrogen_gives_the_published_table_of_the_model() {
    use EqualWay::{
        Bare, CompostedFirst, OnTopNitrogenMixed, OnTopNitrogenSprinkled, OnTopOverCompost,
        OnTopOverNitrogen, WorkedIn,
    };
    let table = [
        (Bare, [102.0, 120.0, 102.0]),
        (WorkedIn, [12.0, 29.0, 6.0]),
        (OnTopNitrogenSprinkled, [77.0, 120.0, 70.0]),
        (OnTopOverNitrogen, [77.0, 120.0, 76.0]),
        (OnTopNitrogenMixed, [83.0, 120.0, 82.0]),
        (OnTopOverCompost, [45.0, 46.0, 44.0]),
        (CompostedFirst, [50.0, 64.0, 23.0]),
    ];
    for (column, (wood, nitrogen)) in [(15.0, 60.0), (15.0, 150.0), (37.5, 60.0)].into_iter().enumerate() {
        let found = at_equal_nitrogen(&site::golden_site(wood), nitrogen, 200, 1).unwrap();
        for (way, figures) in table {
            let got = found.iter().find(|row| row.way == way).unwrap().median_run_kg_ha;
            assert!((got - figures[column]).abs() <= 0.5, "{way:?} at {wood} t/ha, {nitrogen} kg: {got}");
        }
    }
}

#[test]
fn an_answer_alone_is_the_answer_of_the_long_tables() {
    let mut cleared = site::golden_site(10.0);
    cleared.crops.clear();
    for scenario in [site::golden_site(10.0), site::golden_site(60.0), cleared] {
        let whole = compare(&scenario, Reach::ThreeYears, 200, 1).unwrap();
        let alone = compare(&scenario, Reach::Answer, 200, 1).unwrap();
        assert_eq!(alone.answer, whole.answer);
        let figures = |way: &WayResult| (way.row, way.lost, way.crop_nitrogen, way.hungry_day, way.feed);
        let ranked = |way: &&WayResult| way.row.ranked();
        let of = |table: &[WayResult]| table.iter().filter(ranked).map(figures).collect::<Vec<_>>();
        assert_eq!(of(&alone.season), of(&whole.season));
    }
}
