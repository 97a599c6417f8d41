//! Every way of using a load side by side, run by run against nothing put down.

use chrono::NaiveDate;
use kerfbook_science::feed::{self, Feed};
use kerfbook_science::nitrogen::{
    Crop, DrawnName, Input, Ranks, Reading, Runs, Sample, Series, Site, Spread3, StageRuns, chance, simulate,
    spread,
};
use serde::Serialize;

use crate::answer::{self, Answer, Better, Cost, Give, Not, Release};
use crate::assumed::Assumed;
use crate::calendar::Calendar;
use crate::error::ActError;
use crate::load::Load;
use crate::question;
use crate::scenario::{Particle, PlaceKind, Scenario};
use crate::side_by_side::side_by_side;
use crate::site;
use crate::treatment::{self, EqualWay};
use crate::way::{self, Row};

/// Runs of an ensemble where nobody says.
pub const RUNS: u32 = 200;
/// Days of the season's table.
pub const SEASON_DAYS: u32 = 365;
/// Days of the long look: the next season, and the release.
pub const LONG_DAYS: u32 = 3 * 365;
/// Days at which tie-up is told.
pub const TIED_DAYS: [u32; 4] = [28, 60, 150, 365];

/// Quantiles over the runs; `None` where the quantile touches a run that never gets there.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Three {
    /// One run in ten is below.
    pub p10: Option<f64>,
    /// Half of the runs are below.
    pub p50: Option<f64>,
    /// One run in ten is above.
    pub p90: Option<f64>,
}

impl Three {
    /// Of one value a run; infinite where the run never gets there.
    pub fn of(values: &[f64]) -> Self {
        let Spread3 { p10, p50, p90 } = spread(values);
        Self { p10, p50, p90 }
    }

    /// The same times a factor.
    #[must_use]
    pub fn times(self, factor: f64) -> Self {
        let by = |value: Option<f64>| value.map(|value| value * factor);
        Self { p10: by(self.p10), p50: by(self.p50), p90: by(self.p90) }
    }

    /// The middle, zero where it is not reached.
    pub fn middle(self) -> f64 {
        self.p50.unwrap_or(0.0)
    }
}

/// Nitrogen to give, kg/ha, split.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize)]
pub struct FeedNeed {
    /// For the crop anyway.
    pub crop: f64,
    /// Because of the wood.
    pub wood: f64,
    /// More would be needed than a place takes at once; the figures are the most.
    pub beyond_limit: bool,
}

/// One way over one horizon.
#[derive(Debug, Clone, PartialEq)]
pub struct WayResult {
    /// Which way.
    pub row: Row,
    /// Nitrogen the crop gets, kg/ha; `None` for path and ring.
    pub crop_nitrogen: Option<Three>,
    /// The bare place's less this way's, run by run, kg/ha.
    pub lost: Option<Three>,
    /// Tied up at [`TIED_DAYS`], kg/ha.
    pub tied: Vec<(u32, Three)>,
    /// Leached, kg/ha.
    pub leached: Three,
    /// Leached on the bare place less leached here, run by run, kg/ha.
    pub leached_less: Three,
    /// First day on which the crop is behind its need; `None` where trees or nothing grow.
    pub hungry_day: Option<Three>,
    /// Share of the runs that go hungry.
    pub chance_hungry: Option<f64>,
    /// Day on which the tie-up turns, in the long look.
    pub release_day: Three,
    /// Share of the runs that turn in the long look.
    pub released_share: f64,
    /// Nitrogen that would keep the median run from hunger.
    pub feed: Option<FeedNeed>,
    /// Nitrogen the way brings beyond the wood's own, kg/ha.
    pub brought_kg_ha: f64,
    /// Crop nitrogen of the run with every parameter at its median.
    pub median_run_kg_ha: Option<f64>,
    /// Taken for granted.
    pub assumed: Vec<Assumed>,
    /// Ids of cautions.
    pub cautions: Vec<&'static str>,
    /// Can be done by its date with what is at hand.
    pub doable: bool,
    /// Allowed here at all; a way that is not is listed and never recommended.
    pub allowed: bool,
}

/// A way at equal nitrogen.
#[derive(Debug, Clone, PartialEq)]
pub struct EqualResult {
    /// Which.
    pub way: EqualWay,
    /// Nitrogen the crop gets this season, kg/ha.
    pub crop_nitrogen: Three,
    /// Of the median run.
    pub median_run_kg_ha: f64,
}

