//! From a scenario to the model's own input: ground, weather, crops and feeds, without the load in question.

use std::collections::BTreeMap;

use kerfbook_science::nitrogen::{
    self as model, Event, Gift, GiftSource, Input, Irrigation, LayerWay, Placement, PutDown, Watered,
};
use kerfbook_science::plain::weather::Seasons;
use kerfbook_science::plain::{self, LastCropFed, Rolled};
use kerfbook_science::units::{Area, AreaMass, Length, Mass, Share, Volume};
use kerfbook_science::{crop, feed, soil, weather};

use crate::assumed::Assumed;
use crate::calendar::Calendar;
use crate::compare::SEASON_DAYS;
use crate::error::ActError;
use crate::scenario::{Again, Crop, CropNeed, Feed, FeedAmount, PlaceKind, Placed, Scenario, Soil, Weather};

/// Steepest uptake that the model takes, 1/d.
const STEEPEST_RATE: f64 = 2.0;
/// Rain falls every so many days of a usual year (assumption; the model's default).
const RAIN_EVERY_DAYS: u32 = 4;
/// Ground that the roots of a tree use, in ring areas (assumption): a ring covers half of it.
pub const ROOT_AREA_IN_RINGS: f64 = 2.0;
/// A tree takes up nitrogen in two half-bells of its season: from, to (parts of the season), share. Spring goes to
/// leaf and fruit, summer to storage (`TerAvest` et al. 2010); the positions are an assumption.
pub const TREE_WINDOWS: [(f64, f64, f64); 2] = [(0.0, 0.43, 0.6), (0.57, 1.0, 0.4)];

/// The bare place: ground, weather, crops and feeds, without any load.
#[derive(Debug, Clone, PartialEq)]
pub struct Base {
    /// The model's input; its layers are feeds that decay.
    pub input: Input,
    /// For each layer of the input, the feed it is.
    pub feeds: Vec<usize>,
    /// For each crop of the input, the crop it is; a crop that comes again stands more than once.
    pub crops: Vec<usize>,
}

/// The model's input for the bare place over some days, and what it takes for granted.
///
/// # Errors
/// Weather or soil that cannot be, a feed or crop that is not in the tables.
pub fn base(
    scenario: &Scenario,
    calendar: Calendar,
    days: u32,
    assumed: &mut Vec<Assumed>,
) -> Result<Base, ActError> {
    let mut input = Input {
        seed: 1,
        draws: 1,
        days,
        start_day_of_year: calendar.day_of_year(),
        weather: model_weather(scenario, calendar, days, assumed)?,
        soil: model_soil(scenario, assumed)?,
        cover: scenario.weather.cover,
        watered: scenario.weather.watered_enough.then_some(Watered::Enough),
        irrigation: scenario
            .weather
            .water
            .iter()
            .filter_map(|water| {
                day_within(calendar, water.date, days).map(|day| Irrigation { day, mm: water.depth.mm() })
            })
            .collect(),
        events: scenario
            .worked
            .iter()
            .filter_map(|worked| {
                day_within(calendar, worked.date, days).map(|day| Event::SoilWorked {
                    day,
                    share: worked.share.map(Share::fraction),
                    depth_mm: worked.share.is_none().then(|| worked.depth.mm()),
                })
            })
            .collect(),
        irrigation_under_mulch: !scenario.weather.water.is_empty()
            && scenario.weather.water.iter().all(|water| water.under),
        irrigation_nitrogen_mg_l: 0.0,
        put_down: Vec::new(),
        gifts: Vec::new(),
        lift_at_end: Vec::new(),
        crops: Vec::new(),
        readings: Vec::new(),
        stages: Vec::new(),
        container_litres: scenario.place.container.map(Volume::litres),
        fixed_parameters: BTreeMap::new(),
        spreads: spreads(scenario),
        nitrogen_limit_kg_ha: feed::PRACTICAL_LIMIT.value.kg_ha(),
    };
    let mut feeds = Vec::new();
    for (index, feed) in scenario.feeds.iter().enumerate() {
        if let Some(day) = day_within(calendar, feed.date, days) {
            add_feed(&mut input, scenario, feed, day)?;
            feeds.resize(input.put_down.len(), index);
        }
    }
    let mut crops = Vec::new();
    let years = days.div_ceil(SEASON_DAYS);
    for year in 0..years {
        for (index, crop) in scenario.crops.iter().enumerate() {
            if comes(crop, year) {
                add_crop(&mut input, scenario, calendar, crop, year)?;
                crops.resize(input.crops.len(), index);
            }
        }
    }
    Ok(Base { input, feeds, crops })
}

