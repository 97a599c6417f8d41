//! What was once written stays readable: a file for each kind and a whole book, read on every run.
//!
//! `KERFBOOK_GOLDEN=write` writes files that are not there yet. A file that is there is never written over: the format
//! is published, and a difference is a fault of the code.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

mod ledger;

use std::path::{Path, PathBuf};

use kerfbook_ledger::kind::Body;
use kerfbook_ledger::{Book, Draft, Entry, EntryId, Hash, Hlc, HoldingId, Kind, Nonce, Subject};
use ledger::samples::{self, Names};
use ledger::*;
use serde_json::{Value as Json, json};
use tempfile::TempDir;

fn fixtures() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../fixtures/ledger/v1")
}

/// The file's text; written first where it is missing and that was asked for.
fn golden(name: &str, made: &Json) -> Json {
    let path = fixtures().join(name);
    if !path.exists() && std::env::var("KERFBOOK_GOLDEN").is_ok_and(|wish| wish == "write") {
        std::fs::create_dir_all(fixtures()).unwrap();
        std::fs::write(&path, serde_json::to_string_pretty(made).unwrap() + "\n").unwrap();
    }
    let text = std::fs::read_to_string(&path)
        .unwrap_or_else(|error| panic!("{name}: {error}; KERFBOOK_GOLDEN=write makes it"));
    serde_json::from_str(&text).unwrap()
}

fn id(seq: u64) -> EntryId {
    EntryId { device: key(1).device(), seq }
}

fn names() -> Names {
    Names {
        batch: id(5),
        feed: id(7),
        crop: id(10),
        place: id(4),
        second: id(12),
        note: id(13),
        person: id(3),
        layer: id(8),
        lifted: id(22),
        pile: id(32),
        trial: id(37),
        task: id(30),
        leaf: id(29),
        photo: Some(id(40)),
    }
}

fn envelope(body: &Body, seq: u64) -> Entry {
    let (kind, version, fields) = body.write().unwrap();
    Entry {
        holding: HoldingId::new(&key(1).public(), &Nonce([7; 16])),
        id: id(seq),
        hlc: Hlc::new(SPRING_MS + 5, 2),
        prev: if seq == 1 { Hash::ZERO } else { Hash::of(b"the entry before") },
        by: (seq > 3).then(|| id(3)),
        subject: (kind.subject() != Subject::Nothing).then(|| id(4)),
        date: day(2).date,
        minute: seq.is_multiple_of(2).then_some(571),
        offset_min: 120,
        wall_ms: SPRING_MS + 5,
        kind: kind.number(),
        version,
        body: fields,
    }
}

fn hex(bytes: &[u8]) -> String {
    bytes.iter().fold(String::new(), |text, byte| text + &format!("{byte:02x}"))
}

fn bytes(hex: &str) -> Vec<u8> {
    (0..hex.len() / 2).map(|at| u8::from_str_radix(&hex[2 * at..2 * at + 2], 16).unwrap()).collect()
}

#[test]
fn every_kind_reads_as_it_was_written() {
    let bodies = samples::bodies(&names());
    let covered: Vec<Kind> = bodies.iter().map(|body| body.write().unwrap().0).collect();
    for kind in samples::kinds() {
        assert!(covered.contains(&kind), "{} has no sample", kind.name());
    }
    for (seq, body) in (1..).zip(&bodies) {
        let entry = envelope(body, seq);
        let name = format!("{}.json", name_of(entry.known_kind().unwrap(), entry.version));
        let made = told(&entry);
        let kept = golden(&name, &made);
        assert_eq!(made, kept, "{name}");
        let read = Entry::decode(&bytes(kept["bytes"].as_str().unwrap())).unwrap();
        assert_eq!(read, entry, "{name}");
        assert_eq!(read.read(), *body, "{name}");
    }
}

/// Kind and version; the first version goes without saying.
fn name_of(kind: Kind, version: u16) -> String {
    if version == 1 { kind.name().to_owned() } else { format!("{}-{version}", kind.name()) }
}

fn told(entry: &Entry) -> Json {
    json!({ "bytes": hex(&entry.encode()), "hash": Hash::of(&entry.encode()), "entry": entry })
}

