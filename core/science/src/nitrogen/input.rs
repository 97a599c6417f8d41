//! The model's own input: built in code, or read from JSON with the keys of the specification.

use std::borrow::Cow;

use serde::{Deserialize, Deserializer, Serialize, Serializer};

use super::parameter::{BATCH_FIRST, Global, Kind, class_figures};
use crate::material::{ModelClass, Particle};

/// What is wrong with an input, and where.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[error("{key}: {problem}")]
pub struct InputError {
    /// The key, with positions from 0, such as `put_down[1].dry_t_ha`.
    pub key: String,
    /// What is wrong and what would do.
    pub problem: String,
}

/// Everything the model is told about one place. Day 0 is the first day; amounts are of one hectare.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Input {
    /// Seed of the runs.
    #[serde(default = "one")]
    pub seed: u64,
    /// How many runs.
    #[serde(default = "two_hundred")]
    pub draws: u32,
    /// How many days.
    pub days: u32,
    /// Day of the year of day 0, 1 to 365.
    pub start_day_of_year: u32,
    /// Weather.
    pub weather: Weather,
    /// Soil.
    pub soil: Soil,
    /// No rain falls in.
    #[serde(default)]
    pub cover: bool,
    /// Soil kept moist.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub watered: Option<Watered>,
    /// Single waterings.
    #[serde(default)]
    pub irrigation: Vec<Irrigation>,
    /// Water is given under the mulch.
    #[serde(default)]
    pub irrigation_under_mulch: bool,
    /// Nitrogen in the water given, mg/L.
    #[serde(default)]
    pub irrigation_nitrogen_mg_l: f64,
    /// Layers, in the order they are laid on a day.
    #[serde(default)]
    pub put_down: Vec<PutDown>,
    /// Feeds.
    #[serde(default)]
    pub gifts: Vec<Gift>,
    /// Soil worked, layers lifted.
    #[serde(default)]
    pub events: Vec<Event>,
    /// Layers lifted after the last day.
    #[serde(default)]
    pub lift_at_end: Vec<Lift>,
    /// Crops.
    #[serde(default)]
    pub crops: Vec<Crop>,
    /// What was measured.
    #[serde(default)]
    pub readings: Vec<Reading>,
    /// Stretches of time, one after the other; each takes what it does not give from this input.
    #[serde(default)]
    pub stages: Vec<Stage>,
    /// Volume of a container, for answers by the litre.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub container_litres: Option<f64>,
    /// Parameters held at a value in every run.
    #[serde(default)]
    pub fixed_parameters: std::collections::BTreeMap<String, f64>,
    /// Parameters drawn with another standard deviation than their own, because what they stand for is better or
    /// worse known here: of the value for `dT`, of the logarithm for `rain`, `n0`, `demand`, `et`, `organic`, `capacity`.
    #[serde(default, skip_serializing_if = "std::collections::BTreeMap::is_empty")]
    pub spreads: std::collections::BTreeMap<String, f64>,
    /// Most nitrogen a year that practice or law allows, kg/ha, for the quick answer.
    #[serde(default = "practical_limit")]
    pub nitrogen_limit_kg_ha: f64,
}

/// Widest standard deviation that `spreads` may set, °C or of a logarithm: beyond, nothing is known at all.
const WIDEST_DEVIATION: f64 = 5.0;

const fn one() -> u64 {
    1
}
const fn two_hundred() -> u32 {
    200
}
/// Assumption, near the 112 kg/ha that Rutgers Cooperative Extension 2012 arrives at.
const fn practical_limit() -> f64 {
    120.0
}
const fn rain_every() -> u32 {
    4
}
const fn full() -> f64 {
    1.0
}
const fn ten() -> f64 {
    10.0
}

/// Monthly normals, and the days of one year where they are known.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Weather {
    /// Mean temperature, °C.
    pub month_mean_c: [f64; 12],
    /// Rain in all, mm.
    pub month_rain_mm: [f64; 12],
    /// Reference evaporation, mean mm a day.
    pub month_et0_mm_day: [f64; 12],
    /// Rain falls every so many days.
    #[serde(default = "rain_every")]
    pub rain_every_days: u32,
    /// Day by day from day 0.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub daily: Option<Daily>,
}

/// Weather day by day.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Daily {
    /// Mean temperature, °C.
    pub mean_c: Vec<f64>,
    /// Rain, mm.
    pub rain_mm: Vec<f64>,
    /// Reference evaporation, mm.
    pub et0_mm: Vec<f64>,
}

