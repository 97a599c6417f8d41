//! Each mistake that a book has to undo, as a flow.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

mod ledger;

use kerfbook_ledger::kind::{Kind, NoteMade, PlaceClosed};
use kerfbook_ledger::{Book, Draft, Flag, LedgerError, Replacement, Text};
use ledger::*;

#[test]
fn putting_down_moves_when_the_bed_was_wrong() {
    let folder = folder();
    let mut season = season(&folder.path().join("book"));
    let book = &mut season.book;
    assert_eq!(book.place(season.first).unwrap().unwrap().wet_g, 100_000);
    let reason = Text::new([9; 16], "it was the bed beside it");
    let how = kerfbook_ledger::Change { when: day(9), by: Some(season.person), reason: Some(&reason) };
    let correction =
        book.correct(season.putting, &[Replacement::subject(season.second)], how, SPRING_MS + 9).unwrap();
    let (first, second) =
        (book.place(season.first).unwrap().unwrap(), book.place(season.second).unwrap().unwrap());
    assert_eq!((first.layers.len(), first.wet_g), (0, 0));
    assert_eq!((second.layers.len(), second.wet_g), (1, 100_000));
    assert_eq!(book.batch(season.batch).unwrap().unwrap().uses[0].place, Some(season.second));
    assert_eq!(book.text(reason.hash()).unwrap().as_deref(), Some("it was the bed beside it"));
    let current = book.current(season.putting).unwrap().unwrap();
    assert_eq!(current.changes, [correction]);
    assert_eq!(current.original.subject, Some(season.first), "the original stays as it was written");
    consistent(book);
}

#[test]
fn balance_is_right_when_the_unit_was_wrong_and_found_a_week_later() {
    let folder = folder();
    let mut season = season(&folder.path().join("book"));
    let book = &mut season.book;
    // 900 lb entered as 900 kg.
    let wrong = book
        .append(&[Draft::new(day(3), put(season.batch, 900_000)).about(season.second)], &[], SPRING_MS + 3)
        .unwrap()[0];
    let batch = book.batch(season.batch).unwrap().unwrap();
    assert_eq!(batch.left_g, Some(-600_000));
    assert!(batch.overdrawn());
    let fields = [
        Replacement::field(Kind::PutDown, "wet_g", &Some(408_233_u64)).unwrap(),
        Replacement::field(Kind::PutDown, "dry_g", &Some(244_940_u64)).unwrap(),
    ];
    book.correct(wrong, &fields, change(10), SPRING_MS + 10).unwrap();
    let batch = book.batch(season.batch).unwrap().unwrap();
    assert_eq!(batch.left_g, Some(400_000 - 100_000 - 408_233));
    assert!(batch.overdrawn(), "still more than came: it says so and refuses nothing");
    consistent(book);
}

#[test]
fn second_correction_builds_on_the_first() {
    let folder = folder();
    let mut season = season(&folder.path().join("book"));
    let book = &mut season.book;
    let wet = |grams: u64| Replacement::field(Kind::PutDown, "wet_g", &Some(grams)).unwrap();
    let first = book.correct(season.putting, &[wet(90_000)], change(3), SPRING_MS + 3).unwrap();
    let second = book
        .correct(season.putting, &[Replacement::date(day(1).date), wet(80_000)], change(4), SPRING_MS + 4)
        .unwrap();
    let current = book.current(season.putting).unwrap().unwrap();
    assert_eq!(current.changes, [first, second]);
    assert_eq!(current.tips, [second]);
    assert_eq!(current.date, day(1).date);
    assert!(!current.flags.contains(&Flag::Unsettled));
    assert_eq!(book.place(season.first).unwrap().unwrap().wet_g, 80_000);

    book.withdraw(second, change(5), SPRING_MS + 5).unwrap();
    assert_eq!(book.place(season.first).unwrap().unwrap().wet_g, 90_000, "the first correction stands again");
    assert_eq!(book.current(season.putting).unwrap().unwrap().date, day(2).date);
    let withdrawal = book.withdraw(first, change(6), SPRING_MS + 6).unwrap();
    assert_eq!(book.place(season.first).unwrap().unwrap().wet_g, 100_000, "the original stands again");
    book.withdraw(withdrawal, change(7), SPRING_MS + 7).unwrap();
    assert_eq!(book.place(season.first).unwrap().unwrap().wet_g, 90_000, "a withdrawal can be withdrawn");
    consistent(book);
}

