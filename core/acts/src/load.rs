//! A load in figures: from whatever one number a person has to dry and wet mass, volume, depth and containers.

use kerfbook_ledger::kind::ContainerKind;
use kerfbook_science::geometry::settling::Settling;
use kerfbook_science::material::{self, Found, Material, Part};
use kerfbook_science::mulch;
use kerfbook_science::plain::{self, Age};
use kerfbook_science::units::{Area, AreaMass, Density, Length, Mass, Share, Volume};

use crate::assumed::{Assumed, Value};
use crate::doubt::{self, Doubts};
use crate::error::ActError;
use crate::scenario::{Amount, Containers, KnownBy, Particle, Place, PutDown};

/// A load on a place, in every measure at once.
#[derive(Debug, Clone, PartialEq)]
pub struct Load {
    /// What it is, from the table of materials.
    pub material: &'static Material,
    /// What the model sees of it: the table's composition, or that of the blend it is.
    pub composition: Vec<Part>,
    /// Size of pieces.
    pub particle: Particle,
    /// Water, wet basis.
    pub moisture: Share,
    /// How far the moisture may be off, either way, where it was not measured and the load was weighed as it was moist.
    pub moisture_half: Option<Share>,
    /// Standard deviation of the moisture, in parts of the wet mass.
    pub moisture_sd: Share,
    /// Carbon to nitrogen by mass, where stated; else the model draws around its class.
    pub carbon_nitrogen: Option<f64>,
    /// Wet, loose.
    pub wet_density: Density,
    /// Dry mass in all.
    pub dry: Mass,
    /// Wet mass in all.
    pub wet: Mass,
    /// Loose volume in all.
    pub loose: Volume,
    /// Depth of the loose layer.
    pub depth: Length,
    /// Dry mass per area.
    pub dry_per_area: AreaMass,
    /// What it settles to.
    pub settling: Settling,
    /// Volume after settling.
    pub settled: Volume,
    /// Depth after settling.
    pub settled_depth: Length,
    /// How far the dry mass per area may be off, and why.
    pub doubts: Doubts,
    /// Share of the mass under 10 mm.
    pub fines_share: f64,
    /// Factor on the rate of decay: what age has left of the part that decays fast.
    pub rate_factor: f64,
    /// Spread that plain answers add to the rate of decay, standard deviation of its logarithm.
    pub rate_spread: f64,
}

/// A container and how many of it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Counted {
    /// Barrows.
    pub barrows: f64,
    /// Buckets.
    pub buckets: f64,
    /// Trailers, where there is one.
    pub trailers: Option<f64>,
}

/// A container of the grower's.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Carried {
    /// In barrows.
    Barrows,
    /// In buckets.
    Buckets,
    /// In trailers.
    Trailers,
}

/// From this part of a container on an amount is told in it; below, in the next smaller (common practice).
const WORTH_A_CONTAINER: f64 = 0.5;

impl Carried {
    /// The volume of one.
    pub fn volume(self, containers: &Containers) -> Volume {
        match self {
            Self::Barrows => containers.barrow,
            Self::Buckets => containers.bucket,
            Self::Trailers => containers.trailer.unwrap_or_default(),
        }
    }
}

impl Counted {
    /// A volume in every container of the grower's.
    pub fn of(volume: Volume, containers: &Containers) -> Self {
        let litres = volume.litres();
        Self {
            barrows: litres / containers.barrow.litres(),
            buckets: litres / containers.bucket.litres(),
            trailers: containers.trailer.map(|trailer| litres / trailer.litres()),
        }
    }

    /// The container to tell it in: the largest that it fills half.
    pub fn told_in(&self) -> (Carried, f64) {
        match self.trailers {
            Some(trailers) if trailers >= WORTH_A_CONTAINER => (Carried::Trailers, trailers),
            _ if self.barrows >= WORTH_A_CONTAINER => (Carried::Barrows, self.barrows),
            _ => (Carried::Buckets, self.buckets),
        }
    }
}

