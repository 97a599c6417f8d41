//! A simulated holding: truths drawn from what is taken before anything was measured, readings made of them with their
//! stated errors, and the forecast weighed by three of them.

#![allow(
    clippy::unwrap_used,
    clippy::print_stdout,
    clippy::cast_precision_loss,
    reason = "a test says what it found and stops where it fails"
)]

mod site;

use kerfbook_acts::compare::SEASON_DAYS;
use kerfbook_acts::forecast;
use kerfbook_acts::scenario::{Appetite, CropNeed, Scenario, Way};
use kerfbook_acts::update::{FEWEST_RUNS, Prior, Weights, sizes};
use kerfbook_science::nitrogen::{Input, Reading, Sample, normal_quantile, quantile, uniform};
use kerfbook_science::plain::{Colour, LastCropFed};

/// Truths in all.
const TRUTHS: usize = 500;
/// Seeds of the runs, of the truths and of the errors of reading.
const SEEDS: (u64, u64, u64) = (11, 77, 5);

/// A place with three readings to come, none of them read yet.
struct Ground {
    name: &'static str,
    input: Input,
    bare: Input,
}

fn ground(name: &'static str, scenario: &Scenario, third: Reading) -> Ground {
    let (_, mut input, bare) = forecast::inputs(scenario, SEASON_DAYS, &mut Vec::new()).unwrap();
    let soil = |day| Reading::SoilNitrate { day, kg_ha: 0.0 };
    input.readings = vec![soil(28), soil(60), third];
    Ground { name, input, bare }
}

/// A holding of four beds: sawdust on top and worked in, on soil that was tested and on soil that was only looked at.
fn holding() -> Vec<Ground> {
    let jar = Reading::DrawTest {
        layer: 0,
        temperature_c: 22.0,
        dose_mg_litre: 150.0,
        dry_g_per_litre: 30.0,
        index: 1.0,
    };
    let leaf = Reading::Leaf { day: 60, crop: 0, nni: 1.0 };
    let tested = |way: Way, dry_t_ha: f64| {
        let mut scenario = site::golden_site(dry_t_ha);
        scenario.put_down[0].way = Some(way);
        scenario
    };
    let looked_at = |way: Way, dry_t_ha: f64| {
        let mut scenario = tested(way, dry_t_ha);
        "wood, unknown".clone_into(&mut scenario.put_down[0].material);
        scenario.soil.mineral_nitrogen = None;
        scenario.soil.answers.last_crop_fed = Some(LastCropFed::No);
        scenario.soil.answers.colour = Some(Colour::Brown);
        scenario.crops[0].need = CropNeed::Appetite(Appetite::Middling);
        scenario
    };
    vec![
        ground("on top, tested", &tested(Way::OnTop, 30.0), leaf),
        ground("worked in, tested", &tested(Way::WorkedIn, 10.0), jar),
        ground("on top, looked at", &looked_at(Way::OnTop, 30.0), leaf),
        ground("worked in, looked at", &looked_at(Way::WorkedIn, 10.0), jar),
    ]
}

/// A figure of the forecast over many truths.
#[derive(Default)]
struct Score {
    hits: usize,
    hits_before: usize,
    /// Sum of range after over range before.
    narrower: f64,
    truths: usize,
}

impl Score {
    fn add(&mut self, truth: f64, before: (f64, f64), after: (f64, f64)) {
        let inside = |(low, high): (f64, f64)| usize::from((low..=high).contains(&truth));
        self.hits += inside(after);
        self.hits_before += inside(before);
        self.narrower += (after.1 - after.0) / (before.1 - before.0);
        self.truths += 1;
    }

    fn join(&mut self, other: &Self) {
        self.hits += other.hits;
        self.hits_before += other.hits_before;
        self.narrower += other.narrower;
        self.truths += other.truths;
    }

    fn covered(&self) -> f64 {
        self.hits as f64 / self.truths as f64
    }

    fn width(&self) -> f64 {
        self.narrower / self.truths as f64
    }
}

