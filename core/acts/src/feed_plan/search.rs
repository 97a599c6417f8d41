//! The smallest doses that keep the chance: feeds are put together, made fewer, moved and made smaller, until no feed
//! can be left out and none made a step smaller.

use super::bounds::Bounds;
use super::trial::{Trial, Tried};
use crate::answer::{LEAST_FEED_KG_HA, NO_DIFFERENCE_KG_HA};
use crate::error::ActError;

/// Doses found, in steps, one a day that may be fed.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Found {
    pub doses: Vec<u32>,
    /// They keep the chance; else they are the most that helps within the limits.
    pub kept: bool,
    /// Where they do not: the doses before what is of no use was taken off.
    pub fullest: Vec<u32>,
}

impl Found {
    fn kept(doses: Vec<u32>) -> Self {
        Self { doses, kept: true, fullest: Vec::new() }
    }
}

/// Looks for the smallest doses.
pub(super) fn search(trial: &mut Trial<'_>, bounds: &Bounds) -> Result<Found, ActError> {
    let nothing = vec![0; trial.days().len()];
    if trial.keeps(&nothing)? {
        return Ok(Found::kept(nothing));
    }
    let mut best = single(trial, bounds, &nothing)?;
    let late = as_late_as_may_be(trial, bounds, &nothing)?;
    if trial.keeps(&late)? {
        let late = improved(trial, bounds, late.clone())?;
        if best.as_ref().is_none_or(|best| cost(trial, &late) < cost(trial, best)) {
            best = Some(late);
        }
    }
    if best.is_none() {
        let most = most(trial, bounds, late)?;
        if !trial.keeps(&most)? {
            let doses = trimmed(trial, most.clone())?;
            return Ok(Found { doses, kept: false, fullest: most });
        }
        best = Some(most);
    }
    let doses = improved(trial, bounds, best.unwrap_or(nothing))?;
    Ok(Found::kept(pruned(trial, doses)?))
}

/// Nitrogen, and the walk for each feed as if it were nitrogen.
fn cost(trial: &Trial<'_>, doses: &[u32]) -> f64 {
    let feeds = doses.iter().filter(|steps| **steps > 0).count();
    trial.total_kg_ha(doses) + LEAST_FEED_KG_HA * feeds as f64
}

fn days_of(doses: &[u32]) -> Vec<usize> {
    doses.iter().enumerate().filter(|(_, steps)| **steps > 0).map(|(at, _)| at).collect()
}

fn with(doses: &[u32], at: usize, steps: u32) -> Vec<u32> {
    let mut doses = doses.to_vec();
    if let Some(own) = doses.get_mut(at) {
        *own = steps;
    }
    doses
}

/// The fewest steps from `low` (which does not do) up to `high` (which does) that do.
fn fewest(low: u32, high: u32, mut does: impl FnMut(u32) -> Result<bool, ActError>) -> Result<u32, ActError> {
    let (mut low, mut high) = (low, high);
    while high - low > 1 {
        let middle = low + (high - low) / 2;
        if does(middle)? {
            high = middle;
        } else {
            low = middle;
        }
    }
    Ok(high)
}

/// The most steps of one day, besides the others, that cost no more than so much.
fn affordable(trial: &Trial<'_>, others: &[u32], at: usize, most: f64) -> u32 {
    let left = most - cost(trial, &with(others, at, 1));
    if left < 0.0 {
        return 0;
    }
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a small number of steps")]
    let more = (left / trial.total_kg_ha(&[1])).floor().min(f64::from(u16::MAX)) as u32;
    1 + more
}

/// The smallest dose of one day, besides the others, that keeps the chance and costs no more than so much; nothing where
/// none does.
fn smallest(
    trial: &mut Trial<'_>,
    bounds: &Bounds,
    others: &[u32],
    at: usize,
    most: f64,
) -> Result<Option<Vec<u32>>, ActError> {
    let others = with(others, at, 0);
    if trial.keeps(&others)? {
        return Ok(Some(others));
    }
    let most = bounds.most_on(&others, at).min(affordable(trial, &others, at, most));
    if most == 0 || !trial.keeps(&with(&others, at, most))? {
        return Ok(None);
    }
    let steps = fewest(0, most, |steps| trial.keeps(&with(&others, at, steps)))?;
    Ok(Some(with(&others, at, steps)))
}

/// The best single feed, on a day before hunger is due.
fn single(trial: &mut Trial<'_>, bounds: &Bounds, nothing: &[u32]) -> Result<Option<Vec<u32>>, ActError> {
    let due = trial.with(nothing)?.due;
    let mut best: Option<Vec<u32>> = None;
    for at in 0..trial.days().len() {
        if f64::from(trial.days()[at]) >= due {
            break;
        }
        let most = best.as_ref().map_or(f64::INFINITY, |best| cost(trial, best));
        if let Some(doses) = smallest(trial, bounds, nothing, at, most)?
            && best.as_ref().is_none_or(|best| cost(trial, &doses) <= cost(trial, best))
        {
            best = Some(doses);
        }
    }
    Ok(best)
}

