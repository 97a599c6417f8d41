//! A place through time as its book has it: everything that came to it until a day, as one input of the model.
//!
//! Reading order: [`Season`], [`season`]; then `book_place` (one place), `book_weather` and
//! `book_soil` (what the book says of weather and soil).

use std::sync::OnceLock;

use chrono::NaiveDate;
use kerfbook_ledger::projection::view::Flagged;
use kerfbook_ledger::{Book, EntryId};
use kerfbook_science::nitrogen::{Crop as ModelCrop, Input, Sample};

use crate::assumed::Assumed;
use crate::book_place::{Described, Reader};
use crate::calendar::Calendar;
use crate::error::ActError;
use crate::forecast::{self, Forecast};
use crate::laid::{LayerIs, laid};
use crate::scenario::{Crop, Scenario};
use crate::side_by_side::side_by_side;
use crate::update::{self, Left, Sampled, Weighed};

/// How far the forecast of a place runs on from its day where nobody says, days: a season.
pub const AHEAD_DAYS: u32 = 200;

/// A layer of the model and what made it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Laying {
    /// What it is.
    pub is: LayerIs,
    /// The putting-down, the feed, or the end of the crop that left it.
    pub entry: EntryId,
    /// The batch of a load.
    pub batch: Option<EntryId>,
}

/// An entry that is in no sum, and why. It stays in the book.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct LeftOut {
    /// Which.
    pub entry: EntryId,
    /// Why.
    pub why: Why,
}

/// Why an entry is in no sum, or not whole.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Why {
    /// Nothing says how much it was.
    NoAmount,
    /// A material or feed that the tables do not know, or that is no residue.
    NotInTable,
    /// A material that is refused for every growing place.
    Refused,
    /// A crop that ended before it started.
    EndsBeforeStart,
    /// Soil worked on a path or a yard.
    NothingGrows,
    /// More was lifted than lay there: counted as far as there was something.
    LiftedTooMuch,
    /// Of the layer nothing lay there that day.
    NothingLay,
    /// Lifted material whose origin leads back to itself, or too far back.
    Circle,
    /// A reading without the figure that would count.
    NoFigure,
    /// Answered by eye: it sets a start, it weighs no runs.
    PlainAnswer,
    /// A draw test of material that had lain on a place: the model's jar holds fresh material.
    OldMaterial,
    /// A soil test too long before the first day to say how it began.
    Stale,
    /// Before the first putting-down, feed or crop: there was nothing to change.
    BeforeFirst,
    /// What it names is not in the book.
    NotThere,
    /// A figure that cannot be: a wrong unit, most likely.
    Impossible,
}

/// A place up to a day, and on to a horizon.
#[derive(Debug, Clone, PartialEq)]
pub struct Season {
    /// Which place.
    pub place: EntryId,
    /// The day asked about: entries of later days are not in it.
    pub on: NaiveDate,
    /// Which date is day 0.
    pub calendar: Calendar,
    /// The morning of that day as a day of results.
    pub today: u32,
    /// The place as a scenario.
    pub scenario: Scenario,
    /// The model's input. Its top keys are this place's, also where stages bring material from elsewhere.
    pub input: Input,
    /// The same with no load: its crops, feeds and what its crops left.
    pub bare: Input,
    /// One a layer of the input.
    pub layers: Vec<Laying>,
    /// One a crop of the input; crops that are only expected come after them.
    pub crops: Vec<EntryId>,
    /// For each crop of the input, the crop of the scenario that it is.
    pub(crate) grown: Vec<usize>,
    /// One a reading of the input.
    pub readings: Vec<EntryId>,
    /// What nobody wrote down.
    pub assumed: Vec<Assumed>,
    /// Entries about which something has to be said: of the place, its batches, and where its material came from.
    pub flagged: Vec<Flagged>,
    /// Entries that are in no sum.
    pub left_out: Vec<LeftOut>,
    /// The runs as the readings weigh them, once they are worked out: with fewest runs and seed.
    sampled: OnceLock<(u32, u64, Sampled)>,
}

/// Reads a place from the book up to a day, and sets it up for so many days beyond.
///
/// # Errors
/// A place that is not in the book, or of which it knows nothing that begins a season ([`ActError::NoLoad`]); a book
/// that cannot be read.
pub fn season(book: &Book, place: EntryId, on: NaiveDate, horizon: u32) -> Result<Season, ActError> {
    let mut reader = Reader::new(book, on)?;
    let Described { scenario, loads, batches, crops, feeds, first, readings } = reader.place(place, on)?;
    let calendar = Calendar::from(first.ok_or(ActError::NoLoad)?);
    let today = u32::try_from(calendar.day(on)).unwrap_or(0);
    let days = today.saturating_add(horizon).max(1);
    let mut assumed = reader.assumed;
    let all = laid(&scenario, calendar, days, &mut assumed)?;
    let of = |list: &[EntryId], index: usize| list.get(index).copied().unwrap_or(place);
    let layers: Vec<Laying> = all
        .layers
        .iter()
        .map(|is| match *is {
            LayerIs::Load(load) | LayerIs::With(load) => {
                Laying { is: *is, entry: of(&loads, load), batch: batches.get(load).copied() }
            }
            LayerIs::Feed(feed) => Laying { is: *is, entry: of(&feeds, feed), batch: None },
            LayerIs::Residue(crop) => Laying { is: *is, entry: of(&crops, crop), batch: None },
        })
        .collect();
    let mut season = Season {
        place,
        on,
        calendar,
        today,
        input: all.input,
        bare: all.bare,
        crops: all.crops.iter().map(|crop| of(&crops, *crop)).collect(),
        grown: all.crops,
        layers,
        readings: Vec::new(),
        scenario,
        assumed,
        flagged: reader.flagged,
        left_out: reader.left_out,
        sampled: OnceLock::new(),
    };
    season.weigh(&readings);
    once(&mut season.assumed);
    Ok(season)
}

