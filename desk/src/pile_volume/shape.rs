//! From a file of a shape (TOML, keys without sections) to a heap, or to everything wrong with it.

use std::cell::RefCell;
use std::path::Path;

use kerfbook_acts::assumed::Assumed;
use kerfbook_science::geometry::load::{HeapSlope, heap_on};
use kerfbook_science::geometry::pile::{
    PileError, STEEPEST_REPOSE, Section as Across, Shape, end_area, half_width, prismoidal, radius_of_girth,
    slope_degrees,
};
use kerfbook_science::units::{Length, Volume};

use crate::fault::{Fault, Message};
use crate::toml_file::layout::{Key, Layout, key};
use crate::toml_file::section::{Bounds, Section};
use crate::toml_file::{self, text};

/// Each length is taken as measured within this part, where nothing is said; common practice, no source.
const WITHIN: f64 = 0.05;

const LENGTH: Bounds = Bounds::above_zero(10_000.0, "m");
const TOP: Bounds = Bounds::between(0.0, 10_000.0, "m");
const AREA: Bounds = Bounds::between(0.0, 1_000_000.0, "m2");
const WITHIN_PCT: Bounds = Bounds::between(0.0, 50.0, "%");
const SLOPE: Bounds = Bounds::above_zero(100.0, "");
const FILL: Bounds = Bounds::above_zero(3.0, "");

const KEYS: &[Key] = &[
    key("shape", "\"cone\""),
    key("section", "\"parabola\""),
    key("ends", "\"rounded\""),
    key("height_m", "1.5"),
    key("width_m", "4"),
    key("radius_m", "2"),
    key("girth_m", "12.5"),
    key("length_m", "10"),
    key("ridge_m", "6"),
    key("top_radius_m", "0.8"),
    key("top_width_m", "1.5"),
    key("top_length_m", "8"),
    key("crest_m", "6"),
    key("far_height_m", "1.2"),
    key("far_width_m", "2.4"),
    key("depth_m", "0.5"),
    key("first_m2", "3"),
    key("middle_m2", "4"),
    key("last_m2", "2.5"),
    key("heaped", "\"loader\""),
    key("heap_slope", "2"),
    key("fill_factor", "0.85"),
    key("measured_within_pct", "5"),
];
const FILE: Layout = Layout { name: "", repeats: false, keys: KEYS };
static LAYOUTS: [&Layout; 1] = [&FILE];

#[derive(Debug, Clone, Copy)]
enum Kind {
    HalfSphere,
    Paraboloid,
    HalfCylinder,
    HalfFrustum,
    RoundedHalfFrustum,
    HalfEllipsoid,
    Cone,
    TruncatedCone,
    Windrow,
    FlatTopped,
    Wedge,
    Box,
    Sections,
}

const SHAPES: [(&str, Kind); 13] = [
    ("cone", Kind::Cone),
    ("truncated-cone", Kind::TruncatedCone),
    ("half-sphere", Kind::HalfSphere),
    ("paraboloid", Kind::Paraboloid),
    ("half-ellipsoid", Kind::HalfEllipsoid),
    ("windrow", Kind::Windrow),
    ("wedge", Kind::Wedge),
    ("flat-topped", Kind::FlatTopped),
    ("half-cylinder", Kind::HalfCylinder),
    ("half-frustum", Kind::HalfFrustum),
    ("rounded-half-frustum", Kind::RoundedHalfFrustum),
    ("box", Kind::Box),
    ("sections", Kind::Sections),
];

/// A section whose top is still to be read.
#[derive(Debug, Clone, Copy)]
enum Written {
    Known(Across),
    Trapezoid,
}

const SECTIONS: [(&str, Written); 4] = [
    ("triangle", Written::Known(Across::Triangle)),
    ("parabola", Written::Known(Across::Parabola)),
    ("half-circle", Written::Known(Across::HalfEllipse)),
    ("trapezoid", Written::Trapezoid),
];

const ENDS: [(&str, bool); 2] = [("rounded", true), ("open", false)];

const HEAPED: [(&str, HeapSlope); 2] = [("loader", HeapSlope::LOADER), ("hoe", HeapSlope::HOE)];

/// What a file says.
pub(super) struct Described {
    pub name: &'static str,
    pub pile: Pile,
    /// Part of itself within which each length was measured.
    pub within: f64,
    pub assumed: Vec<Assumed>,
    pub advice: Vec<Advice>,
}

/// What a person should know of a volume.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Advice {
    SectionOpen,
    EndArea,
    Rating,
    Steep { degrees: f64 },
}

