//! All that lies and comes on a place as one input of the model, and which of its layers is what.
//!
//! Material lifted elsewhere brings its state along: the place it came from becomes an earlier stage of the input.

use kerfbook_science::crop_residue;
use kerfbook_science::material::ModelClass;
use kerfbook_science::nitrogen::{
    Event, Input, LayerWay, Lift, PutDown as ModelLayer, Sample, Stage, Watered,
};

use crate::assumed::{Assumed, Value};
use crate::calendar::Calendar;
use crate::compare;
use crate::error::ActError;
use crate::forecast::row_of;
use crate::load::Load;
use crate::scenario::{Crop, Fate, Kept, Lifted, Origin, PutDown, Scenario, Taken, Way};
use crate::site;
use crate::treatment;
use crate::way::{self, Row};

/// First batch number of what crops leave; far from those of loads and feeds.
const RESIDUE_BATCH: u32 = 500_000;
/// First batch number of what a way brings by default.
const WITH_BATCH: u32 = 600_000;
/// Places that material came from, one behind the other, that are followed.
const DEEPEST_ORIGIN: usize = 8;

/// What a layer of the input is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum LayerIs {
    /// A load, by its position in the scenario.
    Load(usize),
    /// What the way of a load brings with it: compost under a layer.
    With(usize),
    /// A feed that decays.
    Feed(usize),
    /// What a crop left.
    Residue(usize),
}

/// A scenario as the model's input.
#[derive(Debug, Clone, PartialEq)]
pub struct Laid {
    /// Everything. The top keys are those of this place also where there are stages: the last stage takes them all.
    pub input: Input,
    /// The same with no load: its crops, feeds and what its crops left.
    pub bare: Input,
    /// For each layer of the input, what it is.
    pub layers: Vec<LayerIs>,
    /// For each crop of the input, the crop it is.
    pub crops: Vec<usize>,
}

impl Laid {
    /// The layers of the input that a load made.
    pub fn of_load(&self, load: usize) -> impl Iterator<Item = usize> {
        let mine = move |(_, is): &(usize, &LayerIs)| **is == LayerIs::Load(load);
        self.layers.iter().enumerate().filter(mine).map(|(layer, _)| layer)
    }
}

/// Lays everything that a scenario tells in the first `days` from its calendar's first.
///
/// A load whose way is open lies on top.
///
/// # Errors
/// A load, a feed or a place that cannot be; material whose origins run in a circle.
pub fn laid(
    scenario: &Scenario,
    calendar: Calendar,
    days: u32,
    assumed: &mut Vec<Assumed>,
) -> Result<Laid, ActError> {
    followed(scenario, calendar, days, assumed, 0)
}

fn followed(
    scenario: &Scenario,
    calendar: Calendar,
    days: u32,
    assumed: &mut Vec<Assumed>,
    depth: usize,
) -> Result<Laid, ActError> {
    if depth > DEEPEST_ORIGIN {
        return Err(ActError::TooManyOrigins);
    }
    let base = site::base(scenario, calendar, days, assumed)?;
    let with_layer = |feed: &usize| scenario.feeds.get(*feed).is_some_and(|feed| feed.with_layer);
    let mut without = base.input.clone();
    without.gifts.retain(|gift| !gift.with_layer);
    let mut feeds = base.feeds.iter();
    without.put_down.retain(|_| !feeds.next().is_some_and(with_layer));
    let mut all = Laid {
        bare: without,
        input: base.input,
        layers: base.feeds.into_iter().map(LayerIs::Feed).collect(),
        crops: base.crops,
    };
    let mut taken = Vec::new();
    for (index, put) in scenario.put_down.iter().enumerate() {
        let Some(day) = site::day_within(calendar, put.date, days) else { continue };
        match put.kept.as_ref().and_then(|kept| kept.taken) {
            Some(from) => taken.push((index, day, from)),
            None => lay(&mut all, scenario, (index, put), day, assumed)?,
        }
    }
    if !taken.is_empty() {
        bring(&mut all, scenario, &taken, assumed, depth)?;
    }
    lift(&mut all, scenario, calendar, days);
    leave(&mut all, scenario, calendar, days, assumed)?;
    Ok(all)
}

