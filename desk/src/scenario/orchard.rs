//! Rows of trees that are worked load by load.

use kerfbook_acts::scenario::{Block, Drive, Ground, Orchard, Tree};
use kerfbook_acts::way::RING_DEPTH_CM;
use kerfbook_science::geometry::run::RunError;
use kerfbook_science::units::Length;

use super::Silence;
use crate::fault::Message;
use crate::toml_file::section::{Bounds, Section};

const DRIVES: [(&str, Drive); 2] = [("serpentine", Drive::Serpentine), ("same-way", Drive::SameWay)];
/// Gap at a trunk where nobody says it, cm.
const GAP_CM: f64 = 15.0;

/// The rows, where the file has them.
pub(super) fn orchard(section: &Section<'_>, silence: &mut Silence) -> Option<Orchard> {
    if !section.is_there() {
        return None;
    }
    for name in ["trees", "from"] {
        if !section.has(name) {
            section.missing(name, None);
        }
    }
    let first = section.whole("first_row", 1_000_000).unwrap_or(1);
    let drive = section.choice("drive", &DRIVES);
    let drive = if section.has("drive") {
        drive?
    } else {
        silence.text("orchard.drive", "serpentine", Drive::Serpentine)
    };
    let trees = section.numbers("trees", Bounds::between(0.0, 100_000.0, ""));
    let missing: Vec<Option<Tree>> =
        section.texts("missing").into_iter().map(|text| tree(section, "missing", text)).collect();
    let from = section.text("from").and_then(|text| tree(section, "from", text));
    let to = section.text("to").map(|text| tree(section, "to", text));
    let ground = ground(section, silence);
    let depth = section
        .number("depth_mm", Bounds::above_zero(1_500.0, "mm"))
        .unwrap_or_else(|| silence.number("orchard.depth_mm", RING_DEPTH_CM.value * 10.0));
    let spreader = section.number("spreader_m", Bounds::above_zero(50.0, "m"));
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "within bounds")]
    let trees: Vec<u32> = trees?.into_iter().map(|count| count as u32).collect();
    let missing: Vec<Tree> = missing.into_iter().collect::<Option<_>>()?;
    let block = match Block::new(first, trees, missing, drive) {
        Ok(block) => block,
        Err(RunError::NoTree(tree)) => {
            section.complain("missing", no_such_tree(tree), Some(Message::new("desk-tree-in-rows")));
            return None;
        }
        Err(_) => {
            section.complain("trees", Message::new("desk-no-rows"), Some(section.advice("trees")));
            return None;
        }
    };
    let (from, to) = (
        from?,
        match to {
            Some(to) => Some(to?),
            None => None,
        },
    );
    if let Err(error) = block.count(from, to.unwrap_or(from)) {
        let (key, what) = match error {
            RunError::NoTree(tree) if tree == from => ("from", no_such_tree(tree)),
            RunError::NoTree(tree) => ("to", no_such_tree(tree)),
            _ => ("to", Message::new("desk-run-backwards")),
        };
        section.complain(key, what, Some(Message::new("desk-tree-in-rows")));
        return None;
    }
    Some(Orchard {
        block,
        ground: ground?,
        depth: Length::from_mm(depth),
        from,
        to,
        spreader: spreader.map(Length::from_m),
    })
}

/// Rings around the trees, or a band along the row.
fn ground(section: &Section<'_>, silence: &mut Silence) -> Option<Ground> {
    let metres = Bounds::above_zero(50.0, "m");
    let (name, value) = section.one_of(&[("ring_radius_m", metres), ("band_m", metres)], true)?;
    if name == "band_m" {
        let spacing = section.required_number("spacing_m", metres)?;
        return Some(Ground::Band { width: Length::from_m(value), spacing: Length::from_m(spacing) });
    }
    let gap = section.number("gap_cm", Bounds::between(0.0, 500.0, "cm"));
    let gap = gap.unwrap_or_else(|| silence.number("orchard.gap_cm", GAP_CM));
    if gap >= value * 100.0 {
        let what = Message::new("desk-gap-over-ring").text("gap", gap).text("radius", value);
        section.complain("gap_cm", what, Some(Message::new("desk-check-both")));
        return None;
    }
    Some(Ground::Rings { radius: Length::from_m(value), gap: Length::from_cm(gap) })
}

/// "12/9": row 12, tree 9.
fn tree(section: &Section<'_>, name: &str, text: &str) -> Option<Tree> {
    let read = text.split_once('/').and_then(|(row, tree)| {
        Some(Tree { row: row.trim().parse().ok()?, tree: tree.trim().parse().ok()? })
    });
    if read.is_none() {
        let what = Message::new("desk-no-tree").text("key", name).text("value", text);
        section.complain(name, what, Some(section.advice(name)));
    }
    read
}

fn no_such_tree(tree: Tree) -> Message {
    Message::new("desk-no-such-tree").text("row", tree.row).text("tree", tree.tree)
}