/// All of it.
#[derive(Debug, Clone, PartialEq)]
pub struct Comparison {
    /// Which date is day 0.
    pub calendar: Calendar,
    /// The load.
    pub load: Load,
    /// Day on which it is put down.
    pub day: u32,
    /// This season: bare first, then best first; path and ring last.
    pub season: Vec<WayResult>,
    /// This season and the next, ordered the same way.
    pub both: Vec<WayResult>,
    /// The ways at equal nitrogen.
    pub equal: Vec<EqualResult>,
    /// The nitrogen they carry, kg/ha.
    pub equal_nitrogen_kg_ha: f64,
    /// Taken for granted of the place.
    pub assumed: Vec<Assumed>,
    /// The answer.
    pub answer: Answer,
}

/// How far to look.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Reach {
    /// One year: one table, no release.
    Season,
    /// One year of the ways that are for such a place, and three of the advised one alone, for when it lets go: all
    /// that an answer says, and no more.
    Answer,
    /// Three years: this season, the next, and when it lets go.
    ThreeYears,
}

/// The load in question and what it meets: made once, run many times.
pub(crate) struct Bench<'a> {
    scenario: &'a Scenario,
    calendar: Calendar,
    load: Load,
    day: u32,
    base: Input,
    site: Site,
    pub(crate) assumed: Vec<Assumed>,
}

impl<'a> Bench<'a> {
    /// Sets the place up for some days, the load in question apart.
    pub(crate) fn new(scenario: &'a Scenario, days: u32) -> Result<Self, ActError> {
        let calendar = Calendar::of(scenario).ok_or(ActError::NoLoad)?;
        let asked = asked_of(scenario).ok_or(ActError::NoLoad)?;
        let mut assumed = Vec::new();
        let mut base = site::base(scenario, calendar, days, &mut assumed)?.input;
        let mut load = None;
        for (index, put) in scenario.put_down.iter().enumerate() {
            let Some(day) = site::day_within(calendar, put.date, days) else { continue };
            if index == asked {
                load = Some((Load::of(put, &scenario.place, &scenario.containers, &mut assumed)?, day));
            } else {
                let other = Load::of(put, &scenario.place, &scenario.containers, &mut assumed)?;
                treatment::background(&mut base, &other, put.way, day, index);
            }
        }
        let (load, day) = load.ok_or(ActError::NoLoad)?;
        let site = Site::of(&base).map_err(|error| ActError::Model(error.to_string()))?;
        Ok(Self { scenario, calendar, load, day, base, site, assumed })
    }

    /// Which date is day 0.
    pub(crate) fn calendar(&self) -> Calendar {
        self.calendar
    }

    /// Day on which the load in question is put down.
    pub(crate) fn day(&self) -> u32 {
        self.day
    }

    /// The load in question.
    pub(crate) fn load(&self) -> &Load {
        &self.load
    }

    /// The model's input of a row, and what the row brings.
    pub(crate) fn input(&self, row: Row, load: &Load) -> (Input, treatment::Brought) {
        let mut input = self.base.clone();
        if !row.ranked() {
            input.crops.clear();
        }
        let brought = treatment::lay(&mut input, row, load, self.day);
        (input, brought)
    }

    /// The tests that could be done of the load, the soil and the crop, [`answer::LOOK_AFTER_PLANTING_DAYS`] after both
    /// are there.
    fn tests(&self, input: &Input) -> Vec<Reading> {
        let planted = self.scenario.crops.iter().map(|crop| self.calendar.day(crop.started)).min();
        let from = planted.map_or(self.day, |day| u32::try_from(day).unwrap_or(0)).max(self.day);
        let after = u32::try_from(answer::LOOK_AFTER_PLANTING_DAYS).unwrap_or(0);
        question::tests(input, treatment::LOAD_BATCH, from + after)
    }

    /// Annual crops stand here this season: there is a hungry day.
    fn has_annual(&self) -> bool {
        self.scenario.crops.iter().any(|crop| !site::is_tree(self.scenario, crop))
    }

    fn grows(&self) -> bool {
        !self.scenario.crops.is_empty() && site::grows(self.scenario.place.kind)
    }

    /// Runs an input of this place.
    fn run(&self, input: &Input, sample: &Sample, keep: &[u32]) -> Result<Runs, ActError> {
        self.site.simulate(input, sample, keep).map_err(|error| ActError::Model(error.to_string()))
    }

    /// Crop nitrogen of the median run this season.
    fn median_crop(&self, mut input: Input) -> Result<f64, ActError> {
        input.days = input.days.min(SEASON_DAYS);
        let runs = self.run(&input, &Sample::median(), &[SEASON_DAYS])?;
        Ok(first(&crop_nitrogen(&runs, SEASON_DAYS)))
    }

