//! What chance alone does to trials, and what a trial may say: ten thousand trials of nothing in the long suite, fewer
//! with wider bounds otherwise.
#![expect(clippy::unwrap_used, clippy::cast_precision_loss, reason = "test data is known and small")]
#![expect(clippy::print_stdout, reason = "the shares are figures worth reading")]

use std::collections::BTreeSet;

use kerfbook_science::nitrogen::normal_quantile;
use kerfbook_science::trial::LINE;
use kerfbook_science::trial::anova::{Line, analyse};
use kerfbook_science::trial::curve::{CurveError, common_visits};
use kerfbook_science::trial::design::{Design, Kind, Standing};
use kerfbook_science::trial::generator::SplitMix64;
use kerfbook_science::trial::layout::{self, Given, Layout, LayoutError};
use kerfbook_science::trial::least_squares::Factor;
use kerfbook_science::trial::response::Response;
use kerfbook_science::trial::structure::{Compared, Structure, Trial, TrialError};
use kerfbook_science::trial::verdict::{Question, Refusal, Saying, Verdict, judge};
use kerfbook_science::trial::{power, randomisation, rank};
use proptest::prelude::*;
use rstest::rstest;

fn structure(design: &Design, layout: &Layout) -> Structure {
    let of = |level: &dyn Fn(&layout::Plot) -> usize| -> Factor {
        let of: Vec<usize> = layout.plots.iter().map(level).collect();
        Factor { levels: of.iter().max().unwrap() + 1, of }
    };
    let block = of(&|plot| plot.block);
    let treatment = of(&|plot| match plot.given {
        Given::Treatment(treatment) => treatment,
        Given::Crossed { main, .. } => main,
    });
    let sub = of(&|plot| match plot.given {
        Given::Treatment(_) => 0,
        Given::Crossed { sub, .. } => sub,
    });
    match design.kind() {
        Kind::CompletelyRandomised => Structure::Single { treatment },
        Kind::Pairs | Kind::Strips | Kind::RandomisedBlocks => Structure::Blocks { block, treatment },
        Kind::LatinSquare => {
            Structure::Square { row: of(&|plot| plot.row), column: of(&|plot| plot.column), treatment }
        }
        Kind::SplitPlot => Structure::Split { block, main: treatment, sub },
        Kind::StripPlot => Structure::Strip { block, main: treatment, sub },
    }
}

/// Plots that differ by chance alone: by block, by main plot or strip, and each for itself.
fn by_chance(design: &Design, layout: &Layout, generator: &mut SplitMix64) -> Vec<f64> {
    let mut normal = || normal_quantile(generator.uniform());
    let blocks: Vec<f64> = (0..layout.plots.len()).map(|_| 2.0 * normal()).collect();
    let mains: Vec<f64> = (0..1000).map(|_| normal()).collect();
    let subs: Vec<f64> = (0..1000).map(|_| normal()).collect();
    layout
        .plots
        .iter()
        .map(|plot| {
            let strips = match (design.kind(), plot.given) {
                (Kind::SplitPlot, Given::Crossed { main, .. }) => mains[10 * plot.block + main],
                (Kind::StripPlot, Given::Crossed { main, sub }) => {
                    mains[10 * plot.block + main] + subs[10 * plot.block + sub]
                }
                _ => 0.0,
            };
            let block = if design.kind() == Kind::CompletelyRandomised { 0.0 } else { blocks[plot.block] };
            50.0 + block + strips + normal()
        })
        .collect()
}

/// Trials of nothing, and how far a share of one in twenty may stray: 1 point in 10 000, else four standard errors.
fn size() -> (usize, f64) {
    if std::env::var("KERFBOOK_LONG").is_ok_and(|long| long == "1") {
        (10_000, 0.01)
    } else {
        (1_500, 4.0 * (0.05_f64 * 0.95 / 1_500.0).sqrt())
    }
}

