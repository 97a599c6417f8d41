//! The feed plan: the smallest dated feeds that keep the chance of hunger, for each source at hand.
//!
//! Every trial meets the same runs. A plan is the smallest in that no feed of it can be left out and none be made a
//! step smaller without more runs going hungry than may. It keeps the practical limits, those of the rules that the
//! person chose, and the days between giving and harvest; where it cannot keep the chance within them, it says the
//! most that helps and another way, and never a larger dose.
//!
//! Trees have no hungry day: what the wood holds of their nitrogen is made up for, by the tree.

mod bounds;
mod futures;
mod ground;
mod loss;
pub mod of_place;
mod search;
mod step;
pub mod told;
mod trial;

use chrono::NaiveDate;
use kerfbook_science::feed::{self, Feed};
use kerfbook_science::limit::{self, Limit, Origin};
use kerfbook_science::lookup::Match;
use kerfbook_science::nitrogen::{Input, Runs, Sample, chance};
use kerfbook_science::source::{Source, Sourced};

pub use bounds::Tight;
pub use ground::{Each, Given, Ground, Standing};
pub use loss::Fate;
pub use step::{COARSEST_KG_HA, Measure, Step};

use crate::assumed::Assumed;
use crate::calendar::Calendar;
use crate::cautions;
use crate::compare::{self, Bench, RUNS, Three};
use crate::dose;
use crate::error::ActError;
use crate::forecast::first_hungry;
use crate::scenario::{Placed, Scenario};
use crate::site;
use crate::way::Row;
use bounds::Bounds;
use futures::Futures;
use ground::Side;
use trial::{Goal, Trial};

/// Share of the runs that may go hungry, where nobody says.
pub const CHANCE: Sourced<f64> = Sourced::new(0.20, Source::ASSUMPTION);
/// Days between the days that may be fed.
pub const EVERY_DAYS: Sourced<u32> = Sourced::new(14, Source::COMMON_PRACTICE);

/// What a person wants of a plan.
#[derive(Debug, Clone, PartialEq)]
pub struct Terms {
    /// Share of the runs that may go hungry.
    pub chance: f64,
    /// Sources to plan for; those at hand where none is named.
    pub sources: Vec<String>,
    /// Names of the rules that bind.
    pub rules: Vec<String>,
    /// No feed is planned before this day.
    pub not_before: Option<NaiveDate>,
    /// Scales of the person.
    pub measure: Measure,
    /// Runs of the ensemble.
    pub runs: u32,
    /// Their seed.
    pub seed: u64,
}

impl Default for Terms {
    fn default() -> Self {
        Self {
            chance: CHANCE.value,
            sources: Vec::new(),
            rules: Vec::new(),
            not_before: None,
            measure: Measure::Metric,
            runs: RUNS,
            seed: 1,
        }
    }
}

/// A plan for a place.
#[derive(Debug, Clone, PartialEq)]
pub struct FeedPlan {
    /// Which date is day 0.
    pub calendar: Calendar,
    /// Share of the runs that may go hungry.
    pub chance: f64,
    /// Share that goes hungry where nothing more is given; `None` where nothing can go hungry.
    pub chance_without: Option<f64>,
    /// The same on the bare place.
    pub chance_bare: Option<f64>,
    /// First hungry day where nothing more is given.
    pub hungry_day: Option<Three>,
    /// Names of the rules that bind; none where none was chosen.
    pub rules: Vec<&'static str>,
    /// Their limits, those for other crops left out.
    pub limits: Vec<&'static Limit>,
    /// What amounts are told by, beside those of the whole place.
    pub each: Option<Each>,
    /// A plan for each source, in the order asked for.
    pub sources: Vec<SourcePlan>,
    /// Another way, where the first source that is allowed cannot keep the chance.
    pub another: Option<Another>,
    /// Taken for granted.
    pub assumed: Vec<Assumed>,
    /// Runs.
    pub runs: u32,
    /// Seed.
    pub seed: u64,
}

