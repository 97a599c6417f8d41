//! What working the soil on a day would change, told before it is written down.

use chrono::NaiveDate;
use kerfbook_ledger::{Book, EntryId};
use kerfbook_science::feed;
use kerfbook_science::nitrogen::{Event, Input, Sample, Series, chance};
use kerfbook_science::units::{Length, Share};

use crate::calendar::Calendar;
use crate::compare::{self, SEASON_DAYS, Three};
use crate::error::ActError;
use crate::forecast::{first_hungry, nitrogen_in};
use crate::laid::LayerIs;
use crate::season::{Season, season};
use crate::treatment;
use crate::{book_place, site};

/// Days after which the nitrogen held is told: the first weeks decide.
const TOLD_DAYS: u32 = 60;
/// How closely a feed is worked out, kg N/ha: no spreader is better (common practice).
const FEED_STEP_KG_HA: f64 = 1.0;

/// Hunger of the crops ahead.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Hunger {
    /// First hungry day, from the first of the calendar.
    pub day: Three,
    /// Share of the runs that go hungry.
    pub chance: f64,
}

/// What digging in would change. All differences are of the same runs.
#[derive(Debug, Clone, PartialEq)]
pub struct DugIn {
    /// Which date is day 0 of the days told.
    pub calendar: Calendar,
    /// Putting-downs and crops whose leavings lie on the soil: what would be mixed in.
    pub reaches: Vec<EntryId>,
    /// Part of them that would be.
    pub share: Share,
    /// Nothing grows on such a place: it would be written down with a flag.
    pub nothing_grows: bool,
    /// Nitrogen that the crops ahead would get less until the horizon, kg/ha; none where no crop is ahead.
    pub lost: Option<Three>,
    /// Hunger of the crops ahead without digging in.
    pub hungry_without: Option<Hunger>,
    /// And with it.
    pub hungry_with: Option<Hunger>,
    /// Nitrogen held more after 60 days, kg/ha.
    pub tied_more: Three,
    /// Mineral nitrogen less after 60 days, kg/ha.
    pub mineral_less: Three,
    /// What the run at the medians would have to be fed that day so that its crops are no hungrier than without, kg/ha.
    pub feed: Option<Feed>,
}

/// A feed that would make up for it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Feed {
    /// kg N/ha.
    pub nitrogen_kg_ha: f64,
    /// Not even the most that a place takes at once would do.
    pub beyond_limit: bool,
}

/// Works out what working the soil of a place to a depth on a day would change in the year from then. `part` is the part
/// of the place; all of it where absent.
///
/// # Errors
/// As [`season`], and what the model refuses.
pub fn dig_in(
    book: &Book,
    place: EntryId,
    depth: Length,
    part: Option<Share>,
    on: NaiveDate,
    runs: u32,
    seed: u64,
) -> Result<DugIn, ActError> {
    foreseen(&season(book, place, on, SEASON_DAYS)?, depth, part, runs, seed)
}

