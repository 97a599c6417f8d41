//! What is wrong with a file that is not TOML, in words for people who do not know TOML.

use std::collections::BTreeSet;

use super::section::Notes;
use crate::fault::Message;

/// Most faults of spelling that are told at once; after the first few they follow from each other.
const MOST: usize = 8;

/// Notes the parser's findings, one a line.
pub(crate) fn note(notes: &Notes<'_>, text: &str, errors: &[toml::de::Error]) {
    let other = match text.trim_start().chars().next() {
        Some('{') => Some("JSON"),
        Some('<') => Some("HTML, XML"),
        _ => None,
    };
    if let Some(other) = other {
        let what = Message::new("desk-other-form").text("what", other);
        notes.add(Some(&(0..1)), "", what, Some(Message::new("desk-toml-form")));
        return;
    }
    let mut lines = BTreeSet::new();
    for error in errors {
        let range = error.span().unwrap_or(text.len()..text.len());
        let start = text.get(..range.start).map_or(0, |before| before.rfind('\n').map_or(0, |at| at + 1));
        if !lines.insert(start) || lines.len() > MOST {
            continue;
        }
        let line = text.get(start..).unwrap_or_default().lines().next().unwrap_or_default();
        let (key, what, remedy) = explain(line, error.message());
        notes.add(Some(&range), key, what, remedy);
    }
}

fn explain(line: &str, message: &str) -> (String, Message, Option<Message>) {
    let (key, value) = line.split_once('=').map_or(("", ""), |(key, value)| (key.trim(), value.trim()));
    let value = value.split('#').next().unwrap_or_default().trim();
    let named = |id: &'static str| Message::new(id).text("key", key).text("value", value);
    if message.contains("duplicate key") {
        return (key.to_owned(), Message::new("desk-twice"), Some(Message::new("desk-keep-one-line")));
    }
    if is_other_date(value) {
        let line = format!("{key} = 2026-04-15");
        return (
            key.to_owned(),
            named("desk-needs-date"),
            Some(Message::new("desk-write-like").text("line", line)),
        );
    }
    if let Some(point) = with_point(value) {
        let remedy = Message::new("desk-write-number").text("line", format!("{key} = {point}"));
        return (key.to_owned(), named("desk-decimal-comma"), Some(remedy));
    }
    if let Some(number) = before_unit(value) {
        let remedy = Message::new("desk-write-number").text("line", format!("{key} = {number}"));
        return (key.to_owned(), named("desk-unit-after-number"), Some(remedy));
    }
    if value.matches('"').count() == 1 {
        return (key.to_owned(), Message::new("desk-quote-open"), Some(Message::new("desk-close-quote")));
    }
    if value.is_empty() && !line.trim_start().starts_with('[') && !line.contains('=') {
        return (String::new(), Message::new("desk-no-equals"), Some(Message::new("desk-toml-form")));
    }
    if value.starts_with(char::is_alphabetic) {
        let remedy = Message::new("desk-write-like").text("line", format!("{key} = \"{value}\""));
        return (key.to_owned(), named("desk-needs-quotes"), Some(remedy));
    }
    (
        key.to_owned(),
        Message::new("desk-not-toml").text("detail", message),
        Some(Message::new("desk-toml-form")),
    )
}

/// `12,5` as it should be written.
fn with_point(value: &str) -> Option<String> {
    let (whole, part) = value.split_once(',')?;
    let digits = |text: &str| !text.is_empty() && text.bytes().all(|byte| byte.is_ascii_digit());
    let whole_digits = whole.strip_prefix(['-', '+']).unwrap_or(whole);
    (digits(whole_digits) && digits(part)).then(|| format!("{whole}.{part}"))
}

/// The number of `12 kg`.
fn before_unit(value: &str) -> Option<&str> {
    let end = value.find(|c: char| !c.is_ascii_digit() && c != '.')?;
    let (number, unit) = value.split_at(end);
    let is_unit = unit.trim_start().starts_with(|c: char| c.is_alphabetic() || c == '%' || c == '°');
    (number.parse::<f64>().is_ok() && is_unit).then_some(number)
}

/// `15.04.2026`, `15/4/2026`, or `2026-4-15`, which is no day in TOML.
fn is_other_date(value: &str) -> bool {
    let parts: Vec<&str> = value.split(['.', '/', '-']).collect();
    let digits =
        |part: &&str| (1..=4).contains(&part.len()) && part.bytes().all(|byte| byte.is_ascii_digit());
    parts.len() == 3 && parts.iter().all(digits)
}
