//! What a book does when the file, the disk or a person is against it.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]
#![allow(clippy::print_stdout, reason = "figures for whoever looks, and how a child answers")]

mod ledger;

use std::fs;
use std::os::unix::fs::PermissionsExt;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use kerfbook_ledger::kind::{DeviceEnrolled, NoteMade};
use kerfbook_ledger::store::verify::Finding;
use kerfbook_ledger::{
    Book, Change, Draft, Entry, EntryId, Flag, Hash, Head, LedgerError, Missing, Text, salvage, set_aside,
};
use ledger::*;
use rusqlite::{Connection, params};

/// A settled book with `entries` entries, its file alone, and their envelopes.
fn settled(path: &Path, entries: usize) -> Vec<Vec<u8>> {
    let mut season = season(path);
    while season.book.envelopes(key(1).device(), 1, 10_000).unwrap().len() < entries {
        let note = Text::new([5; 16], &format!("note {}", season.book.next_id().unwrap().seq));
        season
            .book
            .append(
                &[
                    Draft::new(day(5), feed(10_000)).about(season.first),
                    Draft::new(day(5), put(season.batch, 1_000)).about(season.second),
                    Draft::new(day(5), NoteMade { text: note.hash() }).about(season.second),
                ],
                &[note],
                SPRING_MS + 5,
            )
            .unwrap();
    }
    season.book.settle().unwrap();
    season.book.envelopes(key(1).device(), 1, 10_000).unwrap()
}

fn listed(book: &Book) -> kerfbook_ledger::error::Result<Vec<Vec<u8>>> {
    book.envelopes(key(1).device(), 1, 10_000)
}

#[test]
fn flipped_bits_are_noticed_or_harmless_and_what_is_good_is_kept() {
    let folder = folder();
    let path = folder.path().join("book");
    let originals = settled(&path, 120);
    let bytes = fs::read(&path).unwrap();
    let (mut noticed, mut harmless, mut least_kept, mut least_texts) = (0, 0, u64::MAX, u64::MAX);
    for at in (0..bytes.len()).step_by(512) {
        let flipped_path = folder.path().join("flipped");
        let mut flipped = bytes.clone();
        flipped[at] ^= 1 << (at / 512 % 8);
        fs::write(&flipped_path, &flipped).unwrap();
        let state = Book::open(&flipped_path, None).and_then(|book| Ok((listed(&book)?, book.verify()?)));
        match state {
            Ok((entries, report)) if report.sound() => {
                assert_eq!(entries, originals, "a flip at {at} changed an entry unseen");
                harmless += 1;
            }
            Ok(_) | Err(_) => noticed += 1,
        }
        let aside = set_aside(&flipped_path, "test").unwrap();
        let fresh = folder.path().join("fresh");
        let salvaged = salvage(&aside, &fresh, Some(&key(1))).unwrap();
        let book = Book::open(&fresh, Some(&key(1))).unwrap();
        for envelope in listed(&book).unwrap() {
            assert!(originals.contains(&envelope), "a flip at {at}: an entry that nobody wrote was kept");
        }
        for seq in 1..=originals.len() as u64 {
            let id = EntryId { device: key(1).device(), seq };
            let kept = book.entry(id).unwrap().is_some();
            let named = salvaged.missing.iter().any(|gap| (gap.from..=gap.to).contains(&seq));
            assert!(
                kept != (named || salvaged.doubtful.contains(&id)),
                "a flip at {at}: {seq} has to be kept or named, not both: {salvaged:?}"
            );
        }
        least_kept = least_kept.min(salvaged.kept);
        least_texts = least_texts.min(salvaged.texts);
        drop(book);
        for entry in fs::read_dir(folder.path()).unwrap() {
            let entry = entry.unwrap().path();
            if entry != path {
                fs::remove_file(entry).unwrap();
            }
        }
    }
    println!(
        "{noticed} flips noticed, {harmless} harmless, at least {least_kept} of {} kept",
        originals.len()
    );
    assert!(noticed > 100, "{noticed}");
    assert!(least_texts >= 38, "{least_texts} texts of 39");
    // One bit reaches one page: at most the entries that begin, end or lie in it.
    assert!(least_kept >= originals.len() as u64 - 2, "{least_kept}");
}

