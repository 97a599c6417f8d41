//! Walking round a place: the walk as it stands, and the place that it outlines.

use kerfbook_acts::area::{self, AreaError, Measured};
use kerfbook_acts::import_places::{self, Why};
use kerfbook_acts::told_area::{give_or_take, sentence, wrong};
use kerfbook_ledger::exchange::{Feature, Shape, Track, TrackPoint};
use kerfbook_picture::{PathChart, Screen};
use kerfbook_science::geometry::frame::{Frame, Position};
use kerfbook_science::geometry::walk::Manner;
use kerfbook_science::units::Length;
use kerfbook_words::Units;

use crate::drawing::{DrawingView, drawing};
use crate::entries::{SavedView, saved};
use crate::error::{CoreError, capital};
use crate::field_book::{FieldBook, Speech, random};
use crate::places::{Ground, kind_of};

/// A fix of the receiver.
#[derive(Debug, Clone, Copy, PartialEq, uniffi::Record)]
pub struct FixGiven {
    /// Degrees, north positive.
    pub latitude_deg: f64,
    /// Degrees, east positive.
    pub longitude_deg: f64,
    /// Milliseconds since 1970, UTC.
    pub time_ms: i64,
    /// Radius in which it lies, as the receiver believes, m; 0 or below where it does not say.
    pub accuracy_m: f64,
}

/// A walk.
#[derive(Debug, Clone, PartialEq, uniffi::Record)]
pub struct WalkGiven {
    /// Fixes of each part; a part ends where the walk was interrupted.
    pub parts: Vec<Vec<FixGiven>>,
    /// It went under trees.
    pub under_trees: bool,
}

/// A walk as it stands.
#[derive(Debug, Clone, PartialEq, uniffi::Record)]
pub struct WalkView {
    /// Its area with its range; empty where it bounds nothing yet.
    pub area: String,
    /// Accuracy of fixes, way round, laps.
    pub about: String,
    /// What to do, or why it bounds nothing.
    pub said: Vec<String>,
    /// It is back at its start.
    pub closed: bool,
    /// A place can be made of it.
    pub usable: bool,
    /// The path.
    pub path: DrawingView,
}

#[uniffi::export]
impl FieldBook {
    /// A walk as it stands; nothing is written.
    ///
    /// # Errors
    /// A fix that is nowhere on earth.
    pub fn walk(&self, walk: WalkGiven) -> Result<WalkView, CoreError> {
        let speech = self.speech();
        let words = &speech.words;
        let path = path(&walk, &speech);
        let measured = measured(&walk);
        let fixes = walk.parts.iter().map(Vec::len).sum::<usize>();
        Ok(match measured {
            Ok(measured) => {
                let walked = measured.walked.as_ref();
                let closed = walked.is_some_and(|walked| !walked.laps.is_empty())
                    && !measured.remarks.iter().any(is_open);
                let mut about = Vec::new();
                if let Some(walked) = walked {
                    about.push(words.say("phone-walk-accuracy", &[("accuracy", words.length(walked.drms))]));
                }
                about.extend(
                    measured.perimeter.map(|way| words.say("phone-walk-way", &[("way", words.length(way))])),
                );
                WalkView {
                    area: give_or_take(&measured, words),
                    about: about.join(" · "),
                    said: measured.remarks.iter().map(|remark| sentence(remark, words)).collect(),
                    closed,
                    usable: measured.area.m2() > 0.0,
                    path,
                }
            }
            Err(error) => {
                let said = if fixes < FEWEST {
                    words.label("phone-walk-begins")
                } else {
                    wrong(&error).1.say(words)
                };
                WalkView {
                    area: String::new(),
                    about: String::new(),
                    said: vec![capital(&said)],
                    closed: false,
                    usable: false,
                    path,
                }
            }
        })
    }

