//! A finished trial as a page: what may be said, every plot, where the residuals lie.

use kerfbook_acts::trial::sentences;
use kerfbook_picture::{DotsChart, DotsRow, FieldCell, FieldMap, Screen, svg};
use kerfbook_science::trial::anova::Group;
use kerfbook_science::trial::diagnostic::left;
use kerfbook_science::trial::structure::Structure;
use kerfbook_science::trial::verdict::{Saying, Verdict};
use kerfbook_words::Words;
use maud::{DOCTYPE, PreEscaped, html};

use super::described::Described;

const STYLE: &str = "\
body{font:16px/1.45 system-ui,sans-serif;margin:1.5rem auto;max-width:46rem;padding:0 1rem;background:var(--ground);color:var(--ink)}\
.said{font-size:1.15rem}\
@media print{body{margin:0;max-width:none}svg{break-inside:avoid}}";

pub(super) fn page(described: &Described, verdict: &Verdict, words: &Words) -> String {
    let title = words.say("trial-page-title", &[("response", described.response.clone())]);
    let number = |value: f64| words.significant(value, 4);
    let charts: Vec<String> = verdict
        .analysis
        .groups
        .iter()
        .enumerate()
        .map(|(at, group)| {
            svg::inline(
                &dots(described, verdict, group, words).draw(Screen::Desk, &number),
                &format!("dots-{at}"),
            )
        })
        .collect();
    let map = svg::inline(&residuals(described, verdict, words).draw(Screen::Desk), "residuals");
    html! {
        (DOCTYPE)
        html lang=(words.language().code()) {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                title { (title) }
                style { (PreEscaped(svg::STYLE)) (PreEscaped(STYLE)) }
            }
            body {
                h1 { (title) }
                div class="said" { @for said in sentences(verdict, &described.names, words) { p { (said) } } }
                @for note in described.notes(words) { p { (note) } }
                @for chart in charts { (PreEscaped(chart)) }
                (PreEscaped(map))
            }
        }
    }
    .into_string()
}

/// Every plot by the levels of a factor.
pub(crate) fn dots(described: &Described, verdict: &Verdict, group: &Group, words: &Words) -> DotsChart {
    let trial = &described.trial;
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
                (!there.is_empty()).then(|| there.iter().sum::<f64>() / super::counted(there.len()))
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
        title: words.say("trial-dots-title", &[("factor", described.factor_told(group.compared).to_owned())]),
        description: words.label("trial-dots-about"),
        rows: described.levels(group.compared).iter().enumerate().map(row).collect(),
        joined: !single,
    }
}

/// What the fit leaves, where each plot stands.
pub(crate) fn residuals(described: &Described, verdict: &Verdict, words: &Words) -> FieldMap {
    let structure = described.trial.structure();
    let left = left(&verdict.analysis);
    let most = left.iter().map(|own| own.residual.abs()).fold(0.0, f64::max);
    let suspect = verdict.sayings.iter().find_map(|saying| match saying {
        Saying::Drives { left } | Saying::Odd { left } => Some(left.plot),
        _ => None,
    });
    let plots = described.lines.len();
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
            let (row, column) = described
                .places
                .as_ref()
                .and_then(|places| places.get(plot).copied())
                .unwrap_or_else(|| place(plot));
            let own = left.iter().find(|own| own.plot == plot);
            let residual = own.map_or(0.0, |own| own.residual);
            FieldCell {
                row,
                column,
                number: described.names.plots[plot].clone(),
                label: own.map_or_else(|| "–".to_owned(), |own| words.significant(own.residual, 2)),
                shade: if most > 0.0 { residual.abs() / most } else { 0.0 },
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
