//! A place and what happened on it.

use std::rc::Rc;

use super::current::{Current, Flag, Standing};
use super::fold::about;
use super::graph::Entries;
use super::view::{Flagged, Said, carries, flagged};
use crate::entry::field::{Label, record};
use crate::entry::id::{Date, EntryId, TextRef};
use crate::entry::kind::{
    Body, Cover, DepthProbed, Fate, GapChecked, KnownBy, LaidBy, LayerLifted, LeafRead, Measured, PlaceKind,
    PlaceOutlined, Placed, PutDown, SoilTested, SoilWorked, Watering, Way, WeatherRead,
};
use crate::entry::outline::{Anchor, Outline};
use crate::entry::trees::{TreeRun, Trees};
use crate::entry::walked::Walked;
use crate::error::Result;

record! {
    /// The size of a place, what is over it and how it is watered, from a day on.
    Measure {
        /// The outlining.
        entry: EntryId,
        /// From when.
        date: Date,
        /// How it came about.
        measured: Measured,
        /// Area, mm2.
        area_mm2: u64,
        /// Volume of one container, mL.
        container_ml: Option<u64>,
        /// Number of containers or trees.
        containers: Option<u32>,
        /// Depth that roots reach, mm.
        rooting_depth_mm: Option<u32>,
        /// Standard uncertainty of the area, mm2.
        area_sd_mm2: Option<u64>,
        /// Where the outline's frame lies.
        anchor: Option<Anchor>,
        /// Its outline; empty where only the area is known.
        outline: Outline,
        /// More ground, and holes.
        further: Option<Vec<Outline>>,
        /// How a receiver measured it.
        walk: Option<Walked>,
        /// Its trees.
        trees: Option<Trees>,
        /// What is over it.
        cover: Option<Cover>,
        /// How it is watered.
        watered: Option<Watering>,
    }
}

record! {
    /// What was put down.
    Layer {
        /// The putting down.
        entry: EntryId,
        /// When.
        date: Date,
        /// The batch it came from.
        batch: EntryId,
        /// How.
        way: Way,
        /// Moist mass, g.
        wet_g: Option<u64>,
        /// Dry mass, g.
        dry_g: Option<u64>,
        /// Depth of soil, or thickness, mm.
        depth_mm: Option<u32>,
        /// Area covered, mm2.
        area_mm2: u64,
        /// What lies under it.
        over: Option<EntryId>,
        /// By what its thickness was measured, where that is all that is known.
        laid_by: Option<LaidBy>,
        /// How many of them, x 10.
        laid_x10: Option<u32>,
        /// What its amount rests on.
        known_by: Option<KnownBy>,
        /// Part that was not lifted again, 0.01 %; 0 also where more was lifted than lay there.
        lies_bp: u32,
        /// The last day after the putting down on which the soil was worked. Work on the day itself comes before it.
        dug_in: Option<Date>,
        /// The trees that it went to, where they were told.
        trees: Option<TreeRun>,
    }
}

record! {
    /// A crop.
    CropLine {
        /// The start.
        entry: EntryId,
        /// What is grown.
        crop: Label,
        /// Sown or planted.
        started: Date,
        /// Expected to end.
        ends: Option<Date>,
        /// Ended.
        ended: Option<Date>,
        /// What became of it.
        fate: Option<Fate>,
        /// Fresh mass carried off, g.
        yield_g: Option<u64>,
    }
}

record! {
    /// A feed.
    FeedLine {
        /// The entry.
        entry: EntryId,
        /// When.
        date: Date,
        /// What.
        source: Label,
        /// Nitrogen, mg.
        nitrogen_mg: u64,
        /// Where it went.
        placed: Placed,
        /// For the crop anyway, mg.
        crop_mg: Option<u64>,
        /// Because of the wood, mg.
        wood_mg: Option<u64>,
    }
}

record! {
    /// Water.
    WaterLine {
        /// The entry.
        entry: EntryId,
        /// When.
        date: Date,
        /// Depth, mm.
        depth_mm: Option<u32>,
        /// Volume, mL.
        volume_ml: Option<u64>,
        /// Under what lies there.
        under: bool,
    }
}

record! {
    /// A note.
    NoteLine {
        /// The entry.
        entry: EntryId,
        /// When.
        date: Date,
        /// Where the text is kept.
        text: TextRef,
    }
}

