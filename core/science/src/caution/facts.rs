//! Which cautions an act calls for.

use super::{Act, Caution, DEEPEST_DUST, DEEPEST_UNDER_TREES, Severity, of_id};
use crate::feed::{self, Enters, Feed, Gift};
use crate::material::{Kind, Material, ModelClass, Particle, Refusal};
use crate::units::{AreaMass, Length};

/// A way of using residue.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Way {
    /// Mixed into the soil.
    WorkedIn,
    /// Laid on the soil.
    OnTop,
    /// Laid on the soil over nitrogen.
    OnTopOverNitrogen,
    /// Composted before it is put down.
    CompostedFirst,
    /// On a path.
    Path,
    /// In rings under trees.
    Ring,
}

impl Way {
    /// Its name in files and on screens.
    pub const fn name(self) -> &'static str {
        match self {
            Self::WorkedIn => "worked-in",
            Self::OnTop => "on-top",
            Self::OnTopOverNitrogen => "on-top-over-nitrogen",
            Self::CompostedFirst => "composted-first",
            Self::Path => "path",
            Self::Ring => "ring",
        }
    }

    const fn leaves_a_layer(self) -> bool {
        matches!(self, Self::OnTop | Self::OnTopOverNitrogen | Self::Path | Self::Ring)
    }
}

/// What is known of an act; what is not known stays at its default. Only what is stated raises a caution,
/// but a feed whose place is unknown is taken as on food.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
#[expect(clippy::struct_excessive_bools, reason = "each is one answer of a person")]
pub struct Facts<'a> {
    /// The material, where one is handled.
    pub material: Option<&'a Material>,
    /// Size of its pieces, where it differs from the usual.
    pub particle: Option<Particle>,
    /// The name was refused.
    pub refusal: Option<Refusal>,
    /// The load comes from elsewhere.
    pub from_elsewhere: bool,
    /// The load smells of vinegar, silage or ammonia.
    pub sour: bool,
    /// The logs were floated in salt water.
    pub floated: bool,
    /// The trees were diseased.
    pub diseased: bool,
    /// The wood is freshly cut.
    pub fresh: bool,
    /// Nobody knows whether treated, painted or glued wood is in it.
    pub treatment_unknown: bool,
    /// The animals on the bedding were given medicines.
    pub medicines: bool,
    /// Weedkillers that outlast animals and compost were sprayed on what it is made of.
    pub weedkillers: bool,
    /// How it is put down.
    pub way: Option<Way>,
    /// Depth of the layer; where stated, cautions about depth come only beyond their figure.
    pub depth: Option<Length>,
    /// The place holds trees, bushes or vines.
    pub woody_crop: bool,
    /// Seeds are sown or small plants set there.
    pub seedbed: bool,
    /// A well, ditch or stream is near.
    pub near_water: bool,
    /// A feed, where one is given.
    pub feed: Option<&'a Feed>,
    /// Its nitrogen, where known.
    pub dose: Option<AreaMass>,
    /// It lies on the surface.
    pub on_surface: bool,
    /// Saline ground.
    pub saline: bool,
    /// What grows there is not for people.
    pub not_food: bool,
    /// The holding sells food.
    pub sells: bool,
    /// The holding is certified organic.
    pub certified: bool,
    /// Local rules on urine were confirmed to allow it.
    pub urine_confirmed: bool,
}

/// The cautions that an act calls for, gravest first, each once.
pub fn cautions(act: Act, facts: &Facts<'_>) -> Vec<&'static Caution> {
    let mut ids: Vec<&'static str> = Vec::new();
    if let Some(refusal) = facts.refusal {
        ids.push(refusal.caution());
    }
    match act {
        Act::Intake => intake(facts, &mut ids),
        Act::Storage => storage(facts, &mut ids),
        Act::Handling => handling(facts, &mut ids),
        Act::PuttingDown => putting_down(facts, &mut ids),
        Act::Feeding => feeding(facts, &mut ids),
    }
    let mut found: Vec<&'static Caution> = Vec::with_capacity(ids.len());
    for id in ids {
        if let Some(caution) = of_id(id)
            && !found.contains(&caution)
        {
            found.push(caution);
        }
    }
    found.sort_by_key(|caution| caution.severity);
    found
}

impl Facts<'_> {
    /// Whether a caution forbids the act.
    pub fn forbid(&self, act: Act) -> bool {
        cautions(act, self).iter().any(|caution| caution.severity == Severity::Refuse)
    }

    fn particle(&self) -> Option<Particle> {
        self.particle.or_else(|| self.material.map(|material| material.particle))
    }

    fn may_exceed(&self, most: Length) -> bool {
        self.depth.is_none_or(|depth| depth > most)
    }

    fn is_dusty(&self) -> bool {
        self.material.is_some_and(|m| matches!(m.kind, Kind::Wood | Kind::Bark))
            && matches!(self.particle(), Some(Particle::Dust | Particle::Shavings))
    }
}

fn has_class(material: &Material, class: ModelClass) -> bool {
    material.composition.iter().any(|part| part.one_of == [class])
}

