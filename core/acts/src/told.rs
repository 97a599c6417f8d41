//! The answer in the reader's words: one instruction, one amount, one thing to give, one date to look, one thing not
//! to do; then one line of cost, and what is least known.

use kerfbook_science::units::{Area, AreaMass, Length, Mass, Share, Volume};
use kerfbook_words::{Container, Per, Spread, Words};
use serde::Serialize;

use crate::answer::{Answer, Better, Cost, Give, Not, Release};
use crate::compare::{Comparison, Three};
use crate::forecast::{Forecast, Measured};
use crate::judge::Judging;
use crate::load::{Carried, Counted};
use crate::question::Narrowing;
use crate::scenario::{PlaceKind, Scenario};
use crate::way::{self, Row};

/// The answer, told.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Told {
    /// What to do.
    #[serde(rename = "do")]
    pub instruction: String,
    /// How much, in the grower's container.
    pub amount: String,
    /// What to give.
    pub give: String,
    /// When to look.
    pub look: String,
    /// What not to do.
    pub not: String,
    /// What it costs, with its range.
    pub cost: String,
    /// The biggest unknown.
    pub least_known: String,
    /// The question that would narrow it.
    pub narrow: String,
    /// Distance to keep off stems.
    pub keep_off: Option<String>,
    /// A better way for whoever can wait.
    pub wait: Option<String>,
    /// Hunger and release.
    pub more: Vec<String>,
    /// The assumption that decides, where one does.
    pub hangs_on: Option<String>,
}

impl Told {
    /// The answer's shape, as it is printed.
    pub fn paragraph(&self, words: &Words) -> String {
        let do_amount = words
            .say("answer-do-amount", &[("do", self.instruction.clone()), ("amount", self.amount.clone())]);
        let mut sentences = vec![do_amount];
        sentences.extend(self.keep_off.clone());
        sentences.extend([self.give.clone(), self.look.clone(), self.not.clone()]);
        let cost = words
            .say("answer-cost", &[("cost", self.cost.clone()), ("least_known", self.least_known.clone())]);
        format!("{}\n{cost}", sentences.join(" "))
    }
}

/// Tells an answer.
pub fn tell(comparison: &Comparison, scenario: &Scenario, words: &Words) -> Told {
    let answer = &comparison.answer;
    let stands_clear = answer.row.is_mulch() && answer.row != Row::Path;
    Told {
        instruction: instruction(comparison, scenario, words),
        amount: amount(answer, words),
        give: give(&answer.give, scenario, words),
        look: words.say(look_id(scenario), &[("date", words.date(answer.look))]),
        not: not(answer.not, words),
        cost: cost(&answer.cost, words),
        least_known: words
            .say("least-known", &[("what", words.label(&format!("least-known-{}", answer.least_known)))]),
        narrow: narrow(answer, words),
        keep_off: stands_clear.then(|| {
            let id =
                if scenario.place.kind == PlaceKind::Rings { "keep-off-trunks" } else { "keep-off-stems" };
            words.say(id, &[("gap", words.depth(Length::from_cm(way::RING_GAP_CM.value)))])
        }),
        wait: answer.if_you_can_wait.map(|better| wait(better, scenario.place.area, words)),
        more: more(answer, words),
        hangs_on: hangs_on(comparison, words),
    }
}

/// The question to ask, and by how much it would narrow the range; that there is none where none would.
fn narrow(answer: &Answer, words: &Words) -> String {
    asked(answer.question, words)
}

/// A question to ask, and by how much it would narrow the range; that there is none where none would.
pub fn asked(question: Option<Narrowing>, words: &Words) -> String {
    let Some(best) = question else { return words.label("narrow-other") };
    let share = words.percent(Share::from_fraction(best.narrower));
    let asked = words.label(&format!("narrow-{}", best.question.id()));
    format!("{asked} {}", words.say("narrow-by", &[("share", share)]))
}

fn instruction(comparison: &Comparison, scenario: &Scenario, words: &Words) -> String {
    let area = scenario.place.area;
    match comparison.answer.row {
        Row::Bare => words.label("do-nothing"),
        Row::WorkedIn => words
            .say("do-worked-in", &[("depth", words.depth(Length::from_cm(way::WORKED_IN_DEPTH_CM.value)))]),
        Row::OnTop if scenario.place.kind == PlaceKind::Rings => words.label("do-ring"),
        Row::OnTop => words.label("do-on-top"),
        Row::OverCompost => {
            let compost = words.volume(compost_volume(area));
            words.say("do-over-compost", &[("compost", compost)])
        }
        Row::OverUrine => {
            let urine = words.liquid(Volume::from_litres(area.m2() * way::URINE_LITRES_M2.value));
            words.say("do-over-urine", &[("urine", urine)])
        }
        Row::CompostedFirst => {
            match way::composted_with_manure(&comparison.load, way::Wood::of(&comparison.load)) {
                Some(made) => words.say(
                    "do-composted-first",
                    &[
                        ("manure", words.mass_about(wet_manure(made.manure_dry_t_ha, area))),
                        ("months", words.months(way::HEAP_MONTHS.value)),
                    ],
                ),
                None => {
                    words.say("do-composted-first-alone", &[("months", words.months(way::HEAP_MONTHS.value))])
                }
            }
        }
        Row::Path => words.label("do-path"),
        Row::Ring => words.label("do-ring"),
    }
}

