//! Laying out a trial: the draw, and what is asked of it, before anything is measured.

use kerfbook_ledger::kind::{TrialContrast, TrialDesign, TrialLaidOut, TrialPlot, TrialTreatment};
use kerfbook_ledger::{Book, EntryId, Label, Text};
use kerfbook_science::trial::design::{Design, Standing};
use kerfbook_science::trial::generator;
use kerfbook_science::trial::layout::{self, Given, Layout, PlotSize};
use kerfbook_science::trial::treatment::Treatment;
use kerfbook_science::units::{AreaMass, Length, Share};

use crate::error::ActError;
use crate::figure::{basis_points, between, whole_u32};
use crate::moment::Moment;
use crate::take_in_load::first;
use crate::trial_fault::TrialFault;

/// A treatment by name, with what it brings.
#[derive(Debug, Clone, PartialEq)]
pub struct Named<'a> {
    /// Its name.
    pub name: &'a str,
    /// What it brings.
    pub brings: Treatment,
}

/// A trial as it is wanted.
#[derive(Debug, Clone, PartialEq)]
pub struct NewTrial<'a> {
    /// What it is called.
    pub label: &'a str,
    /// Where it lies.
    pub place: Option<EntryId>,
    /// How treatments go to plots.
    pub design: &'a Design,
    /// Seed of the draw.
    pub seed: u64,
    /// Plots side by side where all go in one shuffle; about a square where 0.
    pub per_row: usize,
    /// Why earlier layouts of the seed were refused in the field, in order.
    pub refused: &'a [Text],
    /// Treatments, or levels of the main factor.
    pub treatments: &'a [Named<'a>],
    /// Levels of the factor inside.
    pub subs: &'a [&'a str],
    /// Names of the two factors.
    pub factors: [Option<&'a str>; 2],
    /// The check among the treatments.
    pub check: Option<usize>,
    /// The check among the levels inside.
    pub sub_check: Option<usize>,
    /// Pairs of treatments named beforehand.
    pub pairs: &'a [(usize, usize)],
    /// Contrasts named beforehand: a name and a weight a treatment.
    pub contrasts: &'a [(&'a str, Vec<f64>)],
    /// Difference in yellow leaf that does not matter.
    pub margin: Option<Share>,
    /// Size of the plots.
    pub size: Option<PlotSize>,
}

/// A trial in the book.
#[derive(Debug, Clone, PartialEq)]
pub struct LaidOut {
    /// Its entry.
    pub trial: EntryId,
    /// The layout that was drawn.
    pub layout: Layout,
    /// What a trial of this size is good for.
    pub standing: Standing,
}

/// Draws a trial and writes it down.
///
/// # Errors
/// A design that cannot be laid out, names that do not fit it, comparisons of nothing, a place that is not in the book, or
/// a book that cannot be written.
pub fn lay_out(book: &mut Book, new: &NewTrial<'_>, moment: Moment) -> Result<LaidOut, ActError> {
    if let Some(place) = new.place {
        book.place(place)?.ok_or(ActError::NotThere { what: "place" })?;
    }
    named_once(new.treatments.iter().map(|own| own.name))?;
    named_once(new.subs.iter().copied())?;
    let (mains, subs) = levels(new.design);
    for (names, levels) in [(new.treatments.len(), mains), (new.subs.len(), subs)] {
        if names != levels {
            return Err(TrialFault::Names { names, levels }.into());
        }
    }
    if i64::try_from(new.seed).is_err() {
        return Err(TrialFault::Seed { seed: new.seed }.into());
    }
    let percent = |share: Option<Share>| share.map(Share::percent);
    between("margin_points", percent(new.margin), 0.0, 100.0)?;
    let layout =
        layout::draw(new.design, new.seed, new.refused.len(), new.per_row).map_err(TrialFault::Layout)?;
    let size = |side: fn(&PlotSize) -> Length| new.size.as_ref().map(|size| whole_u32(side(size).mm()));
    let body = TrialLaidOut {
        label: Label::new(new.label)?,
        place: new.place,
        design: TrialDesign::from_name(new.design.kind().name()).unwrap_or(TrialDesign::RandomisedBlocks),
        seed: new.seed,
        generator: Label::new(generator::NAME)?,
        generator_version: generator::VERSION,
        refused: new.refused.iter().map(Text::hash).collect(),
        treatments: new.treatments.iter().map(treatment).collect::<Result<_, _>>()?,
        subs: new.subs.iter().map(|name| Label::new(name)).collect::<Result<_, _>>()?,
        factor: new.factors[0].map(Label::new).transpose()?,
        sub_factor: new.factors[1].map(Label::new).transpose()?,
        check: check(new.check, mains)?,
        sub_check: check(new.sub_check, subs)?,
        pairs: new.pairs.iter().map(|pair| planned(*pair, new)).collect::<Result<_, _>>()?,
        contrasts: new
            .contrasts
            .iter()
            .map(|(name, weights)| contrast(name, weights, mains))
            .collect::<Result<_, _>>()?,
        margin_bp: new.margin.map(basis_points),
        width_mm: size(|size| size.width),
        length_mm: size(|size| size.length),
        guard_mm: size(|size| size.guard),
        alley_mm: size(|size| size.alley),
        plots: layout.plots.iter().map(plot).collect(),
    };
    let trial = first(&book.append(&[moment.draft(body)?], new.refused, moment.wall_ms)?)?;
    Ok(LaidOut { trial, layout, standing: new.design.standing() })
}

