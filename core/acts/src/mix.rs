//! A recipe for a heap: what it comes to as given, or the amounts that reach its goals.

use kerfbook_science::caution::{self, AtPile, Caution};
use kerfbook_science::compost::air::free_air_space;
use kerfbook_science::compost::balance::{Goals, Impossible};
use kerfbook_science::compost::mix::{
    CARBON_OF_VOLATILE_SOLIDS, Composition, Mix, carbon_of_ash, carbon_of_nitrogen,
};
use kerfbook_science::compost::recipe::{Offer, solve};
use kerfbook_science::compost::window::{self, Lies, Property, Window};
use kerfbook_science::material::{Kind, Material};
use kerfbook_science::source::{Source, Sourced};
use kerfbook_science::units::{Density, Mass, Share, Volume};

use crate::assumed::Assumed;

/// Carbon of plant matter, part of dry mass, where nothing else is known.
pub const USUAL_CARBON: Sourced<f64> = Sourced::new(0.5, Source::COMMON_PRACTICE);
/// More carbon than this, part of dry mass, no table of averages can mean: ratio and nitrogen were averaged apart.
const MOST_CARBON: f64 = 0.57;
/// Masses and nitrogen under this, kg, are rounding.
const ROUNDING_KG: f64 = 1e-6;

/// What a person says of an ingredient.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Stated {
    /// Water by wet mass.
    pub moisture: Option<Share>,
    /// Carbon by dry mass.
    pub carbon: Option<Share>,
    /// Nitrogen by dry mass.
    pub nitrogen: Option<Share>,
    /// Carbon to nitrogen.
    pub carbon_nitrogen: Option<f64>,
    /// Ash by dry mass.
    pub ash: Option<Share>,
}

/// What is not known of an ingredient.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Lacks {
    /// Its moisture.
    Moisture,
    /// Its carbon and nitrogen.
    CarbonNitrogen,
}

/// The composition of an ingredient: what is stated, then the table, then carbon as in most plants.
pub fn composition(material: Option<&Material>, stated: &Stated) -> Result<Composition, Lacks> {
    let moisture =
        stated.moisture.or_else(|| material.map(|known| Share::from_fraction(known.moisture.typical)));
    let moisture = moisture.ok_or(Lacks::Moisture)?;
    let table = material.map(of_table);
    let usual = table.map_or(Share::from_fraction(USUAL_CARBON.value), |(carbon, _)| carbon);
    let carbon = stated.carbon.or_else(|| stated.ash.map(carbon_of_ash));
    let (carbon, nitrogen) = match (carbon, stated.nitrogen, stated.carbon_nitrogen) {
        (Some(carbon), Some(nitrogen), _) => (carbon, nitrogen),
        (None, Some(nitrogen), Some(ratio)) => (carbon_of_nitrogen(nitrogen, ratio), nitrogen),
        (carbon, None, Some(ratio)) => {
            let carbon = carbon.unwrap_or(usual);
            (carbon, carbon / ratio)
        }
        (None, Some(nitrogen), None) => (usual, nitrogen),
        (carbon, None, None) => {
            let (known, nitrogen) = table.ok_or(Lacks::CarbonNitrogen)?;
            (carbon.unwrap_or(known), nitrogen)
        }
    };
    Ok(Composition { moisture, carbon, nitrogen })
}

/// Carbon and nitrogen by dry mass as the table has them. Its ratios and nitrogen are averages of their own, so that their
/// product can be more carbon than there is: then the ratio holds and the carbon is as usual.
fn of_table(material: &Material) -> (Share, Share) {
    let (nitrogen, ratio) = (material.nitrogen.typical, material.carbon_nitrogen.typical);
    if material.kind == Kind::Fertiliser {
        return (Share::default(), Share::from_fraction(nitrogen));
    }
    let carbon = nitrogen * ratio;
    if carbon > 0.0 && carbon <= MOST_CARBON {
        return (Share::from_fraction(carbon), Share::from_fraction(nitrogen));
    }
    let known = material.carbon_share();
    let carbon = if known > 0.0 { known } else { USUAL_CARBON.value };
    (Share::from_fraction(carbon), Share::from_fraction(carbon / ratio))
}

/// An ingredient of a recipe.
#[derive(Debug, Clone, PartialEq)]
pub struct Ingredient {
    /// As a person calls it.
    pub name: String,
    /// What it is in the table, if it is there.
    pub material: Option<&'static Material>,
    /// What it is made of.
    pub of: Composition,
    /// Wet and loose.
    pub wet_density: Option<Density>,
    /// How much, where that is said.
    pub amount: Option<Mass>,
    /// How much there is at most.
    pub at_hand: Option<Mass>,
}

