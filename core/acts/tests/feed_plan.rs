//! Feed plans over seeded random places: each, put back through the engine by the way of the forecast, keeps the chance;
//! none breaks a limit; none has a feed that could be left out or made a step smaller.

#![allow(
    clippy::unwrap_used,
    clippy::print_stdout,
    reason = "a test says what it found and stops where it fails"
)]

mod site;

use chrono::{Days, NaiveDate};
use kerfbook_acts::compare::RUNS;
use kerfbook_acts::feed_plan::{self, FeedPlan, Outcome, SourcePlan, Terms};
use kerfbook_acts::forecast::forecast;
use kerfbook_acts::scenario::{
    Again, Amount, Appetite, Crop, CropNeed, Fate, Feed, FeedAmount, LoadAnswers, Placed, PutDown, Scenario,
    Way,
};
use kerfbook_science::crop;
use kerfbook_science::feed;
use kerfbook_science::limit;
use kerfbook_science::nitrogen::uniform;
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
        });
    }
    scenario.feeds.sort_by_key(|feed| feed.date);
    scenario
}

fn chance_of(scenario: &Scenario) -> f64 {
    forecast(scenario, RUNS, 1).unwrap().chance_hungry
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
    for place in 0..60 {
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
    assert!(kept >= 20, "too few plans to tell: {counts:?}");
    assert!(counts.get("limited").is_some_and(|count| *count >= 5), "{counts:?}");
}
