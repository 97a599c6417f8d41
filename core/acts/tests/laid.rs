//! What a scenario tells, as the model's input: several layers, crops that follow each other, material from elsewhere.

#![allow(clippy::unwrap_used, reason = "a test stops at the first surprise")]

mod golden;
mod site;

use chrono::{Days, NaiveDate};
use kerfbook_acts::calendar::Calendar;
use kerfbook_acts::laid::{Laid, LayerIs, laid};
use kerfbook_acts::scenario::{
    Again, Amount, Crop, CropNeed, Fate, Kept, Lifted, LoadAnswers, Measured, Origin, PlaceKind, PutDown,
    Scenario, Taken, Way, Worked,
};
use kerfbook_science::material::Particle;
use kerfbook_science::nitrogen::{Event, Input, Sample, Series, Stage, simulate};
use kerfbook_science::units::{AreaMass, Density, Length, Share};
use proptest::prelude::{ProptestConfig, proptest};

fn after(days: u64) -> NaiveDate {
    site::first_day() + Days::new(days)
}

/// Hardwood dust whose density is that of its class, 150 kg dry a cubic metre.
fn dust(dry_t_ha: f64, way: Way) -> PutDown {
    PutDown {
        date: site::first_day(),
        material: "hardwood sawdust".into(),
        way: Some(way),
        particle: None,
        amount: Amount::DryPerArea(AreaMass::from_t_ha(dry_t_ha)),
        moisture: Some(Share::from_percent(50.0)),
        moisture_half: None,
        carbon_nitrogen: None,
        bulk_density: Some(Density::from_kg_m3(300.0)),
        measured: Measured::default(),
        settling: None,
        kept: Some(Kept::default()),
        answers: LoadAnswers::default(),
    }
}

fn bed(put_down: Vec<PutDown>) -> Scenario {
    let mut scenario = site::golden_site(10.0);
    scenario.crops[0].again = Again::Never;
    Scenario { put_down, ..scenario }
}

fn lay(scenario: &Scenario, days: u32) -> Laid {
    laid(scenario, Calendar::of(scenario).unwrap(), days, &mut Vec::new()).unwrap()
}

#[test]
fn a_mulch_dug_in_is_the_golden_case() {
    let shavings = PutDown { particle: Some(Particle::Shavings), ..dust(30.0, Way::OnTop) };
    let mut scenario = bed(vec![shavings]);
    let share = Some(Share::from_percent(80.0));
    scenario.worked.push(Worked { date: after(20), depth: Length::from_cm(20.0), share });
    golden::assert_golden("mulch-dug-in-at-day-20", &lay(&scenario, 365).input);
}

#[test]
fn material_of_a_path_that_is_worked_in_elsewhere_is_the_golden_case() {
    let mut path = bed(vec![dust(112.5, Way::Path)]);
    path.place.kind = PlaceKind::Path;
    path.crops.clear();
    for put in &mut path.put_down {
        put.date = site::first_day() - Days::new(365);
    }
    let share = Share::from_percent(90.0);
    path.lifted.push(Lifted { date: site::first_day(), layer: Some(0), share, to: String::new() });
    let lifted = Kept { taken: Some(Taken { origin: 0, factor: 0.25 }), ..Kept::default() };
    let mut scenario = bed(vec![PutDown { kept: Some(lifted), ..dust(25.0, Way::WorkedIn) }]);
    scenario.origins.push(Origin {
        first: path.put_down[0].date,
        scenario: path,
        lifted: site::first_day(),
        layer: 0,
        share,
    });
    let all = lay(&scenario, 365);
    assert_eq!(all.layers, [LayerIs::Load(0)]);
    assert_eq!(all.input.stages.len(), 2);
    golden::assert_golden("path-lifted-then-worked-in", &all.input);
    assert!(all.bare.stages.is_empty() && all.bare.put_down.is_empty());
}

#[test]
fn crops_of_a_book_stand_once_and_those_of_a_season_come_again() {
    let mut scenario = bed(vec![dust(10.0, Way::WorkedIn)]);
    assert_eq!(lay(&scenario, 1000).crops, [0]);
    scenario.crops[0].again = Again::EveryYear { until: None };
    assert_eq!(lay(&scenario, 1000).crops, [0, 0, 0]);
    scenario.crops[0].again = Again::EveryYear { until: Some(after(500)) };
    assert_eq!(lay(&scenario, 1000).crops, [0, 0]);
}

