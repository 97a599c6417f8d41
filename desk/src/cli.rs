//! The command line. Its texts are in `core/words` under `help-…`, in every language.

use std::ffi::OsString;
use std::path::PathBuf;

use chrono::NaiveDate;
use clap::error::{ContextKind, ContextValue, ErrorKind};
use clap::{ArgAction, Args, CommandFactory, FromArgMatches, Parser, Subcommand, ValueEnum};
use kerfbook_acts::long_view;
use kerfbook_science::trial::design::Kind;
use kerfbook_words::Words;

use crate::fault::{Fault, Message};

/// The whole command line.
#[derive(Debug, Parser)]
#[command(name = "kerfbook", version, max_term_width = 100, disable_help_subcommand = true)]
#[command(disable_help_flag = true, disable_version_flag = true, arg_required_else_help = false)]
pub(crate) struct Cli {
    /// One JSON document on standard output, also for errors.
    #[arg(long, global = true, display_order = 90)]
    pub json: bool,
    /// Language of all text.
    #[arg(long, global = true, value_enum, value_name = "en|es", hide_possible_values = true)]
    #[arg(display_order = 91)]
    pub language: Option<LanguageChoice>,
    /// Units of figures in text.
    #[arg(long, global = true, value_enum, value_name = "metric|us", hide_possible_values = true)]
    #[arg(default_value = "metric", hide_default_value = true, display_order = 92)]
    pub units: UnitsChoice,
    #[arg(long, short, global = true, action = ArgAction::Help, display_order = 93)]
    help: Option<bool>,
    #[arg(long, short = 'V', action = ArgAction::Version, display_order = 94)]
    version: Option<bool>,
    /// What to do.
    #[command(subcommand)]
    pub command: Command,
}

/// Languages.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum LanguageChoice {
    En,
    Es,
}

/// Systems of units.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum UnitsChoice {
    Metric,
    Us,
}

/// The commands.
#[derive(Debug, Subcommand)]
pub(crate) enum Command {
    Demo(Demo),
    Compare(Compare),
    Forecast(Forecast),
    Dose(Dose),
    Area(Area),
    Feeds(Feeds),
    Purpose(Purpose),
    Rings(Rings),
    PileVolume(PileVolume),
    Mix(Mix),
    Heat(Heat),
    Carbon(Carbon),
    Trial(Box<Trial>),
    Plan(Plan),
    Today(Today),
    Place(Place),
    Stock(BookFile),
    Judge(BookFile),
    Report(Report),
    #[command(subcommand, arg_required_else_help = false)]
    Book(Book),
}

/// `demo`.
#[derive(Debug, Args)]
pub(crate) struct Demo {
    /// Folder for the book and the report.
    #[arg(long, value_name = "DIR", default_value = "kerfbook-demo", hide_default_value = true)]
    pub out: PathBuf,
    /// Seed of the figures.
    #[arg(long, value_name = "N", default_value_t = 1, hide_default_value = true)]
    pub seed: u64,
}

/// `compare`.
#[derive(Debug, Args)]
pub(crate) struct Compare {
    /// Description of a place and what happens on it, or a book.
    #[arg(value_name = "FILE")]
    pub file: PathBuf,
    /// What the place of a book is called.
    #[arg(value_name = "NAME")]
    pub name: Option<String>,
    /// The day on which a batch would be put down; today where it is not said.
    #[arg(long, value_name = "DATE", requires = "name", conflicts_with = "load")]
    pub on: Option<NaiveDate>,
    /// Batch of the book that would be put down.
    #[arg(long, value_name = "LABEL", requires = "name", conflicts_with = "load")]
    pub batch: Option<String>,
    /// How many barrows of it.
    #[arg(long, value_name = "N", requires = "batch", value_parser = count)]
    pub barrows: Option<f64>,
    /// A load that is not in the book, and the crop that is to come.
    #[arg(long, value_name = "LOAD.toml", requires = "name")]
    pub load: Option<PathBuf>,
}

