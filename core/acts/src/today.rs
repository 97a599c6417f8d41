//! What needs doing on a day, per place and batch, with the reason and the date: rules over the book, and orders that
//! people gave. What is done falls off.
//!
//! Every rule here is common practice unless a source stands beside it; each is a named constant.

use std::collections::BTreeSet;
use std::sync::Arc;

use chrono::{Days, Months, NaiveDate};
use kerfbook_ledger::kind::{Answer, Outcome, PlaceKind, TaskClosed, TaskKind, TaskSet, Way, WeatherRead};
use kerfbook_ledger::projection::batch::Origin;
use kerfbook_ledger::projection::place::Layer;
use kerfbook_ledger::projection::task::TaskView;
use kerfbook_ledger::projection::view::Said;
use kerfbook_ledger::{BatchView, Body, Book, Date, EntryId, HoldingView, PileView, PlaceView, Text};
use kerfbook_science::compost::phase::Trigger;
use kerfbook_science::crop::{self, Life};
use kerfbook_science::feed;
use kerfbook_science::lookup::Match;
use kerfbook_science::material::Kind as Sort;
use kerfbook_science::source::{Source, Sourced};
use kerfbook_science::units::{Length, Mass, Share, Temperature};

use crate::error::ActError;
use crate::feed_plan::Terms;
use crate::measure::Figures;
use crate::moment::Moment;
use crate::outlook::outlooks;
use crate::pile_tasks;
use crate::storage::{self, Follows, Sourness};
use crate::way;

/// A look, a feed or a decision this many days before its day counts for it.
pub const EARLY_DAYS: Sourced<u64> = Sourced::new(7, Source::COMMON_PRACTICE);
/// Months from one look at the gap of trunks to the next.
pub const GAP_MONTHS: Sourced<u32> = Sourced::new(6, Source::COMMON_PRACTICE);
/// Soil nitrate is tested this many days before the early end (P10) of the hungry day: a week before the look, so that
/// the paper is back by then.
pub const TEST_BEFORE_HUNGRY_DAYS: Sourced<u64> = Sourced::new(21, Source::COMMON_PRACTICE);
/// Days of weather that say whether it is dry.
pub const DRY_SPELL_DAYS: Sourced<u64> = Sourced::new(7, Source::COMMON_PRACTICE);
/// What a crop wants in that time where no evaporation is known: an inch a week.
pub const WEEK_OF_WATER: Sourced<Length> = Sourced::new(Length::from_mm(25.0), Source::COMMON_PRACTICE);
/// Less than this part of what it wants is dry.
pub const DRY_SHARE: Sourced<f64> = Sourced::new(0.5, Source::COMMON_PRACTICE);
/// Where a crop wants less than this in that time, nobody waters.
pub const LEAST_WANTED: Sourced<Length> = Sourced::new(Length::from_mm(10.0), Source::COMMON_PRACTICE);
/// A batch drier than this does not go sour, 0.01 %.
const DRY_BATCH_BP: u32 = 2_000;

/// Something to do.
#[derive(Debug, Clone, PartialEq)]
pub struct Item {
    /// The place it is about.
    pub place: Option<EntryId>,
    /// The batch it is about.
    pub batch: Option<EntryId>,
    /// The pile it is about.
    pub pile: Option<EntryId>,
    /// What is to be done.
    pub what: TaskKind,
    /// Why.
    pub reason: Reason,
    /// By when; an order may have no day.
    pub due: Option<NaiveDate>,
    /// Who was asked.
    pub who: Option<EntryId>,
    /// The order, where a person gave one; ticked off by its closing.
    pub task: Option<EntryId>,
    /// Entries that it rests on.
    pub rests_on: Vec<EntryId>,
}

impl Item {
    /// Its day is past.
    pub fn overdue(&self, on: NaiveDate) -> bool {
        self.due.is_some_and(|due| due < on)
    }

    /// What it is about, as an order names it.
    pub fn about(&self) -> Option<EntryId> {
        self.place.or(self.batch).or(self.pile)
    }
}

