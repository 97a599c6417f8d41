//! Names of months along an axis of days.

use chrono::{Datelike, Days, NaiveDate};
use kerfbook_picture::Tick;
use kerfbook_words::Words;

/// Names of the months along an axis that starts on `first`.
pub fn months(first: NaiveDate, days: u32, words: &Words) -> Vec<Tick> {
    (0..=days)
        .filter_map(|day| Some((day, first.checked_add_days(Days::new(u64::from(day)))?)))
        .filter(|(_, date)| date.day() == 1)
        .map(|(day, date)| Tick { day: f64::from(day), label: words.month_short(date.month()) })
        .collect()
}
