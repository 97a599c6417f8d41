//! `[weather]`, the file it may name, and `[[water]]`.

use std::path::Path;

use chrono::{Datelike, NaiveDate};
use kerfbook_acts::scenario::{Crop, Daily, Water, Weather, WeatherAnswers};
use kerfbook_science::plain::weather::Seasons;
use kerfbook_science::plain::{Rain, Summers, Watering, Winters};
use kerfbook_science::weather::{self as science, DailyError};

use crate::fault::{Complaint, Fault, Message, Spot};
use crate::toml_file::section::{Bounds, Section};
use crate::toml_file::text;

/// Longest weather file that is read: more than a century of days.
const MOST_BYTES: u64 = 8 * 1024 * 1024;

/// Mean of a month, from the coldest to the hottest place where people grow things; assumption.
pub(crate) const MONTH_MEAN: Bounds = Bounds::between(-40.0, 50.0, "°C");
/// Rain of a month.
pub(crate) const MONTH_RAIN: Bounds = Bounds::between(0.0, science::MOST_RAIN_MM_MONTH, "mm");
/// Reference evaporation, mean a day.
pub(crate) const MONTH_ET0: Bounds = Bounds::between(0.0, science::MOST_EVAPORATION_MM_DAY, "mm");
/// Mean daily range of temperature.
const MONTH_RANGE: Bounds = Bounds::between(0.0, 40.0, "°C");

const COVERS: [(&str, bool); 3] = [("roof", true), ("tunnel", true), ("none", false)];

/// What the section says, before the waterings are known.
pub(super) struct Read {
    month_mean_c: Option<[f64; 12]>,
    month_rain_mm: Option<[f64; 12]>,
    month_et0_mm_day: Option<[f64; 12]>,
    month_range_c: Option<[f64; 12]>,
    cover: bool,
    watering: Option<Watering>,
    /// The words that stand in for months.
    pub answers: WeatherAnswers,
    /// The weather file.
    pub daily: Option<Daily>,
    /// Evaporation is not given and must be estimated from temperature and latitude.
    pub estimates_evaporation: bool,
}

pub(super) fn read(section: &Section<'_>, scenario: &Path) -> Read {
    let daily = daily(section, scenario);
    // A file that cannot be used is noted already; then nothing is said about months it might have filled.
    let unusable = section.has("daily") && daily.is_none();
    let answers = answers(section);
    let told = |name| match name {
        "month_mean_c" => answers.seasons.is_some(),
        _ => answers.rain.is_some(),
    };
    let normals = |name, bounds, of_daily: fn(&Daily) -> Option<[f64; 12]>| {
        if section.has(name) {
            return section.months(name, bounds);
        }
        if daily.is_none() && told(name) {
            return None;
        }
        let Some(daily) = &daily else {
            if !unusable {
                section.missing(name, None);
            }
            return None;
        };
        let normals = of_daily(daily);
        if normals.is_none() {
            let what = Message::new("desk-normals-missing").text("key", name);
            section.complain(name, what, Some(section.advice(name)));
        }
        normals
    };
    let month_mean_c = normals("month_mean_c", MONTH_MEAN, |daily| month_means(daily.first, &daily.mean_c));
    let month_rain_mm = normals("month_rain_mm", MONTH_RAIN, month_rain);
    let of_daily = daily.as_ref().and_then(|daily| month_means(daily.first, daily.et0_mm.as_deref()?));
    let month_et0_mm_day = section.months("month_et0_mm_day", MONTH_ET0).or(of_daily);
    Read {
        month_mean_c,
        month_rain_mm,
        month_et0_mm_day,
        month_range_c: section.months("month_range_c", MONTH_RANGE),
        cover: if section.is_flag("cover") {
            section.flag("cover")
        } else {
            section.choice("cover", &COVERS).unwrap_or(false)
        },
        watering: section.choice("watered", &Watering::choices()),
        answers,
        estimates_evaporation: section.is_there() && !section.has("month_et0_mm_day") && of_daily.is_none(),
        daily,
    }
}

impl Read {
    /// `latitude_deg` says which half of the year is cold; crops are watered while they stand.
    pub(super) fn finish(
        self,
        mut water: Vec<Water>,
        latitude_deg: Option<f64>,
        crops: &[Crop],
    ) -> Option<Weather> {
        let south = latitude_deg.is_some_and(|latitude| latitude < 0.0);
        let seasons = self.answers.seasons.filter(|_| self.month_mean_c.is_none());
        let rain = self.answers.rain.filter(|_| self.month_rain_mm.is_none());
        if self.watering == Some(Watering::WhenLeavesHang) {
            water.extend(crops.iter().flat_map(Crop::watered_when_leaves_hang));
        }
        Some(Weather {
            month_mean_c: self.month_mean_c.or_else(|| Some(seasons?.month_mean_c(south)))?,
            month_rain_mm: self.month_rain_mm.or_else(|| Some([rain?.month_mm().typical; 12]))?,
            month_et0_mm_day: self.month_et0_mm_day,
            month_range_c: self.month_range_c,
            daily: self.daily,
            cover: self.cover,
            watered_enough: self.watering == Some(Watering::Enough),
            water,
            answers: WeatherAnswers { seasons, rain },
        })
    }
}