/// `forecast`.
#[derive(Debug, Args)]
pub(crate) struct Forecast {
    /// Description of a place and what happens on it.
    #[arg(value_name = "SCENARIO.toml", required_unless_present = "model", conflicts_with = "model")]
    pub scenario: Option<PathBuf>,
    /// Number of runs.
    #[arg(long, value_name = "N", default_value_t = 200, hide_default_value = true)]
    #[arg(value_parser = clap::value_parser!(u32).range(1..=100_000))]
    pub runs: u32,
    /// Seed of the runs.
    #[arg(long, value_name = "N", default_value_t = 1, hide_default_value = true)]
    pub seed: u64,
    /// Readings that narrow the range.
    #[arg(long, value_name = "FILE", conflicts_with = "model")]
    pub readings: Option<PathBuf>,
    /// The model's own input in place of a scenario.
    #[arg(long, value_name = "INPUT.json", conflicts_with_all = ["runs", "seed"])]
    pub model: Option<PathBuf>,
}

/// `dose`.
#[derive(Debug, Args)]
pub(crate) struct Dose {
    /// Description of a place and what happens on it.
    #[arg(value_name = "SCENARIO.toml")]
    pub scenario: PathBuf,
}

/// `feeds`.
#[derive(Debug, Args)]
pub(crate) struct Feeds {
    /// Description of a place and what happens on it, or a book.
    #[arg(value_name = "FILE")]
    pub file: PathBuf,
    /// What the place of a book is called.
    #[arg(value_name = "NAME")]
    pub name: Option<String>,
    /// The day from which to plan; today where it is not said.
    #[arg(long, value_name = "DATE", requires = "name")]
    pub on: Option<NaiveDate>,
    /// Chance of hunger that is allowed.
    #[arg(long, value_name = "PCT", value_parser = percent)]
    pub chance: Option<f64>,
    /// Rules that bind.
    #[arg(long, value_name = "ID")]
    pub rules: Vec<String>,
    /// Sources to plan for.
    #[arg(long, value_name = "NAME")]
    pub source: Vec<String>,
}

/// What a load is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum For {
    Weeds,
    Water,
    Soil,
    UseUp,
}

/// `purpose`.
#[derive(Debug, Args)]
pub(crate) struct Purpose {
    /// Description of a place and what happens on it.
    #[arg(value_name = "SCENARIO.toml")]
    pub scenario: PathBuf,
    /// What the load is for.
    #[arg(long = "for", value_enum, value_name = "weeds|water|soil|use-up", hide_possible_values = true)]
    pub wanted: For,
    /// Price of the whole load.
    #[arg(long, value_name = "N", value_parser = amount)]
    pub load_price: Option<f64>,
    /// Book that says what the load cost and how long fetching it took.
    #[arg(long, value_name = "FILE", requires = "batch")]
    pub book: Option<PathBuf>,
    /// The batch of the book that the load is.
    #[arg(long, value_name = "LABEL", requires = "book")]
    pub batch: Option<String>,
    /// Minutes of fetching the whole load.
    #[arg(long, value_name = "N", value_parser = amount)]
    pub fetch_minutes: Option<f64>,
    /// Kilometres that the load was hauled.
    #[arg(long, value_name = "KM", value_parser = amount)]
    pub hauled: Option<f64>,
    /// Price of a kilometre that it was hauled.
    #[arg(long, value_name = "N", value_parser = amount)]
    pub km_price: Option<f64>,
    /// Price of an hour of work.
    #[arg(long, value_name = "N", value_parser = amount)]
    pub hour_price: Option<f64>,
    /// Price of a cubic metre of finished compost.
    #[arg(long, value_name = "N", value_parser = amount)]
    pub compost_price: Option<f64>,
    /// Minutes that a barrow takes.
    #[arg(long, value_name = "N", value_parser = amount, conflicts_with = "haul")]
    pub minutes: Option<f64>,
    /// Metres that a barrow goes.
    #[arg(long, value_name = "M", value_parser = amount)]
    pub haul: Option<f64>,
}

/// Containers: a number above nothing.
fn count(text: &str) -> Result<f64, String> {
    let count: Option<f64> = text.parse().ok();
    count.filter(|count| *count > 0.0 && *count <= 100_000.0).ok_or_else(String::new)
}

/// A price, a time or a way: a number from nothing up.
fn amount(text: &str) -> Result<f64, String> {
    let amount: Option<f64> = text.parse().ok();
    amount.filter(|amount| (0.0..=1e9).contains(amount)).ok_or_else(String::new)
}

/// A chance in per cent.
fn percent(text: &str) -> Result<f64, String> {
    let chance: Option<f64> = text.parse().ok();
    chance.filter(|chance| (0.0..=90.0).contains(chance)).ok_or_else(String::new)
}