/// A heap or a load.
pub(super) enum Pile {
    /// One shape.
    Shape(Shape),
    /// A windrow whose section is not known: likely, least and most.
    Between([Shape; 3]),
    /// Sections and their distance; the middle one where it is known.
    Sections { length: f64, first: f64, middle: Option<f64>, last: f64 },
    /// A box, struck or heaped, and how full it is carried.
    Load { length: f64, width: f64, depth: f64, heaped: Option<HeapSlope>, fill: f64 },
}

impl Pile {
    pub(super) const fn is_load(&self) -> bool {
        matches!(self, Self::Load { .. })
    }

    /// The likely volume, the least and the most.
    pub(super) fn volumes(&self, within: f64) -> Result<[Volume; 3], PileError> {
        let around =
            |volume: f64, off: f64| [volume, (volume - off).max(0.0), volume + off].map(Volume::from_m3);
        match self {
            Self::Shape(shape) => {
                let (volume, off) = shape.volume_within(within)?;
                Ok(around(volume.m3(), off.m3()))
            }
            Self::Between([likely, least, most]) => {
                let (low, low_off) = least.volume_within(within)?;
                let (high, high_off) = most.volume_within(within)?;
                Ok([likely.volume()?, low - low_off, high + high_off])
            }
            Self::Sections { length, first, middle, last } => {
                let given = [Some(*length), Some(*first), Some(*last), *middle];
                let measures: Vec<f64> = given.into_iter().flatten().collect();
                let volume = |measures: &[f64]| match measures {
                    [length, first, last, middle] => prismoidal(*length, *first, *middle, *last),
                    [length, first, last] => end_area(*length, *first, *last),
                    _ => 0.0,
                };
                Ok(around(volume(&measures), half_width(&measures, within, volume)))
            }
            Self::Load { length, width, depth, heaped, fill } => {
                let volume = |measures: &[f64]| {
                    let [length, width, depth] = measures else { return 0.0 };
                    let heap = heaped
                        .map(|slope| heap_on(Length::from_m(*length), Length::from_m(*width), slope).m3());
                    fill * (length * width * depth + heap.unwrap_or(0.0))
                };
                let measures = [*length, *width, *depth];
                Ok(around(volume(&measures), half_width(&measures, within, volume)))
            }
        }
    }
}

/// Reads a file of a shape.
pub(super) fn read(path: &Path) -> Result<Described, Fault> {
    read_text(&text::read(path, toml_file::MOST_BYTES)?, path)
}

fn read_text(text: &str, path: &Path) -> Result<Described, Fault> {
    toml_file::read(text, path, &LAYOUTS, |notes, root| {
        let section = Section::whole_file(notes, root, &FILE);
        Reader { section, used: RefCell::new(vec!["shape"]) }.describe()
    })
}

/// Takes lengths out of a file, and remembers which keys the shape has a use for.
struct Reader<'a> {
    section: Section<'a>,
    used: RefCell<Vec<&'static str>>,
}