#[rstest]
#[case(Design::Pairs { pairs: 7 }, &[])]
#[case(Design::Strips { treatments: 3, blocks: 5 }, &[])]
#[case(Design::CompletelyRandomised { plots: vec![8, 4, 4, 4] }, &[])]
#[case(Design::RandomisedBlocks { treatments: 4, blocks: 4 }, &[])]
#[case(Design::RandomisedBlocks { treatments: 5, blocks: 4 }, &[3, 12])]
#[case(Design::LatinSquare { side: 5 }, &[])]
#[case(Design::SplitPlot { main: 3, sub: 4, blocks: 4 }, &[])]
#[case(Design::StripPlot { main: 3, sub: 3, blocks: 5 }, &[])]
fn nothing_comes_out_one_time_in_twenty(#[case] design: Design, #[case] lost: &[usize]) {
    let (number, within) = size();
    let layout = layout::draw(&design, 3, 0, 0).unwrap();
    let structure = structure(&design, &layout);
    let mut generator = SplitMix64::new(2026);
    let lines = [Line::Treatment, Line::Main, Line::Sub, Line::MainBySub];
    let mut by_f = [0_usize; 4];
    // The limit of t and of Dunnett is the same in every trial of one layout.
    let mut limits: Vec<(f64, f64)> = Vec::new();
    let mut by_t = [0_usize; 2];
    let mut by_dunnett = [0_usize; 2];
    for _ in 0..number {
        let y = by_chance(&design, &layout, &mut generator);
        let values: Vec<Option<f64>> =
            y.iter().enumerate().map(|(plot, y)| (!lost.contains(&plot)).then_some(*y)).collect();
        let trial = Trial::new(design.kind(), structure.clone(), Response::from_numbers(&values)).unwrap();
        let analysis = analyse(&trial);
        for (line, count) in lines.iter().zip(&mut by_f) {
            *count += usize::from(analysis.row(*line).is_some_and(|row| row.p.unwrap() < LINE));
        }
        for (at, group) in analysis.groups.iter().enumerate() {
            if limits.len() == at {
                let limit = |c: &kerfbook_science::trial::comparison::Comparison| {
                    (c.high - c.difference) / c.standard_error
                };
                limits.push((limit(&group.lsd(0, 1)), limit(&group.dunnett(0)[0])));
            }
            let t = |level: usize| {
                (group.means[level].adjusted - group.means[0].adjusted).abs() / group.standard_error(0, level)
            };
            by_t[at] += usize::from(t(1) > limits[at].0);
            by_dunnett[at] += usize::from((1..group.means.len()).any(|level| t(level) > limits[at].1));
        }
    }
    let judge = |what: &str, count: usize| {
        let share = count as f64 / number as f64;
        println!("{} {what}: {:.2} % of {number}", design.kind().name(), 100.0 * share);
        assert!((share - LINE).abs() <= within, "{design:?}, {what}: {share}");
    };
    let crossed = design.kind().is_two_factor();
    for (line, count) in lines.iter().zip(by_f) {
        if (*line == Line::Treatment) != crossed {
            judge(&format!("F of {line:?}"), count);
        }
    }
    for at in 0..limits.len() {
        judge("t", by_t[at]);
        judge("Dunnett", by_dunnett[at]);
    }
}