/// The soil of the root zone.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Soil {
    /// Water that plants can take, mm.
    pub available_water_mm: f64,
    /// All water at field capacity, mm.
    pub field_capacity_mm: f64,
    /// Depth of the root zone, cm.
    pub depth_cm: f64,
    /// Organic matter, per cent of mass.
    pub organic_matter_pct: f64,
    /// Mineral nitrogen at the start, kg/ha.
    pub mineral_nitrogen_kg_ha: f64,
    /// Part of the available water that is there at the start.
    #[serde(default = "full")]
    pub initial_water_share: f64,
    /// What the soil supplies in a usual year, kg/ha, where it is known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub supply_kg_ha_year: Option<f64>,
}

/// How the place is watered.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Watered {
    /// Rain and single waterings alone.
    None,
    /// Never below 0.7 of the available water.
    Enough,
}

/// Water given on a day.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Irrigation {
    /// Day.
    pub day: u32,
    /// Amount, mm.
    pub mm: f64,
}

/// Where a layer goes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum LayerWay {
    /// Mixed into the soil.
    WorkedIn,
    /// Laid on the soil.
    OnTop,
    /// Laid between soil and mulch.
    Under,
}

/// A layer put down. One of `dry_t_ha`, `wet_t_ha`, `depth_mm` says how much, or `from_stage` and `layer` say
/// which layer of an earlier stage was lifted and is laid here.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PutDown {
    /// Day.
    #[serde(default)]
    pub day: u32,
    /// Class of the material.
    #[serde(default, with = "by_name", skip_serializing_if = "Option::is_none")]
    pub material: Option<ModelClass>,
    /// Classes of wood or bark it may be, each as likely, in place of `material`. Every run draws its own; the
    /// median run takes the class in the middle by speed of decay, the faster of two.
    #[serde(default, with = "names", skip_serializing_if = "Vec::is_empty")]
    pub one_of: Vec<ModelClass>,
    /// Where it goes.
    pub way: LayerWay,
    /// Size of the pieces.
    #[serde(default = "dust", with = "particle_name")]
    pub particle: Particle,
    /// Number of the batch: layers of the same batch draw the same properties. Its position where absent.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub batch: Option<u32>,
    /// Dry mass, t/ha.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub dry_t_ha: Option<f64>,
    /// Wet mass, t/ha.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub wet_t_ha: Option<f64>,
    /// Water, per cent of wet mass.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub moisture_pct: Option<f64>,
    /// How far the moisture may be off, points.
    #[serde(default = "ten")]
    pub moisture_half_width: f64,
    /// Depth, mm.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub depth_mm: Option<f64>,
    /// C:N by mass; the class's own where absent.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub carbon_nitrogen: Option<f64>,
    /// Standard deviation of its logarithm; 0.08 where C:N is given, else 0.20.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub carbon_nitrogen_sd: Option<f64>,
    /// Standard deviation of the logarithm of the mass.
    #[serde(default = "tenth")]
    pub mass_sd: f64,
    /// Share of the mass that is finer than 10 mm.
    #[serde(default)]
    pub fines_share: f64,
    /// Carbon, part of dry mass; the class's own where absent.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub carbon_share: Option<f64>,
    /// Dry bulk density, kg/m³; the class's own where absent.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub dry_bulk_density_kg_m3: Option<f64>,
    /// Standard deviation of the logarithm of the rate of decay beyond the class's own, where the size or the age of
    /// the pieces is not known well.
    #[serde(default, skip_serializing_if = "Option::is_none", rename = "kL_more_sd")]
    pub fast_rate_more_sd: Option<f64>,
    /// Factor on the rate of decay of wood.
    #[serde(default = "full", rename = "kL_factor")]
    pub fast_rate_factor: f64,
    /// Mineral nitrogen it brings, kg/ha.
    #[serde(default)]
    pub mineral_n_kg_ha: f64,
    /// Days until it is worked in, where that is later than the day after.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub incorporated_days: Option<u32>,
    /// Stage from which it was lifted.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub from_stage: Option<usize>,
    /// Its number there.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub layer: Option<usize>,
    /// Area it came from over area it goes to.
    #[serde(default = "full")]
    pub area_factor: f64,
}

impl Default for PutDown {
    /// No layer yet: dust on top, no material, no amount.
    fn default() -> Self {
        Self {
            day: 0,
            material: None,
            one_of: Vec::new(),
            way: LayerWay::OnTop,
            particle: Particle::Dust,
            batch: None,
            dry_t_ha: None,
            wet_t_ha: None,
            moisture_pct: None,
            moisture_half_width: ten(),
            depth_mm: None,
            carbon_nitrogen: None,
            carbon_nitrogen_sd: None,
            mass_sd: tenth(),
            fines_share: 0.0,
            carbon_share: None,
            dry_bulk_density_kg_m3: None,
            fast_rate_more_sd: None,
            fast_rate_factor: 1.0,
            mineral_n_kg_ha: 0.0,
            incorporated_days: None,
            from_stage: None,
            layer: None,
            area_factor: 1.0,
        }
    }
}