    /// The season's last day on which a crop can go hungry: that of the last harvest.
    fn last_hungry(&self) -> u32 {
        let harvests = self.base.crops.iter().filter_map(Crop::harvest_day);
        let last = harvests.max().and_then(|day| u32::try_from(day).ok()).unwrap_or(SEASON_DAYS);
        self.base.days.min(SEASON_DAYS).min(last.max(1))
    }

    /// Whether the first run goes hungry this season.
    fn goes_hungry(&self, runs: &Runs) -> bool {
        first(&season_hungry(runs, self.scenario.crops.len())) <= f64::from(self.last_hungry())
    }

    /// Smallest single feed, mixed in on the day of putting down, that keeps the median run from hunger, where it goes
    /// hungry unfed; `None` where even the most that a place takes at once does not.
    fn need(&self, row: Row) -> Result<Option<f64>, ActError> {
        let mut input = self.base.clone();
        input.days = self.last_hungry();
        treatment::lay(&mut input, row, &self.load, self.day);
        let feed = treatment::mixed_in(0.0, self.day);
        let within = (feed::PRACTICAL_LIMIT.value.kg_ha(), FEED_STEP_KG_HA);
        self.site
            .enough(&input, &feed, self.scenario.crops.len(), within)
            .map_err(|error| ActError::Model(error.to_string()))
    }
}

/// How closely a feed is worked out, kg N/ha: no spreader is better (common practice).
const FEED_STEP_KG_HA: f64 = 1.0;

/// The load to decide about: the first whose way is open, else the last.
pub(crate) fn asked_of(scenario: &Scenario) -> Option<usize> {
    scenario
        .put_down
        .iter()
        .position(|put| put.way.is_none())
        .or_else(|| scenario.put_down.len().checked_sub(1))
}

/// Runs an input; the model's refusals become sentences.
pub(crate) fn run(input: &Input, sample: &Sample, keep: &[u32]) -> Result<Runs, ActError> {
    simulate(input, sample, keep).map_err(|error| ActError::Model(error.to_string()))
}

/// A series on a kept day, run by run; nothing where the day was not kept.
pub(crate) fn series(runs: &Runs, which: Series, day: u32) -> &[f64] {
    StageRuns::on(runs.last(), which, day).unwrap_or(&[])
}

pub(crate) fn crop_nitrogen(runs: &Runs, day: u32) -> Vec<f64> {
    runs.last().crop_nitrogen(day).unwrap_or_default()
}

fn first(values: &[f64]) -> f64 {
    values.first().copied().unwrap_or(0.0)
}

/// First hungry day of this season's crops, run by run; infinite where none.
pub(crate) fn season_hungry(runs: &Runs, crops: usize) -> Vec<f64> {
    let mut days = vec![f64::INFINITY; runs.last().runs()];
    for crop in runs.last().crops.iter().take(crops) {
        for (day, own) in days.iter_mut().zip(&crop.hungry_day) {
            *day = day.min(*own);
        }
    }
    days
}

pub(crate) fn less(a: &[f64], b: &[f64]) -> Vec<f64> {
    a.iter().zip(b).map(|(a, b)| a - b).collect()
}

/// The rows that a scenario has, in a fixed order.
pub(crate) fn rows_of(bench: &Bench<'_>) -> Vec<Row> {
    let mut rows = vec![Row::Bare, Row::WorkedIn, Row::OnTop, Row::OverCompost, Row::OverUrine];
    if way::composted_with_manure(&bench.load, way::Wood::of(&bench.load)).is_some() {
        rows.push(Row::CompostedFirst);
    }
    if bench.scenario.place.kind != PlaceKind::Container {
        rows.extend([Row::Path, Row::Ring]);
    }
    rows
}

/// A row with its runs.
struct RowRuns {
    row: Row,
    runs: Runs,
    /// Tests that could be done, which the runs foretell.
    tests: Vec<Reading>,
    brought: treatment::Brought,
    /// The run with every parameter at its median, where something grows.
    median: Option<Runs>,
    /// What keeps the median run from hunger, where hunger is a question.
    need: Option<Need>,
}

/// A feed that keeps the median run from hunger.
#[derive(Clone, Copy)]
enum Need {
    /// So much, kg N/ha; zero where it does not go hungry.
    KgHa(f64),
    /// More than a place takes at once.
    BeyondLimit,
}