#[rstest]
#[case(Design::Pairs { pairs: 6 })]
#[case(Design::RandomisedBlocks { treatments: 3, blocks: 4 })]
#[case(Design::CompletelyRandomised { plots: vec![4, 4] })]
fn exact_tests_find_nothing_at_most_as_often(#[case] design: Design) {
    let (number, _) = size();
    let layout = layout::draw(&design, 3, 0, 0).unwrap();
    let structure = structure(&design, &layout);
    let mut generator = SplitMix64::new(99);
    let (mut reordered, mut ranked) = (0_usize, 0_usize);
    for _ in 0..number {
        let y = by_chance(&design, &layout, &mut generator);
        let values: Vec<Option<f64>> = y.iter().copied().map(Some).collect();
        let trial = Trial::new(design.kind(), structure.clone(), Response::from_numbers(&values)).unwrap();
        let test = randomisation::test(&trial, Compared::Treatment, 1).unwrap();
        assert!(test.exact && test.p >= test.smallest - 1e-12);
        assert!((test.smallest / design.smallest_p() - 1.0).abs() < 1e-9);
        reordered += usize::from(test.p <= LINE);
        if let Structure::Blocks { block, treatment } = &structure {
            let mut cells = vec![vec![0.0; treatment.levels]; block.levels];
            for (plot, value) in y.iter().enumerate() {
                cells[block.of[plot]][treatment.of[plot]] = *value;
            }
            ranked += usize::from(rank::friedman(&cells).exact_p.unwrap() <= LINE);
        }
    }
    let most = 0.057_f64.max(
        LINE + 4.0 * (LINE * (1.0 - LINE) / number as f64).sqrt() * f64::from(u8::from(number < 10_000)),
    );
    let blocked = matches!(structure, Structure::Blocks { .. });
    for (what, count) in [("reordering", Some(reordered)), ("Friedman", blocked.then_some(ranked))] {
        let Some(count) = count else { continue };
        let share = count as f64 / number as f64;
        println!("{} {what}: {:.2} % of {number}", design.kind().name(), 100.0 * share);
        assert!(share <= most, "{design:?}, {what}: {share}");
    }
}

proptest! {
    #[test]
    fn every_treatment_stands_where_it_must(treatments in 2_usize..7, blocks in 2_usize..6, seed: u64) {
        let once = |plots: &[usize]| plots.iter().collect::<BTreeSet<_>>().len() == plots.len();
        let of = |plot: &layout::Plot| match plot.given {
            Given::Treatment(treatment) => treatment,
            Given::Crossed { main, sub } => 100 * main + sub,
        };
        let square = layout::draw(&Design::LatinSquare { side: treatments }, seed, 0, 0).unwrap();
        for line in 0..treatments {
            let row: Vec<usize> = square.plots.iter().filter(|plot| plot.row == line).map(of).collect();
            let column: Vec<usize> = square.plots.iter().filter(|plot| plot.column == line).map(of).collect();
            prop_assert!(once(&row) && once(&column));
        }
        for design in [
            Design::RandomisedBlocks { treatments, blocks },
            Design::Strips { treatments, blocks },
            Design::SplitPlot { main: treatments, sub: 3, blocks },
            Design::StripPlot { main: treatments, sub: 3, blocks },
        ] {
            let layout = layout::draw(&design, seed, 0, 0).unwrap();
            prop_assert_eq!(layout.plots.len(), design.plots());
            for block in 0..blocks {
                let own: Vec<usize> = layout.plots.iter().filter(|plot| plot.block == block).map(of).collect();
                prop_assert!(once(&own) && own.len() == design.plots() / blocks);
            }
            let numbers: BTreeSet<u32> = layout.plots.iter().map(|plot| plot.number).collect();
            prop_assert_eq!(numbers.len(), layout.plots.len());
            // Walking, the next plot is beside or behind the one before.
            for step in layout.walk.windows(2) {
                let (from, to) = (&layout.plots[step[0]], &layout.plots[step[1]]);
                let (rows, columns) = (to.row - from.row, to.column.abs_diff(from.column));
                prop_assert_eq!(rows + columns, 1);
            }
        }
    }

    #[test]
    fn the_table_knows_no_order_shift_or_scale(seed: u64, shift in -1e6..1e6_f64, scale in 0.01..100.0_f64) {
        let design = Design::RandomisedBlocks { treatments: 4, blocks: 5 };
        let layout = layout::draw(&design, seed, 0, 0).unwrap();
        let mut generator = SplitMix64::new(seed);
        let y = by_chance(&design, &layout, &mut generator);
        let lost = generator.below(20);
        let values: Vec<Option<f64>> = (0..20).map(|plot| (plot != lost).then_some(y[plot])).collect();
        let one = Trial::new(Kind::RandomisedBlocks, structure(&design, &layout), Response::from_numbers(&values)).unwrap();
        let mut order: Vec<usize> = (0..20).collect();
        generator.shuffle(&mut order);
        let mut turned = layout.clone();
        turned.plots = order.iter().map(|&plot| layout.plots[plot].clone()).collect();
        let moved: Vec<Option<f64>> = order.iter().map(|&plot| values[plot].map(|y| shift + scale * y)).collect();
        let other = Trial::new(Kind::RandomisedBlocks, structure(&design, &turned), Response::from_numbers(&moved)).unwrap();
        let (one, other) = (analyse(&one), analyse(&other));
        for (a, b) in one.rows.iter().zip(&other.rows) {
            prop_assert_eq!(a.degrees, b.degrees);
            let close = |a: f64, b: f64| (a - b).abs() <= 1e-6 * a.abs().max(1e-3);
            prop_assert!(close(a.squares * scale * scale, b.squares), "{:?} {:?}", a, b);
            if let (Some(a), Some(b)) = (a.p, b.p) {
                prop_assert!((a - b).abs() < 1e-6);
            }
        }
    }
}

