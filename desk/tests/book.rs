//! `book`: a small book is listed, verified, rebuilt and corrected by the real command.
#![allow(missing_docs, clippy::unwrap_used, reason = "a test may stop where it stands")]

mod desk;

use std::fs;
use std::path::PathBuf;

use desk::Desk;
use kerfbook_ledger::kind::{
    Answer, ContainerKind, FeedGiven, LoadTakenIn, Measured, PersonNamed, PlaceKind, PlaceOutlined, Placed,
    PutDown, Way,
};
use kerfbook_ledger::{Book, Date, DeviceKey, Draft, Founding, Label, Text, When};
use serde_json::Value;

const SECRET: [u8; 32] = [7; 32];
/// 2026-04-15 08:00 UTC.
const MORNING: i64 = 1_776_240_000_000;

fn label(text: &str) -> Label {
    Label::new(text).unwrap()
}

/// A book of one bed, one load, one putting down and one feed, and the key that wrote it.
fn book(desk: &Desk) -> PathBuf {
    let home = desk.folder().join("home");
    fs::create_dir(&home).unwrap();
    fs::write(home.join("device.key"), SECRET).unwrap();
    let path = desk.folder().join("bed.kerf");
    let when = When::on(Date::from_days(20_558).unwrap());
    let founding = Founding {
        name: label("Invented Holding"),
        device_label: label("desk"),
        nonce: [1; 16],
        sells: false,
        certified: false,
        latitude_centidegree: Some(4_850),
        when,
        wall_ms: MORNING,
    };
    let mut book = Book::create(&path, &DeviceKey::from_bytes(&SECRET), &founding).unwrap();
    let name = Text::new([2; 16], "Ana");
    let person = book.next_id().unwrap();
    let (bed, load) = (person.after(1), person.after(2));
    let drafts = [
        Draft::new(when, PersonNamed { name: name.hash() }),
        Draft::new(when, PlaceOutlined::of(label("long bed"), PlaceKind::Bed, Measured::Typed, 12_000_000))
            .by(Some(person)),
        Draft::new(
            when,
            LoadTakenIn {
                label: label("dust of April"),
                material: label("sawdust, hardwood"),
                model_class: None,
                particle: None,
                wet_g: Some(150_000),
                volume_ml: Some(600_000),
                moisture_bp: Some(4_500),
                carbon_nitrogen_x100: None,
                wet_density_g_m3: None,
                from: None,
                source: None,
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
            },
        )
        .by(Some(person)),
        Draft::new(
            when,
            PutDown {
                wet_g: Some(80_000),
                dry_g: Some(44_000),
                depth_mm: Some(50),
                containers: Some(4),
                container: Some(ContainerKind::Barrow),
                container_ml: Some(80_000),
                ..PutDown::of(load, Way::OnTop)
            },
        )
        .about(bed)
        .by(Some(person)),
        Draft::new(
            when,
            FeedGiven {
                source: label("urea"),
                nitrogen_mg: 48_000,
                product_g: Some(104),
                volume_ml: None,
                placed: Placed::Top,
                crop_mg: Some(20_000),
                wood_mg: Some(28_000),
            },
        )
        .about(bed)
        .by(Some(person)),
    ];
    book.append(&drafts, &[name], MORNING).unwrap();
    path
}

fn json(desk: &Desk, arguments: &[&str]) -> (i32, Value) {
    let mut all = vec!["--json"];
    all.extend(arguments);
    let done = desk.run(&all);
    assert!(done.err.is_empty(), "{}", done.err);
    (done.code, serde_json::from_str(&done.out).unwrap())
}

#[test]
fn entries_are_told_in_both_languages_and_units() {
    let desk = Desk::new();
    let path = book(&desk);
    let path = path.to_str().unwrap();
    let english = desk.run(&["--language", "en", "book", "entries", path]);
    let spanish = desk.run(&["--language", "es", "--units", "us", "book", "entries", path]);
    assert_eq!((english.code, spanish.code), (0, 0), "{} {}", english.err, spanish.err);
    insta::assert_snapshot!("entries_in_english", english.out);
    insta::assert_snapshot!("entries_in_spanish_us", spanish.out);
}

