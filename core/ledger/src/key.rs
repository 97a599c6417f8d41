//! The device's key. It never stands in the book.

use ed25519_dalek::{Signer, SigningKey, VerifyingKey};

use crate::entry::id::{DeviceId, PublicKey, Signature};

/// Signs the heads of one device's chain.
#[derive(Clone)]
pub struct DeviceKey(SigningKey);

impl DeviceKey {
    /// From 32 secret bytes, which should come from the system's random source.
    pub fn from_bytes(secret: &[u8; 32]) -> Self {
        Self(SigningKey::from_bytes(secret))
    }

    /// The secret bytes, to be kept where only their owner reads.
    pub fn to_bytes(&self) -> [u8; 32] {
        self.0.to_bytes()
    }

    /// The public half.
    pub fn public(&self) -> PublicKey {
        PublicKey(self.0.verifying_key().to_bytes())
    }

    /// The device's id.
    pub fn device(&self) -> DeviceId {
        self.public().device()
    }

    pub(crate) fn sign(&self, message: &[u8]) -> Signature {
        Signature(self.0.sign(message).to_bytes())
    }
}

impl std::fmt::Debug for DeviceKey {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(out, "DeviceKey({})", self.device())
    }
}

impl PublicKey {
    /// Whether the key's owner signed the message.
    pub fn verifies(&self, message: &[u8], signature: &Signature) -> bool {
        VerifyingKey::from_bytes(&self.0).is_ok_and(|key| {
            key.verify_strict(message, &ed25519_dalek::Signature::from_bytes(&signature.0)).is_ok()
        })
    }
}
