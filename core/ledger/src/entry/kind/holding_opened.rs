//! A holding's book was begun.

use super::kinded;
use crate::entry::field::{Label, record};
use crate::entry::id::{Nonce, PublicKey};

record! {
    /// The first entry of a book. Key and nonce together make the holding's id.
    HoldingOpened {
        /// What the holding is called.
        name: Label,
        /// Founder's public key.
        public_key: PublicKey,
        /// Makes the id unlike any other.
        nonce: Nonce,
        /// Food is sold.
        sells: bool,
        /// Certified organic.
        certified: bool,
        /// North positive, 0.01 degree: near enough for sun and season, too coarse to find anyone.
        latitude_centidegree: Option<i32>,
    }
}

kinded!(HoldingOpened, version 1, about Nothing);
