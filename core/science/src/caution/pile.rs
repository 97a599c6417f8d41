//! Cautions of a pile, at the act they belong to.

use super::{Act, Caution, Facts, cautions, of_id};
use crate::compost::fire::FireLevel;
use crate::material::{Kind, Material};

/// What is done with a pile.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum AtPile<'a> {
    /// It is built of these.
    Building(&'a [&'static Material]),
    /// It is turned.
    Turning,
    /// Its heat was read.
    Reading(FireLevel),
    /// It is taken down, and what it was built of.
    Finishing(&'a [&'static Material]),
}

/// The cautions that an act at a pile calls for, gravest first, each once.
pub fn at_pile(act: AtPile<'_>) -> Vec<&'static Caution> {
    let mut found: Vec<&'static Caution> = Vec::new();
    let mut add = |more: Vec<&'static Caution>| {
        for caution in more {
            if !found.contains(&caution) {
                found.push(caution);
            }
        }
    };
    let named = |ids: &[&str]| ids.iter().filter_map(|id| of_id(id)).collect::<Vec<_>>();
    match act {
        AtPile::Building(materials) => {
            for material in materials {
                let facts = Facts { material: Some(material), ..Facts::default() };
                add(cautions(Act::Intake, &facts));
                add(cautions(Act::Storage, &facts));
            }
            add(named(&["pile-run-off", "static-cover"]));
            if materials.iter().any(|material| is_of_animals(material)) {
                add(named(&["by-products-authority", "raw-manure-interval"]));
            }
        }
        AtPile::Turning => {
            add(named(&["aspergillus-spores", "legionella", "heap-gases", "smouldering-pile"]));
        }
        AtPile::Reading(FireLevel::Green) => {}
        AtPile::Reading(FireLevel::Amber) => add(named(&["fire-amber"])),
        AtPile::Reading(FireLevel::Red) => add(named(&["fire-red", "smouldering-pile"])),
        AtPile::Reading(FireLevel::Stop) => add(named(&["fire-stop", "smouldering-pile"])),
        AtPile::Finishing(materials) => {
            add(named(&["legionella", "unfinished-compost"]));
            let risky =
                |material: &&&Material| matches!(material.kind, Kind::Manure | Kind::Straw | Kind::Green);
            if materials.iter().any(|material| risky(&material)) {
                add(named(&["persistent-weedkillers"]));
            }
            if materials.iter().any(|material| is_of_animals(material)) {
                add(named(&["by-products-authority", "raw-manure-interval"]));
            }
        }
    }
    found.sort_by_key(|caution| caution.severity);
    found
}

/// Whether it comes from animals, or may.
pub fn is_of_animals(material: &Material) -> bool {
    matches!(material.kind, Kind::Manure | Kind::Food | Kind::Sludge)
        || ["blood", "bone", "fish", "hoof", "feather"].into_iter().any(|word| material.is_called(word))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::material::{Found, find};

    #[test]
    fn each_act_has_its_own() {
        let material = |name| match find(name) {
            Found::Material(material) => material,
            other => panic!("{name}: {other:?}"),
        };
        let ids = |act| at_pile(act).iter().map(|caution| caution.id).collect::<Vec<_>>();
        let parts = [material("hardwood sawdust"), material("cattle manure")];
        let building = ids(AtPile::Building(&parts));
        for id in [
            "pile-run-off",
            "by-products-authority",
            "persistent-weedkillers",
            "heap-gases",
            "raw-manure-interval",
        ] {
            assert!(building.contains(&id), "{id}: {building:?}");
        }
        assert!(!ids(AtPile::Building(&parts[..1])).contains(&"by-products-authority"));
        let turning = ids(AtPile::Turning);
        for id in ["aspergillus-spores", "legionella", "heap-gases"] {
            assert!(turning.contains(&id), "{id}: {turning:?}");
        }
        assert!(ids(AtPile::Reading(FireLevel::Amber)).contains(&"fire-amber"));
        assert!(ids(AtPile::Reading(FireLevel::Red)).contains(&"fire-red"));
        assert!(ids(AtPile::Reading(FireLevel::Green)).is_empty());
        assert!(ids(AtPile::Reading(FireLevel::Stop)).contains(&"fire-stop"));
        assert!(ids(AtPile::Finishing(&parts)).contains(&"persistent-weedkillers"));
    }
}
