//! One section of a file: takes values out, and notes what is wrong with them and where.

use std::cell::RefCell;
use std::ops::Range;

use chrono::{Datelike, NaiveDate};
use toml::Spanned;
use toml::de::{DeTable, DeValue};

use super::layout::{self, Layout};
use crate::fault::{Complaint, Message, Spot};

/// The text of a file and what was found wrong in it so far.
pub(crate) struct Notes<'a> {
    text: &'a str,
    layouts: &'static [&'static Layout],
    found: RefCell<Vec<(usize, Complaint)>>,
}

impl<'a> Notes<'a> {
    /// Of a file that may hold these sections, in the order in which they are best written.
    pub(crate) const fn new(text: &'a str, layouts: &'static [&'static Layout]) -> Self {
        Self { text, layouts, found: RefCell::new(Vec::new()) }
    }

    /// The sections that the file may hold.
    pub(super) const fn layouts(&self) -> &'static [&'static Layout] {
        self.layouts
    }

    /// Another section that knows a key.
    pub(super) fn home_of(&self, key: &str, not: &str) -> Option<&'static Layout> {
        self.layouts.iter().copied().find(|layout| layout.name != not && layout.knows(key))
    }

    /// Notes something wrong at a place, or with the file as a whole.
    pub(crate) fn add(
        &self,
        range: Option<&Range<usize>>,
        key: impl Into<String>,
        what: Message,
        remedy: Option<Message>,
    ) {
        let spot = range.map(|range| Spot::of(self.text, range));
        let at = range.map_or(usize::MAX, |range| range.start);
        let complaint = Complaint { file: None, spot, key: key.into(), what, remedy };
        self.found.borrow_mut().push((at, complaint));
    }

    /// Notes something wrong in another file, where the key that names it stands.
    fn add_elsewhere(&self, at: usize, complaint: Complaint) {
        self.found.borrow_mut().push((at, complaint));
    }

    /// What stands in the file there.
    pub(crate) fn literal(&self, range: &Range<usize>) -> &'a str {
        self.text.get(range.clone()).unwrap_or_default()
    }

    /// Everything noted, in order of place.
    pub(crate) fn into_complaints(self) -> Vec<Complaint> {
        let mut found = self.found.into_inner();
        found.sort_by_key(|(at, _)| *at);
        found.into_iter().map(|(_, complaint)| complaint).collect()
    }
}

/// What a number may be.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Bounds {
    low: f64,
    low_itself: bool,
    high: f64,
    unit: &'static str,
}

impl Bounds {
    /// From `low` to `high`, both allowed.
    pub(crate) const fn between(low: f64, high: f64, unit: &'static str) -> Self {
        Self { low, low_itself: true, high, unit }
    }

    /// More than nothing, up to `high`.
    pub(crate) const fn above_zero(high: f64, unit: &'static str) -> Self {
        Self { low: 0.0, low_itself: false, high, unit }
    }

    /// A share in per cent.
    pub(crate) const PERCENT: Self = Self::between(0.0, 100.0, "%");

    fn hold(&self, value: f64) -> bool {
        value <= self.high && (value > self.low || (self.low_itself && value >= self.low))
    }

    fn broken_by(&self, name: &str, literal: &str) -> Message {
        let id = if self.low_itself { "desk-out-of-range" } else { "desk-out-of-range-above" };
        Message::new(id)
            .text("key", name)
            .text("value", short(literal))
            .text("low", self.low)
            .text("high", format!("{} {}", self.high, self.unit).trim_end())
    }
}

/// One `[section]`, or one row of a `[[section]]`.
pub(crate) struct Section<'a> {
    notes: &'a Notes<'a>,
    layout: &'static Layout,
    path: String,
    range: Option<Range<usize>>,
    table: Option<&'a DeTable<'a>>,
}

impl<'a> Section<'a> {
    /// A `[section]`; one that is not there is empty.
    pub(crate) fn single(notes: &'a Notes<'a>, root: &'a DeTable<'a>, layout: &'static Layout) -> Self {
        let mut section = Self { notes, layout, path: layout.name.to_owned(), range: None, table: None };
        if let Some((name, value)) = root.get_key_value(layout.name) {
            section.range = Some(name.span());
            match value.get_ref() {
                DeValue::Table(table) => section.table = Some(table),
                DeValue::Array(rows) if rows.iter().all(|row| row.get_ref().is_table()) => {
                    section.say_header("desk-section-once");
                }
                _ => section.say_header("desk-section-is-value"),
            }
        }
        section.refuse_unknown_keys();
        section
    }