/// Lays one load of the place's own.
fn lay(
    all: &mut Laid,
    scenario: &Scenario,
    (index, put): (usize, &PutDown),
    day: u32,
    assumed: &mut Vec<Assumed>,
) -> Result<(), ActError> {
    let load = Load::of(put, &scenario.place, &scenario.containers, assumed)?;
    let way = put.way.unwrap_or_else(|| {
        assumed.push(Assumed::text("way", "on-top"));
        Way::OnTop
    });
    let row = row_of(scenario, way);
    let before = all.input.put_down.len();
    match &put.kept {
        Some(kept) => lay_kept(&mut all.input, row, &load, day, kept, assumed),
        // The amount is the person's own here, not the way's default depth.
        None if matches!(row, Row::Path | Row::Ring) => {
            treatment::layers(&mut all.input, &load, LayerWay::OnTop, day, load.dry_per_area);
        }
        None if index == 0 => {
            treatment::lay(&mut all.input, row, &load, day);
        }
        None => treatment::background(&mut all.input, &load, Some(way), day, index),
    }
    // The load itself comes last: what its way brings lies under it.
    let added = all.input.put_down.len() - before;
    let with = added.saturating_sub(load.composition.len());
    all.layers.extend(std::iter::repeat_n(LayerIs::With(index), with));
    all.layers.extend(std::iter::repeat_n(LayerIs::Load(index), added - with));
    Ok(())
}

/// Lays a load as a book keeps it: what lies under it has entries of its own, or is taken for granted.
fn lay_kept(input: &mut Input, row: Row, load: &Load, day: u32, kept: &Kept, assumed: &mut Vec<Assumed>) {
    let raw = !load.composition.iter().all(is_compost);
    let slot = match row {
        _ if kept.under => LayerWay::Under,
        Row::OverCompost | Row::OverUrine if !kept.over => {
            return lay_with(input, row, load, (day, kept.batch), assumed);
        }
        Row::CompostedFirst if raw => return lay_with(input, row, load, (day, kept.batch), assumed),
        Row::WorkedIn | Row::CompostedFirst => LayerWay::WorkedIn,
        _ => LayerWay::OnTop,
    };
    treatment::numbered(input, load, slot, day, kept.batch);
}

/// Lays a load with what its way brings by default, since the book does not say.
fn lay_with(input: &mut Input, row: Row, load: &Load, (day, batch): (u32, u32), assumed: &mut Vec<Assumed>) {
    let before = input.put_down.len();
    let brought = treatment::lay(input, row, load, day);
    assumed.extend(way::assumed(row, brought.composted.as_ref()));
    let added = input.put_down.len() - before;
    let with = added.saturating_sub(load.composition.len());
    for (place, layer) in input.put_down.iter_mut().skip(before).enumerate() {
        let number = |position: usize| u32::try_from(position).unwrap_or(0);
        layer.batch = Some(if place < with {
            WITH_BATCH + number(before + place)
        } else {
            batch + number(place - with)
        });
    }
}

fn is_compost(part: &kerfbook_science::material::Part) -> bool {
    part.one_of.iter().all(|class| matches!(class, ModelClass::Compost | ModelClass::CompostedWood))
}

/// Brings material from elsewhere: each lifting is a run of its place up to that day, before this place's own.
fn bring(
    all: &mut Laid,
    scenario: &Scenario,
    taken: &[(usize, u32, Taken)],
    assumed: &mut Vec<Assumed>,
    depth: usize,
) -> Result<(), ActError> {
    let mut stages: Vec<Stage> = Vec::new();
    for (index, day, from) in taken {
        let brought = match scenario.origins.get(from.origin) {
            Some(origin) => up_to_lifting(origin, assumed, depth)?,
            None => None,
        };
        let (Some((before, lifted)), Some(put)) = (brought, scenario.put_down.get(*index)) else {
            // It had not lain there: it is what it was.
            if let Some(put) = scenario.put_down.get(*index) {
                lay(all, scenario, (*index, put), *day, assumed)?;
            }
            continue;
        };
        let stage = append_stages(&mut stages, &before);
        let way = slot_of(scenario, put);
        for layer in lifted {
            all.input.put_down.push(ModelLayer {
                day: *day,
                way,
                from_stage: Some(stage),
                layer: Some(layer),
                area_factor: from.factor,
                ..ModelLayer::default()
            });
            all.layers.push(LayerIs::Load(*index));
        }
    }
    if !stages.is_empty() {
        // The last stage gives nothing of its own: it takes every key of the input, which is this place's.
        stages.push(Stage::default());
        all.input.stages = stages;
    }
    Ok(())
}

