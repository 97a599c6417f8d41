//! The nitrogen model by its own input: what holds every language to the same results.

use kerfbook_science::nitrogen::{self, Input};

use crate::error::CoreError;

/// The model's results for its own input, both as JSON: the same bits in every language.
///
/// # Errors
/// An input that does not read or that the model refuses.
#[uniffi::export]
pub fn model_results(input: String) -> Result<String, CoreError> {
    let bad = |field: &str, reason: String| CoreError::BadInput { field: field.to_owned(), reason };
    let input: Input = serde_json::from_str(&input).map_err(|error| bad("input", error.to_string()))?;
    let report = nitrogen::report(&input).map_err(|error| bad(&error.key, error.problem))?;
    serde_json::to_string(&report).map_err(|error| CoreError::Other { reason: error.to_string() })
}