/// The same; none where nothing has happened yet.
///
/// # Errors
/// As [`season`], but for a season that has not begun.
pub fn begun(book: &Book, place: EntryId, on: NaiveDate, horizon: u32) -> Result<Option<Season>, ActError> {
    match season(book, place, on, horizon) {
        Ok(season) => Ok(Some(season)),
        Err(ActError::NoLoad) => Ok(None),
        Err(error) => Err(error),
    }
}

/// A season and its forecast.
///
/// # Errors
/// As [`season`], and what the model refuses.
pub fn forecast_of(
    book: &Book,
    place: EntryId,
    on: NaiveDate,
    horizon: u32,
    runs: u32,
    seed: u64,
) -> Result<(Season, Forecast), ActError> {
    let season = season(book, place, on, horizon)?;
    let forecast = season.forecast(runs, seed)?;
    Ok((season, forecast))
}

/// Seasons and forecasts of many places, in their order; none where nothing has happened yet.
///
/// # Errors
/// As [`forecast_of`].
pub fn forecasts_of(
    book: &Book,
    places: &[EntryId],
    on: NaiveDate,
    horizon: u32,
    runs: u32,
    seed: u64,
) -> Result<Vec<Option<(Season, Forecast)>>, ActError> {
    let begun = |place: &EntryId| begun(book, *place, on, horizon);
    let seasons = places.iter().map(begun).collect::<Result<Vec<_>, ActError>>()?;
    let forecast =
        |season: &Option<Season>| season.as_ref().map(|season| season.forecast(runs, seed)).transpose();
    let forecasts = side_by_side(&seasons, forecast)?;
    Ok(seasons.into_iter().zip(forecasts).map(|(season, forecast)| season.zip(forecast)).collect())
}

/// Days between two days that a forecast of a place tells.
const STEP_DAYS: u32 = 3;

impl Season {
    /// The same with a crop that is to come: for telling what something does to it before it is sown.
    ///
    /// # Errors
    /// A tree of which nobody says how many stand there.
    pub fn expecting(mut self, crop: &Crop) -> Result<Self, ActError> {
        for input in [&mut self.input, &mut self.bare] {
            crate::site::add_crop(input, &self.scenario, self.calendar, crop, 0)?;
        }
        self.sampled = OnceLock::new();
        self.grown.resize(self.input.crops.len(), self.scenario.crops.len());
        self.scenario.crops.push(crop.clone());
        Ok(self)
    }

    /// The day of a date, where it lies between the first day and the horizon.
    pub fn day(&self, date: NaiveDate) -> Option<u32> {
        crate::site::day_within(self.calendar, date, self.input.days)
    }

    /// Crops of the input that are not over on the day asked about, each with the crop of the scenario that it is. A crop
    /// that comes again stands once for each year.
    pub(crate) fn standing_ahead(&self) -> Vec<(usize, &Crop)> {
        let of = |at: &usize| Some((*at, self.scenario.crops.get(*self.grown.get(*at)?)?));
        self.ahead().iter().filter_map(of).collect()
    }

    /// Crops of the input that are not over on the day asked about.
    pub fn ahead(&self) -> Vec<usize> {
        let ends = |crop: &ModelCrop| match crop {
            ModelCrop::Annual { harvest_day, .. } => *harvest_day,
            ModelCrop::Tree { windows, .. } => windows.iter().map(|window| window.1).max().unwrap_or(0),
        };
        let open = |(_, crop): &(usize, &ModelCrop)| i64::from(ends(crop)) > i64::from(self.today);
        self.input.crops.iter().enumerate().filter(open).map(|(index, _)| index).collect()
    }

    /// The days that a forecast tells: every third, with the first, the day asked about and the last. Two years of every
    /// day in two thousand runs would fill the memory of a phone.
    fn shown(&self) -> Vec<u32> {
        let last = self.input.days;
        (0..=last).filter(|day| day % STEP_DAYS == 0 || *day == self.today || *day == last).collect()
    }