/// What waiting would bring, and over how much ground such a heap belongs.
fn wait(better: Better, area: Area, words: &Words) -> String {
    let told = words.say(
        "wait-composted",
        &[
            ("months", words.months(better.months)),
            ("manure", words.mass_about(Mass::from_kg(better.manure_wet_kg))),
            ("more", words.nitrogen(AreaMass::from_kg_ha(better.more_kg_ha))),
        ],
    );
    let limit = way::MANURE_LIMIT_KG_HA.value;
    if better.brought_kg_ha <= limit {
        return told;
    }
    let spread = words.say(
        "wait-composted-spread",
        &[
            ("brought", words.nitrogen(AreaMass::from_kg_ha(better.brought_kg_ha))),
            ("area", words.area(area * (better.brought_kg_ha / limit))),
            ("limit", words.nitrogen(AreaMass::from_kg_ha(limit))),
        ],
    );
    format!("{told} {spread}")
}

/// Finished compost for a place at the way's dose.
fn compost_volume(area: Area) -> Volume {
    area.volume_of(Length::from_cm(way::COMPOST_UNDER_CM.value))
}

/// Fresh manure for a place.
fn wet_manure(dry_t_ha: f64, area: Area) -> Mass {
    area.mass_of(AreaMass::from_t_ha(dry_t_ha)) / (1.0 - way::MANURE_MOISTURE.value)
}

/// An amount in the container that suits it.
pub fn in_containers(counted: &Counted, words: &Words) -> String {
    let (carried, count) = counted.told_in();
    let container = match carried {
        Carried::Barrows => Container::Barrow,
        Carried::Buckets => Container::Bucket,
        Carried::Trailers => Container::Trailer,
    };
    words.containers(container, count)
}

fn amount(answer: &Answer, words: &Words) -> String {
    let containers = in_containers(&answer.amount.counted, words);
    let told = if answer.row.is_mulch() {
        let depth = words.depth(Length::from_mm(answer.amount.depth_mm));
        words.say("amount-layer", &[("depth", depth), ("containers", containers)])
    } else {
        words.say("amount-containers", &[("containers", containers)])
    };
    if answer.amount.less_than_load { words.say("amount-less-than-load", &[("amount", told)]) } else { told }
}

fn give(give: &Give, scenario: &Scenario, words: &Words) -> String {
    let nitrogen = |kg_ha: f64| words.nitrogen(AreaMass::from_kg_ha(kg_ha));
    match give {
        Give::Nothing if scenario.crops.iter().any(|crop| crop.fixed.fraction() > 0.0) => {
            words.label("give-nothing-legume")
        }
        Give::Nothing => words.label("give-nothing"),
        Give::NothingCatchingNitrate { saved_kg_ha } => {
            words.say("give-nothing-catching", &[("saved", nitrogen(*saved_kg_ha))])
        }
        Give::Feed { crop_kg_ha, wood_kg_ha, source, product, liquid, most } => {
            let amount = if *liquid {
                words.liquid(Volume::from_litres(*product))
            } else {
                words.mass(Mass::from_kg(*product))
            };
            let id = match (*most, *crop_kg_ha > 0.0) {
                (true, _) => "give-most",
                (false, true) => "give-crop-and-wood",
                (false, false) => "give-wood",
            };
            words.say(
                id,
                &[
                    ("amount", amount),
                    ("source", words.feed(source)),
                    ("wood", nitrogen(*wood_kg_ha)),
                    ("crop", nitrogen(*crop_kg_ha)),
                ],
            )
        }
    }
}

fn look_id(scenario: &Scenario) -> &'static str {
    if scenario.crops.is_empty() { "look-layer" } else { "look-leaves" }
}

fn not(not: Not, words: &Words) -> String {
    let cost = |kg_ha: f64| vec![("cost", words.nitrogen(AreaMass::from_kg_ha(kg_ha)))];
    match not {
        Not::DigIn { costs_kg_ha } => words.say("not-dig-in-costs", &cost(costs_kg_ha)),
        Not::SameAgain { costs_kg_ha } => words.say("not-same-again-costs", &cost(costs_kg_ha)),
        Not::AgainstStems => words.label("not-against-stems"),
    }
}

fn spread(three: Three) -> Spread {
    let middle = three.middle();
    Spread { p10: three.p10.unwrap_or(middle), p50: middle, p90: three.p90.unwrap_or(middle) }
}

fn cost(cost: &Cost, words: &Words) -> String {
    if let Some(lost) = cost.lost_g_tree {
        return words.cost(spread(lost), Per::Tree);
    }
    if let Some(lost) = cost.lost_mg_litre {
        return words.cost(spread(lost), Per::Litre);
    }
    match cost.lost_kg_ha {
        Some(lost) => words.cost(spread(lost), Per::Area),
        None => words.say(
            "cost-nothing-grows",
            &[
                ("tied", words.nitrogen(AreaMass::from_kg_ha(cost.tied_60_kg_ha.middle()))),
                ("days", words.days(60.0)),
            ],
        ),
    }
}