/// Opens the file past the triggers, as a forger would.
fn forge(path: &Path, change: impl FnOnce(&Connection)) -> Vec<Finding> {
    let forged = path.with_extension("forged");
    fs::copy(path, &forged).unwrap();
    let connection = Connection::open(&forged).unwrap();
    let triggers: Vec<(String, String)> = connection
        .prepare("SELECT name, sql FROM sqlite_schema WHERE type = 'trigger'")
        .unwrap()
        .query_map([], |row| Ok((row.get(0)?, row.get(1)?)))
        .unwrap()
        .map(Result::unwrap)
        .collect();
    for (name, _) in &triggers {
        connection.execute_batch(&format!("DROP TRIGGER {name}")).unwrap();
    }
    change(&connection);
    for (_, sql) in &triggers {
        connection.execute_batch(sql).unwrap();
    }
    drop(connection);
    let findings = Book::open(&forged, None).unwrap().verify().unwrap().findings;
    fs::remove_file(&forged).unwrap();
    findings
}

#[test]
fn every_changed_dropped_reordered_or_inserted_entry_is_found() {
    let folder = folder();
    let path = folder.path().join("book");
    let originals = settled(&path, 30);
    let device = key(1).device();
    assert_eq!(forge(&path, |_| ()), [], "a forger who changes nothing is not seen");
    let put = |connection: &Connection, seq: u64, bytes: &[u8]| {
        connection
            .execute(
                "UPDATE entry SET bytes = ?2 WHERE seq = ?1",
                params![i64::try_from(seq).unwrap(), bytes],
            )
            .unwrap();
    };
    let at = |findings: &[Finding], seq: u64| {
        findings.iter().any(|finding| match finding {
            Finding::Broken { entry } | Finding::NotSigned { entry } | Finding::Misplaced { entry } => {
                entry.seq == seq || entry.seq == seq + 1
            }
            Finding::Missing { from, to, .. } => (*from..=*to).contains(&seq),
            _ => false,
        })
    };
    for (seq, bytes) in (1..).zip(&originals) {
        let mut changed = Entry::decode(bytes).unwrap();
        changed.date = day(300).date;
        let findings = forge(&path, |connection| put(connection, seq, &changed.encode()));
        assert!(at(&findings, seq), "changed {seq}: {findings:?}");

        let findings = forge(&path, |connection| {
            connection.execute("DELETE FROM entry WHERE seq = ?1", [i64::try_from(seq).unwrap()]).unwrap();
        });
        assert!(at(&findings, seq), "dropped {seq}: {findings:?}");

        if let Some(next) = originals.get(usize::try_from(seq).unwrap()) {
            let findings = forge(&path, |connection| {
                put(connection, seq, next);
                put(connection, seq + 1, bytes);
            });
            assert!(at(&findings, seq), "reordered {seq}: {findings:?}");
        }

        // Everything from here on written anew, so that each entry follows from the one before it.
        let findings = forge(&path, |connection| {
            let mut prev = None;
            for (later, bytes) in (1..).zip(&originals).skip(usize::try_from(seq).unwrap() - 1) {
                let mut entry = Entry::decode(bytes).unwrap();
                entry.prev = prev.unwrap_or(entry.prev);
                if later == seq {
                    entry.date = day(300).date;
                }
                let bytes = entry.encode();
                prev = Some(Hash::of(&bytes));
                put(connection, later, &bytes);
            }
        });
        assert!(
            findings.iter().any(|finding| matches!(finding, Finding::NotSigned { .. })),
            "rewritten from {seq}: {findings:?}"
        );
    }
    let findings = forge(&path, |connection| {
        let mut entry = Entry::decode(originals.last().unwrap()).unwrap();
        entry.prev = Hash::of(originals.last().unwrap());
        entry.id = entry.id.after(1);
        connection
            .execute(
                "INSERT INTO entry SELECT device, seq + 1, hlc, kind, ?1 FROM entry ORDER BY seq DESC LIMIT 1",
                params![entry.encode()],
            )
            .unwrap();
    });
    let end = originals.len() as u64 + 1;
    assert!(findings.contains(&Finding::Unsigned { device, from: end, to: end }), "{findings:?}");
    let findings = forge(&path, |connection| {
        connection.execute("UPDATE text SET body = 'something else'", []).unwrap();
    });
    assert!(findings.iter().any(|finding| matches!(finding, Finding::TextChanged { .. })), "{findings:?}");
    let findings = forge(&path, |connection| {
        connection.execute("UPDATE projection SET bytes = x'80' WHERE sort = 1", []).unwrap();
    });
    assert!(findings.contains(&Finding::ProjectionDiffers), "{findings:?}");
}

