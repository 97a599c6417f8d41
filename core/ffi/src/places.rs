//! Places: the list, one place with what happened there, a new place by typing or tape.

use std::collections::BTreeMap;

use kerfbook_acts::outline_place;
use kerfbook_acts::scenario::{Place, PlaceKind};
use kerfbook_acts::told_entry::Teller;
use kerfbook_ledger::{Body, Book, Current, EntryId, LedgerError, PlaceView as View};
use kerfbook_science::units::{Area, Length};

use crate::entries::{SavedView, saved};
use crate::error::CoreError;
use crate::field_book::{FieldBook, Speech, of_act, of_book};

/// What sort of ground a place is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, uniffi::Enum)]
pub enum Ground {
    /// A bed.
    Bed,
    /// A row.
    Row,
    /// Rings under trees.
    Rings,
    /// A path.
    Path,
    /// Where heaps lie.
    Yard,
    /// Pots, bags, boxes.
    Container,
}

/// How big a place is, as it was typed or taped, in the reader's units.
#[derive(Debug, Clone, PartialEq, Eq, uniffi::Enum)]
pub enum Size {
    /// Its area.
    Area {
        /// m2 or square feet.
        area: String,
    },
    /// Length and width by tape.
    Taped {
        /// m or feet.
        length: String,
        /// m or feet.
        width: String,
    },
    /// Rings under trees of one size that do not touch.
    Rings {
        /// How many.
        trees: String,
        /// Trunk to drip line, m or feet.
        radius: String,
        /// Kept free around the trunk, cm or inches.
        gap: String,
    },
    /// Containers of one size.
    Containers {
        /// How many.
        count: String,
        /// Of each, litres or gallons.
        volume: String,
        /// Across the top, cm or inches.
        across: String,
    },
}

/// A new place.
#[derive(Debug, Clone, PartialEq, Eq, uniffi::Record)]
pub struct NewPlace {
    /// What it is called.
    pub label: String,
    /// What ground it is.
    pub ground: Ground,
    /// How big.
    pub size: Size,
}

/// A place in a list.
#[derive(Debug, Clone, PartialEq, Eq, uniffi::Record)]
pub struct PlaceLine {
    /// Its id.
    pub id: String,
    /// What it is called.
    pub label: String,
    /// What ground it is.
    pub ground: Ground,
    /// Ground and size, told.
    pub about: String,
    /// It is closed.
    pub closed: bool,
}

/// A place by itself.
#[derive(Debug, Clone, PartialEq, Eq, uniffi::Record)]
pub struct PlacePage {
    /// As in the list.
    pub line: PlaceLine,
    /// What happened there, newest first; at most 50.
    pub happened: Vec<String>,
}

/// Most that is told of what happened on a place.
const HAPPENED: usize = 50;

#[uniffi::export]
impl FieldBook {
    /// All places that were not withdrawn, open ones first, each group by name.
    ///
    /// # Errors
    /// A book that cannot be read.
    pub fn places(&self) -> Result<Vec<PlaceLine>, CoreError> {
        let speech = self.speech();
        lines(&self.book(), &speech)
    }

    /// One place.
    ///
    /// # Errors
    /// A place that is not there, or a book that cannot be read.
    pub fn place(&self, place: String) -> Result<PlacePage, CoreError> {
        let speech = self.speech();
        let id = speech.typed().entry("place", &place)?;
        let book = self.book();
        let view =
            of_book(book.place(id), &speech)?.ok_or_else(|| speech.typed().wrong("place", "phone-choose"))?;
        let teller = of_book(Teller::new(&book, &speech.words), &speech)?;
        let happened = of_book(here(&book, id), &speech)?
            .iter()
            .rev()
            .take(HAPPENED)
            .map(|current| {
                let told = of_book(teller.tell(current), &speech)?;
                Ok(format!("{}: {}", speech.words.date_with_year(current.date.naive()), told.text))
            })
            .collect::<Result<_, CoreError>>()?;
        Ok(PlacePage { line: line(&view, &speech), happened })
    }

    /// Opens a place.
    ///
    /// # Errors
    /// A field that does not read, named; a book that cannot be written.
    pub fn outline_place(&self, new: NewPlace) -> Result<SavedView, CoreError> {
        let (speech, moment) = (self.speech(), self.moment()?);
        let label = speech.typed().name("label", &new.label)?;
        let (place, count) = size(&new, &speech)?;
        let mut book = self.book();
        let entry =
            of_act(outline_place::outline(&mut book, &label, &place, count, moment), "area", &speech)?;
        saved(&book, entry, &speech)
    }
}

