//! Places from a file into the book: what each is, how large, and how that is known. All of them, or none.

use kerfbook_ledger::exchange::{self, Drawn, ExchangeError, Feature, Shape, Track, Wrong};
use kerfbook_ledger::kind::{Measured as EntryMeasured, PlaceKind, PlaceOutlined, PlaceReoutlined};
use kerfbook_ledger::{Book, EntryId, Label, RawAccuracy, RawFix, Text, Walked as EntryWalked, write_fixes};
use kerfbook_science::geometry::advice::Advice;
use kerfbook_science::geometry::walk::{Manner, QUANTILE_95};
use kerfbook_science::units::{Area, Length};

use crate::area::{self, AreaError, Measured, Method, Remark};
use crate::error::ActError;
use crate::figure::{whole, whole_u32};
use crate::moment::Moment;
use crate::outline::{self, Sketch};

/// Largest place that is believed, m2.
pub(crate) const MOST_M2: f64 = 1e8;
/// Part by which the area of an outline may differ from what its file says of it, and the outline still be the same.
const SAME_OUTLINE: f64 = 1e-6;
/// The same in m2: what cutting at the antimeridian may change.
const SAME_OUTLINE_M2: f64 = 0.01;

/// How a file is read.
#[derive(Debug, Clone, Copy)]
pub struct Reading<'a> {
    /// What places are that do not say it.
    pub kind: PlaceKind,
    /// What a place without a name is called; several are numbered.
    pub name: Option<&'a str>,
    /// How walks were taken.
    pub manner: Manner,
    /// Whether an outline that crosses itself stands for the ground that it goes round.
    pub repair: bool,
}

/// A place of a file, measured.
#[derive(Debug, Clone, PartialEq)]
pub struct FilePlace {
    /// Line on which it begins, from 1; 0 for a tape sheet.
    pub line: usize,
    /// What it is called.
    pub label: Label,
    /// What kind of ground.
    pub kind: PlaceKind,
    /// How its size came about.
    pub measured: EntryMeasured,
    /// Its area.
    pub area: Area,
    /// Standard uncertainty of the area, where it is known.
    pub area_sd: Option<Area>,
    /// Number of containers or trees.
    pub containers: Option<u32>,
    /// Volume of one container, mL.
    pub container_ml: Option<u64>,
    /// Depth that roots reach.
    pub rooting_depth: Option<Length>,
    /// What to know of it.
    pub remarks: Vec<Remark>,
    sketch: Sketch,
    walk: Option<(EntryWalked, Vec<Vec<RawFix>>)>,
}

/// The places of a file.
#[derive(Debug, Clone, PartialEq)]
pub struct FilePlaces {
    /// In the file's order.
    pub places: Vec<FilePlace>,
    /// Features without an outline, a walk or an area: points, lines, headings.
    pub passed_over: usize,
}

/// A place of a file that cannot be taken.
#[derive(Debug, Clone, PartialEq)]
pub struct Untaken {
    /// Line on which it begins, from 1; 0 where it is the file as a whole.
    pub line: usize,
    /// Which place of the file, from 1; 0 where it is the file as a whole.
    pub number: usize,
    /// What it is called.
    pub name: Option<String>,
    /// Why.
    pub why: Why,
}

/// Why a place cannot be taken.
#[derive(Debug, Clone, PartialEq)]
pub enum Why {
    /// The file does not read.
    File(ExchangeError),
    /// Its shape bounds nothing.
    Area(AreaError),
    /// Its outline crosses itself.
    Crosses {
        /// With lobes against each other.
        signed: Area,
        /// The ground it goes round.
        covered: Area,
    },
    /// It has no name, and none was given.
    NoName,
    /// A name that no label can be.
    Name,
    /// Two places of the file have this name.
    Twice,
    /// A place of the book has this name.
    InBook,
    /// Several places of the book have this name, so which one is meant cannot be told.
    TwiceInBook,
    /// No kind of place.
    Kind {
        /// As written.
        text: String,
    },
    /// A figure that is none, or out of bounds.
    Figure {
        /// Its key.
        key: &'static str,
        /// As written.
        text: String,
    },
    /// Larger than any place.
    TooLarge,
}