#[test]
fn signature_of_the_last_head_covers_what_its_entry_follows_from_and_no_more() {
    let folder = folder();
    let path = folder.path().join("book");
    let end = settled(&path, 30).len() as u64;
    let device = key(1).device();
    let id = |seq| EntryId { device, seq };
    let run = |sql: &str| {
        forge(&path, |connection| {
            connection.execute_batch(sql).unwrap();
        })
    };
    let heads: Vec<u64> = Connection::open(&path)
        .unwrap()
        .prepare("SELECT seq FROM head ORDER BY seq")
        .unwrap()
        .query_map([], |row| row.get::<_, i64>(0))
        .unwrap()
        .map(|seq| u64::try_from(seq.unwrap()).unwrap())
        .collect();
    let (first, before, last) = (heads[0], heads[heads.len() - 2], heads[heads.len() - 1]);
    assert_eq!((first, last), (2, end));
    assert_eq!(
        run(&format!("UPDATE head SET hash = zeroblob(32) WHERE seq = {first}")),
        [Finding::NotSigned { entry: id(first) }],
        "an earlier head names what stands there"
    );
    assert_eq!(
        run(&format!("UPDATE head SET signature = zeroblob(64) WHERE seq = {last}")),
        [Finding::BadSignature { entry: id(last) }, Finding::Unsigned { device, from: before + 1, to: end }],
        "the head before it is asked in its stead"
    );
    let gap = run(&format!(
        "DELETE FROM entry WHERE seq = 5; UPDATE head SET signature = zeroblob(64) WHERE seq = {first}"
    ));
    assert!(gap.contains(&Finding::BadSignature { entry: id(first) }), "{gap:?}");
    assert!(gap.contains(&Finding::Missing { device, from: 5, to: 5 }), "{gap:?}");
    let changed = run(&format!(
        "UPDATE entry SET bytes = (SELECT bytes FROM entry WHERE seq = 6) WHERE seq = 5;
         UPDATE head SET signature = zeroblob(64) WHERE seq = {first}"
    ));
    assert!(changed.contains(&Finding::BadSignature { entry: id(first) }), "{changed:?}");
}

#[test]
fn erased_text_leaves_the_chain_whole() {
    let folder = folder();
    let path = folder.path().join("book");
    settled(&path, 12);
    assert_eq!(
        forge(&path, |connection| {
            assert!(connection.execute("DELETE FROM text", []).unwrap() > 0);
        }),
        []
    );
}

#[test]
fn entries_and_heads_cannot_be_updated_deleted_or_replaced() {
    let folder = folder();
    let path = folder.path().join("book");
    settled(&path, 8);
    let connection = Connection::open(&path).unwrap();
    for sql in [
        "UPDATE entry SET kind = 10",
        "UPDATE entry SET bytes = x'00' WHERE seq = 1",
        "DELETE FROM entry",
        "DELETE FROM entry WHERE seq = 3",
        "INSERT OR REPLACE INTO entry SELECT device, seq, hlc, kind, x'00' FROM entry WHERE seq = 2",
        "REPLACE INTO entry SELECT * FROM entry WHERE seq = 2",
        "UPDATE head SET signature = zeroblob(64)",
        "DELETE FROM head",
        "REPLACE INTO head SELECT device, seq, hash, checkpoint, zeroblob(64) FROM head",
        "UPDATE book SET holding = zeroblob(32)",
        "DELETE FROM book",
        "UPDATE text SET body = ''",
        "INSERT INTO entry VALUES (x'00', 1, 1, 1, x'00')",
        "INSERT INTO entry VALUES (zeroblob(16), 0, 1, 1, x'00')",
        "INSERT INTO entry VALUES (zeroblob(16), 'one', 1, 1, x'00')",
    ] {
        assert!(connection.execute(sql, []).is_err(), "{sql}");
    }
    drop(connection);
    assert!(Book::open(&path, None).unwrap().verify().unwrap().sound());
}

