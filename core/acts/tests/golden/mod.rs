//! The model's golden cases, for inputs that were made from a scenario or a book.

use kerfbook_science::nitrogen::{Input, report};
use serde_json::Value;

/// A golden case.
pub(crate) fn case(name: &str) -> Value {
    let path = format!("{}/../../fixtures/science/nitrogen/golden/{name}.json", env!("CARGO_MANIFEST_DIR"));
    serde_json::from_str(&std::fs::read_to_string(path).unwrap()).unwrap()
}

/// Names that people give differ; all else is compared.
const NAMES: [&str; 1] = ["name"];

fn differences(expected: &Value, found: &Value, key: &str, tolerance: f64, wrong: &mut Vec<String>) -> usize {
    match (expected, found) {
        (Value::Object(expected), Value::Object(found)) => expected
            .iter()
            .filter(|(name, _)| !NAMES.contains(&name.as_str()))
            .map(|(name, value)| {
                let other = found.get(name).unwrap_or(&Value::Null);
                differences(value, other, &format!("{key}.{name}"), tolerance, wrong)
            })
            .sum(),
        (Value::Array(expected), Value::Array(found)) => {
            if expected.len() != found.len() {
                wrong.push(format!("{key}: {} values, expected {}", found.len(), expected.len()));
            }
            let pairs = expected.iter().zip(found).enumerate();
            pairs.map(|(i, (a, b))| differences(a, b, &format!("{key}[{i}]"), tolerance, wrong)).sum()
        }
        (Value::Number(expected), Value::Number(found)) => {
            let (expected, found) = (expected.as_f64().unwrap(), found.as_f64().unwrap());
            if (expected - found).abs() > tolerance * expected.abs().max(1.0) {
                wrong.push(format!("{key}: {found}, expected {expected}"));
            }
            1
        }
        (expected, found) => {
            if expected != found {
                wrong.push(format!("{key}: {found}, expected {expected}"));
            }
            1
        }
    }
}

/// Holds an input to the figures of a golden case: 1e-9 in the median run, 1e-7 in the ensemble and after readings.
pub(crate) fn assert_golden(name: &str, input: &Input) {
    let case = case(name);
    let input = Input { seed: 1, draws: 200, ..input.clone() };
    let found = serde_json::to_value(report(&input).unwrap()).unwrap();
    let mut wrong = Vec::new();
    let mut compared = 0;
    for (part, tolerance) in [("median", 1e-9), ("ensemble", 1e-7), ("updated", 1e-7)] {
        let expected = &case["expected"][part];
        compared += differences(expected, &found[part], part, tolerance, &mut wrong);
    }
    assert!(compared > 100, "{name}: only {compared} values");
    assert!(wrong.is_empty(), "{name}:\n{}", wrong.join("\n"));
}
