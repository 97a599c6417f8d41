//! A made-up holding's season, told in any language, to look at and to test the page with.

use chrono::NaiveDate;
use kerfbook_acts::told_map::{MapRow, ToldMap};
use kerfbook_picture::{
    BandChart, Lies, MapChart, MapLabels, MapPlace, Mark, MarkKind, Range, Reading, Sheet,
};
use kerfbook_science::units::{AreaMass, Length, Share};
use kerfbook_words::{Container, Per, Spread, Words};

use super::band_labels;
use super::view::*;
use kerfbook_acts::month_ticks::months;

fn day(year: i32, month: u32, day: u32) -> NaiveDate {
    NaiveDate::from_ymd_opt(year, month, day).unwrap_or_default()
}

fn range(p10: f64, p50: f64, p90: f64) -> Range {
    Range { p10, p50, p90 }
}

fn nitrogen(words: &Words, kg_ha: f64) -> String {
    words.nitrogen(AreaMass::from_kg_ha(kg_ha))
}

/// The whole report.
pub(super) fn view(words: &Words) -> ReportView {
    ReportView {
        holding: "Aspenside".into(),
        date: words.date_with_year(day(2027, 7, 4)),
        about: vec![words.label("report-figures-metric")],
        answer: Some(answer(words)),
        todo: Some(todo(words)),
        piles: Vec::new(),
        trials: Vec::new(),
        stock: stock(words),
        map: Some(map(words)),
        places: vec![place(words, "Bed 3", 1.0), place(words, "Bed 4", 0.4)],
        ways: Some(ways(words)),
        assumed: assumed(),
        cautions: cautions(words),
        records: vec![
            record(words, "Bed 3"),
            RecordView { place: "Bed 4".into(), year: 2027, ..RecordView::default() },
        ],
        book: book(words),
        sources: vec![
            SourceView {
                text: "Allen, Pereira, Raes, Smith (1998) Crop evapotranspiration. FAO 56.".into(),
                used: words.label("standing-published"),
            },
            SourceView { text: words.label("standing-common-practice"), used: String::new() },
        ],
    }
}

/// Two places as they lie, and one of which only the shape is known.
fn map(words: &Words) -> ToldMap {
    let bed = |number: &str, west: f64, lies| MapPlace {
        number: number.into(),
        outline: vec![[west, 0.0], [west + 1.2, 0.0], [west + 1.2, 8.0], [west, 8.0]],
        further: Vec::new(),
        rings: Vec::new(),
        lies,
    };
    let row =
        |number: &str, place: &str, lies: String| MapRow { number: number.into(), place: place.into(), lies };
    ToldMap {
        chart: MapChart {
            title: words.label("map-title"),
            description: words.label("map-about"),
            sheets: vec![
                Sheet { places: vec![bed("1", 0.0, Lies::OnTop), bed("2", 2.0, Lies::Nothing)] },
                Sheet { places: vec![bed("3", 0.0, Lies::WorkedIn)] },
            ],
            unit_m: 1.0,
            labels: MapLabels {
                north: words.label("map-north"),
                lies: vec![
                    (Lies::Nothing, words.label("map-nothing")),
                    (Lies::WorkedIn, words.way("worked-in")),
                    (Lies::OnTop, words.way("on-top")),
                ],
            },
        },
        rows: vec![
            row("1", "Bed 3", words.way("on-top")),
            row("2", "Bed 4", words.label("map-nothing")),
            row("3", "Bed 5", words.way("worked-in")),
        ],
        said: vec![words.label("map-some-apart"), words.say("map-not-drawn", &[("places", "Bed 9".into())])],
    }
}

fn todo(words: &Words) -> Vec<TodoRow> {
    let hungry = [("date", words.date(day(2027, 7, 20)))];
    vec![TodoRow {
        place: "Bed 3".into(),
        due: words.date(day(2027, 7, 6)),
        what: words.label("todo-look"),
        why: words.say("reason-forecast-hungry", &hungry),
        who: "Ana".into(),
    }]
}

