//! Soil as people have it tested, or as they see it.

use kerfbook_ledger::kind::{NitrogenForm, SoilTested};
use kerfbook_ledger::{Book, EntryId, Label};
use kerfbook_science::units::{AreaMass, Density, Length, Share};

use crate::error::ActError;
use crate::figure::{above_zero, basis_points, between, whole_u32};
use crate::in_words::InWords;
use crate::moment::Moment;
use crate::scenario::SoilAnswers;
use crate::take_in_load::first;

/// Figures of the soil; whatever is left out stays as it was.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NewSoilTest<'a> {
    /// Of which place.
    pub place: EntryId,
    /// Upper end of the sample.
    pub top: Option<Length>,
    /// Lower end of the sample.
    pub bottom: Option<Length>,
    /// Organic matter by mass.
    pub organic_matter: Option<Share>,
    /// Clay of the fine earth.
    pub clay: Option<Share>,
    /// Sand of the fine earth.
    pub sand: Option<Share>,
    /// Dry bulk density.
    pub bulk_density: Option<Density>,
    /// pH.
    pub ph: Option<f64>,
    /// Nitrogen as the paper states it.
    pub nitrogen: Option<(NitrogenForm, NitrogenFigure)>,
    /// Water that plants can have, of the sample's depth.
    pub available_water: Option<Length>,
    /// All water at field capacity, of the sample's depth.
    pub field_capacity: Option<Length>,
    /// Part of the available water that is there on that day.
    pub water: Option<Share>,
    /// Answered by eye and not by a laboratory: which question.
    pub plain: Option<&'a str>,
    /// What was answered instead of measured.
    pub answers: SoilAnswers,
}

/// A figure of nitrogen.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum NitrogenFigure {
    /// Parts per million of dry soil, mg/kg.
    Ppm(f64),
    /// By area, over the sample's depth.
    PerArea(AreaMass),
}

impl NewSoilTest<'_> {
    /// A test of a place of which nothing was measured yet.
    pub const fn of(place: EntryId) -> Self {
        Self {
            place,
            top: None,
            bottom: None,
            organic_matter: None,
            clay: None,
            sand: None,
            bulk_density: None,
            ph: None,
            nitrogen: None,
            available_water: None,
            field_capacity: None,
            water: None,
            plain: None,
            answers: SoilAnswers { rolled: None, colour: None, last_crop_fed: None },
        }
    }
}

/// Writes a soil test.
///
/// # Errors
/// A place that is not there, no figure or one that cannot be, or a book that cannot be written.
pub fn test(book: &mut Book, new: &NewSoilTest<'_>, moment: Moment) -> Result<EntryId, ActError> {
    book.place(new.place)?.ok_or(ActError::NotThere { what: "place" })?;
    check(new)?;
    let body = SoilTested {
        top_mm: new.top.map(|top| whole_u32(top.mm())),
        bottom_mm: new.bottom.map(|bottom| whole_u32(bottom.mm())),
        organic_matter_bp: new.organic_matter.map(basis_points),
        clay_bp: new.clay.map(basis_points),
        sand_bp: new.sand.map(basis_points),
        bulk_density_g_m3: new.bulk_density.map(|density| whole_u32(density.kg_m3() * 1000.0)),
        ph_x100: new.ph.map(|ph| whole_u32(ph * 100.0)),
        nitrogen_form: new.nitrogen.map(|(form, _)| form),
        mg_kg_x100: match new.nitrogen {
            Some((_, NitrogenFigure::Ppm(ppm))) => Some(whole_u32(ppm * 100.0)),
            _ => None,
        },
        mg_m2: match new.nitrogen {
            Some((_, NitrogenFigure::PerArea(mass))) => Some(whole_u32(mass.kg_ha() * 100.0)),
            _ => None,
        },
        available_water_mm: new.available_water.map(|water| whole_u32(water.mm())),
        field_capacity_mm: new.field_capacity.map(|water| whole_u32(water.mm())),
        water_bp: new.water.map(basis_points),
        plain: new.plain.map(Label::new).transpose()?,
        rolled: new.answers.rolled.map(InWords::kept),
        colour: new.answers.colour.map(InWords::kept),
        last_crop_fed: new.answers.last_crop_fed.map(InWords::kept),
    };
    first(&book.append(&[moment.draft(body)?.about(new.place)], &[], moment.wall_ms)?)
}

fn check(new: &NewSoilTest<'_>) -> Result<(), ActError> {
    let nothing = new.organic_matter.is_none()
        && new.clay.is_none()
        && new.sand.is_none()
        && new.bulk_density.is_none()
        && new.ph.is_none()
        && new.nitrogen.is_none()
        && new.available_water.is_none()
        && new.field_capacity.is_none()
        && new.water.is_none()
        && new.answers == SoilAnswers::default();
    if nothing {
        return Err(ActError::NothingMeasured);
    }
    between("top_cm", new.top.map(Length::cm), 0.0, 300.0)?;
    let top = new.top.map_or(0.0, Length::cm);
    above_zero("bottom_cm", new.bottom.map(|bottom| bottom.cm() - top), 300.0)?;
    between("organic_matter_pct", new.organic_matter.map(Share::percent), 0.0, 100.0)?;
    let clay = new.clay.map(Share::percent);
    between("clay_pct", clay, 0.0, 100.0)?;
    between("sand_pct", new.sand.map(Share::percent), 0.0, 100.0 - clay.unwrap_or(0.0))?;
    between("bulk_density_g_cm3", new.bulk_density.map(Density::g_cm3), 0.2, 2.2)?;
    between("ph", new.ph, 0.0, 14.0)?;
    match new.nitrogen {
        Some((NitrogenForm::Nitrate, NitrogenFigure::Ppm(ppm))) => {
            between("nitrate_ppm", Some(ppm), 0.0, 1_300.0)?;
        }
        Some((_, NitrogenFigure::Ppm(ppm))) => between("nitrate_n_ppm", Some(ppm), 0.0, 300.0)?,
        Some((_, NitrogenFigure::PerArea(mass))) => {
            between("mineral_nitrogen_kg_ha", Some(mass.kg_ha()), 0.0, 4_500.0)?;
        }
        None => {}
    }
    let capacity = new.field_capacity.map(Length::mm);
    above_zero("field_capacity_mm", capacity, 1_500.0)?;
    above_zero("available_water_mm", new.available_water.map(Length::mm), capacity.unwrap_or(500.0))?;
    between("water_at_start_pct", new.water.map(Share::percent), 0.0, 100.0)
}
