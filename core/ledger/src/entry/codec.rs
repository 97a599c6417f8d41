//! Values to bytes and back: the deterministic encoding of RFC 8949 4.2.1, restricted to five types.
//!
//! Decoding is followed by encoding; where the bytes differ they are refused, so that every value has exactly
//! one encoding and every hash one meaning.

use minicbor::Decoder;
use minicbor::data::Type;

use super::value::Value;

/// Deepest nesting of lists.
const MAX_DEPTH: usize = 8;

/// Why bytes do not decode.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum CodecError {
    /// The bytes end early or are not CBOR.
    #[error("broken off or malformed")]
    Malformed,
    /// A float, map, tag, flag or indefinite length.
    #[error("a type that entries do not use")]
    Type,
    /// A whole number beyond 64 signed bits.
    #[error("a number beyond 64 bits")]
    Number,
    /// Lists within lists too deep.
    #[error("nested too deep")]
    Depth,
    /// Bytes after the value.
    #[error("bytes after the end")]
    Trailing,
    /// A longer encoding than needed.
    #[error("not the shortest encoding")]
    NotShortest,
}

/// The one encoding of a value.
pub fn encode(value: &Value) -> Vec<u8> {
    let mut out = Vec::with_capacity(256);
    put(&mut out, value);
    out
}

/// Reads a value; refuses every encoding but the one that [`encode`] gives.
pub fn decode(bytes: &[u8]) -> Result<Value, CodecError> {
    let (value, used) = decode_prefix(bytes)?;
    if used == bytes.len() { Ok(value) } else { Err(CodecError::Trailing) }
}

/// Reads a value from the start of the bytes and says how many it took.
pub(crate) fn decode_prefix(bytes: &[u8]) -> Result<(Value, usize), CodecError> {
    let mut decoder = Decoder::new(bytes);
    let value = take(&mut decoder, MAX_DEPTH)?;
    let used = decoder.position();
    if bytes.get(..used) == Some(encode(&value).as_slice()) {
        Ok((value, used))
    } else {
        Err(CodecError::NotShortest)
    }
}

// Major types of RFC 8949 3.1, already in the upper three bits.
const UNSIGNED: u8 = 0 << 5;
const NEGATIVE: u8 = 1 << 5;
const BYTES: u8 = 2 << 5;
const TEXT: u8 = 3 << 5;
const ARRAY: u8 = 4 << 5;
const NULL: u8 = 0xf6;

fn put(out: &mut Vec<u8>, value: &Value) {
    match value {
        Value::Null => out.push(NULL),
        Value::Int(number) => {
            // For a negative n, CBOR writes -1 - n, which is !n in two's complement.
            let (major, magnitude) = if *number < 0 { (NEGATIVE, !*number) } else { (UNSIGNED, *number) };
            head(out, major, magnitude.unsigned_abs());
        }
        Value::Text(text) => {
            head(out, TEXT, text.len() as u64);
            out.extend_from_slice(text.as_bytes());
        }
        Value::Bytes(bytes) => {
            head(out, BYTES, bytes.len() as u64);
            out.extend_from_slice(bytes);
        }
        Value::List(items) => {
            head(out, ARRAY, items.len() as u64);
            for item in items {
                put(out, item);
            }
        }
    }
}

/// Type and argument in the fewest bytes.
fn head(out: &mut Vec<u8>, major: u8, argument: u64) {
    if let Ok(small) = u8::try_from(argument) {
        if small < 24 {
            out.push(major | small);
        } else {
            out.extend_from_slice(&[major | 0x18, small]);
        }
    } else if let Ok(medium) = u16::try_from(argument) {
        out.push(major | 0x19);
        out.extend_from_slice(&medium.to_be_bytes());
    } else if let Ok(large) = u32::try_from(argument) {
        out.push(major | 0x1a);
        out.extend_from_slice(&large.to_be_bytes());
    } else {
        out.push(major | 0x1b);
        out.extend_from_slice(&argument.to_be_bytes());
    }
}

fn take(decoder: &mut Decoder<'_>, depth: usize) -> Result<Value, CodecError> {
    match decoder.datatype().map_err(|_| CodecError::Malformed)? {
        Type::Null => {
            decoder.null().map_err(|_| CodecError::Malformed)?;
            Ok(Value::Null)
        }
        Type::U8
        | Type::U16
        | Type::U32
        | Type::U64
        | Type::I8
        | Type::I16
        | Type::I32
        | Type::I64
        | Type::Int => {
            let number = decoder.int().map_err(|_| CodecError::Malformed)?;
            i64::try_from(number).map(Value::Int).map_err(|_| CodecError::Number)
        }
        Type::String => {
            decoder.str().map(|text| Value::Text(text.to_owned())).map_err(|_| CodecError::Malformed)
        }
        Type::Bytes => {
            decoder.bytes().map(|bytes| Value::Bytes(bytes.to_vec())).map_err(|_| CodecError::Malformed)
        }
        Type::Array => {
            let depth = depth.checked_sub(1).ok_or(CodecError::Depth)?;
            let length = decoder
                .array()
                .map_err(|_| CodecError::Malformed)?
                .and_then(|length| usize::try_from(length).ok())
                .ok_or(CodecError::Type)?;
            // Every item takes at least one byte: a length beyond that is a lie, and nothing is reserved for it.
            if length > decoder.input().len().saturating_sub(decoder.position()) {
                return Err(CodecError::Malformed);
            }
            (0..length).map(|_| take(decoder, depth)).collect::<Result<_, _>>().map(Value::List)
        }
        _ => Err(CodecError::Type),
    }
}
