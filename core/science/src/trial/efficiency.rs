//! What the design brought, and how much of the spread the treatments account for. Full designs only.

use super::anova::{Analysis, Line};
use super::real;
use super::structure::{Structure, Trial};

/// What blocks or squares brought over one shuffle: above 1, as many times the plots would have been needed without.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Efficiency {
    /// Against one shuffle over all plots.
    pub over_one_shuffle: f64,
    /// The same with the loss of degrees of freedom counted (Fisher 1935); blocks only.
    pub adjusted: Option<f64>,
}

/// Relative efficiency; `None` for lost plots, other designs and nothing to divide by.
pub fn efficiency(trial: &Trial, analysis: &Analysis) -> Option<Efficiency> {
    let square = |line: Line| analysis.row(line).and_then(super::anova::Row::mean_square);
    let error = square(Line::Error).filter(|error| *error > 0.0)?;
    if !analysis.complete {
        return None;
    }
    match trial.structure() {
        Structure::Blocks { block, treatment } => {
            let (r, t) = (real(block.levels), real(treatment.levels));
            let over = ((r - 1.0) * square(Line::Block)? + r * (t - 1.0) * error) / ((r * t - 1.0) * error);
            let (own, free) = ((t - 1.0) * (r - 1.0), t * (r - 1.0));
            let factor = (own + 1.0) * (free + 3.0) / ((own + 3.0) * (free + 1.0));
            Some(Efficiency { over_one_shuffle: over, adjusted: Some(over * factor) })
        }
        Structure::Square { treatment, .. } => {
            let n = real(treatment.levels);
            let over = (square(Line::Row)? + square(Line::Column)? + (n - 1.0) * error) / ((n + 1.0) * error);
            Some(Efficiency { over_one_shuffle: over, adjusted: None })
        }
        _ => None,
    }
}

/// How much of the spread the treatments account for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Effect {
    /// Their sum of squares over theirs and the error's.
    pub partial_eta: f64,
    /// Without what chance adds: one shuffle (SS − df MSE) / (SS total + MSE), blocks df (F − 1) / (df (F − 1) + N).
    pub omega: f64,
}

/// The size of the treatments' effect.
pub fn effect(trial: &Trial, analysis: &Analysis) -> Option<Effect> {
    let treatment = analysis.row(Line::Treatment)?;
    let error = analysis.row(Line::Error)?;
    let variance = error.mean_square().filter(|variance| *variance > 0.0)?;
    let degrees = real(treatment.degrees);
    let omega = if matches!(trial.structure(), Structure::Single { .. }) {
        (treatment.squares - degrees * variance) / (analysis.row(Line::Total)?.squares + variance)
    } else {
        let beyond = degrees * (treatment.f? - 1.0);
        beyond / (beyond + real(analysis.kept.len()))
    };
    Some(Effect { partial_eta: treatment.squares / (treatment.squares + error.squares), omega })
}
