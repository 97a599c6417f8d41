//! The display list: what to draw, in order, with the role of each thing.

use serde::Serialize;

/// How wide a picture is made.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Screen {
    /// A phone's own screen, in type that is read at arm's length.
    Hand,
    /// A page on a phone held upright.
    Phone,
    /// A desk or a printed page.
    Desk,
}

impl Screen {
    /// Width of the picture, pixels.
    pub const fn width(self) -> f64 {
        match self {
            Self::Hand => 280.0,
            Self::Phone => 360.0,
            Self::Desk => 720.0,
        }
    }
}

/// A place in the picture: pixels from the left and from the top, in tenths.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Point {
    /// From the left.
    pub x: f64,
    /// From the top.
    pub y: f64,
}

impl Point {
    /// The nearest tenth of a pixel, so that lists stay short and the same everywhere.
    pub fn at(x: f64, y: f64) -> Self {
        Self { x: tenth(x), y: tenth(y) }
    }
}

/// The nearest tenth; adding zero turns minus zero into zero.
fn tenth(value: f64) -> f64 {
    (value * 10.0).round() / 10.0 + 0.0
}

/// Which end of a text stands at its point.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Anchor {
    /// Its start.
    Start,
    /// Its middle.
    Middle,
    /// Its end.
    End,
}

/// What a thing means. The painter gives it a colour; width, dash and size of type belong to the role.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Role {
    /// Text: what the picture is about.
    Heading,
    /// Text: a name or a value.
    Label,
    /// Text: the name that is picked out.
    Strong,
    /// Text at an axis.
    Tick,
    /// Text beside a mark; painted with a rim of the ground's colour, as needles may pass near.
    Flag,
    /// The line that things stand on.
    Axis,
    /// Lines that help the eye.
    Grid,
    /// Between the ends of the range.
    Band,
    /// An end of the range.
    BandEdge,
    /// The middle of the runs.
    Median,
    /// Nothing put down.
    Bare,
    /// Putting down.
    PutDown,
    /// A feed.
    Feed,
    /// The crop is behind its need.
    Hungry,
    /// The crop would be behind its need with nothing put down.
    HungryBare,
    /// The day to look.
    Look,
    /// Dug in.
    Worked,
    /// Lifted to a batch.
    Lifted,
    /// Something measured.
    Reading,
    /// The range of a way.
    Bar,
    /// The outline of the way that the answer names.
    Chosen,
    /// Hatching: less than with nothing put down.
    Hatch,
    /// The edge of a place, a ring, a bar.
    Border,
    /// Ground within an outline.
    Ground,
    /// Lines and dots of a pattern.
    Pattern,
    /// Text: the number of a place.
    Badge,
}

impl Role {
    /// The name in files and style sheets.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Heading => "heading",
            Self::Label => "label",
            Self::Strong => "strong",
            Self::Tick => "tick",
            Self::Flag => "flag",
            Self::Axis => "axis",
            Self::Grid => "grid",
            Self::Band => "band",
            Self::BandEdge => "band-edge",
            Self::Median => "median",
            Self::Bare => "bare",
            Self::PutDown => "put-down",
            Self::Feed => "feed",
            Self::Hungry => "hungry",
            Self::HungryBare => "hungry-bare",
            Self::Look => "look",
            Self::Worked => "worked",
            Self::Lifted => "lifted",
            Self::Reading => "reading",
            Self::Bar => "bar",
            Self::Chosen => "chosen",
            Self::Hatch => "hatch",
            Self::Border => "border",
            Self::Ground => "ground",
            Self::Pattern => "pattern",
            Self::Badge => "badge",
        }
    }

    /// Width of its lines, pixels.
    pub const fn width(self) -> f64 {
        match self {
            Self::Grid | Self::BandEdge | Self::Hatch => 0.8,
            Self::Pattern => 1.0,
            Self::Median => 2.6,
            Self::Bare | Self::PutDown | Self::Chosen => 2.0,
            _ => 1.4,
        }
    }

    /// Lengths of its dashes and gaps, pixels; empty for a whole line.
    pub const fn dash(self) -> &'static [f64] {
        match self {
            Self::Bare | Self::HungryBare => &[7.0, 4.0],
            Self::Look => &[1.5, 3.5],
            Self::Worked | Self::Lifted => &[8.0, 3.0, 1.5, 3.0],
            _ => &[],
        }
    }

    /// Size of its text, pixels.
    pub const fn type_size(self) -> f64 {
        match self {
            Self::Heading => 15.0,
            Self::Tick => 12.0,
            _ => 13.0,
        }
    }

    /// Its text is bold.
    pub const fn bold(self) -> bool {
        matches!(self, Self::Heading | Self::Strong | Self::Badge)
    }
}

