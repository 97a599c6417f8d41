//! Running an input, and what is kept of every run.

use std::borrow::Cow;
use std::collections::BTreeMap;

use super::batch::{Batch, at_run};
use super::drivers::Course;
use super::engine::{Block, CropEvening, Ended, Keep, SERIES, Totals};
use super::input::{Input, InputError, Merged, PutDown, Reading};
use super::lanes::Lanes;
use super::layer::{Globals, New};
use super::parameter::{BatchParameter, GLOBALS, Global};
use super::reading;
use super::sampling::Sample;

/// Runs that go through the days side by side.
pub(super) const BLOCK: usize = 8;

/// What is kept of an evening; sums run from the start of the stage.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Series {
    /// Mineral nitrogen that decay holds, all layers, kg/ha; below 0 where it has given.
    Tied,
    /// Mineral nitrogen of the root zone, kg/ha.
    Mineral,
    /// Mineral nitrogen on the soil or between soil and mulch, kg/ha.
    Seam,
    /// Mineral nitrogen in the mulch, kg/ha.
    InMulch,
    /// Nitrogen that crops took from the soil, kg/ha in sum.
    Uptake,
    /// Nitrogen that crops fixed, kg/ha in sum.
    Fixed,
    /// Leached, kg/ha in sum.
    Leached,
    /// Denitrified, kg/ha in sum.
    Denitrified,
    /// Lost as ammonia, kg/ha in sum.
    Ammonia,
    /// What the soil's own organic matter supplied, kg/ha in sum.
    Supply,
    /// Carbon breathed off, kg/ha in sum.
    CarbonDioxide,
    /// Depth of the mulch, mm.
    Depth,
    /// Water given, mm in sum.
    Irrigation,
    /// Water drained, mm in sum.
    Drained,
    /// Water, part of what plants can take.
    WaterShare,
}

/// One parameter over the runs.
#[derive(Debug, Clone, PartialEq)]
pub struct Drawn {
    /// Which.
    pub name: DrawnName,
    /// Its value in each run.
    pub values: Vec<f64>,
}

/// Which parameter.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum DrawnName {
    /// Of the place, the weather, the soil.
    Global(Global),
    /// Of the batch of a layer.
    Layer {
        /// Number of the layer in its stage.
        layer: usize,
        /// Which.
        parameter: BatchParameter,
    },
}

/// A crop in every run.
#[derive(Debug, Clone, PartialEq)]
pub struct CropRuns {
    /// Uptake and fixation, kg/ha.
    pub uptake: Vec<f64>,
    /// Demand, kg/ha.
    pub demand: Vec<f64>,
    /// First result day on which it was behind its need; infinite where there was none.
    pub hungry_day: Vec<f64>,
}

/// One stage in every run.
#[derive(Debug, Clone, PartialEq)]
pub struct StageRuns {
    runs: usize,
    days: Vec<u32>,
    /// By kept day, series, run.
    evenings: Vec<f64>,
    /// By kept day, crop, run: uptake, then demand.
    crop_evenings: Vec<[f64; 2]>,
    /// The crops, in order.
    pub crops: Vec<CropRuns>,
    /// First hungry day of any crop; infinite where there was none.
    pub hungry_day: Vec<f64>,
    /// Day on which tie-up was highest before it came down; infinite where it had not.
    pub release_day: Vec<f64>,
    /// Days with a crop in the ground and soil short of water.
    pub dry_days: Vec<f64>,
    /// Days with a crop in the ground and a dry mat of fines that sheds water.
    pub mat_days: Vec<f64>,
    /// Nitrogen that each layer holds at the end, kg/ha.
    pub tied_by_layer: Vec<Vec<f64>>,
    /// Organic nitrogen put down, kg/ha.
    pub residue_nitrogen: Vec<f64>,
    /// What was lifted of each layer, in the first run: accessible carbon, lignin-bound carbon, decomposer
    /// carbon, decomposer nitrogen, humus carbon, kg/ha.
    pub lifted: BTreeMap<usize, [f64; 5]>,
    /// Largest relative residual of the carbon balance over days and runs.
    pub carbon_residual: f64,
    /// Largest relative residual of the nitrogen balance over days and runs.
    pub nitrogen_residual: f64,
}

/// An input in every run of a sample.
#[derive(Debug, Clone, PartialEq)]
pub struct Runs {
    stages: Vec<StageRuns>,
    parameters: Vec<Drawn>,
    /// What each run foretold of each reading, by reading, then run.
    foretold: Vec<Vec<f64>>,
    /// Logarithms of the weights from the readings; none without readings.
    log_weights: Option<Vec<f64>>,
}

