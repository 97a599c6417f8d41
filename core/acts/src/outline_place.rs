//! Naming a place and its size.

use kerfbook_ledger::kind::{Measured, PlaceKind as EntryPlaceKind, PlaceOutlined};
use kerfbook_ledger::{Anchor, Book, EntryId, Label, Outline};
use kerfbook_science::geometry::walk::QUANTILE_95;

use crate::area;
use crate::error::ActError;
use crate::figure::{millilitres, whole, whole_u32};
use crate::import_places;
use crate::moment::Moment;
use crate::scenario::{Place, PlaceKind};
use crate::take_in_load::first;

/// Opens a place whose area was typed.
///
/// # Errors
/// A label that is too long, an area of nothing, or a book that cannot be written.
pub fn outline(
    book: &mut Book,
    label: &str,
    place: &Place,
    count: Option<u32>,
    moment: Moment,
) -> Result<EntryId, ActError> {
    outline_with(book, label, place, count, Shape::default(), moment)
}

/// The shape of a place, where more than its size is known.
#[derive(Debug, Clone, PartialEq)]
pub struct Shape {
    /// How it was measured.
    pub measured: Measured,
    /// Where its frame lies on the ground.
    pub anchor: Option<Anchor>,
    /// Its corners; two of them are a line.
    pub outline: Outline,
}

impl Default for Shape {
    fn default() -> Self {
        Self { measured: Measured::Typed, anchor: None, outline: Outline::default() }
    }
}

/// Opens a place with its shape.
///
/// # Errors
/// As [`outline`].
pub fn outline_with(
    book: &mut Book,
    label: &str,
    place: &Place,
    count: Option<u32>,
    shape: Shape,
    moment: Moment,
) -> Result<EntryId, ActError> {
    let area_mm2 = whole(place.area.m2() * 1e6);
    if area_mm2 == 0 {
        return Err(ActError::Missing { key: "place.area_m2", why: "a place has a size" });
    }
    let body = PlaceOutlined {
        anchor: shape.anchor,
        outline: shape.outline,
        container_ml: place.container.map(millilitres),
        containers: count,
        area_sd_mm2: place.area_sd.map(|sd| whole(sd * place.area.m2() * 1e6)),
        rooting_depth_mm: place.rooting_depth.map(|depth| whole_u32(depth.mm())),
        ..PlaceOutlined::of(Label::new(label)?, place.kind.into(), shape.measured, area_mm2)
    };
    first(&book.append(&[moment.draft(body)?], &[], moment.wall_ms)?)
}

/// Opens a place of a measured area, with its range and, where it is known, its shape.
///
/// # Errors
/// As [`outline`]; a place that reaches too far for millimetres.
pub fn outline_measured(
    book: &mut Book,
    label: &str,
    kind: PlaceKind,
    measured: &area::Measured,
    moment: Moment,
) -> Result<EntryId, ActError> {
    let m2 = measured.area.m2();
    let most = ActError::Figure { key: "place.area_m2", value: m2, low: 0.0, high: import_places::MOST_M2 };
    let (anchor, outline, _) = measured.sketch.kept().ok_or(most)?;
    let place = Place {
        kind,
        area: measured.area,
        area_sd: measured.half_width_95.map(|half| half.m2() / QUANTILE_95 / m2),
        rooting_depth: None,
        container: None,
    };
    let shape = Shape { measured: measured.method.into(), anchor, outline };
    outline_with(book, label, &place, None, shape, moment)
}

impl From<PlaceKind> for EntryPlaceKind {
    fn from(kind: PlaceKind) -> Self {
        match kind {
            PlaceKind::Bed => Self::Bed,
            PlaceKind::Row => Self::Row,
            PlaceKind::Rings => Self::Rings,
            PlaceKind::Path => Self::Path,
            PlaceKind::Yard => Self::Yard,
            PlaceKind::Plot => Self::Plot,
            PlaceKind::Container => Self::Container,
        }
    }
}

impl From<EntryPlaceKind> for PlaceKind {
    fn from(kind: EntryPlaceKind) -> Self {
        match kind {
            EntryPlaceKind::Bed => Self::Bed,
            EntryPlaceKind::Row => Self::Row,
            EntryPlaceKind::Rings => Self::Rings,
            EntryPlaceKind::Path => Self::Path,
            EntryPlaceKind::Yard => Self::Yard,
            EntryPlaceKind::Plot => Self::Plot,
            EntryPlaceKind::Container => Self::Container,
        }
    }
}
