//! What a load is for: the ways that serve it, with nitrogen as the price, and what each costs in work and money.
//!
//! Every figure is that of the part of the load that the place takes in that way, run by run against nothing put down.

use kerfbook_ledger::BatchView;
use kerfbook_science::material::{self, Found, ModelClass};
use kerfbook_science::nitrogen::{
    DrawnName, Input, LayerWay, PutDown, Runs, Sample, Series, chance, parameter::BatchParameter,
};
use kerfbook_science::soil;
use kerfbook_science::source::{Source, Sourced, Standing};
use kerfbook_science::units::{Area, AreaMass, Density, Length, Mass, Volume};

use crate::assumed::Assumed;
use crate::calendar::Calendar;
use crate::compare::{self, Bench, RUNS, SEASON_DAYS, Three};
use crate::error::ActError;
use crate::load::{Counted, Load};
use crate::scenario::{PlaceKind, Scenario};
use crate::way::{self, Row};
use crate::{cautions, dose, site};

/// What a load is wanted for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Purpose {
    /// To keep weeds down.
    Weeds,
    /// To keep water in the soil.
    Water,
    /// To bring organic matter.
    Soil,
    /// To be rid of it.
    UseUp,
}

impl Purpose {
    /// In the order of the menu.
    pub const ALL: [Self; 4] = [Self::Weeds, Self::Water, Self::Soil, Self::UseUp];

    /// Its name in files and on screens.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Weeds => "weeds",
            Self::Water => "water",
            Self::Soil => "soil",
            Self::UseUp => "use-up",
        }
    }

    /// Whether a way serves it on this place.
    fn takes(self, row: Row, scenario: &Scenario) -> bool {
        let grows = site::grows(scenario.place.kind);
        let trees = scenario.place.kind == PlaceKind::Rings;
        match (row, self) {
            (Row::Bare, _) | (Row::Path, Self::Water | Self::Soil) => false,
            (Row::Path, _) => true,
            (Row::Ring, _) => trees && self != Self::Soil,
            (row, Self::Weeds | Self::Water) => grows && row.is_mulch(),
            (_, Self::Soil | Self::UseUp) => grows,
        }
    }
}

const VAN_DONK: Source =
    Source::new("van Donk et al.", 2011, "Journal of Applied Horticulture", "13:91-95", Standing::Published);
/// Depth of wood chips from which weeds were fewer.
pub const WEED_COVER: Sourced<Length> = Sourced::new(Length::from_mm(50.0), VAN_DONK);
/// Depth at which weeds were as many as on bare soil.
pub const NO_WEED_COVER: Sourced<Length> = Sourced::new(Length::from_mm(25.0), VAN_DONK);
/// Depths are told and compared as they are measured by hand, mm; common practice.
const BY_HAND_MM: f64 = 5.0;
/// Organic matter for each part of carbon in it: van Bemmelen's factor.
pub const ORGANIC_PER_CARBON: Sourced<f64> = Sourced::new(1.724, Source::FROM_MEMORY);
/// Minutes to fill and spread a barrow, the way apart.
pub const MINUTES_A_BARROW: Sourced<f64> = Sourced::new(5.0, Source::COMMON_PRACTICE);
/// How fast a barrow goes, metres a minute, there and back.
pub const BARROW_M_A_MINUTE: Sourced<f64> = Sourced::new(50.0, Source::COMMON_PRACTICE);
/// How far it goes where nobody says.
pub const HAUL: Sourced<Length> = Sourced::new(Length::from_m(30.0), Source::ASSUMPTION);
/// What is composted first is moved so often: onto the heap and off it. Turning comes on top.
pub const MOVES_COMPOSTED: Sourced<f64> = Sourced::new(2.0, Source::COMMON_PRACTICE);
/// Months of a year after which what is left is told, days.
const YEAR: u32 = 365;