impl Runs {
    /// Without readings.
    pub(super) fn of(stages: Vec<StageRuns>, parameters: Vec<Drawn>) -> Self {
        Self { stages, parameters, foretold: Vec::new(), log_weights: None }
    }

    /// The last stage, or the only one.
    pub fn last(&self) -> &StageRuns {
        &self.stages[self.stages.len() - 1]
    }

    /// All stages, in order.
    pub fn stages(&self) -> &[StageRuns] {
        &self.stages
    }

    /// Every parameter, run by run: those of the place, then those of each layer of the last stage.
    pub fn parameters(&self) -> &[Drawn] {
        &self.parameters
    }

    /// The runs weighed by the input's readings and drawn again; none without readings.
    pub fn updated(&self) -> Option<reading::Update> {
        self.log_weights.as_deref().map(|weights| reading::resample(weights, weights.len()))
    }

    /// What each run foretold of each of the input's readings, by reading, then run, in the reading's own unit.
    pub fn foretold(&self) -> &[Vec<f64>] {
        &self.foretold
    }

    /// Largest relative residual of both balances, over all stages, days and runs.
    pub fn balance_residual(&self) -> f64 {
        let worst = |stage: &StageRuns| f64::max(stage.carbon_residual, stage.nitrogen_residual);
        self.stages.iter().map(worst).fold(0.0, f64::max)
    }
}

impl StageRuns {
    /// How many runs.
    pub fn runs(&self) -> usize {
        self.runs
    }

    /// The result days kept, in order; the last day is always among them.
    pub fn days(&self) -> &[u32] {
        &self.days
    }

    /// A series on the evening of a kept result day, run by run; none where the day was not kept.
    pub fn on(&self, series: Series, day: u32) -> Option<&[f64]> {
        let place = self.days.binary_search(&day).ok()?;
        let first = (place * SERIES + series as usize) * self.runs;
        self.evenings.get(first..first + self.runs)
    }

    /// A series on the last evening.
    pub fn end(&self, series: Series) -> &[f64] {
        self.days.last().and_then(|day| self.on(series, *day)).unwrap_or(&[])
    }

    /// Nitrogen in the crops, from soil and fixation, on a kept result day.
    pub fn crop_nitrogen(&self, day: u32) -> Option<Vec<f64>> {
        let (uptake, fixed) = (self.on(Series::Uptake, day)?, self.on(Series::Fixed, day)?);
        Some(uptake.iter().zip(fixed).map(|(uptake, fixed)| uptake + fixed).collect())
    }

    /// Nitrogen nutrition of a crop on a kept result day: uptake over demand, 1 before there is any.
    pub fn nutrition(&self, crop: usize, day: u32) -> Option<Vec<f64>> {
        Some(self.crop_on(crop, day)?.iter().map(nutrition_index).collect())
    }

    /// The same in one run.
    pub(super) fn nutrition_in(&self, crop: usize, day: u32, run: usize) -> Option<f64> {
        self.crop_on(crop, day)?.get(run).map(nutrition_index)
    }

    /// Uptake and demand of a crop on a kept result day, run by run.
    fn crop_on(&self, crop: usize, day: u32) -> Option<&[[f64; 2]]> {
        let place = self.days.binary_search(&day).ok()?;
        let first = (place * self.crops.len() + crop) * self.runs;
        self.crop_evenings.get(first..first + self.runs).filter(|_| crop < self.crops.len())
    }

    /// Uptake and fixation of a crop on a kept result day, kg/ha.
    pub fn crop_uptake(&self, crop: usize, day: u32) -> Option<Vec<f64>> {
        Some(self.crop_on(crop, day)?.iter().map(|[uptake, _]| *uptake).collect())
    }
}

/// Uptake over demand, 1 before there is any.
fn nutrition_index([uptake, demand]: &[f64; 2]) -> f64 {
    if *demand > 0.0 { uptake / demand } else { 1.0 }
}

/// Runs an input in every run of a sample and keeps the evenings of the result days asked for (0 is before the
/// first day), the last day always. Days beyond a stage's end are left out.
///
/// # Errors
/// The first key of the input that cannot be used.
pub fn simulate(input: &Input, sample: &Sample, keep: &[u32]) -> Result<Runs, InputError> {
    simulate_on(input, None, sample, keep)
}

/// [`simulate`] on a place that may be ready: the course of an input without stages, but for what is done there.
pub(super) fn simulate_on(
    input: &Input,
    ready: Option<&Course>,
    sample: &Sample,
    keep: &[u32],
) -> Result<Runs, InputError> {
    if sample.is_median() {
        run::<1>(input, ready, sample, keep)
    } else {
        run::<BLOCK>(input, ready, sample, keep)
    }
}

