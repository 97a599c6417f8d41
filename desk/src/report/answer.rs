//! The answer: what to do, what to give, when to look, what not to do; then what it costs.

use kerfbook_words::Words;
use maud::{Markup, html};

use super::view::AnswerView;

pub(super) fn section(answer: &AnswerView, words: &Words) -> Markup {
    html! {
        section.answer id="answer" aria-label=(words.label("report-answer")) {
            p.asked { (answer.asked) }
            p.instruct {
                (unbroken(&answer.instruct))
                @if let Some(gap) = &answer.keep_off { " " span.gap { (unbroken(gap)) } }
            }
            ul.then {
                @for sentence in [&answer.give, &answer.look, &answer.not] {
                    @if !sentence.is_empty() { li { (unbroken(sentence)) } }
                }
            }
            p.cost {
                (unbroken(&answer.cost)) " "
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

/// Keeps a number and its unit, and the parts of a unit, on one line: large type breaks often.
fn unbroken(text: &str) -> String {
    let mut kept = String::with_capacity(text.len() + 8);
    let mut letters = text.chars().peekable();
    let mut last = ' ';
    while let Some(letter) = letters.next() {
        let next_is_unit = letters.peek().is_some_and(|next| next.is_alphabetic() || *next == '%');
        let before_nitrogen = letters.clone().take(2).eq("N/".chars());
        let tied = letter == ' ' && ((last.is_ascii_digit() && next_is_unit) || before_nitrogen);
        kept.push(if tied { '\u{a0}' } else { letter });
        last = letter;
    }
    kept
}

#[cfg(test)]
mod tests {
    use super::unbroken;

    #[test]
    fn a_number_stays_with_its_unit() {
        assert_eq!(
            unbroken("Costs 8 kg N/ha, on 3 June, 12 %"),
            "Costs 8\u{a0}kg\u{a0}N/ha, on 3\u{a0}June, 12\u{a0}%"
        );
    }
}
