//! Differences between levels with their intervals: each with a check, all pairs, pairs named beforehand, contrasts.

use crate::distribution::t_beyond;
use crate::student;

use super::anova::Group;
use super::real;
use super::simultaneous::Simultaneous;

/// By which rule an interval was made.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Method {
    /// All against one check, the whole set right in 95 of 100 trials: Dunnett 1955.
    Dunnett,
    /// All pairs, the whole set right in 95 of 100 trials: Tukey 1953, Kramer 1956.
    Tukey,
    /// One pair by itself, only for pairs named before the data came in: Carmer & Walker 1982, Journal of Agronomic
    /// Education 11:98-106.
    Lsd,
}

impl Method {
    /// As files name it.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Dunnett => "dunnett",
            Self::Tukey => "tukey",
            Self::Lsd => "lsd",
        }
    }
}

/// A difference with its interval.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Comparison {
    /// The level that is taken away: the check, where there is one.
    pub a: usize,
    /// The level that it is taken from.
    pub b: usize,
    /// Adjusted mean of b less that of a.
    pub difference: f64,
    /// Standard error of the difference.
    pub standard_error: f64,
    /// Lower end of the interval.
    pub low: f64,
    /// Upper end of the interval.
    pub high: f64,
    /// How rare a difference this large is where there is none; over the whole set for Dunnett and Tukey.
    pub p: f64,
    /// By which rule.
    pub method: Method,
}

impl Comparison {
    /// Whether the interval is clear of no difference.
    pub fn is_clear(&self) -> bool {
        self.low > 0.0 || self.high < 0.0
    }
}

/// A combination of means whose weights add up to nothing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Contrast {
    /// Its value.
    pub estimate: f64,
    /// Standard error.
    pub standard_error: f64,
    /// Lower end of the 95 % interval.
    pub low: f64,
    /// Upper end of the 95 % interval.
    pub high: f64,
    /// How rare a value this far from 0 is where it is 0.
    pub p: f64,
    /// Sum of squares on one degree of freedom.
    pub squares: f64,
}

/// How sure every interval is.
pub const CONFIDENCE: f64 = 0.95;

impl Group {
    /// Standard error of the difference of two levels.
    pub fn standard_error(&self, a: usize, b: usize) -> f64 {
        let c = &self.covariance;
        (self.error.variance * (c[a][a] + c[b][b] - 2.0 * c[a][b])).max(0.0).sqrt()
    }

    /// One pair by itself.
    pub fn lsd(&self, a: usize, b: usize) -> Comparison {
        let degrees = real(self.error.degrees);
        let p = |t: f64| t_beyond(t, degrees);
        self.comparison(a, b, student::t_95(degrees), Method::Lsd, p)
    }

    /// All against one check, in order of the levels.
    pub fn dunnett(&self, check: usize) -> Vec<Comparison> {
        let others: Vec<usize> = (0..self.means.len()).filter(|&level| level != check).collect();
        if others.len() == 1 {
            return others
                .iter()
                .map(|&b| Comparison { method: Method::Dunnett, ..self.lsd(check, b) })
                .collect();
        }
        let joint = Simultaneous::against_check(&self.check_factors(check));
        let degrees = real(self.error.degrees);
        let limit = joint.limit(CONFIDENCE, degrees);
        let p = |t: f64| joint.beyond(t, degrees);
        others.into_iter().map(|b| self.comparison(check, b, limit, Method::Dunnett, p)).collect()
    }

    /// All pairs.
    pub fn tukey(&self) -> Vec<Comparison> {
        let levels = self.means.len();
        let pairs = (0..levels).flat_map(|a| (a + 1..levels).map(move |b| (a, b)));
        if levels == 2 {
            return pairs.map(|(a, b)| Comparison { method: Method::Tukey, ..self.lsd(a, b) }).collect();
        }
        let joint = Simultaneous::range(levels);
        let degrees = real(self.error.degrees);
        let root = core::f64::consts::SQRT_2;
        let limit = joint.limit(CONFIDENCE, degrees) / root;
        let p = |t: f64| joint.beyond(root * t, degrees);
        pairs.map(|(a, b)| self.comparison(a, b, limit, Method::Tukey, p)).collect()
    }