impl Reader<'_> {
    fn describe(&self) -> Option<Described> {
        if !self.section.has("shape") {
            self.section.missing("shape", None);
        }
        let kind = self.section.choice("shape", &SHAPES)?;
        let name = SHAPES.iter().find(|(_, of)| same(*of, kind)).map_or("", |(name, _)| *name);
        let (mut assumed, mut advice) = (Vec::new(), Vec::new());
        let pile = self.pile(kind, &mut assumed, &mut advice);
        let within = self.number("measured_within_pct", WITHIN_PCT);
        let within = within.map_or_else(
            || {
                assumed.push(Assumed::number("measured_within_pct", WITHIN * 100.0));
                WITHIN
            },
            |percent| percent / 100.0,
        );
        self.refuse_unused(name);
        let pile = pile?;
        if let Some(degrees) = steepness(&pile).filter(|degrees| *degrees > STEEPEST_REPOSE.value) {
            advice.push(Advice::Steep { degrees });
        }
        Some(Described { name, pile, within, assumed, advice })
    }

    fn pile(&self, kind: Kind, assumed: &mut Vec<Assumed>, advice: &mut Vec<Advice>) -> Option<Pile> {
        let length = |name| self.required(name, LENGTH);
        let shape = match kind {
            Kind::Windrow => return self.windrow(assumed, advice),
            Kind::Box => return self.load(advice),
            Kind::Sections => {
                let (length, first) = (length("length_m"), self.required("first_m2", AREA));
                let (middle, last) = (self.number("middle_m2", AREA), self.required("last_m2", AREA));
                if middle.is_none() {
                    advice.push(Advice::EndArea);
                }
                return Some(Pile::Sections { length: length?, first: first?, middle, last: last? });
            }
            Kind::HalfSphere => Shape::HalfSphere { height_m: length("height_m")? },
            Kind::Paraboloid => {
                let (radius, height) = (self.radius(), length("height_m"));
                Shape::Paraboloid { height_m: height?, width_m: 2.0 * radius? }
            }
            Kind::Cone => {
                let (radius, height) = (self.radius(), length("height_m"));
                Shape::Cone { radius_m: radius?, height_m: height? }
            }
            Kind::TruncatedCone => {
                let (bottom, height) = (self.radius(), length("height_m"));
                let top = self.required("top_radius_m", TOP);
                Shape::TruncatedCone { bottom_radius_m: bottom?, top_radius_m: top?, height_m: height? }
            }
            Kind::HalfEllipsoid | Kind::HalfCylinder => {
                let (width, along, height) = (length("width_m"), length("length_m"), length("height_m"));
                let (width_m, length_m, height_m) = (width?, along?, height?);
                if matches!(kind, Kind::HalfEllipsoid) {
                    Shape::HalfEllipsoid { width_m, length_m, height_m }
                } else {
                    Shape::HalfEllipticCylinder { width_m, length_m, height_m }
                }
            }
            Kind::HalfFrustum => {
                let (along, first, second) = (length("length_m"), length("height_m"), length("far_height_m"));
                Shape::HalfFrustum { length_m: along?, first_height_m: first?, second_height_m: second? }
            }
            Kind::RoundedHalfFrustum => {
                let (along, first, second) = (length("length_m"), length("width_m"), length("far_width_m"));
                Shape::RoundedHalfFrustum { length_m: along?, first_width_m: first?, second_width_m: second? }
            }
            Kind::FlatTopped => {
                let (along, width, height) = (length("length_m"), length("width_m"), length("height_m"));
                let top = |name| self.required(name, TOP);
                let (top_length, top_width) = (top("top_length_m"), top("top_width_m"));
                Shape::FlatTopped {
                    length_m: along?,
                    width_m: width?,
                    top_length_m: top_length?,
                    top_width_m: top_width?,
                    height_m: height?,
                }
            }
            Kind::Wedge => {
                let (along, width, height) = (length("length_m"), length("width_m"), length("height_m"));
                let crest = self.required("crest_m", TOP);
                Shape::Wedge { length_m: along?, crest_m: crest?, width_m: width?, height_m: height? }
            }
        };
        Some(Pile::Shape(shape))
    }

    /// A round heap's radius, from whichever was measured.
    fn radius(&self) -> Option<f64> {
        let names = ["width_m", "radius_m", "girth_m"];
        self.used.borrow_mut().extend(names);
        match self.section.one_of(&names.map(|name| (name, LENGTH)), true)? {
            ("radius_m", radius) => Some(radius),
            ("girth_m", girth) => Some(radius_of_girth(girth)),
            (_, width) => Some(0.5 * width),
        }
    }

    fn windrow(&self, assumed: &mut Vec<Assumed>, advice: &mut Vec<Advice>) -> Option<Pile> {
        let (width, height) = (self.required("width_m", LENGTH), self.required("height_m", LENGTH));
        self.used.borrow_mut().extend(["section", "ends", "length_m", "ridge_m"]);
        let section = self.section.choice("section", &SECTIONS);
        let section = match section {
            Some(Written::Known(section)) => Some(section),
            Some(Written::Trapezoid) => {
                let top_m = self.required("top_width_m", TOP)?;
                Some(Across::Trapezoid { top_m })
            }
            None => None,
        };
        let rounded = self.section.choice("ends", &ENDS).unwrap_or_else(|| {
            assumed.push(Assumed::text("ends", "rounded"));
            true
        });
        let along = self.section.one_of(&[("length_m", LENGTH), ("ridge_m", TOP)], true);
        let (width_m, height_m) = (width?, height?);
        let ridge_m = match along? {
            ("length_m", length) if rounded && length < width_m => {
                let what =
                    Message::new("pile-shorter-than-wide").text("length", length).text("width", width_m);
                self.section.complain("length_m", what, Some(Message::new("pile-ends-open")));
                return None;
            }
            ("length_m", length) if rounded => length - width_m,
            (_, ridge) => ridge,
        };
        let of = |section| {
            if rounded {
                Shape::Ridge { section, width_m, height_m, ridge_m }
            } else {
                Shape::OpenRidge { section, width_m, height_m, length_m: ridge_m }
            }
        };
        if let Some(section) = section {
            return Some(Pile::Shape(of(section)));
        }
        advice.push(Advice::SectionOpen);
        Some(Pile::Between([of(Across::Parabola), of(Across::Triangle), of(Across::Rectangle)]))
    }

    fn load(&self, advice: &mut Vec<Advice>) -> Option<Pile> {
        let (length, width) = (self.required("length_m", LENGTH), self.required("width_m", LENGTH));
        let depth = self.required("depth_m", TOP);
        self.used.borrow_mut().extend(["heaped"]);
        let heaped = self.section.choice("heaped", &HEAPED);
        let slope = self.number("heap_slope", SLOPE).and_then(HeapSlope::measured);
        let heaped = slope.or(heaped);
        let fill = self.number("fill_factor", FILL);
        if heaped.is_some() && fill.is_none() {
            advice.push(Advice::Rating);
        }
        Some(Pile::Load { length: length?, width: width?, depth: depth?, heaped, fill: fill.unwrap_or(1.0) })
    }

    fn number(&self, name: &'static str, bounds: Bounds) -> Option<f64> {
        self.used.borrow_mut().push(name);
        self.section.number(name, bounds)
    }

    fn required(&self, name: &'static str, bounds: Bounds) -> Option<f64> {
        self.used.borrow_mut().push(name);
        self.section.required_number(name, bounds)
    }

    /// Notes keys that belong to other shapes: nothing that was written goes unheard.
    fn refuse_unused(&self, shape: &str) {
        let used = self.used.borrow();
        for key in KEYS.iter().filter(|key| self.section.has(key.name) && !used.contains(&key.name)) {
            let what = Message::new("pile-unused-key").text("shape", shape).text("key", key.name);
            let its = Message::new("pile-its-keys").text("keys", used.join(", "));
            self.section.complain(key.name, what, Some(its));
        }
    }
}