#[test]
fn load_entered_by_two_people_is_withdrawn_and_what_rests_on_it_flagged() {
    let folder = folder();
    let mut season = season(&folder.path().join("book"));
    let book = &mut season.book;
    let twin =
        book.append(&[Draft::new(day(1), load("Load 1 again", 400_000))], &[], SPRING_MS + 3).unwrap()[0];
    let resting = book
        .append(&[Draft::new(day(3), put(twin, 50_000)).about(season.second)], &[], SPRING_MS + 4)
        .unwrap()[0];
    let withdrawal = book.withdraw(twin, change(5), SPRING_MS + 5).unwrap();
    assert!(book.batch(twin).unwrap().unwrap().withdrawn());
    assert!(has(book, resting, Flag::RestsOnWithdrawn));
    let second = book.place(season.second).unwrap().unwrap();
    assert_eq!((second.layers.len(), second.wet_g), (0, 0), "outside the sums");
    assert_eq!(second.flagged[0].entry, resting, "but shown");
    consistent(book);

    // The putting down was real: it came from the load that stays.
    let batch = Replacement::field(Kind::PutDown, "batch", &season.batch).unwrap();
    book.correct(resting, &[batch], change(6), SPRING_MS + 6).unwrap();
    assert_eq!(book.batch(season.batch).unwrap().unwrap().left_g, Some(250_000));
    assert_eq!(book.place(season.second).unwrap().unwrap().wet_g, 50_000);
    consistent(book);

    book.withdraw(withdrawal, change(7), SPRING_MS + 7).unwrap();
    assert!(!book.batch(twin).unwrap().unwrap().withdrawn());
    consistent(book);
}

#[test]
fn withdrawn_place_takes_its_entries_out_of_every_sum() {
    let folder = folder();
    let mut season = season(&folder.path().join("book"));
    let book = &mut season.book;
    book.withdraw(season.first, change(5), SPRING_MS + 5).unwrap();
    assert_eq!(book.batch(season.batch).unwrap().unwrap().left_g, Some(400_000));
    assert!(matches!(
        book.withdraw(season.first, change(6), SPRING_MS + 6),
        Err(LedgerError::Withdrawn(id)) if id == season.first
    ));
    assert!(matches!(
        book.correct(season.first, &[Replacement::date(day(1).date)], change(6), SPRING_MS + 6),
        Err(LedgerError::Withdrawn(_))
    ));
    consistent(book);
}

#[test]
fn closed_place_takes_late_entries_and_flags_them() {
    let folder = folder();
    let mut season = season(&folder.path().join("book"));
    let book = &mut season.book;
    let ids = book
        .append(
            &[
                Draft::new(day(10), PlaceClosed { reason: None }).about(season.first),
                Draft::new(day(12), feed(50_000)).about(season.first),
                Draft::new(day(8), feed(30_000)).about(season.first),
            ],
            &[],
            SPRING_MS + 3,
        )
        .unwrap();
    assert!(has(book, ids[1], Flag::Late));
    assert!(!has(book, ids[2], Flag::Late));
    let place = book.place(season.first).unwrap().unwrap();
    assert_eq!((place.closed, place.nitrogen_mg), (Some(day(10).date), 80_000));
    consistent(book);
    book.withdraw(ids[0], change(13), SPRING_MS + 4).unwrap();
    assert!(!has(book, ids[1], Flag::Late));
    assert_eq!(book.place(season.first).unwrap().unwrap().closed, None);
    consistent(book);
}

#[test]
fn concurrent_corrections_go_by_device_and_stay_unsettled_until_settled() {
    let folder = folder();
    let (desk_path, phone_path) = (folder.path().join("desk"), folder.path().join("phone"));
    let mut season = season(&desk_path);
    let phone_key = key(2);
    let enrolment =
        kerfbook_ledger::kind::DeviceEnrolled { public_key: phone_key.public(), label: label("Phone") };
    season.book.append(&[Draft::new(day(2), enrolment)], &[], SPRING_MS + 2).unwrap();
    season.book.settle().unwrap();
    std::fs::copy(&desk_path, &phone_path).unwrap();
    let mut phone = Book::open(&phone_path, Some(&phone_key)).unwrap();
    let desk = &mut season.book;

    let wet = |grams: u64| [Replacement::field(Kind::PutDown, "wet_g", &Some(grams)).unwrap()];
    // The phone's clock is an hour ahead; that must decide nothing.
    let by_phone = phone.correct(season.putting, &wet(70_000), change(3), SPRING_MS + 3_600_000).unwrap();
    let by_desk = desk.correct(season.putting, &wet(60_000), change(3), SPRING_MS + 3).unwrap();
    pass_on(&phone, desk);
    pass_on(desk, &mut phone);
    assert_eq!(desk.projection_hash().unwrap(), phone.projection_hash().unwrap());
    assert!(has(desk, season.putting, Flag::Unsettled));
    let winner = if by_phone.device > by_desk.device { 70_000 } else { 60_000 };
    assert_eq!(desk.place(season.first).unwrap().unwrap().wet_g, winner);

    let settled = desk.correct(season.putting, &wet(65_000), change(4), SPRING_MS + 4).unwrap();
    pass_on(desk, &mut phone);
    for book in [&mut *desk, &mut phone] {
        let current = book.current(season.putting).unwrap().unwrap();
        assert_eq!(current.tips, [settled]);
        assert!(!current.flags.contains(&Flag::Unsettled));
        assert_eq!(book.place(season.first).unwrap().unwrap().wet_g, 65_000);
        consistent(book);
    }
}

