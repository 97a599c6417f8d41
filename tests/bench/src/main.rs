//! Prints the shortest of many times of each case, in seconds, as JSON: what the runner sets beside the peer.

#![allow(clippy::print_stdout, clippy::disallowed_methods, reason = "it prints times, so it reads a clock")]

use std::collections::BTreeMap;
use std::hint::black_box;
use std::time::Instant;

use kerfbook_bench::{case, contained_load, every_way, open_load, run, run_and_tell};
use kerfbook_science::nitrogen::{Input, Sample, median, simulate};

/// The shortest of many repetitions: what the machine can do when nothing else wants it.
fn shortest<T>(times: u32, mut work: impl FnMut() -> T) -> f64 {
    let mut best = f64::INFINITY;
    for _ in 0..times {
        let start = Instant::now();
        black_box(work());
        best = best.min(start.elapsed().as_secs_f64());
    }
    best
}

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let mut seconds: BTreeMap<String, f64> = BTreeMap::new();
    for (name, label) in [
        ("hardwood-dust-worked-in", "worked in"),
        ("hardwood-dust-on-top-50-mm", "mulch"),
        ("bare-bed", "bare"),
    ] {
        let input: Input = case(name)?;
        seconds.insert(format!("{label}, 200 runs"), shortest(400, || run(&input, 200)));
        seconds
            .insert(format!("{label}, 200 runs and quantiles"), shortest(400, || run_and_tell(&input, 200)));
        let sample = Sample::new(1, 200);
        seconds.insert(
            format!("{label}, 200 runs of a sample at hand"),
            shortest(400, || simulate(&input, &sample, &[365])),
        );
        seconds.insert(format!("{label}, 10000 runs"), shortest(10, || run(&input, 10_000)));
        seconds.insert(format!("{label}, median run"), shortest(400, || median(&input, &[365])));
    }
    for (scenario, label) in [(open_load(), "every way"), (contained_load(), "six ways")] {
        seconds.insert(format!("{label}, one table"), shortest(40, || every_way(&scenario)));
    }
    println!("{}", serde_json::to_string_pretty(&seconds)?);
    Ok(())
}
