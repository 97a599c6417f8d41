//! A season written into a book from files, and what the book then says.
#![allow(missing_docs, clippy::unwrap_used, reason = "a test may stop where it stands")]

mod desk;

use std::path::{Path, PathBuf};

use desk::Desk;
use serde_json::Value;

fn entries(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../fixtures/entries").join(name)
}

fn text(path: &Path) -> &str {
    path.to_str().unwrap()
}

fn json(desk: &Desk, arguments: &[&str]) -> Value {
    let mut all = arguments.to_vec();
    all.push("--json");
    let done = desk.run(&all);
    assert_eq!(done.code, 0, "{}{}", done.out, done.err);
    serde_json::from_str(&done.out).unwrap()
}

/// A book with the first season in it.
fn first() -> Desk {
    let desk = Desk::new();
    let done = desk.run(&["book", "enter", "my.kerfbook", text(&entries("first.toml"))]);
    assert_eq!(done.code, 0, "{}", done.err);
    desk
}

#[test]
fn a_file_of_entries_begins_a_book_that_verifies() {
    let desk = first();
    let verified = json(&desk, &["book", "verify", "my.kerfbook"]);
    assert_eq!(verified["verified"], true);
    let told = json(&desk, &["book", "entries", "my.kerfbook"]);
    let rows = told["entries"].as_array().unwrap();
    assert_eq!(rows.len() as u64, verified["entries"].as_u64().unwrap());
    for kind in
        ["PersonNamed", "PlaceOutlined", "SoilTested", "LoadTakenIn", "PutDown", "TaskSet", "LeafRead"]
    {
        assert!(rows.iter().any(|row| row["kind"] == kind), "{kind}");
    }
    assert!(rows.iter().all(|row| row["flags"].as_array().unwrap().is_empty()));
}

#[test]
fn digging_in_a_mulch_is_warned_of_before_it_is_saved() {
    let desk = first();
    let before = json(&desk, &["book", "verify", "my.kerfbook"]);
    let second = entries("second.toml");
    let stopped = desk.run(&["book", "enter", "my.kerfbook", text(&second)]);
    assert_eq!(stopped.code, 2);
    assert!(stopped.err.contains("digs in") && stopped.err.contains("--even-so"), "{}", stopped.err);
    assert_eq!(json(&desk, &["book", "verify", "my.kerfbook"]), before, "nothing was written");

    let tried = json(&desk, &["book", "enter", "my.kerfbook", text(&second), "--try"]);
    assert_eq!(tried["written"], false);
    assert_eq!(tried["warnings"].as_array().unwrap().len(), 1);
    assert_eq!(json(&desk, &["book", "verify", "my.kerfbook"]), before, "trying writes nothing");

    let written = json(&desk, &["book", "enter", "my.kerfbook", text(&second), "--even-so"]);
    assert_eq!(written["written"], true);
    let after = json(&desk, &["book", "verify", "my.kerfbook"]);
    let count = written["entries"].as_array().unwrap().len() as u64;
    assert_eq!(after["entries"].as_u64().unwrap(), before["entries"].as_u64().unwrap() + count);
}

#[test]
fn one_wrong_row_keeps_all_of_them_out() {
    let desk = Desk::new();
    let good = std::fs::read_to_string(entries("first.toml")).unwrap();
    for (wrong, right, said) in [
        ("place = \"Bed 11\"", "place = \"Bed 1\"", "Bed 1"),
        ("way = \"on-tpo\"", "way = \"on-top\"", "on-top"),
        ("material = \"hardwod sawdust\"", "material = \"hardwood sawdust\"", "sawdust, hardwood"),
        ("barrows = -4", "barrows = 4", "barrows"),
        (
            "date = 2026-02-15\nplace = \"Bed 1\"\nbatch",
            "date = 2026-04-15\nplace = \"Bed 1\"\nbatch",
            "Sawdust",
        ),
    ] {
        assert!(good.contains(right), "{right}");
        let path = desk.folder().join("bad.toml");
        std::fs::write(&path, good.replacen(right, wrong, 1)).unwrap();
        let done = desk.run(&["book", "enter", "my.kerfbook", "bad.toml"]);
        assert_eq!(done.code, 2, "{wrong}: {}{}", done.out, done.err);
        assert!(done.err.contains("bad.toml:") && done.err.contains(said), "{wrong}: {}", done.err);
        std::fs::remove_file(&path).unwrap();
        assert!(!desk.folder().join("my.kerfbook").exists(), "{wrong}: a book was left");
    }
}

