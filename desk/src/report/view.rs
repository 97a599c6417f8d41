//! What the report shows, already told: sentences in the reader's language, figures in the reader's units.

use kerfbook_acts::told_map::ToldMap;
use kerfbook_picture::{BandChart, DotsChart, FieldMap, HeatChart, Range};

/// The whole report.
#[derive(Debug, Clone)]
pub(crate) struct ReportView {
    /// Name of the holding.
    pub(crate) holding: String,
    /// The day of the report.
    pub(crate) date: String,
    /// Plain sentences under the title: that a demo is invented, the seed, the runs.
    pub(crate) about: Vec<String>,
    /// The decision at hand.
    pub(crate) answer: Option<AnswerView>,
    /// Places to scale; `None` where no place has a shape.
    pub(crate) map: Option<ToldMap>,
    /// Every place with its bands, in the order of the holding.
    pub(crate) places: Vec<PlaceView>,
    /// The ways of using the load side by side.
    pub(crate) ways: Option<WaysView>,
    /// What was taken for granted.
    pub(crate) assumed: Vec<AssumedView>,
    /// Cautions, in any order; the report puts the gravest first.
    pub(crate) cautions: Vec<CautionView>,
    /// What needs doing; `None` where that is not asked.
    pub(crate) todo: Option<Vec<TodoRow>>,
    /// Every pile with its heat.
    pub(crate) piles: Vec<PileView>,
    /// Every trial with what it shows.
    pub(crate) trials: Vec<TrialView>,
    /// What is left of every batch.
    pub(crate) stock: Vec<StockRow>,
    /// One page per place and year for whoever checks the records.
    pub(crate) records: Vec<RecordView>,
    /// The entries and the state of their chains.
    pub(crate) book: BookView,
    /// Where the figures come from.
    pub(crate) sources: Vec<SourceView>,
}

/// A pile.
#[derive(Debug, Clone)]
pub(crate) struct PileView {
    /// What it is called.
    pub(crate) name: String,
    /// Short phrases about it.
    pub(crate) facts: Vec<String>,
    /// Its heat, where it was read.
    pub(crate) chart: Option<HeatChart>,
    /// What its rule says of it, and what is next.
    pub(crate) said: Vec<String>,
}

/// A trial.
#[derive(Debug, Clone)]
pub(crate) struct TrialView {
    /// What it is called.
    pub(crate) name: String,
    /// Short phrases about it.
    pub(crate) facts: Vec<String>,
    /// What is to be known of it, such as that it is still open.
    pub(crate) said: Vec<String>,
    /// One a thing that was read; none while it is open.
    pub(crate) results: Vec<ResultView>,
}

/// What a trial shows of one thing that was read on its plots.
#[derive(Debug, Clone)]
pub(crate) struct ResultView {
    /// What was read.
    pub(crate) measured: String,
    /// What may be said.
    pub(crate) said: Vec<String>,
    /// How the plots were scored.
    pub(crate) notes: Vec<String>,
    /// Every plot, by each factor.
    pub(crate) dots: Vec<DotsChart>,
    /// What the fit leaves, plot by plot.
    pub(crate) residuals: FieldMap,
}

/// The answer: one instruction, one amount, one thing to give, one date, one thing not to do, and its cost.
#[derive(Debug, Clone, Default)]
pub(crate) struct AnswerView {
    /// What was asked: the place, the load, the crop.
    pub(crate) asked: String,
    /// The instruction with its amount.
    pub(crate) instruct: String,
    /// How far to keep it off stems, where that matters.
    pub(crate) keep_off: Option<String>,
    /// What to give, or nothing.
    pub(crate) give: String,
    /// When to look, and at what.
    pub(crate) look: String,
    /// What not to do.
    pub(crate) not: String,
    /// What it costs the crop, with its range.
    pub(crate) cost: String,
    /// The biggest unknown.
    pub(crate) least_known: String,
    /// The one question that would narrow it most.
    pub(crate) narrow: Option<String>,
    /// A better way for whoever has time.
    pub(crate) wait: Option<String>,
    /// Hunger beside the bare place's, tie-up, release, the most this place takes; one sentence each.
    pub(crate) more: Vec<String>,
    /// An assumption that decides the order of the ways.
    pub(crate) hangs_on: Option<String>,
}

/// A place and what is expected of it.
#[derive(Debug, Clone)]
pub(crate) struct PlaceView {
    /// Its name.
    pub(crate) name: String,
    /// Kind, area, soil, crop: short phrases.
    pub(crate) facts: Vec<String>,
    /// Tie-up over the season, then mineral nitrogen; in the reader's unit.
    pub(crate) bands: Vec<BandChart>,
    /// What the pictures say, in sentences.
    pub(crate) said: Vec<String>,
    /// Carbon over years, where anything was put down.
    pub(crate) over_years: Option<OverYears>,
}

