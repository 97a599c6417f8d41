//! A TOML file that a person wrote, with units in the names of its keys: read whole, or everything wrong with it told
//! at once, each with its line and what to do.
//!
//! Reading order: [`text`], [`syntax`], [`layout`], [`section`].

pub(crate) mod layout;
pub(crate) mod section;
mod syntax;
pub(crate) mod text;

use std::path::Path;

use toml::de::DeTable;

use self::layout::{Layout, nearest};
use self::section::Notes;
use crate::fault::{Fault, Message};

/// Longest file that is read.
pub(crate) const MOST_BYTES: u64 = 1024 * 1024;

/// What `describe` makes of a text that may hold these sections. It notes what is wrong and then gives nothing.
pub(crate) fn read<T>(
    text: &str,
    path: &Path,
    layouts: &'static [&'static Layout],
    describe: impl FnOnce(&Notes<'_>, &DeTable<'_>) -> Option<T>,
) -> Result<T, Fault> {
    let notes = Notes::new(text, layouts);
    let (root, errors) = DeTable::parse_recoverable(text);
    if errors.is_empty() && root.get_ref().is_empty() {
        return Err(Fault::input(path, Message::new("desk-empty-file"), None));
    }
    let described = if errors.is_empty() {
        if !layouts.iter().any(|layout| layout.is_whole_file()) {
            refuse_unknown_sections(&notes, root.get_ref());
        }
        describe(&notes, root.get_ref())
    } else {
        syntax::note(&notes, text, &errors);
        None
    };
    let complaints = notes.into_complaints();
    match described {
        Some(described) if complaints.is_empty() => Ok(described),
        _ => Err(Fault::Input { file: path.to_owned(), complaints }),
    }
}

fn refuse_unknown_sections(notes: &Notes<'_>, root: &DeTable<'_>) {
    let layouts = notes.layouts();
    for (name, _) in root {
        let written: &str = name.get_ref();
        if layouts.iter().any(|layout| layout.name == written) {
            continue;
        }
        let near = nearest(written, layouts.iter().map(|layout| layout.name), 1);
        let near = near.first().and_then(|near| layouts.iter().find(|layout| layout.name == *near));
        let remedy = match (notes.home_of(written, ""), near) {
            (Some(home), _) => {
                Message::new("desk-key-belongs").text("key", written).text("section", home.header())
            }
            (None, Some(near)) => Message::new("desk-did-you-mean").text("name", near.header()),
            (None, None) => {
                let all: Vec<String> = layouts.iter().map(|layout| layout.header()).collect();
                Message::new("desk-known-sections").text("names", all.join(", "))
            }
        };
        notes.add(
            Some(&name.span()),
            written,
            Message::new("desk-unknown-section").text("name", written),
            Some(remedy),
        );
    }
}
