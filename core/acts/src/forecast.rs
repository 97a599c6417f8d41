//! One season of a place as it is described, day by day.

use chrono::NaiveDate;
use kerfbook_science::nitrogen::{ENGINE, Input, PARAMETERS, Reading, Runs, Sample, Series, chance};

use crate::assumed::Assumed;
use crate::calendar::Calendar;
use crate::compare::{self, SEASON_DAYS, Three};
use crate::error::ActError;
use crate::laid::laid;
use crate::scenario::{Scenario, Way};
use crate::site;
use crate::update::{self, Change, Weighed};
use crate::way::Row;

/// A day of the forecast: evenings, 0 is before the first event.
#[derive(Debug, Clone, PartialEq)]
pub struct Day {
    /// Whole days gone.
    pub day: u32,
    /// Held by decay, kg/ha.
    pub tied: Three,
    /// Mineral nitrogen of the root zone, kg/ha.
    pub mineral: Three,
    /// Taken up by crops in sum, kg/ha.
    pub uptake: Three,
    /// Leached in sum, kg/ha.
    pub leached: Three,
    /// Middle of the mineral nitrogen with nothing put down, kg/ha.
    pub mineral_bare: f64,
}

/// The run with every parameter at its median.
#[derive(Debug, Clone, PartialEq)]
pub struct MedianRun {
    /// Crop nitrogen at the end of the season, kg/ha.
    pub crop_nitrogen_kg_ha: f64,
    /// Tied up at 28, 60, 150 and 365 days, kg/ha.
    pub tied_kg_ha: Vec<(u32, f64)>,
    /// Leached at the end, kg/ha.
    pub leached_kg_ha: f64,
    /// First hungry day.
    pub hungry_day: Option<f64>,
    /// Day on which the tie-up turns.
    pub release_day: Option<f64>,
}

/// A forecast.
#[derive(Debug, Clone, PartialEq)]
pub struct Forecast {
    /// Which date is day 0.
    pub calendar: Calendar,
    /// Day by day.
    pub days: Vec<Day>,
    /// First hungry day of this season's crops.
    pub hungry_day: Three,
    /// The same with nothing put down.
    pub hungry_day_bare: Three,
    /// Share of the runs that go hungry.
    pub chance_hungry: f64,
    /// Nitrogen in the crops.
    pub crop_nitrogen: Three,
    /// The bare place's less this one's, run by run.
    pub lost: Three,
    /// The run at the medians.
    pub median: MedianRun,
    /// Largest relative residual of the balances of carbon and nitrogen over all days and runs.
    pub balance_residual: f64,
    /// Version of the equations.
    pub engine: u32,
    /// Version of the parameters.
    pub parameters: u32,
    /// Runs.
    pub runs: u32,
    /// Seed.
    pub seed: u64,
    /// How many runs the readings leave in effect; `None` without readings.
    pub effective_size: Option<f64>,
    /// Power that the likelihood of the readings was raised to: below 1 where hardly any run foretold them.
    pub counts: Option<f64>,
    /// What the readings changed in the answer, and why.
    pub change: Option<Change>,
    /// Taken for granted.
    pub assumed: Vec<Assumed>,
}

/// The model's input of a scenario with every load in its own way, and of the same place with nothing put down.
///
/// A load whose way is open lies on top.
///
/// # Errors
/// A load or a place that cannot be.
pub fn inputs(
    scenario: &Scenario,
    days: u32,
    assumed: &mut Vec<Assumed>,
) -> Result<(Calendar, Input, Input), ActError> {
    let calendar = Calendar::of(scenario).ok_or(ActError::NoLoad)?;
    let all = laid(scenario, calendar, days, assumed)?;
    Ok((calendar, all.input, all.bare))
}

/// The row of the comparison that a way is; the layer over nitrogen lies over compost unless urine is at hand and
/// allowed.
pub fn row_of(scenario: &Scenario, way: Way) -> Row {
    match way {
        Way::WorkedIn => Row::WorkedIn,
        Way::OnTop => Row::OnTop,
        Way::OnTopOverNitrogen => {
            let urine = scenario
                .holding
                .at_hand
                .iter()
                .filter_map(|name| site::find_feed(name).ok())
                .any(|feed| feed.is_urine() && crate::dose::source_allowed(scenario, feed));
            if urine { Row::OverUrine } else { Row::OverCompost }
        }
        Way::CompostedFirst => Row::CompostedFirst,
        Way::Path => Row::Path,
        Way::Ring => Row::Ring,
    }
}

/// Something measured that narrows a forecast.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Measured {
    /// Mineral nitrogen of the root zone, kg/ha.
    SoilNitrate {
        /// When.
        date: NaiveDate,
        /// How much.
        kg_ha: f64,
    },
    /// Four days in a jar with nitrate, of the first load.
    DrawTest {
        /// Warmth of the jar.
        temperature_c: f64,
        /// Nitrate nitrogen at the start.
        dose_mg_litre: f64,
        /// Dry residue in it.
        dry_g_per_litre: f64,
        /// Part of the nitrate that is left.
        index: f64,
    },
    /// Rain in a gauge.
    Rain {
        /// First day.
        from: NaiveDate,
        /// Last day.
        to: NaiveDate,
        /// All that fell, mm.
        mm: f64,
    },
    /// Leaf colour against a reference plot, as nitrogen nutrition of the first crop.
    Leaf {
        /// When.
        date: NaiveDate,
        /// 1 is enough.
        nutrition_index: f64,
    },
}

