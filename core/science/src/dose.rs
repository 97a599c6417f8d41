//! One amount in every measure: from a depth, a volume, a mass, loads or barrows to all the others, loose and settled,
//! and how far the mass on the ground may be off.

use crate::geometry::settling::Settling;
use crate::plain;
use crate::source::{Source, Standing};
use crate::units::{Area, AreaMass, Density, Length, Mass, Share, Volume};

/// How a bucket was filled for its weighing: results of one are not those of another.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Filling {
    /// By thirds, tapped five times after the first and the second, filled to the rim without tapping.
    TappedThirds,
    /// By thirds, dropped ten times from 15 cm after each, topped up without a drop.
    DroppedThirds15Cm,
    /// By thirds, dropped ten times from 30 cm after each, topped up without a drop.
    DroppedThirds30Cm,
    /// Poured in without packing, from ten to twenty places of the heap.
    Poured,
}

impl Filling {
    /// All of them.
    pub const ALL: [Self; 4] =
        [Self::TappedThirds, Self::DroppedThirds15Cm, Self::DroppedThirds30Cm, Self::Poured];

    /// Its name in files.
    pub const fn name(self) -> &'static str {
        match self {
            Self::TappedThirds => "tapped-thirds",
            Self::DroppedThirds15Cm => "dropped-thirds-15-cm",
            Self::DroppedThirds30Cm => "dropped-thirds-30-cm",
            Self::Poured => "poured",
        }
    }

    /// Who describes it.
    pub const fn source(self) -> Source {
        let standing = Standing::SecondHand;
        match self {
            Self::TappedThirds => {
                Source::new("Cooperband", 2002, "bucket test for bulk density", "", standing)
            }
            Self::DroppedThirds15Cm => Source::new("Coker", 0, "five-gallon field method", "", standing),
            Self::DroppedThirds30Cm => Source::new(
                "Washington State University, Puyallup",
                0,
                "bulk density procedure",
                "",
                standing,
            ),
            Self::Poured => Source::new(
                "Alberta Agriculture",
                0,
                "Nutrient Management Planning Guide",
                "p. 126, Agdex 400/28-3",
                Standing::Published,
            ),
        }
    }
}

/// How a density is known.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Method {
    /// A bucket of known volume, weighed.
    Bucket(Filling),
    /// A whole load over a scale, its volume measured.
    WeighedLoad,
    /// A figure that somebody gave, without its weighings.
    Stated,
    /// A table's figure for such material.
    Table,
}

impl Method {
    /// Its name in documents and entries.
    pub fn name(self) -> String {
        match self {
            Self::Bucket(filling) => format!("bucket {}", filling.name()),
            Self::WeighedLoad => "weighed load".to_owned(),
            Self::Stated => "stated".to_owned(),
            Self::Table => "table".to_owned(),
        }
    }

    /// The manner of filling that a method's name tells.
    pub fn filling(name: &str) -> Option<Filling> {
        let name = name.strip_prefix("bucket ")?;
        Filling::ALL.into_iter().find(|filling| filling.name() == name)
    }
}

/// A bulk density with its way of measuring.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bulk {
    /// As it lies, wet, loose.
    pub wet_density: Density,
    /// Standard deviation as part of it.
    pub relative_sd: f64,
    /// How it is known.
    pub method: Method,
}

/// Why figures make no dose.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum DoseError {
    /// A bucket that weighs nothing, or no bucket.
    #[error(
        "bucket {number} weighs {full_kg} kg full and {empty_kg} kg empty: weigh a full bucket of known volume"
    )]
    Bucket {
        /// Which weighing, from 1; 0 where there is none.
        number: usize,
        /// Full.
        full_kg: f64,
        /// Empty.
        empty_kg: f64,
    },
    /// A measure that is none.
    #[error("{what} is {value}: give more than 0")]
    Measure {
        /// Which.
        what: &'static str,
        /// As given.
        value: f64,
    },
    /// Water beyond what a load can hold.
    #[error("moisture of {percent} %: of wet mass less than 100 % can be water")]
    Moisture {
        /// As given.
        percent: f64,
    },
    /// A spread that is none.
    #[error("a spread of {value} for {what}: give 0 to 1 as a part of it")]
    Spread {
        /// Of which.
        what: &'static str,
        /// As given.
        value: f64,
    },
    /// Loads of a carrier whose volume is not known.
    #[error("loads are counted, but the volume of one is not given")]
    NoLoadVolume,
}

