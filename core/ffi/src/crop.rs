//! What grows on a place: a crop by its appetite, where nobody knows its need.

use chrono::Days;
use kerfbook_acts::grow_crop;
use kerfbook_acts::scenario::{Again, Appetite, Crop, CropNeed, Fate};
use kerfbook_science::units::Share;

use crate::entries::{SavedView, saved};
use crate::error::CoreError;
use crate::field_book::{FieldBook, of_act, of_book};

/// Days in a week.
const WEEK: u64 = 7;
/// Longest season that may be typed, weeks: a year.
const MOST_WEEKS: u32 = 52;

/// How hungry a crop is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, uniffi::Enum)]
pub enum Hunger {
    /// Lettuce, carrots.
    Light,
    /// Tomato, beet.
    Middling,
    /// Cabbage, maize.
    Hungry,
    /// Not known.
    Unknown,
}

/// A crop sown or planted today.
#[derive(Debug, Clone, PartialEq, Eq, uniffi::Record)]
pub struct CropGiven {
    /// Where.
    pub place: String,
    /// What it is called.
    pub name: String,
    /// How hungry it is.
    pub hunger: Hunger,
    /// How long it stands, weeks.
    pub weeks: String,
}

#[uniffi::export]
impl FieldBook {
    /// Starts a crop today.
    ///
    /// # Errors
    /// A field that does not read, named; a place that is not there; a book that cannot be written.
    pub fn start_crop(&self, given: CropGiven) -> Result<SavedView, CoreError> {
        let (speech, moment) = (self.speech(), self.moment()?);
        let typed = speech.typed();
        let place = typed.entry("place", &given.place)?;
        let name = typed.name("name", &given.name)?;
        let weeks = typed.count("weeks", &given.weeks)?;
        if weeks > MOST_WEEKS {
            return Err(typed.wrong("weeks", "phone-too-many-weeks"));
        }
        let ended = moment
            .date
            .checked_add_days(Days::new(u64::from(weeks) * WEEK))
            .ok_or_else(|| typed.wrong("weeks", "phone-too-many-weeks"))?;
        let crop = Crop {
            name,
            need: CropNeed::Appetite(match given.hunger {
                Hunger::Light => Appetite::Light,
                Hunger::Middling => Appetite::Middling,
                Hunger::Hungry => Appetite::Hungry,
                Hunger::Unknown => Appetite::Unknown,
            }),
            started: moment.date,
            ended,
            midpoint_day: None,
            fixed: Share::from_percent(0.0),
            plants: None,
            fate: Fate::CarriedOff,
            harvested: false,
            again: Again::Never,
        };
        let mut book = self.book();
        of_book(book.place(place), &speech)?.ok_or_else(|| typed.wrong("place", "phone-choose"))?;
        let entry = of_act(grow_crop::start(&mut book, place, &crop, moment), "name", &speech)?;
        saved(&book, entry, &speech)
    }
}
