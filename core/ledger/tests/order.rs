//! The same entries add up to the same bytes, in whatever order they came and however they were folded.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

mod ledger;

use std::fs;

use kerfbook_ledger::kind::{CropEnded, DeviceEnrolled, Fate, PlaceClosed, WaterGiven};
use kerfbook_ledger::{Book, Draft, Entry, EntryId, Hash, Head, Kind, LedgerError, Replacement};
use ledger::*;
use proptest::prelude::*;

/// One thing that a person does on one of three devices.
#[derive(Debug, Clone)]
struct Step {
    device: usize,
    what: u8,
    which: prop::sample::Index,
    other: prop::sample::Index,
    figure: u32,
}

fn steps() -> impl Strategy<Value = Vec<Step>> {
    let step =
        (0..3_usize, 0..14_u8, any::<prop::sample::Index>(), any::<prop::sample::Index>(), 1..500_000_u32)
            .prop_map(|(device, what, which, other, figure)| Step { device, what, which, other, figure });
    proptest::collection::vec(step, 10..45)
}

fn all_of(book: &Book, kind: Kind) -> Vec<EntryId> {
    book.of_kind(kind).unwrap().iter().map(|current| current.original.id).collect()
}

/// Does the step as far as the device's own book allows it.
fn act(book: &mut Book, step: &Step, now: i64) -> Result<(), LedgerError> {
    let on = i32::try_from(step.figure % 200).unwrap();
    let places = all_of(book, Kind::PlaceOutlined);
    let (place, other) = (*step.which.get(&places), *step.other.get(&places));
    let loads = all_of(book, Kind::LoadTakenIn);
    let draft = match step.what {
        0 => Draft::new(day(on), bed(&format!("Bed {}", step.figure))),
        1 => Draft::new(day(on), load(&format!("Load {}", step.figure), u64::from(step.figure))),
        2..=4 if !loads.is_empty() => {
            Draft::new(day(on), put(*step.other.get(&loads), u64::from(step.figure))).about(place)
        }
        5 => Draft::new(day(on), feed(u64::from(step.figure))).about(place),
        6 => Draft::new(day(on), WaterGiven { depth_mm: Some(step.figure), volume_ml: None }).about(place),
        7 => Draft::new(day(on), crop("cabbage")).about(place),
        8 => {
            let crops = all_of(book, Kind::CropStarted);
            if crops.is_empty() {
                return Ok(());
            }
            let end = CropEnded { crop: *step.other.get(&crops), fate: Fate::Mown, yield_g: None };
            Draft::new(day(on), end).about(place)
        }
        9 => Draft::new(day(on), PlaceClosed { reason: None }).about(place),
        10 | 11 => {
            let puts = all_of(book, Kind::PutDown);
            if puts.is_empty() {
                return Ok(());
            }
            let grams = Replacement::field(Kind::PutDown, "wet_g", &Some(u64::from(step.figure)))?;
            let replaced = if step.what == 10 { vec![Replacement::subject(other)] } else { vec![grams] };
            return book.correct(*step.which.get(&puts), &replaced, change(on), now).map(|_| ());
        }
        _ => {
            let every: Vec<EntryId> =
                book.entries(None, 10_000).unwrap().iter().map(|line| line.current.original.id).collect();
            return book.withdraw(*step.which.get(&every), change(on), now).map(|_| ());
        }
    };
    book.append(&[draft], &[], now).map(|_| ())
}

fn pass_on(from: &Book, to: &mut Book) {
    // Enrolments are the founder's: its entries go first.
    let founder = key(1).device();
    let mut heads = from.heads().unwrap();
    heads.sort_by_key(|head| head.device != founder);
    for head in heads {
        let envelopes = from.envelopes(head.device, 1, 10_000).unwrap();
        to.receive(&envelopes, &[head], &[], SPRING_MS).unwrap();
    }
}

