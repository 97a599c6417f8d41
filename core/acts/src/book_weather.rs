//! Weather as a book has it: usual months, days that were read, and what is taken where neither was.

use chrono::{Datelike, Days, NaiveDate};
use kerfbook_ledger::kind::{WeatherRead, WeatherSpan};
use kerfbook_ledger::projection::view::Said;
use kerfbook_science::plain::weather::{Seasons, TYPICAL_LATITUDE_DEG};
use kerfbook_science::plain::{Rain, Summers, Winters};
use kerfbook_science::source::{Source, Sourced};
use kerfbook_science::weather::{reference_evaporation, reference_evaporation_on};

use crate::assumed::Assumed;
use crate::calendar::day_of_year;
use crate::in_words::InWords;
use crate::scenario::{Daily, Weather, WeatherAnswers};

/// What was said of the usual year.
#[derive(Default)]
struct Told {
    winters: Option<Winters>,
    summers: Option<Summers>,
    rain: Option<Rain>,
}

impl Told {
    /// Later words replace earlier ones.
    fn read(&mut self, read: &WeatherRead) {
        self.winters = read.winters.map(Winters::said).or(self.winters);
        self.summers = read.summers.map(Summers::said).or(self.summers);
        self.rain = read.rain.map(Rain::said).or(self.rain);
    }

    /// Something is known of warmth.
    fn of_warmth(&self) -> bool {
        self.winters.is_some() || self.summers.is_some()
    }

    fn seasons(&self) -> Seasons {
        Seasons {
            winters: self.winters.unwrap_or(UNKNOWN_SEASONS.winters),
            summers: self.summers.unwrap_or(UNKNOWN_SEASONS.summers),
        }
    }
}

/// A year of which nobody said anything.
const UNKNOWN_SEASONS: Seasons = Seasons { winters: Winters::Unknown, summers: Summers::Unknown };
/// Reference evaporation of a temperate year, mm a day: the place of the model's evidence table.
const TEMPERATE_ET0_MM: Sourced<[f64; 12]> =
    Sourced::new([0.5, 0.9, 1.7, 2.7, 3.7, 4.3, 4.5, 3.9, 2.7, 1.5, 0.8, 0.4], Source::ASSUMPTION);
/// Most days between two readings of a gauge over which what fell is in the later one.
const GAUGE_DAYS: Sourced<i64> = Sourced::new(7, Source::ASSUMPTION);
/// Mean temperature of the air at bud break, °C.
const BUD_BREAK_C: Sourced<f64> = Sourced::new(10.0, Source::ASSUMPTION);

/// Whether a reading's figures are such as weather has: as far as the model takes them.
pub(crate) fn can_be(read: &WeatherRead) -> bool {
    let most_rain = match read.span {
        WeatherSpan::Day => 2_000_000,
        WeatherSpan::UsualMonth | WeatherSpan::UsualYear => 5_000_000,
    };
    read.mean_centi_c.is_none_or(|mean| (-6_000..=6_000).contains(&mean))
        && read.range_centi_c.is_none_or(|range| range <= 6_000)
        && read.rain_ml_m2.is_none_or(|rain| rain <= most_rain)
        && read.evaporation_ml_m2_day.is_none_or(|evaporation| evaporation <= 30_000)
}

/// The weather of a place from readings, the later winning over the earlier.
pub(crate) fn weather<'a>(
    read: impl Iterator<Item = &'a Said<WeatherRead>>,
    latitude_deg: Option<f64>,
    assumed: &mut Vec<Assumed>,
) -> Weather {
    let mut months = Months::default();
    let mut told = Told::default();
    let mut days: std::collections::BTreeMap<NaiveDate, WeatherRead> = std::collections::BTreeMap::new();
    for one in read {
        let date = one.date.naive();
        match one.body.span {
            WeatherSpan::UsualMonth => months.read(date.month0() as usize, &one.body),
            WeatherSpan::UsualYear => told.read(&one.body),
            WeatherSpan::Day => {
                let known = days.entry(date).or_insert(WeatherRead::of(WeatherSpan::Day));
                known.mean_centi_c = one.body.mean_centi_c.or(known.mean_centi_c);
                known.range_centi_c = one.body.range_centi_c.or(known.range_centi_c);
                known.rain_ml_m2 = one.body.rain_ml_m2.or(known.rain_ml_m2);
                known.evaporation_ml_m2_day = one.body.evaporation_ml_m2_day.or(known.evaporation_ml_m2_day);
            }
        }
    }
    let mut weather = months.normals(latitude_deg, &told, assumed);
    weather.daily = daily(&days, &weather, latitude_deg, assumed);
    weather
}