/// Carbon of the same again and again, as a picture and in sentences.
#[derive(Debug, Clone)]
pub(crate) struct OverYears {
    /// Carbon more, year by year.
    pub(crate) chart: BandChart,
    /// What it says and does not promise.
    pub(crate) said: Vec<String>,
}

/// The ways of using the load.
#[derive(Debug, Clone)]
pub(crate) struct WaysView {
    /// The unit of every [`Range`] here, such as "kg N/ha".
    pub(crate) unit: String,
    /// This season: nothing put down first, then best first; path and ring last.
    pub(crate) season: Vec<WayRow>,
    /// This season and the next, in the same order of rules; empty where not asked.
    pub(crate) both: Vec<WayRow>,
    /// The same wood with the same added nitrogen, where computed.
    pub(crate) equal: Option<EqualView>,
    /// What else must be said of the order.
    pub(crate) said: Vec<String>,
}

/// One way in a table.
#[derive(Debug, Clone, Default)]
pub(crate) struct WayRow {
    /// Its name.
    pub(crate) way: String,
    /// Nothing put down.
    pub(crate) bare: bool,
    /// The answer's way.
    pub(crate) chosen: bool,
    /// Nitrogen the crop gets; `None` for path and ring.
    pub(crate) crop_nitrogen: Option<Range>,
    /// Nitrogen the crop loses against nothing put down, paired run by run.
    pub(crate) lost: Option<Range>,
    /// Tied up after 60 days.
    pub(crate) tied: Option<Range>,
    /// First hungry day, told with its range; empty where there is none to tell.
    pub(crate) hungry: String,
    /// Share of the runs that go hungry, told.
    pub(crate) chance: String,
    /// Release date, told.
    pub(crate) release: String,
    /// Nitrogen to give for the crop anyway, told.
    pub(crate) feed_crop: String,
    /// Nitrogen to give because of the wood, told.
    pub(crate) feed_wood: String,
    /// Nitrogen that the way itself brings, told; empty where none.
    pub(crate) brings: String,
    /// Washed out, told.
    pub(crate) leached: String,
    /// Why it cannot be done by its date, or is not allowed; empty where it can.
    pub(crate) hindered: String,
}

/// The ways at the same added nitrogen.
#[derive(Debug, Clone)]
pub(crate) struct EqualView {
    /// The nitrogen they all carry, told.
    pub(crate) nitrogen: String,
    /// Way and the nitrogen the crop gets, best first.
    pub(crate) rows: Vec<(String, Range)>,
    /// Composted first leads here as well.
    pub(crate) composted_leads: bool,
}

/// One thing taken for granted.
#[derive(Debug, Clone, Default)]
pub(crate) struct AssumedView {
    /// Key of the scenario file.
    pub(crate) key: String,
    /// Value with its unit.
    pub(crate) value: String,
    /// What it belongs to: the place, or a way; empty for the whole scenario.
    pub(crate) of: String,
    /// Who says so, or that it is common practice.
    pub(crate) source: String,
}

/// How grave a caution is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Gravity {
    /// Not to be done.
    Refuse,
    /// Can harm.
    Warn,
    /// Good to know.
    Note,
}

/// A caution.
#[derive(Debug, Clone)]
pub(crate) struct CautionView {
    /// How grave.
    pub(crate) gravity: Gravity,
    /// The name of its gravity in the reader's language.
    pub(crate) severity: String,
    /// What can go wrong, the figure, what to do.
    pub(crate) text: String,
    /// Body and year.
    pub(crate) source: String,
}

/// One place in one year, for whoever checks the records.
#[derive(Debug, Clone, Default)]
pub(crate) struct RecordView {
    /// The place.
    pub(crate) place: String,
    /// The year.
    pub(crate) year: i32,
    /// Kind, area, how measured: short phrases.
    pub(crate) facts: Vec<String>,
    /// What was put down.
    pub(crate) put_down: Vec<PutDownRow>,
    /// What was given.
    pub(crate) feeds: Vec<FeedRow>,
    /// What grew.
    pub(crate) crops: Vec<CropRow>,
    /// Days to harvest that something put down or given brings with it.
    pub(crate) waits: Vec<WaitRow>,
    /// Work, water, measurements.
    pub(crate) others: Vec<OtherRow>,
    /// Corrections, flags and notes on the above, one sentence each.
    pub(crate) notes: Vec<String>,
}

