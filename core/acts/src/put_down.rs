//! Putting part of a batch down on a place.

use kerfbook_ledger::kind::{PutDown as EntryPutDown, Way as EntryWay};
use kerfbook_ledger::{Book, EntryId};
use kerfbook_science::units::Length;

use crate::error::ActError;
use crate::load::Load;
use crate::moment::Moment;
use crate::place_scenario;
use crate::scenario::{Amount, Containers, Way};
use crate::take_in_load::{first, grams, millilitres, whole_u32};
use crate::way;

/// What a person says of a putting down.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NewPutDown {
    /// Where.
    pub place: EntryId,
    /// Of which batch.
    pub batch: EntryId,
    /// How.
    pub way: Way,
    /// How much.
    pub amount: Amount,
    /// The feed or layer that lies under it.
    pub over: Option<EntryId>,
}

/// Puts a batch down: reads place and batch, works out mass and depth, writes the entry.
///
/// # Errors
/// A place or batch that is not in the book, an amount of nothing, or a book that cannot be written.
pub fn put_down(
    book: &mut Book,
    new: &NewPutDown,
    containers: &Containers,
    moment: Moment,
) -> Result<EntryId, ActError> {
    let place = book.place(new.place)?.ok_or(ActError::NotThere { what: "place" })?;
    let batch = book.batch(new.batch)?.ok_or(ActError::NotThere { what: "batch" })?;
    let described = place_scenario::put_down_of(&batch, new.way, new.amount, moment.date);
    let load = Load::of(&described, &place_scenario::place_of(&place), containers, &mut Vec::new())?;
    let (carried, count) = load.counted(containers).told_in();
    let depth =
        if new.way == Way::WorkedIn { Length::from_cm(way::WORKED_IN_DEPTH_CM.value) } else { load.depth };
    let body = EntryPutDown {
        batch: new.batch,
        way: entry_way(new.way),
        wet_g: Some(grams(load.wet)),
        dry_g: Some(grams(load.dry)),
        depth_mm: Some(whole_u32(depth.mm())),
        area_mm2: None,
        containers: Some(whole_u32(count)),
        container: Some(carried.into()),
        container_ml: Some(millilitres(carried.volume(containers))),
        over: new.over,
        gap_mm: (new.way == Way::Ring).then(|| whole_u32(way::RING_GAP_CM.value * 10.0)),
    };
    first(&book.append(&[moment.draft(body)?.about(new.place)], &[], moment.wall_ms)?)
}

/// A way as entries keep it.
fn entry_way(way: Way) -> EntryWay {
    match way {
        Way::WorkedIn => EntryWay::WorkedIn,
        Way::OnTop => EntryWay::OnTop,
        Way::OnTopOverNitrogen => EntryWay::OnTopOverNitrogen,
        Way::CompostedFirst => EntryWay::CompostedFirst,
        Way::Path => EntryWay::Path,
        Way::Ring => EntryWay::Ring,
    }
}

/// A way as science has it.
pub(crate) fn way_of(way: EntryWay) -> Way {
    match way {
        EntryWay::WorkedIn => Way::WorkedIn,
        EntryWay::OnTop => Way::OnTop,
        EntryWay::OnTopOverNitrogen => Way::OnTopOverNitrogen,
        EntryWay::CompostedFirst => Way::CompostedFirst,
        EntryWay::Path => Way::Path,
        EntryWay::Ring => Way::Ring,
    }
}
