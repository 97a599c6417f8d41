//! From the book to a scenario: a place with what lies there, what grows there and what was given, in the weather and
//! on the soil that the caller knows.

use chrono::NaiveDate;
use kerfbook_ledger::kind::{CropStarted, FeedGiven, Measured as HowMeasured};
use kerfbook_ledger::projection::batch::Origin;
use kerfbook_ledger::projection::place::{Layer, Measure};
use kerfbook_ledger::{BatchView, Body, Book, Current, Date, EntryId, PlaceView};
use kerfbook_science::feed;
use kerfbook_science::plain::LaidBy;
use kerfbook_science::units::{Area, AreaMass, Length, Mass, Share, Volume};

use crate::doubt;
use crate::error::ActError;
use crate::in_words::InWords;
use crate::measure::{measured_density, measured_density_sd};
use crate::put_down::{self, way_of};
use crate::scenario::{
    Again, Amount, Appetite, Containers, Crop, CropNeed, Fate, Feed, FeedAmount, Holding, KnownBy,
    LoadAnswers, Measured, Place, Placed, PutDown, Scenario, Soil, Water, Way, Weather,
};
use crate::take_in_load::particle_of;

/// What a place does not say of itself.
#[derive(Debug, Clone, PartialEq)]
pub struct Surroundings {
    /// Whose it is.
    pub holding: Holding,
    /// Weather.
    pub weather: Weather,
    /// Soil.
    pub soil: Soil,
    /// Containers.
    pub containers: Containers,
}

/// The scenario of a place as the book has it. What stands in no sum (withdrawn, resting on a withdrawn
/// entry) stays out; what was corrected counts as corrected.
///
/// # Errors
/// A place or batch that is not there.
pub fn scenario_of(book: &Book, place: EntryId, around: &Surroundings) -> Result<Scenario, ActError> {
    let view = book.place(place)?.ok_or(ActError::NotThere { what: "place" })?;
    let stands = |entry: EntryId| -> Result<bool, ActError> {
        Ok(book.current(entry)?.is_some_and(|current| current.counts()))
    };
    let mut scenario = Scenario {
        holding: around.holding.clone(),
        weather: around.weather.clone(),
        soil: around.soil.clone(),
        place: place_of(&view),
        crops: Vec::new(),
        put_down: Vec::new(),
        feeds: Vec::new(),
        worked: Vec::new(),
        lifted: Vec::new(),
        origins: Vec::new(),
        containers: around.containers,
        orchard: None,
    };
    for layer in &view.layers {
        if !stands(layer.entry)? {
            continue;
        }
        let batch = book.batch(layer.batch)?.ok_or(ActError::NotThere { what: "batch" })?;
        let Some(wet_g) = layer.wet_g else { continue };
        let amount = Amount::Wet(Mass::from_g(wet_g as f64));
        let mut put = put_down_of(&batch, way_of(layer.way), amount, layer.date.naive());
        put.measured.known_by = Some(rests_on(layer, &batch));
        scenario.put_down.push(put);
    }
    for line in &view.crops {
        let Some(current) = book.current(line.entry)?.filter(Current::counts) else { continue };
        let Body::CropStarted(started) = &current.body else { continue };
        if let Some(crop) = crop_of(started, line.started.naive(), line.ended.or(line.ends).map(Date::naive))
        {
            scenario.crops.push(crop);
        }
    }
    for line in &view.feeds {
        let Some(current) = book.current(line.entry)?.filter(Current::counts) else { continue };
        if let Body::FeedGiven(given) = &current.body {
            scenario.feeds.push(feed_of(given, line.date.naive(), scenario.place.area));
        }
    }
    for line in &view.water {
        if !stands(line.entry)? {
            continue;
        }
        let depth = match (line.depth_mm, line.volume_ml) {
            (Some(mm), _) => Length::from_mm(f64::from(mm)),
            (None, Some(ml)) => Volume::from_litres(ml as f64 / 1000.0).depth_over(scenario.place.area),
            (None, None) => continue,
        };
        scenario.weather.water.push(Water { date: line.date.naive(), depth, under: line.under });
    }
    scenario.put_down.sort_by_key(|put| put.date);
    Ok(scenario)
}

/// The ground of a place.
pub fn place_of(view: &PlaceView) -> Place {
    Place {
        kind: view.place_kind.into(),
        area: Area::from_m2(view.area_mm2 as f64 / 1e6),
        area_sd: view.measures.last().map(area_sd),
        rooting_depth: view.rooting_depth_mm.map(|mm| Length::from_mm(f64::from(mm))),
        container: view.container_ml.map(|ml| Volume::from_litres(ml as f64 / 1000.0)),
    }
}

