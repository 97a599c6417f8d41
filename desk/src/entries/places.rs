//! Places and their end.

use kerfbook_acts::{close_place, outline_place};

use super::trees;
use super::writer::Writer;
use crate::scenario::ground;
use crate::toml_file::section::Section;

pub(super) fn place(section: &Section<'_>, writer: &mut Writer<'_>) -> Option<()> {
    if section.has("row_trees") {
        return trees::rows(section, writer);
    }
    let name = section.required_text("name")?;
    let count = section.count("plants", 1_000_000);
    let place = ground::measured_place(section)?;
    let moment = writer.moment();
    let outlined = outline_place::outline(writer.book, name, &place, count, moment);
    writer.keep(section, outlined).map(drop)
}

pub(super) fn closed(section: &Section<'_>, writer: &mut Writer<'_>) -> Option<()> {
    let place = writer.place(section)?;
    let moment = writer.moment();
    let closed = close_place::close(writer.book, place.id, None, moment);
    writer.keep(section, closed).map(drop)
}
