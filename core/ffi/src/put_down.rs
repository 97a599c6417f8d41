//! Put down: what there is to choose from, the answer before anything is saved, and the saving.

use kerfbook_acts::compare::RUNS;
use kerfbook_acts::consider::{self, Considered, Proposal};
use kerfbook_acts::error::ActError;
use kerfbook_acts::load::Carried;
use kerfbook_acts::put_down::{self, NewPutDown};
use kerfbook_acts::scenario::{Amount, PlaceKind, Way};
use kerfbook_acts::told;
use kerfbook_acts::tree_rows;
use kerfbook_acts::way::Row;
use kerfbook_ledger::Flag;
use kerfbook_ledger::kind::{ContainerKind, PutDown as Kept};
use kerfbook_ledger::{Body, Book, Drive, TreeRun};
use kerfbook_science::units::{AreaMass, Volume};

use crate::entries::{SavedView, saved};
use crate::error::CoreError;
use crate::field_book::{FieldBook, Speech, of_act, of_book};
use crate::load::{
    BatchLine, CautionView, MaterialLine, Measure, batches, container, materials, told_cautions,
};
use crate::places::{PlaceLine, lines};

/// Seed of the runs: the same question gives the same answer.
const SEED: u64 = 1;
/// Entries that are looked through for the last putting-down.
const LOOKED_THROUGH: u32 = 40;

/// A way of putting down.
#[derive(Debug, Clone, Copy, PartialEq, Eq, uniffi::Enum)]
pub enum Manner {
    /// Worked into the soil.
    WorkedIn,
    /// On top.
    OnTop,
    /// On top, over nitrogen.
    OnTopOverNitrogen,
    /// Composted first.
    CompostedFirst,
    /// On a path.
    Path,
    /// A ring under a tree.
    Ring,
}

/// A putting-down as it is described.
#[derive(Debug, Clone, PartialEq, Eq, uniffi::Record)]
pub struct PutDownGiven {
    /// Where.
    pub place: String,
    /// Of which batch.
    pub batch: String,
    /// How much, as typed.
    pub amount: String,
    /// In what that is counted.
    pub measure: Measure,
    /// How; the answer's way where absent.
    pub manner: Option<Manner>,
    /// Along which trees; the whole place where absent.
    pub run: Option<RunGiven>,
}

/// A run of trees as it is typed: "row 12, tree 9 to row 14, tree 3", up one row and down the next.
#[derive(Debug, Clone, PartialEq, Eq, uniffi::Record)]
pub struct RunGiven {
    /// Row of the first tree.
    pub from_row: String,
    /// The first tree.
    pub from_tree: String,
    /// Row of the last tree.
    pub to_row: String,
    /// The last tree.
    pub to_tree: String,
}

/// What there is to choose from.
#[derive(Debug, Clone, PartialEq, Eq, uniffi::Record)]
pub struct PutDownStart {
    /// Open places.
    pub places: Vec<PlaceLine>,
    /// Batches of which something is left.
    pub batches: Vec<BatchLine>,
    /// Materials of a new load.
    pub materials: Vec<MaterialLine>,
    /// The last one, to be done again.
    pub last: Option<PutDownGiven>,
    /// Where the next load goes, along as many trees as the last one; none after the last tree.
    pub onward: Option<RunGiven>,
    /// Why no load goes on where the last one ended; empty where one does.
    pub at_end: String,
    /// There is a trailer to count in.
    pub trailer: bool,
}

/// One way beside the others.
#[derive(Debug, Clone, PartialEq, Eq, uniffi::Record)]
pub struct WayLine {
    /// Which.
    pub manner: Manner,
    /// Its name.
    pub name: String,
    /// What it costs the crop, with the range; empty where nothing grows.
    pub cost: String,
    /// The answer's own way.
    pub advised: bool,
    /// Not allowed here, or not to be done by today.
    pub barred: bool,
}

