//! Unions of discs, rings and bands: the reference cases, what must hold for any discs, and the same areas by another
//! road.
#![allow(clippy::unwrap_used, reason = "a test may stop where it stands")]

mod case;

use case::{Case, cases};
use kerfbook_science::geometry::disc::{Disc, DiscError, lens_m2};
use kerfbook_science::geometry::discs::Discs;
use kerfbook_science::geometry::strip::{Ends, Strip};
use kerfbook_science::geometry::tree_rings::{Ring, ring_area};
use proptest::prelude::*;

fn disc(x: f64, y: f64, radius: f64) -> Disc {
    Disc::new(x, y, radius).unwrap()
}

fn discs_of(case: &Case, key: &str) -> Vec<Disc> {
    let list = case.input[key].as_array().map_or(&[][..], Vec::as_slice);
    let at = |row: &serde_json::Value, index: usize| row[index].as_f64().unwrap();
    list.iter().map(|row| disc(at(row, 0), at(row, 1), at(row, 2))).collect()
}

fn union(discs: &[Disc]) -> f64 {
    Discs::new(discs.to_vec()).area_m2()
}

#[test]
fn lenses() {
    for case in cases("lens-", 9) {
        let (first, second, distance) = (case.number("r1"), case.number("r2"), case.number("d"));
        case.check(&[("lens_m2", lens_m2(first, second, distance))]);
        case.check(&[("lens_m2", lens_m2(second, first, distance))]);
        let pair = [disc(0.0, 0.0, first), disc(0.6 * distance, 0.8 * distance, second)];
        case.check(&[("lens_m2", pair[0].area_m2() + pair[1].area_m2() - union(&pair))]);
    }
}

#[test]
fn reference_unions() {
    for case in cases("discs-", 4) {
        let (discs, gaps) = (discs_of(&case, "discs"), discs_of(&case, "gaps"));
        let all = Discs::new(discs.clone());
        let mut results = vec![("union_m2", all.area_m2()), ("sum_m2", all.sum_m2())];
        if !gaps.is_empty() {
            let ring = |(drip, gap): (&Disc, &Disc)| {
                let [x, y] = drip.centre_m();
                Ring::new(x, y, drip.radius_m(), gap.radius_m()).unwrap()
            };
            let rings: Vec<Ring> = discs.iter().zip(&gaps).map(ring).collect();
            let area = ring_area(&rings);
            assert!((area.union_m2 - all.area_m2()).abs() < 1e-9);
            results.push(("net_m2", area.net_m2));
        }
        if case.input["strip"].is_array() {
            let [west, south, east, north] = case.numbers("strip")[..] else { panic!("a box") };
            let strip = Strip::new(
                [west, 0.5 * (south + north)],
                [east, 0.5 * (south + north)],
                north - south,
                Ends::Butt,
            );
            let area = strip.unwrap().with_rings(&discs, &[]);
            results.extend([("strip_m2", area.strip_m2), ("union_with_strip_m2", area.union_m2)]);
        }
        case.check(&results);
    }
}

#[test]
fn a_row_of_equal_rings_has_its_formula() {
    for (count, radius, spacing) in [(20_u32, 2.5, 4.0), (7, 1.0, 1.3), (2, 3.0, 4.0), (50, 1.5, 3.0)] {
        let row: Vec<Disc> = (0..count).map(|i| disc(f64::from(i) * spacing, 0.0, radius)).collect();
        let formula =
            f64::from(count) * row[0].area_m2() - f64::from(count - 1) * lens_m2(radius, radius, spacing);
        assert!((union(&row) - formula).abs() < 1e-9, "{count}");
    }
}

#[test]
fn what_is_no_disc_is_refused() {
    for (x, y) in [(f64::NAN, 0.0), (0.0, f64::INFINITY), (2e8, 0.0)] {
        assert!(matches!(Disc::new(x, y, 1.0), Err(DiscError::Centre { .. })));
    }
    for radius in [0.0, -1.0, f64::NAN, f64::INFINITY, 2e6] {
        assert!(matches!(Disc::new(0.0, 0.0, radius), Err(DiscError::Radius { .. })));
    }
    assert!(Ring::new(0.0, 0.0, 2.0, -0.1).is_err() && Ring::new(0.0, 0.0, 2.0, f64::NAN).is_err());
    assert!(union(&[]).abs() < 1e-300);
}

