//! What can go wrong, as a sentence in the person's language: what, where, what to do.

use std::fmt::Write as _;
use std::path::{Path, PathBuf};

use kerfbook_ledger::LedgerError;
pub(crate) use kerfbook_words::Message;
use kerfbook_words::{Words, plain};
use serde_json::{Value, json};

/// Where in a file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Spot {
    /// Line, from 1.
    pub line: usize,
    /// Column in characters, from 1.
    pub column: usize,
    /// The line itself.
    pub text: String,
    /// Characters to underline.
    pub width: usize,
}

impl Spot {
    /// The place of a byte range of a text.
    pub(crate) fn of(text: &str, range: &std::ops::Range<usize>) -> Self {
        let start = floor_boundary(text, range.start);
        let end = floor_boundary(text, range.end).max(start);
        let line_start = text[..start].rfind('\n').map_or(0, |at| at + 1);
        let line = text[line_start..].lines().next().unwrap_or_default();
        let on_line = end.min(line_start + line.len()).max(start);
        Self {
            line: text[..line_start].matches('\n').count() + 1,
            column: text[line_start..start].chars().count() + 1,
            text: line.to_owned(),
            width: text[start..on_line].chars().count().max(1),
        }
    }

    /// A whole line, from 1.
    pub(crate) fn line(text: &str, line: usize) -> Self {
        let text = text.lines().nth(line.saturating_sub(1)).unwrap_or_default().trim_end();
        Self { line, column: 1, text: text.to_owned(), width: text.chars().count().max(1) }
    }
}

fn floor_boundary(text: &str, at: usize) -> usize {
    (0..=at.min(text.len())).rev().find(|&at| text.is_char_boundary(at)).unwrap_or(0)
}

/// One thing wrong in a file.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Complaint {
    /// The file, where it is not the one that was asked for but one named in it.
    pub file: Option<PathBuf>,
    /// Where, if it is at one place.
    pub spot: Option<Spot>,
    /// The key with its section, such as `soil.clay_pct` or `crop[2].ended`; empty where there is none.
    pub key: String,
    /// What is wrong.
    pub what: Message,
    /// What to do.
    pub remedy: Option<Message>,
}

/// Why a command ended without its answer.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Fault {
    /// A file that a person wrote or chose cannot be used.
    Input {
        /// The file.
        file: PathBuf,
        /// What is wrong in it, in order of place.
        complaints: Vec<Complaint>,
    },
    /// The command line cannot be read.
    Usage {
        /// What is wrong with it.
        what: Message,
        /// What to do.
        remedy: Message,
    },
    /// Anything else.
    Other(Message),
    /// What was found wrong has been printed as the answer.
    Told,
    /// Nobody reads what we write any more; not worth a word.
    ClosedPipe,
}

impl Fault {
    /// Something wrong with a file as a whole.
    pub(crate) fn input(file: &Path, what: Message, remedy: Option<Message>) -> Self {
        let complaint = Complaint { file: None, spot: None, key: String::new(), what, remedy };
        Self::Input { file: file.to_owned(), complaints: vec![complaint] }
    }

    /// Something wrong with the command line.
    pub(crate) const fn usage(what: Message, remedy: Message) -> Self {
        Self::Usage { what, remedy }
    }

    /// Why a book did not do what was asked.
    pub(crate) fn of_book(file: &Path, error: &LedgerError) -> Self {
        let told = |id: &'static str| Message::new(id).text("path", file.display());
        let whole = |what: Message| Self::input(file, what, None);
        match error {
            LedgerError::NotFound => Self::usage(told("error-book-not-found"), Message::new("usage-help")),
            LedgerError::NotABook => whole(Message::new("book-not-ours")),
            LedgerError::Newer { .. } => whole(Message::new("error-book-newer")),
            LedgerError::Damaged(why) => Self::input(
                file,
                Message::new("book-damaged").text("why", why),
                Some(told("book-rebuild-keeps")),
            ),
            LedgerError::Exists => whole(Message::new("book-exists")),
            LedgerError::Withdrawn(_) => whole(Message::new("book-withdrawn")),
            LedgerError::Fixed(_) => whole(Message::new("book-fixed")),
            LedgerError::Field(why) => whole(Message::new("book-other").text("why", why)),
            LedgerError::Unknown(entry) => whole(Message::new("error-no-such-entry").text("entry", entry)),
            LedgerError::WrongKind { .. } => whole(Message::new("book-wrong-kind")),
            LedgerError::ReadOnly => Self::other(told("error-book-read-only")),
            LedgerError::Full => Self::other(Message::new("error-book-full")),
            LedgerError::Locked => Self::other(Message::new("book-locked")),
            LedgerError::NoKey | LedgerError::NotEnrolled(_) => {
                Self::other(Message::new("error-book-not-enrolled"))
            }
            other => Self::other(Message::new("book-other").text("why", other)),
        }
    }