/// `rings`.
#[derive(Debug, Args)]
pub(crate) struct Rings {
    /// Trees with their drip lines and gaps.
    #[arg(value_name = "FILE.csv")]
    pub file: PathBuf,
}

/// `pile-volume`.
#[derive(Debug, Args)]
pub(crate) struct PileVolume {
    /// A shape and its lengths.
    #[arg(value_name = "SHAPE.toml")]
    pub shape: PathBuf,
}

/// `mix`.
#[derive(Debug, Args)]
pub(crate) struct Mix {
    /// Ingredients with what is known of them, and goals.
    #[arg(value_name = "RECIPE.toml")]
    pub recipe: PathBuf,
}

/// `heat`.
#[derive(Debug, Args)]
pub(crate) struct Heat {
    /// Readings by day and zone.
    #[arg(value_name = "LOG.csv")]
    pub log: PathBuf,
    /// The rule by which it is judged.
    #[arg(long, value_name = "ID")]
    pub rule: String,
    /// No animal matter is in the pile.
    #[arg(long)]
    pub plants_only: bool,
}

/// `carbon`.
#[derive(Debug, Args)]
pub(crate) struct Carbon {
    /// Description of a place and what happens on it, or a book.
    #[arg(value_name = "FILE")]
    pub file: PathBuf,
    /// What the place of a book is called.
    #[arg(value_name = "NAME")]
    pub name: Option<String>,
    /// The day up to which the book counts; today where it is not said.
    #[arg(long, value_name = "DATE", requires = "name")]
    pub on: Option<NaiveDate>,
    /// How many years.
    #[arg(long, value_name = "N", default_value_t = long_view::USUAL_YEARS, hide_default_value = true)]
    #[arg(value_parser = clap::value_parser!(u32).range(1..=i64::from(long_view::MOST_YEARS)))]
    pub years: u32,
    /// Every so many years.
    #[arg(long, value_name = "N", default_value_t = 1, hide_default_value = true)]
    #[arg(value_parser = clap::value_parser!(u32).range(1..=i64::from(long_view::MOST_YEARS)))]
    pub every: u32,
}

/// `plan`.
#[derive(Debug, Args)]
pub(crate) struct Plan {
    /// The trial as it is wanted.
    #[arg(value_name = "TRIAL.toml")]
    pub trial: PathBuf,
    /// Folder for the plan, the labels and the score sheet.
    #[arg(long, value_name = "DIR")]
    pub out: Option<PathBuf>,
    /// Book to write the layout into.
    #[arg(long, value_name = "FILE")]
    pub book: Option<PathBuf>,
    /// The place where it lies.
    #[arg(long, value_name = "PLACE", requires = "book")]
    pub place: Option<String>,
    /// Opens every plot as a place, too.
    #[arg(long, requires = "book")]
    pub plots: bool,
    /// The day on which it is laid out; today where it is not said.
    #[arg(long, value_name = "DATE", requires = "book")]
    pub on: Option<NaiveDate>,
}

/// The designs of a trial.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum DesignChoice {
    Crd,
    Rcbd,
    Pairs,
    Strips,
    Latin,
    SplitPlot,
    StripPlot,
}

impl DesignChoice {
    /// As the science names it.
    pub(crate) const fn kind(self) -> Kind {
        match self {
            Self::Crd => Kind::CompletelyRandomised,
            Self::Rcbd => Kind::RandomisedBlocks,
            Self::Pairs => Kind::Pairs,
            Self::Strips => Kind::Strips,
            Self::Latin => Kind::LatinSquare,
            Self::SplitPlot => Kind::SplitPlot,
            Self::StripPlot => Kind::StripPlot,
        }
    }
}

