//! Analysis of variance by least squares of the design as it was laid out, with whatever plots are left.
//!
//! Every line is adjusted for all others that do not contain it (type II), which for a full design is the table of the
//! textbooks. In a split plot with lost plots the test of the main factor is close, not exact: its error line then
//! gathers main plots of different sizes.

use crate::distribution::f_beyond;

use super::least_squares::{Estimable, Explained, Factor, Fit, fit};
use super::real;
use super::structure::{Compared, Structure, Trial};

/// What a line of the table stands for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Line {
    /// Between blocks or pairs.
    Block,
    /// Between rows of a square.
    Row,
    /// Between columns of a square.
    Column,
    /// Between treatments.
    Treatment,
    /// Between levels of the main factor.
    Main,
    /// Between levels of the factor inside.
    Sub,
    /// What the two factors do together beyond their sum.
    MainBySub,
    /// The only error.
    Error,
    /// Error of the main factor.
    ErrorMain,
    /// Error of the factor inside (of the columns).
    ErrorSub,
    /// Error of the crossing in a strip plot.
    ErrorCrossing,
    /// All plots about their mean.
    Total,
}

/// A line of the table.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Row {
    /// What it stands for.
    pub line: Line,
    /// Degrees of freedom.
    pub degrees: usize,
    /// Sum of squares.
    pub squares: f64,
    /// Mean square over that of its error.
    pub f: Option<f64>,
    /// How rare an F this large is where the line does nothing.
    pub p: Option<f64>,
}

impl Row {
    /// Mean square; `None` without degrees of freedom.
    pub fn mean_square(&self) -> Option<f64> {
        (self.degrees > 0).then(|| self.squares / real(self.degrees))
    }
}

/// The error that differences are judged by.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ErrorTerm {
    /// Variance of a plot.
    pub variance: f64,
    /// Its degrees of freedom.
    pub degrees: usize,
}

/// What one level came to.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mean {
    /// Plots that are left.
    pub plots: usize,
    /// Their plain mean.
    pub plain: f64,
    /// Their standard deviation; `None` from fewer than two.
    pub deviation: Option<f64>,
    /// The mean over equal parts of all blocks, lost plots allowed for.
    pub adjusted: f64,
}

/// The levels of a factor beside one another.
#[derive(Debug, Clone, PartialEq)]
pub struct Group {
    /// Which factor.
    pub compared: Compared,
    /// One mean a level.
    pub means: Vec<Mean>,
    /// Covariance of the adjusted means in units of the error variance; differences are what it can tell.
    pub covariance: Vec<Vec<f64>>,
    /// The error of their differences.
    pub error: ErrorTerm,
}

/// The plots of one level of either factor.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Combination {
    /// Level of the main factor.
    pub main: usize,
    /// Level of the factor inside.
    pub sub: usize,
    /// Plots that are left.
    pub plots: usize,
    /// Their plain mean; where plots are lost, blocks do not weigh alike in it.
    pub mean: f64,
}

/// An analysed trial.
#[derive(Debug, Clone, PartialEq)]
pub struct Analysis {
    /// The table, in the order of the design.
    pub rows: Vec<Row>,
    /// What is compared; empty where levels cannot be told apart any more.
    pub groups: Vec<Group>,
    /// What each combination of two factors came to, main level by main level; those without a plot left out. Empty with
    /// one factor.
    pub combinations: Vec<Combination>,
    /// Plain mean of all plots.
    pub grand_mean: f64,
    /// Plots that have a value, as indexes of the trial.
    pub kept: Vec<usize>,
    /// What the fit leaves of each of them.
    pub residuals: Vec<f64>,
    /// How far each draws its own fit, 0 to 1.
    pub leverages: Vec<f64>,
    /// The error between neighbouring plots: the last error line.
    pub error: ErrorTerm,
    /// Whether no plot is lost and all groups are as large as laid out.
    pub complete: bool,
}

impl Analysis {
    /// The line of the table.
    pub fn row(&self, line: Line) -> Option<&Row> {
        self.rows.iter().find(|row| row.line == line)
    }

    /// The comparison of a factor.
    pub fn group(&self, compared: Compared) -> Option<&Group> {
        self.groups.iter().find(|group| group.compared == compared)
    }

    /// Standard deviation between neighbouring plots in per cent of the mean; `None` where the mean is not above 0.
    pub fn variation_pct(&self) -> Option<f64> {
        let able = self.grand_mean > 0.0 && self.error.degrees > 0;
        able.then(|| 100.0 * self.error.variance.sqrt() / self.grand_mean)
    }
}