const fn tenth() -> f64 {
    0.10
}
const fn dust() -> Particle {
    Particle::Dust
}

/// Nitrogen source, by what it loses as ammonia.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum GiftSource {
    /// Nitrate.
    Nitrate,
    /// Urea.
    Urea,
    /// Ammonium sulfate and its like.
    AmmoniumSulfate,
    /// Human urine.
    Urine,
    /// The ammonium of manure.
    Manure,
}

/// Where a feed goes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Placement {
    /// Into the soil.
    Mixed,
    /// On the soil, under the mulch.
    Under,
    /// On top.
    Top,
}

/// A feed: `nitrogen_kg_ha`, or `litres_m2` of urine.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Gift {
    /// Day.
    pub day: u32,
    /// Source.
    pub source: GiftSource,
    /// Nitrogen, kg/ha.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub nitrogen_kg_ha: Option<f64>,
    /// Urine, L/m².
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub litres_m2: Option<f64>,
    /// Where it goes.
    pub placement: Placement,
    /// Covered by mulch the same day.
    #[serde(default)]
    pub covered: bool,
    /// Days until manure is worked in, where that is later than the day after.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub incorporated_days: Option<u32>,
    /// Part of the way of using residue: left out where nothing is put down.
    #[serde(default)]
    pub with_layer: bool,
}

/// Something done to the place.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(tag = "kind", rename_all = "snake_case", deny_unknown_fields)]
pub enum Event {
    /// Soil worked: a share of every layer, or one that follows from the depth (100 mm and more: all).
    SoilWorked {
        /// Day.
        day: u32,
        /// Share mixed in.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        share: Option<f64>,
        /// Depth, mm.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        depth_mm: Option<f64>,
    },
    /// A share of a layer carried off.
    LayerLifted {
        /// Day.
        day: u32,
        /// Which layer.
        layer: usize,
        /// Share carried off.
        share: f64,
    },
}

impl Event {
    /// Its day.
    pub const fn day(&self) -> u32 {
        match self {
            Self::SoilWorked { day, .. } | Self::LayerLifted { day, .. } => *day,
        }
    }
}

/// A share of a layer carried off.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Lift {
    /// Which layer.
    pub layer: usize,
    /// Share carried off.
    pub share: f64,
}

/// A crop.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(tag = "kind", rename_all = "snake_case", deny_unknown_fields)]
pub enum Crop {
    /// Sown and harvested; takes up along a logistic curve.
    Annual {
        /// What it is called.
        #[serde(default)]
        name: String,
        /// Day of sowing; may lie before day 0.
        sown_day: i32,
        /// Day of harvest.
        harvest_day: i32,
        /// Demand of the whole season, from soil and fixation, kg/ha.
        demand_kg_ha: f64,
        /// Days from sowing to half of the uptake.
        midpoint_days: f64,
        /// Steepness, 1/d.
        rate: f64,
        /// Part of the demand that it fixes.
        #[serde(default)]
        fixed_share: f64,
    },
    /// A tree over the rings of its drip line; takes up in bells.
    Tree {
        /// What it is called.
        #[serde(default)]
        name: String,
        /// Demand of a year, g a tree.
        demand_g_tree: f64,
        /// Area of the ring, m².
        ring_area_m2: f64,
        /// Area of the roots, m²; needed without `ring_share`.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        root_area_m2: Option<f64>,
        /// Part of the demand met from the ring.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        ring_share: Option<f64>,
        /// First day, day after the last, share of the year's demand.
        windows: Vec<(i32, i32, f64)>,
        /// Part of the demand that it fixes.
        #[serde(default)]
        fixed_share: f64,
    },
}

impl Crop {
    /// What it is called.
    pub fn name(&self) -> &str {
        match self {
            Self::Annual { name, .. } | Self::Tree { name, .. } => name,
        }
    }

    /// Day of the harvest of an annual crop.
    pub const fn harvest_day(&self) -> Option<i32> {
        match self {
            Self::Annual { harvest_day, .. } => Some(*harvest_day),
            Self::Tree { .. } => None,
        }
    }

    /// Part of the demand that it fixes.
    pub const fn fixed_share(&self) -> f64 {
        match self {
            Self::Annual { fixed_share, .. } | Self::Tree { fixed_share, .. } => *fixed_share,
        }
    }
}