/// Whether a crop stands in a year counted from its first.
fn comes(crop: &Crop, year: u32) -> bool {
    match crop.again {
        Again::Never => year == 0,
        Again::EveryYear { until } => {
            let sown = crop.started + chrono::Days::new(u64::from(year) * u64::from(SEASON_DAYS));
            year == 0 || until.is_none_or(|until| sown < until)
        }
    }
}

/// The day of a date, where it lies in the time looked at.
pub fn day_within(calendar: Calendar, date: chrono::NaiveDate, days: u32) -> Option<u32> {
    u32::try_from(calendar.day(date)).ok().filter(|day| *day < days)
}

/// Depth that counts for nitrogen: the place's rooting depth where given, else the soil's.
pub fn depth(scenario: &Scenario) -> Length {
    scenario.place.rooting_depth.unwrap_or(scenario.soil.depth)
}

fn model_weather(
    scenario: &Scenario,
    calendar: Calendar,
    days: u32,
    assumed: &mut Vec<Assumed>,
) -> Result<model::Weather, ActError> {
    let normals = &scenario.weather;
    let evaporation = if let Some(given) = normals.month_et0_mm_day {
        given
    } else {
        if scenario.holding.latitude_deg.is_none() {
            return Err(ActError::Missing {
                key: "holding.latitude_deg",
                why: "evaporation is estimated from it; give it, or weather.month_et0_mm_day",
            });
        }
        if normals.month_range_c.is_none() {
            assumed.push(Assumed::number("month_range_c", weather::TYPICAL_RANGE_C.value));
        }
        evaporation(normals, scenario.holding.latitude_deg)
    };
    let mut built = usual_year(normals, evaporation);
    if let Some(daily) = &normals.daily {
        // Days before and after the file follow the usual year.
        let mut usual = built.usual_days(calendar.day_of_year(), days);
        let offset = calendar.day(daily.first);
        for (index, mean) in daily.mean_c.iter().enumerate() {
            let Ok(day) = usize::try_from(offset + i64::try_from(index).unwrap_or(i64::MAX)) else {
                continue;
            };
            if day >= days as usize {
                break;
            }
            usual.mean_c[day] = *mean;
            usual.rain_mm[day] = daily.rain_mm[index];
            if let Some(et0) = &daily.et0_mm {
                usual.et0_mm[day] = et0[index];
            }
        }
        let known = offset + i64::try_from(daily.mean_c.len()).unwrap_or(i64::MAX);
        if offset > 0 || known < i64::from(days) {
            assumed.push(Assumed::text("weather_outside_daily_file", "usual year"));
        }
        built.daily = Some(usual);
    }
    Ok(built)
}

/// The model's own spread of the error of temperature, °C.
pub(crate) const OWN_TEMPERATURE_SPREAD_C: f64 = 1.0;
/// The model's own spread of rain, standard deviation of its logarithm.
const OWN_RAIN_SPREAD: f64 = 0.15;
/// The model's own spread of evaporation, standard deviation of its logarithm.
const OWN_EVAPORATION_SPREAD: f64 = 0.10;

