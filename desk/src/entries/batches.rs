//! Loads taken in or sent away, blends, counts and tests of batches.

use kerfbook_acts::blend_batch::{self, NewBlend, NewPart, Taken};
use kerfbook_acts::recount_batch::{self, NewRecount};
use kerfbook_acts::storage::{Handful, Smell};
use kerfbook_acts::take_in_load::{self, Cost, Intake, NewLoad};
use kerfbook_acts::test_batch::{self, NewBatchTest, ReadyTests};
use kerfbook_ledger::EntryId;
use kerfbook_ledger::kind::{Answer, Storage};
use kerfbook_science::dose::Bulk;
use kerfbook_science::plain::{Age, Pieces, Wood};
use kerfbook_science::units::{Density, Length, Mass, Share, Volume};

use super::writer::Writer;
use crate::fault::Message;
use crate::scenario::{bucket, events, names};
use crate::toml_file::section::{Bounds, Section};

const ANSWERS: [(&str, Answer); 3] = [("yes", Answer::Yes), ("no", Answer::No), ("unknown", Answer::Unknown)];
const STORED: [(&str, Storage); 2] = [("covered", Storage::Covered), ("open", Storage::Open)];
const HANDFULS: [(&str, Handful); 5] = [
    ("dusty", Handful::Dusty),
    ("damp", Handful::Damp),
    ("cool-and-damp", Handful::Damp),
    ("drips", Handful::Drips),
    ("unknown", Handful::Unknown),
];
const SMELLS: [(&str, Smell); 4] =
    [("wood", Smell::Wood), ("earth", Smell::Earth), ("sour", Smell::Sour), ("unknown", Smell::Unknown)];
const HURT: [(&str, Option<bool>); 3] = [("yes", Some(true)), ("no", Some(false)), ("unknown", None)];
const SOUR: [(&str, Smell); 3] = [("yes", Smell::Sour), ("no", Smell::Wood), ("unknown", Smell::Unknown)];

/// Mass of a load.
pub(super) const WET_KG: Bounds = Bounds::above_zero(1e8, "kg");
/// Volume of a load.
pub(super) const VOLUME_M3: Bounds = Bounds::above_zero(1e6, "m3");
/// Containers of a load.
pub(super) const BARROWS: Bounds = Bounds::above_zero(100_000.0, "");

pub(super) fn load(section: &Section<'_>, writer: &mut Writer<'_>) -> Option<()> {
    let name = section.required_text("name");
    section.one_alone("material", "wood");
    let wood = section.choice("wood", &Wood::choices());
    let pieces = section.choice("pieces", &Pieces::choices());
    section.one_alone("particle", "pieces");
    section.one_alone("moisture_pct", "handful");
    let (material, known) = if let Some(wood) = wood {
        (wood.material(pieces.unwrap_or(Pieces::Unknown)), true)
    } else {
        let material = section.required_text("material")?;
        (material, names::is_material(section, material))
    };
    let bulk = bucket::test(section);
    let answer = |key: &str| section.choice(key, &ANSWERS).unwrap_or(Answer::Unknown);
    let from = match section.text("from") {
        Some(from) => Some(Writer::text(section, from)?),
        None => None,
    };
    let barrows = section.number("barrows", BARROWS);
    let volume = section.number("volume_m3", VOLUME_M3).map(Volume::from_m3);
    let currency = section.text("currency");
    let cost = section.number("cost", Bounds::between(0.0, 1e7, ""));
    if cost.is_some() && currency.is_none() {
        section.missing("currency", None);
    }
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "within bounds")]
    let new = NewLoad {
        wood,
        particle: section.choice("particle", &events::PARTICLES),
        // Where the wood is told in a word and its pieces are not, they are unknown, too.
        pieces: pieces.or(wood.map(|_| Pieces::Unknown)),
        wet: section.number("wet_kg", WET_KG).map(Mass::from_kg),
        volume: volume.or(barrows.map(|count| writer.containers.barrow * count)),
        moisture: events::moisture(section).map(Share::from_percent),
        handful: section.choice("handful", &HANDFULS),
        carbon_nitrogen: section.number("carbon_nitrogen", events::CARBON_NITROGEN),
        wet_density: events::residue_density(section).map(Density::from_kg_m3),
        from,
        treated: answer("treated"),
        diseased: answer("diseased"),
        salty: answer("salty"),
        medicines: answer("medicated"),
        weedkillers: answer("medicated"),
        cut: section.date("cut"),
        age: section.choice("age", &Age::choices()),
        smell: section.choice("smell", &SMELLS),
        stored: section.choice("stored", &STORED),
        cost: cost
            .zip(currency)
            .map(|(cost, currency)| Cost { hundredths: (cost * 100.0).round() as u64, currency }),
        haul: section
            .number("haul_km", Bounds::between(0.0, 5_000.0, "km"))
            .map(|km| Length::from_m(km * 1000.0)),
        minutes: section
            .number("minutes", Bounds::between(0.0, 10_000.0, "min"))
            .map(|minutes| minutes as u32),
        ..NewLoad::of(name?, material)
    };
    if !known {
        return None;
    }
    let moment = writer.moment();
    let taken = take_in_load::take_in(writer.book, &new, moment);
    match Writer::heed(section, taken)? {
        Intake::Taken { batch, cautions, .. } => {
            writer.entries.push(batch);
            if let Some(bulk) = bulk {
                weighed(section, writer, batch, bulk)?;
            }
            writer.mind(&cautions);
        }
        Intake::Refused { entry, cautions, .. } => {
            writer.entries.push(entry);
            writer.mind(&cautions);
        }
    }
    Some(())
}

