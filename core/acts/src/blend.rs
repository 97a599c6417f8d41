//! What a blend is made of: material by dry mass, nitrogen and carbon added up, their ratio never averaged.

use kerfbook_science::material::{self, Material, ModelClass, Part};
use kerfbook_science::units::{Mass, Share};

/// One thing in a blend.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Component {
    /// What it is.
    pub material: &'static Material,
    /// Dry mass.
    pub dry: Mass,
    /// Water.
    pub water: Mass,
    /// Carbon to nitrogen.
    pub carbon_nitrogen: f64,
}

/// A blend as a whole.
#[derive(Debug, Clone, PartialEq)]
pub struct Blend {
    /// What is in it, as it was put in.
    pub components: Vec<Component>,
    /// Dry mass.
    pub dry: Mass,
    /// Mass with its water.
    pub wet: Mass,
    /// Water by mass of the moist blend.
    pub moisture: Share,
    /// All carbon to all nitrogen.
    pub carbon_nitrogen: f64,
    /// The material of the table that it comes nearest to.
    pub nearest: &'static Material,
}

impl Blend {
    /// Of its components; `None` where there is no dry matter or no nitrogen in them.
    pub fn of(components: Vec<Component>) -> Option<Self> {
        let dry: f64 = components.iter().map(|one| one.dry.kg()).sum();
        let water: f64 = components.iter().map(|one| one.water.kg()).sum();
        let carbon: f64 = components.iter().map(Component::carbon).sum();
        let nitrogen: f64 = components.iter().map(Component::nitrogen).sum();
        if !(dry > 0.0 && nitrogen > 0.0 && water >= 0.0) {
            return None;
        }
        Some(Self {
            dry: Mass::from_kg(dry),
            wet: Mass::from_kg(dry + water),
            moisture: Share::from_fraction(water / (dry + water)),
            carbon_nitrogen: carbon / nitrogen,
            nearest: nearest(&components)?,
            components,
        })
    }

    /// What the model sees of it: classes by dry mass, in the order of the components, each once.
    pub fn parts(&self) -> Vec<Part> {
        let mut parts: Vec<Part> = Vec::new();
        for one in &self.components {
            let share = self.share(one);
            for part in &one.material.composition {
                match parts.iter_mut().find(|known| known.one_of == part.one_of) {
                    Some(known) => known.share += part.share * share,
                    None => parts.push(Part { share: part.share * share, one_of: part.one_of }),
                }
            }
        }
        parts
    }

    /// Part of the dry mass that a component makes.
    pub fn share(&self, component: &Component) -> f64 {
        component.dry.kg() / self.dry.kg()
    }
}

impl Component {
    /// Carbon, kg.
    fn carbon(&self) -> f64 {
        self.dry.kg() * self.material.carbon_share()
    }

    /// Nitrogen, kg.
    fn nitrogen(&self) -> f64 {
        if self.carbon_nitrogen > 0.0 { self.carbon() / self.carbon_nitrogen } else { 0.0 }
    }
}

/// The material of the table that comes nearest by dry mass: one of those in the blend, or a blend that the table
/// knows. First by sorts, wood with wood; then by classes; then the first.
fn nearest(components: &[Component]) -> Option<&'static Material> {
    let dry: f64 = components.iter().map(|one| one.dry.kg()).sum();
    let whole = classes(components.iter().flat_map(|one| {
        let share = one.dry.kg() / dry;
        one.material.composition.iter().map(move |part| (part.share * share, part.one_of))
    }));
    let known = material::all().iter().filter(|material| material.composition.len() > 1);
    let mut best: Option<((f64, f64), &'static Material)> = None;
    for candidate in components.iter().map(|one| one.material).chain(known) {
        let theirs = classes(candidate.composition.iter().map(|part| (part.share, part.one_of)));
        let apart = (distance(&sorts(&whole), &sorts(&theirs)), distance(&whole, &theirs));
        if best.is_none_or(|(least, _)| apart < least) {
            best = Some((apart, candidate));
        }
    }
    best.map(|(_, material)| material)
}

type Shares = [f64; ModelClass::ALL.len()];

/// Part of each class; a part that may be of several is spread over them.
fn classes(parts: impl Iterator<Item = (f64, &'static [ModelClass])>) -> Shares {
    let mut shares = [0.0; ModelClass::ALL.len()];
    for (share, one_of) in parts {
        for (slot, class) in shares.iter_mut().zip(ModelClass::ALL) {
            if one_of.contains(&class) {
                *slot += share / one_of.len().max(1) as f64;
            }
        }
    }
    shares
}

/// The same with all wood as one sort, and all bark.
fn sorts(shares: &Shares) -> Shares {
    let mut summed = [0.0; ModelClass::ALL.len()];
    for (share, class) in shares.iter().zip(ModelClass::ALL) {
        let sort = match class {
            class if class.is_wood() => ModelClass::Hardwood,
            ModelClass::SoftwoodBark => ModelClass::HardwoodBark,
            other => other,
        };
        for (slot, of) in summed.iter_mut().zip(ModelClass::ALL) {
            if of == sort {
                *slot += share;
            }
        }
    }
    summed
}

/// How far apart two mixtures are, rounded so that the rounding of sums decides nothing.
fn distance(ours: &Shares, theirs: &Shares) -> f64 {
    let apart: f64 = ours.iter().zip(theirs).map(|(a, b)| (a - b).abs()).sum();
    (apart * 1e9).round() / 1e9
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a test stops at the first surprise")]

    use super::*;
    use kerfbook_science::material::Found;

    fn component(name: &str, dry_kg: f64, water_kg: f64) -> Component {
        let Found::Material(material) = material::find(name) else { panic!("{name}") };
        Component {
            material,
            dry: Mass::from_kg(dry_kg),
            water: Mass::from_kg(water_kg),
            carbon_nitrogen: material.carbon_nitrogen.typical,
        }
    }

    #[test]
    fn carbon_to_nitrogen_goes_by_nitrogen_and_not_by_the_mean() {
        // 60 kg of hardwood shavings, 48 % carbon at 480; 40 kg of cattle manure, 38 % at 19.
        let blend = Blend::of(vec![
            component("hardwood shavings", 60.0, 8.0),
            component("cattle manure", 40.0, 160.0),
        ])
        .unwrap();
        let carbon = 60.0 * 0.48 + 40.0 * 0.38;
        let nitrogen = 60.0 * 0.48 / 480.0 + 40.0 * 0.38 / 19.0;
        assert!((blend.carbon_nitrogen - carbon / nitrogen).abs() < 1e-9, "{}", blend.carbon_nitrogen);
        assert!((blend.moisture.fraction() - 168.0 / 268.0).abs() < 1e-12);
        assert_eq!(blend.nearest.name, "stable bedding, shavings");
    }

    #[test]
    fn wood_with_some_leaves_is_leafy_chips_and_wood_with_wood_stays_wood() {
        let leafy = Blend::of(vec![
            component("arborist chips, leafless", 75.0, 50.0),
            component("leaves, autumn", 25.0, 10.0),
        ])
        .unwrap();
        assert_eq!(leafy.nearest.name, "arborist chips, leafy");
        let wood =
            Blend::of(vec![component("pine sawdust", 50.0, 20.0), component("pine shavings", 50.0, 5.0)])
                .unwrap();
        assert_eq!(wood.nearest.name, "sawdust, pine");
    }

    #[test]
    fn nothing_is_no_blend() {
        assert_eq!(Blend::of(Vec::new()), None);
        assert_eq!(Blend::of(vec![component("pine sawdust", 0.0, 1.0)]), None);
    }
}
