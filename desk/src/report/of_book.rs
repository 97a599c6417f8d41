//! What a report says of a book: every place with what is expected of it, what needs doing, what is left, the records by
//! place and year, and the entries.

#![allow(clippy::cast_precision_loss, reason = "grams, millilitres, days and areas are far below 2^53")]

use std::collections::BTreeSet;
use std::sync::Arc;

use chrono::{Datelike, NaiveDate};
use kerfbook_acts::compare::{RUNS, Three};
use kerfbook_acts::error::ActError;
use kerfbook_acts::feed_plan::Terms;
use kerfbook_acts::forecast::{Day, Forecast};
use kerfbook_acts::long_view::Practice;
use kerfbook_acts::month_ticks::months;
use kerfbook_acts::purpose::WEED_COVER;
use kerfbook_acts::scenario::{Amount, Containers};
use kerfbook_acts::season::{AHEAD_DAYS, Season};
use kerfbook_acts::told_map::{self, ToldMap};
use kerfbook_acts::{judge, long_view, next_load, season, site, stock, told};
use kerfbook_ledger::kind::Placed;
use kerfbook_ledger::projection::batch::Origin;
use kerfbook_ledger::{BatchView, Book, EntryId, PlaceView as BookPlace};
use kerfbook_picture::{BandChart, Mark, MarkKind, Range, Reading};
use kerfbook_science::crop::{self, Edible};
use kerfbook_science::lookup::Match;
use kerfbook_science::material::{self, Found};
use kerfbook_science::nitrogen::Reading as Measured;
use kerfbook_science::nitrogen::parameter::{BatchParameter, GLOBALS, Kind};
use kerfbook_science::source::Source;
use kerfbook_science::units::{Area, AreaMass, Length, Mass, Volume};
use kerfbook_science::{caution, feed, soil, weather};
use kerfbook_words::Words;

use super::{
    BookView, CropRow, EntryRow, FeedRow, HeadRow, OtherRow, OverYears, PileView, PlaceView, PutDownRow,
    RecordView, SourceView, StockRow, TodoRow, TrialView, WaitRow,
};
use crate::book::told::Teller;
use crate::{place, stock as stocked, today};

/// How far ahead of the day things to do are listed, days.
const AHEAD: u32 = 28;

/// Everything a book says by itself.
pub(crate) struct OfBook {
    pub(crate) holding: String,
    /// How earlier forecasts fared.
    pub(crate) judged: String,
    pub(crate) map: Option<ToldMap>,
    pub(crate) places: Vec<PlaceView>,
    pub(crate) todo: Vec<TodoRow>,
    pub(crate) piles: Vec<PileView>,
    pub(crate) trials: Vec<TrialView>,
    pub(crate) stock: Vec<StockRow>,
    pub(crate) records: Vec<RecordView>,
    pub(crate) book: BookView,
}

/// Reads a book as it stood on a day.
///
/// # Errors
/// A book that cannot be read.
pub(crate) fn of_book(book: &Book, on: NaiveDate, seed: u64, words: &Words) -> Result<OfBook, ActError> {
    let teller = Teller::new(book, words)?;
    let mut places = Vec::new();
    let mut records = Vec::new();
    let next = next_batch(book, on)?;
    let views: Vec<_> = book.places()?.into_iter().filter(|view| !view.withdrawn()).collect();
    let ids: Vec<_> = views.iter().map(|view| view.id).collect();
    let foretold = season::forecasts_of(book, &ids, on, AHEAD_DAYS, RUNS, seed)?;
    for (view, foretold) in views.iter().zip(foretold) {
        let mut told = place_view(book, view, on, foretold.as_ref(), words)?;
        if let (Some((season, _)), Some(batch)) = (&foretold, &next) {
            told.said.extend(next_load_told(book, season, batch, seed, words)?);
        }
        places.push(told);
        records.extend(by_year(book, view, &teller, words)?);
    }
    let holding = book.holding_view()?.map(|holding| holding.name.as_str().to_owned()).unwrap_or_default();
    let terms = Terms { runs: RUNS, seed, ..Terms::default() };
    let todo = today::items(book, on, AHEAD, &terms, words)?
        .into_iter()
        .map(|item| TodoRow {
            place: if item.at.is_empty() { words.label("today-holding") } else { item.at.clone() },
            due: item.day(on, words),
            what: item.todo,
            why: item.why,
            who: item.who,
        })
        .collect();
    let containers = Containers::usual();
    let stock = stock::stock(book)?.iter().map(|one| stocked::told_row(one, &containers, words)).collect();
    let judged = told::judged(&judge::judge(book)?, words).join(" ");
    let map = told_map::tell(book, on, words)?;
    let piles = super::piles::of_book(book, on, words)?;
    let trials = super::trials::of_book(book, words)?;
    Ok(OfBook {
        holding,
        judged,
        map,
        places,
        todo,
        piles,
        trials,
        stock,
        records,
        book: book_view(book, &teller, words)?,
    })
}

