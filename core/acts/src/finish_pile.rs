//! Taking a pile down: it becomes a batch, with what is left of its mass and its nitrogen.

use chrono::NaiveDate;
use kerfbook_ledger::kind::{Part, PileFinished};
use kerfbook_ledger::{Book, EntryId, Label, PileView};
use kerfbook_science::caution::{self, AtPile, Caution};
use kerfbook_science::compost::loss::{self, Span};
use kerfbook_science::compost::maturity::FIRST_YEAR_SUPPLY;
use kerfbook_science::material::Material;
use kerfbook_science::source::{Source, Sourced};
use kerfbook_science::units::{Density, Mass, Share, Volume};

use crate::blend_batch::found;
use crate::error::ActError;
use crate::figure::{above_zero, basis_points, between, grams, millilitres, whole_u32};
use crate::measure::Figures;
use crate::moment::Moment;
use crate::pile::{made_of, moisture_of, standing};
use crate::take_in_load::first;

/// What a finished pile is in the table of materials where nothing else is said.
pub const MATERIAL: &str = "composted wood";
/// Moisture of a finished pile where nobody read it.
pub const MOISTURE: Sourced<f64> = Sourced::new(0.50, Source::COMMON_PRACTICE);

/// A finished pile as a person describes it. What is left out is reckoned from what went in and the usual losses.
#[derive(Debug, Clone, PartialEq)]
pub struct NewBatch<'a> {
    /// The pile.
    pub pile: EntryId,
    /// What the batch is called here.
    pub label: &'a str,
    /// Name in the table of materials.
    pub material: Option<&'a str>,
    /// Mass with its water, where it was weighed.
    pub wet: Option<Mass>,
    /// Loose volume, where it was measured.
    pub volume: Option<Volume>,
    /// Moisture, where it was measured.
    pub moisture: Option<Share>,
    /// Carbon to nitrogen, where it was measured.
    pub carbon_nitrogen: Option<f64>,
}

/// The batch that a pile became.
#[derive(Debug, Clone, PartialEq)]
pub struct Finished {
    /// Its entry.
    pub batch: EntryId,
    /// Mass with its water.
    pub wet: Mass,
    /// Its moisture.
    pub moisture: Share,
    /// Its carbon to nitrogen: as measured, or reckoned.
    pub carbon_nitrogen: f64,
    /// The band in which it is likely to lie.
    pub band: Span,
    /// Dry mass that went off, part of what went in.
    pub lost: Share,
    /// Whether mass and ratio were measured.
    pub measured: bool,
    /// What to heed.
    pub cautions: Vec<&'static Caution>,
}

/// Writes the batch.
///
/// # Errors
/// A pile that is not there, is a batch already, or was built later; more dry mass than went in; a figure that cannot be; or
/// a book that cannot be written.
pub fn finish(book: &mut Book, new: &NewBatch<'_>, moment: Moment) -> Result<Finished, ActError> {
    let pile = standing(book, new.pile, moment.date)?;
    above_zero("wet_kg", new.wet.map(Mass::kg), 1e8)?;
    above_zero("volume_m3", new.volume.map(Volume::m3), 1e6)?;
    between("moisture_pct", new.moisture.map(Share::percent), 0.0, 95.0)?;
    between("carbon_nitrogen", new.carbon_nitrogen, 1.0, 5_000.0)?;
    let material = found(new.material.unwrap_or(MATERIAL))?;
    let (start, organic) = made_of(book, &pile)?;
    let days = (moment.date - pile.date.naive()).num_days() as f64;
    let part = loss::through(days);
    let (carbon_lost, nitrogen_lost) =
        (loss::CARBON.value.typical * part, loss::NITROGEN.value.typical * part);
    let end = loss::finish(&start, organic, carbon_lost, nitrogen_lost);
    let moisture =
        new.moisture.or_else(|| moisture_of(&pile)).unwrap_or(Share::from_fraction(MOISTURE.value));
    let wet = new
        .wet
        .or_else(|| measured_by_volume(new, material))
        .unwrap_or(end.dry / (1.0 - moisture.fraction()));
    let dry = wet * (1.0 - moisture.fraction());
    // A gram of rounding is no mass from nowhere.
    if grams(dry) > grams(start.dry()) + 1 {
        return Err(ActError::MoreThanWentIn { dry: start.dry() });
    }
    let ratio = start.carbon_nitrogen().unwrap_or(material.carbon_nitrogen.typical);
    let reckoned = loss::carbon_nitrogen_after(ratio, carbon_lost, nitrogen_lost);
    let carbon_nitrogen = new.carbon_nitrogen.unwrap_or(reckoned);
    let [_, supply, _] = FIRST_YEAR_SUPPLY.value;
    let measured = new.carbon_nitrogen.is_some() && (new.wet.is_some() || new.volume.is_some());
    let body = PileFinished {
        label: Label::new(new.label)?,
        pile: new.pile,
        material: Label::new(material.name)?,
        wet_g: Some(grams(wet)),
        volume_ml: new.volume.map(millilitres),
        moisture_bp: Some(basis_points(moisture)),
        carbon_nitrogen_x100: Some(whole_u32(carbon_nitrogen * 100.0)),
        supply_bp: Some(basis_points(Share::from_fraction(supply))),
        standing: Some(Label::new(if measured { "measured" } else { "reckoned" })?),
    };
    let cautions = cautions(book, &pile, moment.date)?;
    let batch = first(&book.append(&[moment.draft(body)?], &[], moment.wall_ms)?)?;
    let gone = (start.dry().kg() - dry.kg()).max(0.0) / start.dry().kg();
    Ok(Finished {
        batch,
        wet,
        moisture,
        carbon_nitrogen,
        band: loss::band(ratio, days),
        lost: Share::from_fraction(gone),
        measured,
        cautions,
    })
}

fn measured_by_volume(new: &NewBatch<'_>, material: &Material) -> Option<Mass> {
    new.volume.map(|volume| volume.mass_at(Density::from_kg_m3(material.wet_density.typical)))
}

/// What to heed before a pile is taken down.
///
/// # Errors
/// A book that cannot be read.
pub fn cautions(book: &Book, pile: &PileView, on: NaiveDate) -> Result<Vec<&'static Caution>, ActError> {
    Ok(caution::at_pile(AtPile::Finishing(&materials(book, &pile.parts, on)?)))
}

/// What its parts are.
fn materials(book: &Book, parts: &[Part], on: NaiveDate) -> Result<Vec<&'static Material>, ActError> {
    let mut materials = Vec::new();
    for part in parts {
        if let Some(batch) = book.batch(part.batch)? {
            materials.push(Figures::of(&batch, on)?.material);
        }
    }
    Ok(materials)
}
