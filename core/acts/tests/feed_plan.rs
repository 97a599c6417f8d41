//! Feed plans over seeded random places: each, put back through the engine by the way of the forecast, keeps the chance;
//! none breaks a limit; none has a feed that could be left out or made a step smaller.

#![allow(
    clippy::unwrap_used,
    clippy::print_stdout,
    reason = "a test says what it found and stops where it fails"
)]

mod site;

use chrono::{Days, NaiveDate};
use kerfbook_acts::calendar::Calendar;
use kerfbook_acts::compare::{RUNS, SEASON_DAYS};
use kerfbook_acts::feed_plan::{self, FeedPlan, Outcome, SourcePlan, Terms, Tight, Why};
use kerfbook_acts::forecast;
use kerfbook_acts::scenario::{
    Again, Amount, Appetite, Crop, CropNeed, Fate, Feed, FeedAmount, LoadAnswers, Measured, Placed, PutDown,
    Scenario, Way,
};
use kerfbook_science::crop;
use kerfbook_science::feed;
use kerfbook_science::limit;
use kerfbook_science::nitrogen::{Sample, chance, simulate, uniform};
use kerfbook_science::units::{Area, AreaMass, Length, Mass, Share, Volume};

/// Numbers of one random place, keyed by its number.
struct Chance {
    place: u64,
    drawn: u64,
}

impl Chance {
    fn unit(&mut self) -> f64 {
        self.drawn += 1;
        uniform(4711, self.place, self.drawn)
    }
    fn within(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.unit()
    }
    fn whole(&mut self, low: u32, high: u32) -> u32 {
        let value = self.within(f64::from(low), f64::from(high) + 1.0).floor();
        (low..=high).find(|whole| f64::from(*whole) >= value).unwrap_or(high)
    }
    fn one_of<T: Copy>(&mut self, values: &[T]) -> T {
        values[self.whole(0, u32::try_from(values.len()).unwrap() - 1) as usize]
    }
}

