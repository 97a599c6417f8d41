//! What an entry may be made of: integers, text, bytes, lists and nothing. No floats, maps or tags.

use serde::Serialize;
use serde::ser::SerializeSeq;

/// One item of an entry.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum Value {
    /// Not known or not given.
    Null,
    /// A whole number.
    Int(i64),
    /// UTF-8 text.
    Text(String),
    /// Bytes.
    Bytes(Vec<u8>),
    /// Items by position.
    List(Vec<Value>),
}

/// Bytes as lowercase hexadecimal digits.
pub fn hex(bytes: &[u8]) -> String {
    const DIGITS: [char; 16] =
        ['0', '1', '2', '3', '4', '5', '6', '7', '8', '9', 'a', 'b', 'c', 'd', 'e', 'f'];
    bytes
        .iter()
        .flat_map(|byte| [byte >> 4, byte & 15])
        .filter_map(|nibble| DIGITS.get(usize::from(nibble)))
        .collect()
}

/// The bytes that hexadecimal digits stand for.
pub fn from_hex(text: &str) -> Option<Vec<u8>> {
    let digits: Option<Vec<u8>> =
        text.chars().map(|c| c.to_digit(16).and_then(|digit| u8::try_from(digit).ok())).collect();
    let digits = digits?;
    let (pairs, rest) = digits.as_chunks::<2>();
    rest.is_empty().then(|| pairs.iter().map(|[high, low]| high << 4 | low).collect())
}

impl Serialize for Value {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        match self {
            Self::Null => serializer.serialize_none(),
            Self::Int(number) => serializer.serialize_i64(*number),
            Self::Text(text) => serializer.serialize_str(text),
            Self::Bytes(bytes) => serializer.serialize_str(&hex(bytes)),
            Self::List(items) => {
                let mut list = serializer.serialize_seq(Some(items.len()))?;
                for item in items {
                    list.serialize_element(item)?;
                }
                list.end()
            }
        }
    }
}
