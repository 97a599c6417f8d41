//! `place`: what lies on a place on a day, what it does there and what comes next, from the book alone.

use std::collections::BTreeMap;

use chrono::NaiveDate;
use kerfbook_acts::compare::{RUNS, Three};
use kerfbook_acts::error::ActError;
use kerfbook_acts::forecast::Forecast;
use kerfbook_acts::lying::{self, Lying, LyingLayer};
use kerfbook_acts::season::{self, AHEAD_DAYS, Season, Why};
use kerfbook_acts::{question, told};
use kerfbook_ledger::{Book, EntryId, PlaceView};
use kerfbook_science::units::{AreaMass, Length, Share};
use kerfbook_words::Words;
use serde::Serialize;

use crate::acted;
use crate::book::told::Teller;
use crate::book::{batch_names, named_place, of};
use crate::cli;
use crate::compare::assumed_document;
use crate::context::Context;
use crate::fault::Fault;

/// A place on a day, as it is told and as programs read it.
#[derive(Serialize)]
pub(crate) struct Told {
    format: u32,
    place: String,
    on: NaiveDate,
    layers: Vec<Layer>,
    depth_mm: Option<Range>,
    top_up: Option<Top>,
    forecast: Option<Foretold>,
    question: Option<Asked>,
    left_out: Vec<LeftOut>,
    /// All of it in words.
    pub said: Vec<String>,
    assumed: serde_json::Value,
}

#[derive(Serialize)]
struct Layer {
    entry: String,
    batch: String,
    age_days: u32,
    depth_mm: Range,
    share_lies: f64,
    dug_in: Option<NaiveDate>,
}

#[derive(Serialize, Clone, Copy)]
struct Range {
    low: f64,
    typical: f64,
    high: f64,
}

#[derive(Serialize)]
struct Top {
    earliest: NaiveDate,
    likely: Option<NaiveDate>,
    latest: Option<NaiveDate>,
    now: bool,
}

#[derive(Serialize)]
struct Foretold {
    first_day: NaiveDate,
    today: u32,
    tied_kg_ha: Option<Three>,
    mineral_kg_ha: Option<Three>,
    lost_kg_ha: Option<Three>,
    hungry_date: Option<Dates>,
    hungry_date_bare: Option<Dates>,
    chance_hungry: Option<f64>,
    readings: usize,
    effective_size: Option<f64>,
}

#[derive(Serialize)]
struct Dates {
    p10: Option<NaiveDate>,
    p50: Option<NaiveDate>,
    p90: Option<NaiveDate>,
}

/// The question that would narrow the forecast most.
#[derive(Serialize)]
struct Asked {
    id: &'static str,
    narrower_pct: f64,
}

#[derive(Serialize)]
struct LeftOut {
    entry: String,
    why: String,
}

pub(crate) fn run(args: &cli::Place, context: &Context) -> Result<(), Fault> {
    let on = args.on.unwrap_or_else(|| context.today());
    let book = of(&args.file, || Book::open(&args.file, None))?;
    let place = named_place(&book, &args.file, &args.name)?;
    let told = season::forecasts_of(&book, &[place.id], on, AHEAD_DAYS, args.runs, args.seed)
        .map(|mut of| of.pop().flatten())
        .and_then(|foretold| tell(&book, &place, on, foretold.as_ref(), context.words()))
        .map_err(|error| acted::fault(&args.file, &error))?;
    if context.json {
        return context.print_json(&told);
    }
    context.print(&told.said.join("\n"))
}