/// Feeds as late as they may be: before each day on which hunger is due, the dose that lasts until the next day that
/// may be fed. Stops where nothing within the limits puts hunger off any more.
fn as_late_as_may_be(trial: &mut Trial<'_>, bounds: &Bounds, nothing: &[u32]) -> Result<Vec<u32>, ActError> {
    let mut doses = nothing.to_vec();
    'due: loop {
        let due = trial.with(&doses)?.due;
        if due.is_infinite() {
            return Ok(doses);
        }
        let before = (0..doses.len()).rev().filter(|at| f64::from(trial.days()[*at]) < due);
        for at in before.collect::<Vec<_>>() {
            let (have, most) = (doses[at], bounds.most_on(&doses, at));
            let reached = trial.with(&with(&doses, at, most))?.due;
            if most == have || reached <= due {
                continue;
            }
            let next = trial.days().get(at + 1).map_or(f64::INFINITY, |day| f64::from(*day) + 1.0);
            // The next day may be no later than hunger is due now: then any delay will do.
            let goal = f64::min(reached, f64::max(next, due + 1.0));
            let steps = fewest(have, most, |steps| Ok(trial.with(&with(&doses, at, steps))?.due >= goal))?;
            doses = with(&doses, at, steps);
            continue 'due;
        }
        return Ok(doses);
    }
}

/// Takes every change that costs less, until none does: a feed left out, put together with another, moved to a day
/// beside it, or made smaller.
fn improved(trial: &mut Trial<'_>, bounds: &Bounds, doses: Vec<u32>) -> Result<Vec<u32>, ActError> {
    let mut doses = doses;
    'change: loop {
        let now = cost(trial, &doses);
        let fed = days_of(&doses);
        for from in &fed {
            let without = with(&doses, *from, 0);
            let beside = [from.checked_sub(1), Some(from + 1).filter(|to| *to < doses.len())];
            let onto = fed.iter().copied().chain(beside.into_iter().flatten());
            // Its own day last: the same feed, smaller.
            for to in onto.filter(|to| to != from).chain([*from]).collect::<Vec<_>>() {
                if let Some(found) = smallest(trial, bounds, &without, to, now)?
                    && cost(trial, &found) < now
                {
                    doses = found;
                    continue 'change;
                }
            }
        }
        return Ok(doses);
    }
}

/// Leaves out what can be left out and takes off every step that can be taken off, so that neither can be any more,
/// whatever the order.
fn pruned(trial: &mut Trial<'_>, doses: Vec<u32>) -> Result<Vec<u32>, ActError> {
    let mut doses = doses;
    'change: loop {
        for at in days_of(&doses) {
            for fewer in [0, doses[at] - 1] {
                let less = with(&doses, at, fewer);
                if trial.keeps(&less)? {
                    doses = less;
                    continue 'change;
                }
            }
        }
        return Ok(doses);
    }
}

/// The doses within the limits that come nearest, where none keeps the chance: from nothing, and from the doses that
/// were put off as late as may be, each time the fullest dose on the day on which it does most.
fn most(trial: &mut Trial<'_>, bounds: &Bounds, late: Vec<u32>) -> Result<Vec<u32>, ActError> {
    let nothing = vec![0; late.len()];
    let from_nothing = filled(trial, bounds, nothing)?;
    let from_late = filled(trial, bounds, late)?;
    Ok(if nearer(trial, &from_late, &from_nothing)? { from_late } else { from_nothing })
}

fn filled(trial: &mut Trial<'_>, bounds: &Bounds, doses: Vec<u32>) -> Result<Vec<u32>, ActError> {
    let mut doses = doses;
    loop {
        let mut best: Option<Vec<u32>> = None;
        for at in 0..doses.len() {
            let fuller = with(&doses, at, bounds.most_on(&doses, at));
            if fuller != doses && nearer(trial, &fuller, best.as_ref().unwrap_or(&doses))? {
                best = Some(fuller);
            }
        }
        match best {
            Some(fuller) => doses = fuller,
            None => return Ok(doses),
        }
    }
}

/// Whether doses leave fewer runs hungry than others, or as many with more nitrogen in the crop: a walk is worth as
/// much as the smallest feed.
fn nearer(trial: &mut Trial<'_>, doses: &[u32], others: &[u32]) -> Result<bool, ActError> {
    let worth =
        |tried: Tried, doses: &[u32]| tried.crop_kg_ha - LEAST_FEED_KG_HA * days_of(doses).len() as f64;
    let (one, other) = (trial.with(doses)?, trial.with(others)?);
    Ok(one.chance < other.chance || (one.chance <= other.chance && worth(one, doses) > worth(other, others)))
}

/// Takes off what neither lowers the chance nor feeds the crop.
fn trimmed(trial: &mut Trial<'_>, doses: Vec<u32>) -> Result<Vec<u32>, ActError> {
    let whole = trial.with(&doses)?;
    let mut doses = doses;
    for at in days_of(&doses).into_iter().rev() {
        let have = doses[at];
        let mut as_good = |steps: u32| -> Result<bool, ActError> {
            let tried = trial.with(&with(&doses, at, steps))?;
            Ok(tried.chance <= whole.chance && tried.crop_kg_ha >= whole.crop_kg_ha - NO_DIFFERENCE_KG_HA)
        };
        let steps = if as_good(0)? { 0 } else { fewest(0, have, as_good)? };
        doses = with(&doses, at, steps);
    }
    Ok(doses)
}
