//! The autumn before: sawdust and manure become a pile that heats under a rule, and in spring a batch.

use chrono::{Days, NaiveDate};
use kerfbook_acts::blend_batch::{NewPart, Taken};
use kerfbook_acts::build_pile::{self, NewPile};
use kerfbook_acts::error::ActError;
use kerfbook_acts::finish_pile::{self, NewBatch};
use kerfbook_acts::moment::Moment;
use kerfbook_acts::read_heat::{self, NewHeat};
use kerfbook_acts::scenario::Containers;
use kerfbook_acts::test_batch::{self, NewBatchTest, ReadyTests};
use kerfbook_acts::{read_moisture, turn_pile};
use kerfbook_ledger::{Book, EntryId};
use kerfbook_science::units::{Length, Mass, Share, Temperature};
use kerfbook_words::Words;

/// Days before the season's first on which it was built.
const BEFORE: u64 = 190;
/// Days on which it was read, morning by morning.
const READ_DAYS: u32 = 18;
/// Days of them on which it was turned.
const TURNED: [u32; 5] = [4, 7, 10, 13, 16];

/// Later mornings, and what core and edge read: it has cooled and cures.
const COOL: [(u32, [f64; 2]); 2] = [(30, [44.0, 41.0]), (44, [34.0, 31.0])];

/// The day on which it was built.
pub(super) fn built(first_day: NaiveDate) -> NaiveDate {
    first_day.checked_sub_days(Days::new(BEFORE)).unwrap_or(first_day)
}

/// Heat of core and edge on a day, °C: up in three days, down after each turning and up again.
fn heat(day: u32) -> [f64; 2] {
    let since = TURNED.iter().filter(|turned| **turned < day).max().map_or(day, |turned| day - turned);
    let core = if day < 3 { 24.0 + 12.0 * f64::from(day) } else { 66.0 - 7.0 / f64::from(since.max(1)) };
    [core, core - 3.0]
}

/// Plays the pile; gives the batch that it became, and the cautions on the way.
pub(super) fn play(
    book: &mut Book,
    parts: [EntryId; 2],
    containers: &Containers,
    words: &Words,
    now: Moment,
) -> Result<(EntryId, Vec<&'static str>), ActError> {
    let [wood, manure] = parts;
    let start = now.on(built(now.date));
    let parts = [
        NewPart { batch: wood, amount: Taken::Barrows(12.0) },
        NewPart { batch: manure, amount: Taken::Barrows(2.0) },
    ];
    let name = words.label("demo-pile");
    let new = NewPile {
        label: &name,
        place: None,
        parts: &parts,
        water: Some(Mass::from_kg(60.0)),
        volume: None,
        moisture: None,
        rule: Some("us-organic-windrow"),
    };
    let built = build_pile::build(book, &new, containers, start)?;
    let mut cautions: Vec<&'static str> = built.cautions.iter().map(|caution| caution.id).collect();
    let mut add = |more: Vec<&'static kerfbook_science::caution::Caution>| {
        cautions.extend(more.iter().map(|caution| caution.id));
    };
    let days = (0..READ_DAYS).map(|day| (day, heat(day))).chain(COOL);
    for (day, heat) in days {
        let on = start.on(start.date + Days::new(u64::from(day)));
        for (zone, temperature) in ["heat-zone-core", "heat-zone-edge"].into_iter().zip(heat) {
            let zone = words.label(zone);
            let new = NewHeat {
                pile: built.pile,
                zone: Some(&zone),
                depth: Some(Length::from_cm(45.0)),
                temperature: Temperature::from_c(temperature),
                smoke: false,
                minute: None,
            };
            add(read_heat::read(book, &new, on)?.2);
        }
        if TURNED.contains(&day) {
            add(turn_pile::turn(book, built.pile, Some(Mass::from_kg(20.0)), on)?.1);
        }
    }
    let wet = start.on(start.date + Days::new(12));
    read_moisture::read(book, built.pile, None, Share::from_percent(57.0), wet)?;
    let name = words.label("demo-batch-composted");
    let new = NewBatch {
        pile: built.pile,
        label: &name,
        material: Some("composted sawdust"),
        wet: None,
        volume: None,
        moisture: None,
        carbon_nitrogen: None,
    };
    let finished = finish_pile::finish(book, &new, now)?;
    add(finished.cautions);
    // A flowerpot of peas, and a laboratory: several tests together say that it is ready.
    let ready = ReadyTests {
        ammonium_nitrate: Some(0.8),
        emergence_pct: Some(94.0),
        seedlings_hurt: Some(false),
        ..ReadyTests::NONE
    };
    let test = NewBatchTest { ready, carbon_nitrogen: Some(15.6), ..NewBatchTest::of(finished.batch) };
    add(test_batch::test(book, &test, now)?.cautions);
    Ok((finished.batch, cautions))
}
