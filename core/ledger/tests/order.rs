//! The same entries add up to the same bytes, in whatever order they came and however they were folded.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

mod ledger;

use std::fs;

use kerfbook_ledger::kind::{CropEnded, DeviceEnrolled, Fate, PlaceClosed, WaterGiven};
use kerfbook_ledger::{Book, Draft, Entry, EntryId, Flag, Hash, Head, Kind, LedgerError, Replacement};
use ledger::random::{Chains, Chance};
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
        6 => Draft::new(day(on), WaterGiven { depth_mm: Some(step.figure), volume_ml: None, under: None })
            .about(place),
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

/// Seeds, and entries of each book: `KERFBOOK_LONG` asks for many.
fn random_books() -> Vec<(u64, usize)> {
    let (large, small) =
        if std::env::var("KERFBOOK_LONG").as_deref() == Ok("1") { (60, 600) } else { (3, 24) };
    (0..large).map(|seed| (seed, 2_000)).chain((1_000..1_000 + small).map(|seed| (seed, 200))).collect()
}

#[test]
fn random_books_of_every_kind_add_up_alike_in_any_order() {
    let mut met = std::collections::BTreeSet::new();
    let mut flags = std::collections::BTreeSet::new();
    for (seed, length) in random_books() {
        let folder = folder();
        let founder = folder.path().join("founder");
        let founding = new_book(&founder);
        founding.settle().unwrap();
        let chains = Chains::new(seed, length, &founding.envelopes(key(1).device(), 1, 10).unwrap());
        drop(founding);
        let start = |name: &str| {
            let path = folder.path().join(name);
            fs::copy(&founder, &path).unwrap();
            Book::open(&path, None).unwrap()
        };
        let mut chance = Chance(seed ^ 0x5eed);
        // Device after device, each in one piece; in another book the other way round, after what enrols them.
        let mut hashes = Vec::new();
        for (name, order) in [("forwards", [0, 1, 2]), ("backwards", [2, 1, 0])] {
            let mut book = start(name);
            give(&mut book, &chains, 0, 0, 4);
            for device in order {
                give(&mut book, &chains, device, 0, chains.bytes[device].len());
            }
            hashes.push(book.projection_hash().unwrap());
        }
        // Slices of every device mixed, some of it again.
        let mut book = start("mixed");
        give(&mut book, &chains, 0, 0, 4);
        let mut given = [4, 0, 0];
        while (0..3).any(|device| given[device] < chains.bytes[device].len()) {
            let device = chance.below(3);
            let to = (given[device] + 1 + chance.below(length / 20)).min(chains.bytes[device].len());
            give(&mut book, &chains, device, given[device].saturating_sub(chance.below(3)), to);
            given[device] = to;
            if chance.once_in(20) {
                let report = book.verify().unwrap();
                assert!(report.sound(), "book {seed} after {given:?}: {:?}", report.findings);
            }
        }
        hashes.push(book.projection_hash().unwrap());
        hashes.push(book.rebuild().unwrap());
        assert!(hashes.iter().all(|hash| *hash == hashes[0]), "book {seed}: {hashes:?}");
        for line in book.entries(None, 10_000).unwrap() {
            met.extend(line.current.original.known_kind());
            flags.extend(line.current.flags);
        }
        look_at_everything(&book);
    }
    assert_eq!(met.into_iter().collect::<Vec<_>>(), samples::kinds());
    let not_met: Vec<&Flag> = Flag::ALL.iter().filter(|flag| !flags.contains(flag)).collect();
    assert_eq!(not_met, [&Flag::Unreadable], "every doubt is met but that about bytes that nobody writes");
}

/// Takes the entries `from` to `to` of a device.
fn give(book: &mut Book, chains: &Chains, device: usize, from: usize, to: usize) {
    if from < to {
        let head = chains.head(device, to);
        book.receive(&chains.bytes[device][from..to], &[head], &[], SPRING_MS + 86_400_000).unwrap();
    }
}

/// Every view reads, and what it adds up holds together.
fn look_at_everything(book: &Book) {
    for place in book.places().unwrap() {
        for layer in &place.layers {
            let lifted = place.lifted.iter().filter(|lift| lift.body.layer == layer.entry);
            let lifted: u32 = lifted.map(|lift| lift.body.share_bp).sum();
            assert_eq!(layer.lies_bp, 10_000_u32.saturating_sub(lifted));
            assert!(layer.dug_in.is_none_or(|day| day > layer.date));
        }
    }
    let batches = book.batches().unwrap();
    for batch in &batches {
        let used: u64 = batch.uses.iter().filter_map(|part| part.wet_g).sum();
        if batch.recounts.is_empty() {
            let came = batch.wet_g.map(|came| i64::try_from(came).unwrap() - i64::try_from(used).unwrap());
            assert_eq!(batch.left_g, came);
        }
    }
    for task in book.tasks().unwrap() {
        let twice = task.flagged.iter().filter(|one| one.flags.contains(&Flag::ClosedTwice));
        assert!(task.closed.is_some() || twice.count() == 0);
    }
    for trial in book.trials().unwrap() {
        assert_eq!(trial.opened.is_some(), trial.closed.is_some());
        for plot in &trial.plots {
            let after = |date| trial.closed.as_ref().is_some_and(|closed| closed.date < date);
            assert!(plot.scores.iter().all(|score| !after(score.date)));
        }
    }
    assert!(book.holding_view().unwrap().is_some());
    book.people().unwrap();
    book.devices().unwrap();
    book.forecasts().unwrap();
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
    let mut back = Vec::new();
    let mut before = None;
    loop {
        let page = season.book.latest(before, 4).unwrap();
        let Some(last) = page.last() else { break };
        before = Some(last.position());
        back.extend(page);
    }
    back.reverse();
    assert_eq!(back, all);
    assert_eq!(season.book.naming(season.first).unwrap().len(), 21);
}
