//! The kinds of entries: codes for all, bodies for those that this version writes.
//!
//! A kind's body is one file here. A kind without a body, or a version that is not known, is stored, verified and
//! passed on, and stands in no sum. To add one: write its file, name it in `bodies!` below, add its golden file.

mod batch_blended;
mod batch_recounted;
mod batch_tested;
mod crop_ended;
mod crop_started;
mod depth_probed;
mod device_enrolled;
mod draw_tested;
mod entry_corrected;
mod entry_withdrawn;
mod feed_given;
mod forecast_frozen;
mod gap_checked;
mod heat_read;
mod holding_opened;
mod layer_lifted;
mod leaf_read;
mod load_refused;
mod load_taken_in;
mod moisture_read;
mod note_made;
mod person_named;
mod pile_built;
mod pile_finished;
mod pile_turned;
mod place_closed;
mod place_outlined;
mod place_reoutlined;
mod plain;
mod plot_lost;
mod plot_measured;
mod plot_scored;
mod put_down;
mod soil_tested;
mod soil_worked;
mod task_closed;
mod task_set;
mod trial_closed;
mod trial_laid_out;
mod water_given;
mod weather_read;

use serde::Serialize;

pub use batch_blended::{BatchBlended, Part};
pub use batch_recounted::BatchRecounted;
pub use batch_tested::BatchTested;
pub use crop_ended::{CropEnded, Fate};
pub use crop_started::{Appetite, CropStarted};
pub use depth_probed::DepthProbed;
pub use device_enrolled::DeviceEnrolled;
pub use draw_tested::DrawTested;
pub use entry_corrected::{EntryCorrected, Replacement};
pub use entry_withdrawn::EntryWithdrawn;
pub use feed_given::{FeedGiven, Placed};
pub use forecast_frozen::{ForecastFrozen, Weeks};
pub use gap_checked::GapChecked;
pub use heat_read::HeatRead;
pub use holding_opened::HoldingOpened;
pub use layer_lifted::LayerLifted;
pub use leaf_read::LeafRead;
pub use load_refused::{LoadRefused, RefusalReason};
pub use load_taken_in::{Answer, LoadTakenIn, Particle, Storage};
pub use moisture_read::MoistureRead;
pub use note_made::NoteMade;
pub use person_named::PersonNamed;
pub use pile_built::PileBuilt;
pub use pile_finished::PileFinished;
pub use pile_turned::PileTurned;
pub use place_closed::PlaceClosed;
pub use place_outlined::{Measured, PlaceKind, PlaceOutlined};
pub use place_reoutlined::PlaceReoutlined;
pub use plain::{
    Age, Colour, Cover, Handful, LaidBy, Pieces, Rain, Rolled, Smell, Summers, Watering, Winters, Wood,
};
pub use plot_lost::PlotLost;
pub use plot_measured::PlotMeasured;
pub use plot_scored::{LeafLayer, PlotScored};
pub use put_down::{ContainerKind, KnownBy, PutDown, Way};
pub use soil_tested::{NitrogenForm, SoilTested};
pub use soil_worked::{SoilWorked, Tool};
pub use task_closed::{Outcome, TaskClosed};
pub use task_set::{TaskKind, TaskSet};
pub use trial_closed::TrialClosed;
pub use trial_laid_out::{TrialContrast, TrialDesign, TrialLaidOut, TrialPlot, TrialTreatment};
pub use water_given::WaterGiven;
pub use weather_read::{WeatherRead, WeatherSpan};

use super::field::{Field, FieldError, Record, codes};
use super::id::EntryId;
use super::value::Value;

