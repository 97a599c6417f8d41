//! A batch in every measure: its figures on a day, measured where they were, else from the table of materials.

use chrono::NaiveDate;
use kerfbook_ledger::{BatchView, Date};
use kerfbook_science::material::Material;
use kerfbook_science::units::{Density, Mass, Share, Volume};

use crate::blend_batch::found;
use crate::doubt;
use crate::error::ActError;
use crate::load::wet_density_at;

/// Figures of a batch on a day.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Figures {
    /// What it is.
    pub material: &'static Material,
    /// Water by mass of the moist batch.
    pub moisture: Share,
    /// Carbon to nitrogen.
    pub carbon_nitrogen: f64,
    /// Moist, loose.
    pub wet_density: Density,
}

impl Figures {
    /// Of a batch on a day.
    ///
    /// # Errors
    /// A material that the table does not know, or a day that no entry can hold.
    pub fn of(batch: &BatchView, on: NaiveDate) -> Result<Self, ActError> {
        let material = found(batch.material.as_str())?;
        let day = Date::of(on)?;
        let moisture =
            batch.moisture_bp_on(day).map_or(Share::from_fraction(material.moisture.typical), |bp| {
                Share::from_percent(f64::from(bp) / 100.0)
            });
        Ok(Self {
            material,
            moisture,
            carbon_nitrogen: batch
                .carbon_nitrogen_x100_on(day)
                .map_or(material.carbon_nitrogen.typical, |ratio| f64::from(ratio) / 100.0),
            wet_density: measured_density(batch, day).unwrap_or_else(|| wet_density_at(material, moisture)),
        })
    }

    /// A mass, by itself or from a volume.
    pub fn mass(&self, grams: Option<i64>, millilitres: Option<i64>) -> Option<Mass> {
        let weighed = grams.map(|grams| Mass::from_g(grams as f64));
        weighed.or_else(|| Some(litres(millilitres?).mass_at(self.wet_density)))
    }

    /// A volume, by itself or from a mass.
    pub fn volume(&self, grams: Option<i64>, millilitres: Option<i64>) -> Option<Volume> {
        let measured = millilitres.map(litres);
        measured.or_else(|| Some(Mass::from_g(grams? as f64).volume_at(self.wet_density)))
    }
}

/// What a volume of the batch weighed: by itself, or because the load was both weighed and measured.
pub(crate) fn measured_density(batch: &BatchView, day: Date) -> Option<Density> {
    let stated = batch.wet_density_g_m3_on(day).map(|density| f64::from(density) / 1000.0);
    let both = batch.wet_g.zip(batch.volume_ml).filter(|(_, volume)| *volume > 0);
    let weighed = both.map(|(grams, millilitres)| grams as f64 / millilitres as f64 * 1000.0);
    stated.or(weighed).map(Density::from_kg_m3)
}

/// How well that is known, standard deviation as part of it, where a test says it; a load that was both weighed and
/// measured is as well known as its volume.
pub(crate) fn measured_density_sd(batch: &BatchView, day: Date) -> Option<f64> {
    if batch.wet_density_g_m3_on(day).is_some() {
        return batch.wet_density_sd_bp_on(day).map(|bp| f64::from(bp) / 1e4);
    }
    measured_density(batch, day).map(|_| doubt::BY_EYE.value)
}

fn litres(millilitres: i64) -> Volume {
    Volume::from_litres(millilitres as f64 / 1000.0)
}
