//! Charts as display lists: lines, areas, rectangles, circles and text, each with the role it plays.
//!
//! A chart is drawn once into a [`DisplayList`] whose units are pixels of a screen 360 or 720 wide. [`svg`] writes
//! it for pages and paper; a phone paints the same list on its own canvas. Roles name meanings, not colours, and no
//! meaning hangs on colour alone: lines differ in dash and width, marks in shape, losses in hatching, and all carry
//! words. Words and numbers come in from outside; the same input gives the same list everywhere.

#![allow(clippy::cast_precision_loss, reason = "counts of rows and ways are far below what a float holds")]

mod axis;
mod band;
mod dots;
mod field;
mod flag;
mod heat;
mod legend;
mod list;
mod map;
mod path;
mod pattern;
mod range;
pub mod svg;
mod text;
mod ways;

pub use band::{BandChart, BandLabels, Mark, MarkKind, Reading, Tick};
pub use dots::{DotsChart, DotsRow};
pub use field::{FieldCell, FieldMap};
pub use heat::{HeatChart, HeatLimit, HeatLine};
pub use list::{Anchor, DisplayList, Item, Point, Role, Screen};
pub use map::{Lies, MapChart, MapLabels, MapPlace, Ring, Sheet};
pub use path::PathChart;
pub use range::Range;
pub use ways::{WayBar, WaysChart, WaysLabels};
