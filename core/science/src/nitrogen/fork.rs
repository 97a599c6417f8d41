//! Runs up to the morning of a day, to go on from there in more than one way: what-ifs that share a past cost only
//! their future.

use super::batch::Batch;
use super::drivers::Course;
use super::engine::{Block, Ended, Morning};
use super::input::{Event, Input, InputError, Merged};
use super::layer::{Globals, New};
use super::runs::{BLOCK, Drawing, Keeper, Runs, StageRuns, drawn, new_layers};
use super::sampling::Sample;

/// A block of runs on the morning of the day.
#[derive(Debug, Clone)]
struct Waiting {
    members: [usize; BLOCK],
    globals: Globals<BLOCK>,
    morning: Morning<BLOCK>,
}

/// Runs that wait on the morning of a day of the last stage.
#[derive(Debug, Clone)]
pub struct Fork {
    /// All stages as they were.
    merged: Vec<Merged<'static>>,
    day: u32,
    sample: Sample,
    /// Of the last stage.
    course: Course,
    /// Of the stages before the last.
    courses: Vec<Course>,
    layers: Vec<usize>,
    stages: Vec<StageRuns>,
    /// Of the last stage's own layers.
    batches: Vec<Option<Batch>>,
    blocks: Vec<Waiting>,
}

impl Fork {
    /// Runs an input in every run of a sample up to the morning of a day; of its last day where that comes before.
    ///
    /// # Errors
    /// The first key of the input that cannot be used.
    pub fn new(input: &Input, sample: &Sample, day: u32) -> Result<Self, InputError> {
        input.check()?;
        let merged = input.merged();
        let (mut courses, mut layers) = courses(&merged);
        let Some(((last, before), course)) = merged.split_last().zip(courses.pop()) else {
            return Err(different("stages"));
        };
        layers.pop();
        let day = day.min(last.input.days - 1);
        let drawing = Drawing::of(input, sample);
        let batches: Vec<Vec<Option<Batch>>> = merged
            .iter()
            .zip(courses.iter().chain([&course]))
            .map(|(stage, course)| batches(&stage.input, course.kept, 0, sample))
            .collect();
        let mut stages: Vec<StageRuns> = before
            .iter()
            .map(|stage| StageRuns::empty(&stage.input, sample.runs(), vec![stage.input.days]))
            .collect();
        let mut nobody = StageRuns::empty(&last.input, sample.runs(), Vec::new());
        let mut blocks = Vec::new();
        for members in drawing.blocks::<BLOCK>(sample.runs()) {
            let globals = drawing.lanes(&members);
            let mut ended: Vec<Ended<BLOCK>> = Vec::with_capacity(before.len());
            for (((stage, course), batches), runs) in
                before.iter().zip(&courses).zip(&batches).zip(&mut stages)
            {
                let new = new_layers(&stage.input, batches, &ended, &members);
                let lifts: Vec<(usize, f64)> =
                    stage.input.lift_at_end.iter().map(|lift| (lift.layer, lift.share)).collect();
                let mut keeper = Keeper::of(runs, members);
                let (totals, end) = Block::start(course, &globals, &ended, new).run(&mut keeper, &lifts);
                keeper.close(&totals, &end);
                ended.push(end);
            }
            let own = batches.last().map_or(&[][..], Vec::as_slice);
            let new = new_layers(&last.input, own, &ended, &members);
            let block = Block::start(&course, &globals, &ended, new);
            let morning = block.until(day as usize, &mut Keeper::of(&mut nobody, members));
            blocks.push(Waiting { members, globals, morning });
        }
        Ok(Self {
            course,
            day,
            sample: sample.clone(),
            courses,
            layers,
            stages,
            batches: batches.into_iter().next_back().unwrap_or_default(),
            blocks,
            merged: merged.into_iter().map(Merged::owned).collect(),
        })
    }

    /// The day whose morning the runs wait on.
    pub fn day(&self) -> u32 {
        self.day
    }

    /// The runs they are.
    pub fn sample(&self) -> &Sample {
        &self.sample
    }

