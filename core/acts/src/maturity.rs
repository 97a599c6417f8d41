//! Whether a batch is ready: every test of it that the book has, together, how long it cured, and what seedlings said.

use chrono::NaiveDate;
use kerfbook_ledger::kind::{Answer, BatchTested, HeatRead};
use kerfbook_ledger::projection::view::Said;
use kerfbook_ledger::{BatchView, PileView};
use kerfbook_science::compost::maturity::{CURE_DAYS, CURES_UNDER_C, FEWEST_TESTS, Maturity, Test};
use kerfbook_words::Words;

/// What the tests of a batch until a day say.
#[derive(Debug, Clone, PartialEq)]
pub struct Readiness {
    /// The last figure of each test.
    pub tests: Vec<Test>,
    /// All of them together.
    pub maturity: Maturity,
    /// Seedlings grown in it were hurt, as weedkillers do that outlast animals and compost.
    pub seedlings_hurt: Option<bool>,
}

/// What the tests of a batch say; none where nothing was tested that tells of it.
pub fn of_batch(batch: &BatchView, on: NaiveDate) -> Option<Readiness> {
    let until = |test: &&Said<BatchTested>| test.date.naive() <= on;
    let said = || batch.tests.iter().rev().filter(until).map(|test| &test.body);
    // What was only reckoned when the pile was taken down is no test.
    let ratio = said().find_map(|test| test.carbon_nitrogen_x100);
    let hundredth = |figure: u32| f64::from(figure) / 100.0;
    let of_decay: Vec<Test> = [
        said().find_map(|test| test.ammonium_nitrate_x100).map(hundredth).map(Test::AmmoniumNitrate),
        said().find_map(|test| test.dioxide_x100).map(hundredth).map(Test::Dioxide),
        said().find_map(|test| test.emergence_bp).map(hundredth).map(Test::Emergence),
        said().find_map(|test| test.self_heating_centi_c).map(hundredth).map(Test::SelfHeating),
        said().find_map(|test| test.oxygen_mg_kg_h).map(f64::from).map(Test::OxygenUptake),
        said().find_map(|test| test.germination_bp).map(hundredth).map(Test::Germination),
    ]
    .into_iter()
    .flatten()
    .collect();
    let seedlings_hurt = said().find_map(|test| match test.seedlings_hurt {
        Some(Answer::Yes) => Some(true),
        Some(Answer::No) => Some(false),
        Some(Answer::Unknown) | None => None,
    });
    if of_decay.is_empty() && seedlings_hurt.is_none() {
        return None;
    }
    let gate = ratio.map(hundredth).map(Test::CarbonNitrogen);
    let tests: Vec<Test> = gate.into_iter().chain(of_decay).collect();
    Some(Readiness { maturity: Maturity::of(&tests), tests, seedlings_hurt })
}

impl Readiness {
    /// Seedlings first, then what the tests say together, then each test with who set its classes.
    pub fn told(&self, words: &Words) -> Vec<String> {
        let mut said = Vec::new();
        match self.seedlings_hurt {
            Some(true) => said.push(words.label("maturity-seedlings-hurt")),
            Some(false) => said.push(words.label("maturity-seedlings-well")),
            None => {}
        }
        let of_decay = self.tests.iter().any(|test| !matches!(test, Test::CarbonNitrogen(_)));
        if of_decay {
            let fewest = FEWEST_TESTS.value.to_string();
            said.push(words.say(&format!("maturity-{}", self.maturity.name()), &[("fewest", fewest)]));
            said.extend(self.tests.iter().map(|test| one(test, words)));
        }
        said
    }
}

/// One test: its figure, what it says alone, and who says so.
fn one(test: &Test, words: &Words) -> String {
    let values = [
        ("figure", words.stated(test.figure())),
        ("class", words.label(&format!("maturity-class-{}", test.class().name()))),
        ("source", words.body_and_year(&test.source())),
    ];
    words.say(&format!("maturity-test-{}", test.name().replace('_', "-")), &values)
}

/// How long a pile has cured: days since its hottest zone was last read at or above the heat in which it cures. None where
/// nobody read it, or it is that hot still.
pub fn cured(pile: &PileView, on: NaiveDate) -> Option<i64> {
    let end = pile.finished.first().map_or(on, |end| end.date.naive().min(on));
    let read = || pile.heat.iter().filter(|read| read.date.naive() <= end);
    let cool =
        |read: &&Said<HeatRead>| f64::from(read.body.temperature_centi_c) / 100.0 < CURES_UNDER_C.value;
    let hot = read().filter(|read| !cool(read)).map(|read| read.date.naive()).max();
    // It cures from the first cool day that was read after the last hot one: what lies between is not known.
    let from = read()
        .filter(cool)
        .map(|read| read.date.naive())
        .filter(|date| hot.is_none_or(|hot| *date > hot))
        .min()?;
    Some((end - from).num_days())
}

/// How long a pile has cured, in words; none where nobody read its heat.
pub fn cure_told(pile: &PileView, on: NaiveDate, words: &Words) -> Option<String> {
    if pile.heat.is_empty() {
        return None;
    }
    let least = f64::from(CURE_DAYS.value);
    let wanted = ("wanted", words.days(least));
    let under = kerfbook_science::units::Temperature::from_c(CURES_UNDER_C.value);
    let under = ("under", words.temperature(under));
    let source = ("source", words.body_and_year(&CURE_DAYS.source));
    let Some(days) = cured(pile, on) else {
        return Some(words.say("maturity-no-cure", &[under, wanted, source]));
    };
    let id = if days as f64 >= least { "maturity-cured" } else { "maturity-cures" };
    Some(words.say(id, &[("days", words.days(days as f64)), under, wanted, source]))
}
