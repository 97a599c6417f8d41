//! A device may write.

use super::kinded;
use crate::entry::field::{Label, record};
use crate::entry::id::PublicKey;

record! {
    /// From here on the book holds this device's entries. The founder's device enrols itself.
    DeviceEnrolled {
        /// Verifies the device's heads; its hash is the device's id.
        public_key: PublicKey,
        /// What the device is called.
        label: Label,
    }
}

kinded!(DeviceEnrolled, version 1, about Nothing);
