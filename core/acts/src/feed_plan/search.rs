//! The smallest doses that keep the chance: feeds are put together, made fewer, moved and made smaller, until no feed
//! can be left out and none made a step smaller.

use super::bounds::Bounds;
use super::trial::Trial;
use crate::answer::{LEAST_FEED_KG_HA, NO_DIFFERENCE_KG_HA};
use crate::error::ActError;

/// Doses found, in steps, one a day that may be fed.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Found {
    pub doses: Vec<u32>,
    /// They keep the chance; else they are the most that helps within the limits.
    pub kept: bool,
}

/// Looks for the smallest doses.
pub(super) fn search(trial: &mut Trial<'_>, bounds: &Bounds) -> Result<Found, ActError> {
    let nothing = vec![0; trial.days().len()];
    if trial.keeps(&nothing)? {
        return Ok(Found { doses: nothing, kept: true });
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
            return Ok(Found { doses: trimmed(trial, most)?, kept: false });
        }
        best = Some(most);
    }
    let doses = improved(trial, bounds, best.unwrap_or(nothing))?;
    Ok(Found { doses: pruned(trial, doses)?, kept: true })
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

/// The smallest dose of one day, besides the others, that keeps the chance; nothing where none does.
fn smallest(
    trial: &mut Trial<'_>,
    bounds: &Bounds,
    others: &[u32],
    at: usize,
) -> Result<Option<Vec<u32>>, ActError> {
    let others = with(others, at, 0);
    if trial.keeps(&others)? {
        return Ok(Some(others));
    }
    let most = bounds.most_on(&others, at);
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
        if let Some(doses) = smallest(trial, bounds, nothing, at)?
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
                if let Some(found) = smallest(trial, bounds, &without, to)?
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

/// The doses within the limits that come nearest, where none keeps the chance: spread over all days, as early and as
/// late as may be; the lowest chance, then the most nitrogen in the crop.
fn most(trial: &mut Trial<'_>, bounds: &Bounds, late: Vec<u32>) -> Result<Vec<u32>, ActError> {
    let days = late.len();
    let nothing = vec![0; days];
    let fill = |mut doses: Vec<u32>, order: &mut dyn Iterator<Item = usize>| {
        for at in order {
            let most = bounds.most_on(&doses, at);
            doses = with(&doses, at, most);
        }
        doses
    };
    let mut even = nothing.clone();
    loop {
        let before = even.clone();
        for at in 0..days {
            let more = with(&even, at, even[at] + 1);
            if bounds.broken(&more).is_none() {
                even = more;
            }
        }
        if before == even {
            break;
        }
    }
    let filled = fill(late.clone(), &mut (0..days));
    let early = fill(nothing, &mut (0..days));
    let mut best: Option<(Vec<u32>, super::trial::Tried)> = None;
    for doses in [late, filled, early, even] {
        let tried = trial.with(&doses)?;
        let better = |best: &super::trial::Tried| {
            tried.chance < best.chance
                || (tried.chance <= best.chance && tried.crop_kg_ha > best.crop_kg_ha + NO_DIFFERENCE_KG_HA)
        };
        if best.as_ref().is_none_or(|(_, best)| better(best)) {
            best = Some((doses, tried));
        }
    }
    Ok(best.map(|(doses, _)| doses).unwrap_or_default())
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