    /// The keys of a file without sections.
    pub(crate) fn whole_file(notes: &'a Notes<'a>, root: &'a DeTable<'a>, layout: &'static Layout) -> Self {
        let section = Self { notes, layout, path: String::new(), range: None, table: Some(root) };
        section.refuse_unknown_keys();
        section
    }

    /// A text about this section, or its other form where the file has no sections.
    fn about(&self, of_section: &'static str, of_file: &'static str) -> Message {
        if self.layout.is_whole_file() {
            Message::new(of_file)
        } else {
            Message::new(of_section).text("section", self.layout.header())
        }
    }

    /// All rows of a `[[section]]`.
    pub(crate) fn rows(notes: &'a Notes<'a>, root: &'a DeTable<'a>, layout: &'static Layout) -> Vec<Self> {
        let Some((name, value)) = root.get_key_value(layout.name) else { return Vec::new() };
        let rows = match value.get_ref() {
            DeValue::Array(rows) if rows.iter().all(|row| row.get_ref().is_table()) => rows,
            other => {
                let id = if other.is_table() { "desk-section-repeats" } else { "desk-section-is-value" };
                let path = layout.name.to_owned();
                Self { notes, layout, path, range: Some(name.span()), table: None }.say_header(id);
                return Vec::new();
            }
        };
        let section = |(number, row): (usize, &'a Spanned<DeValue<'a>>)| {
            let path = format!("{}[{}]", layout.name, number + 1);
            let table = row.get_ref().as_table();
            let section = Self { notes, layout, path, range: Some(row.span()), table };
            section.refuse_unknown_keys();
            section
        };
        rows.iter().enumerate().map(section).collect()
    }

    fn say_header(&self, id: &'static str) {
        let name = self.layout.name;
        let remedy = Message::new("desk-write-header").text("header", self.layout.header());
        self.notes.add(self.range.as_ref(), name, Message::new(id).text("name", name), Some(remedy));
    }

    fn refuse_unknown_keys(&self) {
        for (name, _) in self.table.into_iter().flat_map(DeTable::iter) {
            let written: &str = name.get_ref();
            if self.layout.keys.iter().any(|key| key.name == written) {
                continue;
            }
            let what = self.about("desk-unknown-key", "desk-unknown-key-here").text("key", written);
            let near = layout::nearest(written, self.layout.keys.iter().map(|key| key.name), 1);
            let remedy = if let Some(home) = self.notes.home_of(written, self.layout.name) {
                Message::new("desk-key-belongs").text("key", written).text("section", home.header())
            } else if let Some(near) = near.first() {
                Message::new("desk-did-you-mean").text("name", near)
            } else {
                let all: Vec<&str> = self.layout.keys.iter().map(|key| key.name).collect();
                Message::new("desk-known-keys").text("names", all.join(", "))
            };
            self.notes.add(Some(&name.span()), self.key(written), what, Some(remedy));
        }
    }

    /// The key with its section.
    pub(crate) fn key(&self, name: &str) -> String {
        if self.path.is_empty() { name.to_owned() } else { format!("{}.{name}", self.path) }
    }

    /// How a missing key is written, as advice.
    pub(crate) fn advice(&self, name: &str) -> Message {
        let line = format!("{name} = {}", self.layout.example(name));
        self.about("desk-add-line", "desk-add-line-here").text("line", line)
    }

    fn form(&self, name: &str) -> Message {
        Message::new("desk-write-like").text("line", format!("{name} = {}", self.layout.example(name)))
    }

    /// Whether the section's form is wrong; that is noted, and nothing more is worth saying about it.
    const fn is_broken(&self) -> bool {
        self.range.is_some() && self.table.is_none()
    }

    /// Where the section begins in the file: rows of different names keep the order in which they were written.
    pub(crate) fn position(&self) -> usize {
        self.range.as_ref().map_or(usize::MAX, |range| range.start)
    }

    /// Notes something that is wrong with the section as a whole.
    pub(crate) fn complain_whole(&self, what: Message, remedy: Option<Message>) {
        self.notes.add(self.range.as_ref(), self.path.clone(), what, remedy);
    }