#[test]
fn files_of_others_are_left_as_they_are() {
    let folder = folder();
    let path = folder.path().join("file");
    let refused = |expected: fn(&LedgerError) -> bool| {
        let before = fs::read(&path).unwrap();
        for key in [None, Some(&key(1))] {
            let error = Book::open(&path, key).unwrap_err();
            assert!(expected(&error), "{error:?}");
        }
        assert_eq!(fs::read(&path).unwrap(), before);
        fs::remove_file(&path).unwrap();
    };
    fs::write(&path, "a letter to nobody, long enough to be taken for something").unwrap();
    refused(|error| matches!(error, LedgerError::NotABook));
    fs::write(&path, "").unwrap();
    refused(|error| matches!(error, LedgerError::NotABook));
    Connection::open(&path)
        .unwrap()
        .execute_batch("CREATE TABLE entry (text TEXT); PRAGMA user_version = 1")
        .unwrap();
    refused(|error| matches!(error, LedgerError::NotABook));
    settled(&path, 8);
    Connection::open(&path)
        .unwrap()
        .execute_batch("PRAGMA user_version = 2; PRAGMA journal_mode = DELETE")
        .unwrap();
    refused(|error| matches!(error, LedgerError::Newer { found: 2, known: 1 }));
    settled(&path, 8);
    let whole = fs::read(&path).unwrap();
    fs::write(&path, &whole[..whole.len() / 2]).unwrap();
    let broken = Book::open(&path, None).and_then(|book| book.verify());
    assert!(broken.map_or(true, |report| !report.sound()), "half a book");
    assert!(matches!(Book::open(&folder.path().join("none"), None), Err(LedgerError::NotFound)));
    assert!(matches!(Book::create(&path, &key(1), &founding()), Err(LedgerError::Exists)));
    let nowhere = folder.path().join("no such folder/book");
    assert!(matches!(Book::create(&nowhere, &key(1), &founding()), Err(LedgerError::NotFound)));
}

#[test]
fn full_disk_is_told_and_loses_nothing() {
    let folder = folder();
    let path = folder.path().join("book");
    let mut season = season(&path);
    season.book.limit_pages(40).unwrap();
    let mut acknowledged = listed(&season.book).unwrap();
    let error = loop {
        let drafts: Vec<Draft> =
            (0..20).map(|number| Draft::new(day(number), feed(1_000)).about(season.first)).collect();
        match season.book.append(&drafts, &[], SPRING_MS + 5) {
            Ok(_) => acknowledged = listed(&season.book).unwrap(),
            Err(error) => break error,
        }
    };
    assert!(matches!(error, LedgerError::Full), "{error:?}");
    assert_eq!(listed(&season.book).unwrap(), acknowledged);
    assert!(season.book.verify().unwrap().sound());
    season.book.limit_pages(10_000).unwrap();
    season.book.append(&[Draft::new(day(9), feed(1)).about(season.first)], &[], SPRING_MS + 6).unwrap();
    assert!(season.book.verify().unwrap().sound());
}

#[test]
fn acts_done_together_are_all_in_the_book_or_none_of_them() {
    let folder = folder();
    let mut season = season(&folder.path().join("book"));
    let before = (listed(&season.book).unwrap(), season.book.projection_hash().unwrap());
    let outline = |book: &mut Book, name: &str| book.append(&[Draft::new(day(1), bed(name))], &[], SPRING_MS);

    let refused: kerfbook_ledger::error::Result<()> = season.book.together(|book| {
        let place = outline(book, "One")?[0];
        assert_eq!(
            book.place(place)?.unwrap().label.as_str(),
            "One",
            "what was written is there for the next act"
        );
        outline(book, "Two")?;
        book.withdraw(place.after(100), Change { when: day(1), by: None, reason: None }, SPRING_MS).map(drop)
    });
    assert!(matches!(refused, Err(LedgerError::Unknown(_))));
    assert_eq!((listed(&season.book).unwrap(), season.book.projection_hash().unwrap()), before);

    season.book.limit_pages(40).unwrap();
    let full: kerfbook_ledger::error::Result<()> = season.book.together(|book| {
        for number in 0..10_000 {
            outline(book, &format!("Bed {number}"))?;
        }
        Ok(())
    });
    assert!(matches!(full, Err(LedgerError::Full)), "{full:?}");
    assert_eq!((listed(&season.book).unwrap(), season.book.projection_hash().unwrap()), before);

    season.book.limit_pages(10_000).unwrap();
    let kept: kerfbook_ledger::error::Result<Vec<_>> =
        season.book.together(|book| Ok(vec![outline(book, "One")?, outline(book, "Two")?]));
    assert_eq!(kept.unwrap().concat().len(), 2);
    assert_eq!(listed(&season.book).unwrap().len(), before.0.len() + 2);
    assert!(season.book.verify().unwrap().sound());
}