/// Runs every row with the same runs for some days, keeps the days that the tables need, and works out what each would
/// have to be fed.
fn run_rows(
    bench: &Bench<'_>,
    rows: &[Row],
    sample: &Sample,
    days: u32,
    keep: &[u32],
) -> Result<Vec<RowRuns>, ActError> {
    side_by_side(rows, |row| {
        let row = *row;
        let (mut input, brought) = bench.input(row, &bench.load);
        input.days = days;
        let grows = bench.grows() && row.ranked();
        let median = if grows { Some(bench.run(&input, &Sample::median(), keep)?) } else { None };
        let need = match &median {
            Some(median) if bench.has_annual() => {
                let needed = if bench.goes_hungry(median) { bench.need(row)? } else { Some(0.0) };
                Some(needed.map_or(Need::BeyondLimit, Need::KgHa))
            }
            _ => None,
        };
        let tests = if row.ranked() && row != Row::Bare { bench.tests(&input) } else { Vec::new() };
        input.readings.clone_from(&tests);
        Ok(RowRuns { row, runs: bench.run(&input, sample, keep)?, tests, brought, median, need })
    })
}

/// Compares every way with nothing put down.
///
/// # Errors
/// A scenario without a load, or one that the model cannot run.
pub fn compare(scenario: &Scenario, reach: Reach, runs: u32, seed: u64) -> Result<Comparison, ActError> {
    let days = match reach {
        Reach::Season => SEASON_DAYS,
        Reach::Answer | Reach::ThreeYears => LONG_DAYS,
    };
    let bench = Bench::new(scenario, days)?;
    let sample = Sample::new(seed, runs);
    let (table_days, keep): (u32, &[u32]) = match reach {
        Reach::Season | Reach::Answer => (SEASON_DAYS, &TIED_DAYS),
        Reach::ThreeYears => (LONG_DAYS, &[28, 60, 150, SEASON_DAYS, 2 * SEASON_DAYS, LONG_DAYS]),
    };
    let mut rows = rows_of(&bench);
    if reach == Reach::Answer {
        rows.retain(|row| row.ranked() || suits(*row, scenario.place.kind));
    }
    let all = run_rows(&bench, &rows, &sample, table_days, keep)?;
    let bare = all.first().ok_or(ActError::NoLoad)?;
    let table = |horizon: u32| -> Vec<WayResult> {
        let mut rows: Vec<WayResult> = all.iter().map(|row| result(&bench, row, bare, horizon)).collect();
        rank(&mut rows);
        rows
    };
    let mut season = table(SEASON_DAYS);
    let row = choose_row(&bench, &season);
    if let (Reach::Answer, Some(advised)) = (reach, season.iter_mut().find(|way| way.row == row)) {
        let release = release_days(&bench, row, &sample)?;
        advised.release_day = Three::of(&release);
        advised.released_share = chance(&release);
    }
    let both = if reach == Reach::ThreeYears { table(2 * SEASON_DAYS) } else { Vec::new() };
    let equal_nitrogen_kg_ha = way::EQUAL_NITROGEN_KG_HA.value;
    let equal = if reach == Reach::ThreeYears && bench.grows() {
        equal_nitrogen(&bench, equal_nitrogen_kg_ha, &sample)?
    } else {
        Vec::new()
    };
    let answer = answer(&bench, row, &season, &all, seed)?;
    let Bench { calendar, load, day, assumed, .. } = bench;
    Ok(Comparison { calendar, load, day, season, both, equal, equal_nitrogen_kg_ha, assumed, answer })
}

/// Whether a way that is not ranked is one for such a place.
fn suits(row: Row, kind: PlaceKind) -> bool {
    match kind {
        PlaceKind::Path | PlaceKind::Yard => row == Row::Path,
        PlaceKind::Rings => row == Row::Ring,
        _ => false,
    }
}

/// The day on which a row lets go, run by run, in the long look.
fn release_days(bench: &Bench<'_>, row: Row, sample: &Sample) -> Result<Vec<f64>, ActError> {
    // Parts of the runs that go side by side, each a multiple of the model's lanes.
    const PARTS: usize = 4;
    const LANES: usize = 8;
    let input = bench.input(row, &bench.load).0;
    let runs: Vec<usize> = (0..sample.runs()).collect();
    let parts: Vec<&[usize]> = runs.chunks(runs.len().div_ceil(PARTS).next_multiple_of(LANES)).collect();
    let days = side_by_side(&parts, |part| {
        let runs = bench.run(&input, &sample.chosen(part), &[LONG_DAYS])?;
        Ok(runs.last().release_day.clone())
    })?;
    Ok(days.concat())
}

