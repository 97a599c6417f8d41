//! What may be said of a finished trial: the content of its sentences. Their words are elsewhere.

use super::anova::{Analysis, Group, Line, analyse};
use super::comparison::{Comparison, Method};
use super::design::{FEW_BLOCKS, FEW_PAIRS, Kind};
use super::diagnostic::{self, Left};
use super::power::{LINE, could_have_missed};
use super::randomisation::{self, Randomised};
use super::real;
use super::structure::{Compared, Structure, Trial};

/// What was asked before the data came in.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Question {
    /// The check among treatments or main levels.
    pub check: Option<usize>,
    /// The check among the levels inside.
    pub sub_check: Option<usize>,
    /// Pairs named beforehand, of treatments or main levels.
    pub pairs: Vec<(usize, usize)>,
    /// A difference that does not matter, in units of the measurement.
    pub margin: Option<f64>,
    /// Seed of the draws of the reordering test.
    pub seed: u64,
}

/// Why nothing is judged.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Refusal {
    /// One of each, or no plots left over for an error: a demonstration.
    Demonstration,
    /// More than a quarter of the plots have no value.
    TooManyLost {
        /// How many.
        lost: usize,
        /// Of how many.
        planned: usize,
    },
    /// A level has no plot left, or the plots left do not tie it to the others.
    LevelLost {
        /// Of which factor.
        compared: Compared,
        /// Which level; `None` where all have plots that do not hang together.
        level: Option<usize>,
    },
    /// Every plot measured the same within its treatment: a slip, or a scale too coarse.
    NoSpread,
}

/// One thing to say.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Saying {
    /// No verdict.
    Refused(Refusal),
    /// No outcome of a trial of this size could be rarer than one in twenty: a look, not a test.
    TooSmall {
        /// The factor that it is about.
        compared: Compared,
        /// The smallest chance there is.
        smallest: f64,
        /// Blocks, pairs or plots of a treatment.
        replicates: usize,
    },
    /// Fewer replicates than the guides ask for.
    Thin {
        /// How many there are.
        replicates: usize,
        /// How many are asked for.
        asked: usize,
    },
    /// An interval clear of no difference.
    Differs {
        /// The factor.
        compared: Compared,
        /// The difference.
        comparison: Comparison,
    },
    /// An interval that covers no difference.
    NotShown {
        /// The factor.
        compared: Compared,
        /// The difference.
        comparison: Comparison,
        /// What it could have missed.
        missed: f64,
    },
    /// An interval within what was said not to matter.
    WithinMargin {
        /// The factor.
        compared: Compared,
        /// The difference.
        comparison: Comparison,
        /// What does not matter.
        margin: f64,
    },
    /// No pair of several is clear of no difference.
    NoneShown {
        /// The factor.
        compared: Compared,
        /// What the widest of the pairs could have missed.
        missed: f64,
    },
    /// F and the reordering test fall on opposite sides of the line; the second one counts.
    Disagree {
        /// The factor.
        compared: Compared,
        /// The chance by F.
        by_f: f64,
        /// The chance by reordering.
        by_reordering: f64,
    },
    /// What one factor does depends on the other.
    Interaction {
        /// How rare.
        p: f64,
    },
    /// One plot decides: without it another thing would be said.
    Drives {
        /// The plot.
        left: Left,
    },
    /// One plot fits badly.
    Odd {
        /// The plot.
        left: Left,
    },
    /// Some plots have no value; the rest was fitted as it stands.
    Lost {
        /// How many.
        lost: usize,
        /// Of how many.
        planned: usize,
    },
    /// The result holds for this field and season.
    FieldAndSeason,
}

/// What is judged of one factor.
#[derive(Debug, Clone, PartialEq)]
pub struct Judged {
    /// Which.
    pub compared: Compared,
    /// Against the check where there is one, else all pairs; then the pairs named beforehand.
    pub comparisons: Vec<Comparison>,
    /// The reordering test.
    pub randomised: Option<Randomised>,
}