/// Standard deviation of one bucket's density where only one was weighed, as part of it; assumption: twice what repeated
/// fillings by one person differ by.
const ONE_BUCKET_SD: f64 = 0.08;

impl Bulk {
    /// From buckets of one volume, filled in one manner: the mean, and the standard error of it.
    ///
    /// # Errors
    /// No bucket, a volume of nothing, or a bucket that weighs no more full than empty.
    pub fn of_buckets(
        volume: Volume,
        empty: Mass,
        full: &[Mass],
        filling: Filling,
    ) -> Result<Self, DoseError> {
        let litres = positive("the bucket's volume in litres", volume.litres())?;
        let bad = |number, full: Mass| DoseError::Bucket { number, full_kg: full.kg(), empty_kg: empty.kg() };
        let mut running = crate::geometry::probe::Running::default();
        for (number, mass) in (1..).zip(full.iter().copied()) {
            let net = mass.kg() - empty.kg();
            if !(empty.kg() >= 0.0 && net > 0.0 && net.is_finite()) {
                return Err(bad(number, mass));
            }
            running.add(net);
        }
        let net = running.mean().ok_or_else(|| bad(0, Mass::default()))?;
        let relative_sd = if net.count == 1 { ONE_BUCKET_SD } else { net.standard_error / net.mean };
        Ok(Self {
            wet_density: Mass::from_kg(net.mean).per_volume(Volume::from_litres(litres)),
            relative_sd,
            method: Method::Bucket(filling),
        })
    }
}

/// Whether an amount is as poured or as it lies after some time.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Packing {
    /// As poured or carried.
    Loose,
    /// As it lies by now.
    Settled,
}

/// The one figure that is known of an amount.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Known {
    /// Depth on the whole area.
    Depth(Length, Packing),
    /// Volume.
    Volume(Volume, Packing),
    /// Mass as it lies.
    Wet(Mass),
    /// Dry mass.
    Dry(Mass),
    /// Dry mass per area.
    DryPerArea(AreaMass),
    /// Loads of the carrier, loose.
    Loads(f64),
    /// Barrows, loose.
    Barrows(f64),
}

/// Which other figures the dry mass per area follows from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct LeansOn {
    /// The area.
    pub area: bool,
    /// The density.
    pub density: bool,
    /// The water.
    pub moisture: bool,
}

impl Known {
    /// What else the dry mass per area follows from: a depth needs no area, a weighed load no density.
    pub const fn leans_on(self) -> LeansOn {
        let (area, density, moisture) = match self {
            Self::Depth(..) => (false, true, true),
            Self::Volume(..) | Self::Loads(_) | Self::Barrows(_) => (true, true, true),
            Self::Wet(_) => (true, false, true),
            Self::Dry(_) => (true, false, false),
            Self::DryPerArea(_) => (false, false, false),
        };
        LeansOn { area, density, moisture }
    }
}

/// What the amount lies on, is made of and is carried in.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Setting {
    /// The ground it goes on.
    pub area: Area,
    /// Density, wet and loose.
    pub wet_density: Density,
    /// Water, wet basis.
    pub moisture: Share,
    /// How far it has settled.
    pub settling: Settling,
    /// Volume of a barrow.
    pub barrow: Volume,
    /// Volume of a load, where it is known.
    pub load: Option<Volume>,
}