/// The ways at the same wood and the same added nitrogen, this season.
///
/// # Errors
/// As [`compare`].
pub(crate) fn equal_nitrogen(
    bench: &Bench<'_>,
    nitrogen_kg_ha: f64,
    sample: &Sample,
) -> Result<Vec<EqualResult>, ActError> {
    EqualWay::ALL
        .iter()
        .map(|equal| {
            let mut input = bench.base.clone();
            input.days = input.days.min(SEASON_DAYS);
            treatment::lay_equal(&mut input, *equal, &bench.load, nitrogen_kg_ha, bench.day);
            let runs = bench.run(&input, sample, &[SEASON_DAYS])?;
            Ok(EqualResult {
                way: *equal,
                crop_nitrogen: Three::of(&crop_nitrogen(&runs, SEASON_DAYS)),
                median_run_kg_ha: bench.median_crop(input)?,
            })
        })
        .collect()
}

/// The ways at equal nitrogen of a scenario, for whoever wants that table alone.
///
/// # Errors
/// As [`compare`].
pub fn at_equal_nitrogen(
    scenario: &Scenario,
    nitrogen_kg_ha: f64,
    runs: u32,
    seed: u64,
) -> Result<Vec<EqualResult>, ActError> {
    equal_nitrogen(&Bench::new(scenario, SEASON_DAYS)?, nitrogen_kg_ha, &Sample::new(seed, runs))
}

fn result(bench: &Bench<'_>, row: &RowRuns, bare: &RowRuns, horizon: u32) -> WayResult {
    let RowRuns { row, ref runs, ref brought, ref median, need, .. } = *row;
    let feed = need.map(|need| feed_need(bare.need.unwrap_or(Need::BeyondLimit), need));
    let bare = &bare.runs;
    let grows = bench.grows() && row.ranked();
    let crop = crop_nitrogen(runs, horizon);
    let hungry = season_hungry(runs, bench.scenario.crops.len());
    let annual = grows && bench.has_annual();
    let release = &runs.last().release_day;
    let allowed = allowed(bench.scenario, row);
    WayResult {
        row,
        crop_nitrogen: grows.then(|| Three::of(&crop)),
        lost: grows.then(|| Three::of(&less(&crop_nitrogen(bare, horizon), &crop))),
        tied: TIED_DAYS.iter().map(|day| (*day, Three::of(series(runs, Series::Tied, *day)))).collect(),
        leached: Three::of(series(runs, Series::Leached, horizon)),
        leached_less: Three::of(&less(
            series(bare, Series::Leached, horizon),
            series(runs, Series::Leached, horizon),
        )),
        hungry_day: annual.then(|| Three::of(&hungry)),
        chance_hungry: annual.then(|| chance(&hungry)),
        release_day: Three::of(release),
        released_share: chance(release),
        feed,
        brought_kg_ha: brought.nitrogen_kg_ha,
        median_run_kg_ha: median.as_ref().map(|median| first(&crop_nitrogen(median, horizon))),
        assumed: way::assumed(row, brought.composted.as_ref()),
        cautions: crate::cautions::of_row(bench.scenario, row, &bench.load),
        doable: allowed && doable(bench, row),
        allowed,
    }
}

/// The split of a feed: what the bare place would need is for the crop anyway.
fn feed_need(bare: Need, way: Need) -> FeedNeed {
    let kg_ha = |need: Need| match need {
        Need::KgHa(kg_ha) => kg_ha,
        Need::BeyondLimit => feed::PRACTICAL_LIMIT.value.kg_ha(),
    };
    let needed = kg_ha(way);
    let crop = kg_ha(bare).min(needed);
    FeedNeed { crop, wood: needed - crop, beyond_limit: matches!(way, Need::BeyondLimit) }
}

/// Human urine stays off where food is sold or certified until the grower has confirmed that local rules allow it.
pub(crate) fn allowed(scenario: &Scenario, row: Row) -> bool {
    let holding = &scenario.holding;
    row != Row::OverUrine || holding.urine_confirmed || !(holding.sells || holding.certified)
}

/// Whether a way can be done by its date with what is at hand. Urine only where it is at hand or confirmed; a heap
/// only where there are months enough before planting; finished compost can be bought.
pub(crate) fn doable(bench: &Bench<'_>, row: Row) -> bool {
    doable_on(bench.scenario, bench.calendar.date(f64::from(bench.day)), row)
}