/// Reads and measures the places of a file; all that is wrong with it is told at once.
///
/// # Errors
/// What cannot be taken, place by place.
pub fn places(text: &str, reading: &Reading<'_>) -> Result<FilePlaces, Vec<Untaken>> {
    let whole = |why| vec![Untaken { line: 0, number: 0, name: None, why }];
    let features = match exchange::read(text) {
        Ok(Drawn::Places(features)) => features,
        Ok(Drawn::Tape(sheet)) => {
            let measured = area::of_sheet(&sheet).map_err(|error| whole(Why::Area(error)))?;
            let name = reading.name.map(ToOwned::to_owned);
            let feature = Feature { name: name.clone(), ..Feature::at(0) };
            let untaken = |why| vec![Untaken { line: 0, number: 1, name, why }];
            let place = place(&feature, Some(measured), reading).map_err(untaken)?;
            return Ok(FilePlaces { places: vec![place], passed_over: 0 });
        }
        Err(error) => {
            return Err(vec![Untaken { line: error.line, number: 0, name: None, why: Why::File(error) }]);
        }
    };
    let is_place =
        |feature: &&Feature| feature.shape != Shape::Unknown || feature.figure("area_m2").is_some();
    let all = features.len();
    let features: Vec<&Feature> = features.iter().filter(is_place).collect();
    if features.is_empty() {
        return Err(whole(Why::File(ExchangeError { line: 0, wrong: Wrong::NoPlace })));
    }
    let nameless = features.iter().filter(|feature| feature.name.is_none()).count();
    let (mut places, mut untaken) = (Vec::new(), Vec::new());
    let mut unnamed = 0;
    for (index, feature) in features.iter().enumerate() {
        let mut named = (*feature).clone();
        if named.name.is_none() {
            unnamed += 1;
            let numbered =
                |name: &str| if nameless > 1 { format!("{name} {unnamed}") } else { name.to_owned() };
            named.name = reading.name.map(numbered);
        }
        let outcome = area::of_feature(&named, reading.manner, reading.repair)
            .map_err(Why::Area)
            .and_then(|measured| place(&named, measured, reading));
        let outcome = outcome.and_then(|place: FilePlace| {
            let twice = places.iter().any(|other: &FilePlace| other.label == place.label);
            if twice { Err(Why::Twice) } else { Ok(place) }
        });
        match outcome {
            Ok(place) => places.push(place),
            Err(why) => {
                untaken.push(Untaken { line: feature.line, number: index + 1, name: named.name, why });
            }
        }
    }
    if untaken.is_empty() {
        Ok(FilePlaces { places, passed_over: all - features.len() })
    } else {
        Err(untaken)
    }
}

/// A place that was walked round: the fixes of each part of the walk, as the receiver gave them.
///
/// # Errors
/// A walk that bounds nothing, a name that no label can be, a place larger than any.
pub fn walked(name: &str, kind: PlaceKind, track: Track, manner: Manner) -> Result<FilePlace, Why> {
    let feature = Feature { name: Some(name.to_owned()), shape: Shape::Track(track), ..Feature::at(0) };
    let reading = Reading { kind, name: None, manner, repair: true };
    let measured = area::of_feature(&feature, manner, true).map_err(Why::Area)?;
    place(&feature, measured, &reading)
}

/// One place, with the area that its file states where the outline is still the one that the file speaks of.
fn place(feature: &Feature, measured: Option<Measured>, reading: &Reading<'_>) -> Result<FilePlace, Why> {
    let name = feature.name.as_deref().ok_or(Why::NoName)?;
    let label = Label::new(name.trim()).map_err(|_| Why::Name)?;
    let kind = match feature.figure("kind") {
        Some(text) => PlaceKind::from_name(text).ok_or_else(|| Why::Kind { text: text.to_owned() })?,
        None => reading.kind,
    };
    let stated = stated(feature)?;
    let crossed = measured.iter().flat_map(|measured| &measured.remarks).find_map(|remark| match remark {
        Remark::Advice(Advice::Crosses { signed, covered }) => {
            Some(Why::Crosses { signed: *signed, covered: *covered })
        }
        _ => None,
    });
    let is_drawn = measured.as_ref().is_some_and(|measured| measured.method == Method::Drawn);
    if let (Some(crossed), true) = (crossed, is_drawn) {
        return Err(crossed);
    }
    let track = match &feature.shape {
        Shape::Track(track) => Some(track),
        _ => None,
    };
    let (how, area, area_sd) = match (&measured, stated) {
        (Some(_), Some(stated)) if is_unchanged(feature) => (stated.measured, stated.area, stated.area_sd),
        (None, Some(stated)) => (stated.measured, stated.area, stated.area_sd),
        (Some(measured), _) => {
            let sd = measured.half_width_95.map(|half| Area::from_m2(half.m2() / QUANTILE_95));
            (measured.method.into(), measured.area, sd)
        }
        (None, None) => return Err(Why::Figure { key: "area_m2", text: String::new() }),
    };
    if area.m2() > MOST_M2 {
        return Err(Why::TooLarge);
    }
    if whole(area.m2() * 1e6) == 0 {
        let text = feature.figure("area_m2").unwrap_or("0").to_owned();
        return Err(Why::Figure { key: "area_m2", text });
    }
    let walk = track.zip(measured.as_ref()).and_then(|(track, measured)| {
        let walked = measured.walked.as_ref()?;
        let used = u32::try_from(walked.used).unwrap_or(u32::MAX);
        let kept = EntryWalked {
            drms_mm: whole_u32(walked.drms.mm()),
            correlation_s: whole_u32(reading.manner.correlation_s),
            used,
            left_out: walked.left_out.all(),
            laps: u32::try_from(walked.laps.len()).unwrap_or(u32::MAX),
            fixes: Vec::new(),
        };
        Some((kept, raw(track)))
    });
    let (sketch, remarks) = match measured {
        Some(measured) => (measured.sketch, measured.remarks),
        None => (local(feature), Vec::new()),
    };
    if sketch.kept().is_none() {
        return Err(Why::TooLarge);
    }
    let positive = |key: &'static str, most: f64| match figure(feature, key)? {
        Some(value) if !(value > 0.0 && value <= most) => Err(none(feature, key)),
        other => Ok(other),
    };
    Ok(FilePlace {
        line: feature.line,
        label,
        kind,
        measured: how,
        area,
        area_sd,
        containers: positive("containers", 1e6)?.map(whole_u32),
        container_ml: positive("container_l", 1e5)?.map(|litres| whole(litres * 1e3)),
        rooting_depth: positive("rooting_depth_cm", 300.0)?.map(Length::from_cm),
        remarks,
        sketch,
        walk,
    })
}