/// What readings changed in a forecast, and why, in sentences.
pub fn changed(forecast: &Forecast, measured: &[Measured], grows: bool, words: &Words) -> Vec<String> {
    let Some(change) = &forecast.change else { return Vec::new() };
    let range = |three: Three| {
        let (nitrogen, number) =
            (words.nitrogen(AreaMass::from_kg_ha(three.middle())), |kg_ha: Option<f64>| {
                words.nitrogen_number(AreaMass::from_kg_ha(kg_ha.unwrap_or(three.middle())))
            });
        words.around(nitrogen, &number(three.p10), &number(three.p90))
    };
    let (id, before, after) = if grows {
        ("changed-lost", change.before.lost, change.after.lost)
    } else {
        ("changed-tied", change.before.tied, change.after.tied)
    };
    let mut told = vec![words.say(id, &[("before", range(before)), ("after", range(after))])];
    // Rain stands in the weather; the readings are what is left, in order.
    let weighed = measured.iter().filter(|measured| !matches!(measured, Measured::Rain { .. }));
    if let Some((moved, reading)) =
        change.moved.and_then(|moved| weighed.clone().nth(moved.reading).map(|reading| (moved, reading)))
    {
        let nitrogen = |kg_ha: f64| words.nitrogen(AreaMass::from_kg_ha(kg_ha));
        let part = |part: f64| words.percent(Share::from_fraction(part));
        let (id, read, foretold) = match reading {
            Measured::SoilNitrate { .. } => {
                ("changed-by-soil-nitrate", nitrogen(moved.read), nitrogen(moved.foretold))
            }
            Measured::Leaf { .. } => ("changed-by-leaf", part(moved.read), part(moved.foretold.min(1.0))),
            Measured::DrawTest { .. } | Measured::Rain { .. } => {
                ("changed-by-draw-test", part(moved.read), part(moved.foretold))
            }
        };
        told.push(words.say(id, &[("read", read), ("foretold", foretold)]));
    }
    if let Some(learned) = change.learned {
        let what = words.label(&format!("least-known-{}", learned.behind));
        told.push(words.say("changed-learned", &[("what", what)]));
    }
    if let Some(effective) = forecast.effective_size {
        let count = |count: f64| words.number(count, 0);
        let runs = [("runs", count(f64::from(forecast.runs))), ("effective", count(effective))];
        told.push(words.say("forecast-weighed", &runs));
    }
    if forecast.counts.is_some_and(|counts| counts < 1.0) {
        told.push(words.label("forecast-disagrees"));
    }
    told
}

/// Frozen forecasts against what was read later, in sentences.
pub fn judged(judging: &Judging, words: &Words) -> Vec<String> {
    let mut told = Vec::new();
    for (id, tally) in [("judged-mineral", judging.mineral()), ("judged-hungry", judging.hungry())] {
        if tally.of > 0 {
            let arguments = [
                ("hits", words.number(f64::from(tally.hits), 0)),
                ("of", words.number(f64::from(tally.of), 0)),
                ("expected", words.number(tally.expected, 1)),
                ("more", words.number(tally.give_or_take, 1)),
            ];
            told.push(words.say(id, &arguments));
        }
    }
    if told.is_empty() {
        told.push(words.label("judged-none"));
    }
    told
}

/// Hunger beside the bare place's, and when it lets go.
fn more(answer: &Answer, words: &Words) -> Vec<String> {
    let cost = &answer.cost;
    let mut told = Vec::new();
    if cost.annual {
        told.push(match (cost.hungry, cost.hungry_bare) {
            (Some(here), Some(bare)) if here == bare => {
                words.say("hungry-same", &[("date", words.date(here))])
            }
            (Some(here), Some(bare)) => {
                words.say("hungry-both", &[("date", words.date(here)), ("bare", words.date(bare))])
            }
            (Some(here), None) => words.say("hungry-only", &[("date", words.date(here))]),
            (None, Some(bare)) => words.say("hungry-bare-only", &[("bare", words.date(bare))]),
            (None, None) => words.label("hungry-never"),
        });
    }
    match cost.release {
        Release::By(date) => told.push(words.say("release-by", &[("date", words.month_and_year(date))])),
        Release::NotWithin { days, share } => {
            let within = words.not_within(days, Share::from_fraction(share));
            told.push(words.say("release-not-within", &[("within", within)]));
        }
        Release::Gives => {}
    }
    told
}

/// What a mulch costs hangs on the upward flux, which nobody has measured well: say so where it decides.
fn hangs_on(comparison: &Comparison, words: &Words) -> Option<String> {
    let hangs = comparison.answer.upward_flux?;
    let told = |kg_ha: f64| words.nitrogen(AreaMass::from_kg_ha(kg_ha));
    Some(words.say(
        "assumption-decides-upward-flux",
        &[("high", told(hangs.high_kg_ha)), ("low", told(hangs.low_kg_ha))],
    ))
}
