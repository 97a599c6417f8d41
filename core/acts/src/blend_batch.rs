//! Mixing batches into one without a heap: stable bedding, leafy chips, what is left of two loads.

use std::sync::Arc;

use chrono::NaiveDate;
use kerfbook_ledger::kind::{BatchBlended, Part};
use kerfbook_ledger::{BatchView, Book, Date, EntryId, Label};
use kerfbook_science::material::{self, Found, Material};
use kerfbook_science::units::{Mass, Share, Volume};

use crate::blend::{Blend, Component};
use crate::error::ActError;
use crate::figure::{above_zero, basis_points, between, grams, millilitres, whole_u32};
use crate::measure::Figures;
use crate::moment::Moment;
use crate::scenario::{Containers, Particle};
use crate::take_in_load::{entry_particle, first, particle_of};

/// A blend as a person describes it. What is left out follows from the parts.
#[derive(Debug, Clone, PartialEq)]
pub struct NewBlend<'a> {
    /// What it is called here.
    pub label: &'a str,
    /// What goes into it: two batches or more, each once.
    pub parts: &'a [NewPart],
    /// Name in the table of materials; else the nearest to what is in it.
    pub material: Option<&'a str>,
    /// Size of pieces; else that of the largest part by dry mass.
    pub particle: Option<Particle>,
    /// Mass, where it was weighed.
    pub wet: Option<Mass>,
    /// Loose volume, where it was measured: less than that of the parts, since fines go between chips.
    pub volume: Option<Volume>,
    /// Moisture, where it was measured.
    pub moisture: Option<Share>,
    /// Carbon to nitrogen, where it was measured.
    pub carbon_nitrogen: Option<f64>,
}

/// What a blend takes from a batch.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NewPart {
    /// The batch.
    pub batch: EntryId,
    /// How much of it.
    pub amount: Taken,
}

/// How much is taken of a batch.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Taken {
    /// Moist mass.
    Wet(Mass),
    /// Loose volume.
    Loose(Volume),
    /// Barrows, of the grower's own size.
    Barrows(f64),
}

/// Blends within blends are followed this far.
const DEEPEST: usize = 16;

/// Mixes batches. Material goes by dry mass; carbon and nitrogen are added up, never averaged.
///
/// # Errors
/// Fewer than two batches or one named twice, an amount of nothing, a batch that is not in the book or came later, or a
/// book that cannot be written.
pub fn blend(
    book: &mut Book,
    new: &NewBlend<'_>,
    containers: &Containers,
    moment: Moment,
) -> Result<(EntryId, Blend), ActError> {
    if new.parts.len() < 2 || any_twice(new.parts) {
        return Err(ActError::NoBlend);
    }
    above_zero("wet_kg", new.wet.map(Mass::kg), 1e9)?;
    above_zero("volume_m3", new.volume.map(Volume::m3), 1e7)?;
    between("moisture_pct", new.moisture.map(Share::percent), 0.0, 95.0)?;
    between("carbon_nitrogen", new.carbon_nitrogen, 1.0, 5_000.0)?;
    let mut parts = Vec::new();
    let mut in_it: Vec<Component> = Vec::new();
    let mut largest: Option<(Mass, Particle)> = None;
    for part in new.parts {
        let Portion { batch, figures, wet, volume } = portion(book, part, containers, moment.date)?;
        above_zero("parts.amount", Some(wet.kg()), 1e9)?;
        let dry = wet * (1.0 - figures.moisture.fraction());
        let particle = batch.particle.map_or(figures.material.particle, particle_of);
        if largest.is_none_or(|(most, _)| dry > most) {
            largest = Some((dry, particle));
        }
        in_it.extend(components(book, &batch, wet, moment.date, 0)?);
        parts.push(Part { batch: part.batch, wet_g: Some(grams(wet)), volume_ml: Some(millilitres(volume)) });
    }
    let blend = Blend::of(in_it).ok_or(ActError::NoBlend)?;
    let material = match new.material {
        Some(name) => found(name)?,
        None => blend.nearest,
    };
    let ratio = new.carbon_nitrogen.unwrap_or(blend.carbon_nitrogen);
    let body = BatchBlended {
        label: Label::new(new.label)?,
        material: Label::new(material.name)?,
        particle: new.particle.or(largest.map(|(_, particle)| particle)).map(entry_particle),
        parts,
        wet_g: Some(grams(new.wet.unwrap_or(blend.wet))),
        volume_ml: new.volume.map(millilitres),
        moisture_bp: Some(basis_points(new.moisture.unwrap_or(blend.moisture))),
        carbon_nitrogen_x100: Some(whole_u32(ratio * 100.0)),
    };
    let entry = first(&book.append(&[moment.draft(body)?], &[], moment.wall_ms)?)?;
    Ok((entry, blend))
}