pub(super) fn blend(section: &Section<'_>, writer: &mut Writer<'_>) -> Option<()> {
    let name = section.required_text("name");
    let parts = parts(section, writer)?;
    let new = NewBlend {
        label: name?,
        parts: &parts,
        material: None,
        particle: section.choice("particle", &events::PARTICLES),
        wet: None,
        volume: None,
        moisture: None,
        carbon_nitrogen: None,
    };
    let (containers, moment) = (writer.containers, writer.moment());
    let blended = blend_batch::blend(writer.book, &new, &containers, moment);
    let (entry, _) = Writer::heed(section, blended)?;
    writer.entries.push(entry);
    Some(())
}

/// Which batches are taken, and how much of each.
pub(super) fn parts(section: &Section<'_>, writer: &Writer<'_>) -> Option<Vec<NewPart>> {
    if !section.has("of") {
        section.missing("of", None);
    }
    let of = section.texts("of");
    let amounts = amounts(section, of.len())?;
    let batches: Vec<_> = of.iter().map(|name| writer.batch_called(section, "of", name)).collect();
    let batches: Vec<_> = batches.into_iter().collect::<Option<_>>()?;
    Some(batches.iter().zip(amounts).map(|(batch, amount)| NewPart { batch: batch.id, amount }).collect())
}

/// How much is taken of each of several batches; an amount short or over is noted.
fn amounts(section: &Section<'_>, count: usize) -> Option<Vec<Taken>> {
    let wet = section.numbers("wet_kg", WET_KG);
    let barrows = section.numbers("barrows", BARROWS);
    let amounts: Option<Vec<Taken>> = match (wet, barrows) {
        (Some(wet), None) => Some(wet.into_iter().map(|kg| Taken::Wet(Mass::from_kg(kg))).collect()),
        (None, Some(barrows)) => Some(barrows.into_iter().map(Taken::Barrows).collect()),
        _ => None,
    };
    let amounts = amounts.filter(|amounts| amounts.len() == count);
    if amounts.is_none() {
        section.complain("of", Message::new("enter-blend-amounts"), Some(section.advice("wet_kg")));
    }
    amounts
}

pub(super) fn count(section: &Section<'_>, writer: &mut Writer<'_>) -> Option<()> {
    let batch = writer.batch(section, "batch")?;
    let reason = match section.text("reason") {
        Some(reason) => Some(Writer::text(section, reason)?),
        None => None,
    };
    // Nothing left is a count, too.
    let none = |high: f64, unit| Bounds::between(0.0, high, unit);
    let barrows = section.number("barrows", none(100_000.0, ""));
    let volume = section.number("volume_m3", none(1e6, "m3")).map(Volume::from_m3);
    let new = NewRecount {
        batch: batch.id,
        wet: section.number("wet_kg", none(1e8, "kg")).map(Mass::from_kg),
        volume: volume.or(barrows.map(|count| writer.containers.barrow * count)),
        reason,
    };
    let moment = writer.moment();
    let counted = recount_batch::recount(writer.book, &new, moment);
    writer.keep(section, counted).map(drop)
}

/// Writes a bucket test of a batch.
fn weighed(section: &Section<'_>, writer: &mut Writer<'_>, batch: EntryId, bulk: Bulk) -> Option<()> {
    let method = bulk.method.name();
    let new = NewBatchTest {
        wet_density: Some(bulk.wet_density),
        wet_density_sd: Some(bulk.relative_sd),
        method: Some(&method),
        ..NewBatchTest::of(batch)
    };
    let moment = writer.moment();
    let tested = test_batch::test(writer.book, &new, moment);
    writer.entries.push(Writer::heed(section, tested)?.entry);
    Some(())
}

pub(super) fn test(section: &Section<'_>, writer: &mut Writer<'_>) -> Option<()> {
    let batch = writer.batch(section, "batch")?;
    section.one_alone("moisture_pct", "handful");
    section.one_alone("sour", "smell");
    let bulk = bucket::test(section);
    let by = bulk.map(|bulk| bulk.method.name());
    let new = NewBatchTest {
        moisture: events::moisture(section).map(Share::from_percent),
        carbon_nitrogen: section.number("carbon_nitrogen", events::CARBON_NITROGEN),
        wet_density: events::residue_density(section)
            .map(Density::from_kg_m3)
            .or(bulk.map(|bulk| bulk.wet_density)),
        wet_density_sd: bulk.map(|bulk| bulk.relative_sd),
        handful: section.choice("handful", &HANDFULS),
        age: section.choice("age", &Age::choices()),
        smell: section.choice("smell", &SMELLS).or(section.choice("sour", &SOUR)),
        method: section.text("method").or(by.as_deref()),
        ready: ready(section),
        ash: section.number("ash_pct", Bounds::between(0.0, 100.0, "%")).map(Share::from_percent),
        ..NewBatchTest::of(batch.id)
    };
    let moment = writer.moment();
    let tested = test_batch::test(writer.book, &new, moment);
    let tested = Writer::heed(section, tested)?;
    writer.entries.push(tested.entry);
    writer.mind(&tested.cautions);
    Some(())
}

/// Tests of whether a compost is ready.
fn ready(section: &Section<'_>) -> ReadyTests {
    let figure = |key, high, unit| section.number(key, Bounds::between(0.0, high, unit));
    ReadyTests {
        ammonium_nitrate: figure("ammonium_nitrate", 1_000.0, ""),
        dioxide: figure("dioxide_mg_g_day", 200.0, "mg"),
        emergence_pct: figure("emergence_pct", 300.0, "%"),
        self_heating_c: figure("self_heating_c", 70.0, "°C"),
        oxygen: figure("oxygen_mg_kg_h", 20_000.0, "mg"),
        germination_pct: figure("germination_index_pct", 400.0, "%"),
        seedlings_hurt: section.choice("seedlings_hurt", &HURT).flatten(),
    }
}
