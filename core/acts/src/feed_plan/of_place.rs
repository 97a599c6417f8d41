//! The feed plan of a place of the book: what to give from a day on, after all that was laid, given, grown and read.

use chrono::NaiveDate;
use kerfbook_ledger::{Book, EntryId};
use kerfbook_science::feed::Feed;
use kerfbook_science::nitrogen::Input;
use kerfbook_science::units::AreaMass;

use super::{FeedPlan, Ground, Planned, Planning, Scope, Terms, sources};
use crate::compare::{self, SEASON_DAYS, Three};
use crate::error::ActError;
use crate::forecast::first_hungry;
use crate::season::{self, Season};
use crate::today::DueFeed;
use crate::update::Left;
use crate::{cautions, dose, site};

/// Sources that were given on the holding, the last one first: those are at hand.
///
/// # Errors
/// A book that cannot be read.
pub fn at_hand(book: &Book, on: NaiveDate) -> Result<Vec<&'static Feed>, ActError> {
    let mut given: Vec<(NaiveDate, &'static Feed)> = Vec::new();
    for place in book.places()?.iter().filter(|place| !place.withdrawn()) {
        for line in place.feeds.iter().filter(|line| line.date.naive() <= on) {
            let Ok(source) = site::find_feed(line.source.as_str()) else { continue };
            given.push((line.date.naive(), source));
        }
    }
    given.sort_by(|a, b| b.0.cmp(&a.0).then(a.1.name.cmp(b.1.name)));
    let mut found: Vec<&'static Feed> = Vec::new();
    for (_, source) in given {
        if !found.iter().any(|other| other.name == source.name) {
            found.push(source);
        }
    }
    Ok(found)
}

/// Plans the feeds of a place from a day on: with the sources asked for, else those that were given on the holding
/// before, else the usual one.
///
/// # Errors
/// A place that the book does not have or of which it knows nothing yet; a source or rules that the tables do not know;
/// what the model refuses.
pub fn plan_of(book: &Book, place: EntryId, on: NaiveDate, terms: &Terms) -> Result<FeedPlan, ActError> {
    let mut season = season::season(book, place, on, SEASON_DAYS)?;
    season.scenario.holding.at_hand = names(&at_hand(book, on)?);
    let scenario = &season.scenario;
    let mut assumed = season.assumed.clone();
    let sources = sources(scenario, &terms.sources, &mut assumed)?;
    let left = season.left(terms.runs, terms.seed)?;
    let ground = Ground::of_season(&season, left.map(|left| left.even(terms.runs)))?;
    let allowed = |source: &Feed| dose::source_allowed(scenario, source);
    let mut plan = Planning::of(&ground, terms, Scope::Whole)?.plan(&sources, allowed)?;
    for own in &mut plan.sources {
        let most = own.feeds.iter().map(|feed| feed.nitrogen_kg_ha).fold(0.0, f64::max);
        let found = cautions::of_found(scenario, own.source, most);
        own.cautions = found.iter().map(|caution| caution.id).collect();
    }
    plan.assumed = assumed;
    Ok(plan)
}

/// Names of sources.
pub(crate) fn names(sources: &[&'static Feed]) -> Vec<String> {
    sources.iter().map(|source| source.name.to_owned()).collect()
}

/// What comes next to the crops ahead.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Next {
    /// Early end (P10) of the hungry day.
    pub(crate) hungry: Option<NaiveDate>,
    /// Feeds of the plan with the first source at hand that may be used.
    pub(crate) feeds: Vec<DueFeed>,
}

/// What comes next on a place, without what a plan tells beyond it. `left` are the runs that its readings leave.
///
/// # Errors
/// As [`plan_of`].
pub(crate) fn next(season: &Season, left: Option<&Left>, terms: &Terms) -> Result<Next, ActError> {
    let scenario = &season.scenario;
    let sources = sources(scenario, &terms.sources, &mut Vec::new())?;
    let source = sources.into_iter().find(|source| dose::source_allowed(scenario, source));
    let source = source.map_or_else(|| compare::source_at_hand(scenario), Ok)?;
    let ground = Ground::of_season(season, left.map(|left| left.even(terms.runs)))?;
    let planning = Planning::of(&ground, terms, Scope::Feeds)?;
    let hungry = match left {
        None => first_hungry(&planning.without, &ground.positions()),
        // By all of the runs that the forecast of the place tells, so that both name the same day.
        Some(left) => {
            let input = Input { days: ground.horizon(), ..ground.here.clone() };
            left.pick(&first_hungry(&compare::run(&input, &left.sample, &[])?, &ground.positions()))
        }
    };
    let plan = planning.plan(&[source], |_| true)?;
    let area = ground.area;
    let due = |fed: &Planned| DueFeed {
        on: fed.date,
        source: source.name.to_owned(),
        nitrogen: area.mass_of(AreaMass::from_kg_ha(fed.nitrogen_kg_ha)),
        amount: fed.amount,
    };
    let early = Three::of(&hungry).p10;
    Ok(Next {
        hungry: early.map(|day| ground.calendar.date(day)),
        feeds: plan.sources.iter().flat_map(|own| &own.feeds).map(due).collect(),
    })
}
