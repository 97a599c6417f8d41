//! `today`: what needs doing on a day and soon after it, per place, with the reason.

use chrono::{Days, NaiveDate};
use kerfbook_acts::error::ActError;
use kerfbook_acts::feed_plan::Terms;
use kerfbook_acts::today::today_of;
use kerfbook_acts::told_item::{self, ToldItem};
use kerfbook_ledger::Book;
use kerfbook_words::Words;
use serde::Serialize;

use crate::book::of;
use crate::context::Context;
use crate::fault::Fault;
use crate::{acted, cli, feeds};

/// Longest look ahead: a year.
pub(crate) const MOST_DAYS: u32 = 366;

#[derive(Serialize)]
struct Document {
    format: u32,
    on: NaiveDate,
    ahead_days: u32,
    items: Vec<ToldItem>,
}

pub(crate) fn run(args: &cli::Today, context: &Context) -> Result<(), Fault> {
    let on = args.on.unwrap_or_else(|| context.today());
    let book = of(&args.file, || Book::open(&args.file, None))?;
    let words = context.words();
    let terms = Terms { rules: args.rules.clone(), measure: feeds::measure(context), ..Terms::default() };
    let items =
        items(&book, on, args.ahead, &terms, words).map_err(|error| acted::fault(&args.file, &error))?;
    if context.json {
        return context.print_json(&Document { format: 1, on, ahead_days: args.ahead, items });
    }
    if items.is_empty() {
        let until = on.checked_add_days(Days::new(u64::from(args.ahead))).unwrap_or(on);
        return context.print(&words.say("today-nothing", &[("date", words.date_with_year(until))]));
    }
    let mut lines = vec![
        words.say("today-heading", &[("date", words.date_with_year(on)), ("days", args.ahead.to_string())]),
    ];
    // By place, in the order of the most urgent thing there.
    let mut places: Vec<(&str, Vec<&ToldItem>)> = Vec::new();
    for item in &items {
        match places.iter_mut().find(|(at, _)| *at == item.at) {
            Some((_, there)) => there.push(item),
            None => places.push((&item.at, vec![item])),
        }
    }
    for (at, there) in places {
        lines.push(String::new());
        lines.push(if at.is_empty() { words.label("today-holding") } else { at.to_owned() });
        lines.extend(there.into_iter().map(|item| format!("  {}", item.line(on, words))));
    }
    context.print(&lines.join("\n"))
}

/// What needs doing, told.
pub(crate) fn items(
    book: &Book,
    on: NaiveDate,
    ahead: u32,
    terms: &Terms,
    words: &Words,
) -> Result<Vec<ToldItem>, ActError> {
    Ok(told_item::tell(book, &today_of(book, on, u64::from(ahead), terms)?, on, words)?)
}