/// How far what was answered, or not even that, spreads the runs; a figure that was measured keeps the model's own
/// spread.
fn spreads(scenario: &Scenario) -> BTreeMap<String, f64> {
    let ground = &scenario.soil;
    let answers = ground.answers;
    let mut spreads = BTreeMap::new();
    if ground.mineral_nitrogen.is_none() {
        let fed = answers.last_crop_fed.unwrap_or(LastCropFed::Unknown);
        spreads.insert("n0".to_owned(), fed.mineral_nitrogen_kg_ha().log_spread());
    }
    if let Some(colour) = answers.colour {
        spreads.insert("organic".to_owned(), colour.organic_matter_pct().log_spread());
    }
    if ground.field_capacity.is_none() && ground.clay.is_none() {
        let rolled = answers.rolled.unwrap_or(Rolled::Unknown);
        let (clay, sand) = (rolled.clay_pct(), rolled.sand_pct());
        // Little clay goes with much sand.
        let held = |clay: f64, sand: f64| {
            let (clay, sand) = (Share::from_percent(clay), Share::from_percent(sand));
            soil::water(Some(clay), Some(sand), ground.organic_matter, ground.bulk_density, depth(scenario))
        };
        if let (Ok(light), Ok(heavy)) = (held(clay.low, sand.high), held(clay.high, sand.low)) {
            let spread = plain::log_spread(light.field_capacity.mm(), heavy.field_capacity.mm());
            spreads.insert("capacity".to_owned(), spread);
        }
    }
    let appetites = scenario.crops.iter().filter_map(|crop| match crop.need {
        CropNeed::Appetite(appetite) => Some(appetite.need_kg_ha().log_spread()),
        CropNeed::Annual(_) | CropNeed::Tree(_) => None,
    });
    if let Some(widest) = appetites.max_by(f64::total_cmp) {
        spreads.insert("demand".to_owned(), widest);
    }
    let told = scenario.weather.answers;
    let words = [
        ("dT", OWN_TEMPERATURE_SPREAD_C, told.seasons.map(Seasons::spread_c)),
        ("et", OWN_EVAPORATION_SPREAD, told.seasons.map(|_| plain::weather::EVAPORATION_SPREAD.value)),
        ("rain", OWN_RAIN_SPREAD, told.rain.map(|rain| rain.month_mm().log_spread())),
    ];
    for (name, own, more) in words {
        if let Some(more) = more {
            spreads.insert(name.to_owned(), plain::together(own, more));
        }
    }
    spreads
}

/// Reference evaporation of each month: as given, else after temperature and latitude; none where neither is known.
fn evaporation(normals: &Weather, latitude_deg: Option<f64>) -> [f64; 12] {
    let estimate = |latitude| {
        weather::reference_evaporation(latitude, &normals.month_mean_c, normals.month_range_c.as_ref())
    };
    normals.month_et0_mm_day.or(latitude_deg.map(estimate)).unwrap_or_default()
}

fn usual_year(normals: &Weather, month_et0_mm_day: [f64; 12]) -> model::Weather {
    model::Weather {
        month_mean_c: normals.month_mean_c,
        month_rain_mm: normals.month_rain_mm,
        month_et0_mm_day,
        rain_every_days: RAIN_EVERY_DAYS,
        daily: None,
    }
}

/// The usual year alone, as the model has it.
pub(crate) fn usual_weather(normals: &Weather, latitude_deg: Option<f64>) -> model::Weather {
    usual_year(normals, evaporation(normals, latitude_deg))
}

fn model_soil(scenario: &Scenario, assumed: &mut Vec<Assumed>) -> Result<model::Soil, ActError> {
    let ground = &scenario.soil;
    let depth = depth(scenario);
    let water = match (ground.available_water, ground.field_capacity) {
        (Some(available), Some(capacity)) => (available, capacity),
        (available, capacity) => {
            let (clay, sand) = texture(ground, assumed);
            let held = soil::water(clay, sand, ground.organic_matter, ground.bulk_density, depth)
                .map_err(|error| ActError::Soil(error.to_string()))?;
            (available.unwrap_or(held.available), capacity.unwrap_or(held.field_capacity))
        }
    };
    let nitrogen = ground.mineral_nitrogen.unwrap_or_else(|| match ground.answers.last_crop_fed {
        Some(fed) if fed != LastCropFed::Unknown => {
            AreaMass::from_kg_ha(fed.mineral_nitrogen_kg_ha().typical)
        }
        _ => {
            let typical = soil::TYPICAL_MINERAL_NITROGEN.value;
            assumed.push(Assumed::number("mineral_nitrogen_kg_ha", typical.kg_ha()));
            typical
        }
    });
    Ok(model::Soil {
        available_water_mm: water.0.mm(),
        field_capacity_mm: water.1.mm(),
        depth_cm: depth.cm(),
        organic_matter_pct: ground.organic_matter.percent(),
        mineral_nitrogen_kg_ha: nitrogen.kg_ha(),
        initial_water_share: ground.water_at_start.fraction(),
        supply_kg_ha_year: None,
    })
}

/// Clay and sand as measured, or as damp soil rolls; what is neither is noted and left to the soil's own rule.
pub(crate) fn texture(ground: &Soil, assumed: &mut Vec<Assumed>) -> (Option<Share>, Option<Share>) {
    match ground.answers.rolled {
        Some(rolled) if rolled != Rolled::Unknown && ground.clay.is_none() => {
            let told = |figure: plain::Likely| Some(Share::from_percent(figure.typical));
            (told(rolled.clay_pct()), ground.sand.or(told(rolled.sand_pct())))
        }
        _ => {
            if ground.clay.is_none() {
                assumed.push(Assumed::number("clay_pct", soil::TYPICAL_CLAY.value.percent()));
            }
            if ground.sand.is_none() {
                assumed.push(Assumed::text("sand_pct", "half of what is not clay"));
            }
            (ground.clay, ground.sand)
        }
    }
}