/// Whether all that was told then is told now in the same words: later versions only add to it.
fn holds(now: &Json, then: &Json) -> bool {
    match (now, then) {
        (Json::Object(now), Json::Object(then)) => {
            then.iter().all(|(key, then)| now.get(key).is_some_and(|now| holds(now, then)))
        }
        (Json::Array(now), Json::Array(then)) => {
            now.len() == then.len() && now.iter().zip(then).all(|(now, then)| holds(now, then))
        }
        _ => now == then,
    }
}

/// Versions of one kind that follow each other.
const BEFORE: [(&str, &str); 19] = [
    ("LoadTakenIn", "LoadTakenIn-2"),
    ("LoadTakenIn-2", "LoadTakenIn-3"),
    ("PlaceOutlined", "PlaceOutlined-2"),
    ("PlaceOutlined-2", "PlaceOutlined-3"),
    ("PlaceReoutlined", "PlaceReoutlined-2"),
    ("PlaceReoutlined-2", "PlaceReoutlined-3"),
    ("PutDown", "PutDown-3"),
    ("PutDown-3", "PutDown-4"),
    ("PutDown-4", "PutDown-5"),
    ("BatchTested", "BatchTested-2"),
    ("BatchTested-2", "BatchTested-3"),
    ("BatchTested-3", "BatchTested-4"),
    ("BatchTested-4", "BatchTested-5"),
    ("DepthProbed", "DepthProbed-2"),
    ("SoilWorked", "SoilWorked-2"),
    ("SoilTested", "SoilTested-2"),
    ("WeatherRead", "WeatherRead-2"),
    ("WaterGiven", "WaterGiven-2"),
    ("CropStarted", "CropStarted-2"),
];

#[test]
fn earlier_versions_read_with_nothing_in_what_they_lack() {
    let fields = golden("fields.json", &Json::Null);
    for (before, _) in BEFORE {
        let kept = golden(&format!("{before}.json"), &Json::Null);
        let entry = Entry::decode(&bytes(kept["bytes"].as_str().unwrap())).unwrap();
        assert_eq!(Some(entry.body.len()), fields[before].as_array().map(Vec::len), "{before}");
        assert!(holds(&told(&entry), &kept), "{before}");
        let (_, _, read) = entry.read().write().unwrap();
        let (then, since) = read.split_at(entry.body.len());
        assert_eq!(then, entry.body, "{before}");
        assert!(since.iter().all(|value| *value == kerfbook_ledger::Value::Null), "{before}");
        for wrong in [entry.body.len() - 1, entry.body.len() + 1] {
            let mut other = entry.clone();
            other.body.resize(wrong, kerfbook_ledger::Value::Null);
            assert!(matches!(other.read(), Body::Unreadable(_)), "{before} with {wrong} fields");
        }
    }
}

#[test]
fn kinds_and_versions_of_later_times_are_kept_as_they_are() {
    let kept = golden("later-version.json", &Json::Null);
    let mut entry = Entry::decode(&bytes(kept["bytes"].as_str().unwrap())).unwrap();
    assert!(matches!(entry.read(), Body::Later(_)));
    assert_eq!(told(&entry), kept);
    entry.kind = 30_000;
    let made = told(&entry);
    let kept = golden("later-kind.json", &made);
    assert_eq!(made, kept);
    let read = Entry::decode(&bytes(kept["bytes"].as_str().unwrap())).unwrap();
    assert_eq!((read.known_kind(), read.encode()), (None, entry.encode()));
}

#[test]
fn every_kind_has_its_own_code_and_keeps_it() {
    let made =
        Json::Object(Kind::ALL.iter().map(|kind| (kind.name().to_owned(), kind.code().into())).collect());
    assert_eq!(golden("codes.json", &made), made);
    let fields = golden("fields.json", &Json::Null);
    for body in samples::bodies(&names()) {
        let (kind, version, _) = body.write().unwrap();
        assert_eq!(fields[name_of(kind, version)], json!(kind.fields().unwrap()), "{}", kind.name());
    }
    // What a version has is what the next one begins with.
    for (before, now) in BEFORE {
        let names = |version: &str| fields[version].as_array().unwrap().clone();
        assert!(names(now).starts_with(&names(before)), "{before}, {now}");
    }
}

