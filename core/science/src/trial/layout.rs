//! The field plan: who stands where, what it is called, in which order it is walked.
//!
//! A layout that is refused for a reason in the field is drawn again from where the generator stands, and the reason is
//! kept: it is never drawn again because it "looks wrong".

use crate::units::{Area, Length};

use super::design::Design;
use super::generator::SplitMix64;

/// A plot of the plan.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Plot {
    /// What stands on its stake: row of the field times 100 (1000 in wide fields), plus position.
    pub number: u32,
    /// Block, pair or row of a square, from 0.
    pub block: usize,
    /// Row in the field, from 0.
    pub row: usize,
    /// Position in its row, from 0, as seen from the first corner.
    pub column: usize,
    /// What it gets, from 0.
    pub given: Given,
}

/// What a plot gets.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Given {
    /// One of the treatments.
    Treatment(usize),
    /// A level of each of two factors.
    Crossed {
        /// Of the main factor.
        main: usize,
        /// Of the factor inside.
        sub: usize,
    },
}

/// A finished field plan.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Layout {
    /// The plots, row by row.
    pub plots: Vec<Plot>,
    /// Indexes of the plots in the order of walking: every second row backwards.
    pub walk: Vec<usize>,
    /// Rows of the field.
    pub rows: usize,
    /// Plots in the longest row.
    pub columns: usize,
}

/// Most plots of one trial: more is a slip of the finger.
pub const MOST_PLOTS: usize = 10_000;

/// A design that cannot be laid out.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum LayoutError {
    /// There is nothing to compare.
    #[error("fewer than two treatments; a comparison needs at least two")]
    OneTreatment,
    /// There is no plot, or a treatment has none.
    #[error("a treatment has no plot; give every treatment at least one")]
    NoPlot,
    /// See [`MOST_PLOTS`].
    #[error("more than {MOST_PLOTS} plots; lay out fewer treatments or blocks")]
    TooMany,
}

/// Draws the layout of a design; `refused` earlier ones of the same seed are passed over.
///
/// `per_row` is how many plots stand side by side in a completely randomised field (about a square where 0); other
/// designs have one row a block, strip plots one a main level.
///
/// # Errors
/// [`LayoutError`].
pub fn draw(design: &Design, seed: u64, refused: usize, per_row: usize) -> Result<Layout, LayoutError> {
    check(design)?;
    let mut generator = SplitMix64::new(seed);
    let mut rows = Vec::new();
    for _ in 0..=refused {
        rows = rows_of(design, &mut generator, per_row);
    }
    Ok(numbered(rows))
}

fn check(design: &Design) -> Result<(), LayoutError> {
    let (treatments, least) = match design {
        Design::Pairs { pairs } => (2, *pairs),
        Design::Strips { treatments, blocks } | Design::RandomisedBlocks { treatments, blocks } => {
            (*treatments, *blocks)
        }
        Design::CompletelyRandomised { plots } => (plots.len(), plots.iter().copied().min().unwrap_or(0)),
        Design::LatinSquare { side } => (*side, *side),
        Design::SplitPlot { main, sub, blocks } | Design::StripPlot { main, sub, blocks } => {
            (*(main.min(sub)), *blocks)
        }
    };
    if treatments < 2 {
        return Err(LayoutError::OneTreatment);
    }
    if least == 0 {
        return Err(LayoutError::NoPlot);
    }
    let plots = match design {
        Design::SplitPlot { main, sub, blocks } | Design::StripPlot { main, sub, blocks } => {
            main.saturating_mul(*sub).saturating_mul(*blocks)
        }
        Design::CompletelyRandomised { plots } => {
            plots.iter().fold(0, |sum: usize, more| sum.saturating_add(*more))
        }
        _ => treatments.saturating_mul(least),
    };
    if plots > MOST_PLOTS { Err(LayoutError::TooMany) } else { Ok(()) }
}

/// A plot before it has a number: its block and what it gets.
type Row = Vec<(usize, Given)>;

