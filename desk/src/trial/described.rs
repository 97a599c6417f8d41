//! From a file of plots and the command line to a trial with its names and its questions.

use chrono::{Datelike, NaiveDate};
use kerfbook_acts::trial::Names;
use kerfbook_science::trial::curve::{CommonVisits, CurveError, common_visits};
use kerfbook_science::trial::design::Kind;
use kerfbook_science::trial::response::Response;
use kerfbook_science::trial::structure::{Structure, Trial, TrialError};
use kerfbook_science::trial::verdict::Question;

use crate::cli;
use crate::fault::{Fault, Message};
use crate::plot_table::{Column, Levels, Table};
use crate::toml_file::layout::nearest;

/// A trial as it was described.
pub(crate) struct Described {
    pub kind: Kind,
    pub trial: Trial,
    pub names: Names,
    /// Columns: block, row and column, then what is compared.
    pub columns: Vec<String>,
    /// Blocks by name.
    pub blocks: Vec<String>,
    /// What people call those columns.
    pub called: Vec<String>,
    /// Line of each plot in the file; none of a book.
    pub lines: Vec<Option<usize>>,
    /// Row and column of each plot in the field, where they are known.
    pub places: Option<Vec<(usize, usize)>>,
    pub response: String,
    pub question: Question,
    /// Weights of contrasts as written and as numbers.
    pub contrasts: Vec<(String, Vec<f64>)>,
    /// Where scores over time became one number a plot.
    pub visits: Option<CommonVisits>,
    /// More to be told of the scoring.
    pub extra: Vec<String>,
}

/// Columns that are looked for where the command line names none.
const BLOCKS: [&str; 4] = ["block", "pair", "rep", "replicate"];

pub(super) fn read(args: &cli::Trial, table: &Table) -> Result<Described, Fault> {
    let option = |id| Fault::usage(Message::new(id), Message::new("trial-see-help"));
    let kind = args.design.ok_or_else(|| option("trial-no-design"))?.kind();
    let response = table.column(args.response.as_ref().ok_or_else(|| option("trial-no-response"))?)?;
    let percent = args.percent || args.yellow;
    let values = table.values(&response, percent)?;
    let needed = |given: Option<&String>, guesses: &[&str], option: &str| -> Result<Column, Fault> {
        if let Some(name) = given {
            return table.column(name);
        }
        guesses.iter().find_map(|name| table.find(name)).ok_or_else(|| {
            let what = Message::new("trial-needs-option").text("design", kind.name()).text("option", option);
            Fault::usage(what, Message::new("trial-see-help"))
        })
    };
    let treatment = || needed(args.treatment.as_ref(), &[], "--treatment");
    let block = || needed(args.block.as_ref(), &BLOCKS, "--block");
    let main = || needed(args.main.as_ref().or(args.treatment.as_ref()), &[], "--main");
    let columns: Vec<Column> = match kind {
        Kind::CompletelyRandomised => vec![treatment()?],
        Kind::Pairs | Kind::Strips | Kind::RandomisedBlocks => vec![block()?, treatment()?],
        Kind::LatinSquare => vec![
            needed(args.row.as_ref(), &["row"], "--row")?,
            needed(args.column.as_ref(), &["column", "col"], "--column")?,
            treatment()?,
        ],
        Kind::SplitPlot | Kind::StripPlot => {
            vec![block()?, main()?, needed(args.sub.as_ref(), &[], "--sub")?]
        }
    };
    let plot = args.plot.as_ref().map(|name| table.column(name)).transpose()?;
    let by_row: Vec<Levels> = columns.iter().map(|column| table.levels(column)).collect::<Result<_, _>>()?;
    let day = args.day.as_ref().map(|name| table.column(name)).transpose()?;
    let plots = match &day {
        None => Plots::each(table.len()),
        Some(_) => Plots::by_place(table, &by_row, plot.as_ref(), kind)?,
    };
    let levels: Vec<Levels> = by_row.iter().map(|levels| levels.of_rows(&plots.first)).collect();
    let (measured, visits) = match &day {
        None => (Response::from_texts(&values), None),
        Some(day) => {
            let visits = plots.visits(table, &values, day)?;
            let (numbers, common) = season_means(table, &visits)?;
            (Ok(Response::from_numbers(&numbers)), Some(common))
        }
    };
    // What is no number has been complained of above.
    let measured = measured.unwrap_or_else(|_| Response::from_numbers(&[]));
    let structure = structure(kind, &levels);
    let trial = Trial::new(kind, structure, measured).map_err(|error| told(&error, table, &plots.first))?;
    let compared = if kind.is_two_factor() { 1 } else { levels.len() - 1 };
    let treatments = levels[compared].names.clone();
    let subs = if kind.is_two_factor() { levels[2].names.clone() } else { Vec::new() };
    let blocks = if matches!(kind, Kind::CompletelyRandomised | Kind::LatinSquare) {
        Vec::new()
    } else {
        levels[0].names.clone()
    };
    let named = |row: usize| {
        let own = plot.as_ref().map(|column| table.cell(row, column)).filter(|cell| !cell.is_empty());
        own.map_or_else(|| format!("#{}", table.line(row)), str::to_owned)
    };
    let question = question(args, &columns, &treatments, &subs)?;
    let contrasts = contrasts(args, &treatments)?;
    let columns: Vec<String> = columns.into_iter().map(|column| column.name).collect();
    Ok(Described {
        kind,
        names: Names {
            treatments,
            subs,
            plots: plots.first.iter().map(|&row| named(row)).collect(),
            factors: kind.is_two_factor().then(|| [columns[1].clone(), columns[2].clone()]),
            pairs: kind == Kind::Pairs,
            no_blocks: kind == Kind::CompletelyRandomised,
            yellow: args.yellow,
        },
        trial,
        called: columns.clone(),
        columns,
        blocks,
        lines: plots.first.iter().map(|&row| Some(table.line(row))).collect(),
        places: None,
        response: response.name,
        question,
        contrasts,
        visits,
        extra: Vec::new(),
    })
}