/// An amount as it could be typed.
#[derive(Debug, Clone, PartialEq, Eq, uniffi::Record)]
pub struct Enough {
    /// How much.
    pub amount: String,
    /// In what that is counted.
    pub measure: Measure,
}

/// The answer.
#[derive(Debug, Clone, PartialEq, Eq, uniffi::Record)]
pub struct AnswerView {
    /// What to do, with how much in the reader's container.
    pub instruction: String,
    /// How much this place takes at most, where that is less than was asked about.
    pub enough: Option<Enough>,
    /// What to keep clear of, where anything.
    pub keep_off: Option<String>,
    /// What to give.
    pub give: String,
    /// When to look.
    pub look: String,
    /// What not to do.
    pub avoid: String,
    /// What it costs, with its range.
    pub cost: String,
    /// The biggest unknown.
    pub least_known: String,
    /// The question that would narrow it most.
    pub narrow: String,
    /// Hunger, release, what waiting would bring, what decides.
    pub more: Vec<String>,
    /// What this answer leaves out; empty where it leaves out nothing.
    pub left_out: String,
    /// The way it advises.
    pub manner: Manner,
    /// The ways beside each other, best first.
    pub ways: Vec<WayLine>,
    /// What to mind.
    pub cautions: Vec<CautionView>,
}

#[uniffi::export]
impl FieldBook {
    /// What there is to choose from.
    ///
    /// # Errors
    /// A book that cannot be read.
    pub fn start_put_down(&self) -> Result<PutDownStart, CoreError> {
        let speech = self.speech();
        let book = self.book();
        let last = last(&book, &speech)?;
        let onward = onward(&book, last.as_ref(), &speech)?;
        Ok(PutDownStart {
            places: lines(&book, &speech)?.into_iter().filter(|place| !place.closed).collect(),
            batches: batches(&book, &speech)?,
            materials: materials(&speech),
            at_end: if onward.is_none() && last.as_ref().is_some_and(|last| last.run.is_some()) {
                speech.words.label("phone-run-at-end")
            } else {
                String::new()
            },
            onward,
            last,
            trailer: speech.containers.trailer.is_some(),
        })
    }

    /// The answer, before anything is saved.
    ///
    /// # Errors
    /// A field that does not read, named; what the model refuses.
    pub fn consider(&self, given: PutDownGiven) -> Result<AnswerView, CoreError> {
        let (speech, today) = (self.speech(), self.now()?.date()?);
        let asked = proposal(&given, &speech)?;
        let book = self.book();
        let considered = consider::consider(&book, &asked, &speech.containers, today, RUNS, SEED);
        let considered = considered.map_err(|error| refused(&error, &speech))?;
        let advised = considered.comparison.answer.row;
        let way = given.manner.map_or_else(|| way_of(manner_of(advised)), way_of);
        let new =
            NewPutDown { place: asked.place, batch: asked.batch, way, amount: asked.amount, over: None };
        let cautions = put_down::cautions(&book, &new, asked.run.as_ref(), &speech.containers, today);
        let cautions = of_act(cautions, "amount", &speech)?;
        Ok(answer(&considered, told_cautions(&cautions, &speech), &speech))
    }

    /// Saves a putting-down. It is in the book when this returns.
    ///
    /// # Errors
    /// A field that does not read, named; a book that cannot be written.
    pub fn put_down(&self, given: PutDownGiven) -> Result<SavedView, CoreError> {
        let (speech, moment) = (self.speech(), self.moment()?);
        let asked = proposal(&given, &speech)?;
        let manner = given.manner.ok_or_else(|| speech.typed().wrong("manner", "phone-choose"))?;
        let new = NewPutDown {
            place: asked.place,
            batch: asked.batch,
            way: way_of(manner),
            amount: asked.amount,
            over: None,
        };
        let mut book = self.book();
        let written = put_down::on_trees(&mut book, &new, asked.run.as_ref(), &speech.containers, moment);
        saved(&book, written.map_err(|error| refused(&error, &speech))?, &speech)
    }
}

