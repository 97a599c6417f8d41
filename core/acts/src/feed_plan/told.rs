//! A feed plan in the reader's words.

use kerfbook_science::feed;
use kerfbook_science::limit::{self, Bound, Counts, Limit};
use kerfbook_science::units::{AreaMass, Share};
use kerfbook_science::units::{Mass, Volume};
use kerfbook_words::{Units, Words};
use serde::Serialize;

use super::{Another, Each, FeedPlan, Outcome, SourcePlan, Tight, Why};
use crate::scenario::Placed;
use crate::way::Row;

/// The plan to follow, told.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Told {
    /// What to give and when.
    pub give: String,
    /// Where it goes.
    pub placed: Option<String>,
    /// The chance that it keeps, or that is left.
    pub keeps: String,
    /// For the crop anyway and because of the wood.
    pub split: Option<String>,
    /// What stands against more, where more would be needed.
    pub stops: Option<String>,
    /// Another way, where feeding does not do.
    pub another: Option<String>,
    /// Which way the plan takes for granted, where the load's is open.
    pub way: Option<String>,
    /// The last day for a source that must stay away from the harvest.
    pub last_day: Option<String>,
}

impl Told {
    /// As it is printed.
    pub fn paragraph(&self) -> String {
        let mut sentences = vec![self.give.clone()];
        sentences.extend(self.placed.clone());
        sentences.push(self.keeps.clone());
        sentences.extend(
            [&self.split, &self.stops, &self.another, &self.last_day, &self.way]
                .into_iter()
                .flatten()
                .cloned(),
        );
        sentences.join(" ")
    }
}

/// Tells the plan to follow; `None` where no source may be used here.
pub fn tell(plan: &FeedPlan, words: &Words) -> Option<Told> {
    let first = plan.first()?;
    Some(Told {
        give: give(plan, first, words),
        placed: placed(first, words),
        keeps: keeps(plan, first, words),
        split: (!first.feeds.is_empty()).then(|| split(plan, first, words)),
        stops: match &first.outcome {
            Outcome::Limited(tight) if !tight.is_empty() => {
                let told: Vec<String> = tight.iter().map(|tight| stop(*tight, words)).collect();
                Some(words.say("feeds-stops", &[("limits", words.list(&told))]))
            }
            _ => None,
        },
        another: plan.another.map(|another| tell_another(another, words)),
        way: plan.assumed.iter().any(|assumed| assumed.key == "way").then(|| words.label("feeds-way-open")),
        last_day: last_day(first, words),
    })
}

/// An amount as it is weighed out, with what each tree or each litre of soil gets of it.
pub fn amount_with_each(plan: &FeedPlan, whole: feed::Amount, words: &Words) -> String {
    let told = amount(whole, words);
    let Some(each) = plan.each else { return told };
    let us = words.units() == Units::Us;
    let (id, parts) = match each {
        Each::Trees(_) => ("feeds-each-tree", each.count()),
        Each::Litres(litres) if us => ("feeds-each-gallon", Volume::from_litres(litres).us_gallons()),
        Each::Litres(litres) => ("feeds-each-litre", litres),
    };
    let one = match whole {
        feed::Amount::Product(mass) => feed::Amount::Product(mass / parts),
        feed::Amount::Liquid(volume) => feed::Amount::Liquid(volume / parts),
    };
    // What no scale tells is not told.
    let told_apart = match one {
        feed::Amount::Product(mass) => mass.g() >= LEAST_EACH.g(),
        feed::Amount::Liquid(volume) => volume.litres() * 1000.0 >= LEAST_EACH.g(),
    };
    if parts <= 1.0 || !told_apart {
        return told;
    }
    words.say(id, &[("amount", told), ("each", amount(one, words))])
}

/// Less than this of each part is not told.
const LEAST_EACH: Mass = Mass::from_g(0.01);

/// An amount as it is weighed out.
pub fn amount(amount: feed::Amount, words: &Words) -> String {
    match amount {
        feed::Amount::Product(mass) => words.weighed(mass),
        feed::Amount::Liquid(volume) => words.poured(volume),
    }
}

fn share(share: f64, words: &Words) -> String {
    words.percent(Share::from_fraction(share))
}

/// Planned nitrogen, in whole units, so that its parts add up.
fn nitrogen(kg_ha: f64, words: &Words) -> String {
    words.nitrogen_stated(AreaMass::from_kg_ha(kg_ha))
}

fn give(whole: &FeedPlan, plan: &SourcePlan, words: &Words) -> String {
    if plan.feeds.is_empty() {
        let open = matches!(plan.outcome, Outcome::Nothing(Why::Trees | Why::NothingGrows));
        return words.label(if open { "feeds-no-plan" } else { "feeds-give-nothing" });
    }
    let told: Vec<String> = plan
        .feeds
        .iter()
        .enumerate()
        .map(|(at, fed)| {
            let amount = ("amount", amount_with_each(whole, fed.amount, words));
            let date = ("date", words.date(fed.date));
            if at == 0 {
                words.say("feeds-one", &[amount, date, ("source", words.feed(plan.source.name))])
            } else {
                words.say("feeds-one-more", &[amount, date])
            }
        })
        .collect();
    words.say("feeds-give", &[("feeds", words.list(&told))])
}

/// All of it into the soil, or some of it under the layer.
fn placed(plan: &SourcePlan, words: &Words) -> Option<String> {
    let under = plan.feeds.iter().any(|fed| fed.placed == Placed::Under);
    (!plan.feeds.is_empty()).then(|| words.label(if under { "feeds-under" } else { "feeds-mixed" }))
}