#[test]
fn a_refused_load_is_written_down_with_its_reason_and_opens_no_batch() {
    let desk = first();
    let path = desk.folder().join("gate.toml");
    std::fs::write(
        &path,
        "[[load]]\ndate = 2026-05-02\nname = \"Offcuts\"\nmaterial = \"hardwood sawdust\"\nbarrows = 3\ntreated = \"yes\"\n",
    )
    .unwrap();
    let written = json(&desk, &["book", "enter", "my.kerfbook", "gate.toml"]);
    assert_eq!(written["entries"][0]["kind"], "LoadRefused");
    assert!(!written["cautions"].as_array().unwrap().is_empty(), "the caution says why");
    let stock = json(&desk, &["stock", "my.kerfbook"]);
    assert!(stock["batches"].as_array().unwrap().iter().all(|batch| batch["batch"] != "Offcuts"));
}

#[test]
fn the_book_says_what_lies_there_and_what_to_do() {
    let desk = first();
    let today = json(&desk, &["today", "my.kerfbook", "--on", "2026-05-25", "--ahead", "30"]);
    let items = today["items"].as_array().unwrap();
    assert!(items.iter().any(|item| item["at"] == "Bed 1"), "{items:?}");
    let place = json(&desk, &["place", "my.kerfbook", "Bed 1", "--on", "2026-06-10"]);
    assert_eq!(place["layers"].as_array().unwrap().len(), 1);
    let depth = &place["depth_mm"];
    assert!(depth["low"].as_f64() < depth["typical"].as_f64(), "{depth}");
    assert!(place["forecast"]["effective_size"].as_f64().unwrap() > 1.0, "two readings weigh the runs");
    let stock = json(&desk, &["stock", "my.kerfbook"]);
    let sawdust = &stock["batches"][0];
    assert_eq!(sawdust["batch"], "Sawdust");
    let left = sawdust["left"]["barrows"].as_f64().unwrap();
    assert!((left - 16.0).abs() < 0.05, "{left}");
    let report = json(&desk, &["report", "my.kerfbook", "--on", "2026-06-10"]);
    let page = std::fs::read_to_string(desk.folder().join(report["report"].as_str().unwrap())).unwrap();
    assert!(page.contains("Bed 1") && page.contains("Invented holding"));
}

#[test]
fn a_book_that_is_not_there_or_a_place_that_is_not_in_it_is_told() {
    let desk = first();
    for arguments in
        [&["today", "none.kerfbook"][..], &["stock", "none.kerfbook"], &["report", "none.kerfbook"]]
    {
        let done = desk.run(arguments);
        assert_eq!(done.code, 2, "{arguments:?}: {}", done.err);
        assert!(done.err.contains("none.kerfbook"), "{}", done.err);
    }
    let done = desk.run(&["place", "my.kerfbook", "Bed1"]);
    assert_eq!(done.code, 2);
    assert!(done.err.contains("Bed 1"), "{}", done.err);
    let done = desk.run(&["today", "my.kerfbook", "--on", "soon"]);
    assert_eq!(done.code, 2);
}

