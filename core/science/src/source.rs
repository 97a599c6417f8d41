//! Where a figure comes from, and how far to trust it.

/// A published work, or the plain statement that there is none.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Source {
    /// Who wrote it; a body where no person is named.
    pub author: &'static str,
    /// Year of publication; 0 where there is none.
    pub year: u16,
    /// Title, or what was said.
    pub title: &'static str,
    /// Where in it: volume and pages, table, section.
    pub place: &'static str,
    /// How far to trust the figure.
    pub standing: Standing,
}

/// How a figure stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Standing {
    /// Read in the source itself.
    Published,
    /// Read in a page that restates the source.
    SecondHand,
    /// Computed from published figures.
    Recomputed,
    /// Adjusted until the model met published figures.
    Fitted,
    /// Remembered, not confirmed.
    FromMemory,
    /// What people do; nobody measured it.
    CommonPractice,
    /// Chosen here.
    Assumption,
}

impl Source {
    /// A figure that people use and nobody measured.
    pub const COMMON_PRACTICE: Self = Self::unsourced("common practice, no source", Standing::CommonPractice);
    /// A figure chosen here.
    pub const ASSUMPTION: Self = Self::unsourced("assumption", Standing::Assumption);
    /// A figure remembered and not confirmed.
    pub const FROM_MEMORY: Self = Self::unsourced("from memory", Standing::FromMemory);

    const fn unsourced(title: &'static str, standing: Standing) -> Self {
        Self { author: "", year: 0, title, place: "", standing }
    }

    /// A published work.
    pub const fn new(
        author: &'static str,
        year: u16,
        title: &'static str,
        place: &'static str,
        standing: Standing,
    ) -> Self {
        Self { author, year, title, place, standing }
    }
}

/// A figure with its source: there is no other way to make one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sourced<T> {
    /// The figure.
    pub value: T,
    /// Where it comes from.
    pub source: Source,
}

impl<T> Sourced<T> {
    /// Joins a figure to its source.
    pub const fn new(value: T, source: Source) -> Self {
        Self { value, source }
    }
}
