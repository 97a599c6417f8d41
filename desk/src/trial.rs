//! `trial`: what a finished trial shows, and what it could have missed.

mod described;
pub(crate) mod of_book;
mod paper;
mod progress;

use kerfbook_acts::trial::{rarity, sentences};
use kerfbook_acts::trial_charts;
use kerfbook_picture::{DotsChart, FieldMap};
use kerfbook_science::trial::anova::{Group, Line, Row};
use kerfbook_science::trial::comparison::{Contrast, letters};
use kerfbook_science::trial::diagnostic::{self, Prompt};
use kerfbook_science::trial::efficiency::{effect, efficiency};
use kerfbook_science::trial::randomisation::{Randomised, test_of_values};
use kerfbook_science::trial::rank;
use kerfbook_science::trial::score;
use kerfbook_science::trial::structure::{Compared, Structure};
use kerfbook_science::trial::verdict::{Verdict, judge};
use kerfbook_science::units::Share;
use kerfbook_words::Words;
use serde_json::{Map, Value, json};

pub(crate) use self::described::Described;
use crate::book::is_book;
use crate::cli;
use crate::compare::new_table;
use crate::context::Context;
use crate::fault::Fault;
use crate::output;
use crate::plot_table::Table;

pub(crate) fn run(args: &cli::Trial, context: &Context) -> Result<(), Fault> {
    let described = if is_book(&args.data) {
        match of_book::read(args, context.words())? {
            of_book::Found::Judged(described) => *described,
            of_book::Found::Open(trial) => return progress::run(args, &trial, context),
        }
    } else {
        described::read(args, &Table::read(&args.data)?)?
    };
    let verdict = judge(described.kind, &described.trial, &described.question);
    let ranks = ranks(&described, &verdict);
    if let Some(page) = &args.page {
        output::write(page, paper::page(&described, &verdict, context.words()).as_bytes())?;
    }
    if context.json {
        context.print_json(&document(&described, &verdict, ranks.as_ref(), context.words()))
    } else {
        context.print(&told(&described, &verdict, ranks.as_ref(), context.words()))
    }
}

/// A test on ranks: for one factor without lost plots in blocks, or without blocks.
struct Ranked {
    test: &'static str,
    statistic: f64,
    degrees: usize,
    by_curve: f64,
    exact: Option<f64>,
    sums: Vec<f64>,
    agreement: Option<f64>,
    pairs: Vec<(rank::Pair, &'static str)>,
}

impl Ranked {
    /// The exact chance where there is one.
    fn p(&self) -> f64 {
        self.exact.unwrap_or(self.by_curve)
    }
}

fn ranks(described: &Described, verdict: &Verdict) -> Option<Ranked> {
    let trial = &described.trial;
    if verdict.refused {
        return None;
    }
    let scored = described.visits.as_ref().filter(|_| described.names.yellow && trial.lost() == 0);
    // Scores of yellow become classes: their steps are not equal.
    let values: Vec<f64> = match scored {
        Some(visits) => visits.curves.iter().map(|curve| f64::from(score::class(curve.highest()))).collect(),
        None => trial.above(),
    };
    match trial.structure() {
        Structure::Blocks { block, treatment } if trial.lost() == 0 => {
            let mut cells = vec![vec![0.0; treatment.levels]; block.levels];
            for (plot, value) in values.iter().enumerate() {
                cells[block.of[plot]][treatment.of[plot]] = *value;
            }
            let friedman = rank::friedman(&cells);
            let named = |pairs: &[rank::Pair], method: &'static str| -> Vec<(rank::Pair, &'static str)> {
                pairs.iter().map(|pair| (*pair, method)).collect()
            };
            let pairs = [named(&friedman.nemenyi, "nemenyi"), named(&friedman.conover, "conover")].concat();
            Some(Ranked {
                test: "friedman",
                statistic: friedman.q?,
                degrees: friedman.degrees,
                by_curve: friedman.p,
                exact: friedman.exact_p,
                sums: friedman.rank_sums,
                agreement: Some(friedman.agreement),
                pairs,
            })
        }
        Structure::Single { treatment } => {
            let kept = trial.kept();
            let of = kept.iter().map(|&plot| treatment.of[plot]).collect();
            let factor = kerfbook_science::trial::least_squares::Factor { levels: treatment.levels, of };
            let kruskal = rank::kruskal_wallis(&factor, &values);
            let mut by_plot = vec![None; treatment.of.len()];
            for (&plot, rank) in kept.iter().zip(rank::ranks(&values).0) {
                by_plot[plot] = Some(rank);
            }
            let reordered = test_of_values(trial, Compared::Treatment, &by_plot, described.question.seed);
            Some(Ranked {
                test: "kruskal-wallis",
                statistic: kruskal.h?,
                degrees: kruskal.degrees,
                by_curve: kruskal.p,
                exact: reordered.filter(|test| test.exact).map(|test| test.p),
                sums: kruskal.rank_sums,
                agreement: None,
                pairs: kruskal.pairs.iter().map(|pair| (*pair, "dunn-holm")).collect(),
            })
        }
        _ => None,
    }
}