codes! {
    /// What an entry says happened. All codes are reserved for good, also of kinds that come later.
    Kind, "kind" {
        /// A holding's book was begun.
        HoldingOpened = 1, "HoldingOpened";
        /// A place was named and measured.
        PlaceOutlined = 2, "PlaceOutlined";
        /// A place was measured anew.
        PlaceReoutlined = 3, "PlaceReoutlined";
        /// A place is no longer used.
        PlaceClosed = 4, "PlaceClosed";
        /// A load was accepted.
        LoadTakenIn = 5, "LoadTakenIn";
        /// A load was sent away.
        LoadRefused = 6, "LoadRefused";
        /// A batch was measured.
        BatchTested = 7, "BatchTested";
        /// Batches were mixed.
        BatchBlended = 8, "BatchBlended";
        /// What is left of a batch was counted.
        BatchRecounted = 9, "BatchRecounted";
        /// A batch was applied.
        PutDown = 10, "PutDown";
        /// A layer's depth was measured.
        DepthProbed = 11, "DepthProbed";
        /// Soil was worked.
        SoilWorked = 12, "SoilWorked";
        /// A layer was taken off.
        LayerLifted = 13, "LayerLifted";
        /// The gap at a trunk was checked.
        GapChecked = 14, "GapChecked";
        /// Nitrogen was given.
        FeedGiven = 15, "FeedGiven";
        /// Water was given.
        WaterGiven = 16, "WaterGiven";
        /// Weather was read.
        WeatherRead = 17, "WeatherRead";
        /// Soil was tested.
        SoilTested = 18, "SoilTested";
        /// A draw test was read.
        DrawTested = 19, "DrawTested";
        /// A crop was sown or planted.
        CropStarted = 20, "CropStarted";
        /// A crop came to its end.
        CropEnded = 21, "CropEnded";
        /// A pile was built.
        PileBuilt = 22, "PileBuilt";
        /// A pile was turned.
        PileTurned = 23, "PileTurned";
        /// A pile's temperature was read.
        HeatRead = 24, "HeatRead";
        /// A pile's moisture was read.
        MoistureRead = 25, "MoistureRead";
        /// A pile became a batch.
        PileFinished = 26, "PileFinished";
        /// A trial was laid out.
        TrialLaidOut = 27, "TrialLaidOut";
        /// A plot was scored.
        PlotScored = 28, "PlotScored";
        /// A plot was measured.
        PlotMeasured = 29, "PlotMeasured";
        /// A plot was lost.
        PlotLost = 30, "PlotLost";
        /// A trial came to its end.
        TrialClosed = 31, "TrialClosed";
        /// A leaf's colour was read.
        LeafRead = 32, "LeafRead";
        /// A photo was kept.
        PhotoKept = 33, "PhotoKept";
        /// A forecast was acted on.
        ForecastFrozen = 34, "ForecastFrozen";
        /// Something to do was set.
        TaskSet = 35, "TaskSet";
        /// It was done or dropped.
        TaskClosed = 36, "TaskClosed";
        /// A note was written.
        NoteMade = 37, "NoteMade";
        /// Text or a photo was erased.
        ContentErased = 38, "ContentErased";
        /// Fields of an entry were replaced.
        EntryCorrected = 39, "EntryCorrected";
        /// An entry was taken out.
        EntryWithdrawn = 40, "EntryWithdrawn";
        /// A person was named.
        PersonNamed = 41, "PersonNamed";
        /// A device may write.
        DeviceEnrolled = 42, "DeviceEnrolled";
        /// A device got another name.
        DeviceRenamed = 43, "DeviceRenamed";
        /// A device may write no longer.
        DeviceRevoked = 44, "DeviceRevoked";
        /// A device got a role.
        RoleGiven = 45, "RoleGiven";
    }
}

impl Kind {
    /// The code as the envelope holds it.
    #[allow(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "codes are small and positive"
    )]
    pub const fn number(self) -> u16 {
        self.code() as u16
    }
}

/// An entry that a field names, and what it must be.
pub(crate) struct Target {
    pub(crate) field: &'static str,
    pub(crate) id: EntryId,
    /// Empty where any kind will do.
    pub(crate) kinds: &'static [Kind],
}