#[test]
fn second_writer_waits_and_is_told() {
    let folder = folder();
    let path = folder.path().join("book");
    let mut season = season(&path);
    let other = Connection::open(&path).unwrap();
    other.execute_batch("BEGIN IMMEDIATE").unwrap();
    let draft = Draft::new(day(9), feed(1)).about(season.first);
    let error = season.book.append(std::slice::from_ref(&draft), &[], SPRING_MS + 6).unwrap_err();
    assert!(matches!(error, LedgerError::Locked), "{error:?}");
    other.execute_batch("ROLLBACK").unwrap();
    season.book.append(&[draft], &[], SPRING_MS + 6).unwrap();
    assert!(season.book.verify().unwrap().sound());
}

/// Set for a child of this program: the folder that it works in.
const CHILD: &str = "KERFBOOK_LEDGER_CHILD";

/// This program, to be run again for one test. A copy lies where a plain user can run it.
fn again(folder: &Path, test: &str, before: &[&str]) -> Command {
    let program = folder.join("program");
    if !program.exists() {
        fs::copy(std::env::current_exe().unwrap(), &program).unwrap();
        fs::set_permissions(&program, fs::Permissions::from_mode(0o755)).unwrap();
    }
    let mut words = before.iter().map(PathBuf::from).chain([program]);
    let mut command = Command::new(words.next().unwrap());
    command.args(words).args(["--exact", test, "--nocapture", "--test-threads=1"]).env(CHILD, folder);
    command
}

#[test]
fn folder_without_permission_is_told_and_reading_goes_on() {
    const NAME: &str = "folder_without_permission_is_told_and_reading_goes_on";
    if let Some(folder) = std::env::var_os(CHILD) {
        let folder = PathBuf::from(folder);
        let new = Book::create(&folder.join("closed/new"), &key(1), &founding());
        assert!(matches!(new, Err(LedgerError::ReadOnly)), "{new:?}");
        let mut book = Book::open(&folder.join("closed/book"), Some(&key(1))).unwrap();
        assert!(!book.writable());
        assert!(book.verify().unwrap().sound());
        assert!(matches!(book.append(&[], &[], SPRING_MS), Err(LedgerError::NoKey)));
        // Folded by another version, and nobody may fold it again in its file.
        let before = Book::open(&folder.join("closed/before"), Some(&key(1))).unwrap();
        assert_eq!(before.projection_hash().unwrap(), book.projection_hash().unwrap());
        assert_eq!(before.places().unwrap(), book.places().unwrap());
        let uses: Vec<EntryId> = book.batches().unwrap()[0].uses.iter().map(|part| part.entry).collect();
        assert!(!uses.is_empty() && before.current(uses[0]).unwrap().unwrap().counts());
        assert_eq!(before.batches().unwrap(), book.batches().unwrap());
        assert!(before.verify().unwrap().sound());
        println!("plain user was refused");
        return;
    }
    let folder = folder();
    fs::set_permissions(folder.path(), fs::Permissions::from_mode(0o755)).unwrap();
    let closed = folder.path().join("closed");
    fs::create_dir(&closed).unwrap();
    settled(&closed.join("book"), 12);
    fs::copy(closed.join("book"), closed.join("before")).unwrap();
    let before = Connection::open(closed.join("before")).unwrap();
    before.execute_batch("PRAGMA journal_mode = DELETE; UPDATE folds SET version = 1").unwrap();
    before.execute_batch("UPDATE projection SET bytes = x'80'; DELETE FROM mention").unwrap();
    drop(before);
    for name in ["book", "before"] {
        fs::set_permissions(closed.join(name), fs::Permissions::from_mode(0o444)).unwrap();
    }
    fs::set_permissions(&closed, fs::Permissions::from_mode(0o555)).unwrap();
    let root = Command::new("id").arg("-u").output().unwrap().stdout == b"0\n";
    let plain: &[&str] =
        if root { &["setpriv", "--reuid=65534", "--regid=65534", "--clear-groups"] } else { &[] };
    let output = again(folder.path(), NAME, plain).output().unwrap();
    let said = String::from_utf8_lossy(&output.stdout);
    assert!(output.status.success() && said.contains("plain user was refused"), "{said}");
    let mut names: Vec<_> = fs::read_dir(&closed).unwrap().map(|entry| entry.unwrap().file_name()).collect();
    names.sort();
    assert_eq!(names, ["before", "book"], "nothing half-written");
    fs::set_permissions(&closed, fs::Permissions::from_mode(0o755)).unwrap();
}