/// Spring crop, summer legume, winter cover.
fn succession() -> Scenario {
    let mut scenario = bed(vec![dust(10.0, Way::OnTop)]);
    let crop = |name: &str, from: u64, to: u64, need: f64, fixed: f64, fate, harvested| Crop {
        name: name.into(),
        need: CropNeed::Annual(AreaMass::from_kg_ha(need)),
        started: after(from),
        ended: after(to),
        midpoint_day: None,
        fixed: Share::from_fraction(fixed),
        plants: None,
        fate,
        harvested,
        again: Again::Never,
    };
    scenario.crops = vec![
        crop("lettuce", 0, 60, 60.0, 0.0, Fate::CarriedOff, true),
        crop("beans", 65, 150, 110.0, 0.4, Fate::DugIn, true),
        crop("hairy vetch", 155, 350, 100.0, 0.7, Fate::Mown, false),
        crop("cabbage", 360, 500, 140.0, 0.0, Fate::CarriedOff, true),
    ];
    scenario
}

#[test]
fn what_a_crop_leaves_holds_the_nitrogen_that_it_took_up() {
    let scenario = succession();
    let all = lay(&scenario, 600);
    assert_eq!(all.layers, [LayerIs::Load(0), LayerIs::Residue(1), LayerIs::Residue(2)]);
    let runs = simulate(&all.input, &Sample::median(), &[150, 350]).unwrap();
    for (layer, crop, day, share) in [(1, 1, 150, 0.4), (2, 2, 350, 1.0)] {
        let put = &all.input.put_down[layer];
        let nitrogen =
            put.dry_t_ha.unwrap() * 1000.0 * put.carbon_share.unwrap() / put.carbon_nitrogen.unwrap();
        let taken = runs.last().crop_uptake(crop, day).unwrap()[0];
        assert!(taken > 1.0 && (nitrogen - share * taken).abs() < 1e-9, "{nitrogen} of {taken}");
    }
    // Green vetch feeds the cabbage after it.
    let mut carried = succession();
    carried.crops[2].fate = Fate::CarriedOff;
    let without = simulate(&lay(&carried, 600).input, &Sample::median(), &[500]).unwrap();
    let with = simulate(&all.input, &Sample::median(), &[500]).unwrap();
    let cabbage = |runs: &kerfbook_science::nitrogen::Runs| runs.last().crop_uptake(3, 500).unwrap()[0];
    assert!(cabbage(&with) > cabbage(&without) + 3.0, "{} {}", cabbage(&with), cabbage(&without));
}

#[test]
fn last_years_wood_is_in_this_years_forecast() {
    let with = lay(&succession(), 500).input;
    let none = lay(&Scenario { put_down: Vec::new(), ..succession() }, 500).input;
    let runs = |input: &Input| simulate(input, &Sample::new(1, 50), &[360, 500]).unwrap();
    let (with, none) = (runs(&with), runs(&none));
    // The wood still takes, or gives, in its second season.
    let change = |day| {
        let pair =
            with.last().on(Series::Tied, day).unwrap().iter().zip(none.last().on(Series::Tied, day).unwrap());
        pair.map(|(with, none)| with - none).sum::<f64>() / 50.0
    };
    assert!(change(360) > 5.0 && (change(500) - change(360)).abs() > 0.1, "{} {}", change(360), change(500));
}

#[test]
fn shares_lifted_are_of_what_was_put_down() {
    let mut scenario = bed(vec![dust(10.0, Way::OnTop), dust(5.0, Way::OnTop)]);
    let half = |day: u64| Lifted {
        date: after(day),
        layer: Some(0),
        share: Share::from_percent(50.0),
        to: String::new(),
    };
    scenario.lifted = vec![half(10), half(20), half(30)];
    let all = lay(&scenario, 60);
    let lifted: Vec<(u32, usize, f64)> = all
        .input
        .events
        .iter()
        .filter_map(|event| match event {
            Event::LayerLifted { day, layer, share } => Some((*day, *layer, *share)),
            Event::SoilWorked { .. } => None,
        })
        .collect();
    // A half, then the other half, then what is left of more than all: nothing lies there.
    assert_eq!(lifted, [(10, 0, 0.5), (20, 0, 1.0), (30, 0, 1.0)]);
    let runs = simulate(&all.input, &Sample::median(), &[9, 25]).unwrap();
    let depth = |day| runs.last().on(Series::Depth, day).unwrap()[0];
    assert!((depth(25) / depth(9) - 1.0 / 3.0).abs() < 0.01, "{} {}", depth(9), depth(25));
}

