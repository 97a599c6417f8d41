//! Cautions come up at the act they belong to, and none is without use.
#![expect(clippy::unwrap_used, reason = "tests stop where a value is missing")]

use std::collections::BTreeSet;

use kerfbook_science::caution::{self, Act, AtPile, Facts, Severity, Way, cautions};
use kerfbook_science::compost::fire::FireLevel;
use kerfbook_science::crop::Edible;
use kerfbook_science::feed::{self, Feed};
use kerfbook_science::material::{self, Found, Material, Particle, Refusal};
use kerfbook_science::units::AreaMass;

const ACTS: [Act; 5] = [Act::Intake, Act::Storage, Act::Handling, Act::PuttingDown, Act::Feeding];

fn ids(act: Act, facts: &Facts<'_>) -> Vec<&'static str> {
    cautions(act, facts).into_iter().map(|caution| caution.id).collect()
}

fn feed_called(name: &str) -> &'static Feed {
    feed::find(name).exact().unwrap()
}

fn material_called(name: &str) -> &'static Material {
    match material::find(name) {
        Found::Material(material) => material,
        other => panic!("{name}: {other:?}"),
    }
}

#[test]
fn ids_are_kebab_case_and_used_once() {
    let mut seen = BTreeSet::new();
    for caution in caution::all() {
        assert!(caution.id.bytes().all(|b| b.is_ascii_lowercase() || b == b'-'), "{}", caution.id);
        assert!(seen.insert(caution.id), "{} twice", caution.id);
        assert!(!caution.source.title.is_empty(), "{}", caution.id);
    }
}

#[test]
fn every_caution_is_raised_by_some_facts() {
    let mut raised = BTreeSet::new();
    for refusal in [Refusal::Treated, Refusal::Painted, Refusal::Board, Refusal::Demolition] {
        let facts = Facts { refusal: Some(refusal), ..Facts::default() };
        raised.extend(ids(Act::Intake, &facts));
    }
    for act in ACTS {
        for material in material::all() {
            let facts = Facts {
                material: Some(material),
                from_elsewhere: true,
                sour: true,
                floated: true,
                diseased: true,
                fresh: true,
                treatment_unknown: true,
                medicines: true,
                weedkillers: true,
                seedbed: true,
                near_water: true,
                way: Some(Way::Ring),
                ..Facts::default()
            };
            raised.extend(ids(act, &facts));
        }
        for feed in feed::all() {
            let facts = Facts {
                feed: Some(feed),
                dose: Some(AreaMass::from_kg_ha(150.0)),
                on_surface: true,
                saline: true,
                sells: true,
                certified: true,
                ..Facts::default()
            };
            raised.extend(ids(act, &facts));
        }
    }
    let manure = [material_called("cattle manure")];
    let levels = [FireLevel::Amber, FireLevel::Red, FireLevel::Stop].map(AtPile::Reading);
    for act in
        [AtPile::Building(&manure), AtPile::Turning, AtPile::Finishing(&manure)].into_iter().chain(levels)
    {
        raised.extend(caution::at_pile(act).iter().map(|caution| caution.id));
    }
    let idle: Vec<_> = caution::all().iter().map(|c| c.id).filter(|id| !raised.contains(id)).collect();
    assert_eq!(idle, Vec::<&str>::new());
}

#[test]
fn refused_wood_forbids_every_act_and_comes_first() {
    for refusal in [Refusal::Treated, Refusal::Painted, Refusal::Board, Refusal::Demolition] {
        let facts = Facts { refusal: Some(refusal), ..Facts::default() };
        for act in ACTS {
            assert!(facts.forbid(act));
            assert_eq!(cautions(act, &facts).first().unwrap().severity, Severity::Refuse);
        }
    }
}

#[test]
fn urine_stays_off_where_food_is_sold_until_local_rules_are_confirmed() {
    let urine = Facts { feed: Some(feed_called("urine")), ..Facts::default() };
    assert!(!urine.forbid(Act::Feeding));
    assert!(Facts { sells: true, ..urine }.forbid(Act::Feeding));
    assert!(Facts { certified: true, ..urine }.forbid(Act::Feeding));
    assert!(!Facts { sells: true, urine_confirmed: true, ..urine }.forbid(Act::Feeding));
    assert!(ids(Act::Feeding, &urine).contains(&"urine-harvest"));
}

#[test]
fn raw_manure_carries_its_days_to_harvest() {
    let manure = feed_called("cattle manure");
    assert!(
        ids(Act::Feeding, &Facts { feed: Some(manure), ..Facts::default() }).contains(&"raw-manure-interval")
    );
    assert_eq!(manure.wait.days(Edible::TouchesSoil), 120);
    assert_eq!(manure.wait.days(Edible::Clear), 90);
    assert_eq!(manure.wait.days(Edible::NotForPeople), 0);
    assert_eq!(feed_called("urine").wait.days(Edible::Clear), 30);
    let bedding = Facts { material: Some(material_called("stable bedding")), ..Facts::default() };
    assert!(ids(Act::PuttingDown, &bedding).contains(&"raw-manure-interval"));
    assert!(ids(Act::Intake, &bedding).contains(&"bedding-medicines"));
}

#[test]
fn what_lies_under_trees_keeps_off_the_trunk() {
    let chips = material_called("wood chips");
    let ring = Facts { material: Some(chips), way: Some(Way::Ring), ..Facts::default() };
    assert!(ids(Act::PuttingDown, &ring).contains(&"trunk-gap"));
    let dug_in = Facts { way: Some(Way::WorkedIn), ..ring };
    assert!(!ids(Act::PuttingDown, &dug_in).contains(&"trunk-gap"));
}

#[test]
fn dust_walnut_and_cedar_are_told() {
    let walnut = Facts { material: Some(material_called("walnut sawdust")), ..Facts::default() };
    assert!(ids(Act::Intake, &walnut).contains(&"black-walnut"));
    assert!(ids(Act::Handling, &walnut).contains(&"wood-dust"));
    let coarse = Facts { particle: Some(Particle::Chips), ..walnut };
    assert!(!ids(Act::Handling, &coarse).contains(&"wood-dust"));
    let cedar = Facts { material: Some(material_called("cedar sawdust")), seedbed: true, ..Facts::default() };
    assert!(ids(Act::PuttingDown, &cedar).contains(&"decay-resistant-seedbed"));
}
