//! All results of an input, under the keys of the specification.

use std::collections::BTreeMap;

use serde::Serialize;

use super::input::{Crop, Input, InputError};
use super::quick::{Quick, quick_answers};
use super::reading::Update;
use super::runs::{Runs, Series, StageRuns, median, simulate};
use super::sampling::Sample;
use super::summary::{Spread3, chance, spread};
use super::{ENGINE, PARAMETERS};

/// Result days that a report shows, as far as the stage goes, beside its last.
const SHOWN: [u32; 8] = [0, 7, 14, 28, 60, 90, 150, 365];
/// Both balances are closed to this.
const CLOSED: f64 = 1e-11;

/// The median run, the ensemble, and the ensemble after readings.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[expect(missing_docs, reason = "the keys are those of the specification")]
pub struct Report {
    pub engine: u32,
    pub parameters: u32,
    pub seed: u64,
    pub draws: u32,
    pub median: MedianOutcome,
    pub ensemble: EnsembleOutcome,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub updated: Option<UpdatedOutcome>,
    pub quick_nitrogen_kg_ha: Vec<Option<Quick>>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub stages: Vec<StageOutcome>,
    pub residual_carbon: f64,
    pub residual_nitrogen: f64,
    pub balance_closed: bool,
}

/// The run at the medians.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[expect(missing_docs, reason = "the keys are those of the specification")]
pub struct MedianOutcome {
    #[serde(flatten)]
    pub outcome: Outcome<Option<f64>>,
    pub tied_by_layer_kg_ha: Vec<f64>,
}

/// The ensemble.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[expect(missing_docs, reason = "the keys are those of the specification")]
pub struct EnsembleOutcome {
    #[serde(flatten)]
    pub outcome: Outcome<Spread3>,
    pub chance_short: f64,
    pub chance_short_nothing: f64,
}

/// The ensemble after readings.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[expect(missing_docs, reason = "the keys are those of the specification")]
pub struct UpdatedOutcome {
    #[serde(flatten)]
    pub ensemble: EnsembleOutcome,
    pub effective_size: f64,
}

/// Results; `V` is a number for one run and three quantiles for many.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[expect(missing_docs, reason = "the keys are those of the specification")]
pub struct Outcome<V> {
    pub days: Vec<DayOutcome<V>>,
    pub hungry_day: V,
    pub hungry_day_nothing: V,
    pub days_earlier_hungry: V,
    pub turn_day: V,
    pub crop_nitrogen_kg_ha: V,
    pub crop_nitrogen_nothing_kg_ha: V,
    pub crop_nitrogen_lost_kg_ha: V,
    pub leached_less_kg_ha: V,
    pub denitrified_kg_ha: V,
    pub ammonia_kg_ha: V,
    pub supply_kg_ha: V,
    pub co2_kg_c_ha: V,
    pub mulch_depth_mm: V,
    pub irrigation_mm: V,
    pub drained_mm: V,
    pub dry_days: V,
    pub mat_days: V,
    pub crops: Vec<CropOutcome<V>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub crop_nitrogen_g_tree: Option<V>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub tied_g_tree: Option<V>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub tied_mg_litre: Option<V>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub tied_mg_container: Option<V>,
}

/// One evening.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[expect(missing_docs, reason = "the keys are those of the specification")]
pub struct DayOutcome<V> {
    pub day: u32,
    pub tied_kg_ha: V,
    pub mineral_kg_ha: V,
    pub uptake_kg_ha: V,
    pub leached_kg_ha: V,
    pub seam_kg_ha: V,
    pub in_mulch_kg_ha: V,
}

/// One crop.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[expect(missing_docs, reason = "the keys are those of the specification")]
pub struct CropOutcome<V> {
    pub name: String,
    pub uptake_kg_ha: V,
    pub demand_kg_ha: V,
    pub hungry_day: V,
}

/// An earlier stage, in the median run.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[expect(missing_docs, reason = "the keys are those of the specification")]
pub struct StageOutcome {
    pub days: u32,
    pub tied_kg_ha: f64,
    pub lifted: BTreeMap<usize, Lifted>,
}

/// Pools lifted of a layer, kg/ha.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[serde(rename_all = "UPPERCASE")]
#[expect(missing_docs, reason = "the keys are those of the specification")]
pub struct Lifted {
    pub c1: f64,
    pub c2: f64,
    pub b: f64,
    pub nb: f64,
    pub h: f64,
}