#[test]
fn a_refused_layout_is_followed_by_the_next_one_of_the_same_seed() {
    let design = Design::RandomisedBlocks { treatments: 4, blocks: 4 };
    let [first, second, again] = [0, 1, 1].map(|refused| layout::draw(&design, 7, refused, 0).unwrap());
    assert_ne!(first, second);
    assert_eq!(second, again);
}

#[test]
fn what_cannot_be_laid_out_is_said() {
    let draw = |design: Design| layout::draw(&design, 1, 0, 0).unwrap_err();
    assert_eq!(draw(Design::RandomisedBlocks { treatments: 1, blocks: 4 }), LayoutError::OneTreatment);
    assert_eq!(draw(Design::Pairs { pairs: 0 }), LayoutError::NoPlot);
    assert_eq!(draw(Design::CompletelyRandomised { plots: vec![3, 0] }), LayoutError::NoPlot);
    assert_eq!(draw(Design::LatinSquare { side: 101 }), LayoutError::TooMany);
    assert_eq!(draw(Design::SplitPlot { main: usize::MAX, sub: 2, blocks: 9 }), LayoutError::TooMany);
}

#[test]
fn shuffled_cyclic_squares_are_as_many_divisions_as_counted() {
    for (side, wanted) in [(3, 2), (4, 18), (5, 144)] {
        let design = Design::LatinSquare { side };
        let divisions: BTreeSet<Vec<usize>> = (0..4_000)
            .map(|seed| {
                let layout = layout::draw(&design, seed, 0, 0).unwrap();
                // Letters by the order in which they come up: the division of the field without their names.
                let mut names = Vec::new();
                layout
                    .plots
                    .iter()
                    .map(|plot| {
                        let Given::Treatment(letter) = plot.given else {
                            unreachable!("a square has one factor")
                        };
                        names.iter().position(|name| *name == letter).unwrap_or_else(|| {
                            names.push(letter);
                            names.len() - 1
                        })
                    })
                    .collect()
            })
            .collect();
        assert_eq!(divisions.len(), wanted);
        assert!((design.smallest_p() * wanted as f64 - 1.0).abs() < 1e-12);
    }
}

#[test]
fn a_design_says_what_it_is_good_for() {
    assert_eq!(Design::RandomisedBlocks { treatments: 4, blocks: 1 }.standing(), Standing::Demonstration);
    assert_eq!(Design::CompletelyRandomised { plots: vec![1, 1] }.standing(), Standing::Demonstration);
    assert_eq!(Design::Pairs { pairs: 3 }.standing(), Standing::TooSmall);
    assert_eq!(Design::RandomisedBlocks { treatments: 3, blocks: 3 }.standing(), Standing::Few);
    assert_eq!(Design::Pairs { pairs: 6 }.standing(), Standing::Trial);
    assert_eq!(Design::LatinSquare { side: 4 }.standing(), Standing::Trial);
    assert_eq!(Design::SplitPlot { main: 2, sub: 3, blocks: 4 }.standing(), Standing::Trial);
}

