//! A trial in a book: laid out by `plan`, scored by `book enter`, told by `trial` once it is closed.
#![allow(missing_docs, clippy::unwrap_used, reason = "a test may stop where it stands")]

mod desk;

use std::fmt::Write as _;
use std::fs;

use desk::{Desk, Done};
use serde_json::Value;

const PLAN: &str = r#"
[trial]
name = "Chips on beans"
design = "rcbd"
seed = 20260501
blocks = 4
check = "bare"
pairs = ["chips on top:chips dug in"]
contrasts = ["bare=-2, chips on top=1, chips dug in=1"]
margin_points = 3
refused = ["a drain runs through block 2"]

[plot]
width_m = 2
length_m = 4

[[treatment]]
name = "bare"
nitrogen_kg_ha = 60

[[treatment]]
name = "chips on top"
residue = "hardwood chips"
nitrogen_kg_ha = 60

[[treatment]]
name = "chips dug in"
residue = "hardwood chips"
nitrogen_kg_ha = 60
"#;

const PLOTS: [u32; 12] = [101, 102, 103, 201, 202, 203, 301, 302, 303, 401, 402, 403];

fn json(done: &Done) -> Value {
    serde_json::from_str(&done.out).unwrap_or_else(|_| panic!("{}{}", done.out, done.err))
}

fn put(desk: &Desk, name: &str, text: &str) {
    fs::write(desk.folder().join(name), text).unwrap();
}

fn enter(desk: &Desk, text: &str) -> Done {
    put(desk, "entries.toml", text);
    desk.run(&["book", "enter", "my.kerfbook", "entries.toml"])
}

/// A book with the trial laid out, and what each plot got as the plan tells it.
fn laid_out() -> (Desk, Vec<(u32, String)>) {
    let desk = Desk::new();
    put(&desk, "trial.toml", PLAN);
    let begun = enter(
        &desk,
        "[holding]\nname = \"Hill holding\"\nopened = 2026-05-01\n[[place]]\nname = \"Field\"\nkind = \"plot\"\narea_m2 = 200\n[[person]]\ndate = 2026-05-01\nname = \"Ana\"\n",
    );
    assert_eq!(begun.code, 0, "{}", begun.err);
    let planned = desk.run(&[
        "plan",
        "trial.toml",
        "--book",
        "my.kerfbook",
        "--place",
        "Field",
        "--on",
        "2026-05-01",
        "--json",
    ]);
    assert_eq!(planned.code, 0, "{}{}", planned.out, planned.err);
    let document = json(&planned);
    assert!(document["entry"].is_string());
    let plots = document["layout"].as_array().unwrap().iter();
    let given = plots.map(|plot| {
        let number = u32::try_from(plot["plot"].as_u64().unwrap()).unwrap();
        (number, plot["treatment"].as_str().unwrap().to_owned())
    });
    let given = given.collect();
    (desk, given)
}

/// One walk; chips dug in are yellower by 20 points.
fn walk(date: &str, given: &[(u32, String)]) -> String {
    let yellow = |plot: u32, treatment: &str| {
        plot % 3 + (plot / 100) + if treatment == "chips dug in" { 20 } else { 4 }
    };
    let plots: Vec<String> = given.iter().map(|(plot, _)| plot.to_string()).collect();
    let scores: Vec<String> = given.iter().map(|(plot, own)| yellow(*plot, own).to_string()).collect();
    format!(
        "[[scored]]\ndate = {date}\ntrial = \"Chips on beans\"\nrater = \"Ana\"\nplots = [{}]\nyellow_pct = [{}]\n",
        plots.join(", "),
        scores.join(", ")
    )
}

