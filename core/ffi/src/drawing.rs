//! A picture as a phone paints it: what to draw, in order, with strokes and sizes ready; the shell picks colours.

use kerfbook_picture::{Anchor, DisplayList, Item, Point, Role};

/// What a thing is painted with; the shell's theme has the colours.
#[derive(Debug, Clone, Copy, PartialEq, Eq, uniffi::Enum)]
pub enum Paint {
    /// Text, and lines that carry the meaning.
    Ink,
    /// Lines beside the main one.
    Quiet,
    /// Lines that help the eye.
    Faint,
    /// What is picked out.
    Accent,
    /// What is too much, or missing.
    Warn,
    /// A plane within outlines.
    Plane,
}

/// A place in the picture, pixels of its own width.
#[derive(Debug, Clone, Copy, PartialEq, uniffi::Record)]
pub struct Spot {
    /// From the left.
    pub x: f32,
    /// From the top.
    pub y: f32,
}

/// Which end of a text stands at its spot.
#[derive(Debug, Clone, Copy, PartialEq, Eq, uniffi::Enum)]
pub enum End {
    /// Its start.
    Start,
    /// Its middle.
    Middle,
    /// Its end.
    Last,
}

/// One thing to draw. Later things lie over earlier ones.
#[derive(Debug, Clone, PartialEq, uniffi::Enum)]
pub enum Shape {
    /// A line through spots.
    Line {
        /// With what.
        paint: Paint,
        /// Width, pixels.
        width: f32,
        /// Dashes and gaps, pixels; empty for a whole line.
        dash: Vec<f32>,
        /// The spots.
        through: Vec<Spot>,
    },
    /// A filled outline.
    Plane {
        /// With what.
        paint: Paint,
        /// The corners; the last joins the first.
        corners: Vec<Spot>,
    },
    /// A circle.
    Circle {
        /// With what.
        paint: Paint,
        /// Width of its line, pixels.
        width: f32,
        /// Its middle.
        at: Spot,
        /// Its radius.
        radius: f32,
        /// Filled, or an open ring.
        filled: bool,
    },
    /// A line of text.
    Text {
        /// With what.
        paint: Paint,
        /// Size of type, pixels.
        size: f32,
        /// Bold.
        bold: bool,
        /// On its base line.
        at: Spot,
        /// Which end of it.
        end: End,
        /// The words.
        text: String,
    },
}

/// A picture.
#[derive(Debug, Clone, PartialEq, uniffi::Record)]
pub struct DrawingView {
    /// Pixels.
    pub width: f32,
    /// Pixels.
    pub height: f32,
    /// What it shows, for who cannot see it.
    pub says: String,
    /// What to draw, in this order.
    pub shapes: Vec<Shape>,
}

/// A display list for a shell.
pub(crate) fn drawing(list: DisplayList) -> DrawingView {
    DrawingView {
        width: pixels(list.width),
        height: pixels(list.height),
        says: format!("{}. {}", list.title, list.description),
        shapes: list.items.into_iter().map(shape).collect(),
    }
}

fn shape(item: Item) -> Shape {
    let line = |role: Role, through: Vec<Spot>| Shape::Line {
        paint: paint(role),
        width: pixels(role.width()),
        dash: role.dash().iter().copied().map(pixels).collect(),
        through,
    };
    match item {
        Item::Line { role, from, to } => line(role, vec![spot(from), spot(to)]),
        Item::Polyline { role, points } => line(role, points.into_iter().map(spot).collect()),
        Item::Area { role, points } => {
            Shape::Plane { paint: paint(role), corners: points.into_iter().map(spot).collect() }
        }
        Item::Rect { role, at, size } => {
            let (right, below) = (at.x + size.x, at.y + size.y);
            let corners = [(at.x, at.y), (right, at.y), (right, below), (at.x, below)];
            let corners = corners.map(|(x, y)| Spot { x: pixels(x), y: pixels(y) });
            Shape::Plane { paint: paint(role), corners: corners.to_vec() }
        }
        Item::Circle { role, at, radius, filled } => Shape::Circle {
            paint: paint(role),
            width: pixels(role.width()),
            at: spot(at),
            radius: pixels(radius),
            filled,
        },
        Item::Text { role, at, anchor, text } => Shape::Text {
            paint: paint(role),
            size: pixels(role.type_size()),
            bold: role.bold(),
            at: spot(at),
            end: match anchor {
                Anchor::Start => End::Start,
                Anchor::Middle => End::Middle,
                Anchor::End => End::Last,
            },
            text,
        },
    }
}

const fn paint(role: Role) -> Paint {
    match role {
        Role::Heading
        | Role::Label
        | Role::Strong
        | Role::Tick
        | Role::Flag
        | Role::Badge
        | Role::Axis
        | Role::Border
        | Role::Reading => Paint::Ink,
        Role::Median | Role::PutDown | Role::Feed | Role::Chosen => Paint::Accent,
        Role::Bare | Role::Worked | Role::Look | Role::Lifted | Role::HungryBare => Paint::Quiet,
        Role::Hungry | Role::Hatch => Paint::Warn,
        Role::Grid | Role::BandEdge | Role::Pattern => Paint::Faint,
        Role::Band | Role::Bar | Role::Ground => Paint::Plane,
    }
}

fn spot(point: Point) -> Spot {
    Spot { x: pixels(point.x), y: pixels(point.y) }
}

#[expect(clippy::cast_possible_truncation, reason = "pixels of a screen, in tenths")]
const fn pixels(value: f64) -> f32 {
    value as f32
}