#[test]
fn what_is_called_detectable_is_found_four_times_in_five() {
    for design in [Design::RandomisedBlocks { treatments: 4, blocks: 5 }, Design::Pairs { pairs: 7 }] {
        let stratum = design.strata()[0];
        let found = power::of_pair(stratum, power::detectable(stratum), 1.0);
        assert!((found - power::POWER).abs() < 1e-9);
    }
    assert!(power::detectable_pct(&Design::Pairs { pairs: 1 }, 10.0).is_none());
}

fn blocks(values: &[&[Option<f64>]]) -> Result<Trial, TrialError> {
    let (rows, levels) = (values.len(), values[0].len());
    let of =
        |divide: bool| (0..rows * levels).map(|p| if divide { p / levels } else { p % levels }).collect();
    let structure = Structure::Blocks {
        block: Factor { levels: rows, of: of(true) },
        treatment: Factor { levels, of: of(false) },
    };
    Trial::new(Kind::RandomisedBlocks, structure, Response::from_numbers(&values.concat()))
}

fn verdict(values: &[&[Option<f64>]], question: &Question) -> Verdict {
    judge(Kind::RandomisedBlocks, &blocks(values).unwrap(), question)
}

fn against_first() -> Question {
    Question { check: Some(0), ..Question::default() }
}

#[test]
fn one_of_each_is_no_trial() {
    let verdict = verdict(&[&[Some(1.0), Some(5.0), Some(9.0)]], &against_first());
    assert_eq!(verdict.sayings, [Saying::Refused(Refusal::Demonstration), Saying::FieldAndSeason]);
    assert!(verdict.judged.is_empty());
}

#[test]
fn too_much_lost_or_a_treatment_gone_is_refused() {
    let full = [Some(1.0), Some(2.0), Some(3.5)];
    let lost = verdict(&[&full, &full, &[None, None, Some(2.0)], &[None, None, Some(3.0)]], &against_first());
    assert!(matches!(lost.sayings[0], Saying::Refused(Refusal::TooManyLost { lost: 4, planned: 12 })));
    let rest = [Some(1.0), Some(2.0), Some(2.5), Some(2.2), None];
    let gone = verdict(&[&rest, &rest, &rest, &rest], &against_first());
    assert!(matches!(gone.sayings[0], Saying::Refused(Refusal::LevelLost { level: Some(4), .. })));
    let equal = verdict(&[&full, &full, &full, &full], &against_first());
    assert!(matches!(equal.sayings[0], Saying::Refused(Refusal::NoSpread)));
}

#[test]
fn a_clear_difference_a_missing_one_and_one_that_does_not_matter_are_told_apart() {
    let noise = [0.3, -0.4, 0.1, -0.2, 0.35, -0.15];
    let rows: Vec<[Option<f64>; 3]> = noise
        .iter()
        .enumerate()
        .map(|(at, e)| [Some(5.0 + e), Some(25.0 - e), Some(5.2 + noise[5 - at])])
        .collect();
    let values: Vec<&[Option<f64>]> = rows.iter().map(<[Option<f64>; 3]>::as_slice).collect();
    let plain = verdict(&values, &against_first());
    assert!(matches!(plain.sayings[0], Saying::Differs { comparison, .. } if comparison.b == 1));
    let Saying::NotShown { missed, comparison, .. } = plain.sayings[1] else { panic!("{:?}", plain.sayings) };
    assert!(missed > comparison.high - comparison.difference);
    let margin = verdict(&values, &Question { margin: Some(3.0), ..against_first() });
    assert!(matches!(margin.sayings[1], Saying::WithinMargin { .. }));
    assert_eq!(plain.sayings.last(), Some(&Saying::FieldAndSeason));
    assert!(!plain.refused);
}

#[test]
fn three_pairs_are_a_look() {
    let rows = [[Some(1.0), Some(9.0)], [Some(1.2), Some(9.1)], [Some(0.9), Some(9.2)]];
    let values: Vec<&[Option<f64>]> = rows.iter().map(<[Option<f64>; 2]>::as_slice).collect();
    let verdict = judge(Kind::Pairs, &blocks(&values).unwrap(), &against_first());
    let small = verdict.sayings.iter().any(|saying| {
        matches!(saying, Saying::TooSmall { smallest, replicates: 3, .. } if (smallest - 0.25).abs() < 1e-12)
    });
    assert!(small, "{:?}", verdict.sayings);
    assert!(verdict.sayings.iter().any(|saying| matches!(saying, Saying::Disagree { .. })));
}