#[test]
fn failed_write_closes_the_book_and_what_was_acknowledged_is_there() {
    const NAME: &str = "failed_write_closes_the_book_and_what_was_acknowledged_is_there";
    if let Some(folder) = std::env::var_os(CHILD) {
        let mut book = Book::open(&PathBuf::from(folder).join("book"), Some(&key(1))).unwrap();
        let place = book.places().unwrap()[0].id;
        let drafts: Vec<Draft> =
            (0..20).map(|number| Draft::new(day(number), feed(1)).about(place)).collect();
        let error = loop {
            match book.append(&drafts, &[], SPRING_MS + 9) {
                Ok(ids) => println!("saved {}", ids[19].seq),
                Err(error) => break error,
            }
        };
        assert!(matches!(error, LedgerError::Io(_)), "{error:?}");
        assert!(matches!(book.append(&drafts, &[], SPRING_MS + 9), Err(LedgerError::Closed)));
        assert!(matches!(book.together(|_| Ok::<(), LedgerError>(())), Err(LedgerError::Closed)));
        assert!(matches!(book.places(), Err(LedgerError::Closed)));
        assert!(matches!(book.verify(), Err(LedgerError::Closed)));
        book.reopen().unwrap();
        assert_eq!(book.places().unwrap()[0].id, place);
        assert!(book.verify().unwrap().sound() && book.writable());
        println!("book was closed");
        return;
    }
    let folder = folder();
    let path = folder.path().join("book");
    drop(season(&path));
    // Writing beyond the largest file allowed fails below SQLite, as a failing disk does.
    let limited = ["sh", "-c", "trap '' XFSZ; ulimit -f 600; exec \"$0\" \"$@\""];
    let output = again(folder.path(), NAME, &limited).output().unwrap();
    let said = String::from_utf8_lossy(&output.stdout);
    assert!(output.status.success() && said.contains("book was closed"), "{said}");
    let saved: u64 =
        said.lines().filter_map(|line| line.rsplit_once("saved ")?.1.parse().ok()).next_back().unwrap();
    let book = Book::open(&path, Some(&key(1))).unwrap();
    let report = book.verify().unwrap();
    assert!(report.sound(), "{:?}", report.findings);
    assert_eq!(report.heads[0].seq, saved, "what failed is not there, what was acknowledged is");
}

#[test]
fn nothing_that_was_acknowledged_is_lost_when_the_process_is_killed() {
    const NAME: &str = "nothing_that_was_acknowledged_is_lost_when_the_process_is_killed";
    if let Some(folder) = std::env::var_os(CHILD) {
        let path = PathBuf::from(folder).join("book");
        let mut book = Book::open(&path, Some(&key(1))).unwrap();
        let place = book.places().unwrap()[0].id;
        loop {
            let drafts =
                [Draft::new(day(9), feed(1_000)).about(place), Draft::new(day(9), feed(2_000)).about(place)];
            let ids = book.append(&drafts, &[], SPRING_MS + 9).unwrap();
            println!("saved {}", ids[1].seq);
        }
    }
    let folder = folder();
    let path = folder.path().join("book");
    drop(season(&path));
    let mut last_known = 0;
    for round in 0..36_u64 {
        let output = folder.path().join("said");
        let mut child = again(folder.path(), NAME, &[])
            .stdout(Stdio::from(fs::File::create(&output).unwrap()))
            .stderr(Stdio::null())
            .spawn()
            .unwrap();
        std::thread::sleep(std::time::Duration::from_millis(20 + round * 37 % 90));
        child.kill().unwrap();
        child.wait().unwrap();
        let said = fs::read_to_string(&output).unwrap();
        // The last line may be cut: only lines that ended were acknowledged.
        let saved = said
            .split_inclusive('\n')
            .filter_map(|line| line.strip_suffix('\n')?.rsplit_once("saved ")?.1.parse().ok())
            .next_back()
            .unwrap_or(last_known);
        let book = Book::open(&path, Some(&key(1))).unwrap();
        let report = book.verify().unwrap();
        assert!(report.sound(), "round {round}: {:?}", report.findings);
        let end = report.heads[0].seq;
        assert!(end >= saved, "round {round}: {saved} was acknowledged, {end} is there");
        // Two entries a call: all or none.
        assert_eq!((end - 7) % 2, 0, "round {round}: half a call is there");
        last_known = end;
    }
    println!("36 kills, {last_known} entries");
    assert!(last_known > 100, "the child was killed before it wrote: {last_known}");
}

