//! Numbers as a reader of the language writes them.

use fixed_decimal::{Decimal, FloatPrecision, Sign, SignedRoundingMode, UnsignedRoundingMode};
use icu_decimal::DecimalFormatter;
use icu_decimal::options::DecimalFormatterOptions;
use icu_locale::locale;

use crate::{Language, Words};

const HALF_AWAY_FROM_ZERO: SignedRoundingMode =
    SignedRoundingMode::Unsigned(UnsignedRoundingMode::HalfExpand);

/// Separators of a language.
pub(crate) struct Numbers {
    formatter: Option<DecimalFormatter>,
}

impl Numbers {
    pub(crate) fn new(language: Language) -> Self {
        let locale = match language {
            Language::English => locale!("en"),
            Language::Spanish => locale!("es"),
        };
        Self { formatter: DecimalFormatter::try_new(locale.into(), DecimalFormatterOptions::default()).ok() }
    }

    fn write(&self, mut decimal: Decimal) -> String {
        decimal.trim_start();
        decimal.trim_end();
        if decimal.absolute.is_zero() {
            decimal.set_sign(Sign::None);
        }
        let text = self
            .formatter
            .as_ref()
            .map_or_else(|| decimal.to_string(), |formatter| formatter.format(&decimal).to_string());
        text.replace('-', "−")
    }
}

/// The decimal value, rounded at a power of ten; `None` for NaN and infinities.
fn decimal(value: f64, position: i16) -> Option<Decimal> {
    let mut decimal = exact(value)?;
    decimal.round_with_mode(position, HALF_AWAY_FROM_ZERO);
    Some(decimal)
}

fn exact(value: f64) -> Option<Decimal> {
    Decimal::try_from_f64(value, FloatPrecision::RoundTrip).ok()
}

/// The power of ten of the last of `digits` significant digits; 0 for zero.
fn last_position(value: f64, digits: i16) -> i16 {
    exact(value).map_or(0, |decimal| {
        if decimal.absolute.is_zero() {
            0
        } else {
            decimal.absolute.nonzero_magnitude_start().saturating_sub(digits - 1)
        }
    })
}

impl Words {
    /// At most `decimals` decimals, no trailing zeros; a dash for what is no number.
    pub fn number(&self, value: f64, decimals: u8) -> String {
        self.at(value, -i16::from(decimals))
    }

    /// `digits` significant digits.
    pub fn significant(&self, value: f64, digits: u8) -> String {
        self.at(value, last_position(value, i16::from(digits.max(1))))
    }

    /// Two significant digits, three from a hundred on: as precise as a grower measures.
    pub fn rounded(&self, value: f64) -> String {
        self.significant(value, if value.abs() >= 100.0 { 3 } else { 2 })
    }

    /// Two significant digits, never finer than one: for what is only known with a range.
    pub fn coarse(&self, value: f64) -> String {
        self.at(value, last_position(value, 2).max(0))
    }

    /// A number as it is, without rounding: for what somebody stated.
    pub fn stated(&self, value: f64) -> String {
        exact(value).map_or_else(|| self.unknown(), |decimal| self.numbers.write(decimal))
    }

    /// What stands where there is no number.
    pub fn unknown(&self) -> String {
        self.label("unknown-number")
    }

    /// "2 to 20".
    pub fn range(&self, low: &str, high: &str) -> String {
        self.say("range", &[("low", low.to_owned()), ("high", high.to_owned())])
    }

    fn at(&self, value: f64, position: i16) -> String {
        decimal(value, position).map_or_else(|| self.unknown(), |decimal| self.numbers.write(decimal))
    }
}