/// What the amount of a layer rests on. Entries of the first versions do not say it; then the load was weighed, or it
/// was not.
pub(crate) fn rests_on(layer: &Layer, batch: &BatchView) -> KnownBy {
    if let Some(by) = layer.laid_by {
        return KnownBy::Laid(LaidBy::said(by));
    }
    layer.known_by.map_or_else(
        || {
            let weighed = batch.wet_g.is_some() || batch.origin != Origin::Load;
            match (weighed, layer.wet_g) {
                (false, _) => KnownBy::Volume,
                (true, Some(_)) => KnownBy::Mass,
                (true, None) => KnownBy::Dry,
            }
        },
        put_down::known_by,
    )
}

/// Standard deviation of an area as part of it: its own, else by how it was measured.
pub(crate) fn area_sd(measure: &Measure) -> f64 {
    if let Some(sd) = measure.area_sd_mm2 {
        return sd as f64 / (measure.area_mm2.max(1)) as f64;
    }
    match measure.measured {
        HowMeasured::Typed | HowMeasured::File | HowMeasured::Rings | HowMeasured::Rows => {
            doubt::TYPED_AREA.value
        }
        HowMeasured::Taped | HowMeasured::Traverse => doubt::TAPED_AREA.value,
        HowMeasured::Walked | HowMeasured::Marked => doubt::WALKED_AREA.value,
    }
}

/// A putting down of a batch, with the batch's own figures of that day.
pub fn put_down_of(batch: &BatchView, way: Way, amount: Amount, date: NaiveDate) -> PutDown {
    let day = Date::of(date).ok();
    let moisture = day.and_then(|day| batch.moisture_bp_on(day));
    let ratio = day.and_then(|day| batch.carbon_nitrogen_x100_on(day));
    PutDown {
        date,
        material: batch.material.as_str().to_owned(),
        way: Some(way),
        // What a handful looked like goes on as that: the runs then spread by it.
        particle: batch.particle.filter(|_| batch.pieces.is_none()).map(particle_of),
        amount,
        moisture: moisture.map(|bp| Share::from_percent(f64::from(bp) / 100.0)),
        moisture_half: None,
        carbon_nitrogen: ratio.map(|ratio| f64::from(ratio) / 100.0),
        bulk_density: day.and_then(|day| measured_density(batch, day)),
        measured: Measured {
            density: day.and_then(|day| measured_density_sd(batch, day)),
            ..Measured::default()
        },
        settling: None,
        kept: None,
        answers: LoadAnswers {
            pieces: batch.pieces.map(InWords::said),
            age: day.and_then(|day| batch.age_on(day)).map(InWords::said),
        },
    }
}

pub(crate) fn crop_of(started: &CropStarted, from: NaiveDate, until: Option<NaiveDate>) -> Option<Crop> {
    let need = match (started.need_mg_m2, started.tree_mg, started.appetite) {
        (Some(need), ..) => CropNeed::Annual(AreaMass::from_kg_ha(f64::from(need) / 100.0)),
        (None, Some(tree), _) => CropNeed::Tree(Mass::from_g(tree as f64 / 1000.0)),
        (None, None, Some(appetite)) => CropNeed::Appetite(Appetite::said(appetite)),
        (None, None, None) => CropNeed::Appetite(Appetite::Unknown),
    };
    Some(Crop {
        name: started.crop.as_str().to_owned(),
        need,
        started: from,
        ended: until?,
        midpoint_day: started.midpoint_day.map(f64::from),
        fixed: Share::from_percent(f64::from(started.fixed_bp) / 100.0),
        plants: started.plants,
        fate: Fate::CarriedOff,
        harvested: false,
        again: Again::Never,
    })
}

pub(crate) fn feed_of(given: &FeedGiven, date: NaiveDate, area: Area) -> Feed {
    use kerfbook_ledger::kind::Placed as Entry;
    // How much nitrogen is in urine nobody measured: what was poured goes before what a leaflet says of it.
    let urine = feed::find(given.source.as_str()).exact().is_some_and(feed::Feed::is_urine);
    let amount = match given.volume_ml.filter(|_| urine) {
        Some(ml) => FeedAmount::Liquid(Volume::from_litres(ml as f64 / 1000.0)),
        None => FeedAmount::Nitrogen(Mass::from_g(given.nitrogen_mg as f64 / 1000.0).per(area)),
    };
    Feed {
        date,
        source: given.source.as_str().to_owned(),
        amount,
        placed: match given.placed {
            Entry::Mixed => Placed::Mixed,
            Entry::Under => Placed::Under,
            Entry::Top => Placed::Top,
        },
        with_layer: false,
    }
}
