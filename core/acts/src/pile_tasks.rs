//! What a heap asks for by its own log: reading its heat, turning it, water, and keeping away.

use chrono::{Days, NaiveDate};
use kerfbook_ledger::kind::TaskKind;
use kerfbook_ledger::{EntryId, PileView};
use kerfbook_science::compost::fire::FireLevel;
use kerfbook_science::compost::heat_log::Log;
use kerfbook_science::compost::maturity::CURES_UNDER_C;
use kerfbook_science::compost::window::{self, Property};
use kerfbook_science::source::{Source, Sourced};
use kerfbook_science::units::{Share, Temperature};

use crate::heat::Heat;
use crate::pile::{judged, log};
use crate::today::{Item, Reason};

/// A heap that is to meet a rule, is new or runs hot is read every day: a day that nobody read counts for nothing.
pub const READ_CLOSELY_DAYS: Sourced<u64> = Sourced::new(1, Source::COMMON_PRACTICE);
/// One that works under no rule.
pub const READ_LOOSELY_DAYS: Sourced<u64> = Sourced::new(7, Source::COMMON_PRACTICE);

/// What a heap that stands asks for. `closed` says whether a person ticked off such a task about it since a day.
pub(crate) fn items(pile: &PileView, closed: &dyn Fn(TaskKind, NaiveDate) -> bool) -> Vec<Item> {
    let log = log(pile);
    let fire = log.fire().last().copied();
    let mut asked = Vec::new();
    let mut ask = |what, reason, since: NaiveDate, due| {
        if !closed(what, since) {
            asked.push(of_pile(pile.id, what, reason, due));
        }
    };
    if let Some((day, FireLevel::Stop)) = fire {
        ask(TaskKind::Other, Reason::PileBurns { read: day }, day, day);
    }
    let heat = judged(pile);
    let built = pile.date.naive();
    let last = log.now();
    if let Some((reason, from, days)) = reading(last, fire, heat.as_ref(), built) {
        ask(TaskKind::Test, reason, from, after(from, days));
    }
    // What may smoulder is not opened.
    if fire.is_none_or(|(_, level)| level < FireLevel::Red) {
        if let Some((reason, since, due)) = turning(&log, heat.as_ref(), built) {
            ask(TaskKind::Air, reason, since, due);
        }
        if let Some((moisture, least, read)) = dry(pile) {
            ask(TaskKind::Water, Reason::PileDry { moisture, least }, read, read);
        }
    }
    asked
}

/// Whether its heat is to be read: why, since when, and how many days after that.
fn reading(
    last: Option<(NaiveDate, Temperature)>,
    fire: Option<(NaiveDate, FireLevel)>,
    heat: Option<&Heat>,
    built: NaiveDate,
) -> Option<(Reason, NaiveDate, u64)> {
    let Some((day, hottest)) = last else {
        return Some((Reason::HeatUnread { since: built }, built, READ_CLOSELY_DAYS.value));
    };
    if fire.is_some_and(|(_, level)| level > FireLevel::Green) {
        return Some((Reason::PileHot { read: day, heat: hottest }, day, READ_CLOSELY_DAYS.value));
    }
    if let Some(heat) = heat.filter(|heat| !heat.judged.verdict.is_reached()) {
        return Some((Reason::RuleUnmet { rule: heat.rule.id }, day, READ_CLOSELY_DAYS.value));
    }
    let works = hottest.c() >= CURES_UNDER_C.value;
    works.then_some((Reason::HeatUnread { since: day }, day, READ_LOOSELY_DAYS.value))
}

/// Whether it is to be turned: why, since when, and by when.
fn turning(log: &Log, heat: Option<&Heat>, built: NaiveDate) -> Option<(Reason, NaiveDate, NaiveDate)> {
    let (day, hottest) = log.now()?;
    let turned = log.turnings.iter().max().copied();
    if turned.is_some_and(|turned| turned >= day) {
        return None;
    }
    if let Some(trigger) = log.triggers().first().copied() {
        return Some((Reason::TurnBecause { trigger }, day, day));
    }
    let heat = heat.filter(|heat| heat.rule.turnings > 0 && hottest >= heat.rule.at_least)?;
    let worst = heat.judged.worst().filter(|_| !heat.judged.verdict.is_reached())?;
    if worst.turnings_needed == 0 {
        return None;
    }
    // Its turnings spread evenly over its days.
    let every = u64::from(heat.rule.days() / heat.rule.turnings.max(1)).max(1);
    let hot = worst.window.map_or(built, |(first, _)| first);
    let since = turned.map_or(hot, |turned| turned.max(hot));
    let reason = Reason::RuleTurnings { rule: heat.rule.id, still: worst.turnings_needed };
    Some((reason, since, after(since, every)))
}

/// The last moisture that was read, where it is under every window and nobody turned water in since.
fn dry(pile: &PileView) -> Option<(Share, Share, NaiveDate)> {
    let newest = pile.moistures.last()?;
    let (moisture, read) =
        (Share::from_percent(f64::from(newest.body.moisture_bp) / 100.0), newest.date.naive());
    let windows = window::of(Property::Moisture).filter(|window| !window.animal_matter);
    let least = windows.filter_map(|window| window.acceptable.low).reduce(f64::min)?;
    let watered = pile
        .turnings
        .iter()
        .any(|turned| turned.date.naive() >= read && turned.body.water_ml.is_some_and(|water| water > 0));
    (moisture.percent() < least && !watered).then(|| (moisture, Share::from_percent(least), read))
}

fn of_pile(pile: EntryId, what: TaskKind, reason: Reason, due: NaiveDate) -> Item {
    Item {
        place: None,
        batch: None,
        pile: Some(pile),
        what,
        reason,
        due: Some(due),
        who: None,
        task: None,
        rests_on: vec![pile],
    }
}

fn after(date: NaiveDate, days: u64) -> NaiveDate {
    date.checked_add_days(Days::new(days)).unwrap_or(date)
}
