//! The test that leans on nothing but the shuffle: how often would another draw of the same layout have parted the
//! treatments as far as this one did?
//!
//! All draws are gone through where there are few; otherwise a number of them, the field's own counted in, so that the
//! chance is never 0 (Phipson & Smyth 2010, Statistical Applications in Genetics and Molecular Biology 9:39).

use super::design::{arrangements, factorial};
use super::generator::SplitMix64;
use super::least_squares::Factor;
use super::rank::next_order;
use super::real;
use super::structure::{Compared, Structure, Trial};

/// All draws are gone through up to this many.
pub const MOST_ARRANGEMENTS: f64 = 100_000.0;
/// Draws where there are more.
pub const DRAWS: u64 = 9_999;

/// What came of it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Randomised {
    /// Share of layouts that part the treatments at least as far.
    pub p: f64,
    /// How many of those gone through do.
    pub at_least: u64,
    /// How many were gone through, names of treatments held apart in the first block; drawn ones less the field's own.
    pub arrangements: u64,
    /// All of them, or some that were drawn.
    pub exact: bool,
    /// The smallest chance that this trial could have given.
    pub smallest: f64,
}

/// Runs the test for one factor; `None` where lost plots leave no fair reordering.
///
/// What is compared is F, through the sum of squares between treatments, which rises with it. Factors on main plots and in
/// strips are reordered whole.
pub fn test(trial: &Trial, compared: Compared, seed: u64) -> Option<Randomised> {
    test_of_values(trial, compared, trial.response().above(), seed)
}

/// The same with other values for the plots, such as ranks.
pub fn test_of_values(
    trial: &Trial,
    compared: Compared,
    values: &[Option<f64>],
    seed: u64,
) -> Option<Randomised> {
    let complete = trial.lost() == 0;
    let mut generator = SplitMix64::new(seed);
    match (trial.structure(), compared) {
        (Structure::Single { treatment }, Compared::Treatment) => {
            let plots: Vec<usize> = trial.kept().to_vec();
            let values: Vec<f64> = plots.iter().filter_map(|&plot| values[plot]).collect();
            Some(single(&treatment.of_plots(&plots), &values, &mut generator))
        }
        (Structure::Blocks { block, treatment }, Compared::Treatment) => {
            Some(blocks(&cells(block, treatment, values), &mut generator))
        }
        (Structure::Square { row, column, treatment }, Compared::Treatment) if complete => {
            square(row, column, treatment, values, &mut generator)
        }
        (Structure::Split { block, main, .. } | Structure::Strip { block, main, .. }, Compared::Main)
            if complete =>
        {
            Some(blocks(&means(block, main, values), &mut generator))
        }
        (Structure::Split { block, main, sub }, Compared::Sub) => {
            let main_plot = Factor {
                levels: block.levels * main.levels,
                of: block.of.iter().zip(&main.of).map(|(block, own)| block * main.levels + own).collect(),
            };
            Some(blocks(&cells(&main_plot, sub, values), &mut generator))
        }
        (Structure::Strip { block, sub, .. }, Compared::Sub) if complete => {
            Some(blocks(&means(block, sub, values), &mut generator))
        }
        _ => None,
    }
}

/// Values by block and level; what is lost or was never there is `None`.
pub(super) fn cells(block: &Factor, treatment: &Factor, values: &[Option<f64>]) -> Vec<Vec<Option<f64>>> {
    let mut cells = vec![vec![None; treatment.levels]; block.levels];
    for ((&block, &level), value) in block.of.iter().zip(&treatment.of).zip(values) {
        cells[block][level] = *value;
    }
    cells
}

fn means(block: &Factor, treatment: &Factor, values: &[Option<f64>]) -> Vec<Vec<Option<f64>>> {
    let mut sums = vec![vec![(0.0, 0.0); treatment.levels]; block.levels];
    for ((&block, &level), value) in block.of.iter().zip(&treatment.of).zip(values) {
        if let Some(value) = value {
            sums[block][level].0 += value;
            sums[block][level].1 += 1.0;
        }
    }
    let mean = |&(sum, plots): &(f64, f64)| (plots > 0.0).then(|| sum / plots);
    sums.iter().map(|block| block.iter().map(mean).collect()).collect()
}