/// A putting down.
#[derive(Debug, Clone, Default)]
pub(crate) struct PutDownRow {
    /// When.
    pub(crate) date: String,
    /// What, and where from.
    pub(crate) what: String,
    /// In which way.
    pub(crate) way: String,
    /// How much: mass, containers, depth.
    pub(crate) amount: String,
    /// By whom.
    pub(crate) by: String,
    /// Name of the entry, such as "1-12".
    pub(crate) entry: String,
}

/// A feed.
#[derive(Debug, Clone, Default)]
pub(crate) struct FeedRow {
    /// When.
    pub(crate) date: String,
    /// Of what.
    pub(crate) source: String,
    /// How much of it.
    pub(crate) amount: String,
    /// Nitrogen in it.
    pub(crate) nitrogen: String,
    /// Of that for the crop anyway and because of the wood, told; empty where not split.
    pub(crate) split: String,
    /// By whom.
    pub(crate) by: String,
    /// Name of the entry.
    pub(crate) entry: String,
}

/// A crop.
#[derive(Debug, Clone, Default)]
pub(crate) struct CropRow {
    /// What.
    pub(crate) crop: String,
    /// Planted or sown.
    pub(crate) started: String,
    /// Harvested, or when that is expected; told.
    pub(crate) ended: String,
    /// Where it went.
    pub(crate) fate: String,
    /// Name of the entry.
    pub(crate) entry: String,
}

/// Work, water or a measurement.
#[derive(Debug, Clone, Default)]
pub(crate) struct OtherRow {
    /// When.
    pub(crate) date: String,
    /// What, as a sentence.
    pub(crate) what: String,
    /// By whom.
    pub(crate) by: String,
    /// Name of the entry.
    pub(crate) entry: String,
}

/// Something to do.
#[derive(Debug, Clone, Default)]
pub(crate) struct TodoRow {
    /// Where.
    pub(crate) place: String,
    /// By when, told; overdue said.
    pub(crate) due: String,
    /// What.
    pub(crate) what: String,
    /// Why.
    pub(crate) why: String,
    /// Who was asked; empty where nobody was.
    pub(crate) who: String,
}

/// A batch and what is left of it, told.
#[derive(Debug, Clone, Default)]
pub(crate) struct StockRow {
    /// Its name.
    pub(crate) batch: String,
    /// What it is.
    pub(crate) material: String,
    /// What came, or was counted last.
    pub(crate) came: String,
    /// What went since.
    pub(crate) went: String,
    /// What is left.
    pub(crate) left: String,
    /// What to mind about it.
    pub(crate) notes: String,
}

/// Days to harvest.
#[derive(Debug, Clone, Default)]
pub(crate) struct WaitRow {
    /// Of what: raw manure, urine.
    pub(crate) what: String,
    /// Days asked for, and by which rule.
    pub(crate) rule: String,
    /// First day on which harvest is open.
    pub(crate) open: String,
    /// Days there were, told.
    pub(crate) had: String,
    /// Kept; `None` where the crop still stands.
    pub(crate) kept: Option<bool>,
}

/// The book.
#[derive(Debug, Clone, Default)]
pub(crate) struct BookView {
    /// Every link holds.
    pub(crate) sound: bool,
    /// The finding as a sentence.
    pub(crate) state: String,
    /// What is wrong, one sentence each.
    pub(crate) findings: Vec<String>,
    /// The last link of every device.
    pub(crate) heads: Vec<HeadRow>,
    /// Every entry in the order shown.
    pub(crate) entries: Vec<EntryRow>,
}

/// The last link of a device.
#[derive(Debug, Clone, Default)]
pub(crate) struct HeadRow {
    /// Its name.
    pub(crate) device: String,
    /// Number of its last entry.
    pub(crate) last: String,
    /// The hash in hexadecimal, whole.
    pub(crate) hash: String,
}

/// An entry.
#[derive(Debug, Clone, Default)]
pub(crate) struct EntryRow {
    /// Its name, such as "1-12".
    pub(crate) entry: String,
    /// The day the thing happened.
    pub(crate) date: String,
    /// Its kind in the reader's language.
    pub(crate) kind: String,
    /// What it says, as a sentence.
    pub(crate) text: String,
    /// By whom.
    pub(crate) by: String,
    /// "Corrected", "withdrawn", a flag; empty where it stands as written.
    pub(crate) flags: Vec<String>,
}

/// A source.
#[derive(Debug, Clone, Default)]
pub(crate) struct SourceView {
    /// Author or body, year, title, where.
    pub(crate) text: String,
    /// What it is used for, or how it stands.
    pub(crate) used: String,
}
