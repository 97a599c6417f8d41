//! A pile as the book tells it: what it is made of, its heat log, and what is next.

use chrono::NaiveDate;
use kerfbook_ledger::{Book, Date, EntryId, PileView};
use kerfbook_science::compost::heat_log::{Log, Reading};
use kerfbook_science::compost::heat_rule;
use kerfbook_science::compost::mix::{CARBON_OF_VOLATILE_SOLIDS, Composition, Mix};
use kerfbook_science::units::{Mass, Share, Temperature};
use kerfbook_words::Words;

use crate::error::ActError;
use crate::heat::Heat;
use crate::measure::Figures;
use crate::mix::{Stated, composition};

/// A pile that stands on a day.
pub(crate) fn standing(book: &Book, pile: EntryId, on: NaiveDate) -> Result<PileView, ActError> {
    let view = book.pile(pile)?.ok_or(ActError::NotThere { what: "pile" })?;
    if !view.stands() {
        return Err(ActError::ClosedAlready { what: "pile" });
    }
    if view.date.naive() > on {
        return Err(ActError::Before { what: "pile", first: view.date.naive() });
    }
    Ok(view)
}

/// What a batch of such figures is made of, each kg; none where they make nothing that can be.
pub(crate) fn composition_of(figures: &Figures) -> Option<Composition> {
    let stated = Stated {
        moisture: Some(figures.moisture),
        carbon_nitrogen: Some(figures.carbon_nitrogen),
        ..Stated::default()
    };
    composition(Some(figures.material), &stated).ok()
}

/// What went into a pile, and the organic part of its dry mass.
pub(crate) fn made_of(book: &Book, pile: &PileView) -> Result<(Mix, Share), ActError> {
    let mut inside = Vec::new();
    for part in &pile.parts {
        let Some(batch) = book.batch(part.batch)? else { continue };
        let figures = Figures::of(&batch, pile.date.naive())?;
        let whole = |figure: Option<u64>| figure.and_then(|figure| i64::try_from(figure).ok());
        let Some(wet) = figures.mass(whole(part.wet_g), whole(part.volume_ml)) else { continue };
        inside.extend(composition_of(&figures).map(|of| of.times(wet)));
    }
    let water = pile.water_ml.map(|grams| Mass::from_g(grams as f64));
    inside.extend(water.map(|water| Composition::WATER.times(water)));
    let mix = Mix::of(&inside);
    if mix.dry().kg() <= 0.0 {
        return Err(ActError::NoPile);
    }
    let organic = mix.carbon.kg() / mix.dry().kg() / CARBON_OF_VOLATILE_SOLIDS.value;
    Ok((mix, Share::from_fraction(organic.min(1.0))))
}

/// The last moisture that was read in it.
pub(crate) fn moisture_of(pile: &PileView) -> Option<Share> {
    pile.moistures.last().map(|read| Share::from_percent(f64::from(read.body.moisture_bp) / 100.0))
}

/// The heat log of a pile. Readings without a zone are of the pile as a whole.
pub fn log(pile: &PileView, words: &Words) -> Log {
    let share = |bp: u32| Share::from_percent(f64::from(bp) / 100.0);
    Log {
        readings: pile
            .heat
            .iter()
            .map(|read| Reading {
                date: read.date.naive(),
                minute: read.minute,
                zone: read
                    .body
                    .zone
                    .as_ref()
                    .map_or_else(|| words.label("heat-zone-whole"), |zone| zone.as_str().to_owned()),
                depth_cm: read.body.depth_mm.map(|depth| f64::from(depth) / 10.0),
                temperature: Temperature::from_c(f64::from(read.body.temperature_centi_c) / 100.0),
            })
            .collect(),
        turnings: pile.turnings.iter().map(|turned| turned.date.naive()).collect(),
        moistures: pile
            .moistures
            .iter()
            .map(|read| (read.date.naive(), share(read.body.moisture_bp)))
            .collect(),
        smoke: pile.heat.iter().filter(|read| read.body.smoke).map(|read| read.date.naive()).collect(),
    }
}

/// Its log under the rule that it is to meet; `None` where it has none.
pub fn judged(pile: &PileView, words: &Words) -> Option<Heat> {
    let rule = heat_rule::find(pile.rule.as_ref()?.as_str()).exact()?;
    Some(Heat::of(&log(pile, words), rule, None))
}

/// Days since it was built, or until it was finished.
pub fn age(pile: &PileView, on: NaiveDate) -> i64 {
    let end = pile.finished.first().map_or(on, |end| Date::naive(end.date));
    (end - pile.date.naive()).num_days()
}
