//! A load that might be put down on a place with a past: each way of using it beside leaving it, on the same runs.
//!
//! What lies there already, what crops left and what was read is in every row. Where a place has no past,
//! [`crate::compare`] has the whole answer.

use chrono::NaiveDate;
use kerfbook_ledger::projection::batch::Origin;
use kerfbook_ledger::{Book, Date, EntryId};
use kerfbook_science::nitrogen::{Fork, Input, InputError, Sample, Series, chance};
use kerfbook_science::units::{Mass, Share, Volume};

use crate::assumed::Assumed;
use crate::blend_batch;
use crate::compare::{self, Three};
use crate::error::ActError;
use crate::forecast::{first_hungry, nitrogen_in};
use crate::load::Load;
use crate::place_scenario::put_down_of;
use crate::scenario::{Amount, Kept, PutDown, Way};
use crate::season::Season;
use crate::way::{self, Row, Wood};
use crate::{site, treatment};

/// First batch number of the load in question, far from all that lies there.
const NEXT_BATCH: u32 = 700_000;
/// First batch number of what its ways bring.
const WITH_NEXT_BATCH: u32 = 710_000;
/// Days after which the nitrogen held is told.
const TOLD_DAYS: u32 = 60;

/// One way of using the load.
#[derive(Debug, Clone, PartialEq)]
pub struct NextWay {
    /// Which way; bare is leaving it.
    pub row: Row,
    /// Nitrogen of the crops ahead by the horizon, kg/ha; none where no crop is ahead.
    pub crop_nitrogen: Option<Three>,
    /// What they would have had without the load less that, run by run.
    pub lost: Option<Three>,
    /// First hungry day of the crops ahead.
    pub hungry_day: Option<Three>,
    /// Share of the runs that go hungry.
    pub chance_hungry: Option<f64>,
    /// Held more after 60 days, run by run, kg/ha.
    pub tied_more: Three,
    /// Allowed here at all.
    pub allowed: bool,
    /// Can be done by its date with what is at hand.
    pub doable: bool,
    /// Taken for granted.
    pub assumed: Vec<Assumed>,
}

/// A load, and each way of using it: leaving it first, then most crop nitrogen first.
#[derive(Debug, Clone, PartialEq)]
pub struct NextLoad {
    /// In every measure.
    pub load: Load,
    /// Ways.
    pub ways: Vec<NextWay>,
    /// Taken for granted of the load.
    pub assumed: Vec<Assumed>,
}

impl NextLoad {
    /// The first way that is allowed and can be done.
    pub fn best(&self) -> Option<&NextWay> {
        self.ways.iter().find(|way| way.row != Row::Bare && way.allowed && way.doable)
    }
}

/// A batch of the book as a load to be put down on a day: so much of it, else all that is left. What was lifted from a
/// place counts as fresh material, and that is told.
///
/// # Errors
/// A day out of range, a batch that the book does not have or that came later, of which nothing is left or nobody knows how much.
pub fn of_batch(
    book: &Book,
    batch: EntryId,
    amount: Option<Amount>,
    on: NaiveDate,
    assumed: &mut Vec<Assumed>,
) -> Result<PutDown, ActError> {
    let view = book.batch(batch)?.ok_or(ActError::NotThere { what: "batch" })?;
    if view.date.naive() > on {
        return Err(ActError::Before { what: "batch", first: view.date.naive() });
    }
    let left = |what: Option<i64>| what.filter(|left| *left > 0).map(|left| left as f64 / 1000.0);
    let known = || {
        let wet = left(view.left_g).map(|kg| Amount::Wet(Mass::from_kg(kg)));
        wet.or_else(|| left(view.left_ml).map(|litres| Amount::Loose(Volume::from_litres(litres))))
    };
    let amount = amount.or_else(known).ok_or(ActError::NothingLeft)?;
    if view.origin == Origin::Layer {
        assumed.push(Assumed::text("lifted_material", "as fresh"));
    }
    let half = view.moisture_half_bp_on(Date::of(on)?);
    let composition = if view.origin == Origin::Blend {
        blend_batch::made_of(book, batch, on)?.parts()
    } else {
        Vec::new()
    };
    Ok(PutDown {
        way: None,
        moisture_half: half.map(|bp| Share::from_percent(f64::from(bp) / 100.0)),
        kept: (!composition.is_empty()).then(|| Kept { composition, ..Kept::default() }),
        ..put_down_of(&view, Way::OnTop, amount, on)
    })
}

