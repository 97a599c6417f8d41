//! The long view: what putting the same down again and again leaves in the soil of a place, beside putting nothing down.
//!
//! Carbon by `RothC`, month by month under the place's usual weather; humus by the older yearly balance. Both are linear in
//! what is put down, so what is added hangs neither on what the soil holds today nor on what its crops leave.

pub mod told;

use chrono::{Datelike, Days, Months as CalendarMonths, NaiveDate};
use kerfbook_science::compost::loss;
use kerfbook_science::plain::{self, weather::Seasons};
use kerfbook_science::soil;
use kerfbook_science::soil_carbon::residue::{self, End, Ends};
use kerfbook_science::soil_carbon::rothc::{self, Input, Months, Pools};
use kerfbook_science::soil_carbon::{ORGANIC_MATTER_PER_CARBON, humus, stock};
use kerfbook_science::units::{AreaMass, Length, Share};
use kerfbook_science::weather::MONTH_DAYS;

use crate::assumed::Assumed;
use crate::error::ActError;
use crate::load::Load;
use crate::scenario::{PlaceKind, PutDown, Scenario, Way};
use crate::site;

/// Years that are looked at where nobody says.
pub const USUAL_YEARS: u32 = 20;
/// Most years that are looked at.
pub const MOST_YEARS: u32 = 100;

/// How often, and for how long.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Practice {
    /// Years that are looked at.
    pub years: u32,
    /// Every so many years; 1 is every year.
    pub every: u32,
}

impl Default for Practice {
    fn default() -> Self {
        Self { years: USUAL_YEARS, every: 1 }
    }
}

/// What the same again and again leaves behind, per area.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Year {
    /// Years from the first putting-down.
    pub year: u32,
    /// Carbon more than with nothing put down, t/ha.
    pub carbon: Ends,
    /// Humus more, t/ha.
    pub humus: Ends,
    /// The middle of the carbon where the practice stops after [`LongView::stops`] years, t/ha.
    pub stopped: f64,
}

/// A place over years.
#[derive(Debug, Clone, PartialEq)]
pub struct LongView {
    /// How often and how long.
    pub practice: Practice,
    /// Of the loads that are put down again: the first day and the last.
    pub of: (NaiveDate, NaiveDate),
    /// How many of them.
    pub loads: usize,
    /// Dry, each time.
    pub dry: AreaMass,
    /// Carbon in it, t/ha.
    pub carbon_in: Ends,
    /// Some of it lies on top.
    pub on_top: bool,
    /// Carbon that the soil holds today.
    pub stock: AreaMass,
    /// Down to here.
    pub depth: Length,
    /// Year by year.
    pub years: Vec<Year>,
    /// The year after which it is also told as stopped.
    pub stops: u32,
    /// Taken for granted.
    pub assumed: Vec<Assumed>,
}

impl LongView {
    /// The last of the years.
    pub fn last(&self) -> Option<&Year> {
        self.years.last()
    }

    /// Part of the gain that comes in the first half of the years; none where there is none, or no half.
    pub fn in_first_half(&self) -> Option<Share> {
        let last = self.last()?;
        let half = self.years.iter().find(|year| year.year == self.stops && year.year < last.year)?;
        let part = half.carbon.typical / last.carbon.typical;
        part.is_finite().then(|| Share::from_fraction(part))
    }

    /// What of the first half of the years' gain is lost by the end where the practice stops then; none where there was none.
    pub fn lost_when_stopped(&self) -> Option<Share> {
        let last = self.last()?;
        let half = self.years.iter().find(|year| year.year == self.stops && year.year < last.year)?;
        let (at, left) = (half.carbon.typical, last.stopped);
        (at > 0.0).then(|| Share::from_fraction((1.0 - left / at).clamp(0.0, 1.0)))
    }
}

/// A part of a load in its month.
struct Given {
    month: usize,
    part: kerfbook_science::material::Part,
    dry_t_ha: Ends,
    /// What a heap leaves of its carbon, where it goes through one first.
    left: Ends,
}

