//! Least squares on factors: every plot has a level of each, a term is one factor or the crossing of several.
//!
//! The columns of the design are made orthogonal one after the other (modified Gram-Schmidt, twice: Björck 1967, BIT
//! 7:1-21), so that the sum of squares of a term is what it explains beyond the terms before it, and columns that say
//! nothing new drop out by themselves, whichever plots are missing.

/// Which level each plot has.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Factor {
    /// How many levels there are.
    pub levels: usize,
    /// Level of each plot, from 0.
    pub of: Vec<usize>,
}

impl Factor {
    /// The factor of some of the plots only.
    #[must_use]
    pub(super) fn of_plots(&self, plots: &[usize]) -> Self {
        Self { levels: self.levels, of: plots.iter().map(|&plot| self.of[plot]).collect() }
    }
}

/// What a term explains beyond those before it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Explained {
    /// Degrees of freedom.
    pub degrees: usize,
    /// Sum of squares.
    pub squares: f64,
}

/// A fitted design.
#[derive(Debug, Clone)]
pub struct Fit {
    factors: usize,
    columns: Vec<Column>,
    basis: Vec<Vec<f64>>,
    effects: Vec<f64>,
    terms: Vec<Explained>,
    residuals: Vec<f64>,
}

#[derive(Debug, Clone)]
struct Column {
    /// Factors of its term with the level that it stands for.
    cell: Vec<(usize, usize)>,
    /// Levels of those factors.
    levels: Vec<usize>,
    /// Coordinates in the basis.
    along: Vec<f64>,
    /// Whether it brought a new direction: the last of its coordinates then.
    new: bool,
}

/// A combination of parameters that the design can tell, such as the mean of a level.
#[derive(Debug, Clone, PartialEq)]
pub struct Estimable(Vec<f64>);

impl Estimable {
    /// Its covariance with another, in units of the error variance.
    pub fn covariance(&self, other: &Self) -> f64 {
        self.0.iter().zip(&other.0).map(|(a, b)| a * b).sum()
    }
}

/// What is left of a column's length where it brings nothing new; rounding leaves about 1e-15.
const NOTHING_NEW: f64 = 1e-9;
/// How far a combination may be off for a column without a direction of its own.
const SAME: f64 = 1e-8;

/// Fits a mean and the terms in their order; a term names its factors by index.
///
/// `y` has one value a plot and the factors one level a plot.
pub fn fit(factors: &[Factor], terms: &[&[usize]], y: &[f64]) -> Fit {
    let mut fit = Fit {
        factors: factors.len(),
        columns: Vec::new(),
        basis: Vec::new(),
        effects: Vec::new(),
        terms: Vec::with_capacity(terms.len()),
        residuals: y.to_vec(),
    };
    fit.add(factors, &[]);
    fit.terms.clear();
    for term in terms {
        fit.add(factors, term);
    }
    fit
}

impl Fit {
    /// What each term explains beyond those before it.
    pub fn terms(&self) -> &[Explained] {
        &self.terms
    }

    /// What no term explains.
    pub fn error(&self) -> Explained {
        Explained {
            degrees: self.residuals.len().saturating_sub(self.basis.len()),
            squares: self.residuals.iter().map(|residual| residual * residual).sum(),
        }
    }

    /// What is left of each value.
    pub fn residuals(&self) -> &[f64] {
        &self.residuals
    }

    /// How much each plot's own value draws its fitted one, 0 to 1.
    pub fn leverages(&self) -> Vec<f64> {
        (0..self.residuals.len())
            .map(|plot| self.basis.iter().map(|direction| direction[plot] * direction[plot]).sum())
            .collect()
    }

    /// The mean where some factors have given levels, over equal parts of all others; `None` where the plots that are
    /// left cannot tell it.
    pub fn mean(&self, fixed: &[(usize, usize)]) -> Option<Estimable> {
        let mut level_of = vec![None; self.factors];
        for &(factor, level) in fixed {
            *level_of.get_mut(factor)? = Some(level);
        }
        let mut direction: Vec<f64> = Vec::with_capacity(self.basis.len());
        for column in &self.columns {
            let share: f64 = column
                .cell
                .iter()
                .zip(&column.levels)
                .map(|(&(factor, level), &levels)| match level_of[factor] {
                    Some(fixed) => f64::from(u8::from(fixed == level)),
                    None => 1.0 / super::real(levels),
                })
                .product();
            let known: f64 = column.along.iter().zip(&direction).map(|(along, d)| along * d).sum();
            if column.new {
                direction.push((share - known) / column.along.last()?);
            } else if (share - known).abs() > SAME {
                return None;
            }
        }
        Some(Estimable(direction))
    }

    /// The estimate of a combination.
    pub fn estimate(&self, of: &Estimable) -> f64 {
        of.0.iter().zip(&self.effects).map(|(a, b)| a * b).sum()
    }

    fn add(&mut self, factors: &[Factor], term: &[usize]) {
        let mut explained = Explained { degrees: 0, squares: 0.0 };
        let levels: Vec<usize> = term.iter().map(|&factor| factors[factor].levels).collect();
        for cell in 0..levels.iter().product() {
            let mut rest = cell;
            let cell: Vec<(usize, usize)> = term
                .iter()
                .zip(&levels)
                .map(|(&factor, &levels)| {
                    let level = rest % levels;
                    rest /= levels;
                    (factor, level)
                })
                .collect();
            let mut column: Vec<f64> = (0..self.residuals.len())
                .map(|plot| {
                    f64::from(u8::from(cell.iter().all(|&(factor, level)| factors[factor].of[plot] == level)))
                })
                .collect();
            let length = norm(&column);
            let mut along = vec![0.0; self.basis.len()];
            for _ in 0..2 {
                for (along, direction) in along.iter_mut().zip(&self.basis) {
                    let part = dot(direction, &column);
                    *along += part;
                    take_away(&mut column, direction, part);
                }
            }
            let left = norm(&column);
            let new = left > NOTHING_NEW * length;
            if new {
                for value in &mut column {
                    *value /= left;
                }
                along.push(left);
                let effect = dot(&column, &self.residuals);
                take_away(&mut self.residuals, &column, effect);
                // What rounding left along this direction.
                let again = dot(&column, &self.residuals);
                take_away(&mut self.residuals, &column, again);
                let effect = effect + again;
                self.effects.push(effect);
                self.basis.push(column);
                explained.degrees += 1;
                explained.squares += effect * effect;
            }
            self.columns.push(Column { cell, levels: levels.clone(), along, new });
        }
        self.terms.push(explained);
    }
}

fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}

fn norm(a: &[f64]) -> f64 {
    dot(a, a).sqrt()
}

fn take_away(from: &mut [f64], direction: &[f64], part: f64) {
    for (value, along) in from.iter_mut().zip(direction) {
        *value -= part * along;
    }
}
