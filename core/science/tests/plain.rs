//! What plain answers stand for is written down, figure by figure.

#![allow(clippy::unwrap_used, reason = "a test stops where it fails")]

use std::fmt::Write as _;

use kerfbook_science::plain::{
    Age, Appetite, Colour, DugInWith, Handful, LaidBy, LastCropFed, Likely, Pieces, Rain, Rolled, Summers,
    Winters, Wood,
};
use kerfbook_science::source::Standing;

fn line(table: &mut String, key: &str, answer: &str, figure: &Likely) {
    let standing = match figure.source.standing {
        Standing::CommonPractice => "common practice, no source",
        Standing::Assumption => "assumption",
        other => panic!("{other:?} needs its source in the table"),
    };
    let Likely { low, typical, high, .. } = figure;
    writeln!(table, "| `{key}` | {answer} | {low} | {typical} | {high} | {standing} |").unwrap();
}

fn table() -> String {
    let mut table = String::new();
    macro_rules! each {
        ($key:literal, $question:ident, $figure:ident) => {
            for answer in $question::ALL {
                line(&mut table, $key, answer.name(), &answer.$figure());
            }
        };
    }
    each!("rolled", Rolled, clay_pct);
    each!("rolled, sand", Rolled, sand_pct);
    each!("colour", Colour, organic_matter_pct);
    each!("last_crop_fed", LastCropFed, mineral_nitrogen_kg_ha);
    each!("handful", Handful, moisture_pct);
    each!("age", Age, left);
    each!("fingers, hands", LaidBy, width_mm);
    each!("with", DugInWith, depth_cm);
    each!("winters", Winters, coldest_month_c);
    each!("summers", Summers, warmest_month_c);
    each!("rain", Rain, month_mm);
    each!("appetite", Appetite, need_kg_ha);
    table
}

#[test]
fn every_figure_stands_in_the_document() {
    let document = include_str!("../../../docs/plain-answers.md");
    let table = table();
    for line in table.lines() {
        assert!(document.contains(line), "docs/plain-answers.md lacks a line; it should have\n{table}");
    }
    assert_eq!(
        document.matches("| common practice, no source |").count()
            + document.matches("| assumption |").count(),
        table.lines().count()
    );
}

#[test]
fn every_wood_in_every_size_is_in_the_table_of_materials() {
    use kerfbook_science::material::{Found, find};
    for wood in Wood::ALL {
        for pieces in Pieces::ALL {
            let name = wood.material(*pieces);
            let Found::Material(material) = find(name) else { panic!("{name}") };
            assert_eq!(material.name, name);
            if let Some(particle) = pieces.particle() {
                assert_eq!(material.particle, particle.value, "{name}");
            }
            let classes: usize = material.composition.iter().map(|part| part.one_of.len()).sum();
            match wood {
                Wood::Hardwood => assert_eq!(classes, 1),
                Wood::Softwood | Wood::Mixed | Wood::Unknown => assert!(classes > 1, "{name}"),
            }
        }
    }
}
