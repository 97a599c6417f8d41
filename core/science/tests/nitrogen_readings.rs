//! Readings, and how ill a place is known: what is drawn wider, what runs foretell, and what their weights are worth.

#![allow(clippy::unwrap_used, reason = "a test stops where it fails")]

use std::path::Path;

use kerfbook_science::nitrogen::parameter::{BatchParameter, Global};
use kerfbook_science::nitrogen::{
    DrawnName, Input, Reading, Runs, Sample, Series, log_weights, quantile, resample, simulate,
};

fn golden_input(case: &str) -> Input {
    let file = format!("../../fixtures/science/nitrogen/golden/{case}.json");
    let text = std::fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join(file)).unwrap();
    let mut case: serde_json::Value = serde_json::from_str(&text).unwrap();
    serde_json::from_value(case["input"].take()).unwrap()
}

fn drawn(runs: &Runs, name: DrawnName) -> Vec<f64> {
    runs.parameters().iter().find(|drawn| drawn.name == name).unwrap().values.clone()
}

fn log_spread(values: &[f64]) -> f64 {
    let at = |p: f64| libm::log(quantile(values, p).unwrap());
    (at(0.9) - at(0.1)) / (2.0 * 1.281_551_565_544_600_5)
}

#[test]
fn what_is_ill_known_is_drawn_wider_about_the_same_middle() {
    let mut input = golden_input("hardwood-dust-worked-in");
    let sample = Sample::stratified(3, 2_000);
    let narrow = simulate(&input, &sample, &[]).unwrap();
    assert!(
        drawn(&narrow, DrawnName::Global(Global::OrganicMatter))
            .iter()
            .all(|x| x.to_bits() == 1.0_f64.to_bits())
    );
    input.spreads = [("n0", 0.6), ("organic", 0.4), ("capacity", 0.2), ("demand", 0.3)]
        .map(|(name, spread)| (name.to_owned(), spread))
        .into();
    input.put_down[0].fast_rate_more_sd = Some(0.5);
    let wide = simulate(&input, &sample, &[]).unwrap();
    for (global, spread) in [
        (Global::Start, 0.6),
        (Global::OrganicMatter, 0.4),
        (Global::FieldCapacity, 0.2),
        (Global::Demand, 0.3),
        (Global::Rain, 0.15),
    ] {
        let values = drawn(&wide, DrawnName::Global(global));
        assert!((log_spread(&values) - spread).abs() < 0.01, "{global:?}");
        assert!((quantile(&values, 0.5).unwrap() - 1.0).abs() < 0.01, "{global:?}");
    }
    let rate = drawn(&wide, DrawnName::Layer { layer: 0, parameter: BatchParameter::FastRate });
    assert!((log_spread(&rate) - (0.35_f64 * 0.35 + 0.5 * 0.5).sqrt()).abs() < 0.02);
    // Organic matter is the soil's supply, and more of it nothing else.
    let supply = |runs: &Runs| log_spread(runs.last().end(Series::Supply));
    assert!(supply(&wide) > 1.5 * supply(&narrow));
}

#[test]
fn only_what_has_a_standard_deviation_can_be_given_one() {
    let mut input = golden_input("hardwood-dust-worked-in");
    input.spreads.insert("umax".to_owned(), 0.3);
    assert_eq!(input.check().unwrap_err().key, "spreads.umax");
    input.spreads = [("soil".to_owned(), 0.3)].into();
    assert_eq!(input.check().unwrap_err().key, "spreads.soil");
    input.spreads = [("n0".to_owned(), -0.1)].into();
    assert_eq!(input.check().unwrap_err().key, "spreads.n0");
}

#[test]
fn chosen_runs_are_the_same_runs() {
    let input = golden_input("hardwood-dust-worked-in");
    for sample in [Sample::new(4, 50), Sample::stratified(4, 50)] {
        let all = simulate(&input, &sample, &[28]).unwrap();
        let some = simulate(&input, &sample.chosen(&[7, 3, 3, 49, 50]), &[28]).unwrap();
        assert_eq!(some.last().runs(), 4, "run 50 is not there");
        for (place, run) in [7, 3, 3, 49].into_iter().enumerate() {
            let tied = |runs: &Runs, run: usize| runs.last().on(Series::Tied, 28).unwrap()[run].to_bits();
            assert_eq!(tied(&some, place), tied(&all, run));
        }
        let again = simulate(&input, &sample.chosen(&[7, 3]).chosen(&[1]), &[28]).unwrap();
        assert_eq!(again.last().end(Series::Tied), &all.last().end(Series::Tied)[3..4]);
    }
}

#[test]
fn what_runs_foretell_is_what_they_hold() {
    let mut input = golden_input("hardwood-dust-worked-in");
    input.readings = vec![
        Reading::SoilNitrate { day: 28, kg_ha: 20.0 },
        Reading::DrawTest {
            layer: 0,
            temperature_c: 22.0,
            dose_mg_litre: 150.0,
            dry_g_per_litre: 30.0,
            index: 0.4,
        },
    ];
    let runs = simulate(&input, &Sample::new(2, 40), &[28]).unwrap();
    assert_eq!(runs.foretold()[0], runs.last().on(Series::Mineral, 28).unwrap());
    assert!(runs.foretold()[1].iter().all(|index| (0.0..=1.0).contains(index)));
    let weights = log_weights(&input.readings, runs.foretold()).unwrap();
    assert_eq!(runs.updated().unwrap(), resample(&weights, 40));
    assert_eq!(resample(&weights, 100).runs.len(), 100);
}

#[test]
fn a_reading_made_of_the_truth_is_likeliest_there() {
    let soil = Reading::SoilNitrate { day: 0, kg_ha: 0.0 };
    let leaf = Reading::Leaf { day: 0, crop: 0, nni: 0.0 };
    for (reading, truth) in [(soil, 35.0), (leaf, 0.7)] {
        let made = reading.made(truth, 0.0);
        assert!((made.figure() - truth).abs() < 1e-12);
        assert!(made.log_likelihood(truth) > made.log_likelihood(truth * 1.2));
        // One standard deviation off.
        assert!((reading.made(truth, 1.0).log_likelihood(truth) + 0.5).abs() < 1e-9);
    }
}