/// Something measured that weighs the runs.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(tag = "kind", rename_all = "snake_case", deny_unknown_fields)]
pub enum Reading {
    /// Four days in a jar with nitrate.
    DrawTest {
        /// Which layer's batch.
        layer: usize,
        /// Temperature, °C.
        temperature_c: f64,
        /// Nitrate nitrogen at the start, mg/L.
        dose_mg_litre: f64,
        /// Dry residue, g/L.
        dry_g_per_litre: f64,
        /// What is left, part of the dose.
        index: f64,
    },
    /// Mineral nitrogen of the root zone.
    SoilNitrate {
        /// Evening of this result day.
        day: u32,
        /// kg N/ha.
        kg_ha: f64,
    },
    /// Nitrogen nutrition from leaf colour against a reference plot.
    Leaf {
        /// Evening of this result day.
        day: u32,
        /// Which crop.
        #[serde(default)]
        crop: usize,
        /// Nutrition index, 1 = enough.
        nni: f64,
    },
}

impl Reading {
    /// The result day of which it tells; none for a jar.
    pub const fn day(&self) -> Option<u32> {
        match self {
            Self::DrawTest { .. } => None,
            Self::SoilNitrate { day, .. } | Self::Leaf { day, .. } => Some(*day),
        }
    }
}

/// A stretch of time; what it does not give it takes from the input.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
#[expect(missing_docs, reason = "the same keys as in the input, each optional")]
pub struct Stage {
    /// The same place goes on from the end of this stage.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub continue_from_stage: Option<usize>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub days: Option<u32>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub start_day_of_year: Option<u32>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub weather: Option<Weather>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub soil: Option<Soil>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub cover: Option<bool>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub watered: Option<Watered>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub irrigation: Option<Vec<Irrigation>>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub irrigation_under_mulch: Option<bool>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub irrigation_nitrogen_mg_l: Option<f64>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub put_down: Option<Vec<PutDown>>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub gifts: Option<Vec<Gift>>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub events: Option<Vec<Event>>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub lift_at_end: Option<Vec<Lift>>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub crops: Option<Vec<Crop>>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub container_litres: Option<f64>,
}

/// One stage with all its keys, and the stage it goes on from.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Merged<'a> {
    pub(super) input: Cow<'a, Input>,
    pub(super) continue_from: Option<usize>,
}

impl Input {
    /// The same place and runs without layers, without the feeds that belong to them, and with nothing lifted.
    #[must_use]
    pub fn nothing(&self) -> Self {
        let gifts = |gifts: &[Gift]| gifts.iter().filter(|gift| !gift.with_layer).cloned().collect();
        let events = |events: &[Event]| {
            events.iter().filter(|event| matches!(event, Event::SoilWorked { .. })).copied().collect()
        };
        let stages = self.stages.iter().map(|stage| Stage {
            put_down: None,
            lift_at_end: None,
            gifts: stage.gifts.as_deref().map(gifts),
            events: stage.events.as_deref().map(events),
            ..stage.clone()
        });
        Self {
            put_down: Vec::new(),
            lift_at_end: Vec::new(),
            gifts: gifts(&self.gifts),
            events: events(&self.events),
            readings: Vec::new(),
            stages: stages.collect(),
            ..self.clone()
        }
    }

