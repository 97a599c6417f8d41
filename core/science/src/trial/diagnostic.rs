//! Prompts to look at a plot or a group again: with few degrees of freedom none of them is a verdict.

use crate::distribution::{chi_square_beyond, f_beyond, normal_below, t_beyond};
use crate::nitrogen::normal_quantile;

use super::anova::{Analysis, ErrorTerm, mean};
use super::least_squares::Factor;
use super::real;
use super::structure::{Structure, Trial};

/// What is left of a plot, in units of what such a plot should leave.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Left {
    /// Index of the plot in the trial.
    pub plot: usize,
    /// Its residual, in units of the measurement.
    pub residual: f64,
    /// Over its standard error, the error taken from all other plots; `None` where those leave none.
    pub studentised: Option<f64>,
}

/// The residuals plot by plot, for the map.
pub fn left(analysis: &Analysis) -> Vec<Left> {
    let ErrorTerm { variance, degrees } = analysis.error;
    let degrees = real(degrees);
    let one = |((&plot, &residual), &leverage): ((&usize, &f64), &f64)| {
        let own = (variance * (1.0 - leverage)).sqrt();
        let inner = residual / own;
        let rest = (degrees - inner * inner) / (degrees - 1.0);
        let able = leverage < 1.0 - 1e-9 && own > 0.0 && degrees > 1.0 && rest > 1e-12;
        Left { plot, residual, studentised: able.then(|| inner / rest.sqrt()) }
    };
    analysis.kept.iter().zip(&analysis.residuals).zip(&analysis.leverages).map(one).collect()
}

/// The plot that fits worst, with the chance that the worst of so many would fit as badly (Bonferroni).
pub fn worst(analysis: &Analysis) -> Option<(Left, f64)> {
    let left = left(analysis);
    let worst = left
        .iter()
        .filter(|left| left.studentised.is_some())
        .max_by(|a, b| size(a).total_cmp(&size(b)))
        .copied()?;
    let p = t_beyond(worst.studentised?, real(analysis.error.degrees) - 1.0);
    Some((worst, (real(left.len()) * p).min(1.0)))
}

fn size(left: &Left) -> f64 {
    left.studentised.unwrap_or(0.0).abs()
}

/// A test of a prompt: its figure and its chance.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Prompt {
    /// The figure.
    pub value: f64,
    /// The chance of one as far out.
    pub p: f64,
}

/// Whether the groups spread alike, by distances from their medians (Brown & Forsythe 1974, Journal of the American
/// Statistical Association 69:364-367).
pub fn brown_forsythe(groups: &[Vec<f64>]) -> Option<Prompt> {
    let distances: Vec<Vec<f64>> = groups
        .iter()
        .map(|group| {
            let middle = median(group);
            group.iter().map(|value| (value - middle).abs()).collect()
        })
        .collect();
    let (between, above, within, below) = parts(&distances);
    let f = (between / above) / (within / below);
    f.is_finite().then(|| Prompt { value: f, p: f_beyond(f, above, below) })
}

/// Whether the groups spread alike, for normal values (Bartlett 1937, Proceedings of the Royal Society A 160:268-282).
pub fn bartlett(groups: &[Vec<f64>]) -> Option<Prompt> {
    let variances: Vec<f64> = groups.iter().map(|group| variance(group)).collect();
    let degrees: Vec<f64> = groups.iter().map(|group| real(group.len()) - 1.0).collect();
    let all: f64 = degrees.iter().sum();
    let pooled: f64 =
        variances.iter().zip(&degrees).map(|(variance, degrees)| variance * degrees).sum::<f64>() / all;
    let logs: f64 =
        variances.iter().zip(&degrees).map(|(variance, degrees)| degrees * libm::log(*variance)).sum();
    let inverse: f64 = degrees.iter().map(|degrees| 1.0 / degrees).sum();
    let less = real(groups.len()) - 1.0;
    let value = (all * libm::log(pooled) - logs) / (1.0 + (inverse - 1.0 / all) / (3.0 * less));
    // A group without any spread makes it infinite.
    (!value.is_nan()).then(|| Prompt { value, p: chi_square_beyond(value, less) })
}

/// F that allows each group its own spread, with its lower degrees of freedom (Welch 1951, Biometrika 38:330-336).
pub fn welch(groups: &[Vec<f64>]) -> Option<(Prompt, f64)> {
    let weights: Vec<f64> = groups.iter().map(|group| real(group.len()) / variance(group)).collect();
    let means: Vec<f64> = groups.iter().map(|group| mean(group)).collect();
    let all: f64 = weights.iter().sum();
    let number = real(groups.len());
    let middle: f64 = weights.iter().zip(&means).map(|(weight, mean)| weight * mean).sum::<f64>() / all;
    let between: f64 = weights
        .iter()
        .zip(&means)
        .map(|(weight, mean)| weight * (mean - middle) * (mean - middle))
        .sum::<f64>()
        / (number - 1.0);
    let unequal: f64 = weights
        .iter()
        .zip(groups)
        .map(|(weight, group)| (1.0 - weight / all) * (1.0 - weight / all) / (real(group.len()) - 1.0))
        .sum();
    let square = number * number - 1.0;
    let value = between / (1.0 + 2.0 * (number - 2.0) / square * unequal);
    let below = square / (3.0 * unequal);
    (value.is_finite() && below.is_finite())
        .then(|| (Prompt { value, p: f_beyond(value, number - 1.0, below) }, below))
}

