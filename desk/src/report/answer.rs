//! The answer: what to do, what to give, when to look, what not to do; then what it costs.

use kerfbook_words::Words;
use maud::{Markup, html};

use super::view::AnswerView;

pub(super) fn section(answer: &AnswerView, words: &Words) -> Markup {
    html! {
        section.answer id="answer" aria-label=(words.label("report-answer")) {
            p.asked { (answer.asked) }
            p.instruct {
                (answer.instruct)
                @if let Some(gap) = &answer.keep_off { " " span.gap { (gap) } }
            }
            ul.then {
                @for sentence in [&answer.give, &answer.look, &answer.not] {
                    @if !sentence.is_empty() { li { (sentence) } }
                }
            }
            p.cost {
                (answer.cost) " "
                span.unknown { (answer.least_known) }
            }
            @if let Some(narrow) = &answer.narrow { p.narrow { (narrow) } }
            @if !answer.more.is_empty() {
                ul.more {
                    @for sentence in &answer.more { li { (sentence) } }
                }
            }
            @if let Some(wait) = &answer.wait { p.aside { (wait) } }
            @if let Some(assumption) = &answer.hangs_on { p.aside { (assumption) } }
        }
    }
}