    /// Every stage with the keys it takes from the input; one stage where none is named.
    pub(super) fn merged(&self) -> Vec<Merged<'_>> {
        if self.stages.is_empty() {
            return vec![Merged { input: Cow::Borrowed(self), continue_from: None }];
        }
        let base = Self { stages: Vec::new(), ..self.clone() };
        self.stages.iter().map(|stage| Merged::of(&base, stage)).collect()
    }

    /// Looks at every figure.
    ///
    /// # Errors
    /// The first key whose value cannot be used, and why.
    pub fn check(&self) -> Result<(), InputError> {
        if !(1..=100_000).contains(&self.draws) {
            return fail("draws", "must be from 1 to 100000");
        }
        for (name, value) in &self.fixed_parameters {
            let key = format!("fixed_parameters.{name}");
            let Some(global) = Global::of_name(name) else {
                return fail(key, "is no parameter of the model");
            };
            let (low, high) = global.bounds();
            within(key, *value, low, high)?;
        }
        for (name, deviation) in &self.spreads {
            let key = format!("spreads.{name}");
            let Some(global) = Global::of_name(name) else {
                return fail(key, "is no parameter of the model");
            };
            if global.spread_by(*deviation).is_none() {
                return fail(
                    key,
                    "has no standard deviation; dT, rain, n0, demand, et, organic, capacity do",
                );
            }
            within(key, *deviation, 0.0, WIDEST_DEVIATION)?;
        }
        let mut layers: Vec<usize> = Vec::new();
        let merged = self.merged();
        for (position, stage) in merged.iter().enumerate() {
            let prefix = if self.stages.is_empty() { String::new() } else { format!("stages[{position}].") };
            let kept = match stage.continue_from {
                Some(from) => match layers.get(from) {
                    Some(count) => *count,
                    None => {
                        return fail(format!("{prefix}continue_from_stage"), "must name an earlier stage");
                    }
                },
                None => 0,
            };
            stage.input.check_stage(&prefix, kept, &merged, position)?;
            layers.push(kept + stage.input.put_down.len());
        }
        if let Some(last) = merged.last() {
            let count = layers.last().copied().unwrap_or(0);
            last.input.check_readings(count)?;
        }
        Ok(())
    }

    fn check_stage(
        &self,
        prefix: &str,
        kept: usize,
        stages: &[Merged<'_>],
        position: usize,
    ) -> Result<(), InputError> {
        let key = |name: &str| format!("{prefix}{name}");
        if !(1..=36_500).contains(&self.days) {
            return fail(key("days"), "must be from 1 to 36500");
        }
        if !(1..=365).contains(&self.start_day_of_year) {
            return fail(key("start_day_of_year"), "must be from 1 to 365; 29 February counts as 28");
        }
        self.weather.check(&key("weather"), self.days)?;
        self.soil.check(&key("soil"))?;
        within(key("irrigation_nitrogen_mg_l"), self.irrigation_nitrogen_mg_l, 0.0, 10_000.0)?;
        within(key("nitrogen_limit_kg_ha"), self.nitrogen_limit_kg_ha, 0.0, 10_000.0)?;
        if let Some(litres) = self.container_litres {
            within(key("container_litres"), litres, 1e-3, 1e6)?;
        }
        for (i, water) in self.irrigation.iter().enumerate() {
            within(key(&format!("irrigation[{i}].mm")), water.mm, 0.0, 1_000.0)?;
        }
        for (i, put) in self.put_down.iter().enumerate() {
            put.check(&key(&format!("put_down[{i}]")), stages, position)?;
        }
        for (i, gift) in self.gifts.iter().enumerate() {
            gift.check(&key(&format!("gifts[{i}]")))?;
        }
        let layers = kept + self.put_down.len();
        for (i, event) in self.events.iter().enumerate() {
            event.check(&key(&format!("events[{i}]")), layers)?;
        }
        for (i, lift) in self.lift_at_end.iter().enumerate() {
            lift_check(&key(&format!("lift_at_end[{i}]")), lift.layer, lift.share, layers)?;
        }
        for (i, crop) in self.crops.iter().enumerate() {
            crop.check(&key(&format!("crops[{i}]")))?;
        }
        Ok(())
    }

    fn check_readings(&self, layers: usize) -> Result<(), InputError> {
        for (i, reading) in self.readings.iter().enumerate() {
            let key = |name: &str| format!("readings[{i}].{name}");
            let day_in_time = |day: u32| {
                if day > self.days { fail(key("day"), "is later than the last day") } else { Ok(()) }
            };
            match *reading {
                Reading::DrawTest { layer, temperature_c, dose_mg_litre, dry_g_per_litre, index } => {
                    if layer >= layers {
                        return fail(key("layer"), "is no layer of the input");
                    }
                    within(key("temperature_c"), temperature_c, 0.0, 50.0)?;
                    within(key("dose_mg_litre"), dose_mg_litre, 1e-3, 1e5)?;
                    within(key("dry_g_per_litre"), dry_g_per_litre, 1e-3, 1e4)?;
                    within(key("index"), index, 0.0, 2.0)?;
                }
                Reading::SoilNitrate { day, kg_ha } => {
                    day_in_time(day)?;
                    within(key("kg_ha"), kg_ha, 0.0, 10_000.0)?;
                }
                Reading::Leaf { day, crop, nni } => {
                    day_in_time(day)?;
                    if crop >= self.crops.len() {
                        return fail(key("crop"), "is no crop of the input");
                    }
                    within(key("nni"), nni, 0.0, 3.0)?;
                }
            }
        }
        Ok(())
    }
}

