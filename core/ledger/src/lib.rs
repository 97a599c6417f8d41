//! Entries, chain, store and projections of a holding's book.
//!
//! Reading order: [`entry`] is one immutable record and its bytes; [`chain`] ties the records of a device together;
//! [`store`] keeps them in one SQLite file; [`projection`] folds them into places, batches and people; [`exchange`] reads
//! what others wrote and writes for them. The crate
//! reads no clock and draws nothing at random: times, keys, nonces and salts come as arguments.

#![cfg_attr(test, allow(clippy::unwrap_used, reason = "a test that cannot go on has failed"))]

pub mod chain;
pub mod entry;
pub mod error;
pub mod exchange;
pub mod key;
pub mod projection;
pub mod store;
pub mod text;

pub use chain::Head;
pub use entry::field::{Field, FieldError, Label};
pub use entry::hlc::Hlc;
pub use entry::id::{Date, DeviceId, EntryId, Hash, HoldingId, Nonce, PublicKey, Signature, TextRef};
pub use entry::kind::{self, Body, Kind, Replacement, Subject};
pub use entry::outline::{Anchor, Outline, Series};
pub use entry::trees::{Drive, TreeRow, TreeRun, TreeState, Trees, UnlikeTree};
pub use entry::value::Value;
pub use entry::walked::{FixError, RawAccuracy, RawFix, Walked, read_fixes, write_fixes};
pub use entry::{Entry, Refused};
pub use error::LedgerError;
pub use key::DeviceKey;
pub use projection::batch::BatchView;
pub use projection::current::{Current, Flag};
pub use projection::holding::HoldingView;
pub use projection::pile::PileView;
pub use projection::place::PlaceView;
pub use projection::single::{DeviceView, ForecastView, PersonView};
pub use projection::task::TaskView;
pub use projection::trial::{PlotScore, PlotView, TrialView};
pub use projection::view::Said;
pub use store::append::{Change, Draft, When};
pub use store::open::Founding;
pub use store::read::{Line, Position};
pub use store::salvage::{Missing, Salvaged, salvage, set_aside};
pub use store::verify::{Finding, Report};
pub use store::{Book, library_version};
pub use text::Text;
