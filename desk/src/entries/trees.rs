//! Rows of trees as one place, and loads that go along them.

use kerfbook_acts::tree_rows::{self, NewRows, gone, wide};
use kerfbook_ledger::{Drive, TreeRun, TreeState, UnlikeTree};
use kerfbook_science::units::Length;

use super::writer::Writer;
use crate::fault::Message;
use crate::toml_file::section::{Bounds, Section};

const DRIVES: [(&str, Drive); 2] = [("serpentine", Drive::Serpentine), ("same-way", Drive::SameWay)];
/// Trees of one row, at most.
const MOST_TREES: f64 = 100_000.0;

/// Opens a place of rings under rows of trees.
pub(super) fn rows(section: &Section<'_>, writer: &mut Writer<'_>) -> Option<()> {
    let name = section.required_text("name");
    let counts = section.numbers("row_trees", Bounds::above_zero(MOST_TREES, ""))?;
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "within bounds")]
    let trees: Vec<u32> = counts.iter().map(|count| count.round() as u32).collect();
    let first_row = if section.has("first_row") { section.count("first_row", 1_000_000)? } else { 1 };
    let spacing = section.required_number("spacing_m", Bounds::above_zero(100.0, "m"));
    let radius = section.required_number("radius_m", Bounds::above_zero(50.0, "m"));
    let row_spacing = section.number("row_spacing_m", Bounds::above_zero(100.0, "m"));
    let gap = section.required_number("gap_cm", Bounds::between(0.0, 500.0, "cm"));
    let mut unlike = Vec::new();
    for (key, state) in [("missing", TreeState::Missing), ("dead", TreeState::Dead)] {
        for text in section.texts(key) {
            unlike.push(tree(section, key, text).map(|(row, tree)| gone(row, tree, state))?);
        }
    }
    for text in section.texts("other_radius") {
        unlike.push(other_radius(section, text)?);
    }
    let new = NewRows {
        label: name?,
        first_row,
        trees,
        spacing: Length::from_m(spacing?),
        row_spacing: row_spacing.map(Length::from_m),
        radius: Length::from_m(radius?),
        gap: Length::from_cm(gap?),
        unlike,
    };
    let moment = writer.moment();
    let outlined = tree_rows::outline(writer.book, &new, moment);
    writer.keep(section, outlined).map(drop)
}

/// The run of trees of a row, where it names one; nothing where it names a wrong one, which is noted.
#[expect(clippy::option_option, reason = "no run, or none that reads")]
pub(super) fn run(section: &Section<'_>) -> Option<Option<TreeRun>> {
    if !section.has("from_tree") && !section.has("to_tree") {
        return Some(None);
    }
    let from = section.required_text("from_tree");
    let to = section.required_text("to_tree");
    let drive = if section.has("drive") { section.choice("drive", &DRIVES)? } else { Drive::Serpentine };
    let (from_row, from_tree) = tree(section, "from_tree", from?)?;
    let (to_row, to_tree) = tree(section, "to_tree", to?)?;
    Some(Some(TreeRun { from_row, from_tree, to_row, to_tree, drive }))
}

/// A tree, `row/tree`.
fn tree(section: &Section<'_>, key: &str, text: &str) -> Option<(u32, u32)> {
    let read = text.split_once('/').and_then(|(row, tree)| Some((number(row)?, number(tree)?)));
    if read.is_none() {
        section.complain(key, Message::new("enter-no-tree").text("value", text), Some(section.advice(key)));
    }
    read
}

/// A tree and its radius, `row/tree/metres`.
fn other_radius(section: &Section<'_>, text: &str) -> Option<UnlikeTree> {
    let read = text.rsplit_once('/').and_then(|(at, metres)| {
        let (row, tree) = at.split_once('/')?;
        let metres: f64 = metres.trim().parse().ok().filter(|metres| (0.0..=50.0).contains(metres))?;
        Some(wide(number(row)?, number(tree)?, Length::from_m(metres)))
    });
    if read.is_none() {
        let what = Message::new("enter-no-tree").text("value", text);
        section.complain("other_radius", what, Some(section.advice("other_radius")));
    }
    read
}

fn number(text: &str) -> Option<u32> {
    text.trim().parse().ok().filter(|number| *number > 0)
}