/// Usual months as far as they were read.
#[derive(Default)]
struct Months {
    mean_c: [Option<f64>; 12],
    range_c: [Option<f64>; 12],
    rain_mm: [Option<f64>; 12],
    et0_mm: [Option<f64>; 12],
}

impl Months {
    fn read(&mut self, month: usize, read: &WeatherRead) {
        let set = |of: &mut [Option<f64>; 12], value: Option<f64>| {
            if let (Some(to), Some(value)) = (of.get_mut(month), value) {
                *to = Some(value);
            }
        };
        set(&mut self.mean_c, read.mean_centi_c.map(|mean| f64::from(mean) / 100.0));
        set(&mut self.range_c, read.range_centi_c.map(|range| f64::from(range) / 100.0));
        set(&mut self.rain_mm, read.rain_ml_m2.map(|rain| f64::from(rain) / 1000.0));
        set(&mut self.et0_mm, read.evaporation_ml_m2_day.map(|mm| f64::from(mm) / 1000.0));
    }

    fn normals(&self, latitude_deg: Option<f64>, told: &Told, assumed: &mut Vec<Assumed>) -> Weather {
        let south = latitude_deg.is_some_and(|latitude| latitude < 0.0);
        let mut or_usual = |key: &'static str, of: &[Option<f64>; 12], usual: [f64; 12], told: bool| {
            whole(of).unwrap_or_else(|| {
                let bridged = bridged(of);
                if bridged.is_some() {
                    assumed.push(Assumed::text(key, "between known months"));
                } else if !told {
                    assumed.push(Assumed::text(key, "nothing known"));
                }
                bridged.unwrap_or(usual)
            })
        };
        let (seasons, of_rain) = (told.seasons(), told.rain.unwrap_or(Rain::Unknown));
        let rain = [of_rain.month_mm().typical; 12];
        let month_mean_c =
            or_usual("month_mean_c", &self.mean_c, seasons.month_mean_c(south), told.of_warmth());
        let month_rain_mm = or_usual("month_rain_mm", &self.rain_mm, rain, told.rain.is_some());
        let evaporation = whole(&self.et0_mm).or_else(|| bridged(&self.et0_mm));
        let month_et0_mm_day = match (evaporation, latitude_deg) {
            (Some(known), _) => Some(known),
            // It follows from temperature and latitude.
            (None, Some(_)) => None,
            // Words about warmth say more of evaporation than a temperate year does.
            (None, None) if told.of_warmth() => {
                let latitude = TYPICAL_LATITUDE_DEG.value;
                assumed.push(Assumed::number("latitude_deg", latitude));
                Some(reference_evaporation(latitude, &month_mean_c, None))
            }
            (None, None) => Some(or_usual("month_et0_mm_day", &self.et0_mm, TEMPERATE_ET0_MM.value, false)),
        };
        Weather {
            month_mean_c,
            month_rain_mm,
            month_et0_mm_day,
            month_range_c: whole(&self.range_c).or_else(|| bridged(&self.range_c)),
            daily: None,
            // The place says whether it has a roof.
            cover: false,
            watered_enough: false,
            water: Vec::new(),
            answers: WeatherAnswers {
                // The runs spread by what was said; most where nothing was.
                seasons: bridged(&self.mean_c).is_none().then_some(seasons),
                rain: bridged(&self.rain_mm).is_none().then_some(of_rain),
            },
        }
    }
}

fn whole(of: &[Option<f64>; 12]) -> Option<[f64; 12]> {
    let mut values = [0.0; 12];
    for (value, known) in values.iter_mut().zip(of) {
        *value = (*known)?;
    }
    Some(values)
}

/// Months that are not known on a straight line between those that are; none where fewer than four are.
fn bridged(of: &[Option<f64>; 12]) -> Option<[f64; 12]> {
    /// Seasons of a year.
    const FEWEST: usize = 4;
    if of.iter().flatten().count() < FEWEST {
        return None;
    }
    let at = |month: usize| of.get(month % 12).copied().flatten();
    let mut values = [0.0; 12];
    for (month, value) in values.iter_mut().enumerate() {
        let back = (0..12).find_map(|steps| at(month + 12 - steps).map(|known| (steps, known)))?;
        let on = (0..12).find_map(|steps| at(month + steps).map(|known| (steps, known)))?;
        let width = (back.0 + on.0) as f64;
        *value = if width > 0.0 { back.1 + (on.1 - back.1) * back.0 as f64 / width } else { back.1 };
    }
    Some(values)
}

