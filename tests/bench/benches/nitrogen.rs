//! The nitrogen model: one season of 200 runs, worked in, as a mulch and bare, with and without quantiles; and all
//! ways of using a load.

#![allow(missing_docs, clippy::unwrap_used, reason = "a benchmark; a case that is not there ends it")]

use criterion::{Criterion, criterion_group, criterion_main};
use kerfbook_bench::{case, every_way, open_load, run, run_and_tell};
use kerfbook_science::nitrogen::median;

fn season(criterion: &mut Criterion) {
    for name in ["hardwood-dust-worked-in", "hardwood-dust-on-top-50-mm", "bare-bed"] {
        let input = case(name).unwrap();
        let mut group = criterion.benchmark_group(name);
        group.bench_function("200 runs", |b| b.iter(|| run(&input, 200)));
        group.bench_function("200 runs and quantiles", |b| b.iter(|| run_and_tell(&input, 200)));
        group.bench_function("median run", |b| b.iter(|| median(&input, &[365])));
        group.sample_size(10);
        group.bench_function("10000 runs", |b| b.iter(|| run(&input, 10_000)));
        group.finish();
    }
    let scenario = open_load();
    criterion.bench_function("every way, one table", |b| b.iter(|| every_way(&scenario)));
}

criterion_group!(benches, season);
criterion_main!(benches);