#[test]
fn a_sound_book_verifies_and_rebuilds_to_the_same() {
    let desk = Desk::new();
    let path = book(&desk);
    let path = path.to_str().unwrap();
    let (code, verified) = json(&desk, &["book", "verify", path]);
    assert_eq!((code, &verified["entries"], &verified["verified"]), (0, &7.into(), &true.into()));
    assert_eq!(verified["heads"].as_array().unwrap().len(), 1);
    let (code, rebuilt) = json(&desk, &["book", "rebuild", path]);
    assert_eq!((code, &rebuilt), (0, &verified));
    let text = desk.run(&["--language", "en", "book", "verify", path]);
    assert_eq!(text.code, 0);
    assert!(text.out.contains("7 entries"), "{}", text.out);
}

#[test]
fn a_correction_stands_beside_the_first_and_can_be_taken_out() {
    let desk = Desk::new();
    let path = book(&desk);
    let path = path.to_str().unwrap();
    let device: String = DeviceKey::from_bytes(&SECRET).device().to_string().chars().take(4).collect();
    let entry = format!("{device}:6");
    let (code, corrected) = json(
        &desk,
        &[
            "book",
            "correct",
            path,
            "--entry",
            &entry,
            "--set",
            "wet_g=60 kg",
            "--set",
            "way=worked in",
            "--set",
            "date=2026-04-16",
            "--set",
            "containers=3",
            "--reason",
            "counted again",
        ],
    );
    assert_eq!(code, 0, "{corrected}");
    assert_eq!(corrected["corrected"]["date"], "2026-04-16");
    assert!(corrected["corrected"]["text"].as_str().unwrap().contains('3'));
    assert!(corrected["entry"]["text"].as_str().unwrap().contains("counted again"));
    let (_, verified) = json(&desk, &["book", "verify", path]);
    assert_eq!((&verified["entries"], &verified["verified"]), (&8.into(), &true.into()));

    let (code, restored) = json(
        &desk,
        &[
            "book",
            "correct",
            path,
            "--entry",
            &format!("{device}:8"),
            "--withdraw",
            "--reason",
            "was right before",
        ],
    );
    assert_eq!(code, 0, "{restored}");
    let (_, listed) = json(&desk, &["book", "entries", path]);
    assert_eq!(listed["entries"][5]["date"], "2026-04-15");
    assert_eq!(listed["entries"].as_array().unwrap().len(), 9);
}

#[test]
fn a_correction_that_cannot_be_is_refused_and_nothing_is_written() {
    let desk = Desk::new();
    let path = book(&desk);
    let path = path.to_str().unwrap();
    for (entry, set, says) in [
        ("6", "wet_g=12,5", "one of these units"),
        ("6", "wet_g=12 lb", "one of these units"),
        ("6", "wet_g=-5", "wet_g"),
        ("6", "wet_g=1e30", "one of these units"),
        ("6", "way=ontop", "one of worked-in"),
        ("6", "colour=red", "no field colour"),
        ("6", "batch=4711", "no entry"),
        ("6", "batch=3", "another kind"),
        ("6", "date=16.04.2026", "year-month-day"),
        ("6", "wet_g", "FIELD=VALUE"),
        ("4711", "wet_g=1", "no entry"),
        ("not an entry", "wet_g=1", "no entry"),
        ("1", "name=other", "founds the book"),
    ] {
        let arguments =
            ["--language", "en", "book", "correct", path, "--entry", entry, "--set", set, "--reason", "x"];
        let done = desk.run(&arguments);
        assert_eq!(done.code, 2, "{entry} {set}: {}{}", done.out, done.err);
        assert!(done.err.contains(says), "{entry} {set}: {}", done.err);
    }
    let (_, verified) = json(&desk, &["book", "verify", path]);
    assert_eq!(verified["entries"], 7);
}

#[test]
fn another_computer_reads_but_does_not_write() {
    let desk = Desk::new();
    let path = book(&desk);
    fs::write(desk.folder().join("home/device.key"), [9; 32]).unwrap();
    let path = path.to_str().unwrap();
    assert_eq!(desk.run(&["book", "entries", path]).code, 0);
    let arguments =
        ["--language", "en", "book", "correct", path, "--entry", "6", "--set", "wet_g=1", "--reason", "x"];
    let done = desk.run(&arguments);
    assert_eq!(done.code, 1);
    assert!(done.err.contains("not enrolled"), "{}", done.err);
}

