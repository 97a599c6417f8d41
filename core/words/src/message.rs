//! A sentence that is not yet said: whoever finds something wrong need not know the reader's language.

use std::fmt::Display;

use kerfbook_science::caution::{self, Caution};

use crate::Words;

/// A text of `core/words` with what goes into it.
#[derive(Debug, Clone, PartialEq)]
pub struct Message {
    id: &'static str,
    arguments: Vec<(&'static str, Argument)>,
}

#[derive(Debug, Clone, PartialEq)]
enum Argument {
    Text(String),
    Message(Message),
    Caution(&'static Caution),
}

impl Message {
    /// A text without arguments.
    pub const fn new(id: &'static str) -> Self {
        Self { id, arguments: Vec::new() }
    }

    /// Adds an argument that is shown as it is: names, keys, what stands in a file.
    #[must_use]
    pub fn text(mut self, name: &'static str, value: impl Display) -> Self {
        self.arguments.push((name, Argument::Text(plain(&value.to_string()))));
        self
    }

    /// Adds an argument that is a text of its own.
    #[must_use]
    pub fn message(mut self, name: &'static str, message: Self) -> Self {
        self.arguments.push((name, Argument::Message(message)));
        self
    }

    /// Adds a caution of the science by its id, with the body that set it.
    #[must_use]
    pub fn caution(mut self, name: &'static str, id: &str) -> Self {
        let caution = caution::of_id(id).map_or_else(|| Argument::Text(String::new()), Argument::Caution);
        self.arguments.push((name, caution));
        self
    }

    /// The text in a language.
    pub fn say(&self, words: &Words) -> String {
        let said = |argument: &Argument| match argument {
            Argument::Text(text) => text.clone(),
            Argument::Message(message) => message.say(words),
            Argument::Caution(caution) => {
                let told = words.caution(caution);
                format!("{} ({})", told.text, told.source)
            }
        };
        let arguments: Vec<(&str, String)> =
            self.arguments.iter().map(|(name, argument)| (*name, said(argument))).collect();
        words.say(self.id, &arguments)
    }
}

/// The text with everything that would steer a terminal replaced, one character for one.
pub fn plain(text: &str) -> String {
    text.chars()
        .map(|c| match c {
            '\t' => ' ',
            c if c.is_control() || is_direction_mark(c) => '\u{FFFD}',
            c => c,
        })
        .collect()
}

/// Marks that turn the direction of text around and so could show a line other than it is.
const fn is_direction_mark(c: char) -> bool {
    matches!(c, '\u{200E}' | '\u{200F}' | '\u{202A}'..='\u{202E}' | '\u{2066}'..='\u{2069}')
}
