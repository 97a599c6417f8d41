//! What is put down, worked in and lifted.

use kerfbook_acts::lift_layer::{self, NewLift};
use kerfbook_acts::put_down::{self, NewPutDown};
use kerfbook_acts::scenario::Amount;
use kerfbook_acts::work_soil::{self, NewWorking};
use kerfbook_ledger::EntryId;
use kerfbook_ledger::kind::Tool;
use kerfbook_science::plain::LaidBy;
use kerfbook_science::units::{AreaMass, Length, Mass, Share, Volume};

use super::batches::{BARROWS, VOLUME_M3, WET_KG};
use super::trees;
use super::writer::Writer;
use crate::fault::Message;
use crate::scenario::events;
use crate::toml_file::section::{Bounds, Section};

const TOOLS: [(&str, Tool); 6] = [
    ("hoe", Tool::Hoe),
    ("fork", Tool::Fork),
    ("spade", Tool::Spade),
    ("tiller", Tool::Tiller),
    ("plough", Tool::Plough),
    ("unknown", Tool::Unknown),
];

pub(super) fn put_down(section: &Section<'_>, writer: &mut Writer<'_>) -> Option<()> {
    let place = writer.place(section);
    let batch = writer.batch(section, "batch");
    if !section.has("way") {
        section.missing("way", None);
    }
    let way = section.choice("way", &events::WAYS);
    let (name, value) = section.one_of(
        &[
            ("dry_mass_t_ha", Bounds::above_zero(1_000.0, "t/ha")),
            ("wet_kg", WET_KG),
            ("volume_m3", VOLUME_M3),
            ("depth_mm", Bounds::above_zero(1_500.0, "mm")),
            ("settled_depth_mm", Bounds::above_zero(1_500.0, "mm")),
            ("fingers", Bounds::above_zero(events::MOST_FINGERS, "")),
            ("hands", Bounds::above_zero(events::MOST_HANDS, "")),
            ("barrows", BARROWS),
            ("trailers", BARROWS),
        ],
        true,
    )?;
    let amount = match name {
        "dry_mass_t_ha" => Amount::DryPerArea(AreaMass::from_t_ha(value)),
        "wet_kg" => Amount::Wet(Mass::from_kg(value)),
        "volume_m3" => Amount::Loose(Volume::from_m3(value)),
        "depth_mm" => Amount::Depth(Length::from_mm(value)),
        "settled_depth_mm" => Amount::SettledDepth(Length::from_mm(value)),
        "fingers" => Amount::Laid { by: LaidBy::Fingers, count: value },
        "hands" => Amount::Laid { by: LaidBy::Hands, count: value },
        "trailers" => Amount::Trailers(value),
        _ => Amount::Barrows(value),
    };
    let new = NewPutDown { place: place?.id, batch: batch?.id, way: way?, amount, over: None };
    let (containers, moment) = (writer.containers, writer.moment());
    let run = trees::run(section)?;
    let laid = put_down::on_trees(writer.book, &new, run.as_ref(), &containers, moment);
    writer.keep(section, laid).map(drop)
}

/// Works the soil; what that changes under a mulch is told before it is saved.
pub(super) fn worked(section: &Section<'_>, writer: &mut Writer<'_>) -> Option<()> {
    let place = writer.place(section)?;
    let new = NewWorking {
        place: place.id,
        depth: section.number("depth_cm", Bounds::between(1.0, 100.0, "cm")).map(Length::from_cm),
        share: section.number("share_pct", Bounds::above_zero(100.0, "%")).map(Share::from_percent),
        tool: section.choice("tool", &TOOLS),
    };
    if !section.has("depth_cm") && !section.has("tool") {
        section.missing("depth_cm", None);
        return None;
    }
    writer.warn_of_digging_in(&place, &new);
    let moment = writer.moment();
    let worked = work_soil::work(writer.book, &new, moment);
    writer.keep(section, worked).map(drop)
}

pub(super) fn lifted(section: &Section<'_>, writer: &mut Writer<'_>) -> Option<()> {
    let place = writer.place(section)?;
    let name = section.required_text("name")?;
    let lying: Vec<_> = place.layers.iter().filter(|layer| layer.lies_bp > 0).collect();
    let layer: Option<EntryId> = if section.has("batch") {
        let batch = writer.batch(section, "batch")?;
        lying.iter().rev().find(|layer| layer.batch == batch.id).map(|layer| layer.entry)
    } else if let [layer] = lying[..] {
        Some(layer.entry)
    } else {
        if lying.len() > 1 {
            section.complain("batch", Message::new("enter-which-layer"), Some(section.advice("batch")));
            return None;
        }
        None
    };
    let Some(layer) = layer else {
        section.complain("place", Message::new("enter-nothing-lies"), None);
        return None;
    };
    let barrows = section.number("barrows", BARROWS);
    let volume = section.number("volume_m3", VOLUME_M3).map(Volume::from_m3);
    let new = NewLift {
        place: place.id,
        layer,
        label: name,
        share: section.number("share_pct", Bounds::above_zero(100.0, "%")).map(Share::from_percent),
        wet: section.number("wet_kg", WET_KG).map(Mass::from_kg),
        volume: volume.or(barrows.map(|count| writer.containers.barrow * count)),
        moisture: events::moisture(section).map(Share::from_percent),
    };
    let moment = writer.moment();
    let lifted = lift_layer::lift(writer.book, &new, moment);
    writer.keep(section, lifted).map(drop)
}