/// The batch of residue of which most is left, that did not lie anywhere before.
fn next_batch(book: &Book, on: NaiveDate) -> Result<Option<Arc<BatchView>>, ActError> {
    let residue = |name: &str| matches!(material::find(name), Found::Material(found) if found.is_residue());
    let left = |batch: &BatchView| batch.left_ml.or(batch.left_g).unwrap_or(0);
    let batches = book.batches()?.into_iter().filter(|batch| {
        let there = !batch.withdrawn() && batch.date.naive() <= on && batch.origin != Origin::Layer;
        there && left(batch) > 0 && residue(batch.material.as_str())
    });
    Ok(batches.max_by_key(|batch| left(batch)))
}

/// What a layer of a batch would do to a place with all that lies there, put down on the day in the way that costs least.
fn next_load_told(
    book: &Book,
    season: &Season,
    batch: &BatchView,
    seed: u64,
    words: &Words,
) -> Result<Option<String>, ActError> {
    if season.ahead().is_empty() || !site::grows(season.scenario.place.kind) {
        return Ok(None);
    }
    let amount = Some(Amount::Depth(WEED_COVER.value));
    let put = next_load::of_batch(book, batch.id, amount, season.on, &mut Vec::new())?;
    let next = next_load::next_load(season, &put, RUNS, seed)?;
    let said = crate::next_load::best(&next, words).map(|best| {
        let depth = ("depth", words.depth(WEED_COVER.value));
        words.say("next-report", &[depth, ("batch", batch.label.as_str().to_owned()), ("best", best)])
    });
    Ok(said)
}

/// A quantity in the reader's unit.
pub(crate) fn value(kg_ha: f64, words: &Words) -> f64 {
    words.nitrogen_value(AreaMass::from_kg_ha(kg_ha))
}

/// A range in the reader's unit; none where one end is never reached.
pub(crate) fn range_of(three: Three, words: &Words) -> Option<Range> {
    Some(Range {
        p10: value(three.p10?, words),
        p50: value(three.p50?, words),
        p90: value(three.p90?, words),
    })
}

fn place_view(
    book: &Book,
    view: &BookPlace,
    on: NaiveDate,
    foretold: Option<&(Season, Forecast)>,
    words: &Words,
) -> Result<PlaceView, ActError> {
    let name = view.label.as_str().to_owned();
    let area = Area::from_m2(view.area_mm2 as f64 / 1e6);
    let mut facts = vec![words.label(&format!("place-kind-{}", view.place_kind.name())), words.area(area)];
    let mut grown = BTreeSet::new();
    facts.extend(
        view.crops
            .iter()
            .map(|line| words.crop(line.crop.as_str()))
            .filter(|crop| grown.insert(crop.clone())),
    );
    let told = place::tell(book, view, on, foretold, words)?;
    // The first lines are the place's name and the day, which the page says itself, as it does the heading.
    let heading = words.label("place-lies");
    let said: Vec<String> = told
        .said
        .iter()
        .skip(2)
        .map(|line| line.trim().to_owned())
        .filter(|line| !line.is_empty() && *line != heading)
        .collect();
    let Some((season, foretold)) = foretold else {
        return Ok(PlaceView { name, facts, bands: Vec::new(), said, over_years: None });
    };
    let residue = !season.scenario.put_down.is_empty();
    let marks = marks(season, foretold, view, words);
    let mut bands = Vec::new();
    if residue {
        bands.push(band(season, foretold, &name, "tied", |day| day.tied, None, marks.clone(), words));
    }
    let bare: Option<fn(&Day) -> f64> = residue.then_some(|day: &Day| day.mineral_bare);
    let mut mineral = band(season, foretold, &name, "mineral", |day| day.mineral, bare, marks, words);
    mineral.readings = readings(season, words);
    bands.push(mineral);
    let over_years = over_years(season, &name, words)?;
    Ok(PlaceView { name, facts, bands, said, over_years })
}

