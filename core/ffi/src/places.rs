//! Places: the list, one place with what happened there, a new place by typing or tape.

use std::collections::BTreeMap;

use kerfbook_acts::area::{self, AreaError, Measured};
use kerfbook_acts::error::ActError;
use kerfbook_acts::outline_place;
use kerfbook_acts::scenario::{Place, PlaceKind};
use kerfbook_acts::told_area::{give_or_take_of, sentence, wrong};
use kerfbook_acts::told_entry::Teller;
use kerfbook_acts::told_map;
use kerfbook_acts::tree_rows::{self, NewRows, gone};
use kerfbook_ledger::exchange::tape::{Sheet, Taped};
use kerfbook_ledger::{Body, Book, Current, EntryId, LedgerError, PlaceView as View, TreeState};
use kerfbook_picture::Screen;
use kerfbook_science::geometry::walk::QUANTILE_95;
use kerfbook_science::units::{Area, Length};

use crate::drawing::{DrawingView, drawing};
use crate::entries::{SavedView, saved};
use crate::error::{CoreError, capital};
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
    /// Four sides and the diagonals by tape, corner by corner; a triangle where the last two sides are empty.
    Sides {
        /// From the first corner to the second, m or feet.
        ab: String,
        /// From the second to the third.
        bc: String,
        /// From the third to the fourth.
        cd: String,
        /// From the fourth to the first.
        da: String,
        /// From the first to the third.
        ac: String,
        /// From the second to the fourth, the check; may be empty.
        bd: String,
    },
    /// Rows of trees of one size: a load may go to a run of them.
    Rows {
        /// Number of the first row.
        first_row: String,
        /// How many rows.
        rows: String,
        /// Places for trees in each row.
        trees: String,
        /// From tree to tree, m or feet.
        spacing: String,
        /// From row to row, m or feet; may be empty.
        row_spacing: String,
        /// Trunk to drip line, m or feet.
        radius: String,
        /// Kept free around the trunk, cm or inches; may be empty.
        gap: String,
        /// Trees that are missing, as row/tree, parted by spaces or commas.
        missing: String,
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
    /// It has rows of trees: a load may go to a run of them.
    pub rows: bool,
}

/// A place by itself.
#[derive(Debug, Clone, PartialEq, Eq, uniffi::Record)]
pub struct PlacePage {
    /// As in the list.
    pub line: PlaceLine,
    /// What happened there, newest first; at most 50.
    pub happened: Vec<String>,
}

/// Places to scale.
#[derive(Debug, Clone, PartialEq, uniffi::Record)]
pub struct MapView {
    /// The map; none where no place has a shape.
    pub drawing: Option<DrawingView>,
    /// Each place by its number on the map, and what lies there.
    pub lines: Vec<String>,
    /// How the places lie to each other, and what is not drawn.
    pub said: Vec<String>,
}

