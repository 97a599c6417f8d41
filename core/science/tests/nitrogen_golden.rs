//! The 24 cases computed by the `NumPy` version of the model: every result key, median run and ensemble.

#![allow(
    clippy::unwrap_used,
    clippy::print_stdout,
    reason = "a test says what it found and stops where it fails"
)]

use std::path::Path;

use kerfbook_science::nitrogen::{Input, report};
use serde_json::Value;

/// Largest relative difference, and the key where it is.
struct Worst {
    off: f64,
    key: String,
    compared: usize,
}

/// Compares everything that was expected, and that nothing else was found; days must be equal.
fn compare(expected: &Value, found: &Value, key: &str, worst: &mut Worst, wrong: &mut Vec<String>) {
    match (expected, found) {
        (Value::Object(expected), Value::Object(found)) => {
            let mut keys: Vec<&String> = found.keys().filter(|key| !expected.contains_key(*key)).collect();
            keys.sort();
            if !keys.is_empty() {
                wrong.push(format!("{key}: has {keys:?} too"));
            }
            for (name, value) in expected {
                compare(
                    value,
                    found.get(name).unwrap_or(&Value::Null),
                    &format!("{key}.{name}"),
                    worst,
                    wrong,
                );
            }
        }
        (Value::Array(expected), Value::Array(found)) => {
            if expected.len() != found.len() {
                wrong.push(format!("{key}: {} values, expected {}", found.len(), expected.len()));
            }
            for (i, (expected, found)) in expected.iter().zip(found).enumerate() {
                compare(expected, found, &format!("{key}[{i}]"), worst, wrong);
            }
        }
        (Value::Number(expected), Value::Number(found)) => {
            let (expected, found) = (expected.as_f64().unwrap(), found.as_f64().unwrap());
            let off = (expected - found).abs() / expected.abs().max(1.0);
            worst.compared += 1;
            if off > worst.off {
                (worst.off, worst.key) = (off, key.to_owned());
            }
            // Days are written with 13 digits.
            let is_day =
                key.contains("day") && !key.contains("days[") || key.rsplit('.').next() == Some("day");
            if is_day && off > 1e-12 {
                wrong.push(format!("{key}: {found}, expected {expected}"));
            }
        }
        (expected, found) if expected == found => worst.compared += 1,
        (expected, found) => wrong.push(format!("{key}: {found}, expected {expected}")),
    }
}

#[test]
fn golden_cases_are_met() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../fixtures/science/nitrogen/golden");
    let mut cases = 0;
    let mut wrong = Vec::new();
    for entry in std::fs::read_dir(folder).unwrap() {
        let text = std::fs::read_to_string(entry.unwrap().path()).unwrap();
        let case: Value = serde_json::from_str(&text).unwrap();
        let name = case["case"].as_str().unwrap();
        let input: Input = serde_json::from_value(case["input"].clone()).unwrap();
        let found = serde_json::to_value(report(&input).unwrap()).unwrap();
        for (part, tolerance) in [("median", 1e-9), ("ensemble", 1e-7), ("updated", 1e-7)] {
            let stated = case["tolerance"].get(part).and_then(Value::as_f64);
            assert!(stated.is_none_or(|stated| stated.to_bits() == f64::to_bits(tolerance)), "{name}");
            let mut worst = Worst { off: 0.0, key: String::new(), compared: 0 };
            compare(&case["expected"][part], &found[part], part, &mut worst, &mut wrong);
            println!("{name:38} {part:8} {:4} values, worst {:.1e} {}", worst.compared, worst.off, worst.key);
            if worst.off > tolerance {
                wrong.push(format!("{name}: {} is off by {:.1e}", worst.key, worst.off));
            }
        }
        for key in
            ["engine", "parameters", "seed", "draws", "quick_nitrogen_kg_ha", "stages", "balance_closed"]
        {
            let mut worst = Worst { off: 0.0, key: String::new(), compared: 0 };
            compare(&case["expected"][key], &found[key], key, &mut worst, &mut wrong);
            if worst.off > 1e-9 {
                wrong.push(format!("{name}: {} is off by {:.1e}", worst.key, worst.off));
            }
        }
        for key in ["residual_carbon", "residual_nitrogen"] {
            assert!(found[key].as_f64().unwrap() < 1e-11, "{name}: {key}");
        }
        cases += 1;
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    assert_eq!(cases, 24);
}
