//! Days of the calendar as people say them.

use chrono::{Datelike, NaiveDate};

use crate::Words;

impl Words {
    /// "3 June".
    pub fn date(&self, date: NaiveDate) -> String {
        self.say("date", &[("day", date.day().to_string()), ("month", self.month(date.month()))])
    }

    /// "3 June 2027".
    pub fn date_with_year(&self, date: NaiveDate) -> String {
        self.say(
            "date-with-year",
            &[
                ("day", date.day().to_string()),
                ("month", self.month(date.month())),
                ("year", date.year().to_string()),
            ],
        )
    }

    /// With its year only where that differs from the year of `beside`.
    pub fn date_beside(&self, date: NaiveDate, beside: NaiveDate) -> String {
        if date.year() == beside.year() { self.date(date) } else { self.date_with_year(date) }
    }

    /// "3 June to 12 July", the year once where it is the same.
    pub fn date_range(&self, first: NaiveDate, last: NaiveDate) -> String {
        let start = self.date_beside(first, last);
        self.say("date-range", &[("first", start), ("last", self.date_with_year(last))])
    }

    /// "June 2027".
    pub fn month_and_year(&self, date: NaiveDate) -> String {
        self.say("date-month", &[("month", self.month(date.month())), ("year", date.year().to_string())])
    }

    /// Name of a month, 1 to 12.
    pub fn month(&self, month: u32) -> String {
        self.label(&format!("month-{month}"))
    }

    /// Short name of a month, 1 to 12, for axes.
    pub fn month_short(&self, month: u32) -> String {
        self.label(&format!("month-short-{month}"))
    }
}