/// The run at the median parameters: one run, quick enough for a search.
///
/// # Errors
/// The first key of the input that cannot be used.
pub fn median(input: &Input, keep: &[u32]) -> Result<Runs, InputError> {
    simulate(input, &Sample::median(), keep)
}

/// Runs an input in blocks of `L`.
fn run<const L: usize>(
    input: &Input,
    ready: Option<&Course>,
    sample: &Sample,
    keep: &[u32],
) -> Result<Runs, InputError> {
    input.check()?;
    let merged = input.merged();
    let mut courses: Vec<Course> = Vec::with_capacity(merged.len());
    let mut layers: Vec<usize> = Vec::with_capacity(merged.len());
    for stage in &merged {
        let course = match ready {
            Some(place) => place.with(&stage.input),
            None => Course::of(stage, &courses, &layers),
        };
        layers.push(course.kept + stage.input.put_down.len());
        courses.push(course);
    }
    // Batches of each stage's own layers; a lifted layer has none.
    let batches: Vec<Vec<Option<Batch>>> = merged
        .iter()
        .zip(&courses)
        .map(|(stage, course)| {
            let draw = |(i, put): (usize, &PutDown)| {
                put.from_stage.is_none().then(|| Batch::draw(put, course.kept + i, sample))
            };
            stage.input.put_down.iter().enumerate().map(draw).collect()
        })
        .collect();
    let globals = Drawing::of(input, sample);
    let mut stages: Vec<StageRuns> = merged
        .iter()
        .map(|stage| StageRuns::empty(&stage.input, sample.runs(), kept_days(stage, keep, input)))
        .collect();
    let mut foretold = vec![vec![0.0; sample.runs()]; input.readings.len()];
    for members in globals.blocks::<L>(sample.runs()) {
        let globals = globals.lanes(&members);
        let mut ended: Vec<Ended<L>> = Vec::with_capacity(merged.len());
        for (((stage, course), batches), runs) in merged.iter().zip(&courses).zip(&batches).zip(&mut stages) {
            let new = new_layers(&stage.input, batches, &ended, &members);
            let block = Block::start(course, &globals, &ended, new);
            let lifts: Vec<(usize, f64)> =
                stage.input.lift_at_end.iter().map(|lift| (lift.layer, lift.share)).collect();
            let mut keeper = Keeper::of(runs, members);
            let (totals, end) = block.run(&mut keeper, &lifts);
            keeper.close(&totals, &end);
            ended.push(end);
        }
        if let (Some(end), Some(last)) = (ended.last(), stages.last()) {
            for (reading, foretold) in input.readings.iter().zip(&mut foretold) {
                for (l, run) in members.into_iter().enumerate() {
                    foretold[run] = reading.foretold(last, end, &globals, (run, l));
                }
            }
        }
    }
    let log_weights = reading::log_weights(&input.readings, &foretold);
    let own = batches.last().map_or(&[][..], Vec::as_slice);
    let kept = courses.last().map_or(0, |course| course.kept);
    let parameters = drawn(&globals, sample.runs(), own, kept);
    Ok(Runs { stages, parameters, foretold, log_weights })
}

fn kept_days(stage: &Merged<'_>, keep: &[u32], input: &Input) -> Vec<u32> {
    let read = input.readings.iter().filter_map(Reading::day);
    let mut days: Vec<u32> = keep.iter().copied().chain(read).chain([stage.input.days]).collect();
    days.retain(|day| *day <= stage.input.days);
    days.sort_unstable();
    days.dedup();
    days
}

/// The parameters of the place as this input has them drawn, by index, then run.
pub(super) struct Drawing<'a>([Cow<'a, [f64]>; Global::COUNT]);

impl<'a> Drawing<'a> {
    pub(super) fn of(input: &Input, sample: &'a Sample) -> Self {
        let mut columns = GLOBALS.map(|(global, _)| Cow::Borrowed(sample.global(global)));
        for (name, deviation) in &input.spreads {
            let Some(global) = Global::of_name(name) else { continue };
            if let Some(spread) = global.spread_by(*deviation) {
                let values = sample.values(global as u64, global.parameter().median, spread);
                columns[global as usize] = Cow::Owned(values);
            }
        }
        for (name, value) in &input.fixed_parameters {
            if let Some(global) = Global::of_name(name) {
                columns[global as usize] = Cow::Owned(vec![*value; sample.runs()]);
            }
        }
        Self(columns)
    }

