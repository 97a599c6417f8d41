//! `mix` and `heat`: their figures, their sentences, and what they say of bad files.
#![allow(missing_docs, clippy::unwrap_used, reason = "a test may stop where it stands")]

mod desk;

use std::fmt::Write;
use std::fs;
use std::path::{Path, PathBuf};

use desk::{Desk, folder_of};
use serde_json::Value;

fn fixture(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../fixtures").join(name)
}

fn files(folder: &str, least: usize) -> Vec<PathBuf> {
    let mut files: Vec<PathBuf> =
        fs::read_dir(fixture(folder)).unwrap().map(|entry| entry.unwrap().path()).collect();
    files.retain(|path| path.is_file());
    files.sort();
    assert!(files.len() >= least, "{folder} has {} files", files.len());
    files
}

fn document(desk: &Desk, arguments: &[&str]) -> Value {
    let done = desk.run(&[arguments, &["--json"]].concat());
    assert_eq!(done.code, 0, "{arguments:?}: {}", done.out);
    serde_json::from_str(&done.out).unwrap()
}

fn mixed(desk: &Desk, file: &str) -> Value {
    document(desk, &["mix", fixture(&format!("recipes/{file}.toml")).to_str().unwrap()])
}

fn heated(desk: &Desk, file: &str, rule: &str) -> Value {
    document(desk, &["heat", fixture(&format!("heat/{file}.csv")).to_str().unwrap(), "--rule", rule])
}

fn figure(document: &Value, key: &str) -> f64 {
    document[key].as_f64().unwrap_or_else(|| panic!("no {key} in {document}"))
}

#[test]
fn a_solved_recipe_returns_its_goals() {
    let desk = Desk::new();
    for (file, moisture, ratio) in [
        ("manure-for-sawdust", 60.0, Some(28.0)),
        ("from-stock", 58.0, Some(30.0)),
        ("grass-and-leaves", 60.0, None),
    ] {
        let told = mixed(&desk, file);
        assert!((figure(&told, "moisture_pct") - moisture).abs() < 1e-7, "{file}: {told}");
        if let Some(ratio) = ratio {
            assert!((figure(&told, "carbon_nitrogen") - ratio).abs() < 1e-7, "{file}: {told}");
            assert!(figure(&told, "nitrogen_to_add_kg").abs() < 1e-6);
        }
        // Put back by hand: all water by all mass, all carbon by all nitrogen.
        let (mut wet, mut water, mut carbon, mut nitrogen) = (0.0, 0.0, 0.0, 0.0);
        for one in told["ingredients"].as_array().unwrap() {
            let (mass, dry) = (figure(one, "wet_kg"), figure(one, "dry_kg"));
            (wet, water) = (wet + mass, water + mass - dry);
            carbon += dry * figure(one, "carbon_pct") / 100.0;
            nitrogen += dry * figure(one, "nitrogen_pct") / 100.0;
        }
        assert!((wet - figure(&told, "mass_kg")).abs() < 1e-9 * wet);
        assert!((water / wet * 100.0 - figure(&told, "moisture_pct")).abs() < 1e-9);
        assert!((carbon / nitrogen - figure(&told, "carbon_nitrogen")).abs() < 1e-9);
    }
    let leaves = &mixed(&desk, "grass-and-leaves")["ingredients"][1];
    assert!((figure(leaves, "wet_kg") - 6.8).abs() < 1e-9 && leaves["solved"] == true);
}

#[test]
fn a_recipe_as_given_says_what_it_lacks() {
    let desk = Desk::new();
    let told = mixed(&desk, "as-given");
    assert_eq!(told["solved"], false);
    let (mass, moisture) = (figure(&told, "mass_kg"), figure(&told, "moisture_pct") / 100.0);
    // Water to add for 55 %, by the formula.
    let water = (mass * 0.55 - mass * moisture) / 0.45;
    assert!((figure(&told, "water_to_add_kg") - water).abs() < 1e-6);
    assert!(figure(&told, "free_air_space") > 0.0 && figure(&told, "free_air_space") < 1.0);
    assert!(told["verdicts"].as_array().unwrap().len() >= 6, "{told}");
    let cautions = told["cautions"].as_array().unwrap();
    assert!(
        cautions.contains(&"by-products-authority".into())
            && cautions.contains(&"persistent-weedkillers".into())
    );
    assert_eq!(told["assumed"]["goal.moisture_pct"], 55.0);
}