    /// Whether the section is in the file.
    pub(crate) const fn is_there(&self) -> bool {
        self.table.is_some()
    }

    /// Whether the key is in the file.
    pub(crate) fn has(&self, name: &str) -> bool {
        self.value(name).is_some()
    }

    fn value(&self, name: &str) -> Option<&'a Spanned<DeValue<'a>>> {
        self.table?.get(name)
    }

    /// Notes something wrong with a key: at its value, or at the section where the key is missing.
    pub(crate) fn complain(&self, name: &str, what: Message, remedy: Option<Message>) {
        let range = self.value(name).map(Spanned::span).or_else(|| self.range.clone());
        self.notes.add(range.as_ref(), self.key(name), what, remedy);
    }

    /// Notes something wrong in the file that a key names.
    pub(crate) fn complain_elsewhere(&self, name: &str, complaint: Complaint) {
        let at = self.value(name).map_or(usize::MAX, |value| value.span().start);
        self.notes.add_elsewhere(at, Complaint { key: self.key(name), ..complaint });
    }

    /// Notes that a key is missing.
    pub(crate) fn missing(&self, name: &str, remedy: Option<Message>) {
        if self.is_broken() {
            return;
        }
        let id = if self.is_there() { "desk-missing-key" } else { "desk-missing-section" };
        let what = self.about(id, "desk-missing-key-here").text("key", name);
        self.complain(name, what, Some(remedy.unwrap_or_else(|| self.advice(name))));
    }

    fn wrong_type(&self, name: &str, expected: &'static str) {
        let what = Message::new(expected).text("key", name).text("value", short(self.literal(name)));
        self.complain(name, what, Some(self.form(name)));
    }

