//! A display list as SVG: text stays text, colours come from a style sheet, and who cannot see it is told in words.

use std::fmt::Write;

use crate::list::{Anchor, DisplayList, Item, Point, Role};

/// Colours for roles, by day, by night and on paper. A page that shows pictures carries it once.
///
/// `--ground` is what pictures lie on. Hues keep apart for the common kinds of colour blindness, and text has a
/// contrast of at least 7:1 to the ground.
pub const STYLE: &str = include_str!("style.css");

/// The picture as an element of an HTML page. `id` must be the picture's own on the page.
pub fn inline(list: &DisplayList, id: &str) -> String {
    element(list, id, "")
}

/// The picture as a file of its own.
pub fn document(list: &DisplayList) -> String {
    element(list, "picture", " xmlns=\"http://www.w3.org/2000/svg\"").replacen(
        "</desc>",
        &format!("</desc><style>{STYLE}</style>"),
        1,
    )
}

fn element(list: &DisplayList, id: &str, space: &str) -> String {
    let id: String = id.chars().filter(|letter| letter.is_ascii_alphanumeric() || *letter == '-').collect();
    let (width, height) = (figure(list.width), figure(list.height.ceil()));
    let mut svg = format!(
        "<svg{space} class=\"k-picture\" role=\"img\" viewBox=\"0 0 {width} {height}\" width=\"{width}\" \
         height=\"{height}\" aria-labelledby=\"{id}-title {id}-desc\"><title id=\"{id}-title\">{}</title>\
         <desc id=\"{id}-desc\">{}</desc>",
        escape(&list.title),
        escape(&list.description),
    );
    for item in &list.items {
        write_item(&mut svg, item);
    }
    svg.push_str("</svg>");
    svg
}

fn write_item(svg: &mut String, item: &Item) {
    // Writing to a String does not fail.
    let _ = match item {
        Item::Line { role, from, to } => write!(
            svg,
            "<line {} x1=\"{}\" y1=\"{}\" x2=\"{}\" y2=\"{}\"/>",
            stroke(*role),
            figure(from.x),
            figure(from.y),
            figure(to.x),
            figure(to.y)
        ),
        Item::Polyline { role, points } => {
            write!(svg, "<polyline {} points=\"{}\"/>", stroke(*role), corners(points))
        }
        Item::Area { role, points } => {
            write!(svg, "<polygon class=\"k-fill k-{}\" points=\"{}\"/>", role.name(), corners(points))
        }
        Item::Rect { role, at, size } => write!(
            svg,
            "<rect class=\"k-fill k-{}\" x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\"/>",
            role.name(),
            figure(at.x),
            figure(at.y),
            figure(size.x),
            figure(size.y)
        ),
        Item::Circle { role, at, radius, filled } => write!(
            svg,
            "<circle class=\"{} k-{}\" stroke-width=\"{}\" cx=\"{}\" cy=\"{}\" r=\"{}\"/>",
            if *filled { "k-fill" } else { "k-ring" },
            role.name(),
            figure(role.width()),
            figure(at.x),
            figure(at.y),
            figure(*radius)
        ),
        Item::Text { role, at, anchor, text } => write!(
            svg,
            "<text class=\"k-text k-{}\" x=\"{}\" y=\"{}\" font-size=\"{}\"{}{}>{}</text>",
            role.name(),
            figure(at.x),
            figure(at.y),
            figure(role.type_size()),
            match anchor {
                Anchor::Start => "",
                Anchor::Middle => " text-anchor=\"middle\"",
                Anchor::End => " text-anchor=\"end\"",
            },
            if role.bold() { " font-weight=\"700\"" } else { "" },
            escape(text)
        ),
    };
}

fn stroke(role: Role) -> String {
    let mut written = format!("class=\"k-line k-{}\" stroke-width=\"{}\"", role.name(), figure(role.width()));
    let dash: Vec<String> = role.dash().iter().map(|length| figure(*length)).collect();
    if !dash.is_empty() {
        let _ = write!(written, " stroke-dasharray=\"{}\"", dash.join(" "));
    }
    written
}

fn corners(points: &[Point]) -> String {
    let corners: Vec<String> =
        points.iter().map(|point| format!("{},{}", figure(point.x), figure(point.y))).collect();
    corners.join(" ")
}

/// At most one decimal.
fn figure(value: f64) -> String {
    let written = format!("{value:.1}");
    written.strip_suffix(".0").unwrap_or(&written).to_owned()
}

/// Text for XML and HTML. Control characters have no place in either and are dropped.
pub fn escape(text: &str) -> String {
    let mut escaped = String::with_capacity(text.len());
    for letter in text.chars() {
        match letter {
            '&' => escaped.push_str("&amp;"),
            '<' => escaped.push_str("&lt;"),
            '>' => escaped.push_str("&gt;"),
            '"' => escaped.push_str("&quot;"),
            '\'' => escaped.push_str("&#39;"),
            '\t' | '\n' | '\r' => escaped.push(' '),
            '\u{fffe}' | '\u{ffff}' => {}
            letter if letter.is_control() => {}
            letter => escaped.push(letter),
        }
    }
    escaped
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn text_cannot_leave_its_element() {
        assert_eq!(escape("a<b> & \"c\" 'd'\u{0}\n"), "a&lt;b&gt; &amp; &quot;c&quot; &#39;d&#39; ");
    }

    #[test]
    fn figures_have_no_needless_decimals() {
        assert_eq!((figure(12.0), figure(0.84), figure(-3.25)), ("12".into(), "0.8".into(), "-3.2".into()));
    }
}