/// Why something is to be done.
#[derive(Debug, Clone, PartialEq)]
pub enum Reason {
    /// A person said so; the order's own text says more.
    Ordered,
    /// The frozen forecast named this day; the early end of hunger where there is one.
    Forecast {
        /// Early end (P10) of the hungry day.
        hungry: Option<NaiveDate>,
    },
    /// The feed plan gives it on this day.
    Planned {
        /// Name of the feed in the table.
        source: String,
        /// Nitrogen on the whole place.
        nitrogen: Mass,
        /// Product or liquid on the whole place.
        amount: feed::Amount,
    },
    /// The layer has gone down.
    Settled {
        /// What lies there, where known.
        lies: Option<Length>,
        /// What was wanted, where known.
        wanted: Option<Length>,
    },
    /// Nobody looked at the trunks since.
    GapUnseen {
        /// Since when.
        since: NaiveDate,
    },
    /// The gap was found closed and was not mended.
    GapClosed {
        /// What was found.
        gap: Length,
        /// What is wanted.
        wanted: Length,
    },
    /// Emitters were found blocked and were not mended.
    EmittersBlocked {
        /// How many.
        count: u32,
    },
    /// Little rain and little watering.
    Dry {
        /// In so many days.
        days: u64,
        /// Rain and water given in that time.
        came: Length,
        /// What a crop wants in it.
        wanted: Length,
    },
    /// Nobody knows how much nitrogen a lifted layer still draws.
    DrawUnknown {
        /// Where it lay.
        lifted_from: Option<EntryId>,
    },
    /// A soil test now tells whether hunger comes.
    BeforeHunger {
        /// Early end (P10) of the hungry day.
        hungry: NaiveDate,
    },
    /// The heap has lain and may have gone sour: smell it before it is spread.
    HeapUnsmelled {
        /// Since when.
        since: NaiveDate,
    },
    /// A mulch lies where the bed will be prepared: dig it in, lift it, or leave it and plant through it.
    MulchBeforePreparation {
        /// End of the crop.
        ends: NaiveDate,
    },
    /// The heap is sour.
    Sour {
        /// It may be fit from this day.
        from: NaiveDate,
        /// If the smell stays, wait until this day.
        until: NaiveDate,
    },
    /// A pile works, and nobody read its heat since.
    HeatUnread {
        /// Since when.
        since: NaiveDate,
    },
    /// A pile was read so hot that it is watched.
    PileHot {
        /// On which day.
        read: NaiveDate,
        /// How hot.
        heat: Temperature,
    },
    /// A pile smokes or is hotter than any should be.
    PileBurns {
        /// On which day that was read.
        read: NaiveDate,
    },
    /// A pile is to meet a rule and has not yet.
    RuleUnmet {
        /// The rule.
        rule: &'static str,
    },
    /// The rule of a pile wants more turnings.
    RuleTurnings {
        /// The rule.
        rule: &'static str,
        /// How many more.
        still: u32,
    },
    /// The heat of a pile calls for turning.
    TurnBecause {
        /// How.
        trigger: Trigger,
    },
    /// A pile is too dry to work.
    PileDry {
        /// As it was read.
        moisture: Share,
        /// Under this no window goes.
        least: Share,
    },
}

/// What is foretold of a place beyond what the book holds.
#[derive(Debug, Clone, PartialEq)]
pub struct Outlook {
    /// The place.
    pub place: EntryId,
    /// When the layer has gone down so far that it wants more.
    pub top_up: Option<TopUp>,
    /// Feeds of the plan.
    pub feeds: Vec<DueFeed>,
    /// Early end (P10) of the hungry day by a later forecast than the frozen one.
    pub hungry: Option<NaiveDate>,
}

/// A layer that wants more.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TopUp {
    /// By when.
    pub on: NaiveDate,
    /// What lies there, where known.
    pub lies: Option<Length>,
    /// What was wanted, where known.
    pub wanted: Option<Length>,
}

/// A feed of the plan.
#[derive(Debug, Clone, PartialEq)]
pub struct DueFeed {
    /// When.
    pub on: NaiveDate,
    /// Name of the feed in the table.
    pub source: String,
    /// Nitrogen on the whole place.
    pub nitrogen: Mass,
    /// Product or liquid on the whole place.
    pub amount: feed::Amount,
}

