//! What a finished trial says, in sentences.

use kerfbook_science::trial::comparison::Comparison;
use kerfbook_science::trial::diagnostic::Left;
use kerfbook_science::trial::power::LINE;
use kerfbook_science::trial::structure::Compared;
use kerfbook_science::trial::verdict::{Refusal, Saying, Verdict};
use kerfbook_words::Words;

/// What things are called where the trial was written down.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Names {
    /// Treatments, or levels of the main factor.
    pub treatments: Vec<String>,
    /// Levels of the factor inside.
    pub subs: Vec<String>,
    /// The two factors, where there are two.
    pub factors: Option<[String; 2]>,
    /// Plots, lost ones too.
    pub plots: Vec<String>,
    /// Blocks are pairs.
    pub pairs: bool,
    /// There are no blocks: plots of a treatment are what is repeated.
    pub no_blocks: bool,
    /// What was measured is per cent of yellow leaf.
    pub yellow: bool,
}

impl Names {
    /// The levels of a factor.
    pub fn levels(&self, compared: Compared) -> &[String] {
        if compared == Compared::Sub { &self.subs } else { &self.treatments }
    }

    fn level(&self, compared: Compared, level: usize) -> String {
        self.levels(compared).get(level).cloned().unwrap_or_default()
    }

    fn plot(&self, left: &Left) -> String {
        self.plots.get(left.plot).cloned().unwrap_or_default()
    }
}

/// How rare, as people count: "about 1 in 40".
pub fn rarity(p: f64, words: &Words) -> String {
    /// Rarer than this is not counted out.
    const COUNTED: f64 = 1e-6;
    if p < COUNTED {
        return words.label("trial-one-in-million");
    }
    let times = 1.0 / p;
    if times < 1.95 {
        return words.label("trial-not-rare");
    }
    words.say("trial-one-in", &[("n", words.coarse(times))])
}

/// All sentences, in order.
pub fn sentences(verdict: &Verdict, names: &Names, words: &Words) -> Vec<String> {
    let doubted = |factor: Compared| {
        verdict.sayings.iter().any(|saying| match saying {
            Saying::TooSmall { compared, .. } => *compared == factor,
            Saying::Disagree { compared, by_reordering, .. } => *compared == factor && *by_reordering > LINE,
            _ => false,
        })
    };
    let shown = verdict.sayings.iter().any(|saying| matches!(saying, Saying::Differs { .. }));
    let mut said = Vec::with_capacity(verdict.sayings.len() + 2);
    for saying in &verdict.sayings {
        if *saying == Saying::FieldAndSeason {
            said.extend(
                verdict.judged.iter().filter_map(|judged| missed(verdict, judged.compared, names, words)),
            );
        }
        if names.yellow && shown && *saying == Saying::FieldAndSeason {
            said.push(words.label("trial-cause"));
        }
        if matches!(saying, Saying::Interaction { .. }) {
            said.push(sentence(saying, names, &doubted, words));
            said.push(combined(verdict, names, words));
            continue;
        }
        let plain = sentence(saying, names, &doubted, words);
        said.push(match (of_factor(saying), &names.factors) {
            (Some(compared), Some([main, sub])) => {
                let factor = if compared == Compared::Sub { sub } else { main };
                words.say("trial-of-factor", &[("factor", factor.clone()), ("said", plain)])
            }
            _ => plain,
        });
    }
    said
}

/// What each combination of two factors came to.
fn combined(verdict: &Verdict, names: &Names, words: &Words) -> String {
    let all = verdict.analysis.combinations.iter().map(|own| {
        let plots = own.plots as f64;
        let number = [("number", words.stated(plots))];
        let values = [
            ("main", names.level(Compared::Main, own.main)),
            ("sub", names.level(Compared::Sub, own.sub)),
            ("mean", words.rounded(own.mean)),
            ("plots", words.say_count("plan-plots", plots, &number)),
        ];
        words.say("trial-combination", &values)
    });
    words.say("trial-combinations", &[("means", all.collect::<Vec<_>>().join("; "))])
}

/// What a trial of this size could have missed, where no other sentence tells it.
fn missed(verdict: &Verdict, factor: Compared, names: &Names, words: &Words) -> Option<String> {
    let told = verdict.sayings.iter().any(|saying| match saying {
        Saying::NotShown { compared, .. } | Saying::NoneShown { compared, .. } => *compared == factor,
        _ => false,
    });
    let missed = verdict.could_have_missed(factor).filter(|_| !told)?;
    let id = if names.yellow { "trial-could-miss-yellow" } else { "trial-could-miss" };
    let plain = words.say(id, &[("missed", words.rounded(missed))]);
    Some(match &names.factors {
        Some([main, sub]) => {
            let factor = if factor == Compared::Sub { sub } else { main };
            words.say("trial-of-factor", &[("factor", factor.clone()), ("said", plain)])
        }
        None => plain,
    })
}

