//! Frozen forecasts against what was read later: how often a reading lay inside the range, and how often it should have.
//!
//! Every reading is held against the forecast that was frozen last before it, so that it counts once.

use chrono::NaiveDate;
use kerfbook_ledger::kind::{ForecastFrozen, LeafRead};
use kerfbook_ledger::projection::view::Said;
use kerfbook_ledger::{Body, Book, Current, EntryId, PlaceView};
use kerfbook_science::nitrogen::{Input, nitrate_within};
use kerfbook_science::units::{Density, Length};

use crate::error::ActError;
use crate::soil_test::SoilTest;

/// A crop under this part of its need is hungry: the model's definition.
const HUNGRY_UNDER: f64 = 0.9;
/// Part of the truths that a range from P10 to P90 holds.
const INSIDE: f64 = 0.8;
/// The same where its late end never comes.
const INSIDE_ONE_END: f64 = 0.9;
/// A look at the leaves this long before a crop ends still tells that hunger did not come, days (assumption: four weeks,
/// as long as the first look waits).
const LAST_LOOK_DAYS: i64 = 28;
/// Depth of the root zone where neither the forecast's inputs nor the place say it, cm: a spade's depth (common
/// practice).
const DEPTH_CM: f64 = 25.0;
/// Days between the figures of a frozen forecast.
const WEEK: f64 = 7.0;

/// What was read, beside what was foretold.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum What {
    /// Mineral nitrogen of the root zone, kg/ha.
    Mineral {
        /// What was read.
        read: f64,
        /// One run in ten was below.
        p10: f64,
        /// One run in ten was above.
        p90: f64,
    },
    /// The first hungry day, in days after the forecast's first; none where it never came.
    Hungry {
        /// Last day on which leaves were read and had enough; the day of freezing where none were.
        after: f64,
        /// First day on which they were read hungry.
        by: Option<f64>,
        /// One run in ten was hungry before it.
        p10: Option<f64>,
        /// Nine runs in ten were hungry before it.
        p90: Option<f64>,
    },
}

/// One judgement.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Line {
    /// The place.
    pub place: EntryId,
    /// The frozen forecast.
    pub forecast: EntryId,
    /// The reading that decided it.
    pub reading: EntryId,
    /// Its day.
    pub date: NaiveDate,
    /// What was read and foretold.
    pub what: What,
    /// It lay inside.
    pub hit: bool,
    /// Chance that it should have.
    pub expected: f64,
}

/// Judgements counted.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Tally {
    /// Inside.
    pub hits: u32,
    /// In all.
    pub of: u32,
    /// How many would be inside if the forecasts are right.
    pub expected: f64,
    /// Standard deviation of that number.
    pub give_or_take: f64,
}

impl Tally {
    fn of<'a>(lines: impl Iterator<Item = &'a Line>) -> Self {
        let mut tally = Self::default();
        let mut variance = 0.0;
        for line in lines {
            tally.hits += u32::from(line.hit);
            tally.of += 1;
            tally.expected += line.expected;
            variance += line.expected * (1.0 - line.expected);
        }
        Self { give_or_take: f64::sqrt(variance), ..tally }
    }
}

/// All frozen forecasts of a holding, judged.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Judging {
    /// By place, then day.
    pub lines: Vec<Line>,
}

impl Judging {
    /// Soil tests.
    pub fn mineral(&self) -> Tally {
        Tally::of(self.lines.iter().filter(|line| matches!(line.what, What::Mineral { .. })))
    }

    /// Leaves.
    pub fn hungry(&self) -> Tally {
        Tally::of(self.lines.iter().filter(|line| matches!(line.what, What::Hungry { .. })))
    }
}

/// A frozen forecast that stands.
struct Frozen {
    entry: EntryId,
    date: NaiveDate,
    body: ForecastFrozen,
    /// Depth of the root zone it was made for.
    zone: Length,
}

/// Judges every frozen forecast of a book.
///
/// # Errors
/// A book that cannot be read.
pub fn judge(book: &Book) -> Result<Judging, ActError> {
    let mut judging = Judging::default();
    for place in book.places()?.into_iter().filter(|place| !place.withdrawn()) {
        judging.lines.extend(of_place(book, &place)?);
    }
    Ok(judging)
}