/// A place somewhere, with a crop or two, a load or none, in some way, and perhaps a feed already given.
fn random_place(place: u64) -> (Scenario, Terms) {
    let mut chance = Chance { place, drawn: 0 };
    let c = &mut chance;
    let mut scenario = site::golden_site(10.0);
    let first = NaiveDate::from_ymd_opt(2026, 1, 1).unwrap() + Days::new(u64::from(c.whole(0, 364)));
    let (mean, swing) = (c.within(6.0, 24.0), c.within(0.0, 11.0));
    let hemisphere = c.one_of(&[1.0, -1.0]);
    let wave = [-1.0, -0.667, -0.333, 0.0, 0.333, 0.667, 1.0, 0.667, 0.333, 0.0, -0.333, -0.667];
    let weather = &mut scenario.weather;
    weather.month_mean_c = wave.map(|w| mean + swing * hemisphere * w);
    weather.month_rain_mm = wave.map(|_| c.within(0.0, 140.0));
    weather.month_et0_mm_day = Some(weather.month_mean_c.map(|t| f64::max(0.2, 0.5 + 0.18 * t.max(0.0))));
    weather.cover = c.unit() < 0.15;
    weather.watered_enough = c.unit() < 0.4;
    let soil = &mut scenario.soil;
    soil.organic_matter = Share::from_percent(c.within(0.8, 7.0));
    soil.mineral_nitrogen = Some(AreaMass::from_kg_ha(c.within(5.0, 160.0)));
    soil.available_water = Some(Length::from_mm(c.within(25.0, 80.0)));
    soil.field_capacity = Some(Length::from_mm(c.within(90.0, 130.0)));
    scenario.place.area = Area::from_m2(c.one_of(&[0.6, 4.0, 12.5, 40.0, 900.0, 20_000.0]));
    let names = ["cabbage", "lettuce", "sweet corn", "beans", "peas", "vegetable", "carrots", "wheat"];
    scenario.crops.clear();
    let mut start = first + Days::new(u64::from(c.whole(0, 30)));
    for _ in 0..c.one_of(&[1, 1, 2]) {
        let ended = start + Days::new(u64::from(c.whole(50, 150)));
        let name = c.one_of(&names);
        let fixed = crop::find(name).exact().map_or(0.0, |found| found.fixed);
        scenario.crops.push(Crop {
            name: name.to_owned(),
            need: match c.whole(0, 3) {
                0 => CropNeed::Appetite(c.one_of(&[Appetite::Light, Appetite::Middling, Appetite::Hungry])),
                _ => CropNeed::Annual(AreaMass::from_kg_ha(c.within(40.0, 240.0))),
            },
            started: start,
            ended,
            midpoint_day: None,
            fixed: Share::from_fraction(fixed),
            plants: None,
            fate: c.one_of(&[Fate::CarriedOff, Fate::CarriedOff, Fate::DugIn, Fate::Mown]),
            harvested: true,
            again: c.one_of(&[Again::Never, Again::EveryYear { until: None }]),
        });
        start = ended + Days::new(u64::from(c.whole(1, 20)));
    }
    let materials =
        ["hardwood sawdust", "pine shavings", "wood chips", "softwood bark", "unknown wood", "paja"];
    scenario.put_down = (0..c.one_of(&[0, 1, 1, 1, 2]))
        .map(|_| PutDown {
            date: first + Days::new(u64::from(c.whole(0, 25))),
            material: c.one_of(&materials).to_owned(),
            way: c.one_of(&[
                None,
                Some(Way::WorkedIn),
                Some(Way::WorkedIn),
                Some(Way::OnTop),
                Some(Way::OnTopOverNitrogen),
            ]),
            particle: None,
            // Small loads more often than large ones.
            amount: Amount::DryPerArea(AreaMass::from_t_ha(1.0 + 39.0 * c.unit() * c.unit())),
            moisture: None,
            moisture_half: None,
            carbon_nitrogen: None,
            bulk_density: None,
            measured: Measured::default(),
            settling: None,
            kept: None,
            answers: LoadAnswers::default(),
        })
        .collect();
    scenario.put_down.sort_by_key(|put| put.date);
    let sources = [
        "urea",
        "ammonium sulfate",
        "calcium nitrate",
        "human urine",
        "cattle manure",
        "poultry litter",
        "blood meal",
        "finished compost",
    ];
    if c.unit() < 0.3 {
        scenario.feeds.push(Feed {
            date: first + Days::new(u64::from(c.whole(0, 40))),
            source: c.one_of(&sources).to_owned(),
            amount: FeedAmount::Nitrogen(AreaMass::from_kg_ha(c.within(10.0, 120.0))),
            placed: c.one_of(&[Placed::Mixed, Placed::Top]),
            with_layer: false,
        });
    }
    scenario.holding.certified = c.unit() < 0.1;
    let rules = ["eu-nitrates", "england-nvz", "germany", "us-organic", "who-2006"];
    let terms = Terms {
        chance: c.one_of(&[0.05, 0.1, 0.2, 0.2, 0.5]),
        sources: vec![c.one_of(&sources[..4]).to_owned(), c.one_of(&sources[4..]).to_owned()],
        rules: (0..c.whole(0, 2)).map(|_| c.one_of(&rules).to_owned()).collect(),
        not_before: (c.unit() < 0.2).then(|| first + Days::new(20)),
        ..Terms::default()
    };
    (scenario, terms)
}

/// The scenario with doses of a plan, each less some steps, given as products: as a person would write them down.
fn put_back(scenario: &Scenario, plan: &SourcePlan, fewer: &[f64]) -> Scenario {
    let mut scenario = scenario.clone();
    for (planned, fewer) in plan.feeds.iter().zip(fewer) {
        let amount = match (planned.amount, plan.step.amount) {
            (feed::Amount::Product(mass), feed::Amount::Product(step)) => {
                FeedAmount::Product(Mass::from_g(mass.g() - fewer * step.g()))
            }
            (feed::Amount::Liquid(volume), feed::Amount::Liquid(step)) => {
                FeedAmount::Liquid(Volume::from_litres(volume.litres() - fewer * step.litres()))
            }
            _ => unreachable!("a plan has one measure"),
        };
        scenario.feeds.push(Feed {
            date: planned.date,
            source: plan.source.name.to_owned(),
            amount,
            placed: planned.placed,
            with_layer: false,
        });
    }
    scenario.feeds.sort_by_key(|feed| feed.date);
    scenario
}

/// Share of the runs that goes hungry, by the input of the forecast: the scenario read anew.
fn chance_of(scenario: &Scenario) -> f64 {
    let last = scenario.crops.iter().map(|crop| crop.ended).max().unwrap();
    let first = Calendar::of(scenario).unwrap();
    let days = SEASON_DAYS.max(u32::try_from(first.day(last)).unwrap() + 1);
    let (_, input, _) = forecast::inputs(scenario, days, &mut Vec::new()).unwrap();
    let runs = simulate(&input, &Sample::new(1, RUNS), &[]).unwrap();
    let mut hungry = vec![f64::INFINITY; runs.last().runs()];
    for crop in runs.last().crops.iter().take(scenario.crops.len()) {
        for (first, own) in hungry.iter_mut().zip(&crop.hungry_day) {
            *first = f64::min(*first, *own);
        }
    }
    chance(&hungry)
}