/// What a person says of it; what is not said is left out of the sums, not guessed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Wish {
    /// What the load is for.
    pub purpose: Purpose,
    /// Price of the whole load, in the person's own money.
    pub load_price: Option<f64>,
    /// Price of an hour of work.
    pub hour_price: Option<f64>,
    /// Work of fetching and unloading the whole load, minutes.
    pub fetch_minutes: Option<f64>,
    /// How far the load was hauled to the holding.
    pub hauled: Option<Length>,
    /// Price of a kilometre that it was hauled.
    pub km_price: Option<f64>,
    /// Price of a cubic metre of finished compost.
    pub compost_price_m3: Option<f64>,
    /// Minutes that a barrow takes in all.
    pub minutes_a_barrow: Option<f64>,
    /// How far the load is carried.
    pub haul: Option<Length>,
    /// Runs of the ensemble.
    pub runs: u32,
    /// Their seed.
    pub seed: u64,
}

impl Wish {
    /// Nothing but the purpose.
    pub const fn of(purpose: Purpose) -> Self {
        Self {
            purpose,
            load_price: None,
            hour_price: None,
            fetch_minutes: None,
            hauled: None,
            km_price: None,
            compost_price_m3: None,
            minutes_a_barrow: None,
            haul: None,
            runs: RUNS,
            seed: 1,
        }
    }
}

/// What was written down when a load was taken in, for the part of it that is asked about.
#[derive(Debug, Clone, PartialEq)]
pub struct Intake {
    /// Price paid.
    pub price: Option<f64>,
    /// In which money.
    pub currency: Option<String>,
    /// Fetching and unloading, minutes.
    pub minutes: Option<f64>,
    /// How far it was hauled.
    pub hauled: Option<Length>,
    /// Part of the batch that the load is; all of it where nobody knows how much there was.
    pub part: f64,
}

impl Intake {
    /// Of a batch, for the load that a scenario asks about.
    ///
    /// # Errors
    /// A scenario without a load, or a load that cannot be.
    pub fn of(scenario: &Scenario, batch: &BatchView) -> Result<Self, ActError> {
        let put = compare::asked_of(scenario).and_then(|asked| scenario.put_down.get(asked));
        let put = put.ok_or(ActError::NoLoad)?;
        let load = Load::of(put, &scenario.place, &scenario.containers, &mut Vec::new())?;
        let share = |part: f64, whole: Option<u64>| {
            whole.filter(|whole| *whole > 0).map(|whole| (part / whole as f64).min(1.0))
        };
        let weighed = share(load.wet.g(), batch.wet_g);
        let part = weighed.or_else(|| share(load.loose.litres() * 1000.0, batch.volume_ml)).unwrap_or(1.0);
        Ok(Self {
            price: batch.cost_hundredths.map(|hundredths| hundredths as f64 / 100.0 * part),
            currency: batch.currency.as_ref().map(|currency| currency.as_str().to_owned()),
            minutes: batch.minutes.map(|minutes| f64::from(minutes) * part),
            hauled: batch.haul_m.map(|metres| Length::from_m(f64::from(metres))),
            part,
        })
    }
}

impl Wish {
    /// With what intake says, where the person does not say otherwise.
    #[must_use]
    pub fn or_intake(self, intake: &Intake) -> Self {
        Self {
            load_price: self.load_price.or(intake.price),
            fetch_minutes: self.fetch_minutes.or(intake.minutes),
            hauled: self.hauled.or(intake.hauled),
            ..self
        }
    }

    /// The whole load as it lies on the holding: what it cost, and its way there.
    fn brought(&self) -> Option<f64> {
        let way = self.hauled.zip(self.km_price).map(|(way, price)| way.m() / 1000.0 * price);
        (self.load_price.is_some() || way.is_some())
            .then(|| self.load_price.unwrap_or(0.0) + way.unwrap_or(0.0))
    }
}

/// The ways that serve a purpose.
#[derive(Debug, Clone, PartialEq)]
pub struct ForPurpose {
    /// Which purpose.
    pub purpose: Purpose,
    /// Which date is day 0.
    pub calendar: Calendar,
    /// The load.
    pub load: Load,
    /// Share of the runs that goes hungry on the bare place.
    pub chance_bare: Option<f64>,
    /// Best first.
    pub ways: Vec<WayFor>,
    /// Ways that do not serve it.
    pub others: Vec<Row>,
    /// Taken for granted.
    pub assumed: Vec<Assumed>,
}