/// Everything that one book has and the other lacks.
fn pass_on(from: &Book, to: &mut Book) {
    for head in from.heads().unwrap() {
        let envelopes = from.envelopes(head.device, 1, 10_000).unwrap();
        to.receive(&envelopes, &[head], &[], SPRING_MS + 10_000).unwrap();
    }
}

#[test]
fn correction_is_refused_when_it_fits_no_field() {
    let folder = folder();
    let mut season = season(&folder.path().join("book"));
    let book = &mut season.book;
    let before = book.projection_hash().unwrap();
    let wrong = [
        vec![Replacement { field: 99, value: kerfbook_ledger::Value::Int(1) }],
        vec![Replacement { field: -9, value: kerfbook_ledger::Value::Int(1) }],
        vec![Replacement { field: 2, value: kerfbook_ledger::Value::Text("much".to_owned()) }],
        vec![Replacement { field: 2, value: kerfbook_ledger::Value::Int(-5) }],
        vec![Replacement::subject(season.batch)],
        vec![Replacement::minute(Some(1_440))],
        vec![Replacement::by(Some(season.batch))],
        vec![Replacement::field(Kind::PutDown, "batch", &season.first).unwrap()],
    ];
    for replaced in wrong {
        assert!(book.correct(season.putting, &replaced, change(3), SPRING_MS + 3).is_err(), "{replaced:?}");
    }
    assert!(Replacement::field(Kind::PutDown, "weight", &1_u32).is_err());
    assert_eq!(book.projection_hash().unwrap(), before);
    consistent(book);
}

#[test]
fn founding_stays_when_someone_tries_to_take_it_out() {
    let folder = folder();
    let mut book = new_book(&folder.path().join("book"));
    let opened = book.entries(None, 1).unwrap()[0].current.original.id;
    assert!(matches!(book.withdraw(opened, change(1), SPRING_MS + 1), Err(LedgerError::Fixed(_))));
    let key = Replacement::field(Kind::HoldingOpened, "nonce", &kerfbook_ledger::Nonce([1; 16])).unwrap();
    assert!(matches!(book.correct(opened, &[key], change(1), SPRING_MS + 1), Err(LedgerError::Fixed(_))));
    let name = Replacement::field(Kind::HoldingOpened, "name", &label("Better name")).unwrap();
    book.correct(opened, &[name], change(1), SPRING_MS + 1).unwrap();
    consistent(&mut book);
}

#[test]
fn names_are_refused_when_they_lead_nowhere() {
    let folder = folder();
    let mut season = season(&folder.path().join("book"));
    let book = &mut season.book;
    let nowhere = season.first.after(1_000);
    let text = Text::new([4; 16], "a note");
    let drafts = [
        Draft::new(day(3), put(nowhere, 1)).about(season.first),
        Draft::new(day(3), put(season.first, 1)).about(season.first),
        Draft::new(day(3), put(season.batch, 1)).about(nowhere),
        Draft::new(day(3), put(season.batch, 1)).about(season.batch),
        Draft::new(day(3), put(season.batch, 1)),
        Draft::new(day(3), bed("Bed 3")).about(season.first),
        Draft::new(day(3), NoteMade { text: text.hash() }).about(nowhere),
        Draft::new(day(3), NoteMade { text: text.hash() }).by(Some(season.first)),
    ];
    let before = book.entries(None, 100).unwrap().len();
    for draft in drafts {
        // A good entry in the same call goes down with the bad one.
        let good = Draft::new(day(3), feed(1_000)).about(season.first);
        assert!(book.append(&[good, draft.clone()], &[], SPRING_MS + 3).is_err(), "{draft:?}");
    }
    assert_eq!(book.entries(None, 100).unwrap().len(), before);
    consistent(book);
}