#[test]
fn a_plot_that_decides_is_named() {
    // Without the last plot the second treatment is clear of the first.
    let rows = [
        [Some(5.0), Some(8.0)],
        [Some(5.4), Some(8.3)],
        [Some(4.9), Some(8.2)],
        [Some(5.2), Some(7.9)],
        [Some(5.1), Some(8.1)],
        [Some(5.3), Some(8.4)],
        [Some(5.0), Some(-4.0)],
    ];
    let values: Vec<&[Option<f64>]> = rows.iter().map(<[Option<f64>; 2]>::as_slice).collect();
    let verdict = verdict(&values, &against_first());
    let driven = verdict.sayings.iter().find_map(|saying| match saying {
        Saying::Drives { left } => Some(left.plot),
        _ => None,
    });
    assert!(matches!(driven, Some(12 | 13)), "{:?}", verdict.sayings);
}

#[test]
fn duplicate_plots_and_odd_squares_are_refused_with_their_plots() {
    let structure = |levels: usize, of: Vec<usize>| Factor { levels, of };
    let response = Response::from_numbers(&[Some(1.0), Some(2.0), Some(3.0), Some(4.0)]);
    let twice = Trial::new(
        Kind::RandomisedBlocks,
        Structure::Blocks {
            block: structure(2, vec![0, 0, 1, 0]),
            treatment: structure(2, vec![0, 1, 0, 1]),
        },
        response.clone(),
    );
    assert_eq!(twice, Err(TrialError::Twice { first: 1, second: 3 }));
    let square = Trial::new(
        Kind::LatinSquare,
        Structure::Square {
            row: structure(2, vec![0, 0, 1, 1]),
            column: structure(2, vec![0, 1, 0, 1]),
            treatment: structure(2, vec![0, 1, 0, 1]),
        },
        response.clone(),
    );
    assert_eq!(square, Err(TrialError::NoSquare { first: 0, second: 2 }));
    let three = Trial::new(
        Kind::Pairs,
        Structure::Blocks {
            block: structure(2, vec![0, 0, 1, 1]),
            treatment: structure(3, vec![0, 1, 0, 2]),
        },
        response,
    );
    assert_eq!(three, Err(TrialError::NoPairs { treatments: 3 }));
    let one = Structure::Single { treatment: structure(1, vec![0; 2]) };
    let one = Trial::new(Kind::CompletelyRandomised, one, Response::from_numbers(&[Some(1.0), Some(2.0)]));
    assert_eq!(one, Err(TrialError::OneTreatment));
}

#[test]
fn unequal_visits_are_compared_where_all_were_seen() {
    let whole = vec![(0.0, 0.0), (7.0, 10.0), (14.0, 20.0), (21.0, 30.0)];
    let gap = vec![(21.0, 40.0), (0.0, 0.0), (14.0, 20.0)];
    let short = vec![(7.0, 5.0), (14.0, 5.0), (21.0, 5.0)];
    let common = common_visits(&[whole.clone(), gap, short]).unwrap();
    assert_eq!(common.days, [7.0, 14.0, 21.0]);
    assert_eq!((common.drawn, common.left_out), (1, 1));
    let areas: Vec<f64> = common.curves.iter().map(kerfbook_science::trial::curve::Curve::area).collect();
    assert!((areas[0] - 280.0).abs() < 1e-9 && (areas[1] - (105.0 + 210.0)).abs() < 1e-9);
    assert_eq!(common_visits(&[whole.clone(), vec![(3.0, 1.0), (3.0, 2.0)]]), Err(CurveError::Order));
    assert_eq!(common_visits(&[whole.clone(), vec![(30.0, 1.0)]]), Err(CurveError::OneVisit));
    assert_eq!(common_visits(&[whole, vec![]]), Err(CurveError::OneVisit));
}
