//! A trial as it was laid out, with what was measured on its plots.

use super::design::Kind;
use super::least_squares::Factor;
use super::response::Response;

/// Which factors a trial has; every factor has one level a plot, lost ones too.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Structure {
    /// One shuffle over all plots.
    Single {
        /// What the plots got.
        treatment: Factor,
    },
    /// Complete blocks: also pairs and strips.
    Blocks {
        /// Blocks or pairs.
        block: Factor,
        /// What the plots got.
        treatment: Factor,
    },
    /// A Latin square.
    Square {
        /// Rows.
        row: Factor,
        /// Columns.
        column: Factor,
        /// What the plots got.
        treatment: Factor,
    },
    /// Main plots in blocks, subplots inside.
    Split {
        /// Blocks.
        block: Factor,
        /// Levels on main plots.
        main: Factor,
        /// Levels on subplots.
        sub: Factor,
    },
    /// Two factors in strips that cross.
    Strip {
        /// Blocks.
        block: Factor,
        /// Levels along the rows.
        main: Factor,
        /// Levels along the columns.
        sub: Factor,
    },
}

/// What stands in the way of an analysis.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum TrialError {
    /// There is nothing to compare.
    #[error("fewer than two treatments; a comparison needs at least two")]
    OneTreatment,
    /// Two plots of one treatment in one block, or at one place of a square.
    #[error(
        "plots {first} and {second} stand for the same treatment in the same block; keep one, or average them first"
    )]
    Twice {
        /// Index of the first.
        first: usize,
        /// Index of the second.
        second: usize,
    },
    /// Two values for one treatment in one row or column of a square.
    #[error(
        "plots {first} and {second} put a treatment twice into one row or column; a Latin square has it once"
    )]
    NoSquare {
        /// Index of the first.
        first: usize,
        /// Index of the second.
        second: usize,
    },
    /// Rows, columns and treatments differ in number.
    #[error("{rows} rows, {columns} columns and {treatments} treatments; a Latin square has as many of each")]
    Unequal {
        /// Rows.
        rows: usize,
        /// Columns.
        columns: usize,
        /// Treatments.
        treatments: usize,
    },
    /// More than two treatments in pairs.
    #[error("{treatments} treatments; pairs have two")]
    NoPairs {
        /// How many there are.
        treatments: usize,
    },
    /// Nothing was measured.
    #[error("no plot has a value")]
    Nothing,
}

/// A trial that can be analysed.
#[derive(Debug, Clone, PartialEq)]
pub struct Trial {
    structure: Structure,
    response: Response,
    kept: Vec<usize>,
    planned: usize,
}

impl Trial {
    /// Puts structure and measurement together; both name the same plots in the same order.
    ///
    /// # Errors
    /// [`TrialError`].
    pub fn new(kind: Kind, structure: Structure, response: Response) -> Result<Self, TrialError> {
        let plots = response.above().len();
        let factors = structure.factors();
        debug_assert!(factors.iter().all(|factor| factor.of.len() == plots), "one level a plot");
        if structure.compared().iter().any(|&(_, factor)| factors[factor].levels < 2) {
            return Err(TrialError::OneTreatment);
        }
        let kept: Vec<usize> = (0..plots).filter(|&plot| response.above()[plot].is_some()).collect();
        if kept.is_empty() {
            return Err(TrialError::Nothing);
        }
        if let Structure::Square { row, column, treatment } = &structure {
            if row.levels != treatment.levels || column.levels != treatment.levels {
                return Err(TrialError::Unequal {
                    rows: row.levels,
                    columns: column.levels,
                    treatments: treatment.levels,
                });
            }
            if let Some((first, second)) = twice(&[row, column], plots) {
                return Err(TrialError::Twice { first, second });
            }
            let either = twice(&[row, treatment], plots).or_else(|| twice(&[column, treatment], plots));
            if let Some((first, second)) = either {
                return Err(TrialError::NoSquare { first, second });
            }
        }
        let once = match &structure {
            Structure::Single { .. } | Structure::Square { .. } => None,
            Structure::Blocks { block, treatment } => twice(&[block, treatment], plots),
            Structure::Split { block, main, sub } | Structure::Strip { block, main, sub } => {
                twice(&[block, main, sub], plots)
            }
        };
        if let Some((first, second)) = once {
            return Err(TrialError::Twice { first, second });
        }
        if let (Kind::Pairs, Structure::Blocks { treatment, .. }) = (kind, &structure)
            && treatment.levels != 2
        {
            return Err(TrialError::NoPairs { treatments: treatment.levels });
        }
        let planned = match &structure {
            Structure::Single { .. } => plots,
            Structure::Blocks { .. } | Structure::Split { .. } | Structure::Strip { .. } => {
                factors.iter().map(|factor| factor.levels).product()
            }
            Structure::Square { row, column, .. } => row.levels * column.levels,
        };
        Ok(Self { structure, response, kept, planned })
    }