/// The same for a load of a date.
pub(crate) fn doable_on(scenario: &Scenario, put_down: NaiveDate, row: Row) -> bool {
    let holding = &scenario.holding;
    match row {
        Row::OverUrine => {
            holding.urine_confirmed
                || holding.at_hand.iter().any(|name| site::find_feed(name).is_ok_and(Feed::is_urine))
        }
        Row::CompostedFirst => months_before_planting(scenario, put_down) >= way::HEAP_MONTHS.value,
        _ => true,
    }
}

fn months_before_planting(scenario: &Scenario, put_down: NaiveDate) -> f64 {
    /// Days of a mean month.
    const MONTH: f64 = 30.44;
    scenario
        .crops
        .iter()
        .map(|crop| crop.started)
        .filter(|started| *started >= put_down)
        .min()
        .map_or(0.0, |planted| (planted - put_down).num_days() as f64 / MONTH)
}

/// Bare first; then more crop nitrogen, less chance of hunger, less feed; path and ring last.
fn rank(rows: &mut [WayResult]) {
    let key = |row: &WayResult| {
        let group = match row.row {
            Row::Bare => 0,
            ranked if ranked.ranked() => 1,
            _ => 2,
        };
        let feed = row.feed.map_or(0.0, |feed| feed.crop + feed.wood);
        (group, -row.crop_nitrogen.map_or(0.0, Three::middle), row.chance_hungry.unwrap_or(0.0), feed)
    };
    rows.sort_by(|a, b| {
        let (a, b) = (key(a), key(b));
        a.0.cmp(&b.0).then(a.1.total_cmp(&b.1)).then(a.2.total_cmp(&b.2)).then(a.3.total_cmp(&b.3))
    });
}

fn answer(
    bench: &Bench<'_>,
    row: Row,
    season: &[WayResult],
    all: &[RowRuns],
    seed: u64,
) -> Result<Answer, ActError> {
    let scenario = bench.scenario;
    let chosen = season.iter().find(|way| way.row == row).ok_or(ActError::NoLoad)?;
    let bare_row = season.iter().find(|way| way.row == Row::Bare).ok_or(ActError::NoLoad)?;
    let runs_of = |row| all.iter().find(|other| other.row == row).ok_or(ActError::NoLoad);
    let (bare, RowRuns { runs, brought, tests, .. }) = (runs_of(Row::Bare)?, runs_of(row)?);
    let date = |day: Option<f64>| day.map(|day| bench.calendar.date(day));
    let put_down = bench.calendar.date(f64::from(bench.day));
    let hungry = chosen.hungry_day;
    let planted = scenario.crops.iter().map(|crop| crop.started).min();
    let outcome = outcome(bench, runs, &bare.runs);
    let least_known = least_known(bench, runs, &outcome);
    let unknown = question::pieces_unknown(scenario);
    let questions = question::ask(runs, tests, &outcome, unknown, seed);
    Ok(Answer {
        row,
        amount: amount(bench, row, brought)?,
        give: give(bench, chosen)?,
        look: answer::look(put_down, planted, hungry.and_then(|day| date(day.p10)), put_down),
        not: not(bench, row, chosen)?,
        cost: cost(bench, chosen, bare_row),
        least_known,
        question: questions.first().copied().filter(|best| best.narrower >= question::WORTH_ASKING),
        if_you_can_wait: better(bench, chosen, season),
        upward_flux: upward_flux(bench, row, least_known)?,
    })
}

fn choose_row(bench: &Bench<'_>, season: &[WayResult]) -> Row {
    match bench.scenario.place.kind {
        PlaceKind::Path | PlaceKind::Yard => Row::Path,
        _ => answer::choose(season).unwrap_or(Row::OnTop),
    }
}

/// Deepest layer of a kind of piece, mm: fine sawdust mats and sheds water beyond 5 cm (Purdue, Lerner); chips to
/// 10 cm (Iowa State University Extension); shavings and chunks as chips (common practice).
pub(crate) fn deepest_mm(particle: Particle) -> f64 {
    match particle {
        Particle::Dust => 50.0,
        Particle::Shavings | Particle::Chips | Particle::Chunks => 100.0,
    }
}

