//! What a person typed, in their own units: a number with a point or a comma, or a sentence about what is wrong with it.

use kerfbook_ledger::EntryId;
use kerfbook_science::units::{Area, Length, Mass, Share, Temperature, Volume};
use kerfbook_words::{Units, Words};

use crate::error::CoreError;

/// Reads what stands in fields.
#[derive(Clone, Copy)]
pub(crate) struct Typed<'a> {
    words: &'a Words,
}

impl<'a> Typed<'a> {
    pub(crate) const fn new(words: &'a Words) -> Self {
        Self { words }
    }

    pub(crate) fn wrong(self, field: &str, id: &str) -> CoreError {
        CoreError::BadInput { field: field.to_owned(), reason: self.words.label(id) }
    }

    /// A number above zero; nothing where nothing stands there.
    pub(crate) fn above_zero(self, field: &str, text: &str) -> Result<Option<f64>, CoreError> {
        let text = text.trim();
        if text.is_empty() {
            return Ok(None);
        }
        match number(text) {
            Some(number) if number > 0.0 => Ok(Some(number)),
            Some(_) => Err(self.wrong(field, "phone-not-above-zero")),
            None => Err(self.no_number(field, text)),
        }
    }

    /// The same where something has to stand there.
    pub(crate) fn needed(self, field: &str, text: &str) -> Result<f64, CoreError> {
        self.above_zero(field, text)?.ok_or_else(|| self.wrong(field, "phone-needed"))
    }

    /// A name of at most 40 characters, as entries keep it.
    pub(crate) fn name(self, field: &str, text: &str) -> Result<String, CoreError> {
        let text = text.trim();
        if text.is_empty() {
            return Err(self.wrong(field, "phone-needed"));
        }
        if kerfbook_ledger::Label::new(text).is_err() {
            return Err(self.wrong(field, "phone-name-too-long"));
        }
        Ok(text.to_owned())
    }

    /// Metres or feet.
    pub(crate) fn length(self, field: &str, text: &str) -> Result<Length, CoreError> {
        self.measured(field, text, Length::from_m, Length::from_feet)
    }

    /// Centimetres or inches.
    pub(crate) fn depth(self, field: &str, text: &str) -> Result<Length, CoreError> {
        self.measured(field, text, Length::from_cm, Length::from_inches)
    }

    /// Millimetres or inches.
    pub(crate) fn water(self, field: &str, text: &str) -> Result<Length, CoreError> {
        self.measured(field, text, Length::from_mm, Length::from_inches)
    }

    /// Square metres or square feet.
    pub(crate) fn area(self, field: &str, text: &str) -> Result<Area, CoreError> {
        self.measured(field, text, Area::from_m2, Area::from_square_feet)
    }

    /// Kilograms or pounds.
    pub(crate) fn mass(self, field: &str, text: &str) -> Result<Mass, CoreError> {
        self.measured(field, text, Mass::from_kg, Mass::from_lb)
    }

    /// Litres or US gallons.
    pub(crate) fn volume(self, field: &str, text: &str) -> Result<Volume, CoreError> {
        self.measured(field, text, Volume::from_litres, Volume::from_us_gallons)
    }

    /// The same where it may stay empty.
    pub(crate) fn depth_or_none(self, field: &str, text: &str) -> Result<Option<Length>, CoreError> {
        if text.trim().is_empty() { Ok(None) } else { self.depth(field, text).map(Some) }
    }

    /// Water in litres or US gallons; nothing where nothing stands there.
    pub(crate) fn liquid(self, field: &str, text: &str) -> Result<Option<Mass>, CoreError> {
        if text.trim().is_empty() {
            return Ok(None);
        }
        // A litre of water weighs a kilogram as near as a can measures it.
        self.volume(field, text).map(|volume| Some(Mass::from_kg(volume.litres())))
    }

    /// Degrees Celsius or Fahrenheit, below zero too; nothing where nothing stands there.
    pub(crate) fn temperature(self, field: &str, text: &str) -> Result<Option<Temperature>, CoreError> {
        let text = text.trim();
        if text.is_empty() {
            return Ok(None);
        }
        let (below, digits) = match text.strip_prefix(['-', '\u{2212}']) {
            Some(digits) => (true, digits),
            None => (false, text),
        };
        let degrees = number(digits).ok_or_else(|| self.no_number(field, text))?;
        let degrees = if below { -degrees } else { degrees };
        Ok(Some(match self.words.units() {
            Units::Metric => Temperature::from_c(degrees),
            Units::Us => Temperature::from_f(degrees),
        }))
    }

