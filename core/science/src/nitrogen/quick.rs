//! The quick answer without a simulation (section 7 of the specification).

use serde::Serialize;

use super::batch::Batch;
use super::input::{Input, LayerWay, PutDown};
use super::sampling::Sample;
use crate::material::{ModelClass, Particle};

/// Nitrogen that a layer may take from soil and crop in one season, kg/ha, before what is given with it.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Quick {
    /// Dry mass, t/ha.
    pub dry_t_ha: f64,
    /// Low end.
    pub low: f64,
    /// Usual.
    pub typical: f64,
    /// High end.
    pub high: f64,
    /// The most that can be worked in under the practical limit, t/ha dry; none where this load is below it.
    pub most_dry_t_ha: Option<f64>,
}

/// Most tie-up of a class, per cent of dry mass: low, typical, high. `McKenzie` 1958 for hardwoods and pine;
/// Allison & Murphy 1962 through the model for bark; Nicolardot et al. 2001 for straw; slow and resistant
/// softwoods are from memory. None for materials that give nitrogen.
pub const fn potential(class: ModelClass) -> Option<[f64; 3]> {
    match class {
        ModelClass::Hardwood => Some([1.2, 1.35, 1.6]),
        ModelClass::SoftHardwood => Some([1.4, 1.6, 1.8]),
        ModelClass::Pine => Some([0.9, 1.0, 1.2]),
        ModelClass::SlowSoftwood => Some([0.3, 0.5, 0.8]),
        ModelClass::Resistant => Some([0.1, 0.2, 0.3]),
        ModelClass::HardwoodBark => Some([0.4, 0.6, 0.8]),
        ModelClass::SoftwoodBark => Some([0.0, 0.2, 0.4]),
        ModelClass::Straw => Some([1.1, 1.2, 1.35]),
        ModelClass::CompostedWood
        | ModelClass::Compost
        | ModelClass::Leaves
        | ModelClass::Manure
        | ModelClass::Meal => None,
    }
}

/// Part of it that shows in a season when pieces of a size are worked in. Chips after the extension rule of 10 lb
/// a ton (Rutgers 2012); chunks assumed.
const fn worked_in(particle: Particle) -> [f64; 3] {
    match particle {
        Particle::Dust => [1.0, 1.0, 1.0],
        Particle::Shavings => [0.5, 0.5, 0.5],
        Particle::Chips => [0.45, 0.52, 0.60],
        Particle::Chunks => [0.15, 0.20, 0.30],
    }
}

/// On the soil: the share, and the most a hectare draws whatever the depth; assumption.
const ON_TOP: [f64; 3] = [0.05, 0.075, 0.10];
const ON_TOP_MOST: [f64; 3] = [10.0, 25.0, 60.0];

/// The quick answer of a class, a size and a way, for a dry mass in t/ha and a practical limit in kg N/ha.
pub fn quick(
    class: ModelClass,
    particle: Particle,
    way: LayerWay,
    dry_t_ha: f64,
    limit: f64,
) -> Option<Quick> {
    // One per cent of a tonne is 10 kg.
    let whole = potential(class)?.map(|percent| dry_t_ha * 10.0 * percent);
    let place = worked_in(particle);
    let need: [f64; 3] = core::array::from_fn(|i| match way {
        LayerWay::WorkedIn => whole[i] * place[i],
        LayerWay::OnTop | LayerWay::Under => f64::min(whole[i] * ON_TOP[i], ON_TOP_MOST[i]),
    });
    let [low, typical, high] = need;
    let most_dry_t_ha = (way == LayerWay::WorkedIn && typical > limit).then(|| dry_t_ha * limit / typical);
    Some(Quick { dry_t_ha, low, typical, high, most_dry_t_ha })
}

/// The quick answer for each layer of an input's last stage; none for what gives nitrogen, and for layers
/// lifted elsewhere.
pub fn quick_answers(input: &Input) -> Vec<Option<Quick>> {
    let merged = input.merged();
    let Some(last) = merged.last() else { return Vec::new() };
    let answer = |put: &PutDown| {
        let dry = Batch::draw(put, 0, &Sample::median()).lanes(&[0; 1]).dry[0];
        quick(put.material?, put.particle, put.way, dry, last.input.nitrogen_limit_kg_ha)
    };
    last.input.put_down.iter().map(answer).collect()
}