/// What happened on a place in order of days, as corrected: what was moved here is in it, what was moved away is not.
fn here(book: &Book, place: EntryId) -> Result<Vec<Current>, LedgerError> {
    let mut here: BTreeMap<EntryId, Current> = BTreeMap::new();
    for current in book.naming(place)? {
        let target = match &current.body {
            Body::EntryCorrected(correction) => book.current(correction.target)?,
            _ => Some(current),
        };
        if let Some(current) = target.filter(|target| target.subject == Some(place) && target.counts()) {
            here.insert(current.original.id, current);
        }
    }
    let mut here: Vec<Current> = here.into_values().collect();
    here.sort_by_key(|current| (current.date, current.original.hlc));
    Ok(here)
}

/// All places for lists.
pub(crate) fn lines(book: &Book, speech: &Speech) -> Result<Vec<PlaceLine>, CoreError> {
    let mut lines: Vec<PlaceLine> = of_book(book.places(), speech)?
        .iter()
        .filter(|view| !view.withdrawn())
        .map(|view| line(view, speech))
        .collect();
    lines.sort_by(|a, b| (a.closed, &a.label).cmp(&(b.closed, &b.label)));
    Ok(lines)
}

fn line(view: &View, speech: &Speech) -> PlaceLine {
    let words = &speech.words;
    let kind: PlaceKind = view.place_kind.into();
    let area = words.area(Area::from_m2(crate::typed::float(view.area_mm2) / 1e6));
    PlaceLine {
        id: view.id.to_string(),
        label: view.label.as_str().to_owned(),
        ground: ground(kind),
        about: format!("{}, {area}", words.label(&format!("place-kind-{}", kind_id(kind)))),
        closed: view.closed.is_some(),
    }
}

const fn ground(kind: PlaceKind) -> Ground {
    match kind {
        PlaceKind::Bed | PlaceKind::Plot => Ground::Bed,
        PlaceKind::Row => Ground::Row,
        PlaceKind::Rings => Ground::Rings,
        PlaceKind::Path => Ground::Path,
        PlaceKind::Yard => Ground::Yard,
        PlaceKind::Container => Ground::Container,
    }
}

pub(crate) const fn kind_of(ground: Ground) -> PlaceKind {
    match ground {
        Ground::Bed => PlaceKind::Bed,
        Ground::Row => PlaceKind::Row,
        Ground::Rings => PlaceKind::Rings,
        Ground::Path => PlaceKind::Path,
        Ground::Yard => PlaceKind::Yard,
        Ground::Container => PlaceKind::Container,
    }
}

const fn kind_id(kind: PlaceKind) -> &'static str {
    match kind {
        PlaceKind::Bed => "bed",
        PlaceKind::Plot => "plot",
        PlaceKind::Row => "row",
        PlaceKind::Rings => "tree-rings",
        PlaceKind::Path => "path",
        PlaceKind::Yard => "yard",
        PlaceKind::Container => "container",
    }
}

fn size(new: &NewPlace, speech: &Speech) -> Result<(Place, Option<u32>), CoreError> {
    let typed = speech.typed();
    let kind = kind_of(new.ground);
    let of = |area: Area| Place { kind, area, area_sd: None, rooting_depth: None, container: None };
    Ok(match &new.size {
        Size::Area { area } => (of(typed.area("area", area)?), None),
        Size::Taped { length, width } => {
            let (length, width) = (typed.length("length", length)?, typed.length("width", width)?);
            (of(Area::from_m2(length.m() * width.m())), None)
        }
        Size::Rings { trees, radius, gap } => {
            let trees = typed.count("trees", trees)?;
            let radius = typed.length("radius", radius)?;
            let gap = if gap.trim().is_empty() { Length::from_mm(0.0) } else { typed.depth("gap", gap)? };
            if gap.m() >= radius.m() {
                return Err(typed.wrong("gap", "phone-gap-too-wide"));
            }
            let ring = circle(radius.m()) - circle(gap.m());
            (of(Area::from_m2(ring * f64::from(trees))), Some(trees))
        }
        Size::Containers { count, volume, across } => {
            let count = typed.count("count", count)?;
            let volume = typed.volume("volume", volume)?;
            let across = typed.depth("across", across)?;
            let area = circle(across.m() / 2.0) * f64::from(count);
            (Place { container: Some(volume), ..of(Area::from_m2(area)) }, Some(count))
        }
    })
}

fn circle(radius_m: f64) -> f64 {
    std::f64::consts::PI * radius_m * radius_m
}
