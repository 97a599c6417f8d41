//! Measuring how deep it lies.

use kerfbook_ledger::kind::DepthProbed;
use kerfbook_ledger::{Book, EntryId};
use kerfbook_science::units::Length;

use crate::error::ActError;
use crate::figure::{between, whole_u32};
use crate::moment::Moment;
use crate::take_in_load::first;

/// Depths at several points of a place.
#[derive(Debug, Clone, PartialEq)]
pub struct NewProbe<'a> {
    /// Where.
    pub place: EntryId,
    /// Which layer; all that lies there where absent.
    pub layer: Option<EntryId>,
    /// Depth at each point; bare ground is a depth of nothing.
    pub depths: &'a [Length],
}

/// Writes depths.
///
/// # Errors
/// A place or layer that is not there, no depth or one that cannot be, or a book that cannot be written.
pub fn probe(book: &mut Book, new: &NewProbe<'_>, moment: Moment) -> Result<EntryId, ActError> {
    let place = book.place(new.place)?.ok_or(ActError::NotThere { what: "place" })?;
    if let Some(layer) = new.layer
        && !place.layers.iter().any(|one| one.entry == layer)
    {
        return Err(ActError::NotThere { what: "layer" });
    }
    if new.depths.is_empty() {
        return Err(ActError::NothingMeasured);
    }
    for depth in new.depths {
        between("depth_mm", Some(depth.mm()), 0.0, 3_000.0)?;
    }
    let body = DepthProbed {
        layer: new.layer,
        depths_mm: new.depths.iter().map(|depth| whole_u32(depth.mm())).collect(),
        ..DepthProbed::default()
    };
    first(&book.append(&[moment.draft(body)?.about(new.place)], &[], moment.wall_ms)?)
}
