//! Who reads: in which language, in which units, with which containers.

use kerfbook_acts::scenario::Containers;
use kerfbook_science::units::Volume;
use kerfbook_words::{Language, Units, Words};

/// Language of all sentences.
#[derive(Debug, Clone, Copy, PartialEq, Eq, uniffi::Enum)]
pub enum Tongue {
    /// English.
    English,
    /// Spanish.
    Spanish,
}

/// Units of all figures.
#[derive(Debug, Clone, Copy, PartialEq, Eq, uniffi::Enum)]
pub enum Measures {
    /// Kilograms, centimetres, hectares.
    Metric,
    /// US customary.
    Us,
}

/// How a person is spoken to.
#[derive(Debug, Clone, Copy, PartialEq, uniffi::Record)]
pub struct Reader {
    /// Language.
    pub tongue: Tongue,
    /// Units, of what is read and of what is typed.
    pub measures: Measures,
    /// A level barrow, litres; the usual one where absent.
    pub barrow_l: Option<f64>,
    /// A bucket, litres; the usual one where absent.
    pub bucket_l: Option<f64>,
    /// A trailer, cubic metres, where there is one.
    pub trailer_m3: Option<f64>,
}

impl Reader {
    pub(crate) fn words(&self) -> Words {
        let language = match self.tongue {
            Tongue::English => Language::English,
            Tongue::Spanish => Language::Spanish,
        };
        let units = match self.measures {
            Measures::Metric => Units::Metric,
            Measures::Us => Units::Us,
        };
        Words::new(language, units)
    }

    pub(crate) fn containers(&self) -> Containers {
        let usual = Containers::usual();
        let litres = |own: Option<f64>, usual: Volume| {
            own.filter(|litres| *litres > 0.0 && litres.is_finite()).map_or(usual, Volume::from_litres)
        };
        Containers {
            barrow: litres(self.barrow_l, usual.barrow),
            bucket: litres(self.bucket_l, usual.bucket),
            trailer: self
                .trailer_m3
                .filter(|m3| *m3 > 0.0 && m3.is_finite())
                .map(|m3| Volume::from_litres(m3 * 1000.0))
                .or(usual.trailer),
            trailer_carries: None,
        }
    }
}