impl FeedPlan {
    /// The plan to follow: the first that keeps the chance, else the first whose source is allowed.
    pub fn first(&self) -> Option<&SourcePlan> {
        let kept = |plan: &&SourcePlan| matches!(plan.outcome, Outcome::Nothing(_) | Outcome::Kept);
        let allowed = || self.sources.iter().filter(|plan| plan.outcome != Outcome::NotAllowed);
        allowed().find(kept).or_else(|| allowed().next())
    }
}

/// A plan with one source.
#[derive(Debug, Clone, PartialEq)]
pub struct SourcePlan {
    /// The source.
    pub source: &'static Feed,
    /// What it comes to.
    pub outcome: Outcome,
    /// The feeds, in order of day.
    pub feeds: Vec<Planned>,
    /// Nitrogen for the crop anyway: what the bare place needs for the same chance, or the most that helps it within
    /// the limits; kg/ha.
    pub crop_kg_ha: f64,
    /// Nitrogen because of the wood, kg/ha.
    pub wood_kg_ha: f64,
    /// Nitrogen that what lies there spares, kg/ha.
    pub spared_kg_ha: f64,
    /// The bare place keeps the chance with that.
    pub bare_kept: bool,
    /// Share of the runs that still goes hungry; `None` for trees.
    pub chance: Option<f64>,
    /// Step that doses are rounded to.
    pub step: Step,
    /// Longest time between giving and harvest, days.
    pub days_to_harvest: u32,
    /// Last day on which it may be given.
    pub last_day: Option<NaiveDate>,
    /// What becomes of it; `None` where nothing is given.
    pub fate: Option<Fate>,
    /// Ids of cautions.
    pub cautions: Vec<&'static str>,
}

impl SourcePlan {
    /// Nitrogen of all feeds, kg/ha.
    pub fn nitrogen_kg_ha(&self) -> f64 {
        self.feeds.iter().map(|feed| feed.nitrogen_kg_ha).sum()
    }
}

/// What a plan comes to.
#[derive(Debug, Clone, PartialEq)]
pub enum Outcome {
    /// Give nothing.
    Nothing(Why),
    /// The feeds keep the chance.
    Kept,
    /// The feeds are the most that helps within what binds here; the chance is not kept.
    Limited(Vec<Tight>),
    /// The holding may not use this source.
    NotAllowed,
}

/// Why nothing is to be given.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Why {
    /// The chance is kept without.
    Enough,
    /// The same, with a crop that draws nitrogen from the air.
    Legume,
    /// Nothing grows here.
    NothingGrows,
    /// Trees, from which the wood takes no more than can be told apart.
    Trees,
}

/// A feed of a plan.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Planned {
    /// Day of the model.
    pub day: u32,
    /// Date.
    pub date: NaiveDate,
    /// Product or liquid, on the whole place.
    pub amount: feed::Amount,
    /// Nitrogen in it, kg/ha.
    pub nitrogen_kg_ha: f64,
    /// Where it goes.
    pub placed: Placed,
}

/// What else can be done where feeding does not do.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Another {
    /// The load in another way.
    Way {
        /// Which.
        row: Row,
        /// Share of the runs that goes hungry with nothing given.
        chance: f64,
    },
    /// The load kept off this place for now.
    KeepOff {
        /// Share of the runs that goes hungry on the bare place with nothing given.
        chance: f64,
    },
    /// The bare place is no better: a crop that wants less.
    LighterCrop,
}

/// Plans the feeds of a scenario.
///
/// # Errors
/// A source or rules that the tables do not know; a place, load or feed that cannot be.
pub fn plan(scenario: &Scenario, terms: &Terms) -> Result<FeedPlan, ActError> {
    let mut assumed = Vec::new();
    let ground = Ground::of(scenario, &mut assumed)?;
    let sources = sources(scenario, &terms.sources, &mut assumed)?;
    let mut plan = plan_on(&ground, &sources, terms, |source| dose::source_allowed(scenario, source))?;
    for own in &mut plan.sources {
        let most = own.feeds.iter().map(|feed| feed.nitrogen_kg_ha).fold(0.0, f64::max);
        let found = cautions::of_found(scenario, own.source, most);
        own.cautions = found.iter().map(|caution| caution.id).collect();
    }
    plan.assumed = assumed;
    if plan.first().is_some_and(|first| matches!(first.outcome, Outcome::Limited(_))) {
        plan.another = another(scenario, &ground, &plan, &Sample::new(terms.seed, terms.runs))?;
    }
    Ok(plan)
}