/// As a plain user: to root every folder is writable.
#[cfg(unix)]
#[test]
fn in_a_folder_that_cannot_be_written_a_book_is_read_and_left_as_it_is() {
    use std::os::unix::fs::PermissionsExt;
    use std::process::Command;

    let desk = Desk::new();
    let path = book(&desk);
    let before = fs::read(&path).unwrap();
    let program = desk.folder().join("kerfbook");
    fs::copy(env!("CARGO_BIN_EXE_kerfbook"), &program).unwrap();
    let allow =
        |path: &std::path::Path, mode| fs::set_permissions(path, fs::Permissions::from_mode(mode)).unwrap();
    allow(&program, 0o755);
    allow(&path, 0o444);
    allow(&desk.folder().join("home"), 0o755);
    allow(&desk.folder().join("home/device.key"), 0o644);
    allow(desk.folder(), 0o555);
    let is_root =
        String::from_utf8(Command::new("id").arg("-u").output().unwrap().stdout).unwrap().trim() == "0";
    let run = |arguments: &[&str]| {
        let mut command = if is_root {
            let mut command = Command::new("setpriv");
            command.args(["--reuid=65534", "--regid=65534", "--clear-groups", "--"]).arg(&program);
            command
        } else {
            Command::new(&program)
        };
        let home = desk.folder().join("home");
        command.args(arguments).current_dir("/").env("KERFBOOK_HOME", home).output().unwrap()
    };
    let shown = path.to_str().unwrap();
    assert_eq!(run(&["book", "entries", shown]).status.code(), Some(0));
    assert_eq!(run(&["book", "verify", shown]).status.code(), Some(0));
    for arguments in [
        &["--language", "en", "book", "rebuild", shown][..],
        &["--language", "en", "book", "correct", shown, "--entry", "6", "--set", "wet_g=1", "--reason", "x"],
        &["--language", "en", "demo", "--out", desk.folder().join("season").to_str().unwrap()],
    ] {
        let done = run(arguments);
        let err = String::from_utf8(done.stderr).unwrap();
        assert_eq!(done.status.code(), Some(1), "{arguments:?}: {err}");
        assert!(err.contains("cannot be"), "{arguments:?}: {err}");
    }
    allow(desk.folder(), 0o755);
    assert_eq!(fs::read(&path).unwrap(), before);
    let mut names: Vec<_> =
        fs::read_dir(desk.folder()).unwrap().map(|entry| entry.unwrap().file_name()).collect();
    names.sort();
    assert_eq!(names, ["bed.kerf", "home", "kerfbook"]);
}

#[test]
fn files_that_are_no_book_are_left_as_they_are() {
    let desk = Desk::new();
    let text = desk.folder().join("notes.txt");
    fs::write(&text, "not a book").unwrap();
    for command in ["entries", "verify", "rebuild"] {
        let done = desk.run(&["--language", "en", "book", command, text.to_str().unwrap()]);
        assert_eq!(done.code, 2, "{command}: {}", done.err);
        assert!(done.err.contains("notes.txt") && done.err.contains("no book"), "{command}: {}", done.err);
        let done = desk.run(&["--language", "en", "book", command, "none.kerf"]);
        assert_eq!(done.code, 2, "{command}");
        assert!(done.err.contains("no book at none.kerf"), "{command}: {}", done.err);
    }
    assert_eq!(fs::read_to_string(&text).unwrap(), "not a book");
}

#[test]
fn a_changed_byte_is_found_and_what_verifies_can_be_kept() {
    let desk = Desk::new();
    let path = book(&desk);
    let mut bytes = fs::read(&path).unwrap();
    let at = bytes.windows(13).position(|window| window == b"dust of April").unwrap();
    bytes[at] = b'D';
    fs::write(&path, &bytes).unwrap();
    let (code, verified) = json(&desk, &["book", "verify", path.to_str().unwrap()]);
    assert_eq!((code, &verified["verified"]), (1, &false.into()), "{verified}");
    assert!(!verified["findings"].as_array().unwrap().is_empty());
}