record! {
    /// A place and what happened on it, in order of days.
    PlaceView {
        /// The entry that opened it.
        id: EntryId,
        /// What it is called.
        label: Label,
        /// What kind of ground.
        place_kind: PlaceKind,
        /// Area, mm2, as last measured.
        area_mm2: u64,
        /// Volume of one container, mL.
        container_ml: Option<u64>,
        /// Number of containers or trees.
        containers: Option<u32>,
        /// Depth that roots reach, mm.
        rooting_depth_mm: Option<u32>,
        /// Standard uncertainty of the area as last measured, mm2, where the way of measuring tells one.
        area_sd_mm2: Option<u64>,
        /// What is over it, as last said.
        cover: Option<Cover>,
        /// How it is watered, as last said.
        watered: Option<Watering>,
        /// Its size through time: the opening and every outlining anew. See [`PlaceView::measure_on`].
        measures: Vec<Measure>,
        /// When it was closed.
        closed: Option<Date>,
        /// What was put down.
        layers: Vec<Layer>,
        /// Crops.
        crops: Vec<CropLine>,
        /// Feeds.
        feeds: Vec<FeedLine>,
        /// Water.
        water: Vec<WaterLine>,
        /// Workings of the soil.
        worked: Vec<Said<SoilWorked>>,
        /// What was lifted; each is a batch, too.
        lifted: Vec<Said<LayerLifted>>,
        /// Depths measured.
        probes: Vec<Said<DepthProbed>>,
        /// Gaps checked.
        gaps: Vec<Said<GapChecked>>,
        /// Soil tests.
        soil_tests: Vec<Said<SoilTested>>,
        /// Leaf readings.
        leaf_reads: Vec<Said<LeafRead>>,
        /// Weather by its own gauge.
        weather: Vec<Said<WeatherRead>>,
        /// Notes.
        notes: Vec<NoteLine>,
        /// Frozen forecasts.
        forecasts: Vec<EntryId>,
        /// Moist mass put down, g, of the layers whose mass is known.
        wet_g: u64,
        /// Dry mass put down, g, of the layers whose mass is known.
        dry_g: u64,
        /// Nitrogen given, mg.
        nitrogen_mg: u64,
        /// Entries about it that carry a flag, the place's own included.
        flagged: Vec<Flagged>,
    }
}

impl PlaceView {
    /// Withdrawn: not to be used.
    pub fn withdrawn(&self) -> bool {
        carries(&self.flagged, self.id, Flag::Withdrawn)
    }

    /// The size on a day: as measured last until then; before the first measuring, as measured first.
    pub fn measure_on(&self, day: Date) -> Option<&Measure> {
        self.measures.iter().rfind(|measure| measure.date <= day).or_else(|| self.measures.first())
    }
}

/// Folds a place.
pub(super) fn place<E: Entries>(
    entries: &E,
    standing: &Standing<'_, E>,
    opening: &Current,
    body: &PlaceOutlined,
) -> Result<PlaceView> {
    let id = opening.original.id;
    let all = about(entries, standing, id)?;
    let here: Vec<&Rc<Current>> = all.iter().filter(|current| current.subject == Some(id)).collect();
    let measures = measures(opening, body, &here);
    let last = measures.last();
    let mut view = PlaceView {
        id,
        label: body.label.clone(),
        place_kind: body.place_kind,
        area_mm2: last.map_or(body.area_mm2, |last| last.area_mm2),
        container_ml: last.and_then(|last| last.container_ml),
        containers: last.and_then(|last| last.containers),
        rooting_depth_mm: last.and_then(|last| last.rooting_depth_mm),
        area_sd_mm2: last.and_then(|last| last.area_sd_mm2),
        cover: last.and_then(|last| last.cover),
        watered: last.and_then(|last| last.watered),
        closed: standing.closed_on(id)?,
        measures,
        layers: Vec::new(),
        crops: Vec::new(),
        feeds: Vec::new(),
        water: Vec::new(),
        worked: Vec::new(),
        lifted: Vec::new(),
        probes: Vec::new(),
        gaps: Vec::new(),
        soil_tests: Vec::new(),
        leaf_reads: Vec::new(),
        weather: Vec::new(),
        notes: Vec::new(),
        forecasts: Vec::new(),
        wet_g: 0,
        dry_g: 0,
        nitrogen_mg: 0,
        flagged: flagged(opening).into_iter().collect(),
    };
    for current in &here {
        view.flagged.extend(flagged(current));
        if current.counts() {
            add(&mut view, current);
        }
    }
    for layer in &mut view.layers {
        let worked = view.worked.iter().filter(|work| work.date > layer.date && work.body.depth_mm > 0);
        layer.dug_in = worked.map(|work| work.date).max();
        let lifts = view.lifted.iter().filter(|lift| lift.body.layer == layer.entry);
        layer.lies_bp = lifts.fold(WHOLE_BP, |rest, lift| rest.saturating_sub(lift.body.share_bp));
    }
    // Ends come after all starts: an end may bear an earlier day than its start where one of them is wrong.
    for current in here.iter().filter(|current| current.counts()) {
        if let Body::CropEnded(end) = &current.body
            && let Some(crop) = view.crops.iter_mut().find(|crop| crop.entry == end.crop)
        {
            (crop.ended, crop.fate, crop.yield_g) = (Some(current.date), Some(end.fate), end.yield_g);
        }
    }
    Ok(view)
}