/// An amount in every measure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Amount {
    /// Dry mass.
    pub dry: Mass,
    /// Mass as it lies.
    pub wet: Mass,
    /// Volume as poured.
    pub loose: Volume,
    /// Volume after settling.
    pub settled: Volume,
    /// Depth as poured.
    pub loose_depth: Length,
    /// Depth after settling.
    pub settled_depth: Length,
    /// Dry mass per area.
    pub dry_per_area: AreaMass,
    /// Barrows, loose.
    pub barrows: f64,
    /// Loads, loose.
    pub loads: Option<f64>,
}

/// Works an amount out from the one figure that is known of it.
///
/// # Errors
/// A figure that is not above nothing; water of all the mass; loads of no volume.
pub fn amount(known: Known, setting: &Setting) -> Result<Amount, DoseError> {
    let area = Area::from_m2(positive("the area in square metres", setting.area.m2())?);
    let density = Density::from_kg_m3(positive("the density in kg/m3", setting.wet_density.kg_m3())?);
    let barrow = Volume::from_litres(positive("a barrow in litres", setting.barrow.litres())?);
    let load = setting.load.map(|load| positive("a load in m3", load.m3())).transpose()?.map(Volume::from_m3);
    let solid = 1.0 - setting.moisture.fraction();
    if !(solid > 0.0 && solid <= 1.0) {
        return Err(DoseError::Moisture { percent: setting.moisture.percent() });
    }
    let loosened = |volume: Volume, packing| match packing {
        Packing::Loose => volume,
        Packing::Settled => setting.settling.loose(volume),
    };
    let loose = match known {
        Known::Depth(depth, packing) => loosened(area.volume_of(depth), packing),
        Known::Volume(volume, packing) => loosened(volume, packing),
        Known::Wet(wet) => wet.volume_at(density),
        Known::Dry(dry) => (dry / solid).volume_at(density),
        Known::DryPerArea(dose) => (area.mass_of(dose) / solid).volume_at(density),
        Known::Loads(count) => load.ok_or(DoseError::NoLoadVolume)? * count,
        Known::Barrows(count) => barrow * count,
    };
    positive("the amount", loose.m3())?;
    let settled = setting.settling.settled(loose);
    let wet = loose.mass_at(density);
    let dry = wet * solid;
    Ok(Amount {
        dry,
        wet,
        loose,
        settled,
        loose_depth: loose.depth_over(area),
        settled_depth: settled.depth_over(area),
        dry_per_area: dry.per(area),
        barrows: loose.m3() / barrow.m3(),
        loads: load.map(|load| loose.m3() / load.m3()),
    })
}

/// How well the parts of a dose are known: standard deviations as parts of the thing itself.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Doubt {
    /// Of the area.
    pub area: f64,
    /// Of the figure that is known: depth, volume, mass, or the fill of a container.
    pub known: f64,
    /// Of the density.
    pub density: f64,
    /// Of the water, in parts of wet mass (0.05 is five points of moisture), not of itself.
    pub moisture: f64,
}

/// How far the dry mass per area may be off.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spread {
    /// Standard deviation as part of the mass per area.
    pub relative_sd: f64,
    /// Standard deviation of its logarithm: what the nitrogen model draws the mass with (`mass_sd`).
    pub log_sd: f64,
}

impl Spread {
    /// Of what is lognormal with a standard deviation as part of it.
    pub fn of(relative_sd: f64) -> Self {
        Self { relative_sd, log_sd: libm::log(1.0 + relative_sd * relative_sd).sqrt() }
    }

    /// By so much of itself a figure may be lower or higher: one case in ten lies beyond either end.
    pub fn factor(self) -> f64 {
        libm::exp(plain::TENTH * self.log_sd)
    }

    /// The standard deviation of a dose.
    pub fn sd(self, dose: AreaMass) -> AreaMass {
        dose * self.relative_sd
    }

    /// A dose with its ends: one case in ten lies below the first, one in ten above the last.
    pub fn range(self, dose: AreaMass) -> [AreaMass; 3] {
        let factor = self.factor();
        [dose / factor, dose, dose * factor]
    }
}

