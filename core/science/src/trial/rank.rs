//! Tests on ranks, for scores whose steps are not equal: Kruskal-Wallis, Friedman with exact tails, signs of pairs.

use std::collections::BTreeMap;

use crate::distribution::{chi_square_beyond, f_beyond, normal_below, t_beyond};

use super::least_squares::Factor;
use super::real;
use super::simultaneous::Simultaneous;

/// Two levels with the chance of ranks this far apart.
pub type Pair = (usize, usize, f64);

/// Ranks from 1, ties sharing their mean, and the sum of t³ − t over the ties.
pub fn ranks(values: &[f64]) -> (Vec<f64>, f64) {
    let mut order: Vec<usize> = (0..values.len()).collect();
    order.sort_by(|&a, &b| values[a].total_cmp(&values[b]));
    let spread = match (order.first(), order.last()) {
        (Some(&low), Some(&high)) => values[high] - values[low],
        _ => 0.0,
    };
    // Sums taken in another order differ by rounding; they are ties all the same.
    let alike = |a: &usize, b: &usize| values[*b] - values[*a] <= 1e-11 * spread;
    let mut ranks = vec![0.0; values.len()];
    let (mut first, mut ties) = (0, 0.0);
    for group in order.chunk_by(alike) {
        let size = real(group.len());
        let rank = real(first) + 0.5 * (size + 1.0);
        for &value in group {
            ranks[value] = rank;
        }
        ties += size * size * size - size;
        first += group.len();
    }
    (ranks, ties)
}

/// Kruskal & Wallis 1952, Journal of the American Statistical Association 47:583-621.
#[derive(Debug, Clone, PartialEq)]
pub struct KruskalWallis {
    /// H corrected for ties; `None` where all values are the same.
    pub h: Option<f64>,
    /// H as it is without the correction.
    pub uncorrected: f64,
    /// Degrees of freedom.
    pub degrees: usize,
    /// Chance by the chi-square curve, which is poor for few plots.
    pub p: f64,
    /// Sum of ranks of each level.
    pub rank_sums: Vec<f64>,
    /// Dunn 1964 with Holm's steps, pair by pair.
    pub pairs: Vec<Pair>,
}

/// Compares levels without blocks.
pub fn kruskal_wallis(treatment: &Factor, values: &[f64]) -> KruskalWallis {
    let (ranks, ties) = ranks(values);
    let number = real(values.len());
    let mut rank_sums = vec![0.0; treatment.levels];
    let mut plots = vec![0_usize; treatment.levels];
    for (&level, rank) in treatment.of.iter().zip(&ranks) {
        rank_sums[level] += rank;
        plots[level] += 1;
    }
    let squares: f64 = rank_sums
        .iter()
        .zip(&plots)
        .filter(|(_, plots)| **plots > 0)
        .map(|(sum, &n)| sum * sum / real(n))
        .sum();
    let uncorrected = 12.0 / (number * (number + 1.0)) * squares - 3.0 * (number + 1.0);
    let factor = 1.0 - ties / (number * number * number - number);
    let h = (factor > 0.0).then(|| uncorrected / factor);
    let degrees = plots.iter().filter(|plots| **plots > 0).count().saturating_sub(1);
    let variance = number * (number + 1.0) / 12.0 - ties / (12.0 * (number - 1.0));
    let alone = |a: usize, b: usize| {
        let (n_a, n_b) = (real(plots[a]), real(plots[b]));
        let z = (rank_sums[a] / n_a - rank_sums[b] / n_b) / (variance * (1.0 / n_a + 1.0 / n_b)).sqrt();
        if z.is_finite() { 2.0 * normal_below(-z.abs()) } else { 1.0 }
    };
    KruskalWallis {
        h,
        uncorrected,
        degrees,
        p: h.map_or(1.0, |h| chi_square_beyond(h, real(degrees))),
        pairs: holm(&pairs_of(treatment.levels, alone)),
        rank_sums,
    }
}

