//! The plots of a trial as places of the book: each with the ground that gets its treatment, to put residue down on and
//! to read.

use kerfbook_ledger::{Book, EntryId};
use kerfbook_science::geometry::frame::Point;
use kerfbook_science::trial::layout::{Layout, PlotSize};

use crate::area::{Measured, of_rectangle};
use crate::error::ActError;
use crate::moment::Moment;
use crate::outline::Sketch;
use crate::outline_place::outline_measured;
use crate::scenario::PlaceKind;

/// Opens a place for every plot, in the order of the walk, named after the trial and the plot's number. They lie in one
/// frame, the first corner of the field at its origin.
///
/// # Errors
/// Plots without a size, a name that is too long with its number, or a book that cannot be written.
pub fn outline_plots(
    book: &mut Book,
    trial: &str,
    layout: &Layout,
    size: &PlotSize,
    moment: Moment,
) -> Result<Vec<EntryId>, ActError> {
    let taped = of_rectangle(size.width, size.length)
        .map_err(|_| ActError::Missing { key: "plot.width_m", why: "a place has a size" })?;
    let (wide, long) = (size.width.m(), size.length.m());
    let walked = layout.walk.iter().filter_map(|at| layout.plots.get(*at));
    walked
        .map(|plot| {
            let (x, y) = size.corner_m(plot);
            let corners = [(x, y), (x + wide, y), (x + wide, y + long), (x, y + long)];
            let corners = corners.iter().map(|(x, y)| Point::new(*x, *y)).collect();
            let measured = Measured { sketch: Sketch::taped(vec![corners]), ..taped.clone() };
            let label = format!("{trial} {}", plot.number);
            outline_measured(book, &label, PlaceKind::Plot, &measured, moment)
        })
        .collect()
}
