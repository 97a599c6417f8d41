//! The demo's report, filled from the book and the comparison.

#![allow(clippy::cast_precision_loss, reason = "grams, millilitres, days and areas are far below 2^53")]

use chrono::Datelike;
use kerfbook_acts::compare::{self, Comparison, RUNS, SEASON_DAYS, Three, WayResult};
use kerfbook_acts::error::ActError;
use kerfbook_acts::forecast::{self, Day, Forecast};
use kerfbook_acts::place_scenario::scenario_of;
use kerfbook_acts::scenario::Scenario;
use kerfbook_acts::told;
use kerfbook_acts::way::{self, Row};
use kerfbook_ledger::kind::Placed;
use kerfbook_ledger::{Book, EntryId};
use kerfbook_picture::{BandChart, Mark, MarkKind, Range};
use kerfbook_science::caution::{self, Severity};
use kerfbook_science::crop::{self, Edible};
use kerfbook_science::lookup::Match;
use kerfbook_science::nitrogen::parameter::{BatchParameter, GLOBALS, Kind};
use kerfbook_science::source::Source;
use kerfbook_science::units::{Area, AreaMass, Length, Mass, Share, Volume};
use kerfbook_science::{feed, soil, weather};
use kerfbook_words::Words;

use super::season::{self, Played};
use crate::book::told::Teller;
use crate::compare::{
    assumed_document, assumed_value, composted_leads, equal_best_first, equal_name, row_name,
};
use crate::report::{
    self, AnswerView, AssumedView, BookView, CautionView, CropRow, EntryRow, EqualView, FeedRow, Gravity,
    HeadRow, PlaceView, PutDownRow, RecordView, ReportView, SourceView, WaitRow, WayRow, WaysView,
};

/// Days between the points of a band.
const STEP: usize = 3;

/// Everything the report shows.
pub(super) fn view(
    book: &Book,
    played: &Played,
    comparison: &Comparison,
    scenario: &Scenario,
    seed: u64,
    words: &Words,
) -> Result<ReportView, ActError> {
    let teller = Teller::new(book, words)?;
    let around = season::surroundings();
    let mut places = Vec::new();
    let mut records = Vec::new();
    for id in &played.places {
        let here = scenario_of(book, *id, &around)?;
        let asked = (*id == played.asked).then_some(comparison);
        if let Some(view) = place_view(book, *id, &here, asked, seed, words)? {
            places.push(view);
        }
        records.push(record(book, *id, &teller, words)?);
    }
    let holding = book
        .of_kind(kerfbook_ledger::Kind::HoldingOpened)?
        .first()
        .and_then(|current| match &current.body {
            kerfbook_ledger::Body::HoldingOpened(opened) => Some(opened.name.as_str().to_owned()),
            _ => None,
        })
        .unwrap_or_default();
    Ok(ReportView {
        holding,
        date: words.date_with_year(season::first_day()),
        about: vec![
            words.label("demo-invented"),
            words.say(
                "forecast-runs",
                &[
                    ("runs", words.number(f64::from(RUNS), 0)),
                    ("seed", seed.to_string()),
                    ("engine", kerfbook_science::nitrogen::ENGINE.to_string()),
                    ("parameters", kerfbook_science::nitrogen::PARAMETERS.to_string()),
                ],
            ),
        ],
        answer: answer(book, played, comparison, scenario, words)?,
        places,
        ways: Some(ways(comparison, words)),
        assumed: assumed(comparison, words),
        cautions: cautions(comparison, played, words),
        records,
        book: book_view(book, &teller, words)?,
        sources: sources(words),
    })
}

fn answer(
    book: &Book,
    played: &Played,
    comparison: &Comparison,
    scenario: &Scenario,
    words: &Words,
) -> Result<AnswerView, ActError> {
    let told = told::tell(comparison, scenario, words);
    let place = book.place(played.asked)?.map(|view| view.label.as_str().to_owned()).unwrap_or_default();
    let instruct =
        words.say("answer-do-amount", &[("do", told.instruction.clone()), ("amount", told.amount.clone())]);
    let asked = words.say(
        "demo-asked",
        &[
            ("containers", told::in_containers(&comparison.load.counted(&scenario.containers), words)),
            ("material", words.material(comparison.load.material.name)),
            ("place", place),
            ("crop", scenario.crops.first().map(|crop| words.crop(&crop.name)).unwrap_or_default()),
            ("date", words.date(season::first_day())),
        ],
    );
    Ok(AnswerView {
        asked,
        instruct,
        keep_off: told.keep_off,
        give: told.give,
        look: told.look,
        not: told.not,
        cost: told.cost,
        least_known: told.least_known,
        narrow: Some(told.narrow),
        wait: told.wait,
        more: told.more,
        hangs_on: told.hangs_on,
    })
}

