//! Names that must be in a table of the science: materials, feeds, crops.

use kerfbook_acts::scenario::CropNeed;
use kerfbook_science::crop;
use kerfbook_science::feed::{self, Feed};
use kerfbook_science::lookup::Match;
use kerfbook_science::material::{self, Found, Material};

use crate::fault::Message;
use crate::toml_file::section::Section;

/// Most names offered in place of an unknown one.
const OFFERED: usize = 3;

/// Whether a material is known and may be put down; if not, it is noted.
pub(super) fn check_material(section: &Section<'_>, name: &str) -> bool {
    match material::find(name) {
        Found::Material(material) if !material.is_residue() => {
            let what = Message::new("desk-not-residue").text("name", name);
            section.complain("material", what, Some(Message::new("desk-give-as-feed")));
            false
        }
        Found::Material(_) => true,
        Found::Refused(refusal) => {
            let what = Message::new("desk-refused-material")
                .text("name", name)
                .caution("caution", refusal.caution());
            section.complain("material", what, None);
            false
        }
        Found::Unknown { nearest } => {
            unknown_material(section, name, &nearest);
            false
        }
    }
}

fn unknown_material(section: &Section<'_>, name: &str, nearest: &[&Material]) {
    let names: Vec<&str> = nearest.iter().take(OFFERED).map(|material| material.name).collect();
    let remedy = if names.is_empty() {
        Message::new("desk-unknown-material-any")
    } else {
        Message::new("desk-unknown-material-near").text("names", quoted(&names))
    };
    section.complain("material", Message::new("desk-unknown-material").text("name", name), Some(remedy));
}

/// Whether the table of materials knows a name, refused ones too; if not, it is noted.
pub(crate) fn is_material(section: &Section<'_>, name: &str) -> bool {
    let Found::Unknown { nearest } = material::find(name) else { return true };
    unknown_material(section, name, &nearest);
    false
}

/// A feed of the table; one that is not there is noted at its key.
pub(crate) fn feed(section: &Section<'_>, key: &'static str, name: &str) -> Option<&'static Feed> {
    match feed::find(name) {
        Match::Exact(feed) => Some(feed),
        Match::Near(near) => {
            let names: Vec<&str> = near.iter().take(OFFERED).map(|feed| feed.name).collect();
            let remedy = if names.is_empty() {
                Message::new("desk-unknown-feed-any")
            } else {
                Message::new("desk-unknown-feed-near").text("names", quoted(&names))
            };
            section.complain(key, Message::new("desk-unknown-feed").text("name", name), Some(remedy));
            None
        }
    }
}

/// The need of a crop in the table, and the part of it that a legume fixes itself.
pub(super) fn crop(name: &str) -> Option<(CropNeed, f64)> {
    let crop = crop::find(name).exact()?;
    let need = crop.per_tree().map_or(CropNeed::Annual(crop.uptake.typical), CropNeed::Tree);
    Some((need, crop.fixed))
}

/// Notes a crop that is not in the table and has no stated need.
pub(super) fn unknown_crop(section: &Section<'_>, name: &str) {
    let near = match crop::find(name) {
        Match::Exact(_) => Vec::new(),
        Match::Near(near) => near.iter().take(OFFERED).map(|crop| crop.name).collect(),
    };
    let remedy = if near.is_empty() {
        Message::new("desk-crop-need")
    } else {
        Message::new("desk-unknown-crop-near").text("names", quoted(&near))
    };
    section.complain("name", Message::new("desk-unknown-crop").text("name", name), Some(remedy));
}

fn quoted(names: &[&str]) -> String {
    let quoted: Vec<String> = names.iter().map(|name| format!("\"{name}\"")).collect();
    quoted.join(", ")
}