    /// Goes on with an input that is the same until the day: what it gives, lays or does from then on may differ, and
    /// how long it is. Layers that are added come last and lay nowhere before. The result is that of
    /// [`super::simulate`], bit by bit; to 1e-9 where layers are added, for a layer that has always been alone goes a
    /// shorter way that rounds otherwise. Evenings before the day are not kept, and readings are not foretold.
    ///
    /// # Errors
    /// The first key of the input that cannot be used, or that differs before the day.
    pub fn go_on(&self, input: &Input, keep: &[u32]) -> Result<Runs, InputError> {
        input.check()?;
        let merged = input.merged();
        let Some(last) = merged.last() else { return Err(different("stages")) };
        self.same_past(&merged)?;
        let course = if self.ready_for(&last.input) {
            self.course.with(&last.input)
        } else {
            Course::of(last, &self.courses, &self.layers)
        };
        let added = batches(&last.input, course.kept, self.batches.len(), &self.sample);
        let mut days: Vec<u32> = keep.iter().copied().filter(|day| *day > self.day).collect();
        days.push(last.input.days);
        days.retain(|day| *day <= last.input.days);
        days.sort_unstable();
        days.dedup();
        let mut runs = StageRuns::empty(&last.input, self.sample.runs(), days);
        let lifts: Vec<(usize, f64)> =
            last.input.lift_at_end.iter().map(|lift| (lift.layer, lift.share)).collect();
        for Waiting { members, globals, morning } in &self.blocks {
            let new: Vec<New<'_, BLOCK>> = added
                .iter()
                .zip(last.input.put_down.iter().skip(self.batches.len()))
                .filter_map(|(batch, put)| Some(New::Batch(batch.as_ref()?.lanes(members), put)))
                .collect();
            let mut keeper = Keeper::of(&mut runs, *members);
            let block = Block::go_on(&course, globals, morning.clone(), new);
            let (totals, end) = block.from(self.day as usize, &mut keeper, &lifts);
            keeper.close(&totals, &end);
        }
        let all: Vec<Option<Batch>> = self.batches.iter().chain(&added).cloned().collect();
        let drawing = Drawing::of(input, &self.sample);
        let parameters = drawn(&drawing, self.sample.runs(), &all, course.kept);
        let stages = self.stages.iter().cloned().chain([runs]).collect();
        Ok(Runs::of(stages, parameters))
    }

    /// Its days are those that were made ready, but for what is laid, given and done.
    fn ready_for(&self, input: &Input) -> bool {
        let own = self.merged.last().map(|own| &own.input);
        self.course.continue_from.is_none()
            && input.days as usize <= self.course.days.len()
            && own.is_some_and(|own| own.irrigation == input.irrigation)
    }

    /// Finds the first key that differs before the day.
    fn same_past(&self, merged: &[Merged<'_>]) -> Result<(), InputError> {
        let (Some((own, before)), Some((new, stages))) = (self.merged.split_last(), merged.split_last())
        else {
            return Err(different("stages"));
        };
        if before != stages || own.continue_from != new.continue_from {
            return Err(different("stages"));
        }
        let (own, input, day) = (&own.input, &new.input, self.day);
        if input.days <= day {
            return Err(InputError { key: "days".to_owned(), problem: "end before the runs do".to_owned() });
        }
        let before = |event: &&Event| event.day() < day;
        let known = own.put_down.len();
        let same = [
            ("start_day_of_year", own.start_day_of_year == input.start_day_of_year),
            ("weather", own.weather == input.weather),
            ("soil", own.soil == input.soil),
            ("cover", own.cover == input.cover),
            ("watered", own.watered == input.watered),
            ("container_litres", own.container_litres == input.container_litres),
            ("irrigation_under_mulch", own.irrigation_under_mulch == input.irrigation_under_mulch),
            (
                "irrigation_nitrogen_mg_l",
                own.irrigation_nitrogen_mg_l.total_cmp(&input.irrigation_nitrogen_mg_l).is_eq(),
            ),
            ("fixed_parameters", own.fixed_parameters == input.fixed_parameters),
            ("spreads", own.spreads == input.spreads),
            ("crops", own.crops == input.crops),
            ("put_down", input.put_down.get(..known) == Some(&own.put_down[..])),
            (
                "put_down",
                input.put_down.iter().skip(known).all(|put| put.day >= day && put.from_stage.is_none()),
            ),
            ("gifts", {
                let past = |input: &'_ Input| -> Vec<_> {
                    input.gifts.iter().filter(|gift| gift.day < day).cloned().collect()
                };
                past(own) == past(input)
            }),
            ("irrigation", {
                let past = |input: &'_ Input| -> Vec<_> {
                    input.irrigation.iter().filter(|water| water.day < day).copied().collect()
                };
                past(own) == past(input)
            }),
            ("events", own.events.iter().filter(before).eq(input.events.iter().filter(before))),
        ];
        match same.iter().find(|(_, same)| !same) {
            Some((key, _)) => Err(different(key)),
            None => Ok(()),
        }
    }
}

fn different(key: &str) -> InputError {
    InputError { key: key.to_owned(), problem: "differs before the day on which the runs wait".to_owned() }
}

