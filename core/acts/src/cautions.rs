//! The cautions that belong to a way of using a load, by id.

use kerfbook_science::caution::{self, Act, Caution, Facts};
use kerfbook_science::feed::Feed;
use kerfbook_science::units::AreaMass;

use crate::load::Load;
use crate::scenario::{Holding, Scenario, Way};
use crate::site;
use crate::way::{self, Row};

/// Cautions of a row: of putting the load down, of handling it, and of what it brings; gravest first, each once.
pub fn of_row(scenario: &Scenario, row: Row, load: &Load) -> Vec<&'static str> {
    let Some(way) = caution_way(row) else { return Vec::new() };
    let mut facts = facts(scenario);
    facts.material = Some(load.material);
    facts.particle = Some(load.particle);
    facts.way = Some(way);
    facts.depth = row.is_mulch().then_some(load.depth);
    let mut found = caution::cautions(Act::PuttingDown, &facts);
    found.extend(caution::cautions(Act::Handling, &facts));
    match row {
        Row::OverUrine => found.extend(of_feed(scenario, "urine", way::urine_nitrogen_kg_ha())),
        Row::CompostedFirst => {
            found.extend(of_feed(scenario, "cattle manure", 0.0));
            found.extend(caution::cautions(Act::Storage, &facts));
        }
        _ => {}
    }
    found.sort_by_key(|caution| caution.severity);
    let mut ids: Vec<&'static str> = Vec::new();
    for caution in found {
        if !ids.contains(&caution.id) {
            ids.push(caution.id);
        }
    }
    ids
}

/// Cautions of giving a source.
pub fn of_feed(scenario: &Scenario, source: &str, nitrogen_kg_ha: f64) -> Vec<&'static Caution> {
    let Ok(found) = site::find_feed(source) else { return Vec::new() };
    of_found(scenario, found, nitrogen_kg_ha)
}

/// Cautions of giving a source of the table.
pub fn of_found(scenario: &Scenario, source: &Feed, nitrogen_kg_ha: f64) -> Vec<&'static Caution> {
    let woody = scenario.crops.iter().any(|crop| site::is_tree(scenario, crop));
    of_given(&scenario.holding, woody, source, AreaMass::from_kg_ha(nitrogen_kg_ha))
}

/// Cautions of a dose of a source on a holding, under woody crops or others.
pub fn of_given(holding: &Holding, woody: bool, source: &Feed, dose: AreaMass) -> Vec<&'static Caution> {
    let mut facts = of_holding(holding, woody);
    facts.feed = Some(source);
    facts.dose = (dose.kg_ha() > 0.0).then_some(dose);
    caution::cautions(Act::Feeding, &facts)
}

fn facts(scenario: &Scenario) -> Facts<'static> {
    of_holding(&scenario.holding, scenario.crops.iter().any(|crop| site::is_tree(scenario, crop)))
}

fn of_holding(holding: &Holding, woody_crop: bool) -> Facts<'static> {
    Facts {
        woody_crop,
        sells: holding.sells,
        certified: holding.certified,
        urine_confirmed: holding.urine_confirmed,
        ..Facts::default()
    }
}

fn caution_way(row: Row) -> Option<Way> {
    match row {
        Row::Bare => None,
        Row::WorkedIn => Some(Way::WorkedIn),
        Row::OnTop => Some(Way::OnTop),
        Row::OverCompost | Row::OverUrine => Some(Way::OnTopOverNitrogen),
        Row::CompostedFirst => Some(Way::CompostedFirst),
        Row::Path => Some(Way::Path),
        Row::Ring => Some(Way::Ring),
    }
}