/// A way, as it serves a purpose.
#[derive(Debug, Clone, PartialEq)]
pub struct WayFor {
    /// Which way.
    pub row: Row,
    /// The part of the load that is used so.
    pub used: Load,
    /// The whole load goes so.
    pub whole: bool,
    /// Ground that it covers: the place, or as much path or ring as it makes.
    pub ground: Area,
    /// What its depth does to weeds; `None` where no layer lies on top.
    pub weeds: Option<Weeds>,
    /// Water until the last harvest; `None` where nothing grows.
    pub water: Option<Water>,
    /// Organic matter after a year.
    pub organic: Organic,
    /// Crop nitrogen lost in a year, kg/ha; `None` where nothing grows.
    pub lost: Option<Three>,
    /// Share of the runs that goes hungry with nothing given; `None` for trees and where nothing grows.
    pub chance_hungry: Option<f64>,
    /// Held by decay after a year, kg/ha.
    pub tied: Three,
    /// Work and money.
    pub cost: Cost,
    /// Finished compost that leaves as much organic matter after a year.
    pub compost: Option<Compost>,
    /// Can be done by its date with what is at hand, and is allowed.
    pub doable: bool,
    /// Ids of cautions.
    pub cautions: Vec<&'static str>,
}

/// A layer against weeds.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Weeds {
    /// Depth of the layer as it is laid.
    pub depth: Length,
    /// What that depth does.
    pub cover: Cover,
    /// Loose volume that is missing for cover.
    pub missing: Volume,
    /// Ground that it covers at that depth.
    pub makes: Area,
}

/// What a depth does to weeds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Cover {
    /// Fewer weeds.
    Covers,
    /// Between the depths that were tried.
    Between,
    /// As on bare soil.
    TooThin,
}

/// Water against the bare place, until the last harvest.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Water {
    /// Day on which it is told: the last harvest.
    pub until: u32,
    /// Less lost to the air from soil and crop, mm; what the layer itself catches and dries off counts against it.
    pub kept_mm: Three,
    /// Less watering needed, mm; nothing where the place is not kept moist.
    pub watering_less_mm: Three,
    /// Fewer days on which a crop stood in dry soil.
    pub dry_days_fewer: Three,
}

/// Organic matter that is left of what was put down.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Organic {
    /// t/ha of the ground it lies on.
    pub t_ha: Three,
    /// Points of per cent of the soil's mass in the depth of the place, were it all mixed in.
    pub points: Three,
    /// In all, kg.
    pub kg: f64,
}

/// Work and money.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cost {
    /// Barrows moved.
    pub barrows: f64,
    /// Hours of work, fetching with it where that is known.
    pub hours: f64,
    /// In the person's money: the part of the load used, the work, the compost under it; `None` where no price was
    /// given, or that of something it needs was not.
    pub money: Option<f64>,
}

/// Finished compost instead.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Compost {
    /// How much.
    pub volume: Volume,
    /// What it costs, its spreading with it.
    pub money: f64,
}

/// Finds the ways that serve a purpose.
///
/// # Errors
/// A scenario without a load, or one that the model cannot run.
pub fn purpose(scenario: &Scenario, wish: &Wish) -> Result<ForPurpose, ActError> {
    let first = Bench::new(scenario, SEASON_DAYS)?;
    // What is left is told a year after the load went down, whenever that is.
    let bench = Bench::new(scenario, SEASON_DAYS.max(first.day() + YEAR))?;
    let sample = Sample::new(wish.seed, wish.runs);
    let (bare, _) = bench.input(Row::Bare, bench.load());
    let harvests = scenario.crops.iter().map(|crop| bench.calendar().day(crop.ended));
    let harvest = harvests.filter_map(|day| u32::try_from(day).ok()).max().unwrap_or(SEASON_DAYS);
    let keep = [SEASON_DAYS, harvest.min(bare.days)];
    let bare_runs = compare::run(&bare, &sample, &keep)?;
    let look =
        Look { scenario, wish, bench: &bench, sample: &sample, keep, bare: &bare, bare_runs: &bare_runs };
    let compost_left = match wish.compost_price_m3 {
        Some(_) => Some(look.compost_left()?),
        None => None,
    };
    let (serve, others): (Vec<Row>, Vec<Row>) = compare::rows_of(&bench)
        .into_iter()
        .filter(|row| *row != Row::Bare)
        .partition(|row| wish.purpose.takes(*row, scenario));
    let mut ways =
        serve.into_iter().map(|row| look.way(row, compost_left)).collect::<Result<Vec<_>, ActError>>()?;
    rank(&mut ways, wish.purpose);
    let annual = scenario.crops.iter().any(|crop| !site::is_tree(scenario, crop));
    let mut assumed = bench.assumed.clone();
    if wish.minutes_a_barrow.is_none() {
        assumed.push(Assumed::number("minutes_a_barrow", look.minutes()));
    }
    Ok(ForPurpose {
        purpose: wish.purpose,
        calendar: bench.calendar(),
        load: bench.load().clone(),
        chance_bare: annual.then(|| chance(&compare::season_hungry(&bare_runs, scenario.crops.len()))),
        ways,
        others,
        assumed,
    })
}

