//! From a file of a recipe to a recipe, or to everything wrong with it.

use std::path::Path;

use kerfbook_acts::mix::{Ingredient, Lacks, Recipe, Stated, composition};
use kerfbook_acts::scenario::Containers;
use kerfbook_science::compost::balance::Goals;
use kerfbook_science::compost::basis;
use kerfbook_science::compost::mix::Composition;
use kerfbook_science::material::{self, Found, Material};
use kerfbook_science::units::{Density, Mass, Share, Volume};
use kerfbook_words::Words;
use toml::de::DeTable;

use crate::fault::{Fault, Message};
use crate::scenario::{ground, names};
use crate::toml_file::layout::{Layout, key};
use crate::toml_file::section::{Bounds, Notes, Section};
use crate::toml_file::{self, text};

const GOAL: Layout = Layout {
    name: "goal",
    repeats: false,
    keys: &[
        key("carbon_nitrogen", "28"),
        key("moisture_pct", "55"),
        key("total_kg", "1000"),
        key("adjust", "true"),
    ],
};
const INGREDIENT: Layout = Layout {
    name: "ingredient",
    repeats: true,
    keys: &[
        key("material", "\"hardwood sawdust\""),
        key("name", "\"sawdust of the sawmill\""),
        key("wet_kg", "200"),
        key("volume_m3", "0.8"),
        key("volume_l", "800"),
        key("barrows", "8"),
        key("buckets", "20"),
        key("trailers", "2"),
        key("loaders", "3"),
        key("at_hand_kg", "500"),
        key("moisture_pct", "45"),
        key("moisture_oven_dry_pct", "80"),
        key("carbon_pct", "49"),
        key("nitrogen_pct", "0.1"),
        key("carbon_nitrogen", "490"),
        key("ash_pct", "2"),
        key("bulk_density_kg_m3", "250"),
    ],
};
const CONTAINERS: Layout = Layout {
    name: "containers",
    repeats: false,
    keys: &[key("barrow_l", "80"), key("bucket_l", "10"), key("trailer_m3", "1.5"), key("loader_m3", "0.5")],
};
static LAYOUTS: [&Layout; 3] = [&GOAL, &INGREDIENT, &CONTAINERS];

/// Wet-basis moisture ends below this: something must be dry.
const MOST_MOISTURE_PCT: f64 = 99.9;
const MASS: Bounds = Bounds::between(0.0, 1e7, "kg");
const VOLUME: Bounds = Bounds::between(0.0, 1e5, "m3");
const COUNT: Bounds = Bounds::between(0.0, 1e5, "");
/// What each ingredient may be measured by.
const AMOUNTS: [(&str, Bounds); 7] = [
    ("wet_kg", MASS),
    ("volume_m3", VOLUME),
    ("volume_l", Bounds::between(0.0, 1e8, "l")),
    ("barrows", COUNT),
    ("buckets", COUNT),
    ("trailers", COUNT),
    ("loaders", COUNT),
];

/// Reads a file of a recipe.
pub(super) fn read(path: &Path, words: &Words) -> Result<(Recipe, Containers), Fault> {
    let text = text::read(path, toml_file::MOST_BYTES)?;
    toml_file::read(&text, path, &LAYOUTS, |notes, root| describe(notes, root, words))
}

fn describe(notes: &Notes<'_>, root: &DeTable<'_>, words: &Words) -> Option<(Recipe, Containers)> {
    let goal = Section::single(notes, root, &GOAL);
    let held = Section::single(notes, root, &CONTAINERS);
    let containers = ground::containers_of(&held);
    let loader = held.number("loader_m3", Bounds::between(0.05, 50.0, "m3")).map(Volume::from_m3);
    let rows = Section::rows(notes, root, &INGREDIENT);
    let said: Option<Vec<Ingredient>> =
        rows.iter().map(|row| ingredient(row, &containers, loader, words)).collect();
    if rows.is_empty() {
        let what = Message::new("mix-no-ingredient");
        notes.add(None, INGREDIENT.name, what, Some(Message::new("mix-ingredient-form")));
        return None;
    }
    let goals = Goals {
        moisture: goal
            .number("moisture_pct", Bounds::above_zero(MOST_MOISTURE_PCT, "%"))
            .map(Share::from_percent),
        carbon_nitrogen: goal.number("carbon_nitrogen", Bounds::between(1.0, 1000.0, "")),
    };
    let whole = goal.number("total_kg", Bounds::above_zero(1e7, "kg")).map(Mass::from_kg);
    let adjust = goal.flag("adjust");
    let water = words.label("mix-water");
    Some((Recipe { ingredients: said?, goals, whole, adjust, water }, containers))
}