/// One thing to draw. Later things lie over earlier ones.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(tag = "shape", rename_all = "kebab-case")]
pub enum Item {
    /// A straight line.
    Line {
        /// What it means.
        role: Role,
        /// One end.
        from: Point,
        /// The other.
        to: Point,
    },
    /// An open line through points.
    Polyline {
        /// What it means.
        role: Role,
        /// The points.
        points: Vec<Point>,
    },
    /// A filled outline.
    Area {
        /// What it means.
        role: Role,
        /// The corners; the last joins the first.
        points: Vec<Point>,
    },
    /// A filled rectangle.
    Rect {
        /// What it means.
        role: Role,
        /// Upper left corner.
        at: Point,
        /// Its size: width and height.
        size: Point,
    },
    /// A circle.
    Circle {
        /// What it means.
        role: Role,
        /// Its middle.
        at: Point,
        /// Its radius.
        radius: f64,
        /// Filled, or an open ring over the ground's colour.
        filled: bool,
    },
    /// A line of text.
    Text {
        /// What it means; gives size and weight.
        role: Role,
        /// On its base line.
        at: Point,
        /// Which end of it.
        anchor: Anchor,
        /// The words.
        text: String,
    },
}

/// A picture: its size, its words for who cannot see it, and what to draw.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct DisplayList {
    /// Pixels.
    pub width: f64,
    /// Pixels.
    pub height: f64,
    /// What it is, in a few words.
    pub title: String,
    /// What it shows, in a sentence or two.
    pub description: String,
    /// What to draw, in this order.
    pub items: Vec<Item>,
}

impl DisplayList {
    pub(crate) fn new(width: f64, title: &str, description: &str) -> Self {
        Self {
            width,
            height: 0.0,
            title: title.to_owned(),
            description: description.to_owned(),
            items: Vec::new(),
        }
    }

    pub(crate) fn line(&mut self, role: Role, from: (f64, f64), to: (f64, f64)) {
        self.items.push(Item::Line { role, from: Point::at(from.0, from.1), to: Point::at(to.0, to.1) });
    }

    pub(crate) fn polyline(&mut self, role: Role, points: Vec<Point>) {
        if points.len() > 1 {
            self.items.push(Item::Polyline { role, points });
        }
    }

    pub(crate) fn area(&mut self, role: Role, points: Vec<Point>) {
        if points.len() > 2 {
            self.items.push(Item::Area { role, points });
        }
    }

    pub(crate) fn rect(&mut self, role: Role, at: (f64, f64), size: (f64, f64)) {
        self.items.push(Item::Rect { role, at: Point::at(at.0, at.1), size: Point::at(size.0, size.1) });
    }

    pub(crate) fn circle(&mut self, role: Role, at: (f64, f64), radius: f64, filled: bool) {
        self.items.push(Item::Circle { role, at: Point::at(at.0, at.1), radius, filled });
    }

    pub(crate) fn text(&mut self, role: Role, at: (f64, f64), anchor: Anchor, text: &str) {
        if !text.is_empty() {
            self.items.push(Item::Text { role, at: Point::at(at.0, at.1), anchor, text: text.to_owned() });
        }
    }
}