/// What the loads of the latest twelve months that have any leave, put down again every year.
///
/// # Errors
/// No load, a load that cannot be, a container, or years out of range.
pub fn long_view(scenario: &Scenario, practice: Practice) -> Result<LongView, ActError> {
    let Practice { years, every } = practice;
    if scenario.place.kind == PlaceKind::Container {
        return Err(ActError::NotOverYears);
    }
    crate::figure::between("years", Some(f64::from(years)), 1.0, f64::from(MOST_YEARS))?;
    crate::figure::between("every", Some(f64::from(every)), 1.0, f64::from(MOST_YEARS))?;
    let mut assumed = Vec::new();
    let puts = of_a_year(scenario, &mut assumed);
    let (first, last) =
        (puts.first().ok_or(ActError::NoLoad)?.date, puts.last().ok_or(ActError::NoLoad)?.date);
    let mut dry = AreaMass::default();
    let mut given = Vec::new();
    for put in &puts {
        let load = Load::of(put, &scenario.place, &scenario.containers, &mut assumed)?;
        dry = dry + load.dry_per_area;
        let left = if put.way == Some(Way::CompostedFirst) { left_of_heap() } else { ONE };
        let off = plain::tenth_of_log(load.mass_spread());
        let mass = load.dry_per_area.t_ha();
        let month = put.date.month0() as usize;
        given.extend(load.composition.iter().map(|part| Given {
            month,
            part: *part,
            dry_t_ha: Ends { low: mass / off, typical: mass, high: mass * off }.map(|mass| mass * part.share),
            left,
        }));
    }
    let clay = site::texture(&scenario.soil, &mut assumed).0.unwrap_or(soil::TYPICAL_CLAY.value).percent();
    let first_month = first.month0() as usize;
    let stops = (years / 2).max(1);
    let [mut low, mut typical, mut high] = [Vec::new(), Vec::new(), Vec::new()];
    for (end, course) in End::ALL.into_iter().zip([&mut low, &mut typical, &mut high]) {
        let weather = Weather { modifiers: modifiers(scenario, clay, end), clay, first_month };
        *course = weather.course(&given, end, practice, years);
        if end == End::Typical {
            assumed.push(Assumed::number("decay_beside_9_c", mean(&weather.modifiers)));
        }
    }
    let weather = Weather { modifiers: modifiers(scenario, clay, End::Typical), clay, first_month };
    let stopped = weather.course(&given, End::Typical, practice, stops);
    let k2 = humus::YEARLY_LOSS.value;
    let becomes = given.iter().fold(Ends::default(), |sum, one| {
        let share = residue::humus_share(&one.part).with(one.left, |share, left| share * left);
        sum.with(share.with(one.dry_t_ha, |share, dry| share * dry), |sum, more| sum + more)
    });
    let carbon = low.iter().zip(&typical).zip(&high).map(|((low, typical), high)| Ends {
        low: *low,
        typical: *typical,
        high: *high,
    });
    let years = (1..).zip(carbon).zip(&stopped).map(|((year, carbon), stopped)| Year {
        year,
        carbon,
        humus: becomes
            .map(|input| humus::henin_dupuis(0.0, input / f64::from(every), 1.0, k2, f64::from(year))),
        stopped: *stopped,
    });
    let years = years.collect();
    let carbon_in =
        given.iter().fold(Ends::default(), |sum, one| sum.with(carbon_of(one), |sum, more| sum + more));
    Ok(LongView {
        practice,
        of: (first, last),
        loads: puts.len(),
        dry,
        carbon_in,
        on_top: puts.iter().any(|put| put.way.is_some_and(lies_on_top)),
        stock: carbon_of_soil(scenario, &mut assumed),
        depth: scenario.soil.depth,
        years,
        stops,
        assumed,
    })
}

const ONE: Ends = Ends { low: 1.0, typical: 1.0, high: 1.0 };

/// The loads of the twelve months up to the last one. What was only moved here from another place is no new carbon.
fn of_a_year(scenario: &Scenario, assumed: &mut Vec<Assumed>) -> Vec<PutDown> {
    let moved = |put: &PutDown| put.kept.as_ref().is_some_and(|kept| kept.taken.is_some());
    if scenario.put_down.iter().any(moved) {
        assumed.push(Assumed::text("moved_from_elsewhere", "not counted"));
    }
    let mut puts: Vec<PutDown> = scenario.put_down.iter().filter(|put| !moved(put)).cloned().collect();
    puts.sort_by_key(|put| put.date);
    let last = puts.last().map(|put| put.date);
    let since = last.and_then(|last| last.checked_sub_months(CalendarMonths::new(12)));
    puts.retain(|put| since.is_none_or(|since| put.date > since));
    puts
}

const fn lies_on_top(way: Way) -> bool {
    matches!(way, Way::OnTop | Way::OnTopOverNitrogen | Way::Path | Way::Ring)
}

