//! `stock`: every batch with what came, what went and what is left, by mass and in the grower's own containers.

use chrono::NaiveDate;
use comfy_table::Table;
use kerfbook_acts::load::Carried;
use kerfbook_acts::scenario::Containers;
use kerfbook_acts::stock::{Amount, Stock, stock};
use kerfbook_ledger::Book;
use kerfbook_science::units::{Mass, Volume};
use kerfbook_words::{Container, Words};
use serde::Serialize;

use crate::book::{of, plain_table};
use crate::context::Context;
use crate::fault::Fault;
use crate::report::StockRow;
use crate::{acted, cli};

#[derive(Serialize)]
struct Document {
    format: u32,
    batches: Vec<Row>,
}

/// Under this mass, kg, and this volume, litres, nothing is there: a handful.
const NOTHING_KG: f64 = 0.05;
const NOTHING_L: f64 = 0.2;

/// A batch as it is told.
#[derive(Serialize)]
pub(crate) struct Row {
    id: String,
    /// Its name.
    pub batch: String,
    /// What it is.
    pub material: &'static str,
    date: NaiveDate,
    came: Option<Told>,
    counted: Option<NaiveDate>,
    went: Option<Told>,
    left: Option<Told>,
    notes: Vec<String>,
}

/// An amount by mass, volume and containers.
#[derive(Serialize, Clone, Copy)]
struct Told {
    wet_kg: f64,
    volume_m3: f64,
    barrows: f64,
}

pub(crate) fn run(args: &cli::BookFile, context: &Context) -> Result<(), Fault> {
    let book = of(&args.file, || Book::open(&args.file, None))?;
    let all = stock(&book).map_err(|error| acted::fault(&args.file, &error))?;
    let words = context.words();
    let containers = Containers::usual();
    if context.json {
        let batches = all.iter().map(|one| row(one, &containers, words)).collect();
        return context.print_json(&Document { format: 1, batches });
    }
    if all.is_empty() {
        return context.print(&words.label("stock-nothing"));
    }
    context.print(&table(&all, &containers, words).to_string())
}

/// The batches as a table for people.
fn table(all: &[Stock], containers: &Containers, words: &Words) -> Table {
    let mut table = plain_table();
    table.set_header(
        ["stock-batch", "stock-material", "stock-came", "stock-went", "stock-left", "stock-notes"]
            .map(|id| words.label(id)),
    );
    for one in all {
        let row = told_row(one, containers, words);
        table.add_row([row.batch, row.material, row.came, row.went, row.left, row.notes]);
    }
    table
}

/// A batch for people.
pub(crate) fn told_row(one: &Stock, containers: &Containers, words: &Words) -> StockRow {
    let amount = |amount: Option<Amount>| {
        amount.map_or_else(|| words.label("stock-unweighed"), |amount| told(&amount, containers, words))
    };
    let mut came = amount(one.came);
    if let Some(date) = one.counted {
        came = format!("{came} ({})", words.say("stock-counted", &[("date", words.date_with_year(date))]));
    }
    StockRow {
        batch: one.label.clone(),
        material: words.material(one.material),
        came,
        went: amount(went(one)),
        left: amount(one.left),
        notes: notes(one, words).join("; "),
    }
}

fn went(one: &Stock) -> Option<Amount> {
    let known: Vec<Amount> = one.went.iter().filter_map(|part| part.amount).collect();
    (known.len() == one.went.len() || !known.is_empty()).then(|| {
        let none = Amount { wet: Mass::default(), volume: Volume::default() };
        known
            .into_iter()
            .fold(none, |sum, part| Amount { wet: sum.wet + part.wet, volume: sum.volume + part.volume })
    })
}

fn told(amount: &Amount, containers: &Containers, words: &Words) -> String {
    let (carried, count) = amount.told_in(containers);
    let container = match carried {
        Carried::Barrows => Container::Barrow,
        Carried::Buckets => Container::Bucket,
        Carried::Trailers => Container::Trailer,
    };
    if amount.wet.kg().abs() < NOTHING_KG && amount.volume.litres().abs() < NOTHING_L {
        return words.label("stock-none");
    }
    // What is not there is told as short, never as a minus before a barrow.
    let mass = if count < 0.0 { amount.wet * -1.0 } else { amount.wet };
    let arguments = [("mass", words.mass(mass)), ("containers", words.containers(container, count.abs()))];
    let id = if count < 0.0 { "stock-short" } else { "stock-in-containers" };
    words.say(id, &arguments)
}

fn notes(one: &Stock, words: &Words) -> Vec<String> {
    one.notes.iter().map(|note| note.told(words)).collect()
}

fn row(one: &Stock, containers: &Containers, words: &Words) -> Row {
    let told = |amount: Amount| Told {
        wet_kg: amount.wet.kg(),
        volume_m3: amount.volume.m3(),
        barrows: amount.volume.litres() / containers.barrow.litres(),
    };
    Row {
        id: one.batch.to_string(),
        batch: one.label.clone(),
        material: one.material,
        date: one.date,
        came: one.came.map(told),
        counted: one.counted,
        went: went(one).map(told),
        left: one.left.map(told),
        notes: notes(one, words),
    }
}
