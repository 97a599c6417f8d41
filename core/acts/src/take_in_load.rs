//! Taking in a load, or sending it away with the reason.

use chrono::NaiveDate;
use kerfbook_ledger::kind::{
    Answer, LoadRefused, LoadTakenIn, Particle as EntryParticle, RefusalReason, Storage,
};
use kerfbook_ledger::{Book, Date, EntryId, Label, Text};
use kerfbook_science::caution::Caution;
use kerfbook_science::material::{Material, Refusal};
use kerfbook_science::plain::{Pieces, Wood};
use kerfbook_science::units::{Density, Length, Mass, Share, Volume};

use crate::error::ActError;
use crate::figure::{above_zero, basis_points, between, grams, millilitres, whole_u32};
use crate::in_words::InWords;
use crate::intake::{self, Age, Question, Verdict};
use crate::moment::Moment;
use crate::scenario::Particle;
use crate::storage::{self, Handful, Smell};

/// A load at the gate, as it is described. Answers that are left out stay open.
#[derive(Debug, Clone, PartialEq)]
pub struct NewLoad<'a> {
    /// What the load is called here.
    pub label: &'a str,
    /// What it is said to be.
    pub material: &'a str,
    /// What wood it is, as answered; `material` is then what that stands for.
    pub wood: Option<Wood>,
    /// Size of pieces, where it differs from the table.
    pub particle: Option<Particle>,
    /// What a handful rubbed is like, where the size was not said.
    pub pieces: Option<Pieces>,
    /// Mass as it came.
    pub wet: Option<Mass>,
    /// Loose volume as it came.
    pub volume: Option<Volume>,
    /// Moisture, wet basis.
    pub moisture: Option<Share>,
    /// Half of the span in which the moisture lies, where it was measured with one.
    pub moisture_half: Option<Share>,
    /// What a handful feels like, where the moisture was not measured.
    pub handful: Option<Handful>,
    /// Carbon to nitrogen.
    pub carbon_nitrogen: Option<f64>,
    /// Bulk density as it came.
    pub wet_density: Option<Density>,
    /// From whom, kept outside the entry.
    pub from: Option<Text>,
    /// What kind of place it comes from.
    pub source: Option<&'a str>,
    /// Treated, painted or glued wood in it.
    pub treated: Answer,
    /// Which of these, where it is known.
    pub treatment: Option<Refusal>,
    /// From diseased plants.
    pub diseased: Answer,
    /// From logs that floated in salt water.
    pub salty: Answer,
    /// Bedding of animals that were given medicines.
    pub medicines: Answer,
    /// Hay, straw or grass sprayed with weedkillers that last.
    pub weedkillers: Answer,
    /// When it was cut.
    pub cut: Option<NaiveDate>,
    /// How old it looks, where that is not known.
    pub age: Option<Age>,
    /// What it smells of.
    pub smell: Option<Smell>,
    /// Where it was kept.
    pub stored: Option<Storage>,
    /// What it cost in all.
    pub cost: Option<Cost<'a>>,
    /// How far it was hauled.
    pub haul: Option<Length>,
    /// How long fetching and unloading took, minutes.
    pub minutes: Option<u32>,
}

impl<'a> NewLoad<'a> {
    /// A load of which nothing is known but what it is.
    pub const fn of(label: &'a str, material: &'a str) -> Self {
        Self {
            label,
            material,
            wood: None,
            particle: None,
            pieces: None,
            wet: None,
            volume: None,
            moisture: None,
            moisture_half: None,
            handful: None,
            carbon_nitrogen: None,
            wet_density: None,
            from: None,
            source: None,
            treated: Answer::Unknown,
            treatment: None,
            diseased: Answer::Unknown,
            salty: Answer::Unknown,
            medicines: Answer::Unknown,
            weedkillers: Answer::Unknown,
            cut: None,
            age: None,
            smell: None,
            stored: None,
            cost: None,
            haul: None,
            minutes: None,
        }
    }

    /// Whether medicines or weedkillers are in it: entries keep one answer for both.
    fn medicated(&self) -> Answer {
        match (self.medicines, self.weedkillers) {
            (Answer::Yes, _) | (_, Answer::Yes) => Answer::Yes,
            (Answer::No, Answer::No) => Answer::No,
            _ => Answer::Unknown,
        }
    }
}

/// What a load cost.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Cost<'a> {
    /// In hundredths of the currency.
    pub hundredths: u64,
    /// Of which currency: three letters.
    pub currency: &'a str,
}

/// A load sent away because a person decided so, whatever the rules say.
#[derive(Debug, Clone, PartialEq)]
pub struct NewRefusal<'a> {
    /// What it was said to be.
    pub material: &'a str,
    /// Why.
    pub reason: RefusalReason,
    /// How much it was.
    pub wet: Option<Mass>,
    /// How much it was.
    pub volume: Option<Volume>,
    /// From whom, kept outside the entry.
    pub from: Option<Text>,
    /// What else is to be said, kept outside the entry.
    pub note: Option<Text>,
}

/// What became of it.
#[derive(Debug, Clone, PartialEq)]
pub enum Intake {
    /// A batch was opened.
    Taken {
        /// The batch.
        batch: EntryId,
        /// What to mind.
        cautions: Vec<&'static Caution>,
        /// What nobody answered yet.
        unanswered: Vec<Question>,
    },
    /// It was sent away.
    Refused {
        /// The entry that says so.
        entry: EntryId,
        /// Why.
        reason: RefusalReason,
        /// Why, with the body that said so.
        cautions: Vec<&'static Caution>,
    },
}