#[test]
fn touching_nested_equal_and_far_discs() {
    let one = disc(0.0, 0.0, 2.0);
    let area = one.area_m2();
    let close = |discs: &[Disc], expected: f64| {
        assert!((union(discs) - expected).abs() < 1e-9, "{discs:?}: {} is not {expected}", union(discs));
    };
    close(&[one, one, one], area);
    close(&[one, disc(4.0, 0.0, 2.0)], 2.0 * area);
    close(&[one, disc(1.0, 0.0, 1.0)], area);
    close(&[disc(0.0, 1.0, 1.0), one, disc(0.0, -1.9, 0.1)], area);
    close(&[one, disc(0.0, 0.0, 1.0), disc(0.5, 0.0, 0.5), disc(0.5, 0.0, 0.5)], area);
    close(&[one, disc(1e8, 1e8, 2.0)], 2.0 * area);
    // Four around a point that all of them touch, and one that covers just their middle.
    let around: Vec<Disc> =
        [(2.0, 0.0), (-2.0, 0.0), (0.0, 2.0), (0.0, -2.0)].map(|(x, y)| disc(x, y, 2.0)).into();
    close(&around, 4.0 * area - 4.0 * lens_m2(2.0, 2.0, 8.0_f64.sqrt()));
    // A hole in the middle of three, with a small disc in it.
    let side = 3.9;
    let hole = [disc(0.0, 0.0, 2.0), disc(side, 0.0, 2.0), disc(0.5 * side, side * 0.75_f64.sqrt(), 2.0)];
    let small = disc(0.5 * side, side / 12.0_f64.sqrt(), 0.1);
    let three = 3.0 * area - 3.0 * lens_m2(2.0, 2.0, side);
    close(&hole, three);
    close(&[hole[0], hole[1], hole[2], small], three + small.area_m2());
}

#[test]
fn a_large_frame_keeps_the_digits() {
    let near: Vec<Disc> =
        (0..30).map(|i| disc(3.0 * f64::from(i % 6), 2.9 * f64::from(i / 6), 2.2)).collect();
    let far: Vec<Disc> = near
        .iter()
        .map(|near| disc(near.centre_m()[0] + 524_288.0, near.centre_m()[1] + 4_194_304.0, 2.2))
        .collect();
    assert!((union(&near) - union(&far)).abs() < 1e-6);
}

#[test]
fn a_gap_is_bare_wherever_it_reaches() {
    let net = |rings: &[Ring]| ring_area(rings).net_m2;
    let ring = |x: f64, radius: f64, gap: f64| Ring::new(x, 0.0, radius, gap).unwrap();
    let pi = core::f64::consts::PI;
    assert!((net(&[ring(0.0, 3.0, 0.3)]) - pi * (9.0 - 0.09)).abs() < 1e-12);
    // A gap wider than its ring leaves nothing of it, and takes from the neighbour only what is the neighbour's.
    assert!(net(&[ring(0.0, 0.2, 0.5)]).abs() < 1e-12);
    let both = net(&[ring(0.0, 3.0, 0.3), ring(3.0, 0.2, 0.5)]);
    assert!((both - (pi * (9.0 - 0.09) - lens_m2(3.0, 0.5, 3.0))).abs() < 1e-9);
    // Two trunks close together: their gaps count once.
    let close = net(&[ring(0.0, 3.0, 0.5), ring(0.4, 3.0, 0.5)]);
    let gaps = 2.0 * pi * 0.25 - lens_m2(0.5, 0.5, 0.4);
    assert!((close - (2.0 * pi * 9.0 - lens_m2(3.0, 3.0, 0.4) - gaps)).abs() < 1e-9);
}

#[test]
fn discs_of_all_sizes_find_their_neighbours() {
    // A few large ones among many small: every pair is seen, whichever class of radius it lies in.
    let mut discs: Vec<Disc> =
        (0..900).map(|i| disc(f64::from(i % 30) * 2.0, f64::from(i / 30) * 2.0, 0.3)).collect();
    let small = discs[0].area_m2();
    discs.push(disc(1000.0, 1000.0, 200.0));
    discs.push(disc(29.0, 29.0, 1e-5));
    let apart = 900.0 * small + discs[900].area_m2() + discs[901].area_m2();
    assert!((union(&discs) - apart).abs() < 1e-6);
    discs[900] = disc(29.0, 29.0, 200.0);
    assert!((union(&discs) - discs[900].area_m2()).abs() < 1e-6);
}