impl Load {
    /// Works a putting-down out on a place.
    ///
    /// # Errors
    /// A material that is not in the table, is refused, or is no residue; an amount that makes no layer.
    pub fn of(
        put: &PutDown,
        place: &Place,
        containers: &Containers,
        assumed: &mut Vec<Assumed>,
    ) -> Result<Self, ActError> {
        let material = find(&put.material)?;
        if material.composition.is_empty() {
            return Err(ActError::NotResidue { material: material.name.to_owned() });
        }
        let answers = put.answers;
        let pieces = answers.pieces;
        let particle = put
            .particle
            .or_else(|| pieces?.particle().map(|particle| particle.value))
            .unwrap_or(material.particle);
        let (moisture, moisture_half) = moisture(put, material, assumed);
        let wet_density = put.bulk_density.unwrap_or_else(|| {
            let density = wet_density_at(material, moisture);
            assumed.push(Assumed::new("bulk_density_kg_m3", Value::Number(density.kg_m3())));
            density
        });
        let solid = 1.0 - moisture.fraction();
        let dry_density = wet_density * solid;
        let settling = put.settling.unwrap_or_else(|| usual_settling(particle, put.amount, assumed));
        let loose = match put.amount {
            Amount::DryPerArea(_) | Amount::Wet(_) => None,
            Amount::Loose(volume) => Some(volume),
            Amount::Depth(depth) => Some(place.area.volume_of(depth)),
            Amount::SettledDepth(depth) => Some(settling.loose(place.area.volume_of(depth))),
            Amount::Barrows(count) => Some(containers.barrow * count),
            Amount::Trailers(count) => Some(trailer(containers)? * count),
            Amount::Laid { by, count } => {
                Some(place.area.volume_of(Length::from_mm(by.width_mm().typical * count)))
            }
        };
        let dry = match (put.amount, loose) {
            (Amount::DryPerArea(dose), _) => place.area.mass_of(dose),
            (Amount::Wet(wet), _) => wet * solid,
            (_, loose) => loose.unwrap_or_default().mass_at(dry_density),
        };
        let kept = put.kept.as_ref();
        let weighed = matches!(put.measured.known_by, None | Some(KnownBy::Mass));
        let drawn = moisture_half.filter(|_| weighed && matches!(put.amount, Amount::Wet(_)));
        let moisture_sd = doubt::moisture_sd(moisture_half);
        let nothing = || ActError::NothingThere { material: material.name.to_owned() };
        let doubts =
            doubt::of(put, place, material, moisture, moisture_half, drawn.is_some()).ok_or_else(nothing)?;
        // A size that was stated goes before what a handful looked like.
        let pieces = pieces.filter(|_| put.particle.is_none());
        let left = answers.age.map(Age::left);
        let spreads = [left.map(|left| left.log_spread()), pieces.map(|pieces| pieces.rate_spread().value)];
        Self::of_dry(
            Self {
                material,
                composition: kept
                    .map(|kept| kept.composition.clone())
                    .filter(|blend| !blend.is_empty())
                    .unwrap_or_else(|| material.composition.clone()),
                particle,
                moisture,
                moisture_half: drawn,
                moisture_sd,
                carbon_nitrogen: put.carbon_nitrogen,
                wet_density,
                settling,
                doubts,
                fines_share: pieces.map_or(0.0, |pieces| pieces.fines_share().value),
                rate_factor: left.map_or(1.0, |left| left.typical),
                rate_spread: spreads.into_iter().flatten().fold(0.0, plain::together),
                dry,
                wet: Mass::default(),
                loose: Volume::default(),
                depth: Length::default(),
                settled: Volume::default(),
                settled_depth: Length::default(),
                dry_per_area: AreaMass::default(),
            },
            dry,
            place.area,
        )
    }

    /// The same material, another dry mass.
    ///
    /// # Errors
    /// A mass or an area that makes no layer.
    pub fn of_dry(self, dry: Mass, area: Area) -> Result<Self, ActError> {
        let solid = 1.0 - self.moisture.fraction();
        let wet = dry / solid;
        let loose = wet.volume_at(self.wet_density);
        let settled = self.settling.settled(loose);
        let load = Self {
            dry,
            wet,
            loose,
            settled,
            depth: loose.depth_over(area),
            settled_depth: settled.depth_over(area),
            dry_per_area: dry.per(area),
            ..self
        };
        if load.dry_per_area.t_ha().is_finite()
            && load.dry_per_area.t_ha() > 0.0
            && load.loose.m3().is_finite()
        {
            Ok(load)
        } else {
            Err(ActError::NothingThere { material: load.material.name.to_owned() })
        }
    }

    /// How many containers it fills.
    pub fn counted(&self, containers: &Containers) -> Counted {
        Counted::of(self.loose, containers)
    }

    /// Spread of the mass over the runs, standard deviation of its logarithm.
    pub fn mass_spread(&self) -> f64 {
        self.doubts.of_runs.log_sd
    }
}

/// What a layer settles to where nobody measured it; told where the amount hangs on it.
fn usual_settling(particle: Particle, amount: Amount, assumed: &mut Vec<Assumed>) -> Settling {
    let usual = mulch::settled_share(particle).typical;
    if matches!(amount, Amount::SettledDepth(_)) {
        assumed.push(Assumed::new("settles_to_pct", Value::Percent(usual)));
    }
    Settling::of(usual).unwrap_or(Settling::NONE)
}

fn trailer(containers: &Containers) -> Result<Volume, ActError> {
    containers
        .trailer
        .ok_or(ActError::Missing { key: "containers.trailer_m3", why: "the load is counted in trailers" })
}

/// Moisture as stated, or as the table has it; and how far it may be off where it was not measured.
fn moisture(put: &PutDown, material: &Material, assumed: &mut Vec<Assumed>) -> (Share, Option<Share>) {
    if let Some(moisture) = put.moisture {
        return (moisture, put.moisture_half);
    }
    let usual = material.moisture;
    assumed.push(Assumed::new("moisture_pct", Value::Percent(usual.typical)));
    let half = plain::half_width(usual.low, usual.high);
    (Share::from_fraction(usual.typical), Some(Share::from_fraction(half)))
}

/// The table's wet density, moved to another moisture: the dry matter takes the same room.
pub(crate) fn wet_density_at(material: &Material, moisture: Share) -> Density {
    let dry = material.wet_density.typical * (1.0 - material.moisture.typical);
    Density::from_kg_m3(dry / (1.0 - moisture.fraction()))
}

fn find(name: &str) -> Result<&'static Material, ActError> {
    match material::find(name) {
        Found::Material(material) => Ok(material),
        Found::Refused(refusal) => Err(ActError::Refused { material: name.to_owned(), refusal }),
        Found::Unknown { nearest } => Err(ActError::UnknownMaterial {
            material: name.to_owned(),
            nearest: nearest.iter().map(|material| material.name.to_owned()).collect(),
        }),
    }
}

impl From<Carried> for ContainerKind {
    fn from(carried: Carried) -> Self {
        match carried {
            Carried::Barrows => Self::Barrow,
            Carried::Buckets => Self::Bucket,
            Carried::Trailers => Self::Trailer,
        }
    }
}
