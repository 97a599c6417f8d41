//! How the key sentences and quantities read, in both languages and both systems of units.

#![allow(clippy::unwrap_used, reason = "a failure here is the test's")]

use std::fmt::Write as _;

use chrono::NaiveDate;
use kerfbook_science::units::{Area, AreaMass, Density, Length, Mass, Share, Temperature, Volume};
use kerfbook_words::{Container, Language, Per, Spread, Units, Words};

fn date(year: i32, month: u32, day: u32) -> NaiveDate {
    NaiveDate::from_ymd_opt(year, month, day).unwrap()
}

fn everyone() -> Vec<(String, Words)> {
    let mut all = Vec::new();
    for language in Language::ALL {
        for (name, units) in [("metric", Units::Metric), ("us", Units::Us)] {
            all.push((format!("{} {name}", language.code()), Words::new(language, units)));
        }
    }
    all
}

fn read(say: impl Fn(&Words) -> Vec<String>) -> String {
    let mut text = String::new();
    for (name, words) in everyone() {
        writeln!(text, "{name}").unwrap();
        for line in say(&words) {
            writeln!(text, "  {line}").unwrap();
        }
    }
    text
}

fn kg_ha(value: f64) -> AreaMass {
    AreaMass::from_kg_ha(value)
}

#[test]
fn the_answer() {
    insta::assert_snapshot!(read(|words| {
        let amount = words.say(
            "amount-layer",
            &[
                ("depth", words.depth(Length::from_cm(5.0))),
                ("containers", words.containers(Container::Barrow, 12.0)),
            ],
        );
        let instruction = [
            words.say("answer-do-amount", &[("do", words.label("do-on-top")), ("amount", amount)]),
            words.say("keep-off-stems", &[("gap", words.depth(Length::from_cm(15.0)))]),
            words.label("give-nothing"),
            words.say("look-leaves", &[("date", words.date(date(2027, 6, 3)))]),
            words.label("not-dig-in"),
        ]
        .join(" ");
        let cost = words.say(
            "answer-cost",
            &[
                ("cost", words.cost(Spread { p10: 2.0, p50: 8.0, p90: 20.0 }, Per::Area)),
                ("least_known", words.say("least-known", &[("what", words.label("least-known-wood"))])),
            ],
        );
        vec![instruction, cost]
    }));
}

#[test]
fn costs() {
    let spreads = [
        (2.0, 8.37, 20.4),
        (-20.0, -8.0, -2.0),
        (-5.0, 3.0, 12.0),
        (-12.0, -3.0, 5.0),
        (-5.0, 0.1, 5.0),
        (0.0, 0.1, 0.2),
        (101.0, 123.4, 187.0),
    ];
    insta::assert_snapshot!(read(|words| {
        let mut lines: Vec<String> =
            spreads.iter().map(|&(p10, p50, p90)| words.cost(Spread { p10, p50, p90 }, Per::Area)).collect();
        for per in [Per::Tree, Per::Litre] {
            lines.push(words.cost(Spread { p10: 3.0, p50: 12.0, p90: 30.0 }, per));
            lines.push(words.cost(Spread { p10: -30.0, p50: -12.0, p90: -3.0 }, per));
        }
        lines
    }));
}

#[test]
fn instructions() {
    insta::assert_snapshot!(read(|words| {
        let manure = words.mass_about(Mass::from_kg(312.0));
        let months = words.months(5.0);
        let nitrogen = |value| words.nitrogen(kg_ha(value));
        vec![
            words.say("do-composted-first", &[("manure", manure.clone()), ("months", months.clone())]),
            words.say("do-worked-in", &[("depth", words.depth(Length::from_cm(20.0)))]),
            words.say("do-over-urine", &[("urine", words.liquid(Volume::from_litres(12.0)))]),
            words.say("do-over-compost", &[("compost", words.mass(Mass::from_kg(30.0)))]),
            words.say("give-nothing-catching", &[("saved", nitrogen(23.0))]),
            words.say(
                "give-crop-and-wood",
                &[
                    ("amount", words.mass(Mass::from_kg(0.42))),
                    ("source", words.feed("blood meal")),
                    ("wood", nitrogen(28.0)),
                    ("crop", nitrogen(60.0)),
                ],
            ),
            words.say("not-dig-in-costs", &[("cost", nitrogen(37.0))]),
            words.say(
                "hungry-both",
                &[("date", words.date(date(2027, 6, 8))), ("bare", words.date(date(2027, 6, 20)))],
            ),
            words.say("wait-composted", &[("months", months), ("manure", manure), ("more", nitrogen(38.0))]),
            words.say("release-not-within", &[("within", words.not_within(1095, Share::from_percent(12.0)))]),
            words.say("release-by", &[("date", words.date_beside(date(2028, 2, 1), date(2027, 4, 15)))]),
            words.say("keep-off-trunks", &[("gap", words.depth(Length::from_cm(15.0)))]),
            words.say("least-known", &[("what", words.label("least-known-upward-flux"))]),
            words.label("compare-equal-nitrogen-not-first"),
        ]
    }));
}