/// Tells a place on a day.
pub(crate) fn tell(
    book: &Book,
    place: &PlaceView,
    on: NaiveDate,
    foretold: Option<&(Season, Forecast)>,
    words: &Words,
) -> Result<Told, ActError> {
    let teller = Teller::new(book, words)?;
    let batches = batch_names(book)?;
    let lying = lying::lying(book, place.id, on, None)?;
    let mut said = vec![place.label.as_str().to_owned(), words.date_with_year(on), String::new()];
    said.extend(lies(&lying, on, &batches, words));
    let mut left_out = Vec::new();
    let mut taken = serde_json::json!({});
    let forecast = foretold.map(|(season, forecast)| {
        let figures = figures(season, forecast);
        said.push(String::new());
        said.extend(comes(&figures, forecast, on, words));
        for one in &season.left_out {
            let entry = teller.short(one.entry);
            let why = words.label(&format!("why-{}", why(one.why)));
            said.push(words.say("place-left-out", &[("entry", entry.clone()), ("why", why.clone())]));
            left_out.push(LeftOut { entry, why });
        }
        taken = assumed_document(&[], &season.assumed);
        figures
    });
    let question = match foretold {
        Some((season, forecast)) => question::of_place(season, RUNS, forecast.seed)?,
        None => None,
    };
    if forecast.is_some() {
        said.push(told::asked(question, words));
    }
    let question = question
        .map(|best| Asked { id: best.question.id(), narrower_pct: (best.narrower * 1000.0).round() / 10.0 });
    let range = |range: &lying::Range<Length>| Range {
        low: range.low.mm(),
        typical: range.typical.mm(),
        high: range.high.mm(),
    };
    let layer = |layer: &LyingLayer| Layer {
        entry: layer.entry.to_string(),
        batch: batches.get(&layer.batch).cloned().unwrap_or_default(),
        age_days: layer.age_days,
        depth_mm: range(&layer.depth),
        share_lies: layer.share,
        dug_in: layer.dug_in,
    };
    Ok(Told {
        format: 1,
        place: place.label.as_str().to_owned(),
        on,
        layers: lying.layers.iter().map(layer).collect(),
        depth_mm: (!lying.layers.is_empty()).then(|| range(&lying.depth)),
        top_up: lying.top_up.map(|top| Top {
            earliest: top.earliest,
            likely: top.likely,
            latest: top.latest,
            now: lying.thin,
        }),
        forecast,
        question,
        left_out,
        said,
        assumed: taken,
    })
}

/// What lies there, layer by layer, and when it wants more.
fn lies(lying: &Lying, on: NaiveDate, batches: &BTreeMap<EntryId, String>, words: &Words) -> Vec<String> {
    if lying.layers.is_empty() {
        return vec![words.label("place-nothing-lies")];
    }
    let mut said = vec![words.label("place-lies")];
    for layer in &lying.layers {
        let state = match (layer.dug_in, layer.share) {
            (Some(date), _) => words.say("place-dug-in", &[("date", words.date_beside(date, on))]),
            (None, share) if share < 1.0 => {
                let lifted = Share::from_fraction(1.0 - share);
                words.say("place-lifted", &[("share", words.percent(lifted))])
            }
            _ => String::new(),
        };
        let arguments = [
            ("batch", batches.get(&layer.batch).cloned().unwrap_or_default()),
            ("days", words.days(f64::from(layer.age_days))),
            ("depth", depths(&layer.depth, words)),
            ("state", state),
        ];
        said.push(format!("  {}", words.say("place-layer", &arguments)));
    }
    said.push(words.say("place-depth-now", &[("depth", depths(&lying.depth, words))]));
    let Some(loss_mm) = &lying.loss_mm_year else { return said };
    let loss = words.depth(Length::from_mm(loss_mm.typical));
    let source = words.body_and_year(&loss_mm.source);
    let date =
        |date: Option<NaiveDate>| date.map_or_else(|| words.unknown(), |date| words.date_beside(date, on));
    if lying.thin {
        let arguments = [("wanted", words.depth(lying.wanted)), ("loss", loss), ("source", source)];
        said.push(words.say("place-top-up-now", &arguments));
    } else if let Some(top) = lying.top_up {
        let arguments = [
            ("date", date(top.likely)),
            ("earliest", date(Some(top.earliest))),
            ("latest", date(top.latest)),
            ("loss", loss),
            ("source", source),
        ];
        said.push(words.say("place-top-up", &arguments));
    }
    said
}