/// Judges the frozen forecasts of one place.
///
/// # Errors
/// A book that cannot be read.
pub fn of_place(book: &Book, place: &PlaceView) -> Result<Vec<Line>, ActError> {
    let frozen = frozen(book, place)?;
    let mut lines = Vec::new();
    let density = place
        .soil_tests
        .iter()
        .rev()
        .find_map(|test| test.body.bulk_density_g_m3)
        .map(|density| Density::from_kg_m3(f64::from(density) / 1000.0));
    for test in &place.soil_tests {
        let date = test.date.naive();
        let Some(forecast) = last_before(&frozen, date).filter(|_| test.body.plain.is_none()) else {
            continue;
        };
        let read = SoilTest::of_entry(date, &test.body).of_zone(forecast.zone, density, &mut Vec::new());
        let weeks = &forecast.body.weeks;
        let ends = (forecast.week(date, &weeks.mineral_p10.0), forecast.week(date, &weeks.mineral_p90.0));
        let (Some(read), (Some(p10), Some(p90))) = (read, ends) else { continue };
        let read = read.kg_ha();
        lines.push(Line {
            place: place.id,
            forecast: forecast.entry,
            reading: test.entry,
            date,
            what: What::Mineral { read, p10, p90 },
            hit: (p10..=p90).contains(&read),
            expected: nitrate_within(p10, p90),
        });
    }
    for (index, forecast) in frozen.iter().enumerate() {
        let until = frozen.get(index + 1).map(|next| next.date);
        let reads = place.leaf_reads.iter().filter(|read| {
            let date = read.date.naive();
            date > forecast.date && until.is_none_or(|until| date <= until)
        });
        lines.extend(hungry(place, forecast, reads));
    }
    lines.sort_by_key(|line| line.date);
    Ok(lines)
}

/// The frozen forecasts of a place that stand, in order of days.
fn frozen(book: &Book, place: &PlaceView) -> Result<Vec<Frozen>, ActError> {
    let mut found = Vec::new();
    for entry in &place.forecasts {
        let Some(current) = book.current(*entry)?.filter(Current::counts) else { continue };
        let date = current.date.naive();
        let Body::ForecastFrozen(body) = current.body else { continue };
        let inputs = book.text(body.inputs)?.and_then(|text| serde_json::from_str::<Input>(&text).ok());
        let rooting = place.rooting_depth_mm.map(|mm| Length::from_mm(f64::from(mm)));
        let zone = inputs.map(|input| Length::from_cm(input.soil.depth_cm)).or(rooting);
        found.push(Frozen { entry: *entry, date, body, zone: zone.unwrap_or(Length::from_cm(DEPTH_CM)) });
    }
    found.sort_by_key(|frozen| frozen.date);
    Ok(found)
}

/// The forecast that was frozen last before a day.
fn last_before(frozen: &[Frozen], date: NaiveDate) -> Option<&Frozen> {
    frozen.iter().rfind(|frozen| frozen.date < date)
}

impl Frozen {
    /// Days gone by the evening of a date.
    fn day(&self, date: NaiveDate) -> f64 {
        ((date - self.body.first.naive()).num_days() + 1) as f64
    }

    /// A weekly figure on the evening of a date, kg/ha, between the weeks on a straight line; none outside them.
    fn week(&self, date: NaiveDate, hundredths: &[i32]) -> Option<f64> {
        let at = self.day(date) / WEEK;
        if at < 0.0 {
            return None;
        }
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "not below 0")]
        let before = at as usize;
        let first = f64::from(*hundredths.get(before)?) / 100.0;
        let part = at - before as f64;
        let Some(second) = hundredths.get(before + 1) else { return (part <= 0.0).then_some(first) };
        Some(first + part * (f64::from(*second) / 100.0 - first))
    }
}

/// Leaves against the hungry day that was foretold; nothing as long as they do not tell whether it was right.
fn hungry<'a>(
    place: &PlaceView,
    forecast: &Frozen,
    reads: impl Iterator<Item = &'a Said<LeafRead>>,
) -> Option<Line> {
    let foretold = |day: Option<u32>| day.map(f64::from);
    let (p10, p90) = (foretold(forecast.body.hungry_p10), foretold(forecast.body.hungry_p90));
    let mut after = forecast.day(forecast.date);
    let (mut last, mut by) = (None, None);
    for read in reads {
        let Some(nutrition) = read.body.nutrition_bp else { continue };
        let date = read.date.naive();
        last = Some((read.entry, date));
        if f64::from(nutrition) / 1e4 < HUNGRY_UNDER {
            by = Some(forecast.day(date));
            break;
        }
        after = forecast.day(date);
    }
    let (reading, date) = last?;
    // A day that never comes lies behind all days.
    let (early, late) = (p10.unwrap_or(f64::INFINITY), p90.unwrap_or(f64::INFINITY));
    let hit = match by {
        // Seen between two looks so far apart that the whole range lies between them: that shows nothing.
        Some(by) if after < early && by > late => return None,
        Some(by) => by >= early && after < late,
        None if after >= late => false,
        None if looked_to_the_end(place, date) => late.is_infinite(),
        None => return None,
    };
    let expected = if late.is_infinite() { INSIDE_ONE_END } else { INSIDE };
    let what = What::Hungry { after, by, p10, p90 };
    Some(Line { place: place.id, forecast: forecast.entry, reading, date, what, hit, expected })
}

/// A crop ended within [`LAST_LOOK_DAYS`] of the last look at its leaves: hunger did not come.
fn looked_to_the_end(place: &PlaceView, last: NaiveDate) -> bool {
    place.crops.iter().filter_map(|crop| crop.ended).any(|ended| {
        let days = (ended.naive() - last).num_days();
        (0..=LAST_LOOK_DAYS).contains(&days)
    })
}