/// Plans the feeds of a place that is described by the model's own inputs.
///
/// # Errors
/// Rules that the table does not know, and what the model refuses.
pub fn plan_on(
    ground: &Ground,
    sources: &[&'static Feed],
    terms: &Terms,
    allowed: impl Fn(&Feed) -> bool,
) -> Result<FeedPlan, ActError> {
    Planning::of(ground, terms, Scope::Whole)?.plan(sources, allowed)
}

/// How much of a plan is worked out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Scope {
    /// All of it.
    Whole,
    /// What to give and when; not what of it is because of the wood, nor what becomes of it.
    Feeds,
}

/// One place, its runs and its limits, for any source.
struct Planning<'a> {
    ground: &'a Ground,
    terms: &'a Terms,
    scope: Scope,
    rules: Vec<&'static str>,
    limits: Vec<&'static Limit>,
    /// Why nobody can go short here.
    nothing: Option<Why>,
    goal: Goal,
    here: Futures,
    bare: Option<Futures>,
    /// With nothing more given.
    without: Runs,
    without_bare: Option<Runs>,
}

impl<'a> Planning<'a> {
    fn of(ground: &'a Ground, terms: &'a Terms, scope: Scope) -> Result<Self, ActError> {
        let (rules, limits) = rules(&terms.rules, ground)?;
        let sample = ground.weighed.clone().unwrap_or_else(|| Sample::new(terms.seed, terms.runs));
        let from = ground.first_day(terms.not_before);
        let until = |input: &Input| Input { days: ground.horizon(), ..input.clone() };
        let here = Futures::of(ground, Side::Here, &sample, from)?;
        let without = here.run(&until(&ground.here), &[])?;
        let trees = ground.counted().any(|crop| !crop.annual);
        let (bare, without_bare) = if trees || scope == Scope::Whole {
            let bare = Futures::of(ground, Side::Bare, &sample, from)?;
            let without = bare.run(&until(&ground.bare), &[])?;
            (Some(bare), Some(without))
        } else {
            (None, None)
        };
        let goal = match &without_bare {
            Some(bare) if trees => Goal::AsBare(trial::taken(ground, bare)),
            _ => Goal::Hunger(terms.chance),
        };
        let nothing = why_nothing(ground);
        Ok(Self { ground, terms, scope, rules, limits, nothing, goal, here, bare, without, without_bare })
    }