    /// Forecasts from the first day to the horizon; hunger, crop nitrogen and what it costs are of the crops
    /// that are not over. Readings weigh the runs as in [`forecast::narrowed`].
    ///
    /// # Errors
    /// What the model refuses.
    pub fn forecast(&self, runs: u32, seed: u64) -> Result<Forecast, ActError> {
        let weighed = self.weighed(runs, seed)?;
        let plain = Sample::new(seed, runs);
        let sample = weighed.as_ref().map_or(&plain, |weighed| &weighed.sample);
        let course = forecast::Course {
            calendar: self.calendar,
            here: &self.input,
            bare: &self.bare,
            crops: &self.ahead(),
            shown: &self.shown(),
        };
        Ok(Forecast { assumed: self.assumed.clone(), ..course.foretell(sample, weighed.as_ref())? })
    }

    /// The runs as the readings weigh them; none without readings. Simulate with its sample and pick from what comes.
    ///
    /// # Errors
    /// What the model refuses.
    pub fn weighed(&self, runs: u32, seed: u64) -> Result<Option<Weighed>, ActError> {
        if self.input.readings.is_empty() {
            return Ok(None);
        }
        let sampled = self.sampled(runs, seed)?;
        update::weigh_with(sampled, &self.input, &self.bare, self.input.days, &self.ahead()).map(Some)
    }

    /// The runs that the readings leave; none without readings.
    ///
    /// # Errors
    /// What the model refuses.
    pub fn left(&self, runs: u32, seed: u64) -> Result<Option<Left>, ActError> {
        if self.input.readings.is_empty() {
            return Ok(None);
        }
        Ok(Some(self.sampled(runs, seed)?.left()))
    }

    /// Weighing takes thousands of runs, and a report asks for it several times.
    fn sampled(&self, runs: u32, seed: u64) -> Result<Sampled, ActError> {
        match self.sampled.get() {
            Some((own_runs, own_seed, sampled)) if (*own_runs, *own_seed) == (runs, seed) => {
                Ok(sampled.clone())
            }
            _ => {
                let sampled = update::weights(&self.input, runs, seed)?;
                // Kept for whoever asks first; others work out their own.
                let _ = self.sampled.set((runs, seed, sampled.clone()));
                Ok(sampled)
            }
        }
    }

    /// Adds the readings that lie within the time looked at.
    fn weigh(&mut self, read: &[crate::book_place::Read]) {
        use crate::book_place::Read;
        use kerfbook_science::nitrogen::Reading;
        for reading in read {
            if !reading.can_be() {
                self.left_out.push(LeftOut { entry: reading.entry(), why: Why::Impossible });
                continue;
            }
            let evening = |date: NaiveDate| self.day(date).map(|day| day + 1);
            let (entry, made) = match *reading {
                Read::Nitrate { entry, date, kg_ha } => (
                    entry,
                    evening(date).map(|day| Reading::SoilNitrate { day, kg_ha }).ok_or(Why::BeforeFirst),
                ),
                Read::Leaf { entry, date, crop, nutrition } => {
                    let stands = self.crop_on(crop, date);
                    let made = evening(date).zip(stands);
                    let leaf = made.map(|(day, crop)| Reading::Leaf { day, crop, nni: nutrition });
                    (entry, leaf.ok_or(Why::NotThere))
                }
                Read::Jar { entry, batch, temperature_c, dose_mg_litre, dry_g_per_litre, index } => {
                    let layer = self.layers.iter().zip(&self.input.put_down).position(|(is, put)| {
                        matches!(is.is, LayerIs::Load(_))
                            && is.batch == Some(batch)
                            && put.from_stage.is_none()
                    });
                    let jar = |layer| Reading::DrawTest {
                        layer,
                        temperature_c,
                        dose_mg_litre,
                        dry_g_per_litre,
                        index,
                    };
                    (entry, layer.map(jar).ok_or(Why::OldMaterial))
                }
            };
            match made {
                Ok(made) => {
                    self.input.readings.push(made);
                    self.readings.push(entry);
                }
                Err(why) => self.left_out.push(LeftOut { entry, why }),
            }
        }
    }

    /// The model's crop that a leaf is of: the one named, else the one in the ground.
    fn crop_on(&self, named: Option<EntryId>, date: NaiveDate) -> Option<usize> {
        let day = self.calendar.day(date);
        let stands = |crop: &ModelCrop| {
            let (from, to) = match crop {
                ModelCrop::Annual { sown_day, harvest_day, .. } => (*sown_day, *harvest_day),
                ModelCrop::Tree { windows, .. } => (
                    windows.iter().map(|window| window.0).min().unwrap_or(0),
                    windows.iter().map(|window| window.1).max().unwrap_or(0),
                ),
            };
            (i64::from(from)..=i64::from(to)).contains(&day)
        };
        let mut of = self.crops.iter().zip(&self.input.crops);
        of.position(|(entry, crop)| named.is_none_or(|named| named == *entry) && stands(crop))
    }
}

/// What is assumed is told once.
fn once(assumed: &mut Vec<Assumed>) {
    let mut told: Vec<Assumed> = Vec::new();
    for one in assumed.drain(..) {
        if !told.contains(&one) {
            told.push(one);
        }
    }
    *assumed = told;
}