/// A judged trial.
#[derive(Debug, Clone, PartialEq)]
pub struct Verdict {
    /// The analysis behind it.
    pub analysis: Analysis,
    /// Factor by factor; empty where nothing is judged.
    pub judged: Vec<Judged>,
    /// What to say, in order.
    pub sayings: Vec<Saying>,
    /// Whether a verdict was refused.
    pub refused: bool,
}

impl Verdict {
    /// What the trial could have missed of a factor, by the widest of its comparisons; none where nothing is judged.
    pub fn could_have_missed(&self, compared: Compared) -> Option<f64> {
        let judged = self.judged.iter().find(|own| own.compared == compared)?;
        let group = self.analysis.group(compared)?;
        judged.comparisons.iter().map(|comparison| missed(comparison, group)).reduce(f64::max)
    }
}

/// The difference that an interval as wide as this one's would be clear of four times in five.
fn missed(comparison: &Comparison, group: &Group) -> f64 {
    let limit = (comparison.high - comparison.difference) / comparison.standard_error;
    could_have_missed(limit, comparison.standard_error, group.error.degrees)
}

/// From this many standard errors on, the plot that fits worst is left out for a try. Common practice, no source.
const TRY_WITHOUT: f64 = 2.5;
/// A quarter of the plots may be lost.
const MOST_LOST: f64 = 0.25;

/// Judges a trial.
pub fn judge(kind: Kind, trial: &Trial, question: &Question) -> Verdict {
    let analysis = analyse(trial);
    if let Some(refusal) = refusal(trial, &analysis) {
        let sayings = vec![Saying::Refused(refusal), Saying::FieldAndSeason];
        return Verdict { analysis, judged: Vec::new(), sayings, refused: true };
    }
    let mut sayings = Vec::new();
    let judged: Vec<Judged> = analysis
        .groups
        .iter()
        .map(|group| Judged {
            compared: group.compared,
            comparisons: comparisons(group, question),
            randomised: randomisation::test(trial, group.compared, question.seed),
        })
        .collect();
    for (one, group) in judged.iter().zip(&analysis.groups) {
        of_factor(kind, trial, &analysis, one, group, question, &mut sayings);
    }
    if let Some(p) = analysis.row(Line::MainBySub).and_then(|row| row.p).filter(|p| *p < LINE) {
        sayings.push(Saying::Interaction { p });
    }
    if trial.lost() > 0 {
        sayings.push(Saying::Lost { lost: trial.lost(), planned: trial.planned() });
    }
    if let Some(saying) = of_plot(trial, &analysis, question) {
        sayings.push(saying);
    }
    let (replicates, asked) = (replicates(trial), if kind == Kind::Pairs { FEW_PAIRS } else { FEW_BLOCKS });
    let small = sayings.iter().any(|saying| matches!(saying, Saying::TooSmall { .. }));
    if replicates < asked && !small {
        sayings.push(Saying::Thin { replicates, asked });
    }
    sayings.push(Saying::FieldAndSeason);
    Verdict { analysis, judged, sayings, refused: false }
}

fn refusal(trial: &Trial, analysis: &Analysis) -> Option<Refusal> {
    let (lost, planned) = (trial.lost(), trial.planned());
    let factors = trial.structure().factors();
    for (compared, factor) in trial.structure().compared() {
        let of = factors[factor];
        let gone = (0..of.levels).find(|&level| !trial.kept().iter().any(|&plot| of.of[plot] == level));
        if gone.is_some() {
            return Some(Refusal::LevelLost { compared, level: gone });
        }
    }
    if replicates(trial) < 2 {
        return Some(Refusal::Demonstration);
    }
    if real(lost) > MOST_LOST * real(planned) {
        return Some(Refusal::TooManyLost { lost, planned });
    }
    for (compared, _) in trial.structure().compared() {
        if analysis.group(compared).is_none() {
            return Some(Refusal::LevelLost { compared, level: None });
        }
    }
    if analysis.groups.iter().any(|group| group.error.degrees == 0) {
        return Some(Refusal::Demonstration);
    }
    let total = analysis.row(Line::Total).map_or(0.0, |row| row.squares);
    let none = |variance: f64| variance <= 1e-20 * total;
    analysis.groups.iter().any(|group| none(group.error.variance)).then_some(Refusal::NoSpread)
}

