//! The folds: from an opening entry and all that name it to one record.

use std::collections::BTreeSet;
use std::rc::Rc;

use super::current::{Current, Standing};
use super::graph::{Entries, changes, target_of};
use super::single::{DeviceView, ForecastView, PersonView};
use super::view::listed;
use super::{Sort, batch, holding, pile, place, task, trial};
use crate::entry::codec;
use crate::entry::field::Field;
use crate::entry::id::EntryId;
use crate::entry::kind::Body;
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
    let (sort, value) = match &opening.body {
        Body::HoldingOpened(body) => {
            (Sort::Holding, holding::holding(entries, standing, &opening, body)?.to_value())
        }
        Body::PlaceOutlined(body) => {
            (Sort::Place, place::place(entries, standing, &opening, body)?.to_value())
        }
        Body::TrialLaidOut(body) => {
            (Sort::Trial, trial::trial(entries, standing, &opening, body)?.to_value())
        }
        Body::PileBuilt(body) => (Sort::Pile, pile::pile(entries, standing, &opening, body)?.to_value()),
        Body::LoadTakenIn(_) | Body::BatchBlended(_) | Body::LayerLifted(_) | Body::PileFinished(_) => {
            let Some(view) = batch::batch(entries, standing, &opening)? else { return Ok(None) };
            (Sort::Batch, view.to_value())
        }
        Body::TaskSet(body) => (Sort::Task, task::task(entries, standing, &opening, body)?.to_value()),
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
    Ok(Some(Folded { sort, bytes: codec::encode(&value) }))
}

/// Originals that name the subject or whose changes do, as they stand, in order of days.
pub(super) fn about<E: Entries>(
    entries: &E,
    standing: &Standing<'_, E>,
    subject: EntryId,
) -> Result<Vec<Rc<Current>>> {
    entries.foresee(subject)?;
    let mut originals = BTreeSet::new();
    for id in entries.naming(subject)? {
        let Some(entry) = entries.entry(id)? else { continue };
        originals.insert(changes(&entry).unwrap_or(id));
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
