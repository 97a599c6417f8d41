//! A person was named.

use super::kinded;
use crate::entry::field::record;
use crate::entry::id::TextRef;

record! {
    /// A person whom entries may name as the one who did the work. Nobody checks that it was.
    PersonNamed {
        /// Their name, kept outside so that it can be erased.
        name: TextRef,
    }
}

kinded!(PersonNamed, version 1, about Nothing);
