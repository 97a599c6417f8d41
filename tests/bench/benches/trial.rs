//! A trial of 40 plots analysed, and its comparisons for six treatments, as JSON: seconds.

#![allow(missing_docs, clippy::unwrap_used, reason = "a benchmark; a trial that is none ends it")]
#![allow(clippy::print_stdout, clippy::disallowed_methods, reason = "it prints times, so it reads a clock")]

use std::hint::black_box;
use std::time::Instant;

use kerfbook_science::trial::anova::analyse;
use kerfbook_science::trial::design::Kind;
use kerfbook_science::trial::generator::SplitMix64;
use kerfbook_science::trial::least_squares::Factor;
use kerfbook_science::trial::response::Response;
use kerfbook_science::trial::structure::{Compared, Structure, Trial};
use serde_json::json;

/// Complete blocks, some plots lost.
fn blocks(treatments: usize, blocks: usize, lost: &[usize]) -> Trial {
    let mut generator = SplitMix64::new(40);
    let plots = treatments * blocks;
    let values: Vec<Option<f64>> =
        (0..plots).map(|plot| (!lost.contains(&plot)).then(|| 20.0 + 5.0 * generator.uniform())).collect();
    let structure = Structure::Blocks {
        block: Factor { levels: blocks, of: (0..plots).map(|plot| plot / treatments).collect() },
        treatment: Factor { levels: treatments, of: (0..plots).map(|plot| plot % treatments).collect() },
    };
    Trial::new(Kind::RandomisedBlocks, structure, Response::from_numbers(&values)).unwrap()
}

fn shortest<T>(times: u32, mut work: impl FnMut() -> T) -> f64 {
    let mut best = f64::INFINITY;
    for _ in 0..times {
        let start = Instant::now();
        black_box(work());
        best = best.min(start.elapsed().as_secs_f64());
    }
    best
}

fn main() {
    let (full, lossy, six) = (blocks(8, 5, &[]), blocks(8, 5, &[3, 21]), blocks(6, 6, &[]));
    let compared = |trial: &Trial| {
        let analysis = analyse(trial);
        let group = analysis.group(Compared::Treatment).unwrap();
        (group.dunnett(0), group.tukey())
    };
    let told = json!({
        "40 plots, table, means, t and F": shortest(200, || analyse(&full)),
        "40 plots, two lost": shortest(200, || analyse(&lossy)),
        "six treatments, with Dunnett and Tukey": shortest(50, || compared(&six)),
        "six treatments, one lost": shortest(50, || compared(&blocks(6, 6, &[8]))),
    });
    println!("{told:#}");
}