/// Every kind, with a correction and a withdrawal that stand.
fn fill(book: &mut Book) {
    let first = book.next_id().unwrap();
    assert_eq!(first, id(3));
    let names = Names { photo: None, ..names() };
    let mut drafts: Vec<Draft> = Vec::new();
    for body in samples::bodies(&names).into_iter().skip(2) {
        let kind = body.write().unwrap().0;
        // The second place stands where the samples name it.
        if kind == Kind::ForecastFrozen {
            drafts.push(Draft::new(day(2), bed("Bed 2")).by(Some(id(3))));
        }
        let body = match body {
            Body::EntryCorrected(mut body) => {
                (body.target, body.seen) = (id(14), Vec::new());
                body.into()
            }
            Body::EntryWithdrawn(mut body) => {
                body.target = id(9);
                body.into()
            }
            other => other,
        };
        let draft = Draft::new(day(2), body).by((!drafts.is_empty()).then(|| id(3)));
        drafts.push(match kind.subject() {
            Subject::Nothing => draft,
            Subject::Batch => draft.about(names.batch),
            Subject::Pile => draft.about(names.pile),
            Subject::Trial => draft.about(names.trial),
            Subject::Place | Subject::HoldingOrPlace | Subject::Anything => draft.about(names.place),
        });
    }
    book.append(&drafts, &samples::texts(), SPRING_MS + 5).unwrap();
}

fn look(book: &Book) -> Json {
    let report = book.verify().unwrap();
    json!({
        "entries": book.entries(None, 1_000).unwrap(),
        "places": book.places().unwrap(),
        "batches": book.batches().unwrap(),
        "people": book.people().unwrap(),
        "devices": book.devices().unwrap(),
        "forecasts": book.forecasts().unwrap(),
        "tasks": book.tasks().unwrap(),
        "piles": book.piles().unwrap(),
        "trials": book.trials().unwrap(),
        "holding": book.holding_view().unwrap(),
        "findings": report.findings,
        "heads": report.heads,
        "projection_hash": book.projection_hash().unwrap(),
    })
}

/// A copy of a book that was kept, opened by its own device.
fn kept_book(name: &str, folder: &TempDir) -> Book {
    let copy = folder.path().join(name);
    std::fs::copy(fixtures().join(name), &copy).unwrap();
    let stranger = Book::open(&copy, Some(&key(9))).unwrap();
    assert!(!stranger.writable(), "a copied book is for reading until its device is enrolled");
    drop(stranger);
    let mut book = Book::open(&copy, Some(&key(1))).unwrap();
    assert!(book.writable());
    assert_eq!(look(&book)["findings"], json!([]));
    let hash = book.projection_hash().unwrap();
    assert_eq!(book.rebuild().unwrap(), hash);
    book
}

fn goes_on(book: &mut Book) {
    book.append(&[Draft::new(day(9), feed(1_000)).about(id(4))], &[], SPRING_MS + 9).unwrap();
    assert!(book.verify().unwrap().sound());
}

/// Books of earlier times, oldest first. A round of new kinds or versions ends with another one.
const BOOKS: [&str; 2] = ["book", "season"];

#[test]
fn books_of_earlier_times_open_verify_and_add_up() {
    let folder = folder();
    for name in BOOKS {
        let mut book = kept_book(&format!("{name}.sqlite"), &folder);
        let mut then = golden(&format!("{name}.json"), &Json::Null);
        // Views have grown since, and so have their bytes.
        then.as_object_mut().unwrap().remove("projection_hash");
        assert!(holds(&look(&book), &then), "{name}");
        goes_on(&mut book);
    }
}

#[test]
fn the_same_season_gives_the_same_bytes() {
    let folder = folder();
    let device = key(1).device();
    let written = |name: &str| {
        let mut book = new_book(&folder.path().join(name));
        fill(&mut book);
        assert!(book.verify().unwrap().sound());
        let hash = book.projection_hash().unwrap();
        assert_eq!(book.rebuild().unwrap(), hash);
        (book.envelopes(device, 1, 1_000).unwrap(), look(&book))
    };
    assert_eq!(written("one"), written("another"));
}
