//! `feeds`: what to give and when, so that the crop stays out of hunger.

use kerfbook_acts::compare::Three;
use kerfbook_acts::feed_plan::told::{self, Told};
use kerfbook_acts::feed_plan::{
    self, Another, Each, Fate, FeedPlan, Measure, Outcome, Planned, SourcePlan, Step, Terms, Tight, Why,
};
use kerfbook_acts::scenario::Placed;
use kerfbook_science::caution;
use kerfbook_science::feed;
use kerfbook_science::limit::{self, Bound, Counts, Limit, Over};
use kerfbook_science::source::{Source, Standing};
use kerfbook_science::units::{AreaMass, Share};
use kerfbook_words::{Units, Words};
use serde_json::{Value, json};

use crate::acted;
use crate::book::{fault_of_place, place_of_book};
use crate::cli;
use crate::compare::{assumed_document, assumed_list, new_table, wide};
use crate::context::Context;
use crate::fault::Fault;
use crate::scenario;

pub(crate) fn run(args: &cli::Feeds, context: &Context) -> Result<(), Fault> {
    let book = place_of_book(&args.file, args.name.as_deref())?;
    let terms = Terms {
        chance: args.chance.map_or(feed_plan::CHANCE.value, |percent| percent / 100.0),
        sources: args.source.clone(),
        rules: args.rules.clone(),
        measure: measure(context),
        ..Terms::default()
    };
    let (plan, read) = if let Some((book, place)) = book {
        let on = args.on.unwrap_or_else(|| context.today());
        let plan = feed_plan::of_place::plan_of(&book, place.id, on, &terms)
            .map_err(|error| fault_of_place(&args.file, &place, &error))?;
        (plan, Vec::new())
    } else {
        let described = scenario::read(&args.file)?;
        let plan =
            feed_plan::plan(&described.scenario, &terms).map_err(|error| acted::fault(&args.file, &error))?;
        (plan, described.assumed)
    };
    let words = context.words();
    let told = told::tell(&plan, words);
    let assumed = assumed_document(&read, &plan.assumed);
    if context.json {
        context.print_json(&document(&plan, told.as_ref(), &assumed))
    } else {
        context.print(&text(&plan, told.as_ref(), &assumed, words))
    }
}

/// The scales of the person; programs read metric figures.
pub(crate) fn measure(context: &Context) -> Measure {
    if context.units == Units::Us && !context.json { Measure::Us } else { Measure::Metric }
}

/// Everything, for programs.
fn document(plan: &FeedPlan, told: Option<&Told>, assumed: &Value) -> Value {
    json!({
        "format": 1,
        "answer": told,
        "first_day": plan.calendar.first().to_string(),
        "chance_allowed": plan.chance,
        "chance_without": plan.chance_without,
        "chance_bare": plan.chance_bare,
        "hungry_day": plan.hungry_day,
        "source": plan.first().map(|first| first.source.name),
        "each": plan.each.map(|each| json!({
            "of": match each { Each::Trees(_) => "tree", Each::Litres(_) => "litre" },
            "count": each.count(),
        })),
        "sources": plan.sources.iter().map(|own| source_document(plan, own)).collect::<Vec<_>>(),
        "another": plan.another.map(another_document),
        "practical_limits": {
            "at_once_kg_ha": limit::AT_ONCE.value.kg_ha(),
            "in_a_season_kg_ha": limit::IN_A_SEASON.value.kg_ha(),
        },
        "rules": plan.rules,
        "limits": plan.limits.iter().map(|limit| limit_document(limit)).collect::<Vec<_>>(),
        "runs": plan.runs,
        "seed": plan.seed,
        "assumed": assumed,
    })
}

