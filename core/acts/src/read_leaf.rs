//! What leaves look like: colour against a reference plot, yellow and brown.

use kerfbook_ledger::kind::LeafRead;
use kerfbook_ledger::{Book, EntryId};
use kerfbook_science::units::Share;

use crate::error::ActError;
use crate::figure::{basis_points, between, whole_u32};
use crate::moment::Moment;
use crate::take_in_load::first;

/// A reading of leaves.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NewLeafReading {
    /// Where.
    pub place: EntryId,
    /// Of which crop.
    pub crop: Option<EntryId>,
    /// Colour against that of plants with ample nitrogen: 1 where there is no difference.
    pub nutrition: Option<f64>,
    /// The reference plot that it is compared with.
    pub against: Option<EntryId>,
    /// Dark green colour index, 0 to 1.
    pub dgci: Option<f64>,
    /// Hue, degrees.
    pub hue_deg: Option<f64>,
    /// Part of the leaf that is yellow.
    pub yellow: Option<Share>,
    /// Part of the leaf that is brown.
    pub brown: Option<Share>,
    /// The photo it was read from.
    pub photo: Option<EntryId>,
}

impl NewLeafReading {
    /// A look at a place of which nothing was read yet.
    pub const fn of(place: EntryId) -> Self {
        Self {
            place,
            crop: None,
            nutrition: None,
            against: None,
            dgci: None,
            hue_deg: None,
            yellow: None,
            brown: None,
            photo: None,
        }
    }
}

/// Writes a reading.
///
/// # Errors
/// A place, crop or reference plot that is not there, no figure or one that cannot be, or a book that cannot be written.
pub fn read(book: &mut Book, new: &NewLeafReading, moment: Moment) -> Result<EntryId, ActError> {
    let place = book.place(new.place)?.ok_or(ActError::NotThere { what: "place" })?;
    if let Some(crop) = new.crop {
        let line = place.crops.iter().find(|line| line.entry == crop);
        let line = line.ok_or(ActError::NotThere { what: "crop" })?;
        if line.started.naive() > moment.date {
            return Err(ActError::Before { what: "crop", first: line.started.naive() });
        }
    }
    if let Some(against) = new.against {
        book.place(against)?.ok_or(ActError::NotThere { what: "reference plot" })?;
    }
    let nothing = new.nutrition.is_none()
        && new.dgci.is_none()
        && new.hue_deg.is_none()
        && new.yellow.is_none()
        && new.brown.is_none();
    if nothing {
        return Err(ActError::NothingMeasured);
    }
    between("nutrition_index", new.nutrition, 0.0, 2.0)?;
    between("dgci", new.dgci, 0.0, 1.0)?;
    between("hue_deg", new.hue_deg, 0.0, 360.0)?;
    between("yellow_pct", new.yellow.map(Share::percent), 0.0, 100.0)?;
    between("brown_pct", new.brown.map(Share::percent), 0.0, 100.0)?;
    let body = LeafRead {
        crop: new.crop,
        nutrition_bp: new.nutrition.map(|index| whole_u32(index * 10_000.0)),
        against: new.against,
        dgci_x10000: new.dgci.map(|index| whole_u32(index * 10_000.0)),
        hue_centideg: new.hue_deg.map(|hue| whole_u32(hue * 100.0)),
        yellow_bp: new.yellow.map(basis_points),
        brown_bp: new.brown.map(basis_points),
        photo: new.photo,
    };
    first(&book.append(&[moment.draft(body)?.about(new.place)], &[], moment.wall_ms)?)
}