#[test]
fn quantities() {
    insta::assert_snapshot!(read(|words| {
        vec![
            [0.0004, 0.5, 1.234, 15.5, 312.0, 1_999.0, 2_345.0, 91_000.0]
                .map(|kg| words.mass(Mass::from_kg(kg)))
                .join(" | "),
            [0.4, 8.37, 120.4, 1_234.0].map(|n| words.nitrogen(kg_ha(n))).join(" | "),
            [0.0124, 0.41, 41.0].map(|kg| words.nitrogen_mass(Mass::from_kg(kg))).join(" | "),
            words.nitrogen_range(kg_ha(8.0), kg_ha(20.0), kg_ha(2.0)),
            [0.5, 10.0, 12.34].map(|t| words.area_mass(AreaMass::from_t_ha(t))).join(" | "),
            words.bed_mass(AreaMass::from_kg_m2(1.0)),
            [3.0, 12.0, 50.0, 150.0, 300.0].map(|mm| words.depth(Length::from_mm(mm))).join(" | "),
            [5.0, 10.0, 20.0, 30.0, 50.0].map(|mm| words.fingers(Length::from_mm(mm))).join(" | "),
            words.water(Length::from_mm(13.0)),
            words.length(Length::from_m(12.34)),
            [8.4, 12.0, 1_234.0, 12_345.0].map(|m2| words.area(Area::from_m2(m2))).join(" | "),
            [0.05, 0.6, 3.25].map(|m3| words.volume(Volume::from_m3(m3))).join(" | "),
            [0.2, 12.0, 2_500.0].map(|litres| words.liquid(Volume::from_litres(litres))).join(" | "),
            words.density(Density::from_kg_m3(255.0)),
            words.temperature(Temperature::from_c(74.0)),
            [0.0, 0.2, 12.0, 100.0].map(|p| words.percent(Share::from_percent(p))).join(" | "),
            words.percent_exact(Share::from_percent(0.35)),
            words.not_within(1095, Share::from_percent(12.0)),
            words.not_within(1095, Share::from_percent(0.0)),
        ]
    }));
}

#[test]
fn containers() {
    insta::assert_snapshot!(read(|words| {
        [Container::Barrow, Container::Bucket, Container::Trailer]
            .map(|container| {
                [0.0, 0.1, 0.5, 1.0, 1.4, 2.5, 5.8, 12.3, 123.0, f64::NAN]
                    .map(|count| words.containers(container, count))
                    .join(" | ")
            })
            .to_vec()
    }));
}

#[test]
fn dates() {
    insta::assert_snapshot!(read(|words| {
        vec![
            words.date(date(2027, 6, 3)),
            words.date_with_year(date(2027, 6, 3)),
            words.date_beside(date(2028, 1, 3), date(2027, 6, 3)),
            words.date_range(date(2027, 4, 1), date(2027, 9, 30)),
            words.date_range(date(2027, 10, 1), date(2028, 3, 31)),
            words.month_and_year(date(2027, 6, 3)),
            (1..=12).map(|month| words.month_short(month)).collect::<Vec<_>>().join(" "),
        ]
    }));
}

#[test]
fn cautions() {
    insta::assert_snapshot!(read(|words| {
        ["treated-wood", "heap-fire", "heap-size", "wood-dust", "trunk-gap", "urine-storage", "dose-limit"]
            .iter()
            .map(|id| {
                let said = words.caution(kerfbook_science::caution::of_id(id).unwrap());
                format!("{}: {} ({})", said.severity, said.text, said.source)
            })
            .collect()
    }));
}

#[test]
fn names_and_lists() {
    insta::assert_snapshot!(read(|words| {
        let names: Vec<String> = ["sawdust, hardwood", "chips, pine", "bark, mixed", "a thing nobody named"]
            .iter()
            .map(|name| words.material(name))
            .collect();
        vec![
            words.list(&names),
            words.choice(&names[..2]),
            words.list(&[]),
            words.feed("finished compost"),
            words.crop("blueberry, young"),
            words.way("on-top-over-nitrogen"),
            words.kind("PutDown"),
            words.kind("SomethingLater"),
            words.entry(
                "PutDown",
                &[
                    ("amount", words.containers(Container::Barrow, 12.0)),
                    ("batch", words.material("sawdust, hardwood")),
                    ("place", "Bed 3".to_owned()),
                    ("manner", words.manner("on-top")),
                ],
            ),
        ]
    }));
}