impl Described {
    /// The levels of a factor.
    /// Every plot by the levels of a factor.
    pub(crate) fn dots(&self, verdict: &Verdict, group: &Group, words: &Words) -> DotsChart {
        trial_charts::dots(&self.trial, verdict, group, &self.names, self.factor_told(group.compared), words)
    }

    /// What the fit leaves, where each plot stands.
    pub(crate) fn residuals(&self, verdict: &Verdict, words: &Words) -> FieldMap {
        trial_charts::residuals(&self.trial, verdict, &self.names, self.places.as_deref(), words)
    }

    /// The column of a factor.
    fn factor(&self, compared: Compared) -> &str {
        let at = match compared {
            Compared::Main => 1,
            Compared::Treatment | Compared::Sub => self.columns.len() - 1,
        };
        &self.columns[at]
    }

    /// What people call that factor.
    fn factor_told(&self, compared: Compared) -> &str {
        let at = match compared {
            Compared::Main => 1,
            Compared::Treatment | Compared::Sub => self.called.len() - 1,
        };
        &self.called[at]
    }

    /// What a line of the table stands for, as files name it.
    fn source(&self, line: Line) -> String {
        match line {
            Line::Block | Line::Row => self.columns[0].clone(),
            Line::Column | Line::Main => self.columns[1].clone(),
            Line::Treatment | Line::Sub => self.columns[self.columns.len() - 1].clone(),
            Line::MainBySub => format!("{}:{}", self.columns[1], self.columns[2]),
            Line::Error => "error".to_owned(),
            Line::ErrorMain => "error_a".to_owned(),
            Line::ErrorSub => "error_b".to_owned(),
            Line::ErrorCrossing => "error_c".to_owned(),
            Line::Total => "total".to_owned(),
        }
    }

    /// The same for people.
    fn source_told(&self, line: Line, words: &Words) -> String {
        let split = matches!(self.trial.structure(), Structure::Split { .. });
        match line {
            Line::Error => words.label("trial-line-error"),
            Line::ErrorMain => words.label("trial-line-error-main"),
            Line::ErrorSub if split => words.label("trial-line-error"),
            Line::ErrorSub => words.label("trial-line-error-sub"),
            Line::ErrorCrossing => words.label("trial-line-error-crossing"),
            Line::Total => words.label("trial-line-total"),
            Line::Block | Line::Row => self.called[0].clone(),
            Line::Column | Line::Main => self.called[1].clone(),
            Line::Treatment | Line::Sub => self.called[self.called.len() - 1].clone(),
            Line::MainBySub => format!("{}:{}", self.called[1], self.called[2]),
        }
    }