/// `trial`.
#[derive(Debug, Args)]
pub(crate) struct Trial {
    /// The plots with what was measured on them, or a book.
    #[arg(value_name = "DATA.csv|BOOK")]
    pub data: PathBuf,
    /// The trial of the book.
    #[arg(long, value_name = "NAME")]
    pub name: Option<String>,
    /// How the plots were laid out.
    #[arg(long, value_enum, value_name = "crd|rcbd|pairs|strips|latin|split-plot|strip-plot")]
    #[arg(hide_possible_values = true)]
    pub design: Option<DesignChoice>,
    /// What the plots got.
    #[arg(long, value_name = "COL")]
    pub treatment: Option<String>,
    /// What was measured.
    #[arg(long, value_name = "COL|yellow|yield|…")]
    pub response: Option<String>,
    /// Blocks or pairs.
    #[arg(long, value_name = "COL")]
    pub block: Option<String>,
    /// Rows of a square.
    #[arg(long, value_name = "COL")]
    pub row: Option<String>,
    /// Columns of a square.
    #[arg(long, value_name = "COL")]
    pub column: Option<String>,
    /// The factor on main plots.
    #[arg(long, value_name = "COL")]
    pub main: Option<String>,
    /// The factor inside.
    #[arg(long, value_name = "COL")]
    pub sub: Option<String>,
    /// The check.
    #[arg(long, value_name = "NAME")]
    pub check: Option<String>,
    /// The check of the factor inside.
    #[arg(long, value_name = "NAME")]
    pub sub_check: Option<String>,
    /// Plot numbers.
    #[arg(long, value_name = "COL")]
    pub plot: Option<String>,
    /// Days of visits.
    #[arg(long, value_name = "COL")]
    pub day: Option<String>,
    /// Pairs named beforehand.
    #[arg(long, value_name = "A:B")]
    pub pair: Vec<String>,
    /// Contrasts.
    #[arg(long, value_name = "A=-1,B=1", allow_hyphen_values = true)]
    pub contrast: Vec<String>,
    /// A difference that does not matter.
    #[arg(long, value_name = "N", value_parser = amount)]
    pub margin: Option<f64>,
    /// The response is per cent.
    #[arg(long)]
    pub percent: bool,
    /// The response is per cent of yellow leaf.
    #[arg(long)]
    pub yellow: bool,
    /// Page to write.
    #[arg(long, value_name = "FILE")]
    pub page: Option<PathBuf>,
    /// Seed of the reordering test.
    #[arg(long, value_name = "N", default_value_t = 1, hide_default_value = true)]
    pub seed: u64,
}

/// `today`.
#[derive(Debug, Args)]
pub(crate) struct Today {
    /// The book's file.
    #[arg(value_name = "FILE")]
    pub file: PathBuf,
    /// The day; today where it is not said.
    #[arg(long, value_name = "DATE")]
    pub on: Option<NaiveDate>,
    /// How many days after it count.
    #[arg(long, value_name = "DAYS", default_value_t = 14, hide_default_value = true)]
    #[arg(value_parser = clap::value_parser!(u32).range(0..=i64::from(crate::today::MOST_DAYS)))]
    pub ahead: u32,
    /// Rules that bind planned feeds.
    #[arg(long, value_name = "ID")]
    pub rules: Vec<String>,
}

/// `place`.
#[derive(Debug, Args)]
pub(crate) struct Place {
    /// The book's file.
    #[arg(value_name = "FILE")]
    pub file: PathBuf,
    /// What the place is called.
    #[arg(value_name = "NAME")]
    pub name: String,
    /// The day; today where it is not said.
    #[arg(long, value_name = "DATE")]
    pub on: Option<NaiveDate>,
    /// Number of runs.
    #[arg(long, value_name = "N", default_value_t = 200, hide_default_value = true)]
    #[arg(value_parser = clap::value_parser!(u32).range(1..=100_000))]
    pub runs: u32,
    /// Seed of the runs.
    #[arg(long, value_name = "N", default_value_t = 1, hide_default_value = true)]
    pub seed: u64,
}

/// `area`.
#[derive(Debug, Args)]
pub(crate) struct Area {
    /// Drawing, walk or tape sheet.
    #[arg(value_name = "FILE")]
    pub file: PathBuf,
    /// The walk went under trees.
    #[arg(long)]
    pub under_trees: bool,
    /// How far the edge lies outside the walked line, metres; below zero where inside.
    #[arg(long, value_name = "METRES", default_value_t = 0.0, hide_default_value = true)]
    #[arg(allow_negative_numbers = true, value_parser = metres)]
    pub outside_m: f64,
    /// File for the outlines, repaired where they cross themselves.
    #[arg(long, value_name = "OUT")]
    pub repair: Option<PathBuf>,
}