/// A quantity in the reader's unit.
fn value(kg_ha: f64, words: &Words) -> f64 {
    words.nitrogen_value(AreaMass::from_kg_ha(kg_ha))
}

fn range_of(three: Three, words: &Words) -> Option<Range> {
    Some(Range {
        p10: value(three.p10?, words),
        p50: value(three.p50?, words),
        p90: value(three.p90?, words),
    })
}

fn place_view(
    book: &Book,
    id: EntryId,
    scenario: &Scenario,
    asked: Option<&Comparison>,
    seed: u64,
    words: &Words,
) -> Result<Option<PlaceView>, ActError> {
    let Some(view) = book.place(id)? else { return Ok(None) };
    let name = view.label.as_str().to_owned();
    let mut facts =
        vec![words.label(&format!("place-kind-{}", view.place_kind.name())), words.area(scenario.place.area)];
    facts.extend(scenario.crops.iter().map(|crop| words.crop(&crop.name)));
    if scenario.put_down.is_empty() && scenario.crops.is_empty() {
        return Ok(Some(PlaceView { name, facts, bands: Vec::new(), said: Vec::new() }));
    }
    let foretold = forecast::forecast(scenario, RUNS, seed)?;
    let grows = !scenario.crops.is_empty();
    let marks = marks(&foretold, scenario, asked, words);
    let mut bands = Vec::new();
    if !scenario.put_down.is_empty() {
        bands.push(band(&foretold, &name, "tied", |day| day.tied, None, marks.clone(), words));
    }
    let bare: Option<fn(&Day) -> f64> =
        (!scenario.put_down.is_empty()).then_some(|day: &Day| day.mineral_bare);
    bands.push(band(&foretold, &name, "mineral", |day| day.mineral, bare, marks, words));
    let mut said = Vec::new();
    if grows && !scenario.put_down.is_empty() {
        said.push(words.cost(
            kerfbook_words::Spread {
                p10: foretold.lost.p10.unwrap_or(0.0),
                p50: foretold.lost.middle(),
                p90: foretold.lost.p90.unwrap_or(0.0),
            },
            kerfbook_words::Per::Area,
        ));
    }
    Ok(Some(PlaceView { name, facts, bands, said }))
}

fn band(
    foretold: &Forecast,
    place: &str,
    which: &str,
    of: fn(&Day) -> Three,
    bare: Option<fn(&Day) -> f64>,
    marks: Vec<Mark>,
    words: &Words,
) -> BandChart {
    let first = foretold.calendar.first();
    let last = foretold.calendar.date(f64::from(SEASON_DAYS));
    let points = || foretold.days.iter().step_by(STEP);
    BandChart {
        title: words.say(&format!("picture-{which}-title"), &[("place", place.to_owned())]),
        description: words.say(
            "picture-band-about",
            &[("first", words.date_with_year(first)), ("last", words.date_with_year(last))],
        ),
        unit: words.nitrogen_unit_name(),
        labels: report::band_labels(words),
        days: f64::from(SEASON_DAYS),
        band: points().filter_map(|day| Some((f64::from(day.day), range_of(of(day), words)?))).collect(),
        bare: bare.map_or_else(Vec::new, |bare| {
            points().map(|day| (f64::from(day.day), value(bare(day), words))).collect()
        }),
        months: report::months(first, SEASON_DAYS, words),
        marks,
        ..BandChart::default()
    }
}

