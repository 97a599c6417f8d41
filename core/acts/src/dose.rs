//! How much a load is, how well that is known, what it will hold, how it is carried, and the most that a place takes: no
//! simulation.

use kerfbook_science::dose::{Method, Spread};
use kerfbook_science::feed::{self, Feed};
use kerfbook_science::geometry::load::Payload;
use kerfbook_science::nitrogen::{LayerWay, Quick, quick};
use kerfbook_science::plain;
use kerfbook_science::units::AreaMass;

use crate::assumed::{Assumed, Value};
use crate::compare;
use crate::error::ActError;
use crate::load::{Counted, Load};
use crate::orchard::{self, ByLoad};
use crate::scenario::{Containers, PutDown, Scenario, Way};

/// The dose of a load on its place.
#[derive(Debug, Clone, PartialEq)]
pub struct Dose {
    /// The load in every measure.
    pub load: Load,
    /// In the grower's containers.
    pub counted: Counted,
    /// Dry mass on the ground: one case in ten below the first, one in ten above the last.
    pub dry_range: [AreaMass; 3],
    /// How the bulk density is known.
    pub density_by: Method,
    /// What one trailer of it weighs against what the trailer may carry, where that is known.
    pub payload: Option<Payload>,
    /// The loads of a run under trees, where rows are described.
    pub by_load: Option<ByLoad>,
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

impl Dose {
    /// The parts of the amount that the dry mass on the ground leans on, with what each may be off by as part of it.
    fn parts(&self) -> [(&'static str, f64); 4] {
        let (parts, solid) = (self.load.doubts.parts, 1.0 - self.load.moisture.fraction());
        let counts = self.load.doubts.known.leans_on();
        [
            ("amount", parts.known),
            ("area", if counts.area { parts.area } else { 0.0 }),
            ("bulk-density", if counts.density { parts.density } else { 0.0 }),
            ("moisture", if counts.moisture { parts.moisture / solid } else { 0.0 }),
        ]
    }

    /// Names of those that count here: a weighed load needs no density, a depth no area.
    pub fn leans_on(&self) -> Vec<&'static str> {
        self.parts().into_iter().filter(|(_, off)| *off > 0.0).map(|(name, _)| name).collect()
    }

    /// The one that may be off most.
    pub fn least_known(&self) -> Option<&'static str> {
        let most = self.parts().into_iter().max_by(|a, b| a.1.total_cmp(&b.1));
        most.filter(|(_, off)| *off > 0.0).map(|(name, _)| name)
    }
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
    let settles = Assumed::new("settles_to_pct", Value::Percent(load.settling.factor()));
    if put.settling.is_none() && !assumed.contains(&settles) {
        assumed.push(settles);
    }
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
        dry_range: load.doubts.spread.range(load.dry_per_area),
        density_by: put.measured.density_by.unwrap_or(Method::Table),
        payload: payload_of(&load, put, &scenario.containers),
        by_load: scenario
            .orchard
            .as_ref()
            .map(|orchard| orchard::by_load(orchard, &load, &scenario.containers))
            .transpose()?,
        most_dry_t_ha: quick.and_then(|quick| quick.most_dry_t_ha),
        load,
        way,
        quick_nitrogen_kg,
        sources,
        assumed,
    })
}

/// What a trailer of the load weighs: at its likely density, and where one case in ten is lighter and one heavier. Wetter
/// than thought is heavier than thought, unless the density was measured as it is.
fn payload_of(load: &Load, put: &PutDown, containers: &Containers) -> Option<Payload> {
    let water = if put.bulk_density.is_none() {
        load.moisture_sd.fraction() / (1.0 - load.moisture.fraction())
    } else {
        0.0
    };
    let density = load.wet_density;
    let off = Spread::of(plain::together(load.doubts.parts.density, water)).factor();
    let densities = [density / off, density, density * off];
    kerfbook_science::geometry::load::payload(
        orchard::one_load(load, containers),
        densities,
        containers.trailer_carries?,
    )
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