/// The same again every year; nothing of a place where nothing was put down, or of a container.
fn over_years(season: &Season, place: &str, words: &Words) -> Result<Option<OverYears>, ActError> {
    match long_view::long_view(&season.scenario, Practice::default()) {
        Ok(view) => {
            Ok(Some(OverYears { chart: crate::carbon::chart(&view, place, words), said: view.told(words) }))
        }
        Err(ActError::NoLoad | ActError::NotOverYears) => Ok(None),
        Err(error) => Err(error),
    }
}

#[expect(clippy::too_many_arguments, reason = "one chart of one place")]
fn band(
    season: &Season,
    foretold: &Forecast,
    place: &str,
    which: &str,
    of: fn(&Day) -> Three,
    bare: Option<fn(&Day) -> f64>,
    marks: Vec<Mark>,
    words: &Words,
) -> BandChart {
    let first = foretold.calendar.first();
    let days = season.input.days;
    let last = foretold.calendar.date(f64::from(days));
    let points = || foretold.days.iter();
    BandChart {
        title: words.say(&format!("picture-{which}-title"), &[("place", place.to_owned())]),
        description: words.say(
            "picture-band-about",
            &[("first", words.date_with_year(first)), ("last", words.date_with_year(last))],
        ),
        unit: words.nitrogen_unit_name(),
        labels: super::band_labels(words),
        days: f64::from(days),
        band: points().filter_map(|day| Some((f64::from(day.day), range_of(of(day), words)?))).collect(),
        bare: bare.map_or_else(Vec::new, |bare| {
            points().map(|day| (f64::from(day.day), value(bare(day), words))).collect()
        }),
        months: months(first, days, words),
        marks,
        ..BandChart::default()
    }
}