fn source_document(whole: &FeedPlan, plan: &SourcePlan) -> Value {
    let (outcome, why, limited_by) = match &plan.outcome {
        Outcome::Nothing(why) => ("nothing", Some(why_name(*why)), Vec::new()),
        Outcome::Kept => ("kept", None, Vec::new()),
        Outcome::Limited(tight) => ("limited", None, tight.iter().map(|tight| tight_name(*tight)).collect()),
        Outcome::NotAllowed => ("not-allowed", None, Vec::new()),
    };
    json!({
        "source": plan.source.name,
        "outcome": outcome,
        "why": why,
        "limited_by": limited_by,
        "feeds": plan.feeds.iter().map(|fed| feed_document(whole, fed)).collect::<Vec<_>>(),
        "nitrogen_kg_ha": plan.nitrogen_kg_ha(),
        "crop_kg_ha": plan.crop_kg_ha,
        "wood_kg_ha": plan.wood_kg_ha,
        "spared_kg_ha": plan.spared_kg_ha,
        "bare_kept": plan.bare_kept,
        "chance_hungry": plan.chance,
        "step": step_document(&plan.step),
        "days_to_harvest": plan.days_to_harvest,
        "last_day": plan.last_day.map(|date| date.to_string()),
        "fate": plan.fate.as_ref().map(fate_document),
        "cautions": plan.cautions,
    })
}

fn feed_document(whole: &FeedPlan, fed: &Planned) -> Value {
    let (product, liquid) = measures(fed.amount);
    let each = |kilo: Option<f64>| whole.each.zip(kilo).map(|(each, kilo)| kilo * 1000.0 / each.count());
    json!({
        "date": fed.date.to_string(),
        "day": fed.day,
        "amount_kg": product,
        "volume_l": liquid,
        "each_g": each(product),
        "each_ml": each(liquid),
        "nitrogen_kg_ha": fed.nitrogen_kg_ha,
        "placed": placed_name(fed.placed),
    })
}

fn step_document(step: &Step) -> Value {
    let (product, liquid) = measures(step.amount);
    json!({ "amount_kg": product, "volume_l": liquid, "nitrogen_kg_ha": step.kg_ha })
}

fn fate_document(fate: &Fate) -> Value {
    json!({
        "days": fate.days,
        "ammonia_expected": {
            "low": fate.ammonia.low, "typical": fate.ammonia.typical, "high": fate.ammonia.high,
        },
        "ammonia": fate.ammonia_runs,
        "leached": fate.leached,
        "denitrified": fate.denitrified,
        "crop": fate.crop,
    })
}

fn another_document(another: Another) -> Value {
    match another {
        Another::Way { row, chance } => {
            json!({ "kind": "way", "way": row.way(), "over": row.over(), "chance_hungry": chance })
        }
        Another::KeepOff { chance } => {
            json!({ "kind": "keep-off", "way": null, "over": null, "chance_hungry": chance })
        }
        Another::LighterCrop => {
            json!({ "kind": "lighter-crop", "way": null, "over": null, "chance_hungry": null })
        }
    }
}

fn limit_document(limit: &Limit) -> Value {
    let (counts, most, months, touching, clear) = match limit.bound {
        Bound::Nitrogen { counts, most, months } => (counts, Some(most.kg_ha()), Some(months), None, None),
        Bound::Days { counts, touching, clear } => (counts, None, None, Some(touching), Some(clear)),
    };
    let Source { author, year, title, place, standing } = limit.source;
    json!({
        "rules": limit.rules,
        "counts": counts_name(counts),
        "crop": limit.crop,
        "most_kg_ha": most,
        "months": months,
        "touching_days": touching,
        "clear_days": clear,
        "over": match limit.over { Over::Holding => "holding", Over::Field => "field" },
        "body": author,
        "year": year,
        "work": title,
        "place": place,
        "standing": match standing {
            Standing::Published => "published",
            Standing::SecondHand => "second-hand",
            _ => "from-memory",
        },
    })
}

fn measures(amount: feed::Amount) -> (Option<f64>, Option<f64>) {
    match amount {
        feed::Amount::Product(mass) => (Some(mass.kg()), None),
        feed::Amount::Liquid(volume) => (None, Some(volume.litres())),
    }
}

const fn placed_name(placed: Placed) -> &'static str {
    match placed {
        Placed::Mixed => "mixed",
        Placed::Under => "under",
        Placed::Top => "top",
    }
}

const fn why_name(why: Why) -> &'static str {
    match why {
        Why::Enough => "enough",
        Why::Legume => "legume",
        Why::NothingGrows => "nothing-grows",
        Why::Trees => "trees",
    }
}

