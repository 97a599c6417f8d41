//! What a person describes: one place, its soil and weather, its crops, loads and feeds.
//!
//! Whoever makes a scenario checks it: amounts above zero, crops that end after they start and do not overlap. The
//! model checks its own input again.

use chrono::NaiveDate;
pub use kerfbook_science::caution::Way;
pub use kerfbook_science::geometry::run::{Block, Drive, Tree};
use kerfbook_science::geometry::settling::Settling;
use kerfbook_science::material::Part;
pub use kerfbook_science::material::Particle;
pub use kerfbook_science::plain::Appetite;
use kerfbook_science::plain::weather::{Seasons, WATERED_WHEN_LEAVES_HANG};
use kerfbook_science::plain::{Age, Colour, LaidBy, LastCropFed, Pieces, Rain, Rolled};
use kerfbook_science::source::{Source, Sourced};
use kerfbook_science::units::{Area, AreaMass, Density, Length, Mass, Share, Volume};

pub use crate::doubt::{KnownBy, Measured};

/// One place and all that happens on it in the time looked at.
#[derive(Debug, Clone, PartialEq)]
pub struct Scenario {
    /// Who grows here, where, under which rules.
    pub holding: Holding,
    /// Weather, cover and watering.
    pub weather: Weather,
    /// The soil under the place.
    pub soil: Soil,
    /// The ground itself.
    pub place: Place,
    /// Crops in order of planting; they do not overlap.
    pub crops: Vec<Crop>,
    /// Loads of residue, in order of date.
    pub put_down: Vec<PutDown>,
    /// Nitrogen given anyway, in order of date.
    pub feeds: Vec<Feed>,
    /// Days on which the soil is worked.
    pub worked: Vec<Worked>,
    /// Days on which a layer is lifted.
    pub lifted: Vec<Lifted>,
    /// Other places from which material was lifted that lies here; none where the person describes one place alone.
    pub origins: Vec<Origin>,
    /// The grower's own containers.
    pub containers: Containers,
    /// Rows of trees that are worked load by load, where there are any.
    pub orchard: Option<Orchard>,
}

impl Scenario {
    /// The same on a part of the place, with the trees that stand there: of what was given in all, the part's share.
    pub(crate) fn take_part(&mut self, area: Area, trees: u32) {
        let part = area.m2() / self.place.area.m2();
        self.place.area = area;
        self.put_down.iter_mut().for_each(|put| put.amount.on_part(part));
        for feed in &mut self.feeds {
            match &mut feed.amount {
                FeedAmount::Product(mass) => *mass = *mass * part,
                FeedAmount::Liquid(volume) => *volume = *volume * part,
                FeedAmount::Nitrogen(_) => {}
            }
        }
        for crop in self.crops.iter_mut().filter(|crop| crop.plants.is_some()) {
            crop.plants = Some(trees);
        }
    }
}

/// The farm, garden or orchard.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Holding {
    /// North positive; needed where evaporation must be estimated.
    pub latitude_deg: Option<f64>,
    /// Food is sold.
    pub sells: bool,
    /// Certified organic.
    pub certified: bool,
    /// The grower has confirmed that local rules allow human urine on food crops.
    pub urine_confirmed: bool,
    /// Nitrogen sources at hand, names of `kerfbook_science::feed`, first choice first; may be empty.
    pub at_hand: Vec<String>,
}

/// Weather of the place.
#[derive(Debug, Clone, PartialEq)]
pub struct Weather {
    /// Mean temperature of each month, degrees C.
    pub month_mean_c: [f64; 12],
    /// Total rain of each month, mm.
    pub month_rain_mm: [f64; 12],
    /// Reference evaporation, mean a day, mm; estimated where absent.
    pub month_et0_mm_day: Option<[f64; 12]>,
    /// Mean daily range of temperature, degrees C, for the estimate of evaporation.
    pub month_range_c: Option<[f64; 12]>,
    /// Day by day, where a file was given; the normals above still describe the usual year.
    pub daily: Option<Daily>,
    /// Roof or tunnel: no rain falls in.
    pub cover: bool,
    /// Soil kept moist whatever the weather.
    pub watered_enough: bool,
    /// Single waterings.
    pub water: Vec<Water>,
    /// The words that the months above were made of, where they were: the runs spread accordingly.
    pub answers: WeatherAnswers,
}

