//! Identifiers, hashes, keys and dates.

use chrono::{Datelike, NaiveDate};
use serde::Serialize;
use sha2::{Digest, Sha256};

use super::field::{Field, FieldError};
use super::value::{Value, from_hex, hex};

macro_rules! fixed_bytes {
    ($($(#[$meta:meta])* $name:ident, $length:literal, $what:literal;)*) => {
        $(
            $(#[$meta])*
            #[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
            pub struct $name(pub [u8; $length]);

            impl $name {
                /// From a slice of the right length.
                pub fn from_slice(bytes: &[u8]) -> Option<Self> {
                    bytes.try_into().ok().map(Self)
                }

                /// From hexadecimal digits.
                pub fn from_hex(text: &str) -> Option<Self> {
                    Self::from_slice(&from_hex(text)?)
                }
            }

            impl Field for $name {
                fn to_value(&self) -> Value {
                    Value::Bytes(self.0.to_vec())
                }

                fn from_value(value: &Value) -> Result<Self, FieldError> {
                    match value {
                        Value::Bytes(bytes) => Self::from_slice(bytes).ok_or(FieldError::Range($what)),
                        _ => Err(FieldError::Type($what)),
                    }
                }
            }

            impl std::fmt::Display for $name {
                fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                    out.write_str(&hex(&self.0))
                }
            }

            impl std::fmt::Debug for $name {
                fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                    write!(out, "{}({self})", stringify!($name))
                }
            }

            impl Serialize for $name {
                fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
                    serializer.collect_str(self)
                }
            }
        )*
    };
}

fixed_bytes! {
    /// SHA-256.
    Hash, 32, "32 bytes";
    /// The holding: SHA-256 of the founder's public key and a nonce.
    HoldingId, 32, "32 bytes";
    /// A device: the first 16 bytes of SHA-256 of its public key.
    DeviceId, 16, "16 bytes";
    /// Ed25519 public key.
    PublicKey, 32, "32 bytes";
    /// Ed25519 signature.
    Signature, 64, "64 bytes";
    /// Random bytes that make an identifier unlike any other.
    Nonce, 16, "16 bytes";
    /// Hash of salted text that is kept beside the entries and can be erased.
    TextRef, 32, "32 bytes";
}

impl Hash {
    /// Stands before the first entry of a chain.
    pub const ZERO: Self = Self([0; 32]);

    /// SHA-256 of the bytes.
    pub fn of(bytes: &[u8]) -> Self {
        Self(Sha256::digest(bytes).into())
    }
}

impl HoldingId {
    /// Of the founder's key and a nonce.
    pub fn new(founder: &PublicKey, nonce: &Nonce) -> Self {
        let mut digest = Sha256::new();
        digest.update(founder.0);
        digest.update(nonce.0);
        Self(digest.finalize().into())
    }
}

impl PublicKey {
    /// The device that holds the secret half.
    pub fn device(&self) -> DeviceId {
        let digest: [u8; 32] = Sha256::digest(self.0).into();
        let mut id = [0; 16];
        for (to, from) in id.iter_mut().zip(digest) {
            *to = from;
        }
        DeviceId(id)
    }
}

/// An entry, and whatever it opened: a place, a batch, a crop, a person.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct EntryId {
    /// Who wrote it.
    pub device: DeviceId,
    /// Position in that device's chain, from 1.
    pub seq: u64,
}

impl EntryId {
    /// Largest position: what SQLite's integers hold.
    pub const MAX_SEQ: u64 = i64::MAX as u64;

    pub(crate) fn checked(device: DeviceId, seq: u64) -> Result<Self, FieldError> {
        if seq == 0 || seq > Self::MAX_SEQ {
            return Err(FieldError::Range("a position from 1"));
        }
        Ok(Self { device, seq })
    }

    /// The id that comes `steps` later in the same chain.
    #[must_use]
    pub fn after(self, steps: u64) -> Self {
        Self { device: self.device, seq: self.seq.saturating_add(steps) }
    }

    /// Reads what [`std::fmt::Display`] writes: device in hexadecimal, a hyphen, the position.
    pub fn parse(text: &str) -> Option<Self> {
        let (device, seq) = text.split_once('-')?;
        Self::checked(DeviceId::from_hex(device)?, seq.parse().ok()?).ok()
    }
}

impl std::fmt::Display for EntryId {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(out, "{}-{}", self.device, self.seq)
    }
}

impl Serialize for EntryId {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

impl Field for EntryId {
    fn to_value(&self) -> Value {
        Value::List(vec![self.device.to_value(), self.seq.to_value()])
    }

    fn from_value(value: &Value) -> Result<Self, FieldError> {
        match value {
            Value::List(items) => match items.as_slice() {
                [device, seq] => Self::checked(DeviceId::from_value(device)?, u64::from_value(seq)?),
                _ => Err(FieldError::Type("an entry's id")),
            },
            _ => Err(FieldError::Type("an entry's id")),
        }
    }

    fn names(&self, into: &mut Vec<EntryId>) {
        into.push(*self);
    }
}

/// A day, as days since 1970-01-01.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Date(i32);

impl Date {
    /// Days that a book can hold: 200,000 either side of 1970-01-01, the years 1422 to 2517.
    const MAX: i32 = 200_000;
    /// 1970-01-01 as chrono counts days.
    const EPOCH: i32 = 719_163;

    /// From days since 1970-01-01.
    pub fn from_days(days: i32) -> Result<Self, FieldError> {
        if (-Self::MAX..=Self::MAX).contains(&days) {
            Ok(Self(days))
        } else {
            Err(FieldError::Range("a day of the years 1422 to 2517"))
        }
    }

    /// From a calendar date.
    pub fn of(date: NaiveDate) -> Result<Self, FieldError> {
        Self::from_days(date.num_days_from_ce().saturating_sub(Self::EPOCH))
    }

    /// Days since 1970-01-01.
    pub const fn days(self) -> i32 {
        self.0
    }

    /// The calendar date.
    pub fn naive(self) -> NaiveDate {
        // The bounds of `from_days` lie well inside the calendar's.
        NaiveDate::from_num_days_from_ce_opt(Self::EPOCH.saturating_add(self.0)).unwrap_or(NaiveDate::MAX)
    }
}

impl Field for Date {
    fn to_value(&self) -> Value {
        Value::Int(i64::from(self.0))
    }

    fn from_value(value: &Value) -> Result<Self, FieldError> {
        Self::from_days(i32::from_value(value)?)
    }
}

impl std::fmt::Display for Date {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(out, "{}", self.naive())
    }
}

impl Serialize for Date {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}