impl Body {
    /// What the fields name, where only certain kinds will do.
    pub(crate) fn targets(&self) -> Vec<Target> {
        let Some(kind) = self.kind().filter(|kind| !kind.targets().is_empty()) else { return Vec::new() };
        let Some((_, _, fields)) = self.write() else { return Vec::new() };
        let names = kind.fields().unwrap_or_default();
        kind.targets()
            .iter()
            .filter_map(|(field, kinds)| {
                let position = names.iter().position(|name| name == field)?;
                let mut ids = Vec::new();
                fields.get(position)?.names(&mut ids);
                Some(ids.into_iter().map(move |id| Target { field, id, kinds }))
            })
            .flatten()
            .collect()
    }
}

/// What a kind's entries are about.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Subject {
    /// Nothing: the entry opens something, or names what it changes in its body.
    Nothing,
    /// A place.
    Place,
    /// A batch: the entry that opened it.
    Batch,
    /// A pile.
    Pile,
    /// A trial.
    Trial,
    /// The entry that opened the holding, or a place.
    HoldingOrPlace,
    /// Whatever entry, or nothing.
    Anything,
}

impl Subject {
    /// The kinds that the subject has to be one of; none where the entry is about nothing or about anything.
    pub const fn kinds(self) -> Option<&'static [Kind]> {
        match self {
            Self::Nothing | Self::Anything => None,
            Self::Place => Some(&[Kind::PlaceOutlined]),
            Self::Batch => {
                Some(&[Kind::LoadTakenIn, Kind::BatchBlended, Kind::LayerLifted, Kind::PileFinished])
            }
            Self::Pile => Some(&[Kind::PileBuilt]),
            Self::Trial => Some(&[Kind::TrialLaidOut]),
            Self::HoldingOrPlace => Some(&[Kind::HoldingOpened, Kind::PlaceOutlined]),
        }
    }
}

/// A body that this version reads and writes.
pub(crate) trait Kinded: Record {
    /// Its kind.
    const KIND: Kind;
    /// Version written.
    const VERSION: u16;
    /// Earlier versions and their number of fields. A version differs from the one before it by fields at the end
    /// that may be null, or by words that a coded field had not; so an earlier body reads as this one with nothing in
    /// them.
    const BEFORE: &'static [(u16, usize)] = &[];
    /// What its entries are about.
    const SUBJECT: Subject;
    /// What the entries that its fields name must be, by the field's name.
    const TARGETS: &'static [(&'static str, &'static [Kind])] = &[];

    /// Reads the fields of a version; none where the version is not known.
    fn from_version(version: u16, fields: &[Value]) -> Option<Result<Self, FieldError>> {
        if version == Self::VERSION {
            return Some(Self::from_fields(fields));
        }
        let (_, expected) = *Self::BEFORE.iter().find(|(before, _)| *before == version)?;
        if fields.len() != expected {
            return Some(Err(FieldError::Count { expected, found: fields.len() }));
        }
        let mut longer = fields.to_vec();
        longer.resize(Self::FIELDS.len(), Value::Null);
        Some(Self::from_fields(&longer))
    }
}

