//! One page per place and year, for whoever checks the records.

use kerfbook_words::Words;
use maud::{Markup, html};

use super::places::facts;
use super::table;
use super::view::{CropRow, FeedRow, OtherRow, PutDownRow, RecordView, WaitRow};

pub(super) fn section(records: &[RecordView], words: &Words) -> Markup {
    html! {
        p { (words.label("report-records-about")) }
        @for record in records { (sheet(record, words)) }
    }
}

fn sheet(record: &RecordView, words: &Words) -> Markup {
    let title =
        words.say("report-place-year", &[("place", record.place.clone()), ("year", record.year.to_string())]);
    html! {
        article.sheet {
            h3 { (title) }
            (facts(&record.facts))
            (part("report-what-went-down", put_down(&record.put_down, words), words))
            (part("report-feeds", feeds(&record.feeds, words), words))
            (part("report-crops", crops(&record.crops, words), words))
            @if !record.waits.is_empty() {
                (part("report-interval", waits(&record.waits, words), words))
            }
            @if !record.others.is_empty() {
                (part("report-work-and-readings", others(&record.others, words), words))
            }
            @if !record.notes.is_empty() {
                h4 { (words.label("report-notes")) }
                ul { @for note in &record.notes { li { (note) } } }
            }
        }
    }
}

/// A heading and its table, or that nothing was recorded: a blank would leave open whether anybody looked.
fn part(heading: &str, content: Option<Markup>, words: &Words) -> Markup {
    html! {
        h4 { (words.label(heading)) }
        @if let Some(content) = content { (content) } @else { p.quiet { (words.label("report-nothing-recorded")) } }
    }
}

fn written<R>(
    rows: &[R],
    heads: &[&str],
    words: &Words,
    cells: impl Fn(&R) -> Vec<Markup>,
) -> Option<Markup> {
    let heads: Vec<String> = heads.iter().map(|id| words.label(id)).collect();
    (!rows.is_empty()).then(|| table::table(&heads, rows.iter().map(cells)))
}

fn texts(texts: &[&String]) -> Vec<Markup> {
    texts.iter().map(|text| html! { (text) }).collect()
}

fn put_down(rows: &[PutDownRow], words: &Words) -> Option<Markup> {
    let heads = ["report-date", "report-what", "report-way", "report-how-much", "report-by", "report-entry"];
    written(rows, &heads, words, |row| {
        texts(&[&row.date, &row.what, &row.way, &row.amount, &row.by, &row.entry])
    })
}

fn feeds(rows: &[FeedRow], words: &Words) -> Option<Markup> {
    let heads =
        ["report-date", "report-source", "report-how-much", "report-nitrogen", "report-by", "report-entry"];
    written(rows, &heads, words, |row| {
        let nitrogen = html! {
            (row.nitrogen)
            @if !row.split.is_empty() { " " span.quiet { (row.split) } }
        };
        let mut cells = texts(&[&row.date, &row.source, &row.amount]);
        cells.push(nitrogen);
        cells.extend(texts(&[&row.by, &row.entry]));
        cells
    })
}

fn crops(rows: &[CropRow], words: &Words) -> Option<Markup> {
    let heads = ["report-crop", "report-started", "report-ended", "report-fate", "report-entry"];
    written(rows, &heads, words, |row| texts(&[&row.crop, &row.started, &row.ended, &row.fate, &row.entry]))
}

fn others(rows: &[OtherRow], words: &Words) -> Option<Markup> {
    let heads = ["report-date", "report-what", "report-by", "report-entry"];
    written(rows, &heads, words, |row| texts(&[&row.date, &row.what, &row.by, &row.entry]))
}

fn waits(rows: &[WaitRow], words: &Words) -> Option<Markup> {
    let heads = ["report-what", "report-required", "report-harvest-from", "report-kept"];
    written(rows, &heads, words, |row| {
        let kept = match row.kept {
            None => words.label("report-interval-open"),
            Some(true) => words.label("report-interval-kept"),
            Some(false) => words.label("report-interval-broken"),
        };
        let kept = html! {
            @if !row.had.is_empty() { (row.had) " – " }
            span.broken[row.kept == Some(false)] { (kept) }
        };
        let mut cells = texts(&[&row.what, &row.rule, &row.open]);
        cells.push(kept);
        cells
    })
}