/// Steps of each feed.
fn steps(plan: &SourcePlan) -> Vec<f64> {
    plan.feeds.iter().map(|feed| (feed.nitrogen_kg_ha / plan.step.kg_ha).round()).collect()
}

fn keeps_its_limits(scenario: &Scenario, found: &FeedPlan, plan: &SourcePlan) -> Result<(), String> {
    let given = |kg_ha: &mut f64, from: NaiveDate, until: NaiveDate, counts: Option<limit::Counts>| {
        for fed in &scenario.feeds {
            let source = feed::find(&fed.source).exact().unwrap();
            let counted = counts.is_none_or(|counts| counts.takes(limit::Origin::of(source)));
            if let FeedAmount::Nitrogen(nitrogen) = fed.amount
                && counted
                && (from..until).contains(&fed.date)
            {
                *kg_ha += nitrogen.kg_ha();
            }
        }
    };
    for fed in &plan.feeds {
        let mut once = fed.nitrogen_kg_ha;
        given(&mut once, fed.date, fed.date + Days::new(1), None);
        if once > 120.0 + 1e-6 {
            return Err(format!("{once} kg/ha at once"));
        }
        for grown in scenario.crops.iter().filter(|grown| grown.ended >= fed.date) {
            let edible =
                crop::find(&grown.name).exact().map_or(crop::Edible::TouchesSoil, |found| found.edible);
            let gap = (grown.ended - fed.date).num_days();
            if gap < i64::from(plan.source.wait.days(edible)) {
                return Err(format!("{gap} days before harvest"));
            }
        }
    }
    let mut season = plan.nitrogen_kg_ha();
    let first = found.calendar.first();
    let end = scenario.crops.iter().map(|grown| grown.ended).max().unwrap();
    given(&mut season, first, end + Days::new(1), None);
    if !plan.feeds.is_empty() && season > 240.0 + 1e-6 {
        return Err(format!("{season} kg/ha in a season"));
    }
    for limit in &found.limits {
        let limit::Bound::Nitrogen { counts, most, months } = limit.bound else { continue };
        if !counts.takes(limit::Origin::of(plan.source)) || plan.feeds.is_empty() {
            continue;
        }
        // All of the plan and of what was given lies within a year or so: the longest stretch holds all of it.
        let mut year = plan.nitrogen_kg_ha();
        let days = u64::from(months) * 30;
        given(&mut year, first, first + Days::new(days), Some(counts));
        let last = plan.feeds.last().unwrap().date;
        if last < first + Days::new(days) && year > most.kg_ha() + 1e-6 {
            return Err(format!("{year} kg/ha against {limit:?}"));
        }
    }
    Ok(())
}

/// What is wrong with a plan, where something is.
fn check(scenario: &Scenario, found: &FeedPlan, plan: &SourcePlan, share: f64) -> Result<(), String> {
    keeps_its_limits(scenario, found, plan)?;
    let whole = vec![0.0; plan.feeds.len()];
    let back = chance_of(&put_back(scenario, plan, &whole));
    match &plan.outcome {
        Outcome::NotAllowed => return if plan.feeds.is_empty() { Ok(()) } else { Err("planned".into()) },
        Outcome::Nothing(_) | Outcome::Kept if back > share => {
            return Err(format!("put back, {back} go hungry"));
        }
        Outcome::Limited(_) if back <= share => return Err(format!("put back, only {back} go hungry")),
        _ => {}
    }
    if plan.chance.is_some_and(|chance| (chance - back).abs() > 1e-12) {
        return Err(format!("{:?} was said, {back} go hungry", plan.chance));
    }
    let split = plan.crop_kg_ha + plan.wood_kg_ha - plan.nitrogen_kg_ha();
    if split.abs() > 1e-9 {
        return Err(format!("the split is off by {split}"));
    }
    if plan.outcome != Outcome::Kept {
        return Ok(());
    }
    for (at, own) in steps(plan).into_iter().enumerate() {
        for fewer in [own, 1.0] {
            let mut less = whole.clone();
            less[at] = fewer;
            let mut without = put_back(scenario, plan, &less);
            without.feeds.retain(|feed| match feed.amount {
                FeedAmount::Nitrogen(_) => true,
                FeedAmount::Product(mass) => mass.g() > 1e-6,
                FeedAmount::Liquid(volume) => volume.litres() > 1e-9,
            });
            let chance = chance_of(&without);
            if chance <= share {
                return Err(format!("feed {at} can do with {fewer} of {own} steps less: {chance}"));
            }
        }
    }
    Ok(())
}

