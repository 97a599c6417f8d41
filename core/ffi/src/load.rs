//! A load at the gate: what is asked, what becomes of it.

use kerfbook_acts::intake::{self, Question};
use kerfbook_acts::load::Counted;
use kerfbook_acts::stock;
use kerfbook_acts::storage::Handful;
use kerfbook_acts::take_in_load::{self, Intake, NewLoad};
use kerfbook_acts::told;
use kerfbook_ledger::Book;
use kerfbook_ledger::kind::Answer;
use kerfbook_science::caution::Caution;
use kerfbook_science::material::{self, Found};
use kerfbook_science::units::Volume;

use crate::entries::{SavedView, saved};
use crate::error::CoreError;
use crate::field_book::{FieldBook, Speech, of_act, text};

/// Materials that a phone offers first, from the table; every other name of it may be typed.
const OFFERED: [&str; 14] = [
    "sawdust, mixed",
    "sawdust, hardwood",
    "sawdust, softwood",
    "shavings, mixed",
    "shavings, hardwood",
    "shavings, softwood",
    "wood chips, hardwood",
    "wood chips, softwood",
    "arborist chips, leafy",
    "arborist chips, leafless",
    "bark, mixed",
    "stable bedding, shavings",
    "compost, finished",
    "wood, unknown",
];

/// Yes, no, or not known.
#[derive(Debug, Clone, Copy, PartialEq, Eq, uniffi::Enum)]
pub enum Said {
    /// Yes.
    Yes,
    /// No.
    No,
    /// Not known: the range widens.
    Unknown,
}

impl From<Said> for Answer {
    fn from(said: Said) -> Self {
        match said {
            Said::Yes => Self::Yes,
            Said::No => Self::No,
            Said::Unknown => Self::Unknown,
        }
    }
}

/// What a handful feels like.
#[derive(Debug, Clone, Copy, PartialEq, Eq, uniffi::Enum)]
pub enum Feel {
    /// Dusty.
    Dusty,
    /// Cool and damp.
    Damp,
    /// Drips when it is squeezed.
    Drips,
}

/// In what an amount is counted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, uniffi::Enum)]
pub enum Measure {
    /// Barrows of the reader's own size.
    Barrows,
    /// Buckets.
    Buckets,
    /// Trailers.
    Trailers,
    /// Depth of the layer, cm or inches.
    Depth,
    /// Moist mass, kg or pounds.
    Mass,
}

/// A material that may be chosen.
#[derive(Debug, Clone, PartialEq, Eq, uniffi::Record)]
pub struct MaterialLine {
    /// Name in the table.
    pub name: String,
    /// As people say it.
    pub told: String,
    /// Questions that make sense for it, by name: treated, diseased, salty, medicines, weedkillers, moisture, amount.
    pub asks: Vec<String>,
}

/// A load as it is described.
#[derive(Debug, Clone, PartialEq, Eq, uniffi::Record)]
pub struct LoadGiven {
    /// What it is called here; made from the material and the day where nothing is typed.
    pub label: String,
    /// Name of a material.
    pub material: String,
    /// How much, as typed; may be empty.
    pub amount: String,
    /// In what that is counted.
    pub measure: Measure,
    /// From whom; may be empty.
    pub from_whom: String,
    /// Treated, painted or glued wood in it.
    pub treated: Said,
    /// From diseased plants.
    pub diseased: Said,
    /// From logs that floated in salt water.
    pub salty: Said,
    /// Bedding of animals that were given medicines.
    pub medicines: Said,
    /// Sprayed with weedkillers that last.
    pub weedkillers: Said,
    /// What a handful feels like, where anybody felt.
    pub feel: Option<Feel>,
}

/// Something to mind.
#[derive(Debug, Clone, PartialEq, Eq, uniffi::Record)]
pub struct CautionView {
    /// How grave, told.
    pub severity: String,
    /// What.
    pub text: String,
    /// Who says so.
    pub source: String,
}

/// What became of a load.
#[derive(Debug, Clone, PartialEq, Eq, uniffi::Record)]
pub struct TakenView {
    /// What the book now says.
    pub saved: SavedView,
    /// The batch that was opened; none where the load was sent away.
    pub batch: Option<String>,
    /// What to mind, or why it was sent away.
    pub cautions: Vec<CautionView>,
}

/// A batch in a list.
#[derive(Debug, Clone, PartialEq, Eq, uniffi::Record)]
pub struct BatchLine {
    /// Its id.
    pub id: String,
    /// What it is called.
    pub label: String,
    /// What it is.
    pub material: String,
    /// What is left, told.
    pub left: String,
    /// What has to be said about it.
    pub notes: Vec<String>,
}

