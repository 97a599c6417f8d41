//! Weather of the holding, or of a place with a gauge of its own: days that were read, and the usual year.

use chrono::{Datelike, NaiveDate};
use kerfbook_ledger::kind::{WeatherRead, WeatherSpan};
use kerfbook_ledger::{Book, Draft, EntryId};
use kerfbook_science::plain::{Rain, Summers, Winters};
use kerfbook_science::units::{Length, Temperature};
use kerfbook_science::weather;

use crate::error::ActError;
use crate::figure::{between, whole_u32};
use crate::in_words::InWords;
use crate::moment::Moment;
use crate::take_in_load::first;

/// A day that was read.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct NewWeather {
    /// A place with its own gauge; the whole holding where absent.
    pub place: Option<EntryId>,
    /// Mean temperature.
    pub mean: Option<Temperature>,
    /// Warmest less coldest, degrees C.
    pub range_c: Option<f64>,
    /// Rain of the day.
    pub rain: Option<Length>,
    /// Reference evaporation of the day.
    pub evaporation: Option<Length>,
}

/// The usual year.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct UsualYear {
    /// Mean temperature of each month, degrees C.
    pub month_mean_c: [f64; 12],
    /// Rain of each month in all, mm.
    pub month_rain_mm: [f64; 12],
    /// Reference evaporation, mean a day, mm.
    pub month_et0_mm_day: Option<[f64; 12]>,
    /// Mean daily range of temperature, degrees C.
    pub month_range_c: Option<[f64; 12]>,
}

/// Writes a day's weather.
///
/// # Errors
/// A place that is not there, no figure or one that cannot be, or a book that cannot be written.
pub fn read(book: &mut Book, new: &NewWeather, moment: Moment) -> Result<EntryId, ActError> {
    let about = match new.place {
        Some(place) => book.place(place)?.ok_or(ActError::NotThere { what: "place" })?.id,
        None => holding(book)?,
    };
    between("mean_c", new.mean.map(Temperature::c), -60.0, 60.0)?;
    between("range_c", new.range_c, 0.0, 60.0)?;
    between("rain_mm", new.rain.map(Length::mm), 0.0, 2_000.0)?;
    between("et0_mm", new.evaporation.map(Length::mm), 0.0, 30.0)?;
    let body = WeatherRead {
        mean_centi_c: new.mean.map(|mean| centi(mean.c())),
        range_centi_c: new.range_c.map(|range| whole_u32(range * 100.0)),
        rain_ml_m2: new.rain.map(|rain| whole_u32(rain.mm() * 1000.0)),
        evaporation_ml_m2_day: new.evaporation.map(|water| whole_u32(water.mm() * 1000.0)),
        ..WeatherRead::of(WeatherSpan::Day)
    };
    if body.mean_centi_c.is_none()
        && body.range_centi_c.is_none()
        && body.rain_ml_m2.is_none()
        && body.evaporation_ml_m2_day.is_none()
    {
        return Err(ActError::NothingMeasured);
    }
    first(&book.append(&[moment.draft(body)?.about(about)], &[], moment.wall_ms)?)
}

/// Writes the holding's usual year: twelve entries in one go, each dated on the first of its month in the year of the
/// moment. A later year's replace them.
///
/// # Errors
/// Figures that no month has, or a book that cannot be written.
pub fn usual_year(book: &mut Book, year: &UsualYear, moment: Moment) -> Result<Vec<EntryId>, ActError> {
    weather::check_normals(&year.month_mean_c, &year.month_rain_mm, year.month_et0_mm_day.as_ref())
        .map_err(|error| ActError::Weather(error.to_string()))?;
    for range in year.month_range_c.iter().flatten() {
        between("month_range_c", Some(*range), 0.0, 60.0)?;
    }
    let about = holding(book)?;
    let mut drafts: Vec<Draft> = Vec::with_capacity(12);
    for (at, month) in (0..12_usize).zip(1..) {
        let of = |months: &[f64; 12]| months.get(at).copied().unwrap_or_default();
        let date = NaiveDate::from_ymd_opt(moment.date.year(), month, 1).unwrap_or(moment.date);
        let body = WeatherRead {
            mean_centi_c: Some(centi(of(&year.month_mean_c))),
            range_centi_c: year.month_range_c.as_ref().map(|range| whole_u32(of(range) * 100.0)),
            rain_ml_m2: Some(whole_u32(of(&year.month_rain_mm) * 1000.0)),
            evaporation_ml_m2_day: year.month_et0_mm_day.as_ref().map(|et0| whole_u32(of(et0) * 1000.0)),
            ..WeatherRead::of(WeatherSpan::UsualMonth)
        };
        drafts.push(moment.on(date).draft(body)?.about(about));
    }
    Ok(book.append(&drafts, &[], moment.wall_ms)?)
}

/// What a usual year is like, in words.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct YearInWords {
    /// A place with a weather of its own; the whole holding where absent.
    pub place: Option<EntryId>,
    /// What winters are like.
    pub winters: Option<Winters>,
    /// What summers are like.
    pub summers: Option<Summers>,
    /// How much rain falls.
    pub rain: Option<Rain>,
}

/// Writes what a usual year is like; months that were measured go before it.
///
/// # Errors
/// A place that is not there, nothing said, or a book that cannot be written.
pub fn year_in_words(book: &mut Book, year: &YearInWords, moment: Moment) -> Result<EntryId, ActError> {
    let about = match year.place {
        Some(place) => book.place(place)?.ok_or(ActError::NotThere { what: "place" })?.id,
        None => holding(book)?,
    };
    let body = WeatherRead {
        winters: year.winters.map(InWords::kept),
        summers: year.summers.map(InWords::kept),
        rain: year.rain.map(InWords::kept),
        ..WeatherRead::of(WeatherSpan::UsualYear)
    };
    if body == WeatherRead::of(WeatherSpan::UsualYear) {
        return Err(ActError::NothingMeasured);
    }
    first(&book.append(&[moment.draft(body)?.about(about)], &[], moment.wall_ms)?)
}

fn holding(book: &Book) -> Result<EntryId, ActError> {
    Ok(book.holding_view()?.ok_or(ActError::NotThere { what: "holding" })?.id)
}

/// Hundredths of a degree.
#[expect(clippy::cast_possible_truncation, reason = "between -6,000 and 6,000")]
fn centi(degrees: f64) -> i32 {
    (degrees * 100.0).round() as i32
}