fn range(values: impl Iterator<Item = f64>) -> (f64, f64) {
    let values: Vec<f64> = values.collect();
    (quantile(&values, 0.1).unwrap(), quantile(&values, 0.9).unwrap())
}

/// Scores of crop nitrogen, of what is lost, and of what is tied up; and the effective sizes.
fn scored(ground: &Ground, truths: usize) -> ([Score; 3], Vec<f64>, usize) {
    let run = |sample| Prior::of(&ground.input, &ground.bare, sample, SEASON_DAYS, &[0]).unwrap();
    let figures = |prior: &Prior| [prior.crop_nitrogen(), prior.lost(), prior.tied()];
    let true_runs = run(Sample::new(SEEDS.1, truths.try_into().unwrap()));
    let true_figures = figures(&true_runs);
    // Every number of runs is simulated once, whatever truths ask for it.
    let mut priors: Vec<(Prior, [Vec<f64>; 3])> = Vec::new();
    let mut scores: [Score; 3] = core::array::from_fn(|_| Score::default());
    let (mut sizes_left, mut eased) = (Vec::new(), 0);
    for truth in 0..truths {
        let made = |(index, reading): (u64, &Reading)| {
            let foretold = true_runs.foretold()[usize::try_from(index).unwrap()][truth];
            reading.made(foretold, normal_quantile(uniform(SEEDS.2, truth as u64, index)))
        };
        let readings: Vec<Reading> = (0..).zip(&ground.input.readings).map(made).collect();
        let mut found = None;
        for (step, size) in sizes(FEWEST_RUNS).enumerate() {
            if priors.len() == step {
                let prior = run(Sample::stratified(SEEDS.0, size));
                let values = figures(&prior);
                priors.push((prior, values));
            }
            let (prior, _) = &priors[step];
            let weights = Weights::of(&readings, prior.foretold(), prior.runs());
            let enough = weights.enough();
            found = Some((step, weights));
            if enough {
                break;
            }
        }
        let (step, weights) = found.unwrap();
        let weights = weights.eased();
        eased += usize::from(weights.counts < 1.0);
        sizes_left.push(weights.effective_size);
        let told = weights.told();
        for (score, (true_values, (values, prior))) in
            scores.iter_mut().zip(true_figures.iter().zip(priors[step].1.iter().zip(&priors[0].1)))
        {
            let after = range(told.iter().map(|run| values[*run]));
            score.add(true_values[truth], range(prior.iter().copied()), after);
        }
    }
    sizes_left.sort_by(f64::total_cmp);
    (scores, sizes_left, eased)
}

#[test]
fn three_readings_narrow_what_the_crop_gets_and_the_band_still_holds_four_truths_in_five() {
    let places = holding();
    let mut all: [Score; 3] = core::array::from_fn(|_| Score::default());
    for ground in &places {
        let (scores, sizes, eased) = scored(ground, TRUTHS / places.len());
        println!(
            "{}: runs in effect {:.0} at least, {:.0} middle; {eased} eased",
            ground.name,
            sizes[0],
            sizes[sizes.len() / 2]
        );
        for (name, score) in ["crop nitrogen", "lost", "tied up"].iter().zip(&scores) {
            println!(
                "  {name}: {} of {} inside ({} before), range {:.2} of what it was",
                score.hits,
                score.truths,
                score.hits_before,
                score.width()
            );
        }
        // The last fraction is the halving's.
        assert!(sizes[0] > 59.9, "{}: {}", ground.name, sizes[0]);
        all.iter_mut().zip(&scores).for_each(|(all, score)| all.join(score));
    }
    for (name, score) in ["crop nitrogen", "lost", "tied up"].iter().zip(&all) {
        println!("{name}: {:.3} inside, range {:.3} of what it was", score.covered(), score.width());
        assert!((0.75..=0.85).contains(&score.covered()), "{name}: {}", score.covered());
    }
    assert_eq!(all[0].truths, TRUTHS);
    assert!(all[0].width() <= 0.70, "{}", all[0].width());
}
