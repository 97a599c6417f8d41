//! A place made ready for many inputs.

use super::drivers::Course;
use super::input::{Input, InputError};
use super::runs::{self, Runs};
use super::sampling::Sample;

/// The weather, soil and crops of a place, worked out once for inputs that differ only in what is put down, given and
/// done there.
#[derive(Debug, Clone)]
pub struct Site {
    input: Input,
    course: Course,
}

impl Site {
    /// The place of an input without stages; of its stages' common part otherwise.
    ///
    /// # Errors
    /// The first key of the input that cannot be used.
    pub fn of(input: &Input) -> Result<Self, InputError> {
        input.check()?;
        let input = Input { stages: Vec::new(), ..input.clone() };
        let course = Course::alone(&input);
        Ok(Self { input, course })
    }

    /// What [`simulate`](super::simulate) gives, to the bit, for any input; sooner where it is of this place, over no
    /// more days than the place was made ready for.
    ///
    /// # Errors
    /// The first key of the input that cannot be used.
    pub fn simulate(&self, input: &Input, sample: &Sample, keep: &[u32]) -> Result<Runs, InputError> {
        runs::simulate_on(input, self.serves(input).then_some(&self.course), sample, keep)
    }

    /// The course of the place, with what its input puts down, gives and does.
    pub(super) fn course(&self) -> &Course {
        &self.course
    }

    /// Everything that the course is made of is the same.
    pub(super) fn serves(&self, input: &Input) -> bool {
        let own = &self.input;
        input.stages.is_empty()
            && input.days <= own.days
            && input.start_day_of_year == own.start_day_of_year
            && input.cover == own.cover
            && input.watered == own.watered
            && input.irrigation == own.irrigation
            && input.irrigation_under_mulch == own.irrigation_under_mulch
            && input.irrigation_nitrogen_mg_l.total_cmp(&own.irrigation_nitrogen_mg_l).is_eq()
            && input.soil == own.soil
            && input.crops == own.crops
            && input.weather == own.weather
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a test stops where it fails")]

    use super::super::{Daily, simulate};
    use super::*;

    /// The golden inputs, by name.
    fn golden() -> Vec<(String, Input)> {
        let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../../fixtures/science/nitrogen/golden");
        let read = |path: &std::path::Path| {
            let mut case: serde_json::Value =
                serde_json::from_str(&std::fs::read_to_string(path).unwrap()).unwrap();
            (case["case"].to_string(), serde_json::from_value(case["input"].take()).unwrap())
        };
        std::fs::read_dir(folder).unwrap().map(|entry| read(&entry.unwrap().path())).collect()
    }

    #[test]
    fn what_is_made_ready_changes_no_bit() {
        let sample = Sample::new(5, 11);
        for (name, input) in golden() {
            let site = Site::of(&input).unwrap();
            for days in [input.days, input.days / 3] {
                let part = Input { days, readings: Vec::new(), ..input.clone() };
                // A stage may need more days than that.
                let Ok(apart) = simulate(&part, &sample, &[28, days]) else { continue };
                let ready = site.simulate(&part, &sample, &[28, days]).unwrap();
                assert_eq!(apart, ready, "{name}, {days} days");
            }
        }
    }

    #[test]
    fn another_place_is_not_taken_for_this_one() {
        let (_, input) = golden().into_iter().find(|(name, _)| name.contains("bare-bed")).unwrap();
        let site = Site::of(&input).unwrap();
        let sample = Sample::new(5, 3);
        let mut wetter = input.clone();
        wetter.weather.month_rain_mm[5] += 40.0;
        let mut daily = input.clone();
        daily.weather.daily = Some(Daily { ..input.weather.usual_days(input.start_day_of_year, input.days) });
        let longer = Input { days: input.days + 30, ..input.clone() };
        let unsown = Input { crops: Vec::new(), ..input.clone() };
        let covered = Input { cover: true, ..input.clone() };
        for other in [wetter, daily, longer, unsown, covered] {
            assert!(!site.serves(&other));
            assert_eq!(site.simulate(&other, &sample, &[]).unwrap(), simulate(&other, &sample, &[]).unwrap());
        }
    }
}