impl Merged<'_> {
    pub(super) fn owned(self) -> Merged<'static> {
        Merged { input: Cow::Owned(self.input.into_owned()), continue_from: self.continue_from }
    }

    fn of(base: &Input, stage: &Stage) -> Self {
        let own = stage.clone();
        let base = base.clone();
        let input = Input {
            days: own.days.unwrap_or(base.days),
            start_day_of_year: own.start_day_of_year.unwrap_or(base.start_day_of_year),
            weather: own.weather.unwrap_or(base.weather),
            soil: own.soil.unwrap_or(base.soil),
            cover: own.cover.unwrap_or(base.cover),
            watered: own.watered.or(base.watered),
            irrigation: own.irrigation.unwrap_or(base.irrigation),
            irrigation_under_mulch: own.irrigation_under_mulch.unwrap_or(base.irrigation_under_mulch),
            irrigation_nitrogen_mg_l: own.irrigation_nitrogen_mg_l.unwrap_or(base.irrigation_nitrogen_mg_l),
            put_down: own.put_down.unwrap_or(base.put_down),
            gifts: own.gifts.unwrap_or(base.gifts),
            events: own.events.unwrap_or(base.events),
            lift_at_end: own.lift_at_end.unwrap_or(base.lift_at_end),
            crops: own.crops.unwrap_or(base.crops),
            container_litres: own.container_litres.or(base.container_litres),
            ..base
        };
        Self { input: Cow::Owned(input), continue_from: own.continue_from_stage }
    }
}

impl Weather {
    fn check(&self, key: &str, days: u32) -> Result<(), InputError> {
        each(&format!("{key}.month_mean_c"), &self.month_mean_c, -60.0, 60.0)?;
        each(&format!("{key}.month_rain_mm"), &self.month_rain_mm, 0.0, 5_000.0)?;
        each(&format!("{key}.month_et0_mm_day"), &self.month_et0_mm_day, 0.0, 30.0)?;
        if !(1..=28).contains(&self.rain_every_days) {
            return fail(format!("{key}.rain_every_days"), "must be from 1 to 28");
        }
        let Some(daily) = &self.daily else { return Ok(()) };
        for (name, values, low, high) in [
            ("mean_c", &daily.mean_c, -60.0, 60.0),
            ("rain_mm", &daily.rain_mm, 0.0, 2_000.0),
            ("et0_mm", &daily.et0_mm, 0.0, 30.0),
        ] {
            let key = format!("{key}.daily.{name}");
            if values.len() < days as usize {
                return fail(key, &format!("has {} values; {days} days need as many", values.len()));
            }
            each(&key, values, low, high)?;
        }
        Ok(())
    }
}

impl Soil {
    fn check(&self, key: &str) -> Result<(), InputError> {
        within(format!("{key}.available_water_mm"), self.available_water_mm, 0.1, 5_000.0)?;
        within(format!("{key}.field_capacity_mm"), self.field_capacity_mm, 0.1, 10_000.0)?;
        within(format!("{key}.depth_cm"), self.depth_cm, 0.1, 1_000.0)?;
        within(format!("{key}.organic_matter_pct"), self.organic_matter_pct, 0.0, 100.0)?;
        // A laboratory's "nitrogen without limit" is 1e7.
        within(format!("{key}.mineral_nitrogen_kg_ha"), self.mineral_nitrogen_kg_ha, 0.0, 1e9)?;
        within(format!("{key}.initial_water_share"), self.initial_water_share, 0.0, 1.0)?;
        match self.supply_kg_ha_year {
            Some(supply) => within(format!("{key}.supply_kg_ha_year"), supply, 0.0, 10_000.0),
            None => Ok(()),
        }
    }
}