const fn tight_name(tight: Tight) -> &'static str {
    match tight {
        Tight::AtOnce => "at-once",
        Tight::InASeason => "in-a-season",
        Tight::Rule(limit) => limit.rules,
        Tight::DaysToHarvest => "days-to-harvest",
        Tight::NoUse => "no-use",
    }
}

const fn counts_name(counts: Counts) -> &'static str {
    match counts {
        Counts::LivestockManure => "livestock-manure",
        Counts::Organic => "organic",
        Counts::OrganicAndCompost => "organic-and-compost",
        Counts::All => "all",
        Counts::RawManure => "raw-manure",
        Counts::Urine => "urine",
    }
}

/// Everything, for people.
fn text(plan: &FeedPlan, told: Option<&Told>, assumed: &Value, words: &Words) -> String {
    let mut parts = vec![told.map_or_else(|| words.label("feeds-no-source"), Told::paragraph)];
    if let Some(first) = plan.first() {
        if !first.feeds.is_empty() {
            let name = [("source", words.feed(first.source.name))];
            let step = words.say("feeds-step", &[("step", told::amount(first.step.amount, words))]);
            let table = feeds(plan, first, words);
            parts.push(format!("{}\n{table}\n{step}", words.say("feeds-table", &name)));
        }
        if let Some(fate) = &first.fate {
            parts.push(fate_text(plan, fate, words));
        }
    }
    if plan.sources.len() > 1 {
        parts.push(format!("{}\n{}", words.label("feeds-others"), by_source(plan, words)));
        let followed = plan.first().map(|first| first.source.name);
        let others = plan.sources.iter().filter(|own| Some(own.source.name) != followed);
        let late: Vec<String> = others.filter_map(|own| told::last_day(own, words)).collect();
        parts.push(late.join("\n"));
    }
    parts.push(limits(plan, words));
    parts.push(cautions(plan, words));
    parts.push(assumed_list(assumed, words));
    parts.retain(|part| !part.is_empty());
    parts.join("\n\n")
}

/// Planned nitrogen in the reader's unit, whole.
fn whole(kg_ha: f64, words: &Words) -> String {
    words.number(words.nitrogen_value(AreaMass::from_kg_ha(kg_ha)), 0)
}

fn feeds(whole_plan: &FeedPlan, plan: &SourcePlan, words: &Words) -> String {
    let mut table = new_table(vec![
        words.label("feeds-date"),
        words.label("feeds-amount"),
        words.say("feeds-nitrogen", &[("unit", words.nitrogen_unit_name())]),
        words.label("feeds-where"),
    ]);
    for fed in &plan.feeds {
        table.add_row(vec![
            words.date(fed.date),
            told::amount_with_each(whole_plan, fed.amount, words),
            whole(fed.nitrogen_kg_ha, words),
            words.label(if fed.placed == Placed::Under {
                "feeds-placed-under"
            } else {
                "feeds-placed-mixed"
            }),
        ]);
    }
    table.to_string()
}

fn fate_text(plan: &FeedPlan, fate: &Fate, words: &Words) -> String {
    let percent = |share: f64| words.percent(Share::from_fraction(share));
    let range = |low: f64, middle: f64, high: f64| {
        let args = [("middle", percent(middle)), ("low", percent(low)), ("high", percent(high))];
        words.say("feeds-fate-range", &args)
    };
    let three = |three: Three| {
        range(three.p10.unwrap_or(f64::NAN), three.p50.unwrap_or(f64::NAN), three.p90.unwrap_or(f64::NAN))
    };
    let end = plan.calendar.date(f64::from(fate.days));
    let title = words.say("feeds-fate", &[("date", words.date_with_year(end))]);
    let mut table = new_table(vec![title, words.label("feeds-fate-share")]);
    let expected = fate.ammonia;
    for (id, told) in [
        ("feeds-fate-crop", three(fate.crop)),
        ("feeds-fate-leached", three(fate.leached)),
        ("feeds-fate-ammonia", three(fate.ammonia_runs)),
        ("feeds-fate-ammonia-expected", range(expected.low, expected.typical, expected.high)),
        ("feeds-fate-gases", three(fate.denitrified)),
    ] {
        table.add_row(vec![words.label(id), told]);
    }
    format!("{table}\n{}", words.label("feeds-fate-rest"))
}