/// Levels of the main factor and of the one inside.
fn levels(design: &Design) -> (usize, usize) {
    match design {
        Design::Pairs { .. } => (2, 0),
        Design::Strips { treatments, .. } | Design::RandomisedBlocks { treatments, .. } => (*treatments, 0),
        Design::CompletelyRandomised { plots } => (plots.len(), 0),
        Design::LatinSquare { side } => (*side, 0),
        Design::SplitPlot { main, sub, .. } | Design::StripPlot { main, sub, .. } => (*main, *sub),
    }
}

fn named_once<'a>(names: impl Iterator<Item = &'a str>) -> Result<(), TrialFault> {
    let mut seen = std::collections::BTreeSet::new();
    for name in names {
        if !seen.insert(name) {
            return Err(TrialFault::NameTwice { name: name.to_owned() });
        }
    }
    Ok(())
}

fn treatment(own: &Named<'_>) -> Result<TrialTreatment, ActError> {
    Ok(TrialTreatment {
        label: Label::new(own.name)?,
        residue: own.brings.residue.as_deref().map(Label::new).transpose()?,
        // 1 kg/ha is 100 mg/m2.
        nitrogen_mg_m2: own.brings.nitrogen.map(AreaMass::kg_ha).map(|kg_ha| whole_u32(kg_ha * 100.0)),
        ample: own.brings.ample,
    })
}

fn position(at: usize) -> u16 {
    u16::try_from(at).unwrap_or(u16::MAX)
}

fn check(level: Option<usize>, levels: usize) -> Result<Option<u16>, TrialFault> {
    match level {
        Some(level) if level >= levels => Err(TrialFault::Comparison { what: level.to_string() }),
        other => Ok(other.map(position)),
    }
}

fn planned((a, b): (usize, usize), new: &NewTrial<'_>) -> Result<Vec<u16>, TrialFault> {
    let there = |level: usize| new.treatments.get(level).map(|own| own.name);
    match (there(a), there(b)) {
        (Some(_), Some(_)) if a != b => Ok(vec![position(a), position(b)]),
        (a, b) => Err(TrialFault::Comparison { what: format!("{}:{}", a.unwrap_or("?"), b.unwrap_or("?")) }),
    }
}

/// Weights in whole thousandths that balance and weigh something.
fn contrast(name: &str, weights: &[f64], levels: usize) -> Result<TrialContrast, ActError> {
    #[expect(clippy::cast_possible_truncation, reason = "weights are checked to be small")]
    let whole: Vec<i32> = weights
        .iter()
        .filter(|weight| weight.abs() <= 1e6)
        .map(|weight| (weight * 1_000.0).round() as i32)
        .collect();
    let sum: i64 = whole.iter().map(|weight| i64::from(*weight)).sum();
    if whole.len() != levels || sum != 0 || whole.iter().all(|weight| *weight == 0) {
        return Err(TrialFault::Comparison { what: name.to_owned() }.into());
    }
    Ok(TrialContrast { label: Label::new(name)?, weights_x1000: whole })
}

fn plot(own: &layout::Plot) -> TrialPlot {
    let (treatment, sub) = match own.given {
        Given::Treatment(level) => (level, None),
        Given::Crossed { main, sub } => (main, Some(position(sub))),
    };
    TrialPlot {
        number: own.number,
        block: position(own.block),
        row: position(own.row),
        column: position(own.column),
        treatment: position(treatment),
        sub,
    }
}