/// Blocks or pairs; without blocks, plots of the treatment that has fewest left.
fn replicates(trial: &Trial) -> usize {
    match trial.structure() {
        Structure::Single { treatment } => (0..treatment.levels)
            .map(|level| trial.kept().iter().filter(|&&plot| treatment.of[plot] == level).count())
            .min()
            .unwrap_or(0),
        Structure::Square { treatment, .. } => treatment.levels,
        Structure::Blocks { block, .. } | Structure::Split { block, .. } | Structure::Strip { block, .. } => {
            block.levels
        }
    }
}

fn comparisons(group: &Group, question: &Question) -> Vec<Comparison> {
    let check = match group.compared {
        Compared::Treatment | Compared::Main => question.check,
        Compared::Sub => question.sub_check,
    };
    let mut comparisons = check.map_or_else(|| group.tukey(), |check| group.dunnett(check));
    if group.compared != Compared::Sub {
        comparisons.extend(question.pairs.iter().map(|&(a, b)| group.lsd(a, b)));
    }
    comparisons
}

fn of_factor(
    kind: Kind,
    trial: &Trial,
    analysis: &Analysis,
    judged: &Judged,
    group: &Group,
    question: &Question,
    sayings: &mut Vec<Saying>,
) {
    let compared = judged.compared;
    // A small square has few reorderings by its recipe; there F stands alone.
    let reordered = judged.randomised.filter(|own| kind != Kind::LatinSquare || own.smallest <= LINE);
    if let Some(randomised) = reordered.filter(|randomised| randomised.smallest > LINE) {
        let replicates = replicates(trial);
        sayings.push(Saying::TooSmall { compared, smallest: randomised.smallest, replicates });
    }
    let line = match compared {
        Compared::Treatment => Line::Treatment,
        Compared::Main => Line::Main,
        Compared::Sub => Line::Sub,
    };
    let by_f = analysis.row(line).and_then(|row| row.p);
    if let (Some(by_f), Some(by_reordering)) = (by_f, reordered.map(|randomised| randomised.p))
        && (by_f < LINE) != (by_reordering <= LINE)
    {
        sayings.push(Saying::Disagree { compared, by_f, by_reordering });
    }
    let missed = |comparison: &Comparison| missed(comparison, group);
    let say = |comparison: &Comparison| match question.margin {
        Some(margin) if comparison.low > -margin && comparison.high < margin => {
            Saying::WithinMargin { compared, comparison: *comparison, margin }
        }
        _ if comparison.is_clear() => Saying::Differs { compared, comparison: *comparison },
        _ => Saying::NotShown { compared, comparison: *comparison, missed: missed(comparison) },
    };
    let all_pairs = judged.comparisons.iter().filter(|comparison| comparison.method == Method::Tukey).count();
    let clear = judged.comparisons.iter().any(|c| c.method == Method::Tukey && c.is_clear());
    if all_pairs > 1 && !clear && question.margin.is_none() {
        let widest = judged.comparisons.iter().map(missed).fold(0.0, f64::max);
        sayings.push(Saying::NoneShown { compared, missed: widest });
    }
    sayings.extend(
        judged
            .comparisons
            .iter()
            .map(say)
            // Of all pairs only those that are clear are worth a sentence each.
            .filter(|saying| {
                !matches!(saying, Saying::NotShown { comparison, .. }
                    if comparison.method == Method::Tukey && all_pairs > 1)
            }),
    );
}

fn of_plot(trial: &Trial, analysis: &Analysis, question: &Question) -> Option<Saying> {
    let (left, p) = diagnostic::worst(analysis)?;
    if left.studentised?.abs() < TRY_WITHOUT {
        return None;
    }
    let clear = |analysis: &Analysis| -> Vec<bool> {
        analysis
            .groups
            .iter()
            .flat_map(|group| comparisons(group, question))
            .map(|comparison| comparison.is_clear())
            .collect()
    };
    let without = analyse(&trial.without(left.plot));
    if without.groups.len() == analysis.groups.len() && clear(&without) != clear(analysis) {
        return Some(Saying::Drives { left });
    }
    (p < LINE).then_some(Saying::Odd { left })
}