fn courses(merged: &[Merged<'_>]) -> (Vec<Course>, Vec<usize>) {
    let mut courses: Vec<Course> = Vec::with_capacity(merged.len());
    let mut layers: Vec<usize> = Vec::with_capacity(merged.len());
    for stage in merged {
        let course = Course::of(stage, &courses, &layers);
        layers.push(course.kept + stage.input.put_down.len());
        courses.push(course);
    }
    (courses, layers)
}

/// Batches of a stage's own layers from one on; a lifted layer has none.
pub(super) fn batches(input: &Input, kept: usize, from: usize, sample: &Sample) -> Vec<Option<Batch>> {
    let all = input.put_down.iter().enumerate().skip(from);
    all.map(|(i, put)| put.from_stage.is_none().then(|| Batch::draw(put, kept + i, sample))).collect()
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a test stops where it fails")]

    use super::*;
    use crate::material::ModelClass;
    use crate::nitrogen::{Gift, GiftSource, LayerWay, Placement, PutDown, Series, simulate};

    /// The golden inputs, by name.
    fn golden_inputs() -> Vec<(String, Input)> {
        let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../../fixtures/science/nitrogen/golden");
        let read = |path: &std::path::Path| {
            let mut case: serde_json::Value =
                serde_json::from_str(&std::fs::read_to_string(path).unwrap()).unwrap();
            (case["case"].to_string(), serde_json::from_value(case["input"].take()).unwrap())
        };
        std::fs::read_dir(folder).unwrap().map(|entry| read(&entry.unwrap().path())).collect()
    }

    fn given(day: u32) -> Gift {
        Gift {
            day,
            source: GiftSource::Urea,
            nitrogen_kg_ha: Some(30.0),
            litres_m2: None,
            placement: Placement::Under,
            covered: false,
            incorporated_days: None,
            with_layer: false,
        }
    }

    #[test]
    fn going_on_has_the_bits_of_one_run() {
        let sample = Sample::new(7, 19);
        for (name, input) in golden_inputs() {
            let input = Input { readings: Vec::new(), ..input };
            let days = input.merged().last().unwrap().input.days;
            for day in [0, 1, days / 2, days - 1] {
                let mut more = input.clone();
                let gifts = match more.stages.last_mut() {
                    Some(last) => last.gifts.get_or_insert_with(|| input.gifts.clone()),
                    None => &mut more.gifts,
                };
                gifts.push(given(day));
                let whole = simulate(&more, &sample, &[day + 1]).unwrap();
                let fork = Fork::new(&input, &sample, day).unwrap();
                let parts = fork.go_on(&more, &[day + 1]).unwrap();
                assert!(whole.last() == parts.last(), "{name}, {day}");
                assert!(whole.parameters() == parts.parameters(), "{name}, {day}");
            }
        }
    }

    #[test]
    fn a_layer_can_be_added() {
        let sample = Sample::new(7, 19);
        for (name, input) in golden_inputs().into_iter().filter(|(_, input)| input.stages.is_empty()) {
            let input = Input { readings: Vec::new(), ..input };
            let day = input.days / 3;
            let mut more = input.clone();
            more.put_down.push(PutDown {
                day: day + 2,
                material: Some(ModelClass::Compost),
                way: LayerWay::Under,
                dry_t_ha: Some(3.0),
                batch: Some(99),
                ..PutDown::default()
            });
            let whole = simulate(&more, &sample, &[]).unwrap();
            let parts = Fork::new(&input, &sample, day).unwrap().go_on(&more, &[]).unwrap();
            let close = |a: &[f64], b: &[f64]| {
                // Never hungry in both is no difference.
                a.iter().zip(b).all(|(a, b)| {
                    let never = a.is_infinite() && b.is_infinite();
                    never || (a - b).abs() <= 1e-9 * a.abs().max(1.0)
                })
            };
            for series in [Series::Tied, Series::Mineral, Series::Uptake, Series::Leached] {
                assert!(close(whole.last().end(series), parts.last().end(series)), "{name}, {series:?}");
            }
            assert!(close(&whole.last().hungry_day, &parts.last().hungry_day), "{name}");
        }
    }

    #[test]
    fn another_past_is_refused() {
        let (_, input) = golden_inputs().swap_remove(0);
        let fork = Fork::new(&input, &Sample::new(1, 3), 20).unwrap();
        let mut other = input.clone();
        other.soil.mineral_nitrogen_kg_ha += 1.0;
        assert_eq!(fork.go_on(&other, &[]).unwrap_err().key, "soil");
        let short = Input { days: 20, ..input.clone() };
        assert_eq!(fork.go_on(&short, &[]).unwrap_err().key, "days");
        let mut earlier = input;
        earlier.gifts.push(given(19));
        assert_eq!(fork.go_on(&earlier, &[]).unwrap_err().key, "gifts");
    }
}