#[test]
fn a_place_of_a_book_has_a_feed_plan_from_a_day_on() {
    let desk = first();
    let plan = json(&desk, &["feeds", "my.kerfbook", "Bed 1", "--on", "2026-05-20", "--source", "urea"]);
    assert_eq!(plan["sources"][0]["source"], "urea");
    let feeds = plan["sources"][0]["feeds"].as_array().unwrap();
    assert!(feeds.iter().all(|feed| feed["date"].as_str().unwrap() >= "2026-05-20"), "{feeds:?}");
    let told = desk.run(&["feeds", "my.kerfbook", "Bed 1", "--on", "2026-05-20"]);
    assert!(told.code == 0 && told.out.contains("No rules were chosen"), "{}{}", told.out, told.err);
    let spanish = desk.run(&["feeds", "my.kerfbook", "Bed 1", "--on", "2026-05-20", "--language", "es"]);
    assert_eq!(spanish.code, 0, "{}", spanish.err);
}

#[test]
fn what_today_gives_is_what_the_plan_gives() {
    let desk = first();
    let today = json(&desk, &["today", "my.kerfbook", "--on", "2026-05-20", "--ahead", "60"]);
    let items = today["items"].as_array().unwrap();
    let plan = json(&desk, &["feeds", "my.kerfbook", "Bed 1", "--on", "2026-05-20"]);
    let planned: Vec<&Value> = plan["sources"][0]["feeds"]
        .as_array()
        .unwrap()
        .iter()
        .map(|feed| &feed["date"])
        .filter(|date| date.as_str().unwrap() <= "2026-07-19")
        .collect();
    let due: Vec<&Value> = items
        .iter()
        .filter(|item| item["at"] == "Bed 1" && item["what"] == "feed" && item["task"].is_null())
        .map(|item| &item["due"])
        .collect();
    assert_eq!(due, planned);
}

#[test]
fn a_load_for_a_place_with_a_past_is_set_beside_leaving_it_off() {
    let desk = first();
    let second = entries("second.toml");
    assert_eq!(desk.run(&["book", "enter", "my.kerfbook", text(&second), "--even-so"]).code, 0);
    let on = ["--on", "2027-05-10"];
    let batch = ["compare", "my.kerfbook", "Bed 1", "--batch", "Chips", "--barrows", "3"];
    let told = json(&desk, &[&batch[..], &on].concat());
    assert_eq!(told["ways"][0]["way"], "bare");
    assert_eq!(told["ways"][0]["lost_kg_ha"]["p50"], 0.0);
    assert!(told["first_day"].as_str().unwrap() < "2027");
    assert!(told["said"][0].as_str().unwrap().contains("Bed 1"), "{}", told["said"]);
    let text = desk.run(&[&batch[..], &on].concat());
    assert!(text.code == 0 && text.out.contains("Leave it off"), "{}{}", text.out, text.err);
    // One that is not in the book, with the crop that is to come.
    let load = desk.folder().join("load.toml");
    let written = "[[put_down]]\ndate = 2027-07-01\nmaterial = \"hardwood sawdust\"\nbarrows = 4\n\n\
                   [[crop]]\nname = \"cabbage\"\nstarted = 2027-07-05\nended = 2027-10-20\n";
    std::fs::write(&load, written).unwrap();
    let told = json(&desk, &["compare", "my.kerfbook", "Bed 1", "--load", "load.toml"]);
    let worked_in = told["ways"].as_array().unwrap().iter().find(|way| way["way"] == "worked-in").unwrap();
    // The mulch dug in holds all that there is: there is a crop, and nothing more to take from it.
    assert!(worked_in["lost_kg_ha"]["p50"].as_f64().unwrap() > -1.0, "{worked_in}");
    assert!(told["best"]["way"].is_string() && worked_in["chance_hungry"].is_number());
}