/// What needs doing on a day or in the days ahead of it, with what is foretold of every place: its layer, its hunger, and
/// feeds by the terms.
///
/// # Errors
/// As [`today`]; a source or rules that the tables do not know; what the model refuses.
pub fn today_of(book: &Book, on: NaiveDate, ahead_days: u64, terms: &Terms) -> Result<Vec<Item>, ActError> {
    today(book, &outlooks(book, on, terms)?, on, ahead_days)
}

/// What needs doing on a day or in the days ahead of it, by what the book and outlooks say: overdue first, then by day, orders without a day last; within
/// a day by kind, then by place and batch. Entries of later days are not looked at.
///
/// # Errors
/// A book that cannot be read.
pub fn today(
    book: &Book,
    outlooks: &[Outlook],
    on: NaiveDate,
    ahead_days: u64,
) -> Result<Vec<Item>, ActError> {
    standing(book, outlooks, on, ahead_days).map(|standing| standing.items)
}

/// What needs doing, and what there is to do it with.
#[derive(Debug, Clone, PartialEq)]
pub struct Standing {
    /// What needs doing, as [`today`] has it.
    pub items: Vec<Item>,
    /// Places that are open.
    pub places: usize,
    /// Batches of which something is left.
    pub batches: usize,
}

/// What needs doing with what there is, from one reading of the book.
///
/// # Errors
/// A book that cannot be read.
pub fn standing(
    book: &Book,
    outlooks: &[Outlook],
    on: NaiveDate,
    ahead_days: u64,
) -> Result<Standing, ActError> {
    let known = Known::of(book, on)?;
    let mut items = Vec::new();
    for place in &known.places {
        let outlook = outlooks.iter().find(|outlook| outlook.place == place.id);
        known.look_and_test(book, place, outlook, &mut items)?;
        known.feed(place, outlook, &mut items);
        known.top_up(place, outlook, &mut items);
        known.gap(place, &mut items);
        known.water(place, &mut items);
        known.dig_in(place, &mut items);
    }
    for batch in &known.batches {
        known.heap(batch, &mut items)?;
        known.draw(batch, &mut items);
    }
    for pile in &known.piles {
        items.extend(pile_tasks::items(pile, &|what, since| known.closed_since(what, pile.id, since)));
    }
    known.orders(&mut items);
    let until = on.checked_add_days(Days::new(ahead_days)).unwrap_or(on);
    items.retain(|item| item.due.is_none_or(|due| due <= until));
    items.sort_by_key(|item| {
        (item.due.unwrap_or(NaiveDate::MAX), item.what.code(), item.place, item.batch, item.pile, item.task)
    });
    Ok(Standing { items, places: known.places.len(), batches: known.batches.len() })
}

/// Drops something that a rule asks for: an order and its closing in one step, so that the rule is still.
///
/// # Errors
/// An item about nothing, or a book that cannot be written.
pub fn drop_item(
    book: &mut Book,
    item: &Item,
    reason: Option<&Text>,
    moment: Moment,
) -> Result<EntryId, ActError> {
    let closing =
        |task| TaskClosed { task, outcome: Outcome::Dropped, entry: None, reason: reason.map(Text::hash) };
    let mut drafts = Vec::new();
    if let Some(task) = item.task {
        drafts.push(moment.draft(closing(task))?);
    } else {
        let about = item.about().ok_or(ActError::NotThere { what: "place" })?;
        let task = book.next_id()?;
        let set = TaskSet {
            what: item.what,
            due: item.due.map(Date::of).transpose()?,
            to: None,
            text: None,
            source: None,
            nitrogen_mg: None,
            wet_g: None,
        };
        drafts.push(moment.draft(set)?.about(about));
        drafts.push(moment.draft(closing(task))?);
    }
    let texts: Vec<Text> = reason.into_iter().cloned().collect();
    let written = book.append(&drafts, &texts, moment.wall_ms)?;
    written.last().copied().ok_or(ActError::NotThere { what: "task" })
}

/// The book as it stood on the evening of a day.
struct Known {
    on: NaiveDate,
    places: Vec<Arc<PlaceView>>,
    batches: Vec<Arc<BatchView>>,
    piles: Vec<Arc<PileView>>,
    tasks: Vec<Arc<TaskView>>,
    holding: Option<Arc<HoldingView>>,
}