fn stock(words: &Words) -> Vec<StockRow> {
    vec![StockRow {
        batch: "Sawdust 4".into(),
        material: words.material("hardwood sawdust"),
        came: words.containers(Container::Barrow, 20.0),
        went: words.containers(Container::Barrow, 21.0),
        left: words.say(
            "stock-short",
            &[("mass", "20 kg".into()), ("containers", words.containers(Container::Barrow, 1.0))],
        ),
        notes: words.label("stock-overdrawn"),
    }]
}

fn answer(words: &Words) -> AnswerView {
    let instruct = words.say(
        "amount-layer",
        &[
            ("depth", words.depth(Length::from_cm(5.0))),
            ("containers", words.containers(Container::Barrow, 12.0)),
        ],
    );
    let hungry = [("date", words.date(day(2027, 6, 8))), ("bare", words.date(day(2027, 6, 20)))];
    let wait = [
        ("months", words.months(9.0)),
        ("manure", words.mass(kerfbook_science::units::Mass::from_kg(340.0))),
    ];
    let more = [("more", nitrogen(words, 25.0))];
    AnswerView {
        asked: format!("Bed 3: {}, {}", words.material("sawdust, hardwood"), words.crop("cabbage")),
        instruct: words.say("answer-do-amount", &[("do", words.label("do-on-top")), ("amount", instruct)]),
        keep_off: Some(words.say("keep-off-stems", &[("gap", words.depth(Length::from_cm(15.0)))])),
        give: words.label("give-nothing"),
        look: words.say("look-leaves", &[("date", words.date(day(2027, 6, 3)))]),
        not: words.say("not-dig-in-costs", &[("cost", nitrogen(words, 39.0))]),
        cost: words.cost(Spread { p10: 2.0, p50: 8.0, p90: 20.0 }, Per::Area),
        least_known: words.say("least-known", &[("what", words.label("least-known-wood"))]),
        narrow: Some(words.label("narrow-wood")),
        wait: Some(words.say("wait-composted", &[wait.as_slice(), more.as_slice()].concat())),
        more: vec![
            words.say("hungry-both", &hungry),
            words.say(
                "release-not-within",
                &[("within", words.not_within(1_095, Share::from_fraction(0.12)))],
            ),
        ],
        hangs_on: Some(words.say("assumption-decides", &[("what", words.label("least-known-upward-flux"))])),
    }
}

/// A rise and a slow fall.
fn rise(day: f64, high: f64) -> f64 {
    high * day / (day + 20.0) * (1.0 - 0.7 * day / 365.0)
}

fn place(words: &Words, name: &str, share: f64) -> PlaceView {
    let first = day(2027, 4, 20);
    let days = || (0..=365).step_by(5).map(f64::from);
    let date = |month, of| words.date(day(2027, month, of));
    let chart = |title: &str, high: f64, bare: Vec<(f64, f64)>| BandChart {
        title: words.say(title, &[("place", name.to_owned())]),
        description: words.say(
            "picture-band-about",
            &[("first", words.date_with_year(first)), ("last", words.date_with_year(day(2028, 4, 19)))],
        ),
        unit: words.nitrogen_unit_name(),
        labels: band_labels(words),
        days: 365.0,
        band: days()
            .map(|day| (day, range(0.6 * rise(day, high), rise(day, high), 1.4 * rise(day, high))))
            .collect(),
        bare,
        months: months(first, 365, words),
        marks: vec![
            Mark { day: 0.0, kind: MarkKind::PutDown, label: words.label("picture-put-down") },
            Mark {
                day: 12.0,
                kind: MarkKind::Feed,
                label: words.say(
                    "picture-feed",
                    &[("amount", nitrogen(words, 40.0)), ("source", words.feed("human urine"))],
                ),
            },
            Mark {
                day: 44.0,
                kind: MarkKind::Look,
                label: words.say("picture-look", &[("date", date(6, 3))]),
            },
            Mark {
                day: 49.0,
                kind: MarkKind::Hungry,
                label: words.say("picture-hungry", &[("date", date(6, 8))]),
            },
            Mark {
                day: 61.0,
                kind: MarkKind::HungryBare,
                label: words.say("picture-hungry-bare", &[("date", date(6, 20))]),
            },
        ],
        readings: Vec::new(),
    };
    let mut mineral =
        chart("picture-mineral-title", 70.0 * share, days().map(|day| (day, 45.0 - day / 12.0)).collect());
    mineral.readings.push(Reading {
        day: 70.0,
        value: 30.0 * share,
        ends: Some((24.0 * share, 37.0 * share)),
        label: words.label("picture-legend-reading"),
    });
    PlaceView {
        name: name.into(),
        facts: vec![
            words.area(kerfbook_science::units::Area::from_m2(12.0)),
            words.crop("cabbage"),
            words.material("sawdust, hardwood"),
        ],
        bands: vec![chart("picture-tied-title", 60.0 * share, Vec::new()), mineral],
        said: vec![words.label("photo-sets-no-dose")],
        over_years: None,
    }
}

