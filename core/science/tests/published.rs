//! Every published value that this crate can compute, as cases under `fixtures/science/<topic>/<case>.json`.
#![expect(clippy::unwrap_used, reason = "a broken fixture must stop the test")]

use std::fs;
use std::path::{Path, PathBuf};

use kerfbook_science::material::{self, Found};
use kerfbook_science::published::ammonia::{self, Incorporation, Weather};
use kerfbook_science::published::microbial_demand::Residue;
use kerfbook_science::published::psnt::{self, Previous};
use kerfbook_science::published::{epic, leaching, litter::Litter, nicolardot, rate_modifier, rothc};
use kerfbook_science::units::{Area, AreaMass, Density, Length, Mass, Share};
use kerfbook_science::{crop, feed, soil, weather};
use serde_json::Value;

/// Topics that another test of this crate runs.
const ELSEWHERE: [&str; 4] = ["compost", "geometry", "nitrogen", "trial"];

/// The topics that this test runs; each must have cases.
const TOPICS: [&str; 24] = [
    "bulk-density",
    "critical-nitrogen",
    "daylight",
    "epic",
    "hargreaves",
    "layer",
    "leaching",
    "litter",
    "manure",
    "microbial-demand",
    "mineral-nitrogen",
    "nicolardot",
    "nicolardot-temperature",
    "nitrate",
    "psnt",
    "radiation",
    "rate-modifier",
    "rothc-moisture",
    "rothc-temperature",
    "soil-supply",
    "soil-water",
    "strip",
    "uptake-curve",
    "urine",
];

/// Named results of a case.
type Results = Vec<(&'static str, f64)>;

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../fixtures/science")
}

