//! Watering a place.

use kerfbook_ledger::kind::WaterGiven;
use kerfbook_ledger::{Book, EntryId};
use kerfbook_science::units::{Area, Length, Volume};

use crate::error::ActError;
use crate::figure::{above_zero, millilitres, whole_u32};
use crate::moment::Moment;
use crate::take_in_load::first;

/// How much water.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Watering {
    /// As a depth, like rain.
    Depth(Length),
    /// On the whole place.
    Volume(Volume),
}

/// Writes a watering; `under` where it does not pass what lies there.
///
/// # Errors
/// A place that is not there, no water, or a book that cannot be written.
pub fn give(
    book: &mut Book,
    place: EntryId,
    watering: Watering,
    under: bool,
    moment: Moment,
) -> Result<EntryId, ActError> {
    let view = book.place(place)?.ok_or(ActError::NotThere { what: "place" })?;
    let body = match watering {
        Watering::Depth(depth) => {
            above_zero("water_mm", Some(depth.mm()), 2_000.0)?;
            let whole_mm = (depth.mm() - depth.mm().round()).abs() < 1e-9;
            // An entry keeps whole millimetres; what lies between is kept as a volume, which is finer.
            let volume = Area::from_m2(view.area_mm2 as f64 / 1e6).volume_of(depth);
            WaterGiven {
                depth_mm: whole_mm.then(|| whole_u32(depth.mm())),
                volume_ml: (!whole_mm).then(|| millilitres(volume)),
                under: under.then_some(true),
            }
        }
        Watering::Volume(volume) => {
            above_zero("water_l", Some(volume.litres()), 1e9)?;
            WaterGiven { depth_mm: None, volume_ml: Some(millilitres(volume)), under: under.then_some(true) }
        }
    };
    first(&book.append(&[moment.draft(body)?.about(place)], &[], moment.wall_ms)?)
}