/// Days that were read in place of those of the usual year, from the first to the last of them.
fn daily(
    days: &std::collections::BTreeMap<NaiveDate, WeatherRead>,
    usual: &Weather,
    latitude_deg: Option<f64>,
    assumed: &mut Vec<Assumed>,
) -> Option<Daily> {
    let (first, last) = (*days.keys().next()?, *days.keys().next_back()?);
    let count = u32::try_from((last - first).num_days() + 1).ok()?;
    let model = crate::site::usual_weather(usual, latitude_deg);
    let mut made = Daily { first, mean_c: Vec::new(), rain_mm: Vec::new(), et0_mm: None };
    let mut et0 = Vec::new();
    for day in first.iter_days().take(count as usize) {
        let one = model.usual_days(day_of_year(day), 1);
        let value = |of: &[f64]| of.first().copied().unwrap_or(0.0);
        let read = days.get(&day);
        let mean = read.and_then(|read| read.mean_centi_c).map(|mean| f64::from(mean) / 100.0);
        let range = read.and_then(|read| read.range_centi_c).map(|range| f64::from(range) / 100.0);
        let given = read.and_then(|read| read.evaporation_ml_m2_day).map(|mm| f64::from(mm) / 1000.0);
        // Warm days dry more than usual ones: evaporation follows where warmth and its range were read.
        let followed = mean.zip(range).zip(latitude_deg).map(|((mean, range), latitude)| {
            reference_evaporation_on(latitude, day_of_year(day), mean, Some(range))
        });
        made.mean_c.push(mean.unwrap_or_else(|| value(&one.mean_c)));
        made.rain_mm.push(value(&one.rain_mm));
        et0.push(given.or(followed).unwrap_or_else(|| value(&one.et0_mm)));
    }
    made.et0_mm = Some(et0);
    rain(days, &mut made, assumed);
    Some(made)
}

/// Rain that was read. Between two readings not more than a week apart nothing else fell: it is in the later one.
fn rain(
    days: &std::collections::BTreeMap<NaiveDate, WeatherRead>,
    made: &mut Daily,
    assumed: &mut Vec<Assumed>,
) {
    let mut before: Option<NaiveDate> = None;
    let first = made.first;
    let mut set = |day: NaiveDate, mm: f64| {
        let place = usize::try_from((day - first).num_days()).ok();
        if let Some(to) = place.and_then(|place| made.rain_mm.get_mut(place)) {
            *to = mm;
        }
    };
    for (day, read) in days {
        let Some(rain) = read.rain_ml_m2 else { continue };
        if let Some(earlier) = before.filter(|earlier| (*day - *earlier).num_days() <= GAUGE_DAYS.value) {
            let mut dry = earlier + Days::new(1);
            while dry < *day {
                set(dry, 0.0);
                dry = dry + Days::new(1);
                assumed.push(Assumed::number("days_between_gauge_readings", GAUGE_DAYS.value as f64));
            }
        }
        set(*day, f64::from(rain) / 1000.0);
        before = Some(*day);
    }
}

/// The day of bud break in the season that a day belongs to: the usual year warms beyond [`BUD_BREAK_C`]. Where it never
/// does, or never cools, the day itself.
pub(crate) fn bud_break(month_mean_c: &[f64; 12], day: NaiveDate) -> NaiveDate {
    /// Days of a mean month.
    const MONTH: f64 = 30.44;
    /// Days of a season, as the windows of uptake take.
    const SEASON: i64 = 150;
    let at = |month: usize| month_mean_c.get(month % 12).copied().unwrap_or(0.0);
    let crossing =
        (0..12).find(|month| at(month + 11) < BUD_BREAK_C.value && at(*month) >= BUD_BREAK_C.value);
    let Some(month) = crossing else { return day };
    // The mean of a month stands at its middle.
    let (low, high) = (at(month + 11), at(month));
    let part = (BUD_BREAK_C.value - low) / (high - low);
    let in_year = |year: i32| {
        let middle = NaiveDate::from_ymd_opt(year, u32::try_from(month).unwrap_or(0) + 1, 15)?;
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "at most a month")]
        let back = ((1.0 - part) * MONTH) as u64;
        middle.checked_sub_days(Days::new(back))
    };
    // The latest bud break that is not after the day, within the season; else the next.
    let candidates = [day.year() - 1, day.year(), day.year() + 1].into_iter().filter_map(in_year);
    candidates.into_iter().find(|bud| (*bud - day).num_days() > -SEASON).unwrap_or(day)
}