impl Known {
    fn of(book: &Book, on: NaiveDate) -> Result<Self, ActError> {
        let mut places = book.places()?;
        places.retain(|place| !place.withdrawn() && place.closed.is_none_or(|closed| closed.naive() > on));
        let mut batches = book.batches()?;
        batches.retain(|batch| !batch.withdrawn() && batch.date.naive() <= on && there(batch));
        let mut piles = book.piles()?;
        piles.retain(|pile| pile.stands() && pile.date.naive() <= on);
        let mut tasks = book.tasks()?;
        tasks.retain(|task| task.date.naive() <= on);
        let holding = book.holding_view()?;
        Ok(Self { on, places, batches, piles, tasks, holding })
    }

    fn past(&self, date: Date) -> bool {
        date.naive() <= self.on
    }

    /// A task of that kind about that was closed since.
    fn closed_since(&self, what: TaskKind, about: EntryId, since: NaiveDate) -> bool {
        self.tasks.iter().any(|task| {
            task.what == what
                && task.subject == Some(about)
                && task
                    .closed
                    .as_ref()
                    .is_some_and(|closed| closed.date.naive() >= since && self.past(closed.date))
        })
    }

    /// A crop stands there on the day.
    fn stands(&self, place: &PlaceView) -> bool {
        place
            .crops
            .iter()
            .any(|crop| self.past(crop.started) && crop.ended.is_none_or(|ended| !self.past(ended)))
    }

    /// Everything that grew there is gone.
    fn is_bare(&self, place: &PlaceView) -> bool {
        place.crops.iter().any(|crop| self.past(crop.started)) && !self.stands(place)
    }

    /// The last frozen forecast asks to look and, before hunger, to test.
    fn look_and_test(
        &self,
        book: &Book,
        place: &PlaceView,
        outlook: Option<&Outlook>,
        items: &mut Vec<Item>,
    ) -> Result<(), ActError> {
        let mut frozen = None;
        for forecast in place.forecasts.iter().rev() {
            if let Some(current) = book.current(*forecast)?
                && self.past(current.date)
                && let Body::ForecastFrozen(body) = current.body
            {
                frozen = Some((*forecast, current.date.naive(), body));
                break;
            }
        }
        if self.is_bare(place) {
            return Ok(());
        }
        let foretold = frozen.as_ref().and_then(|(_, _, body)| {
            body.first.naive().checked_add_days(Days::new(u64::from(body.hungry_p10?)))
        });
        let hungry = outlook.and_then(|outlook| outlook.hungry).or(foretold);
        let rests_on: Vec<EntryId> = frozen.iter().map(|(entry, ..)| *entry).collect();
        if let Some((_, froze, body)) = &frozen
            && let Some(look) = body.look.map(Date::naive)
        {
            let from = before(look, EARLY_DAYS.value).max(*froze);
            let looked = |date: Date| date.naive() >= from && self.past(date);
            let done = place.leaf_reads.iter().any(|read| looked(read.date))
                || place.soil_tests.iter().any(|test| test.body.nitrogen_form.is_some() && looked(test.date))
                || place.notes.iter().any(|note| note.date.naive() > *froze && looked(note.date))
                || self.closed_since(TaskKind::Look, place.id, from);
            if !done {
                items.push(Item {
                    rests_on: rests_on.clone(),
                    ..of_place(place, TaskKind::Look, Reason::Forecast { hungry: foretold }, look)
                });
            }
        }
        let Some(hungry) = hungry else { return Ok(()) };
        let due = before(hungry, TEST_BEFORE_HUNGRY_DAYS.value);
        let from = before(due, EARLY_DAYS.value);
        let tested = place.soil_tests.iter().any(|test| {
            test.body.nitrogen_form.is_some() && test.date.naive() >= from && self.past(test.date)
        });
        if !tested && !self.closed_since(TaskKind::Test, place.id, from) && self.on <= hungry {
            items.push(Item {
                rests_on,
                ..of_place(place, TaskKind::Test, Reason::BeforeHunger { hungry }, due)
            });
        }
        Ok(())
    }