/// Cautions that go with a material wherever it is handled.
fn of_material(material: &Material, ids: &mut Vec<&'static str>) {
    if material.is_called("walnut") {
        ids.extend(["black-walnut", "walnut-horses"]);
    }
    if ["yew", "oleander", "laurel", "robinia"].into_iter().any(|poison| material.is_called(poison)) {
        ids.push("poisonous-to-stock");
    }
    if material.is_called("pallet") {
        ids.push("pallet-fumigant");
    }
    if material.is_called("cocoa") {
        ids.push("cocoa-shell-dogs");
    }
    if material.is_called("coffe") {
        ids.push("coffee-grounds");
    }
    if material.kind == Kind::Manure {
        ids.push("persistent-weedkillers");
    }
    if material.kind == Kind::Manure && material.composition.len() > 1 {
        ids.push("bedding-medicines");
    }
    if matches!(material.kind, Kind::Straw) {
        ids.push("persistent-weedkillers");
    }
}

fn intake(facts: &Facts<'_>, ids: &mut Vec<&'static str>) {
    if let Some(material) = facts.material {
        of_material(material, ids);
        if material.kind == Kind::Compost {
            ids.extend(["unfinished-compost", "persistent-weedkillers", "legionella"]);
        }
        if matches!(material.kind, Kind::Wood | Kind::Bark) && facts.from_elsewhere {
            ids.extend(["quarantine-wood", "waste-permit"]);
        }
    }
    if facts.treatment_unknown {
        ids.push("treatment-unknown");
    }
    if facts.weedkillers {
        ids.push("weedkillers-known");
    }
    if facts.medicines {
        ids.push("bedding-medicines");
    }
    if facts.sour {
        ids.push("sour-mulch");
    }
    if facts.floated {
        ids.push("floated-logs-salt");
    }
    if facts.diseased {
        ids.push("diseased-wood");
    }
    if facts.fresh {
        ids.push("fresh-green-wood");
    }
}

fn storage(facts: &Facts<'_>, ids: &mut Vec<&'static str>) {
    ids.extend(["heap-fire", "heap-size", "heap-gases", "heap-collapse", "children-on-heaps"]);
    if facts.is_dusty() {
        ids.push("dust-explosion");
    }
    if facts.near_water {
        ids.push("run-off");
    }
}

fn handling(facts: &Facts<'_>, ids: &mut Vec<&'static str>) {
    if let Some(material) = facts.material {
        if facts.is_dusty() {
            ids.extend(["wood-dust", "wood-dust-cancer", "dust-explosion"]);
        }
        if has_class(material, ModelClass::Resistant) {
            ids.push("redcedar-dust");
        }
        if matches!(facts.particle(), Some(Particle::Chips | Particle::Chunks)) && material.kind == Kind::Wood
        {
            ids.push("chipper");
        }
    }
    ids.extend(["legionella", "aspergillus-spores", "trailer-overload"]);
}

fn putting_down(facts: &Facts<'_>, ids: &mut Vec<&'static str>) {
    if let Some(material) = facts.material {
        of_material(material, ids);
        if facts.seedbed && has_class(material, ModelClass::Resistant) {
            ids.push("decay-resistant-seedbed");
        }
        if facts.is_dusty() {
            ids.push("wood-dust");
        }
        if material.kind == Kind::Manure {
            ids.extend(["raw-manure-interval", "raw-manure-produce"]);
        }
        if material.kind == Kind::Compost {
            ids.push("legionella");
        }
    }
    if facts.seedbed && facts.fresh {
        ids.push("fresh-green-wood");
    }
    if facts.sour {
        ids.push("sour-mulch");
    }
    if facts.way.is_some_and(Way::leaves_a_layer) {
        ids.extend(["building-gap", "voles-slugs", "frost"]);
        if facts.woody_crop || facts.way == Some(Way::Ring) {
            ids.push("trunk-gap");
            if facts.may_exceed(DEEPEST_UNDER_TREES) {
                ids.push("mulch-depth");
            }
        }
        if facts.particle() == Some(Particle::Dust) && facts.may_exceed(DEEPEST_DUST) {
            ids.push("sawdust-mat");
        }
    }
    if facts.near_water {
        ids.push("run-off");
    }
    ids.push("ask-local-rules");
}

fn feeding(facts: &Facts<'_>, ids: &mut Vec<&'static str>) {
    let Some(feed) = facts.feed else { return };
    if feed.is_raw_manure() && !facts.not_food {
        ids.extend(["raw-manure-interval", "raw-manure-produce"]);
    }
    if feed.is_raw_manure() {
        ids.extend(["manure-limit-eu", "ammonia-manure", "persistent-weedkillers"]);
    }
    if feed.is_urine() {
        if !facts.not_food {
            ids.extend(["urine-harvest", "urine-storage"]);
        }
        if (facts.sells || facts.certified) && !facts.urine_confirmed {
            ids.push("urine-food-sold");
        }
        if facts.saline {
            ids.push("urine-saline");
        }
    }
    if facts.certified && !feed.organic {
        ids.push("not-organic");
    }
    if facts.dose.is_some_and(|dose| dose > feed::PRACTICAL_LIMIT.value) {
        ids.push("dose-limit");
    }
    if matches!(feed.enters, Enters::Gift(Gift::Urea | Gift::Urine)) {
        ids.push("seed-burn");
        if facts.on_surface {
            ids.push("ammonia-urea");
        }
    }
    if feed.lime_per_100.is_some_and(|lime| lime > 0.0) {
        ids.push("acidifying");
    }
    if ["blood meal", "feather meal", "fish meal"].contains(&feed.name) {
        ids.push("animal-meal-stock");
    }
    if facts.near_water || matches!(feed.enters, Enters::Gift(_)) {
        ids.extend(["nitrate-water-us", "nitrate-water-eu"]);
    }
    if facts.near_water {
        ids.push("run-off");
    }
}
