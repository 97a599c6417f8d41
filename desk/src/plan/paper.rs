//! The plan on paper: field plan, labels, score sheet and key.

use kerfbook_picture::svg;
use kerfbook_science::trial::score::STEPS_PCT;
use kerfbook_words::Words;
use maud::{DOCTYPE, PreEscaped, html};

use super::Plan;

const STYLE: &str = "\
body{font:16px/1.45 system-ui,sans-serif;margin:1.5rem auto;max-width:46rem;padding:0 1rem;background:var(--ground);color:var(--ink)}\
table{border-collapse:collapse;width:100%}td,th{border:1px solid var(--rule);padding:.3rem .5rem;text-align:left}\
.labels{display:grid;grid-template-columns:repeat(3,1fr);gap:.6rem}\
.label{border:1px dashed var(--rule);padding:.8rem;text-align:center;break-inside:avoid}\
.label b{display:block;font-size:2.4rem;line-height:1.1}\
@media print{body{margin:0;max-width:none}}";

/// The field plan with its key: not for who scores blind.
pub(super) fn plan(plan: &Plan<'_>, words: &Words) -> String {
    let head = ["plan-walk", "plan-plot", "plan-block", "plan-treatment"];
    page(
        &plan.title(words),
        words,
        &html! {
            @for line in plan.sentences(words) { p { (line) } }
            (PreEscaped(svg::inline(&plan.map(words), "plan")))
            ul { @for (letter, name) in plan.key() { li { b { (letter) } " " (name) } } }
            table {
                thead { tr { @for id in head { th scope="col" { (words.label(id)) } } } }
                tbody {
                    @for (step, plot) in plan.walked().enumerate() {
                        tr {
                            td { (step + 1) }
                            td { (plot.number) }
                            td { (plot.block + 1) }
                            td { (plan.given(plot)) }
                        }
                    }
                }
            }
        },
    )
}

/// Labels with plot numbers only, in the order of walking.
pub(super) fn labels(plan: &Plan<'_>, words: &Words) -> String {
    let steps: Vec<String> = STEPS_PCT.iter().map(ToString::to_string).collect();
    page(
        &words.label("plan-labels"),
        words,
        &html! {
            p { (words.say("plan-steps", &[("steps", steps.join(", "))])) }
            div class="labels" {
                @for plot in plan.walked() {
                    div class="label" { (plan.name()) b { (plot.number) } }
                }
            }
        },
    )
}

fn page(title: &str, words: &Words, body: &maud::Markup) -> String {
    html! {
        (DOCTYPE)
        html lang=(words.language().code()) {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                title { (title) }
                style { (PreEscaped(svg::STYLE)) (PreEscaped(STYLE)) }
            }
            body { h1 { (title) } (body) }
        }
    }
    .into_string()
}

/// The score sheet in the order of walking: no treatment stands in it.
pub(super) fn scores(plan: &Plan<'_>) -> String {
    let mut lines = vec!["trial,walk,plot,day,rater,leaf_layer,yellow_pct".to_owned()];
    for (step, plot) in plan.walked().enumerate() {
        lines.push(format!("{},{},{},,,old,", cell(plan.name()), step + 1, plot.number));
    }
    lines.join("\r\n") + "\r\n"
}

/// Which plot got what: for the end of the season.
pub(super) fn key(plan: &Plan<'_>) -> String {
    let head = if plan.is_two_factor() { "main,sub" } else { "treatment" };
    let mut lines = vec![format!("plot,block,row,column,{head}")];
    for plot in &plan.layout.plots {
        let given = plan.levels(plot).into_iter().map(cell).collect::<Vec<_>>().join(",");
        lines.push(format!(
            "{},{},{},{},{given}",
            plot.number,
            plot.block + 1,
            plot.row + 1,
            plot.column + 1
        ));
    }
    lines.join("\r\n") + "\r\n"
}

/// A cell that no table program takes for a formula.
fn cell(text: &str) -> String {
    let guarded =
        if text.starts_with(['=', '+', '-', '@', '\t', '\r']) { format!("'{text}") } else { text.to_owned() };
    if guarded.contains([',', '"', '\n', '\r']) {
        format!("\"{}\"", guarded.replace('"', "\"\""))
    } else {
        guarded
    }
}

#[cfg(test)]
mod tests {
    use super::cell;

    #[test]
    fn formulas_stay_text_and_commas_stay_in_their_cell() {
        assert_eq!(cell("=1+1"), "'=1+1");
        assert_eq!(cell("@sum"), "'@sum");
        assert_eq!(cell("chips, \"fine\""), "\"chips, \"\"fine\"\"\"");
        assert_eq!(cell("bare"), "bare");
    }
}