/// Standard deviation, as part of the thing, of what is lognormal with that deviation of its logarithm.
pub fn relative_sd(log_sd: f64) -> f64 {
    (libm::exp(log_sd * log_sd) - 1.0).max(0.0).sqrt()
}

/// Carries the doubts to the dry mass per area.
///
/// Only what the known figure leans on counts: a depth needs no area, a weighed load no density. Independent parts of a
/// product: (1 + r²) multiply (Goodman 1960, from memory); the logarithm has the standard deviation of the lognormal of
/// that spread.
///
/// # Errors
/// A doubt that is not 0 to 1; water of all the mass.
pub fn spread(known: Known, moisture: Share, doubt: Doubt) -> Result<Spread, DoseError> {
    let parts = [
        ("the area", doubt.area),
        ("what is known", doubt.known),
        ("the density", doubt.density),
        ("the moisture", doubt.moisture),
    ];
    for (what, value) in parts {
        if !(0.0..=1.0).contains(&value) {
            return Err(DoseError::Spread { what, value });
        }
    }
    let solid = 1.0 - moisture.fraction();
    if !(solid > 0.0 && solid <= 1.0) {
        return Err(DoseError::Moisture { percent: moisture.percent() });
    }
    let dryness = doubt.moisture / solid;
    let on = |part: f64, counts: bool| if counts { 1.0 + part * part } else { 1.0 };
    let counts = known.leans_on();
    let product = on(doubt.known, true)
        * on(doubt.area, counts.area)
        * on(doubt.density, counts.density)
        * on(dryness, counts.moisture);
    Ok(Spread { relative_sd: (product - 1.0).max(0.0).sqrt(), log_sd: libm::log(product).max(0.0).sqrt() })
}

fn positive(what: &'static str, value: f64) -> Result<f64, DoseError> {
    if value > 0.0 && value.is_finite() { Ok(value) } else { Err(DoseError::Measure { what, value }) }
}

#[cfg(test)]
#[expect(clippy::unwrap_used, reason = "a test may stop where it stands")]
mod tests {
    use super::*;

    fn setting() -> Setting {
        Setting {
            area: Area::from_m2(12.0),
            wet_density: Density::from_kg_m3(250.0),
            moisture: Share::from_percent(40.0),
            settling: Settling::of(0.8).unwrap(),
            barrow: Volume::from_litres(80.0),
            load: Some(Volume::from_m3(1.5)),
        }
    }

    #[test]
    fn every_measure_leads_to_every_other_and_back() {
        let five_cm = amount(Known::Depth(Length::from_cm(5.0), Packing::Loose), &setting()).unwrap();
        assert!((five_cm.loose.m3() - 0.6).abs() < 1e-12);
        assert!((five_cm.wet.kg() - 150.0).abs() < 1e-9 && (five_cm.dry.kg() - 90.0).abs() < 1e-9);
        assert!((five_cm.dry_per_area.t_ha() - 75.0).abs() < 1e-9);
        assert!((five_cm.barrows - 7.5).abs() < 1e-12 && (five_cm.loads.unwrap() - 0.4).abs() < 1e-12);
        assert!((five_cm.settled_depth.cm() - 4.0).abs() < 1e-12);
        for known in [
            Known::Depth(five_cm.settled_depth, Packing::Settled),
            Known::Volume(five_cm.loose, Packing::Loose),
            Known::Volume(five_cm.settled, Packing::Settled),
            Known::Wet(five_cm.wet),
            Known::Dry(five_cm.dry),
            Known::DryPerArea(five_cm.dry_per_area),
            Known::Loads(five_cm.loads.unwrap()),
            Known::Barrows(five_cm.barrows),
        ] {
            let again = amount(known, &setting()).unwrap();
            for (a, b) in [
                (again.dry.kg(), five_cm.dry.kg()),
                (again.loose_depth.m(), five_cm.loose_depth.m()),
                (again.settled.m3(), five_cm.settled.m3()),
                (again.barrows, five_cm.barrows),
            ] {
                assert!((a / b - 1.0).abs() < 1e-12, "{known:?}");
            }
        }
    }

