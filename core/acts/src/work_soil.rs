//! Working the soil: what lies there is dug in.

use kerfbook_ledger::kind::{PlaceKind, SoilWorked, Tool};
use kerfbook_ledger::{Book, EntryId};
use kerfbook_science::plain::{DugInWith, Likely};
use kerfbook_science::units::{Length, Share};

use crate::error::ActError;
use crate::figure::{above_zero, basis_points, between, whole_u32};
use crate::in_words::InWords;
use crate::moment::Moment;
use crate::take_in_load::first;

/// A working of the soil.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NewWorking {
    /// Where.
    pub place: EntryId,
    /// How deep; else the tool says.
    pub depth: Option<Length>,
    /// Part of the place; all of it where absent.
    pub share: Option<Share>,
    /// What with.
    pub tool: Option<Tool>,
}

/// How deep a tool goes, where nobody measured.
pub fn depth_of(tool: Tool) -> Likely {
    DugInWith::said(tool).depth_cm()
}

impl NewWorking {
    /// As measured, else as deep as the tool goes.
    pub fn depth(&self) -> Option<Length> {
        self.depth.or_else(|| Some(Length::from_cm(depth_of(self.tool?).typical)))
    }
}

/// Writes a working.
///
/// # Errors
/// A place that is not there or where nothing grows, neither depth nor tool, or a book that cannot be written.
pub fn work(book: &mut Book, new: &NewWorking, moment: Moment) -> Result<EntryId, ActError> {
    let place = book.place(new.place)?.ok_or(ActError::NotThere { what: "place" })?;
    if matches!(place.place_kind, PlaceKind::Path | PlaceKind::Yard) {
        return Err(ActError::NothingGrows);
    }
    let depth =
        new.depth().ok_or(ActError::Missing { key: "depth_cm", why: "how deep, or with which tool" })?;
    above_zero("depth_cm", Some(depth.cm()), 200.0)?;
    between("share_pct", new.share.map(Share::percent), 1.0, 100.0)?;
    let body = SoilWorked {
        depth_mm: whole_u32(depth.mm()),
        share_bp: new.share.map(basis_points),
        tool: new.tool,
        by_tool: new.depth.is_none().then_some(true),
    };
    first(&book.append(&[moment.draft(body)?.about(new.place)], &[], moment.wall_ms)?)
}