fn proposal(given: &PutDownGiven, speech: &Speech) -> Result<Proposal, CoreError> {
    let typed = speech.typed();
    let place = typed.entry("place", &given.place)?;
    let batch = typed.entry("batch", &given.batch)?;
    let amount = match given.measure {
        Measure::Mass => Amount::Wet(typed.mass("amount", &given.amount)?),
        Measure::Depth => Amount::Depth(typed.depth("amount", &given.amount)?),
        Measure::Barrows | Measure::Buckets | Measure::Trailers => {
            let one = container(given.measure, speech)?;
            Amount::Loose(Volume::from_litres(one.litres() * typed.needed("amount", &given.amount)?))
        }
    };
    let run = given.run.as_ref().map(|run| run_of(run, speech)).transpose()?;
    Ok(Proposal { place, batch, amount, run })
}

fn run_of(run: &RunGiven, speech: &Speech) -> Result<TreeRun, CoreError> {
    let typed = speech.typed();
    Ok(TreeRun {
        from_row: typed.count("from_row", &run.from_row)?,
        from_tree: typed.count("from_tree", &run.from_tree)?,
        to_row: typed.count("to_row", &run.to_row)?,
        to_tree: typed.count("to_tree", &run.to_tree)?,
        drive: Drive::Serpentine,
    })
}

fn run_given(run: &TreeRun) -> RunGiven {
    RunGiven {
        from_row: run.from_row.to_string(),
        from_tree: run.from_tree.to_string(),
        to_row: run.to_row.to_string(),
        to_tree: run.to_tree.to_string(),
    }
}

/// Why it cannot be put down so, beside the field that it is about.
fn refused(error: &ActError, speech: &Speech) -> CoreError {
    let field = if matches!(error, ActError::Trees(_)) { "to_tree" } else { "amount" };
    CoreError::of_act(error, field, &speech.words)
}

/// Where the load after the last one goes.
fn onward(book: &Book, last: Option<&PutDownGiven>, speech: &Speech) -> Result<Option<RunGiven>, CoreError> {
    let Some((last, run)) = last.and_then(|last| Some((last, last.run.as_ref()?))) else { return Ok(None) };
    let id = speech.typed().entry("place", &last.place)?;
    let Some(place) = of_book(book.place(id), speech)? else { return Ok(None) };
    // A place may have been measured anew since.
    let onward = tree_rows::onward(&place, &run_of(run, speech)?).unwrap_or_default();
    Ok(onward.as_ref().map(run_given))
}

fn answer(considered: &Considered, cautions: Vec<CautionView>, speech: &Speech) -> AnswerView {
    let words = &speech.words;
    let comparison = &considered.comparison;
    let told = told::tell(comparison, &considered.scenario, words);
    let mut more = told.more;
    more.extend(told.wait);
    more.extend(told.hangs_on);
    let advised = comparison.answer.row;
    let mut ways: Vec<WayLine> = comparison
        .season
        .iter()
        .filter(|way| way.row != Row::Bare)
        .map(|way| WayLine {
            manner: manner_of(way.row),
            name: words.way(match way.row {
                Row::OverCompost => "over-compost",
                Row::OverUrine => "over-urine",
                other => other.way(),
            }),
            cost: way.lost.map_or_else(String::new, |lost| {
                let number = |kg_ha: Option<f64>| {
                    words.nitrogen_number(AreaMass::from_kg_ha(kg_ha.unwrap_or(lost.middle())))
                };
                words.around(
                    words.nitrogen(AreaMass::from_kg_ha(lost.middle())),
                    &number(lost.p10),
                    &number(lost.p90),
                )
            }),
            advised: way.row == advised,
            barred: !way.allowed || !way.doable,
        })
        .collect();
    // These are not ranked: a person may still choose them.
    let potted = considered.scenario.place.kind == PlaceKind::Container;
    for row in [Row::Path, Row::Ring].into_iter().filter(|_| !potted) {
        if comparison.season.iter().all(|way| way.row != row) {
            ways.push(WayLine {
                manner: manner_of(row),
                name: words.way(row.way()),
                cost: String::new(),
                advised: false,
                barred: false,
            });
        }
    }
    AnswerView {
        instruction: words.say("answer-do-amount", &[("do", told.instruction), ("amount", told.amount)]),
        enough: enough(considered),
        keep_off: told.keep_off,
        give: told.give,
        look: told.look,
        avoid: told.not,
        cost: told.cost,
        least_known: told.least_known,
        narrow: told.narrow,
        more,
        left_out: if considered.past_left_out { words.label("phone-past-left-out") } else { String::new() },
        manner: manner_of(advised),
        ways,
        cautions,
    }
}

