//! What ties a device's entries together: each names the hash of the one before, and the last is signed.

use serde::Serialize;

use crate::entry::codec;
use crate::entry::field::Field;
use crate::entry::id::{DeviceId, EntryId, Hash, HoldingId, PublicKey, Signature};
use crate::entry::value::Value;
use crate::key::DeviceKey;

/// What signatures of heads are about, so that no other signature passes for one.
const PURPOSE: &str = "kerfbook head";
/// Format of the signed message.
const FORMAT: i64 = 1;

/// The end of a device's chain at some time, signed by the device.
///
/// Whoever keeps a head sees any later change of what lies before it. A sole device can rewrite itself until a head
/// has left it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct Head {
    /// Whose chain.
    pub device: DeviceId,
    /// Position of the last entry.
    pub seq: u64,
    /// SHA-256 of that entry's envelope.
    pub hash: Hash,
    /// Last checkpoint of the hub that the device had seen; none before there is a hub.
    pub checkpoint: Option<Hash>,
    /// Ed25519 over [`Head::message`].
    pub signature: Signature,
}

impl Head {
    /// Signs the end of the key's own chain.
    pub fn sign(key: &DeviceKey, holding: &HoldingId, seq: u64, hash: Hash) -> Self {
        let device = key.device();
        let signature = key.sign(&Self::message(holding, EntryId { device, seq }, &hash, None));
        Self { device, seq, hash, checkpoint: None, signature }
    }

    /// The entry that it signs.
    pub const fn end(&self) -> EntryId {
        EntryId { device: self.device, seq: self.seq }
    }

    /// The signed bytes: deterministic CBOR of purpose, format, holding, device, seq, hash and checkpoint.
    pub fn message(holding: &HoldingId, end: EntryId, hash: &Hash, checkpoint: Option<&Hash>) -> Vec<u8> {
        codec::encode(&Value::List(vec![
            Value::Text(PURPOSE.to_owned()),
            Value::Int(FORMAT),
            holding.to_value(),
            end.device.to_value(),
            end.seq.to_value(),
            hash.to_value(),
            checkpoint.map_or(Value::Null, Field::to_value),
        ]))
    }

    /// Whether the key belongs to the device and signed this head.
    pub fn verifies(&self, holding: &HoldingId, key: &PublicKey) -> bool {
        let end = EntryId { device: self.device, seq: self.seq };
        key.device() == self.device
            && key
                .verifies(&Self::message(holding, end, &self.hash, self.checkpoint.as_ref()), &self.signature)
    }
}