#[test]
fn plans_keep_the_chance_and_the_limits_and_have_nothing_to_spare() {
    let (mut failed, mut counts) = (Vec::new(), std::collections::BTreeMap::<String, u32>::new());
    let long = std::env::var("KERFBOOK_LONG").is_ok_and(|long| long == "1");
    for place in 0..if long { 500 } else { 32 } {
        let (scenario, terms) = random_place(place);
        let found = feed_plan::plan(&scenario, &terms).unwrap();
        for plan in &found.sources {
            let kind = match &plan.outcome {
                Outcome::Kept => format!("kept by {} feeds", plan.feeds.len()),
                Outcome::Limited(_) => "limited".to_owned(),
                other => format!("{other:?}"),
            };
            *counts.entry(kind).or_default() += 1;
            if let Err(why) = check(&scenario, &found, plan, terms.chance) {
                failed.push(format!("place {place}, {}: {why}", plan.source.name));
            }
        }
    }
    println!("{counts:?}");
    assert!(failed.is_empty(), "{} failed:\n{}", failed.len(), failed.join("\n"));
    let kept: u32 = counts.iter().filter(|(kind, _)| kind.starts_with("kept")).map(|(_, count)| count).sum();
    assert!(kept >= 15, "too few plans to tell: {counts:?}");
    assert!(counts.get("limited").is_some_and(|count| *count >= 5), "{counts:?}");
}

fn planned(scenario: &Scenario, sources: &[&str], rules: &[&str]) -> FeedPlan {
    let names = |names: &[&str]| names.iter().map(|name| (*name).to_owned()).collect();
    let terms = Terms { sources: names(sources), rules: names(rules), ..Terms::default() };
    feed_plan::plan(scenario, &terms).unwrap()
}

fn worked_in(dry_t_ha: f64) -> Scenario {
    let mut scenario = site::golden_site(dry_t_ha);
    scenario.put_down[0].way = Some(Way::WorkedIn);
    scenario
}

#[test]
fn the_same_terms_give_the_same_plan() {
    let plan = || planned(&worked_in(5.0), &["urea", "blood meal"], &["eu-nitrates"]);
    assert_eq!(plan(), plan());
}

#[test]
fn the_wood_adds_to_what_the_crop_wants_anyway() {
    let mut bare = worked_in(5.0);
    bare.put_down.clear();
    let anyway = planned(&bare, &["ammonium sulfate"], &[]);
    let with = planned(&worked_in(5.0), &["ammonium sulfate"], &[]);
    let (anyway, with) = (&anyway.sources[0], &with.sources[0]);
    assert_eq!(anyway.outcome, Outcome::Kept);
    assert!((anyway.wood_kg_ha, anyway.spared_kg_ha) == (0.0, 0.0));
    assert!((with.crop_kg_ha - anyway.nitrogen_kg_ha()).abs() < 1e-9, "{with:?}");
    assert!(with.wood_kg_ha > 20.0, "5 t/ha of hardwood dust hold more: {}", with.wood_kg_ha);
    let fate = with.fate.unwrap();
    let parts = [fate.crop, fate.leached, fate.ammonia_runs, fate.denitrified].map(|part| part.p50.unwrap());
    assert!(
        parts.iter().all(|part| (-1e-9..1.0).contains(part)) && parts.iter().sum::<f64>() < 1.05,
        "{fate:?}"
    );
    assert!((fate.ammonia.low, fate.ammonia.high) == (0.0, 0.03), "mixed in: {:?}", fate.ammonia);
}

#[test]
fn rich_soil_and_beans_are_given_nothing() {
    let mut rich = worked_in(2.0);
    rich.soil.mineral_nitrogen = Some(AreaMass::from_kg_ha(250.0));
    let plan = planned(&rich, &["urea"], &[]);
    assert_eq!(plan.sources[0].outcome, Outcome::Nothing(Why::Enough));
    assert!(plan.sources[0].feeds.is_empty() && plan.another.is_none());
    let mut beans = worked_in(2.0);
    beans.crops[0].fixed = Share::from_percent(90.0);
    assert_eq!(planned(&beans, &["urea"], &[]).sources[0].outcome, Outcome::Nothing(Why::Legume));
    let mut bare = worked_in(2.0);
    bare.crops.clear();
    assert_eq!(planned(&bare, &["urea"], &[]).sources[0].outcome, Outcome::Nothing(Why::NothingGrows));
}

