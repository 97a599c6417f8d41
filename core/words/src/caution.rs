//! Cautions with their figures, their gravity, and the body that set them.

use kerfbook_science::caution::{Caution, Figure, Severity};
use kerfbook_science::source::{Source, Standing};
use kerfbook_science::units::{Density, Share};

use crate::Words;

/// A caution as a person reads it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CautionText {
    /// Stable name.
    pub id: &'static str,
    /// "Refused", "Warning", "Note".
    pub severity: String,
    /// What can go wrong, the figure, what to do.
    pub text: String,
    /// Body and year, or that there is none.
    pub source: String,
}

impl Words {
    /// A caution in full.
    pub fn caution(&self, caution: &Caution) -> CautionText {
        let arguments: Vec<(&str, String)> =
            caution.figures.iter().map(|(name, figure)| (*name, self.figure(*figure))).collect();
        CautionText {
            id: caution.id,
            severity: self.severity(caution.severity),
            text: self.say(&format!("caution-{}", caution.id), &arguments),
            source: self.body_and_year(&caution.source),
        }
    }

    /// The name of a gravity.
    pub fn severity(&self, severity: Severity) -> String {
        self.label(match severity {
            Severity::Refuse => "severity-refuse",
            Severity::Warn => "severity-warn",
            Severity::Note => "severity-note",
        })
    }

    /// A figure of a caution in the reader's units.
    pub fn figure(&self, figure: Figure) -> String {
        match figure {
            Figure::Depth(length) if length.m() > 2.0 => self.length(length),
            Figure::Depth(length) => self.depth(length),
            Figure::Heat(temperature) => self.temperature(temperature),
            Figure::Hours(hours) => self.hours(hours),
            Figure::Days(days) => self.days(days),
            Figure::Weeks(weeks) => self.weeks(weeks),
            Figure::Months(months) => self.months(months),
            Figure::Dose(dose) => self.nitrogen_stated(dose),
            Figure::MilligramsPerLitre(value) => self.stated_unit("unit-mg-l", value),
            Figure::MilligramsPerCubicMetre(value) => self.stated_unit("unit-mg-m3", value),
            Figure::MilligramsPerKilogram(value) => self.stated_unit("unit-mg-kg", value),
            Figure::Percent(percent) => self.percent(Share::from_percent(percent)),
            Figure::KilogramsPerCubicMetre(value) => self.density(Density::from_kg_m3(value)),
            Figure::Number(value) => self.stated(value),
        }
    }

    fn stated_unit(&self, id: &str, value: f64) -> String {
        self.counted(id, value, self.stated(value))
    }

    /// "US EPA, 2004", or the plain statement that there is no source.
    pub fn body_and_year(&self, source: &Source) -> String {
        if source.author.is_empty() {
            self.standing(source.standing)
        } else if source.year == 0 {
            self.say("source-undated", &[("body", source.author.to_owned())])
        } else {
            format!("{}, {}", source.author, source.year)
        }
    }

    /// How a figure stands, in words.
    pub fn standing(&self, standing: Standing) -> String {
        self.label(match standing {
            Standing::Published => "standing-published",
            Standing::SecondHand => "standing-second-hand",
            Standing::Recomputed => "standing-recomputed",
            Standing::Fitted => "standing-fitted",
            Standing::FromMemory => "standing-from-memory",
            Standing::CommonPractice => "standing-common-practice",
            Standing::Assumption => "standing-assumption",
        })
    }
}