    #[test]
    fn only_what_the_known_figure_leans_on_counts() {
        let doubt = Doubt { area: 0.10, known: 0.05, density: 0.20, moisture: 0.06 };
        let of = |known| spread(known, Share::from_percent(40.0), doubt).unwrap().relative_sd;
        let close = |a: f64, parts: &[f64]| {
            let product: f64 = parts.iter().map(|part| 1.0 + part * part).product();
            assert!((a - (product - 1.0).sqrt()).abs() < 1e-12, "{a} is not of {parts:?}");
        };
        // Six points of water are a tenth of the sixty in a hundred that are dry.
        let mass = Mass::from_kg(1.0);
        close(of(Known::DryPerArea(AreaMass::from_t_ha(10.0))), &[0.05]);
        close(of(Known::Dry(mass)), &[0.05, 0.10]);
        close(of(Known::Wet(mass)), &[0.05, 0.10, 0.10]);
        close(of(Known::Depth(Length::from_cm(5.0), Packing::Loose)), &[0.05, 0.20, 0.10]);
        close(of(Known::Barrows(8.0)), &[0.05, 0.10, 0.20, 0.10]);
        let one = spread(Known::Barrows(8.0), Share::from_percent(40.0), doubt).unwrap();
        assert!(one.log_sd < one.relative_sd && one.log_sd > 0.97 * one.relative_sd);
        let sure = spread(Known::Dry(mass), Share::default(), Doubt::default()).unwrap();
        assert!(sure.log_sd.abs() < 1e-300);
    }

    #[test]
    fn buckets_are_weighed_more_than_once_when_it_matters() {
        let twenty = Volume::from_litres(20.0);
        let kg = Mass::from_kg;
        let one = Bulk::of_buckets(twenty, kg(1.0), &[kg(10.0)], Filling::TappedThirds).unwrap();
        assert!((one.relative_sd - ONE_BUCKET_SD).abs() < 1e-15);
        let three =
            Bulk::of_buckets(twenty, kg(1.0), &[kg(9.8), kg(10.0), kg(10.2)], Filling::Poured).unwrap();
        assert!((three.wet_density.kg_m3() - 450.0).abs() < 1e-9);
        assert!((three.relative_sd - 0.2 / 3.0_f64.sqrt() / 9.0).abs() < 1e-12);
        assert_eq!(three.method, Method::Bucket(Filling::Poured));
        for full in [&[][..], &[kg(1.0)], &[kg(10.0), kg(f64::NAN)]] {
            assert!(matches!(
                Bulk::of_buckets(twenty, kg(1.0), full, Filling::Poured),
                Err(DoseError::Bucket { .. })
            ));
        }
        assert!(Bulk::of_buckets(Volume::default(), kg(1.0), &[kg(10.0)], Filling::Poured).is_err());
    }

    #[test]
    fn what_is_no_measure_is_refused() {
        let none = |known| amount(known, &setting()).is_err();
        assert!(none(Known::Barrows(0.0)) && none(Known::Wet(Mass::from_kg(f64::NAN))));
        assert!(none(Known::Depth(Length::from_cm(-1.0), Packing::Loose)));
        let with = |change: fn(&mut Setting)| {
            let mut changed = setting();
            change(&mut changed);
            amount(Known::Loads(2.0), &changed)
        };
        assert!(matches!(with(|s| s.load = None), Err(DoseError::NoLoadVolume)));
        assert!(matches!(with(|s| s.moisture = Share::from_percent(100.0)), Err(DoseError::Moisture { .. })));
        assert!(with(|s| s.area = Area::default()).is_err());
        let doubt = Doubt { density: -0.1, ..Doubt::default() };
        assert!(spread(Known::Barrows(1.0), Share::default(), doubt).is_err());
    }
}