/// Area of a band and discs by slices across the band: an independent road.
fn by_slices(from: [f64; 2], to: [f64; 2], width: f64, discs: &[Disc]) -> f64 {
    const SLICES: u32 = 40_000;
    let [dx, dy] = [to[0] - from[0], to[1] - from[1]];
    let length = (dx * dx + dy * dy).sqrt();
    let local: Vec<[f64; 3]> = discs
        .iter()
        .map(|disc| {
            let [x, y] = [disc.centre_m()[0] - from[0], disc.centre_m()[1] - from[1]];
            [(x * dx + y * dy) / length, (y * dx - x * dy) / length, disc.radius_m()]
        })
        .collect();
    let (start, end) = local.iter().fold((0.0_f64, length), |(a, b), [x, _, r]| (a.min(x - r), b.max(x + r)));
    let step = (end - start) / f64::from(SLICES);
    let mut area = 0.0;
    for slice in 0..SLICES {
        let x = start + (f64::from(slice) + 0.5) * step;
        let mut spans: Vec<[f64; 2]> = local
            .iter()
            .filter(|[cx, _, r]| (x - cx).abs() < *r)
            .map(|[cx, cy, r]| {
                let half = (r * r - (x - cx) * (x - cx)).sqrt();
                [cy - half, cy + half]
            })
            .collect();
        if (0.0..=length).contains(&x) {
            spans.push([-0.5 * width, 0.5 * width]);
        }
        spans.sort_by(|a, b| a[0].total_cmp(&b[0]));
        let mut reached = f64::NEG_INFINITY;
        for [low, high] in spans {
            area += step * (high - low.max(reached)).max(0.0);
            reached = reached.max(high);
        }
    }
    area
}

#[test]
fn bands_with_rings_agree_with_slices() {
    type Trees = &'static [(f64, f64, f64)];
    let rows: [(f64, Trees); 6] = [
        (1.5, &[(0.0, 0.0, 2.0), (4.0, 0.3, 2.0), (8.0, -0.4, 1.0), (12.0, 0.0, 0.4)]),
        (4.0, &[(0.0, 2.0, 0.5), (3.0, 1.9, 1.0), (6.0, 5.0, 2.9), (15.5, 2.0, 1.2)]),
        (2.0, &[(-5.0, 0.0, 2.0), (7.0, 0.0, 30.0)]),
        (2.0, &[(7.0, 1.0, 1.0), (7.0, 0.0, 1.0), (3.0, 0.0, 1.5), (14.0, 0.0, 1.0)]),
        (3.0, &[]),
        (2.0, &[(7.0, 4.0, 4.0), (3.0, 6.5, 5.0), (3.0, 6.5, 5.0)]),
    ];
    for (turn, (width, rings)) in (0..).zip(rows) {
        let (sin, cos) = (libm::sin(0.7 * f64::from(turn)), libm::cos(0.7 * f64::from(turn)));
        let place = |x: f64, y: f64| [20.0 + x * cos - y * sin, -7.0 + x * sin + y * cos];
        let discs: Vec<Disc> =
            rings.iter().map(|(x, y, r)| disc(place(*x, *y)[0], place(*x, *y)[1], *r)).collect();
        let (from, to) = (place(0.0, 0.0), place(14.0, 0.0));
        let strip = Strip::new(from, to, width, Ends::Butt).unwrap();
        let (exact, sliced) = (strip.with_rings(&discs, &[]).union_m2, by_slices(from, to, width, &discs));
        assert!((exact / sliced - 1.0).abs() < 1e-5, "{width} {rings:?}: {exact} by slices {sliced}");
    }
}