    /// What blocks lack, and what was done with scores over time.
    pub(crate) fn notes(&self, words: &Words) -> Vec<String> {
        let mut notes = self.extra.clone();
        if let Some(visits) = &self.visits {
            let day = |day: Option<&f64>| words.stated(day.copied().unwrap_or(0.0));
            let first = visits.days.first().copied().unwrap_or(0.0);
            let since = |day: Option<&f64>| words.stated(day.copied().unwrap_or(0.0) - first);
            // Dates are counted from the first one.
            let dated = first > 100_000.0;
            let told = |own: Option<&f64>| if dated { since(own) } else { day(own) };
            let ends = [("from", told(visits.days.first())), ("to", told(visits.days.last()))];
            notes.push(words.say("trial-curves", &ends));
            for (count, id) in
                [(visits.drawn, "trial-visits-drawn"), (visits.left_out, "trial-visits-left-out")]
            {
                if count > 0 {
                    notes.push(words.say_count(id, counted(count), &[]));
                }
            }
        }
        if let Structure::Blocks { block, treatment } = self.trial.structure() {
            let kept = self.trial.kept();
            for (number, name) in self.blocks.iter().enumerate() {
                for (level, treated) in self.names.treatments.iter().enumerate() {
                    let there =
                        kept.iter().any(|&plot| block.of[plot] == number && treatment.of[plot] == level);
                    if !there {
                        let values = [("block", name.clone()), ("treatment", treated.clone())];
                        notes.push(words.say("trial-block-lacks", &values));
                    }
                }
            }
        }
        notes
    }
}

/// For programs.
fn document(described: &Described, verdict: &Verdict, ranks: Option<&Ranked>, words: &Words) -> Value {
    let analysis = &verdict.analysis;
    let row = |row: &Row| {
        json!({
            "source": described.source(row.line), "df": row.degrees, "ss": row.squares,
            "ms": row.mean_square(), "f": row.f, "p": row.p,
        })
    };
    let comparisons = verdict.judged.iter().flat_map(|judged| {
        judged.comparisons.iter().map(|c| {
            let levels = described.names.levels(judged.compared);
            json!({
                "factor": described.factor(judged.compared), "a": levels[c.a], "b": levels[c.b],
                "difference": c.difference, "low": c.low, "high": c.high, "p": c.p, "method": c.method.name(),
                "standard_error": c.standard_error,
            })
        })
    });
    let reordered = |test: &Randomised, compared: Compared| {
        json!({
            "factor": described.factor(compared), "p": test.p, "arrangements": test.arrangements,
            "at_least": test.at_least, "exact": test.exact, "smallest_p": test.smallest,
        })
    };
    let prompt = |prompt: Option<Prompt>| prompt.map(|own| json!({ "value": finite(own.value), "p": own.p }));
    let efficiency = efficiency(&described.trial, analysis);
    let effect = effect(&described.trial, analysis);
    let left: Vec<Value> = diagnostic::left(analysis)
        .iter()
        .map(|left| {
            json!({
                "plot": described.names.plots[left.plot], "line": described.lines[left.plot],
                "residual": left.residual, "studentised": left.studentised,
            })
        })
        .collect();
    json!({
        "format": 1,
        "design": described.kind.name(),
        "response": described.response,
        "plots": {
            "planned": described.trial.planned(), "kept": described.trial.kept().len(),
            "lost": described.trial.lost(),
        },
        "anova": analysis.rows.iter().map(row).collect::<Vec<_>>(),
        "error_df": analysis.groups.first().map_or(analysis.error.degrees, |group| group.error.degrees),
        "grand_mean": analysis.grand_mean,
        "means": analysis.groups.iter().flat_map(|group| means(described, verdict, group)).collect::<Vec<_>>(),
        "combinations": analysis.combinations.iter().map(|own| json!({
            "main": described.names.treatments[own.main], "sub": described.names.subs[own.sub],
            "plots": own.plots, "mean": own.mean,
        })).collect::<Vec<_>>(),
        "cv_pct": analysis.variation_pct(),
        "comparisons": comparisons.collect::<Vec<_>>(),
        "contrasts": contrasts(described, verdict).iter().map(|(name, c)| json!({
            "weights": name, "estimate": c.estimate, "standard_error": c.standard_error,
            "low": c.low, "high": c.high, "p": c.p, "ss": c.squares,
        })).collect::<Vec<_>>(),
        "reordering": verdict.judged.iter()
            .filter_map(|judged| judged.randomised.map(|test| reordered(&test, judged.compared)))
            .collect::<Vec<_>>(),
        "ranks": ranks.map(|ranks| json!({
            "test": ranks.test, "statistic": ranks.statistic, "df": ranks.degrees, "p": ranks.by_curve,
            "exact_p": ranks.exact, "agreement": ranks.agreement,
            "pairs": ranks.pairs.iter().map(|((a, b, p), method)| json!({
                "a": described.names.treatments[*a], "b": described.names.treatments[*b], "p": p, "method": method,
            })).collect::<Vec<_>>(),
            "rank_sums": described.names.treatments.iter().cloned()
                .zip(ranks.sums.iter().map(|sum| json!(sum))).collect::<Map<String, Value>>(),
        })),
        "efficiency": efficiency.map(|own| json!({
            "over_one_shuffle": own.over_one_shuffle, "adjusted": own.adjusted,
        })),
        "effect": effect.map(|own| json!({ "partial_eta2": own.partial_eta, "omega2": own.omega })),
        "residuals": left,
        "prompts": {
            "shapiro_wilk": prompt(diagnostic::shapiro_wilk(&analysis.residuals)),
            "brown_forsythe": prompt(spread(described)),
            "non_additivity":
                prompt(diagnostic::non_additivity(&described.trial, analysis).map(|own| own.0)),
        },
        "notes": described.notes(words),
        "refused": verdict.refused,
        "verdict": sentences(verdict, &described.names, words),
    })
}