/// What the crate computes for a case.
#[expect(clippy::too_many_lines, reason = "one arm a topic")]
fn compute(topic: &str, input: &Value) -> Results {
    let number = |key: &str| input[key].as_f64().unwrap_or_else(|| panic!("input `{key}` is no number"));
    let text = |key: &str| input[key].as_str().unwrap_or_else(|| panic!("input `{key}` is no text"));
    let flag = |key: &str| input[key].as_bool().unwrap_or_else(|| panic!("input `{key}` is no flag"));
    match topic {
        "bulk-density" => {
            let Found::Material(material) = material::find(text("material")) else {
                panic!("{} is not in the table", text("material"))
            };
            vec![("dry_kg_m3", material.dry_density().kg_m3())]
        }
        "critical-nitrogen" => {
            let line = crop::dilution(text("crop")).unwrap();
            vec![
                ("critical_pct", line.critical_pct(number("dry_t_ha"))),
                ("critical_kg_ha", line.critical_uptake(number("dry_t_ha")).kg_ha()),
            ]
        }
        "daylight" => {
            vec![("hours", weather::day_length(number("latitude_deg"), day(input)))]
        }
        "epic" => vec![("factor", epic::nitrogen_factor(number("carbon_nitrogen")))],
        "hargreaves" => {
            let radiation = weather::extraterrestrial_radiation(number("latitude_deg"), day(input));
            let (high, low) = (number("max_c"), number("min_c"));
            vec![
                ("radiation_mm", radiation * weather::LATENT_HEAT_MM_PER_MJ),
                ("et0_mm", weather::hargreaves(f64::midpoint(high, low), high - low, radiation)),
            ]
        }
        "layer" => {
            let volume = Area::from_m2(1.0).volume_of(Length::from_inches(number("inches")));
            let wet = volume.mass_at(Density::from_lb_yd3(number("wet_lb_yd3")));
            let dry = wet * (1.0 - number("moisture"));
            vec![("dry_kg_m2", dry.kg()), ("dry_t_ha", dry.per(Area::from_m2(1.0)).t_ha())]
        }
        "leaching" => {
            let (drainage, depth) = (number("drainage_cm"), number("depth_cm"));
            vec![
                ("burns", leaching::burns(drainage, number("capacity_pct"), depth)),
                ("scotter", leaching::scotter(drainage, number("capacity_pct") / 100.0, depth)),
            ]
        }
        "litter" => {
            let litter = Litter::of(number("carbon_nitrogen"));
            let left = litter.carbon_left_at_peak();
            vec![
                ("critical_carbon_nitrogen", litter.critical_carbon_nitrogen()),
                ("efficiency", litter.efficiency()),
                ("peak_nitrogen", litter.nitrogen_left(left)),
                ("carbon_left_at_peak", left),
            ]
        }
        "manure" => {
            let weather = match text("weather") {
                "average" => Weather::Average,
                "cool-wet" => Weather::CoolWet,
                "cool-dry" => Weather::CoolDry,
                "warm-wet" => Weather::WarmWet,
                "warm-dry" => Weather::WarmDry,
                other => panic!("weather `{other}`"),
            };
            let incorporation = match &input["in_after_days"] {
                Value::Null => Incorporation::Never,
                Value::String(how) if how == "injected" => Incorporation::Injected,
                days => Incorporation::WithinDays(u8::try_from(days.as_u64().unwrap()).unwrap()),
            };
            let (total, ammonium) = (number("total_kg_t"), number("ammonium_kg_t"));
            vec![
                ("retained", ammonia::retained(incorporation, weather)),
                ("first_year", ammonia::available(total, ammonium, incorporation, weather)),
                ("second_year", (total - ammonium) * ammonia::FRESH_BY_YEAR[1]),
                ("third_year", (total - ammonium) * ammonia::FRESH_BY_YEAR[2]),
            ]
        }
        "microbial-demand" => {
            let demand = Residue {
                mass: number("mass"),
                carbon: number("carbon"),
                nitrogen: number("nitrogen"),
                decomposed: number("decomposed"),
                assimilated: number("assimilated"),
                microbial_carbon_nitrogen: number("microbial_carbon_nitrogen"),
            }
            .demand();
            vec![
                ("carbon_decomposed", demand.carbon_decomposed),
                ("microbial_carbon", demand.microbial_carbon),
                ("carbon_lost", demand.carbon_lost),
                ("needed", demand.needed),
                ("released", demand.released),
                ("tied", demand.tied),
            ]
        }
        "mineral-nitrogen" => {
            let (density, depth) =
                (Density::from_g_cm3(number("density_g_cm3")), Length::from_cm(number("depth_cm")));
            vec![("kg_ha", soil::nitrogen_of_ppm(number("ppm"), density, depth).kg_ha())]
        }
        "nicolardot" => {
            let parameters = nicolardot::Parameters::of(number("carbon_nitrogen"));
            vec![
                ("rate", parameters.rate),
                ("biomass_carbon_nitrogen", parameters.biomass_carbon_nitrogen),
                ("humified", parameters.humified),
            ]
        }
        "nicolardot-temperature" => vec![("factor", nicolardot::temperature(number("celsius")))],
        "nitrate" => vec![
            ("nitrate", number("nitrogen") * soil::NITRATE_PER_NITROGEN),
            ("back", soil::nitrogen_of_nitrate(number("nitrogen") * soil::NITRATE_PER_NITROGEN)),
        ],
        "psnt" => {
            let previous = match text("previous") {
                "other" => Previous::Other,
                "soybean" => Previous::Soybean,
                "forage legume" => Previous::ForageLegume,
                other => panic!("previous `{other}`"),
            };
            let rate = psnt::rate_lb_acre(
                number("yield_bu_ac"),
                number("nitrate_ppm"),
                flag("manure_since_harvest"),
                flag("manure_in_three_years"),
                previous,
            );
            vec![("lb_ac", rate)]
        }
        "radiation" => {
            vec![("mj_m2", weather::extraterrestrial_radiation(number("latitude_deg"), day(input)))]
        }
        "rate-modifier" => {
            let at = number("at");
            let value = match text("name") {
                "q10" => rate_modifier::q10(number("q10"), at),
                "lloyd-taylor" => rate_modifier::lloyd_taylor(at),
                "kirschbaum" => rate_modifier::kirschbaum(at),
                "demeter-moisture" => rate_modifier::demeter_moisture(at),
                "candy-moisture" => rate_modifier::candy_moisture(at),
                other => panic!("modifier `{other}`"),
            };
            vec![("factor", value)]
        }
        "rothc-moisture" => rothc_moisture(input),
        "rothc-temperature" => vec![("factor", rothc::temperature(number("celsius")))],
        "soil-supply" => {
            vec![("kg_ha", soil::supply(Share::from_percent(number("organic_matter_pct"))).kg_ha())]
        }
        "soil-water" => {
            let moisture = soil::Moisture::of(number("sand"), number("clay"), number("organic_matter_pct"));
            vec![
                ("wilting_point_pct", moisture.wilting_point * 100.0),
                ("field_capacity_pct", moisture.field_capacity * 100.0),
                ("saturation_pct", moisture.saturation * 100.0),
                ("density_g_cm3", moisture.normal_density()),
            ]
        }
        "strip" => {
            let strip = Area::from_square_feet(number("square_feet"));
            let dose = Mass::from_lb(number("lb")).per(strip);
            let nitrogen = AreaMass::from_lb_acre(number("tons_acre") * number("lb_nitrogen_ton"));
            vec![("tons_acre", dose.us_tons_acre()), ("nitrogen_kg_ha", nitrogen.kg_ha())]
        }
        "uptake-curve" => {
            let share = crop::logistic(number("days"), number("midpoint_days"), number("rate"));
            vec![("uptake", number("most") * share)]
        }
        "urine" => {
            let nitrogen = Mass::from_kg(number("nitrogen_kg"));
            let litres = nitrogen.g() / number("g_per_litre");
            let urea = match feed::find("urea").exact().unwrap().amount_for(nitrogen) {
                feed::Amount::Product(mass) => mass.kg(),
                feed::Amount::Liquid(_) => panic!("urea is no liquid"),
            };
            vec![("litres", litres), ("urea_kg", urea)]
        }
        other => panic!("nothing runs the topic `{other}`: add it to tests/published.rs"),
    }
}

