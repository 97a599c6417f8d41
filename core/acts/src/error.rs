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
    /// The soil of a container is not looked at over years.
    #[error("a container is emptied and filled anew: the view over years is of ground")]
    NotOverYears,
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
    /// An act that measures, without a figure.
    #[error("nothing was measured; give at least one figure")]
    NothingMeasured,
    /// A day before that of what it follows.
    #[error("the {what} is of {first}; give that day or a later one, or correct the day of the {what}")]
    Before {
        /// What comes first.
        what: &'static str,
        /// Its day.
        first: chrono::NaiveDate,
    },
    /// Lifting more of a layer than still lies there.
    #[error("{:.0} % of this layer still lies there; lift that much or less", lies.percent())]
    MoreThanLies {
        /// What still lies there of the layer as it was put down.
        lies: kerfbook_science::units::Share,
    },
    /// Working the soil of a path or yard.
    #[error("nothing grows on a path or yard; lift what lies there instead of digging it in")]
    NothingGrows,
    /// A task or place that is closed.
    #[error("this {what} is closed already")]
    ClosedAlready {
        /// Task or place.
        what: &'static str,
    },
    /// A blend of fewer than two batches, of one twice, or without dry matter.
    #[error("a blend takes two batches or more, each once, with dry matter and nitrogen in them")]
    NoBlend,
    /// A zone of a pile that was read at that time already.
    #[error(
        "zone {zone} was read at that time already; take one of the two out, or say at what time each was read"
    )]
    ReadTwice {
        /// Its name; empty for the pile as a whole.
        zone: String,
    },
    /// Nothing is left of a batch, or nobody knows how much.
    #[error("nothing is left of this batch, or nobody knows how much; say how much is meant")]
    NothingLeft,
    /// A pile of nothing, or of one batch twice.
    #[error("a pile takes one batch or more, each once, with dry matter in them")]
    NoPile,
    /// A heat rule that the table does not know.
    #[error("unknown heat rule '{rule}'; there are: {}", nearest.join(", "))]
    UnknownHeatRule {
        /// As written.
        rule: String,
        /// The nearest names; all where none is near.
        nearest: Vec<&'static str>,
    },
    /// More dry mass out of a pile than went in.
    #[error("{:.1} kg of dry mass went into this pile; no more can come out", dry.kg())]
    MoreThanWentIn {
        /// What went in.
        dry: kerfbook_science::units::Mass,
    },
    /// A change that changes nothing or does not fit.
    #[error("this entry does not take that change: {0}")]
    NoChange(Unfit),
    /// Weather that cannot be.
    #[error("{0}")]
    Weather(String),
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
    /// Rows of trees or a run along them that cannot be.
    #[error(transparent)]
    Trees(#[from] kerfbook_science::geometry::run::RunError),
    /// A trial, plot or score that cannot be.
    #[error(transparent)]
    Trial(#[from] crate::trial_fault::TrialFault),
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

/// Why an entry does not take a change.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum Unfit {
    /// It is about no place.
    #[error("it is about no place")]
    NoPlace,
    /// It is about that place already.
    #[error("it is about that place already")]
    HereAlready,
    /// Both are one entry.
    #[error("both are one entry")]
    SameEntry,
    /// It is no load that was taken in.
    #[error("it is no load that was taken in")]
    NoLoad,
    /// The units measure different things.
    #[error("the units measure different things")]
    OtherQuantity,
    /// Both units are the same.
    #[error("both units are the same")]
    SameUnit,
    /// It does not read.
    #[error("it does not read")]
    Unreadable,
    /// It holds no amount in such a unit.
    #[error("it holds no amount in such a unit")]
    NoSuchAmount,
    /// It was not taken out.
    #[error("it was not taken out")]
    NotOut,
    /// It is none of the changes at odds.
    #[error("this is none of the changes at odds")]
    NotAtOdds,
}