#[test]
fn missing_entries_are_named_when_a_book_is_salvaged() {
    let folder = folder();
    let path = folder.path().join("book");
    let originals = settled(&path, 40);
    let device = key(1).device();
    let mut bytes = fs::read(&path).unwrap();
    for lost in [12_usize, 13, 20] {
        let envelope = &originals[lost - 1];
        // SQLite leaves copies behind where it has moved rows to another page.
        while let Some(at) = bytes.windows(envelope.len()).position(|window| window == envelope.as_slice()) {
            bytes[at + 60] ^= 0xff;
        }
    }
    fs::write(&path, &bytes).unwrap();
    assert!(!Book::open(&path, None).unwrap().verify().unwrap().sound());
    let aside = set_aside(&path, "2026-04-09").unwrap();
    assert!(aside.exists() && !path.exists());
    let salvaged = salvage(&aside, &path, Some(&key(1))).unwrap();
    assert_eq!(salvaged.kept, originals.len() as u64 - 3);
    assert_eq!(
        salvaged.missing,
        [Missing { device, from: 12, to: 13 }, Missing { device, from: 20, to: 20 }]
    );
    assert!(aside.exists(), "the damaged book is kept");
    let mut book = Book::open(&path, Some(&key(1))).unwrap();
    let report = book.verify().unwrap();
    assert_eq!(
        report.findings,
        [Finding::Missing { device, from: 12, to: 13 }, Finding::Missing { device, from: 20, to: 20 }]
    );
    let place = book.places().unwrap()[0].id;
    let next = book.append(&[Draft::new(day(9), feed(1)).about(place)], &[], SPRING_MS + 9).unwrap()[0];
    assert_eq!(next.seq, originals.len() as u64 + 1);
    assert_eq!(book.verify().unwrap().findings.len(), 2, "and the book goes on");
}