/// Whether a batch is named more than once.
pub(crate) fn any_twice(parts: &[NewPart]) -> bool {
    parts.iter().enumerate().any(|(at, part)| parts.iter().take(at).any(|other| other.batch == part.batch))
}

/// What is taken of a batch, in every measure.
pub(crate) struct Portion {
    pub(crate) batch: Arc<BatchView>,
    pub(crate) figures: Figures,
    pub(crate) wet: Mass,
    pub(crate) volume: Volume,
}

/// Works out what a part is by the figures of its batch on a day.
///
/// # Errors
/// A batch that is not in the book or came later, or a material that the table does not know.
pub(crate) fn portion(
    book: &Book,
    part: &NewPart,
    containers: &Containers,
    on: NaiveDate,
) -> Result<Portion, ActError> {
    let batch = book.batch(part.batch)?.ok_or(ActError::NotThere { what: "batch" })?;
    if batch.date.naive() > on {
        return Err(ActError::Before { what: "batch", first: batch.date.naive() });
    }
    let figures = Figures::of(&batch, on)?;
    let (wet, volume) = match part.amount {
        Taken::Wet(wet) => (wet, wet.volume_at(figures.wet_density)),
        Taken::Loose(volume) => (volume.mass_at(figures.wet_density), volume),
        Taken::Barrows(count) => {
            let volume = containers.barrow * count;
            (volume.mass_at(figures.wet_density), volume)
        }
    };
    Ok(Portion { batch, figures, wet, volume })
}

/// What a batch is made of on a day: itself, or what was mixed into it, as it stands in the book.
///
/// # Errors
/// A batch that is not there, or a material that the table does not know.
pub fn made_of(book: &Book, batch: EntryId, on: NaiveDate) -> Result<Blend, ActError> {
    let view = book.batch(batch)?.ok_or(ActError::NotThere { what: "batch" })?;
    Blend::of(components(book, &view, Mass::from_kg(1.0), on, 0)?).ok_or(ActError::NoBlend)
}

/// The components of some of a batch. What was measured of a blend as a whole wins over what follows from its parts.
fn components(
    book: &Book,
    batch: &BatchView,
    wet: Mass,
    on: NaiveDate,
    depth: usize,
) -> Result<Vec<Component>, ActError> {
    let figures = Figures::of(batch, on)?;
    let dry = wet * (1.0 - figures.moisture.fraction());
    let parts = if depth < DEEPEST { batch.parts.as_slice() } else { &[] };
    let mut inside: Vec<Component> = Vec::new();
    for part in parts {
        let Some(view) = book.batch(part.batch)? else { continue };
        let mass = match (part.wet_g, part.volume_ml) {
            (Some(grams), _) => Mass::from_g(grams as f64),
            (None, Some(millilitres)) => {
                Volume::from_litres(millilitres as f64 / 1000.0).mass_at(Figures::of(&view, on)?.wet_density)
            }
            (None, None) => continue,
        };
        // As it went in: a later test of what is left of a part says nothing about what was mixed.
        inside.extend(components(book, &view, mass, batch.date.naive(), depth + 1)?);
    }
    let Some(whole) = Blend::of(inside) else {
        return Ok(vec![Component {
            material: figures.material,
            dry,
            water: wet * figures.moisture.fraction(),
            carbon_nitrogen: figures.carbon_nitrogen,
        }]);
    };
    let stated = batch.carbon_nitrogen_x100_on(Date::of(on)?).map(|ratio| f64::from(ratio) / 100.0);
    let leaner = stated.map_or(1.0, |stated| stated / whole.carbon_nitrogen);
    Ok(whole
        .components
        .iter()
        .map(|one| {
            let share = whole.share(one);
            Component {
                material: one.material,
                dry: dry * share,
                water: wet * (figures.moisture.fraction() * share),
                carbon_nitrogen: one.carbon_nitrogen * leaner,
            }
        })
        .collect())
}

/// A material of the table.
pub(crate) fn found(name: &str) -> Result<&'static Material, ActError> {
    match material::find(name) {
        Found::Material(material) => Ok(material),
        Found::Refused(refusal) => Err(ActError::Refused { material: name.to_owned(), refusal }),
        Found::Unknown { nearest } => Err(ActError::UnknownMaterial {
            material: name.to_owned(),
            nearest: nearest.iter().map(|near| near.name.to_owned()).collect(),
        }),
    }
}
