//! What an act refuses, in sentences not yet said: what is wrong, and what to do about it.

use kerfbook_science::geometry::run::{RunError, Tree};
use kerfbook_science::trial::layout::{LayoutError, MOST_PLOTS};
use kerfbook_words::Message;

use crate::error::{ActError, Unfit};
use crate::trial_fault::TrialFault;

/// What an act refused, and what to do about it.
pub fn told(error: &ActError) -> (Message, Option<Message>) {
    let near = |names: &[String]| {
        (!names.is_empty()).then(|| Message::new("act-near").text("names", names.join(", ")))
    };
    match error {
        ActError::UnknownMaterial { material, nearest } => {
            (Message::new("act-unknown-material").text("name", material), near(nearest))
        }
        ActError::Refused { material, .. } => (Message::new("act-refused").text("name", material), None),
        ActError::NotResidue { material } => (
            Message::new("act-not-residue").text("name", material),
            Some(Message::new("act-not-residue-remedy")),
        ),
        ActError::NothingThere { material } => (
            Message::new("act-nothing-there").text("name", material),
            Some(Message::new("act-nothing-there-remedy")),
        ),
        ActError::UnknownFeed { feed, nearest } => {
            (Message::new("act-unknown-feed").text("name", feed), near(nearest))
        }
        ActError::UnknownRules { rules, nearest } => (
            Message::new("act-unknown-rules").text("name", rules),
            Some(Message::new("act-unknown-rules-remedy").text("names", nearest.join(", "))),
        ),
        ActError::WrongMeasure { feed } => (
            Message::new("act-wrong-measure").text("name", feed),
            Some(Message::new("act-wrong-measure-remedy")),
        ),
        ActError::NoLoad => (Message::new("act-no-load"), Some(Message::new("act-no-load-remedy"))),
        ActError::NotOverYears => (Message::new("act-not-over-years"), None),
        ActError::Missing { key, why } => (
            Message::new("act-missing").text("key", key),
            Some(Message::new("act-missing-remedy").text("why", why)),
        ),
        ActError::ReadingOutside { key } => (Message::new("act-reading-outside").text("key", key), None),
        ActError::Figure { key, value, low, high } => {
            let between = Message::new("act-figure-between").text("low", low).text("high", high);
            (Message::new("act-figure").text("key", key).text("value", value), Some(between))
        }
        ActError::NothingMeasured => (Message::new("act-nothing-measured"), None),
        ActError::Before { what, first } => (
            Message::new("act-before").message("what", Message::new(thing(what))).text("date", first),
            Some(Message::new("act-before-remedy").message("what", Message::new(thing(what)))),
        ),
        ActError::MoreThanLies { lies } => {
            let percent = (lies.percent() * 10.0).round() / 10.0;
            (Message::new("act-more-than-lies").text("percent", percent), None)
        }
        ActError::NothingGrows => {
            (Message::new("act-nothing-grows"), Some(Message::new("act-nothing-grows-remedy")))
        }
        ActError::ClosedAlready { what } => {
            (Message::new("act-closed-already").message("what", Message::new(thing(what))), None)
        }
        ActError::NothingLeft => {
            (Message::new("act-nothing-left"), Some(Message::new("act-nothing-left-remedy")))
        }
        ActError::ReadTwice { zone } => (
            if zone.is_empty() {
                Message::new("act-read-twice-whole")
            } else {
                Message::new("act-read-twice").text("zone", zone)
            },
            Some(Message::new("act-read-twice-remedy")),
        ),
        ActError::NoPile => (Message::new("act-no-pile"), None),
        ActError::UnknownHeatRule { rule, nearest } => (
            Message::new("heat-unknown-rule").text("name", rule),
            Some(Message::new("heat-known-rules").text("names", nearest.join(", "))),
        ),
        ActError::MoreThanWentIn { dry } => {
            let kg = (dry.kg() * 10.0).round() / 10.0;
            (
                Message::new("act-more-than-went-in").text("kg", kg),
                Some(Message::new("act-more-than-went-in-remedy")),
            )
        }
        ActError::NoBlend => (Message::new("act-no-blend"), None),
        ActError::NoChange(why) => {
            (Message::new("act-no-change").message("why", Message::new(unfit(*why))), None)
        }
        ActError::Weather(why) => (Message::new("act-weather").text("why", why), None),
        ActError::NotThere { what } => {
            (Message::new("act-not-there").message("what", Message::new(thing(what))), None)
        }
        ActError::Soil(why) => (Message::new("act-soil").text("why", why), None),
        ActError::TooManyOrigins | ActError::Ledger(_) | ActError::Field(_) => {
            (Message::new("act-book").text("why", error), None)
        }
        ActError::Trees(why) => (trees(*why), None),
        ActError::Trial(why) => trial(why),
        ActError::Model(why) => (Message::new("act-model").text("why", why), None),
    }
}