    /// Per cent of a whole; nothing where nothing stands there.
    pub(crate) fn percent(self, field: &str, text: &str) -> Result<Option<Share>, CoreError> {
        Ok(self.above_zero(field, text)?.map(Share::from_percent))
    }

    fn no_number(self, field: &str, text: &str) -> CoreError {
        CoreError::BadInput {
            field: field.to_owned(),
            reason: self.words.say("phone-not-a-number", &[("typed", shown(text))]),
        }
    }

    fn measured<T>(
        self,
        field: &str,
        text: &str,
        metric: fn(f64) -> T,
        us: fn(f64) -> T,
    ) -> Result<T, CoreError> {
        let number = self.needed(field, text)?;
        Ok(match self.words.units() {
            Units::Metric => metric(number),
            Units::Us => us(number),
        })
    }

    /// A whole number above zero.
    pub(crate) fn count(self, field: &str, text: &str) -> Result<u32, CoreError> {
        let number = self.needed(field, text)?;
        if number.fract() > 0.0 || number > f64::from(u32::MAX) {
            return Err(self.wrong(field, "phone-not-whole"));
        }
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "whole, and in bounds")]
        Ok(number as u32)
    }

    /// Trees as row/tree, parted by spaces or commas.
    pub(crate) fn trees(self, field: &str, text: &str) -> Result<Vec<(u32, u32)>, CoreError> {
        let tree = |part: &str| {
            let number = |text: &str| text.parse().ok().filter(|number| *number > 0);
            let (row, tree) = part.split_once('/')?;
            Some((number(row)?, number(tree)?))
        };
        let parts = text.split([' ', ',', ';']).filter(|part| !part.is_empty());
        parts.map(|part| tree(part).ok_or_else(|| self.wrong(field, "phone-no-tree"))).collect()
    }

    /// An entry by its id.
    pub(crate) fn entry(self, field: &str, id: &str) -> Result<EntryId, CoreError> {
        EntryId::parse(id).ok_or_else(|| self.wrong(field, "phone-choose"))
    }
}

/// A number as people type it: digits with at most one point or comma, which both stand before decimals.
fn number(text: &str) -> Option<f64> {
    let plain = text.chars().all(|c| c.is_ascii_digit() || c == '.' || c == ',');
    let marks = text.chars().filter(|c| matches!(c, '.' | ',')).count();
    if !plain || marks > 1 || text.len() > 12 {
        return None;
    }
    text.replace(',', ".").parse::<f64>().ok().filter(|number| number.is_finite())
}

/// Figures of entries as numbers for text; whole up to 2^53, which is more than any bed holds of anything.
#[expect(clippy::cast_precision_loss, reason = "figures of entries lie far below 2^53")]
pub(crate) const fn float(figure: u64) -> f64 {
    figure as f64
}

/// Longest piece of what was typed that an answer repeats.
const SHOWN: usize = 20;

fn shown(text: &str) -> String {
    kerfbook_words::plain(&text.chars().take(SHOWN).collect::<String>())
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a test may stop where it stands")]

    use kerfbook_words::Language;

    use super::*;

    #[test]
    fn a_comma_and_a_point_are_the_same() {
        assert_eq!(number("2,5"), Some(2.5));
        assert_eq!(number("2.5"), Some(2.5));
        assert_eq!(number(".5"), Some(0.5));
    }

    #[test]
    fn what_is_no_plain_number_is_refused() {
        for text in ["", "-2", "1e9", "two", "1.2.3", "1,234,567", "NaN", "inf", "1234567890123", "٣", "+1"]
        {
            assert_eq!(number(text), None, "{text}");
        }
    }

    #[test]
    fn a_us_reader_types_feet_and_inches() {
        let words = Words::new(Language::English, Units::Us);
        let typed = Typed::new(&words);
        assert!((typed.length("length", "10").unwrap().m() - 3.048).abs() < 1e-9);
        assert!((typed.depth("depth", "2").unwrap().mm() - 50.8).abs() < 1e-9);
    }

    #[test]
    fn what_is_wrong_names_its_field() {
        let words = Words::new(Language::Spanish, Units::Metric);
        let wrong = Typed::new(&words).needed("length", "x").unwrap_err();
        assert!(
            matches!(wrong, CoreError::BadInput { field, reason } if field == "length" && reason.contains('x'))
        );
    }
}
