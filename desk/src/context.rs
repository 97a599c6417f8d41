//! What every command is given: language, units, where to print, and the only clock.

use std::io::{self, IsTerminal, Write};
use std::process::ExitCode;

use chrono::{DateTime, NaiveDate};
use indicatif::{ProgressBar, ProgressDrawTarget, ProgressStyle};
use kerfbook_words::{Language, Units, Words};
use serde::Serialize;

use crate::cli::{LanguageChoice, UnitsChoice};
use crate::fault::{Fault, Message};

/// How to speak with the person or program that called.
pub(crate) struct Context {
    /// Language of all text.
    pub language: Language,
    /// Units of figures in text; JSON is metric.
    pub units: Units,
    /// One JSON document on standard output in place of text.
    pub json: bool,
    words: Words,
}

impl Context {
    /// The language is the system's where none is given; the units are metric.
    pub(crate) fn new(language: Option<LanguageChoice>, json: bool) -> Self {
        let language = match language.unwrap_or_else(system_language) {
            LanguageChoice::En => Language::English,
            LanguageChoice::Es => Language::Spanish,
        };
        Self { language, units: Units::Metric, json, words: Words::new(language, Units::Metric) }
    }

    /// Takes up the units that the command line asks for.
    pub(crate) fn use_units(&mut self, units: UnitsChoice) {
        self.units = match units {
            UnitsChoice::Metric => Units::Metric,
            UnitsChoice::Us => Units::Us,
        };
        self.words = Words::new(self.language, self.units);
    }

    /// All texts.
    pub(crate) const fn words(&self) -> &Words {
        &self.words
    }

    /// Prints text and ends the line.
    #[expect(clippy::unused_self, reason = "commands print through what they are given")]
    pub(crate) fn print(&self, text: &str) -> Result<(), Fault> {
        let mut out = io::stdout().lock();
        out.write_all(text.as_bytes())
            .and_then(|()| out.write_all(b"\n"))
            .and_then(|()| out.flush())
            .map_err(printing)
    }

    /// Prints one JSON document.
    pub(crate) fn print_json(&self, document: &impl Serialize) -> Result<(), Fault> {
        let text = serde_json::to_string_pretty(document)
            .map_err(|error| Fault::other(Message::new("desk-cannot-print").text("why", error)))?;
        self.print(&text)
    }

    /// A bar on standard error; hidden with `--json` and where nobody watches.
    pub(crate) fn progress(&self, total: u64, label: &str) -> ProgressBar {
        let bar = ProgressBar::new(total).with_message(label.to_owned());
        if self.json || !io::stderr().is_terminal() {
            bar.set_draw_target(ProgressDrawTarget::hidden());
        }
        if let Ok(style) = ProgressStyle::with_template("{msg} {bar:30} {pos}/{len}") {
            bar.set_style(style);
        }
        bar
    }

    /// Milliseconds since 1970.
    #[expect(clippy::disallowed_methods, clippy::unused_self, reason = "the desk's one clock")]
    pub(crate) fn wall_ms(&self) -> i64 {
        let since = std::time::SystemTime::now().duration_since(std::time::UNIX_EPOCH).unwrap_or_default();
        i64::try_from(since.as_millis()).unwrap_or(i64::MAX)
    }

    /// Today, in universal time.
    pub(crate) fn today(&self) -> NaiveDate {
        DateTime::from_timestamp_millis(self.wall_ms()).map_or(NaiveDate::MIN, |now| now.date_naive())
    }

    /// Says what went wrong: to people on standard error, to programs as JSON on standard output.
    pub(crate) fn report(&self, fault: &Fault) -> ExitCode {
        if !matches!(fault, Fault::ClosedPipe | Fault::Told) {
            // Where even this cannot be written there is nobody left to tell; the exit code still speaks.
            let _ = if self.json {
                writeln!(io::stdout(), "{:#}", fault.to_json(&self.words))
            } else {
                writeln!(io::stderr(), "{}", fault.to_text(&self.words))
            };
        }
        ExitCode::from(fault.exit_code())
    }
}

fn printing(error: io::Error) -> Fault {
    if error.kind() == io::ErrorKind::BrokenPipe {
        Fault::ClosedPipe
    } else {
        Fault::other(Message::new("desk-cannot-print").text("why", error))
    }
}

/// The language of the system's locale, where it is one we speak.
fn system_language() -> LanguageChoice {
    let locale = ["LC_ALL", "LC_MESSAGES", "LANG"]
        .into_iter()
        .filter_map(std::env::var_os)
        .find(|value| !value.is_empty())
        .unwrap_or_default();
    if locale.to_string_lossy().starts_with("es") { LanguageChoice::Es } else { LanguageChoice::En }
}
