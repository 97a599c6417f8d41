//! What is there: every batch, what came, where it went, what is left, by mass and in the grower's containers.
//! A balance below zero is told as it is.

use chrono::NaiveDate;
use kerfbook_ledger::kind::Answer;
use kerfbook_ledger::projection::batch::{Origin, Use};
use kerfbook_ledger::{BatchView, Book, Date, EntryId, Flag};
use kerfbook_science::compost::maturity::Maturity;
use kerfbook_science::units::{Mass, Volume};
use kerfbook_words::Words;

use crate::error::ActError;
use crate::intake::has_wood;
use crate::load::{Carried, Counted};
use crate::maturity;
use crate::measure::Figures;
use crate::scenario::Containers;

/// A batch in the stock.
#[derive(Debug, Clone, PartialEq)]
pub struct Stock {
    /// The batch.
    pub batch: EntryId,
    /// What it is called.
    pub label: String,
    /// Name in the table of materials.
    pub material: &'static str,
    /// What opened it.
    pub origin: Origin,
    /// When it came.
    pub date: NaiveDate,
    /// What came, or what was counted last.
    pub came: Option<Amount>,
    /// Day of that count, where it was counted.
    pub counted: Option<NaiveDate>,
    /// Where it went since, in order of days.
    pub went: Vec<Went>,
    /// What is left; below zero where more went than was there. `None` where nobody knows how much came.
    pub left: Option<Amount>,
    /// What has to be said about it.
    pub notes: Vec<StockNote>,
}

/// An amount in both measures: one stands in the book, the other follows from the bulk density of that day.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Amount {
    /// Moist mass.
    pub wet: Mass,
    /// Loose volume.
    pub volume: Volume,
}

/// Part of a batch that went somewhere.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Went {
    /// The putting down, or the blend that took it.
    pub entry: EntryId,
    /// When.
    pub date: NaiveDate,
    /// The place; `None` where a blend took it.
    pub place: Option<EntryId>,
    /// How much; `None` where nobody said.
    pub amount: Option<Amount>,
}

/// What has to be said about a batch.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum StockNote {
    /// More went than was there: an entry is wrong, or a count would settle it.
    Overdrawn,
    /// So many uses have no amount, and what is left does not include them.
    Unknown(u32),
    /// Seedlings grown in it were hurt.
    SeedlingsHurt,
    /// It smells sour.
    Sour,
    /// A test says that a compost is not ready.
    NotReady,
    /// Nobody knows whether treated, painted or glued wood is in it.
    TreatmentUnknown,
    /// Two people changed one of its entries without knowing of each other.
    Unsettled,
    /// An entry about it rests on one that was withdrawn or is not there; it stands in no sum.
    Doubtful,
}

impl StockNote {
    /// As a phrase.
    pub fn told(self, words: &Words) -> String {
        match self {
            Self::Overdrawn => words.label("stock-overdrawn"),
            Self::Unknown(count) => words.say("stock-unknown", &[("count", count.to_string())]),
            Self::Sour => words.label("stock-sour"),
            Self::TreatmentUnknown => words.label("stock-treatment-unknown"),
            Self::Unsettled => words.label("stock-unsettled"),
            Self::Doubtful => words.label("stock-doubtful"),
            Self::SeedlingsHurt => words.label("stock-seedlings-hurt"),
            Self::NotReady => words.label("stock-not-ready"),
        }
    }
}

impl Amount {
    /// In the container of the grower's that suits it; below zero where it is.
    pub fn told_in(&self, containers: &Containers) -> (Carried, f64) {
        let sign = if self.volume.litres() < 0.0 { -1.0 } else { 1.0 };
        let (carried, count) = Counted::of(self.volume * sign, containers).told_in();
        (carried, count * sign)
    }
}

/// All batches that were not withdrawn, in the order in which they came.
///
/// # Errors
/// A book that cannot be read, or a material that the table does not know.
pub fn stock(book: &Book) -> Result<Vec<Stock>, ActError> {
    let mut views = book.batches()?;
    views.retain(|view| !view.withdrawn());
    views.sort_by_key(|view| (view.date, view.id));
    views.iter().map(|view| of(view)).collect()
}