/// Takes a load in, unless the rules of [`intake`] send it away; the refusal is written down as well.
///
/// # Errors
/// A material that the table does not know, a label that is too long, a figure that cannot be, or a book that cannot be
/// written.
pub fn take_in(book: &mut Book, load: &NewLoad<'_>, moment: Moment) -> Result<Intake, ActError> {
    match intake::judge(load, moment.date)? {
        Verdict::Take { material, cautions, unanswered } => {
            let batch = write(book, load, material, moment)?;
            Ok(Intake::Taken { batch, cautions, unanswered })
        }
        Verdict::Refuse { reason, cautions } => {
            let refusal = NewRefusal {
                material: load.material,
                reason,
                wet: load.wet,
                volume: load.volume,
                from: load.from.clone(),
                note: None,
            };
            let (entry, _) = refuse(book, &refusal, moment)?;
            Ok(Intake::Refused { entry, reason, cautions })
        }
    }
}

/// Sends a load away and writes down why.
///
/// # Errors
/// A name that is too long, or a book that cannot be written.
pub fn refuse(
    book: &mut Book,
    refusal: &NewRefusal<'_>,
    moment: Moment,
) -> Result<(EntryId, Vec<&'static Caution>), ActError> {
    let body = LoadRefused {
        material: Label::new(refusal.material)?,
        reason: refusal.reason,
        wet_g: refusal.wet.map(grams),
        volume_ml: refusal.volume.map(millilitres),
        from: refusal.from.as_ref().map(Text::hash),
        note: refusal.note.as_ref().map(Text::hash),
    };
    let texts: Vec<Text> = refusal.from.iter().chain(&refusal.note).cloned().collect();
    let entry = first(&book.append(&[moment.draft(body)?], &texts, moment.wall_ms)?)?;
    Ok((entry, intake::cautions_of(refusal.reason)))
}

fn write(
    book: &mut Book,
    load: &NewLoad<'_>,
    material: &Material,
    moment: Moment,
) -> Result<EntryId, ActError> {
    let class = match material.composition.as_slice() {
        [part] => match part.one_of {
            [class] => Some(Label::new(class.name())?),
            _ => None,
        },
        _ => None,
    };
    check(load)?;
    let open = load.stored == Some(Storage::Open);
    let by_look = load.pieces.and_then(|pieces| pieces.particle().map(|particle| particle.value));
    let water = storage::moisture(load.moisture, load.moisture_half, load.handful, open);
    let body = LoadTakenIn {
        label: Label::new(load.label)?,
        material: Label::new(material.name)?,
        model_class: class,
        particle: Some(entry_particle(load.particle.or(by_look).unwrap_or(material.particle))),
        wet_g: load.wet.map(grams),
        volume_ml: load.volume.map(millilitres),
        moisture_bp: water.map(|water| basis_points(water.middle)),
        carbon_nitrogen_x100: load.carbon_nitrogen.map(|ratio| whole_u32(ratio * 100.0)),
        wet_density_g_m3: load.wet_density.map(|density| whole_u32(density.kg_m3() * 1000.0)),
        from: load.from.as_ref().map(Text::hash),
        source: load.source.map(Label::new).transpose()?,
        treated: load.treated,
        diseased: load.diseased,
        salty: load.salty,
        medicated: load.medicated(),
        cut: load.cut.map(Date::of).transpose()?,
        cost_hundredths: load.cost.map(|cost| cost.hundredths),
        currency: load.cost.map(|cost| Label::new(cost.currency)).transpose()?,
        haul_m: load.haul.map(|haul| whole_u32(haul.m())),
        minutes: load.minutes,
        moisture_half_bp: water.map(|water| basis_points(water.half)),
        stored: load.stored,
        wood: load.wood.map(InWords::kept),
        // A size that was said goes before what a handful looked like.
        pieces: load.pieces.filter(|_| load.particle.is_none()).map(InWords::kept),
        handful: load.handful.map(InWords::kept),
        age: load.age.map(InWords::kept),
        smell: load.smell.map(InWords::kept),
    };
    let texts: Vec<Text> = load.from.iter().cloned().collect();
    first(&book.append(&[moment.draft(body)?], &texts, moment.wall_ms)?)
}

/// Figures that no load has.
fn check(load: &NewLoad<'_>) -> Result<(), ActError> {
    between("moisture_pct", load.moisture.map(Share::percent), 0.0, 95.0)?;
    between("moisture_half_pct", load.moisture_half.map(Share::percent), 0.0, 50.0)?;
    between("carbon_nitrogen", load.carbon_nitrogen, 1.0, 5_000.0)?;
    between("bulk_density_kg_m3", load.wet_density.map(Density::kg_m3), 20.0, 1_500.0)?;
    above_zero("wet_kg", load.wet.map(Mass::kg), 1e9)?;
    above_zero("volume_m3", load.volume.map(Volume::m3), 1e7)?;
    between("haul_km", load.haul.map(|haul| haul.m() / 1000.0), 0.0, 20_000.0)
}

pub(crate) fn first(ids: &[EntryId]) -> Result<EntryId, ActError> {
    ids.first().copied().ok_or(ActError::NoLoad)
}

/// A size of pieces as entries keep it.
pub(crate) fn entry_particle(particle: Particle) -> EntryParticle {
    match particle {
        Particle::Dust => EntryParticle::Dust,
        Particle::Shavings => EntryParticle::Shavings,
        Particle::Chips => EntryParticle::Chips,
        Particle::Chunks => EntryParticle::Chunks,
    }
}

/// A size of pieces as science has it.
pub(crate) fn particle_of(particle: EntryParticle) -> Particle {
    match particle {
        EntryParticle::Dust => Particle::Dust,
        EntryParticle::Shavings => Particle::Shavings,
        EntryParticle::Chips => Particle::Chips,
        EntryParticle::Chunks => Particle::Chunks,
    }
}