macro_rules! bodies {
    ($($name:ident),* $(,)?) => {
        /// What an entry says.
        #[derive(Debug, Clone, PartialEq, Eq, Serialize)]
        #[serde(untagged)]
        pub enum Body {
            $(
                #[doc = concat!("See [`struct@", stringify!($name), "`].")]
                $name($name),
            )*
            /// A kind or version of later times: kept, verified and passed on as it is.
            Later(Vec<Value>),
            /// A known kind and version whose fields do not read.
            Unreadable(Vec<Value>),
        }

        impl Body {
            /// Reads the fields of a kind.
            pub fn read(kind: u16, version: u16, fields: &[Value]) -> Self {
                match Kind::from_code(i64::from(kind)) {
                    $(Some(Kind::$name) => match <$name as Kinded>::from_version(version, fields) {
                        Some(Ok(body)) => Self::$name(body),
                        Some(Err(_)) => Self::Unreadable(fields.to_vec()),
                        None => Self::Later(fields.to_vec()),
                    },)*
                    _ => Self::Later(fields.to_vec()),
                }
            }

            /// Why fields do not read, where they do not.
            pub fn check(kind: Kind, version: u16, fields: &[Value]) -> Result<(), FieldError> {
                match kind {
                    $(Kind::$name => {
                        <$name as Kinded>::from_version(version, fields).map_or(Ok(()), |read| read.map(|_| ()))
                    })*
                    _ => Ok(()),
                }
            }

            /// The kind, for those that this version writes.
            pub const fn kind(&self) -> Option<Kind> {
                match self {
                    $(Self::$name(_) => Some(<$name as Kinded>::KIND),)*
                    Self::Later(_) | Self::Unreadable(_) => None,
                }
            }

            /// Kind, version and fields, for those that this version writes.
            pub fn write(&self) -> Option<(Kind, u16, Vec<Value>)> {
                match self {
                    $(Self::$name(body) => Some((
                        <$name as Kinded>::KIND,
                        <$name as Kinded>::VERSION,
                        body.fields(),
                    )),)*
                    Self::Later(_) | Self::Unreadable(_) => None,
                }
            }

            /// Entries that the fields name.
            pub fn names(&self) -> Vec<EntryId> {
                let mut names = Vec::new();
                match self {
                    $(Self::$name(body) => body.names_in(&mut names),)*
                    Self::Later(_) | Self::Unreadable(_) => {}
                }
                names
            }
        }

        $(impl From<$name> for Body {
            fn from(body: $name) -> Self {
                Self::$name(body)
            }
        })*

        impl Kind {
            /// Names of the fields by number, for kinds that this version writes.
            pub const fn fields(self) -> Option<&'static [&'static str]> {
                match self {
                    $(Self::$name => Some(<$name as Record>::FIELDS),)*
                    _ => None,
                }
            }

            /// What entries of the kind are about.
            pub const fn subject(self) -> Subject {
                match self {
                    $(Self::$name => <$name as Kinded>::SUBJECT,)*
                    _ => Subject::Anything,
                }
            }

            /// What the entries named by the kind's fields must be.
            pub(crate) const fn targets(self) -> &'static [(&'static str, &'static [Kind])] {
                match self {
                    $(Self::$name => <$name as Kinded>::TARGETS,)*
                    _ => &[],
                }
            }
        }
    };
}

bodies! {
    HoldingOpened, PlaceOutlined, PlaceReoutlined, PlaceClosed, LoadTakenIn, LoadRefused, BatchTested, BatchBlended,
    BatchRecounted, PutDown, DepthProbed, SoilWorked, LayerLifted, GapChecked, FeedGiven, WaterGiven, WeatherRead,
    SoilTested, DrawTested, CropStarted, CropEnded, PileBuilt, PileTurned, HeatRead, MoistureRead, PileFinished,
    TrialLaidOut, PlotScored, PlotMeasured, PlotLost, TrialClosed, LeafRead, ForecastFrozen, TaskSet, TaskClosed, NoteMade,
    EntryCorrected, EntryWithdrawn, PersonNamed, DeviceEnrolled,
}

/// Says which kind a body is, its version and what it is about.
macro_rules! kinded {
    ($name:ident, version $version:literal, about $subject:ident $(, before $before:expr)?) => {
        kinded!($name, version $version, about $subject, naming {} $(, before $before)?);
    };
    ($name:ident, version $version:literal, about $subject:ident,
     naming { $($field:literal: [$($kind:ident),*]),* } $(, before $before:expr)?) => {
        impl $crate::entry::kind::Kinded for $name {
            const KIND: $crate::entry::kind::Kind = $crate::entry::kind::Kind::$name;
            const VERSION: u16 = $version;
            $(const BEFORE: &'static [(u16, usize)] = &$before;)?
            const SUBJECT: $crate::entry::kind::Subject = $crate::entry::kind::Subject::$subject;
            const TARGETS: &'static [(&'static str, &'static [$crate::entry::kind::Kind])] =
                &[$(($field, &[$($crate::entry::kind::Kind::$kind),*])),*];
        }
    };
}
pub(crate) use kinded;