/// One load on one place, for every way.
struct Look<'a> {
    scenario: &'a Scenario,
    wish: &'a Wish,
    bench: &'a Bench<'a>,
    sample: &'a Sample,
    /// A year, and the last harvest.
    keep: [u32; 2],
    bare: &'a Input,
    bare_runs: &'a Runs,
}

impl Look<'_> {
    fn way(&self, row: Row, compost_left: Option<f64>) -> Result<WayFor, ActError> {
        let scenario = self.scenario;
        let (used, whole) = self.used(row)?;
        let (input, _) = self.bench.input(row, &used);
        let runs = compare::run(&input, self.sample, &self.keep)?;
        let grows = row.ranked() && !scenario.crops.is_empty() && site::grows(scenario.place.kind);
        let annual = grows && scenario.crops.iter().any(|crop| !site::is_tree(scenario, crop));
        let ground = match row {
            Row::Path => ground_of(&used, Length::from_cm(way::PATH_DEPTH_CM.value)),
            Row::Ring => ground_of(&used, Length::from_cm(way::RING_DEPTH_CM.value)),
            _ => scenario.place.area,
        };
        let organic = self.organic(&input, &runs, ground);
        let cost = self.cost(row, &used, ground);
        Ok(WayFor {
            weeds: row.is_mulch().then(|| weeds(&used, ground)),
            water: grows.then(|| self.water(&input, &runs)),
            lost: grows.then(|| {
                let crop = |runs: &Runs| compare::crop_nitrogen(runs, SEASON_DAYS);
                Three::of(&compare::less(&crop(self.bare_runs), &crop(&runs)))
            }),
            chance_hungry: annual.then(|| chance(&compare::season_hungry(&runs, scenario.crops.len()))),
            tied: Three::of(runs.last().end(Series::Tied)),
            compost: compost_left.zip(self.wish.compost_price_m3).map(|(left, price)| {
                let volume = compost_for(organic.kg, left);
                let barrows = volume.litres() / scenario.containers.barrow.litres();
                let work = barrows * self.minutes() / 60.0 * self.wish.hour_price.unwrap_or(0.0);
                Compost { volume, money: volume.m3() * price + work }
            }),
            doable: compare::allowed(scenario, row) && compare::doable(self.bench, row),
            cautions: cautions::of_row(scenario, row, &used),
            row,
            used,
            whole,
            ground,
            organic,
            cost,
        })
    }

    /// The part of the load that the place takes in a way.
    fn used(&self, row: Row) -> Result<(Load, bool), ActError> {
        let load = self.bench.load();
        let most = match row {
            Row::OnTop | Row::OverCompost | Row::OverUrine => {
                Some(load.dry * (compare::deepest_mm(load.particle) / load.depth.mm()))
            }
            Row::WorkedIn => dose::most_dry(load).map(|dose| self.scenario.place.area.mass_of(dose)),
            _ => None,
        };
        match most {
            Some(most) if most.kg() < load.dry.kg() => {
                Ok((load.clone().of_dry(most, self.scenario.place.area)?, false))
            }
            _ => Ok((load.clone(), true)),
        }
    }

    fn water(&self, input: &Input, runs: &Runs) -> Water {
        let [_, until] = self.keep;
        let fewer = |series: Series| {
            compare::less(
                compare::series(self.bare_runs, series, until),
                compare::series(runs, series, until),
            )
        };
        let watering = fewer(Series::Irrigation);
        let kept: Vec<f64> = watering
            .iter()
            .zip(fewer(Series::Drained))
            .zip(fewer(Series::WaterShare))
            .map(|((watering, drained), share)| watering - drained - share * input.soil.available_water_mm)
            .collect();
        Water {
            until,
            kept_mm: Three::of(&kept),
            watering_less_mm: Three::of(&watering),
            dry_days_fewer: Three::of(&compare::less(&self.bare_runs.last().dry_days, &runs.last().dry_days)),
        }
    }

    /// Carbon put down beyond what lies on the bare place, less what was breathed off beyond it.
    fn organic(&self, input: &Input, runs: &Runs, ground: Area) -> Organic {
        let put = carbon(input, runs);
        let there = carbon(self.bare, self.bare_runs);
        let breathed = compare::less(
            runs.last().end(Series::CarbonDioxide),
            self.bare_runs.last().end(Series::CarbonDioxide),
        );
        let left: Vec<f64> = put
            .iter()
            .zip(there)
            .zip(breathed)
            .map(|((put, there), breathed)| (put - there - breathed) * ORGANIC_PER_CARBON.value / 1000.0)
            .collect();
        let t_ha = Three::of(&left);
        let soil = site::depth(self.scenario).cm()
            * self.scenario.soil.bulk_density.unwrap_or(soil::TYPICAL_BULK_DENSITY.value).g_cm3()
            * 100.0;
        Organic {
            t_ha,
            points: t_ha.times(100.0 / soil),
            kg: ground.mass_of(AreaMass::from_t_ha(t_ha.middle())).kg(),
        }
    }

    fn minutes(&self) -> f64 {
        self.wish.minutes_a_barrow.unwrap_or_else(|| {
            let there_and_back = 2.0 * self.wish.haul.unwrap_or(HAUL.value).m();
            MINUTES_A_BARROW.value + there_and_back / BARROW_M_A_MINUTE.value
        })
    }

    fn cost(&self, row: Row, used: &Load, ground: Area) -> Cost {
        let barrow = self.scenario.containers.barrow.litres();
        let under = match row {
            Row::OverCompost => ground.volume_of(Length::from_cm(way::COMPOST_UNDER_CM.value)),
            _ => Volume::default(),
        };
        let moves = if row == Row::CompostedFirst { MOVES_COMPOSTED.value } else { 1.0 };
        let barrows = (used.loose.litres() * moves + under.litres()) / barrow;
        let wish = self.wish;
        let part = used.dry.kg() / self.bench.load().dry.kg();
        let hours = (barrows * self.minutes() + wish.fetch_minutes.unwrap_or(0.0) * part) / 60.0;
        let bought = if under.litres() > 0.0 {
            wish.compost_price_m3.map(|price| price * under.m3())
        } else {
            Some(0.0)
        };
        let here = wish.brought();
        let priced = here.is_some() || wish.hour_price.is_some();
        let own = here.unwrap_or(0.0) * part + wish.hour_price.unwrap_or(0.0) * hours;
        Cost { barrows, hours, money: bought.filter(|_| priced).map(|bought| bought + own) }
    }

    /// Part of the carbon of finished compost that is left a year after it was worked in here.
    fn compost_left(&self) -> Result<f64, ActError> {
        let mut input = self.bare.clone();
        input.put_down.push(PutDown {
            day: self.bench.day(),
            material: Some(ModelClass::Compost),
            way: LayerWay::WorkedIn,
            dry_t_ha: Some(way::COMPOST_DRY_T_HA.value),
            carbon_nitrogen: Some(way::COMPOST_CARBON_NITROGEN.value),
            batch: Some(crate::treatment::ADDED_BATCH),
            ..PutDown::default()
        });
        let runs = compare::run(&input, self.sample, &[])?;
        let breathed = compare::less(
            runs.last().end(Series::CarbonDioxide),
            self.bare_runs.last().end(Series::CarbonDioxide),
        );
        let put = compare::less(&carbon(&input, &runs), &carbon(self.bare, self.bare_runs));
        let left: Vec<f64> = put.iter().zip(breathed).map(|(put, breathed)| 1.0 - breathed / put).collect();
        Ok(Three::of(&left).middle())
    }
}

