//! `forecast`: one season, day by day; or the model's own input with the model's own results.

use std::path::Path;

use kerfbook_acts::assumed::Assumed;
use kerfbook_acts::forecast::{self, Day, Forecast};
use kerfbook_science::nitrogen::{self, Input};
use kerfbook_science::units::Share;
use kerfbook_words::Words;
use serde_json::{Map, Value, json};

use crate::acted;
use crate::cli;
use crate::compare::{assumed_document, new_table, range, wide};
use crate::context::Context;
use crate::fault::{Complaint, Fault, Message, Spot};
use crate::scenario;
use crate::toml_file::text;

/// Longest model input that is read: a year of daily weather is 30 kB.
const MOST_BYTES: u64 = 16 * 1024 * 1024;
/// Days between the rows that people see.
const STEP: u32 = 28;

pub(crate) fn run(args: &cli::Forecast, context: &Context) -> Result<(), Fault> {
    if let Some(file) = &args.model {
        return model(file, context);
    }
    let Some(file) = &args.scenario else { return Err(Fault::other(Message::new("usage-help"))) };
    if let Some(readings) = &args.readings {
        return crate::readings::run(file, readings, args, context);
    }
    let described = scenario::read(file)?;
    let forecast = forecast::forecast(&described.scenario, args.runs, args.seed)
        .map_err(|error| acted::fault(file, &error))?;
    if context.json {
        context.print_json(&document(&forecast, &described.assumed))
    } else {
        context.print(&told(&forecast, context.words()))
    }
}

/// The model's own input: its results under its own keys.
fn model(file: &Path, context: &Context) -> Result<(), Fault> {
    let text = text::read(file, MOST_BYTES)?;
    let input: Input = serde_json::from_str(&text).map_err(|error| {
        let remedy = Some(Message::new("desk-model-help"));
        let what = Message::new("desk-model-syntax").text("why", &error);
        Fault::Input {
            file: file.to_owned(),
            complaints: vec![Complaint {
                file: None,
                spot: (error.line() > 0).then(|| Spot::line(&text, error.line())),
                key: String::new(),
                what,
                remedy,
            }],
        }
    })?;
    let report = nitrogen::report(&input).map_err(|error| {
        let what = Message::new("desk-model-value").text("key", &error.key).text("why", &error.problem);
        Fault::Input {
            file: file.to_owned(),
            complaints: vec![Complaint {
                file: None,
                spot: None,
                key: error.key.clone(),
                what,
                remedy: None,
            }],
        }
    })?;
    let mut document = serde_json::to_value(&report)
        .map_err(|error| Fault::other(Message::new("desk-cannot-print").text("why", error)))?;
    if let Value::Object(map) = &mut document {
        map.insert("format".to_owned(), json!(1));
    }
    context.print_json(&document)
}

/// Everything, for programs.
pub(crate) fn document(forecast: &Forecast, read: &[Assumed]) -> Value {
    let median = &forecast.median;
    let tied: Map<String, Value> =
        median.tied_kg_ha.iter().map(|(day, tied)| (day.to_string(), json!(tied))).collect();
    json!({
        "format": 1,
        "first_day": forecast.calendar.first().to_string(),
        "days": forecast.days.iter().map(day_document).collect::<Vec<_>>(),
        "hungry_day": forecast.hungry_day,
        "hungry_day_bare": forecast.hungry_day_bare,
        "chance_hungry": forecast.chance_hungry,
        "crop_nitrogen_kg_ha": forecast.crop_nitrogen,
        "lost_kg_ha": forecast.lost,
        "median": {
            "crop_nitrogen_kg_ha": median.crop_nitrogen_kg_ha,
            "tied_kg_ha": tied,
            "leached_kg_ha": median.leached_kg_ha,
            "hungry_day": median.hungry_day,
            "release_day": median.release_day,
        },
        "balance_residual": forecast.balance_residual,
        "engine": forecast.engine,
        "parameters": forecast.parameters,
        "runs": forecast.runs,
        "seed": forecast.seed,
        "effective_size": forecast.effective_size,
        "assumed": assumed_document(read, &forecast.assumed),
    })
}

fn day_document(day: &Day) -> Value {
    json!({
        "day": day.day,
        "tied_kg_ha": day.tied,
        "mineral_kg_ha": day.mineral,
        "uptake_kg_ha": day.uptake,
        "leached_kg_ha": day.leached,
        "mineral_bare_kg_ha": day.mineral_bare,
    })
}

/// For people: the cost and the hungry day first, then a row every four weeks.
pub(crate) fn told(forecast: &Forecast, words: &Words) -> String {
    let mut parts = Vec::new();
    let date = |day: Option<f64>| day.map(|day| words.date(forecast.calendar.date(day)));
    let lost = forecast.lost;
    let middle = lost.middle();
    let cost = words.cost(
        kerfbook_words::Spread {
            p10: lost.p10.unwrap_or(middle),
            p50: middle,
            p90: lost.p90.unwrap_or(middle),
        },
        kerfbook_words::Per::Area,
    );
    let hungry = match (date(forecast.hungry_day.p50), date(forecast.hungry_day_bare.p50)) {
        (Some(here), Some(bare)) if here == bare => words.say("hungry-same", &[("date", here)]),
        (Some(here), Some(bare)) => words.say("hungry-both", &[("date", here), ("bare", bare)]),
        (Some(here), None) => words.say("hungry-only", &[("date", here)]),
        (None, Some(bare)) => words.say("hungry-bare-only", &[("bare", bare)]),
        (None, None) => words.label("hungry-never"),
    };
    parts.push(format!("{cost} {hungry}"));
    let unit = words.nitrogen_unit_name();
    let head = |id: &str| format!("{}, {unit}", words.label(id));
    let wide = wide();
    let mut heads = vec![words.label("forecast-date"), head("forecast-tied"), head("forecast-mineral")];
    if wide {
        heads.insert(0, words.label("forecast-day"));
        heads.extend([head("forecast-uptake"), head("forecast-leached")]);
    }
    let mut table = new_table(heads);
    let end = forecast.days.last().map(|day| day.day);
    for day in forecast.days.iter().filter(|day| day.day % STEP == 0 || Some(day.day) == end) {
        let mut cells = vec![
            words.date(forecast.calendar.date(f64::from(day.day))),
            range(Some(day.tied), words),
            range(Some(day.mineral), words),
        ];
        if wide {
            cells.insert(0, day.day.to_string());
            cells.extend([range(Some(day.uptake), words), range(Some(day.leached), words)]);
        }
        table.add_row(cells);
    }
    parts.push(format!("{}\n{table}", words.label("forecast-title")));
    let mut foot = vec![words.say(
        "forecast-runs",
        &[
            ("runs", words.number(f64::from(forecast.runs), 0)),
            ("seed", forecast.seed.to_string()),
            ("engine", forecast.engine.to_string()),
            ("parameters", forecast.parameters.to_string()),
        ],
    )];
    foot.push(words.say("forecast-balance", &[("residual", format!("{:.0e}", forecast.balance_residual))]));
    foot.push(
        words.say("hungry-chance", &[("share", words.percent(Share::from_fraction(forecast.chance_hungry)))]),
    );
    parts.push(foot.join(" "));
    parts.join("\n\n")
}