/// The months in words; where one of them is told in words, the others that have no figures are unknown.
fn answers(section: &Section<'_>) -> WeatherAnswers {
    let winters = section.choice("winters", &Winters::choices());
    let summers = section.choice("summers", &Summers::choices());
    let rain = section.choice("rain", &Rain::choices());
    for answer in ["winters", "summers"] {
        section.one_alone("month_mean_c", answer);
    }
    section.one_alone("month_rain_mm", "rain");
    let (of_warmth, any) = (winters.is_some() || summers.is_some(), section.has("rain"));
    let silent = |figures: &str| !section.has(figures) && (of_warmth || any);
    WeatherAnswers {
        seasons: silent("month_mean_c").then(|| Seasons {
            winters: winters.unwrap_or(Winters::Unknown),
            summers: summers.unwrap_or(Summers::Unknown),
        }),
        rain: silent("month_rain_mm").then(|| rain.unwrap_or(Rain::Unknown)),
    }
}

/// The weather file, whose path counts from the scenario's folder.
fn daily(section: &Section<'_>, scenario: &Path) -> Option<Daily> {
    let name = section.text("daily")?;
    let path = scenario.parent().unwrap_or(Path::new("")).join(name);
    let text = match text::read(&path, MOST_BYTES) {
        Ok(text) => text,
        Err(Fault::Input { complaints, .. }) => {
            for complaint in complaints {
                let what =
                    Message::new("desk-weather-file-whole").text("name", name).message("why", complaint.what);
                section.complain("daily", what, complaint.remedy);
            }
            return None;
        }
        Err(_) => return None,
    };
    match science::read_daily(&text) {
        Ok(daily) => Some(Daily {
            first: daily.first,
            mean_c: daily.mean_c,
            rain_mm: daily.rain_mm,
            et0_mm: daily.et0_mm,
        }),
        Err(error) => {
            let (what, remedy) = explain(&error);
            let spot = Some(Spot::line(&text, error.line()));
            section.complain_elsewhere(
                "daily",
                Complaint { file: Some(path), spot, key: String::new(), what, remedy },
            );
            None
        }
    }
}

/// What is wrong with a line of a weather file, and what to do.
fn explain(error: &DailyError) -> (Message, Option<Message>) {
    let columns = Some(Message::new("desk-weather-columns"));
    match error {
        DailyError::Heading { text, .. } => (Message::new("desk-day-heading").text("text", text), columns),
        DailyError::Separator { .. } => (Message::new("desk-day-separator"), columns),
        DailyError::Columns { found, expected, .. } => {
            let what = Message::new("desk-day-columns").text("found", found).text("expected", expected);
            (what, Some(Message::new("desk-day-comma-or-column")))
        }
        DailyError::DecimalComma { column, text, .. } => {
            let what = Message::new("desk-decimal-comma").text("key", column).text("value", text);
            (what, Some(Message::new("desk-write-number").text("line", text.replace(',', "."))))
        }
        DailyError::Date { text, .. } => {
            let what = Message::new("desk-needs-date").text("key", "date").text("value", text);
            (what, Some(Message::new("desk-write-like").text("line", "2026-04-15")))
        }
        DailyError::Number { column, text, .. } => {
            (Message::new("desk-needs-number").text("key", column).text("value", text), columns)
        }
        DailyError::OutOfRange { column, value, low, high, .. } => {
            let what = Message::new("desk-out-of-range")
                .text("key", column)
                .text("value", value)
                .text("low", low)
                .text("high", high);
            (what, None)
        }
        DailyError::Duplicate { date, .. } => {
            (Message::new("desk-day-twice").text("date", date), Some(Message::new("desk-keep-one-line")))
        }
        DailyError::Order { date, before, .. } => {
            let what = Message::new("desk-day-order").text("date", date).text("before", before);
            (what, Some(Message::new("desk-day-in-order")))
        }
        DailyError::Gap { missing, date, .. } => {
            let what = Message::new("desk-day-gap").text("missing", missing).text("date", date);
            (what, Some(Message::new("desk-day-every")))
        }
        DailyError::Empty { .. } => (Message::new("desk-day-none"), columns),
    }
}

/// Days of a month that must be there for its mean to count.
const DAYS_OF_A_MONTH: u32 = 28;

/// The mean of each calendar month, where all twelve are there.
fn month_means(first: NaiveDate, values: &[f64]) -> Option<[f64; 12]> {
    let mut sums = [0.0; 12];
    let mut counts = [0_u32; 12];
    for (day, value) in first.iter_days().zip(values) {
        let month = day.month0() as usize;
        *sums.get_mut(month)? += value;
        *counts.get_mut(month)? += 1;
    }
    let mut means = [0.0; 12];
    for (mean, (sum, count)) in means.iter_mut().zip(sums.into_iter().zip(counts)) {
        if count < DAYS_OF_A_MONTH {
            return None;
        }
        *mean = sum / f64::from(count);
    }
    Some(means)
}

/// The mean total of each calendar month.
fn month_rain(daily: &Daily) -> Option<[f64; 12]> {
    /// Mean lengths of the months, days.
    const LENGTHS: [f64; 12] = [31.0, 28.25, 31.0, 30.0, 31.0, 30.0, 31.0, 31.0, 30.0, 31.0, 30.0, 31.0];
    let mut rain = month_means(daily.first, &daily.rain_mm)?;
    for (total, days) in rain.iter_mut().zip(LENGTHS) {
        *total *= days;
    }
    Some(rain)
}

/// Notes a day that the weather file does not cover.
pub(super) fn check_date(section: &Section<'_>, key: &'static str, (first, last): (NaiveDate, NaiveDate)) {
    // A day that cannot be read is noted where it is read.
    let Some(date) = section.day(key) else { return };
    if !(first..=last).contains(&date) {
        let what = Message::new("desk-date-outside-weather")
            .text("key", section.key(key))
            .text("date", date)
            .text("first", first)
            .text("last", last);
        section.complain(key, what, Some(Message::new("desk-lengthen-weather")));
    }
}
