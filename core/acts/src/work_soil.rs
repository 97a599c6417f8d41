//! Working the soil: what lies there is dug in.

use kerfbook_ledger::kind::{PlaceKind, SoilWorked, Tool};
use kerfbook_ledger::{Book, EntryId};
use kerfbook_science::source::{Source, Sourced};
use kerfbook_science::units::{Length, Share};

use crate::error::ActError;
use crate::figure::{above_zero, basis_points, between, whole_u32};
use crate::moment::Moment;
use crate::take_in_load::first;

/// Depth of a hoe.
pub const HOE: Sourced<Length> = Sourced::new(Length::from_cm(5.0), Source::COMMON_PRACTICE);
/// Depth of a fork.
pub const FORK: Sourced<Length> = Sourced::new(Length::from_cm(15.0), Source::COMMON_PRACTICE);
/// Depth of a spade.
pub const SPADE: Sourced<Length> = Sourced::new(Length::from_cm(20.0), Source::COMMON_PRACTICE);
/// Depth of a tiller.
pub const TILLER: Sourced<Length> = Sourced::new(Length::from_cm(15.0), Source::COMMON_PRACTICE);
/// Depth of a plough.
pub const PLOUGH: Sourced<Length> = Sourced::new(Length::from_cm(20.0), Source::COMMON_PRACTICE);

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
pub const fn depth_of(tool: Tool) -> Sourced<Length> {
    match tool {
        Tool::Hoe => HOE,
        Tool::Fork => FORK,
        Tool::Spade => SPADE,
        Tool::Tiller => TILLER,
        Tool::Plough | Tool::Unknown => PLOUGH,
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
    let depth = new
        .depth
        .or(new.tool.map(|tool| depth_of(tool).value))
        .ok_or(ActError::Missing { key: "depth_cm", why: "how deep, or with which tool" })?;
    above_zero("depth_cm", Some(depth.cm()), 200.0)?;
    between("share_pct", new.share.map(Share::percent), 1.0, 100.0)?;
    let body = SoilWorked {
        depth_mm: whole_u32(depth.mm()),
        share_bp: new.share.map(basis_points),
        tool: new.tool,
        by_tool: None,
    };
    first(&book.append(&[moment.draft(body)?.about(new.place)], &[], moment.wall_ms)?)
}
