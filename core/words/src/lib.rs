//! All text a person reads, in English and Spanish, and every number inside a sentence.
//!
//! Texts live in `locale/<language>/<topic>.ftl` (Project Fluent) and are embedded. [`Words`] says them; its other
//! methods turn quantities, dates and containers into the strings that go into a text. Nothing here reads a clock,
//! a locale or a file.

mod catalogue;
mod caution;
mod container;
mod cost;
mod date;
mod entry;
mod message;
mod name;
mod number;
mod quantity;

use fluent_bundle::{FluentArgs, FluentError, FluentValue};

pub use catalogue::sources;
pub use caution::CautionText;
pub use container::Container;
pub use cost::{Per, Spread};
pub use message::{Message, plain};

use catalogue::Bundle;
use number::Numbers;

/// A language that all texts exist in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Language {
    /// English.
    English,
    /// Spanish.
    Spanish,
}

impl Language {
    /// Every language.
    pub const ALL: [Self; 2] = [Self::English, Self::Spanish];

    /// The code of BCP 47.
    pub const fn code(self) -> &'static str {
        match self {
            Self::English => "en",
            Self::Spanish => "es",
        }
    }
}

/// The units that a person reads.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Units {
    /// Kilograms, centimetres, hectares.
    Metric,
    /// US customary: pounds, inches, acres.
    Us,
}

/// Why a text could not be said in full.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum WordsError {
    /// No text has this id.
    #[error("no text has the id '{id}'; add it to both languages")]
    Missing {
        /// The id.
        id: String,
    },
    /// A text was given without something that it needs.
    #[error("the text '{id}' cannot be said: {problems}; pass what is missing")]
    Incomplete {
        /// The id.
        id: String,
        /// What Fluent says of it.
        problems: String,
    },
}

/// Text and numbers in one language and one system of units.
pub struct Words {
    language: Language,
    units: Units,
    bundle: Bundle,
    numbers: Numbers,
}

impl std::fmt::Debug for Words {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Words")
            .field("language", &self.language)
            .field("units", &self.units)
            .finish_non_exhaustive()
    }
}

impl Words {
    /// Makes all texts of a language ready.
    pub fn new(language: Language, units: Units) -> Self {
        Self { language, units, bundle: catalogue::bundle(language), numbers: Numbers::new(language) }
    }

    /// The language.
    pub const fn language(&self) -> Language {
        self.language
    }

    /// The units.
    pub const fn units(&self) -> Units {
        self.units
    }

    /// A text with what goes into it.
    ///
    /// A missing text shows its id in brackets, a missing argument its name in braces: visible, never a panic.
    pub fn say(&self, id: &str, arguments: &[(&str, String)]) -> String {
        self.shown(id, arguments, None).0
    }

    /// A text without arguments.
    pub fn label(&self, id: &str) -> String {
        self.say(id, &[])
    }

    /// A text, or why it cannot be said in full.
    ///
    /// # Errors
    /// No text with this id; an argument that the text needs and was not given.
    pub fn try_say(&self, id: &str, arguments: &[(&str, String)]) -> Result<String, WordsError> {
        self.checked(id, arguments, None)
    }

    /// A text whose plural follows `$count`; `$n` is the same number as shown.
    pub fn say_count(&self, id: &str, count: f64, arguments: &[(&str, String)]) -> String {
        self.shown(id, arguments, Some((count, self.rounded(count)))).0
    }

    /// Whether a text has this id.
    pub fn has(&self, id: &str) -> bool {
        self.bundle.has_message(id)
    }

    fn checked(
        &self,
        id: &str,
        arguments: &[(&str, String)],
        count: Option<(f64, String)>,
    ) -> Result<String, WordsError> {
        if !self.has(id) {
            return Err(WordsError::Missing { id: id.to_owned() });
        }
        let (text, problems) = self.shown(id, arguments, count);
        if problems.is_empty() {
            Ok(text)
        } else {
            let problems = problems.iter().map(ToString::to_string).collect::<Vec<_>>().join(", ");
            Err(WordsError::Incomplete { id: id.to_owned(), problems })
        }
    }

    fn shown(
        &self,
        id: &str,
        arguments: &[(&str, String)],
        count: Option<(f64, String)>,
    ) -> (String, Vec<FluentError>) {
        let mut problems = Vec::new();
        let Some(pattern) = self.bundle.get_message(id).and_then(|message| message.value()) else {
            return (format!("[{id}]"), problems);
        };
        let mut given = FluentArgs::with_capacity(arguments.len() + 2);
        for (name, value) in arguments {
            given.set(*name, FluentValue::from(value.as_str()));
        }
        if let Some((count, shown)) = count {
            given.set("count", FluentValue::from(if count.is_finite() { count } else { 0.0 }));
            given.set("n", FluentValue::from(shown));
        }
        let text = self.bundle.format_pattern(pattern, Some(&given), &mut problems).into_owned();
        (text, problems)
    }
}