fn day(input: &Value) -> u32 {
    u32::try_from(input["day_of_year"].as_u64().unwrap()).unwrap()
}

fn months(input: &Value) -> [f64; 12] {
    let values: Vec<f64> = input.as_array().unwrap().iter().map(|x| x.as_f64().unwrap()).collect();
    values.try_into().unwrap()
}

/// Keys such as `deficit_5`: the month after the underscore.
fn rothc_moisture(input: &Value) -> Results {
    const DEFICIT: [&str; 12] = [
        "deficit_1",
        "deficit_2",
        "deficit_3",
        "deficit_4",
        "deficit_5",
        "deficit_6",
        "deficit_7",
        "deficit_8",
        "deficit_9",
        "deficit_10",
        "deficit_11",
        "deficit_12",
    ];
    const MODIFIER: [&str; 12] = [
        "modifier_1",
        "modifier_2",
        "modifier_3",
        "modifier_4",
        "modifier_5",
        "modifier_6",
        "modifier_7",
        "modifier_8",
        "modifier_9",
        "modifier_10",
        "modifier_11",
        "modifier_12",
    ];
    let largest = rothc::largest_deficit(
        input["clay_pct"].as_f64().unwrap(),
        input["depth_cm"].as_f64().unwrap(),
        input["bare"].as_bool().unwrap(),
    );
    let account = rothc::moisture(&months(&input["rain_mm"]), &months(&input["pan_mm"]), largest);
    let mut results = vec![("largest_deficit", largest)];
    results.extend(DEFICIT.into_iter().zip(account.iter().map(|month| month.deficit)));
    results.extend(MODIFIER.into_iter().zip(account.iter().map(|month| month.modifier)));
    results
}

/// Whether a value is within the stated tolerance of the expected one.
fn within(value: f64, expected: f64, tolerance: &Value) -> bool {
    let absolute = tolerance["absolute"].as_f64();
    let relative = tolerance["relative"].as_f64().map(|share| share * expected.abs());
    let allowed = absolute.or(relative).expect("tolerance needs `absolute` or `relative`");
    (value - expected).abs() <= allowed
}

fn check(topic: &str, path: &Path) -> Vec<String> {
    const STANDINGS: [&str; 6] =
        ["published", "second-hand", "recomputed", "fitted", "common practice", "from memory"];
    let case: Value = serde_json::from_str(&fs::read_to_string(path).unwrap()).unwrap();
    let name = path.display();
    assert!(case["source"].as_str().is_some_and(|source| !source.is_empty()), "{name}: no source");
    assert!(case["standing"].as_str().is_some_and(|how| STANDINGS.contains(&how)), "{name}: no standing");
    let expected = case["expected"].as_object().unwrap();
    assert!(!expected.is_empty(), "{name}: nothing expected");
    let results = compute(topic, &case["input"]);
    expected
        .iter()
        .filter_map(|(key, value)| {
            let wanted = value.as_f64().unwrap_or_else(|| panic!("{name}: `{key}` is no number"));
            let got = results.iter().find(|(result, _)| result == key);
            let (_, got) = got.unwrap_or_else(|| panic!("{name}: nothing computes `{key}`"));
            (!within(*got, wanted, &case["tolerance"]))
                .then(|| format!("{name}: {key} is {got}, published {wanted}"))
        })
        .collect()
}

#[test]
fn every_folder_is_a_known_topic() {
    for entry in fs::read_dir(root()).unwrap() {
        let name = entry.unwrap().file_name().into_string().unwrap();
        let known = TOPICS.contains(&name.as_str()) || ELSEWHERE.contains(&name.as_str());
        assert!(known, "nothing runs the topic `{name}`: add it to tests/published.rs");
    }
}

#[test]
fn published_values_hold() {
    let mut wrong = Vec::new();
    for topic in TOPICS {
        let folder = root().join(topic);
        let files: Vec<PathBuf> = fs::read_dir(&folder).unwrap().map(|entry| entry.unwrap().path()).collect();
        assert!(!files.is_empty(), "the topic `{topic}` has no case");
        for file in files {
            wrong.extend(check(topic, &file));
        }
    }
    assert!(wrong.is_empty(), "{} values:\n{}", wrong.len(), wrong.join("\n"));
}