/// A distance that a walker may keep from an edge.
fn metres(text: &str) -> Result<f64, String> {
    match text.parse::<f64>() {
        Ok(metres) if (-100.0..=100.0).contains(&metres) => Ok(metres),
        _ => Err(text.to_owned()),
    }
}

/// `book`.
#[derive(Debug, Subcommand)]
pub(crate) enum Book {
    Entries(BookFile),
    Verify(BookFile),
    Rebuild(BookFile),
    Enter(Enter),
    Scores(Scores),
    Move(Move),
    Same(Same),
    Unit(Unit),
    PutBack(PutBack),
    Correct(Correct),
    Export(Export),
    Import(Import),
}

/// A book.
#[derive(Debug, Args)]
pub(crate) struct BookFile {
    /// The book's file.
    #[arg(value_name = "FILE")]
    pub file: PathBuf,
}

/// `report`.
#[derive(Debug, Args)]
pub(crate) struct Report {
    /// The book's file.
    #[arg(value_name = "FILE")]
    pub file: PathBuf,
    /// The page to write.
    #[arg(long, value_name = "FILE", default_value = "report.html", hide_default_value = true)]
    pub out: PathBuf,
    /// The day; today where it is not said.
    #[arg(long, value_name = "DATE")]
    pub on: Option<NaiveDate>,
    /// Seed of the runs.
    #[arg(long, value_name = "N", default_value_t = 1, hide_default_value = true)]
    pub seed: u64,
}

/// `book enter`.
#[derive(Debug, Args)]
pub(crate) struct Enter {
    /// The book's file; begun where it is not there.
    #[arg(value_name = "FILE")]
    pub file: PathBuf,
    /// What happened.
    #[arg(value_name = "ENTRIES.toml")]
    pub entries: PathBuf,
    /// Who writes, by name.
    #[arg(long, value_name = "NAME")]
    pub by: Option<String>,
    /// Show what would be written, and write nothing.
    #[arg(long)]
    pub r#try: bool,
    /// Write it although something is warned of.
    #[arg(long)]
    pub even_so: bool,
}

/// `book scores`.
#[derive(Debug, Args)]
pub(crate) struct Scores {
    /// The book's file.
    #[arg(value_name = "FILE")]
    pub file: PathBuf,
    /// The score sheet of `plan`, filled in.
    #[arg(value_name = "SCORES.csv")]
    pub sheet: PathBuf,
    /// Who writes, by name.
    #[arg(long, value_name = "NAME")]
    pub by: Option<String>,
    /// Show what would be written, and write nothing.
    #[arg(long)]
    pub r#try: bool,
}

/// `book export`.
#[derive(Debug, Args)]
pub(crate) struct Export {
    /// The book's file.
    #[arg(value_name = "FILE")]
    pub file: PathBuf,
    /// The file to write; its ending says the format.
    #[arg(value_name = "OUT")]
    pub out: PathBuf,
    /// The entries as a sheet in place of the places.
    #[arg(long)]
    pub entries: bool,
}

/// What a place of a file is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum Ground {
    Bed,
    Row,
    Rings,
    Path,
    Yard,
    Plot,
    Container,
}

/// `book import`.
#[derive(Debug, Args)]
#[expect(clippy::struct_excessive_bools, reason = "flags of a command line, each by itself")]
pub(crate) struct Import {
    /// The book's file.
    #[arg(value_name = "FILE")]
    pub file: PathBuf,
    /// Drawing, walk, sheet of places or tape sheet.
    #[arg(value_name = "PLACES")]
    pub places: PathBuf,
    /// What places are that do not say it.
    #[arg(long, value_enum, value_name = "KIND", default_value = "bed", hide_default_value = true)]
    #[arg(hide_possible_values = true)]
    pub kind: Ground,
    /// What places without a name are called.
    #[arg(long, value_name = "NAME")]
    pub name: Option<String>,
    /// The day of measuring; today where it is not said.
    #[arg(long, value_name = "DATE")]
    pub on: Option<NaiveDate>,
    /// Who writes, by name.
    #[arg(long, value_name = "NAME")]
    pub by: Option<String>,
    /// The walks went under trees.
    #[arg(long)]
    pub under_trees: bool,
    /// How far edges lie outside the walked lines, metres; below zero where inside.
    #[arg(long, value_name = "METRES", default_value_t = 0.0, hide_default_value = true)]
    #[arg(allow_negative_numbers = true, value_parser = metres)]
    pub outside_m: f64,
    /// Outlines that cross themselves stand for the ground that they go round.
    #[arg(long)]
    pub repair: bool,
    /// Places whose names are in the book get their new size.
    #[arg(long)]
    pub anew: bool,
    /// Show what would be written, and write nothing.
    #[arg(long)]
    pub r#try: bool,
}

