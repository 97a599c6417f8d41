//! Cautions, gravest first, each with who says so and since when.

use maud::{Markup, html};

use super::view::{CautionView, Gravity};

pub(super) fn section(cautions: &[CautionView]) -> Markup {
    let mut gravest_first: Vec<&CautionView> = cautions.iter().collect();
    gravest_first.sort_by_key(|caution| caution.gravity);
    html! {
        ul.cautions {
            @for caution in gravest_first {
                li {
                    span class={ "gravity " (class(caution.gravity)) } { (caution.severity) }
                    p {
                        (caution.text)
                        @if !caution.source.is_empty() { " " cite { (caution.source) } }
                    }
                }
            }
        }
    }
}

const fn class(gravity: Gravity) -> &'static str {
    match gravity {
        Gravity::Refuse => "refuse",
        Gravity::Warn => "warn",
        Gravity::Note => "note",
    }
}