/// The factor that a saying is about.
const fn of_factor(saying: &Saying) -> Option<Compared> {
    match saying {
        Saying::TooSmall { compared, .. }
        | Saying::Differs { compared, .. }
        | Saying::NotShown { compared, .. }
        | Saying::WithinMargin { compared, .. }
        | Saying::NoneShown { compared, .. }
        | Saying::Disagree { compared, .. } => Some(*compared),
        _ => None,
    }
}

fn sentence(saying: &Saying, names: &Names, doubted: &dyn Fn(Compared) -> bool, words: &Words) -> String {
    let figure = |value: f64| words.rounded(value);
    let pair = |compared: Compared, c: &Comparison| {
        vec![("a", names.level(compared, c.a)), ("b", names.level(compared, c.b))]
    };
    let replicates = if names.pairs {
        "trial-count-pairs"
    } else if names.no_blocks {
        "trial-count-plots"
    } else {
        "trial-count-blocks"
    };
    let count = |number: usize| {
        let number = number as f64;
        words.say_count(replicates, number, &[("number", words.stated(number))])
    };
    let whole = |number: usize| words.stated(number as f64);
    match saying {
        Saying::Refused(refusal) => refused(*refusal, names, words),
        Saying::TooSmall { smallest, replicates, .. } => words
            .say("trial-too-small", &[("count", count(*replicates)), ("rarity", rarity(*smallest, words))]),
        Saying::Thin { replicates, asked } => {
            words.say("trial-thin", &[("count", count(*replicates)), ("asked", whole(*asked))])
        }
        Saying::Differs { compared, comparison: c } => {
            let mut values = pair(*compared, c);
            values.push(("difference", figure(c.difference.abs())));
            let (low, high) = if c.difference < 0.0 { (-c.high, -c.low) } else { (c.low, c.high) };
            values.push(("low", figure(low)));
            values.push(("high", figure(high)));
            values.push(("rarity", rarity(c.p, words)));
            words.say(
                match (doubted(*compared), names.yellow, c.difference < 0.0) {
                    (true, _, false) => "trial-seen-more",
                    (true, _, true) => "trial-seen-less",
                    (false, true, false) => "trial-yellower",
                    (false, true, true) => "trial-greener",
                    (false, false, false) => "trial-more",
                    (false, false, true) => "trial-less",
                },
                &values,
            )
        }
        Saying::NotShown { compared, comparison, missed } => {
            let mut values = pair(*compared, comparison);
            values.push(("missed", figure(*missed)));
            let id = if names.yellow { "trial-not-shown-yellow" } else { "trial-not-shown" };
            words.say(id, &values)
        }
        Saying::WithinMargin { compared, comparison, margin } => {
            let mut values = pair(*compared, comparison);
            values.push(("margin", words.stated(*margin)));
            words.say("trial-within-margin", &values)
        }
        Saying::NoneShown { missed, .. } => words.say("trial-none-shown", &[("missed", figure(*missed))]),
        Saying::Disagree { by_f, by_reordering, .. } => {
            let id = if *by_reordering > LINE { "trial-disagree-not" } else { "trial-disagree-shown" };
            words.say(id, &[("table", rarity(*by_f, words)), ("reordering", rarity(*by_reordering, words))])
        }
        Saying::Interaction { .. } => words.label("trial-interaction"),
        Saying::Drives { left } => words.say("trial-drives", &[("plot", names.plot(left))]),
        Saying::Odd { left } => words.say("trial-odd", &[("plot", names.plot(left))]),
        Saying::Lost { lost, planned } => {
            words.say("trial-lost", &[("lost", whole(*lost)), ("planned", whole(*planned))])
        }
        Saying::FieldAndSeason => words.label("trial-field-and-season"),
    }
}

fn refused(refusal: Refusal, names: &Names, words: &Words) -> String {
    let whole = |number: usize| words.stated(number as f64);
    match refusal {
        Refusal::Demonstration => words.label("trial-demonstration"),
        Refusal::TooManyLost { lost, planned } => {
            words.say("trial-too-many-lost", &[("lost", whole(lost)), ("planned", whole(planned))])
        }
        Refusal::LevelLost { compared, level: Some(level) } => {
            words.say("trial-level-lost", &[("treatment", names.level(compared, level))])
        }
        Refusal::LevelLost { level: None, .. } => words.label("trial-not-tied"),
        Refusal::NoSpread => words.label("trial-no-spread"),
    }
}