    fn plan(self, sources: &[&'static Feed], allowed: impl Fn(&Feed) -> bool) -> Result<FeedPlan, ActError> {
        let ground = self.ground;
        let hunger = self.nothing.is_none() && matches!(self.goal, Goal::Hunger(_));
        let hungry = |runs: &Runs| first_hungry(runs, &ground.positions());
        let here = hunger.then(|| hungry(&self.without));
        let bare = self.without_bare.as_ref().filter(|_| hunger).map(hungry);
        let sources = sources
            .iter()
            .map(|source| match self.nothing {
                _ if !allowed(source) => Ok(self.without(source, Outcome::NotAllowed)),
                Some(why) => Ok(self.without(source, Outcome::Nothing(why))),
                None => self.with(source),
            })
            .collect::<Result<_, ActError>>()?;
        Ok(FeedPlan {
            calendar: ground.calendar,
            chance: self.terms.chance,
            chance_without: here.as_deref().map(chance),
            chance_bare: bare.as_deref().map(chance),
            hungry_day: here.as_deref().map(Three::of),
            rules: self.rules,
            each: ground.each,
            sources,
            limits: self.limits,
            another: None,
            assumed: Vec::new(),
            runs: self.terms.runs,
            seed: self.terms.seed,
        })
    }

    /// Days between giving a source and harvesting a crop.
    fn wait(&self, source: &Feed, crop: &Standing) -> u32 {
        let origin = Origin::of(source);
        let ruled = self.limits.iter().map(|limit| limit.days(origin, crop.edible));
        ruled.max().unwrap_or(0).max(source.wait.days(crop.edible))
    }

    fn step(&self, source: &Feed) -> Step {
        match self.ground.each {
            Some(Each::Trees(count)) => Step::each(source, self.ground.area, count, self.terms.measure),
            _ => Step::of(source, self.ground.area, self.terms.measure),
        }
    }

    /// A source with which nothing is given.
    fn without(&self, source: &'static Feed, outcome: Outcome) -> SourcePlan {
        let wait = self.ground.crops.iter().map(|crop| self.wait(source, crop)).max().unwrap_or(0);
        SourcePlan {
            source,
            outcome,
            feeds: Vec::new(),
            crop_kg_ha: 0.0,
            wood_kg_ha: 0.0,
            spared_kg_ha: 0.0,
            bare_kept: true,
            chance: None,
            step: self.step(source),
            days_to_harvest: wait,
            last_day: None,
            fate: None,
            cautions: Vec::new(),
        }
    }

    fn with(&self, source: &'static Feed) -> Result<SourcePlan, ActError> {
        let ground = self.ground;
        let step = self.step(source);
        let days = ground.days(self.terms.not_before, |crop| self.wait(source, crop));
        let bounds = Bounds::new(ground, &days, Origin::of(source), &step, &self.limits);
        let trial =
            |side: Side, futures| Trial::new((ground, side), (futures, &self.goal), (source, step), &days);
        let mut here = trial(Side::Here, &self.here);
        let found = search::search(&mut here, &bounds)?;
        let hunger = matches!(self.goal, Goal::Hunger(_));
        let (bare_kept, bare_kg_ha) = match &self.bare {
            _ if ground.here == ground.bare => (found.kept, here.total_kg_ha(&found.doses)),
            Some(futures) if hunger => {
                let mut bare = trial(Side::Bare, futures);
                let found = search::search(&mut bare, &bounds)?;
                (found.kept, bare.total_kg_ha(&found.doses))
            }
            // What trees lack beside the bare place is all because of the wood.
            _ => (true, 0.0),
        };
        let total = here.total_kg_ha(&found.doses);
        let chance = here.with(&found.doses)?.chance;
        let given = found.doses.iter().any(|steps| *steps > 0);
        let date = |day: u32| ground.calendar.date(f64::from(day));
        let outcome = match (found.kept, given) {
            (true, true) => Outcome::Kept,
            (true, false) if !hunger => Outcome::Nothing(Why::Trees),
            (true, false) if ground.crops.iter().any(|crop| crop.legume) => Outcome::Nothing(Why::Legume),
            (true, false) => Outcome::Nothing(Why::Enough),
            (false, _) => {
                let open = ground.days(self.terms.not_before, |_| 0);
                let late = (open.len() > days.len()).then_some(Tight::DaysToHarvest);
                let mut tight: Vec<Tight> = bounds.tight(&found.fullest).into_iter().chain(late).collect();
                if tight.is_empty() {
                    tight.push(Tight::NoUse);
                }
                Outcome::Limited(tight)
            }
        };
        let feeds = days.iter().zip(&found.doses).filter(|(_, steps)| **steps > 0);
        Ok(SourcePlan {
            feeds: feeds
                .map(|(day, steps)| Planned {
                    day: *day,
                    date: date(*day),
                    amount: step.times(*steps),
                    nitrogen_kg_ha: step.nitrogen(*steps).kg_ha(),
                    placed: ground::placed(&ground.here, *day),
                })
                .collect(),
            crop_kg_ha: f64::min(bare_kg_ha, total),
            wood_kg_ha: f64::max(0.0, total - bare_kg_ha),
            spared_kg_ha: f64::max(0.0, bare_kg_ha - total),
            bare_kept,
            chance: hunger.then_some(chance),
            last_day: self.last_day(source),
            fate: if given && self.scope == Scope::Whole {
                let of = (source, &step);
                Some(loss::fate(ground, &self.here, of, &days, &found.doses)?)
            } else {
                None
            },
            ..self.without(source, outcome)
        })
    }

    /// The last day before the last harvest on which a source that must wait may be given.
    fn last_day(&self, source: &Feed) -> Option<NaiveDate> {
        let waiting = self.ground.crops.iter().filter(|crop| self.wait(source, crop) > 0);
        let last = waiting.map(|crop| crop.end - i64::from(self.wait(source, crop))).max()?;
        u32::try_from(last).ok().map(|day| self.ground.calendar.date(f64::from(day)))
    }
}

/// Why nobody can go short here.
fn why_nothing(ground: &Ground) -> Option<Why> {
    if ground.here.crops.is_empty() || ground.crops.is_empty() {
        Some(Why::NothingGrows)
    } else if ground.here == ground.bare && ground.counted().any(|crop| !crop.annual) {
        Some(Why::Trees)
    } else {
        None
    }
}

/// The rules by name, and those of their limits that concern this ground.
fn rules(names: &[String], ground: &Ground) -> Result<(Vec<&'static str>, Vec<&'static Limit>), ActError> {
    let crops: Vec<&str> = ground.crops.iter().filter_map(|crop| crop.name).collect();
    let mut rules: Vec<&'static str> = Vec::new();
    for name in names {
        match limit::find(name) {
            Match::Exact(found) if rules.contains(&found) => {}
            Match::Exact(found) => rules.push(found),
            Match::Near(nearest) => {
                let nearest = if nearest.is_empty() { limit::rules() } else { nearest };
                return Err(ActError::UnknownRules { rules: name.clone(), nearest });
            }
        }
    }
    let limits = rules.iter().flat_map(|name| limit::of_rules(name));
    let limits = limits.filter(|limit| limit.concerns(&crops)).collect();
    Ok((rules, limits))
}

/// The sources asked for, else those at hand, else the usual one; each once.
fn sources(
    scenario: &Scenario,
    asked: &[String],
    assumed: &mut Vec<Assumed>,
) -> Result<Vec<&'static Feed>, ActError> {
    let names = if asked.is_empty() { &scenario.holding.at_hand } else { asked };
    let mut found: Vec<&'static Feed> = Vec::new();
    for name in names {
        let source = site::find_feed(name)?;
        if !found.iter().any(|other| other.name == source.name) {
            found.push(source);
        }
    }
    if found.is_empty() {
        let usual = compare::source_at_hand(scenario)?;
        assumed.push(Assumed::text("feed_source", usual.name));
        found.push(usual);
    }
    Ok(found)
}