/// Sets each way of a load beside leaving it. Its own way is not looked at; it is put down on its date.
///
/// # Errors
/// A load that cannot be, a date beyond the season's horizon, or what the model refuses.
pub fn next_load(season: &Season, put: &PutDown, runs: u32, seed: u64) -> Result<NextLoad, ActError> {
    let mut assumed = Vec::new();
    let scenario = &season.scenario;
    let load = Load::of(put, &scenario.place, &scenario.containers, &mut assumed)?;
    let day = day_of(season, put.date)?;
    let ahead = if site::grows(scenario.place.kind) { season.ahead() } else { Vec::new() };
    let (last, told) = (season.input.days, (day + TOLD_DAYS).min(season.input.days));
    let left = season.left(runs, seed)?;
    let plain = Sample::new(seed, runs);
    let sample = left.as_ref().map_or(&plain, |left| &left.sample);
    let pick = |values: &[f64]| left.as_ref().map_or_else(|| values.to_vec(), |left| left.pick(values));
    let picked = |values: &[f64]| Three::of(&pick(values));
    let refused = |error: InputError| ActError::Model(error.to_string());
    let here = Input { readings: Vec::new(), ..season.input.clone() };
    // The past is the same in every way.
    let fork = Fork::new(&here, sample, day).map_err(refused)?;
    let mut rows = vec![Row::Bare, Row::WorkedIn, Row::OnTop, Row::OverCompost, Row::OverUrine];
    let made = way::composted_with_manure(&load, Wood::of(&load));
    rows.extend(made.map(|_| Row::CompostedFirst));
    let mut ways = Vec::new();
    let mut without = None;
    for row in rows {
        let runs = fork.go_on(&with(&here, row, &load, day), &[told, last]).map_err(refused)?;
        let crop = nitrogen_in(&runs, &ahead, last);
        let tied = compare::series(&runs, Series::Tied, told).to_vec();
        let (bare_crop, bare_tied) = without.get_or_insert_with(|| (crop.clone(), tied.clone()));
        let hungry = first_hungry(&runs, &ahead);
        let grows = !ahead.is_empty();
        ways.push(NextWay {
            row,
            crop_nitrogen: grows.then(|| picked(&crop)),
            lost: grows.then(|| picked(&compare::less(bare_crop, &crop))),
            hungry_day: grows.then(|| picked(&hungry)),
            chance_hungry: grows.then(|| chance(&pick(&hungry))),
            tied_more: picked(&compare::less(&tied, bare_tied)),
            allowed: compare::allowed(scenario, row),
            doable: compare::doable_on(scenario, put.date, row),
            assumed: way::assumed(row, made.as_ref().filter(|_| row == Row::CompostedFirst)),
        });
    }
    let gain = |way: &NextWay| way.crop_nitrogen.map_or(0.0, Three::middle);
    if let Some((_, others)) = ways.split_first_mut() {
        others.sort_by(|a, b| gain(b).total_cmp(&gain(a)));
    }
    Ok(NextLoad { load, ways, assumed })
}

/// The day of a date, where the season reaches it.
fn day_of(season: &Season, date: NaiveDate) -> Result<u32, ActError> {
    season.day(date).ok_or(ActError::ReadingOutside { key: "put_down.date" })
}

/// The place with the load in a way; the same batch numbers in every way, so that each meets the same wood.
fn with(here: &Input, row: Row, load: &Load, day: u32) -> Input {
    let mut input = here.clone();
    let before = input.put_down.len();
    treatment::lay(&mut input, row, load, day);
    let added = input.put_down.len() - before;
    let brought = added.saturating_sub(load.composition.len());
    for (place, layer) in (0..).zip(input.put_down.iter_mut().skip(before)) {
        let brought = u32::try_from(brought).unwrap_or(0);
        layer.batch =
            Some(if place < brought { WITH_NEXT_BATCH + place } else { NEXT_BATCH + place - brought });
    }
    input
}
