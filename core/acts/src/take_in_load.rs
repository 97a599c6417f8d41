//! Taking in a load, or sending it away with the reason.

use kerfbook_ledger::kind::{Answer, LoadRefused, LoadTakenIn, Particle as EntryParticle, RefusalReason};
use kerfbook_ledger::{Book, EntryId, Label, Text};
use kerfbook_science::caution::{self, Act, Caution, Facts};
use kerfbook_science::material::{self, Found, Refusal};
use kerfbook_science::units::{Density, Mass, Share, Volume};

use crate::error::ActError;
use crate::moment::Moment;
use crate::scenario::Particle;

/// A load at the gate, as it is described.
#[derive(Debug, Clone, PartialEq)]
pub struct NewLoad<'a> {
    /// What the load is called here.
    pub label: &'a str,
    /// What it is said to be.
    pub material: &'a str,
    /// Size of pieces, where it differs from the table.
    pub particle: Option<Particle>,
    /// Mass as it came.
    pub wet: Option<Mass>,
    /// Loose volume as it came.
    pub volume: Option<Volume>,
    /// Moisture, wet basis.
    pub moisture: Option<Share>,
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
    /// From diseased plants.
    pub diseased: Answer,
    /// From logs that floated in salt water.
    pub salty: Answer,
    /// Bedding with medicines, or weedkillers.
    pub medicated: Answer,
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
    },
    /// It was sent away.
    Refused {
        /// The entry that says so.
        entry: EntryId,
        /// Why.
        cautions: Vec<&'static Caution>,
    },
}

/// Takes a load in. Treated or painted wood and board dust are refused for every growing place, whatever it is called;
/// the refusal is written down.
///
/// # Errors
/// A material that the table does not know, a label that is too long, or a book that cannot be written.
pub fn take_in(book: &mut Book, load: &NewLoad<'_>, moment: Moment) -> Result<Intake, ActError> {
    let found = material::find(load.material);
    let refusal = match &found {
        Found::Refused(refusal) => Some(*refusal),
        _ if load.treated == Answer::Yes => Some(Refusal::Treated),
        _ => None,
    };
    let texts: Vec<Text> = load.from.iter().cloned().collect();
    if let Some(refusal) = refusal {
        let body = LoadRefused {
            material: Label::new(load.material)?,
            reason: match refusal {
                Refusal::Treated => RefusalReason::Treated,
                Refusal::Painted => RefusalReason::Painted,
                Refusal::Board => RefusalReason::Board,
                Refusal::Demolition => RefusalReason::Demolition,
            },
            wet_g: load.wet.map(grams),
            volume_ml: load.volume.map(millilitres),
            from: load.from.as_ref().map(Text::hash),
            note: None,
        };
        let entry = first(&book.append(&[moment.draft(body)?], &texts, moment.wall_ms)?)?;
        let facts = Facts { refusal: Some(refusal), ..Facts::default() };
        return Ok(Intake::Refused { entry, cautions: caution::cautions(Act::Intake, &facts) });
    }
    let material = match found {
        Found::Material(material) => material,
        Found::Refused(_) | Found::Unknown { .. } => {
            return Err(ActError::UnknownMaterial {
                material: load.material.to_owned(),
                nearest: match found {
                    Found::Unknown { nearest } => nearest.iter().map(|near| near.name.to_owned()).collect(),
                    _ => Vec::new(),
                },
            });
        }
    };
    let class = match material.composition.as_slice() {
        [part] => match part.one_of {
            [class] => Some(Label::new(class.name())?),
            _ => None,
        },
        _ => None,
    };
    let body = LoadTakenIn {
        label: Label::new(load.label)?,
        material: Label::new(material.name)?,
        model_class: class,
        particle: Some(entry_particle(load.particle.unwrap_or(material.particle))),
        wet_g: load.wet.map(grams),
        volume_ml: load.volume.map(millilitres),
        moisture_bp: load.moisture.map(|moisture| whole_u32(moisture.percent() * 100.0)),
        carbon_nitrogen_x100: load.carbon_nitrogen.map(|ratio| whole_u32(ratio * 100.0)),
        wet_density_g_m3: load.wet_density.map(|density| whole_u32(density.kg_m3() * 1000.0)),
        from: load.from.as_ref().map(Text::hash),
        source: load.source.map(Label::new).transpose()?,
        treated: load.treated,
        diseased: load.diseased,
        salty: load.salty,
        medicated: load.medicated,
        cut: None,
        cost_hundredths: None,
        currency: None,
    };
    let batch = first(&book.append(&[moment.draft(body)?], &texts, moment.wall_ms)?)?;
    let facts = Facts {
        material: Some(material),
        from_elsewhere: load.from.is_some() || load.source.is_some(),
        floated: load.salty == Answer::Yes,
        diseased: load.diseased == Answer::Yes,
        ..Facts::default()
    };
    Ok(Intake::Taken { batch, cautions: caution::cautions(Act::Intake, &facts) })
}

pub(crate) fn first(ids: &[EntryId]) -> Result<EntryId, ActError> {
    ids.first().copied().ok_or(ActError::NoLoad)
}

/// Whole grams.
pub(crate) fn grams(mass: Mass) -> u64 {
    whole(mass.g())
}

/// Whole millilitres.
pub(crate) fn millilitres(volume: Volume) -> u64 {
    whole(volume.litres() * 1000.0)
}

/// The nearest whole number that is not below zero.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "kept at zero or above and finite"
)]
pub(crate) fn whole(value: f64) -> u64 {
    if value.is_finite() { value.max(0.0).round() as u64 } else { 0 }
}

/// The same in 32 bits.
pub(crate) fn whole_u32(value: f64) -> u32 {
    u32::try_from(whole(value)).unwrap_or(u32::MAX)
}

/// A size of pieces as entries keep it.
fn entry_particle(particle: Particle) -> EntryParticle {
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