/// Carbon put down in each run, kg/ha.
fn carbon(input: &Input, runs: &Runs) -> Vec<f64> {
    let mut sum = vec![0.0; runs.last().runs()];
    for drawn in runs.parameters() {
        let DrawnName::Layer { layer, parameter: BatchParameter::Mass } = drawn.name else { continue };
        let Some(put) = input.put_down.get(layer) else { continue };
        let classes = put.material.iter().chain(&put.one_of);
        let mean =
            classes.clone().map(|class| class.carbon_share()).sum::<f64>() / classes.count().max(1) as f64;
        let share = put.carbon_share.unwrap_or(mean);
        let kg_ha = put.dry_t_ha.unwrap_or(0.0) * 1000.0 * share;
        for (sum, mass) in sum.iter_mut().zip(&drawn.values) {
            *sum += kg_ha * mass;
        }
    }
    sum
}

/// Ground that a load covers at a depth.
fn ground_of(load: &Load, depth: Length) -> Area {
    Area::from_m2(load.loose.m3() / depth.m())
}

fn weeds(used: &Load, ground: Area) -> Weeds {
    let depth = used.loose.depth_over(ground);
    let by_hand = (depth.mm() / BY_HAND_MM).round() * BY_HAND_MM;
    let cover = if by_hand >= WEED_COVER.value.mm() {
        Cover::Covers
    } else if by_hand > NO_WEED_COVER.value.mm() {
        Cover::Between
    } else {
        Cover::TooThin
    };
    let missing = (WEED_COVER.value.m() - depth.m()).max(0.0) * ground.m2();
    Weeds { depth, cover, missing: Volume::from_m3(missing), makes: ground_of(used, WEED_COVER.value) }
}