/// JSON has no infinity.
fn finite(value: f64) -> Option<f64> {
    value.is_finite().then_some(value)
}

/// Whether the treatments spread alike.
fn spread(described: &Described) -> Option<Prompt> {
    let trial = &described.trial;
    let (_, factor) = trial.structure().compared().first().copied()?;
    let factors = trial.structure().factors();
    let own = factors.get(factor)?;
    let mut groups = vec![Vec::new(); own.levels];
    for (&plot, value) in trial.kept().iter().zip(trial.above()) {
        groups[own.of[plot]].push(value);
    }
    diagnostic::brown_forsythe(&groups)
}

fn contrasts<'a>(described: &'a Described, verdict: &Verdict) -> Vec<(&'a str, Contrast)> {
    let group = verdict.analysis.groups.first().filter(|_| !verdict.refused);
    let one = |(name, weights): &'a (String, Vec<f64>)| Some((name.as_str(), group?.contrast(weights)));
    described.contrasts.iter().filter_map(one).collect()
}

/// Letters of all pairs.
fn lettered(group: &Group) -> Vec<String> {
    let pairs = group.tukey();
    let means: Vec<f64> = group.means.iter().map(|mean| mean.adjusted).collect();
    letters(&means, |a, b| pairs.iter().any(|c| (c.a, c.b) == (a.min(b), a.max(b)) && c.is_clear()))
}

fn means(described: &Described, verdict: &Verdict, group: &Group) -> Vec<Value> {
    let letters = (!verdict.refused).then(|| lettered(group));
    let half = |level: usize| Some(group.mean_half_width(level)).filter(|half| half.is_finite());
    described
        .names
        .levels(group.compared)
        .iter()
        .zip(&group.means)
        .enumerate()
        .map(|(level, (name, mean))| {
            json!({
                "factor": described.factor(group.compared), "level": name, "plots": mean.plots,
                "mean": mean.adjusted, "plain_mean": mean.plain, "sd": mean.deviation,
                "low": half(level).map(|half| mean.adjusted - half),
                "high": half(level).map(|half| mean.adjusted + half),
                "letters": letters.as_ref().map(|letters| &letters[level]),
            })
        })
        .collect()
}

/// For people: what may be said, then the figures.
fn told(described: &Described, verdict: &Verdict, ranks: Option<&Ranked>, words: &Words) -> String {
    let analysis = &verdict.analysis;
    let mut parts = vec![sentences(verdict, &described.names, words).join("\n")];
    let notes = described.notes(words);
    if !notes.is_empty() {
        parts.push(notes.join("\n"));
    }
    let several = analysis.groups.len() > 1;
    for group in &analysis.groups {
        parts.push(means_told(described, verdict, group, several, words));
    }
    if !verdict.refused {
        parts.push(words.label("trial-letters-about"));
        parts.push(differences(described, verdict, words));
    }
    parts.push(variances(described, verdict, words));
    let mut lines = Vec::new();
    if let Some(variation) = analysis.variation_pct() {
        let values = [
            ("variation", words.percent(Share::from_fraction(variation / 100.0))),
            ("degrees", words.stated(counted(analysis.error.degrees))),
        ];
        lines.push(words.say("trial-spread", &values));
    }
    for judged in &verdict.judged {
        let Some(test) = judged.randomised else { continue };
        let id = if test.exact { "trial-reordered-exact" } else { "trial-reordered-drawn" };
        let arrangements = u32::try_from(test.arrangements).map_or(f64::INFINITY, f64::from);
        let values = [("arrangements", words.stated(arrangements)), ("rarity", rarity(test.p, words))];
        let told = words.say(id, &values);
        lines.push(if several { format!("{}: {told}", described.factor(judged.compared)) } else { told });
    }
    if let Some(ranks) = ranks {
        let test = if ranks.test == "friedman" { "Friedman" } else { "Kruskal-Wallis" };
        let values = [("test", test.to_owned()), ("rarity", rarity(ranks.p(), words))];
        lines.push(words.say("trial-ranks", &values));
    }
    if !lines.is_empty() {
        parts.push(lines.join("\n"));
    }
    parts.join("\n\n")
}