/// Where a load goes.
fn slot_of(scenario: &Scenario, put: &PutDown) -> LayerWay {
    match put.way.map(|way| row_of(scenario, way)) {
        _ if put.kept.as_ref().is_some_and(|kept| kept.under) => LayerWay::Under,
        Some(Row::WorkedIn | Row::CompostedFirst) => LayerWay::WorkedIn,
        _ => LayerWay::OnTop,
    }
}

/// A place up to the morning of a lifting, and which of its layers are lifted; none where nothing was there.
fn up_to_lifting(
    origin: &Origin,
    assumed: &mut Vec<Assumed>,
    depth: usize,
) -> Result<Option<(Input, Vec<usize>)>, ActError> {
    let calendar = Calendar::from(origin.first);
    // A stage has at least one day: what was lifted on the day it was laid has lain there for that day.
    let days = u32::try_from(calendar.day(origin.lifted)).unwrap_or(0).max(1);
    let Laid { mut input, layers, .. } = followed(&origin.scenario, calendar, days, assumed, depth + 1)?;
    let mine = |(_, is): &(usize, &LayerIs)| **is == LayerIs::Load(origin.layer);
    let lifted: Vec<usize> = layers.iter().enumerate().filter(mine).map(|(layer, _)| layer).collect();
    let earlier: f64 = liftings_of(&origin.scenario.lifted, origin.layer)
        .filter(|other| other.date < origin.lifted)
        .map(|other| other.share.fraction())
        .sum();
    if lifted.is_empty() {
        return Ok(None);
    }
    let share = of_what_lies(origin.share.fraction(), earlier);
    input.lift_at_end = lifted.iter().map(|layer| Lift { layer: *layer, share }).collect();
    Ok(Some((input, lifted)))
}

/// Appends an input, with the stages it has itself, and says which stage it is.
fn append_stages(stages: &mut Vec<Stage>, input: &Input) -> usize {
    let offset = stages.len();
    let last = stage_of(input);
    let earlier = input.stages.len().saturating_sub(1);
    for stage in input.stages.iter().take(earlier).chain(std::iter::once(&last)) {
        let mut stage = stage.clone();
        stage.continue_from_stage = stage.continue_from_stage.map(|from| from + offset);
        for layer in stage.put_down.iter_mut().flatten() {
            layer.from_stage = layer.from_stage.map(|from| from + offset);
        }
        stages.push(stage);
    }
    stages.len() - 1
}

/// A stage that takes nothing from the input around it.
fn stage_of(input: &Input) -> Stage {
    let input = input.clone();
    Stage {
        continue_from_stage: None,
        days: Some(input.days),
        start_day_of_year: Some(input.start_day_of_year),
        weather: Some(input.weather),
        soil: Some(input.soil),
        cover: Some(input.cover),
        watered: Some(input.watered.unwrap_or(Watered::None)),
        irrigation: Some(input.irrigation),
        irrigation_under_mulch: Some(input.irrigation_under_mulch),
        irrigation_nitrogen_mg_l: Some(input.irrigation_nitrogen_mg_l),
        put_down: Some(input.put_down),
        gifts: Some(input.gifts),
        events: Some(input.events),
        lift_at_end: Some(input.lift_at_end),
        crops: Some(input.crops),
        container_litres: input.container_litres,
    }
}

fn liftings_of(lifted: &[Lifted], layer: usize) -> impl Iterator<Item = &Lifted> {
    lifted.iter().filter(move |lifted| lifted.layer.is_none_or(|own| own == layer))
}

/// A share of what was put down as a share of what still lies there; all of it where more was asked for.
fn of_what_lies(share: f64, lifted_before: f64) -> f64 {
    let left = 1.0 - lifted_before;
    if left > share { share / left } else { 1.0 }
}