impl Ingredient {
    /// Water, any amount.
    pub(crate) fn water(name: String) -> Self {
        let wet_density = Some(Density::from_kg_m3(1000.0));
        Self { name, material: None, of: Composition::WATER, wet_density, amount: None, at_hand: None }
    }

    /// Whether it is water alone.
    pub fn is_water(&self) -> bool {
        self.of.dry() <= 0.0
    }

    /// Organic matter by dry mass, as its carbon tells.
    fn organic(&self) -> f64 {
        (self.of.carbon.fraction() / CARBON_OF_VOLATILE_SOLIDS.value).min(1.0)
    }
}

/// A recipe as a person writes it.
#[derive(Debug, Clone, PartialEq)]
pub struct Recipe {
    /// What is in it, or may be.
    pub ingredients: Vec<Ingredient>,
    /// What it is to come to, where that is said.
    pub goals: Goals,
    /// How much it is to make, where that is said.
    pub whole: Option<Mass>,
    /// Whether amounts that are given may change.
    pub adjust: bool,
    /// What to call water that is added.
    pub water: String,
}

/// An ingredient with its amount.
#[derive(Debug, Clone, PartialEq)]
pub struct Portion {
    /// The ingredient.
    pub ingredient: Ingredient,
    /// How much of it.
    pub wet: Mass,
    /// Whether the amount was found here.
    pub solved: bool,
}

impl Portion {
    /// Loose volume, where the density is known.
    pub fn volume(&self) -> Option<Volume> {
        self.ingredient.wet_density.map(|density| self.wet.volume_at(density))
    }
}

/// Where a figure of the mixture lies in one window.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Verdict {
    /// The window.
    pub window: &'static Window,
    /// The figure, in its unit.
    pub value: f64,
    /// Where it lies.
    pub lies: Lies,
}

/// A mixture with its verdicts.
#[derive(Debug, Clone, PartialEq)]
pub struct Mixed {
    /// What is in it.
    pub portions: Vec<Portion>,
    /// What it comes to.
    pub mix: Mix,
    /// Loose volume without the water that is added; `None` where a density is not known.
    pub volume: Option<Volume>,
    /// Free air space; `None` where it cannot be known.
    pub free_air_space: Option<Share>,
    /// The goals by which water and nitrogen are reckoned.
    pub goals: Goals,
    /// Water to add: found, or by the goal for what is given; below zero where it is too wet.
    pub water_to_add: Mass,
    /// Nitrogen to add by the goal; below zero where there is more.
    pub nitrogen_to_add: Mass,
    /// Every window for which there is a figure.
    pub verdicts: Vec<Verdict>,
    /// Whether amounts were found here.
    pub solved: bool,
    /// Taken for granted.
    pub assumed: Vec<Assumed>,
    /// What to heed when it is built.
    pub cautions: Vec<&'static Caution>,
}

/// Works a recipe out; finds the amounts where some are open or may change.
pub fn mix(recipe: &Recipe) -> Result<Mixed, Impossible> {
    let open = recipe.ingredients.iter().any(|one| one.amount.is_none() && !one.is_water());
    let wished = recipe.goals.carbon_nitrogen.is_some() || recipe.goals.moisture.is_some();
    let water_open = recipe.ingredients.iter().any(|one| one.amount.is_none() && one.is_water());
    let solves = open || recipe.whole.is_some() || (wished && (recipe.adjust || water_open));
    let mut assumed = Vec::new();
    let goals = goals(&recipe.goals, solves && wished, &mut assumed);
    let mut ingredients = recipe.ingredients.clone();
    if solves && goals.moisture.is_some() && !ingredients.iter().any(Ingredient::is_water) {
        ingredients.push(Ingredient::water(recipe.water.clone()));
    }
    let amounts = if solves {
        let offers: Vec<Offer> = ingredients
            .iter()
            .map(|one| Offer {
                of: one.of,
                amount: one.amount.unwrap_or_default(),
                at_hand: one.at_hand,
                kept: one.amount.is_some() && !recipe.adjust,
            })
            .collect();
        solve(&offers, goals, recipe.whole)?
    } else {
        ingredients.iter().map(|one| one.amount.unwrap_or_default()).collect()
    };
    let portions = portions(ingredients, amounts);
    let mixture: Vec<_> = portions.iter().map(|portion| portion.ingredient.of.times(portion.wet)).collect();
    let mix = Mix::of(&mixture);
    let reckoned = Goals {
        moisture: goals.moisture.or(Some(Share::from_percent(window::GOAL_MOISTURE_PCT.value))),
        carbon_nitrogen: goals.carbon_nitrogen.or(Some(window::GOAL_CARBON_NITROGEN.value)),
    };
    if goals.moisture.is_none() && !assumed.iter().any(|taken: &Assumed| taken.key == "goal.moisture_pct") {
        assumed.push(Assumed::number("goal.moisture_pct", window::GOAL_MOISTURE_PCT.value));
    }
    if goals.carbon_nitrogen.is_none() {
        assumed.push(Assumed::number("goal.carbon_nitrogen", window::GOAL_CARBON_NITROGEN.value));
    }
    let still = reckoned.moisture.and_then(|goal| mix.water_to_add(goal)).unwrap_or_default();
    let found: f64 = portions
        .iter()
        .filter(|portion| portion.solved && portion.ingredient.is_water())
        .map(|portion| portion.wet.kg())
        .sum();
    let nitrogen = reckoned.carbon_nitrogen.and_then(|goal| mix.nitrogen_to_add(goal)).unwrap_or_default();
    let (volume, free_air_space) = air(&portions, &mix);
    let materials: Vec<&'static Material> =
        portions.iter().filter(|one| one.wet.kg() > 0.0).filter_map(|one| one.ingredient.material).collect();
    Ok(Mixed {
        verdicts: verdicts(&mix, volume, free_air_space, &materials),
        cautions: caution::at_pile(AtPile::Building(&materials)),
        water_to_add: settle(Mass::from_kg(found) + still),
        nitrogen_to_add: settle(nitrogen),
        portions,
        mix,
        volume,
        free_air_space,
        goals: reckoned,
        solved: solves,
        assumed,
    })
}