/// The same for a season on its day. Before a crop is sown, [`Season::expecting`] says what is to come.
///
/// # Errors
/// What the model refuses.
pub fn foreseen(
    season: &Season,
    depth: Length,
    part: Option<Share>,
    runs: u32,
    seed: u64,
) -> Result<DugIn, ActError> {
    let worked = book_place::working(season.on, depth, part);
    let event = Event::SoilWorked {
        day: season.today,
        share: worked.share.map(Share::fraction),
        depth_mm: worked.share.is_none().then(|| depth.mm()),
    };
    let mut dug = season.input.clone();
    dug.events.push(event);
    dug.events.sort_by_key(|event| (event.day(), matches!(event, Event::SoilWorked { .. })));
    let told = (season.today + TOLD_DAYS).min(season.input.days);
    let last = season.input.days;
    let left = season.left(runs, seed)?;
    let plain = Sample::new(seed, runs);
    let sample = left.as_ref().map_or(&plain, |left| &left.sample);
    let run =
        |input: &Input| compare::run(&Input { readings: Vec::new(), ..input.clone() }, sample, &[told, last]);
    let (without, with) = (run(&season.input)?, run(&dug)?);
    let picked = |values: &[f64]| left.as_ref().map_or_else(|| values.to_vec(), |left| left.pick(values));
    let ahead = season.ahead();
    let less = |a: &[f64], b: &[f64]| Three::of(&picked(&compare::less(a, b)));
    let hunger = |runs| {
        let days = picked(&first_hungry(runs, &ahead));
        Hunger { day: Three::of(&days), chance: chance(&days) }
    };
    let grows = !ahead.is_empty();
    Ok(DugIn {
        calendar: season.calendar,
        reaches: reached(season),
        share: Share::from_fraction(mixed(event)),
        nothing_grows: !site::grows(season.scenario.place.kind),
        lost: grows.then(|| less(&nitrogen_in(&without, &ahead, last), &nitrogen_in(&with, &ahead, last))),
        hungry_without: grows.then(|| hunger(&without)),
        hungry_with: grows.then(|| hunger(&with)),
        tied_more: less(
            compare::series(&with, Series::Tied, told),
            compare::series(&without, Series::Tied, told),
        ),
        mineral_less: less(
            compare::series(&without, Series::Mineral, told),
            compare::series(&with, Series::Mineral, told),
        ),
        feed: if grows { Some(made_up(season, &dug, &ahead)?) } else { None },
    })
}

fn mixed(event: Event) -> f64 {
    match event {
        Event::SoilWorked { share: Some(share), .. } => share,
        Event::SoilWorked { depth_mm: Some(mm), .. } => (mm / 100.0).min(1.0),
        Event::SoilWorked { .. } | Event::LayerLifted { .. } => 1.0,
    }
}

/// What lies on the soil that morning, as far as it was not lifted or dug in before.
fn reached(season: &Season) -> Vec<EntryId> {
    let mut reached = Vec::new();
    for (layer, (laying, put)) in season.layers.iter().zip(&season.input.put_down).enumerate() {
        let gone = |event: &Event| {
            let since = (put.day + 1..season.today).contains(&event.day());
            since
                && match *event {
                    Event::SoilWorked { .. } => mixed(*event) >= 1.0,
                    Event::LayerLifted { layer: lifted, share, .. } => lifted == layer && share >= 1.0,
                }
        };
        let lies = put.way != kerfbook_science::nitrogen::LayerWay::WorkedIn
            && put.day < season.today
            && !matches!(laying.is, LayerIs::With(_))
            && !season.input.events.iter().any(gone);
        if lies && !reached.contains(&laying.entry) {
            reached.push(laying.entry);
        }
    }
    reached
}

/// The smallest feed of that day that gives the crops ahead in the run at the medians what they had without.
fn made_up(season: &Season, dug: &Input, ahead: &[usize]) -> Result<Feed, ActError> {
    let crop = |input: &Input, feed_kg_ha: f64| -> Result<f64, ActError> {
        let mut input = Input { readings: Vec::new(), ..input.clone() };
        if feed_kg_ha > 0.0 {
            input.gifts.push(treatment::mixed_in(feed_kg_ha, season.today));
        }
        let runs = compare::run(&input, &Sample::median(), &[])?;
        Ok(nitrogen_in(&runs, ahead, input.days).first().copied().unwrap_or(0.0))
    };
    // Less than a spreader can tell apart is nothing.
    let before = crop(&season.input, 0.0)? - crate::answer::NO_DIFFERENCE_KG_HA;
    let most = feed::PRACTICAL_LIMIT.value.kg_ha();
    if crop(dug, 0.0)? >= before {
        return Ok(Feed { nitrogen_kg_ha: 0.0, beyond_limit: false });
    }
    if crop(dug, most)? < before {
        return Ok(Feed { nitrogen_kg_ha: most, beyond_limit: true });
    }
    let (mut low, mut high) = (0.0, most);
    while high - low > FEED_STEP_KG_HA {
        let middle = 0.5 * (low + high);
        if crop(dug, middle)? >= before { high = middle } else { low = middle }
    }
    Ok(Feed { nitrogen_kg_ha: high, beyond_limit: false })
}
