//! What grows: crops, feeds, water.

use kerfbook_acts::give_feed::{self, NewFeed};
use kerfbook_acts::give_water::{self, Watering};
use kerfbook_acts::grow_crop;
use kerfbook_acts::scenario::Placed;
use kerfbook_science::units::{AreaMass, Length};

use super::writer::Writer;
use crate::fault::Message;
use crate::scenario::{events, names};
use crate::toml_file::section::{Bounds, Section};

pub(super) fn crop(section: &Section<'_>, writer: &mut Writer<'_>) -> Option<()> {
    let place = writer.place(section)?;
    let crop = events::one_crop(section)?;
    let moment = writer.moment();
    let started = grow_crop::start(writer.book, place.id, &crop, moment);
    writer.keep(section, started).map(drop)
}

/// Ends the crop of that name that stands at the place.
pub(super) fn ended(section: &Section<'_>, writer: &mut Writer<'_>) -> Option<()> {
    let place = writer.place(section)?;
    let name = section.required_text("crop")?;
    if !section.has("fate") {
        section.missing("fate", None);
    }
    let fate = section.choice("fate", &events::FATES)?;
    let standing = place.crops.iter().find(|crop| crop.crop.as_str() == name && crop.ended.is_none());
    let Some(standing) = standing else {
        let what = Message::new("enter-no-such-crop").text("name", name);
        section.complain("crop", what, Some(Message::new("enter-no-such-crop-remedy")));
        return None;
    };
    let yielded = section.number("yield_kg", Bounds::between(0.0, 1e7, "kg"));
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "within bounds")]
    let yield_g = yielded.map(|kg| (kg * 1000.0).round() as u64);
    let moment = writer.moment();
    let ended = grow_crop::end(writer.book, place.id, standing.entry, fate, yield_g, moment);
    writer.keep(section, ended).map(drop)
}

pub(super) fn feed(section: &Section<'_>, writer: &mut Writer<'_>) -> Option<()> {
    let place = writer.place(section)?;
    let source = section.required_text("source")?;
    let source = names::feed(section, "source", source)?;
    let dose = Bounds::between(0.0, 1_000.0, "kg/ha");
    let crop = section.number("crop_kg_ha", dose);
    let wood = section.number("wood_kg_ha", dose);
    if !section.has("crop_kg_ha") && !section.has("wood_kg_ha") {
        section.missing("crop_kg_ha", None);
        return None;
    }
    let placed =
        if section.has("placed") { section.choice("placed", &events::PLACED)? } else { Placed::Mixed };
    let new = NewFeed {
        place: place.id,
        source: source.name,
        crop: AreaMass::from_kg_ha(crop.unwrap_or(0.0)),
        wood: AreaMass::from_kg_ha(wood.unwrap_or(0.0)),
        placed,
    };
    let (holding, moment) = (writer.holding(), writer.moment());
    let given = give_feed::give(writer.book, &new, &holding, moment);
    let (entry, cautions) = Writer::heed(section, given)?;
    writer.entries.push(entry);
    writer.mind(&cautions);
    Some(())
}

pub(super) fn water(section: &Section<'_>, writer: &mut Writer<'_>) -> Option<()> {
    let place = writer.place(section)?;
    let depth = section.required_number("mm", Bounds::above_zero(300.0, "mm"))?;
    let moment = writer.moment();
    let watering = Watering::Depth(Length::from_mm(depth));
    let given = give_water::give(writer.book, place.id, watering, section.flag("under"), moment);
    writer.keep(section, given).map(drop)
}
