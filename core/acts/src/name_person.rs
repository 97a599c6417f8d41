//! Naming a person, so that entries and orders can name them; the name itself is kept outside the entry.

use kerfbook_ledger::kind::PersonNamed;
use kerfbook_ledger::{Book, EntryId, Text};

use crate::error::ActError;
use crate::moment::Moment;
use crate::take_in_load::first;

/// Names a person.
///
/// # Errors
/// A book that cannot be written.
pub fn name(book: &mut Book, name: &Text, moment: Moment) -> Result<EntryId, ActError> {
    let body = PersonNamed { name: name.hash() };
    first(&book.append(&[moment.draft(body)?], std::slice::from_ref(name), moment.wall_ms)?)
}