/// Friedman 1937, Journal of the American Statistical Association 32:675-701, with its follow-ups.
#[derive(Debug, Clone, PartialEq)]
pub struct Friedman {
    /// Q corrected for ties; `None` where every block has one value throughout.
    pub q: Option<f64>,
    /// Q as it is without the correction.
    pub uncorrected: f64,
    /// Degrees of freedom.
    pub degrees: usize,
    /// Chance by the chi-square curve, which is poor for few blocks.
    pub p: f64,
    /// Chance by all orders of the ranks within the blocks, ties as they are; `None` where there are too many.
    pub exact_p: Option<f64>,
    /// F of Iman & Davenport 1980 and its chance.
    pub f: Option<(f64, f64)>,
    /// How far the blocks agree, 0 to 1 (Kendall).
    pub agreement: f64,
    /// Sum of ranks of each level.
    pub rank_sums: Vec<f64>,
    /// Sum of squared ranks and what it would be of equal ranks.
    pub squares: (f64, f64),
    /// Conover 1999, Practical Nonparametric Statistics (from memory): pair by pair, for pairs named beforehand.
    pub conover: Vec<Pair>,
    /// Nemenyi 1963: pair by pair over the whole set.
    pub nemenyi: Vec<Pair>,
}

/// Compares levels within blocks; `values[block][level]`, none missing.
pub fn friedman(values: &[Vec<f64>]) -> Friedman {
    let levels = values.first().map_or(0, Vec::len);
    let (number, many) = (real(values.len()), real(levels));
    let blocks: Vec<Vec<f64>> = values.iter().map(|block| ranks(block).0).collect();
    let rank_sums: Vec<f64> =
        (0..levels).map(|level| blocks.iter().map(|block| block[level]).sum()).collect();
    let squared: f64 = rank_sums.iter().map(|sum| sum * sum).sum();
    let own: f64 = blocks.iter().flatten().map(|rank| rank * rank).sum();
    let equal = number * many * (many + 1.0) * (many + 1.0) / 4.0;
    let uncorrected = 12.0 / (number * many * (many + 1.0)) * squared - 3.0 * number * (many + 1.0);
    let statistic = (own > equal).then(|| (many - 1.0) * (squared - number * equal) / (own - equal));
    let degrees = levels.saturating_sub(1);
    let below = (number - 1.0) * (many - 1.0);
    let ratio =
        statistic.map(|q| (number - 1.0) * q / (number * (many - 1.0) - q)).filter(|ratio| ratio.is_finite());
    let spread = 2.0 * (number * own - squared) / below;
    let range = Simultaneous::range(levels);
    let by_t = |a: usize, b: usize| (rank_sums[a] - rank_sums[b]).abs() / spread.max(0.0).sqrt();
    let unit = (many * (many + 1.0) / (12.0 * number)).sqrt();
    let by_z = |a: usize, b: usize| (rank_sums[a] - rank_sums[b]).abs() / number / unit;
    Friedman {
        q: statistic,
        uncorrected,
        degrees,
        p: statistic.map_or(1.0, |q| chi_square_beyond(q, real(degrees))),
        exact_p: exact_tail(&blocks, &rank_sums),
        f: ratio.map(|f| (f, f_beyond(f, many - 1.0, below))),
        agreement: statistic.map_or(0.0, |q| q / (number * (many - 1.0))),
        squares: (own, equal),
        conover: pairs_of(levels, |a, b| t_beyond(by_t(a, b), below)),
        nemenyi: pairs_of(levels, |a, b| range.beyond(by_z(a, b), f64::INFINITY)),
        rank_sums,
    }
}

/// More states than this times orders of a block are not gone through.
const MOST_WORK: usize = 4_000_000;
/// More levels than this have too many orders.
const MOST_LEVELS: usize = 8;

