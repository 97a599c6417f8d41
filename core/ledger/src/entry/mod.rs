//! One immutable record: its envelope, its identifiers and what it says.
//!
//! The envelope is one deterministic CBOR array of sixteen items; see `docs/ledger-format.md`.

pub mod codec;
pub mod field;
pub mod hlc;
pub mod id;
pub mod kind;
pub mod outline;
pub mod trees;
pub mod value;
pub mod walked;

use serde::Serialize;

use self::field::{Field, FieldError};
use self::hlc::Hlc;
use self::id::{Date, DeviceId, EntryId, Hash, HoldingId};
use self::kind::{Body, Kind};
use self::value::Value;

/// Format of the envelope.
pub const FORMAT: i64 = 1;
/// Algorithm of hashes: SHA-256.
pub const SHA_256: i64 = 1;
/// Longest envelope, bytes.
pub const MAX_BYTES: usize = 65_536;
/// Items of an envelope.
const ITEMS: usize = 16;

/// One record as it is written, hashed and kept.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Entry {
    /// The book it belongs to.
    pub holding: HoldingId,
    /// Who wrote it and where it stands in that device's chain.
    pub id: EntryId,
    /// Orders the display across devices.
    pub hlc: Hlc,
    /// SHA-256 of the device's previous envelope; zeros for the first.
    pub prev: Hash,
    /// The person named on the device; not authenticated.
    pub by: Option<EntryId>,
    /// What the entry is about.
    pub subject: Option<EntryId>,
    /// The day it happened where it happened.
    pub date: Date,
    /// Minute of that day, where known.
    pub minute: Option<u16>,
    /// Local time less UTC, minutes.
    pub offset_min: i16,
    /// When it was written, ms since 1970-01-01 UTC by the device's clock.
    pub wall_ms: i64,
    /// Code of the kind; may be one that this version does not know.
    pub kind: u16,
    /// Version of the kind's body.
    pub version: u16,
    /// The body's fields by number.
    pub body: Vec<Value>,
}

/// Why bytes are no entry.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum Refused {
    /// Not the deterministic encoding this format asks for.
    #[error("not deterministic CBOR: {0}")]
    Encoding(#[from] codec::CodecError),
    /// Longer than [`MAX_BYTES`].
    #[error("{0} bytes, more than an entry may have")]
    TooLong(usize),
    /// Not an array of sixteen items.
    #[error("not an envelope of sixteen items")]
    Shape,
    /// A format or hash algorithm of a later version.
    #[error("format {format} with algorithm {algorithm} is not known here")]
    Format {
        /// Envelope format found.
        format: i64,
        /// Algorithm found.
        algorithm: i64,
    },
    /// An item of the wrong type or out of range.
    #[error("{0}")]
    Item(#[from] FieldError),
}

impl Entry {
    /// The envelope's bytes.
    pub fn encode(&self) -> Vec<u8> {
        codec::encode(&Value::List(vec![
            Value::Int(FORMAT),
            Value::Int(SHA_256),
            self.holding.to_value(),
            self.id.device.to_value(),
            self.id.seq.to_value(),
            self.hlc.to_value(),
            self.prev.to_value(),
            self.by.to_value(),
            self.subject.to_value(),
            self.date.to_value(),
            self.minute.to_value(),
            self.offset_min.to_value(),
            self.wall_ms.to_value(),
            self.kind.to_value(),
            self.version.to_value(),
            Value::List(self.body.clone()),
        ]))
    }

    /// Reads an envelope; anything but its one encoding is refused.
    pub fn decode(bytes: &[u8]) -> Result<Self, Refused> {
        if bytes.len() > MAX_BYTES {
            return Err(Refused::TooLong(bytes.len()));
        }
        let Value::List(items) = codec::decode(bytes)? else { return Err(Refused::Shape) };
        let items: [Value; ITEMS] = items.try_into().map_err(|_| Refused::Shape)?;
        let [
            format,
            algorithm,
            holding,
            device,
            seq,
            hlc,
            prev,
            by,
            subject,
            date,
            minute,
            offset_min,
            wall_ms,
            kind,
            version,
            body,
        ] = items;
        let (format, algorithm) = (i64::from_value(&format)?, i64::from_value(&algorithm)?);
        if (format, algorithm) != (FORMAT, SHA_256) {
            return Err(Refused::Format { format, algorithm });
        }
        let entry = Self {
            holding: HoldingId::from_value(&holding)?,
            id: EntryId::checked(DeviceId::from_value(&device)?, u64::from_value(&seq)?)?,
            hlc: Hlc::from_value(&hlc)?,
            prev: Hash::from_value(&prev)?,
            by: Option::from_value(&by)?,
            subject: Option::from_value(&subject)?,
            date: Date::from_value(&date)?,
            minute: Option::from_value(&minute)?,
            offset_min: i16::from_value(&offset_min)?,
            wall_ms: i64::from_value(&wall_ms)?,
            kind: u16::from_value(&kind)?,
            version: u16::from_value(&version)?,
            body: match body {
                Value::List(fields) => fields,
                _ => return Err(Refused::Shape),
            },
        };
        check_time(entry.minute, entry.offset_min)?;
        Ok(entry)
    }

    /// The kind, where this version knows its name.
    pub fn known_kind(&self) -> Option<Kind> {
        Kind::from_code(i64::from(self.kind))
    }

    /// What it says, as written; corrections are not looked at.
    pub fn read(&self) -> Body {
        Body::read(self.kind, self.version, &self.body)
    }
}

/// Minute of the day and offset from UTC within what a clock can show.
pub(crate) fn check_time(minute: Option<u16>, offset_min: i16) -> Result<(), FieldError> {
    if minute.is_some_and(|minute| minute >= 24 * 60) {
        return Err(FieldError::Range("a minute of the day below 1440"));
    }
    // Offsets in use run from -12 to +14 hours.
    if !(-12 * 60..=14 * 60).contains(&offset_min) {
        return Err(FieldError::Range("an offset of -720 to 840 minutes"));
    }
    Ok(())
}

impl Serialize for Entry {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        use serde::ser::SerializeStruct;
        let mut out = serializer.serialize_struct("Entry", 14)?;
        out.serialize_field("holding", &self.holding)?;
        out.serialize_field("id", &self.id)?;
        out.serialize_field("hlc_ms", &self.hlc.ms())?;
        out.serialize_field("hlc_counter", &self.hlc.counter())?;
        out.serialize_field("prev", &self.prev)?;
        out.serialize_field("by", &self.by)?;
        out.serialize_field("subject", &self.subject)?;
        out.serialize_field("date", &self.date)?;
        out.serialize_field("minute", &self.minute)?;
        out.serialize_field("offset_min", &self.offset_min)?;
        out.serialize_field("wall_ms", &self.wall_ms)?;
        match self.known_kind() {
            Some(kind) => out.serialize_field("kind", kind.name())?,
            None => out.serialize_field("kind", &self.kind)?,
        }
        out.serialize_field("version", &self.version)?;
        out.serialize_field("body", &self.read())?;
        out.end()
    }
}
