//! `rings` and `pile-volume`: their figures, their sentences, and what they say of bad files.
#![allow(missing_docs, clippy::unwrap_used, reason = "a test may stop where it stands")]

mod desk;

use std::fmt::Write;
use std::fs;
use std::path::{Path, PathBuf};

use desk::{Desk, folder_of};
use serde_json::Value;

fn fixtures(folder: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../fixtures").join(folder)
}

fn files(folder: &str, least: usize) -> Vec<PathBuf> {
    let mut files: Vec<PathBuf> =
        fs::read_dir(fixtures(folder)).unwrap().map(|entry| entry.unwrap().path()).collect();
    files.retain(|path| path.is_file());
    files.sort();
    assert!(files.len() >= least, "{folder} has {} files", files.len());
    files
}

fn json(desk: &Desk, command: &str, path: &Path) -> Value {
    let done = desk.run(&[command, path.to_str().unwrap(), "--json"]);
    assert_eq!(done.code, 0, "{}: {}", path.display(), done.out);
    serde_json::from_str(&done.out).unwrap()
}

fn figure(document: &Value, key: &str) -> f64 {
    document[key].as_f64().unwrap_or_else(|| panic!("no {key} in {document}"))
}

#[test]
fn rings_are_as_the_reference_cases() {
    let desk = Desk::new();
    for (file, union, net, sum, rings) in [
        ("row.csv", 353.867_568_360, 343.814_471_869, 392.699_081_699, 20.0),
        ("grid.csv", 842.124_719_882, 842.124_719_882, 1_130.973_355_292, 40.0),
    ] {
        let told = json(&desk, "rings", &fixtures("rings").join(file));
        for (key, expected) in [("union_m2", union), ("net_m2", net), ("sum_m2", sum), ("rings", rings)] {
            assert!((figure(&told, key) - expected).abs() < 1e-6, "{file} {key}: {told}");
        }
    }
}

#[test]
fn heaps_are_as_their_formulas() {
    let desk = Desk::new();
    let of = |file: &str| json(&desk, "pile-volume", &fixtures("piles").join(file));
    let pi = std::f64::consts::PI;
    let radius = 31.4 / (2.0 * pi);
    let cone = of("cone.toml");
    let volume = pi * radius * radius * 4.0 / 3.0;
    assert!((figure(&cone, "volume_m3") - volume).abs() < 1e-9);
    // A radius counts twice: 5 % of it is 10 % of the volume, and 5 % of the height beside it.
    assert!((figure(&cone, "high_m3") - volume * (1.0 + 0.05 * 5.0_f64.sqrt())).abs() < 1e-9);
    let windrow = of("windrow.toml");
    assert!(
        (figure(&windrow, "volume_m3") - (2.0 * 4.0 * 1.5 * 10.0 / 3.0 + pi * 1.5 * 16.0 / 8.0)).abs() < 1e-9
    );
    assert!(figure(&windrow, "low_m3") < 36.2832 && figure(&windrow, "high_m3") > 60.0 + pi * 4.0 * 1.5);
    let trailer = of("trailer.toml");
    assert!((figure(&trailer, "volume_m3") - 0.9 * (4.8 + 10.0 / 6.0)).abs() < 1e-9);
    assert!((figure(&of("sections.toml"), "volume_m3") - 39_270.0).abs() < 1e-6);
}

#[test]
fn the_sentences_are_as_expected() {
    let desk = Desk::new();
    let mut all = String::new();
    for (command, folder, least) in [("rings", "rings", 2), ("pile-volume", "piles", 4)] {
        for path in files(folder, least) {
            for manner in [&["--language", "en"][..], &["--language", "es", "--units", "us"]] {
                let arguments = [&[command, path.to_str().unwrap()], manner].concat();
                let done = desk.run(&arguments);
                assert_eq!((done.code, done.err.as_str()), (0, ""), "{arguments:?}");
                let name = path.file_name().unwrap().to_string_lossy();
                writeln!(all, "$ kerfbook {command} {name} {}\n{}", manner.join(" "), done.out).unwrap();
            }
        }
    }
    insta::assert_snapshot!("ground", all);
}

