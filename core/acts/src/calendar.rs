//! Days of the model and dates of the grower.

use chrono::{Datelike, Days, NaiveDate};

use crate::scenario::Scenario;

/// Which date is day 0.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Calendar {
    first: NaiveDate,
}

impl From<NaiveDate> for Calendar {
    /// From the first day.
    fn from(first: NaiveDate) -> Self {
        Self { first }
    }
}

impl Calendar {
    /// From the first event of a scenario: a putting-down, a feed or a crop.
    pub fn of(scenario: &Scenario) -> Option<Self> {
        let puts = scenario.put_down.iter().map(|put| put.date);
        let feeds = scenario.feeds.iter().map(|feed| feed.date);
        let crops = scenario.crops.iter().map(|crop| crop.started);
        puts.chain(feeds).chain(crops).min().map(|first| Self { first })
    }

    /// The first day.
    pub fn first(self) -> NaiveDate {
        self.first
    }

    /// Day of the model on which a date falls: 0 for the first, negative before it.
    pub fn day(self, date: NaiveDate) -> i64 {
        (date - self.first).num_days()
    }

    /// The date of a day.
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "kept at zero or above")]
    pub fn date(self, day: f64) -> NaiveDate {
        let whole = day.max(0.0).floor() as u64;
        self.first.checked_add_days(Days::new(whole)).unwrap_or(NaiveDate::MAX)
    }

    /// Day of the year of the first day, 1 to 365; 29 February counts as 28 February.
    pub fn day_of_year(self) -> u32 {
        day_of_year(self.first)
    }
}

/// Day of a year without 29 February, which counts as the 28th.
pub fn day_of_year(date: NaiveDate) -> u32 {
    if !date.leap_year() || date.ordinal() < 60 { date.ordinal() } else { date.ordinal() - 1 }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_leap_day_repeats_the_day_before_it() {
        let day = |y, m, d| day_of_year(NaiveDate::from_ymd_opt(y, m, d).unwrap_or_default());
        assert_eq!(day(2024, 2, 28), 59);
        assert_eq!(day(2024, 2, 29), 59);
        assert_eq!(day(2024, 3, 1), 60);
        assert_eq!(day(2023, 3, 1), 60);
        assert_eq!(day(2024, 12, 31), 365);
    }
}
