//! Reading a text file that a person wrote; whatever else it may be is said plainly.

use std::fs::File;
use std::io::Read;
use std::path::Path;

use crate::fault::{Complaint, Fault, Message, Spot};

/// A file's text, without a byte order mark.
pub(crate) fn read(path: &Path, most_bytes: u64) -> Result<String, Fault> {
    let cannot = |error: &std::io::Error| {
        let id = match error.kind() {
            std::io::ErrorKind::NotFound => "desk-no-such-file",
            std::io::ErrorKind::PermissionDenied => "desk-may-not-read",
            _ => "desk-cannot-read",
        };
        Fault::input(path, Message::new(id).text("why", error), None)
    };
    let mut file = File::open(path).map_err(|error| cannot(&error))?;
    if file.metadata().map_err(|error| cannot(&error))?.is_dir() {
        return Err(Fault::input(path, Message::new("desk-is-folder"), None));
    }
    let mut bytes = Vec::new();
    file.by_ref().take(most_bytes + 1).read_to_end(&mut bytes).map_err(|error| cannot(&error))?;
    if let Some(program) = other_program(&bytes) {
        return Err(Fault::input(
            path,
            Message::new("desk-other-program").text("what", program),
            Some(Message::new("desk-plain-text-wanted")),
        ));
    }
    if bytes.len() as u64 > most_bytes {
        return Err(Fault::input(path, Message::new("desk-too-large").text("most", most_bytes / 1024), None));
    }
    let bytes = bytes.strip_prefix(b"\xEF\xBB\xBF").map_or(bytes.as_slice(), |rest| rest);
    let text = std::str::from_utf8(bytes).map_err(|error| not_utf8(path, bytes, error.valid_up_to()))?;
    if text.trim().is_empty() {
        return Err(Fault::input(path, Message::new("desk-empty-file"), None));
    }
    Ok(text.to_owned())
}

fn not_utf8(path: &Path, bytes: &[u8], valid: usize) -> Fault {
    let text = String::from_utf8_lossy(bytes);
    let complaint = Complaint {
        file: None,
        spot: Some(Spot::of(&text, &(valid..valid + '\u{FFFD}'.len_utf8()))),
        key: String::new(),
        what: Message::new("desk-not-utf8"),
        remedy: Some(Message::new("desk-save-as-utf8")),
    };
    Fault::Input { file: path.to_owned(), complaints: vec![complaint] }
}

/// What another program's file begins with, and what such a file is called.
const SIGNATURES: [(&[u8], &str); 10] = [
    (b"SQLite format 3\0", "SQLite"),
    (b"PK\x03\x04", "ZIP, XLSX, ODS, DOCX"),
    (b"%PDF", "PDF"),
    (b"\x89PNG", "PNG"),
    (b"\xFF\xD8\xFF", "JPEG"),
    (b"GIF8", "GIF"),
    (b"\x1F\x8B", "GZIP"),
    (b"\xD0\xCF\x11\xE0", "XLS, DOC"),
    (b"\xFF\xFE", "UTF-16"),
    (b"\xFE\xFF", "UTF-16"),
];

fn other_program(bytes: &[u8]) -> Option<&'static str> {
    let known = SIGNATURES.iter().find(|(start, _)| bytes.starts_with(start)).map(|(_, name)| *name);
    known.or_else(|| bytes.contains(&0).then_some("binary"))
}
