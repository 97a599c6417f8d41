//! What the lines and fills of a picture are called.

use crate::list::{Anchor, DisplayList, Role};
use crate::text;

const SWATCH_PX: f64 = 24.0;
const ROW_PX: f64 = 20.0;

/// How a thing looks in the legend.
#[derive(Debug, Clone, Copy)]
pub(crate) enum Swatch {
    /// A filled piece with its edges.
    Fill(Role),
    /// A filled piece with hatching.
    Hatched(Role),
    /// A piece of line.
    Line(Role),
    /// A short upright line.
    Upright(Role),
}

/// Writes the entries in rows below `top`; gives the lower edge.
pub(crate) fn draw(list: &mut DisplayList, top: f64, edge: f64, entries: &[(Swatch, &str)]) -> f64 {
    let room = list.width - 2.0 * edge;
    let (mut x, mut y) = (edge, top);
    for (swatch, name) in entries.iter().filter(|(_, name)| !name.is_empty()) {
        let name = text::fit(Role::Label, name, room - SWATCH_PX - 6.0);
        let wide = SWATCH_PX + 6.0 + text::width(Role::Label, &name);
        if x > edge && x + wide > list.width - edge {
            x = edge;
            y += ROW_PX;
        }
        let middle = y + ROW_PX / 2.0;
        match *swatch {
            Swatch::Fill(role) => fill(list, role, x, middle),
            Swatch::Hatched(role) => {
                fill(list, role, x, middle);
                hatch(list, (x, middle - 5.0), (SWATCH_PX, 10.0));
            }
            Swatch::Line(role) => list.line(role, (x, middle), (x + SWATCH_PX, middle)),
            Swatch::Upright(role) => {
                let x = x + SWATCH_PX / 2.0;
                list.line(role, (x, middle - 8.0), (x, middle + 8.0));
            }
        }
        list.text(Role::Label, (x + SWATCH_PX + 6.0, middle + 4.5), Anchor::Start, &name);
        x += wide + 16.0;
    }
    if entries.iter().any(|(_, name)| !name.is_empty()) { y + ROW_PX } else { top }
}

fn fill(list: &mut DisplayList, role: Role, x: f64, middle: f64) {
    list.rect(role, (x, middle - 5.0), (SWATCH_PX, 10.0));
    if role == Role::Band {
        list.line(Role::BandEdge, (x, middle - 5.0), (x + SWATCH_PX, middle - 5.0));
        list.line(Role::BandEdge, (x, middle + 5.0), (x + SWATCH_PX, middle + 5.0));
    }
}

/// Slanting lines over a rectangle, cut at its edges.
pub(crate) fn hatch(list: &mut DisplayList, at: (f64, f64), size: (f64, f64)) {
    const STEP_PX: f64 = 5.0;
    let (left, top) = at;
    let (right, bottom) = (left + size.0, top + size.1);
    let mut foot = left - size.1 + STEP_PX;
    while foot < right {
        // The line rises to the right by one pixel a pixel; it is cut where it leaves the rectangle.
        let from = if foot < left { (left, bottom - (left - foot)) } else { (foot, bottom) };
        let head = foot + size.1;
        let to = if head > right { (right, top + (head - right)) } else { (head, top) };
        list.line(Role::Hatch, from, to);
        foot += STEP_PX;
    }
}
