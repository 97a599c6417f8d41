//! Names of materials, feeds, crops and ways in the reader's language.
//!
//! The tables of the science keep English names. What has no translation is shown as it stands there.

use crate::Words;

impl Words {
    /// A material of the table, such as "sawdust, hardwood".
    pub fn material(&self, name: &str) -> String {
        self.named("material", name)
    }

    /// A source of nitrogen, such as "blood meal".
    pub fn feed(&self, name: &str) -> String {
        self.named("feed", name)
    }

    /// A crop, such as "cabbage".
    pub fn crop(&self, name: &str) -> String {
        self.named("crop", name)
    }

    /// A way, such as `on-top`.
    pub fn way(&self, name: &str) -> String {
        self.named("way", name)
    }

    /// A way inside a sentence: "on top".
    pub fn manner(&self, name: &str) -> String {
        self.named("manner", name)
    }

    /// A particle size: `dust`, `shavings`, `chips`, `chunks`.
    pub fn particle(&self, name: &str) -> String {
        self.named("particle", name)
    }

    /// Several names: "a, b and c".
    pub fn list(&self, names: &[String]) -> String {
        self.joined(names, "list-and")
    }

    /// Several names to choose from: "a, b or c".
    pub fn choice(&self, names: &[String]) -> String {
        self.joined(names, "list-or")
    }

    fn named(&self, topic: &str, name: &str) -> String {
        let id = format!("{topic}-{}", slug(name));
        if self.has(&id) { self.label(&id) } else { name.to_owned() }
    }

    fn joined(&self, names: &[String], last: &str) -> String {
        let pair = |id: &str, first: String, then: &String| {
            self.say(id, &[("first", first), ("last", then.clone())])
        };
        match names {
            [] => String::new(),
            [only] => only.clone(),
            [first, middle @ .., end] => {
                let most = middle.iter().fold(first.clone(), |told, name| pair("list-more", told, name));
                pair(last, most, end)
            }
        }
    }
}

/// Lower case with one hyphen between words: the form of an id.
pub(crate) fn slug(name: &str) -> String {
    let mut slug = String::with_capacity(name.len());
    for letter in name.chars() {
        if letter.is_ascii_alphanumeric() {
            slug.push(letter.to_ascii_lowercase());
        } else if !slug.is_empty() && !slug.ends_with('-') {
            slug.push('-');
        }
    }
    slug.truncate(slug.trim_end_matches('-').len());
    slug
}