/// Counts layouts beside the field's own.
struct Count {
    line: f64,
    at_least: u64,
    most: f64,
    at_most: u64,
    all: u64,
}

impl Count {
    fn new(observed: f64, scale: f64) -> Self {
        // Sums taken in another order differ by rounding.
        Self { line: observed - 1e-9 * scale, at_least: 0, most: f64::NEG_INFINITY, at_most: 0, all: 0 }
    }

    fn take(&mut self, statistic: f64, scale: f64) {
        self.all += 1;
        self.at_least += u64::from(statistic >= self.line);
        if statistic > self.most + 1e-9 * scale {
            self.most = statistic;
            self.at_most = 1;
        } else if statistic >= self.most - 1e-9 * scale {
            self.at_most += 1;
        }
    }

    fn exact(&self) -> Randomised {
        Randomised {
            p: whole(self.at_least) / whole(self.all),
            at_least: self.at_least,
            arrangements: self.all,
            exact: true,
            smallest: whole(self.at_most) / whole(self.all),
        }
    }

    fn drawn(&self) -> Randomised {
        let all = whole(self.all) + 1.0;
        Randomised {
            p: (whole(self.at_least) + 1.0) / all,
            at_least: self.at_least,
            arrangements: self.all,
            exact: false,
            smallest: 1.0 / all,
        }
    }
}

#[expect(clippy::cast_precision_loss, reason = "at most 100 000")]
const fn whole(count: u64) -> f64 {
    count as f64
}

fn single(treatment: &Factor, values: &[f64], generator: &mut SplitMix64) -> Randomised {
    let middle = super::anova::mean(values);
    let values: Vec<f64> = values.iter().map(|value| value - middle).collect();
    let scale: f64 = values.iter().map(|value| value * value).sum();
    let mut plots = vec![0_usize; treatment.levels];
    for &level in &treatment.of {
        plots[level] += 1;
    }
    let mut sums = vec![0.0; treatment.levels];
    let mut between = |labels: &[usize]| -> f64 {
        sums.fill(0.0);
        for (&label, value) in labels.iter().zip(&values) {
            sums[label] += value;
        }
        sums.iter().zip(&plots).filter(|(_, plots)| **plots > 0).map(|(sum, &n)| sum * sum / real(n)).sum()
    };
    let mut labels = treatment.of.clone();
    let mut count = Count::new(between(&labels), scale);
    if arrangements(&plots) <= MOST_ARRANGEMENTS {
        labels.sort_unstable();
        loop {
            count.take(between(&labels), scale);
            if !next_order(&mut labels) {
                return count.exact();
            }
        }
    }
    for _ in 0..DRAWS {
        generator.shuffle(&mut labels);
        count.take(between(&labels), scale);
    }
    count.drawn()
}

fn blocks(cells: &[Vec<Option<f64>>], generator: &mut SplitMix64) -> Randomised {
    let levels = cells.first().map_or(0, Vec::len);
    let work = Blocks::new(cells, levels);
    let first: Vec<usize> = (0..levels).collect();
    let mut orders = vec![first.clone(); cells.len()];
    let mut count = Count::new(work.between(&orders), work.scale);
    let all: f64 = (1..cells.len()).map(|_| factorial(levels)).product();
    if all <= MOST_ARRANGEMENTS {
        loop {
            count.take(work.between(&orders), work.scale);
            // As an odometer: the next order of the first block that has one; those before it start anew. The names of
            // the last block may be chosen at will.
            let turning = cells.len().saturating_sub(1);
            let Some(turned) = orders[..turning].iter_mut().position(|order| next_order(order)) else {
                return count.exact();
            };
            for order in &mut orders[..turned] {
                order.clone_from(&first);
            }
        }
    }
    for _ in 0..DRAWS {
        for order in &mut orders {
            generator.shuffle(order);
        }
        count.take(work.between(&orders), work.scale);
    }
    count.drawn()
}

/// Values about the mean of their block; lost ones are no value.
struct Blocks {
    about: Vec<Vec<Option<f64>>>,
    levels: usize,
    full: bool,
    scale: f64,
}

