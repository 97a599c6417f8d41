//! A scenario told in words, and readings that change its forecast, by the real command.
#![allow(missing_docs, clippy::unwrap_used, reason = "a test may stop where it stands")]

mod desk;

use std::fs;

use desk::{Desk, scenarios};
use serde_json::Value;

fn json(desk: &Desk, arguments: &[&str]) -> Value {
    let done = desk.run(arguments);
    assert_eq!(done.code, 0, "{}{}", done.out, done.err);
    serde_json::from_str(&done.out).unwrap()
}

/// The plain scenario with a line changed, in the desk's folder.
fn changed(desk: &Desk, name: &str, from: &str, to: &str) -> String {
    let text = fs::read_to_string(scenarios().join("plain.toml")).unwrap();
    assert!(text.contains(from), "{from}");
    let path = desk.folder().join(name);
    fs::write(&path, text.replace(from, to)).unwrap();
    path.to_str().unwrap().to_owned()
}

fn width(document: &Value, key: &str) -> f64 {
    let end = |p: &str| document[key][p].as_f64().unwrap();
    end("p90") - end("p10")
}

#[test]
fn what_is_not_known_widens_the_range() {
    let desk = Desk::new();
    let known = changed(&desk, "known.toml", "last_crop_fed = \"no\"", "mineral_nitrogen_kg_ha = 25");
    let unknown = changed(&desk, "unknown.toml", "last_crop_fed = \"no\"", "last_crop_fed = \"unknown\"");
    let plain = scenarios().join("plain.toml");
    let forecast = |file: &str| json(&desk, &["forecast", file, "--runs", "400", "--json"]);
    let (known, plain, unknown) = (forecast(&known), forecast(plain.to_str().unwrap()), forecast(&unknown));
    assert!(width(&known, "crop_nitrogen_kg_ha") < width(&plain, "crop_nitrogen_kg_ha"));
    assert!(width(&plain, "crop_nitrogen_kg_ha") < width(&unknown, "crop_nitrogen_kg_ha"));
    // What was answered is no assumption; what nobody said is.
    assert!(plain["assumed"].get("clay_pct").is_none());
    assert!(plain["assumed"].get("holding.latitude_deg").is_some());
    assert!(unknown["assumed"].get("mineral_nitrogen_kg_ha").is_some());
}

#[test]
fn the_answer_names_the_question_that_would_narrow_it_most() {
    let desk = Desk::new();
    let plain = scenarios().join("plain.toml");
    let found = json(&desk, &["compare", plain.to_str().unwrap(), "--json", "--language", "en"]);
    // A load told in fingers may be off by a quarter: then what it draws tells more than its name.
    assert_eq!(found["question"]["id"], "draw-test");
    let narrower = found["question"]["narrower_pct"].as_f64().unwrap();
    assert!((5.0..60.0).contains(&narrower), "{narrower}");
    assert!(found["answer"]["narrow"].as_str().unwrap().contains("draw test"));
}

#[test]
fn readings_say_what_they_changed() {
    let desk = Desk::new();
    let plain = scenarios().join("plain.toml");
    let readings = desk.folder().join("readings.toml");
    fs::write(
        &readings,
        "[[soil_nitrate]]\ndate = 2026-05-12\nnitrate_ppm = 20\ndepth_cm = 25\nph = 6.4\norganic_matter_pct = 2.6\n\
         [[leaf]]\ndate = 2026-06-10\nnutrition_index = 0.8\n\
         [[rain]]\nfrom = 2026-05-01\nto = 2026-05-31\nmm = 110\n",
    )
    .unwrap();
    let arguments = ["forecast", plain.to_str().unwrap(), "--readings", readings.to_str().unwrap()];
    let found = json(&desk, &[&arguments[..], &["--json", "--language", "en"]].concat());
    assert!(found["effective_size"].as_f64().unwrap() >= 59.9);
    assert!(found["runs"].as_u64().unwrap() >= 2_000);
    assert_eq!(found["soil"]["ph"], 6.4);
    assert_eq!(found["soil"]["organic_matter_pct"], 2.6);
    let changed = &found["changed"];
    assert!(
        width(&changed["after"], "crop_nitrogen_kg_ha") < width(&changed["before"], "crop_nitrogen_kg_ha")
    );
    assert!(["soil-nitrate", "leaf"].contains(&changed["moved_by"]["reading"].as_str().unwrap()));
    assert!(changed["said"].as_array().unwrap().len() >= 3);
    let told = desk.run(&[&arguments[..], &["--language", "es"]].concat());
    assert!(told.out.starts_with("Antes se perdían "), "{}", told.out);
}

#[test]
fn a_figure_and_the_word_for_it_are_not_given_together() {
    let desk = Desk::new();
    for (from, to, key) in [
        ("rolled = \"ball\"", "rolled = \"ball\"\nclay_pct = 20", "soil.rolled"),
        ("colour = \"brown\"", "colour = \"brown\"\norganic_matter_pct = 3", "soil.colour"),
        ("last_crop_fed = \"no\"", "last_crop_fed = \"no\"\nnitrate_n_ppm = 9", "soil.last_crop_fed"),
        ("handful = \"damp\"", "handful = \"damp\"\nmoisture_pct = 40", "put_down[1].handful"),
        ("wood = \"unknown\"", "wood = \"unknown\"\nmaterial = \"sawdust\"", "put_down[1].wood"),
        ("winters = \"frosty\"", "winters = \"frosts\"", "weather.winters"),
        ("pieces = \"coffee\"", "peices = \"coffee\"", "put_down[1].peices"),
    ] {
        let file = changed(&desk, "wrong.toml", from, to);
        let done = desk.run(&["compare", &file, "--json"]);
        assert_eq!(done.code, 2, "{to}");
        let found: Value = serde_json::from_str(&done.out).unwrap();
        assert_eq!(found["error"]["problems"][0]["key"], key, "{}", done.out);
    }
}
