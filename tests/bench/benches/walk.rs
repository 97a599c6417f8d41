//! Places: one fix of a walk, its reading, a ring of many corners, the geodesic area.

#![allow(missing_docs, clippy::unwrap_used, reason = "a benchmark")]

use std::hint::black_box;

use criterion::{BatchSize, Criterion, criterion_group, criterion_main};
use kerfbook_bench::walk;
use kerfbook_science::geometry::area::geodesic_ring;
use kerfbook_science::geometry::crossing;
use kerfbook_science::geometry::frame::{Frame, Point, Position};
use kerfbook_science::geometry::simplify;
use kerfbook_science::geometry::walk::{Manner, Walk};

fn places(criterion: &mut Criterion) {
    let fixes = walk(10_000);
    let mut group = criterion.benchmark_group("walk");
    group.throughput(criterion::Throughput::Elements(fixes.len() as u64));
    group.bench_function("fixes", |b| {
        b.iter_batched(
            || Walk::new(Manner::default()),
            |mut walk| {
                for fix in &fixes {
                    walk.take(*fix);
                }
                walk
            },
            BatchSize::LargeInput,
        );
    });
    group.finish();
    let mut under_way = Walk::new(Manner::default());
    for fix in &fixes {
        under_way.take(*fix);
    }
    criterion.bench_function("reading of a walk", |b| b.iter(|| under_way.reading()));
    criterion.bench_function("finish of 10000 fixes", |b| {
        b.iter_batched(|| under_way.clone(), |walk| walk.finish().unwrap(), BatchSize::LargeInput);
    });

    let positions: Vec<Position> = fixes.iter().map(|fix| fix.position).collect();
    let frame = Frame::about(positions[0]);
    let points: Vec<Point> = positions.iter().map(|position| frame.point(*position)).collect();
    criterion.bench_function("geodesic area of 10000 corners", |b| {
        b.iter(|| geodesic_ring(black_box(&positions)));
    });
    criterion.bench_function("crossings of 10000 corners", |b| b.iter(|| crossing::find(black_box(&points))));
    criterion.bench_function("simplifying 10000 corners", |b| {
        b.iter(|| simplify::kept_of_ring(black_box(&points), 1.0));
    });
}

criterion_group!(benches, places);
criterion_main!(benches);