#[test]
fn two_liftings_of_one_path_bring_the_state_of_their_own_days() {
    let mut path = bed(vec![dust(100.0, Way::Path)]);
    path.place.kind = PlaceKind::Path;
    path.crops.clear();
    let share = Share::from_percent(30.0);
    for day in [100, 300] {
        path.lifted.push(Lifted { date: after(day), layer: Some(0), share, to: String::new() });
    }
    let brought = |origin, day| PutDown {
        date: after(day),
        kept: Some(Kept { taken: Some(Taken { origin, factor: 1.0 }), ..Kept::default() }),
        ..dust(30.0, Way::OnTop)
    };
    let mut scenario = bed(vec![brought(0, 101), brought(1, 301)]);
    for day in [100, 300] {
        let origin = Origin { scenario: path.clone(), first: after(0), lifted: after(day), layer: 0, share };
        scenario.origins.push(origin);
    }
    let all = lay(&scenario, 400);
    assert_eq!(all.input.stages.len(), 3);
    assert_eq!(all.input.stages[0].days, Some(100));
    assert_eq!(all.input.stages[1].days, Some(300));
    let runs = simulate(&all.input, &Sample::new(1, 20), &[]).unwrap();
    assert!(runs.balance_residual() < 1e-11);
    // Of the second lifting 0.3 of the 0.7 that still lay there: the same mass but for what had decayed.
    let lifted = |stage: usize| runs.stages()[stage].lifted[&0].iter().sum::<f64>();
    assert!(lifted(1) < lifted(0) && lifted(1) > 0.8 * lifted(0), "{} {}", lifted(0), lifted(1));
}

#[test]
fn what_was_lifted_on_the_day_it_was_laid_is_what_it_was() {
    let mut path = bed(vec![dust(10.0, Way::Path), dust(100.0, Way::Path)]);
    path.place.kind = PlaceKind::Path;
    path.put_down[1].date = after(50);
    let share = Share::from_percent(50.0);
    let brought = PutDown {
        date: after(50),
        kept: Some(Kept { taken: Some(Taken { origin: 0, factor: 1.0 }), ..Kept::default() }),
        ..dust(30.0, Way::OnTop)
    };
    let mut scenario = bed(vec![brought]);
    scenario.origins.push(Origin { scenario: path, first: after(0), lifted: after(50), layer: 1, share });
    let all = lay(&scenario, 100);
    assert!(all.input.stages.is_empty());
    assert_eq!(all.layers, [LayerIs::Load(0)]);
    assert_eq!(all.input.put_down[0].dry_t_ha, Some(30.0));
}