/// Forecasts a year.
///
/// # Errors
/// As [`inputs`], and what the model refuses.
pub fn forecast(scenario: &Scenario, runs: u32, seed: u64) -> Result<Forecast, ActError> {
    Year::of(scenario, &[])?.forecast(&Sample::new(seed, runs), None)
}

/// Forecasts a year, the runs weighed by what was measured: at least [`update::FEWEST_RUNS`] runs, spread evenly over
/// every parameter, and more where few of them are left in effect.
///
/// # Errors
/// As [`forecast`], and a reading that does not lie within the year or has no crop or layer.
pub fn narrowed(
    scenario: &Scenario,
    measured: &[Measured],
    runs: u32,
    seed: u64,
) -> Result<Forecast, ActError> {
    let year = Year::of(scenario, measured)?;
    let crops: Vec<usize> = (0..year.input.crops.len()).collect();
    let weighed = update::weigh(&year.input, &year.bare, SEASON_DAYS, &crops, runs, seed)?;
    year.forecast(&weighed.sample, Some(&weighed))
}

/// The model's reading of something measured; none of what goes into the weather.
fn reading(
    measured: &Measured,
    calendar: Calendar,
    scenario: &Scenario,
) -> Result<Option<Reading>, ActError> {
    // A reading is of an evening; day 0 is the state before the first day.
    let on = |date: NaiveDate, key: &'static str| {
        u32::try_from(calendar.day(date) + 1)
            .ok()
            .filter(|day| *day <= SEASON_DAYS)
            .ok_or(ActError::ReadingOutside { key })
    };
    Ok(Some(match *measured {
        Measured::Rain { .. } => return Ok(None),
        Measured::SoilNitrate { date, kg_ha } => {
            Reading::SoilNitrate { day: on(date, "soil_nitrate")?, kg_ha }
        }
        Measured::DrawTest { .. } if scenario.put_down.is_empty() => {
            return Err(ActError::ReadingOutside { key: "draw_test" });
        }
        Measured::DrawTest { temperature_c, dose_mg_litre, dry_g_per_litre, index } => {
            Reading::DrawTest { layer: 0, temperature_c, dose_mg_litre, dry_g_per_litre, index }
        }
        Measured::Leaf { .. } if scenario.crops.is_empty() => {
            return Err(ActError::ReadingOutside { key: "leaf" });
        }
        Measured::Leaf { date, nutrition_index } => {
            Reading::Leaf { day: on(date, "leaf")?, crop: 0, nni: nutrition_index }
        }
    }))
}

/// Puts the rain of a gauge in place of the usual year's: the days it fell on stay, their amounts add up to what was
/// measured; where no rain was to fall at all, it falls on the last day.
fn rain(
    input: &mut Input,
    calendar: Calendar,
    from: NaiveDate,
    to: NaiveDate,
    mm: f64,
) -> Result<(), ActError> {
    let (start, end) = (u32::try_from(calendar.day(from)), u32::try_from(calendar.day(to)));
    let (Ok(start), Ok(end)) = (start, end) else { return Err(ActError::ReadingOutside { key: "rain" }) };
    if end < start || end >= input.days {
        return Err(ActError::ReadingOutside { key: "rain" });
    }
    let (days, first) = (input.days, input.start_day_of_year);
    let weather = &mut input.weather;
    let mut daily = weather.daily.take().unwrap_or_else(|| weather.usual_days(first, days));
    if let Some(span) = daily.rain_mm.get_mut(start as usize..=end as usize) {
        let usual: f64 = span.iter().sum();
        if usual > 0.0 {
            for day in span {
                *day *= mm / usual;
            }
        } else if let Some(last) = span.last_mut() {
            *last = mm;
        }
    }
    weather.daily = Some(daily);
    Ok(())
}

/// A place over a year as the model's inputs, what was measured in them.
struct Year {
    calendar: Calendar,
    input: Input,
    bare: Input,
    assumed: Vec<Assumed>,
}

impl Year {
    fn of(scenario: &Scenario, measured: &[Measured]) -> Result<Self, ActError> {
        let mut assumed = Vec::new();
        let (calendar, mut input, mut bare) = inputs(scenario, SEASON_DAYS, &mut assumed)?;
        for measured in measured {
            input.readings.extend(reading(measured, calendar, scenario)?);
            if let Measured::Rain { from, to, mm } = *measured {
                rain(&mut input, calendar, from, to, mm)?;
                rain(&mut bare, calendar, from, to, mm)?;
            }
        }
        Ok(Self { calendar, input, bare, assumed })
    }