/// What a heap leaves of carbon: where it loses most, least stays.
fn left_of_heap() -> Ends {
    let lost = loss::CARBON.value;
    Ends { low: 1.0 - lost.high, typical: 1.0 - lost.typical, high: 1.0 - lost.low }
}

fn carbon_of(given: &Given) -> Ends {
    let share = Ends {
        low: residue::carbon_share(&given.part, End::Low),
        typical: residue::carbon_share(&given.part, End::Typical),
        high: residue::carbon_share(&given.part, End::High),
    };
    share.with(given.left, |share, left| share * left).with(given.dry_t_ha, |share, dry| share * dry)
}

/// A place's year for the carbon in its soil.
struct Weather {
    modifiers: [f64; 12],
    clay: f64,
    first_month: usize,
}

impl Weather {
    /// Carbon more at the end of each year where the practice stops after some. Each part decays by itself: the model is
    /// linear.
    fn course(&self, given: &[Given], end: End, practice: Practice, stops: u32) -> Vec<f64> {
        let mut modifiers = self.modifiers;
        modifiers.rotate_left(self.first_month);
        let mut sum = vec![0.0; practice.years as usize];
        for one in given {
            let mut inputs = [Input::default(); 12];
            if let Some(input) = inputs.get_mut((one.month + 12 - self.first_month) % 12) {
                *input = residue::input(&one.part, end.of(carbon_of(one)), end);
            }
            let mut pools = Pools::default();
            for (year, sum) in (0..).zip(&mut sum) {
                let again = year < stops && year % practice.every == 0;
                let inputs = if again { inputs } else { [Input::default(); 12] };
                pools = rothc::years(pools, &modifiers, self.clay, &inputs, 1).pop().unwrap_or(pools);
                *sum += pools.total();
            }
        }
        sum
    }
}

/// The rate modifiers of the usual year. Where less stays it is warmer than was said, where more, cooler.
fn modifiers(scenario: &Scenario, clay: f64, end: End) -> [f64; 12] {
    let weather = &scenario.weather;
    let usual = site::usual_weather(weather, scenario.holding.latitude_deg);
    let told = weather.answers.seasons.map_or(0.0, Seasons::spread_c);
    let off = plain::tenth_of(plain::together(site::OWN_TEMPERATURE_SPREAD_C, told));
    let warmer = end.of(Ends { low: off, typical: 0.0, high: -off });
    let mut rain = if weather.cover { [0.0; 12] } else { usual.month_rain_mm };
    for water in &weather.water {
        if let Some(month) = rain.get_mut(water.date.month0() as usize) {
            *month += water.depth.mm();
        }
    }
    let mut evaporation_mm = usual.month_et0_mm_day;
    for (mm, days) in evaporation_mm.iter_mut().zip(MONTH_DAYS) {
        *mm *= days;
    }
    let months = Months {
        mean_c: usual.month_mean_c.map(|mean| mean + warmer),
        rain_mm: rain,
        evaporation_mm,
        covered: covered(scenario),
    };
    rothc::modifiers(&months, clay, scenario.soil.depth.cm(), weather.watered_enough)
}

/// The months in which a crop stands.
fn covered(scenario: &Scenario) -> [bool; 12] {
    /// Days of the longest month.
    const MONTH: usize = 28;
    let mut covered = [false; 12];
    for crop in &scenario.crops {
        let year = crop.started + Days::new(365);
        let days = crop.started.iter_days().take_while(|day| *day <= crop.ended.min(year));
        for day in days.step_by(MONTH) {
            if let Some(month) = covered.get_mut(day.month0() as usize) {
                *month = true;
            }
        }
    }
    covered
}

fn carbon_of_soil(scenario: &Scenario, assumed: &mut Vec<Assumed>) -> AreaMass {
    let ground = &scenario.soil;
    let density = ground.bulk_density.unwrap_or_else(|| {
        let usual = soil::TYPICAL_BULK_DENSITY.value;
        assumed.push(Assumed::number("bulk_density_g_cm3", usual.g_cm3()));
        usual
    });
    let carbon = Share::from_fraction(ground.organic_matter.fraction() / ORGANIC_MATTER_PER_CARBON.value);
    stock(carbon, density.g_cm3(), ground.depth, Share::from_fraction(0.0))
}

fn mean(of: &[f64; 12]) -> f64 {
    of.iter().sum::<f64>() / 12.0
}