    /// Feeds of the plan that nobody gave yet; each feed that was given stands for one of the plan.
    fn feed(&self, place: &PlaceView, outlook: Option<&Outlook>, items: &mut Vec<Item>) {
        let mut used: BTreeSet<EntryId> = BTreeSet::new();
        for feed in outlook.iter().flat_map(|outlook| &outlook.feeds) {
            let from = before(feed.on, EARLY_DAYS.value);
            let given = place.feeds.iter().find(|line| {
                line.date.naive() >= from
                    && self.past(line.date)
                    && line.source.as_str() == feed.source
                    && !used.contains(&line.entry)
            });
            if let Some(given) = given {
                used.insert(given.entry);
            } else if !self.closed_since(TaskKind::Feed, place.id, from) {
                let DueFeed { source, nitrogen, amount, .. } = feed.clone();
                let reason = Reason::Planned { source, nitrogen, amount };
                items.push(of_place(place, TaskKind::Feed, reason, feed.on));
            }
        }
    }

    fn top_up(&self, place: &PlaceView, outlook: Option<&Outlook>, items: &mut Vec<Item>) {
        let Some(top_up) = outlook.and_then(|outlook| outlook.top_up) else { return };
        let from = before(top_up.on, EARLY_DAYS.value);
        if !self.closed_since(TaskKind::TopUp, place.id, from) {
            let reason = Reason::Settled { lies: top_up.lies, wanted: top_up.wanted };
            items.push(Item {
                rests_on: self.mulches(place).map(|layer| layer.entry).collect(),
                ..of_place(place, TaskKind::TopUp, reason, top_up.on)
            });
        }
    }

    /// Layers that lie on the soil on the day: neither dug in nor lifted whole.
    fn mulches<'a>(&'a self, place: &'a PlaceView) -> impl Iterator<Item = &'a Layer> {
        place.layers.iter().filter(|layer| {
            self.past(layer.date)
                && layer.lies_bp > 0
                && layer.dug_in.is_none_or(|dug| !self.past(dug))
                && !matches!(layer.way, Way::WorkedIn | Way::CompostedFirst)
        })
    }

    /// The gap at trunks: what was found amiss, else what nobody looked at for long.
    fn gap(&self, place: &PlaceView, items: &mut Vec<Item>) {
        let rings: Vec<&Layer> = self
            .mulches(place)
            .filter(|layer| layer.way == Way::Ring || place.place_kind == PlaceKind::Rings)
            .collect();
        let Some(laid) = rings.iter().map(|layer| layer.date.naive()).max() else { return };
        let last = place.gaps.iter().rfind(|check| self.past(check.date));
        let wanted = Length::from_cm(way::RING_GAP_CM.value);
        let since = last.map_or(laid, |check| check.date.naive().max(laid));
        let (reason, due, rests) = match last {
            Some(check) if !check.body.mended && f64::from(check.body.gap_mm) < wanted.mm() => {
                let gap = Length::from_mm(f64::from(check.body.gap_mm));
                (Reason::GapClosed { gap, wanted }, check.date.naive(), vec![check.entry])
            }
            Some(check) if !check.body.mended && check.body.blocked_emitters.is_some_and(|n| n > 0) => {
                let count = check.body.blocked_emitters.unwrap_or_default();
                (Reason::EmittersBlocked { count }, check.date.naive(), vec![check.entry])
            }
            _ => {
                let due = since.checked_add_months(Months::new(GAP_MONTHS.value)).unwrap_or(since);
                let rests = last.map(|check| check.entry).into_iter();
                let rests = rests.chain(rings.iter().map(|layer| layer.entry)).collect();
                (Reason::GapUnseen { since }, due, rests)
            }
        };
        if !self.closed_since(TaskKind::CheckGap, place.id, before(due, EARLY_DAYS.value)) {
            items.push(Item { rests_on: rests, ..of_place(place, TaskKind::CheckGap, reason, due) });
        }
    }