#[test]
fn a_hedgerow_is_a_band_less_its_trunks() {
    let pi = core::f64::consts::PI;
    let strip = Strip::new([0.0, 0.0], [10.0, 0.0], 1.0, Ends::Butt).unwrap();
    let gaps: Vec<Disc> = (0..5).map(|i| disc(1.0 + 2.0 * f64::from(i), 0.0, 0.2)).collect();
    let area = strip.with_rings(&[], &gaps);
    assert!((area.net_m2 - (10.0 - 5.0 * pi * 0.04)).abs() < 1e-12);
    // A gap that reaches beyond the band takes nothing there; one at its end half of itself.
    let wide = strip.with_rings(&[], &[disc(5.0, 0.0, 0.6)]);
    let within = pi * 0.36 - 2.0 * (0.36 * libm::acos(0.5 / 0.6) - 0.5 * (0.36_f64 - 0.25).sqrt());
    assert!((wide.net_m2 - (10.0 - within)).abs() < 1e-9);
    let end = strip.with_rings(&[], &[disc(0.0, 0.0, 0.2)]);
    assert!((end.net_m2 - (10.0 - 0.5 * pi * 0.04)).abs() < 1e-12);
    let round = Strip::new([0.0, 0.0], [6.0, 8.0], 1.0, Ends::Round).unwrap().with_rings(&[], &[]);
    assert!(
        (round.union_m2 - (10.0 + pi * 0.25)).abs() < 1e-12
            && (round.strip_m2 - round.union_m2).abs() < 1e-12
    );
    assert!(Strip::new([0.0, 0.0], [0.0, 0.0], 1.0, Ends::Butt).is_err());
    assert!(Strip::new([0.0, f64::NAN], [1.0, 0.0], 1.0, Ends::Butt).is_err());
    assert!(Strip::new([0.0, 0.0], [1.0, 0.0], f64::INFINITY, Ends::Butt).is_err());
}

fn any_disc() -> impl Strategy<Value = Disc> {
    // Coordinates on a coarse raster make touching, equal and nested discs common.
    let raster = (-20..20_i32, -20..20_i32, 1..8_u32)
        .prop_map(|(x, y, r)| disc(0.5 * f64::from(x), 0.5 * f64::from(y), 0.5 * f64::from(r)));
    let free = (-10.0..10.0_f64, -10.0..10.0_f64, 0.01..4.0_f64).prop_map(|(x, y, r)| disc(x, y, r));
    prop_oneof![raster, free]
}

fn any_discs() -> impl Strategy<Value = Vec<Disc>> {
    prop::collection::vec(any_disc(), 1..60)
}