    /// The runs that go side by side. Those with the same response to temperature are put together, for what the other
    /// needs can then be left out; a block that reaches beyond the last run repeats it.
    pub(super) fn blocks<const L: usize>(&self, runs: usize) -> Vec<[usize; L]> {
        let response = &self.0[Global::Response as usize];
        let (mut order, others): (Vec<usize>, Vec<usize>) =
            (0..runs).partition(|run| at_run(response, *run) < 0.5);
        order.extend(others);
        let member = |chunk: &[usize], l: usize| chunk.get(l).or(chunk.last()).copied().unwrap_or(0);
        order.chunks(L).map(|chunk| core::array::from_fn(|l| member(chunk, l))).collect()
    }

    /// These runs. Organic matter goes into the supply, field capacity into the leaching: they act
    /// nowhere else.
    pub(super) fn lanes<const L: usize>(&self, members: &[usize; L]) -> Globals<L> {
        let mut lanes: Globals<L> =
            core::array::from_fn(|index| Lanes::of(|l| at_run(&self.0[index], members[l])));
        let of = |global: Global, l: usize| lanes[global as usize][l];
        let supply = Lanes::of(|l| of(Global::Supply, l) * of(Global::OrganicMatter, l));
        let leaching = Lanes::of(|l| of(Global::Leaching, l) / of(Global::FieldCapacity, l));
        lanes[Global::Supply as usize] = supply;
        lanes[Global::Leaching as usize] = leaching;
        lanes
    }
}

/// A stage's own layers for a block; those that were lifted come from the stages before.
pub(super) fn new_layers<'a, const L: usize>(
    input: &'a Input,
    batches: &[Option<Batch>],
    ended: &'a [Ended<L>],
    members: &[usize; L],
) -> Vec<New<'a, L>> {
    let lifted = |put: &'a PutDown| {
        let layer = ended.get(put.from_stage?)?.layers().get(put.layer?)?;
        Some(New::Lifted(layer, layer.lifted.clone()?, put))
    };
    let make = |(put, batch): (&'a PutDown, &Option<Batch>)| match batch {
        Some(batch) => Some(New::Batch(batch.lanes(members), put)),
        None => lifted(put),
    };
    input.put_down.iter().zip(batches).filter_map(make).collect()
}

/// What was drawn for the place, then for each of the layers that follow those kept.
pub(super) fn drawn(
    globals: &Drawing<'_>,
    runs: usize,
    batches: &[Option<Batch>],
    kept: usize,
) -> Vec<Drawn> {
    let mut all: Vec<Drawn> = GLOBALS
        .iter()
        .zip(&globals.0)
        .map(|((global, _), values)| Drawn { name: DrawnName::Global(*global), values: values.to_vec() })
        .collect();
    for (i, batch) in batches.iter().enumerate() {
        let Some(batch) = batch else { continue };
        for parameter in BatchParameter::ALL {
            let name = DrawnName::Layer { layer: kept + i, parameter };
            all.push(Drawn { name, values: batch.values(parameter, runs) });
        }
    }
    all
}

impl StageRuns {
    pub(super) fn empty(input: &Input, runs: usize, days: Vec<u32>) -> Self {
        let crop =
            || CropRuns { uptake: vec![0.0; runs], demand: vec![0.0; runs], hungry_day: vec![0.0; runs] };
        Self {
            runs,
            evenings: vec![0.0; days.len() * SERIES * runs],
            crop_evenings: vec![[0.0; 2]; days.len() * input.crops.len() * runs],
            days,
            crops: input.crops.iter().map(|_| crop()).collect(),
            hungry_day: vec![f64::INFINITY; runs],
            release_day: vec![0.0; runs],
            dry_days: vec![0.0; runs],
            mat_days: vec![0.0; runs],
            tied_by_layer: Vec::new(),
            residue_nitrogen: vec![0.0; runs],
            lifted: BTreeMap::new(),
            carbon_residual: 0.0,
            nitrogen_residual: 0.0,
        }
    }
}

/// Writes a block's evenings into the stage.
pub(super) struct Keeper<'a, const L: usize> {
    stage: &'a mut StageRuns,
    members: [usize; L],
    /// Place of the day to keep next.
    next: usize,
}

impl<'a, const L: usize> Keeper<'a, L> {
    pub(super) fn of(stage: &'a mut StageRuns, members: [usize; L]) -> Self {
        Self { stage, members, next: 0 }
    }

