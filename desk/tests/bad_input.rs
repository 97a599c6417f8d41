//! Every bad file gets a sentence with its place, exit code 2, and leaves nothing behind.
#![allow(missing_docs, clippy::unwrap_used, reason = "a test may stop where it stands")]

mod desk;

use std::fs;
use std::path::PathBuf;

use desk::{Desk, scenarios};
use serde_json::Value;

fn bad_files() -> Vec<PathBuf> {
    let mut files: Vec<PathBuf> = fs::read_dir(scenarios().join("bad"))
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .filter(|path| path.extension().is_some_and(|extension| extension == "toml"))
        .collect();
    files.sort();
    assert!(files.len() > 100, "only {} bad files", files.len());
    files
}

fn stem(path: &std::path::Path) -> String {
    path.file_stem().unwrap().to_string_lossy().into_owned()
}

/// The message begins with the scenario's or its weather file's name.
fn names_a_file(message: &str) -> bool {
    let first = message.lines().next().unwrap_or_default();
    first.starts_with('/') && (first.contains(".toml:") || first.contains(".csv:"))
}

#[test]
fn every_bad_file_is_refused_with_its_place_and_leaves_nothing_behind() {
    let desk = Desk::new();
    for path in bad_files() {
        let name = stem(&path);
        for command in ["compare", "dose", "forecast"] {
            let done = desk.run(&[command, path.to_str().unwrap()]);
            assert_eq!(done.code, 2, "{command} {name}");
            assert!(done.out.is_empty(), "{command} {name} printed an answer: {}", done.out);
            assert!(names_a_file(&done.err), "{command} {name} does not name the file: {}", done.err);
            assert!(!done.err.contains("panicked"), "{command} {name} panicked: {}", done.err);
        }
        assert!(desk.is_empty(), "{name} left something behind");
    }
}

#[test]
fn the_sentences_are_as_expected_in_both_languages() {
    let desk = Desk::new();
    let (mut english, mut spanish) = (String::new(), String::new());
    for path in bad_files() {
        let say = |language: &str| {
            let done = desk.run(&["--language", language, "dose", path.to_str().unwrap()]);
            assert_eq!(done.code, 2, "{}", stem(&path));
            done.err.replace(&desk::folder_of(&path), "") + "\n"
        };
        let (en, es) = (say("en"), say("es"));
        assert_ne!(en, es, "{} is not translated", stem(&path));
        english.push_str(&en);
        spanish.push_str(&es);
    }
    insta::assert_snapshot!("bad_in_english", english);
    insta::assert_snapshot!("bad_in_spanish", spanish);
}

#[test]
fn with_json_the_problems_are_data() {
    let desk = Desk::new();
    for path in bad_files() {
        let done = desk.run(&["dose", path.to_str().unwrap(), "--json"]);
        assert_eq!(done.code, 2);
        assert!(done.err.is_empty(), "{}: {}", stem(&path), done.err);
        let document: Value = serde_json::from_str(&done.out).unwrap();
        assert_eq!(document["format"], 1);
        assert_eq!(document["error"]["kind"], "input");
        assert!(!document["error"]["message"].as_str().unwrap().is_empty());
        let problems = document["error"]["problems"].as_array().unwrap();
        assert!(!problems.is_empty());
        for problem in problems {
            let keys: Vec<&str> = problem.as_object().unwrap().keys().map(String::as_str).collect();
            assert_eq!(keys, ["column", "file", "help", "key", "line", "message"]);
            assert!(!problem["message"].as_str().unwrap().is_empty());
            assert_eq!(problem["line"].is_u64(), problem["column"].is_u64());
        }
    }
}

#[test]
fn values_that_are_wrong_are_named_by_line_and_key() {
    let desk = Desk::new();
    for (name, line, key) in [
        ("decimal-comma", 11, "area_m2"),
        ("decimal-comma-in-quotes", 11, "place.area_m2"),
        ("negative", 7, "soil.organic_matter_pct"),
        ("not-a-number", 7, "soil.organic_matter_pct"),
        ("infinite", 11, "place.area_m2"),
        ("percent-over-100", 7, "soil.organic_matter_pct"),
        ("ended-before-started", 16, "crop[1].ended"),
        ("crops-overlap", 20, "crop[2].started"),
        ("moisture-over-100", 22, "put_down[1].moisture_pct"),
        ("soil-density-in-kg-m3", 9, "soil.bulk_density_g_cm3"),
        ("residue-density-in-g-cm3", 22, "put_down[1].bulk_density_kg_m3"),
        ("unknown-material", 20, "put_down[1].material"),
        ("treated-wood", 20, "put_down[1].material"),
        ("unknown-key", 8, "soil.depht_cm"),
        ("date-outside-weather", 16, "crop[1].started"),
    ] {
        let path = scenarios().join("bad").join(format!("{name}.toml"));
        let done = desk.run(&["--json", "dose", path.to_str().unwrap()]);
        let document: Value = serde_json::from_str(&done.out).unwrap();
        let problem = &document["error"]["problems"][0];
        assert_eq!((&problem["line"], &problem["key"]), (&line.into(), &key.into()), "{name}");
    }
}

#[test]
fn files_that_are_none_are_told_apart() {
    let desk = Desk::new();
    for (file, words) in [("no-such-file.toml", "no such file"), (".", "is a folder")] {
        let done = desk.run(&["dose", scenarios().join(file).to_str().unwrap()]);
        assert_eq!(done.code, 2, "{file}");
        assert!(done.err.contains(words), "{file}: {}", done.err);
    }
}
