//! How much a load is, what it will hold, and the most that a place takes: no simulation.

use kerfbook_science::feed::{self, Feed};
use kerfbook_science::nitrogen::{LayerWay, Quick, quick};
use kerfbook_science::units::AreaMass;

use crate::assumed::Assumed;
use crate::compare;
use crate::error::ActError;
use crate::load::{Counted, Load};
use crate::scenario::{Scenario, Way};

/// The dose of a load on its place.
#[derive(Debug, Clone, PartialEq)]
pub struct Dose {
    /// The load in every measure.
    pub load: Load,
    /// In the grower's containers.
    pub counted: Counted,
    /// How it is used; taken as worked in where the scenario leaves it open, since that holds most.
    pub way: Way,
    /// Nitrogen it holds for a season, on the whole place, kg; `None` where the quick answer has no figure for it.
    pub quick_nitrogen_kg: Option<Low>,
    /// Most dry residue that this place takes in this way at the practical limit, t/ha; `None` where nothing limits it.
    pub most_dry_t_ha: Option<f64>,
    /// Sources that would make it up.
    pub sources: Vec<SourceDose>,
    /// Taken for granted.
    pub assumed: Vec<Assumed>,
}

/// A low, a typical and a high figure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Low {
    /// Low.
    pub low: f64,
    /// Typical.
    pub typical: f64,
    /// High.
    pub high: f64,
}

/// How much of a source gives the typical nitrogen.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SourceDose {
    /// The source.
    pub feed: &'static Feed,
    /// Product or liquid.
    pub amount: feed::Amount,
    /// Nitrogen in it, kg: never beyond the limit of the place.
    pub nitrogen_kg: f64,
    /// Days between giving and harvest for the crops of the scenario.
    pub days_to_harvest: u32,
    /// Allowed on this holding.
    pub allowed: bool,
}

/// Works the dose out.
///
/// # Errors
/// No load, or one that makes no layer.
pub fn dose(scenario: &Scenario) -> Result<Dose, ActError> {
    let asked = compare::asked_of(scenario).ok_or(ActError::NoLoad)?;
    let put = scenario.put_down.get(asked).ok_or(ActError::NoLoad)?;
    let mut assumed = Vec::new();
    let load = Load::of(put, &scenario.place, &scenario.containers, &mut assumed)?;
    let way = put.way.unwrap_or_else(|| {
        assumed.push(Assumed::text("way", "worked-in"));
        Way::WorkedIn
    });
    let quick = quick_of(&load, way, feed::PRACTICAL_LIMIT.value);
    let area = scenario.place.area;
    let quick_nitrogen_kg = quick.as_ref().map(|quick| {
        let kg = |per_ha: f64| area.mass_of(AreaMass::from_kg_ha(per_ha)).kg();
        Low { low: kg(quick.low), typical: kg(quick.typical), high: kg(quick.high) }
    });
    let typical = quick.as_ref().map_or(0.0, |quick| quick.typical.min(feed::PRACTICAL_LIMIT.value.kg_ha()));
    let nitrogen = area.mass_of(AreaMass::from_kg_ha(typical));
    let sources = feed::all()
        .iter()
        .map(|feed| SourceDose {
            feed,
            amount: feed.amount_for(nitrogen),
            nitrogen_kg: nitrogen.kg(),
            days_to_harvest: days_to_harvest(scenario, feed),
            allowed: source_allowed(scenario, feed),
        })
        .collect();
    Ok(Dose {
        counted: load.counted(&scenario.containers),
        most_dry_t_ha: quick.and_then(|quick| quick.most_dry_t_ha),
        load,
        way,
        quick_nitrogen_kg,
        sources,
        assumed,
    })
}

/// Whether a holding may use a source: certified holdings only organic ones; urine only as the rules of the way over
/// urine.
pub fn source_allowed(scenario: &Scenario, feed: &Feed) -> bool {
    let holding = &scenario.holding;
    let urine_off = feed.is_urine() && (holding.sells || holding.certified) && !holding.urine_confirmed;
    (feed.organic || !holding.certified) && !urine_off
}

/// Longest wait that a source asks for over the scenario's crops.
fn days_to_harvest(scenario: &Scenario, source: &Feed) -> u32 {
    use kerfbook_science::crop::{self, Edible};
    use kerfbook_science::lookup::Match;
    scenario
        .crops
        .iter()
        .map(|crop| match crop::find(&crop.name) {
            Match::Exact(found) => found.edible,
            Match::Near(_) => Edible::TouchesSoil,
        })
        .map(|edible| source.wait.days(edible))
        .max()
        .unwrap_or_else(|| source.wait.days(Edible::TouchesSoil))
}

/// The quick answer of a load, over the parts of its material: the mean over classes where the wood is not known, the
/// lowest and highest of them as its ends. `None` where no part has a figure.
fn quick_of(load: &Load, way: Way, limit: AreaMass) -> Option<Quick> {
    let slot = if way == Way::WorkedIn { LayerWay::WorkedIn } else { LayerWay::OnTop };
    let limit = limit.kg_ha();
    let dry = load.dry_per_area.t_ha();
    let mut whole: Option<Quick> = None;
    for part in &load.composition {
        let known: Vec<Quick> = part
            .one_of
            .iter()
            .filter_map(|class| quick(*class, load.particle, slot, dry * part.share, f64::INFINITY))
            .collect();
        if known.is_empty() {
            continue;
        }
        let count = known.len() as f64;
        let sum = whole.get_or_insert(Quick {
            dry_t_ha: dry,
            low: 0.0,
            typical: 0.0,
            high: 0.0,
            most_dry_t_ha: None,
        });
        sum.low += known.iter().map(|quick| quick.low).fold(f64::INFINITY, f64::min);
        sum.typical += known.iter().map(|quick| quick.typical).sum::<f64>() / count;
        sum.high += known.iter().map(|quick| quick.high).fold(0.0, f64::max);
    }
    whole.map(|sum| Quick {
        most_dry_t_ha: (slot == LayerWay::WorkedIn && sum.typical > limit).then(|| dry * limit / sum.typical),
        ..sum
    })
}

/// Most dry residue that can be worked in here, where the quick answer finds a limit.
pub(crate) fn most_dry(load: &Load) -> Option<AreaMass> {
    quick_of(load, Way::WorkedIn, feed::PRACTICAL_LIMIT.value)
        .and_then(|quick| quick.most_dry_t_ha)
        .map(AreaMass::from_t_ha)
}
