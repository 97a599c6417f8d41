//! What is asked of a load at the gate, and what follows from the answers: taken in with what to mind, or sent away
//! with the reason.

use chrono::NaiveDate;
use kerfbook_ledger::kind::{Answer, RefusalReason};
use kerfbook_science::caution::{self, Act, Caution, Facts};
use kerfbook_science::material::{self, Found, Kind, Material, Refusal};
pub use kerfbook_science::plain::Age;
use kerfbook_science::plain::Handful;
use kerfbook_science::source::{Source, Sourced};

use crate::error::ActError;
use crate::storage::{Smell, Sourness};
use crate::take_in_load::NewLoad;

/// Wood cut fewer days ago than this is fresh.
pub const FRESH_DAYS: Sourced<i64> = Sourced::new(90, Source::COMMON_PRACTICE);

/// A question at intake. "Don't know" leaves it open; nothing waits for it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Question {
    /// Is treated, painted or glued wood in it?
    Treated,
    /// What kind of place does it come from?
    Source,
    /// Were the trees diseased?
    Diseased,
    /// Did the logs float in the sea?
    Salty,
    /// Were the animals given wormers or other medicines?
    Medicines,
    /// Was the hay, straw or grass sprayed with weedkillers that last?
    Weedkillers,
    /// When was it cut; failing that, how old does it look?
    Cut,
    /// Does it smell of wood, of earth, or sour?
    Smell,
    /// Was it kept under a roof?
    Storage,
    /// How wet is it?
    Moisture,
    /// How much is it?
    Amount,
}

impl Question {
    /// In the order in which they are asked: what may send the load away comes first.
    pub const ALL: [Self; 11] = [
        Self::Treated,
        Self::Source,
        Self::Diseased,
        Self::Salty,
        Self::Medicines,
        Self::Weedkillers,
        Self::Cut,
        Self::Smell,
        Self::Storage,
        Self::Moisture,
        Self::Amount,
    ];

    /// Its name in files; texts are kept by it.
    pub const fn id(self) -> &'static str {
        match self {
            Self::Treated => "treated",
            Self::Source => "source",
            Self::Diseased => "diseased",
            Self::Salty => "salty",
            Self::Medicines => "medicines",
            Self::Weedkillers => "weedkillers",
            Self::Cut => "cut",
            Self::Smell => "smell",
            Self::Storage => "storage",
            Self::Moisture => "moisture",
            Self::Amount => "amount",
        }
    }

    /// Whether it makes sense for a material.
    pub fn concerns(self, material: &Material) -> bool {
        let wood = has_wood(material);
        let grown = matches!(material.kind, Kind::Wood | Kind::Bark);
        match self {
            Self::Treated => wood,
            Self::Diseased => grown || material.kind == Kind::Green,
            Self::Salty | Self::Cut | Self::Smell => grown,
            Self::Medicines => material.kind == Kind::Manure,
            Self::Weedkillers => {
                matches!(material.kind, Kind::Manure | Kind::Straw | Kind::Compost | Kind::Green)
            }
            Self::Source | Self::Storage | Self::Moisture | Self::Amount => true,
        }
    }

    /// Whether a load answers it.
    fn answered(self, load: &NewLoad<'_>) -> bool {
        match self {
            Self::Treated => load.treated != Answer::Unknown,
            Self::Source => load.source.is_some() || load.from.is_some(),
            Self::Diseased => load.diseased != Answer::Unknown,
            Self::Salty => load.salty != Answer::Unknown,
            Self::Medicines => load.medicines != Answer::Unknown,
            Self::Weedkillers => load.weedkillers != Answer::Unknown,
            Self::Cut => load.cut.is_some() || load.age.is_some_and(|age| age != Age::Unknown),
            Self::Smell => load.smell.is_some_and(|smell| smell != Smell::Unknown),
            Self::Storage => load.stored.is_some(),
            Self::Moisture => {
                load.moisture.is_some() || load.handful.is_some_and(|handful| handful != Handful::Unknown)
            }
            Self::Amount => load.wet.is_some() || load.volume.is_some(),
        }
    }
}

/// What follows from the answers.
#[derive(Debug, Clone, PartialEq)]
pub enum Verdict {
    /// It may be taken in.
    Take {
        /// What it is.
        material: &'static Material,
        /// What to mind, gravest first.
        cautions: Vec<&'static Caution>,
        /// What was not asked yet, or nobody knows.
        unanswered: Vec<Question>,
    },
    /// It goes back.
    Refuse {
        /// Why.
        reason: RefusalReason,
        /// Why, with the body that said so.
        cautions: Vec<&'static Caution>,
    },
}

/// Questions that a material calls for.
pub fn questions(material: &Material) -> Vec<Question> {
    Question::ALL.into_iter().filter(|question| question.concerns(material)).collect()
}

