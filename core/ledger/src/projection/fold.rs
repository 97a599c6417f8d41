//! The folds.

use std::collections::BTreeSet;
use std::rc::Rc;

use super::Sort;
use super::current::{Current, Flag, Standing};
use super::graph::{Entries, target_of};
use super::view::{
    BatchView, CropLine, DeviceView, FeedLine, Flagged, ForecastView, Layer, NoteLine, PersonView, PlaceView,
    Use, WaterLine, listed,
};
use crate::entry::codec;
use crate::entry::field::Field;
use crate::entry::id::EntryId;
use crate::entry::kind::{Body, LoadTakenIn, PlaceOutlined};
use crate::error::Result;

/// A subject's projection as it is kept.
pub(crate) struct Folded {
    pub(crate) sort: Sort,
    pub(crate) bytes: Vec<u8>,
}

/// Folds one subject; none where the entry opens nothing or has not arrived.
pub(crate) fn fold<E: Entries>(
    entries: &E,
    standing: &Standing<'_, E>,
    id: EntryId,
) -> Result<Option<Folded>> {
    let Some(opening) = standing.current(id)? else { return Ok(None) };
    let value = match &opening.body {
        Body::PlaceOutlined(body) => (Sort::Place, place(entries, standing, &opening, body)?.to_value()),
        Body::LoadTakenIn(body) => (Sort::Batch, batch(entries, standing, &opening, body)?.to_value()),
        Body::PersonNamed(body) => {
            (Sort::Person, PersonView { id, name: body.name, flags: listed(&opening.flags) }.to_value())
        }
        Body::DeviceEnrolled(body) => {
            let view = DeviceView { id, public_key: body.public_key, label: body.label.clone() };
            (Sort::Device, view.to_value())
        }
        Body::ForecastFrozen(body) => {
            let view = ForecastView {
                id,
                date: opening.date,
                place: opening.subject,
                engine: body.engine,
                parameters: body.parameters,
                way: body.way,
                look: body.look,
                flags: listed(&opening.flags),
            };
            (Sort::Forecast, view.to_value())
        }
        _ => return Ok(None),
    };
    Ok(Some(Folded { sort: value.0, bytes: codec::encode(&value.1) }))
}

/// Originals that name the subject or whose changes do, as they stand, in order of days.
fn about<E: Entries>(entries: &E, standing: &Standing<'_, E>, subject: EntryId) -> Result<Vec<Rc<Current>>> {
    let mut originals = BTreeSet::new();
    for id in entries.naming(subject)? {
        let Some(entry) = entries.entry(id)? else { continue };
        originals.insert(target_of(&entry.read()).unwrap_or(id));
    }
    originals.remove(&subject);
    let mut found = Vec::new();
    for id in originals {
        found.extend(standing.current(id)?);
    }
    found.retain(|current| target_of(&current.body).is_none());
    found.sort_by_key(|current| Current::order(current));
    Ok(found)
}

fn place<E: Entries>(
    entries: &E,
    standing: &Standing<'_, E>,
    opening: &Current,
    body: &PlaceOutlined,
) -> Result<PlaceView> {
    let id = opening.original.id;
    let mut view = PlaceView {
        id,
        label: body.label.clone(),
        place_kind: body.place_kind,
        area_mm2: body.area_mm2,
        container_ml: body.container_ml,
        containers: body.containers,
        rooting_depth_mm: body.rooting_depth_mm,
        closed: standing.closed_on(id)?,
        layers: Vec::new(),
        crops: Vec::new(),
        feeds: Vec::new(),
        water: Vec::new(),
        notes: Vec::new(),
        forecasts: Vec::new(),
        wet_g: 0,
        dry_g: 0,
        nitrogen_mg: 0,
        flagged: flagged(opening).into_iter().collect(),
    };
    let all = about(entries, standing, id)?;
    let here: Vec<&Rc<Current>> = all.iter().filter(|current| current.subject == Some(id)).collect();
    for current in &here {
        view.flagged.extend(flagged(current));
        if current.counts() {
            add(&mut view, current);
        }
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

/// Adds what one entry says.
fn add(view: &mut PlaceView, current: &Current) {
    let (entry, date) = (current.original.id, current.date);
    match &current.body {
        Body::PutDown(body) => {
            view.wet_g = view.wet_g.saturating_add(body.wet_g.unwrap_or(0));
            view.dry_g = view.dry_g.saturating_add(body.dry_g.unwrap_or(0));
            view.layers.push(Layer {
                entry,
                date,
                batch: body.batch,
                way: body.way,
                wet_g: body.wet_g,
                dry_g: body.dry_g,
                depth_mm: body.depth_mm,
                area_mm2: body.area_mm2.unwrap_or(view.area_mm2),
                over: body.over,
            });
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
            view.water.push(WaterLine { entry, date, depth_mm: body.depth_mm, volume_ml: body.volume_ml });
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
        Body::NoteMade(body) => view.notes.push(NoteLine { entry, date, text: body.text }),
        Body::ForecastFrozen(_) => view.forecasts.push(entry),
        _ => {}
    }
}

fn batch<E: Entries>(
    entries: &E,
    standing: &Standing<'_, E>,
    opening: &Current,
    body: &LoadTakenIn,
) -> Result<BatchView> {
    let id = opening.original.id;
    let mut uses = Vec::new();
    let mut doubts: Vec<Flagged> = flagged(opening).into_iter().collect();
    for current in about(entries, standing, id)? {
        match &current.body {
            Body::PutDown(put) if put.batch == id => {
                doubts.extend(flagged(&current));
                if let (true, Some(place)) = (current.counts(), current.subject) {
                    let volume_ml = put
                        .containers
                        .zip(put.container_ml)
                        .map(|(count, each)| u64::from(count).saturating_mul(each));
                    uses.push(Use {
                        entry: current.original.id,
                        date: current.date,
                        place,
                        wet_g: put.wet_g,
                        volume_ml,
                    });
                }
            }
            _ if current.subject == Some(id) => doubts.extend(flagged(&current)),
            _ => {}
        }
    }
    Ok(BatchView {
        id,
        label: body.label.clone(),
        date: opening.date,
        material: body.material.clone(),
        model_class: body.model_class.clone(),
        particle: body.particle,
        wet_g: body.wet_g,
        volume_ml: body.volume_ml,
        moisture_bp: body.moisture_bp,
        carbon_nitrogen_x100: body.carbon_nitrogen_x100,
        wet_density_g_m3: body.wet_density_g_m3,
        treated: body.treated,
        left_g: left(body.wet_g, uses.iter().map(|part| part.wet_g)),
        left_ml: left(body.volume_ml, uses.iter().map(|part| part.volume_ml)),
        unweighed: missing(uses.iter().map(|part| part.wet_g)),
        unmeasured: missing(uses.iter().map(|part| part.volume_ml)),
        uses,
        flagged: doubts,
    })
}

/// What came less what is known to have gone; below zero where more went.
fn left(came: Option<u64>, went: impl Iterator<Item = Option<u64>>) -> Option<i64> {
    let came = i64::try_from(came?).unwrap_or(i64::MAX);
    Some(went.flatten().fold(came, i64::saturating_sub_unsigned))
}

fn missing(went: impl Iterator<Item = Option<u64>>) -> u32 {
    went.filter(Option::is_none).fold(0, |count: u32, _| count.saturating_add(1))
}

/// The entry, where something has to be said about it.
fn flagged(current: &Current) -> Option<Flagged> {
    let flags: &BTreeSet<Flag> = &current.flags;
    (!flags.is_empty()).then(|| Flagged { entry: current.original.id, flags: listed(flags) })
}