/// The goals to solve for: those said; both usual ones where amounts are open and none is said.
fn goals(said: &Goals, wished: bool, assumed: &mut Vec<Assumed>) -> Goals {
    if wished || said.carbon_nitrogen.is_some() || said.moisture.is_some() {
        return *said;
    }
    assumed.push(Assumed::number("goal.moisture_pct", window::GOAL_MOISTURE_PCT.value));
    assumed.push(Assumed::number("goal.carbon_nitrogen", window::GOAL_CARBON_NITROGEN.value));
    Goals {
        moisture: Some(Share::from_percent(window::GOAL_MOISTURE_PCT.value)),
        carbon_nitrogen: Some(window::GOAL_CARBON_NITROGEN.value),
    }
}

fn portions(ingredients: Vec<Ingredient>, amounts: Vec<Mass>) -> Vec<Portion> {
    ingredients
        .into_iter()
        .zip(amounts)
        .map(|(ingredient, wet)| {
            let given = ingredient.amount;
            let solved =
                given.is_none_or(|given| (given.kg() - wet.kg()).abs() > ROUNDING_KG * (1.0 + given.kg()));
            Portion { ingredient, wet: given.filter(|_| !solved).unwrap_or(wet), solved }
        })
        .collect()
}

fn settle(mass: Mass) -> Mass {
    if mass.kg().abs() < ROUNDING_KG { Mass::default() } else { mass }
}

/// Loose volume of the solid things, and free air space of the whole in it: water fills pores, it adds no room.
fn air(portions: &[Portion], mix: &Mix) -> (Option<Volume>, Option<Share>) {
    let solid = || portions.iter().filter(|one| !one.ingredient.is_water() && one.wet.kg() > 0.0);
    let volume: Option<f64> = solid().map(|one| one.volume().map(Volume::m3)).sum();
    let volume = volume.filter(|volume| *volume > 0.0).map(Volume::from_m3);
    let dry = mix.dry().kg();
    let organic: f64 =
        solid().map(|one| one.ingredient.organic() * one.ingredient.of.times(one.wet).dry().kg()).sum();
    let space = volume.zip(mix.moisture()).filter(|_| dry > 0.0).and_then(|(volume, moisture)| {
        free_air_space(mix.wet.per_volume(volume), moisture, Share::from_fraction(organic / dry))
    });
    (volume, space)
}

fn verdicts(
    mix: &Mix,
    volume: Option<Volume>,
    air: Option<Share>,
    materials: &[&'static Material],
) -> Vec<Verdict> {
    let animal = materials.iter().any(|material| caution::is_of_animals(material));
    let figures = [
        (Property::CarbonNitrogen, mix.carbon_nitrogen()),
        (Property::Moisture, mix.moisture().map(Share::percent)),
        (Property::FreeAirSpace, air.map(Share::percent)),
        (Property::Density, volume.map(|volume| mix.wet.per_volume(volume).kg_m3())),
    ];
    figures
        .into_iter()
        .filter_map(|(property, value)| Some((property, value?)))
        .flat_map(|(property, value)| {
            window::of(property).map(move |window| Verdict {
                window,
                value,
                lies: window.lies(rounded(value)),
            })
        })
        .filter(|verdict| animal || !verdict.window.animal_matter)
        .collect()
}

/// A figure that meets its goal to the last digits is not outside a window that ends there.
fn rounded(value: f64) -> f64 {
    (value * 1e6).round() / 1e6
}
