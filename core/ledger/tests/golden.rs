//! What was once written stays readable: a file for each kind and a whole book, read on every run.
//!
//! `KERFBOOK_GOLDEN=write` writes files that are not there yet. A file that is there is never written over: the format
//! is published, and a difference is a fault of the code.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

mod ledger;

use std::path::{Path, PathBuf};

use kerfbook_ledger::kind::Body;
use kerfbook_ledger::{Book, Entry, EntryId, Hash, Hlc, HoldingId, Kind, Nonce, Subject};
use ledger::samples::{self, Names};
use ledger::*;
use serde_json::{Value as Json, json};

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
    Names { batch: id(5), feed: id(7), crop: id(10), place: id(4), second: id(12), note: id(13) }
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
        let name = format!("{}.json", entry.known_kind().unwrap().name());
        let made = json!({
            "bytes": hex(&entry.encode()),
            "hash": Hash::of(&entry.encode()),
            "entry": entry,
        });
        let kept = golden(&name, &made);
        assert_eq!(made, kept, "{name}");
        let read = Entry::decode(&bytes(kept["bytes"].as_str().unwrap())).unwrap();
        assert_eq!(read, entry, "{name}");
        assert_eq!(read.read(), *body, "{name}");
    }
}

#[test]
fn kinds_and_versions_of_later_times_are_kept_as_they_are() {
    let mut entry = envelope(&samples::bodies(&names())[7], 8);
    entry.version = 2;
    entry.body.push(kerfbook_ledger::Value::Int(5));
    let made = json!({ "bytes": hex(&entry.encode()), "hash": Hash::of(&entry.encode()), "entry": entry });
    let kept = golden("later-version.json", &made);
    assert_eq!(made, kept);
    let read = Entry::decode(&bytes(kept["bytes"].as_str().unwrap())).unwrap();
    assert!(matches!(read.read(), Body::Later(_)));
    entry.kind = 30_000;
    let made = json!({ "bytes": hex(&entry.encode()), "hash": Hash::of(&entry.encode()), "entry": entry });
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
    let fields = Json::Object(
        samples::kinds().iter().map(|kind| (kind.name().to_owned(), json!(kind.fields().unwrap()))).collect(),
    );
    assert_eq!(golden("fields.json", &fields), fields);
}

/// Every kind, with a correction and a withdrawal that stand.
fn fill(book: &mut Book) {
    let first = book.next_id().unwrap();
    assert_eq!(first, id(3));
    let names = names();
    let mut drafts: Vec<kerfbook_ledger::Draft> = Vec::new();
    for body in samples::bodies(&names).into_iter().skip(2) {
        let kind = body.write().unwrap().0;
        // The second place stands where the samples name it.
        if kind == Kind::ForecastFrozen {
            drafts.push(kerfbook_ledger::Draft::new(day(2), bed("Bed 2")).by(Some(id(3))));
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
        let draft = kerfbook_ledger::Draft::new(day(2), body).by((!drafts.is_empty()).then(|| id(3)));
        drafts.push(match kind.subject() {
            Subject::Nothing => draft,
            Subject::Place | Subject::Anything => draft.about(names.place),
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
        "findings": report.findings,
        "heads": report.heads,
        "projection_hash": book.projection_hash().unwrap(),
    })
}

#[test]
fn whole_book_opens_verifies_and_adds_up() {
    let folder = folder();
    let path = fixtures().join("book.sqlite");
    if !path.exists() && std::env::var("KERFBOOK_GOLDEN").is_ok_and(|wish| wish == "write") {
        std::fs::create_dir_all(fixtures()).unwrap();
        let made = folder.path().join("made");
        let mut book = new_book(&made);
        fill(&mut book);
        book.settle().unwrap();
        drop(book);
        std::fs::copy(&made, &path).unwrap();
    }
    let copy = folder.path().join("copy");
    std::fs::copy(&path, &copy).unwrap();
    let stranger = Book::open(&copy, Some(&key(9))).unwrap();
    assert!(!stranger.writable(), "a copied book is for reading until its device is enrolled");
    drop(stranger);
    let mut book = Book::open(&copy, Some(&key(1))).unwrap();
    assert!(book.writable());
    let found = look(&book);
    assert_eq!(found["findings"], json!([]));
    assert_eq!(golden("book.json", &found), found);
    let hash = book.projection_hash().unwrap();
    assert_eq!(book.rebuild().unwrap(), hash);

    // The same season written today gives the same bytes.
    let mut again = new_book(&folder.path().join("again"));
    fill(&mut again);
    let device = key(1).device();
    assert_eq!(again.envelopes(device, 1, 1_000).unwrap(), book.envelopes(device, 1, 1_000).unwrap());
    book.append(&[kerfbook_ledger::Draft::new(day(9), feed(1_000)).about(id(4))], &[], SPRING_MS + 9)
        .unwrap();
    assert!(book.verify().unwrap().sound());
}
