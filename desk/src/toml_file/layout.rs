//! Which sections and keys a file may hold, each with an example.

/// A key with a value that could stand there.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Key {
    pub name: &'static str,
    pub example: &'static str,
}

pub(crate) const fn key(name: &'static str, example: &'static str) -> Key {
    Key { name, example }
}

/// One section, `[name]`, or one that may stand several times, `[[name]]`; without a name, the keys of a file that has
/// no sections.
pub(crate) struct Layout {
    pub name: &'static str,
    pub repeats: bool,
    pub keys: &'static [Key],
}

impl Layout {
    /// As it is written in a file.
    pub(crate) fn header(&self) -> String {
        if self.repeats { format!("[[{}]]", self.name) } else { format!("[{}]", self.name) }
    }

    /// A value that could stand at a key.
    pub(crate) fn example(&self, name: &str) -> &'static str {
        self.keys.iter().find(|key| key.name == name).map_or("", |key| key.example)
    }

    pub(super) const fn is_whole_file(&self) -> bool {
        self.name.is_empty()
    }

    pub(super) fn knows(&self, name: &str) -> bool {
        self.keys.iter().any(|key| key.name == name)
    }
}

/// Least likeness (Jaro-Winkler, 0 to 1) at which a name is offered.
const ALIKE: f64 = 0.75;

/// The names most like one, best first, at most `most`.
pub(crate) fn nearest<'a>(name: &str, known: impl IntoIterator<Item = &'a str>, most: usize) -> Vec<&'a str> {
    let name = name.to_lowercase();
    let mut likeness: Vec<(f64, &str)> = known
        .into_iter()
        .map(|other| (strsim::jaro_winkler(&name, &other.to_lowercase()), other))
        .filter(|(alike, _)| *alike >= ALIKE)
        .collect();
    likeness.sort_by(|a, b| b.0.total_cmp(&a.0));
    likeness.into_iter().take(most).map(|(_, other)| other).collect()
}
