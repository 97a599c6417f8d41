//! `book scores`: a score sheet that was filled in by hand, into the book: all of it, or nothing.
//!
//! The sheet is the one that `plan` prints, a row a plot, by number. A row where nothing was read is left out.

use chrono::NaiveDate;
use kerfbook_acts::measure_plot::{self, NewMeasurement};
use kerfbook_acts::moment::Moment;
use kerfbook_acts::score_plot::{self, NewScores};
use kerfbook_acts::{error::ActError, lose_plot};
use kerfbook_ledger::kind::LeafLayer;
use kerfbook_ledger::{Book, EntryId, Kind, Text};
use kerfbook_science::units::{Mass, Share};

use super::trials::LAYERS;
use super::{Entered, Stop, show};
use crate::book::told::{Teller, Told};
use crate::book::{of, open_to_write, random};
use crate::context::Context;
use crate::fault::{Complaint, Fault, Message};
use crate::plot_table::{Column, Table};
use crate::toml_file::layout::nearest;
use crate::{acted, cli};

/// Columns that say which plot, when, by whom, of which leaves.
const WHICH: [&str; 7] = ["trial", "walk", "plot", "day", "rater", "leaf_layer", "again"];
/// Columns that say what was read.
const READ: [&str; 6] = ["yellow_pct", "yield_kg", "weeds_pct", "soil_moisture_pct", "stand", "lost"];

pub(crate) fn take(args: &cli::Scores, context: &Context) -> Result<(), Fault> {
    let table = Table::read_sheet(&args.sheet)?;
    let mut book = open_to_write(&args.file)?;
    let outcome = book.together(|book| write(book, &table, args, context));
    match outcome {
        Ok(entered) => {
            of(&args.file, || book.settle())?;
            show(&entered, context)
        }
        Err(Stop::Tried(entered)) => show(&entered, context),
        Err(Stop::Fault(fault)) => Err(fault),
    }
}

/// Writes every row by day, then in the order of the sheet. What is wrong is noted, row by row, and then nothing stays.
fn write(book: &mut Book, table: &Table, args: &cli::Scores, context: &Context) -> Result<Entered, Stop> {
    let names = Names::of(book)?;
    let by = match args.by.as_deref().map(|name| (name, names.person(name))) {
        Some((name, None)) => {
            let what = Message::new("enter-no-person").text("name", name);
            return Err(Stop::Fault(Fault::input(&args.sheet, what, None)));
        }
        known => known.and_then(|(_, person)| person),
    };
    let sheet = Sheet::of(table, &names).map_err(Stop::Fault)?;
    let mut complaints = Vec::new();
    let mut rows = Vec::new();
    for row in (0..table.len()).filter(|row| sheet.is_filled(*row)) {
        match sheet.row(row) {
            Ok(read) => rows.push(read),
            Err(complaint) => complaints.push(*complaint),
        }
    }
    if rows.is_empty() && complaints.is_empty() {
        complaints.push(table.at(1, "", Message::new("scores-empty"), Some(Message::new("scores-form"))));
    }
    rows.sort_by_key(|row| row.date);
    let opened = book.of_kind(Kind::HoldingOpened)?.first().map(|opened| opened.date.naive());
    let mut entries = Vec::new();
    for row in &rows {
        let start = Moment { date: opened.unwrap_or(row.date), wall_ms: context.wall_ms(), by };
        match row.write(book, start.on(row.date)) {
            Ok(written) => entries.extend(written),
            Err(error) => {
                let (what, remedy) = acted::told(&error);
                complaints.push(table.of_row(row.at, "plot", what, remedy));
            }
        }
    }
    if !complaints.is_empty() {
        complaints.sort_by_key(|complaint| complaint.spot.as_ref().map(|spot| spot.line));
        return Err(Stop::Fault(table.fault(complaints)));
    }
    let teller = Teller::new(book, context.words())?;
    let told: Vec<Told> = entries.iter().map(|entry| teller.tell_id(*entry)).collect::<Result<_, _>>()?;
    let entered = Entered {
        format: 1,
        entries: told,
        cautions: Vec::new(),
        warnings: Vec::new(),
        written: !args.r#try,
    };
    if args.r#try { Err(Stop::Tried(entered)) } else { Ok(entered) }
}

/// Trials and people by name.
struct Names {
    trials: Vec<(String, EntryId)>,
    people: Vec<(String, EntryId)>,
}

impl Names {
    fn of(book: &Book) -> Result<Self, Stop> {
        let trials = book.trials()?.into_iter().filter(|trial| !trial.withdrawn());
        let mut people = Vec::new();
        for person in book.people()? {
            people.extend(book.text(person.name)?.map(|name| (name, person.id)));
        }
        Ok(Self { trials: trials.map(|trial| (trial.label.as_str().to_owned(), trial.id)).collect(), people })
    }

