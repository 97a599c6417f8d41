//! Books for tests: invented, place-free, the same on every run.

#![allow(dead_code, reason = "each test file uses its part")]

pub(crate) mod random;
pub(crate) mod samples;

use std::path::{Path, PathBuf};

use kerfbook_ledger::kind::{
    Answer, CropStarted, FeedGiven, LoadTakenIn, Measured, PersonNamed, PlaceKind, PlaceOutlined, Placed,
    PutDown, Way,
};
use kerfbook_ledger::{
    Book, Change, Date, DeviceKey, Draft, EntryId, Flag, Founding, Label, Outline, Text, When,
};
use tempfile::TempDir;

/// 2026-04-01 00:00 UTC.
pub(crate) const SPRING_MS: i64 = 1_775_001_600_000;

pub(crate) fn key(number: u8) -> DeviceKey {
    DeviceKey::from_bytes(&[number; 32])
}

pub(crate) fn label(text: &str) -> Label {
    Label::new(text).unwrap()
}

pub(crate) fn day(number: i32) -> When {
    // 2026-04-01 is day 20,544.
    When { date: Date::from_days(20_544 + number).unwrap(), minute: Some(9 * 60), offset_min: 120 }
}

pub(crate) fn founding() -> Founding {
    Founding {
        name: label("Invented holding"),
        device_label: label("Desk"),
        nonce: [7; 16],
        sells: true,
        certified: false,
        latitude_centidegree: Some(4800),
        when: day(0),
        wall_ms: SPRING_MS,
    }
}

pub(crate) fn folder() -> TempDir {
    tempfile::tempdir().unwrap()
}

pub(crate) fn new_book(path: &Path) -> Book {
    Book::create(path, &key(1), &founding()).unwrap()
}

pub(crate) fn bed(name: &str) -> PlaceOutlined {
    PlaceOutlined {
        outline: Outline(vec![[0, 0], [10_000, 0], [10_000, 1_200], [0, 1_200]]),
        rooting_depth_mm: Some(300),
        ..PlaceOutlined::of(label(name), PlaceKind::Bed, Measured::Taped, 12_000_000)
    }
}

pub(crate) fn load(name: &str, wet_g: u64) -> LoadTakenIn {
    LoadTakenIn {
        label: label(name),
        material: label("hardwood sawdust"),
        model_class: Some(label("hardwood")),
        particle: None,
        wet_g: Some(wet_g),
        volume_ml: Some(1_500_000),
        moisture_bp: Some(4_000),
        carbon_nitrogen_x100: Some(40_000),
        wet_density_g_m3: Some(300_000),
        from: None,
        source: Some(label("sawmill")),
        treated: Answer::No,
        diseased: Answer::Unknown,
        salty: Answer::No,
        medicated: Answer::No,
        cut: None,
        cost_hundredths: None,
        currency: None,
        haul_m: None,
        minutes: None,
        moisture_half_bp: None,
        stored: None,
        wood: None,
        pieces: None,
        handful: None,
        age: None,
        smell: None,
    }
}

pub(crate) fn put(batch: EntryId, wet_g: u64) -> PutDown {
    PutDown {
        wet_g: Some(wet_g),
        dry_g: Some(wet_g * 6 / 10),
        depth_mm: Some(50),
        containers: Some(4),
        container_ml: Some(85_000),
        ..PutDown::of(batch, Way::OnTop)
    }
}

pub(crate) fn feed(nitrogen_mg: u64) -> FeedGiven {
    FeedGiven {
        source: label("blood meal"),
        nitrogen_mg,
        product_g: Some(nitrogen_mg / 130),
        volume_ml: None,
        placed: Placed::Top,
        crop_mg: Some(nitrogen_mg / 2),
        wood_mg: Some(nitrogen_mg - nitrogen_mg / 2),
    }
}

pub(crate) fn crop(name: &str) -> CropStarted {
    CropStarted {
        crop: label(name),
        need_mg_m2: Some(18_000),
        tree_mg: None,
        appetite: None,
        ends: Some(day(120).date),
        midpoint_day: Some(70),
        fixed_bp: 0,
        plants: Some(24),
    }
}

pub(crate) fn change(on: i32) -> Change<'static> {
    Change { when: day(on), by: None, reason: None }
}

/// What most tests begin with: a person, two beds, a load, part of it on the first bed.
pub(crate) struct Season {
    pub(crate) book: Book,
    pub(crate) path: PathBuf,
    pub(crate) person: EntryId,
    pub(crate) first: EntryId,
    pub(crate) second: EntryId,
    pub(crate) batch: EntryId,
    pub(crate) putting: EntryId,
}

pub(crate) fn season(path: &Path) -> Season {
    let mut book = new_book(path);
    let name = Text::new([3; 16], "A. Person");
    let next = book.next_id().unwrap();
    let (person, first, second, batch) = (next, next.after(1), next.after(2), next.after(3));
    let by = Some(person);
    let ids = book
        .append(
            &[
                Draft::new(day(0), PersonNamed { name: name.hash() }),
                Draft::new(day(0), bed("Bed 1")).by(by),
                Draft::new(day(0), bed("Bed 2")).by(by),
                Draft::new(day(1), load("Load 1", 400_000)).by(by),
                Draft::new(day(2), put(batch, 100_000)).by(by).about(first),
            ],
            &[name],
            SPRING_MS + 1,
        )
        .unwrap();
    assert_eq!(ids, [person, first, second, batch, next.after(4)]);
    Season { book, path: path.to_path_buf(), person, first, second, batch, putting: next.after(4) }
}

/// The book as it stands is what a rebuild gives, and every entry verifies.
pub(crate) fn consistent(book: &mut Book) {
    let kept = book.projection_hash().unwrap();
    assert_eq!(book.rebuild().unwrap(), kept, "incremental and rebuilt projections differ");
    let report = book.verify().unwrap();
    assert!(report.sound(), "{:?}", report.findings);
}

pub(crate) fn has(book: &Book, id: EntryId, flag: Flag) -> bool {
    book.current(id).unwrap().unwrap().flags.contains(&flag)
}