/// What else could be done with the load: the way with the lowest chance of hunger of those that can be done, where it
/// is lower than what feeding leaves.
fn another(
    scenario: &Scenario,
    ground: &Ground,
    plan: &FeedPlan,
    sample: &Sample,
) -> Result<Option<Another>, ActError> {
    let Some(left) = plan.first().and_then(|first| first.chance) else { return Ok(None) };
    let mut best: Option<(Row, f64)> = None;
    if !scenario.put_down.is_empty() {
        let bench = Bench::new(scenario, ground.horizon())?;
        for row in compare::rows_of(&bench) {
            let open = row.ranked() && row != Row::Bare;
            if !open || !compare::allowed(scenario, row) || !compare::doable(&bench, row) {
                continue;
            }
            let (input, _) = bench.input(row, bench.load());
            let hungry = compare::season_hungry(&compare::run(&input, sample, &[])?, ground.crops.len());
            let chance = chance(&hungry);
            if best.is_none_or(|(_, best)| chance < best) {
                best = Some((row, chance));
            }
        }
    }
    let bare = plan.chance_bare.unwrap_or(1.0);
    Ok(match best {
        Some((row, chance)) if chance < left && chance <= bare => Some(Another::Way { row, chance }),
        Some(_) if bare < left => Some(Another::KeepOff { chance: bare }),
        Some((row, chance)) if chance < left => Some(Another::Way { row, chance }),
        _ => Some(Another::LighterCrop),
    })
}