    fn person(&self, name: &str) -> Option<EntryId> {
        self.people.iter().find(|(known, _)| known == name).map(|(_, person)| *person)
    }
}

/// One row, read.
struct Row {
    at: usize,
    trial: EntryId,
    plot: u32,
    date: NaiveDate,
    rater: Option<EntryId>,
    layer: LeafLayer,
    /// Scored a second time on purpose.
    again: bool,
    yellow: Option<Share>,
    picked: Option<Mass>,
    weeds: Option<Share>,
    moisture: Option<Share>,
    stand: Option<u32>,
    lost: Option<Text>,
}

impl Row {
    /// A plot that was lost on a day was read before.
    fn write(&self, book: &mut Book, moment: Moment) -> Result<Vec<EntryId>, ActError> {
        let mut entries = Vec::new();
        if let Some(yellow) = self.yellow {
            let plots = [(self.plot, yellow)];
            let new = NewScores {
                trial: self.trial,
                rater: self.rater,
                layer: self.layer,
                plots: &plots,
                again: self.again,
            };
            entries.extend(score_plot::score(book, &new, moment)?);
        }
        let measured = NewMeasurement {
            trial: self.trial,
            plot: self.plot,
            picked: self.picked,
            weeds: self.weeds,
            moisture: self.moisture,
            stand: self.stand,
        };
        if self.picked.is_some() || self.weeds.is_some() || self.moisture.is_some() || self.stand.is_some() {
            entries.push(measure_plot::measure(book, &measured, moment)?);
        }
        if let Some(reason) = &self.lost {
            entries.push(lose_plot::lose(book, self.trial, self.plot, reason, moment)?);
        }
        Ok(entries)
    }
}

/// What stands in a cell, or what is wrong with it.
type Cell<T> = Result<T, Box<Complaint>>;

/// The columns of a sheet.
struct Sheet<'a> {
    table: &'a Table,
    names: &'a Names,
    plot: Column,
    day: Column,
    others: Vec<(&'static str, Column)>,
}

impl<'a> Sheet<'a> {
    fn of(table: &'a Table, names: &'a Names) -> Result<Self, Fault> {
        let known = || WHICH.into_iter().chain(READ);
        for name in table.names() {
            let lower = name.to_lowercase();
            if !known().any(|known| known == lower) {
                let remedy = match nearest(&lower, known(), 1).first() {
                    Some(near) => Message::new("desk-did-you-mean").text("name", *near),
                    None => Message::new("trial-columns-are")
                        .text("names", known().collect::<Vec<_>>().join(", ")),
                };
                let what = Message::new("heat-unknown-column").text("name", name);
                return Err(table.fault(vec![table.at(1, name, what, Some(remedy))]));
            }
        }
        let (plot, day) = (table.column("plot")?, table.column("day")?);
        let others: Vec<_> = known().filter_map(|name| Some((name, table.find(name)?))).collect();
        if !others.iter().any(|(name, _)| READ.contains(name)) {
            table.column(READ[0])?;
        }
        Ok(Self { table, names, plot, day, others })
    }

    fn column(&self, name: &str) -> Option<&Column> {
        self.others.iter().find(|(known, _)| *known == name).map(|(_, column)| column)
    }

    /// What stands in a column of a row; empty where there is no such column.
    fn cell(&self, row: usize, name: &str) -> &str {
        self.column(name).map_or("", |column| self.table.cell(row, column))
    }

    /// Something was read.
    fn is_filled(&self, row: usize) -> bool {
        READ.iter().any(|name| !self.cell(row, name).is_empty())
    }

    fn row(&self, row: usize) -> Cell<Row> {
        let share = |name| self.number(row, name, Some(100.0)).map(|found| found.map(Share::from_percent));
        Ok(Row {
            at: row,
            trial: self.trial(row)?,
            plot: self.whole(row, "plot")?.ok_or_else(|| self.empty(row, &self.plot))?,
            date: self.date(row)?,
            rater: self.rater(row)?,
            layer: self.layer(row)?,
            again: self.again(row)?,
            yellow: share("yellow_pct")?,
            picked: self.number(row, "yield_kg", None)?.map(Mass::from_kg),
            weeds: share("weeds_pct")?,
            moisture: share("soil_moisture_pct")?,
            stand: self.whole(row, "stand")?,
            lost: self.lost(row)?,
        })
    }

    fn wrong(&self, row: usize, key: &str, what: Message, remedy: Option<Message>) -> Box<Complaint> {
        Box::new(self.table.of_row(row, key, what, remedy))
    }

    fn empty(&self, row: usize, column: &Column) -> Box<Complaint> {
        let what = Message::new("trial-empty-cell").text("name", &column.name);
        self.wrong(row, &column.name, what, Some(Message::new("scores-form")))
    }

