//! The same bits on every target and at every level of optimisation: figures of the golden cases as hexadecimal
//! bits. They change with the engine's arithmetic only; what changes them on another machine is a fault.

#![allow(clippy::unwrap_used, reason = "a test stops where it fails")]

use std::collections::BTreeMap;
use std::path::Path;

use kerfbook_science::nitrogen::{Input, Runs, Sample, Series, median, quantile, simulate};

fn bits(runs: &Runs, days: u32, p: f64) -> Vec<String> {
    let stage = runs.last();
    let mut found = Vec::new();
    for day in [28.min(days), days] {
        for series in [Series::Tied, Series::Mineral, Series::Uptake, Series::Leached, Series::Depth] {
            let value = quantile(stage.on(series, day).unwrap(), p).unwrap();
            found.push(format!("{:016x}", value.to_bits()));
        }
    }
    found
}

#[test]
fn figures_have_the_bits_they_had() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../fixtures/science/nitrogen");
    let mut found: BTreeMap<String, Vec<String>> = BTreeMap::new();
    for entry in std::fs::read_dir(folder.join("golden")).unwrap() {
        let text = std::fs::read_to_string(entry.unwrap().path()).unwrap();
        let mut case: serde_json::Value = serde_json::from_str(&text).unwrap();
        let name = case["case"].as_str().unwrap().to_owned();
        let input: Input = serde_json::from_value(case["input"].take()).unwrap();
        let one = median(&input, &[28]).unwrap();
        let all = simulate(&input, &Sample::new(1, 40), &[28]).unwrap();
        found.insert(format!("{name}, median run"), bits(&one, input.days, 0.5));
        found.insert(format!("{name}, P90 of 40 runs"), bits(&all, input.days, 0.9));
    }
    let text = std::fs::read_to_string(folder.join("bits.json")).unwrap_or_default();
    let expected: BTreeMap<String, Vec<String>> = serde_json::from_str(&text).unwrap_or_default();
    assert!(found == expected, "{}", serde_json::to_string_pretty(&found).unwrap());
    assert_eq!(found.len(), 48);
}
