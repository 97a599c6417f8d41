//! The designs, with what each can show before anything is planted.

use super::real;

/// How treatments go to plots.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Design {
    /// Two treatments side by side; a coin a pair says which goes left.
    Pairs {
        /// How many pairs.
        pairs: usize,
    },
    /// Field-length strips for machinery, in blocks.
    Strips {
        /// How many treatments.
        treatments: usize,
        /// How many blocks.
        blocks: usize,
    },
    /// All plots in one shuffle: uniform ground, pots.
    CompletelyRandomised {
        /// How many plots each treatment gets.
        plots: Vec<usize>,
    },
    /// Every treatment once in every block: the usual one in the field.
    RandomisedBlocks {
        /// How many treatments.
        treatments: usize,
        /// How many blocks.
        blocks: usize,
    },
    /// As many rows and columns as treatments, each once in every row and column.
    LatinSquare {
        /// How many treatments.
        side: usize,
    },
    /// One factor on main plots within blocks, the other inside each main plot.
    SplitPlot {
        /// Levels of the factor that needs big plots.
        main: usize,
        /// Levels of the factor inside.
        sub: usize,
        /// How many blocks.
        blocks: usize,
    },
    /// Two factors in strips that cross in every block.
    StripPlot {
        /// Levels of the factor along the rows.
        main: usize,
        /// Levels of the factor along the columns.
        sub: usize,
        /// How many blocks.
        blocks: usize,
    },
}

/// The designs by name.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Kind {
    /// See [`Design::Pairs`].
    Pairs,
    /// See [`Design::Strips`].
    Strips,
    /// See [`Design::CompletelyRandomised`].
    CompletelyRandomised,
    /// See [`Design::RandomisedBlocks`].
    RandomisedBlocks,
    /// See [`Design::LatinSquare`].
    LatinSquare,
    /// See [`Design::SplitPlot`].
    SplitPlot,
    /// See [`Design::StripPlot`].
    StripPlot,
}

impl Kind {
    /// All of them.
    pub const ALL: [Self; 7] = [
        Self::Pairs,
        Self::Strips,
        Self::CompletelyRandomised,
        Self::RandomisedBlocks,
        Self::LatinSquare,
        Self::SplitPlot,
        Self::StripPlot,
    ];

    /// As files and commands name it.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Pairs => "pairs",
            Self::Strips => "strips",
            Self::CompletelyRandomised => "crd",
            Self::RandomisedBlocks => "rcbd",
            Self::LatinSquare => "latin",
            Self::SplitPlot => "split-plot",
            Self::StripPlot => "strip-plot",
        }
    }

    /// The design of a name.
    pub fn of_name(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|kind| kind.name() == name)
    }

    /// Whether two factors cross in it.
    pub const fn is_two_factor(self) -> bool {
        matches!(self, Self::SplitPlot | Self::StripPlot)
    }
}

/// An error line of the analysis: which differences it judges, on how many degrees of freedom.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Stratum {
    /// Degrees of freedom.
    pub degrees: usize,
    /// Plots behind each mean that it judges.
    pub plots_per_mean: usize,
}

impl Design {
    /// Its name.
    pub const fn kind(&self) -> Kind {
        match self {
            Self::Pairs { .. } => Kind::Pairs,
            Self::Strips { .. } => Kind::Strips,
            Self::CompletelyRandomised { .. } => Kind::CompletelyRandomised,
            Self::RandomisedBlocks { .. } => Kind::RandomisedBlocks,
            Self::LatinSquare { .. } => Kind::LatinSquare,
            Self::SplitPlot { .. } => Kind::SplitPlot,
            Self::StripPlot { .. } => Kind::StripPlot,
        }
    }

    /// How many plots it has.
    pub fn plots(&self) -> usize {
        match self {
            Self::Pairs { pairs } => 2 * pairs,
            Self::Strips { treatments, blocks } | Self::RandomisedBlocks { treatments, blocks } => {
                treatments * blocks
            }
            Self::CompletelyRandomised { plots } => plots.iter().sum(),
            Self::LatinSquare { side } => side * side,
            Self::SplitPlot { main, sub, blocks } | Self::StripPlot { main, sub, blocks } => {
                main * sub * blocks
            }
        }
    }

    /// How often the least repeated treatment is there.
    pub fn replicates(&self) -> usize {
        match self {
            Self::Pairs { pairs } => *pairs,
            Self::Strips { blocks, .. }
            | Self::RandomisedBlocks { blocks, .. }
            | Self::SplitPlot { blocks, .. }
            | Self::StripPlot { blocks, .. } => *blocks,
            Self::CompletelyRandomised { plots } => plots.iter().copied().min().unwrap_or(0),
            Self::LatinSquare { side } => *side,
        }
    }