/// The rows of each plot.
struct Plots {
    first: Vec<usize>,
    of: Vec<usize>,
}

impl Plots {
    fn each(rows: usize) -> Self {
        Self { first: (0..rows).collect(), of: (0..rows).collect() }
    }

    fn by_place(table: &Table, levels: &[Levels], plot: Option<&Column>, kind: Kind) -> Result<Self, Fault> {
        if plot.is_none() && kind == Kind::CompletelyRandomised {
            return Err(Fault::usage(Message::new("trial-needs-plot"), Message::new("trial-see-help")));
        }
        let mut known: std::collections::BTreeMap<(Vec<usize>, &str), usize> =
            std::collections::BTreeMap::new();
        let (mut first, mut of) = (Vec::new(), Vec::new());
        for row in 0..table.len() {
            let place: Vec<usize> = levels.iter().map(|levels| levels.of[row]).collect();
            let name = plot.map_or("", |column| table.cell(row, column));
            of.push(*known.entry((place, name)).or_insert_with(|| {
                first.push(row);
                first.len() - 1
            }));
        }
        Ok(Self { first, of })
    }

    /// Days with scores of each plot; what was not scored is left out.
    fn visits(
        &self,
        table: &Table,
        values: &[Option<&str>],
        day: &Column,
    ) -> Result<Vec<Vec<(f64, f64)>>, Fault> {
        let mut visits: Vec<Vec<(f64, f64)>> = vec![Vec::new(); self.first.len()];
        let mut complaints = Vec::new();
        for (row, value) in values.iter().enumerate() {
            let written = table.cell(row, day);
            let Some(on) = day_of(written) else {
                complaints.push(table.bad(row, day, written, "trial-text", Some(Message::new("trial-form"))));
                continue;
            };
            let Some(score) = value.and_then(|value| value.parse::<f64>().ok()) else { continue };
            let own = &mut visits[self.of[row]];
            if own.iter().any(|(other, _)| (other - on).abs() < 1e-9) {
                let remedy = Some(Message::new("trial-twice-help"));
                complaints.push(table.of_row(row, &day.name, Message::new("trial-curve-order"), remedy));
                continue;
            }
            own.push((on, score));
        }
        if complaints.is_empty() { Ok(visits) } else { Err(table.fault(complaints)) }
    }
}

/// A number of days, or a date.
fn day_of(text: &str) -> Option<f64> {
    let date = NaiveDate::parse_from_str(text, "%Y-%m-%d").ok();
    date.map(|date| f64::from(date.num_days_from_ce()))
        .or_else(|| text.parse::<f64>().ok().filter(|day| day.is_finite()))
}

/// One number a plot; plots that were never scored are lost.
fn season_means(
    table: &Table,
    visits: &[Vec<(f64, f64)>],
) -> Result<(Vec<Option<f64>>, CommonVisits), Fault> {
    let scored: Vec<Vec<(f64, f64)>> = visits.iter().filter(|own| !own.is_empty()).cloned().collect();
    let common = common_visits(&scored).map_err(|error| {
        let id = match error {
            CurveError::Order => "trial-curve-order",
            CurveError::OneVisit | CurveError::NotANumber => "trial-curve-short",
        };
        table.fault(vec![table.at(1, "", Message::new(id), Some(Message::new("trial-form")))])
    })?;
    let mut curves = common.curves.iter();
    let numbers = visits
        .iter()
        .map(|own| {
            if own.is_empty() {
                return None;
            }
            curves.next().map(kerfbook_science::trial::curve::Curve::season_mean)
        })
        .collect();
    Ok((numbers, common))
}

