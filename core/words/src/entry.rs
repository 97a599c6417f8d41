//! Entries of the book as sentences in the past tense.

use crate::Words;

impl Words {
    /// What a kind of entry is called: "Put down" for `PutDown`.
    pub fn kind(&self, kind: &str) -> String {
        let id = format!("kind-{}", kebab(kind));
        if self.has(&id) { self.label(&id) } else { kind.to_owned() }
    }

    /// An entry as a sentence; its arguments are listed with the texts `entry-…`.
    ///
    /// A kind without a sentence of its own is told by its name.
    pub fn entry(&self, kind: &str, arguments: &[(&str, String)]) -> String {
        let id = format!("entry-{}", kebab(kind));
        if self.has(&id) { self.say(&id, arguments) } else { self.kind(kind) }
    }
}

/// `PutDown` as `put-down`.
fn kebab(kind: &str) -> String {
    let mut id = String::with_capacity(kind.len() + 4);
    for letter in kind.chars() {
        if letter.is_ascii_uppercase() && !id.is_empty() {
            id.push('-');
        }
        id.push(letter.to_ascii_lowercase());
    }
    id
}