/// Finished compost, of the table's density, that leaves so much organic matter after a year.
fn compost_for(organic_kg: f64, left: f64) -> Volume {
    let (density, moisture) = match material::find("finished compost") {
        Found::Material(found) => (found.wet_density.typical, found.moisture.typical),
        _ => (ModelClass::Compost.dry_density().kg_m3(), 0.0),
    };
    let dry = organic_kg / ORGANIC_PER_CARBON.value / ModelClass::Compost.carbon_share() / left;
    (Mass::from_kg(dry) / (1.0 - moisture)).volume_at(Density::from_kg_m3(density))
}

impl WayFor {
    /// The load in the grower's containers.
    pub fn counted(&self, scenario: &Scenario) -> Counted {
        self.used.counted(&scenario.containers)
    }

    fn price_kg_ha(&self) -> f64 {
        self.lost.map_or(0.0, Three::middle)
    }
}

/// Best first: what can be done; then what serves the purpose most; then what costs the crop least nitrogen.
fn rank(ways: &mut [WayFor], purpose: Purpose) {
    let serves = |way: &WayFor| -> f64 {
        match purpose {
            Purpose::Weeds => match way.weeds.map(|weeds| weeds.cover) {
                Some(Cover::Covers) => 2.0,
                Some(Cover::Between) => 1.0,
                _ => 0.0,
            },
            Purpose::Water => way.water.map_or(0.0, |water| water.kept_mm.middle().round()),
            Purpose::Soil => way.organic.t_ha.middle().round(),
            Purpose::UseUp => way.used.dry.kg(),
        }
    };
    ways.sort_by(|a, b| {
        let first = |way: &WayFor| (!way.doable, way.row == Row::Path && purpose == Purpose::Weeds);
        first(a)
            .cmp(&first(b))
            .then(serves(b).total_cmp(&serves(a)))
            .then(a.price_kg_ha().total_cmp(&b.price_kg_ha()))
    });
}
