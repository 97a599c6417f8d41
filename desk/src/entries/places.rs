//! Places and their end.

use kerfbook_acts::set_up_place::{self, NewSetting};
use kerfbook_acts::{close_place, outline_place};
use kerfbook_ledger::EntryId;
use kerfbook_ledger::kind::Cover;
use kerfbook_science::plain::Watering;

use super::trees;
use super::writer::Writer;
use crate::scenario::ground;
use crate::toml_file::section::Section;

const COVERS: [(&str, Cover); 4] =
    [("none", Cover::None), ("roof", Cover::Roof), ("tunnel", Cover::Tunnel), ("unknown", Cover::Unknown)];

pub(super) fn place(section: &Section<'_>, writer: &mut Writer<'_>) -> Option<()> {
    if section.has("row_trees") {
        trees::rows(section, writer)?;
    } else {
        let name = section.required_text("name")?;
        let count = section.count("plants", 1_000_000);
        let place = ground::measured_place(section)?;
        let moment = writer.moment();
        let outlined = outline_place::outline(writer.book, name, &place, count, moment);
        writer.keep(section, outlined)?;
    }
    if section.has("cover") || section.has("watered") {
        let place = *writer.entries.last()?;
        set_up(section, writer, place)?;
    }
    Some(())
}

/// What is over a place and how it is watered, from a day on.
pub(super) fn setting(section: &Section<'_>, writer: &mut Writer<'_>) -> Option<()> {
    let place = writer.place(section)?;
    if !section.has("cover") && !section.has("watered") {
        section.missing("cover", None);
        return None;
    }
    set_up(section, writer, place.id)
}

fn set_up(section: &Section<'_>, writer: &mut Writer<'_>, place: EntryId) -> Option<()> {
    let new = NewSetting {
        place,
        cover: section.choice("cover", &COVERS),
        watered: section.choice("watered", &Watering::choices()),
    };
    let moment = writer.moment();
    let set = set_up_place::set_up(writer.book, &new, moment);
    writer.keep(section, set).map(drop)
}

pub(super) fn closed(section: &Section<'_>, writer: &mut Writer<'_>) -> Option<()> {
    let place = writer.place(section)?;
    let moment = writer.moment();
    let closed = close_place::close(writer.book, place.id, None, moment);
    writer.keep(section, closed).map(drop)
}
