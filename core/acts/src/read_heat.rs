//! Reading a pile's heat.

use kerfbook_ledger::kind::HeatRead;
use kerfbook_ledger::projection::view::Said;
use kerfbook_ledger::{Book, EntryId, Label};
use kerfbook_science::caution::{self, AtPile, Caution};
use kerfbook_science::compost::fire::FireLevel;
use kerfbook_science::compost::heat_log::HOTTEST;
use kerfbook_science::units::{Length, Temperature};

use crate::error::ActError;
use crate::figure::{between, whole_u32};
use crate::moment::Moment;
use crate::pile::standing;
use crate::take_in_load::first;

/// One reading.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NewHeat<'a> {
    /// Of which pile.
    pub pile: EntryId,
    /// Zone or probe, where there are several.
    pub zone: Option<&'a str>,
    /// How deep the probe was.
    pub depth: Option<Length>,
    /// What it read.
    pub temperature: Temperature,
    /// Smoke was seen or smelt.
    pub smoke: bool,
    /// Minute of the day, where it is known.
    pub minute: Option<u16>,
}

/// Writes a reading; its fire level and what to heed come with it.
///
/// # Errors
/// A pile that is not there, is a batch already, or was built later; a zone that was read at that time already; a temperature that no pile has (then the scale is to
/// be asked for); or a book that cannot be written.
pub fn read(
    book: &mut Book,
    new: &NewHeat<'_>,
    moment: Moment,
) -> Result<(EntryId, FireLevel, Vec<&'static Caution>), ActError> {
    let pile = standing(book, new.pile, moment.date)?;
    between("temperature_c", Some(new.temperature.c()), -60.0, HOTTEST.value.c())?;
    between("depth_cm", new.depth.map(Length::cm), 0.0, 1_000.0)?;
    let depth_mm = new.depth.map(|depth| whole_u32(depth.mm()));
    let same = |read: &Said<HeatRead>| {
        let zone = read.body.zone.as_ref().map(Label::as_str);
        let when = read.date.naive() == moment.date && read.minute == new.minute;
        when && zone == new.zone && read.body.depth_mm == depth_mm
    };
    if pile.heat.iter().any(same) {
        return Err(ActError::ReadTwice { zone: new.zone.unwrap_or_default().to_owned() });
    }
    let level = FireLevel::of(new.temperature, None, new.smoke);
    let body = HeatRead {
        zone: new.zone.map(Label::new).transpose()?,
        depth_mm,
        temperature_centi_c: centi(new.temperature),
        smoke: new.smoke,
    };
    let mut draft = moment.draft(body)?.about(new.pile);
    draft.when.minute = new.minute.or(draft.when.minute);
    let entry = first(&book.append(&[draft], &[], moment.wall_ms)?)?;
    Ok((entry, level, caution::at_pile(AtPile::Reading(level))))
}

/// Whole hundredths of a degree.
#[expect(clippy::cast_possible_truncation, reason = "between -60 and 100 degrees")]
fn centi(temperature: Temperature) -> i32 {
    (temperature.c() * 100.0).round() as i32
}
