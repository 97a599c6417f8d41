//! The calls of a phone's screens in a book of 20 000 entries, as JSON: seconds.

#![allow(missing_docs, clippy::unwrap_used, reason = "a benchmark; a book that is none ends it")]
#![allow(clippy::print_stdout, clippy::disallowed_methods, reason = "it prints times, so it reads a clock")]

use std::hint::black_box;
use std::path::Path;
use std::sync::{Arc, Mutex};
use std::time::Instant;

use chrono::{Days, NaiveDate};
use kerfbook_ffi::crop::{CropGiven, Hunger};
use kerfbook_ffi::error::CoreError;
use kerfbook_ffi::field_book::{FieldBook, NewHolding};
use kerfbook_ffi::load::{LoadGiven, Measure, Said};
use kerfbook_ffi::places::{Ground, NewPlace, Size};
use kerfbook_ffi::port::{Clock, KeyStore, Now};
use kerfbook_ffi::put_down::{Manner, PutDownGiven};
use kerfbook_ffi::reader::{Measures, Reader, Tongue};
use kerfbook_ledger::kind::{LeafRead, WaterGiven, WeatherRead, WeatherSpan};
use kerfbook_ledger::{Book, Date, DeviceKey, Draft, EntryId, When};
use serde_json::json;

const ENTRIES: usize = 20_000;
const PLACES: usize = 40;
const LOADS: usize = 60;
const DAYS: i32 = 930;
/// 15 April 2026, days since 1970.
const TODAY: i32 = 20_558;

#[derive(Default)]
struct Keys(Mutex<Option<Vec<u8>>>);

impl KeyStore for Keys {
    fn fetch(&self) -> Result<Option<Vec<u8>>, CoreError> {
        Ok(self.0.lock().unwrap().clone())
    }

    fn keep(&self, secret: Vec<u8>) -> Result<(), CoreError> {
        *self.0.lock().unwrap() = Some(secret);
        Ok(())
    }
}

/// A clock that stands where it is put.
struct Still(Mutex<i32>);

impl Clock for Still {
    fn now(&self) -> Result<Now, CoreError> {
        let day = *self.0.lock().unwrap();
        Ok(Now { wall_ms: i64::from(day) * 86_400_000, day })
    }
}

const READER: Reader = Reader {
    tongue: Tongue::English,
    measures: Measures::Metric,
    barrow_l: None,
    bucket_l: None,
    trailer_m3: None,
};

