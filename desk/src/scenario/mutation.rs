//! Whatever is done to a good scenario file, reading it ends with an answer or with complaints that have a place.
#![allow(clippy::unwrap_used, reason = "a test may stop where it stands")]

use std::path::{Path, PathBuf};

use kerfbook_words::{Language, Units, Words};
use proptest::prelude::*;

use crate::fault::Fault;

thread_local! {
    static WORDS: [Words; 2] = Language::ALL.map(|language| Words::new(language, Units::Metric));
}

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../fixtures/scenarios")
}

fn good() -> Vec<(PathBuf, String)> {
    let mut files: Vec<PathBuf> = std::fs::read_dir(folder())
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .filter(|path| path.extension().is_some_and(|extension| extension == "toml"))
        .collect();
    files.sort();
    files.into_iter().map(|path| (path.clone(), std::fs::read_to_string(path).unwrap())).collect()
}

/// What goes where a value or a piece of one was.
const PIECES: [&str; 24] = [
    "nan",
    "-inf",
    "1e999",
    "-1",
    "0",
    "12,5",
    "\"12 kg\"",
    "true",
    "[]",
    "[[",
    "]",
    "{",
    "\"",
    "'''",
    "=",
    "\n",
    "#",
    "2026-02-30",
    "9999-12-31",
    "0x7F",
    "18446744073709551616",
    "\u{202E}",
    "ñ",
    "\0",
];

#[derive(Debug, Clone)]
enum Change {
    DropLine(usize),
    DoubleLine(usize),
    SwapLines(usize, usize),
    Value(usize, usize),
    Insert(usize, usize),
    Cut(usize, usize),
}

fn change() -> impl Strategy<Value = Change> {
    let place = 0..10_000_usize;
    prop_oneof![
        place.clone().prop_map(Change::DropLine),
        place.clone().prop_map(Change::DoubleLine),
        (place.clone(), place.clone()).prop_map(|(a, b)| Change::SwapLines(a, b)),
        (place.clone(), place.clone()).prop_map(|(a, b)| Change::Value(a, b)),
        (place.clone(), place.clone()).prop_map(|(a, b)| Change::Insert(a, b)),
        (place.clone(), place).prop_map(|(a, b)| Change::Cut(a, b)),
    ]
}

fn apply(text: &str, change: &Change) -> String {
    let mut lines: Vec<String> = text.lines().map(str::to_owned).collect();
    let count = lines.len().max(1);
    let piece = |at: usize| PIECES[at % PIECES.len()];
    match *change {
        Change::DropLine(at) if !lines.is_empty() => drop(lines.remove(at % count)),
        Change::DoubleLine(at) if !lines.is_empty() => lines.insert(at % count, lines[at % count].clone()),
        Change::SwapLines(a, b) if !lines.is_empty() => lines.swap(a % count, b % count),
        Change::Value(at, with) if !lines.is_empty() => {
            let line = &mut lines[at % count];
            if let Some((key, _)) = line.split_once('=') {
                *line = format!("{key}= {}", piece(with));
            }
        }
        Change::Insert(at, with) => {
            let mut chars: Vec<char> = text.chars().collect();
            let at = at % (chars.len() + 1);
            chars.splice(at..at, piece(with).chars());
            return chars.into_iter().collect();
        }
        Change::Cut(from, length) => {
            let mut chars: Vec<char> = text.chars().collect();
            let from = from % (chars.len() + 1);
            let to = (from + length % 40).min(chars.len());
            chars.drain(from..to);
            return chars.into_iter().collect();
        }
        _ => {}
    }
    lines.join("\n")
}

#[test]
fn the_good_files_are_read() {
    for (path, text) in good() {
        let read = super::read_text(&text, &path);
        assert!(read.is_ok(), "{}: {read:?}", path.display());
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 1500, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn a_changed_file_is_read_or_refused_with_places_in_it(
        file in 0..8_usize,
        changes in prop::collection::vec(change(), 1..5),
    ) {
        let files = good();
        let (path, text) = &files[file % files.len()];
        let text = changes.iter().fold(text.clone(), |text, change| apply(&text, change));
        if let Err(fault) = super::read_text(&text, path) {
            let Fault::Input { complaints, .. } = &fault else { panic!("not the input's fault: {fault:?}") };
            prop_assert!(!complaints.is_empty());
            for spot in complaints.iter().filter_map(|complaint| complaint.spot.as_ref()) {
                prop_assert!(spot.line <= text.lines().count() + 1);
                prop_assert!(spot.column <= spot.text.chars().count() + 1);
            }
            let told = WORDS.with(|words| words.each_ref().map(|words| (fault.to_text(words), fault.to_json(words))));
            for (text, json) in told {
                prop_assert!(!text.contains("[desk-"), "a text is missing: {}", text);
                prop_assert!(!text.contains(['\0', '\u{202E}']), "a mark steers the terminal: {}", text);
                prop_assert_eq!(json["format"].as_u64(), Some(1));
            }
        }
    }
}
