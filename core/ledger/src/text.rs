//! Text that is kept beside the entries, so that it can be erased without touching the chain.

use sha2::{Digest, Sha256};

use crate::entry::id::{Nonce, TextRef};

/// Longest text, bytes.
pub const MAX_BYTES: usize = 262_144;

/// A note, a person's name, a reason, or the inputs of a forecast.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Text {
    /// Random, so that the hash tells nothing about a short text once it is erased.
    pub salt: Nonce,
    /// The text.
    pub body: String,
}

impl Text {
    /// A text with its salt.
    pub fn new(salt: [u8; 16], body: &str) -> Self {
        Self { salt: Nonce(salt), body: body.to_owned() }
    }

    /// SHA-256 of salt and text: what an entry holds of it.
    pub fn hash(&self) -> TextRef {
        let mut digest = Sha256::new();
        digest.update(self.salt.0);
        digest.update(self.body.as_bytes());
        TextRef(digest.finalize().into())
    }
}