    /// Opens the place that a walk outlines, its fixes with it. It is in the book when this returns.
    ///
    /// # Errors
    /// A walk that bounds nothing, a name that does not fit or is there already, a book that cannot be written.
    pub fn outline_walk(
        &self,
        name: String,
        ground: Ground,
        walk: WalkGiven,
    ) -> Result<SavedView, CoreError> {
        let (speech, moment) = (self.speech(), self.moment()?);
        let words = &speech.words;
        let name = speech.typed().name("label", &name)?;
        let bad = |field: &str, reason: String| CoreError::BadInput { field: field.to_owned(), reason };
        let place = import_places::walked(&name, kind_of(ground).into(), track(&walk), manner(&walk));
        let place = place.map_err(|why| match why {
            Why::Area(error) => bad("walk", capital(&wrong(&error).1.say(words))),
            _ => speech.typed().wrong("walk", "phone-walk-no-place"),
        })?;
        let mut book = self.book();
        let there = crate::field_book::of_book(book.places(), &speech)?;
        if there
            .iter()
            .any(|known| !known.withdrawn() && known.closed.is_none() && known.label.as_str() == name)
        {
            return Err(speech.typed().wrong("label", "phone-place-name-there"));
        }
        let written = import_places::import(&mut book, &[place], || random().map_err(Stop::Core), moment);
        let written = written.map_err(|stop| match stop {
            Stop::Core(error) => error,
            Stop::Act(error) => CoreError::of_act(&error, "walk", words),
        })?;
        written.first().map_or_else(
            || Err(speech.typed().wrong("walk", "phone-walk-no-place")),
            |entry| saved(&book, *entry, &speech),
        )
    }
}

/// Fixes from which on a walk that bounds nothing has a reason.
const FEWEST: usize = 4;

/// Why a walk did not go in.
enum Stop {
    Core(CoreError),
    Act(kerfbook_acts::error::ActError),
}

impl From<kerfbook_acts::error::ActError> for Stop {
    fn from(error: kerfbook_acts::error::ActError) -> Self {
        Self::Act(error)
    }
}

const fn is_open(remark: &area::Remark) -> bool {
    matches!(
        remark,
        area::Remark::Advice(kerfbook_science::geometry::advice::Advice::FinishLoop { .. })
            | area::Remark::Unclosed
    )
}

fn manner(walk: &WalkGiven) -> Manner {
    Manner { under_trees: walk.under_trees, ..Manner::default() }
}

fn track(walk: &WalkGiven) -> Track {
    let point = |fix: &FixGiven| TrackPoint {
        longitude: fix.longitude_deg,
        latitude: fix.latitude_deg,
        time_ms: Some(fix.time_ms),
        accuracy_m: Some(fix.accuracy_m.max(0.0)),
        hdop: None,
    };
    Track { segments: walk.parts.iter().map(|part| part.iter().map(point).collect()).collect() }
}

fn measured(walk: &WalkGiven) -> Result<Measured, AreaError> {
    let feature = Feature { shape: Shape::Track(track(walk)), ..Feature::at(0) };
    let nothing = || AreaError::from(kerfbook_science::geometry::walk::WalkError::NoFix { left_out: 0 });
    area::of_feature(&feature, manner(walk), true)?.ok_or_else(nothing)
}

/// The path as the receiver gave it, in metres about its first fix.
fn path(walk: &WalkGiven, speech: &Speech) -> DrawingView {
    let position = |fix: &FixGiven| Position::new(fix.latitude_deg, fix.longitude_deg).ok();
    let frame = walk.parts.iter().flatten().find_map(position).map(Frame::about);
    let scale = match speech.words.units() {
        Units::Metric => 1.0,
        Units::Us => 1.0 / Length::from_feet(1.0).m(),
    };
    let point = |fix: &FixGiven| {
        let point = frame.as_ref()?.point(position(fix)?);
        Some((point.x * scale, point.y * scale))
    };
    let chart = PathChart {
        title: speech.words.label("phone-walk"),
        description: speech.words.label("phone-walk-drawn"),
        parts: walk.parts.iter().map(|part| part.iter().filter_map(point).collect()).collect(),
        unit: speech.words.label(match speech.words.units() {
            Units::Metric => "phone-unit-m",
            Units::Us => "phone-unit-ft",
        }),
    };
    drawing(chart.draw(Screen::Hand, &|value| speech.words.number(value, 1)))
}
