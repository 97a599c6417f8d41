//! Putting part of a batch down on a place.

use chrono::NaiveDate;
use kerfbook_ledger::kind::{
    Answer, KnownBy as EntryKnownBy, PlaceKind, PutDown as EntryPutDown, Way as EntryWay,
};
use kerfbook_ledger::{BatchView, Book, EntryId, TreeRun};
use kerfbook_science::caution::{self, Act, Caution, Facts};
use kerfbook_science::units::{Area, Length};

use crate::error::ActError;
use crate::figure::{grams, millilitres, whole, whole_u32};
use crate::in_words::InWords;
use crate::intake;
use crate::load::{Carried, Counted, Load};
use crate::moment::Moment;
use crate::place_scenario;
use crate::scenario::{Amount, Containers, KnownBy, Place, Way};
use crate::take_in_load::first;
use crate::tree_rows;
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
/// A place or batch that is not in the book, a batch that came later, an amount of nothing, or a book that cannot be
/// written.
pub fn put_down(
    book: &mut Book,
    new: &NewPutDown,
    containers: &Containers,
    moment: Moment,
) -> Result<EntryId, ActError> {
    on_trees(book, new, None, containers, moment)
}

/// Puts a batch down along a run of trees: "row 12, tree 9 to row 14, tree 3"; without a run, on the whole place.
///
/// # Errors
/// As [`put_down`]; a place without rows of trees, a tree that it does not have.
pub fn on_trees(
    book: &mut Book,
    new: &NewPutDown,
    run: Option<&TreeRun>,
    containers: &Containers,
    moment: Moment,
) -> Result<EntryId, ActError> {
    let place = book.place(new.place)?.ok_or(ActError::NotThere { what: "place" })?;
    let batch = book.batch(new.batch)?.ok_or(ActError::NotThere { what: "batch" })?;
    let trees = place.measures.last().and_then(|last| last.trees.as_ref());
    let gap_mm = trees.and_then(|trees| trees.gap_mm);
    let covered_mm2 = match run {
        Some(run) => Some(whole(tree_rows::ground(&place, run)?.0.m2() * 1e6)),
        None => None,
    };
    // The load is spread over what it covers.
    let mut ground = place_scenario::place_of(&place);
    ground.area = covered_mm2.map_or(ground.area, |mm2| Area::from_m2(mm2 as f64 / 1e6));
    if batch.date.naive() > moment.date {
        return Err(ActError::Before { what: "batch", first: batch.date.naive() });
    }
    let load = load_of(new, &ground, &batch, containers, moment.date)?;
    let counted = Counted::of(load.loose, containers).told_in();
    let depth =
        if new.way == Way::WorkedIn { Length::from_cm(way::WORKED_IN_DEPTH_CM.value) } else { load.depth };
    let whole = whole_containers(counted);
    let by_hand = match new.amount {
        Amount::Laid { by, count } => Some((by, count)),
        _ => None,
    };
    let body = EntryPutDown {
        wet_g: Some(grams(load.wet)),
        dry_g: Some(grams(load.dry)),
        depth_mm: Some(whole_u32(depth.mm())),
        containers: Some(whole.map_or(1, |(_, count)| count)),
        container: whole.map(|(carried, _)| carried.into()),
        container_ml: Some(millilitres(whole.map_or(load.loose, |(carried, _)| carried.volume(containers)))),
        over: new.over,
        gap_mm: (new.way == Way::Ring).then(|| gap_mm.unwrap_or(whole_u32(way::RING_GAP_CM.value * 10.0))),
        area_mm2: covered_mm2,
        trees: run.cloned(),
        known_by: Some(entry_known_by(new.amount)),
        laid_by: by_hand.map(|(by, _)| by.kept()),
        laid_x10: by_hand.map(|(_, count)| whole_u32(count * 10.0)),
        ..EntryPutDown::of(new.batch, entry_way(new.way))
    };
    first(&book.append(&[moment.draft(body)?.about(new.place)], &[], moment.wall_ms)?)
}

/// What to mind before a batch is put down there: asked first, so that nothing sour, poisonous or too deep goes out.
///
/// # Errors
/// As [`put_down`]; nothing is written.
pub fn cautions(
    book: &Book,
    new: &NewPutDown,
    run: Option<&TreeRun>,
    containers: &Containers,
    on: NaiveDate,
) -> Result<Vec<&'static Caution>, ActError> {
    let place = book.place(new.place)?.ok_or(ActError::NotThere { what: "place" })?;
    let batch = book.batch(new.batch)?.ok_or(ActError::NotThere { what: "batch" })?;
    let mut ground = place_scenario::place_of(&place);
    if let Some(run) = run {
        ground.area = tree_rows::ground(&place, run)?.0;
    }
    let load = load_of(new, &ground, &batch, containers, on)?;
    let cut = batch.cut.map(|cut| (on - cut.naive()).num_days());
    let facts = Facts {
        material: Some(load.material),
        particle: Some(load.particle),
        sour: batch.sour == Some(Answer::Yes),
        fresh: cut.is_some_and(|days| days < intake::FRESH_DAYS.value),
        way: Some(new.way),
        depth: (new.way != Way::WorkedIn).then_some(load.depth),
        woody_crop: place.place_kind == PlaceKind::Rings,
        ..Facts::default()
    };
    Ok(caution::cautions(Act::PuttingDown, &facts))
}

/// A count that is whole but for rounding. Entries keep whole containers: any other amount is kept as one volume, so
/// that balances stay true.
fn whole_containers((carried, count): (Carried, f64)) -> Option<(Carried, u32)> {
    let whole = whole_u32(count);
    (whole > 0 && (count - f64::from(whole)).abs() < COUNT_ROUNDING).then_some((carried, whole))
}

/// A part of a container that nobody counts.
const COUNT_ROUNDING: f64 = 0.01;

fn load_of(
    new: &NewPutDown,
    place: &Place,
    batch: &BatchView,
    containers: &Containers,
    on: NaiveDate,
) -> Result<Load, ActError> {
    let described = place_scenario::put_down_of(batch, new.way, new.amount, on);
    Load::of(&described, place, containers, &mut Vec::new())
}

/// What an amount rests on, as entries keep it.
fn entry_known_by(amount: Amount) -> EntryKnownBy {
    match amount {
        Amount::DryPerArea(_) => EntryKnownBy::Dry,
        Amount::Wet(_) => EntryKnownBy::Mass,
        Amount::Loose(_) | Amount::Barrows(_) | Amount::Trailers(_) => EntryKnownBy::Volume,
        Amount::Depth(_) | Amount::SettledDepth(_) | Amount::Laid { .. } => EntryKnownBy::Depth,
    }
}

/// What a kept amount rests on, as the runs take it.
pub(crate) fn known_by(kept: EntryKnownBy) -> KnownBy {
    match kept {
        EntryKnownBy::Mass => KnownBy::Mass,
        EntryKnownBy::Volume => KnownBy::Volume,
        EntryKnownBy::Depth => KnownBy::Depth,
        EntryKnownBy::Dry => KnownBy::Dry,
    }
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
pub fn way_of(way: EntryWay) -> Way {
    match way {
        EntryWay::WorkedIn => Way::WorkedIn,
        EntryWay::OnTop => Way::OnTop,
        EntryWay::OnTopOverNitrogen => Way::OnTopOverNitrogen,
        EntryWay::CompostedFirst => Way::CompostedFirst,
        EntryWay::Path => Way::Path,
        EntryWay::Ring => Way::Ring,
    }
}