/// What was done, what comes and when to look.
fn marks(season: &Season, foretold: &Forecast, view: &BookPlace, words: &Words) -> Vec<Mark> {
    let scenario = &season.scenario;
    let day_of = |date: NaiveDate| foretold.calendar.day(date) as f64;
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
    for worked in &view.worked {
        let label = words.label("picture-worked");
        marks.push(Mark { day: day_of(worked.date.naive()), kind: MarkKind::Worked, label });
    }
    for lifted in &view.lifted {
        let label = words.label("picture-lifted");
        marks.push(Mark { day: day_of(lifted.date.naive()), kind: MarkKind::Lifted, label });
    }
    if season.ahead().is_empty() {
        return marks;
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
    marks
}

/// Soil tests that weigh the runs, as measured.
fn readings(season: &Season, words: &Words) -> Vec<Reading> {
    let soil = season.input.readings.iter().filter_map(|reading| match *reading {
        Measured::SoilNitrate { day, kg_ha } => Some((day, kg_ha)),
        _ => None,
    });
    soil.map(|(day, kg_ha)| Reading {
        day: f64::from(day),
        value: value(kg_ha, words),
        ends: None,
        label: words.nitrogen(AreaMass::from_kg_ha(kg_ha)),
    })
    .collect()
}

/// One page a year in which anything was written of the place.
fn by_year(
    book: &Book,
    view: &BookPlace,
    teller: &Teller<'_>,
    words: &Words,
) -> Result<Vec<RecordView>, ActError> {
    let all = record(book, view, teller, words)?;
    let years: BTreeSet<i32> = all.iter().map(|(year, _)| *year).collect();
    let area = Area::from_m2(view.area_mm2 as f64 / 1e6);
    Ok(years
        .into_iter()
        .map(|year| {
            let mut page = RecordView {
                place: view.label.as_str().to_owned(),
                year,
                facts: vec![words.label(&format!("place-kind-{}", view.place_kind.name())), words.area(area)],
                ..RecordView::default()
            };
            for (_, line) in all.iter().filter(|(when, _)| *when == year) {
                match line.clone() {
                    Line::PutDown(row) => page.put_down.push(row),
                    Line::Feed(row) => page.feeds.push(row),
                    Line::Crop(row) => page.crops.push(row),
                    Line::Wait(row) => page.waits.push(row),
                    Line::Other(row) => page.others.push(row),
                    Line::Note(text) => page.notes.push(text),
                }
            }
            page
        })
        .collect())
}

/// A line of a page of records.
#[derive(Clone)]
enum Line {
    PutDown(PutDownRow),
    Feed(FeedRow),
    Crop(CropRow),
    Wait(WaitRow),
    Other(OtherRow),
    Note(String),
}

/// Every line of a place with its year.
fn record(
    book: &Book,
    view: &BookPlace,
    teller: &Teller<'_>,
    words: &Words,
) -> Result<Vec<(i32, Line)>, ActError> {
    let mut lines = Vec::new();
    let by = |entry: EntryId| -> Result<String, ActError> { Ok(teller.tell_id(entry)?.by) };
    for layer in &view.layers {
        let what = book
            .batch(layer.batch)?
            .map(|batch| format!("{} ({})", batch.label.as_str(), words.material(batch.material.as_str())))
            .unwrap_or_default();
        let mut amount = Vec::new();
        amount.extend(layer.wet_g.map(|grams| words.mass(Mass::from_g(grams as f64))));
        amount.extend(layer.depth_mm.map(|mm| words.depth(Length::from_mm(f64::from(mm)))));
        let row = PutDownRow {
            date: words.date_with_year(layer.date.naive()),
            what,
            way: words.way(layer.way.name()),
            amount: amount.join(", "),
            by: by(layer.entry)?,
            entry: teller.short(layer.entry),
        };
        lines.push((layer.date.naive().year(), Line::PutDown(row)));
    }
    for given in &view.feeds {
        let year = given.date.naive().year();
        lines.push((year, Line::Feed(feed_row(book, given, teller, words)?)));
        let waits = waits(view, given.source.as_str(), given.date.naive(), words);
        lines.extend(waits.into_iter().map(|row| (year, Line::Wait(row))));
    }
    for line in &view.crops {
        let row = CropRow {
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
        };
        lines.push((line.started.naive().year(), Line::Crop(row)));
    }
    let mut others: Vec<(kerfbook_ledger::Date, EntryId)> = Vec::new();
    others.extend(view.water.iter().map(|one| (one.date, one.entry)));
    others.extend(view.worked.iter().map(|one| (one.date, one.entry)));
    others.extend(view.lifted.iter().map(|one| (one.date, one.entry)));
    others.extend(view.probes.iter().map(|one| (one.date, one.entry)));
    others.extend(view.gaps.iter().map(|one| (one.date, one.entry)));
    others.extend(view.soil_tests.iter().map(|one| (one.date, one.entry)));
    others.extend(view.leaf_reads.iter().map(|one| (one.date, one.entry)));
    others.sort_unstable();
    for (date, entry) in others {
        let told = teller.tell_id(entry)?;
        let row = OtherRow {
            date: words.date_with_year(date.naive()),
            what: told.text,
            by: told.by,
            entry: told.entry,
        };
        lines.push((date.naive().year(), Line::Other(row)));
    }
    for line in &view.notes {
        lines.push((line.date.naive().year(), Line::Note(teller.tell_id(line.entry)?.text)));
    }
    for flagged in &view.flagged {
        let Some(current) = book.current(flagged.entry)? else { continue };
        let told = teller.tell(&current)?;
        let text = format!("{}: {}", told.entry, told.flags.join("; "));
        lines.push((current.date.naive().year(), Line::Note(text)));
    }
    Ok(lines)
}

fn feed_row(
    book: &Book,
    given: &kerfbook_ledger::projection::place::FeedLine,
    teller: &Teller<'_>,
    words: &Words,
) -> Result<FeedRow, ActError> {
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
    Ok(FeedRow {
        date: words.date_with_year(given.date.naive()),
        source: format!("{} ({})", words.feed(given.source.as_str()), words.label(placed_name(given.placed))),
        amount,
        nitrogen: nitrogen(given.nitrogen_mg),
        split,
        by: teller.tell_id(given.entry)?.by,
        entry: teller.short(given.entry),
    })
}

/// Days to harvest that a feed brings with it, over the crops that stood there when it was given.
fn waits(view: &kerfbook_ledger::PlaceView, source: &str, given: NaiveDate, words: &Words) -> Vec<WaitRow> {
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
pub(crate) fn sources(words: &Words) -> Vec<SourceView> {
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