/// Judges a load from its name and answers; nothing is written. What its name or its source says counts as well as the
/// answers.
///
/// # Errors
/// A material that the table does not know.
pub fn judge(load: &NewLoad<'_>, on: NaiveDate) -> Result<Verdict, ActError> {
    let found = material::find(load.material);
    if let Some(refusal) = refusal_of(load, &found) {
        let facts = Facts { refusal: Some(refusal), ..Facts::default() };
        return Ok(refused(reason_of(refusal), &facts));
    }
    let material = match found {
        Found::Material(material) => material,
        Found::Refused(refusal) => {
            return Err(ActError::Refused { material: load.material.to_owned(), refusal });
        }
        Found::Unknown { nearest } => {
            return Err(ActError::UnknownMaterial {
                material: load.material.to_owned(),
                nearest: nearest.iter().map(|near| near.name.to_owned()).collect(),
            });
        }
    };
    let facts = facts(load, material, on);
    if facts.forbid(Act::Intake) {
        // Of what is left, only weedkillers that last forbid.
        return Ok(refused(RefusalReason::Medicated, &facts));
    }
    let mut cautions = caution::cautions(Act::Intake, &facts);
    let rests = load.stored.is_some() || load.smell.is_some();
    if rests && matches!(material.kind, Kind::Wood | Kind::Bark) {
        cautions.extend(caution::cautions(Act::Storage, &facts));
    }
    cautions.sort_by_key(|caution| caution.severity);
    let unanswered = questions(material).into_iter().filter(|question| !question.answered(load)).collect();
    Ok(Verdict::Take { material, cautions, unanswered })
}

fn refused(reason: RefusalReason, facts: &Facts<'_>) -> Verdict {
    Verdict::Refuse { reason, cautions: caution::cautions(Act::Intake, facts) }
}

/// Why wood is refused: by its own name, by what was found in it, by where it comes from.
fn refusal_of(load: &NewLoad<'_>, found: &Found) -> Option<Refusal> {
    match found {
        Found::Refused(refusal) => return Some(*refusal),
        _ if load.treated == Answer::Yes => return Some(load.treatment.unwrap_or(Refusal::Treated)),
        Found::Material(material) if has_wood(material) => {}
        _ => return None,
    }
    match material::find(load.source?) {
        Found::Refused(refusal) if load.treated != Answer::No => Some(refusal),
        _ => None,
    }
}

/// The reason as entries keep it.
pub(crate) fn reason_of(refusal: Refusal) -> RefusalReason {
    match refusal {
        Refusal::Treated => RefusalReason::Treated,
        Refusal::Painted => RefusalReason::Painted,
        Refusal::Board => RefusalReason::Board,
        Refusal::Demolition => RefusalReason::Demolition,
    }
}

/// Cautions of a reason that a person gives for sending a load away.
pub(crate) fn cautions_of(reason: RefusalReason) -> Vec<&'static Caution> {
    let mut facts = Facts::default();
    match reason {
        RefusalReason::Treated => facts.refusal = Some(Refusal::Treated),
        RefusalReason::Painted => facts.refusal = Some(Refusal::Painted),
        RefusalReason::Board => facts.refusal = Some(Refusal::Board),
        RefusalReason::Demolition => facts.refusal = Some(Refusal::Demolition),
        RefusalReason::Diseased => facts.diseased = true,
        RefusalReason::Salty => facts.floated = true,
        RefusalReason::Medicated => facts.medicines = true,
        RefusalReason::Unknown => facts.treatment_unknown = true,
        RefusalReason::Other => {}
    }
    caution::cautions(Act::Intake, &facts)
}

fn facts<'a>(load: &NewLoad<'_>, material: &'a Material, on: NaiveDate) -> Facts<'a> {
    let cut_days = load.cut.map(|cut| (on - cut).num_days());
    Facts {
        material: Some(material),
        particle: load.particle,
        from_elsewhere: load.from.is_some() || load.source.is_some(),
        sour: load.smell.and_then(Smell::says) == Some(Sourness::Sour),
        floated: load.salty == Answer::Yes,
        diseased: load.diseased == Answer::Yes,
        fresh: cut_days.map_or(load.age == Some(Age::Fresh), |days| days < FRESH_DAYS.value),
        treatment_unknown: load.treated == Answer::Unknown && has_wood(material),
        medicines: load.medicines == Answer::Yes,
        weedkillers: load.weedkillers == Answer::Yes,
        ..Facts::default()
    }
}

/// Wood is in it, not only bark, leaves or what was composted.
pub(crate) fn has_wood(material: &Material) -> bool {
    let mut classes = material.composition.iter().flat_map(|part| part.one_of);
    material.kind == Kind::Wood || classes.any(|class| class.is_wood())
}