#[test]
fn logs_are_judged_by_their_rule() {
    let desk = Desk::new();
    for (file, rule, verdict, days, turnings, missing) in [
        ("fifteen-days", "us-organic-windrow", "met", 15, 5, 0),
        ("fifteen-days", "canada-windrow", "figures-reached", 15, 5, 0),
        ("fourteen-days", "us-organic-windrow", "not-reached", 14, 5, 0),
        ("gap", "us-organic-windrow", "unknown", 14, 5, 1),
        ("four-turnings", "us-organic-windrow", "not-reached", 15, 4, 0),
        ("too-hot", "us-organic-windrow", "too-hot", 7, 3, 0),
        ("too-hot", "canada-windrow", "figures-reached", 15, 5, 0),
        ("fahrenheit", "california-windrow", "met", 15, 5, 0),
        ("out-of-order", "us-organic-windrow", "met", 15, 5, 0),
    ] {
        let told = heated(&desk, file, rule);
        assert_eq!(told["verdict"], verdict, "{file} {rule}: {told}");
        assert_eq!(told["days_counted"], days, "{file} {rule}: {told}");
        assert_eq!(told["turnings_counted"], turnings, "{file} {rule}: {told}");
        assert_eq!(told["missing_days"].as_array().unwrap().len(), missing, "{file} {rule}");
        assert_eq!(told["rule"], rule);
        let said = told["told"].to_string();
        assert!(said.contains("local authority"), "{said}");
    }
    assert_eq!(heated(&desk, "too-hot", "canada-windrow")["fire_level"], "red");
    assert_eq!(heated(&desk, "fifteen-days", "canada-windrow")["fire_level"], "green");
    assert_eq!(heated(&desk, "fifteen-days", "canada-windrow")["standing"], "from-memory");
    assert!(
        heated(&desk, "renamed", "us-organic-windrow")["questions"][0].as_str().unwrap().contains("probe 2")
    );
    assert!(!heated(&desk, "out-of-order", "canada-windrow")["questions"].as_array().unwrap().is_empty());
    let plants = fixture("heat/fifteen-days.csv");
    let arguments = ["heat", plants.to_str().unwrap(), "--rule", "us-organic-windrow", "--plants-only"];
    assert_eq!(document(&desk, &arguments)["verdict"], "does-not-apply");
}

#[test]
fn the_sentences_are_as_expected() {
    let desk = Desk::new();
    let mut all = String::new();
    let logs =
        files("heat", 8).into_iter().map(|path| (vec!["heat"], path, vec!["--rule", "us-organic-windrow"]));
    let recipes = files("recipes", 4).into_iter().map(|path| (vec!["mix"], path, vec![]));
    for (command, path, more) in recipes.chain(logs) {
        for manner in [vec!["--language", "en"], vec!["--language", "es", "--units", "us"]] {
            let file = path.to_str().unwrap();
            let arguments = [&command[..], &[file], &more, &manner].concat();
            let done = desk.run(&arguments);
            assert_eq!((done.code, done.err.as_str()), (0, ""), "{arguments:?}");
            let name = path.file_name().unwrap().to_string_lossy();
            writeln!(all, "$ kerfbook {} {name} {}\n{}", command.join(" "), manner.join(" "), done.out)
                .unwrap();
        }
    }
    insta::assert_snapshot!("compost", all);
}

#[test]
fn every_bad_file_is_refused_and_leaves_nothing_behind() {
    let desk = Desk::new();
    let (mut english, mut spanish) = (String::new(), String::new());
    let logs = files("heat/bad", 8).into_iter().map(|path| ("heat", path, vec!["--rule", "canada-windrow"]));
    let recipes = files("recipes/bad", 15).into_iter().map(|path| ("mix", path, vec![]));
    for (command, path, more) in recipes.chain(logs) {
        let say = |language: &str| {
            let arguments = [&["--language", language, command, path.to_str().unwrap()][..], &more].concat();
            let done = desk.run(&arguments);
            assert_eq!((done.code, done.out.as_str()), (2, ""), "{}", path.display());
            done.err.replace(&folder_of(&path), "") + "\n"
        };
        let (en, es) = (say("en"), say("es"));
        assert_ne!(en, es, "{} is not translated", path.display());
        english.push_str(&en);
        spanish.push_str(&es);
    }
    insta::assert_snapshot!("bad_compost_in_english", english);
    insta::assert_snapshot!("bad_compost_in_spanish", spanish);
    assert!(desk.is_empty());
}

#[test]
fn an_unknown_rule_is_answered_with_those_there_are() {
    let desk = Desk::new();
    let log = fixture("heat/fifteen-days.csv");
    for (name, offered) in [("us-organic-windros", "us-organic-windrow"), ("zzz", "germany-vessel")] {
        let done = desk.run(&["heat", log.to_str().unwrap(), "--rule", name]);
        assert_eq!(done.code, 2);
        assert!(done.err.contains(offered), "{}", done.err);
    }
}