/// Runs an input with its own seed and number of runs, and once at the medians.
///
/// # Errors
/// The first key of the input that cannot be used.
pub fn report(input: &Input) -> Result<Report, InputError> {
    let nothing = input.nothing();
    let (one, one_bare) = (median(input, &SHOWN)?, median(&nothing, &[])?);
    let sample = Sample::new(input.seed, input.draws);
    let (all, all_bare) = (simulate(input, &sample, &SHOWN)?, simulate(&nothing, &sample, &[])?);
    let merged = input.merged();
    let last = merged.last().map_or(input, |stage| &stage.input);
    let number = |values: &[f64]| values.first().copied().filter(|value| value.is_finite());
    let worst = |pick: fn(&StageRuns) -> f64| {
        let runs = [&one, &one_bare, &all, &all_bare];
        runs.iter().flat_map(|runs| runs.stages()).map(pick).fold(0.0, f64::max)
    };
    let (residual_carbon, residual_nitrogen) =
        (worst(|stage| stage.carbon_residual), worst(|stage| stage.nitrogen_residual));
    let before_last = one.stages().len() - 1;
    let stages = one.stages().iter().zip(&merged).take(before_last).map(|(runs, stage)| StageOutcome {
        days: stage.input.days,
        tied_kg_ha: runs.end(Series::Tied).first().copied().unwrap_or(0.0),
        lifted: runs
            .lifted
            .iter()
            .map(|(layer, [c1, c2, b, nb, h])| (*layer, Lifted { c1: *c1, c2: *c2, b: *b, nb: *nb, h: *h }))
            .collect(),
    });
    Ok(Report {
        engine: ENGINE,
        parameters: PARAMETERS,
        seed: input.seed,
        draws: input.draws,
        median: MedianOutcome {
            outcome: outcome(one.last(), one_bare.last(), last, number),
            tied_by_layer_kg_ha: one
                .last()
                .tied_by_layer
                .iter()
                .filter_map(|layer| layer.first())
                .copied()
                .collect(),
        },
        ensemble: ensemble(&all, &all_bare, last, None),
        updated: all.updated().map(|update| UpdatedOutcome {
            ensemble: ensemble(&all, &all_bare, last, Some(&update)),
            effective_size: update.effective_size,
        }),
        quick_nitrogen_kg_ha: quick_answers(input),
        stages: stages.collect(),
        residual_carbon,
        residual_nitrogen,
        balance_closed: residual_carbon < CLOSED && residual_nitrogen < CLOSED,
    })
}

fn ensemble(all: &Runs, bare: &Runs, last: &Input, update: Option<&Update>) -> EnsembleOutcome {
    let picked = |values: &[f64]| update.map_or_else(|| values.to_vec(), |update| update.pick(values));
    EnsembleOutcome {
        outcome: outcome(all.last(), bare.last(), last, |values| spread(&picked(values))),
        chance_short: chance(&picked(&all.last().hungry_day)),
        chance_short_nothing: chance(&picked(&bare.last().hungry_day)),
    }
}

fn outcome<V>(runs: &StageRuns, bare: &StageRuns, last: &Input, told: impl Fn(&[f64]) -> V) -> Outcome<V> {
    let end = |series: Series| told(runs.end(series));
    let scaled = |series: Series, factor: f64| {
        let values: Vec<f64> = runs.end(series).iter().map(|value| value * factor).collect();
        told(&values)
    };
    let less = |a: &[f64], b: &[f64]| {
        let values: Vec<f64> = a.iter().zip(b).map(|(a, b)| a - b).collect();
        told(&values)
    };
    // A day never reached counts as the last.
    let capped = |days: &[f64]| -> Vec<f64> {
        let last = f64::from(last.days);
        days.iter().map(|day| if day.is_finite() { *day } else { last }).collect()
    };
    let days = runs.days().iter().filter(|day| SHOWN.contains(day) || **day == last.days);
    let ring = last.crops.iter().find_map(|crop| match crop {
        Crop::Tree { ring_area_m2, .. } => Some(ring_area_m2 * 0.1),
        Crop::Annual { .. } => None,
    });
    let per_litre = 10.0 / last.soil.depth_cm;
    Outcome {
        days: days
            .map(|day| {
                let on = |series: Series| told(runs.on(series, *day).unwrap_or(&[]));
                DayOutcome {
                    day: *day,
                    tied_kg_ha: on(Series::Tied),
                    mineral_kg_ha: on(Series::Mineral),
                    uptake_kg_ha: on(Series::Uptake),
                    leached_kg_ha: on(Series::Leached),
                    seam_kg_ha: on(Series::Seam),
                    in_mulch_kg_ha: on(Series::InMulch),
                }
            })
            .collect(),
        hungry_day: told(&runs.hungry_day),
        hungry_day_nothing: told(&bare.hungry_day),
        days_earlier_hungry: less(&capped(&bare.hungry_day), &capped(&runs.hungry_day)),
        turn_day: told(&runs.release_day),
        crop_nitrogen_kg_ha: told(&runs.crop_nitrogen(last.days).unwrap_or_default()),
        crop_nitrogen_nothing_kg_ha: told(&bare.crop_nitrogen(last.days).unwrap_or_default()),
        crop_nitrogen_lost_kg_ha: less(bare.end(Series::Uptake), runs.end(Series::Uptake)),
        leached_less_kg_ha: less(bare.end(Series::Leached), runs.end(Series::Leached)),
        denitrified_kg_ha: end(Series::Denitrified),
        ammonia_kg_ha: end(Series::Ammonia),
        supply_kg_ha: end(Series::Supply),
        co2_kg_c_ha: end(Series::CarbonDioxide),
        mulch_depth_mm: end(Series::Depth),
        irrigation_mm: end(Series::Irrigation),
        drained_mm: end(Series::Drained),
        dry_days: told(&runs.dry_days),
        mat_days: told(&runs.mat_days),
        crops: last
            .crops
            .iter()
            .zip(&runs.crops)
            .map(|(crop, runs)| CropOutcome {
                name: crop.name().to_owned(),
                uptake_kg_ha: told(&runs.uptake),
                demand_kg_ha: told(&runs.demand),
                hungry_day: told(&runs.hungry_day),
            })
            .collect(),
        crop_nitrogen_g_tree: ring.map(|factor| scaled(Series::Uptake, factor)),
        tied_g_tree: ring.map(|factor| scaled(Series::Tied, factor)),
        tied_mg_litre: last.container_litres.map(|_| scaled(Series::Tied, per_litre)),
        tied_mg_container: last.container_litres.map(|litres| scaled(Series::Tied, per_litre * litres)),
    }
}