fn keeps(plan: &FeedPlan, first: &SourcePlan, words: &Words) -> String {
    let left = first.chance.unwrap_or(0.0);
    let args = [
        ("left", share(left, words)),
        ("without", share(plan.chance_without.unwrap_or(left), words)),
        ("chance", share(plan.chance, words)),
        ("source", words.feed(first.source.name)),
    ];
    let trees = trees(plan, first);
    let id = match first.outcome {
        Outcome::Nothing(Why::NothingGrows) => "feeds-nothing-grows",
        Outcome::Nothing(Why::Trees) => "feeds-nothing-trees",
        Outcome::Nothing(Why::Legume) => "feeds-nothing-legume",
        Outcome::Nothing(Why::Enough) => "feeds-nothing-enough",
        Outcome::Kept if trees => "feeds-keeps-trees",
        Outcome::Kept => "feeds-keeps",
        Outcome::Limited(_) if trees && first.feeds.is_empty() => "feeds-no-help-trees",
        Outcome::Limited(_) if trees => "feeds-most-trees",
        Outcome::Limited(_) if first.feeds.is_empty() => "feeds-no-help",
        Outcome::Limited(_) => "feeds-most",
        Outcome::NotAllowed => "feeds-no-source",
    };
    words.say(id, &args)
}

/// The plan is made for trees, which have no hungry day.
fn trees(plan: &FeedPlan, first: &SourcePlan) -> bool {
    plan.chance_without.is_none() && first.chance.is_none()
}

/// The nitrogen, split.
pub fn split(whole: &FeedPlan, plan: &SourcePlan, words: &Words) -> String {
    let least = crate::answer::NO_DIFFERENCE_KG_HA;
    let id = match (plan.crop_kg_ha < least, plan.wood_kg_ha < least) {
        (_, true) if !trees(whole, plan) => "feeds-split-crop",
        (true, false) if trees(whole, plan) => "feeds-split-trees",
        (true, false) => "feeds-split-wood",
        (true, true) => "feeds-split-trees",
        (false, _) => "feeds-split",
    };
    let mut told = vec![words.say(
        id,
        &[
            ("total", nitrogen(plan.nitrogen_kg_ha(), words)),
            ("crop", nitrogen(plan.crop_kg_ha, words)),
            ("wood", nitrogen(plan.wood_kg_ha, words)),
        ],
    )];
    if plan.spared_kg_ha >= least {
        told.push(words.say("feeds-spared", &[("spared", nitrogen(plan.spared_kg_ha, words))]));
    }
    if !plan.bare_kept {
        told.push(words.label("feeds-bare-limited"));
    }
    told.join(" ")
}

fn stop(tight: Tight, words: &Words) -> String {
    let limit = |value: AreaMass| [("limit", words.nitrogen_stated(value))];
    match tight {
        Tight::AtOnce => words.say("feeds-limit-at-once", &limit(limit::AT_ONCE.value)),
        Tight::InASeason => words.say("feeds-limit-season", &limit(limit::IN_A_SEASON.value)),
        Tight::Rule(rule) => rule_of(rule, words),
        Tight::DaysToHarvest => words.label("feeds-limit-harvest"),
        Tight::NoUse => words.label("feeds-limit-no-use"),
    }
}

/// A limit of some rules.
pub fn rule_of(limit: &Limit, words: &Words) -> String {
    let body = ("body", words.body_and_year(&limit.source));
    match limit.bound {
        Bound::Nitrogen { counts, most, months } => {
            let mut args = vec![
                body,
                ("limit", words.nitrogen_stated(most)),
                ("counts", words.label(counts_id(counts))),
                ("months", words.months(f64::from(months))),
            ];
            match limit.crop {
                Some(crop) => {
                    args.push(("crop", words.crop(crop)));
                    words.say("feeds-limit-rule-crop", &args)
                }
                None => words.say("feeds-limit-rule", &args),
            }
        }
        Bound::Days { counts, touching, clear } => words.say(
            "feeds-limit-days",
            &[
                body,
                ("counts", words.label(counts_id(counts))),
                ("touching", words.days(f64::from(touching))),
                ("clear", words.days(f64::from(clear))),
            ],
        ),
    }
}

const fn counts_id(counts: Counts) -> &'static str {
    match counts {
        Counts::LivestockManure => "feeds-counts-livestock-manure",
        Counts::Organic => "feeds-counts-organic",
        Counts::OrganicAndCompost => "feeds-counts-organic-and-compost",
        Counts::All => "feeds-counts-all",
        Counts::RawManure => "feeds-counts-raw-manure",
        Counts::Urine => "feeds-counts-urine",
    }
}

fn tell_another(another: Another, words: &Words) -> String {
    match another {
        Another::Way { row, chance } => {
            let name = match row {
                Row::OverCompost => "over-compost",
                Row::OverUrine => "over-urine",
                other => other.way(),
            };
            let left = ("left", share(chance, words));
            words.say("feeds-another-way", &[("way", words.manner(name)), left])
        }
        Another::KeepOff { chance } => words.say("feeds-another-keep-off", &[("left", share(chance, words))]),
        Another::LighterCrop => words.label("feeds-another-lighter-crop"),
    }
}

/// How long a source stays away from the harvest.
pub fn last_day(plan: &SourcePlan, words: &Words) -> Option<String> {
    let nothing = matches!(plan.outcome, Outcome::Nothing(_) | Outcome::NotAllowed);
    if nothing || plan.days_to_harvest == 0 {
        return None;
    }
    let mut args =
        vec![("source", words.feed(plan.source.name)), ("days", words.days(f64::from(plan.days_to_harvest)))];
    Some(match plan.last_day {
        Some(date) => {
            args.push(("date", words.date(date)));
            words.say("feeds-last-day", &args)
        }
        None => words.say("feeds-too-late", &args),
    })
}
