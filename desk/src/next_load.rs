//! `compare` on a place of a book: a load that might be put down there beside leaving it off, with all that lies there.

use kerfbook_acts::assumed::Assumed;
use kerfbook_acts::compare::{RUNS, Three};
use kerfbook_acts::error::ActError;
use kerfbook_acts::next_load::{self, NextLoad, NextWay};
use kerfbook_acts::scenario::{Amount, Containers, Crop, PutDown};
use kerfbook_acts::season::{self, AHEAD_DAYS, Season};
use kerfbook_acts::told;
use kerfbook_acts::way::Row;
use kerfbook_ledger::{Book, PlaceView};
use kerfbook_science::units::{AreaMass, Share};
use kerfbook_words::{Per, Spread, Words};
use serde_json::{Value, json};

use crate::book::{fault_of_place, named_batch, of};
use crate::cli;
use crate::compare::{SEED, assumed_document, assumed_list, new_table, range, row_name, wide};
use crate::context::Context;
use crate::fault::{Fault, Message};
use crate::scenario;

/// A load on a place of a book, as it is told.
struct Told<'a> {
    place: &'a PlaceView,
    season: &'a Season,
    next: &'a NextLoad,
    assumed: Value,
}

pub(crate) fn run(
    args: &cli::Compare,
    book: &Book,
    place: &PlaceView,
    context: &Context,
) -> Result<(), Fault> {
    let mut assumed = Vec::new();
    let fault = |error: &ActError| fault_of_place(&args.file, place, error);
    let (put, crop) = asked(args, book, context, &mut assumed)?;
    let season = season_of(book, place, &put, crop.as_ref()).map_err(|error| fault(&error))?;
    let next = next_load::next_load(&season, &put, RUNS, SEED).map_err(|error| fault(&error))?;
    let taken: Vec<Assumed> = season.assumed.iter().chain(&next.assumed).cloned().collect();
    let told = Told { place, season: &season, next: &next, assumed: assumed_document(&assumed, &taken) };
    let words = context.words();
    if context.json { context.print_json(&told.document(words)) } else { context.print(&told.text(words)) }
}

/// The load that is asked about, and the crop that is to come.
fn asked(
    args: &cli::Compare,
    book: &Book,
    context: &Context,
    assumed: &mut Vec<Assumed>,
) -> Result<(PutDown, Option<Crop>), Fault> {
    match (&args.load, &args.batch) {
        (Some(load), _) => scenario::load(load),
        (None, Some(label)) => {
            let batch = named_batch(book, &args.file, label)?;
            let on = args.on.unwrap_or_else(|| context.today());
            let amount = args.barrows.map(Amount::Barrows);
            let put = next_load::of_batch(book, batch.id, amount, on, assumed)
                .map_err(|error| crate::acted::fault(&args.file, &error))?;
            Ok((put, None))
        }
        (None, None) => {
            let batches = of(&args.file, || book.batches())?;
            let labels: Vec<&str> =
                batches.iter().filter(|batch| !batch.withdrawn()).map(|batch| batch.label.as_str()).collect();
            Err(Fault::usage(
                Message::new("desk-which-load"),
                Message::new("desk-which-load-remedy").text("names", labels.join(", ")),
            ))
        }
    }
}

/// The place up to the day of the load, and a season on; with the crop that is to come.
fn season_of(book: &Book, place: &PlaceView, put: &PutDown, crop: Option<&Crop>) -> Result<Season, ActError> {
    let days = crop.map_or(0, |crop| (crop.ended - put.date).num_days() + 1);
    let horizon = u32::try_from(days).unwrap_or(0).max(AHEAD_DAYS);
    let season = season::season(book, place.id, put.date, horizon)?;
    match crop {
        Some(crop) => season.expecting(crop),
        None => Ok(season),
    }
}