/// Plain answers about a climate.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct WeatherAnswers {
    /// The words behind the means of the months.
    pub seasons: Option<Seasons>,
    /// The word behind the rain of the months.
    pub rain: Option<Rain>,
}

/// Daily weather, one value a day from `first`.
#[derive(Debug, Clone, PartialEq)]
pub struct Daily {
    /// Date of the first value.
    pub first: NaiveDate,
    /// Mean temperature, degrees C.
    pub mean_c: Vec<f64>,
    /// Rain, mm.
    pub rain_mm: Vec<f64>,
    /// Reference evaporation, mm; estimated where absent.
    pub et0_mm: Option<Vec<f64>>,
}

/// Water given on a day.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Water {
    /// When.
    pub date: NaiveDate,
    /// How much.
    pub depth: Length,
    /// It does not pass what lies there.
    pub under: bool,
}

/// The soil.
#[derive(Debug, Clone, PartialEq)]
pub struct Soil {
    /// Clay share of the fine earth.
    pub clay: Option<Share>,
    /// Sand share of the fine earth; assumed where absent.
    pub sand: Option<Share>,
    /// Organic matter by mass.
    pub organic_matter: Share,
    /// Dry bulk density of the soil.
    pub bulk_density: Option<Density>,
    /// Depth that roots and microbes share.
    pub depth: Length,
    /// Mineral nitrogen on the day of sampling, where known.
    pub mineral_nitrogen: Option<AreaMass>,
    /// Day of sampling.
    pub sampled: Option<NaiveDate>,
    /// Plant-available water of the depth, where measured; else from texture.
    pub available_water: Option<Length>,
    /// All water at field capacity of the depth, where measured; else from texture.
    pub field_capacity: Option<Length>,
    /// Part of the available water that is there on the first day.
    pub water_at_start: Share,
    /// What was answered instead of measured; a figure above goes before an answer.
    pub answers: SoilAnswers,
}

/// Plain answers about soil. What is neither measured nor answered is unknown, and spreads the runs most.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct SoilAnswers {
    /// In place of clay and sand.
    pub rolled: Option<Rolled>,
    /// The colour that the organic matter was told by.
    pub colour: Option<Colour>,
    /// In place of mineral nitrogen.
    pub last_crop_fed: Option<LastCropFed>,
}

/// What kind of ground it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum PlaceKind {
    /// A bed.
    Bed,
    /// A row.
    Row,
    /// Rings under trees.
    Rings,
    /// A path.
    Path,
    /// Where heaps lie; nothing grows there.
    Yard,
    /// A trial plot.
    Plot,
    /// A pot, bag or box.
    Container,
}

/// The ground.
#[derive(Debug, Clone, PartialEq)]
pub struct Place {
    /// What kind of ground.
    pub kind: PlaceKind,
    /// Its area; for rings that of all rings together, less the gaps.
    pub area: Area,
    /// Standard deviation of the area as part of it, where that is known.
    pub area_sd: Option<f64>,
    /// Depth of rooting; replaces the depth of the soil for nitrogen.
    pub rooting_depth: Option<Length>,
    /// Volume of one container.
    pub container: Option<Volume>,
}

/// What becomes of a crop.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Fate {
    /// Carried off the place.
    CarriedOff,
    /// Dug in.
    DugIn,
    /// Mown and left.
    Mown,
}

/// A crop.
#[derive(Debug, Clone, PartialEq)]
pub struct Crop {
    /// What it is called.
    pub name: String,
    /// What it takes up in full, from soil and fixation together.
    pub need: CropNeed,
    /// Sown or planted.
    pub started: NaiveDate,
    /// Harvested or dug in.
    pub ended: NaiveDate,
    /// Days from start to half of the uptake; 0.6 of the season where absent.
    pub midpoint_day: Option<f64>,
    /// Part of the need that a legume fixes itself.
    pub fixed: Share,
    /// Number of plants or trees.
    pub plants: Option<u32>,
    /// What becomes of it, or of what the harvest leaves.
    pub fate: Fate,
    /// A harvest is carried off, whatever becomes of the rest.
    pub harvested: bool,
    /// Whether it comes again.
    pub again: Again,
}

