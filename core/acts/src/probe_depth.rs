//! Measuring how deep it lies.

use kerfbook_ledger::kind::DepthProbed;
use kerfbook_ledger::{Book, EntryId};
use kerfbook_science::plain::LaidBy;
use kerfbook_science::units::Length;

use crate::error::ActError;
use crate::figure::{between, whole_u32};
use crate::in_words::InWords;
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
    pub depths: Depths<'a>,
}

/// Depths at several points.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Depths<'a> {
    /// By a rule.
    Measured(&'a [Length]),
    /// How many fingers or hands.
    ByHand(LaidBy, &'a [f64]),
}

impl Depths<'_> {
    fn lengths(self) -> Vec<Length> {
        match self {
            Self::Measured(depths) => depths.to_vec(),
            Self::ByHand(by, counts) => {
                counts.iter().map(|count| Length::from_mm(by.width_mm().typical * count)).collect()
            }
        }
    }
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
    let depths = new.depths.lengths();
    if depths.is_empty() {
        return Err(ActError::NothingMeasured);
    }
    for depth in &depths {
        between("depth_mm", Some(depth.mm()), 0.0, 3_000.0)?;
    }
    let by_hand = match new.depths {
        Depths::Measured(_) => None,
        Depths::ByHand(by, counts) => Some((by, counts)),
    };
    let body = DepthProbed {
        layer: new.layer,
        depths_mm: depths.iter().map(|depth| whole_u32(depth.mm())).collect(),
        laid_by: by_hand.map(|(by, _)| by.kept()),
        laid_x10: by_hand.map(|(_, counts)| counts.iter().map(|count| whole_u32(count * 10.0)).collect()),
    };
    first(&book.append(&[moment.draft(body)?.about(new.place)], &[], moment.wall_ms)?)
}