/// Analyses a trial.
pub fn analyse(trial: &Trial) -> Analysis {
    let kept = trial.kept().to_vec();
    let y = trial.above();
    let factors: Vec<Factor> =
        trial.structure().factors().into_iter().map(|factor| factor.of_plots(&kept)).collect();
    let work = Work { y: &y, factors: &factors, balanced: trial.lost() == 0 };
    let (rows, last, fits) = match trial.structure() {
        Structure::Single { .. } => work.plain(&[(Line::Treatment, 0)]),
        Structure::Blocks { .. } => work.plain(&[(Line::Block, 0), (Line::Treatment, 1)]),
        Structure::Square { .. } => work.plain(&[(Line::Row, 0), (Line::Column, 1), (Line::Treatment, 2)]),
        Structure::Split { .. } => work.split(),
        Structure::Strip { .. } => work.strip(),
    };
    let groups = fits
        .iter()
        .filter_map(|(compared, factor, fit, error)| {
            group(*compared, *factor, fit, *error, &factors, &y, trial.response().origin())
        })
        .collect();
    let error = rows
        .iter()
        .rev()
        .find(|row| row.line != Line::Total)
        .map_or(ErrorTerm { variance: 0.0, degrees: 0 }, error_of);
    Analysis {
        rows,
        groups,
        combinations: combinations(trial.structure(), &factors, &y, trial.response().origin()),
        grand_mean: trial.response().origin() + mean(&y),
        residuals: last.residuals().to_vec(),
        leverages: last.leverages(),
        kept,
        error,
        complete: trial.lost() == 0,
    }
}

fn combinations(structure: &Structure, factors: &[Factor], y: &[f64], origin: f64) -> Vec<Combination> {
    let (Structure::Split { .. } | Structure::Strip { .. }, [_, mains, subs]) = (structure, factors) else {
        return Vec::new();
    };
    let all = (0..mains.levels).flat_map(|main| (0..subs.levels).map(move |sub| (main, sub)));
    all.filter_map(|(main, sub)| {
        let here = |at: &usize| mains.of.get(*at) == Some(&main) && subs.of.get(*at) == Some(&sub);
        let values: Vec<f64> = (0..y.len()).filter(here).filter_map(|at| y.get(at).copied()).collect();
        (!values.is_empty()).then(|| Combination {
            main,
            sub,
            plots: values.len(),
            mean: origin + mean(&values),
        })
    })
    .collect()
}

/// A factor with the fit that tells its means and the error that judges them.
type Judged = (Compared, usize, Fit, ErrorTerm);

struct Work<'a> {
    y: &'a [f64],
    factors: &'a [Factor],
    balanced: bool,
}