impl PutDown {
    fn check(&self, key: &str, stages: &[Merged<'_>], position: usize) -> Result<(), InputError> {
        let at = |name: &str| format!("{key}.{name}");
        within(at("area_factor"), self.area_factor, 0.0, 1e6)?;
        within(at("mineral_n_kg_ha"), self.mineral_n_kg_ha, 0.0, 10_000.0)?;
        if self.incorporated_days.is_some_and(|days| days > 5) {
            return fail(at("incorporated_days"), "must be from 0 to 5");
        }
        if let Some(from) = self.from_stage {
            let Some(source) = stages.get(from).filter(|_| from < position) else {
                return fail(at("from_stage"), "must name an earlier stage");
            };
            let Some(layer) = self.layer else { return fail(at("layer"), "is needed with from_stage") };
            let mut lifts = source.input.lift_at_end.iter().map(|lift| lift.layer).chain(
                source.input.events.iter().filter_map(|event| match event {
                    Event::LayerLifted { layer, .. } => Some(*layer),
                    Event::SoilWorked { .. } => None,
                }),
            );
            if !lifts.any(|lifted| lifted == layer) {
                return fail(at("layer"), "is not lifted in that stage");
            }
            if self.material.is_some() || !self.one_of.is_empty() {
                return fail(at("material"), "is known from the earlier stage; leave it out");
            }
            if self.dry_t_ha.or(self.wet_t_ha).or(self.depth_mm).is_some() {
                return fail(
                    key,
                    "takes its amount from the earlier stage; leave dry_t_ha, wet_t_ha, depth_mm out",
                );
            }
            return Ok(());
        }
        match (self.material, self.one_of.as_slice()) {
            (Some(_), []) => {}
            (None, []) => return fail(at("material"), "is needed: what was put down"),
            (Some(_), _) => return fail(at("one_of"), "stands in place of material; give one of the two"),
            (None, classes) => {
                if classes.iter().any(|class| class_figures(*class).kind != Kind::Wood) {
                    return fail(at("one_of"), "may name wood, bark and composts only");
                }
            }
        }
        let amounts = [self.dry_t_ha, self.wet_t_ha, self.depth_mm];
        if amounts.iter().flatten().count() != 1 {
            return fail(key, "needs one of dry_t_ha, wet_t_ha, depth_mm");
        }
        for (name, value, most) in [
            ("dry_t_ha", self.dry_t_ha, 1e5),
            ("wet_t_ha", self.wet_t_ha, 1e5),
            ("depth_mm", self.depth_mm, 1e4),
        ] {
            if let Some(value) = value {
                within(at(name), value, 0.0, most)?;
            }
        }
        match (self.wet_t_ha, self.moisture_pct) {
            (Some(_), None) => return fail(at("moisture_pct"), "is needed with wet_t_ha"),
            (_, Some(moisture)) => within(at("moisture_pct"), moisture, 0.0, 99.0)?,
            (None, None) => {}
        }
        within(at("moisture_half_width"), self.moisture_half_width, 0.0, 50.0)?;
        within(at("mass_sd"), self.mass_sd, 0.0, 2.0)?;
        within(at("fines_share"), self.fines_share, 0.0, 1.0)?;
        within(at("kL_factor"), self.fast_rate_factor, 0.0, 100.0)?;
        for (name, value, low, high) in [
            ("carbon_nitrogen", self.carbon_nitrogen, 1.0, 1e5),
            ("carbon_nitrogen_sd", self.carbon_nitrogen_sd, 0.0, 2.0),
            ("kL_more_sd", self.fast_rate_more_sd, 0.0, 2.0),
            ("carbon_share", self.carbon_share, 1e-3, 1.0),
            ("dry_bulk_density_kg_m3", self.dry_bulk_density_kg_m3, 1.0, 3_000.0),
        ] {
            if let Some(value) = value {
                within(at(name), value, low, high)?;
            }
        }
        match self.batch {
            // Indices of sampling stay below 2^32.
            Some(batch) if batch > 1_000_000 => fail(at("batch"), "must be at most 1000000"),
            _ => Ok(()),
        }
    }

    /// Index of sampling of its first parameter, at its position in the list.
    pub(super) fn first_index(&self, position: usize) -> u64 {
        let batch = self.batch.map_or(position as u64, u64::from);
        BATCH_FIRST + super::parameter::BATCH_STEP * batch
    }
}

impl Gift {
    fn check(&self, key: &str) -> Result<(), InputError> {
        match (self.nitrogen_kg_ha, self.litres_m2) {
            (Some(nitrogen), None) => within(format!("{key}.nitrogen_kg_ha"), nitrogen, 0.0, 1e6)?,
            (None, Some(litres)) => {
                if self.source != GiftSource::Urine {
                    return fail(format!("{key}.litres_m2"), "is for urine; give nitrogen_kg_ha");
                }
                within(format!("{key}.litres_m2"), litres, 0.0, 1_000.0)?;
            }
            _ => return fail(key, "needs one of nitrogen_kg_ha, litres_m2"),
        }
        if self.incorporated_days.is_some_and(|days| days > 5) {
            return fail(format!("{key}.incorporated_days"), "must be from 0 to 5");
        }
        Ok(())
    }
}

impl Event {
    fn check(&self, key: &str, layers: usize) -> Result<(), InputError> {
        match *self {
            Self::SoilWorked { share: Some(share), depth_mm: None, .. } => {
                within(format!("{key}.share"), share, 0.0, 1.0)
            }
            Self::SoilWorked { share: None, depth_mm: Some(depth), .. } => {
                within(format!("{key}.depth_mm"), depth, 0.0, 2_000.0)
            }
            Self::SoilWorked { share: None, depth_mm: None, .. } => Ok(()),
            Self::SoilWorked { .. } => fail(key, "takes share or depth_mm, not both"),
            Self::LayerLifted { layer, share, .. } => lift_check(key, layer, share, layers),
        }
    }
}

impl Crop {
    fn check(&self, key: &str) -> Result<(), InputError> {
        let at = |name: &str| format!("{key}.{name}");
        within(at("fixed_share"), self.fixed_share(), 0.0, 1.0)?;
        match self {
            Self::Annual { sown_day, harvest_day, demand_kg_ha, midpoint_days, rate, .. } => {
                if harvest_day <= sown_day {
                    return fail(at("harvest_day"), "must be after sown_day");
                }
                if !(-36_500..=36_500).contains(sown_day) || *harvest_day > 36_500 {
                    return fail(at("sown_day"), "must lie within 100 years");
                }
                within(at("demand_kg_ha"), *demand_kg_ha, 0.0, 1e5)?;
                within(at("midpoint_days"), *midpoint_days, 0.0, 36_500.0)?;
                within(at("rate"), *rate, 1e-4, 2.0)
            }
            Self::Tree { demand_g_tree, ring_area_m2, root_area_m2, ring_share, windows, .. } => {
                within(at("demand_g_tree"), *demand_g_tree, 0.0, 1e5)?;
                within(at("ring_area_m2"), *ring_area_m2, 1e-3, 1e5)?;
                match (root_area_m2, ring_share) {
                    (_, Some(share)) => within(at("ring_share"), *share, 0.0, 1.0)?,
                    (Some(area), None) => within(at("root_area_m2"), *area, 1e-3, 1e6)?,
                    (None, None) => return fail(at("root_area_m2"), "is needed, or ring_share"),
                }
                for (i, (from, to, share)) in windows.iter().enumerate() {
                    if to <= from || !(-36_500..=36_500).contains(from) || *to > 36_500 {
                        return fail(at(&format!("windows[{i}]")), "must end after it begins");
                    }
                    within(at(&format!("windows[{i}]")), *share, 0.0, 1.0)?;
                }
                Ok(())
            }
        }
    }
}

fn lift_check(key: &str, layer: usize, share: f64, layers: usize) -> Result<(), InputError> {
    if layer >= layers {
        return fail(format!("{key}.layer"), "is no layer of the input");
    }
    within(format!("{key}.share"), share, 0.0, 1.0)
}

fn fail<T>(key: impl Into<String>, problem: &str) -> Result<T, InputError> {
    Err(InputError { key: key.into(), problem: problem.to_owned() })
}

fn within(key: impl Into<String>, value: f64, low: f64, high: f64) -> Result<(), InputError> {
    // Not-a-number lies in no range.
    if (low..=high).contains(&value) {
        Ok(())
    } else {
        fail(key, &format!("is {value}; it must be from {low} to {high}"))
    }
}

fn each(key: &str, values: &[f64], low: f64, high: f64) -> Result<(), InputError> {
    values.iter().enumerate().try_for_each(|(i, value)| within(format!("{key}[{i}]"), *value, low, high))
}

mod by_name {
    use super::{Deserialize, Deserializer, ModelClass, Serializer};