    /// What stands in the file at a key.
    fn literal(&self, name: &str) -> &'a str {
        self.value(name).map_or("", |value| self.notes.literal(&value.span()))
    }

    /// A number, if the key is there and holds a good one.
    pub(crate) fn number(&self, name: &str, bounds: Bounds) -> Option<f64> {
        let number = self.finite(name)?;
        if bounds.hold(number) {
            return Some(number);
        }
        self.out_of_bounds(name, bounds, None);
        None
    }

    /// Notes that a number is not within its bounds.
    pub(crate) fn out_of_bounds(&self, name: &str, bounds: Bounds, remedy: Option<Message>) {
        self.complain(name, bounds.broken_by(name, self.literal(name)), remedy);
    }

    /// A finite number of any size.
    pub(crate) fn finite(&self, name: &str) -> Option<f64> {
        self.read_number(name, self.value(name)?)
    }

    fn read_number(&self, name: &str, value: &Spanned<DeValue<'_>>) -> Option<f64> {
        let range = value.span();
        let in_list = self.value(name).is_some_and(|whole| whole.get_ref().is_array());
        let note = |what: Message, remedy: Message| {
            let what = what.text("key", name).text("value", short(self.notes.literal(&range)));
            self.notes.add(Some(&range), self.key(name), what, Some(remedy));
        };
        let number = match value.get_ref() {
            DeValue::Integer(written) if written.radix() == 10 => written.as_str().parse().ok(),
            DeValue::Float(written) => written.as_str().parse().ok(),
            DeValue::String(text) => {
                let remedy = match number_in(text) {
                    Some(number) if in_list => Message::new("desk-write-number").text("line", number),
                    Some(number) => {
                        Message::new("desk-write-number").text("line", format!("{name} = {number}"))
                    }
                    None => self.form(name),
                };
                note(Message::new("desk-text-for-number"), remedy);
                return None;
            }
            _ => None,
        };
        match number {
            Some(number) if f64::is_finite(number) => Some(number),
            Some(_) => {
                note(Message::new("desk-not-finite"), Message::new("desk-leave-out-if-unknown"));
                None
            }
            None => {
                note(Message::new("desk-needs-number"), self.form(name));
                None
            }
        }
    }

    /// A number that must be there.
    pub(crate) fn required_number(&self, name: &str, bounds: Bounds) -> Option<f64> {
        if !self.has(name) {
            self.missing(name, None);
        }
        self.number(name, bounds)
    }

    /// A number of things, at least one.
    pub(crate) fn count(&self, name: &str, most: u32) -> Option<u32> {
        self.whole_from(1.0, name, most)
    }

    /// A number of things, which may be none.
    pub(crate) fn whole(&self, name: &str, most: u32) -> Option<u32> {
        self.whole_from(0.0, name, most)
    }

    fn whole_from(&self, least: f64, name: &str, most: u32) -> Option<u32> {
        let value = self.number(name, Bounds::between(least, f64::from(most), ""))?;
        if value.fract() > 0.0 {
            self.wrong_type(name, "desk-needs-whole-number");
            return None;
        }
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "whole and within bounds")]
        Some(value as u32)
    }

    /// A list of numbers, none of them out of bounds.
    pub(crate) fn numbers(&self, name: &str, bounds: Bounds) -> Option<Vec<f64>> {
        let value = self.value(name)?;
        let Some(list) = value.get_ref().as_array().filter(|list| !list.is_empty()) else {
            self.wrong_type(name, "desk-needs-numbers");
            return None;
        };
        let numbers: Vec<Option<f64>> = list
            .iter()
            .map(|item| {
                let number = self.read_number(name, item)?;
                if !bounds.hold(number) {
                    let range = item.span();
                    let what = bounds.broken_by(name, self.notes.literal(&range));
                    self.notes.add(Some(&range), self.key(name), what, None);
                    return None;
                }
                Some(number)
            })
            .collect();
        numbers.into_iter().collect()
    }

    /// Twelve numbers, January first.
    pub(crate) fn months(&self, name: &str, bounds: Bounds) -> Option<[f64; 12]> {
        let value = self.value(name)?;
        let Some(list) = value.get_ref().as_array() else {
            self.wrong_type(name, "desk-needs-months");
            return None;
        };
        if list.len() != 12 {
            let what = Message::new("desk-not-twelve").text("key", name).text("count", list.len());
            let halves = list.len() == 24 && list.iter().all(|item| item.get_ref().is_integer());
            let remedy =
                Message::new(if halves { "desk-decimal-comma-in-list" } else { "desk-twelve-months" });
            self.complain(name, what, Some(remedy));
            return None;
        }
        let mut months = [0.0; 12];
        let mut good = true;
        for (month, item) in months.iter_mut().zip(list.iter()) {
            match self.read_number(name, item) {
                Some(number) if bounds.hold(number) => *month = number,
                Some(_) => {
                    let range = item.span();
                    let what = bounds.broken_by(name, self.notes.literal(&range));
                    self.notes.add(Some(&range), self.key(name), what, None);
                    good = false;
                }
                None => good = false,
            }
        }
        good.then_some(months)
    }

    /// The one key of several that is there, with its number; notes it where there is none or more than one.
    pub(crate) fn one_of(
        &self,
        names: &[(&'static str, Bounds)],
        required: bool,
    ) -> Option<(&'static str, f64)> {
        let mut given: Vec<&(&'static str, Bounds)> =
            names.iter().filter(|(name, _)| self.has(name)).collect();
        given.sort_by_key(|(name, _)| self.value(name).map(|value| value.span().start));
        let list = || names.iter().map(|(name, _)| *name).collect::<Vec<_>>().join(", ");
        match given.as_slice() {
            [] => {
                if let (true, Some((first, _))) = (required, names.first()) {
                    let what = self.about("desk-one-missing", "desk-one-missing-here").text("keys", list());
                    self.complain(first, what, Some(self.advice(first)));
                }
                None
            }
            [(name, bounds)] => self.number(name, *bounds).map(|number| (*name, number)),
            [(first, _), rest @ ..] => {
                for (name, _) in rest {
                    let what = Message::new("desk-two-given").text("first", first).text("second", name);
                    let remedy = Message::new("desk-keep-one").text("keys", list());
                    self.complain(name, what, Some(remedy));
                }
                None
            }
        }
    }

    /// A text that is not empty.
    pub(crate) fn text(&self, name: &str) -> Option<&'a str> {
        let value = self.value(name)?;
        let Some(text) = value.get_ref().as_str() else {
            self.wrong_type(name, "desk-needs-text");
            return None;
        };
        if text.trim().is_empty() || text.chars().count() > 200 {
            self.wrong_type(name, "desk-needs-text");
            return None;
        }
        Some(text.trim())
    }

    /// A text that must be there.
    pub(crate) fn required_text(&self, name: &str) -> Option<&'a str> {
        if !self.has(name) {
            self.missing(name, None);
        }
        self.text(name)
    }

    /// A list of texts.
    pub(crate) fn texts(&self, name: &str) -> Vec<&'a str> {
        let Some(value) = self.value(name) else { return Vec::new() };
        let items = value.get_ref().as_array().map(|list| {
            list.iter().map(|item| item.get_ref().as_str().map(str::trim)).collect::<Option<Vec<_>>>()
        });
        items.flatten().unwrap_or_else(|| {
            self.wrong_type(name, "desk-needs-texts");
            Vec::new()
        })
    }

    /// Yes or no; no where it is not said.
    pub(crate) fn flag(&self, name: &str) -> bool {
        match self.value(name).map(Spanned::get_ref) {
            None => false,
            Some(DeValue::Boolean(flag)) => *flag,
            Some(_) => {
                self.wrong_type(name, "desk-needs-flag");
                false
            }
        }
    }

    /// Whether the key is there and says yes or no.
    pub(crate) fn is_flag(&self, name: &str) -> bool {
        self.value(name).is_some_and(|value| value.get_ref().is_bool())
    }

    /// One of a few words; spaces, hyphens and underscores are the same.
    pub(crate) fn choice<T: Copy>(&self, name: &str, choices: &[(&'static str, T)]) -> Option<T> {
        let text = self.text(name)?;
        let written = text.to_lowercase().replace([' ', '_'], "-");
        if let Some((_, choice)) = choices.iter().find(|(word, _)| *word == written) {
            return Some(*choice);
        }
        let near = layout::nearest(&written, choices.iter().map(|(word, _)| *word), 1);
        let all = choices.iter().map(|(word, _)| format!("\"{word}\"")).collect::<Vec<_>>().join(", ");
        let what = Message::new("desk-not-a-choice").text("key", name).text("value", short(text));
        let remedy = match near.first() {
            Some(near) => Message::new("desk-choose-near").text("name", near).text("names", all),
            None => Message::new("desk-choose").text("names", all),
        };
        self.complain(name, what, Some(remedy));
        None
    }

    /// Notes that an answer stands beside the figure it stands in for.
    pub(crate) fn one_alone(&self, figure: &str, answer: &str) {
        if self.has(figure) && self.has(answer) {
            let what = Message::new("desk-two-given").text("first", figure).text("second", answer);
            let keep = Message::new("desk-keep-one").text("keys", format!("{figure}, {answer}"));
            self.complain(answer, what, Some(keep));
        }
    }

    /// A day, whatever its year; nothing is noted where it is none.
    pub(crate) fn day(&self, name: &str) -> Option<NaiveDate> {
        match self.value(name)?.get_ref() {
            DeValue::Datetime(written) if written.time.is_none() => written.date.and_then(|date| {
                NaiveDate::from_ymd_opt(i32::from(date.year), u32::from(date.month), u32::from(date.day))
            }),
            DeValue::String(text) => NaiveDate::parse_from_str(text.trim(), "%Y-%m-%d").ok(),
            _ => None,
        }
    }

    /// A day.
    pub(crate) fn date(&self, name: &str) -> Option<NaiveDate> {
        match self.day(name) {
            Some(date) if (1900..=2199).contains(&date.year()) => Some(date),
            Some(_) => {
                self.wrong_type(name, "desk-year-out-of-range");
                None
            }
            None => {
                if self.has(name) {
                    self.wrong_type(name, "desk-needs-date");
                }
                None
            }
        }
    }

    /// A day that must be there.
    pub(crate) fn required_date(&self, name: &str) -> Option<NaiveDate> {
        if !self.has(name) {
            self.missing(name, None);
        }
        self.date(name)
    }
}

/// The number that a text begins with, decimal comma or point, as it should be written.
fn number_in(text: &str) -> Option<String> {
    let text = text.trim();
    let end = text.find(|c: char| !matches!(c, '0'..='9' | '.' | ',' | '-' | '+')).unwrap_or(text.len());
    let number = text.get(..end)?.replace(',', ".");
    let value: f64 = number.parse().ok()?;
    let whole = number.matches('.').count() <= 1 && !number.starts_with('.') && !number.ends_with('.');
    (value.is_finite() && whole).then(|| number.trim_start_matches('+').to_owned())
}

/// A literal short enough for a sentence.
fn short(text: &str) -> String {
    let mut short: String = text.chars().take(40).collect();
    if text.chars().count() > 40 {
        short.push('…');
    }
    short
}