impl Crop {
    /// What it is given where somebody waters when the leaves hang: a usual amount every so many days while it stands.
    pub fn watered_when_leaves_hang(&self) -> impl Iterator<Item = Water> + use<> {
        let ((mm, days), ended) = (WATERED_WHEN_LEAVES_HANG.value, self.ended);
        let every = self.started.iter_days().step_by(days as usize).skip(1);
        let given = every.take_while(move |date| *date < ended);
        given.map(move |date| Water { date, depth: Length::from_mm(mm), under: false })
    }
}

/// Whether a crop comes again.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Again {
    /// It stands once, on its own dates.
    Never,
    /// With the same season every 365 days; none begins on or after `until`.
    EveryYear {
        /// Felled, grubbed up, given up.
        until: Option<NaiveDate>,
    },
}

/// How the need of a crop is known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum CropNeed {
    /// Stated or from the crop table.
    Annual(AreaMass),
    /// A tree, by the tree a year.
    Tree(Mass),
    /// Only the appetite is known.
    Appetite(Appetite),
}

/// How much of a load, as the person knows it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Amount {
    /// Dry mass per area.
    DryPerArea(AreaMass),
    /// Wet mass in all.
    Wet(Mass),
    /// Loose volume in all.
    Loose(Volume),
    /// Depth of the layer as laid, loose.
    Depth(Length),
    /// Depth of the layer as it lies by now, settled.
    SettledDepth(Length),
    /// Barrows, of the grower's own size.
    Barrows(f64),
    /// Trailers, of the grower's own size.
    Trailers(f64),
    /// Depth of the layer by finger or hand.
    Laid {
        /// Which.
        by: LaidBy,
        /// How many across.
        count: f64,
    },
}

impl Amount {
    /// What of it comes to a part of the place: of what is said for all of it, that part.
    fn on_part(&mut self, part: f64) {
        match self {
            Self::Wet(mass) => *mass = *mass * part,
            Self::Loose(volume) => *volume = *volume * part,
            Self::Barrows(count) | Self::Trailers(count) => *count *= part,
            Self::DryPerArea(_) | Self::Depth(_) | Self::SettledDepth(_) | Self::Laid { .. } => {}
        }
    }

    /// A part of it, carried from an area to another.
    #[must_use]
    pub fn carried(self, part: f64, from: Area, to: Area) -> Self {
        let denser = part * from.m2() / to.m2();
        match self {
            Self::DryPerArea(dose) => Self::DryPerArea(dose * denser),
            Self::Depth(depth) => Self::Depth(depth * denser),
            Self::SettledDepth(depth) => Self::SettledDepth(depth * denser),
            Self::Laid { by, count } => Self::Laid { by, count: count * denser },
            // Stated in all: the part that went there, whatever the areas.
            Self::Wet(mass) => Self::Wet(mass * part),
            Self::Loose(volume) => Self::Loose(volume * part),
            Self::Barrows(count) => Self::Barrows(count * part),
            Self::Trailers(count) => Self::Trailers(count * part),
        }
    }
}

/// A load put down, or to be put down.
#[derive(Debug, Clone, PartialEq)]
pub struct PutDown {
    /// When.
    pub date: NaiveDate,
    /// Name in the table of materials.
    pub material: String,
    /// How, where that is settled.
    pub way: Option<Way>,
    /// Size of pieces, where it differs from the table.
    pub particle: Option<Particle>,
    /// How much.
    pub amount: Amount,
    /// Moisture on the wet basis, where known.
    pub moisture: Option<Share>,
    /// How far that may be off, either way, where it was judged and not measured.
    pub moisture_half: Option<Share>,
    /// Carbon to nitrogen by mass, where known.
    pub carbon_nitrogen: Option<f64>,
    /// Wet, loose bulk density, where known.
    pub bulk_density: Option<Density>,
    /// How well amount and density were measured.
    pub measured: Measured,
    /// What it settles to, part of the loose depth, where that was measured.
    pub settling: Option<Settling>,
    /// What was answered instead of measured; a figure above goes before an answer.
    pub answers: LoadAnswers,
    /// What a book knows of it; nothing where a person describes a load.
    pub kept: Option<Kept>,
}

/// What a book knows of a load beyond what a person describes.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Kept {
    /// Number of its batch: loads of one batch draw the same properties in a run, wherever they lie.
    pub batch: u32,
    /// Another layer was laid on it at once: it lies between soil and mulch.
    pub under: bool,
    /// What lies under it has an entry of its own.
    pub over: bool,
    /// The layer it was lifted from, where it lay elsewhere before.
    pub taken: Option<Taken>,
    /// What it is made of by dry mass, where it was blended; else the table says.
    pub composition: Vec<Part>,
}

