//! What is over a place and how it is watered, from a day on.

use kerfbook_ledger::kind::{Cover, PlaceReoutlined};
use kerfbook_ledger::{Book, Date, EntryId};
use kerfbook_science::plain::Watering;

use crate::error::ActError;
use crate::in_words::InWords;
use crate::moment::Moment;
use crate::take_in_load::first;

/// What surrounds a place; what is left out stays as it was.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct NewSetting {
    /// Which place.
    pub place: EntryId,
    /// What is over it.
    pub cover: Option<Cover>,
    /// How it is watered.
    pub watered: Option<Watering>,
}

/// Writes a setting. The size stays as it was measured.
///
/// # Errors
/// A place that is not there, nothing said, or a book that cannot be written.
pub fn set_up(book: &mut Book, new: &NewSetting, moment: Moment) -> Result<EntryId, ActError> {
    let place = book.place(new.place)?.ok_or(ActError::NotThere { what: "place" })?;
    if new.cover.is_none() && new.watered.is_none() {
        return Err(ActError::NothingMeasured);
    }
    let size = place.measure_on(Date::of(moment.date)?).ok_or(ActError::NotThere { what: "place" })?;
    let body = PlaceReoutlined {
        anchor: size.anchor.clone(),
        outline: size.outline.clone(),
        container_ml: size.container_ml,
        containers: size.containers,
        rooting_depth_mm: size.rooting_depth_mm,
        area_sd_mm2: size.area_sd_mm2,
        walk: size.walk.clone(),
        further: size.further.clone(),
        trees: size.trees.clone(),
        cover: new.cover,
        watered: new.watered.map(InWords::kept),
        ..PlaceReoutlined::of(size.measured, size.area_mm2)
    };
    first(&book.append(&[moment.draft(body)?.about(new.place)], &[], moment.wall_ms)?)
}
