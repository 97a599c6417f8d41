//! Plots beside each other at the edge of the field, of the same sawdust at equal nitrogen, in complete blocks, with the
//! same sawdust under ample nitrogen as a reference. What a plot yields and how it yellows follows the nitrogen model;
//! how leaves show it and what chance adds is invented.

use chrono::{Days, NaiveDate};
use kerfbook_acts::close_trial;
use kerfbook_acts::compare::SEASON_DAYS;
use kerfbook_acts::error::ActError;
use kerfbook_acts::forecast;
use kerfbook_acts::lay_out_trial::{self, LaidOut, Named, NewTrial};
use kerfbook_acts::load::Load;
use kerfbook_acts::measure_plot::{self, NewMeasurement};
use kerfbook_acts::moment::Moment;
use kerfbook_acts::scenario::{Amount, Scenario};
use kerfbook_acts::score_plot::{self, NewScores};
use kerfbook_acts::treatment::{EqualWay, lay_equal};
use kerfbook_acts::way;
use kerfbook_ledger::Book;
use kerfbook_ledger::kind::LeafLayer;
use kerfbook_science::nitrogen::{Sample, simulate};
use kerfbook_science::trial::design::Design;
use kerfbook_science::trial::generator::SplitMix64;
use kerfbook_science::trial::layout::{Given, Plot, PlotSize};
use kerfbook_science::trial::score::STEPS_PCT;
use kerfbook_science::trial::treatment::Treatment;
use kerfbook_science::units::{AreaMass, Length, Share};
use kerfbook_words::Words;

/// Barrows of sawdust for a bed's area: a quarter of what the beds get, about 10 t/ha of dry wood.
const BARROWS: f64 = 1.0;
/// Complete blocks.
const BLOCKS: usize = 5;
/// Days after laying out on which the old leaves are scored.
const VISITS: [u32; 3] = [50, 80, 110];
/// Each with its way and times the nitrogen that all get: the last is the reference. Invented.
const TREATMENTS: [(&str, EqualWay, f64); 5] = [
    ("demo-trial-bare", EqualWay::Bare, 1.0),
    ("demo-trial-worked-in", EqualWay::WorkedIn, 1.0),
    ("demo-trial-over-compost", EqualWay::OnTopOverCompost, 1.0),
    ("demo-trial-composted", EqualWay::CompostedFirst, 1.0),
    ("demo-trial-ample", EqualWay::WorkedIn, 3.0),
];
/// Plots of six square metres within their guards. Invented.
const SIZE: PlotSize = PlotSize {
    width: Length::from_m(3.0),
    length: Length::from_m(4.0),
    guard: Length::from_m(0.5),
    alley: Length::from_m(0.5),
};
/// Points of yellow for nitrogen nutrition that is a tenth short. Invented: how far leaves pale is another matter in every crop.
const YELLOW_PER_TENTH: f64 = 8.0;
/// Picked for each kg of nitrogen in the crop, kg. Invented.
const PICKED_PER_NITROGEN: f64 = 200.0;
/// How far blocks, plots and looks at a plot lie apart, points of yellow. Invented.
const SPREAD: [f64; 3] = [4.0, 6.0, 3.0];
/// How far plots of a treatment lie apart in yield, a share of it. Invented.
const YIELD_SPREAD: f64 = 0.15;

/// What every plot of a treatment would show without chance.
struct Course {
    /// Nitrogen nutrition on each visit: uptake over demand.
    nutrition: Vec<f64>,
    /// Nitrogen in the crop at harvest, kg/ha.
    crop_kg_ha: f64,
}