#[test]
fn received_entries_are_refused_unless_whole_and_signed() {
    let folder = folder();
    let (desk_path, phone_path) = (folder.path().join("desk"), folder.path().join("phone"));
    let mut season = season(&desk_path);
    let phone_key = key(2);
    season
        .book
        .append(
            &[Draft::new(day(2), DeviceEnrolled { public_key: phone_key.public(), label: label("Phone") })],
            &[],
            SPRING_MS + 2,
        )
        .unwrap();
    season.book.settle().unwrap();
    fs::copy(&desk_path, &phone_path).unwrap();
    let unknown = Book::open(&phone_path, Some(&key(3))).unwrap();
    assert!(!unknown.writable());
    drop(unknown);
    let mut phone = Book::open(&phone_path, Some(&phone_key)).unwrap();
    let two_days = 2 * 86_400_000;
    for number in 0..3 {
        phone
            .append(&[Draft::new(day(3), feed(number)).about(season.first)], &[], SPRING_MS + two_days)
            .unwrap();
    }
    let device = phone_key.device();
    let all = phone.envelopes(device, 1, 10).unwrap();
    let head = *phone.heads().unwrap().iter().find(|head| head.device == device).unwrap();
    let desk = &mut season.book;
    let before = (listed(desk).unwrap(), desk.projection_hash().unwrap());
    let wall = SPRING_MS + 10;

    assert!(matches!(desk.receive(&all[1..], &[head], &[], wall), Err(LedgerError::Gap(_))));
    assert!(matches!(desk.receive(&all, &[], &[], wall), Err(LedgerError::Unsigned(_))));
    assert!(matches!(desk.receive(&all[..2], &[head], &[], wall), Err(LedgerError::Unsigned(_))));
    let forged = Head::sign(&key(3), &desk.holding(), head.seq, head.hash);
    assert!(matches!(
        desk.receive(&all, &[Head { device, ..forged }], &[], wall),
        Err(LedgerError::Unsigned(_))
    ));
    let mut other = Entry::decode(&all[0]).unwrap();
    other.holding = kerfbook_ledger::HoldingId([1; 32]);
    assert!(matches!(desk.receive(&[other.encode()], &[head], &[], wall), Err(LedgerError::OtherHolding(_))));
    other.holding = desk.holding();
    other.id = EntryId { device: key(3).device(), seq: 1 };
    let stranger = Head::sign(&key(3), &desk.holding(), 1, Hash::of(&other.encode()));
    assert!(matches!(
        desk.receive(&[other.encode()], &[stranger], &[], wall),
        Err(LedgerError::NotEnrolled(_))
    ));
    assert_eq!((listed(desk).unwrap(), desk.projection_hash().unwrap()), before, "nothing was taken");

    assert_eq!(desk.receive(&all, &[head], &[], wall).unwrap(), 3);
    assert_eq!(desk.receive(&all, &[head], &[], wall).unwrap(), 0, "a second time changes nothing");
    let mut fork = Entry::decode(&all[2]).unwrap();
    fork.date = day(30).date;
    let other_end = Head::sign(&phone_key, &desk.holding(), 3, Hash::of(&fork.encode()));
    assert!(matches!(desk.receive(&[fork.encode()], &[other_end], &[], wall), Err(LedgerError::Forked(_))));

    // The phone's clock ran two days ahead: kept, flagged, and ours is not moved.
    let lines = desk.entries(None, 100).unwrap();
    assert_eq!(lines.iter().filter(|line| line.ahead).count(), 3);
    let own = desk.append(&[Draft::new(day(3), feed(7)).about(season.first)], &[], wall).unwrap()[0];
    assert!(desk.entry(own).unwrap().unwrap().hlc.ms() <= u64::try_from(wall).unwrap() + 1);
    assert!(desk.verify().unwrap().sound());
}

#[test]
fn entries_of_later_versions_are_kept_and_stand_in_no_sum() {
    let folder = folder();
    let path = folder.path().join("book");
    let mut season = season(&path);
    let book = &mut season.book;
    let head = book.heads().unwrap()[0];
    let mut entry = book.entry(season.putting).unwrap().unwrap();
    let mut envelopes = Vec::new();
    let mut prev = head.hash;
    for (seq, kind, version) in [(8, 10, 9), (9, 30_000, 1), (10, 22, 1)] {
        entry.id.seq = seq;
        entry.hlc = kerfbook_ledger::Hlc::new(SPRING_MS + 50, u16::try_from(seq).unwrap());
        (entry.kind, entry.version, entry.prev) = (kind, version, prev);
        envelopes.push(entry.encode());
        prev = Hash::of(envelopes.last().unwrap());
    }
    // A known kind and version with a body that does not read.
    entry.id.seq = 11;
    (entry.kind, entry.version, entry.prev) = (10, 5, prev);
    entry.hlc = kerfbook_ledger::Hlc::new(SPRING_MS + 51, 0);
    entry.body.pop();
    envelopes.push(entry.encode());
    let head = Head::sign(&key(1), &book.holding(), 11, Hash::of(envelopes.last().unwrap()));
    assert_eq!(book.receive(&envelopes, &[head], &[], SPRING_MS + 60).unwrap(), 4);
    assert_eq!(book.place(season.first).unwrap().unwrap().wet_g, 100_000);
    let unreadable = book.current(entry.id).unwrap().unwrap();
    assert!(unreadable.flags.contains(&Flag::Unreadable));
    assert!(book.verify().unwrap().sound());
    let hash = book.projection_hash().unwrap();
    assert_eq!(book.rebuild().unwrap(), hash);
    assert_eq!(book.envelopes(key(1).device(), 8, 4).unwrap(), envelopes, "passed on as they came");
}