#[test]
fn the_price_of_a_load_comes_from_its_intake_where_nobody_says_otherwise() {
    let desk = first();
    let scenario = desk::scenarios().join("bed.toml");
    let asked = ["purpose", text(&scenario), "--for", "soil", "--hour-price", "10"];
    let of = |more: &[&str]| json(&desk, &[&asked[..], more].concat());
    let book = ["--book", "my.kerfbook", "--batch", "Sawdust"];
    let (without, with) = (of(&[]), of(&book));
    let intake = &with["intake"];
    assert!(without["intake"].is_null() && intake["currency"] == "EUR", "{intake}");
    let part = intake["part"].as_f64().unwrap();
    assert!((intake["price"].as_f64().unwrap() - 30.0 * part).abs() < 1e-9);
    assert!((intake["minutes"].as_f64().unwrap() - 50.0 * part).abs() < 1e-9);
    assert_eq!(intake["hauled_km"], 12.0);
    let way = |told: &Value| {
        let ways = told["ways"].as_array().unwrap();
        ways.iter().find(|way| way["way"] == "on-top").unwrap().clone()
    };
    let money = |told: &Value| way(told)["money"].as_f64().unwrap();
    let hours = |told: &Value| way(told)["work"]["hours"].as_f64().unwrap();
    assert!(money(&with) > money(&without) && hours(&with) > hours(&without));
    let own = of(&[&book[..], &["--load-price", "1000"]].concat());
    assert!(money(&own) > money(&with) + 500.0);
    let alone = desk.run(&[&asked[..], &["--book", "my.kerfbook"]].concat());
    assert_eq!(alone.code, 2, "{}", alone.out);
}

#[test]
fn a_book_asked_about_wrongly_says_what_to_do() {
    let desk = first();
    let bad = "[[put_down]]\ndate = 2027-07-01\nmaterial = \"hardwood sawdust\"\nbarows = 4\n";
    std::fs::write(desk.folder().join("bad.toml"), bad).unwrap();
    std::fs::write(desk.folder().join("two.toml"), bad.replace("barows", "barrows").repeat(2)).unwrap();
    std::fs::write(desk.folder().join("bed.toml"), "[place]\n").unwrap();
    let cases: [(&[&str], &str); 10] = [
        (&["feeds", "my.kerfbook"], "say which of its places"),
        (&["compare", "my.kerfbook"], "say which of its places"),
        (&["feeds", "my.kerfbook", "Bed 9"], "Bed 9"),
        (&["feeds", "my.kerfbook", "Bed 1", "--on", "2001-01-01"], "nothing has happened"),
        (&["feeds", "bed.toml", "Bed 1"], "no book of this program"),
        (&["compare", "my.kerfbook", "Bed 1"], "Chips"),
        (&["compare", "my.kerfbook", "Bed 1", "--batch", "Chip"], "Chips"),
        (&["compare", "my.kerfbook", "Bed 1", "--batch", "Chips", "--barrows", "0"], "--barrows"),
        (&["compare", "my.kerfbook", "Bed 1", "--load", "bad.toml"], "barrows"),
        (&["compare", "my.kerfbook", "Bed 1", "--load", "two.toml"], "one [[put_down]]"),
    ];
    for (arguments, says) in cases {
        let done = desk.run(arguments);
        assert_eq!(done.code, 2, "{arguments:?}: {}{}", done.out, done.err);
        assert!(done.err.contains(says), "{arguments:?}: {}", done.err);
    }
}

/// The entry of the first row whose text holds this.
fn entry_of(desk: &Desk, text: &str) -> String {
    let told = json(desk, &["book", "entries", "my.kerfbook"]);
    let rows = told["entries"].as_array().unwrap();
    let row = rows.iter().find(|row| row["text"].as_str().unwrap().contains(text)).unwrap();
    row["entry"].as_str().unwrap().to_owned()
}

fn layers(desk: &Desk, place: &str) -> usize {
    json(desk, &["place", "my.kerfbook", place, "--on", "2026-06-10"])["layers"].as_array().unwrap().len()
}

