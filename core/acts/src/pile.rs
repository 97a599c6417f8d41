//! A pile as the book tells it: what it is made of, its heat log, and what is next.

use std::sync::Arc;

use chrono::NaiveDate;
use kerfbook_ledger::{BatchView, Book, Date, EntryId, Label, PileView};
use kerfbook_science::compost::heat_log::{Log, Reading};
use kerfbook_science::compost::heat_rule::{self, Rule};
use kerfbook_science::compost::loss::{self, Span};
use kerfbook_science::compost::mix::{CARBON_OF_VOLATILE_SOLIDS, Composition, Mix};
use kerfbook_science::units::{Mass, Share, Temperature};
use kerfbook_words::Words;

use crate::error::ActError;
use crate::heat::{Heat, WHOLE};
use crate::maturity;
use crate::measure::Figures;
use crate::mix::{Stated, composition};

/// A pile that stands on a day.
pub(crate) fn standing(book: &Book, pile: EntryId, on: NaiveDate) -> Result<Arc<PileView>, ActError> {
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
pub fn log(pile: &PileView) -> Log {
    let share = |bp: u32| Share::from_percent(f64::from(bp) / 100.0);
    Log {
        readings: pile
            .heat
            .iter()
            .map(|read| Reading {
                date: read.date.naive(),
                minute: read.minute,
                zone: read.body.zone.as_ref().map_or(WHOLE, Label::as_str).to_owned(),
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

/// The rule that a pile is to meet; none where it has none.
pub fn rule(pile: &PileView) -> Option<&'static Rule> {
    heat_rule::find(pile.rule.as_ref()?.as_str()).exact()
}

/// Its log under the rule that it is to meet; `None` where it has none.
pub fn judged(pile: &PileView) -> Option<Heat> {
    let mut heat = Heat::of(&log(pile), rule(pile)?, None);
    if !pile.stands() {
        // Nobody turns what was taken down.
        heat.triggers.clear();
    }
    Some(heat)
}

/// Carbon to nitrogen as it is likely to stand on a day, from what it was built at and the usual losses: low, usual, high.
pub fn carbon_nitrogen_on(pile: &PileView, on: NaiveDate) -> Option<Span> {
    let start = f64::from(pile.carbon_nitrogen_x100?) / 100.0;
    Some(loss::band(start, age(pile, on) as f64))
}

/// How a pile stands: its carbon to nitrogen as a band, how long it cured, and of a batch that it became whether that is
/// ready.
///
/// # Errors
/// A book that cannot be read.
pub fn state_told(
    book: &Book,
    pile: &PileView,
    on: NaiveDate,
    words: &Words,
) -> Result<Vec<String>, ActError> {
    let mut said = Vec::new();
    if let Some(band) = carbon_nitrogen_on(pile, on) {
        let around =
            words.around(words.rounded(band.typical), &words.rounded(band.low), &words.rounded(band.high));
        let id = if pile.stands() { "pile-ratio-now" } else { "pile-ratio-at-end" };
        let source = words.standing(loss::DAYS.source.standing);
        said.push(words.say(id, &[("ratio", around), ("standing", source)]));
    }
    said.extend(maturity::cure_told(pile, on, words));
    for end in &pile.finished {
        let Some(batch) = book.batch(end.entry)? else { continue };
        said.extend(ash_told(book, pile, &batch, words)?);
        match maturity::of_batch(&batch, on) {
            Some(ready) => said.extend(ready.told(words)),
            None => said.push(words.label("maturity-untested")),
        }
    }
    Ok(said)
}

/// What the ash of both ends says of a pile; nothing where it was not tested in all that went in and in the batch.
fn ash_told(
    book: &Book,
    pile: &PileView,
    batch: &BatchView,
    words: &Words,
) -> Result<Option<String>, ActError> {
    let (Some(before), Some(after)) = (ash_that_went_in(book, pile)?, ash_of(batch, None)) else {
        return Ok(None);
    };
    Ok(Some(match loss::dry_matter_lost(before, after) {
        Some(lost) => words.say("pile-ash-lost", &[("lost", words.percent(lost))]),
        None => words.label("pile-ash-at-odds"),
    }))
}

/// Ash by dry mass of what went in, where it was tested in every part until the day on which the pile was built.
fn ash_that_went_in(book: &Book, pile: &PileView) -> Result<Option<Share>, ActError> {
    let (mut ash, mut all) = (0.0, 0.0);
    for part in &pile.parts {
        let Some(batch) = book.batch(part.batch)? else { return Ok(None) };
        let Some(share) = ash_of(&batch, Some(pile.date)) else { return Ok(None) };
        let figures = Figures::of(&batch, pile.date.naive())?;
        let whole = |figure: Option<u64>| figure.and_then(|figure| i64::try_from(figure).ok());
        let Some(wet) = figures.mass(whole(part.wet_g), whole(part.volume_ml)) else { return Ok(None) };
        let dry = wet.kg() * (1.0 - figures.moisture.fraction());
        ash += dry * share.fraction();
        all += dry;
    }
    Ok((all > 0.0).then(|| Share::from_fraction(ash / all)))
}

/// The last ash that was tested in a batch, until a day.
fn ash_of(batch: &BatchView, until: Option<Date>) -> Option<Share> {
    let mut tests = batch.tests.iter().rev().filter(|test| until.is_none_or(|until| test.date <= until));
    tests.find_map(|test| test.body.ash_bp).map(|bp| Share::from_percent(f64::from(bp) / 100.0))
}

/// Days since it was built, or until it was finished.
pub fn age(pile: &PileView, on: NaiveDate) -> i64 {
    let end = pile.finished.first().map_or(on, |end| Date::naive(end.date));
    (end - pile.date.naive()).num_days()
}
