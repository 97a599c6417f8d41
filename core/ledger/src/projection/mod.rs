//! What the entries add up to, subject by subject.
//!
//! A fold is pure: it looks at entries and at nothing else, so that the same entries give the same bytes in whatever
//! order they came. Everything here can be dropped and rebuilt.

mod affected;
pub mod batch;
pub mod current;
mod fold;
pub(crate) mod graph;
pub mod holding;
pub mod pile;
pub mod place;
mod sequence;
pub mod single;
pub mod task;
pub mod trial;
pub mod view;

pub(crate) use affected::affected;
pub(crate) use fold::fold;
pub(crate) use graph::{Entries, InMemory, names_of};

use crate::entry::field::codes;
use crate::entry::kind::Kind;

codes! {
    /// What a projection is about.
    Sort, "sort of projection" {
        /// A place.
        Place = 1, "place";
        /// A batch.
        Batch = 2, "batch";
        /// A person.
        Person = 3, "person";
        /// A frozen forecast.
        Forecast = 4, "forecast";
        /// A device.
        Device = 5, "device";
        /// A task.
        Task = 6, "task";
        /// The holding.
        Holding = 7, "holding";
        /// A pile.
        Pile = 8, "pile";
        /// A trial.
        Trial = 9, "trial";
    }
}

impl Sort {
    /// What entries of a kind open.
    pub(crate) const fn opened_by(kind: Kind) -> Option<Self> {
        match kind {
            Kind::PlaceOutlined => Some(Self::Place),
            Kind::LoadTakenIn | Kind::BatchBlended | Kind::LayerLifted | Kind::PileFinished => {
                Some(Self::Batch)
            }
            Kind::PileBuilt => Some(Self::Pile),
            Kind::TrialLaidOut => Some(Self::Trial),
            Kind::PersonNamed => Some(Self::Person),
            Kind::ForecastFrozen => Some(Self::Forecast),
            Kind::DeviceEnrolled => Some(Self::Device),
            Kind::TaskSet => Some(Self::Task),
            Kind::HoldingOpened => Some(Self::Holding),
            _ => None,
        }
    }
}