    fn forecast(self, sample: &Sample, weighed: Option<&Weighed>) -> Result<Forecast, ActError> {
        let crops: Vec<usize> = (0..self.input.crops.len()).collect();
        let every: Vec<u32> = (0..=self.input.days).collect();
        let course = Course {
            calendar: self.calendar,
            here: &self.input,
            bare: &self.bare,
            crops: &crops,
            shown: &every,
        };
        Ok(Forecast { assumed: self.assumed, ..course.foretell(sample, weighed)? })
    }
}

/// A place with what lies there and the same without, to be foretold over all days of the input.
pub(crate) struct Course<'a> {
    pub(crate) calendar: Calendar,
    pub(crate) here: &'a Input,
    pub(crate) bare: &'a Input,
    /// The crops of the input that hunger and crop nitrogen are told of.
    pub(crate) crops: &'a [usize],
    /// The days that are told; the last one is worked out whether it is among them or not.
    pub(crate) shown: &'a [u32],
}

impl Course<'_> {
    /// The days shown over the runs of a sample; where they were weighed, each as often as it counts.
    pub(crate) fn foretell(&self, sample: &Sample, weighed: Option<&Weighed>) -> Result<Forecast, ActError> {
        let last = self.here.days;
        let input = Input { readings: Vec::new(), ..self.here.clone() };
        let here = compare::run(&input, sample, self.shown)?;
        let none = compare::run(self.bare, sample, self.shown)?;
        let picked = |values: &[f64]| weighed.map_or_else(|| values.to_vec(), |weighed| weighed.pick(values));
        let told = |values: &[f64]| Three::of(&picked(values));
        let hungry = first_hungry(&here, self.crops);
        let crop = nitrogen_in(&here, self.crops, last);
        let days = self
            .shown
            .iter()
            .map(|day| Day {
                day: *day,
                tied: told(compare::series(&here, Series::Tied, *day)),
                mineral: told(compare::series(&here, Series::Mineral, *day)),
                uptake: told(compare::series(&here, Series::Uptake, *day)),
                leached: told(compare::series(&here, Series::Leached, *day)),
                mineral_bare: told(compare::series(&none, Series::Mineral, *day)).middle(),
            })
            .collect();
        Ok(Forecast {
            calendar: self.calendar,
            days,
            hungry_day: told(&hungry),
            hungry_day_bare: told(&first_hungry(&none, self.crops)),
            chance_hungry: chance(&picked(&hungry)),
            lost: told(&compare::less(&nitrogen_in(&none, self.crops, last), &crop)),
            crop_nitrogen: told(&crop),
            median: self.median_run()?,
            balance_residual: f64::max(here.balance_residual(), none.balance_residual()),
            engine: ENGINE,
            parameters: PARAMETERS,
            runs: weighed
                .map_or_else(|| u32::try_from(sample.runs()).unwrap_or(u32::MAX), |weighed| weighed.runs),
            seed: sample.seed(),
            effective_size: weighed.map(|weighed| weighed.effective_size),
            counts: weighed.map(|weighed| weighed.counts),
            change: weighed.map(|weighed| weighed.change.clone()),
            assumed: Vec::new(),
        })
    }

    fn median_run(&self) -> Result<MedianRun, ActError> {
        let input = Input { readings: Vec::new(), ..self.here.clone() };
        let runs = compare::run(&input, &Sample::median(), &compare::TIED_DAYS)?;
        let one = |values: &[f64]| values.first().copied().unwrap_or(0.0);
        let reached = |day: f64| day.is_finite().then_some(day);
        let last = input.days;
        Ok(MedianRun {
            crop_nitrogen_kg_ha: one(&nitrogen_in(&runs, self.crops, last)),
            tied_kg_ha: compare::TIED_DAYS
                .iter()
                .filter(|day| **day <= last)
                .map(|day| (*day, one(compare::series(&runs, Series::Tied, *day))))
                .collect(),
            leached_kg_ha: one(compare::series(&runs, Series::Leached, last)),
            hungry_day: reached(one(&first_hungry(&runs, self.crops))),
            release_day: reached(one(&runs.last().release_day)),
        })
    }
}

/// First hungry day of some crops, run by run; infinite where none.
pub(crate) fn first_hungry(runs: &Runs, crops: &[usize]) -> Vec<f64> {
    let mut days = vec![f64::INFINITY; runs.last().runs()];
    for crop in crops.iter().filter_map(|crop| runs.last().crops.get(*crop)) {
        for (day, own) in days.iter_mut().zip(&crop.hungry_day) {
            *day = day.min(*own);
        }
    }
    days
}

/// Nitrogen in some crops by a kept day, from soil and fixation, run by run.
pub(crate) fn nitrogen_in(runs: &Runs, crops: &[usize], day: u32) -> Vec<f64> {
    let mut sum = vec![0.0; runs.last().runs()];
    for of in crops.iter().filter_map(|crop| runs.last().crop_uptake(*crop, day)) {
        for (to, own) in sum.iter_mut().zip(of) {
            *to += own;
        }
    }
    sum
}