impl Work<'_> {
    fn fit(&self, terms: &[&[usize]]) -> Fit {
        fit(self.factors, terms, self.y)
    }

    /// What the last term explains beyond the others.
    fn last(&self, terms: &[&[usize]]) -> Explained {
        self.fit(terms).terms().last().copied().unwrap_or(Explained { degrees: 0, squares: 0.0 })
    }

    fn total(&self) -> Row {
        let middle = mean(self.y);
        let squares = self.y.iter().map(|value| (value - middle) * (value - middle)).sum();
        row(Line::Total, Explained { degrees: self.y.len().saturating_sub(1), squares })
    }

    /// One error for everything.
    fn plain(&self, lines: &[(Line, usize)]) -> (Vec<Row>, Fit, Vec<Judged>) {
        let terms: Vec<[usize; 1]> = lines.iter().map(|&(_, factor)| [factor]).collect();
        let ordered: Vec<&[usize]> = terms.iter().map(<[usize; 1]>::as_slice).collect();
        let full = self.fit(&ordered);
        let error = row(Line::Error, full.error());
        let mut rows = Vec::with_capacity(lines.len() + 2);
        for (index, &(line, _)) in lines.iter().enumerate() {
            let orthogonal = self.balanced || index + 1 == lines.len();
            let explained = if orthogonal {
                full.terms()[index]
            } else {
                let mut others: Vec<&[usize]> = ordered.clone();
                let this = others.remove(index);
                others.push(this);
                self.last(&others)
            };
            rows.push(judged(line, explained, &error));
        }
        rows.push(error);
        rows.push(self.total());
        let fits = lines
            .last()
            .map(|&(_, factor)| (Compared::Treatment, factor, full.clone(), error_of(&error)))
            .into_iter()
            .collect();
        (rows, full, fits)
    }

    fn split(&self) -> (Vec<Row>, Fit, Vec<Judged>) {
        let [block, main, plot, sub, crossing]: [&[usize]; 5] = [&[0], &[1], &[0, 1], &[2], &[1, 2]];
        let full = self.fit(&[block, main, plot, sub, crossing]);
        let error_sub = row(Line::ErrorSub, full.error());
        let error_main = row(Line::ErrorMain, self.last(&[block, main, sub, crossing, plot]));
        let rows = vec![
            judged(Line::Block, self.last(&[main, sub, crossing, block]), &error_main),
            judged(Line::Main, self.last(&[block, sub, main]), &error_main),
            error_main,
            judged(Line::Sub, self.last(&[block, main, plot, sub]), &error_sub),
            judged(Line::MainBySub, full.terms()[4], &error_sub),
            error_sub,
            self.total(),
        ];
        let flat = self.fit(&[block, main, sub, crossing]);
        let fits = vec![
            (Compared::Main, 1, flat, error_of(&error_main)),
            (Compared::Sub, 2, full.clone(), error_of(&error_sub)),
        ];
        (rows, full, fits)
    }

    fn strip(&self) -> (Vec<Row>, Fit, Vec<Judged>) {
        let [block, main, sub, crossing]: [&[usize]; 4] = [&[0], &[1], &[2], &[1, 2]];
        let [rows_of, columns_of]: [&[usize]; 2] = [&[0, 1], &[0, 2]];
        let full = self.fit(&[block, main, rows_of, sub, columns_of, crossing]);
        let error_crossing = row(Line::ErrorCrossing, full.error());
        let error_main = row(Line::ErrorMain, self.last(&[block, main, sub, columns_of, crossing, rows_of]));
        let error_sub = row(Line::ErrorSub, self.last(&[block, main, sub, rows_of, crossing, columns_of]));
        let rows = vec![
            row(Line::Block, self.last(&[main, sub, crossing, block])),
            judged(Line::Main, self.last(&[block, sub, columns_of, main]), &error_main),
            error_main,
            judged(Line::Sub, self.last(&[block, main, rows_of, sub]), &error_sub),
            error_sub,
            judged(Line::MainBySub, full.terms()[5], &error_crossing),
            error_crossing,
            self.total(),
        ];
        let flat = self.fit(&[block, main, sub, crossing]);
        let fits = vec![
            (Compared::Main, 1, flat.clone(), error_of(&error_main)),
            (Compared::Sub, 2, flat, error_of(&error_sub)),
        ];
        (rows, full, fits)
    }
}

const fn row(line: Line, explained: Explained) -> Row {
    Row { line, degrees: explained.degrees, squares: explained.squares, f: None, p: None }
}

fn judged(line: Line, explained: Explained, error: &Row) -> Row {
    let own = row(line, explained);
    let f = match (own.mean_square(), error.mean_square()) {
        (Some(own), Some(error)) if error > 0.0 => Some(own / error),
        _ => None,
    };
    Row { f, p: f.map(|f| f_beyond(f, real(own.degrees), real(error.degrees))), ..own }
}

fn error_of(row: &Row) -> ErrorTerm {
    ErrorTerm { variance: row.mean_square().unwrap_or(0.0), degrees: row.degrees }
}

fn group(
    compared: Compared,
    index: usize,
    fit: &Fit,
    error: ErrorTerm,
    factors: &[Factor],
    y: &[f64],
    origin: f64,
) -> Option<Group> {
    let factor = &factors[index];
    let combinations: Vec<Estimable> =
        (0..factor.levels).map(|level| fit.mean(&[(index, level)])).collect::<Option<_>>()?;
    let means = combinations
        .iter()
        .enumerate()
        .map(|(level, combination)| {
            let own: Vec<f64> =
                y.iter().zip(&factor.of).filter(|&(_, &of)| of == level).map(|(&value, _)| value).collect();
            Mean {
                plots: own.len(),
                plain: origin + mean(&own),
                deviation: deviation(&own),
                adjusted: origin + fit.estimate(combination),
            }
        })
        .collect();
    let covariance =
        combinations.iter().map(|a| combinations.iter().map(|b| a.covariance(b)).collect()).collect();
    Some(Group { compared, means, covariance, error })
}

pub(super) fn mean(values: &[f64]) -> f64 {
    if values.is_empty() { 0.0 } else { values.iter().sum::<f64>() / real(values.len()) }
}

fn deviation(values: &[f64]) -> Option<f64> {
    let middle = mean(values);
    let squares: f64 = values.iter().map(|value| (value - middle) * (value - middle)).sum();
    (values.len() > 1).then(|| (squares / real(values.len() - 1)).sqrt())
}
