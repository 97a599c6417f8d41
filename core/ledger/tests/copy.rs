//! A copy of the book: whole, verified, for reading; nothing half-written.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

mod ledger;

use std::fs;

use kerfbook_ledger::{Book, Draft, LedgerError};
use ledger::*;

#[test]
fn a_copy_is_the_whole_book_for_reading() {
    let folder = folder();
    let mut season = season(&folder.path().join("book"));
    let copy = folder.path().join("copy");
    season.book.copy_to(&copy).unwrap();
    let read = Book::open(&copy, None).unwrap();
    assert!(!read.writable());
    assert!(read.verify().unwrap().sound());
    let all = |book: &Book| book.envelopes(key(1).device(), 1, 10_000).unwrap();
    assert_eq!(all(&read), all(&season.book));
    let person = season.book.people().unwrap().remove(0);
    assert_eq!(read.text(person.name).unwrap(), season.book.text(person.name).unwrap());
    // The book goes on, and the copy stays as it was.
    let before = all(&read).len();
    season.book.append(&[Draft::new(day(5), feed(10_000)).about(season.first)], &[], SPRING_MS + 5).unwrap();
    assert_eq!(all(&read).len(), before);
}

#[test]
fn nothing_is_overwritten_and_nothing_is_left_half_written() {
    let folder = folder();
    let season = season(&folder.path().join("book"));
    let copy = folder.path().join("copy");
    fs::write(&copy, "another file").unwrap();
    assert!(matches!(season.book.copy_to(&copy), Err(LedgerError::Exists)));
    assert_eq!(fs::read(&copy).unwrap(), b"another file");
    let nowhere = folder.path().join("no folder").join("copy");
    assert!(season.book.copy_to(&nowhere).is_err());
    // What an earlier copy left when it was cut off is no hindrance.
    let second = folder.path().join("second");
    fs::write(folder.path().join("second-new"), "half").unwrap();
    season.book.copy_to(&second).unwrap();
    assert!(!folder.path().join("second-new").exists());
    assert!(Book::open(&second, None).unwrap().verify().unwrap().sound());
}