#[test]
fn the_wrong_bed_is_put_right_in_one_step() {
    let desk = first();
    let laid = entry_of(&desk, "Put down");
    let moved = json(
        &desk,
        &["book", "move", "my.kerfbook", "--entry", &laid, "--to", "Bed 2", "--reason", "the wrong bed"],
    );
    assert_eq!(moved["entries"].as_array().unwrap().len(), 1);
    assert_eq!((layers(&desk, "Bed 1"), layers(&desk, "Bed 2")), (0, 1));
    let gone = desk.run(&["book", "move", "my.kerfbook", "--entry", &laid, "--to", "Bed 9", "--reason", "x"]);
    assert_eq!(gone.code, 2);
}

#[test]
fn one_load_entered_twice_is_one_load_again() {
    let desk = first();
    let again = "[[load]]\ndate = 2026-04-12\nname = \"Sawdust, again\"\nmaterial = \"hardwood sawdust\"\n\
                 barrows = 20\ntreated = \"no\"\n[[put_down]]\ndate = 2026-04-16\nplace = \"Bed 2\"\n\
                 batch = \"Sawdust, again\"\nway = \"on-top\"\nbarrows = 3\n";
    std::fs::write(desk.folder().join("again.toml"), again).unwrap();
    json(&desk, &["book", "enter", "my.kerfbook", "again.toml"]);
    let before = json(&desk, &["stock", "my.kerfbook"]);
    assert_eq!(before["batches"].as_array().unwrap().len(), 3);
    json(
        &desk,
        &[
            "book",
            "same",
            "my.kerfbook",
            "--keep",
            "Sawdust",
            "--second",
            "Sawdust, again",
            "--reason",
            "twice",
        ],
    );
    let after = json(&desk, &["stock", "my.kerfbook"]);
    let batches = after["batches"].as_array().unwrap();
    assert_eq!(batches.len(), 2);
    let left = batches[0]["left"]["barrows"].as_f64().unwrap();
    assert!((left - 13.0).abs() < 0.05, "20 less 4 and 3: {left}");
}

#[test]
fn the_wrong_unit_found_a_week_later_is_put_right() {
    let desk = first();
    let load = "[[load]]\ndate = 2026-05-02\nname = \"Weighed\"\nmaterial = \"pine sawdust\"\nwet_kg = 400\n\
                treated = \"no\"\n";
    std::fs::write(desk.folder().join("load.toml"), load).unwrap();
    let written = json(&desk, &["book", "enter", "my.kerfbook", "load.toml"]);
    let entry = written["entries"][0]["entry"].as_str().unwrap();
    json(
        &desk,
        &[
            "book",
            "unit",
            "my.kerfbook",
            "--entry",
            entry,
            "--written",
            "kg",
            "--meant",
            "lb",
            "--reason",
            "pounds",
        ],
    );
    let stock = json(&desk, &["stock", "my.kerfbook"]);
    let batches = stock["batches"].as_array().unwrap();
    let weighed = batches.iter().find(|batch| batch["batch"] == "Weighed").unwrap();
    let kg = weighed["came"]["wet_kg"].as_f64().unwrap();
    assert!((kg - 181.437).abs() < 0.001, "{kg}");
    let done = desk.run(&[
        "book",
        "unit",
        "my.kerfbook",
        "--entry",
        entry,
        "--written",
        "stone",
        "--meant",
        "lb",
        "--reason",
        "x",
    ]);
    assert_eq!(done.code, 2);
}

#[test]
fn an_entry_taken_out_can_be_put_back() {
    let desk = first();
    let laid = entry_of(&desk, "Put down");
    let out = desk.run(&["book", "correct", "my.kerfbook", "--entry", &laid, "--withdraw", "--reason", "no"]);
    assert_eq!(out.code, 0, "{}", out.err);
    assert_eq!(layers(&desk, "Bed 1"), 0);
    json(&desk, &["book", "put-back", "my.kerfbook", "--entry", &laid, "--reason", "yes"]);
    assert_eq!(layers(&desk, "Bed 1"), 1);
}

