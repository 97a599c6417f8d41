//! Tables that turn into one small list a row where the screen is narrow.

use maud::{Markup, html};

/// A table; every row has a cell for every head. Empty cells vanish on a narrow screen.
pub(super) fn table(heads: &[String], rows: impl IntoIterator<Item = Vec<Markup>>) -> Markup {
    html! {
        table role="table" {
            (head(heads))
            tbody role="rowgroup" {
                @for cells in rows {
                    tr role="row" { (row(heads, &cells)) }
                }
            }
        }
    }
}

/// The line of heads.
pub(super) fn head(heads: &[String]) -> Markup {
    html! {
        thead role="rowgroup" {
            tr role="row" {
                @for head in heads {
                    th role="columnheader" scope="col" { (head) }
                }
            }
        }
    }
}

/// The cells of one row; the first names it. Each carries its head for narrow screens.
pub(super) fn row(heads: &[String], cells: &[Markup]) -> Markup {
    html! {
        @for (index, (head, cell)) in heads.iter().zip(cells).enumerate() {
            @if index == 0 {
                th role="rowheader" scope="row" { (cell) }
            } @else if cell.0.is_empty() {
                td.empty role="cell" {}
            } @else {
                td role="cell" data-head=(head) { span { (cell) } }
            }
        }
    }
}