/// Lifts what was carried off.
fn lift(all: &mut Laid, scenario: &Scenario, calendar: Calendar, days: u32) {
    let mut events = Vec::new();
    for index in 0..scenario.put_down.len() {
        let mut before = 0.0;
        for lifted in liftings_of(&scenario.lifted, index) {
            let share = of_what_lies(lifted.share.fraction(), before);
            before += lifted.share.fraction();
            if let Some(day) = site::day_within(calendar, lifted.date, days) {
                events.extend(all.of_load(index).map(|layer| Event::LayerLifted { day, layer, share }));
            }
        }
    }
    all.input.events.extend(events);
    // Of one day, liftings come before workings: what is carried off is not dug in.
    all.input.events.sort_by_key(|event| (event.day(), matches!(event, Event::SoilWorked { .. })));
}

/// Lays what crops leave that are dug in or mown: as much nitrogen as the run at the medians had taken up.
fn leave(
    all: &mut Laid,
    scenario: &Scenario,
    calendar: Calendar,
    days: u32,
    assumed: &mut Vec<Assumed>,
) -> Result<(), ActError> {
    let mut ends: Vec<(u32, usize, usize)> = Vec::new();
    for (stands, index) in all.crops.iter().enumerate() {
        let Some(crop) = scenario.crops.get(*index).filter(|crop| crop.fate != Fate::CarriedOff) else {
            continue;
        };
        let years = all.crops.iter().take(stands).filter(|other| *other == index).count();
        let end =
            calendar.day(crop.ended) + i64::from(compare::SEASON_DAYS) * i64::try_from(years).unwrap_or(0);
        if let Some(day) = u32::try_from(end).ok().filter(|day| (1..days).contains(day)) {
            ends.push((day, stands, *index));
        }
    }
    ends.sort_unstable();
    for (day, stands, index) in ends {
        let Some(crop) = scenario.crops.get(index) else { continue };
        let taken = taken_by(&all.input, stands, day)?;
        if let Some(layer) = residue(crop, taken, day, stands, assumed) {
            all.input.put_down.push(layer.clone());
            all.layers.push(LayerIs::Residue(index));
            all.bare.put_down.push(layer);
        }
    }
    Ok(())
}

/// Nitrogen that a crop has by a day in the run at the medians, kg/ha.
fn taken_by(input: &Input, crop: usize, day: u32) -> Result<f64, ActError> {
    let until = Input { days: day, readings: Vec::new(), ..input.clone() };
    let runs = compare::run(&until, &Sample::median(), &[day])?;
    Ok(runs.last().crop_uptake(crop, day).and_then(|values| values.first().copied()).unwrap_or(0.0))
}

/// What a crop leaves with so much nitrogen in it. A yield carried off takes its part.
fn residue(
    crop: &Crop,
    taken_kg_ha: f64,
    day: u32,
    stands: usize,
    assumed: &mut Vec<Assumed>,
) -> Option<ModelLayer> {
    let known = crop_residue::of_crop(&crop.name);
    let (ratio, share) =
        if crop.harvested { (known.left, known.left_share.value) } else { (known.whole, 1.0) };
    let nitrogen = taken_kg_ha * share;
    let carbon_share = crop_residue::CARBON_SHARE.value;
    let dry_t_ha = nitrogen * ratio.typical / carbon_share / 1000.0;
    if dry_t_ha <= 0.0 {
        return None;
    }
    let mut tell = |key, value| {
        let one = Assumed::new(key, value);
        if !assumed.contains(&one) {
            assumed.push(one);
        }
    };
    tell("residue_carbon_nitrogen", Value::Number(ratio.typical));
    if crop.harvested {
        tell("residue_nitrogen_left_pct", Value::Percent(share));
    }
    Some(ModelLayer {
        day,
        material: Some(ModelClass::Leaves),
        way: if crop.fate == Fate::DugIn { LayerWay::WorkedIn } else { LayerWay::OnTop },
        batch: Some(RESIDUE_BATCH + u32::try_from(stands).unwrap_or(0)),
        dry_t_ha: Some(dry_t_ha),
        carbon_nitrogen: Some(ratio.typical),
        carbon_nitrogen_sd: Some(ratio.log_deviation()),
        carbon_share: Some(carbon_share),
        mass_sd: crop_residue::MASS_DEVIATION.value,
        ..ModelLayer::default()
    })
}