    /// The error lines: one, or that of the main factor and that of the factor inside (of the columns).
    pub fn strata(&self) -> Vec<Stratum> {
        let less = |number: usize| number.saturating_sub(1);
        let blocked = |treatments: usize, blocks: usize| {
            vec![Stratum { degrees: less(treatments) * less(blocks), plots_per_mean: blocks }]
        };
        match *self {
            Self::Pairs { pairs } => blocked(2, pairs),
            Self::Strips { treatments, blocks } | Self::RandomisedBlocks { treatments, blocks } => {
                blocked(treatments, blocks)
            }
            Self::CompletelyRandomised { ref plots } => {
                let degrees = self.plots().saturating_sub(plots.len());
                vec![Stratum { degrees, plots_per_mean: self.replicates() }]
            }
            Self::LatinSquare { side } => {
                vec![Stratum { degrees: less(side) * side.saturating_sub(2), plots_per_mean: side }]
            }
            Self::SplitPlot { main, sub, blocks } => vec![
                Stratum { degrees: less(main) * less(blocks), plots_per_mean: blocks * sub },
                Stratum { degrees: main * less(blocks) * less(sub), plots_per_mean: blocks * main },
            ],
            Self::StripPlot { main, sub, blocks } => vec![
                Stratum { degrees: less(main) * less(blocks), plots_per_mean: blocks * sub },
                Stratum { degrees: less(sub) * less(blocks), plots_per_mean: blocks * main },
            ],
        }
    }

    /// The smallest chance that a test which reorders the treatments as the field was randomised can ever give; of two
    /// factors the larger. Nothing in such a trial can be rarer than this, whatever comes up.
    ///
    /// Complete blocks: 1/(t!)^(r − 1), for a relabelled field is the same division. One shuffle: the number of equal
    /// groups that can change names, over the number of arrangements. Latin square by shuffled rows, columns and
    /// letters of the cyclic one: that one's class has n!³ / (n² φ(n)) squares (φ counts the numbers below n that share
    /// no factor with it), n! of which are one division.
    pub fn smallest_p(&self) -> f64 {
        let blocked = |treatments: usize, blocks: usize| {
            (1..blocks).map(|_| 1.0 / factorial(treatments)).product::<f64>()
        };
        match *self {
            Self::Pairs { pairs } => blocked(2, pairs),
            Self::Strips { treatments, blocks } | Self::RandomisedBlocks { treatments, blocks } => {
                blocked(treatments, blocks)
            }
            Self::CompletelyRandomised { ref plots } => {
                let mut sizes = plots.clone();
                sizes.sort_unstable();
                let alike: f64 = sizes.chunk_by(|a, b| a == b).map(|same| factorial(same.len())).product();
                (alike / arrangements(plots)).min(1.0)
            }
            Self::LatinSquare { side } => {
                let alike = (1..=side).filter(|&step| coprime(step, side)).count();
                let all = factorial(side);
                (real(side * side * alike) / (all * all)).min(1.0)
            }
            Self::SplitPlot { main, sub, blocks } => blocked(main, blocks).max(blocked(sub, main * blocks)),
            Self::StripPlot { main, sub, blocks } => blocked(main, blocks).max(blocked(sub, blocks)),
        }
    }

    /// Whether even its better judged factor cannot come below one in twenty by reordering. Squares have few reorderings
    /// by their recipe; their F stands alone.
    fn is_too_small(&self) -> bool {
        let blocked =
            |treatments: usize, blocks: usize| Self::RandomisedBlocks { treatments, blocks }.smallest_p();
        let smallest = match *self {
            Self::LatinSquare { .. } => return false,
            Self::SplitPlot { main, sub, blocks } => blocked(main, blocks).min(blocked(sub, main * blocks)),
            Self::StripPlot { main, sub, blocks } => blocked(main, blocks).min(blocked(sub, blocks)),
            _ => self.smallest_p(),
        };
        smallest > super::LINE
    }

    /// Why this is no trial, or where it is a thin one.
    pub fn standing(&self) -> Standing {
        let replicates = self.replicates();
        if replicates < 2 || self.strata().iter().any(|stratum| stratum.degrees == 0) {
            return Standing::Demonstration;
        }
        if self.is_too_small() {
            return Standing::TooSmall;
        }
        let few = match self {
            Self::Pairs { .. } => replicates < FEW_PAIRS,
            _ => replicates < FEW_BLOCKS,
        };
        if few { Standing::Few } else { Standing::Trial }
    }
}

/// Below this many pairs a trial is called thin: University of Nebraska, Designing Your On-Farm Research Comparison
/// (six to seven pairs); Practical Farmers of Iowa, Trial Statistics (at least six).
pub const FEW_PAIRS: usize = 6;
/// Below this many blocks a trial is called thin: Pacific Northwest on-farm testing guide, Washington State University
/// 1994 (four recommended).
pub const FEW_BLOCKS: usize = 4;

/// What a design of this size is good for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Standing {
    /// One of each: describe what is seen, judge nothing (Michigan State University Extension, Get meaningful, reliable
    /// results from your on-farm research trials).
    Demonstration,
    /// No reordering can be rarer than one in twenty.
    TooSmall,
    /// Fewer replicates than the guides ask for.
    Few,
    /// Enough of them.
    Trial,
}

fn coprime(a: usize, b: usize) -> bool {
    if b == 0 { a == 1 } else { coprime(b, a % b) }
}

pub(super) fn factorial(number: usize) -> f64 {
    (2..=number).map(real).product()
}

/// In how many ways plots can be dealt into groups of these sizes.
pub(super) fn arrangements(sizes: &[usize]) -> f64 {
    let mut dealt = 0;
    let mut ways = 1.0;
    for &size in sizes {
        for one in 1..=size {
            dealt += 1;
            ways = ways * real(dealt) / real(one);
        }
    }
    ways
}