/// Material lifted elsewhere, with the state it had there.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Taken {
    /// Position in [`Scenario::origins`].
    pub origin: usize,
    /// Area it came from over the area it goes to, times the part of what was lifted that was put down here.
    pub factor: f64,
}

/// A place that material was lifted from, up to that day.
#[derive(Debug, Clone, PartialEq)]
pub struct Origin {
    /// The place and all that happened on it before.
    pub scenario: Scenario,
    /// Its first day.
    pub first: NaiveDate,
    /// When it was lifted, in the morning.
    pub lifted: NaiveDate,
    /// Which putting-down of that scenario.
    pub layer: usize,
    /// Part of what was put down there.
    pub share: Share,
}

/// Plain answers about a load.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct LoadAnswers {
    /// In place of the particle.
    pub pieces: Option<Pieces>,
    /// How old it looks and smells; fresh where nobody says.
    pub age: Option<Age>,
}

/// How a feed is placed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Placed {
    /// Mixed into the soil.
    Mixed,
    /// On the soil, under the layer.
    Under,
    /// On top of whatever lies there.
    Top,
}

/// How much of a feed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum FeedAmount {
    /// Nitrogen per area.
    Nitrogen(AreaMass),
    /// Product, in all.
    Product(Mass),
    /// Liquid, in all.
    Liquid(Volume),
}

/// Nitrogen given.
#[derive(Debug, Clone, PartialEq)]
pub struct Feed {
    /// When.
    pub date: NaiveDate,
    /// Name in the table of feeds.
    pub source: String,
    /// How much.
    pub amount: FeedAmount,
    /// Where it goes.
    pub placed: Placed,
    /// Part of the way of using a load: left out where nothing is put down.
    pub with_layer: bool,
}

/// Soil worked to a depth.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Worked {
    /// When.
    pub date: NaiveDate,
    /// How deep.
    pub depth: Length,
    /// Part of what lay on the soil that was mixed in, where that is known; else it follows from the depth.
    pub share: Option<Share>,
}

/// A layer lifted and carried elsewhere.
#[derive(Debug, Clone, PartialEq)]
pub struct Lifted {
    /// When.
    pub date: NaiveDate,
    /// Which putting-down; all that lies there where absent.
    pub layer: Option<usize>,
    /// Part of what was put down.
    pub share: Share,
    /// Where to.
    pub to: String,
}

/// The grower's own containers.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Containers {
    /// A level barrow.
    pub barrow: Volume,
    /// A bucket.
    pub bucket: Volume,
    /// A trailer, where there is one.
    pub trailer: Option<Volume>,
    /// What that trailer may carry, where that is known.
    pub trailer_carries: Option<Mass>,
}

/// A level barrow where nobody says, litres.
pub const BARROW_L: Sourced<f64> = Sourced::new(80.0, Source::COMMON_PRACTICE);
/// A bucket, litres.
pub const BUCKET_L: Sourced<f64> = Sourced::new(10.0, Source::COMMON_PRACTICE);

impl Containers {
    /// Of usual size, where nobody says; no trailer.
    pub fn usual() -> Self {
        Self {
            barrow: Volume::from_litres(BARROW_L.value),
            bucket: Volume::from_litres(BUCKET_L.value),
            trailer: None,
            trailer_carries: None,
        }
    }
}

/// Rows of trees and the run that loads are spread on.
#[derive(Debug, Clone, PartialEq)]
pub struct Orchard {
    /// The rows and how they are driven.
    pub block: Block,
    /// What of the ground gets covered.
    pub ground: Ground,
    /// Depth wanted.
    pub depth: Length,
    /// Where the first load begins.
    pub from: Tree,
    /// Where the load ended, when it is known.
    pub to: Option<Tree>,
    /// Width that the spreader lays in one pass.
    pub spreader: Option<Length>,
}

/// What of the ground is covered along a row.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Ground {
    /// A ring around each tree, from the drip line to the gap at the trunk.
    Rings {
        /// Radius of the drip line.
        radius: Length,
        /// Kept bare around the trunk.
        gap: Length,
    },
    /// A band along the row.
    Band {
        /// Across.
        width: Length,
        /// From tree to tree.
        spacing: Length,
    },
}
