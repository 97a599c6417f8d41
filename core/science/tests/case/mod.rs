//! Cases under `fixtures/science/geometry/`, by the beginning of their names.

use std::fs;
use std::path::{Path, PathBuf};

use serde_json::Value;

/// One published or recomputed example.
pub(crate) struct Case {
    pub(crate) name: String,
    pub(crate) input: Value,
    expected: Value,
    tolerance: Value,
}

/// All cases of a kind, in order of their names; there must be so many.
pub(crate) fn cases(kind: &str, count: usize) -> Vec<Case> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../fixtures/science/geometry");
    let mut files: Vec<PathBuf> = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    files.retain(|path| path.file_stem().is_some_and(|name| name.to_string_lossy().starts_with(kind)));
    files.sort();
    assert_eq!(files.len(), count, "cases of {kind}");
    files.iter().map(|path| Case::read(path)).collect()
}

impl Case {
    fn read(path: &Path) -> Self {
        let mut case: Value = serde_json::from_str(&fs::read_to_string(path).unwrap()).unwrap();
        let name = path.file_stem().unwrap().to_string_lossy().into_owned();
        for key in ["source", "standing"] {
            assert!(case[key].as_str().is_some_and(|text| !text.is_empty()), "{name}: no {key}");
        }
        let mut take = |key: &str| case[key].take();
        Self { name, input: take("input"), expected: take("expected"), tolerance: take("tolerance") }
    }

    #[allow(dead_code, reason = "not every test that shares this reads numbers")]
    pub(crate) fn number(&self, key: &str) -> f64 {
        self.input[key].as_f64().unwrap_or_else(|| panic!("{}: `{key}` is no number", self.name))
    }

    #[allow(dead_code, reason = "not every test that shares this reads lists or text")]
    pub(crate) fn numbers(&self, key: &str) -> Vec<f64> {
        let list = self.input[key].as_array().unwrap_or_else(|| panic!("{}: no list `{key}`", self.name));
        list.iter().map(|value| value.as_f64().unwrap()).collect()
    }

    #[allow(dead_code, reason = "not every test that shares this reads lists or text")]
    pub(crate) fn text(&self, key: &str) -> &str {
        self.input[key].as_str().unwrap_or_else(|| panic!("{}: `{key}` is no text", self.name))
    }

    /// Every expected value must be among the results, within the stated tolerance.
    pub(crate) fn check(&self, results: &[(&str, f64)]) {
        let expected = self.expected.as_object().unwrap();
        assert!(!expected.is_empty(), "{}: nothing expected", self.name);
        for (key, wanted) in expected {
            let wanted = wanted.as_f64().unwrap();
            let found = results.iter().find(|(name, _)| name == key);
            let (_, value) = found.unwrap_or_else(|| panic!("{}: nothing computes `{key}`", self.name));
            let absolute = self.tolerance["absolute"].as_f64();
            let relative = self.tolerance["relative"].as_f64().map(|share| share * wanted.abs());
            let tolerance = absolute.or(relative).expect("a tolerance");
            assert!(
                (value - wanted).abs() <= tolerance,
                "{}: {key} is {value}, expected {wanted}",
                self.name
            );
        }
    }
}