    /// A dry spell over a crop, by the place's own gauge or the holding's. Days that nobody read say nothing.
    fn water(&self, place: &PlaceView, items: &mut Vec<Item>) {
        if !self.stands(place) || matches!(place.place_kind, PlaceKind::Path | PlaceKind::Yard) {
            return;
        }
        let from = before(self.on, DRY_SPELL_DAYS.value);
        let (mut came, mut wanted, mut rests_on) = (0.0, Some(0.0), Vec::new());
        for back in 1..=DRY_SPELL_DAYS.value {
            let day = before(self.on, back);
            let of_day =
                |said: &&Said<WeatherRead>| said.date.naive() == day && said.body.rain_ml_m2.is_some();
            let own = place.weather.iter().rfind(of_day);
            let Some(read) = own.or_else(|| self.days().iter().rfind(of_day)) else { return };
            came += f64::from(read.body.rain_ml_m2.unwrap_or_default()) / 1000.0;
            let evaporation = read.body.evaporation_ml_m2_day.or_else(|| self.usual_evaporation(day));
            wanted = wanted.zip(evaporation).map(|(sum, day)| sum + f64::from(day) / 1000.0);
            rests_on.push(read.entry);
        }
        let area_m2 = place.area_mm2 as f64 / 1e6;
        for water in place.water.iter().filter(|water| water.date.naive() >= from && self.past(water.date)) {
            came += match (water.depth_mm, water.volume_ml) {
                (Some(mm), _) => f64::from(mm),
                (None, Some(millilitres)) if area_m2 > 0.0 => millilitres as f64 / 1000.0 / area_m2,
                _ => 0.0,
            };
            rests_on.push(water.entry);
        }
        let wanted = wanted.unwrap_or(WEEK_OF_WATER.value.mm());
        let dry = wanted >= LEAST_WANTED.value.mm() && came < wanted * DRY_SHARE.value;
        if dry && !self.closed_since(TaskKind::Water, place.id, from) {
            let reason = Reason::Dry {
                days: DRY_SPELL_DAYS.value,
                came: Length::from_mm(came),
                wanted: Length::from_mm(wanted),
            };
            items.push(Item { rests_on, ..of_place(place, TaskKind::Water, reason, self.on) });
        }
    }

    /// Days that the holding's gauge was read.
    fn days(&self) -> &[Said<WeatherRead>] {
        self.holding.as_ref().map_or_else(Default::default, |holding| holding.days.as_slice())
    }

    /// Usual evaporation, a mean day of the month.
    fn usual_evaporation(&self, day: NaiveDate) -> Option<u32> {
        use chrono::Datelike;
        let usual = self.holding.as_ref().map_or_else(Default::default, |holding| holding.usual.as_slice());
        let month = usual.iter().rfind(|usual| usual.date.naive().month() == day.month())?;
        month.body.evaporation_ml_m2_day
    }

    /// A mulch on a bed whose crop ends: whoever prepares the bed decides.
    fn dig_in(&self, place: &PlaceView, items: &mut Vec<Item>) {
        if !matches!(place.place_kind, PlaceKind::Bed | PlaceKind::Row | PlaceKind::Plot) {
            return;
        }
        let last = place.crops.iter().filter(|crop| self.past(crop.started)).max_by_key(|crop| crop.started);
        let Some(last) = last else { return };
        let stays = match crop::find(last.crop.as_str()) {
            Match::Exact(known) => known.life != Life::Annual,
            Match::Near(_) => false,
        };
        let ended = last.ended.filter(|ended| self.past(*ended));
        let Some(ends) = ended.or(last.ends).map(Date::naive) else { return };
        if stays || self.closed_since(TaskKind::DigIn, place.id, before(ends, EARLY_DAYS.value)) {
            return;
        }
        let rests: Vec<EntryId> = self
            .mulches(place)
            .filter(|layer| layer.date.naive() < ends && layer.way != Way::Ring)
            .map(|layer| layer.entry)
            .collect();
        if !rests.is_empty() {
            let reason = Reason::MulchBeforePreparation { ends };
            items.push(Item {
                rests_on: rests.into_iter().chain([last.entry]).collect(),
                ..of_place(place, TaskKind::DigIn, reason, ends)
            });
        }
    }