/// Plays the trial from laying out to closing.
pub(super) fn play(
    book: &mut Book,
    bed: &Scenario,
    harvest: NaiveDate,
    seed: u64,
    words: &Words,
    now: Moment,
) -> Result<(), ActError> {
    let laid = lay_out(book, seed, words, now)?;
    let days = (harvest - now.date).num_days();
    let harvest_day = u32::try_from(days).unwrap_or(SEASON_DAYS).min(SEASON_DAYS);
    let mut put = bed.put_down.first().cloned().ok_or(ActError::NoLoad)?;
    put.amount = Amount::Barrows(BARROWS);
    let load = Load::of(&put, &bed.place, &bed.containers, &mut Vec::new())?;
    let courses = TREATMENTS
        .iter()
        .map(|(_, way, share)| course(bed, &load, *way, share * nitrogen_kg_ha(), harvest_day))
        .collect::<Result<Vec<_>, _>>()?;
    let mut chance = Chance(SplitMix64::new(seed));
    let blocks: Vec<f64> = (0..BLOCKS).map(|_| SPREAD[0] * chance.normal()).collect();
    let ground = |plot: &Plot, chance: &mut Chance| {
        blocks.get(plot.block).copied().unwrap_or_default() + SPREAD[1] * chance.normal()
    };
    let plots: Vec<f64> = laid.layout.plots.iter().map(|plot| ground(plot, &mut chance)).collect();
    for (visit, day) in VISITS.iter().enumerate() {
        let mut scores = Vec::with_capacity(plots.len());
        for at in &laid.layout.walk {
            let (Some(plot), Some(ground)) = (laid.layout.plots.get(*at), plots.get(*at)) else { continue };
            let nutrition = given(plot, &courses).and_then(|course| course.nutrition.get(visit)).copied();
            let short = (1.0 - nutrition.unwrap_or(1.0)).max(0.0);
            let yellow = 10.0 * YELLOW_PER_TENTH * short + ground + SPREAD[2] * chance.normal();
            scores.push((plot.number, step(yellow)));
        }
        let new = NewScores {
            trial: laid.trial,
            rater: now.by,
            layer: LeafLayer::Old,
            plots: &scores,
            again: false,
        };
        score_plot::score(book, &new, now.on(now.date + Days::new(u64::from(*day))))?;
    }
    for (plot, ground) in laid.layout.plots.iter().zip(&plots) {
        let crop = given(plot, &courses).map_or(0.0, |course| course.crop_kg_ha);
        // Ground that yellows more yields less.
        let share = 1.0 + YIELD_SPREAD * chance.normal() - ground / 100.0;
        let nitrogen = SIZE.net().mass_of(AreaMass::from_kg_ha(crop));
        let new = NewMeasurement {
            trial: laid.trial,
            plot: plot.number,
            picked: Some(nitrogen * (PICKED_PER_NITROGEN * share.max(0.1))),
            weeds: None,
            moisture: None,
            stand: None,
        };
        measure_plot::measure(book, &new, now.on(harvest))?;
    }
    close_trial::close(book, laid.trial, None, now.on(harvest + Days::new(1)))?;
    Ok(())
}

/// Nitrogen that all but the reference get, kg/ha.
const fn nitrogen_kg_ha() -> f64 {
    way::EQUAL_NITROGEN_KG_HA.value
}

fn lay_out(book: &mut Book, seed: u64, words: &Words, now: Moment) -> Result<LaidOut, ActError> {
    let names = TREATMENTS.map(|(id, ..)| words.label(id));
    let treatments: Vec<Named<'_>> = names
        .iter()
        .zip(TREATMENTS)
        .map(|(name, (_, way, share))| Named {
            name,
            brings: Treatment {
                residue: (way != EqualWay::Bare).then(|| "hardwood sawdust".to_owned()),
                nitrogen: Some(AreaMass::from_kg_ha(share * nitrogen_kg_ha())),
                ample: share > 1.0,
            },
        })
        .collect();
    let new = NewTrial {
        label: &words.label("demo-trial"),
        place: None,
        design: &Design::RandomisedBlocks { treatments: treatments.len(), blocks: BLOCKS },
        seed,
        per_row: 0,
        refused: &[],
        treatments: &treatments,
        subs: &[],
        factors: [None, None],
        check: Some(1),
        sub_check: None,
        pairs: &[],
        contrasts: &[],
        margin: None,
        size: Some(SIZE),
    };
    lay_out_trial::lay_out(book, &new, now)
}

/// What a plot got.
fn given<'a>(plot: &Plot, courses: &'a [Course]) -> Option<&'a Course> {
    let (Given::Treatment(level) | Given::Crossed { main: level, .. }) = plot.given;
    courses.get(level)
}

/// The median run of the bed with the load in a way and so much nitrogen.
fn course(
    bed: &Scenario,
    load: &Load,
    way: EqualWay,
    nitrogen_kg_ha: f64,
    harvest: u32,
) -> Result<Course, ActError> {
    let refused = |error: kerfbook_science::nitrogen::InputError| ActError::Model(error.to_string());
    // The bed without its load, whose first day is that of the trial.
    let (_, _, mut input) = forecast::inputs(bed, harvest, &mut Vec::new())?;
    lay_equal(&mut input, way, load, nitrogen_kg_ha, 0);
    let keep: Vec<u32> = VISITS.into_iter().chain([harvest]).collect();
    let runs = simulate(&input, &Sample::median(), &keep).map_err(refused)?;
    let only = |values: Option<Vec<f64>>| values.and_then(|values| values.first().copied());
    Ok(Course {
        nutrition: VISITS.iter().map(|day| only(runs.last().nutrition(0, *day)).unwrap_or(1.0)).collect(),
        crop_kg_ha: only(runs.last().crop_nitrogen(harvest)).unwrap_or_default(),
    })
}

/// Chance that repeats with its seed.
struct Chance(SplitMix64);

impl Chance {
    /// About normal: twelve uniform draws less their mean.
    fn normal(&mut self) -> f64 {
        (0..12).map(|_| self.0.uniform()).sum::<f64>() - 6.0
    }
}

/// The nearest step that a person scores by.
fn step(yellow: f64) -> Share {
    let off = |step: u8| (f64::from(step) - yellow).abs();
    let nearest = STEPS_PCT.into_iter().min_by(|a, b| off(*a).total_cmp(&off(*b)));
    Share::from_percent(f64::from(nearest.unwrap_or_default()))
}
