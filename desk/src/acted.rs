//! What an act refuses, as a fault of the file it came from.

use std::path::Path;

use kerfbook_acts::error::ActError;

use crate::fault::{Fault, Message};

/// The sentence for what an act refused.
pub(crate) fn fault(file: &Path, error: &ActError) -> Fault {
    let near = |names: &[String]| {
        (!names.is_empty()).then(|| Message::new("act-near").text("names", names.join(", ")))
    };
    let (what, remedy) = match error {
        ActError::UnknownMaterial { material, nearest } => {
            (Message::new("act-unknown-material").text("name", material), near(nearest))
        }
        ActError::Refused { material, .. } => (Message::new("act-refused").text("name", material), None),
        ActError::NotResidue { material } => (
            Message::new("act-not-residue").text("name", material),
            Some(Message::new("act-not-residue-remedy")),
        ),
        ActError::NothingThere { material } => (
            Message::new("act-nothing-there").text("name", material),
            Some(Message::new("act-nothing-there-remedy")),
        ),
        ActError::UnknownFeed { feed, nearest } => {
            (Message::new("act-unknown-feed").text("name", feed), near(nearest))
        }
        ActError::UnknownRules { rules, nearest } => (
            Message::new("act-unknown-rules").text("name", rules),
            Some(Message::new("act-unknown-rules-remedy").text("names", nearest.join(", "))),
        ),
        ActError::WrongMeasure { feed } => (
            Message::new("act-wrong-measure").text("name", feed),
            Some(Message::new("act-wrong-measure-remedy")),
        ),
        ActError::NoLoad => (Message::new("act-no-load"), Some(Message::new("act-no-load-remedy"))),
        ActError::Missing { key, why } => (
            Message::new("act-missing").text("key", key),
            Some(Message::new("act-missing-remedy").text("why", why)),
        ),
        ActError::ReadingOutside { key } => (Message::new("act-reading-outside").text("key", key), None),
        ActError::Figure { key, value, low, high } => {
            let between = Message::new("act-figure-between").text("low", low).text("high", high);
            (Message::new("act-figure").text("key", key).text("value", value), Some(between))
        }
        ActError::Soil(why) => (Message::new("act-soil").text("why", why), None),
        ActError::NotThere { .. } | ActError::TooManyOrigins | ActError::Ledger(_) | ActError::Field(_) => {
            return Fault::other(Message::new("act-book").text("why", error));
        }
        ActError::Model(why) => (Message::new("act-model").text("why", why), None),
    };
    Fault::input(file, what, remedy)
}
