//! People, devices and frozen forecasts: subjects to which no later entry adds anything.

use super::current::Flag;
use crate::entry::field::{Label, record};
use crate::entry::id::{Date, EntryId, PublicKey, TextRef};
use crate::entry::kind::Way;

record! {
    /// A person.
    PersonView {
        /// The entry that named them.
        id: EntryId,
        /// Where the name is kept.
        name: TextRef,
        /// Flags of that entry.
        flags: Vec<Flag>,
    }
}

record! {
    /// A forecast that was acted on.
    ForecastView {
        /// The entry.
        id: EntryId,
        /// Day it was frozen.
        date: Date,
        /// The place.
        place: Option<EntryId>,
        /// Version of the engine.
        engine: u32,
        /// Version of its parameters.
        parameters: u32,
        /// Way advised.
        way: Option<Way>,
        /// Day to look.
        look: Option<Date>,
        /// Flags of the entry.
        flags: Vec<Flag>,
    }
}

record! {
    /// A device that may write.
    DeviceView {
        /// The entry that enrolled it.
        id: EntryId,
        /// Its key.
        public_key: PublicKey,
        /// What it is called.
        label: Label,
    }
}
