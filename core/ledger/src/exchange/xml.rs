//! XML as far as places need it: elements, attributes and text, no document type, no entity but the predefined.

use std::borrow::Cow;

use quick_xml::Reader;
use quick_xml::escape::resolve_predefined_entity;
use quick_xml::events::{BytesRef, BytesStart, Event};

use super::{ExchangeError, Wrong};

/// Levels inside each other.
const MOST_DEPTH: usize = 64;

/// One step through a document.
pub(super) enum Step<'a> {
    /// An element opens; its name without prefix.
    Open(BytesStart<'a>),
    /// An element closes.
    Close,
    /// Text between.
    Text(Cow<'a, str>),
    /// The end.
    End,
}

/// Goes through a document step by step.
pub(super) struct Walk<'a> {
    text: &'a str,
    reader: Reader<&'a [u8]>,
    depth: usize,
}

impl<'a> Walk<'a> {
    pub(super) fn new(text: &'a str) -> Self {
        let mut reader = Reader::from_str(text);
        reader.config_mut().expand_empty_elements = true;
        Self { text, reader, depth: 0 }
    }

    /// Where the reader stands, for errors.
    pub(super) fn fault(&self, wrong: Wrong) -> ExchangeError {
        let at = usize::try_from(self.reader.buffer_position()).unwrap_or(usize::MAX);
        ExchangeError::at(self.text, at, wrong)
    }

    pub(super) fn position(&self) -> usize {
        usize::try_from(self.reader.buffer_position()).unwrap_or(usize::MAX)
    }

    pub(super) fn step(&mut self) -> Result<Step<'a>, ExchangeError> {
        loop {
            let event = self.reader.read_event().map_err(|error| {
                let detail = error.to_string();
                self.fault(Wrong::Broken { detail })
            })?;
            return Ok(match event {
                Event::Start(start) => {
                    self.depth += 1;
                    if self.depth > MOST_DEPTH {
                        return Err(self.fault(Wrong::TooDeep { most: MOST_DEPTH }));
                    }
                    Step::Open(start)
                }
                Event::End(_) => {
                    self.depth = self.depth.saturating_sub(1);
                    Step::Close
                }
                Event::Text(text) => Step::Text(text.into_inner()),
                Event::CData(text) => Step::Text(text.into_inner()),
                Event::GeneralRef(name) => {
                    let text = character(&name).ok_or_else(|| {
                        let detail = format!("the entity &{};", name.chars().take(40).collect::<String>());
                        self.fault(Wrong::Broken { detail })
                    })?;
                    Step::Text(text)
                }
                Event::DocType(_) => return Err(self.fault(Wrong::Doctype)),
                Event::Eof if self.depth > 0 => {
                    return Err(self.fault(Wrong::Broken { detail: "an element is still open".to_owned() }));
                }
                Event::Eof => Step::End,
                _ => continue,
            });
        }
    }
}

/// What a reference stands for: a character by its number, or one of the five names that XML has by itself.
fn character(name: &BytesRef<'_>) -> Option<Cow<'static, str>> {
    match name.resolve_char_ref() {
        Ok(Some(character)) => Some(Cow::Owned(character.to_string())),
        Ok(None) => resolve_predefined_entity(name).map(Cow::Borrowed),
        Err(_) => None,
    }
}

/// Text as it stands between elements or in an attribute.
pub(super) fn escaped(text: &str) -> Cow<'_, str> {
    quick_xml::escape::escape(text)
}

/// The name of the outermost element, without prefix.
pub(super) fn root(text: &str) -> Result<String, ExchangeError> {
    let mut walk = Walk::new(text);
    loop {
        match walk.step()? {
            Step::Open(start) => return Ok(start.local_name().as_ref().to_owned()),
            Step::End => return Err(walk.fault(Wrong::NoPlace)),
            Step::Close | Step::Text(_) => {}
        }
    }
}
