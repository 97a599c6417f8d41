//! `trial` and `plan`: their figures, their sentences, and what they say of bad files.
#![allow(missing_docs, clippy::unwrap_used, reason = "a test may stop where it stands")]

mod desk;

use std::fs;
use std::path::{Path, PathBuf};

use desk::{Desk, Done};
use serde_json::Value;

fn fixture(path: &str) -> String {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../fixtures").join(path).display().to_string()
}

fn files(folder: &str, least: usize) -> Vec<PathBuf> {
    let mut files: Vec<PathBuf> =
        fs::read_dir(fixture(folder)).unwrap().map(|entry| entry.unwrap().path()).collect();
    files.retain(|path| path.is_file());
    files.sort();
    assert!(files.len() >= least, "{folder} has {} files", files.len());
    files
}

fn trial(desk: &Desk, file: &str, more: &str) -> Done {
    let path = fixture(file);
    let mut arguments = vec!["trial", path.as_str()];
    arguments.extend(more.split_whitespace());
    desk.run(&arguments)
}

fn json(done: &Done) -> Value {
    serde_json::from_str(&done.out).unwrap_or_else(|_| panic!("{}{}", done.out, done.err))
}

const YELLOW: &str = "--design rcbd --block block --treatment treatment --response yellow_pct --day day --plot plot --yellow --check bare";
const BAD: &str = "--design rcbd --block block --treatment treatment --response yield";

#[test]
fn the_yellowing_trial_is_told_from_scores_to_conclusions() {
    let desk = Desk::new();
    let told = trial(&desk, "trials/yellowing-rcbd.csv", YELLOW);
    assert_eq!(told.code, 0, "{}", told.err);
    insta::assert_snapshot!("yellowing", told.out);
    let spanish = trial(&desk, "trials/yellowing-rcbd.csv", &format!("{YELLOW} --language es"));
    insta::assert_snapshot!("yellowing_in_spanish", spanish.out);
    let page = trial(&desk, "trials/yellowing-rcbd.csv", &format!("{YELLOW} --page trial.html"));
    assert_eq!(page.code, 0, "{}", page.err);
    let page = fs::read_to_string(desk.folder().join("trial.html")).unwrap();
    assert_eq!(page.matches("<svg").count(), 2);
    assert!(page.contains("Holds for this field and season."));
    for said in [&told.out, &spanish.out] {
        assert!(!said.contains('*') && !said.contains("p ="), "no stars, no bare p");
    }
    let document = json(&trial(&desk, "trials/yellowing-rcbd.csv", &format!("{YELLOW} --json")));
    let treatment = &document["anova"][1];
    assert_eq!(treatment["source"], "treatment");
    assert!((treatment["f"].as_f64().unwrap() / 323.826_200_247_540_95 - 1.0).abs() < 1e-6);
    let verdict = document["verdict"].as_array().unwrap();
    assert!(verdict.iter().any(|said| said == "Holds for this field and season."), "{verdict:?}");
}

#[test]
fn every_design_is_analysed() {
    let desk = Desk::new();
    for (file, options, source, f) in [
        (
            "oats-split-plot.csv",
            "--design split-plot --main variety --sub nitrogen --response yield",
            "nitrogen",
            37.685_647_058_823_51,
        ),
        (
            "rice-strip-plot.csv",
            "--design strip-plot --main gen --sub nitro --response yield",
            "gen:nitro",
            5.800_612_055_224_651,
        ),
        (
            "wheat-latin.csv",
            "--design latin --treatment treatment --response rust",
            "treatment",
            21.032_092_426_187_42,
        ),
        (
            "scab-crd.csv",
            "--design crd --treatment treatment --response scab --check O",
            "treatment",
            3.608_088_426_286_689_5,
        ),
        (
            "rice-rcbd.csv",
            "--design rcbd --treatment treatment --response yield --contrast 25=-5,50=-3,75=-1,100=1,125=3,150=5",
            "treatment",
            2.167_778_681_495_362,
        ),
        (
            "rice-rcbd.csv",
            "--design strips --treatment treatment --response yield --pair 25:150",
            "treatment",
            2.167_778_681_495_362,
        ),
        (
            "maize-pairs.csv",
            "--design pairs --treatment plant --response height --check self",
            "plant",
            4.613_850_134,
        ),
    ] {
        let document = json(&trial(&desk, &format!("trials/{file}"), &format!("{options} --json")));
        let line =
            document["anova"].as_array().unwrap().iter().find(|line| line["source"] == source).unwrap();
        assert!((line["f"].as_f64().unwrap() / f - 1.0).abs() < 1e-6, "{file}: {line}");
        assert_eq!(
            document["verdict"].as_array().unwrap().last().unwrap(),
            "Holds for this field and season."
        );
        let text = trial(&desk, &format!("trials/{file}"), options);
        assert_eq!(text.code, 0, "{}", text.err);
    }
}

#[test]
fn bad_files_are_refused_with_their_place() {
    let desk = Desk::new();
    let mut said = String::new();
    for path in files("trials/bad", 9) {
        let name = path.file_name().unwrap().to_string_lossy().into_owned();
        let done = trial(&desk, &format!("trials/bad/{name}"), BAD);
        assert_eq!(done.code, 2, "{name}: {}", done.out);
        let spanish = trial(&desk, &format!("trials/bad/{name}"), &format!("{BAD} --language es"));
        for told in [&done.err, &spanish.err] {
            said.push_str(&told.replace(&format!("{}/", path.parent().unwrap().display()), ""));
            said.push('\n');
        }
    }
    for path in files("plans/bad", 9) {
        for language in ["en", "es"] {
            let done =
                desk.run(&["plan", path.to_str().unwrap(), "--out", "written", "--language", language]);
            assert_eq!(done.code, 2, "{}: {}", path.display(), done.out);
            said.push_str(&done.err.replace(&format!("{}/", path.parent().unwrap().display()), ""));
            said.push('\n');
        }
    }
    insta::assert_snapshot!("bad_trials", said);
    assert!(!desk.folder().join("written").exists(), "nothing is half-written");
}

