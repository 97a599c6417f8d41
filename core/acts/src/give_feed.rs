//! Giving nitrogen, split into what the crop would get anyway and what is because of the wood.

use kerfbook_ledger::kind::{FeedGiven, Placed as EntryPlaced};
use kerfbook_ledger::{Book, EntryId, Label};
use kerfbook_science::caution::Caution;
use kerfbook_science::crop;
use kerfbook_science::feed::Amount;
use kerfbook_science::units::{Area, AreaMass};

use crate::cautions;
use crate::error::ActError;
use crate::figure::{grams, millilitres, whole};
use crate::moment::Moment;
use crate::scenario::{Holding, Placed};
use crate::site;
use crate::take_in_load::first;

/// A feed as it was given.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NewFeed<'a> {
    /// Where.
    pub place: EntryId,
    /// Name in the table of feeds.
    pub source: &'a str,
    /// Part for the crop anyway.
    pub crop: AreaMass,
    /// Part because of the wood.
    pub wood: AreaMass,
    /// Where it goes.
    pub placed: Placed,
}

/// Gives a feed; the holding is there for the cautions.
///
/// # Errors
/// A source or place that is not known, or a book that cannot be written.
pub fn give(
    book: &mut Book,
    new: &NewFeed<'_>,
    holding: &Holding,
    moment: Moment,
) -> Result<(EntryId, Vec<&'static Caution>), ActError> {
    let place = book.place(new.place)?.ok_or(ActError::NotThere { what: "place" })?;
    let source = site::find_feed(new.source)?;
    let area = Area::from_m2(place.area_mm2 as f64 / 1e6);
    let milligrams = |dose: AreaMass| whole(area.mass_of(dose).g() * 1000.0);
    let amount = source.amount_for(area.mass_of(new.crop + new.wood));
    let body = FeedGiven {
        source: Label::new(source.name)?,
        nitrogen_mg: milligrams(new.crop + new.wood),
        product_g: match amount {
            Amount::Product(mass) => Some(grams(mass)),
            Amount::Liquid(_) => None,
        },
        volume_ml: match amount {
            Amount::Product(_) => None,
            Amount::Liquid(volume) => Some(millilitres(volume)),
        },
        placed: match new.placed {
            Placed::Mixed => EntryPlaced::Mixed,
            Placed::Under => EntryPlaced::Under,
            Placed::Top => EntryPlaced::Top,
        },
        crop_mg: Some(milligrams(new.crop)),
        wood_mg: Some(milligrams(new.wood)),
    };
    let entry = first(&book.append(&[moment.draft(body)?.about(new.place)], &[], moment.wall_ms)?)?;
    let woody = place
        .crops
        .iter()
        .filter(|line| line.ended.is_none_or(|ended| ended.naive() >= moment.date))
        .any(|line| crop::find(line.crop.as_str()).exact().is_some_and(|crop| crop.per_tree().is_some()));
    Ok((entry, cautions::of_given(holding, woody, source, new.crop + new.wood)))
}