fn depths(range: &lying::Range<Length>, words: &Words) -> String {
    let (low, high) = (words.depth(range.low), words.depth(range.high));
    let middle = words.depth(range.typical);
    if low == high { middle } else { words.around(middle, &low, &high) }
}

fn figures(season: &Season, forecast: &Forecast) -> Foretold {
    let today = forecast.days.iter().rev().find(|day| day.day <= season.today);
    let ahead = !season.ahead().is_empty();
    let dates = |days: Three| Dates {
        p10: days.p10.map(|day| forecast.calendar.date(day)),
        p50: days.p50.map(|day| forecast.calendar.date(day)),
        p90: days.p90.map(|day| forecast.calendar.date(day)),
    };
    Foretold {
        first_day: forecast.calendar.first(),
        today: season.today,
        tied_kg_ha: today.map(|day| day.tied),
        mineral_kg_ha: today.map(|day| day.mineral),
        lost_kg_ha: ahead.then_some(forecast.lost),
        hungry_date: ahead.then(|| dates(forecast.hungry_day)),
        hungry_date_bare: ahead.then(|| dates(forecast.hungry_day_bare)),
        chance_hungry: ahead.then_some(forecast.chance_hungry),
        readings: season.readings.len(),
        effective_size: forecast.effective_size,
    }
}

/// What comes next, in words.
fn comes(figures: &Foretold, forecast: &Forecast, on: NaiveDate, words: &Words) -> Vec<String> {
    let mut said = Vec::new();
    let date = |date: NaiveDate| words.date_beside(date, on);
    match &figures.hungry_date {
        None => said.push(words.label("place-no-crop")),
        Some(Dates { p10: None, .. }) => said.push(words.label("place-not-hungry")),
        Some(Dates { p10: Some(early), p50: None, .. }) => {
            said.push(words.say("place-hungry-middle", &[("early", date(*early))]));
        }
        Some(Dates { p10: Some(early), p50: Some(middle), .. }) => {
            let bare = figures.hungry_date_bare.as_ref().and_then(|dates| dates.p50);
            let bare = bare.map_or_else(|| words.unknown(), date);
            let arguments = [("early", date(*early)), ("date", date(*middle)), ("bare", bare)];
            said.push(words.say("place-hungry", &arguments));
        }
    }
    if let Some(chance) = figures.chance_hungry {
        let chance = words.percent(Share::from_fraction(chance));
        said.push(words.say("place-chance", &[("chance", chance)]));
    }
    let three = |three: Three| {
        let mass = |value: Option<f64>| AreaMass::from_kg_ha(value.unwrap_or(0.0));
        words.nitrogen_range(mass(three.p50), mass(three.p10), mass(three.p90))
    };
    if let Some(lost) = figures.lost_kg_ha {
        said.push(words.say("place-cost", &[("lost", three(lost))]));
    }
    if let Some(tied) = figures.tied_kg_ha.filter(|tied| tied.p10 != tied.p90) {
        said.push(words.say("place-tied", &[("tied", three(tied))]));
    }
    if let Some(mineral) = figures.mineral_kg_ha {
        said.push(words.say("place-mineral", &[("mineral", three(mineral))]));
    }
    if let Some(size) = forecast.effective_size {
        let arguments = [("count", figures.readings.to_string()), ("runs", words.number(size.round(), 0))];
        said.push(words.say("place-readings", &arguments));
    }
    said
}

/// The text of a reason for leaving an entry out.
const fn why(why: Why) -> &'static str {
    match why {
        Why::NoAmount => "no-amount",
        Why::NotInTable => "not-in-table",
        Why::Refused => "refused",
        Why::EndsBeforeStart => "ends-before-start",
        Why::NothingGrows => "nothing-grows",
        Why::LiftedTooMuch => "lifted-too-much",
        Why::NothingLay => "not-that-day",
        Why::Circle => "circle",
        Why::NoFigure => "no-figure",
        Why::PlainAnswer => "plain-answer",
        Why::OldMaterial => "old-material",
        Why::Stale => "stale",
        Why::BeforeFirst => "before-first",
        Why::NotThere => "not-there",
        Why::Impossible => "impossible",
    }
}