impl Blocks {
    fn new(cells: &[Vec<Option<f64>>], levels: usize) -> Self {
        let about: Vec<Vec<Option<f64>>> = cells
            .iter()
            .map(|block| {
                let kept: Vec<f64> = block.iter().flatten().copied().collect();
                let middle = super::anova::mean(&kept);
                block.iter().map(|value| value.map(|value| value - middle)).collect()
            })
            .collect();
        let full = about.iter().flatten().all(Option::is_some);
        let scale = about.iter().flatten().flatten().map(|value| value * value).sum();
        Self { about, levels, full, scale }
    }

    /// Sum of squares between treatments beyond the blocks, where every block's plots go to levels in an order.
    fn between(&self, orders: &[Vec<usize>]) -> f64 {
        let mut sums = vec![0.0; self.levels];
        for (block, order) in self.about.iter().zip(orders) {
            for (value, &level) in block.iter().zip(order) {
                sums[level] += value.unwrap_or(0.0);
            }
        }
        if self.full {
            return sums.iter().map(|sum| sum * sum).sum::<f64>() / real(self.about.len());
        }
        let last = self.levels.saturating_sub(1);
        let mut normal = vec![vec![0.0; last]; last];
        for (block, order) in self.about.iter().zip(orders) {
            let kept: Vec<usize> = block
                .iter()
                .zip(order)
                .filter(|(value, _)| value.is_some())
                .map(|(_, &level)| level)
                .collect();
            let share = 1.0 / real(kept.len().max(1));
            for &a in kept.iter().filter(|level| **level < last) {
                normal[a][a] += 1.0;
                for &b in kept.iter().filter(|level| **level < last) {
                    normal[a][b] -= share;
                }
            }
        }
        explained(normal, &sums[..last])
    }
}

/// b' A⁻ b of a positive matrix, by elimination; directions that are not there add nothing.
fn explained(mut a: Vec<Vec<f64>>, b: &[f64]) -> f64 {
    let mut b = b.to_vec();
    let mut sum = 0.0;
    for pivot in 0..b.len() {
        let own = a[pivot][pivot];
        if own < 1e-9 {
            continue;
        }
        sum += b[pivot] * b[pivot] / own;
        let settled = b[pivot];
        let (done, rest) = a.split_at_mut(pivot + 1);
        for (row, value) in rest.iter_mut().zip(&mut b[pivot + 1..]) {
            let factor = row[pivot] / own;
            *value -= factor * settled;
            for (cell, upper) in row.iter_mut().zip(&done[pivot]).skip(pivot) {
                *cell -= factor * upper;
            }
        }
    }
    sum
}

fn square(
    row: &Factor,
    column: &Factor,
    treatment: &Factor,
    values: &[Option<f64>],
    generator: &mut SplitMix64,
) -> Option<Randomised> {
    let side = treatment.levels;
    let mut letter = vec![vec![0; side]; side];
    let mut value = vec![vec![0.0; side]; side];
    for (plot, measured) in values.iter().enumerate() {
        let (row, column) = (row.of[plot], column.of[plot]);
        letter[row][column] = treatment.of[plot];
        value[row][column] = (*measured)?;
    }
    let middle = value.iter().flatten().sum::<f64>() / real(side * side);
    let scale: f64 = value.iter().flatten().map(|value| (value - middle) * (value - middle)).sum();
    let between = |rows: &[usize], columns: &[usize]| -> f64 {
        let mut sums = vec![0.0; side];
        for (own, &row) in rows.iter().enumerate() {
            for (at, &column) in columns.iter().enumerate() {
                sums[letter[row][column]] += value[own][at] - middle;
            }
        }
        sums.iter().map(|sum| sum * sum).sum::<f64>() / real(side)
    };
    let first: Vec<usize> = (0..side).collect();
    let (mut rows, mut columns) = (first.clone(), first.clone());
    let mut count = Count::new(between(&rows, &columns), scale);
    if factorial(side) * factorial(side) <= MOST_ARRANGEMENTS {
        loop {
            count.take(between(&rows, &columns), scale);
            if next_order(&mut columns) {
                continue;
            }
            columns.clone_from(&first);
            if !next_order(&mut rows) {
                return Some(count.exact());
            }
        }
    }
    for _ in 0..DRAWS {
        generator.shuffle(&mut rows);
        generator.shuffle(&mut columns);
        count.take(between(&rows, &columns), scale);
    }
    Some(count.drawn())
}
