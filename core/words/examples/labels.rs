//! Labels of the phone screens as Android string resources: every text of the topic `phone` without arguments.
//!
//! `labels FOLDER` writes `values/strings.xml` (English) and `values-es/strings.xml` (Spanish).

use std::fmt::Write as _;
use std::path::Path;
use std::process::ExitCode;
use std::{env, fs, io};

use kerfbook_words::{Language, Units, Words, sources};

/// What the ids of the topic begin with; resources go without it.
const TOPIC: &str = "phone";

fn main() -> ExitCode {
    let Some(folder) = env::args_os().nth(1) else {
        eprintln!("labels FOLDER: say where to write");
        return ExitCode::from(2);
    };
    for (language, values) in [(Language::English, "values"), (Language::Spanish, "values-es")] {
        if let Err(error) = write(Path::new(&folder), values, &strings(language)) {
            eprintln!("labels: {error}");
            return ExitCode::FAILURE;
        }
    }
    ExitCode::SUCCESS
}

fn write(folder: &Path, values: &str, text: &str) -> io::Result<()> {
    let folder = folder.join(values);
    fs::create_dir_all(&folder)?;
    fs::write(folder.join("strings.xml"), text)
}

fn strings(language: Language) -> String {
    let words = Words::new(language, Units::Metric);
    let mut xml = String::from("<?xml version=\"1.0\" encoding=\"utf-8\"?>\n<resources>\n");
    for id in ids(language) {
        // A text with arguments is said by the core.
        if let Ok(text) = words.try_say(&id, &[]) {
            let name = id.trim_start_matches("phone-").replace('-', "_");
            let _ = writeln!(xml, "    <string name=\"{name}\">{}</string>", escaped(&text));
        }
    }
    xml.push_str("</resources>\n");
    xml
}

/// Ids of the topic, in the order of its file.
fn ids(language: Language) -> Vec<String> {
    let text = sources(language).iter().find(|(topic, _)| *topic == TOPIC).map_or("", |(_, text)| *text);
    text.lines()
        .filter_map(|line| line.split_once(" ="))
        .map(|(id, _)| id.trim())
        .filter(|id| id.starts_with("phone-") && !id.contains(' '))
        .map(str::to_owned)
        .collect()
}

/// As string resources want it.
fn escaped(text: &str) -> String {
    let mut out = String::new();
    for c in text.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '\'' => out.push_str("\\'"),
            '"' => out.push_str("\\\""),
            '\\' => out.push_str("\\\\"),
            '@' | '?' if out.is_empty() => {
                out.push('\\');
                out.push(c);
            }
            '\n' => out.push_str("\\n"),
            c => out.push(c),
        }
    }
    out
}