#[uniffi::export]
impl FieldBook {
    /// Takes a load in, or sends it away where the rules say so; either is written down.
    ///
    /// # Errors
    /// A field that does not read, named; a book that cannot be written.
    pub fn take_in(&self, load: LoadGiven) -> Result<TakenView, CoreError> {
        let (speech, moment) = (self.speech(), self.moment()?);
        let typed = speech.typed();
        let label = if load.label.trim().is_empty() {
            short_label(&speech, &load.material, moment.date)
        } else {
            typed.name("label", &load.label)?
        };
        let volume = amount_volume(&load, &speech)?;
        let wet = match load.measure {
            Measure::Mass if !load.amount.trim().is_empty() => Some(typed.mass("amount", &load.amount)?),
            _ => None,
        };
        let new = NewLoad {
            wet,
            volume,
            from: text(&load.from_whom)?,
            treated: load.treated.into(),
            diseased: load.diseased.into(),
            salty: load.salty.into(),
            medicines: load.medicines.into(),
            weedkillers: load.weedkillers.into(),
            handful: load.feel.map(|feel| match feel {
                Feel::Dusty => Handful::Dusty,
                Feel::Damp => Handful::Damp,
                Feel::Drips => Handful::Drips,
            }),
            ..NewLoad::of(&label, &load.material)
        };
        let mut book = self.book();
        let taken = of_act(take_in_load::take_in(&mut book, &new, moment), "material", &speech)?;
        let (entry, batch, cautions) = match taken {
            Intake::Taken { batch, cautions, .. } => (batch, Some(batch.to_string()), cautions),
            Intake::Refused { entry, cautions, .. } => (entry, None, cautions),
        };
        Ok(TakenView {
            saved: saved(&book, entry, &speech)?,
            batch,
            cautions: told_cautions(&cautions, &speech),
        })
    }
}

pub(crate) fn told_cautions(cautions: &[&'static Caution], speech: &Speech) -> Vec<CautionView> {
    cautions
        .iter()
        .map(|caution| {
            let told = speech.words.caution(caution);
            CautionView { severity: told.severity, text: told.text, source: told.source }
        })
        .collect()
}

pub(crate) fn materials(speech: &Speech) -> Vec<MaterialLine> {
    OFFERED
        .iter()
        .filter_map(|name| match material::find(name) {
            Found::Material(material) => Some(MaterialLine {
                name: material.name.to_owned(),
                told: speech.words.material(material.name),
                asks: intake::questions(material)
                    .iter()
                    .map(|question| Question::id(*question).to_owned())
                    .collect(),
            }),
            Found::Refused(_) | Found::Unknown { .. } => None,
        })
        .collect()
}

/// What is there, newest first; what is used up is left out.
pub(crate) fn batches(book: &Book, speech: &Speech) -> Result<Vec<BatchLine>, CoreError> {
    let mut stock = of_act(stock::stock(book), "batch", speech)?;
    stock.reverse();
    let words = &speech.words;
    Ok(stock
        .iter()
        .filter(|batch| batch.left.is_none_or(|left| left.volume.litres() > 0.0))
        .map(|batch| BatchLine {
            id: batch.batch.to_string(),
            label: batch.label.clone(),
            material: words.material(batch.material),
            left: match batch.left {
                Some(left) => {
                    let counted = Counted::of(left.volume, &speech.containers);
                    words.say("phone-left", &[("amount", told::in_containers(&counted, words))])
                }
                None => words.label("stock-unweighed"),
            },
            notes: batch.notes.iter().map(|note| note.told(words)).collect(),
        })
        .collect())
}

/// The volume that was counted in containers.
fn amount_volume(load: &LoadGiven, speech: &Speech) -> Result<Option<Volume>, CoreError> {
    let typed = speech.typed();
    let Some(count) = typed.above_zero("amount", &load.amount)? else { return Ok(None) };
    match load.measure {
        Measure::Mass => Ok(None),
        Measure::Depth => Err(typed.wrong("measure", "phone-load-has-no-depth")),
        Measure::Barrows | Measure::Buckets | Measure::Trailers => {
            container(load.measure, speech).map(|one| Some(Volume::from_litres(one.litres() * count)))
        }
    }
}

/// One container.
pub(crate) fn container(measure: Measure, speech: &Speech) -> Result<Volume, CoreError> {
    match measure {
        Measure::Buckets => Ok(speech.containers.bucket),
        Measure::Trailers => {
            speech.containers.trailer.ok_or_else(|| speech.typed().wrong("measure", "phone-no-trailer"))
        }
        Measure::Barrows | Measure::Depth | Measure::Mass => Ok(speech.containers.barrow),
    }
}

/// Material and day, cut to what a label holds.
fn short_label(speech: &Speech, material: &str, on: chrono::NaiveDate) -> String {
    let day = speech.words.date(on);
    let room = 40_usize.saturating_sub(day.chars().count() + 2);
    let told: String = speech.words.material(material).chars().take(room).collect();
    format!("{}, {day}", told.trim_end())
}