/// Few by default, because each syncs to the disk hundreds of times; `PROPTEST_CASES` asks for more.
fn cases() -> u32 {
    std::env::var("PROPTEST_CASES").ok().and_then(|cases| cases.parse().ok()).unwrap_or(24)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: cases(), failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn order_of_arrival_does_not_matter(
        steps in steps(),
        meetings in proptest::collection::vec((0..45_usize, 0..3_usize, 0..3_usize), 0..8),
        slices in proptest::collection::vec((0..3_usize, 1..6_usize), 30),
    ) {
        let folder = folder();
        let keys = [key(1), key(2), key(3)];
        let start = folder.path().join("start");
        let mut book = season(&start).book;
        for key in &keys[1..] {
            let enrolled = DeviceEnrolled { public_key: key.public(), label: label("Phone") };
            book.append(&[Draft::new(day(0), enrolled)], &[], SPRING_MS + 2).unwrap();
        }
        book.settle().unwrap();
        drop(book);
        let copy = |name: &str, key| {
            let path = folder.path().join(name);
            fs::copy(&start, &path).unwrap();
            Book::open(&path, Some(key)).unwrap()
        };
        let mut books: Vec<Book> =
            keys.iter().enumerate().map(|(number, key)| copy(&format!("device {number}"), key)).collect();
        for (number, step) in steps.iter().enumerate() {
            // Clocks an hour apart either way: they decide nothing.
            let now = SPRING_MS + 1_000 * i64::try_from(number).unwrap()
                + 3_600_000 * (i64::try_from(step.device).unwrap() - 1);
            match act(&mut books[step.device], step, now) {
                Ok(())
                | Err(LedgerError::Withdrawn(_) | LedgerError::Fixed(_)) => {}
                Err(error) => panic!("{step:?}: {error}"),
            }
            for (_, from, to) in meetings.iter().filter(|(when, from, to)| *when == number && from != to) {
                let [from, to] = books.get_disjoint_mut([*from, *to]).unwrap();
                pass_on(from, to);
            }
        }
        for number in 1..3 {
            let [first, other] = books.get_disjoint_mut([0, number]).unwrap();
            pass_on(other, first);
        }
        for number in 1..3 {
            let [first, other] = books.get_disjoint_mut([0, number]).unwrap();
            pass_on(first, other);
        }
        let hash = books[0].projection_hash().unwrap();
        for book in &mut books {
            prop_assert_eq!(book.projection_hash().unwrap(), hash, "devices differ");
            prop_assert_eq!(book.rebuild().unwrap(), hash, "rebuilt differs from incremental");
            let report = book.verify().unwrap();
            prop_assert!(report.sound(), "{:?}", report.findings);
        }

        // A new copy gets everything in slices, devices mixed, some slices twice.
        let chains: Vec<Vec<Vec<u8>>> =
            keys.iter().map(|key| books[0].envelopes(key.device(), 1, 10_000).unwrap()).collect();
        let mut late = copy("late", &keys[0]);
        let mut given = [0, 0, 0];
        let rest = (0..3).map(|device| (device, 10_000));
        for (device, count) in slices.into_iter().chain(rest) {
            let chain: &Vec<Vec<u8>> = &chains[device];
            let end = (given[device] + count).min(chain.len());
            if end == 0 {
                continue;
            }
            let from = given[device].saturating_sub(1);
            let last = Entry::decode(&chain[end - 1]).unwrap();
            let head = Head::sign(&keys[device], &late.holding(), last.id.seq, Hash::of(&chain[end - 1]));
            late.receive(&chain[from..end], &[head], &[], SPRING_MS).unwrap();
            given[device] = end;
        }
        prop_assert_eq!(late.projection_hash().unwrap(), hash, "the order of arrival showed");
        prop_assert_eq!(late.rebuild().unwrap(), hash);
        let order = |book: &Book| -> Vec<Hash> {
            book.entries(None, 10_000).unwrap().iter().map(|line| line.hash).collect()
        };
        prop_assert_eq!(order(&late), order(&books[1]), "the order of display differs");
    }
}

#[test]
fn pages_give_every_entry_once() {
    let folder = folder();
    let mut season = season(&folder.path().join("book"));
    for number in 0..20 {
        let draft = Draft::new(day(number), feed(1)).about(season.first);
        season.book.append(&[draft], &[], SPRING_MS + 3).unwrap();
    }
    let all = season.book.entries(None, 1_000).unwrap();
    let mut paged = Vec::new();
    let mut after = None;
    loop {
        let page = season.book.entries(after, 4).unwrap();
        let Some(last) = page.last() else { break };
        after = Some(last.position());
        paged.extend(page);
    }
    assert_eq!(paged, all);
    assert_eq!(all.len(), 27);
    assert_eq!(season.book.naming(season.first).unwrap().len(), 21);
}