fn marks(foretold: &Forecast, scenario: &Scenario, asked: Option<&Comparison>, words: &Words) -> Vec<Mark> {
    let day_of = |date| foretold.calendar.day(date) as f64;
    let mut marks = Vec::new();
    let mut put_days: Vec<f64> = scenario.put_down.iter().map(|put| day_of(put.date)).collect();
    put_days.dedup();
    for day in put_days {
        marks.push(Mark { day, kind: MarkKind::PutDown, label: words.label("picture-put-down") });
    }
    for given in &scenario.feeds {
        let amount = match given.amount {
            kerfbook_acts::scenario::FeedAmount::Nitrogen(nitrogen) => words.nitrogen(nitrogen),
            kerfbook_acts::scenario::FeedAmount::Product(mass) => words.mass(mass),
            kerfbook_acts::scenario::FeedAmount::Liquid(volume) => words.liquid(volume),
        };
        let label = words.say("picture-feed", &[("amount", amount), ("source", words.feed(&given.source))]);
        marks.push(Mark { day: day_of(given.date), kind: MarkKind::Feed, label });
    }
    let told = |day: f64| words.date(foretold.calendar.date(day));
    if let Some(day) = foretold.hungry_day.p50 {
        let label = words.say("picture-hungry", &[("date", told(day))]);
        marks.push(Mark { day, kind: MarkKind::Hungry, label });
    }
    if let Some(day) = foretold.hungry_day_bare.p50.filter(|_| !scenario.put_down.is_empty()) {
        let label = words.say("picture-hungry-bare", &[("date", told(day))]);
        marks.push(Mark { day, kind: MarkKind::HungryBare, label });
    }
    if let Some(comparison) = asked {
        let day = day_of(comparison.answer.look);
        let label = words.say("picture-look", &[("date", words.date(comparison.answer.look))]);
        marks.push(Mark { day, kind: MarkKind::Look, label });
    }
    marks
}

fn ways(comparison: &Comparison, words: &Words) -> WaysView {
    let row = |way: &WayResult| way_row(way, comparison, words);
    let composted = comparison.season.iter().find(|way| way.row == Row::CompostedFirst);
    let mut said = vec![words.label("compare-sorted")];
    if let Some(way) = composted {
        let brought = words.nitrogen(AreaMass::from_kg_ha(way.brought_kg_ha));
        said.push(words.say("compare-nitrogen-explains", &[("brought", brought)]));
    }
    WaysView {
        unit: words.nitrogen_unit_name(),
        season: comparison.season.iter().map(row).collect(),
        both: comparison.both.iter().map(row).collect(),
        equal: (!comparison.equal.is_empty()).then(|| EqualView {
            nitrogen: words.nitrogen(AreaMass::from_kg_ha(comparison.equal_nitrogen_kg_ha)),
            rows: equal_best_first(comparison)
                .into_iter()
                .filter_map(|row| Some((equal_name(row, words), range_of(row.crop_nitrogen, words)?)))
                .collect(),
            composted_leads: composted_leads(comparison),
        }),
        said,
    }
}

fn way_row(way: &WayResult, comparison: &Comparison, words: &Words) -> WayRow {
    let nitrogen = |kg_ha: f64| words.nitrogen(AreaMass::from_kg_ha(kg_ha));
    let date = |day: Option<f64>| compare::date_of(comparison, day).map(|date| words.date(date));
    let tied = way.tied.iter().find(|(day, _)| *day == 60).and_then(|(_, tied)| range_of(*tied, words));
    WayRow {
        way: row_name(way.row, words),
        bare: way.row == Row::Bare,
        chosen: way.row == comparison.answer.row,
        crop_nitrogen: way.crop_nitrogen.and_then(|three| range_of(three, words)),
        lost: way.lost.and_then(|three| range_of(three, words)),
        tied,
        hungry: way.hungry_day.and_then(|days| date(days.p50)).unwrap_or_default(),
        chance: way.chance_hungry.map(|share| words.percent(Share::from_fraction(share))).unwrap_or_default(),
        release: match way.release_day.p50 {
            Some(day) => words.month_and_year(comparison.calendar.date(day)),
            None if way.row == Row::Bare => String::new(),
            None => words.not_within(compare::LONG_DAYS, Share::from_fraction(way.released_share)),
        },
        feed_crop: way.feed.map(|feed| nitrogen(feed.crop)).unwrap_or_default(),
        feed_wood: way.feed.map(|feed| nitrogen(feed.wood)).unwrap_or_default(),
        brings: if way.brought_kg_ha > 0.0 { nitrogen(way.brought_kg_ha) } else { String::new() },
        leached: way.leached.p50.map(nitrogen).unwrap_or_default(),
        hindered: match (way.allowed, way.doable) {
            (false, _) => words.label("compare-not-allowed"),
            (true, false) if way.row == Row::OverUrine => words.label("compare-not-at-hand"),
            (true, false) => words.label("compare-not-doable"),
            (true, true) => String::new(),
        },
    }
}

fn assumed(comparison: &Comparison, words: &Words) -> Vec<AssumedView> {
    let rows = |of: String, document: serde_json::Value| {
        let serde_json::Value::Object(map) = document else { return Vec::new() };
        map.into_iter()
            .map(|(key, value)| AssumedView {
                value: assumed_value(&value, words),
                key,
                of: of.clone(),
                source: String::new(),
            })
            .collect::<Vec<_>>()
    };
    let mut all = rows(String::new(), assumed_document(&[], &comparison.assumed));
    for way in &comparison.season {
        all.extend(rows(row_name(way.row, words), assumed_document(&[], &way.assumed)));
    }
    for view in &mut all {
        let source = assumed_from(&view.key, comparison);
        view.source = if source.author.is_empty() {
            words.standing(source.standing)
        } else {
            format!("{} ({})", words.body_and_year(&source), words.standing(source.standing))
        };
    }
    all
}