/// Full need of an annual crop.
pub fn need(crop: &Crop) -> Option<AreaMass> {
    match crop.need {
        CropNeed::Annual(need) => Some(need),
        CropNeed::Appetite(appetite) => Some(AreaMass::from_kg_ha(appetite.need_kg_ha().typical)),
        CropNeed::Tree(_) => None,
    }
}

/// Whether a crop is counted by the tree: its need is, or it stands in rings under counted trees.
pub fn is_tree(scenario: &Scenario, crop: &Crop) -> bool {
    matches!(crop.need, CropNeed::Tree(_))
        || (scenario.place.kind == PlaceKind::Rings && crop.plants.is_some_and(|count| count > 0))
}

/// What a tree takes up in a year, and the part of it that comes from its ring; `None` for crops that are no trees.
///
/// A need by the hectare is that of the rings' own ground: all of it comes from there.
fn tree_need(scenario: &Scenario, crop: &Crop) -> Result<Option<(Mass, Option<f64>)>, ActError> {
    let trees = crop.plants.filter(|count| *count > 0);
    match (crop.need, need(crop), trees) {
        (CropNeed::Tree(_), _, None) => Err(ActError::Missing {
            key: "crop.plants",
            why: "the need of a tree is counted by the tree; say how many stand on this place",
        }),
        (CropNeed::Tree(per_tree), ..) => Ok(Some((per_tree, None))),
        (_, Some(need), Some(trees)) if scenario.place.kind == PlaceKind::Rings => {
            Ok(Some(((scenario.place.area / f64::from(trees)).mass_of(need), Some(1.0))))
        }
        _ => Ok(None),
    }
}

/// Adds a crop in a year counted from its first, where it stands within the time looked at.
pub(crate) fn add_crop(
    input: &mut Input,
    scenario: &Scenario,
    calendar: Calendar,
    crop: &Crop,
    year: u32,
) -> Result<(), ActError> {
    let start = calendar.day(crop.started) + i64::from(year) * i64::from(SEASON_DAYS);
    let end = calendar.day(crop.ended) + i64::from(year) * i64::from(SEASON_DAYS);
    let (Ok(start), Ok(end)) = (i32::try_from(start), i32::try_from(end)) else { return Ok(()) };
    if i64::from(start) >= i64::from(input.days) {
        return Ok(());
    }
    let season = f64::from(end - start);
    let built = if let Some((per_tree, ring_share)) = tree_need(scenario, crop)? {
        let ring = scenario.place.area.m2() / f64::from(crop.plants.unwrap_or(1).max(1));
        #[expect(clippy::cast_possible_truncation, reason = "days of a few years")]
        let on = |part: f64| start + (part * season).round() as i32;
        model::Crop::Tree {
            name: crop.name.clone(),
            demand_g_tree: per_tree.g(),
            ring_area_m2: ring,
            root_area_m2: Some(ring * ROOT_AREA_IN_RINGS),
            ring_share,
            windows: TREE_WINDOWS.map(|(from, to, share)| (on(from), on(to), share)).to_vec(),
            fixed_share: crop.fixed.fraction(),
        }
    } else if let Some(need) = need(crop) {
        model::Crop::Annual {
            name: crop.name.clone(),
            sown_day: start,
            harvest_day: end,
            demand_kg_ha: need.kg_ha(),
            midpoint_days: crop.midpoint_day.unwrap_or_else(|| crop::midpoint_days(season)),
            // A crop of a few days takes up as steeply as the model can.
            rate: crop::rate(season).min(STEEPEST_RATE),
            fixed_share: crop.fixed.fraction(),
        }
    } else {
        return Ok(());
    };
    input.crops.push(built);
    Ok(())
}

fn add_feed(input: &mut Input, scenario: &Scenario, feed: &Feed, day: u32) -> Result<(), ActError> {
    let source = find_feed(&feed.source)?;
    let gifts = input.gifts.len();
    give(input, source, (feed.amount, scenario.place.area), day, feed.placed)?;
    for gift in input.gifts.iter_mut().skip(gifts) {
        gift.with_layer = feed.with_layer;
    }
    Ok(())
}

