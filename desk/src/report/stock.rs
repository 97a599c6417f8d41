//! What is left of every batch.

use kerfbook_words::Words;
use maud::{Markup, html};

use super::table;
use super::view::StockRow;

pub(super) fn section(rows: &[StockRow], words: &Words) -> Markup {
    let heads = ["stock-batch", "stock-material", "stock-came", "stock-went", "stock-left", "stock-notes"];
    let cells = rows.iter().map(|row| {
        [&row.batch, &row.material, &row.came, &row.went, &row.left, &row.notes]
            .map(|text| html! { (text) })
            .to_vec()
    });
    table::table(&heads.map(|id| words.label(id)), cells)
}
