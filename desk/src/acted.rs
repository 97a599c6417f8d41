//! What an act refuses, as a fault of the file it came from.

use std::path::Path;

use kerfbook_acts::error::ActError;
pub(crate) use kerfbook_acts::refusal::told;

use crate::fault::{Fault, Message};

/// What an act refused, as a fault of a file.
pub(crate) fn fault(file: &Path, error: &ActError) -> Fault {
    if matches!(error, ActError::Ledger(_) | ActError::Field(_)) {
        return Fault::other(Message::new("act-book").text("why", error));
    }
    let (what, remedy) = told(error);
    Fault::input(file, what, remedy)
}