#[test]
fn too_much_wood_is_never_met_by_a_larger_dose() {
    let plan = planned(&worked_in(40.0), &["urea"], &[]);
    let urea = &plan.sources[0];
    assert!(
        matches!(&urea.outcome, Outcome::Limited(tight) if tight.contains(&Tight::InASeason)),
        "{urea:?}"
    );
    assert!(urea.nitrogen_kg_ha() <= 240.0 + 1e-9 && urea.chance.unwrap() > plan.chance);
    assert!(plan.another.is_some());
}

#[test]
fn chosen_rules_bind_and_what_was_given_counts() {
    let mut scenario = worked_in(5.0);
    scenario.crops[0].ended = scenario.crops[0].started + Days::new(240);
    scenario.feeds.push(Feed {
        date: site::first_day(),
        source: "horse manure".into(),
        amount: FeedAmount::Nitrogen(AreaMass::from_kg_ha(100.0)),
        placed: Placed::Mixed,
        with_layer: false,
    });
    let free = planned(&scenario, &["poultry litter"], &[]);
    assert!(free.rules.is_empty() && free.limits.is_empty());
    let bound = planned(&scenario, &["poultry litter"], &["eu-nitrates", "us-organic"]);
    assert_eq!(bound.rules, ["eu-nitrates", "us-organic"]);
    let litter = &bound.sources[0];
    assert!(litter.nitrogen_kg_ha() <= 70.0 + 1e-9, "{}", litter.nitrogen_kg_ha());
    let ruled = |tight: &Tight| matches!(tight, Tight::Rule(limit) if limit.rules == "eu-nitrates");
    assert!(matches!(&litter.outcome, Outcome::Limited(tight) if tight.iter().any(ruled)), "{litter:?}");
    // Where what is eaten may touch the soil: 120 days before the harvest.
    assert_eq!(litter.days_to_harvest, 120);
    assert_eq!(litter.last_day, scenario.crops[0].ended.checked_sub_days(Days::new(120)));
    // Meals are no manure.
    let meal = planned(&scenario, &["feather meal"], &["eu-nitrates"]);
    assert!(meal.sources[0].nitrogen_kg_ha() > 70.0 || meal.sources[0].outcome == Outcome::Kept);
}

#[test]
fn manure_comes_too_late_for_a_short_crop() {
    let mut scenario = worked_in(5.0);
    scenario.crops[0].ended = scenario.crops[0].started + Days::new(80);
    let plan = planned(&scenario, &["cattle manure", "urea"], &[]);
    let manure = &plan.sources[0];
    assert!(manure.feeds.is_empty() && manure.last_day.is_none());
    assert!(matches!(&manure.outcome, Outcome::Limited(tight) if tight.contains(&Tight::DaysToHarvest)));
    assert_eq!(plan.first().map(|first| first.source.name), Some("urea"));
}

#[test]
fn a_certified_holding_plans_with_what_it_may_use() {
    let mut scenario = worked_in(2.0);
    scenario.holding.certified = true;
    let plan = planned(&scenario, &["urea", "human urine", "feather meal"], &[]);
    let outcomes: Vec<bool> =
        plan.sources.iter().map(|source| source.outcome == Outcome::NotAllowed).collect();
    assert_eq!(outcomes, [true, true, false]);
    assert_eq!(plan.first().map(|first| first.source.name), Some("feather meal"));
}

#[test]
fn a_feed_goes_under_a_layer_that_lies_there() {
    let mut scenario = worked_in(5.0);
    scenario.put_down[0].way = Some(Way::OnTop);
    scenario.put_down[0].date = site::first_day() + Days::new(20);
    let terms = Terms { chance: 0.0, sources: vec!["calcium nitrate".into()], ..Terms::default() };
    let plan = feed_plan::plan(&scenario, &terms).unwrap();
    for fed in &plan.sources[0].feeds {
        let under = fed.date > scenario.put_down[0].date;
        assert_eq!(fed.placed == Placed::Under, under, "{fed:?}");
    }
    assert!(!plan.sources[0].feeds.is_empty());
}

#[test]
fn unknown_rules_and_sources_are_told() {
    let plan = |rules: &str, source: &str| {
        let terms = Terms { rules: vec![rules.into()], sources: vec![source.into()], ..Terms::default() };
        feed_plan::plan(&worked_in(5.0), &terms).unwrap_err().to_string()
    };
    assert!(plan("eu-organik", "urea").contains("eu-organic"));
    assert!(plan("zzz", "urea").contains("germany"));
    assert!(plan("eu-nitrates", "uera").contains("urea"));
}