    pub(super) fn close(&mut self, totals: &Totals<L>, end: &Ended<L>) {
        let members = self.members;
        let put = |to: &mut [f64], lanes: &Lanes<L>| scatter(to, &members, lanes);
        let stage = &mut *self.stage;
        put(&mut stage.release_day, &totals.release_day);
        put(&mut stage.dry_days, &totals.dry_days);
        put(&mut stage.mat_days, &totals.mat_days);
        put(&mut stage.residue_nitrogen, &totals.residue_nitrogen);
        for ((crop, end), hungry) in stage.crops.iter_mut().zip(&totals.crops).zip(&totals.hungry_days) {
            put(&mut crop.uptake, &end.uptake);
            put(&mut crop.demand, &end.demand);
            put(&mut crop.hungry_day, hungry);
            for (run, day) in members.iter().zip(&**hungry) {
                stage.hungry_day[*run] = f64::min(stage.hungry_day[*run], *day);
            }
        }
        stage.tied_by_layer.resize(end.layers().len(), vec![0.0; stage.runs]);
        for (to, layer) in stage.tied_by_layer.iter_mut().zip(end.layers()) {
            put(to, &layer.tied);
        }
        if let Some(l) = members.iter().position(|run| *run == 0) {
            for (i, layer) in end.layers().iter().enumerate() {
                if let Some(pools) = &layer.lifted {
                    stage.lifted.insert(i, pools.all().map(|pool| pool[l]));
                }
            }
        }
        let worst = |lanes: &Lanes<L>| lanes.iter().copied().fold(0.0, f64::max);
        stage.carbon_residual = f64::max(stage.carbon_residual, worst(&totals.carbon_residual));
        stage.nitrogen_residual = f64::max(stage.nitrogen_residual, worst(&totals.nitrogen_residual));
    }
}

impl<const L: usize> Keep<L> for Keeper<'_, L> {
    fn wants(&self, day: usize) -> bool {
        self.stage.days.get(self.next).is_some_and(|next| *next as usize == day)
    }

    fn evening(&mut self, series: &[Lanes<L>; SERIES], crops: impl Iterator<Item = CropEvening<L>>) {
        let place = self.next;
        self.next += 1;
        let runs = self.stage.runs;
        let evening = &mut self.stage.evenings[place * SERIES * runs..(place + 1) * SERIES * runs];
        for (to, lanes) in evening.chunks_exact_mut(runs).zip(series) {
            scatter(to, &self.members, lanes);
        }
        for (c, crop) in crops.enumerate() {
            let start = (place * self.stage.crops.len() + c) * runs;
            let to = &mut self.stage.crop_evenings[start..start + runs];
            for (l, run) in self.members.iter().enumerate() {
                to[*run] = [crop.uptake[l], crop.demand[l]];
            }
        }
    }
}

/// Puts each lane where its run belongs.
fn scatter<const L: usize>(to: &mut [f64], members: &[usize; L], lanes: &Lanes<L>) {
    for (run, value) in members.iter().zip(&**lanes) {
        to[*run] = *value;
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a test stops where it fails")]

    use super::*;

    fn golden_inputs() -> Vec<(String, Input)> {
        let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../../fixtures/science/nitrogen/golden");
        let entries = std::fs::read_dir(folder).unwrap();
        entries
            .map(|entry| {
                let text = std::fs::read_to_string(entry.unwrap().path()).unwrap();
                let mut case: serde_json::Value = serde_json::from_str(&text).unwrap();
                (case["case"].to_string(), serde_json::from_value(case["input"].take()).unwrap())
            })
            .collect()
    }

    #[test]
    fn a_run_has_the_same_bits_alone_and_beside_others() {
        // 19 runs do not fill their last block.
        let sample = Sample::new(7, 19);
        for (name, input) in golden_inputs() {
            let days: Vec<u32> = (0..=input.days).collect();
            let alone = run::<1>(&input, None, &sample, &days).unwrap();
            let beside = run::<BLOCK>(&input, None, &sample, &days).unwrap();
            assert!(alone == beside, "{name}");
            let bits =
                |runs: &Runs| runs.last().evenings.iter().map(|value| value.to_bits()).collect::<Vec<_>>();
            assert!(bits(&alone) == bits(&beside), "{name}");
        }
    }

    #[test]
    fn more_runs_leave_the_first_as_they_are() {
        let (_, input) = golden_inputs().swap_remove(0);
        let few = run::<BLOCK>(&input, None, &Sample::new(3, 5), &[]).unwrap();
        let many = run::<BLOCK>(&input, None, &Sample::new(3, 50), &[]).unwrap();
        assert_eq!(few.last().end(Series::Mineral), &many.last().end(Series::Mineral)[..5]);
    }
}