fn ingredient(
    row: &Section<'_>,
    containers: &Containers,
    loader: Option<Volume>,
    words: &Words,
) -> Option<Ingredient> {
    let name = row.text("name");
    let called = row.text("material").or(name);
    let Some(called) = called else {
        row.missing("material", None);
        return None;
    };
    let is_water = ["water", "agua"].contains(&called.to_lowercase().as_str());
    let known = known(row, called, is_water)?;
    let stated = stated(row);
    let density = row.number("bulk_density_kg_m3", Bounds::between(10.0, 2_000.0, "kg/m3"));
    let wet_density = match density {
        Some(density) => Some(density),
        None if is_water => Some(1000.0),
        None => known.map(|known| known.wet_density.typical),
    };
    let wet_density = wet_density.map(Density::from_kg_m3);
    let amount = match row.one_of(&AMOUNTS, false) {
        Some(("wet_kg", kg)) => Some(Mass::from_kg(kg)),
        Some((measure, figure)) => {
            let volume = volume(row, measure, figure, containers, loader)?;
            let Some(density) = wet_density else {
                row.missing("bulk_density_kg_m3", Some(Message::new("mix-weigh-a-bucket")));
                return None;
            };
            Some(volume.mass_at(density))
        }
        None if AMOUNTS.iter().any(|(measure, _)| row.has(measure)) => return None,
        None => None,
    };
    let at_hand = row.number("at_hand_kg", MASS).map(Mass::from_kg);
    if let (Some(amount), Some(at_hand)) = (amount, at_hand)
        && amount.kg() > at_hand.kg()
    {
        row.complain("at_hand_kg", Message::new("mix-more-than-at-hand").text("name", called), None);
        return None;
    }
    let of = if is_water { Some(Composition::WATER) } else { made_of(row, known, &stated?, called) };
    let name = name.map_or_else(
        || known.map_or_else(|| called.to_owned(), |known| words.material(known.name)),
        str::to_owned,
    );
    Some(Ingredient { name, material: known, of: of?, wet_density, amount, at_hand })
}

/// What the table knows of it: a `material` must be there, a `name` may be.
#[expect(clippy::option_option, reason = "not found in the table, or noted as wrong")]
fn known(row: &Section<'_>, called: &str, is_water: bool) -> Option<Option<&'static Material>> {
    if is_water {
        return Some(None);
    }
    match material::find(called) {
        Found::Material(known) => Some(Some(known)),
        Found::Refused(refusal) => {
            let what = Message::new("desk-refused-material")
                .text("name", called)
                .caution("caution", refusal.caution());
            let at = if row.has("material") { "material" } else { "name" };
            row.complain(at, what, None);
            None
        }
        Found::Unknown { .. } if !row.has("material") => Some(None),
        Found::Unknown { .. } => names::is_material(row, called).then_some(None),
    }
}

fn volume(
    row: &Section<'_>,
    measure: &str,
    figure: f64,
    containers: &Containers,
    loader: Option<Volume>,
) -> Option<Volume> {
    let each = match measure {
        "volume_m3" => Some(Volume::from_m3(1.0)),
        "volume_l" => Some(Volume::from_litres(1.0)),
        "barrows" => Some(containers.barrow),
        "buckets" => Some(containers.bucket),
        "trailers" => containers.trailer,
        _ => loader,
    };
    let Some(each) = each else {
        let size = if measure == "trailers" { "trailer_m3 = 1.5" } else { "loader_m3 = 0.5" };
        let remedy = Message::new("mix-container-size").text("line", size);
        row.complain(
            measure_key(measure),
            Message::new("mix-container-unknown").text("name", measure),
            Some(remedy),
        );
        return None;
    };
    Some(each * figure)
}

const fn measure_key(measure: &str) -> &'static str {
    if measure.len() == "trailers".len() { "trailers" } else { "loaders" }
}

/// What is said of its make-up; `None` where something in it cannot be.
fn stated(row: &Section<'_>) -> Option<Stated> {
    row.one_alone("moisture_pct", "moisture_oven_dry_pct");
    let moisture = if row.has("moisture_pct") {
        let percent = row.finite("moisture_pct")?;
        if !(0.0..=MOST_MOISTURE_PCT).contains(&percent) {
            let what = Message::new("mix-moisture-wet-basis").text("value", percent);
            row.complain(
                "moisture_pct",
                what,
                Some(Message::new("mix-moisture-name-basis").text("value", percent)),
            );
            return None;
        }
        Some(Share::from_percent(percent))
    } else {
        let oven_dry = row.number("moisture_oven_dry_pct", Bounds::between(0.0, 2_000.0, "%"));
        oven_dry.and_then(|percent| basis::wet_of_oven_dry(Share::from_percent(percent)))
    };
    let percent = |name: &str| row.number(name, Bounds::PERCENT).map(Share::from_percent);
    let stated = Stated {
        moisture,
        carbon: percent("carbon_pct"),
        nitrogen: percent("nitrogen_pct"),
        carbon_nitrogen: row.number("carbon_nitrogen", Bounds::above_zero(10_000.0, "")),
        ash: percent("ash_pct"),
    };
    Some(stated)
}

fn made_of(
    row: &Section<'_>,
    known: Option<&Material>,
    stated: &Stated,
    called: &str,
) -> Option<Composition> {
    match composition(known, stated) {
        Ok(of) if of.carbon.fraction() + of.nitrogen.fraction() > 1.0 => {
            let what = Message::new("mix-more-than-all").text("name", called);
            row.complain_whole(what, Some(Message::new("mix-check-figures")));
            None
        }
        Ok(of) => Some(of),
        Err(Lacks::Moisture) => {
            row.missing("moisture_pct", None);
            None
        }
        Err(Lacks::CarbonNitrogen) => {
            let what = Message::new("mix-unknown-make-up").text("name", called);
            row.complain_whole(what, Some(Message::new("mix-say-make-up")));
            None
        }
    }
}
