//! Piles: built of batches, turned, read, and at the end a batch.

use chrono::{NaiveTime, Timelike};
use kerfbook_acts::build_pile::{self, NewPile};
use kerfbook_acts::finish_pile::{self, NewBatch};
use kerfbook_acts::read_heat::{self, NewHeat};
use kerfbook_acts::{read_moisture, turn_pile};
use kerfbook_science::units::{Length, Mass, Share, Temperature, Volume};

use super::batches::{BARROWS, VOLUME_M3, WET_KG, parts};
use super::writer::Writer;
use crate::fault::Message;
use crate::scenario::events;
use crate::toml_file::section::{Bounds, Section};

const WATER_L: Bounds = Bounds::between(0.0, 1e7, "l");

pub(super) fn built(section: &Section<'_>, writer: &mut Writer<'_>) -> Option<()> {
    let name = section.required_text("name");
    let parts = parts(section, writer)?;
    let place = writer.place_or_none(section).ok()?;
    let new = NewPile {
        label: name?,
        place: place.map(|place| place.id),
        parts: &parts,
        water: section.number("water_l", WATER_L).map(Mass::from_kg),
        volume: section.number("volume_m3", VOLUME_M3).map(Volume::from_m3),
        moisture: events::moisture(section).map(Share::from_percent),
        rule: section.text("rule"),
    };
    let (containers, moment) = (writer.containers, writer.moment());
    let built = build_pile::build(writer.book, &new, &containers, moment);
    let built = Writer::heed(section, built)?;
    writer.entries.push(built.pile);
    writer.mind(&built.cautions);
    Some(())
}

pub(super) fn turned(section: &Section<'_>, writer: &mut Writer<'_>) -> Option<()> {
    let pile = writer.pile(section)?;
    let water = section.number("water_l", WATER_L).map(Mass::from_kg);
    let moment = writer.moment();
    let turned = turn_pile::turn(writer.book, pile.id, water, moment);
    let (entry, cautions) = Writer::heed(section, turned)?;
    writer.entries.push(entry);
    writer.mind(&cautions);
    Some(())
}

pub(super) fn heat(section: &Section<'_>, writer: &mut Writer<'_>) -> Option<()> {
    let pile = writer.pile(section)?;
    let scales = [
        ("temperature_c", Bounds::between(-60.0, 100.0, "°C")),
        ("temperature_f", Bounds::between(-76.0, 212.0, "°F")),
    ];
    // Hotter than boiling water: most likely the other scale, which is asked, not guessed.
    if let Some(written) = section.finite("temperature_c").filter(|written| *written > 100.0) {
        let what = Message::new("heat-above-boiling").text("value", written);
        section.complain("temperature_c", what, Some(Message::new("enter-perhaps-fahrenheit")));
        return None;
    }
    let temperature = match section.one_of(&scales, true)? {
        ("temperature_f", figure) => Temperature::from_f(figure),
        (_, figure) => Temperature::from_c(figure),
    };
    let minute = match section.text("time") {
        None => None,
        Some(time) => {
            let Ok(read) = NaiveTime::parse_from_str(time, "%H:%M") else {
                let what = Message::new("enter-no-time").text("value", time);
                section.complain("time", what, Some(Message::new("enter-write-time")));
                return None;
            };
            u16::try_from(read.hour() * 60 + read.minute()).ok()
        }
    };
    let new = NewHeat {
        pile: pile.id,
        zone: section.text("zone"),
        depth: section.number("depth_cm", Bounds::between(0.0, 1_000.0, "cm")).map(Length::from_cm),
        temperature,
        smoke: section.flag("smoke"),
        minute,
    };
    let moment = writer.moment();
    let read = read_heat::read(writer.book, &new, moment);
    let (entry, _, cautions) = Writer::heed(section, read)?;
    writer.entries.push(entry);
    writer.mind(&cautions);
    Some(())
}

pub(super) fn moisture(section: &Section<'_>, writer: &mut Writer<'_>) -> Option<()> {
    let pile = writer.pile(section)?;
    let moisture = section.required_number("moisture_pct", Bounds::between(0.0, 95.0, "%"))?;
    let moment = writer.moment();
    let zone = section.text("zone");
    let read = read_moisture::read(writer.book, pile.id, zone, Share::from_percent(moisture), moment);
    writer.keep(section, read).map(drop)
}

pub(super) fn finished(section: &Section<'_>, writer: &mut Writer<'_>) -> Option<()> {
    let pile = writer.pile(section)?;
    let name = section.required_text("name");
    let barrows = section.number("barrows", BARROWS);
    let volume = section.number("volume_m3", VOLUME_M3).map(Volume::from_m3);
    let new = NewBatch {
        pile: pile.id,
        label: name?,
        material: section.text("material"),
        wet: section.number("wet_kg", WET_KG).map(Mass::from_kg),
        volume: volume.or(barrows.map(|count| writer.containers.barrow * count)),
        moisture: events::moisture(section).map(Share::from_percent),
        carbon_nitrogen: section.number("carbon_nitrogen", events::CARBON_NITROGEN),
    };
    let moment = writer.moment();
    let finished = finish_pile::finish(writer.book, &new, moment);
    let finished = Writer::heed(section, finished)?;
    writer.entries.push(finished.batch);
    writer.mind(&finished.cautions);
    Some(())
}