/// One batch.
///
/// # Errors
/// A material that the table does not know, or a day that no entry can hold.
pub fn of(view: &BatchView) -> Result<Stock, ActError> {
    let amount = |date: Date, wet_g: Option<u64>, volume_ml: Option<u64>| {
        let figures = Figures::of(view, date.naive())?;
        let (grams, millilitres) = (wet_g.map(signed), volume_ml.map(signed));
        Ok::<_, ActError>(
            figures
                .mass(grams, millilitres)
                .zip(figures.volume(grams, millilitres))
                .map(|(wet, volume)| Amount { wet, volume }),
        )
    };
    // A count without a minute stands for the evening of its day, a use without one for the morning.
    let counted = view
        .recounts
        .iter()
        .map(|count| (count.date, count.minute.unwrap_or(u16::MAX), &count.body))
        .max_by_key(|(date, minute, _)| (*date, *minute));
    let came = match counted {
        Some((date, _, count)) => amount(date, count.wet_g, count.volume_ml)?,
        None => amount(view.date, view.wet_g, view.volume_ml)?,
    };
    let since = |part: &&Use| {
        counted.is_none_or(|(date, minute, _)| (part.date, part.minute.unwrap_or(0)) > (date, minute))
    };
    let mut went = Vec::new();
    for part in view.uses.iter().filter(since) {
        went.push(Went {
            entry: part.entry,
            date: part.date.naive(),
            place: part.place,
            amount: amount(part.date, part.wet_g, part.volume_ml)?,
        });
    }
    let left = came.map(|came| {
        went.iter()
            .filter_map(|part| part.amount)
            .fold(came, |left, part| Amount { wet: left.wet - part.wet, volume: left.volume - part.volume })
    });
    let material = Figures::of(view, view.date.naive())?.material;
    let mut notes = notes(view, &went, left);
    if view.treated == Answer::Unknown && has_wood(material) {
        notes.push(StockNote::TreatmentUnknown);
    }
    notes.sort_unstable();
    Ok(Stock {
        batch: view.id,
        label: view.label.as_str().to_owned(),
        material: material.name,
        origin: view.origin,
        date: view.date.naive(),
        came,
        counted: counted.map(|(date, ..)| date.naive()),
        went,
        left,
        notes,
    })
}

/// Below this a balance is rounding, kg: entries keep whole grams.
const ROUNDING_KG: f64 = 0.01;

fn notes(view: &BatchView, went: &[Went], left: Option<Amount>) -> Vec<StockNote> {
    let mut notes = Vec::new();
    if left.is_some_and(|left| left.wet.kg() < -ROUNDING_KG) {
        notes.push(StockNote::Overdrawn);
    }
    let unknown = went.iter().filter(|part| part.amount.is_none()).count();
    if unknown > 0 {
        notes.push(StockNote::Unknown(u32::try_from(unknown).unwrap_or(u32::MAX)));
    }
    if view.sour == Some(Answer::Yes) {
        notes.push(StockNote::Sour);
    }
    let tested = view.tests.last().and_then(|last| maturity::of_batch(view, last.date.naive()));
    if let Some(ready) = tested {
        if ready.seedlings_hurt == Some(true) {
            notes.push(StockNote::SeedlingsHurt);
        }
        if ready.maturity == Maturity::Immature {
            notes.push(StockNote::NotReady);
        }
    }
    let has =
        |flags: &[Flag]| view.flagged.iter().any(|entry| entry.flags.iter().any(|flag| flags.contains(flag)));
    if has(&[Flag::Unsettled]) {
        notes.push(StockNote::Unsettled);
    }
    if has(&[Flag::RestsOnWithdrawn, Flag::RestsOnUnknown]) {
        notes.push(StockNote::Doubtful);
    }
    notes
}

fn signed(amount: u64) -> i64 {
    i64::try_from(amount).unwrap_or(i64::MAX)
}
