//! A finished trial as a page: what may be said, every plot, where the residuals lie.

use kerfbook_acts::trial::sentences;
use kerfbook_picture::{Screen, svg};
use kerfbook_science::trial::verdict::Verdict;
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
                &described.dots(verdict, group, words).draw(Screen::Desk, &number),
                &format!("dots-{at}"),
            )
        })
        .collect();
    let map = svg::inline(&described.residuals(verdict, words).draw(Screen::Desk), "residuals");
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