fn structure(kind: Kind, levels: &[Levels]) -> Structure {
    let factor = |at: usize| levels[at].factor();
    match kind {
        Kind::CompletelyRandomised => Structure::Single { treatment: factor(0) },
        Kind::Pairs | Kind::Strips | Kind::RandomisedBlocks => {
            Structure::Blocks { block: factor(0), treatment: factor(1) }
        }
        Kind::LatinSquare => Structure::Square { row: factor(0), column: factor(1), treatment: factor(2) },
        Kind::SplitPlot => Structure::Split { block: factor(0), main: factor(1), sub: factor(2) },
        Kind::StripPlot => Structure::Strip { block: factor(0), main: factor(1), sub: factor(2) },
    }
}

fn told(error: &TrialError, table: &Table, rows: &[usize]) -> Fault {
    let row = |plot: usize| rows.get(plot).copied().unwrap_or(0);
    let pair = |id: &'static str, first: usize, second: usize, remedy: Option<Message>| {
        let what = Message::new(id).text("line", table.line(row(first)));
        table.of_row(row(second), "", what, remedy)
    };
    let whole = |what: Message| table.at(1, "", what, Some(Message::new("trial-form")));
    table.fault(vec![match *error {
        TrialError::Twice { first, second } => {
            pair("trial-twice", first, second, Some(Message::new("trial-twice-help")))
        }
        TrialError::NoSquare { first, second } => pair("trial-square-twice", first, second, None),
        TrialError::Unequal { rows, columns, treatments } => whole(
            Message::new("trial-square-unequal")
                .text("rows", rows)
                .text("columns", columns)
                .text("treatments", treatments),
        ),
        TrialError::OneTreatment => whole(Message::new("trial-one-treatment")),
        TrialError::NoPairs { treatments } => {
            whole(Message::new("trial-no-pairs").text("treatments", treatments))
        }
        TrialError::Nothing => whole(Message::new("trial-nothing")),
    }])
}

fn question(
    args: &cli::Trial,
    columns: &[Column],
    treatments: &[String],
    subs: &[String],
) -> Result<Question, Fault> {
    let of = |column: Option<&Column>| column.map_or("", |column| column.name.as_str()).to_owned();
    let main = if subs.is_empty() { columns.last() } else { columns.get(1) };
    // The check may be a level of either factor.
    let (check, sub_check) = match args.check.as_deref() {
        Some(name) if !treatments.iter().any(|own| own == name) && subs.iter().any(|own| own == name) => {
            (None, Some(level(name, subs, &of(columns.last()))?))
        }
        Some(name) => (Some(level(name, treatments, &of(main))?), None),
        None => (None, None),
    };
    let named = args.sub_check.as_deref().map(|name| level(name, subs, &of(columns.last()))).transpose()?;
    let pairs = args
        .pair
        .iter()
        .map(|written| {
            let parts = written.split_once(':').ok_or_else(|| {
                let what = Message::new("trial-bad-pair").text("value", written);
                Fault::usage(what, Message::new("trial-see-help"))
            })?;
            Ok((level(parts.0, treatments, &of(main))?, level(parts.1, treatments, &of(main))?))
        })
        .collect::<Result<Vec<_>, Fault>>()?;
    if let Some((at, _)) = pairs.iter().enumerate().find(|(_, (a, b))| a == b) {
        let what = Message::new("trial-bad-pair").text("value", &args.pair[at]);
        return Err(Fault::usage(what, Message::new("trial-see-help")));
    }
    Ok(Question { check, sub_check: named.or(sub_check), pairs, margin: args.margin, seed: args.seed })
}

fn level(name: &str, levels: &[String], column: &str) -> Result<usize, Fault> {
    let name = name.trim();
    levels.iter().position(|own| own == name).ok_or_else(|| {
        let what = Message::new("trial-no-level").text("value", name).text("name", column);
        let remedy = match nearest(name, levels.iter().map(String::as_str), 1).first() {
            Some(near) => Message::new("desk-did-you-mean").text("name", near),
            None => Message::new("trial-levels-are").text("names", levels.join(", ")),
        };
        Fault::usage(what, remedy)
    })
}

fn contrasts(args: &cli::Trial, treatments: &[String]) -> Result<Vec<(String, Vec<f64>)>, Fault> {
    args.contrast
        .iter()
        .map(|written| {
            let bad = || {
                let what = Message::new("trial-bad-contrast").text("value", written);
                Fault::usage(what, Message::new("trial-see-help"))
            };
            let mut weights = vec![0.0; treatments.len()];
            for part in written.split(',') {
                let (name, weight) = part.rsplit_once('=').ok_or_else(bad)?;
                let at = level(name, treatments, "--contrast")?;
                weights[at] = weight.trim().parse::<f64>().ok().filter(|w| w.is_finite()).ok_or_else(bad)?;
            }
            let (sum, size) = (weights.iter().sum::<f64>(), weights.iter().map(|w| w.abs()).sum::<f64>());
            if size <= 0.0 || sum.abs() > 1e-9 * size {
                return Err(bad());
            }
            Ok((written.clone(), weights))
        })
        .collect()
}
