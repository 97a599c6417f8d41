//! The map in words and lines: places to scale, numbered, and what lies where.

use chrono::NaiveDate;
use kerfbook_ledger::{Book, EntryId};
use kerfbook_picture::{DisplayList, Lies, MapChart, MapLabels, MapPlace, Ring, Screen, Sheet};
use kerfbook_science::units::Length;
use kerfbook_words::{Units, Words};

use crate::error::ActError;
use crate::map::{self, OnMap};
use crate::scenario::Way;

/// The map and its list.
#[derive(Debug, Clone)]
pub struct ToldMap {
    /// Outlines, rings and patterns.
    pub chart: MapChart,
    /// One a place that is drawn, in the order of their numbers.
    pub rows: Vec<MapRow>,
    /// How the places lie to each other, and what is not drawn.
    pub said: Vec<String>,
}

/// A place of the map.
#[derive(Debug, Clone)]
pub struct MapRow {
    /// As on the map.
    pub number: String,
    /// Its name.
    pub place: String,
    /// What lies there.
    pub lies: String,
}

impl ToldMap {
    /// Drawn for a screen.
    pub fn draw(&self, screen: Screen, words: &Words) -> DisplayList {
        self.chart.draw(screen, |count| words.length(unit(words) * count))
    }
}

/// Under this depth a layer is hardly there.
const HARDLY_ANY: Length = Length::from_mm(2.0);

/// The map of a book on a day; none where no place has a shape.
///
/// # Errors
/// A book that cannot be read.
pub fn tell(book: &Book, on: NaiveDate, words: &Words) -> Result<Option<ToldMap>, ActError> {
    let found = map::map(book, on)?;
    let names: Vec<(EntryId, String)> =
        book.places()?.into_iter().map(|view| (view.id, view.label.as_str().to_owned())).collect();
    let name = |place: EntryId| {
        names.iter().find(|(id, _)| *id == place).map(|(_, name)| name.clone()).unwrap_or_default()
    };
    let drawn: Vec<&OnMap> = found.joined.iter().chain(&found.apart).collect();
    if drawn.is_empty() {
        return Ok(None);
    }
    let numbered = |from: usize, places: &[OnMap]| -> Vec<MapPlace> {
        (from..).zip(places).map(|(number, place)| on_sheet(number, place)).collect()
    };
    let joined = Sheet { places: numbered(1, &found.joined) };
    let apart = numbered(found.joined.len() + 1, &found.apart);
    let sheets: Vec<Sheet> = std::iter::once(joined)
        .filter(|sheet| !sheet.places.is_empty())
        .chain(apart.into_iter().map(|place| Sheet { places: vec![place] }))
        .collect();
    let mut there: Vec<Lies> = drawn.iter().map(|place| lies(place.lies)).collect();
    there.sort_unstable();
    there.dedup();
    let chart = MapChart {
        title: words.label("map-title"),
        description: words.label("map-about"),
        sheets,
        unit_m: unit(words).m(),
        labels: MapLabels {
            north: if found.joined.is_empty() { String::new() } else { words.label("map-north") },
            lies: there.into_iter().map(|lies| (lies, told(lies, words))).collect(),
        },
    };
    let rows = (1_usize..)
        .zip(&drawn)
        .map(|(number, place)| MapRow {
            number: number.to_string(),
            place: name(place.place),
            lies: match place.depth {
                Some(depth) if depth < HARDLY_ANY => {
                    words.say("map-hardly-any", &[("way", told(lies(place.lies), words))])
                }
                Some(depth) => words.say(
                    "map-lies-deep",
                    &[("way", told(lies(place.lies), words)), ("depth", words.depth(depth))],
                ),
                None => told(lies(place.lies), words),
            },
        })
        .collect();
    let mut said = vec![words.label(match (found.joined.len(), found.apart.len()) {
        (0, _) => "map-all-apart",
        (_, 0) => "map-joined",
        _ => "map-some-apart",
    })];
    if drawn.iter().any(|place| !place.trees.is_empty()) {
        said.push(words.label("map-trees"));
    }
    if !found.unmapped.is_empty() {
        let places: Vec<String> = found.unmapped.iter().map(|place| name(*place)).collect();
        said.push(words.say("map-not-drawn", &[("places", places.join(", "))]));
    }
    Ok(Some(ToldMap { chart, rows, said }))
}

fn on_sheet(number: usize, place: &OnMap) -> MapPlace {
    MapPlace {
        number: number.to_string(),
        outline: place.outline.iter().map(|at| [at.x, at.y]).collect(),
        further: place.further.iter().map(|ring| ring.iter().map(|at| [at.x, at.y]).collect()).collect(),
        rings: place
            .trees
            .iter()
            .map(|tree| Ring { at: [tree.at.x, tree.at.y], radius: tree.radius_m, gap: tree.gap_m })
            .collect(),
        lies: lies(place.lies),
    }
}

const fn lies(way: Option<Way>) -> Lies {
    match way {
        None => Lies::Nothing,
        Some(Way::WorkedIn) => Lies::WorkedIn,
        Some(Way::OnTop) => Lies::OnTop,
        Some(Way::OnTopOverNitrogen) => Lies::OverNitrogen,
        Some(Way::CompostedFirst) => Lies::Composted,
        Some(Way::Path) => Lies::Path,
        Some(Way::Ring) => Lies::Ring,
    }
}

fn told(lies: Lies, words: &Words) -> String {
    match lies {
        Lies::Nothing => words.label("map-nothing"),
        Lies::WorkedIn => words.way(Way::WorkedIn.name()),
        Lies::OnTop => words.way(Way::OnTop.name()),
        Lies::OverNitrogen => words.way(Way::OnTopOverNitrogen.name()),
        Lies::Composted => words.way(Way::CompostedFirst.name()),
        Lies::Path => words.way(Way::Path.name()),
        Lies::Ring => words.way(Way::Ring.name()),
    }
}

/// What the bar counts in.
fn unit(words: &Words) -> Length {
    match words.units() {
        Units::Metric => Length::from_m(1.0),
        Units::Us => Length::from_feet(1.0),
    }
}