    /// The trial that the row names; where the sheet names none, the one of the book.
    fn trial(&self, row: usize) -> Cell<EntryId> {
        // The sheet guards names that a spreadsheet would take for a formula.
        let cell = self.cell(row, "trial");
        let name = cell.strip_prefix('\'').unwrap_or(cell);
        let wrong = |id, remedy| {
            let what = Message::new(id).text("name", name);
            self.wrong(row, "trial", what, remedy)
        };
        match self.names.trials.as_slice() {
            [(_, only)] if name.is_empty() => Ok(*only),
            all => all.iter().find(|(known, _)| known == name).map(|(_, trial)| *trial).ok_or_else(|| {
                let known: Vec<&str> = all.iter().map(|(known, _)| known.as_str()).collect();
                let remedy = Message::new("scores-trials-are").text("names", known.join(", "));
                wrong(
                    if name.is_empty() { "scores-unnamed-trial" } else { "scores-no-trial" },
                    (!known.is_empty()).then_some(remedy),
                )
            }),
        }
    }

    fn date(&self, row: usize) -> Cell<NaiveDate> {
        let cell = self.table.cell(row, &self.day);
        if cell.is_empty() {
            return Err(self.empty(row, &self.day));
        }
        cell.parse().map_err(|_| {
            Box::new(self.table.bad(row, &self.day, cell, "heat-no-day", Some(Message::new("heat-day-form"))))
        })
    }

    fn rater(&self, row: usize) -> Cell<Option<EntryId>> {
        let name = self.cell(row, "rater");
        if name.is_empty() {
            return Ok(None);
        }
        self.names.person(name).map(Some).ok_or_else(|| {
            let near = nearest(name, self.names.people.iter().map(|(known, _)| known.as_str()), 1);
            let remedy = match near.first() {
                Some(near) => Message::new("desk-did-you-mean").text("name", *near),
                None => Message::new("scores-name-person"),
            };
            let what = Message::new("enter-no-person").text("name", name);
            self.wrong(row, "rater", what, Some(remedy))
        })
    }

    fn layer(&self, row: usize) -> Cell<LeafLayer> {
        let cell = self.cell(row, "leaf_layer").to_lowercase();
        if cell.is_empty() {
            return Ok(LeafLayer::Old);
        }
        LAYERS.iter().find(|(name, _)| *name == cell).map(|(_, layer)| *layer).ok_or_else(|| {
            let what = Message::new("scores-no-layer").text("value", &cell);
            let names = LAYERS.map(|(name, _)| name).join(", ");
            let remedy = Message::new("scores-layers-are").text("names", names);
            self.wrong(row, "leaf_layer", what, Some(remedy))
        })
    }

    fn again(&self, row: usize) -> Cell<bool> {
        match self.cell(row, "again").to_lowercase().as_str() {
            "" | "no" | "false" | "0" => Ok(false),
            "yes" | "true" | "1" | "x" => Ok(true),
            other => {
                let what = Message::new("scores-no-yes").text("value", other);
                Err(self.wrong(row, "again", what, Some(Message::new("scores-again-is"))))
            }
        }
    }

    /// A figure at or above zero, with a point or a comma; nothing where nothing stands there.
    fn number(&self, row: usize, name: &str, most: Option<f64>) -> Cell<Option<f64>> {
        let Some(column) = self.column(name) else { return Ok(None) };
        let cell = self.table.cell(row, column);
        if cell.is_empty() {
            return Ok(None);
        }
        let bad = |id| Box::new(self.table.bad(row, column, cell, id, Some(Message::new("scores-form"))));
        let number = cell.trim_end_matches('%').trim_end().replace(',', ".").parse::<f64>().ok();
        match number.filter(|number| number.is_finite()) {
            None => Err(bad("trial-text")),
            Some(number) if most.is_some_and(|most| !(0.0..=most).contains(&number)) => {
                Err(bad("trial-percent"))
            }
            Some(number) if number < 0.0 => Err(bad("scores-below-zero")),
            Some(number) => Ok(Some(number)),
        }
    }

    fn whole(&self, row: usize, name: &str) -> Cell<Option<u32>> {
        let Some(number) = self.number(row, name, None)? else { return Ok(None) };
        if number.fract() > 0.0 || number > f64::from(u32::MAX) {
            let what = Message::new("desk-needs-whole-number").text("key", name).text("value", number);
            return Err(self.wrong(row, name, what, None));
        }
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "whole and within bounds"
        )]
        Ok(Some(number as u32))
    }

    fn lost(&self, row: usize) -> Cell<Option<Text>> {
        let reason = self.cell(row, "lost");
        if reason.is_empty() {
            return Ok(None);
        }
        let salt = random().map_err(|_| {
            let what = Message::new("desk-no-randomness").text("why", "getrandom");
            self.wrong(row, "lost", what, None)
        })?;
        Ok(Some(Text::new(salt, reason)))
    }
}