#[test]
fn a_torn_file_is_set_aside_and_what_verifies_is_kept() {
    let desk = Desk::new();
    let path = book(&desk);
    let mut bytes = fs::read(&path).unwrap();
    // The second half of the pages is gone.
    let half = bytes.len() / 2 / 4096 * 4096;
    bytes[half..].fill(0xEE);
    fs::write(&path, &bytes).unwrap();
    let shown = path.to_str().unwrap();
    let done = desk.run(&["--language", "en", "book", "rebuild", shown]);
    assert!(done.out.contains("set aside"), "{}{}", done.out, done.err);
    let aside = fs::read_dir(desk.folder())
        .unwrap()
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .find(|name| name.contains("damaged"))
        .unwrap();
    assert_eq!(fs::read(desk.folder().join(aside)).unwrap().len(), bytes.len());
    let (_, verified) = json(&desk, &["book", "verify", shown]);
    assert_eq!(verified["verified"], true, "{verified}");
}

#[test]
fn every_kind_is_told_and_its_fields_are_corrected() {
    let desk = Desk::new();
    let home = desk.folder().join("home");
    fs::create_dir(&home).unwrap();
    fs::write(home.join("device.key"), [1; 32]).unwrap();
    let path = desk.folder().join("season.kerf");
    let kept = concat!(env!("CARGO_MANIFEST_DIR"), "/../fixtures/ledger/v1/season.sqlite");
    fs::copy(kept, &path).unwrap();
    let path = path.to_str().unwrap();
    for (language, unknown) in
        [("en", "that this version does not know"), ("es", "que esta versión no conoce")]
    {
        let told = desk.run(&["--language", language, "book", "entries", path]);
        assert_eq!(told.code, 0, "{}", told.err);
        assert!(!told.out.contains(unknown) && !told.out.contains('$'), "{}", told.out);
    }
    for (entry, set, field, value) in [
        ("5", "stored=open", "stored", "open"),
        ("5", "haul=4.5km", "haul_m", "4500"),
        ("18", "area=11 m2", "area_mm2", "11000000"),
        ("19", "sour=yes", "sour", "yes"),
        ("19", "method=rolled", "method", "rolled"),
        ("20", "depths=4 cm, 35mm", "depths_mm", "[40,35]"),
        ("21", "tool=spade", "tool", "spade"),
        ("22", "share=35%", "share_bp", "3500"),
        ("24", "wet_g=240 kg", "wet_g", "240000"),
        ("25", "mended=no", "mended", "false"),
        ("26", "rain=6.5 mm", "rain_ml_m2", "6500"),
        ("26", "span=usual month", "span", "usual month"),
        ("26", "mean=-2.5 c", "mean_centi_c", "-250"),
        ("27", "nitrogen_form=nitrate", "nitrogen_form", "nitrate"),
        ("28", "index=40%", "index_bp", "4000"),
        ("29", "against=4", "against", ""),
        ("29", "dgci=0.48", "dgci_x10000", "4800"),
        ("30", "due=2026-06-01", "due", "2026-06-01"),
        ("30", "what=dig in", "what", "dig-in"),
        ("31", "outcome=done", "outcome", "done"),
        ("31", "reason=it was done", "reason", ""),
    ] {
        let arguments =
            ["--language", "en", "book", "correct", path, "--entry", entry, "--set", set, "--reason", "x"];
        let done = desk.run(&arguments);
        assert_eq!(done.code, 0, "{entry} {set}: {}", done.err);
        let book = Book::open(path.as_ref(), None).unwrap();
        let device = DeviceKey::from_bytes(&[1; 32]).device();
        let id = kerfbook_ledger::EntryId { device, seq: entry.parse().unwrap() };
        let now = serde_json::to_value(book.current(id).unwrap().unwrap()).unwrap();
        let told = now["body"][field].as_str().map_or_else(|| now["body"][field].to_string(), str::to_owned);
        assert!(value.is_empty() || told == value, "{entry} {set}: {told}");
    }
    let unsure = [
        "--language",
        "en",
        "book",
        "correct",
        path,
        "--entry",
        "25",
        "--set",
        "mended=unknown",
        "--reason",
        "x",
    ];
    assert_eq!(desk.run(&unsure).code, 2);
    let (_, verified) = json(&desk, &["book", "verify", path]);
    assert_eq!(verified["verified"], true);
}