fn way(words: &Words, name: &str, crop: Range, hungry: Option<NaiveDate>) -> WayRow {
    WayRow {
        way: words.way(name),
        crop_nitrogen: Some(crop),
        lost: Some(range(64.0 - crop.p90, 64.0 - crop.p50, 64.0 - crop.p10)),
        tied: Some(range(14.0, 22.0, 35.0)),
        hungry: hungry.map_or_else(|| words.label("compare-never"), |date| words.date(date)),
        chance: words.percent(Share::from_fraction(0.62)),
        release: words.date_with_year(day(2028, 9, 14)),
        feed_crop: nitrogen(words, 46.0),
        feed_wood: nitrogen(words, 17.0),
        leached: nitrogen(words, 12.0),
        ..WayRow::default()
    }
}

fn ways(words: &Words) -> WaysView {
    let hungry = |of| Some(day(2027, 6, of));
    let season = vec![
        WayRow {
            bare: true,
            tied: None,
            release: String::new(),
            feed_wood: String::new(),
            ..way(words, "bare", range(51.0, 64.0, 78.0), hungry(20))
        },
        WayRow {
            brings: nitrogen(words, 180.0),
            hindered: words.label("compare-not-doable"),
            ..way(words, "composted-first", range(70.0, 89.0, 104.0), None)
        },
        WayRow { brings: nitrogen(words, 60.0), ..way(words, "over-urine", range(55.0, 73.0, 90.0), None) },
        WayRow {
            brings: nitrogen(words, 110.0),
            ..way(words, "over-compost", range(37.0, 51.0, 66.0), hungry(9))
        },
        WayRow { chosen: true, ..way(words, "on-top", range(33.0, 47.0, 61.0), hungry(8)) },
        way(words, "worked-in", range(2.0, 8.0, 20.0), hungry(1)),
        WayRow {
            crop_nitrogen: None,
            lost: None,
            hungry: String::new(),
            chance: String::new(),
            feed_crop: String::new(),
            feed_wood: String::new(),
            ..way(words, "path", Range::default(), None)
        },
    ];
    let equal = EqualView {
        nitrogen: nitrogen(words, 120.0),
        rows: [("on-top", 88.0), ("over-urine", 84.0), ("worked-in", 71.0), ("composted-first", 52.0)]
            .map(|(name, middle)| (words.way(name), range(middle - 12.0, middle, middle + 11.0)))
            .to_vec(),
        composted_leads: false,
    };
    WaysView {
        unit: words.nitrogen_unit_name(),
        both: season.clone(),
        season,
        equal: Some(equal),
        said: vec![words.say("compare-nitrogen-explains", &[("brought", nitrogen(words, 180.0))])],
    }
}