fn amount(bench: &Bench<'_>, row: Row, brought: &treatment::Brought) -> Result<answer::Amount, ActError> {
    let scenario = bench.scenario;
    let load = &bench.load;
    let most = if row.is_mulch() {
        let depth = match row {
            Row::Path => way::PATH_DEPTH_CM.value * 10.0,
            Row::Ring => way::RING_DEPTH_CM.value * 10.0,
            _ => deepest_mm(load.particle),
        };
        Some(load.dry * (depth / load.depth.mm()))
    } else if row == Row::WorkedIn {
        crate::dose::most_dry(load).map(|dose| scenario.place.area.mass_of(dose))
    } else {
        None
    };
    let less_than_load = most.is_some_and(|most| most.kg() < load.dry.kg());
    let used = match most {
        Some(most) if less_than_load => load.clone().of_dry(most, scenario.place.area)?,
        _ => load.clone(),
    };
    let finished_kg = brought.composted.map(|made| made.dry_t_ha / 10.0 * scenario.place.area.m2());
    Ok(answer::Amount {
        dry_kg: used.dry.kg(),
        wet_kg: used.wet.kg(),
        litres: used.loose.litres(),
        depth_mm: used.depth.mm(),
        counted: used.counted(&scenario.containers),
        less_than_load,
        finished_dry_kg: finished_kg,
    })
}

fn give(bench: &Bench<'_>, chosen: &WayResult) -> Result<Give, ActError> {
    let saved = chosen.leached_less.middle();
    let lost = chosen.lost.map_or(0.0, Three::middle);
    if saved >= answer::CATCHING_NITRATE_KG_HA && saved > lost {
        return Ok(Give::NothingCatchingNitrate { saved_kg_ha: saved });
    }
    let Some(need) = chosen.feed else { return Ok(Give::Nothing) };
    if need.wood < answer::LEAST_FEED_KG_HA {
        return Ok(Give::Nothing);
    }
    let source = source_at_hand(bench.scenario)?;
    let area = bench.scenario.place.area;
    let nitrogen = kerfbook_science::units::AreaMass::from_kg_ha(need.wood);
    let (product, liquid) = match source.amount_for(area.mass_of(nitrogen)) {
        feed::Amount::Product(mass) => (mass.kg(), false),
        feed::Amount::Liquid(volume) => (volume.litres(), true),
    };
    Ok(Give::Feed {
        crop_kg_ha: need.crop,
        wood_kg_ha: need.wood,
        source: source.name,
        product,
        liquid,
        most: need.beyond_limit,
    })
}

/// The feed to name: the first at hand that is allowed, else the usual one (common practice): feather meal where only
/// organic sources are allowed, ammonium sulfate elsewhere.
pub(crate) fn source_at_hand(scenario: &Scenario) -> Result<&'static Feed, ActError> {
    for name in &scenario.holding.at_hand {
        let found = site::find_feed(name)?;
        let urine_off = found.is_urine()
            && (scenario.holding.sells || scenario.holding.certified)
            && !scenario.holding.urine_confirmed;
        if (found.organic || !scenario.holding.certified) && !urine_off {
            return Ok(found);
        }
    }
    site::find_feed(if scenario.holding.certified { "feather meal" } else { "ammonium sulfate" })
}

fn not(bench: &Bench<'_>, row: Row, chosen: &WayResult) -> Result<Not, ActError> {
    if !bench.grows() || !row.ranked() {
        return Ok(Not::AgainstStems);
    }
    let now = chosen.median_run_kg_ha.unwrap_or(0.0);
    let twice = bench.load.clone().of_dry(bench.load.dry * 2.0, bench.scenario.place.area)?;
    let again = now - bench.median_crop(bench.input(row, &twice).0)?;
    let dug = if row.is_mulch() {
        let mut input = bench.input(row, &bench.load).0;
        input.events.push(treatment::dug_in(bench.day + DUG_IN_AFTER_DAYS));
        Some(now - bench.median_crop(input)?)
    } else {
        None
    };
    Ok(match dug {
        Some(dug) if dug >= again && dug >= answer::NO_DIFFERENCE_KG_HA => Not::DigIn { costs_kg_ha: dug },
        _ if again >= answer::NO_DIFFERENCE_KG_HA => Not::SameAgain { costs_kg_ha: again },
        _ => Not::AgainstStems,
    })
}

/// A layer is dug in this long after it was laid, when one asks what that would cost (assumption).
const DUG_IN_AFTER_DAYS: u32 = 20;