/// Why rows of trees, or a run along them, cannot be.
fn trees(why: RunError) -> Message {
    let tree = |tree: Tree| format!("{}/{}", tree.row, tree.tree);
    match why {
        RunError::Rows { count } => Message::new("act-tree-rows").text("count", count),
        RunError::NoTree(at) => Message::new("act-no-tree").text("tree", tree(at)),
        RunError::Backwards { from, to } => {
            Message::new("act-trees-backwards").text("from", tree(from)).text("to", tree(to))
        }
        RunError::NoTrees => Message::new("act-no-trees"),
    }
}

/// Why a trial, plot or score cannot be, and what to do about it.
fn trial(why: &TrialFault) -> (Message, Option<Message>) {
    let remedy = |id: &'static str| Some(Message::new(id));
    match why {
        TrialFault::Layout(LayoutError::OneTreatment) => (Message::new("plan-one-treatment"), None),
        TrialFault::Layout(LayoutError::NoPlot) => (Message::new("plan-no-plot"), None),
        TrialFault::Layout(LayoutError::TooMany) => {
            (Message::new("plan-too-many").text("most", MOST_PLOTS), None)
        }
        TrialFault::NameTwice { name } => (Message::new("plan-name-twice").text("name", name), None),
        TrialFault::Names { names, levels } => {
            (Message::new("act-trial-names").text("names", names).text("levels", levels), None)
        }
        TrialFault::Comparison { what } => {
            (Message::new("act-trial-comparison").text("what", what), remedy("act-trial-comparison-remedy"))
        }
        TrialFault::Seed { seed } => (Message::new("act-trial-seed").text("seed", seed), None),
        TrialFault::NoPlot { plot, first, last } => (
            Message::new("act-no-plot").text("plot", plot),
            Some(Message::new("act-no-plot-remedy").text("first", first).text("last", last)),
        ),
        TrialFault::Lost { plot, on } => (
            Message::new("act-plot-lost").text("plot", plot).text("date", on),
            remedy("act-plot-lost-remedy"),
        ),
        TrialFault::Twice { plot } => {
            (Message::new("act-scored-twice").text("plot", plot), remedy("act-scored-twice-remedy"))
        }
        TrialFault::NothingToRepeat { plot } => {
            (Message::new("act-nothing-to-repeat").text("plot", plot), None)
        }
        TrialFault::Open => (Message::new("act-trial-open"), remedy("act-trial-open-remedy")),
        TrialFault::Nothing => (Message::new("act-trial-nothing"), None),
        TrialFault::Structure(why) => (Message::new("act-trial-structure").text("why", why), None),
    }
}

/// What an act did not find, by the text that names it.
fn thing(what: &str) -> &'static str {
    match what {
        "place" => "act-thing-place",
        "batch" => "act-thing-batch",
        "layer" => "act-thing-layer",
        "crop" => "act-thing-crop",
        "pile" => "act-thing-pile",
        "trial" => "act-thing-trial",
        "last score" => "act-thing-last-score",
        "task" => "act-thing-task",
        "person" => "act-thing-person",
        "holding" => "act-thing-holding",
        "reference plot" => "act-thing-reference-plot",
        _ => "act-thing-entry",
    }
}

/// Why an entry does not take a change.
const fn unfit(why: Unfit) -> &'static str {
    match why {
        Unfit::NoPlace => "act-unfit-no-place",
        Unfit::HereAlready => "act-unfit-here-already",
        Unfit::SameEntry => "act-unfit-same-entry",
        Unfit::NoLoad => "act-unfit-no-load",
        Unfit::OtherQuantity => "act-unfit-other-quantity",
        Unfit::SameUnit => "act-unfit-same-unit",
        Unfit::Unreadable => "act-unfit-unreadable",
        Unfit::NoSuchAmount => "act-unfit-no-such-amount",
        Unfit::NotOut => "act-unfit-not-out",
        Unfit::NotAtOdds => "act-unfit-not-at-odds",
    }
}