fn assumed() -> Vec<AssumedView> {
    [("soil.depth_cm", "20", ""), ("soil.clay_pct", "20", ""), ("heap.months", "9", "composted-first")]
        .map(|(key, value, of)| AssumedView {
            key: key.into(),
            value: value.into(),
            of: of.into(),
            source: "FAO, 1998".into(),
        })
        .to_vec()
}

fn cautions(words: &Words) -> Vec<CautionView> {
    use kerfbook_science::caution::{Severity, of_id};
    ["frost", "treated-wood", "trunk-gap", "raw-manure-interval", "aspergillus-spores"]
        .into_iter()
        .filter_map(of_id)
        .map(|caution| {
            let told = words.caution(caution);
            CautionView {
                gravity: match caution.severity {
                    Severity::Refuse => Gravity::Refuse,
                    Severity::Warn => Gravity::Warn,
                    Severity::Note => Gravity::Note,
                },
                severity: told.severity,
                text: told.text,
                source: told.source,
            }
        })
        .collect()
}

fn record(words: &Words, place: &str) -> RecordView {
    let date = |month, of| words.date(day(2027, month, of));
    RecordView {
        place: place.into(),
        year: 2027,
        facts: vec![words.area(kerfbook_science::units::Area::from_m2(12.0))],
        put_down: vec![PutDownRow {
            date: date(4, 20),
            what: words.material("sawdust, hardwood"),
            way: words.way("on-top"),
            amount: words.containers(Container::Barrow, 12.0),
            by: "Ilse".into(),
            entry: "1-7".into(),
        }],
        feeds: vec![FeedRow {
            date: date(5, 2),
            source: words.feed("human urine"),
            amount: words.liquid(kerfbook_science::units::Volume::from_litres(9.0)),
            nitrogen: nitrogen(words, 40.0),
            split: format!("{} + {}", nitrogen(words, 23.0), nitrogen(words, 17.0)),
            by: "Ilse".into(),
            entry: "1-9".into(),
        }],
        crops: vec![CropRow {
            crop: words.crop("cabbage"),
            started: date(5, 1),
            ended: date(9, 12),
            fate: String::new(),
            entry: "1-8".into(),
        }],
        waits: vec![
            WaitRow {
                what: words.feed("human urine"),
                rule: words.days(30.0),
                open: date(6, 1),
                had: words.days(133.0),
                kept: Some(true),
            },
            WaitRow {
                what: words.feed("cattle manure"),
                rule: words.days(120.0),
                open: date(9, 30),
                had: words.days(102.0),
                kept: Some(false),
            },
        ],
        others: vec![OtherRow {
            date: words.date_with_year(day(2027, 5, 20)),
            what: words.say("entry-water-given", &[("place", place.into()), ("amount", "20 mm".into())]),
            by: "Ana".into(),
            entry: "1-18".into(),
        }],
        notes: vec![words.label("narrow-amount")],
    }
}

fn book(words: &Words) -> BookView {
    let kinds = [
        "HoldingOpened",
        "DeviceEnrolled",
        "PlaceOutlined",
        "LoadTakenIn",
        "PutDown",
        "FeedGiven",
        "EntryCorrected",
    ];
    BookView {
        sound: true,
        state: words.label("report-chain"),
        findings: Vec::new(),
        heads: vec![HeadRow {
            device: "1".into(),
            last: "7".into(),
            hash: "b5bb9d8014a0f9b1d61e21e796d78dccdf1352f23cd32812f4850b878ae4944c".into(),
        }],
        entries: kinds
            .iter()
            .enumerate()
            .map(|(index, kind)| EntryRow {
                entry: format!("1-{}", index + 1),
                date: words.date_with_year(day(2027, 4, 20)),
                kind: words.kind(kind),
                text: words.material("sawdust, hardwood"),
                by: "Ilse".into(),
                flags: if index == 4 { vec![words.kind("EntryCorrected")] } else { Vec::new() },
            })
            .collect(),
    }
}