#[test]
fn a_book_without_forecasts_has_nothing_to_judge() {
    let desk = first();
    let judged = json(&desk, &["judge", "my.kerfbook"]);
    assert_eq!(judged["mineral"]["of"], 0);
    assert!(judged["lines"].as_array().unwrap().is_empty());
}

#[test]
fn a_pile_goes_from_two_loads_to_a_batch_on_a_bed() {
    let desk = Desk::new();
    let done = desk.run(&["book", "enter", "my.kerfbook", text(&entries("pile.toml"))]);
    assert_eq!(done.code, 0, "{}", done.err);
    assert!(done.out.contains("run") && done.out.contains("local authority"), "{}", done.out);
    let told = json(&desk, &["book", "entries", "my.kerfbook"]);
    let rows = told["entries"].as_array().unwrap();
    for (kind, count) in
        [("PileBuilt", 1), ("HeatRead", 10), ("PileTurned", 1), ("MoistureRead", 1), ("PileFinished", 1)]
    {
        assert_eq!(rows.iter().filter(|row| row["kind"] == kind).count(), count, "{kind}");
    }
    assert!(rows.iter().all(|row| row["flags"].as_array().unwrap().is_empty()), "{told}");
    // What went into the pile is gone from the loads; what the batch holds is less than went in, dry.
    let stock = json(&desk, &["stock", "my.kerfbook"]);
    let left = |name: &str| {
        let rows = stock["batches"].as_array().unwrap();
        rows.iter().find(|row| row["batch"] == name).unwrap()["left"]["wet_kg"].as_f64().unwrap()
    };
    assert!((left("sawdust") - 100.0).abs() < 0.1 && (left("manure") - 100.0).abs() < 0.1);
    assert!(left("compost of spring") > 100.0 && left("compost of spring") < 1_150.0 - 60.0);
    let report = desk.run(&["report", "my.kerfbook", "--out", "report.html", "--on", "2026-09-02"]);
    assert_eq!(report.code, 0, "{}", report.err);
    let page = std::fs::read_to_string(desk.folder().join("report.html")).unwrap();
    assert!(page.contains("id=\"piles\"") && page.contains("counts from 55 °C"), "the pile against its rule");
    assert!(page.contains("figures of canada-static are reached"), "three days in core and edge");
    assert!(
        page.contains("Ready, by all tests together") && page.contains("It has cured for 102 days"),
        "readiness"
    );
    assert!(page.contains("Seedlings grown in it grew as well"), "a flowerpot");
    // More out than in, and degrees of the other scale, are refused with their line.
    let file = std::fs::read_to_string(entries("pile.toml")).unwrap();
    for (from, to, said) in [
        ("name = \"compost of spring\"", "name = \"compost of spring\"\nwet_kg = 5000", "dry mass"),
        ("temperature_c = 58", "temperature_c = 140", "Fahrenheit"),
        ("rule = \"canada-static\"", "rule = \"canada-statik\"", "canada-static"),
        ("temperature_c = 58", "temperature_c = 58\ntime = \"half past\"", "time of day"),
        (
            "zone = \"edge\"\ntemperature_f = 97",
            "zone = \"core\"\ndepth_cm = 45\ntemperature_f = 97",
            "core has a reading",
        ),
    ] {
        let spoilt = desk.folder().join("spoilt.toml");
        std::fs::write(&spoilt, file.replacen(from, to, 1)).unwrap();
        let done = desk.run(&["book", "enter", "other.kerfbook", text(&spoilt)]);
        assert_eq!(done.code, 2, "{to}");
        assert!(done.err.contains(said), "{}", done.err);
        assert!(!desk.folder().join("other.kerfbook").exists(), "{to}: nothing is written");
    }
}
