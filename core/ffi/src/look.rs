//! Look: what is read on a place without a laboratory – how yellow the old leaves are, how deep the layer lies, what
//! the soil strip says, what the rain gauge holds.

use kerfbook_acts::error::ActError;
use kerfbook_acts::moment::Moment;
use kerfbook_acts::probe_depth::{self, Depths, NewProbe};
use kerfbook_acts::read_leaf::{self, NewLeafReading};
use kerfbook_acts::read_weather::{self, NewWeather};
use kerfbook_acts::test_soil::{self, NewSoilTest, NitrogenFigure};
use kerfbook_ledger::kind::NitrogenForm;
use kerfbook_ledger::{Book, EntryId};
use kerfbook_science::source::{Source, Sourced};
use kerfbook_science::units::{Length, Share};

use crate::entries::{SavedView, saved};
use crate::error::CoreError;
use crate::field_book::FieldBook;

/// How much of the old leaves is yellow, judged by eye.
#[derive(Debug, Clone, Copy, PartialEq, Eq, uniffi::Enum)]
pub enum Yellow {
    /// None.
    Green,
    /// The tips, or a quarter.
    Some,
    /// Half or more.
    Much,
}

/// What a soil strip states.
#[derive(Debug, Clone, Copy, PartialEq, Eq, uniffi::Enum)]
pub enum Strip {
    /// Nitrate, as most strips print it.
    Nitrate,
    /// Nitrate nitrogen, as most laboratories print it.
    NitrateNitrogen,
}

/// What was seen; whatever stays empty was not looked at.
#[derive(Debug, Clone, PartialEq, Eq, uniffi::Record)]
pub struct LookGiven {
    /// Where.
    pub place: String,
    /// How yellow.
    pub yellow: Option<Yellow>,
    /// What the strip says of the soil, mg/kg.
    pub strip: String,
    /// What it states.
    pub strip_states: Strip,
    /// Depth of the layer, cm or inches.
    pub depth: String,
    /// Rain since the gauge was emptied today, mm or inches.
    pub rain: String,
}

#[uniffi::export]
impl FieldBook {
    /// Saves what was seen: all of it, or nothing.
    ///
    /// # Errors
    /// Nothing seen, a field that does not read, named; a book that cannot be written.
    pub fn look(&self, given: LookGiven) -> Result<Vec<SavedView>, CoreError> {
        let (speech, moment) = (self.speech(), self.moment()?);
        let typed = speech.typed();
        let place = typed.entry("place", &given.place)?;
        let strip = typed.above_zero("strip", &given.strip)?;
        let depth =
            if given.depth.trim().is_empty() { None } else { Some(typed.depth("depth", &given.depth)?) };
        let rain = if given.rain.trim().is_empty() { None } else { Some(typed.water("rain", &given.rain)?) };
        if given.yellow.is_none() && strip.is_none() && depth.is_none() && rain.is_none() {
            return Err(typed.wrong("", "phone-nothing-seen"));
        }
        let mut book = self.book();
        let seen = Seen { place, yellow: given.yellow, strip, states: given.strip_states, depth, rain };
        let written = book.together(|book| seen.write(book, moment));
        let entries = written.map_err(|error| CoreError::of_act(&error, field_of(&error), &speech.words))?;
        entries.iter().map(|entry| saved(&book, *entry, &speech)).collect()
    }
}

/// The field of a figure that cannot be, by the key of the act that refused it.
fn field_of(error: &ActError) -> &'static str {
    match error {
        ActError::Figure { key: "depth_mm", .. } => "depth",
        ActError::Figure { key: "rain_mm", .. } => "rain",
        ActError::Figure { .. } => "strip",
        _ => "",
    }
}

/// What was seen, read.
struct Seen {
    place: EntryId,
    yellow: Option<Yellow>,
    strip: Option<f64>,
    states: Strip,
    depth: Option<Length>,
    rain: Option<Length>,
}

impl Seen {
    fn write(&self, book: &mut Book, moment: Moment) -> Result<Vec<EntryId>, ActError> {
        let mut entries = Vec::new();
        if let Some(yellow) = self.yellow {
            let part = Share::from_fraction(yellow.part().value);
            let reading = NewLeafReading { yellow: Some(part), ..NewLeafReading::of(self.place) };
            entries.push(read_leaf::read(book, &reading, moment)?);
        }
        if let Some(ppm) = self.strip {
            let form = match self.states {
                Strip::Nitrate => NitrogenForm::Nitrate,
                Strip::NitrateNitrogen => NitrogenForm::NitrateN,
            };
            let test = NewSoilTest {
                top: Some(Length::from_cm(0.0)),
                bottom: Some(Length::from_cm(STRIP_DEPTH_CM.value)),
                nitrogen: Some((form, NitrogenFigure::Ppm(ppm))),
                ..NewSoilTest::of(self.place)
            };
            entries.push(test_soil::test(book, &test, moment)?);
        }
        if let Some(depth) = self.depth {
            let probe = NewProbe { place: self.place, layer: None, depths: Depths::Measured(&[depth]) };
            entries.push(probe_depth::probe(book, &probe, moment)?);
        }
        if let Some(rain) = self.rain {
            let weather = NewWeather { rain: Some(rain), ..NewWeather::default() };
            entries.push(read_weather::read(book, &weather, moment)?);
        }
        Ok(entries)
    }
}

/// Depth of soil that a quick strip is taken from, cm.
const STRIP_DEPTH_CM: Sourced<f64> = Sourced::new(30.0, Source::COMMON_PRACTICE);

impl Yellow {
    /// The part of the old leaves that it stands for.
    const fn part(self) -> Sourced<f64> {
        match self {
            Self::Green => Sourced::new(0.0, Source::COMMON_PRACTICE),
            Self::Some => Sourced::new(0.2, Source::COMMON_PRACTICE),
            Self::Much => Sourced::new(0.6, Source::COMMON_PRACTICE),
        }
    }
}