    #[expect(
        clippy::ref_option,
        clippy::trivially_copy_pass_by_ref,
        reason = "the signature that serde asks for"
    )]
    pub(super) fn serialize<S: Serializer>(class: &Option<ModelClass>, to: S) -> Result<S::Ok, S::Error> {
        match class {
            Some(class) => to.serialize_str(class.name()),
            None => to.serialize_none(),
        }
    }

    pub(super) fn deserialize<'de, D: Deserializer<'de>>(from: D) -> Result<Option<ModelClass>, D::Error> {
        Option::<String>::deserialize(from)?.map(|name| super::class_of(&name)).transpose()
    }
}

mod names {
    use super::{Deserialize, Deserializer, ModelClass, Serialize, Serializer};

    pub(super) fn serialize<S: Serializer>(classes: &[ModelClass], to: S) -> Result<S::Ok, S::Error> {
        let names: Vec<&str> = classes.iter().map(|class| class.name()).collect();
        names.serialize(to)
    }

    pub(super) fn deserialize<'de, D: Deserializer<'de>>(from: D) -> Result<Vec<ModelClass>, D::Error> {
        Vec::<String>::deserialize(from)?.iter().map(|name| super::class_of(name)).collect()
    }
}

mod particle_name {
    use super::{Deserialize, Deserializer, Particle, Serializer};
    use serde::de::Error;

    #[expect(clippy::trivially_copy_pass_by_ref, reason = "the signature that serde asks for")]
    pub(super) fn serialize<S: Serializer>(size: &Particle, to: S) -> Result<S::Ok, S::Error> {
        to.serialize_str(size.name())
    }

    pub(super) fn deserialize<'de, D: Deserializer<'de>>(from: D) -> Result<Particle, D::Error> {
        let name = String::deserialize(from)?;
        Particle::of_name(&name).ok_or_else(|| {
            D::Error::custom(format!("particle: {name} is none of dust, shavings, chips, chunks"))
        })
    }
}

fn class_of<E: serde::de::Error>(name: &str) -> Result<ModelClass, E> {
    ModelClass::of_name(name).ok_or_else(|| {
        let known: Vec<&str> = ModelClass::ALL.iter().map(|class| class.name()).collect();
        E::custom(format!("material: {name} is none of {}", known.join(", ")))
    })
}