/// What a file says of a size.
struct Stated {
    measured: EntryMeasured,
    area: Area,
    area_sd: Option<Area>,
}

fn stated(feature: &Feature) -> Result<Option<Stated>, Why> {
    let Some(area) = figure(feature, "area_m2")? else { return Ok(None) };
    if area <= 0.0 {
        return Err(none(feature, "area_m2"));
    }
    let area_sd = match figure(feature, "area_sd_m2")? {
        Some(sd) if !(0.0..=MOST_M2).contains(&sd) => return Err(none(feature, "area_sd_m2")),
        other => other.map(Area::from_m2),
    };
    let measured = match feature.figure("measured") {
        Some(text) => EntryMeasured::from_name(text).ok_or_else(|| none(feature, "measured"))?,
        None => EntryMeasured::Typed,
    };
    Ok(Some(Stated { measured, area: Area::from_m2(area), area_sd }))
}

/// Whether the shape is the one that the file's figures were written for: its own area is noted beside them.
fn is_unchanged(feature: &Feature) -> bool {
    let Some(noted) = feature.figure("outline_m2").and_then(|text| exchange::figure(text).ok()) else {
        return false;
    };
    let drawn = match &feature.shape {
        Shape::Unknown => return true,
        Shape::Polygons(polygons) => outline::area_m2(polygons),
        Shape::Track(track) => outline::area_m2(&exchange::outlines(track)),
    };
    drawn.is_some_and(|drawn| (drawn - noted).abs() <= SAME_OUTLINE_M2 + SAME_OUTLINE * noted.abs())
}

/// An outline in metres of its own frame, as sheets of taped places keep it.
fn local(feature: &Feature) -> Sketch {
    let drawn = feature.figure("local_outline_m").and_then(|text| exchange::wkt::read(text).ok());
    let shapes = drawn.into_iter().flatten().map(|feature| feature.shape);
    let polygons = shapes.filter_map(|shape| match shape {
        Shape::Polygons(polygons) => Some(polygons),
        _ => None,
    });
    let ring = |ring: &exchange::Ring| -> Vec<_> {
        let open = if ring.len() > 1 && ring.first() == ring.last() { ring.len() - 1 } else { ring.len() };
        ring.iter().take(open).map(|[x, y]| kerfbook_science::geometry::frame::Point::new(*x, *y)).collect()
    };
    let rings = polygons.flatten().flat_map(|polygon| {
        std::iter::once(&polygon.outer).chain(&polygon.holes).map(ring).collect::<Vec<_>>()
    });
    Sketch::taped(rings.collect())
}

fn figure(feature: &Feature, key: &'static str) -> Result<Option<f64>, Why> {
    match feature.figure(key) {
        Some(text) => exchange::figure(text).map(Some).map_err(|_| none(feature, key)),
        None => Ok(None),
    }
}

fn none(feature: &Feature, key: &'static str) -> Why {
    Why::Figure { key, text: feature.figure(key).unwrap_or_default().chars().take(40).collect() }
}

