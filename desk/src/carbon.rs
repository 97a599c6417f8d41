//! `carbon`: what the same put down every year leaves in the soil over years, of a scenario or of a place of a book.

use kerfbook_acts::assumed::Assumed;
use kerfbook_acts::long_view::told::amount;
use kerfbook_acts::long_view::{self, LongView, Practice};
use kerfbook_acts::season;
use kerfbook_picture::{BandChart, BandLabels, Range, Tick};
use kerfbook_science::soil_carbon::DIOXIDE_PER_CARBON;
use kerfbook_science::soil_carbon::residue::Ends;
use kerfbook_science::units::AreaMass;
use kerfbook_words::{Units, Words};
use serde_json::{Value, json};

use crate::book::{fault_of_place, place_of_book};
use crate::compare::{assumed_document, assumed_list, new_table};
use crate::context::Context;
use crate::fault::Fault;
use crate::{acted, cli, scenario};

/// Most rows of the table: the first year, the last, and steps between.
const ROWS: u32 = 8;

pub(crate) fn run(args: &cli::Carbon, context: &Context) -> Result<(), Fault> {
    let practice = Practice { years: args.years, every: args.every };
    let (view, place, read) = if let Some((book, place)) = place_of_book(&args.file, args.name.as_deref())? {
        let on = args.on.unwrap_or_else(|| context.today());
        let view = season::season(&book, place.id, on, 0)
            .and_then(|season| Ok((long_view::long_view(&season.scenario, practice)?, season.assumed)));
        let (view, assumed) = view.map_err(|error| fault_of_place(&args.file, &place, &error))?;
        (view, Some(place.label.as_str().to_owned()), assumed)
    } else {
        let described = scenario::read(&args.file)?;
        let view = long_view::long_view(&described.scenario, practice)
            .map_err(|error| acted::fault(&args.file, &error))?;
        (view, None, described.assumed)
    };
    let words = context.words();
    if context.json {
        return context.print_json(&document(&view, place.as_deref(), &read, words));
    }
    let assumed = assumed_list(&assumed_document(&read, &view.assumed), words);
    let parts = [view.told(words).join("\n"), table(&view, words), assumed];
    let parts: Vec<String> = parts.into_iter().filter(|part| !part.is_empty()).collect();
    context.print(&parts.join("\n\n"))
}

fn document(view: &LongView, place: Option<&str>, read: &[Assumed], words: &Words) -> Value {
    let ends = |of: Ends| json!({ "low": of.low, "typical": of.typical, "high": of.high });
    let years = view.years.iter().map(|year| {
        json!({
            "year": year.year,
            "carbon_t_ha": ends(year.carbon),
            "humus_t_ha": ends(year.humus),
            "stopped_carbon_t_ha": year.stopped,
        })
    });
    json!({
        "format": 1,
        "place": place,
        "loads": view.loads,
        "first": view.of.0.to_string(),
        "last": view.of.1.to_string(),
        "every_years": view.practice.every,
        "dry_t_ha": view.dry.t_ha(),
        "carbon_in_t_ha": ends(view.carbon_in),
        "on_top": view.on_top,
        "soil_carbon_t_ha": view.stock.t_ha(),
        "depth_cm": view.depth.cm(),
        "stopped_after_years": view.stops,
        "dioxide_per_carbon": DIOXIDE_PER_CARBON.value,
        "years": years.collect::<Vec<_>>(),
        "said": view.told(words),
        "assumed": assumed_document(read, &view.assumed),
    })
}

fn table(view: &LongView, words: &Words) -> String {
    let stops = ("stops", words.years(f64::from(view.stops)));
    let mut table = new_table(vec![
        words.label("carbon-head-year"),
        words.label("carbon-head-carbon"),
        words.label("carbon-head-humus"),
        words.say("carbon-head-stopped", &[stops]),
    ]);
    let last = view.last().map_or(0, |year| year.year);
    let step = last.div_ceil(ROWS).max(1);
    for year in view.years.iter().filter(|year| year.year == 1 || year.year % step == 0 || year.year == last)
    {
        table.add_row(vec![
            words.years(f64::from(year.year)),
            amount(year.carbon, words),
            amount(year.humus, words),
            words.area_mass(AreaMass::from_t_ha(year.stopped)),
        ]);
    }
    table.to_string()
}

/// The carbon of a place over years as a band, in the reader's unit.
pub(crate) fn chart(view: &LongView, place: &str, words: &Words) -> BandChart {
    let value = |t_ha: f64| match words.units() {
        Units::Metric => t_ha,
        Units::Us => AreaMass::from_t_ha(t_ha).us_tons_acre(),
    };
    let range = |ends: Ends| Range { p10: value(ends.low), p50: value(ends.typical), p90: value(ends.high) };
    let years = |years: u32| words.years(f64::from(years));
    let last = view.last().map_or(1, |year| year.year);
    let nothing = (0.0, range(Ends::default()));
    let stops = ("stops", years(view.stops));
    BandChart {
        title: words.say("carbon-picture-title", &[("place", place.to_owned())]),
        description: words.say("carbon-picture-about", &[("years", years(last)), stops.clone()]),
        unit: words.label(match words.units() {
            Units::Metric => "carbon-unit-metric",
            Units::Us => "carbon-unit-us",
        }),
        labels: BandLabels {
            band: words.label("carbon-picture-band"),
            median: words.label("carbon-picture-middle"),
            bare: words.say("carbon-picture-stopped", &[stops]),
        },
        days: f64::from(last),
        band: std::iter::once(nothing)
            .chain(view.years.iter().map(|year| (f64::from(year.year), range(year.carbon))))
            .collect(),
        bare: view
            .years
            .iter()
            .filter(|year| year.year >= view.stops)
            .map(|year| (f64::from(year.year), value(year.stopped)))
            .collect(),
        months: (0..=last)
            .step_by(if last > 10 { 5 } else { 1 })
            .skip(1)
            .map(|year| Tick {
                day: f64::from(year),
                label: words.say("carbon-picture-year", &[("year", year.to_string())]),
            })
            .collect(),
        ..BandChart::default()
    }
}
