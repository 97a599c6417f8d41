//! Readings that narrow a forecast: soil nitrate, draw tests, leaf colour against a reference plot.
//!
//! A TOML file of `[[soil_nitrate]] date, kg_ha | nitrate_n_ppm | nitrate_ppm`, `[[draw_test]] temperature_c,
//! dose_mg_litre, dry_g_per_litre, index` and `[[leaf]] date, nutrition_index`.

use std::path::Path;

use chrono::NaiveDate;
use kerfbook_acts::forecast::{self, Measured};
use kerfbook_acts::scenario::Scenario;
use kerfbook_acts::site;
use kerfbook_science::soil;
use serde::Deserialize;

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
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct SoilNitrate {
    date: toml::value::Datetime,
    kg_ha: Option<f64>,
    nitrate_n_ppm: Option<f64>,
    nitrate_ppm: Option<f64>,
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
    let described = scenario::read(file)?;
    let measured = read(readings, &described.scenario)?;
    let forecast = forecast::narrowed(&described.scenario, &measured, args.runs, args.seed)
        .map_err(|error| acted::fault(file, &error))?;
    if context.json {
        context.print_json(&crate::forecast::document(&forecast, &described.assumed))
    } else {
        context.print(&crate::forecast::told(&forecast, context.words()))
    }
}

fn read(path: &Path, scenario: &Scenario) -> Result<Vec<Measured>, Fault> {
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
    let mut measured = Vec::new();
    for reading in &file.soil_nitrate {
        let density = scenario.soil.bulk_density.unwrap_or(soil::TYPICAL_BULK_DENSITY.value);
        let of_ppm = |ppm: f64| soil::nitrogen_of_ppm(ppm, density, site::depth(scenario)).kg_ha();
        let kg_ha = match (reading.kg_ha, reading.nitrate_n_ppm, reading.nitrate_ppm) {
            (Some(kg_ha), None, None) => kg_ha,
            (None, Some(ppm), None) => of_ppm(ppm),
            (None, None, Some(ppm)) => of_ppm(soil::nitrogen_of_nitrate(ppm)),
            _ => return Err(Fault::input(path, Message::new("readings-one-figure"), None)),
        };
        measured.push(Measured::SoilNitrate {
            date: date(&reading.date).ok_or_else(|| wrong("soil_nitrate.date"))?,
            kg_ha: within(kg_ha, 0.0, 2000.0, "soil_nitrate")?,
        });
    }
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
            date: date(&leaf.date).ok_or_else(|| wrong("leaf.date"))?,
            nutrition_index: within(leaf.nutrition_index, 0.0, 2.0, "leaf.nutrition_index")?,
        });
    }
    if measured.is_empty() {
        return Err(Fault::input(path, Message::new("readings-none"), Some(Message::new("readings-help"))));
    }
    Ok(measured)
}

fn date(value: &toml::value::Datetime) -> Option<NaiveDate> {
    let date = value.date?;
    NaiveDate::from_ymd_opt(i32::from(date.year), u32::from(date.month), u32::from(date.day))
}
