//! A pile as the book tells it: what it is made of, its heat log, and what is next.

use std::collections::BTreeMap;

use chrono::NaiveDate;
use kerfbook_ledger::{Book, Date, EntryId, PileView};
use kerfbook_science::compost::heat_log::{Log, Reading};
use kerfbook_science::compost::heat_rule::{self, Rule};
use kerfbook_science::compost::loss::{self, Span};
use kerfbook_science::compost::mix::{CARBON_OF_VOLATILE_SOLIDS, Composition, Mix};
use kerfbook_science::units::{Mass, Share, Temperature};
use kerfbook_words::Words;

use crate::error::ActError;
use crate::heat::Heat;
use crate::maturity;
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

/// A pile's heat as a chart takes it: days from the one on which it was built.
#[derive(Debug, Clone, PartialEq)]
pub struct Course {
    /// The day on which it was built.
    pub first: NaiveDate,
    /// The day of the last reading.
    pub last: NaiveDate,
    /// Day and reading of each zone, by rising day.
    pub zones: BTreeMap<String, Vec<(f64, Temperature)>>,
    /// The lines of its rule, each with its words: what counts, and what is too hot.
    pub limits: Vec<(Temperature, String)>,
    /// Days on which it was turned.
    pub turnings: Vec<f64>,
}

impl Course {
    /// Of a pile; none where nobody read its heat.
    pub fn of(pile: &PileView, words: &Words) -> Option<Self> {
        let (log, first) = (log(pile, words), pile.date.naive());
        let last = log.readings.iter().map(|reading| reading.date).max()?;
        let day = |date: NaiveDate| (date - first).num_days() as f64;
        let mut zones: BTreeMap<String, Vec<(f64, Temperature)>> = BTreeMap::new();
        for reading in &log.readings {
            let at = day(reading.date) + f64::from(reading.minute.unwrap_or(0)) / 1440.0;
            zones.entry(reading.zone.clone()).or_default().push((at, reading.temperature));
        }
        let told = |id, heat| (heat, words.say(id, &[("heat", words.temperature(heat))]));
        let limits = rule(pile).into_iter().flat_map(|rule| {
            let upper = rule.upper.map(|upper| told("pile-too-hot-above", upper));
            std::iter::once(told("pile-counts-from", rule.at_least)).chain(upper)
        });
        let turnings = log.turnings.iter().map(|date| day(*date)).collect();
        Some(Self { first, last, zones, limits: limits.collect(), turnings })
    }

    /// Days from the first to the last reading.
    pub fn days(&self) -> f64 {
        (self.last - self.first).num_days() as f64
    }
}

/// The rule that a pile is to meet; none where it has none.
pub fn rule(pile: &PileView) -> Option<&'static Rule> {
    heat_rule::find(pile.rule.as_ref()?.as_str()).exact()
}

/// Its log under the rule that it is to meet; `None` where it has none.
pub fn judged(pile: &PileView, words: &Words) -> Option<Heat> {
    let mut heat = Heat::of(&log(pile, words), rule(pile)?, None);
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
        match maturity::of_batch(&batch, on) {
            Some(ready) => said.extend(ready.told(words)),
            None => said.push(words.label("maturity-untested")),
        }
    }
    Ok(said)
}

/// Days since it was built, or until it was finished.
pub fn age(pile: &PileView, on: NaiveDate) -> i64 {
    let end = pile.finished.first().map_or(on, |end| Date::naive(end.date));
    (end - pile.date.naive()).num_days()
}