/// Where a value that was taken for granted comes from.
fn assumed_from(key: &str, comparison: &Comparison) -> Source {
    match key {
        "moisture_pct" => comparison.load.material.moisture.source,
        "bulk_density_kg_m3" => comparison.load.material.wet_density.source,
        "clay_pct" => soil::TYPICAL_CLAY.source,
        "mineral_nitrogen_kg_ha" => soil::TYPICAL_MINERAL_NITROGEN.source,
        "sand_pct" | "compost_carbon_nitrogen" | "compost_mineral_nitrogen_kg_ha" => Source::ASSUMPTION,
        "manure_carbon_nitrogen" => way::MANURE_CARBON_NITROGEN.source,
        "ring_gap_cm" => way::RING_GAP_CM.source,
        _ => Source::COMMON_PRACTICE,
    }
}

fn cautions(comparison: &Comparison, played: &Played, words: &Words) -> Vec<CautionView> {
    let mut ids: Vec<&'static str> = played.cautions.clone();
    ids.extend(comparison.season.iter().flat_map(|way| way.cautions.iter().copied()));
    ids.sort_unstable();
    ids.dedup();
    ids.iter()
        .filter_map(|id| caution::of_id(id))
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

fn record(book: &Book, id: EntryId, teller: &Teller<'_>, words: &Words) -> Result<RecordView, ActError> {
    let Some(view) = book.place(id)? else { return Ok(RecordView::default()) };
    let area = Area::from_m2(view.area_mm2 as f64 / 1e6);
    let by = |entry: EntryId| -> Result<String, ActError> { Ok(teller.tell_id(entry)?.by) };
    let mut record = RecordView {
        place: view.label.as_str().to_owned(),
        year: season::first_day().year(),
        facts: vec![words.label(&format!("place-kind-{}", view.place_kind.name())), words.area(area)],
        ..RecordView::default()
    };
    for layer in &view.layers {
        let what = book
            .batch(layer.batch)?
            .map(|batch| format!("{} ({})", batch.label.as_str(), words.material(batch.material.as_str())))
            .unwrap_or_default();
        let mut amount = Vec::new();
        amount.extend(layer.wet_g.map(|grams| words.mass(Mass::from_g(grams as f64))));
        amount.extend(layer.depth_mm.map(|mm| words.depth(Length::from_mm(f64::from(mm)))));
        record.put_down.push(PutDownRow {
            date: words.date_with_year(layer.date.naive()),
            what,
            way: words.way(layer.way.name()),
            amount: amount.join(", "),
            by: by(layer.entry)?,
            entry: teller.short(layer.entry),
        });
    }
    for given in &view.feeds {
        let nitrogen = |milligrams: u64| words.nitrogen_mass(Mass::from_g(milligrams as f64 / 1000.0));
        let split = match (given.crop_mg, given.wood_mg) {
            (Some(crop), Some(wood)) => {
                words.say("demo-split", &[("crop", nitrogen(crop)), ("wood", nitrogen(wood))])
            }
            _ => String::new(),
        };
        let amount = match &book.current(given.entry)?.map(|current| current.body) {
            Some(kerfbook_ledger::Body::FeedGiven(body)) => match (body.product_g, body.volume_ml) {
                (Some(grams), _) => words.mass(Mass::from_g(grams as f64)),
                (None, Some(ml)) => words.liquid(Volume::from_litres(ml as f64 / 1000.0)),
                (None, None) => words.unknown(),
            },
            _ => words.unknown(),
        };
        record.feeds.push(FeedRow {
            date: words.date_with_year(given.date.naive()),
            source: format!(
                "{} ({})",
                words.feed(given.source.as_str()),
                words.label(placed_name(given.placed))
            ),
            amount,
            nitrogen: nitrogen(given.nitrogen_mg),
            split,
            by: by(given.entry)?,
            entry: teller.short(given.entry),
        });
        record.waits.extend(waits(&view, given.source.as_str(), given.date.naive(), words));
    }
    for line in &view.crops {
        record.crops.push(CropRow {
            crop: words.crop(line.crop.as_str()),
            started: words.date_with_year(line.started.naive()),
            ended: line
                .ended
                .or(line.ends)
                .map(|date| words.date_with_year(date.naive()))
                .unwrap_or_default(),
            fate: line
                .fate
                .map(|fate| words.label(&format!("fate-{}", fate.name().replace(' ', "-"))))
                .unwrap_or_default(),
            entry: teller.short(line.entry),
        });
    }
    for line in &view.notes {
        record.notes.push(teller.tell_id(line.entry)?.text);
    }
    for flagged in &view.flagged {
        let told = teller.tell_id(flagged.entry)?;
        record.notes.push(format!("{}: {}", told.entry, told.flags.join("; ")));
    }
    Ok(record)
}

/// Days to harvest that a feed brings with it, over the crops that stood there when it was given.
fn waits(
    view: &kerfbook_ledger::PlaceView,
    source: &str,
    given: chrono::NaiveDate,
    words: &Words,
) -> Vec<WaitRow> {
    let Match::Exact(found) = feed::find(source) else { return Vec::new() };
    view.crops
        .iter()
        .filter(|line| line.ended.is_none_or(|ended| ended.naive() >= given))
        .filter_map(|line| {
            let edible = match crop::find(line.crop.as_str()) {
                Match::Exact(crop) => crop.edible,
                Match::Near(_) => Edible::TouchesSoil,
            };
            let days = found.wait.days(edible);
            if days == 0 {
                return None;
            }
            let open = given + chrono::Days::new(u64::from(days));
            let had = line.ended.map(|ended| (ended.naive() - given).num_days());
            Some(WaitRow {
                what: format!("{}, {}", words.feed(found.name), words.crop(line.crop.as_str())),
                rule: words.days(f64::from(days)),
                open: words.date_with_year(open),
                had: had.map(|days| words.days(days as f64)).unwrap_or_default(),
                kept: had.map(|had| had >= i64::from(days)),
            })
        })
        .collect()
}

fn placed_name(placed: Placed) -> &'static str {
    match placed {
        Placed::Mixed => "placed-mixed",
        Placed::Under => "placed-under",
        Placed::Top => "placed-top",
    }
}