#[test]
fn a_trial_goes_from_the_plan_into_the_book_and_back_to_a_result() {
    let (desk, given) = laid_out();
    let mut numbers: Vec<u32> = given.iter().map(|(plot, _)| *plot).collect();
    numbers.sort_unstable();
    assert_eq!(numbers, PLOTS);
    let mut season: String =
        ["2026-06-01", "2026-06-15", "2026-07-01"].iter().map(|date| walk(date, &given)).collect();
    for plot in PLOTS {
        write!(season, "[[plot_measured]]\ndate = 2026-08-01\ntrial = \"Chips on beans\"\nplot = {plot}\nyield_kg = 4.{}\nstand = 18\n", plot % 7).unwrap();
    }
    season.push_str("[[scored]]\ndate = 2026-06-15\ntrial = \"Chips on beans\"\nplots = [101]\nyellow_pct = [9]\nagain = true\n");
    let entered = enter(&desk, &season);
    assert_eq!(entered.code, 0, "{}", entered.err);
    // Nothing that the book tells says what a plot got.
    let told = desk.run(&["book", "entries", "my.kerfbook"]);
    assert!(told.out.contains("Laid out the trial Chips on beans: 12 plots"), "{}", told.out);
    assert!(!told.out.contains("chips dug in") && !told.out.contains("20260501"), "{}", told.out);
    let early = desk.run(&["trial", "my.kerfbook"]);
    assert_eq!(early.code, 0, "{}", early.err);
    insta::assert_snapshot!("progress", early.out);
    assert!(!early.out.contains("chips"), "{}", early.out);
    let early = json(&desk.run(&["trial", "my.kerfbook", "--json"]));
    assert_eq!((&early["open"], &early["measured"]), (&Value::Bool(true), &Value::from(12)));
    assert_eq!(early["visits"].as_array().unwrap().len(), 3);
    assert!(!early.to_string().contains("chips"), "{early}");
    let page = desk.run(&["trial", "my.kerfbook", "--page", "early.html"]);
    assert_eq!(page.code, 2);
    assert!(page.err.contains("still open") && page.err.contains("Close it"), "{}", page.err);
    assert!(!desk.folder().join("early.html").exists());
    let end = "[[plot_lost]]\ndate = 2026-07-02\ntrial = \"Chips on beans\"\nplot = 403\nreason = \"a mole\"\n[[trial_closed]]\ndate = 2026-09-01\ntrial = \"Chips on beans\"\n";
    let closed = enter(&desk, end);
    assert_eq!(closed.code, 0, "{}", closed.err);
    let result = desk.run(&["trial", "my.kerfbook", "--page", "result.html"]);
    assert_eq!(result.code, 0, "{}", result.err);
    insta::assert_snapshot!("result", result.out);
    let spanish = desk.run(&["trial", "my.kerfbook", "--language", "es"]);
    insta::assert_snapshot!("result_in_spanish", spanish.out);
    assert!(fs::read_to_string(desk.folder().join("result.html")).unwrap().contains("<svg"));
    let document = json(&desk.run(&["trial", "my.kerfbook", "--json"]));
    assert_eq!(document["plots"]["lost"], 1);
    assert_eq!(document["anova"][1]["source"], "treatment");
    assert!(document["contrasts"][0]["estimate"].as_f64().unwrap() > 10.0);
    let yields = json(&desk.run(&["trial", "my.kerfbook", "--response", "yield", "--json"]));
    assert!(yields["grand_mean"].as_f64().unwrap() > 4.0);
    let verified = json(&desk.run(&["book", "verify", "my.kerfbook", "--json"]));
    assert_eq!(verified["verified"], true);
}

#[test]
fn what_is_wrong_with_a_trial_of_a_book_is_told_and_nothing_is_written() {
    let (desk, given) = laid_out();
    let before = desk.run(&["book", "verify", "my.kerfbook"]).out;
    let mut said = String::new();
    for (what, text) in [
        ("more than all", "plots = [101]\nyellow_pct = [101]"),
        ("no such plot", "plots = [999]\nyellow_pct = [5]"),
        ("text", "plots = [101]\nyellow_pct = [\"pale\"]"),
        ("unlike", "plots = [101, 102]\nyellow_pct = [5]"),
        ("twice", "plots = [101, 101]\nyellow_pct = [5, 6]"),
        ("leaves", "plots = [101]\nyellow_pct = [5]\nleaves = \"brown\""),
        ("nobody", "plots = [101]\nyellow_pct = [5]\nrater = \"Bea\""),
        ("again", "plots = [101]\nyellow_pct = [5]\nagain = true"),
        ("before", "plots = [101]\nyellow_pct = [5]\ndate = 2026-04-30"),
    ] {
        let date = if text.contains("date") { "" } else { "date = 2026-06-01\n" };
        let done = enter(&desk, &format!("[[scored]]\n{date}trial = \"Chips on beans\"\n{text}\n"));
        assert_eq!(done.code, 2, "{what}");
        writeln!(said, "# {what}\n{}", done.err).unwrap();
    }
    let unknown = enter(
        &desk,
        "[[scored]]\ndate = 2026-06-01\ntrial = \"Chips on bean\"\nplots = [101]\nyellow_pct = [5]\n",
    );
    writeln!(said, "# unknown\n{}", unknown.err).unwrap();
    let again = desk.run(&["plan", "trial.toml", "--book", "my.kerfbook"]);
    writeln!(said, "# planned again\n{}", again.err).unwrap();
    put(
        &desk,
        "bad.toml",
        &PLAN.replace("chips on top:chips dug in", "chips on top:straw").replace("bare=-2", "bare=-1"),
    );
    let bad = desk.run(&["plan", "bad.toml"]);
    assert_eq!(bad.code, 2);
    writeln!(said, "# bad comparisons\n{}", bad.err).unwrap();
    let option = desk.run(&["trial", "my.kerfbook", "--design", "rcbd"]);
    writeln!(said, "# option\n{}", option.err).unwrap();
    let table = desk.run(&["trial", "bad.toml", "--response", "yield"]);
    writeln!(said, "# no design\n{}", table.err).unwrap();
    insta::assert_snapshot!("bad_trials_in_a_book", said);
    assert_eq!(desk.run(&["book", "verify", "my.kerfbook"]).out, before);
    // After closing the book takes no more scores.
    let end = "[[trial_closed]]\ndate = 2026-09-01\ntrial = \"Chips on beans\"\n";
    assert_eq!(enter(&desk, end).code, 0);
    let late = enter(&desk, &walk("2026-09-02", &given));
    assert_eq!(late.code, 2);
    assert!(late.err.contains("closed already"), "{}", late.err);
}

