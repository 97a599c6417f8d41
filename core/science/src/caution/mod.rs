//! Cautions: what can go wrong, the figure and the body that set it, and the act at which to say so. Local
//! rules and licensed practice come before all of them.

mod facts;
mod pile;
mod table;

pub use facts::{Facts, Way, cautions};
pub use pile::{AtPile, at_pile, is_of_animals};
pub use table::all;

use crate::source::{Source, Sourced};
use crate::units::{AreaMass, Length, Temperature};

/// How grave a caution is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Severity {
    /// The act must not be done.
    Refuse,
    /// Harm is likely if it is not heeded.
    Warn,
    /// Worth knowing.
    Note,
}

/// What a person is doing when a caution is due.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Act {
    /// Taking in a load.
    Intake,
    /// Keeping it in a heap.
    Storage,
    /// Loading, spreading, turning, chipping.
    Handling,
    /// Putting it down.
    PuttingDown,
    /// Giving nitrogen.
    Feeding,
}

/// A figure in a caution.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Figure {
    /// A length, depth or distance.
    Depth(Length),
    /// A temperature.
    Heat(Temperature),
    /// Hours.
    Hours(f64),
    /// Days.
    Days(f64),
    /// Weeks.
    Weeks(f64),
    /// Months.
    Months(f64),
    /// Nitrogen per area.
    Dose(AreaMass),
    /// Milligrams a litre.
    MilligramsPerLitre(f64),
    /// Milligrams a cubic metre of air.
    MilligramsPerCubicMetre(f64),
    /// Milligrams a kilogram.
    MilligramsPerKilogram(f64),
    /// Per cent.
    Percent(f64),
    /// Kilograms a cubic metre.
    KilogramsPerCubicMetre(f64),
    /// A number without unit, such as a pH or a ratio.
    Number(f64),
}

/// A caution.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Caution {
    /// Stable name; texts are kept by it.
    pub id: &'static str,
    /// How grave it is.
    pub severity: Severity,
    /// When it is due.
    pub act: Act,
    /// Its figures by the names that the texts use.
    pub figures: &'static [(&'static str, Figure)],
    /// The body that set it (`author`, `year`), or the statement that it is common practice.
    pub source: Source,
}

/// The caution of that id.
pub fn of_id(id: &str) -> Option<&'static Caution> {
    all().iter().find(|caution| caution.id == id)
}

/// Most nitrate in drinking water, as nitrogen, mg/L: US EPA.
pub const NITRATE_US_MG_L: Sourced<f64> = Sourced::new(10.0, table::EPA_NITRATE);
/// Most nitrate in drinking water, as nitrate, mg/L: European Union.
pub const NITRATE_EU_MG_L: Sourced<f64> = Sourced::new(50.0, table::EU_NITRATE);

/// Deepest mulch under trees on well-drained ground: Iowa State University Extension, 3 to 4 in.
pub(crate) const DEEPEST_UNDER_TREES: Length = Length::from_mm(100.0);
/// Deepest layer of fine sawdust: Purdue University Extension, 1 to 2 in.
pub(crate) const DEEPEST_DUST: Length = Length::from_mm(50.0);
