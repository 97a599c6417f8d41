//! Lifting a layer: it becomes a batch, with its decay behind it.

use kerfbook_ledger::kind::LayerLifted;
use kerfbook_ledger::{Book, EntryId, Label};
use kerfbook_science::units::{Mass, Share, Volume};

use crate::error::ActError;
use crate::figure::{above_zero, basis_points, between, grams, millilitres};
use crate::moment::Moment;
use crate::take_in_load::first;

/// What is lifted.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NewLift<'a> {
    /// From where.
    pub place: EntryId,
    /// Which layer: its putting down.
    pub layer: EntryId,
    /// What the batch is called.
    pub label: &'a str,
    /// Part of the layer as it was put down; all that still lies there where absent.
    pub share: Option<Share>,
    /// Mass, where it was weighed.
    pub wet: Option<Mass>,
    /// Loose volume, where it was measured.
    pub volume: Option<Volume>,
    /// Water by mass, where it was measured.
    pub moisture: Option<Share>,
}

/// The whole of a layer, 0.01 %.
const WHOLE_BP: u32 = 10_000;

/// Writes a lifting; the entry opens a batch. Nobody knows how much nitrogen it still draws: test it, or try it on a
/// seedling, before it goes to a bed.
///
/// # Errors
/// A place or layer that is not there, more than lies there, a day before it was put down, or a book that cannot be
/// written.
pub fn lift(book: &mut Book, new: &NewLift<'_>, moment: Moment) -> Result<EntryId, ActError> {
    let place = book.place(new.place)?.ok_or(ActError::NotThere { what: "place" })?;
    let layer = place
        .layers
        .iter()
        .find(|layer| layer.entry == new.layer)
        .ok_or(ActError::NotThere { what: "layer" })?;
    if layer.date.naive() > moment.date {
        return Err(ActError::Before { what: "layer", first: layer.date.naive() });
    }
    above_zero("share_pct", new.share.map(Share::percent), 100.0)?;
    above_zero("wet_kg", new.wet.map(Mass::kg), 1e9)?;
    above_zero("volume_m3", new.volume.map(Volume::m3), 1e7)?;
    between("moisture_pct", new.moisture.map(Share::percent), 0.0, 95.0)?;
    let share_bp = new.share.map_or(layer.lies_bp, basis_points).min(WHOLE_BP);
    if share_bp == 0 || share_bp > layer.lies_bp {
        return Err(ActError::MoreThanLies { lies: Share::from_percent(f64::from(layer.lies_bp) / 100.0) });
    }
    let body = LayerLifted {
        label: Label::new(new.label)?,
        layer: new.layer,
        share_bp,
        wet_g: new.wet.map(grams),
        volume_ml: new.volume.map(millilitres),
        moisture_bp: new.moisture.map(basis_points),
    };
    first(&book.append(&[moment.draft(body)?.about(new.place)], &[], moment.wall_ms)?)
}
