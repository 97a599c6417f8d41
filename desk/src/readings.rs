//! Readings that narrow a forecast: soil tests, draw tests, leaf colour against a reference plot, rain gauges.
//!
//! A TOML file of `[[soil_nitrate]] date, kg_ha | nitrate_n_ppm | nitrate_ppm | mineral_n_ppm | nitrate_kg_ha, depth_cm,
//! ph, organic_matter_pct`, `[[draw_test]] temperature_c, dose_mg_litre, dry_g_per_litre, index`, `[[leaf]] date,
//! nutrition_index` and `[[rain]] from, to, mm`.

use std::path::Path;

use chrono::NaiveDate;
use kerfbook_acts::forecast::{self, Forecast, Measured};
use kerfbook_acts::soil_test::{Form, Reported, SoilTest};
use kerfbook_acts::told;
use kerfbook_acts::update::Headline;
use kerfbook_science::units::{AreaMass, Length, Share};
use serde::Deserialize;
use serde_json::{Value, json};

use crate::acted;
use crate::cli;
use crate::context::Context;
use crate::fault::{Complaint, Fault, Message, Spot};
use crate::scenario;
use crate::toml_file::text;

/// Longest file of readings that is read.
const MOST_BYTES: u64 = 1024 * 1024;

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    #[serde(default)]
    soil_nitrate: Vec<SoilNitrate>,
    #[serde(default)]
    draw_test: Vec<DrawTest>,
    #[serde(default)]
    leaf: Vec<Leaf>,
    #[serde(default)]
    rain: Vec<Rain>,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct SoilNitrate {
    date: toml::value::Datetime,
    kg_ha: Option<f64>,
    nitrate_n_ppm: Option<f64>,
    nitrate_ppm: Option<f64>,
    mineral_n_ppm: Option<f64>,
    nitrate_kg_ha: Option<f64>,
    depth_cm: Option<f64>,
    ph: Option<f64>,
    organic_matter_pct: Option<f64>,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Rain {
    from: toml::value::Datetime,
    to: toml::value::Datetime,
    mm: f64,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct DrawTest {
    temperature_c: f64,
    dose_mg_litre: f64,
    dry_g_per_litre: f64,
    index: f64,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Leaf {
    date: toml::value::Datetime,
    nutrition_index: f64,
}

/// `forecast` with readings.
pub(crate) fn run(
    file: &Path,
    readings: &Path,
    args: &cli::Forecast,
    context: &Context,
) -> Result<(), Fault> {
    let mut described = scenario::read(file)?;
    let Read { measured, tests } = read(readings)?;
    for test in &tests {
        test.settle(&mut described.scenario);
    }
    let mut assumed = Vec::new();
    let found = tests.iter().filter_map(|test| test.measured(&described.scenario, &mut assumed));
    let measured: Vec<Measured> = found.chain(measured).collect();
    let mut forecast = forecast::narrowed(&described.scenario, &measured, args.runs, args.seed)
        .map_err(|error| acted::fault(file, &error))?;
    for taken in assumed {
        if forecast.assumed.iter().all(|other| other.key != taken.key) {
            forecast.assumed.push(taken);
        }
    }
    let words = context.words();
    let grows = !described.scenario.crops.is_empty();
    let changed = told::changed(&forecast, &measured, grows, words);
    if context.json {
        let mut document = crate::forecast::document(&forecast, &described.assumed);
        if let Value::Object(map) = &mut document {
            map.insert("changed".to_owned(), change_document(&forecast, &measured, &changed));
            map.insert("soil".to_owned(), soil_document(&tests));
        }
        context.print_json(&document)
    } else {
        context.print(&format!("{}\n\n{}", changed.join(" "), crate::forecast::told(&forecast, words)))
    }
}

/// What the readings changed, and why.
fn change_document(forecast: &Forecast, measured: &[Measured], said: &[String]) -> Value {
    let Some(change) = &forecast.change else { return Value::Null };
    let headline = |headline: &Headline| {
        json!({
            "crop_nitrogen_kg_ha": headline.crop_nitrogen,
            "lost_kg_ha": headline.lost,
            "tied_kg_ha": headline.tied,
            "hungry_day": headline.hungry_day,
            "chance_hungry": headline.chance_hungry,
        })
    };
    let weighed = |index: usize| {
        measured.iter().filter(|measured| !matches!(measured, Measured::Rain { .. })).nth(index).map(
            |measured| match measured {
                Measured::SoilNitrate { .. } => "soil-nitrate",
                Measured::Leaf { .. } => "leaf",
                Measured::DrawTest { .. } | Measured::Rain { .. } => "draw-test",
            },
        )
    };
    json!({
        "before": headline(&change.before),
        "after": headline(&change.after),
        "moved_by": change.moved.map(|moved| json!({
            "reading": weighed(moved.reading), "read": moved.read, "foretold": moved.foretold,
        })),
        "learned": change.learned.map(|learned| json!({
            "about": learned.behind, "parameter": learned.parameter, "by_deviations": learned.by,
        })),
        "counts": forecast.counts,
        "said": said,
    })
}

/// What tests say of the soil that does not change in a season: the last of each.
fn soil_document(tests: &[SoilTest]) -> Value {
    let last = |of: fn(&SoilTest) -> Option<f64>| {
        let mut found: Vec<(NaiveDate, f64)> =
            tests.iter().filter_map(|test| of(test).map(|value| (test.date, value))).collect();
        found.sort_by_key(|(date, _)| *date);
        found.last().map(|(_, value)| *value)
    };
    json!({
        "ph": last(|test| test.ph),
        "organic_matter_pct": last(|test| test.organic_matter.map(Share::percent)),
    })
}

/// What a file says.
struct Read {
    measured: Vec<Measured>,
    tests: Vec<SoilTest>,
}

fn read(path: &Path) -> Result<Read, Fault> {
    let text = text::read(path, MOST_BYTES)?;
    let file: File = toml::from_str(&text).map_err(|error| Fault::Input {
        file: path.to_owned(),
        complaints: vec![Complaint {
            file: None,
            spot: error.span().map(|span| Spot::of(&text, &span)),
            key: String::new(),
            what: Message::new("readings-syntax").text("why", error.message()),
            remedy: Some(Message::new("readings-help")),
        }],
    })?;
    let wrong = |key: &'static str| Fault::input(path, Message::new("readings-value").text("key", key), None);
    let within = |value: f64, low: f64, high: f64, key: &'static str| {
        if (low..=high).contains(&value) { Ok(value) } else { Err(wrong(key)) }
    };
    let day = |value: &toml::value::Datetime, key: &'static str| date(value).ok_or_else(|| wrong(key));
    let mut tests = Vec::new();
    for test in &file.soil_nitrate {
        let settles = test.ph.or(test.organic_matter_pct).is_some();
        let part = |value: Option<f64>, low: f64, high: f64, key: &'static str| {
            value.map(|value| within(value, low, high, key)).transpose()
        };
        tests.push(SoilTest {
            date: day(&test.date, "soil_nitrate.date")?,
            nitrogen: match figure(test) {
                [Some(found), None] => Some(found),
                [None, None] if settles => None,
                _ => return Err(Fault::input(path, Message::new("readings-one-figure"), None)),
            },
            depth: part(test.depth_cm, 1.0, 300.0, "soil_nitrate.depth_cm")?.map(Length::from_cm),
            ph: part(test.ph, 2.0, 12.0, "soil_nitrate.ph")?,
            organic_matter: part(test.organic_matter_pct, 0.0, 100.0, "soil_nitrate.organic_matter_pct")?
                .map(Share::from_percent),
        });
        if let Some((_, Reported::Ppm(amount))) = tests.last().and_then(|test| test.nitrogen) {
            within(amount, 0.0, 5_000.0, "soil_nitrate")?;
        }
        if let Some((_, Reported::PerArea(amount))) = tests.last().and_then(|test| test.nitrogen) {
            within(amount.kg_ha(), 0.0, 10_000.0, "soil_nitrate")?;
        }
    }
    let mut measured = Vec::new();
    for test in &file.draw_test {
        measured.push(Measured::DrawTest {
            temperature_c: within(test.temperature_c, 0.0, 40.0, "draw_test.temperature_c")?,
            dose_mg_litre: within(test.dose_mg_litre, 1.0, 1000.0, "draw_test.dose_mg_litre")?,
            dry_g_per_litre: within(test.dry_g_per_litre, 1.0, 500.0, "draw_test.dry_g_per_litre")?,
            index: within(test.index, 0.0, 1.5, "draw_test.index")?,
        });
    }
    for leaf in &file.leaf {
        measured.push(Measured::Leaf {
            date: day(&leaf.date, "leaf.date")?,
            nutrition_index: within(leaf.nutrition_index, 0.0, 2.0, "leaf.nutrition_index")?,
        });
    }
    for rain in &file.rain {
        measured.push(Measured::Rain {
            from: day(&rain.from, "rain.from")?,
            to: day(&rain.to, "rain.to")?,
            mm: within(rain.mm, 0.0, 5_000.0, "rain.mm")?,
        });
    }
    if measured.is_empty() && tests.is_empty() {
        return Err(Fault::input(path, Message::new("readings-none"), Some(Message::new("readings-help"))));
    }
    Ok(Read { measured, tests })
}

/// The figure of a soil test; two places, so that a second one is seen.
fn figure(test: &SoilNitrate) -> [Option<(Form, Reported)>; 2] {
    let per_area = |kg_ha: f64| Reported::PerArea(AreaMass::from_kg_ha(kg_ha));
    let mut found = [
        test.kg_ha.map(|kg_ha| (Form::MineralN, per_area(kg_ha))),
        test.nitrate_kg_ha.map(|kg_ha| (Form::Nitrate, per_area(kg_ha))),
        test.nitrate_n_ppm.map(|ppm| (Form::NitrateN, Reported::Ppm(ppm))),
        test.nitrate_ppm.map(|ppm| (Form::Nitrate, Reported::Ppm(ppm))),
        test.mineral_n_ppm.map(|ppm| (Form::MineralN, Reported::Ppm(ppm))),
    ]
    .into_iter()
    .flatten();
    [found.next(), found.next()]
}

fn date(value: &toml::value::Datetime) -> Option<NaiveDate> {
    let date = value.date?;
    NaiveDate::from_ymd_opt(i32::from(date.year), u32::from(date.month), u32::from(date.day))
}
