//! What is wrong with a file, and on which line.

/// Why a file is not read.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[error("line {line}: {wrong}")]
pub struct ExchangeError {
    /// Line, from 1; 0 where it is the file as a whole.
    pub line: usize,
    /// What is wrong.
    pub wrong: Wrong,
}

/// What is wrong.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum Wrong {
    /// None of the formats.
    #[error("`{found}` begins no format that is read; give GeoJSON, GPX, KML, WKT or a tape sheet as CSV")]
    UnknownFormat {
        /// How the file begins.
        found: String,
    },
    /// More bytes than the format is read to.
    #[error("the file is larger than {most_mb} MB; give a smaller part of it")]
    TooLarge {
        /// Megabytes.
        most_mb: usize,
    },
    /// Not well formed, or cut off.
    #[error("the file is not well formed or cut off here ({detail}); export it again")]
    Broken {
        /// What the parser says.
        detail: String,
    },
    /// A document type, which may pull in anything.
    #[error("a DOCTYPE is not read; take it out")]
    Doctype,
    /// Nested too deeply.
    #[error("more than {most} levels inside each other; export the place alone")]
    TooDeep {
        /// Levels.
        most: usize,
    },
    /// Too many points.
    #[error("more than {most} points; simplify the outline first")]
    TooManyPoints {
        /// Points.
        most: usize,
    },
    /// Too many places.
    #[error("more than {most} places; give a part of the file")]
    TooManyPlaces {
        /// Places.
        most: usize,
    },
    /// No usable number.
    #[error("`{text}` is no number; write decimal degrees or lengths with a point")]
    NotANumber {
        /// As written.
        text: String,
    },
    /// A comma where a point belongs.
    #[error("`{text}` seems to have a decimal comma; write a point")]
    DecimalComma {
        /// As written.
        text: String,
    },
    /// No outline, track or length.
    #[error("no outline is in this file; give polygons, a track or taped lengths")]
    NoPlace,
    /// Coordinates that are no longitude and latitude.
    #[error("coordinates in `{name}` are not read; export in longitude and latitude (WGS 84)")]
    OtherSystem {
        /// The system named.
        name: String,
    },
    /// Columns of a tape sheet.
    #[error("the columns `{found}` are not known; use one of {known}")]
    Columns {
        /// As written.
        found: String,
        /// What is read.
        known: &'static str,
    },
    /// Metres and feet in one sheet.
    #[error("metres and feet in one sheet; use one of them")]
    MixedUnits,
    /// A row with other fields than the heading.
    #[error("this row has {found} fields and the heading {expected}; is there a decimal comma?")]
    Fields {
        /// In the row.
        found: usize,
        /// In the heading.
        expected: usize,
    },
    /// A side or diagonal that is none.
    #[error(
        "`{name}` is no side; a triangle has a, b, c, a four-sided place ab, bc, cd, da, ac and perhaps bd"
    )]
    UnknownSide {
        /// As written.
        name: String,
    },
}

/// Lines of bytes that come in order; a step back begins anew.
pub(super) struct Lines<'a> {
    text: &'a str,
    byte: usize,
    line: usize,
}

impl<'a> Lines<'a> {
    pub(super) const fn new(text: &'a str) -> Self {
        Self { text, byte: 0, line: 1 }
    }

    /// The line of a byte, from 1.
    pub(super) fn of(&mut self, byte: usize) -> usize {
        if byte < self.byte {
            (self.byte, self.line) = (0, 1);
        }
        let byte = byte.min(self.text.len());
        let between = self.text.as_bytes().get(self.byte..byte).unwrap_or_default();
        self.line += between.split(|byte| *byte == b'\n').count() - 1;
        self.byte = byte;
        self.line
    }
}

impl ExchangeError {
    /// The file as a whole.
    pub(super) const fn whole(wrong: Wrong) -> Self {
        Self { line: 0, wrong }
    }

    /// At a byte of the text.
    pub(super) fn at(text: &str, byte: usize, wrong: Wrong) -> Self {
        let before = text.as_bytes().get(..byte).unwrap_or(text.as_bytes());
        Self { line: before.split(|byte| *byte == b'\n').count(), wrong }
    }

    /// A file within its size.
    pub(super) fn within(text: &str, most_mb: usize) -> Result<(), Self> {
        if text.len() > most_mb * 1024 * 1024 {
            Err(Self::whole(Wrong::TooLarge { most_mb }))
        } else {
            Ok(())
        }
    }
}
