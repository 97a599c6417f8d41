//! What was taken because nobody said it: every answer lists these beside itself.

use serde::Serialize;

/// One thing assumed.
#[derive(Debug, Clone, PartialEq)]
pub struct Assumed {
    /// The scenario's key that would have said it, or the name of the default.
    pub key: &'static str,
    /// The value taken.
    pub value: Value,
}

/// A value taken.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(untagged)]
pub enum Value {
    /// In the unit of the key.
    Number(f64),
    /// A share of one, told in per cent.
    #[serde(serialize_with = "percent")]
    Percent(f64),
    /// A word.
    Text(String),
}

impl Assumed {
    /// Notes a value.
    pub fn new(key: &'static str, value: Value) -> Self {
        Self { key, value }
    }

    /// Notes a number.
    pub fn number(key: &'static str, value: f64) -> Self {
        Self::new(key, Value::Number(value))
    }

    /// Notes a word.
    pub fn text(key: &'static str, value: impl Into<String>) -> Self {
        Self::new(key, Value::Text(value.into()))
    }
}

#[expect(clippy::trivially_copy_pass_by_ref, reason = "the signature that serde asks for")]
fn percent<S: serde::Serializer>(share: &f64, serializer: S) -> Result<S::Ok, S::Error> {
    serializer.serialize_f64((share * 1e4).round() / 1e2)
}