fn book_view(book: &Book, teller: &Teller<'_>, words: &Words) -> Result<BookView, ActError> {
    let report = book.verify()?;
    let told = teller.all()?;
    let entries = report.entries.to_string();
    let state = if report.sound() {
        words.say("chain-sound", &[("entries", entries)])
    } else {
        words.say("chain-broken", &[("entries", entries), ("findings", report.findings.len().to_string())])
    };
    let devices = book.devices()?;
    Ok(BookView {
        sound: report.sound(),
        state,
        findings: report.findings.iter().map(|finding| teller.finding(finding)).collect(),
        heads: report
            .heads
            .iter()
            .map(|head| HeadRow {
                device: devices
                    .iter()
                    .find(|device| device.public_key.device() == head.device)
                    .map(|device| device.label.as_str().to_owned())
                    .unwrap_or_default(),
                last: head.seq.to_string(),
                hash: head.hash.to_string(),
            })
            .collect(),
        entries: told
            .into_iter()
            .map(|entry| EntryRow {
                date: entry.date,
                kind: words.kind(&entry.kind),
                text: entry.text,
                by: entry.by,
                flags: entry.flags,
                entry: entry.entry,
            })
            .collect(),
    })
}

/// The published works behind the figures of the page, each once.
fn sources(words: &Words) -> Vec<SourceView> {
    let mut all: Vec<Source> =
        vec![soil::WATER_SOURCE, soil::SUPPLY_PER_PERCENT.source, weather::EVAPORATION_SOURCE];
    all.extend(GLOBALS.iter().map(|(_, parameter)| parameter.source));
    all.extend(BatchParameter::ALL.iter().map(|parameter| parameter.parameter(Kind::Wood).source));
    all.extend(crop::all().iter().map(|crop| crop.source));
    all.extend(feed::all().iter().map(|feed| feed.source));
    all.extend(caution::all().iter().map(|caution| caution.source));
    let mut views: Vec<SourceView> = Vec::new();
    for source in all.iter().filter(|source| !source.author.is_empty()) {
        let year = if source.year == 0 { String::new() } else { format!(" {}", source.year) };
        let mut text = format!("{}{year}. {}", source.author, source.title);
        if !source.place.is_empty() {
            text = format!("{text}, {}", source.place);
        }
        if views.iter().all(|view| view.text != text) {
            views.push(SourceView { text, used: words.standing(source.standing) });
        }
    }
    views.sort_by(|a, b| a.text.cmp(&b.text));
    views
}