/// Most rows of trees of one place.
const MOST_ROWS: u32 = 1_000;
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

    /// Open places to scale, with what lies on them today.
    ///
    /// # Errors
    /// A book that cannot be read.
    pub fn map(&self) -> Result<MapView, CoreError> {
        let (speech, today) = (self.speech(), self.now()?.date()?);
        let words = &speech.words;
        let told = of_act(told_map::tell(&self.book(), today, words), "", &speech)?;
        Ok(told.map_or_else(
            || MapView { drawing: None, lines: Vec::new(), said: vec![words.label("phone-map-none")] },
            |told| MapView {
                drawing: Some(drawing(told.draw(Screen::Hand, words))),
                lines: told
                    .rows
                    .iter()
                    .map(|row| format!("{}. {}: {}", row.number, row.place, row.lies))
                    .collect(),
                said: told.said,
            },
        ))
    }

    /// Opens a place.
    ///
    /// # Errors
    /// A field that does not read, named; a book that cannot be written.
    pub fn outline_place(&self, new: NewPlace) -> Result<SavedView, CoreError> {
        let (speech, moment) = (self.speech(), self.moment()?);
        let label = speech.typed().name("label", &new.label)?;
        let size = size(&new, &speech)?;
        let mut book = self.book();
        let written = match &size {
            Sized::Typed(place, count) => outline_place::outline(&mut book, &label, place, *count, moment),
            Sized::Measured(measured) => {
                outline_place::outline_measured(&mut book, &label, kind_of(new.ground), measured, moment)
            }
            Sized::Rows(rows) => {
                tree_rows::outline(&mut book, &NewRows { label: &label, ..rows.clone() }, moment)
            }
        };
        let entry =
            written.map_err(|error| CoreError::of_act(&error, field_of(&error, &size), &speech.words))?;
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
    let square = |mm2: u64| Area::from_m2(crate::typed::float(mm2) / 1e6);
    let sd = view.measures.last().and_then(|last| last.area_sd_mm2);
    let area = give_or_take_of(square(view.area_mm2), sd.map(|sd| square(sd) * QUANTILE_95), words);
    PlaceLine {
        id: view.id.to_string(),
        label: view.label.as_str().to_owned(),
        ground: ground(kind),
        about: format!("{}, {area}", words.label(&format!("place-kind-{}", kind_id(kind)))),
        closed: view.closed.is_some(),
        rows: view.measures.last().is_some_and(|last| last.trees.is_some()),
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

/// A size that was read.
enum Sized {
    /// A figure, with how many containers or trees.
    Typed(Place, Option<u32>),
    /// Taped.
    Measured(Measured),
    /// Rows of trees, the label still to come.
    Rows(NewRows<'static>),
}

/// The field that a refusal is about.
fn field_of(error: &ActError, size: &Sized) -> &'static str {
    match (size, error) {
        (Sized::Typed(..), _) => "area",
        (Sized::Measured(_), _) => "length",
        (Sized::Rows(_), ActError::Figure { key, .. }) => match *key {
            "spacing_m" => "spacing",
            "row_spacing_m" => "row_spacing",
            "radius_m" => "radius",
            "gap_cm" => "gap",
            _ => "row_trees",
        },
        (Sized::Rows(_), _) => "missing",
    }
}

fn size(new: &NewPlace, speech: &Speech) -> Result<Sized, CoreError> {
    let typed = speech.typed();
    let kind = kind_of(new.ground);
    let of = |area: Area| Place { kind, area, area_sd: None, rooting_depth: None, container: None };
    Ok(match &new.size {
        Size::Area { area } => Sized::Typed(of(typed.area("area", area)?), None),
        Size::Taped { length, width } => {
            let (length, width) = (typed.length("length", length)?, typed.length("width", width)?);
            Sized::Measured(taped(area::of_rectangle(length, width), "length", speech)?)
        }
        Size::Sides { ab, bc, cd, da, ac, bd } => {
            let metres = |field, text: &str| Ok::<_, CoreError>(typed.length(field, text)?.m());
            let (first, second, across) = (metres("ab", ab)?, metres("bc", bc)?, metres("ac", ac)?);
            let sides = if cd.trim().is_empty() && da.trim().is_empty() {
                Taped::Triangle([first, second, across])
            } else {
                let check = if bd.trim().is_empty() { None } else { Some(metres("bd", bd)?) };
                Taped::Quadrilateral([first, second, metres("cd", cd)?, metres("da", da)?, across], check)
            };
            let measured = taped(area::of_sheet(&Sheet { feet: false, taped: sides }), "ac", speech)?;
            // One of the lengths is wrong, and nobody knows which.
            if let Some(remark) = measured.remarks.first() {
                let reason = sentence(remark, &speech.words);
                return Err(CoreError::BadInput { field: "bd".to_owned(), reason });
            }
            Sized::Measured(measured)
        }
        Size::Rows { first_row, rows, trees, spacing, row_spacing, radius, gap, missing } => {
            let rows = typed.count("rows", rows)?;
            if rows > MOST_ROWS {
                return Err(typed.wrong("rows", "phone-too-many-rows"));
            }
            let trees = typed.count("row_trees", trees)?;
            let (radius, gap) = ring(radius, gap, speech)?;
            let apart = if row_spacing.trim().is_empty() {
                None
            } else {
                Some(typed.length("row_spacing", row_spacing)?)
            };
            Sized::Rows(NewRows {
                label: "",
                first_row: typed.count("first_row", first_row)?,
                trees: (0..rows).map(|_| trees).collect(),
                spacing: typed.length("spacing", spacing)?,
                row_spacing: apart,
                radius,
                gap,
                unlike: typed
                    .trees("missing", missing)?
                    .into_iter()
                    .map(|(row, tree)| gone(row, tree, TreeState::Missing))
                    .collect(),
            })
        }
        Size::Rings { trees, radius, gap } => {
            let trees = typed.count("trees", trees)?;
            let (radius, gap) = ring(radius, gap, speech)?;
            let ring = circle(radius.m()) - circle(gap.m());
            Sized::Typed(of(Area::from_m2(ring * f64::from(trees))), Some(trees))
        }
        Size::Containers { count, volume, across } => {
            let count = typed.count("count", count)?;
            let volume = typed.volume("volume", volume)?;
            let across = typed.depth("across", across)?;
            let area = circle(across.m() / 2.0) * f64::from(count);
            Sized::Typed(Place { container: Some(volume), ..of(Area::from_m2(area)) }, Some(count))
        }
    })
}

/// Radius of a ring and the gap at its trunk.
fn ring(radius: &str, gap: &str, speech: &Speech) -> Result<(Length, Length), CoreError> {
    let typed = speech.typed();
    let radius = typed.length("radius", radius)?;
    let gap = if gap.trim().is_empty() { Length::from_mm(0.0) } else { typed.depth("gap", gap)? };
    if gap.m() >= radius.m() {
        return Err(typed.wrong("gap", "phone-gap-too-wide"));
    }
    Ok((radius, gap))
}

/// What was taped, or why it bounds nothing, beside a field.
fn taped(measured: Result<Measured, AreaError>, field: &str, speech: &Speech) -> Result<Measured, CoreError> {
    measured.map_err(|error| CoreError::BadInput {
        field: field.to_owned(),
        reason: capital(&wrong(&error).1.say(&speech.words)),
    })
}

fn circle(radius_m: f64) -> f64 {
    std::f64::consts::PI * radius_m * radius_m
}