fn cost(bench: &Bench<'_>, chosen: &WayResult, bare: &WayResult) -> Cost {
    let scenario = bench.scenario;
    let date = |three: Option<Three>| three.and_then(|days| days.p50).map(|day| bench.calendar.date(day));
    let trees = scenario.crops.iter().find(|crop| site::is_tree(scenario, crop)).and_then(|crop| crop.plants);
    let per_tree = trees.filter(|count| *count > 0).map(|count| {
        // kg/ha on so many square metres a tree is a tenth of a gram.
        scenario.place.area.m2() / f64::from(count) * 0.1
    });
    let per_litre = scenario.place.container.map(|_| 10.0 / site::depth(scenario).cm());
    let tied_60 =
        chosen.tied.iter().find(|(day, _)| *day == 60).map_or_else(|| Three::of(&[0.0]), |(_, tied)| *tied);
    Cost {
        lost_kg_ha: chosen.lost,
        lost_g_tree: chosen.lost.zip(per_tree).map(|(lost, factor)| lost.times(factor)),
        lost_mg_litre: chosen.lost.zip(per_litre).map(|(lost, factor)| lost.times(factor)),
        hungry: date(chosen.hungry_day),
        hungry_bare: date(bare.hungry_day),
        tied_60_kg_ha: tied_60,
        annual: chosen.hungry_day.is_some(),
        release: match chosen.release_day.p50 {
            _ if chosen.tied.iter().all(|(_, tied)| tied.middle() <= 0.0) => Release::Gives,
            Some(day) => Release::By(bench.calendar.date(day)),
            None => Release::NotWithin { days: bench.base.days, share: chosen.released_share },
        },
    }
}

/// What the answer hangs on, run by run: crop nitrogen lost; tie-up where nothing grows.
fn outcome(bench: &Bench<'_>, runs: &Runs, bare: &Runs) -> Vec<f64> {
    if bench.grows() {
        less(&crop_nitrogen(bare, SEASON_DAYS), &crop_nitrogen(runs, SEASON_DAYS))
    } else {
        series(runs, Series::Tied, SEASON_DAYS).to_vec()
    }
}

/// The input that moves the outcome most, by rank over the runs.
fn least_known(bench: &Bench<'_>, runs: &Runs, outcome: &[f64]) -> &'static str {
    let unknown_wood = bench.load.composition.iter().any(|part| part.one_of.len() > 1);
    let (outcome, mut most) = (Ranks::of(outcome), (0.0, "other"));
    for drawn in runs.parameters() {
        let name = match drawn.name {
            DrawnName::Global(global) => global.parameter().name,
            DrawnName::Layer { parameter, .. } => parameter.name(),
        };
        let strength = Ranks::of(&drawn.values).correlation(&outcome).unwrap_or(0.0).abs();
        if strength > most.0 {
            most = (strength, answer::input_behind(name, unknown_wood));
        }
    }
    most.1
}

/// The median run at both ends of the upward flux, where it is what moves the cost of a mulch most.
fn upward_flux(
    bench: &Bench<'_>,
    row: Row,
    least_known: &str,
) -> Result<Option<answer::UpwardFlux>, ActError> {
    if !row.is_mulch() || !bench.grows() || least_known != "upward-flux" {
        return Ok(None);
    }
    let bare = bench.median_crop(bench.base.clone())?;
    let (low, high) = UPWARD_FLUX_ENDS;
    let cost_at = |umax: f64| -> Result<f64, ActError> {
        let mut input = bench.input(row, &bench.load).0;
        input.fixed_parameters.insert("umax".to_owned(), umax);
        Ok(bare - bench.median_crop(input)?)
    };
    Ok(Some(answer::UpwardFlux { low_kg_ha: cost_at(low)?, high_kg_ha: cost_at(high)? }))
}

/// Both ends of the upward flux in the model's parameters, kg N/ha a day at 15 °C (assumption; bounds after Frey et al.
/// 2000 and Lloyd et al. 2003).
const UPWARD_FLUX_ENDS: (f64, f64) = (0.03, 0.25);

fn better(bench: &Bench<'_>, chosen: &WayResult, season: &[WayResult]) -> Option<Better> {
    let composted = season.iter().find(|way| way.row == Row::CompostedFirst && !way.doable)?;
    let more = composted.crop_nitrogen?.middle() - chosen.crop_nitrogen?.middle();
    let made = way::composted_with_manure(&bench.load, way::Wood::of(&bench.load))?;
    (more >= answer::NO_DIFFERENCE_KG_HA).then(|| Better {
        row: Row::CompostedFirst,
        more_kg_ha: more,
        manure_wet_kg: made.manure_dry_t_ha / 10.0 * bench.scenario.place.area.m2()
            / (1.0 - way::MANURE_MOISTURE.value),
        months: way::HEAP_MONTHS.value,
        brought_kg_ha: made.brought_kg_ha,
    })
}

/// The date of a day of a comparison.
pub fn date_of(comparison: &Comparison, day: Option<f64>) -> Option<NaiveDate> {
    day.map(|day| comparison.calendar.date(day))
}
