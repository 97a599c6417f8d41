//! An invented holding's empty book.

use chrono::NaiveDate;
use kerfbook_acts::moment::Moment;
use kerfbook_ledger::{Book, Date, DeviceKey, Founding, Label, When};

/// A day.
pub(crate) fn date(year: i32, month: u32, day: u32) -> NaiveDate {
    NaiveDate::from_ymd_opt(year, month, day).unwrap()
}

/// A book in a folder of its own, and the moment of the next act.
pub(crate) struct Kept {
    _folder: tempfile::TempDir,
    pub(crate) book: Book,
    pub(crate) now: Moment,
}

impl Kept {
    /// A book begun on 15 April 2026.
    pub(crate) fn new() -> Self {
        let folder = tempfile::tempdir().unwrap();
        let first = date(2026, 4, 15);
        let founding = Founding {
            name: Label::new("A holding").unwrap(),
            device_label: Label::new("Desk").unwrap(),
            nonce: [7; 16],
            sells: false,
            certified: false,
            latitude_centidegree: None,
            when: When::on(Date::of(first).unwrap()),
            wall_ms: 1_776_000_000_000,
        };
        let book =
            Book::create(&folder.path().join("a.kerfbook"), &DeviceKey::from_bytes(&[3; 32]), &founding)
                .unwrap();
        Self { _folder: folder, book, now: Moment { date: first, wall_ms: 1_776_000_000_000, by: None } }
    }

    /// How many entries there are.
    pub(crate) fn count(&self) -> usize {
        self.book.entries(None, 10_000).unwrap().len()
    }
}