fn means_told(
    described: &Described,
    verdict: &Verdict,
    group: &Group,
    several: bool,
    words: &Words,
) -> String {
    let head =
        if several { described.factor(group.compared).to_owned() } else { words.label("trial-treatment") };
    let mut columns = vec![head, words.label("trial-plots"), words.label("trial-mean")];
    if !verdict.refused {
        columns.extend([words.label("trial-likely"), words.label("trial-letters")]);
    }
    let mut table = new_table(columns);
    let letters = if verdict.refused { Vec::new() } else { lettered(group) };
    for (level, (name, mean)) in described.names.levels(group.compared).iter().zip(&group.means).enumerate() {
        let mut cells =
            vec![name.clone(), words.stated(counted(mean.plots)), words.significant(mean.adjusted, 4)];
        if let Some(letters) = letters.get(level) {
            let half = group.mean_half_width(level);
            let ends = [mean.adjusted - half, mean.adjusted + half].map(|end| words.significant(end, 4));
            cells.extend([words.range(&ends[0], &ends[1]), letters.clone()]);
        }
        table.add_row(cells);
    }
    table.to_string()
}

fn differences(described: &Described, verdict: &Verdict, words: &Words) -> String {
    let head = ["trial-comparisons", "trial-difference", "trial-likely", "trial-rarity", "trial-by"];
    let mut table = new_table(head.iter().map(|id| words.label(id)).collect());
    let range = |low: f64, high: f64| words.range(&words.significant(low, 3), &words.significant(high, 3));
    for judged in &verdict.judged {
        let levels = described.names.levels(judged.compared);
        for c in &judged.comparisons {
            let pair = [("a", levels[c.a].clone()), ("b", levels[c.b].clone())];
            table.add_row(vec![
                words.say("trial-comparison", &pair),
                words.significant(c.difference, 3),
                range(c.low, c.high),
                rarity(c.p, words),
                words.label(match c.method.name() {
                    "dunnett" => "trial-method-dunnett",
                    "tukey" => "trial-method-tukey",
                    _ => "trial-method-lsd",
                }),
            ]);
        }
    }
    for (name, c) in contrasts(described, verdict) {
        table.add_row(vec![
            name.to_owned(),
            words.significant(c.estimate, 3),
            range(c.low, c.high),
            rarity(c.p, words),
            words.label("trial-method-contrast"),
        ]);
    }
    table.to_string()
}

fn variances(described: &Described, verdict: &Verdict, words: &Words) -> String {
    let head = [
        "trial-source",
        "trial-degrees",
        "trial-squares",
        "trial-mean-square",
        "trial-ratio",
        "trial-rarity",
    ];
    let mut table = new_table(head.iter().map(|id| words.label(id)).collect());
    for row in &verdict.analysis.rows {
        let figure = |value: Option<f64>| value.map_or(String::new(), |value| words.significant(value, 4));
        table.add_row(vec![
            described.source_told(row.line, words),
            words.stated(counted(row.degrees)),
            figure(Some(row.squares)),
            figure(row.mean_square().filter(|_| row.line != Line::Total)),
            figure(row.f),
            row.p.map_or(String::new(), |p| rarity(p, words)),
        ]);
    }
    table.to_string()
}

#[expect(clippy::cast_precision_loss, reason = "counts of plots")]
pub(crate) const fn counted(number: usize) -> f64 {
    number as f64
}