/// Chance of rank sums at least this uneven over all orders within every block: levels are alike there, so states that
/// differ only in their names are one.
fn exact_tail(blocks: &[Vec<f64>], rank_sums: &[f64]) -> Option<f64> {
    let levels = rank_sums.len();
    if levels > MOST_LEVELS {
        return None;
    }
    let mut states: BTreeMap<Vec<u32>, f64> = BTreeMap::new();
    states.insert(vec![0; levels], 1.0);
    let mut work = 0;
    for (index, block) in blocks.iter().enumerate() {
        let mut order: Vec<u32> = block.iter().map(|rank| doubled(*rank)).collect();
        order.sort_unstable();
        let mut orders = vec![order.clone()];
        // The names of the first block may be chosen at will.
        while index > 0 && next_order(&mut order) {
            orders.push(order.clone());
            if orders.len() > MOST_WORK {
                return None;
            }
        }
        work += states.len() * orders.len();
        if work > MOST_WORK {
            return None;
        }
        let share = 1.0 / real(orders.len());
        let mut next: BTreeMap<Vec<u32>, f64> = BTreeMap::new();
        for (state, chance) in &states {
            for order in &orders {
                let mut sums: Vec<u32> = state.iter().zip(order).map(|(sum, rank)| sum + rank).collect();
                sums.sort_unstable();
                *next.entry(sums).or_insert(0.0) += chance * share;
            }
        }
        states = next;
    }
    let uneven = |sums: &[u32]| sums.iter().map(|&sum| u64::from(sum) * u64::from(sum)).sum::<u64>();
    let observed: Vec<u32> = rank_sums.iter().map(|sum| doubled(*sum)).collect();
    let line = uneven(&observed);
    Some(
        states
            .iter()
            .filter(|(sums, _)| uneven(sums) >= line)
            .map(|(_, chance)| chance)
            .sum::<f64>()
            .min(1.0),
    )
}

/// Ranks come in halves.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "ranks are small and above 0")]
fn doubled(rank: f64) -> u32 {
    (2.0 * rank).round() as u32
}

/// The next order of a list, equal ones once each; `false` after the last.
pub(super) fn next_order<T: Ord>(items: &mut [T]) -> bool {
    let Some(turn) = (1..items.len()).rev().find(|&at| items[at - 1] < items[at]) else { return false };
    let pivot = turn - 1;
    let Some(larger) = (turn..items.len()).rev().find(|&at| items[at] > items[pivot]) else { return false };
    items.swap(pivot, larger);
    items[turn..].reverse();
    true
}

/// Chance of so many more signs one way, two-sided; ties are left out (Arbuthnot's test).
pub fn signs(differences: &[f64]) -> f64 {
    let above = differences.iter().filter(|difference| **difference > 0.0).count();
    let below = differences.iter().filter(|difference| **difference < 0.0).count();
    let number = above + below;
    let mut chance = libm::exp2(-real(number));
    let mut tail = 0.0;
    for step in 0..=above.min(below) {
        tail += chance;
        chance *= real(number - step) / real(step + 1);
    }
    (2.0 * tail).min(1.0)
}

fn pairs_of(levels: usize, p: impl Fn(usize, usize) -> f64) -> Vec<Pair> {
    (0..levels).flat_map(|a| (a + 1..levels).map(move |b| (a, b))).map(|(a, b)| (a, b, p(a, b))).collect()
}

/// Holm 1979, Scandinavian Journal of Statistics 6:65-70.
fn holm(pairs: &[Pair]) -> Vec<Pair> {
    let mut order: Vec<usize> = (0..pairs.len()).collect();
    order.sort_by(|&a, &b| pairs[a].2.total_cmp(&pairs[b].2));
    let mut adjusted = pairs.to_vec();
    let mut least: f64 = 0.0;
    for (done, &pair) in order.iter().enumerate() {
        least = least.max((real(pairs.len() - done) * pairs[pair].2).min(1.0));
        adjusted[pair].2 = least;
    }
    adjusted
}