fn changed(discs: &[Disc], change: impl Fn([f64; 2], f64) -> (f64, f64, f64)) -> Vec<Disc> {
    let of = |old: &Disc| {
        let (x, y, radius) = change(old.centre_m(), old.radius_m());
        disc(x, y, radius)
    };
    discs.iter().map(of).collect()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn a_union_lies_between_its_largest_part_and_the_sum(discs in any_discs()) {
        let all = Discs::new(discs.clone());
        let largest = discs.iter().map(|disc| disc.area_m2()).fold(0.0, f64::max);
        prop_assert!(all.area_m2() <= all.sum_m2() + 1e-9);
        prop_assert!(all.area_m2() >= largest - 1e-9);
    }

    #[test]
    fn the_order_of_discs_does_not_matter(discs in any_discs(), turn in 0..60_usize) {
        let mut other = discs.clone();
        other.reverse();
        let count = other.len();
        other.rotate_left(turn % count);
        prop_assert!((union(&discs) - union(&other)).abs() < 1e-9);
    }

    #[test]
    fn an_area_grows_with_the_square(discs in any_discs(), factor in 0.01..100.0_f64) {
        let large = changed(&discs, |[x, y], r| (factor * x, factor * y, factor * r));
        prop_assert!((union(&large) / (factor * factor) / union(&discs) - 1.0).abs() < 1e-9);
    }

    #[test]
    fn wider_rings_never_cover_less(discs in any_discs(), more in 0.0..0.5_f64) {
        let wider = changed(&discs, |[x, y], r| (x, y, r + more));
        prop_assert!(union(&wider) >= union(&discs) - 1e-9);
    }

    #[test]
    fn turning_and_moving_the_frame_changes_nothing(discs in any_discs(), angle in 0.0..6.3_f64, far in -1e4..1e4_f64) {
        let (sin, cos) = (libm::sin(angle), libm::cos(angle));
        let moved = changed(&discs, |[x, y], r| (far + x * cos - y * sin, x * sin + y * cos - far, r));
        prop_assert!((union(&moved) - union(&discs)).abs() < 1e-6);
    }

    #[test]
    fn slices_give_the_same_area(discs in prop::collection::vec(any_disc(), 1..12)) {
        // A hair of a band far inside the first disc lends the slices their axis.
        let [x, y] = discs[0].centre_m();
        let sliced = by_slices([x, y], [x + 1e-6, y], 1e-9, &discs);
        prop_assert!((union(&discs) / sliced - 1.0).abs() < 1e-4, "{} by slices {}", union(&discs), sliced);
    }

    #[test]
    fn a_moved_disc_is_as_if_it_had_always_been_there(
        discs in any_discs(),
        moves in prop::collection::vec((0..60_usize, any_disc()), 1..8),
        more in prop::collection::vec(any_disc(), 0..4),
    ) {
        let mut live = Discs::new(discs.clone());
        let mut plain = discs;
        for (index, to) in moves {
            let index = index % plain.len();
            plain[index] = to;
            let worked_out = live.replace(index, to);
            prop_assert!(worked_out >= 1 && worked_out <= plain.len());
            prop_assert!((live.area_m2() - union(&plain)).abs() < 1e-9);
        }
        for disc in more {
            plain.push(disc);
            live.push(disc);
            prop_assert!((live.area_m2() - union(&plain)).abs() < 1e-9);
        }
        prop_assert_eq!(live.discs(), &plain[..]);
        prop_assert_eq!(live.replace(plain.len(), plain[0]), 0);
    }

    #[test]
    fn net_is_never_more_than_the_union(
        discs in any_discs(),
        gaps in prop::collection::vec(0.0..3.0_f64, 60),
    ) {
        let ring = |(disc, gap): (&Disc, &f64)| {
            let [x, y] = disc.centre_m();
            Ring::new(x, y, disc.radius_m(), *gap).unwrap()
        };
        let rings: Vec<Ring> = discs.iter().zip(&gaps).map(ring).collect();
        let area = ring_area(&rings);
        prop_assert!(0.0 <= area.net_m2 && area.net_m2 <= area.union_m2 && area.union_m2 <= area.sum_m2 + 1e-9);
    }

    #[test]
    fn a_band_adds_between_nothing_and_itself(
        discs in any_discs(),
        ends in (-10.0..10.0_f64, -10.0..10.0_f64, -10.0..10.0_f64, -10.0..10.0_f64),
        width in 0.1..8.0_f64,
        round in any::<bool>(),
    ) {
        let kind = if round { Ends::Round } else { Ends::Butt };
        let strip = Strip::new([ends.0, ends.1], [ends.2, ends.3], width, kind).unwrap();
        let area = strip.with_rings(&discs, &[]);
        let alone = union(&discs);
        prop_assert!(area.union_m2 >= alone.max(area.strip_m2) - 1e-8);
        prop_assert!(area.union_m2 <= alone + area.strip_m2 + 1e-8);
    }
}

#[test]
fn many_discs_on_each_other_are_worked_out_in_time() {
    // 20 000 rings about one tree: a slip of the hand, and no reason to wait.
    let mut state = 7_u64;
    let mut share = || {
        state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1);
        f64::from(u32::try_from(state >> 32).unwrap()) / f64::from(u32::MAX)
    };
    let heap: Vec<Disc> = (0..20_000).map(|_| disc(10.0 * share(), 10.0 * share(), 5.0 + share())).collect();
    let all = union(&heap);
    let edge = by_slices([5.0, 5.0], [5.1, 5.0], 0.1, &heap[..200]);
    assert!(all > edge && all < 22.0 * 22.0, "{all}");
}

#[test]
fn moving_one_of_many_works_out_only_its_neighbours() {
    let mut orchard = Discs::new(
        (0..20_000).map(|i| disc(4.0 * f64::from(i % 200), 5.0 * f64::from(i / 200), 2.5)).collect(),
    );
    let before = orchard.area_m2();
    let worked_out = orchard.replace(10_100, disc(400.3, 250.2, 2.4));
    assert!(worked_out < 20, "{worked_out}");
    assert!((orchard.area_m2() - before).abs() < 5.0);
    orchard.replace(10_100, disc(400.0, 250.0, 2.5));
    assert!((orchard.area_m2() - before).abs() < 1e-6);
}
