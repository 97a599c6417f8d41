//! A soil test as people have it, in kg/ha of the root zone.

use chrono::NaiveDate;
use kerfbook_ledger::kind::{NitrogenForm, SoilTested};
use kerfbook_science::soil;
use kerfbook_science::units::{AreaMass, Density, Length, Share};

use crate::assumed::Assumed;
use crate::forecast::Measured;
use crate::scenario::Scenario;
use crate::site;

/// What a laboratory or a strip reports.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Form {
    /// Nitrogen of nitrate.
    NitrateN,
    /// Nitrate itself: 4.43 times its nitrogen.
    Nitrate,
    /// Nitrogen of nitrate and ammonium.
    MineralN,
}

/// How much, of the stated form.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Reported {
    /// mg a kg of dry soil, ppm.
    Ppm(f64),
    /// kg/ha of the depth that was sampled.
    PerArea(AreaMass),
}

/// A soil test.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SoilTest {
    /// Day of sampling.
    pub date: NaiveDate,
    /// Nitrogen found.
    pub nitrogen: Option<(Form, Reported)>,
    /// Depth sampled; that of the root zone where nobody says.
    pub depth: Option<Length>,
    /// pH.
    pub ph: Option<f64>,
    /// Organic matter by mass.
    pub organic_matter: Option<Share>,
}

impl SoilTest {
    /// A test as a book has it. A form that nobody named is taken as nitrogen.
    pub fn of_entry(date: NaiveDate, test: &SoilTested) -> Self {
        let form = match test.nitrogen_form {
            Some(NitrogenForm::Nitrate) => Form::Nitrate,
            Some(NitrogenForm::NitrateN) => Form::NitrateN,
            Some(NitrogenForm::MineralN) | None => Form::MineralN,
        };
        let per_area = test.mg_m2.map(|mg| Reported::PerArea(AreaMass::from_kg_ha(f64::from(mg) / 100.0)));
        let ppm = test.mg_kg_x100.map(|hundredths| Reported::Ppm(f64::from(hundredths) / 100.0));
        let thick = |bottom: u32| bottom.checked_sub(test.top_mm.unwrap_or(0)).filter(|mm| *mm > 0);
        Self {
            date,
            nitrogen: per_area.or(ppm).map(|reported| (form, reported)),
            depth: test.bottom_mm.and_then(thick).map(|mm| Length::from_mm(f64::from(mm))),
            ph: test.ph_x100.map(|hundredths| f64::from(hundredths) / 100.0),
            organic_matter: test.organic_matter_bp.map(|bp| Share::from_percent(f64::from(bp) / 100.0)),
        }
    }

    /// Mineral nitrogen of the root zone.
    ///
    /// Two things are taken for granted and noted: that soil below or above the sample holds as much a kilogram
    /// (assumption), and that a test for nitrate alone found what there is: the model has ammonium and nitrate in one.
    pub fn nitrogen(&self, scenario: &Scenario, assumed: &mut Vec<Assumed>) -> Option<AreaMass> {
        self.of_zone(site::depth(scenario), scenario.soil.bulk_density, assumed)
    }

    /// The same for a root zone of some depth and density.
    pub(crate) fn of_zone(
        &self,
        zone: Length,
        density: Option<Density>,
        assumed: &mut Vec<Assumed>,
    ) -> Option<AreaMass> {
        let (form, reported) = self.nitrogen?;
        let of_form = |amount: f64| match form {
            Form::Nitrate => soil::nitrogen_of_nitrate(amount),
            Form::NitrateN | Form::MineralN => amount,
        };
        if self.depth.is_some_and(|depth| (depth.cm() - zone.cm()).abs() > 0.5) {
            assumed.push(Assumed::text("soil_test.depth", "as much a kilogram through the root zone"));
        }
        if form != Form::MineralN {
            assumed.push(Assumed::text("soil_test.ammonium", "none beside the nitrate"));
        }
        Some(match reported {
            Reported::Ppm(ppm) => {
                let density = density.unwrap_or_else(|| {
                    let typical = soil::TYPICAL_BULK_DENSITY.value;
                    assumed.push(Assumed::number("bulk_density_g_cm3", typical.g_cm3()));
                    typical
                });
                soil::nitrogen_of_ppm(of_form(ppm), density, zone)
            }
            Reported::PerArea(mass) => {
                let sampled = self.depth.unwrap_or(zone);
                AreaMass::from_kg_ha(of_form(mass.kg_ha()) * (zone.cm() / sampled.cm()))
            }
        })
    }

    /// The test as something that weighs the runs; none where no nitrogen was tested.
    pub fn measured(&self, scenario: &Scenario, assumed: &mut Vec<Assumed>) -> Option<Measured> {
        self.nitrogen(scenario, assumed)
            .map(|found| Measured::SoilNitrate { date: self.date, kg_ha: found.kg_ha() })
    }

    /// Puts what does not change in a season into the soil: organic matter, in place of what was answered.
    pub fn settle(&self, scenario: &mut Scenario) {
        if let Some(organic_matter) = self.organic_matter {
            scenario.soil.organic_matter = organic_matter;
            scenario.soil.answers.colour = None;
        }
    }
}