fn same(a: Kind, b: Kind) -> bool {
    core::mem::discriminant(&a) == core::mem::discriminant(&b)
}

/// The angle of straight sides, degrees; rounded shapes have no one angle.
fn steepness(pile: &Pile) -> Option<f64> {
    match pile {
        Pile::Shape(Shape::Cone { radius_m, height_m }) => Some(slope_degrees(2.0 * radius_m, *height_m)),
        Pile::Shape(
            Shape::Ridge { section: Across::Triangle, width_m, height_m, .. }
            | Shape::OpenRidge { section: Across::Triangle, width_m, height_m, .. }
            | Shape::Wedge { width_m, height_m, .. },
        ) => Some(slope_degrees(*width_m, *height_m)),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a test may stop where it stands")]

    use std::path::Path;

    use proptest::prelude::*;

    use super::*;

    const GOOD: [&str; 4] = [
        "shape = \"cone\"\ngirth_m = 31.4\nheight_m = 4\n",
        "shape = \"windrow\"\nwidth_m = 4\nheight_m = 1.5\nlength_m = 14\nsection = \"trapezoid\"\ntop_width_m = 1\n",
        "shape = \"box\"\nlength_m = 4\nwidth_m = 2\ndepth_m = 0.5\nheaped = \"loader\"\nfill_factor = 0.9\n",
        "shape = \"sections\"\nlength_m = 10\nfirst_m2 = 3\nmiddle_m2 = 4\nlast_m2 = 2\nmeasured_within_pct = 10\n",
    ];
    const PIECES: [&str; 16] = [
        "nan", "-inf", "1e999", "-1", "0", "12,5", "\"4 m\"", "true", "[]", "[pile]\n", "\"", "=", "\n", "#",
        "\0", "\u{202E}",
    ];

    #[test]
    fn the_good_files_are_read() {
        for text in GOOD {
            let described = read_text(text, Path::new("good.toml")).unwrap();
            let [volume, low, high] = described.pile.volumes(described.within).unwrap().map(Volume::m3);
            assert!(0.0 < low && low < volume && volume < high, "{text}");
        }
    }

    proptest! {
        #![proptest_config(ProptestConfig { cases: 10_000, failure_persistence: None, ..ProptestConfig::default() })]

        #[test]
        fn a_changed_file_is_read_or_refused_with_complaints(
            file in 0..GOOD.len(),
            changes in prop::collection::vec((0..200_usize, 0..12_usize, 0..PIECES.len()), 1..4),
        ) {
            let mut chars: Vec<char> = GOOD[file].chars().collect();
            for (from, cut, piece) in changes {
                let from = from % (chars.len() + 1);
                let to = (from + cut).min(chars.len());
                chars.splice(from..to, PIECES[piece].chars());
            }
            let text: String = chars.into_iter().collect();
            match read_text(&text, Path::new("changed.toml")) {
                Ok(described) => {
                    let volumes = described.pile.volumes(described.within);
                    prop_assert!(volumes.is_err() || volumes.unwrap().iter().all(|volume| volume.m3().is_finite()));
                }
                Err(Fault::Input { complaints, .. }) => prop_assert!(!complaints.is_empty()),
                Err(other) => prop_assert!(false, "not the input's fault: {other:?}"),
            }
        }
    }
}
