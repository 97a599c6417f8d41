//! An orchard by the load: where each load ends, how deep it lies, how the spreader goes.

use kerfbook_acts::orchard::{ByLoad, MOST_TOLD, Run};
use kerfbook_acts::scenario::{Orchard, Tree};
use kerfbook_words::Words;
use serde_json::{Value, json};

use crate::compare::new_table;

/// For programs.
pub(super) fn document(by_load: &ByLoad, orchard: &Orchard) -> Value {
    json!({
        "load_m3": by_load.load.m3(),
        "ground_m2": by_load.ground.m2(),
        "tree_l": by_load.tree.litres(),
        "trees_per_load": by_load.trees_per_load,
        "depth_wanted_mm": orchard.depth.mm(),
        "depth_mm": by_load.depth.mm(),
        "loads": by_load.loads,
        "runs": by_load.runs.iter().map(run_document).collect::<Vec<_>>(),
        "next": by_load.next.map(name),
        "left_trees": by_load.left_trees,
        "spreader": by_load.spreading.map(|spreading| json!({
            "passes": spreading.passes,
            "depth_mm": spreading.depth.mm(),
            "reach_m": spreading.reach.m(),
        })),
    })
}

fn run_document(run: &Run) -> Value {
    json!({
        "from": name(run.from),
        "to": name(run.to),
        "trees": run.trees,
        "rows": run.rows.iter().map(|row| json!({
            "row": row.row, "first": row.first, "last": row.last, "trees": row.trees,
        })).collect::<Vec<_>>(),
    })
}

/// As files name a tree.
fn name(tree: Tree) -> String {
    format!("{}/{}", tree.row, tree.tree)
}

/// For people.
pub(super) fn text(by_load: &ByLoad, orchard: &Orchard, words: &Words) -> String {
    let tree = |tree: Tree| {
        words.say("dose-tree", &[("row", tree.row.to_string()), ("tree", tree.tree.to_string())])
    };
    let count = |count: u64| words.number(whole(count), 0);
    let mut said = vec![words.say(
        "dose-load-enough",
        &[
            ("load", words.volume(by_load.load)),
            ("trees", words.trees(by_load.trees_per_load)),
            ("depth", words.depth(orchard.depth)),
            ("ground", words.area(by_load.ground)),
        ],
    )];
    if let Some(first) = by_load.runs.first().filter(|_| orchard.to.is_some()) {
        let depth = words.depth(by_load.depth);
        said.push(words.say("dose-load-lies", &[("trees", words.trees(first.trees)), ("depth", depth)]));
    }
    match by_load.next {
        Some(next) => said.push(words.say("dose-load-next", &[("tree", tree(next))])),
        None if by_load.left_trees > 0 => {
            said.push(words.say("dose-load-left", &[("trees", words.trees(by_load.left_trees))]));
        }
        None => said.push(words.label("dose-load-block-done")),
    }
    if let Some(spreading) = by_load.spreading {
        said.push(words.say(
            "dose-spreader",
            &[
                ("passes", count(spreading.passes)),
                ("depth", words.depth(spreading.depth)),
                ("reach", words.length(spreading.reach)),
            ],
        ));
    }
    let heads = ["dose-run", "dose-run-from", "dose-run-to", "dose-run-trees"];
    let mut table = new_table(heads.iter().map(|id| words.label(id)).collect());
    for (number, run) in (1_u64..).zip(&by_load.runs) {
        table.add_row(vec![count(number), tree(run.from), tree(run.to), count(run.trees)]);
    }
    let mut text = format!("{}\n{}\n{table}", words.label("dose-by-load"), said.join(" "));
    if by_load.runs.len() == MOST_TOLD {
        text.push('\n');
        text.push_str(&words.say("dose-runs-more", &[("count", count(MOST_TOLD as u64))]));
    }
    text
}

#[expect(clippy::cast_precision_loss, reason = "trees and loads are few")]
const fn whole(count: u64) -> f64 {
    count as f64
}