#[test]
fn what_a_trial_cannot_show_is_said_not_computed() {
    let desk = Desk::new();
    let write = |name: &str, rows: &str| {
        let path = desk.folder().join(name);
        fs::write(&path, format!("block,treatment,yield\n{rows}")).unwrap();
        path.display().to_string()
    };
    let told = |path: &str, more: &[&str]| {
        let mut arguments = vec!["trial", path];
        arguments.extend(BAD.split_whitespace());
        arguments.extend(more);
        arguments.push("--json");
        json(&desk.run(&arguments))
    };
    let one = told(&write("one.csv", "B1,a,3\nB1,b,5\nB1,c,4\n"), &[]);
    assert_eq!(one["refused"], true);
    assert!(one["verdict"][0].as_str().unwrap().contains("demonstration, not a trial"));
    assert_eq!(one["means"].as_array().unwrap().len(), 3);
    let lost = told(&write("lost.csv", "B1,a,3\nB1,b,5\nB2,a,4\nB2,b,\nB3,a,\nB3,b,6\nB4,a,3\nB4,b,\n"), &[]);
    assert!(lost["verdict"][0].as_str().unwrap().contains("more than a quarter"), "{lost}");
    let flat = told(&write("flat.csv", "B1,a,3\nB1,b,5\nB2,a,4\nB2,b,6\nB3,a,5\nB3,b,7\n"), &[]);
    assert!(flat["verdict"][0].as_str().unwrap().contains("do not differ at all"), "{flat}");
    let absent = told(
        &write("absent.csv", "B1,a,3\nB1,b,5\nB2,a,4.2\nB2,b,6\nB3,a,5\nB3,b,7.3\nB4,a,4\n"),
        &["--check", "a"],
    );
    assert_eq!(absent["notes"][0], "B4 has no value for b.");
    assert_eq!(absent["plots"]["lost"], 1);
    let percent = desk.folder().join("over.csv");
    fs::write(&percent, "block,treatment,yield\nB1,a,30\nB1,b,120\nB2,a,3\nB2,b,5\n").unwrap();
    let mut arguments = vec!["trial", percent.to_str().unwrap(), "--percent"];
    arguments.extend(BAD.split_whitespace());
    let over = desk.run(&arguments);
    assert_eq!(over.code, 2);
    assert!(over.err.contains("over.csv:3:1") && over.err.contains("from 0 to 100"), "{}", over.err);
}

#[test]
fn a_plan_is_the_same_for_the_same_seed_and_carries_no_treatment_into_the_field() {
    let desk = Desk::new();
    let path = fixture("plans/beans.toml");
    let told = desk.run(&["plan", &path, "--out", "beans"]);
    assert_eq!(told.code, 0, "{}", told.err);
    insta::assert_snapshot!("plan", told.out);
    insta::assert_snapshot!("plan_in_spanish", desk.run(&["plan", &path, "--language", "es"]).out);
    let read = |name: &str| fs::read_to_string(desk.folder().join("beans").join(name)).unwrap();
    for blind in ["labels.html", "scores.csv"] {
        for treatment in ["bare", "chips on top", "dug in"] {
            let page = read(blind);
            // A colour has a treatment's name.
            let text = page.split_once("</style>").map_or(page.as_str(), |(_, text)| text);
            assert!(!text.contains(treatment), "{blind} names {treatment}");
        }
    }
    insta::assert_snapshot!("scores", read("scores.csv"));
    assert_eq!(read("key.csv").lines().nth(1), Some("101,1,1,1,chips on top"));
    assert!(read("layout.svg").starts_with("<svg xmlns"));
    assert!(read("plan.html").contains("no longer blind"));
    let document = json(&desk.run(&["plan", &path, "--json"]));
    let first: Vec<&str> = document["layout"].as_array().unwrap()[..4]
        .iter()
        .map(|plot| plot["treatment"].as_str().unwrap())
        .collect();
    assert_eq!(first, ["chips on top", "chips dug in", "bare", "chips dug in and ample nitrogen"]);
    assert_eq!(document["error_df"], 12);
    assert_eq!(document["layout"][0]["net_m2"], 3.0);
    assert_eq!(document["treatments"][0]["add_nitrogen_kg_ha"], 30.0);
    let [a, b] = [0, 1].map(|_| desk.run(&["plan", &path, "--json"]).out);
    assert_eq!(a, b);
    let split = json(&desk.run(&["plan", &fixture("plans/split.toml"), "--json"]));
    assert_eq!(split["refused"][0], "a drain runs through block 2");
    assert_eq!(split["strata"][1]["error_df"], 8);
}

#[test]
fn a_plan_without_a_seed_draws_one_and_tells_it() {
    let desk = Desk::new();
    let path = desk.folder().join("t.toml");
    fs::write(&path, "[trial]\ndesign = \"pairs\"\nblocks = 3\ntreatments = [\"a\", \"b\"]\n").unwrap();
    let document = json(&desk.run(&["plan", path.to_str().unwrap(), "--json"]));
    assert_eq!(document["standing"], "too-small");
    let seed = document["seed"].as_u64().unwrap();
    let said = document["said"].as_array().unwrap();
    assert!(said.iter().any(|line| line.as_str().unwrap().contains(&format!("seed = {seed}"))), "{said:?}");
}