/// The answer's amount as it could be typed, where it is less than was asked about.
fn enough(considered: &Considered) -> Option<Enough> {
    let amount = considered.comparison.answer.amount;
    if !amount.less_than_load {
        return None;
    }
    let (carried, count) = amount.counted.told_in();
    // To halves, and never more than the place takes.
    let halves = (count * 2.0).floor() / 2.0;
    (halves > 0.0).then(|| Enough {
        amount: halves.to_string(),
        measure: match carried {
            Carried::Barrows => Measure::Barrows,
            Carried::Buckets => Measure::Buckets,
            Carried::Trailers => Measure::Trailers,
        },
    })
}

/// The last putting-down that counts, as it could be given again.
fn last(book: &Book, speech: &Speech) -> Result<Option<PutDownGiven>, CoreError> {
    let recent = of_book(book.latest(None, LOOKED_THROUGH), speech)?;
    let stands = recent.iter().find_map(|line| match (&line.current.body, line.current.subject) {
        (Body::PutDown(put), Some(place)) if !line.current.flags.contains(&Flag::Withdrawn) => {
            Some((put, place))
        }
        _ => None,
    });
    let Some((put, place)) = stands else { return Ok(None) };
    let (amount, measure) = counted(put);
    Ok(Some(PutDownGiven {
        place: place.to_string(),
        batch: put.batch.to_string(),
        amount,
        measure,
        manner: Some(manner_of_way(put_down::way_of(put.way))),
        run: put.trees.as_ref().map(run_given),
    }))
}

/// Its amount as it was counted; in barrows' worth of mass where it was not.
fn counted(put: &Kept) -> (String, Measure) {
    let count = put.containers.unwrap_or(1).to_string();
    match put.container {
        Some(ContainerKind::Barrow) => (count, Measure::Barrows),
        Some(ContainerKind::Bucket) => (count, Measure::Buckets),
        Some(ContainerKind::Trailer) => (count, Measure::Trailers),
        Some(ContainerKind::Bag) | None => (String::new(), Measure::Barrows),
    }
}

const fn manner_of(row: Row) -> Manner {
    match row {
        Row::WorkedIn => Manner::WorkedIn,
        Row::Bare | Row::OnTop => Manner::OnTop,
        Row::OverCompost | Row::OverUrine => Manner::OnTopOverNitrogen,
        Row::CompostedFirst => Manner::CompostedFirst,
        Row::Path => Manner::Path,
        Row::Ring => Manner::Ring,
    }
}

const fn way_of(manner: Manner) -> Way {
    match manner {
        Manner::WorkedIn => Way::WorkedIn,
        Manner::OnTop => Way::OnTop,
        Manner::OnTopOverNitrogen => Way::OnTopOverNitrogen,
        Manner::CompostedFirst => Way::CompostedFirst,
        Manner::Path => Way::Path,
        Manner::Ring => Way::Ring,
    }
}

const fn manner_of_way(way: Way) -> Manner {
    match way {
        Way::WorkedIn => Manner::WorkedIn,
        Way::OnTop => Manner::OnTop,
        Way::OnTopOverNitrogen => Manner::OnTopOverNitrogen,
        Way::CompostedFirst => Manner::CompostedFirst,
        Way::Path => Manner::Path,
        Way::Ring => Manner::Ring,
    }
}