/// A market garden of some years: places, loads, putting-down every few weeks, and what was read on every place.
fn filled(path: &Path, keys: &Arc<Keys>, clock: &Arc<Still>) -> (String, String) {
    let holding = NewHolding {
        name: "Invented garden".to_owned(),
        device: "Phone".to_owned(),
        sells: true,
        certified: false,
        latitude_deg: Some(45.0),
    };
    *clock.0.lock().unwrap() = TODAY - DAYS;
    let (places, batches): (Vec<String>, Vec<String>);
    {
        let found = FieldBook::found(
            path.display().to_string(),
            holding,
            Arc::clone(keys) as _,
            Arc::clone(clock) as _,
            READER,
        );
        let book = found.unwrap();
        let place = |number: usize| {
            let size = Size::Taped { length: "20".to_owned(), width: "1.2".to_owned() };
            let new = NewPlace { label: format!("Bed {number}"), ground: Ground::Bed, size };
            book.outline_place(new).unwrap().entry
        };
        places = (1..=PLACES).map(place).collect();
        let load = |number: usize| {
            let load = LoadGiven {
                label: format!("Load {number}"),
                material: "sawdust, mixed".to_owned(),
                amount: "60".to_owned(),
                measure: Measure::Barrows,
                from_whom: String::new(),
                treated: Said::No,
                diseased: Said::No,
                salty: Said::No,
                medicines: Said::No,
                weedkillers: Said::No,
                feel: None,
            };
            book.take_in(load).unwrap().batch.unwrap()
        };
        batches = (1..=LOADS).map(load).collect();
        for year in 0..3 {
            *clock.0.lock().unwrap() = TODAY - DAYS + 300 * year;
            for (number, place) in places.iter().enumerate() {
                let crop = CropGiven {
                    place: place.clone(),
                    name: "cabbage".to_owned(),
                    hunger: Hunger::Hungry,
                    weeks: "20".to_owned(),
                };
                book.start_crop(crop).unwrap();
                let given = PutDownGiven {
                    place: place.clone(),
                    batch: batches[(number + 20 * usize::try_from(year).unwrap()) % LOADS].clone(),
                    amount: "4".to_owned(),
                    measure: Measure::Barrows,
                    manner: Some(Manner::OnTop),
                    run: None,
                };
                book.put_down(given).unwrap();
            }
        }
    }
    let secret: [u8; 32] = keys.fetch().unwrap().unwrap().try_into().unwrap();
    let mut book = Book::open(path, Some(&DeviceKey::from_bytes(&secret))).unwrap();
    let mut left = ENTRIES - usize::try_from(book.verify().unwrap().entries).unwrap();
    let opened = book.of_kind(kerfbook_ledger::Kind::HoldingOpened).unwrap();
    let holding = opened[0].original.id;
    let ids: Vec<EntryId> = places.iter().map(|place| EntryId::parse(place).unwrap()).collect();
    let first =
        NaiveDate::from_ymd_opt(1970, 1, 1).unwrap() + Days::new(u64::try_from(TODAY - DAYS).unwrap());
    for day in 0..u64::try_from(DAYS).unwrap() {
        let when = || When::on(Date::of(first + Days::new(day)).unwrap());
        let rain = if day % 3 == 0 { 6_000 } else { 0 };
        let weather = WeatherRead { rain_ml_m2: Some(rain), ..WeatherRead::of(WeatherSpan::Day) };
        let mut drafts = vec![Draft::new(when(), weather).about(holding)];
        for (number, place) in ids.iter().enumerate() {
            if (day + number as u64).is_multiple_of(2) {
                drafts.push(
                    Draft::new(when(), LeafRead { yellow_bp: Some(500), ..LeafRead::default() })
                        .about(*place),
                );
            } else if day % 30 == 1 {
                let water = WaterGiven { depth_mm: Some(10), volume_ml: None, under: None };
                drafts.push(Draft::new(when(), water).about(*place));
            }
        }
        drafts.truncate(left);
        left -= drafts.len();
        let wall_ms = i64::from(TODAY - DAYS) * 86_400_000 + i64::try_from(day).unwrap() * 86_400_000;
        book.append(&drafts, &[], wall_ms).unwrap();
    }
    assert_eq!(usize::try_from(book.verify().unwrap().entries).unwrap(), ENTRIES);
    book.settle().unwrap();
    *clock.0.lock().unwrap() = TODAY;
    (places[0].clone(), batches[LOADS - 1].clone())
}

fn shortest<T>(times: u32, mut work: impl FnMut() -> T) -> f64 {
    let mut best = f64::INFINITY;
    for _ in 0..times {
        let start = Instant::now();
        black_box(work());
        best = best.min(start.elapsed().as_secs_f64());
    }
    best
}

fn main() {
    let folder = std::env::temp_dir().join(format!("kerfbook-bench-{}", std::process::id()));
    std::fs::create_dir_all(&folder).unwrap();
    let path = folder.join("book");
    let (keys, clock) = (Arc::new(Keys::default()), Arc::new(Still(Mutex::new(TODAY))));
    let (place, batch) = filled(&path, &keys, &clock);
    let open = || {
        FieldBook::open(path.display().to_string(), Arc::clone(&keys) as _, Arc::clone(&clock) as _, READER)
            .unwrap()
    };
    let book = open();
    let given = PutDownGiven {
        place: place.clone(),
        batch,
        amount: "4".to_owned(),
        measure: Measure::Barrows,
        manner: None,
        run: None,
    };
    let told = json!({
        "open, then Today": shortest(5, || open().today().unwrap()),
        "Today": shortest(10, || book.today().unwrap()),
        "Today with what is foretold": shortest(2, || book.today_foretold().unwrap()),
        "Places": shortest(10, || book.places().unwrap()),
        "a place": shortest(10, || book.place(place.clone()).unwrap()),
        "Put down": shortest(10, || book.start_put_down().unwrap()),
        "the answer": shortest(10, || book.consider(given.clone()).unwrap()),
        "save a putting-down": shortest(3, || {
            book.put_down(PutDownGiven { manner: Some(Manner::OnTop), ..given.clone() }).unwrap()
        }),
        "Book": shortest(10, || book.entries(None, 30).unwrap()),
        "people": shortest(10, || book.people().unwrap()),
        "Trials": shortest(10, || book.trials().unwrap()),
    });
    println!("{told:#}");
    drop(book);
    std::fs::remove_dir_all(&folder).unwrap();
}