    /// Something that is not the input's fault.
    pub(crate) const fn other(message: Message) -> Self {
        Self::Other(message)
    }

    /// 2 for bad input, 1 for the rest; a closed pipe is nobody's fault.
    pub(crate) const fn exit_code(&self) -> u8 {
        match self {
            Self::Input { .. } | Self::Usage { .. } => 2,
            Self::Other(_) | Self::Told => 1,
            Self::ClosedPipe => 0,
        }
    }

    /// For people.
    pub(crate) fn to_text(&self, words: &Words) -> String {
        match self {
            Self::Input { file, complaints } => {
                let blocks: Vec<String> =
                    complaints.iter().map(|complaint| complaint.to_text(file, words)).collect();
                blocks.join("\n\n")
            }
            Self::Usage { what, remedy } => format!("{}\n  {}", what.say(words), remedy.say(words)),
            Self::Other(message) => message.say(words),
            Self::Told | Self::ClosedPipe => String::new(),
        }
    }

    /// For programs.
    pub(crate) fn to_json(&self, words: &Words) -> Value {
        let (kind, problems) = match self {
            Self::Input { file, complaints } => {
                ("input", complaints.iter().map(|complaint| complaint.to_json(file, words)).collect())
            }
            Self::Usage { .. } => ("usage", Vec::new()),
            Self::Other(_) | Self::Told | Self::ClosedPipe => ("other", Vec::new()),
        };
        json!({ "format": 1, "error": { "kind": kind, "message": self.to_text(words), "problems": problems } })
    }
}

impl Complaint {
    fn to_text(&self, file: &Path, words: &Words) -> String {
        let mut out = plain(&self.file.as_deref().unwrap_or(file).display().to_string());
        if let Some(spot) = &self.spot {
            let _ = write!(out, ":{}:{}", spot.line, spot.column);
        }
        let _ = write!(out, ": {}", self.what.say(words));
        if let Some(spot) = &self.spot {
            let (text, before) = window(spot);
            let number = spot.line.to_string();
            let caret = "^".repeat(spot.width.min(text.chars().count().saturating_sub(before)).max(1));
            let _ = write!(out, "\n  {number} | {text}");
            let _ =
                write!(out, "\n  {:number_width$} | {:before$}{caret}", "", "", number_width = number.len());
        }
        if let Some(remedy) = &self.remedy {
            let _ = write!(out, "\n  {}", remedy.say(words));
        }
        out
    }

    fn to_json(&self, file: &Path, words: &Words) -> Value {
        json!({
            "file": self.file.as_deref().unwrap_or(file).display().to_string(),
            "line": self.spot.as_ref().map(|spot| spot.line),
            "column": self.spot.as_ref().map(|spot| spot.column),
            "key": if self.key.is_empty() { Value::Null } else { Value::from(plain(&self.key)) },
            "message": self.what.say(words),
            "help": self.remedy.as_ref().map(|remedy| remedy.say(words)),
        })
    }
}

/// Longest piece of a line that is shown, characters.
const SHOWN: usize = 100;

/// The part of the line that is shown, and how many of its characters stand before the mark.
fn window(spot: &Spot) -> (String, usize) {
    let before = spot.column - 1;
    let skipped = before.saturating_sub(SHOWN / 2);
    let shown: String = spot.text.chars().skip(skipped).take(SHOWN).collect();
    (plain(&shown), before - skipped)
}