    /// How it was laid out.
    pub const fn structure(&self) -> &Structure {
        &self.structure
    }

    /// What was measured.
    pub const fn response(&self) -> &Response {
        &self.response
    }

    /// Indexes of the plots that have a value.
    pub fn kept(&self) -> &[usize] {
        &self.kept
    }

    /// How many plots the design has.
    pub const fn planned(&self) -> usize {
        self.planned
    }

    /// How many of them have no value.
    pub fn lost(&self) -> usize {
        self.planned.saturating_sub(self.kept.len())
    }

    /// The values above the origin of the plots that have one.
    pub fn above(&self) -> Vec<f64> {
        self.response.above().iter().flatten().copied().collect()
    }

    /// The same trial with one plot lost.
    #[must_use]
    pub fn without(&self, plot: usize) -> Self {
        let values: Vec<_> = self
            .response
            .values()
            .into_iter()
            .enumerate()
            .map(|(at, value)| value.filter(|_| at != plot))
            .collect();
        Self {
            structure: self.structure.clone(),
            response: Response::from_numbers(&values),
            kept: self.kept.iter().copied().filter(|&at| at != plot).collect(),
            planned: self.planned,
        }
    }

    /// The same trial with another measurement of the same plots.
    #[must_use]
    pub fn with(&self, response: Response) -> Self {
        let kept = (0..response.above().len()).filter(|&plot| response.above()[plot].is_some()).collect();
        Self { structure: self.structure.clone(), response, kept, planned: self.planned }
    }
}

/// Which factor a comparison is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Compared {
    /// The treatments.
    Treatment,
    /// The levels on main plots or along rows.
    Main,
    /// The levels on subplots or along columns.
    Sub,
}

impl Structure {
    /// The factors in order: blocks, rows or columns first.
    pub fn factors(&self) -> Vec<&Factor> {
        match self {
            Self::Single { treatment } => vec![treatment],
            Self::Blocks { block, treatment } => vec![block, treatment],
            Self::Square { row, column, treatment } => vec![row, column, treatment],
            Self::Split { block, main, sub } | Self::Strip { block, main, sub } => vec![block, main, sub],
        }
    }

    /// What is compared, with the index of its factor in [`Structure::factors`].
    pub fn compared(&self) -> Vec<(Compared, usize)> {
        match self {
            Self::Single { .. } => vec![(Compared::Treatment, 0)],
            Self::Blocks { .. } => vec![(Compared::Treatment, 1)],
            Self::Square { .. } => vec![(Compared::Treatment, 2)],
            Self::Split { .. } | Self::Strip { .. } => vec![(Compared::Main, 1), (Compared::Sub, 2)],
        }
    }
}

/// The first two plots that share their levels of all these factors.
fn twice(factors: &[&Factor], plots: usize) -> Option<(usize, usize)> {
    let mut seen = std::collections::BTreeMap::new();
    (0..plots).find_map(|plot| {
        let cell: Vec<usize> = factors.iter().map(|factor| factor.of[plot]).collect();
        seen.insert(cell, plot).map(|first| (first, plot))
    })
}