    /// A sour heap is aired; one that has lain is smelled before it is spread.
    fn heap(&self, batch: &BatchView, items: &mut Vec<Item>) -> Result<(), ActError> {
        let smelled = batch.tests.iter().rfind(|test| test.body.sour.is_some() && self.past(test.date));
        if let Some(test) = smelled
            && test.body.sour == Some(Answer::Yes)
        {
            let on = test.date.naive();
            if let Follows::Air { from, until } = storage::follows(Sourness::Sour, on)
                && !self.closed_since(TaskKind::Air, batch.id, on)
            {
                items.push(Item {
                    rests_on: vec![test.entry],
                    ..of_batch(batch, TaskKind::Air, Reason::Sour { from, until }, on)
                });
            }
            return Ok(());
        }
        let figures = Figures::of(batch, self.on)?;
        let wet_enough = figures.moisture.percent() * 100.0 >= f64::from(DRY_BATCH_BP);
        let heaps = matches!(figures.material.kind, Sort::Wood | Sort::Bark) && wet_enough;
        if !heaps || batch.origin == Origin::Layer {
            return Ok(());
        }
        let since = smelled.map_or(batch.date.naive(), |test| test.date.naive());
        let due = since.checked_add_days(Days::new(storage::SMELL_AFTER_DAYS.value)).unwrap_or(since);
        if !self.closed_since(TaskKind::Test, batch.id, before(due, EARLY_DAYS.value)) {
            let rests = smelled.map_or(batch.id, |test| test.entry);
            items.push(Item {
                rests_on: vec![rests],
                ..of_batch(batch, TaskKind::Test, Reason::HeapUnsmelled { since }, due)
            });
        }
        Ok(())
    }

    /// A lifted layer draws nobody knows how much: a draw test, or a seedling, tells.
    fn draw(&self, batch: &BatchView, items: &mut Vec<Item>) {
        let tested = batch.draw_tests.iter().any(|test| self.past(test.date));
        let lifted = batch.date.naive();
        if batch.origin == Origin::Layer && !tested && !self.closed_since(TaskKind::Test, batch.id, lifted) {
            let reason = Reason::DrawUnknown { lifted_from: batch.lifted_from };
            items.push(Item { rests_on: vec![batch.id], ..of_batch(batch, TaskKind::Test, reason, lifted) });
        }
    }

    /// Orders that are open. One that asks for what a rule asks for stands in its place and keeps its reason.
    fn orders(&self, items: &mut Vec<Item>) {
        let closed_later =
            |task: &TaskView| task.closed.as_ref().is_some_and(|closed| !self.past(closed.date));
        for task in self.tasks.iter().filter(|task| task.open() || closed_later(task)) {
            let due = task.due.map(Date::naive);
            let same = items
                .iter_mut()
                .find(|item| item.task.is_none() && item.what == task.what && item.about() == task.subject);
            if let Some(item) = same {
                item.who = task.to;
                item.task = Some(task.id);
                item.due = due.or(item.due);
                item.rests_on.push(task.id);
                continue;
            }
            let place = task.subject.filter(|id| self.places.iter().any(|place| place.id == *id));
            let batch = task.subject.filter(|id| self.batches.iter().any(|batch| batch.id == *id));
            let pile = task.subject.filter(|id| self.piles.iter().any(|pile| pile.id == *id));
            items.push(Item {
                place,
                batch,
                pile,
                what: task.what,
                reason: Reason::Ordered,
                due,
                who: task.to,
                task: Some(task.id),
                rests_on: task
                    .subject
                    .into_iter()
                    .filter(|_| place.is_none() && batch.is_none() && pile.is_none())
                    .chain([task.id])
                    .collect(),
            });
        }
    }
}

/// Whether anything of a batch is left, as far as anybody knows.
fn there(batch: &BatchView) -> bool {
    match (batch.left_g, batch.left_ml) {
        (None, None) => batch.uses.is_empty(),
        (mass, volume) => mass.is_some_and(|left| left > 0) || volume.is_some_and(|left| left > 0),
    }
}

fn of_place(place: &PlaceView, what: TaskKind, reason: Reason, due: NaiveDate) -> Item {
    Item {
        place: Some(place.id),
        batch: None,
        pile: None,
        what,
        reason,
        due: Some(due),
        who: None,
        task: None,
        rests_on: Vec::new(),
    }
}

fn of_batch(batch: &BatchView, what: TaskKind, reason: Reason, due: NaiveDate) -> Item {
    Item {
        place: None,
        batch: Some(batch.id),
        pile: None,
        what,
        reason,
        due: Some(due),
        who: None,
        task: None,
        rests_on: Vec::new(),
    }
}

fn before(date: NaiveDate, days: u64) -> NaiveDate {
    date.checked_sub_days(Days::new(days)).unwrap_or(date)
}