/// `book move`.
#[derive(Debug, Args)]
pub(crate) struct Move {
    /// The book's file.
    #[arg(value_name = "FILE")]
    pub file: PathBuf,
    /// The entries, device and number.
    #[arg(long, value_name = "DEVICE:NUMBER", required = true)]
    pub entry: Vec<String>,
    /// The right place, by name.
    #[arg(long, value_name = "PLACE")]
    pub to: String,
    /// Why.
    #[arg(long, value_name = "TEXT")]
    pub reason: String,
}

/// `book same`.
#[derive(Debug, Args)]
pub(crate) struct Same {
    /// The book's file.
    #[arg(value_name = "FILE")]
    pub file: PathBuf,
    /// The batch that stays, by name or entry.
    #[arg(long, value_name = "BATCH")]
    pub keep: String,
    /// The batch that is the same load.
    #[arg(long, value_name = "BATCH")]
    pub second: String,
    /// Why.
    #[arg(long, value_name = "TEXT")]
    pub reason: String,
}

/// `book unit`.
#[derive(Debug, Args)]
pub(crate) struct Unit {
    /// The book's file.
    #[arg(value_name = "FILE")]
    pub file: PathBuf,
    /// The entry, device and number.
    #[arg(long, value_name = "DEVICE:NUMBER")]
    pub entry: String,
    /// The unit in which the figure was written.
    #[arg(long, value_name = "UNIT")]
    pub written: String,
    /// The unit that was meant.
    #[arg(long, value_name = "UNIT")]
    pub meant: String,
    /// Why.
    #[arg(long, value_name = "TEXT")]
    pub reason: String,
}

/// `book put-back`.
#[derive(Debug, Args)]
pub(crate) struct PutBack {
    /// The book's file.
    #[arg(value_name = "FILE")]
    pub file: PathBuf,
    /// The entry, device and number.
    #[arg(long, value_name = "DEVICE:NUMBER")]
    pub entry: String,
    /// Why.
    #[arg(long, value_name = "TEXT")]
    pub reason: String,
}

/// `book correct`.
#[derive(Debug, Args)]
pub(crate) struct Correct {
    /// The book's file.
    #[arg(value_name = "FILE")]
    pub file: PathBuf,
    /// The entry, device and number.
    #[arg(long, value_name = "DEVICE:NUMBER")]
    pub entry: String,
    /// Why.
    #[arg(long, value_name = "TEXT")]
    pub reason: String,
    /// Fields and their right values.
    #[arg(long = "set", value_name = "FIELD=VALUE", required_unless_present = "withdraw")]
    pub set: Vec<String>,
    /// Take the entry out instead.
    #[arg(long, conflicts_with = "set")]
    pub withdraw: bool,
}

/// Why there is no command to carry out.
pub(crate) enum Unparsed {
    /// Help or the version was asked for; here it is.
    Asked(String),
    /// The command line cannot be read.
    Wrong(Fault),
}

/// Reads the command line.
pub(crate) fn parse(arguments: &[OsString], words: &Words) -> Result<Cli, Unparsed> {
    let matches = command(words).try_get_matches_from(arguments).map_err(|error| explain(&error))?;
    Cli::from_arg_matches(&matches).map_err(|error| explain(&error))
}

/// What the command line says of language and form, even where it cannot be read as a whole.
pub(crate) fn manner(arguments: &[OsString]) -> (Option<LanguageChoice>, bool) {
    let arguments: Vec<_> = arguments.iter().map(|argument| argument.to_string_lossy()).collect();
    let after = arguments.iter().zip(arguments.iter().skip(1));
    let language = arguments
        .iter()
        .find_map(|argument| argument.strip_prefix("--language="))
        .or_else(|| after.into_iter().find(|(flag, _)| *flag == "--language").map(|(_, value)| &**value))
        .and_then(|value| LanguageChoice::from_str(value, true).ok());
    (language, arguments.iter().any(|argument| argument == "--json"))
}