/// Nitrogen in an amount of a source on an area.
///
/// # Errors
/// A liquid stated by mass, or a solid by volume.
pub fn nitrogen_of(source: &feed::Feed, amount: FeedAmount, area: Area) -> Result<AreaMass, ActError> {
    match amount {
        FeedAmount::Nitrogen(nitrogen) => Ok(nitrogen),
        FeedAmount::Product(mass) => Ok(nitrogen_in(source, feed::Amount::Product(mass))?.per(area)),
        FeedAmount::Liquid(volume) => Ok(nitrogen_in(source, feed::Amount::Liquid(volume))?.per(area)),
    }
}

fn nitrogen_in(source: &feed::Feed, amount: feed::Amount) -> Result<Mass, ActError> {
    source.nitrogen_in(amount).ok_or(ActError::WrongMeasure { feed: source.name.to_owned() })
}

/// Finds a feed by name.
///
/// # Errors
/// The table does not know it.
pub fn find_feed(name: &str) -> Result<&'static feed::Feed, ActError> {
    use kerfbook_science::lookup::Match;
    match feed::find(name) {
        Match::Exact(found) => Ok(found),
        Match::Near(nearest) => Err(ActError::UnknownFeed {
            feed: name.to_owned(),
            nearest: nearest.iter().map(|found| found.name.to_owned()).collect(),
        }),
    }
}

/// Adds an amount of a feed on an area to the model's input: a soluble source as a gift, an organic one as a layer that
/// decays. Urine by volume is as strong as each run draws it.
///
/// # Errors
/// A liquid stated by mass, or a solid by volume.
pub fn give(
    input: &mut Input,
    source: &feed::Feed,
    (amount, area): (FeedAmount, Area),
    day: u32,
    placed: Placed,
) -> Result<(), ActError> {
    let nitrogen = nitrogen_of(source, amount, area)?;
    let litres_m2 = match amount {
        FeedAmount::Liquid(volume) if source.is_urine() => Some(volume.litres() / area.m2()),
        _ => None,
    };
    match source.enters {
        feed::Enters::Gift(gift) => input.gifts.push(Gift {
            day,
            source: gift_source(gift),
            nitrogen_kg_ha: litres_m2.is_none().then(|| nitrogen.kg_ha()),
            litres_m2,
            placement: match placed {
                Placed::Mixed => Placement::Mixed,
                Placed::Under => Placement::Under,
                Placed::Top => Placement::Top,
            },
            covered: false,
            incorporated_days: None,
            with_layer: false,
        }),
        feed::Enters::Layer { class, carbon_nitrogen, ammonium, .. } => {
            let organic = nitrogen.kg_ha() * (1.0 - ammonium);
            // A source is one batch however often it is given: it draws the same figures each time.
            let own = feed::all().iter().position(|feed| feed.name == source.name).unwrap_or(0);
            let batch = u32::try_from(own).unwrap_or(0) + FEED_BATCH;
            input.put_down.push(PutDown {
                day,
                material: Some(class),
                way: match placed {
                    Placed::Mixed => LayerWay::WorkedIn,
                    Placed::Under => LayerWay::Under,
                    Placed::Top => LayerWay::OnTop,
                },
                batch: Some(batch),
                dry_t_ha: Some(organic * carbon_nitrogen / class.carbon_share() / 1000.0),
                carbon_nitrogen: Some(carbon_nitrogen),
                mineral_n_kg_ha: nitrogen.kg_ha() * ammonium,
                ..PutDown::default()
            });
        }
    }
    Ok(())
}

/// The model's name of a soluble source.
pub fn gift_source(gift: feed::Gift) -> GiftSource {
    match gift {
        feed::Gift::Nitrate => GiftSource::Nitrate,
        feed::Gift::Urea => GiftSource::Urea,
        feed::Gift::AmmoniumSulfate => GiftSource::AmmoniumSulfate,
        feed::Gift::Urine => GiftSource::Urine,
    }
}

/// First batch number of feeds, one a source: batches of loads count from 0, so that a load draws the same figures in
/// every way.
pub const FEED_BATCH: u32 = 16;

/// The kind of place grows something.
pub fn grows(kind: PlaceKind) -> bool {
    !matches!(kind, PlaceKind::Path | PlaceKind::Yard)
}
