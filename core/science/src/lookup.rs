//! Finding a thing by the name a person types: case, accents, plurals, hyphens and the order of words do not
//! matter; a typing error brings suggestions, never a guess.

/// Names longer than this are cut before they are compared, so that a look-up takes bounded time.
const LONGEST_NAME: usize = 120;
/// How many suggestions are given at most.
const MOST_SUGGESTIONS: usize = 5;
/// Likeness from which a name is worth suggesting, 0 to 1. Common practice, no source.
const WORTH_SUGGESTING: f64 = 0.62;

/// What a look-up found.
#[derive(Debug, Clone, PartialEq)]
pub enum Match<T> {
    /// The name is known.
    Exact(T),
    /// The name is not known; these are like it, best first; may be empty.
    Near(Vec<T>),
}

impl<T> Match<T> {
    /// The thing found, unless it was only like the name.
    pub fn exact(self) -> Option<T> {
        match self {
            Self::Exact(found) => Some(found),
            Self::Near(_) => None,
        }
    }

    /// Carries the match over to another kind of thing.
    pub fn map<U>(self, mut to: impl FnMut(T) -> U) -> Match<U> {
        match self {
            Self::Exact(found) => Match::Exact(to(found)),
            Self::Near(near) => Match::Near(near.into_iter().map(to).collect()),
        }
    }
}

/// Names and the positions in a table that they stand for.
pub(crate) struct Index {
    entries: Vec<(Vec<String>, usize)>,
}

impl Index {
    /// Gathers names; where two fold to the same words the first stands.
    pub(crate) fn new<'a>(names: impl IntoIterator<Item = (&'a str, usize)>) -> Self {
        let entries = names.into_iter().map(|(name, position)| (key(name), position)).collect();
        Self { entries }
    }

    /// The position a name stands for, or those of names like it.
    pub(crate) fn find(&self, name: &str) -> Match<usize> {
        let sought = key(name);
        if sought.is_empty() {
            return Match::Near(Vec::new());
        }
        if let Some((_, position)) = self.entries.iter().find(|(words, _)| *words == sought) {
            return Match::Exact(*position);
        }
        let mut scored: Vec<(f64, usize)> = self
            .entries
            .iter()
            .map(|(words, position)| (likeness(&sought, words), *position))
            .filter(|(score, _)| *score >= WORTH_SUGGESTING)
            .collect();
        scored.sort_by(|a, b| b.0.total_cmp(&a.0).then(a.1.cmp(&b.1)));
        let mut near = Vec::new();
        for (_, position) in scored {
            if !near.contains(&position) && near.len() < MOST_SUGGESTIONS {
                near.push(position);
            }
        }
        Match::Near(near)
    }

    /// Pairs of positions whose names cannot be told apart.
    #[cfg(test)]
    pub(crate) fn clashes(&self) -> Vec<(String, usize, usize)> {
        let mut clashes = Vec::new();
        for (i, (words, position)) in self.entries.iter().enumerate() {
            for (other, other_position) in self.entries.iter().skip(i + 1) {
                if words == other && position != other_position {
                    clashes.push((words.join(" "), *position, *other_position));
                }
            }
        }
        clashes
    }
}

/// The words of a name, folded and sorted.
fn key(name: &str) -> Vec<String> {
    let mut words = words(name);
    words.sort_unstable();
    words.dedup();
    words
}

/// The words of a name in their order, without case, accents, plural endings and little words.
pub(crate) fn words(name: &str) -> Vec<String> {
    let folded: String = name.chars().take(LONGEST_NAME).filter_map(fold).collect();
    let plain: Vec<&str> = folded.split_whitespace().collect();
    let mut words = Vec::with_capacity(plain.len());
    let mut i = 0;
    while let Some(word) = plain.get(i) {
        if *word == "saw" && plain.get(i + 1) == Some(&"dust") {
            words.push("sawdust".to_owned());
            i += 2;
            continue;
        }
        if !LITTLE_WORDS.contains(word) {
            words.push(singular(word));
        }
        i += 1;
    }
    words
}

/// Words that tell nothing apart.
const LITTLE_WORDS: [&str; 15] =
    ["a", "an", "and", "con", "de", "del", "el", "la", "las", "los", "of", "the", "with", "y", "from"];

/// A letter without case and accent; a space for what is no letter or digit; nothing for a combining mark.
fn fold(letter: char) -> Option<char> {
    let lower = letter.to_lowercase().next().unwrap_or(letter);
    Some(match lower {
        '\u{300}'..='\u{36f}' => return None,
        'á' | 'à' | 'â' | 'ä' | 'ã' | 'å' => 'a',
        'é' | 'è' | 'ê' | 'ë' => 'e',
        'í' | 'ì' | 'î' | 'ï' => 'i',
        'ó' | 'ò' | 'ô' | 'ö' | 'õ' => 'o',
        'ú' | 'ù' | 'û' | 'ü' => 'u',
        'ñ' => 'n',
        'ç' => 'c',
        other if other.is_alphanumeric() => other,
        _ => ' ',
    })
}

/// Cuts plural endings of English and Spanish alike: both forms of a word fold to the same letters.
fn singular(word: &str) -> String {
    let mut stem = word;
    if stem.len() > 3 && stem.ends_with('s') && !stem.ends_with("ss") {
        stem = &stem[..stem.len() - 1];
    }
    if stem.len() > 3 && stem.ends_with('e') {
        stem = &stem[..stem.len() - 1];
    }
    match stem.strip_suffix('y') {
        Some(front) if front.len() > 2 => format!("{front}i"),
        _ => stem.to_owned(),
    }
}

/// How alike two sets of words are, 0 to 1: each word with its best counterpart, both ways.
fn likeness(a: &[String], b: &[String]) -> f64 {
    f64::midpoint(one_way(a, b), one_way(b, a))
}

#[expect(clippy::cast_precision_loss, reason = "a name has few words")]
fn one_way(from: &[String], to: &[String]) -> f64 {
    if from.is_empty() {
        return 0.0;
    }
    let sum: f64 = from
        .iter()
        .map(|word| {
            to.iter()
                .map(|other| strsim::normalized_damerau_levenshtein(word, other))
                .fold(0.0, |best: f64, score| best.max(score))
        })
        .sum();
    sum / from.len() as f64
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn plural_order_case_and_accents_do_not_matter() {
        let index = Index::new([("Serrín de pino", 0), ("shavings, hardwood", 1), ("leaves", 2)]);
        assert_eq!(index.find("pino SERRIN"), Match::Exact(0));
        assert_eq!(index.find("hardwood shaving"), Match::Exact(1));
        assert_eq!(index.find("serri\u{301}n de pinos"), Match::Exact(0));
    }

    #[test]
    fn a_typing_error_is_never_a_match() {
        let index = Index::new([("pine sawdust", 0), ("hardwood chips", 1)]);
        assert_eq!(index.find("pine sawdsut"), Match::Near(vec![0]));
        assert_eq!(index.find(""), Match::Near(vec![]));
        assert_eq!(index.find("zzzz qqqq"), Match::Near(vec![]));
    }
}
