//! What is timed, shared by the benchmarks and by the runner that sets it beside the peer.

#[allow(clippy::unwrap_used, reason = "written for the tests of the acts: its date is one")]
#[path = "../../../core/acts/tests/site/mod.rs"]
mod site;

use kerfbook_acts::compare::{Comparison, Reach, compare};
use kerfbook_acts::scenario::{PlaceKind, Scenario};
use kerfbook_science::geometry::frame::{Frame, Point, Position};
use kerfbook_science::geometry::walk::Fix;
use kerfbook_science::nitrogen::{Input, Runs, Sample, Series, Spread3, simulate, spread, uniform};

/// Days that an answer shows.
pub const SHOWN: [u32; 8] = [7, 14, 28, 60, 90, 150, 250, 365];

/// Reads a golden case by name.
///
/// # Errors
/// The file cannot be read, or is no case.
pub fn case(name: &str) -> Result<Input, Box<dyn std::error::Error>> {
    let path = format!("{}/../../fixtures/science/nitrogen/golden/{name}.json", env!("CARGO_MANIFEST_DIR"));
    let mut case: serde_json::Value = serde_json::from_str(&std::fs::read_to_string(path)?)?;
    Ok(serde_json::from_value(case["input"].take())?)
}

/// Draws the runs and lets them go through the days, keeping the days shown.
///
/// # Panics
/// The case is not valid.
pub fn run(input: &Input, runs: u32) -> Runs {
    simulate(input, &Sample::new(input.seed, runs), &SHOWN).expect("a golden case is valid")
}

/// The temperate site of the model's evidence table with a load whose way is open.
pub fn open_load() -> Scenario {
    site::golden_site(10.0)
}

/// The same place as a container, where no path and no ring of a tree can be: nothing put down and five ways.
pub fn contained_load() -> Scenario {
    let mut scenario = open_load();
    scenario.place.kind = PlaceKind::Container;
    scenario
}

/// Every way of using a load, one season.
///
/// # Panics
/// The scenario cannot be run.
pub fn every_way(scenario: &Scenario) -> Comparison {
    compare(scenario, Reach::Season, 200, 1).expect("the site has a load")
}

/// [`run`], and the three quantiles of four series on the days shown.
///
/// # Panics
/// The case is not valid.
pub fn run_and_tell(input: &Input, runs: u32) -> Vec<Spread3> {
    let all = run(input, runs);
    let last = all.last();
    let mut told = Vec::new();
    for day in last.days() {
        for series in [Series::Tied, Series::Mineral, Series::Uptake, Series::Leached] {
            told.extend(last.on(series, *day).map(spread));
        }
    }
    told
}

/// A walk of one round, one fix a second at 1.2 m/s, with fixes half a metre off.
///
/// # Panics
/// Never: the position is one.
pub fn walk(fixes: u32) -> Vec<Fix> {
    let frame = Frame::about(Position::new(48.0, 11.0).expect("a position"));
    let turn = core::f64::consts::TAU / f64::from(fixes);
    let radius = 1.2 / turn;
    (0..fixes)
        .map(|second| {
            let off = |axis| uniform(1, u64::from(second), axis) - 0.5;
            let (north, east) = (turn * f64::from(second)).sin_cos();
            let point = Point::new(radius * east + off(0), radius * north + off(1));
            Fix { position: frame.position(point), time_ms: i64::from(second) * 1000, accuracy_m: 3.0 }
        })
        .collect()
}
