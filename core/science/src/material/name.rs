//! Finding a material by what people call it, in English and Spanish.

use std::sync::LazyLock;

use super::{Material, Refusal, all, refusal};
use crate::lookup::{Index, Match};

/// Other names of materials: alias, name in the table.
const ALIASES: &str = include_str!("aliases.txt");

/// What a name stands for.
#[derive(Debug, Clone, PartialEq)]
pub enum Found {
    /// A known material.
    Material(&'static Material),
    /// A material that no growing place takes.
    Refused(Refusal),
    /// Not known; these are like it, best first; may be empty.
    Unknown {
        /// Materials with names like it.
        nearest: Vec<&'static Material>,
    },
}

/// Finds a material by name. A typing error brings suggestions, never a guess; but a typing error in a word
/// such as "treated" refuses, because the other reading would do harm.
pub fn find(name: &str) -> Found {
    if let Some(why) = refusal::said_in(name) {
        return Found::Refused(why);
    }
    let table = all();
    match INDEX.find(name) {
        Match::Exact(position) => match table.get(position) {
            Some(material) => Found::Material(material),
            None => Found::Unknown { nearest: Vec::new() },
        },
        Match::Near(near) => match refusal::almost_said_in(name) {
            Some(why) => Found::Refused(why),
            None => Found::Unknown { nearest: near.into_iter().filter_map(|i| table.get(i)).collect() },
        },
    }
}

static INDEX: LazyLock<Index> = LazyLock::new(|| {
    let own = all().iter().enumerate().map(|(i, material)| (material.name, i));
    let others = aliases().filter_map(|(alias, name)| position(name).map(|i| (alias, i)));
    Index::new(own.chain(others))
});

/// The aliases: one a line, `alias;name in the table`.
fn aliases() -> impl Iterator<Item = (&'static str, &'static str)> {
    ALIASES.lines().filter_map(|line| line.split_once(';'))
}

fn position(name: &str) -> Option<usize> {
    all().iter().position(|material| material.name == name)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_alias_names_a_material_and_none_is_ambiguous() {
        for line in ALIASES.lines() {
            let (_, name) = line.split_once(';').unwrap_or((line, ""));
            assert!(position(name).is_some(), "{line}");
        }
        let clashes: Vec<_> = INDEX
            .clashes()
            .into_iter()
            .map(|(words, a, b)| (words, all().get(a).map(|m| m.name), all().get(b).map(|m| m.name)))
            .collect();
        assert!(clashes.is_empty(), "{clashes:?}");
    }
}