/// The score sheet that `plan` wrote, with the cells that come after the number of each plot.
fn sheet(desk: &Desk, filled: impl Fn(u32) -> String) -> String {
    let planned = desk.run(&["plan", "trial.toml", "--out", "paper"]);
    assert_eq!(planned.code, 0, "{}{}", planned.out, planned.err);
    let blank = fs::read_to_string(desk.folder().join("paper/scores.csv")).unwrap();
    let mut lines = blank.lines();
    let heading = lines.next().unwrap().to_owned();
    assert_eq!(heading, "trial,walk,plot,day,rater,leaf_layer,yellow_pct");
    let rows = lines.map(|line| {
        let cells: Vec<&str> = line.split(',').collect();
        format!("{},{},{}", cells[..2].join(","), cells[2], filled(cells[2].parse().unwrap()))
    });
    std::iter::once(heading).chain(rows).collect::<Vec<_>>().join("\r\n") + "\r\n"
}

fn scores(desk: &Desk, text: &str, options: &[&str]) -> Done {
    put(desk, "scores.csv", text);
    desk.run(&[&["book", "scores", "my.kerfbook", "scores.csv"], options].concat())
}

fn entries(desk: &Desk) -> usize {
    json(&desk.run(&["book", "entries", "my.kerfbook", "--json"]))["entries"].as_array().unwrap().len()
}

#[test]
fn plots_may_be_places_with_their_ground() {
    let (desk, _) = laid_out();
    let before = entries(&desk);
    let plan = |text: &str| {
        put(&desk, "again.toml", text);
        desk.run(&["plan", "again.toml", "--book", "my.kerfbook", "--plots", "--on", "2026-05-01", "--json"])
    };
    let named = PLAN.replace("Chips on beans", "Chips on peas");
    let bare = plan(&named.replace("[plot]\nwidth_m = 2\nlength_m = 4\n", ""));
    assert!(bare.code == 2 && bare.out.contains("width_m"), "{}{}", bare.out, bare.err);
    assert_eq!(entries(&desk), before, "neither the trial nor a place");
    let planned = plan(&named);
    assert_eq!(planned.code, 0, "{}{}", planned.out, planned.err);
    assert_eq!(entries(&desk), before + 13);
    let exported = desk.run(&["book", "export", "my.kerfbook", "places.geojson"]);
    assert_eq!(exported.code, 0, "{}{}", exported.out, exported.err);
    let text = fs::read_to_string(desk.folder().join("places.geojson")).unwrap();
    assert_eq!(text.matches("Chips on peas ").count(), 12, "{text}");
}