fn rows_of(design: &Design, generator: &mut SplitMix64, per_row: usize) -> Vec<Row> {
    let shuffled = |generator: &mut SplitMix64, number: usize| {
        let mut order: Vec<usize> = (0..number).collect();
        generator.shuffle(&mut order);
        order
    };
    let blocked = |generator: &mut SplitMix64, treatments: usize, blocks: usize| {
        let row = |block: usize, generator: &mut SplitMix64| -> Row {
            shuffled(generator, treatments).into_iter().map(|t| (block, Given::Treatment(t))).collect()
        };
        (0..blocks).map(|block| row(block, generator)).collect()
    };
    match *design {
        Design::Pairs { pairs } => blocked(generator, 2, pairs),
        Design::Strips { treatments, blocks } | Design::RandomisedBlocks { treatments, blocks } => {
            blocked(generator, treatments, blocks)
        }
        Design::CompletelyRandomised { ref plots } => {
            let mut all: Vec<usize> =
                plots.iter().enumerate().flat_map(|(t, &number)| std::iter::repeat_n(t, number)).collect();
            generator.shuffle(&mut all);
            let wide = if per_row == 0 { all.len().isqrt().max(1) } else { per_row };
            all.chunks(wide).map(|row| row.iter().map(|&t| (0, Given::Treatment(t))).collect()).collect()
        }
        Design::LatinSquare { side } => {
            let rows = shuffled(generator, side);
            let columns = shuffled(generator, side);
            let letters = shuffled(generator, side);
            rows.iter()
                .enumerate()
                .map(|(at, row)| {
                    let letter = |column: &usize| letters[(row + column) % side];
                    columns.iter().map(|column| (at, Given::Treatment(letter(column)))).collect()
                })
                .collect()
        }
        Design::SplitPlot { main, sub, blocks } => (0..blocks)
            .map(|block| {
                let order = shuffled(generator, main);
                order
                    .into_iter()
                    .flat_map(|main| shuffled(generator, sub).into_iter().map(move |sub| (main, sub)))
                    .map(|(main, sub)| (block, Given::Crossed { main, sub }))
                    .collect()
            })
            .collect(),
        Design::StripPlot { main, sub, blocks } => (0..blocks)
            .flat_map(|block| {
                let along = shuffled(generator, main);
                let across = shuffled(generator, sub);
                along
                    .into_iter()
                    .map(|main| across.iter().map(|&sub| (block, Given::Crossed { main, sub })).collect())
                    .collect::<Vec<Row>>()
            })
            .collect(),
    }
}

fn numbered(rows: Vec<Row>) -> Layout {
    let columns = rows.iter().map(Vec::len).max().unwrap_or(0);
    let hundred = if columns < 100 { 100 } else { 10_000 };
    let number =
        |row: usize, column: usize| u32::try_from((row + 1) * hundred + column + 1).unwrap_or(u32::MAX);
    let mut plots = Vec::new();
    let mut walk = Vec::new();
    let height = rows.len();
    for (row, given) in rows.into_iter().enumerate() {
        let first = plots.len();
        plots.extend(given.into_iter().enumerate().map(|(column, (block, given))| Plot {
            number: number(row, column),
            block,
            row,
            column,
            given,
        }));
        let indexes = first..plots.len();
        if row % 2 == 0 { walk.extend(indexes) } else { walk.extend(indexes.rev()) }
    }
    Layout { plots, walk, rows: height, columns }
}

/// The size of a plot and what of it is measured.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PlotSize {
    /// Across the row of plots.
    pub width: Length,
    /// Along the plot.
    pub length: Length,
    /// What is left out at every side: guard rows, soil thrown across.
    pub guard: Length,
    /// Bare way between rows of plots.
    pub alley: Length,
}

/// What is left out at every side where nobody says: half a metre to a metre, or two rows (after Gomez & De Datta
/// 1971, Experimental Agriculture 7:87-92, where no effect of a border reached past the second row).
pub const GUARD: Length = Length::from_m(0.5);

impl PlotSize {
    /// The ground that gets the treatment.
    pub fn gross(&self) -> Area {
        Area::from_m2(self.width.m() * self.length.m())
    }

    /// The ground that is measured; nothing where the guards meet.
    pub fn net(&self) -> Area {
        let inside = |side: Length| (side.m() - 2.0 * self.guard.m()).max(0.0);
        Area::from_m2(inside(self.width) * inside(self.length))
    }

    /// Near left corner of a plot, metres along its row and up the field.
    pub fn corner_m(&self, plot: &Plot) -> (f64, f64) {
        (
            super::real(plot.column) * self.width.m(),
            super::real(plot.row) * (self.length.m() + self.alley.m()),
        )
    }
}