impl Told<'_> {
    fn document(&self, words: &Words) -> Value {
        let date = |day: Option<f64>| day.map(|day| self.season.calendar.date(day).to_string());
        let way = |way: &NextWay| {
            json!({
                "way": way.row.way(),
                "over": way.row.over(),
                "crop_nitrogen_kg_ha": way.crop_nitrogen,
                "lost_kg_ha": way.lost,
                "tied_more_kg_ha": way.tied_more,
                "hungry_date": way.hungry_day.map(|day| json!({
                    "p10": date(day.p10), "p50": date(day.p50), "p90": date(day.p90),
                })),
                "chance_hungry": way.chance_hungry,
                "allowed": way.allowed,
                "doable": way.doable,
                "assumed": assumed_document(&[], &way.assumed),
            })
        };
        let load = &self.next.load;
        json!({
            "format": 1,
            "place": self.place.label.as_str(),
            "on": self.season.on.to_string(),
            "first_day": self.season.calendar.first().to_string(),
            "load": {
                "material": load.material.name,
                "dry_kg": load.dry.kg(),
                "wet_kg": load.wet.kg(),
                "volume_m3": load.loose.m3(),
                "depth_mm": load.depth.mm(),
                "dry_t_ha": load.dry_per_area.t_ha(),
            },
            "best": self.next.best().map(|way| json!({ "way": way.row.way(), "over": way.row.over() })),
            "ways": self.next.ways.iter().map(way).collect::<Vec<_>>(),
            "readings": self.season.readings.len(),
            "runs": RUNS,
            "seed": SEED,
            "said": self.sentences(words),
            "assumed": self.assumed,
        })
    }

    /// The answer: what is compared, the best way and its price, and that the past is in it.
    fn sentences(&self, words: &Words) -> Vec<String> {
        let load = &self.next.load;
        let containers = told::in_containers(&load.counted(&Containers::usual()), words);
        let mut said = vec![words.say(
            "next-load",
            &[
                ("amount", containers),
                ("material", words.material(load.material.name)),
                ("place", self.place.label.as_str().to_owned()),
                ("date", words.date_with_year(self.season.on)),
                ("first", words.date_with_year(self.season.calendar.first())),
            ],
        )];
        said.extend(best(self.next, words));
        if self.next.ways.first().is_none_or(|bare| bare.lost.is_none()) {
            said.push(words.label("next-no-crop"));
        }
        said
    }

    fn text(&self, words: &Words) -> String {
        let mut parts = vec![self.sentences(words).join(" "), self.table(words)];
        parts.push(assumed_list(&self.assumed, words));
        parts.retain(|part| !part.is_empty());
        parts.join("\n\n")
    }

    fn table(&self, words: &Words) -> String {
        let unit = words.nitrogen_unit_name();
        let in_unit = |text: String| format!("{text}, {unit}");
        let crop = self.next.ways.iter().any(|way| way.lost.is_some());
        let mut head = vec![words.label("compare-way")];
        if crop {
            head.push(in_unit(words.label("compare-crop-nitrogen")));
            head.push(in_unit(words.label("next-lost")));
        }
        let wide = wide() || !crop;
        if wide {
            head.push(in_unit(words.say("next-tied", &[("days", words.days(60.0))])));
        }
        if wide && crop {
            head.push(words.label("next-chance"));
        }
        let mut table = new_table(head);
        for way in &self.next.ways {
            let name =
                if way.row == Row::Bare { words.label("next-leave") } else { row_name(way.row, words) };
            let off = way.row != Row::Bare && !(way.allowed && way.doable);
            let mut cells = vec![if off { format!("{name} *") } else { name }];
            if crop {
                cells.push(range(way.crop_nitrogen, words));
                cells.push(range(way.lost, words));
            }
            if wide {
                cells.push(range(Some(way.tied_more), words));
            }
            if wide && crop {
                cells.push(
                    way.chance_hungry
                        .map_or_else(|| words.unknown(), |share| words.percent(Share::from_fraction(share))),
                );
            }
            table.add_row(cells);
        }
        let mut told = table.to_string();
        if self.next.ways.iter().any(|way| way.row != Row::Bare && !(way.allowed && way.doable)) {
            told.push_str("\n* ");
            told.push_str(&words.label("compare-not-doable"));
        }
        told
    }
}

/// The best way of those that can be done, and its price beside leaving the load off.
pub(crate) fn best(next: &NextLoad, words: &Words) -> Option<String> {
    let way = next.best()?;
    let name = words.manner(match way.row {
        Row::OverCompost => "over-compost",
        Row::OverUrine => "over-urine",
        other => other.way(),
    });
    Some(match way.lost {
        Some(lost) => {
            let middle = lost.middle();
            let spread =
                Spread { p10: lost.p10.unwrap_or(middle), p50: middle, p90: lost.p90.unwrap_or(middle) };
            words.say("next-best", &[("way", name), ("cost", words.cost(spread, Per::Area))])
        }
        None => words.say("next-best-tied", &[("way", name), ("tied", tied(way.tied_more, words))]),
    })
}

fn tied(three: Three, words: &Words) -> String {
    let mass = |value: Option<f64>| AreaMass::from_kg_ha(value.unwrap_or(0.0));
    words.nitrogen_range(mass(three.p50), mass(three.p10), mass(three.p90))
}
