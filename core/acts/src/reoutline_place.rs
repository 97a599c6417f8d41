//! Measuring a place anew: its new figures hold from that day.

use kerfbook_ledger::kind::{Measured, PlaceReoutlined};
use kerfbook_ledger::{Anchor, Book, EntryId, Outline};
use kerfbook_science::units::{Area, Length, Volume};

use crate::error::ActError;
use crate::figure::{above_zero, millilitres, whole, whole_u32};
use crate::moment::Moment;
use crate::take_in_load::first;

/// New figures of a place; of those left out, the last ones stay.
#[derive(Debug, Clone, PartialEq)]
pub struct NewOutline {
    /// Which place.
    pub place: EntryId,
    /// How its size came about.
    pub measured: Measured,
    /// Its area; of rings, all together less the gaps.
    pub area: Area,
    /// Where the outline's frame lies, where it is known.
    pub anchor: Option<Anchor>,
    /// Its corners; empty where only the area is known.
    pub outline: Outline,
    /// Volume of one container.
    pub container: Option<Volume>,
    /// Number of containers or trees.
    pub containers: Option<u32>,
    /// Depth that roots reach.
    pub rooting_depth: Option<Length>,
}

/// Writes a new size.
///
/// # Errors
/// A place that is not there, a size of nothing, or a book that cannot be written.
pub fn reoutline(book: &mut Book, new: &NewOutline, moment: Moment) -> Result<EntryId, ActError> {
    let place = book.place(new.place)?.ok_or(ActError::NotThere { what: "place" })?;
    above_zero("area_m2", Some(new.area.m2()), 1e8)?;
    above_zero("volume_l", new.container.map(Volume::litres), 1e5)?;
    above_zero("rooting_depth_cm", new.rooting_depth.map(Length::cm), 300.0)?;
    let area_mm2 = whole(new.area.m2() * 1e6);
    if area_mm2 == 0 {
        return Err(ActError::Missing { key: "place.area_m2", why: "a place has a size" });
    }
    let body = PlaceReoutlined {
        anchor: new.anchor.clone(),
        outline: new.outline.clone(),
        container_ml: new.container.map(millilitres).or(place.container_ml),
        containers: new.containers.or(place.containers),
        rooting_depth_mm: new.rooting_depth.map(|depth| whole_u32(depth.mm())).or(place.rooting_depth_mm),
        ..PlaceReoutlined::of(new.measured, area_mm2)
    };
    first(&book.append(&[moment.draft(body)?.about(new.place)], &[], moment.wall_ms)?)
}
