//! Measuring a plot of a trial: yield, weeds, soil moisture, plants that stand.

use kerfbook_ledger::kind::PlotMeasured;
use kerfbook_ledger::{Book, EntryId};
use kerfbook_science::units::{Mass, Share};

use crate::error::ActError;
use crate::figure::{basis_points, between, grams};
use crate::moment::Moment;
use crate::take_in_load::first;
use crate::trial_in_book::{open, there};

/// What was measured on a net plot.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NewMeasurement {
    /// The trial.
    pub trial: EntryId,
    /// The plot by its number.
    pub plot: u32,
    /// What was picked of the net plot.
    pub picked: Option<Mass>,
    /// Ground under weeds.
    pub weeds: Option<Share>,
    /// Water in the soil by volume.
    pub moisture: Option<Share>,
    /// Plants that stand on the net plot.
    pub stand: Option<u32>,
}

/// Writes it.
///
/// # Errors
/// A trial that is not there, is closed or was laid out later; a plot that it has not or that is lost; no figure, or one
/// that cannot be; or a book that cannot be written.
pub fn measure(book: &mut Book, new: &NewMeasurement, moment: Moment) -> Result<EntryId, ActError> {
    let view = open(book, new.trial, moment.date)?;
    there(&view, new.plot, moment.date)?;
    between("yield_kg", new.picked.map(Mass::kg), 0.0, 1e6)?;
    between("weeds_pct", new.weeds.map(Share::percent), 0.0, 100.0)?;
    between("soil_moisture_pct", new.moisture.map(Share::percent), 0.0, 100.0)?;
    let body = PlotMeasured {
        plot: new.plot,
        yield_g: new.picked.map(grams),
        weed_bp: new.weeds.map(basis_points),
        moisture_bp: new.moisture.map(basis_points),
        stand: new.stand,
    };
    if body.yield_g.is_none() && body.weed_bp.is_none() && body.moisture_bp.is_none() && body.stand.is_none()
    {
        return Err(ActError::NothingMeasured);
    }
    first(&book.append(&[moment.draft(body)?.about(new.trial)], &[], moment.wall_ms)?)
}
