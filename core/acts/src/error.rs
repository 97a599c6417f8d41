//! What can be wrong with an act.

use kerfbook_science::material::Refusal;

/// Why an act was not done. Nothing has been written.
#[derive(Debug, thiserror::Error)]
pub enum ActError {
    /// A material that the table does not know.
    #[error("unknown material '{material}'; the nearest known: {}", nearest.join(", "))]
    UnknownMaterial {
        /// As written.
        material: String,
        /// The nearest names.
        nearest: Vec<String>,
    },
    /// A material that goes on no growing place.
    #[error("'{material}' is refused for every growing place")]
    Refused {
        /// As written.
        material: String,
        /// Why.
        refusal: Refusal,
    },
    /// A feed or ash where residue is meant.
    #[error("'{material}' is no residue that decays; give it as a feed")]
    NotResidue {
        /// As written.
        material: String,
    },
    /// An amount of nothing.
    #[error("the amount of '{material}' makes no layer on this place; give an amount above zero")]
    NothingThere {
        /// As written.
        material: String,
    },
    /// A feed that the table does not know.
    #[error("unknown feed '{feed}'; the nearest known: {}", nearest.join(", "))]
    UnknownFeed {
        /// As written.
        feed: String,
        /// The nearest names.
        nearest: Vec<String>,
    },
    /// Rules that the table of limits does not know.
    #[error("unknown rules '{rules}'; there are: {}", nearest.join(", "))]
    UnknownRules {
        /// As written.
        rules: String,
        /// The nearest names; all where none is near.
        nearest: Vec<&'static str>,
    },
    /// Nothing to compare.
    #[error("no load is described; add a [[put_down]] with a date, a material and an amount")]
    NoLoad,
    /// Material that came from a place, that came from a place, and so on.
    #[error("material lifted and laid again too many times to follow; look at where it was lifted first")]
    TooManyOrigins,
    /// The scenario lacks something that this act needs.
    #[error("{key} is missing: {why}")]
    Missing {
        /// The key.
        key: &'static str,
        /// What it is needed for.
        why: &'static str,
    },
    /// A figure that cannot be.
    #[error("{key} is {value}; it lies between {low} and {high}")]
    Figure {
        /// The key.
        key: &'static str,
        /// What was given.
        value: f64,
        /// Low end.
        low: f64,
        /// High end.
        high: f64,
    },
    /// A liquid stated by mass, or a solid by volume.
    #[error(
        "'{feed}' is stated in the wrong measure; liquids by volume_l, solids by amount_kg, either by nitrogen_kg_ha"
    )]
    WrongMeasure {
        /// The feed.
        feed: String,
    },
    /// A soil that cannot be.
    #[error("{0}")]
    Soil(String),
    /// A place or batch that the book does not have.
    #[error("this {what} is not in the book")]
    NotThere {
        /// Place or batch.
        what: &'static str,
    },
    /// The book refused.
    #[error(transparent)]
    Ledger(#[from] kerfbook_ledger::LedgerError),
    /// A field that no entry can hold.
    #[error(transparent)]
    Field(#[from] kerfbook_ledger::FieldError),
    /// A reading that belongs to nothing in the year looked at.
    #[error("a reading of {key} does not lie within the year, or its crop or layer is not there")]
    ReadingOutside {
        /// What was read.
        key: &'static str,
    },
    /// The model refused its input.
    #[error("the nitrogen model cannot run this: {0}")]
    Model(String),
}