/// The command line with its texts.
fn command(words: &Words) -> clap::Command {
    let mut command = speak(Cli::command(), "", words);
    // Built, so that every command knows the whole line that leads to it.
    command.build();
    speak_usage(command, words)
}

/// The line that shows how a command is called, with our word for its options.
fn speak_usage(mut command: clap::Command, words: &Words) -> clap::Command {
    let shown = command.render_usage().to_string();
    let usage = shown.split_once(": ").map_or(shown.as_str(), |(_, usage)| usage);
    let usage = usage.replace("[OPTIONS]", &format!("[{}]", words.label("help-options-of")));
    let names: Vec<String> = command.get_subcommands().map(|command| command.get_name().to_owned()).collect();
    names.into_iter().fold(command.override_usage(usage), |command, name| {
        command.mut_subcommand(name, |command| speak_usage(command, words))
    })
}

fn speak(mut command: clap::Command, path: &str, words: &Words) -> clap::Command {
    let say = |id: &str| words.label(id);
    let own = if path.is_empty() { "kerfbook" } else { path };
    let template = format!("{{about}}\n\n{}: {{usage}}\n\n{{all-args}}", say("help-usage"));
    let arguments: Vec<String> =
        command.get_arguments().map(|argument| argument.get_id().to_string()).collect();
    let commands: Vec<String> =
        command.get_subcommands().map(|command| command.get_name().to_owned()).collect();
    command = command
        .about(say(&format!("help-{own}")))
        .help_template(template)
        .subcommand_help_heading(say("help-commands"))
        .subcommand_value_name(say("help-command"));
    for id in arguments {
        let text = say(&format!("help-{own}-{id}"));
        command = command.mut_arg(id, |argument| {
            let heading = say(if argument.is_positional() { "help-arguments" } else { "help-options" });
            argument.help(text).help_heading(heading)
        });
    }
    for name in commands {
        let path = if path.is_empty() { name.clone() } else { format!("{path}-{name}") };
        command = command.mut_subcommand(name, |command| speak(command, &path, words));
    }
    command
}

/// A command line that cannot be read, in words.
fn explain(error: &clap::Error) -> Unparsed {
    let context = |kind| match error.get(kind) {
        Some(ContextValue::String(text)) => text.clone(),
        Some(ContextValue::Strings(texts)) => texts.join(", "),
        _ => String::new(),
    };
    let what = match error.kind() {
        ErrorKind::DisplayHelp | ErrorKind::DisplayVersion => {
            return Unparsed::Asked(error.render().to_string());
        }
        ErrorKind::MissingRequiredArgument => {
            Message::new("usage-missing").text("names", context(ContextKind::InvalidArg))
        }
        ErrorKind::UnknownArgument => {
            Message::new("usage-unknown").text("name", context(ContextKind::InvalidArg))
        }
        ErrorKind::InvalidSubcommand => {
            Message::new("usage-unknown-command").text("name", context(ContextKind::InvalidSubcommand))
        }
        ErrorKind::MissingSubcommand | ErrorKind::DisplayHelpOnMissingArgumentOrSubcommand => {
            Message::new("usage-no-command").text("names", context(ContextKind::ValidSubcommand))
        }
        ErrorKind::InvalidValue if context(ContextKind::InvalidValue).is_empty() => {
            Message::new("usage-no-value").text("name", context(ContextKind::InvalidArg))
        }
        ErrorKind::InvalidValue | ErrorKind::ValueValidation => Message::new("usage-value")
            .text("name", context(ContextKind::InvalidArg))
            .text("value", context(ContextKind::InvalidValue)),
        ErrorKind::ArgumentConflict => Message::new("usage-conflict")
            .text("first", context(ContextKind::InvalidArg))
            .text("second", context(ContextKind::PriorArg)),
        _ => Message::new("usage-other"),
    };
    let near = [ContextKind::SuggestedArg, ContextKind::SuggestedSubcommand, ContextKind::SuggestedValue]
        .into_iter()
        .map(context)
        .find(|near| !near.is_empty());
    let choices = context(ContextKind::ValidValue);
    let remedy = match near {
        Some(near) => Message::new("usage-near").text("name", near),
        None if !choices.is_empty() => Message::new("desk-choose").text("names", choices),
        None => Message::new("usage-help"),
    };
    Unparsed::Wrong(Fault::usage(what, remedy))
}