impl From<Method> for EntryMeasured {
    fn from(method: Method) -> Self {
        match method {
            Method::Drawn => Self::File,
            Method::Walked => Self::Walked,
            Method::Sides | Method::Offsets | Method::Corners => Self::Taped,
            Method::Traverse => Self::Traverse,
        }
    }
}

/// Fixes as the receiver gave them.
#[expect(clippy::cast_possible_truncation, reason = "degrees within 360")]
fn raw(track: &Track) -> Vec<Vec<RawFix>> {
    let e7 = |degrees: f64| (degrees * 1e7).round() as i32;
    let fixes = track.segments.iter().map(|segment| {
        segment.iter().map(|point| RawFix {
            latitude_e7: e7(point.latitude),
            longitude_e7: e7(if point.longitude > 180.0 { point.longitude - 360.0 } else { point.longitude }),
            time_ms: point.time_ms.unwrap_or_default(),
            accuracy: match (point.accuracy_m, point.hdop) {
                (Some(metres), _) => RawAccuracy::Radius(whole_u32(metres * 1e3)),
                (None, Some(hdop)) => RawAccuracy::Dilution(whole_u32(hdop * 1e2)),
                (None, None) => RawAccuracy::Unknown,
            },
        })
    });
    fixes.map(Iterator::collect).collect()
}

/// Whether the book has places of these names; with `anew`, whether it can be told which one is meant.
///
/// # Errors
/// A book that cannot be read.
pub fn in_the_way(book: &Book, places: &[FilePlace], anew: bool) -> Result<Vec<Untaken>, ActError> {
    let there = book.places()?;
    let called = |place: &FilePlace| {
        let open = there.iter().filter(|known| !known.withdrawn() && known.closed.is_none());
        open.filter(|known| known.label == place.label).count()
    };
    let untaken = places.iter().enumerate().filter_map(|(index, place)| {
        let why = match (called(place), anew) {
            (0, _) | (1, true) => return None,
            (_, false) => Why::InBook,
            (_, true) => Why::TwiceInBook,
        };
        let name = Some(place.label.as_str().to_owned());
        Some(Untaken { line: place.line, number: index + 1, name, why })
    });
    Ok(untaken.collect())
}

/// Writes the places: a new one each, or, where the book has one of that name, its new size. `salt` gives 16 random
/// bytes for a text of fixes.
///
/// # Errors
/// A book that cannot be written, no salt.
pub fn import<E: From<ActError>>(
    book: &mut Book,
    places: &[FilePlace],
    mut salt: impl FnMut() -> Result<[u8; 16], E>,
    moment: Moment,
) -> Result<Vec<EntryId>, E> {
    let there = book.places().map_err(ActError::from)?;
    let (mut drafts, mut texts) = (Vec::new(), Vec::new());
    for place in places {
        let walk = match &place.walk {
            Some((walked, fixes)) => {
                let mut walked = walked.clone();
                for text in write_fixes(fixes) {
                    let text = Text::new(salt()?, &text);
                    walked.fixes.push(text.hash());
                    texts.push(text);
                }
                Some(walked)
            }
            None => None,
        };
        let missing = || ActError::Missing { key: "outline", why: "an outline reaches less than 2,000 km" };
        let (anchor, outline, further) = place.sketch.kept().ok_or_else(missing)?;
        let area_mm2 = whole(place.area.m2() * 1e6);
        let area_sd_mm2 = place.area_sd.map(|sd| whole(sd.m2() * 1e6));
        let rooting_depth_mm = place.rooting_depth.map(|depth| whole_u32(depth.mm()));
        let known = there
            .iter()
            .find(|known| known.label == place.label && !known.withdrawn() && known.closed.is_none());
        drafts.push(match known {
            Some(known) => {
                let body = PlaceReoutlined {
                    anchor,
                    outline,
                    further,
                    walk,
                    area_sd_mm2,
                    container_ml: place.container_ml.or(known.container_ml),
                    containers: place.containers.or(known.containers),
                    rooting_depth_mm: rooting_depth_mm.or(known.rooting_depth_mm),
                    trees: known.measures.last().and_then(|last| last.trees.clone()),
                    ..PlaceReoutlined::of(place.measured, area_mm2)
                };
                moment.draft(body)?.about(known.id)
            }
            None => moment.draft(PlaceOutlined {
                anchor,
                outline,
                further,
                walk,
                area_sd_mm2,
                container_ml: place.container_ml,
                containers: place.containers,
                rooting_depth_mm,
                ..PlaceOutlined::of(place.label.clone(), place.kind, place.measured, area_mm2)
            })?,
        });
    }
    Ok(book.append(&drafts, &texts, moment.wall_ms).map_err(ActError::from)?)
}
