//! A trial was laid out.

use super::kinded;
use crate::entry::field::{Label, codes, record};
use crate::entry::id::{EntryId, TextRef};

codes! {
    /// How treatments went to plots.
    TrialDesign, "design of a trial" {
        /// Two treatments side by side.
        Pairs = 1, "pairs";
        /// Field-length strips in blocks.
        Strips = 2, "strips";
        /// One shuffle over all plots.
        CompletelyRandomised = 3, "crd";
        /// Every treatment once in every block.
        RandomisedBlocks = 4, "rcbd";
        /// Every treatment once in every row and column.
        LatinSquare = 5, "latin";
        /// Main plots in blocks, subplots inside.
        SplitPlot = 6, "split-plot";
        /// Two factors in strips that cross.
        StripPlot = 7, "strip-plot";
    }
}

record! {
    /// A treatment, or a level of the main factor.
    TrialTreatment {
        /// What it is called.
        label: Label,
        /// The residue that it puts down; none where it puts down nothing.
        residue: Option<Label>,
        /// Nitrogen that it brings in all, mg/m2.
        nitrogen_mg_m2: Option<u32>,
        /// More nitrogen than the crop can miss: the reference that tells lock-up from other causes.
        ample: bool,
    }
}

record! {
    /// A plot of the layout, and what it gets.
    TrialPlot {
        /// What stands on its stake.
        number: u32,
        /// Block, pair or row of a square, from 0.
        block: u16,
        /// Row in the field, from 0.
        row: u16,
        /// Position in its row, from 0.
        column: u16,
        /// Treatment or level of the main factor, from 0.
        treatment: u16,
        /// Level of the factor inside, from 0.
        sub: Option<u16>,
    }
}

record! {
    /// Weights of a contrast that was named beforehand.
    TrialContrast {
        /// What it is called.
        label: Label,
        /// One weight a treatment, thousandths; they sum to nothing.
        weights_x1000: Vec<i32>,
    }
}

record! {
    /// Opens a trial: the finished layout, how it was drawn, and what was asked before anything was measured.
    TrialLaidOut {
        /// What it is called.
        label: Label,
        /// Where it lies.
        place: Option<EntryId>,
        /// How treatments went to plots.
        design: TrialDesign,
        /// Seed of the draw.
        seed: u64,
        /// Its generator.
        generator: Label,
        /// Version of the generator.
        generator_version: u32,
        /// Why earlier layouts of the same seed were refused, in order.
        refused: Vec<TextRef>,
        /// Treatments, or levels of the main factor.
        treatments: Vec<TrialTreatment>,
        /// Levels of the factor inside.
        subs: Vec<Label>,
        /// The main factor's name, where there are two.
        factor: Option<Label>,
        /// The name of the factor inside.
        sub_factor: Option<Label>,
        /// The check among the treatments.
        check: Option<u16>,
        /// The check among the levels inside.
        sub_check: Option<u16>,
        /// Pairs of treatments named beforehand, each a list of two.
        pairs: Vec<Vec<u16>>,
        /// Contrasts named beforehand.
        contrasts: Vec<TrialContrast>,
        /// Difference in yellow leaf that does not matter, 0.01 %.
        margin_bp: Option<u32>,
        /// Width of a plot with its guards, mm.
        width_mm: Option<u32>,
        /// Length of a plot with its guards, mm.
        length_mm: Option<u32>,
        /// What is not measured at every side, mm.
        guard_mm: Option<u32>,
        /// Bare way between rows of plots, mm.
        alley_mm: Option<u32>,
        /// The plots, row by row.
        plots: Vec<TrialPlot>,
    }
}

kinded!(TrialLaidOut, version 1, about Nothing, naming { "place": [PlaceOutlined] });