fn by_source(plan: &FeedPlan, words: &Words) -> String {
    let wide = wide();
    let mut head = vec![words.label("feeds-source"), words.label("feeds-feeds"), words.label("feeds-left")];
    if wide {
        head.insert(2, words.say("feeds-nitrogen", &[("unit", words.nitrogen_unit_name())]));
        head.insert(3, words.label("feeds-wood"));
        head.push(words.label("feeds-wait"));
    }
    let mut table = new_table(head);
    for own in &plan.sources {
        let left =
            own.chance.map_or_else(|| words.unknown(), |chance| words.percent(Share::from_fraction(chance)));
        let mut cells = vec![words.feed(own.source.name), short(own, words), left];
        if wide {
            cells.insert(2, whole(own.nitrogen_kg_ha(), words));
            cells.insert(3, whole(own.wood_kg_ha, words));
            cells.push(match own.days_to_harvest {
                0 => words.unknown(),
                days => words.number(f64::from(days), 0),
            });
        }
        table.add_row(cells);
    }
    table.to_string()
}

/// A plan in one cell.
fn short(plan: &SourcePlan, words: &Words) -> String {
    let told: Vec<String> = plan
        .feeds
        .iter()
        .map(|fed| {
            let amount = told::amount(fed.amount, words);
            words.say("feeds-feed-short", &[("amount", amount), ("date", words.date(fed.date))])
        })
        .collect();
    let told = told.join("; ");
    match plan.outcome {
        Outcome::NotAllowed => words.label("feeds-not-allowed"),
        Outcome::Nothing(_) => words.label("feeds-nothing"),
        Outcome::Kept => told,
        Outcome::Limited(_) if plan.feeds.is_empty() => words.label("feeds-none-helps"),
        Outcome::Limited(_) => words.say("feeds-most-short", &[("feeds", told)]),
    }
}

/// The limits that were kept, and the rules, or that none were chosen.
fn limits(plan: &FeedPlan, words: &Words) -> String {
    let mut lines = vec![
        words.label("feeds-limits"),
        words.say(
            "feeds-limits-practical",
            &[
                ("once", words.nitrogen_stated(limit::AT_ONCE.value)),
                ("once_standing", words.standing(limit::AT_ONCE.source.standing)),
                ("season", words.nitrogen_stated(limit::IN_A_SEASON.value)),
                ("season_standing", words.standing(limit::IN_A_SEASON.source.standing)),
            ],
        ),
    ];
    if plan.rules.is_empty() {
        lines.push(words.label("feeds-rules-none"));
    }
    for rules in &plan.rules {
        let own: Vec<&&Limit> = plan.limits.iter().filter(|limit| limit.rules == *rules).collect();
        if own.is_empty() {
            lines.push(format!("- {}", words.say("feeds-rules-no-limit", &[("rules", (*rules).to_owned())])));
        }
        for limit in own {
            let kept = words.say(
                "feeds-rules-kept",
                &[
                    ("rules", (*rules).to_owned()),
                    ("limit", told::rule_of(limit, words)),
                    ("standing", words.standing(limit.source.standing)),
                ],
            );
            let over = if limit.over == Over::Holding {
                format!("; {}", words.label("feeds-rules-holding"))
            } else {
                String::new()
            };
            lines.push(format!("- {kept}{over}"));
        }
    }
    lines.join("\n")
}

/// The cautions of the source to follow.
fn cautions(plan: &FeedPlan, words: &Words) -> String {
    let Some(first) = plan.first().filter(|first| !first.feeds.is_empty()) else { return String::new() };
    let lines: Vec<String> = first
        .cautions
        .iter()
        .filter_map(|id| caution::of_id(id))
        .map(|caution| {
            let told = words.caution(caution);
            format!("- {}: {} ({})", told.severity, told.text, told.source)
        })
        .collect();
    if lines.is_empty() {
        return String::new();
    }
    format!("{}\n{}", words.label("report-cautions"), lines.join("\n"))
}