#[test]
fn every_bad_file_is_refused_with_its_place_and_leaves_nothing_behind() {
    let desk = Desk::new();
    for (command, folder, least) in [("rings", "rings/bad", 9), ("pile-volume", "piles/bad", 11)] {
        let (mut english, mut spanish) = (String::new(), String::new());
        for path in files(folder, least) {
            let say = |language: &str| {
                let done = desk.run(&["--language", language, command, path.to_str().unwrap()]);
                assert_eq!((done.code, done.out.as_str()), (2, ""), "{}", path.display());
                done.err.replace(&folder_of(&path), "") + "\n"
            };
            let (en, es) = (say("en"), say("es"));
            assert_ne!(en, es, "{} is not translated", path.display());
            english.push_str(&en);
            spanish.push_str(&es);
            let done = desk.run(&[command, path.to_str().unwrap(), "--json"]);
            let document: Value = serde_json::from_str(&done.out).unwrap();
            assert_eq!((done.code, &document["error"]["kind"]), (2, &"input".into()));
            assert!(!document["error"]["problems"].as_array().unwrap().is_empty());
        }
        insta::assert_snapshot!(format!("bad_{command}_in_english"), english);
        insta::assert_snapshot!(format!("bad_{command}_in_spanish"), spanish);
    }
    assert!(desk.is_empty());
}

#[test]
fn the_line_of_a_bad_tree_is_named() {
    let desk = Desk::new();
    for (file, line, key) in [
        ("not-a-number", 2, "radius_m"),
        ("no-size", 3, "radius_m"),
        ("decimal-comma-in-quotes", 2, "radius_m"),
        ("decimal-comma", 2, ""),
    ] {
        let path = fixtures("rings/bad").join(format!("{file}.csv"));
        let done = desk.run(&["rings", path.to_str().unwrap(), "--json"]);
        let document: Value = serde_json::from_str(&done.out).unwrap();
        let problem = &document["error"]["problems"][0];
        assert_eq!(problem["line"], line, "{file}: {document}");
        assert_eq!(problem["key"].as_str().unwrap_or_default(), key, "{file}: {document}");
    }
}

#[test]
fn doses_are_told_in_both_languages_and_systems() {
    let desk = Desk::new();
    let mut told = String::new();
    for (language, units) in [("en", "metric"), ("en", "us"), ("es", "metric"), ("es", "us")] {
        for file in ["orchard-by-load.toml", "us-garden.toml"] {
            let path = fixtures("scenarios").join(file);
            let done = desk.run(&["--language", language, "--units", units, "dose", path.to_str().unwrap()]);
            assert_eq!(done.code, 0, "{file}: {}", done.err);
            // What would make it up is the same table as before.
            let (head, _) = done.out.split_once("urea").unwrap();
            writeln!(told, "=== {file}, {language}, {units}\n{head}").unwrap();
        }
    }
    insta::assert_snapshot!("doses", told);
}

#[test]
fn a_bucket_test_is_kept_with_its_filling() {
    let desk = Desk::new();
    let run = |args: &[&str]| {
        let done = desk.run(args);
        assert_eq!(done.code, 0, "{args:?}: {}{}", done.out, done.err);
        done.out
    };
    let holding = "[holding]\nname = \"A\"\nopened = 2026-03-01\nlatitude_deg = 45.0\n\n\
                   [[place]]\ndate = 2026-03-01\nname = \"Bed\"\nkind = \"bed\"\narea_m2 = 12\narea_within_pct = 3\n\n";
    let load = "[[load]]\ndate = 2026-04-01\nname = \"Sawdust\"\nmaterial = \"hardwood sawdust\"\nvolume_m3 = 1.6\n\
                moisture_pct = 45\ntreated = \"no\"\n";
    let rest = "\n[[put_down]]\ndate = 2026-04-10\nplace = \"Bed\"\nbatch = \"Sawdust\"\nway = \"on-top\"\nbarrows = 5\n";
    let bucket = "bucket_l = 20\nbucket_empty_kg = 1\nbucket_full_kg = [6.5, 6.7, 6.6]\nbucket_filled = \"tapped thirds\"\n";
    fs::write(desk.folder().join("entries.toml"), format!("{holding}{load}{bucket}{rest}")).unwrap();
    run(&["book", "enter", "my.kerfbook", "entries.toml"]);
    let entries = run(&["book", "entries", "my.kerfbook", "--units", "metric"]);
    assert!(entries.contains("280 kg/m³ by the bucket, filled by thirds and tapped"), "{entries}");
}