/// All of something, in 0.01 %.
pub(super) const WHOLE_BP: u32 = 10_000;

/// The sizes in order of days; of two on one day the later written holds.
fn measures(opening: &Current, body: &PlaceOutlined, here: &[&Rc<Current>]) -> Vec<Measure> {
    let mut all = vec![(
        opening.order(),
        Measure {
            entry: opening.original.id,
            date: opening.date,
            measured: body.measured,
            area_mm2: body.area_mm2,
            container_ml: body.container_ml,
            containers: body.containers,
            rooting_depth_mm: body.rooting_depth_mm,
            area_sd_mm2: body.area_sd_mm2,
            anchor: body.anchor.clone(),
            outline: body.outline.clone(),
            further: body.further.clone(),
            walk: body.walk.clone(),
            trees: body.trees.clone(),
            cover: body.cover,
            watered: body.watered,
        },
    )];
    for current in here.iter().filter(|current| current.counts()) {
        if let Body::PlaceReoutlined(body) = &current.body {
            all.push((
                current.order(),
                Measure {
                    entry: current.original.id,
                    date: current.date,
                    measured: body.measured,
                    area_mm2: body.area_mm2,
                    container_ml: body.container_ml,
                    containers: body.containers,
                    rooting_depth_mm: body.rooting_depth_mm,
                    area_sd_mm2: body.area_sd_mm2,
                    anchor: body.anchor.clone(),
                    outline: body.outline.clone(),
                    further: body.further.clone(),
                    walk: body.walk.clone(),
                    trees: body.trees.clone(),
                    cover: body.cover,
                    watered: body.watered,
                },
            ));
        }
    }
    all.sort_by_key(|(order, _)| *order);
    let mut measures: Vec<Measure> = all.into_iter().map(|(_, measure)| measure).collect();
    // A later size says nothing of roof and water where it leaves them out: they are as before.
    let (mut cover, mut watered) = (None, None);
    for measure in &mut measures {
        (cover, watered) = (measure.cover.or(cover), measure.watered.or(watered));
        (measure.cover, measure.watered) = (cover, watered);
    }
    measures
}

/// Adds what one entry says.
fn add(view: &mut PlaceView, current: &Current) {
    let (entry, date) = (current.original.id, current.date);
    match &current.body {
        Body::PutDown(body) => {
            view.wet_g = view.wet_g.saturating_add(body.wet_g.unwrap_or(0));
            view.dry_g = view.dry_g.saturating_add(body.dry_g.unwrap_or(0));
            let whole = view.measure_on(date).map_or(view.area_mm2, |measure| measure.area_mm2);
            view.layers.push(layer(entry, date, body, whole));
        }
        Body::FeedGiven(body) => {
            view.nitrogen_mg = view.nitrogen_mg.saturating_add(body.nitrogen_mg);
            view.feeds.push(FeedLine {
                entry,
                date,
                source: body.source.clone(),
                nitrogen_mg: body.nitrogen_mg,
                placed: body.placed,
                crop_mg: body.crop_mg,
                wood_mg: body.wood_mg,
            });
        }
        Body::WaterGiven(body) => {
            view.water.push(WaterLine {
                entry,
                date,
                depth_mm: body.depth_mm,
                volume_ml: body.volume_ml,
                under: body.under == Some(true),
            });
        }
        Body::CropStarted(body) => view.crops.push(CropLine {
            entry,
            crop: body.crop.clone(),
            started: date,
            ends: body.ends,
            ended: None,
            fate: None,
            yield_g: None,
        }),
        Body::SoilWorked(body) => view.worked.push(Said::of(current, body)),
        Body::LayerLifted(body) => view.lifted.push(Said::of(current, body)),
        Body::DepthProbed(body) => view.probes.push(Said::of(current, body)),
        Body::GapChecked(body) => view.gaps.push(Said::of(current, body)),
        Body::SoilTested(body) => view.soil_tests.push(Said::of(current, body)),
        Body::LeafRead(body) => view.leaf_reads.push(Said::of(current, body)),
        Body::WeatherRead(body) => view.weather.push(Said::of(current, body)),
        Body::NoteMade(body) => view.notes.push(NoteLine { entry, date, text: body.text }),
        Body::ForecastFrozen(_) => view.forecasts.push(entry),
        _ => {}
    }
}

fn layer(entry: EntryId, date: Date, body: &PutDown, whole_mm2: u64) -> Layer {
    Layer {
        entry,
        date,
        batch: body.batch,
        way: body.way,
        wet_g: body.wet_g,
        dry_g: body.dry_g,
        depth_mm: body.depth_mm,
        area_mm2: body.area_mm2.unwrap_or(whole_mm2),
        over: body.over,
        laid_by: body.laid_by,
        laid_x10: body.laid_x10,
        known_by: body.known_by,
        lies_bp: WHOLE_BP,
        dug_in: None,
        trees: body.trees.clone(),
    }
}