/// Whether values lie on a normal curve: Royston 1995, Algorithm AS R94, Applied Statistics 44:547-551; 3 to 5000 values
/// that are not all the same.
pub fn shapiro_wilk(values: &[f64]) -> Option<Prompt> {
    if !(3..=5000).contains(&values.len()) {
        return None;
    }
    let mut sorted = values.to_vec();
    sorted.sort_by(f64::total_cmp);
    let n = real(sorted.len());
    let half = sorted.len() / 2;
    let scores: Vec<f64> = (0..half).map(|at| normal_quantile((real(at) + 0.625) / (n + 0.25))).collect();
    let mut weights: Vec<f64> = Vec::with_capacity(half);
    if sorted.len() == 3 {
        weights.push(core::f64::consts::FRAC_1_SQRT_2);
    } else {
        let squares = 2.0 * scores.iter().map(|score| score * score).sum::<f64>();
        let root = 1.0 / n.sqrt();
        let end = |terms: &[f64], at: usize| polynomial(terms, root) - scores[at] / squares.sqrt();
        weights.push(end(&[0.0, 0.221_157, -0.147_981, -2.071_19, 4.434_685, -2.706_056], 0));
        if sorted.len() > 5 {
            weights.push(end(&[0.0, 0.042_981, -0.293_762, -1.752_461, 5.682_633, -3.582_633], 1));
        }
        let ends = weights.len();
        let of_ends: f64 = 2.0 * scores[..ends].iter().map(|score| score * score).sum::<f64>();
        let of_weights: f64 = 2.0 * weights.iter().map(|weight| weight * weight).sum::<f64>();
        let factor = ((squares - of_ends) / (1.0 - of_weights)).sqrt();
        weights.extend(scores[ends..].iter().map(|score| -score / factor));
    }
    let middle = mean(&sorted);
    let spread: f64 = sorted.iter().map(|value| (value - middle) * (value - middle)).sum();
    let line: f64 = weights
        .iter()
        .zip(sorted.iter().rev().zip(&sorted))
        .map(|(weight, (high, low))| weight * (high - low))
        .sum();
    let w = (line * line / spread).min(1.0);
    if !w.is_finite() {
        return None;
    }
    let p = if sorted.len() == 3 {
        let third = libm::asin(0.75_f64.sqrt());
        (6.0 / core::f64::consts::PI * (libm::asin(w.sqrt()) - third)).clamp(0.0, 1.0)
    } else {
        let log = libm::log(1.0 - w);
        let (at, middle, spread) = if sorted.len() <= 11 {
            let top = polynomial(&[-2.273, 0.459], n);
            if log >= top {
                return Some(Prompt { value: w, p: 0.0 });
            }
            (
                -libm::log(top - log),
                polynomial(&[0.544, -0.399_78, 0.025_054, -6.714e-4], n),
                polynomial(&[1.382_2, -0.778_57, 0.062_767, -0.002_032_2], n),
            )
        } else {
            let size = libm::log(n);
            (
                log,
                polynomial(&[-1.586_1, -0.310_82, -0.083_751, 0.003_891_5], size),
                polynomial(&[-0.480_3, -0.082_676, 0.003_030_2], size),
            )
        };
        normal_below((middle - at) / libm::exp(spread))
    };
    Some(Prompt { value: w, p })
}

/// Whether blocks and treatments add up (Tukey 1949, Biometrics 5:232-242); complete blocks only.
pub fn non_additivity(trial: &Trial, analysis: &Analysis) -> Option<(Prompt, f64)> {
    let Structure::Blocks { block, treatment } = trial.structure() else { return None };
    if trial.lost() > 0 {
        return None;
    }
    let y = trial.above();
    let middle = mean(&y);
    let effects = |factor: &Factor| -> Vec<f64> {
        let of = |level: usize| -> Vec<f64> {
            y.iter().zip(&factor.of).filter(|(_, own)| **own == level).map(|(value, _)| *value).collect()
        };
        (0..factor.levels).map(|level| mean(&of(level)) - middle).collect()
    };
    let (blocks, treatments) = (effects(block), effects(treatment));
    let product: f64 = y
        .iter()
        .zip(block.of.iter().zip(&treatment.of))
        .map(|(value, (&block, &treatment))| value * blocks[block] * treatments[treatment])
        .sum();
    let square = |effects: &[f64]| effects.iter().map(|effect| effect * effect).sum::<f64>();
    let squares = product * product / (square(&blocks) * square(&treatments));
    let below = real(analysis.error.degrees) - 1.0;
    let rest = analysis.error.variance * real(analysis.error.degrees) - squares;
    let f = squares / (rest / below);
    (f.is_finite() && below > 0.0).then(|| (Prompt { value: f, p: f_beyond(f, 1.0, below) }, squares))
}

fn parts(groups: &[Vec<f64>]) -> (f64, f64, f64, f64) {
    let all: Vec<f64> = groups.iter().flatten().copied().collect();
    let middle = mean(&all);
    let (mut between, mut within) = (0.0, 0.0);
    for group in groups {
        let own = mean(group);
        between += real(group.len()) * (own - middle) * (own - middle);
        within += group.iter().map(|value| (value - own) * (value - own)).sum::<f64>();
    }
    (between, real(groups.len()) - 1.0, within, real(all.len()) - real(groups.len()))
}

fn variance(values: &[f64]) -> f64 {
    let middle = mean(values);
    values.iter().map(|value| (value - middle) * (value - middle)).sum::<f64>() / (real(values.len()) - 1.0)
}

fn median(values: &[f64]) -> f64 {
    let mut sorted = values.to_vec();
    sorted.sort_by(f64::total_cmp);
    let half = sorted.len() / 2;
    match (sorted.len() % 2, sorted.get(half)) {
        (_, None) => 0.0,
        (1, Some(middle)) => *middle,
        (_, Some(upper)) => f64::midpoint(sorted[half - 1], *upper),
    }
}

fn polynomial(terms: &[f64], x: f64) -> f64 {
    terms.iter().rev().fold(0.0, |sum, term| sum * x + term)
}