#[test]
fn a_circle_of_origins_is_refused() {
    let mut scenario = bed(vec![PutDown {
        kept: Some(Kept { taken: Some(Taken { origin: 0, factor: 1.0 }), ..Kept::default() }),
        ..dust(30.0, Way::OnTop)
    }]);
    for _ in 0..20 {
        let inner = scenario.clone();
        let share = Share::from_percent(50.0);
        scenario.origins =
            vec![Origin { scenario: inner, first: after(0), lifted: after(30), layer: 0, share }];
    }
    assert!(laid(&scenario, Calendar::of(&scenario).unwrap(), 60, &mut Vec::new()).is_err());
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, ..ProptestConfig::default() })]

    /// A season broken in two, the second going on from the first, ends like the whole.
    #[test]
    fn a_season_in_two_stages_is_one_season(
        dry in 1.0_f64..60.0,
        second in 1.0_f64..30.0,
        on_top in proptest::bool::ANY,
        organic in 0.5_f64..6.0,
        start in 1_u32..=365,
        broken in 40_u64..200,
        worked in proptest::option::of(5_u64..390),
        lifted in proptest::option::of((5_u64..390, 0.05_f64..1.0)),
        chips in proptest::bool::ANY,
    ) {
        let way = if on_top { Way::OnTop } else { Way::WorkedIn };
        let particle = Some(if chips { Particle::Chips } else { Particle::Dust });
        let shift = NaiveDate::from_yo_opt(2025, start).unwrap() - site::first_day();
        let kept = |batch| Some(Kept { batch, ..Kept::default() });
        let mut scenario = bed(vec![
            PutDown { particle, kept: kept(0), ..dust(dry, way) },
            PutDown { kept: kept(1), date: after(broken + 30), ..dust(second, Way::OnTop) },
        ]);
        scenario.soil.organic_matter = Share::from_percent(organic);
        scenario.crops[0].ended = after(broken - 5);
        scenario.crops.push(Crop { started: after(broken + 40), ended: after(395), ..scenario.crops[0].clone() });
        if let Some(day) = worked {
            scenario.worked.push(Worked { date: after(day), depth: Length::from_cm(6.0), share: None });
        }
        if let Some((day, share)) = lifted {
            let share = Share::from_fraction(share);
            scenario.lifted.push(Lifted { date: after(day), layer: Some(0), share, to: String::new() });
        }
        for date in scenario.put_down.iter_mut().map(|put| &mut put.date) {
            *date += shift;
        }
        for crop in &mut scenario.crops {
            crop.started += shift;
            crop.ended += shift;
        }
        for date in scenario.worked.iter_mut().map(|worked| &mut worked.date) {
            *date += shift;
        }
        for date in scenario.lifted.iter_mut().map(|lifted| &mut lifted.date) {
            *date += shift;
        }
        let whole = lay(&scenario, 400).input;
        let broken = u32::try_from(broken).unwrap();
        let two = in_two(&whole, broken);
        for sample in [Sample::new(1, 9), Sample::median()] {
            let one = simulate(&whole, &sample, &[broken]).unwrap();
            let steps = simulate(&two, &sample, &[]).unwrap();
            for state in [Series::Mineral, Series::Seam, Series::InMulch, Series::Depth, Series::WaterShare] {
                for (a, b) in one.last().end(state).iter().zip(steps.last().end(state)) {
                    assert!((a - b).abs() <= 1e-9 * a.abs().max(1.0), "{state:?}: {a} {b}");
                }
            }
            for sum in [Series::Tied, Series::Uptake, Series::Leached, Series::Supply] {
                let first = one.last().on(sum, broken).unwrap();
                let second = one.last().end(sum).iter().zip(first).map(|(end, before)| end - before);
                for (a, b) in second.zip(steps.last().end(sum)) {
                    assert!((a - b).abs() <= 1e-9 * a.abs().max(1.0), "{sum:?}: {a} {b}");
                }
            }
        }
    }
}

/// The same input in two stages; nothing may stand across the break but layers.
fn in_two(whole: &Input, broken: u32) -> Input {
    let early = |day: u32| day < broken;
    let mut first = Stage { days: Some(broken), ..Stage::default() };
    let mut second = Stage {
        days: Some(whole.days - broken),
        start_day_of_year: Some((whole.start_day_of_year - 1 + broken) % 365 + 1),
        continue_from_stage: Some(0),
        ..Stage::default()
    };
    let parted = |before: bool| {
        let shift = if before { 0 } else { broken };
        let put_down =
            whole.put_down.iter().filter(|put| early(put.day) == before).cloned().map(|mut put| {
                put.day -= shift;
                put
            });
        let events =
            whole.events.iter().filter(|event| early(event.day()) == before).map(|event| match *event {
                Event::SoilWorked { day, share, depth_mm } => {
                    Event::SoilWorked { day: day - shift, share, depth_mm }
                }
                Event::LayerLifted { day, layer, share } => {
                    Event::LayerLifted { day: day - shift, layer, share }
                }
            });
        (Some(put_down.collect()), Some(events.collect()))
    };
    (first.put_down, first.events) = parted(true);
    (second.put_down, second.events) = parted(false);
    let crops = |before: bool| {
        let shift = if before { 0 } else { i32::try_from(broken).unwrap() };
        whole
            .crops
            .iter()
            .cloned()
            .filter_map(|mut crop| match &mut crop {
                kerfbook_science::nitrogen::Crop::Annual { sown_day, harvest_day, .. } => {
                    let here = early(u32::try_from(*sown_day).unwrap()) == before;
                    *sown_day -= shift;
                    *harvest_day -= shift;
                    here.then_some(crop)
                }
                kerfbook_science::nitrogen::Crop::Tree { .. } => None,
            })
            .collect()
    };
    first.crops = Some(crops(true));
    second.crops = Some(crops(false));
    Input { stages: vec![first, second], ..whole.clone() }
}