#[test]
fn a_filled_score_sheet_comes_into_the_book_as_it_was_filled() {
    let (desk, _) = laid_out();
    let before = entries(&desk);
    let filled = sheet(&desk, |plot| {
        if plot == 203 { ",,old,".to_owned() } else { format!("2026-06-01,Ana,old,{}", plot % 7) }
    });
    let tried = scores(&desk, &filled, &["--try"]);
    assert_eq!((tried.code, entries(&desk)), (0, before), "{}{}", tried.out, tried.err);
    let taken = scores(&desk, &filled, &[]);
    assert_eq!(taken.code, 0, "{}", taken.err);
    assert_eq!(entries(&desk), before + 11, "the plot that was not read is left out");
    // A spreadsheet of another country, with more columns, and a plot that was lost.
    let text = "\u{feff}plot;day;yellow_pct;yield_kg;stand;lost\r\n101;2026-07-01;12,5;4,25;18;\r\n102;2026-07-01;;;;a mole\r\n";
    let taken = scores(&desk, text, &["--by", "Ana"]);
    assert_eq!(taken.code, 0, "{}", taken.err);
    assert_eq!(entries(&desk), before + 14);
    assert!(
        taken.out.contains("13 %") && taken.out.contains("yield 4.3 kg") && taken.out.contains("a mole"),
        "{}",
        taken.out
    );
    // The same sheet a second time is a second score of the same person on the same day.
    let again = scores(&desk, &filled, &[]);
    assert_eq!((again.code, entries(&desk)), (2, before + 14), "{}{}", again.out, again.err);
    // Where it was scored a second time on purpose, the sheet says so.
    let text = "plot,day,rater,yellow_pct,again\n101,2026-06-01,Ana,7,yes\n102,2026-06-01,Ana,3,Yes\n";
    let again = scores(&desk, text, &[]);
    assert_eq!((again.code, entries(&desk)), (0, before + 16), "{}{}", again.out, again.err);
}

#[test]
fn whatever_is_wrong_in_a_score_sheet_is_told_with_its_line_and_nothing_goes_in() {
    let (desk, _) = laid_out();
    let before = entries(&desk);
    let refused = |text: &str, expected: &[&str]| {
        let done = scores(&desk, text, &[]);
        assert_eq!(done.code, 2, "{text}: {}{}", done.out, done.err);
        for part in expected {
            assert!(done.err.contains(part), "{text} does not say {part}: {}", done.err);
        }
        assert_eq!(entries(&desk), before, "{text}");
    };
    let row = |cells: &str| {
        format!(
            "trial,plot,day,rater,leaf_layer,yellow_pct\nChips on beans,101,2026-06-01,Ana,old,4\n{cells}\n"
        )
    };
    refused(&row("Chips on beans,102,2026-06-01,Ana,old,much"), &[":3:", "yellow_pct", "much", "number"]);
    refused(&row("Chips on beans,102,2026-06-01,Ana,old,140"), &[":3:", "140", "0 to 100"]);
    refused(&row("Chips on beans,102,2026-06-01,Ana,old,-4"), &[":3:", "-4"]);
    refused(&row("Chips on beans,999,2026-06-01,Ana,old,4"), &[":3:", "999", "101"]);
    refused(&row("Chips on beans,10.5,2026-06-01,Ana,old,4"), &[":3:", "10.5"]);
    refused(&row("Chips on beans,101,2026-06-01,Ana,old,6"), &[":3:", "101"]);
    refused(&row("Chips on beans,102,1/6/2026,Ana,old,4"), &[":3:", "1/6/2026", "2026-05-20"]);
    refused(&row("Chips on beans,102,,Ana,old,4"), &[":3:", "day"]);
    refused(&row("Chips on beans,102,2026-04-01,Ana,old,4"), &[":3:"]);
    refused(&row("Chips on beans,102,2026-06-01,Anna,old,4"), &[":3:", "Anna", "Ana"]);
    refused(&row("Chips on beans,102,2026-06-01,Ana,lowest,4"), &[":3:", "lowest", "middle"]);
    refused(&row("Chips on peas,102,2026-06-01,Ana,old,4"), &[":3:", "Chips on peas", "Chips on beans"]);
    refused("plot,day,yellow_pct,again\n101,2026-06-01,4,perhaps\n", &[":2:", "perhaps", "yes"]);
    refused("plot,day,yellow_pct\n101,2026-06-01,\n", &["nothing was read"]);
    refused("plot,day,yelow_pct\n101,2026-06-01,4\n", &["yelow_pct", "yellow_pct"]);
    refused("plot,day\n101,2026-06-01\n", &["yellow_pct"]);
    refused("day,yellow_pct\n2026-06-01,4\n", &["plot"]);
    refused("plot,day,yellow_pct\n", &["line"]);
    // Every wrong line at once.
    refused(
        &row("Chips on beans,102,2026-06-01,Ana,old,x\nChips on beans,103,2026-06-01,Ana,old,y"),
        &[":3:", ":4:"],
    );
    let closed = enter(
        &desk,
        "[[plot_lost]]\ndate = 2026-05-20\ntrial = \"Chips on beans\"\nplot = 301\nreason = \"flooded\"\n",
    );
    assert_eq!(closed.code, 0, "{}", closed.err);
    let lost = scores(&desk, &row("Chips on beans,301,2026-06-01,Ana,old,4"), &[]);
    assert!(lost.code == 2 && lost.err.contains("301"), "{}", lost.err);
    assert_eq!(entries(&desk), before + 1);
}