    /// A contrast; one weight a level.
    pub fn contrast(&self, weights: &[f64]) -> Contrast {
        let estimate: f64 =
            weights.iter().zip(&self.means).map(|(weight, mean)| weight * mean.adjusted).sum();
        let spread: f64 = weights
            .iter()
            .zip(&self.covariance)
            .map(|(a, row)| a * weights.iter().zip(row).map(|(b, c)| b * c).sum::<f64>())
            .sum();
        let standard_error = (self.error.variance * spread).max(0.0).sqrt();
        let degrees = real(self.error.degrees);
        let half = student::t_95(degrees) * standard_error;
        Contrast {
            estimate,
            standard_error,
            low: estimate - half,
            high: estimate + half,
            p: if standard_error > 0.0 { t_beyond(estimate / standard_error, degrees) } else { 1.0 },
            squares: estimate * estimate / spread,
        }
    }

    /// Half the width of the interval of one mean by itself, from the pooled error and its own plots.
    pub fn mean_half_width(&self, level: usize) -> f64 {
        let spread = self.error.variance / real(self.means[level].plots.max(1));
        student::t_95(real(self.error.degrees)) * spread.sqrt()
    }

    /// What multiplies to the correlations of the differences from a check. One lost plot, or unequal plots without
    /// blocks, fit exactly; with more lost plots the nearest factors are taken.
    fn check_factors(&self, check: usize) -> Vec<f64> {
        let c = &self.covariance;
        let others: Vec<usize> = (0..self.means.len()).filter(|&level| level != check).collect();
        let joint = |a: usize, b: usize| c[a][b] - c[a][check] - c[b][check] + c[check][check];
        let correlation: Vec<Vec<f64>> = others
            .iter()
            .map(|&a| others.iter().map(|&b| joint(a, b) / (joint(a, a) * joint(b, b)).sqrt()).collect())
            .collect();
        let mut factors = vec![core::f64::consts::FRAC_1_SQRT_2; others.len()];
        for _ in 0..SWEEPS {
            for own in 0..others.len() {
                let (mut above, mut below) = (0.0, 0.0);
                for other in (0..others.len()).filter(|&other| other != own) {
                    above += correlation[own][other] * factors[other];
                    below += factors[other] * factors[other];
                }
                if below > 0.0 {
                    factors[own] = (above / below).clamp(0.0, 1.0);
                }
            }
        }
        factors
    }

    fn comparison(
        &self,
        a: usize,
        b: usize,
        limit: f64,
        method: Method,
        p: impl Fn(f64) -> f64,
    ) -> Comparison {
        let difference = self.means[b].adjusted - self.means[a].adjusted;
        let standard_error = self.standard_error(a, b);
        let half = limit * standard_error;
        let p = if standard_error > 0.0 { p(difference.abs() / standard_error) } else { 1.0 };
        Comparison {
            a,
            b,
            difference,
            standard_error,
            low: difference - half,
            high: difference + half,
            p,
            method,
        }
    }
}

/// Sweeps over the factors; they settle by a third a sweep or faster.
const SWEEPS: usize = 100;

/// Letters for the levels: two that share one are not shown to differ. Insert and absorb (Piepho 2004, Journal of
/// Computational and Graphical Statistics 13:456-466), letters from the largest mean down. For a footnote only.
pub fn letters(means: &[f64], apart: impl Fn(usize, usize) -> bool) -> Vec<String> {
    let mut order: Vec<usize> = (0..means.len()).collect();
    order.sort_by(|&a, &b| means[b].total_cmp(&means[a]));
    let mut columns: Vec<Vec<bool>> = vec![vec![true; order.len()]];
    for first in 0..order.len() {
        for second in first + 1..order.len() {
            if !apart(order[first], order[second]) {
                continue;
            }
            let mut next: Vec<Vec<bool>> = Vec::with_capacity(columns.len() + 1);
            for column in columns {
                if column[first] && column[second] {
                    for out in [first, second] {
                        let mut split = column.clone();
                        split[out] = false;
                        next.push(split);
                    }
                } else {
                    next.push(column);
                }
            }
            columns = absorbed(next);
        }
    }
    columns.sort_by(|a, b| b.cmp(a));
    let mut letters = vec![String::new(); means.len()];
    for (letter, column) in ('a'..='z').cycle().zip(&columns) {
        for (place, &level) in order.iter().enumerate() {
            if column[place] {
                letters[level].push(letter);
            }
        }
    }
    letters
}

/// Without the columns that another one holds whole.
fn absorbed(columns: Vec<Vec<bool>>) -> Vec<Vec<bool>> {
    let within = |a: &[bool], b: &[bool]| a.iter().zip(b).all(|(a, b)| !a || *b);
    let mut kept: Vec<Vec<bool>> = Vec::with_capacity(columns.len());
    for column in columns {
        if kept.iter().any(|other| within(&column, other)) {
            continue;
        }
        kept.retain(|other| !within(other, &column));
        kept.push(column);
    }
    kept
}
