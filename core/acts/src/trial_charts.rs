//! What a trial shows, as charts: every plot as a dot, and what the fit leaves where each plot stands.

use kerfbook_picture::{DisplayList, DotsChart, DotsRow, FieldCell, FieldMap, Screen};
use kerfbook_science::trial::anova::Group;
use kerfbook_science::trial::diagnostic::left;
use kerfbook_science::trial::structure::{Compared, Structure, Trial};
use kerfbook_science::trial::verdict::{Saying, Verdict};
use kerfbook_words::Words;

use crate::trial::Names;
use crate::trial_result::TrialResult;

/// All charts of a trial that was judged: the dots of each factor, then what the fit leaves.
pub fn charts(result: &TrialResult, screen: Screen, words: &Words) -> Vec<DisplayList> {
    let TrialResult { trial, verdict, names, places, .. } = result;
    let called = |compared| match (&names.factors, compared) {
        (Some([main, _]), Compared::Main) => main.clone(),
        (Some([_, sub]), Compared::Sub) => sub.clone(),
        _ => words.label("plan-treatment"),
    };
    let dots = verdict.analysis.groups.iter().map(|group| {
        dots(trial, verdict, group, names, &called(group.compared), words)
            .draw(screen, &|value| words.significant(value, 4))
    });
    dots.chain([residuals(trial, verdict, names, Some(places), words).draw(screen)]).collect()
}

/// Every plot by the levels of a factor.
/// `factor` is what people call it.
pub fn dots(
    trial: &Trial,
    verdict: &Verdict,
    group: &Group,
    names: &Names,
    factor: &str,
    words: &Words,
) -> DotsChart {
    let called = factor;
    let values = trial.response().values();
    let factors = trial.structure().factors();
    let at =
        trial.structure().compared().iter().find(|(own, _)| *own == group.compared).map_or(0, |own| own.1);
    let factor = factors[at];
    let single = matches!(trial.structure(), Structure::Single { .. });
    let of = |level: usize| -> Vec<Option<f64>> {
        let own: Vec<usize> = (0..values.len()).filter(|&plot| factor.of[plot] == level).collect();
        if single {
            return own.into_iter().map(|plot| values[plot]).collect();
        }
        // Means over what lies within a block, where the factor has several plots there.
        (0..factors[0].levels)
            .map(|block| {
                let there = own.iter().filter(|&&plot| factors[0].of[plot] == block);
                let there: Vec<f64> = there.filter_map(|&plot| values[plot]).collect();
                (!there.is_empty()).then(|| there.iter().sum::<f64>() / there.len() as f64)
            })
            .collect()
    };
    let row = |(level, name): (usize, &String)| {
        let mean = group.means[level].adjusted;
        let half = Some(group.mean_half_width(level)).filter(|half| half.is_finite() && !verdict.refused);
        DotsRow {
            name: name.clone(),
            mean,
            ends: half.map(|half| (mean - half, mean + half)),
            values: of(level),
        }
    };
    DotsChart {
        title: words.say("trial-dots-title", &[("factor", called.to_owned())]),
        description: words.label("trial-dots-about"),
        rows: names.levels(group.compared).iter().enumerate().map(row).collect(),
        joined: !single,
    }
}

/// Part of the largest value that rounding may leave of nothing.
const ROUNDING: f64 = 1e-12;

/// What the fit leaves, where each plot stands.
/// `places` are row and column of every plot in the field, where they are known.
pub fn residuals(
    trial: &Trial,
    verdict: &Verdict,
    names: &Names,
    places: Option<&[(usize, usize)]>,
    words: &Words,
) -> FieldMap {
    let structure = trial.structure();
    let left = left(&verdict.analysis);
    let largest = trial.response().values().iter().flatten().map(|value| value.abs()).fold(0.0, f64::max);
    let most = left.iter().map(|own| own.residual.abs()).fold(0.0, f64::max);
    let suspect = verdict.sayings.iter().find_map(|saying| match saying {
        Saying::Drives { left } | Saying::Odd { left } => Some(left.plot),
        _ => None,
    });
    let plots = trial.response().values().len();
    let wide = plots.isqrt().max(1);
    let mut filled = vec![0; plots];
    let mut place = |plot: usize| match structure {
        Structure::Single { .. } => (plot / wide, plot % wide),
        Structure::Square { row, column, .. } => (row.of[plot], column.of[plot]),
        Structure::Blocks { block, .. } | Structure::Split { block, .. } | Structure::Strip { block, .. } => {
            let row = block.of[plot];
            filled[row] += 1;
            (row, filled[row] - 1)
        }
    };
    let cells = (0..plots)
        .map(|plot| {
            let known = places.and_then(|places| places.get(plot).copied());
            let (row, column) = known.unwrap_or_else(|| place(plot));
            let own = left.iter().find(|own| own.plot == plot);
            // What rounding leaves of a value met exactly is nothing.
            let residual = own.map_or(0.0, |own| own.residual);
            let residual = if residual.abs() > ROUNDING * largest { residual } else { 0.0 };
            FieldCell {
                row,
                column,
                number: names.plots[plot].clone(),
                label: own.map_or_else(|| "–".to_owned(), |_| words.significant(residual, 2)),
                shade: if most > ROUNDING * largest { residual.abs() / most } else { 0.0 },
                chosen: suspect == Some(plot),
            }
        })
        .collect();
    FieldMap {
        title: words.label("trial-residuals-title"),
        description: words.label("trial-residuals-about"),
        cells,
        ..FieldMap::default()
    }
}
