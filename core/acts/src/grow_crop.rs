//! A crop on a place: its start and its end.

use kerfbook_ledger::kind::{CropEnded, CropStarted, Fate as EntryFate};
use kerfbook_ledger::{Book, Date, EntryId, Label};

use crate::error::ActError;
use crate::figure::{whole, whole_u32};
use crate::in_words::InWords;
use crate::moment::Moment;
use crate::scenario::{Crop, CropNeed, Fate};
use crate::take_in_load::first;

/// Starts a crop on the day of the moment.
///
/// # Errors
/// A name that is too long, a place that is not there, or a book that cannot be written.
pub fn start(book: &mut Book, place: EntryId, crop: &Crop, moment: Moment) -> Result<EntryId, ActError> {
    let body = CropStarted {
        crop: Label::new(&crop.name)?,
        need_mg_m2: match crop.need {
            CropNeed::Annual(need) => Some(whole_u32(need.kg_ha() * 100.0)),
            _ => None,
        },
        tree_mg: match crop.need {
            CropNeed::Tree(mass) => Some(whole(mass.g() * 1000.0)),
            _ => None,
        },
        appetite: match crop.need {
            CropNeed::Appetite(appetite) => Some(appetite.kept()),
            _ => None,
        },
        ends: Some(Date::of(crop.ended)?),
        midpoint_day: crop.midpoint_day.map(whole_u32),
        fixed_bp: whole_u32(crop.fixed.percent() * 100.0),
        plants: crop.plants,
    };
    first(&book.append(&[moment.draft(body)?.about(place)], &[], moment.wall_ms)?)
}

/// Ends a crop on the day of the moment.
///
/// # Errors
/// A crop or place that is not there, a day before the crop started, or a book that cannot be written.
pub fn end(
    book: &mut Book,
    place: EntryId,
    crop: EntryId,
    fate: Fate,
    yield_g: Option<u64>,
    moment: Moment,
) -> Result<EntryId, ActError> {
    let view = book.place(place)?.ok_or(ActError::NotThere { what: "place" })?;
    let line = view.crops.iter().find(|line| line.entry == crop);
    let started = line.ok_or(ActError::NotThere { what: "crop" })?.started.naive();
    if started > moment.date {
        return Err(ActError::Before { what: "crop", first: started });
    }
    let fate = match fate {
        Fate::CarriedOff => EntryFate::CarriedOff,
        Fate::DugIn => EntryFate::DugIn,
        Fate::Mown => EntryFate::Mown,
    };
    let body = CropEnded { crop, fate, yield_g };
    first(&book.append(&[moment.draft(body)?.about(place)], &[], moment.wall_ms)?)
}
