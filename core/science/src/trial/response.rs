//! What was measured, as exact decimals: differences are taken before anything is rounded.
//!
//! 1 000 000 000 000.4 − 1 000 000 000 000.3 is 0.1 here; in floating point it is not.

/// Measured values, plot by plot, as an origin and what each lies above it.
#[derive(Debug, Clone, PartialEq)]
pub struct Response {
    origin: f64,
    above: Vec<Option<f64>>,
}

/// A text that is no plain decimal number.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error(
    "value {index} is `{text}`, not a decimal number; write digits with a point, or nothing for a lost plot"
)]
pub struct NotANumber {
    /// Counted from 0.
    pub index: usize,
    /// What stands there.
    pub text: String,
}

/// Most decimals that are carried exactly.
const MOST_DECIMALS: u32 = 18;

impl Response {
    /// From texts as written; `None` is a lost plot.
    ///
    /// # Errors
    /// The first text that is no finite decimal number.
    pub fn from_texts(texts: &[Option<&str>]) -> Result<Self, NotANumber> {
        let wrong = |index: usize| NotANumber { index, text: texts[index].unwrap_or_default().to_owned() };
        let mut numbers = Vec::with_capacity(texts.len());
        for (index, text) in texts.iter().enumerate() {
            let number = text.map(|text| text.parse::<f64>().ok().filter(|number| number.is_finite()));
            numbers.push(number.map(|number| number.ok_or_else(|| wrong(index))).transpose()?);
        }
        let exact: Option<Vec<Option<Decimal>>> =
            texts.iter().map(|text| text.map_or(Some(None), |text| Decimal::read(text).map(Some))).collect();
        Ok(exact.and_then(|exact| Self::exact(&exact)).unwrap_or_else(|| Self::from_numbers(&numbers)))
    }

    /// From computed numbers, which have no more digits than they have.
    pub fn from_numbers(numbers: &[Option<f64>]) -> Self {
        let origin = numbers.iter().flatten().next().copied().unwrap_or(0.0);
        Self { origin, above: numbers.iter().map(|number| number.map(|number| number - origin)).collect() }
    }

    /// The number that all others are told from.
    pub const fn origin(&self) -> f64 {
        self.origin
    }

    /// What each lies above the origin; `None` for lost plots.
    pub fn above(&self) -> &[Option<f64>] {
        &self.above
    }

    /// The values themselves.
    pub fn values(&self) -> Vec<Option<f64>> {
        self.above.iter().map(|above| above.map(|above| self.origin + above)).collect()
    }

    /// The same with another function of every value: a transformation.
    #[must_use]
    pub fn mapped(&self, change: impl Fn(f64) -> f64) -> Self {
        let values: Vec<_> = self.values().into_iter().map(|value| value.map(&change)).collect();
        Self::from_numbers(&values)
    }

    fn exact(decimals: &[Option<Decimal>]) -> Option<Self> {
        let Some(first) = decimals.iter().flatten().next() else {
            return Some(Self { origin: 0.0, above: vec![None; decimals.len()] });
        };
        let places = decimals.iter().flatten().map(|decimal| decimal.places).max()?;
        let unit = power_of_ten(places)?;
        let origin = first.units_at(places)?;
        let above: Option<Vec<Option<f64>>> = decimals
            .iter()
            .map(|decimal| match decimal {
                None => Some(None),
                Some(decimal) => {
                    let above = decimal.units_at(places)?.checked_sub(origin)?;
                    Some(Some(quotient(above, unit)))
                }
            })
            .collect();
        Some(Self { origin: quotient(origin, unit), above: above? })
    }
}

/// A whole number of units of the last decimal place.
#[derive(Debug, Clone, Copy)]
struct Decimal {
    units: i128,
    places: u32,
}

impl Decimal {
    /// `None` for what is written otherwise (with an exponent, or too long): floating point serves there.
    fn read(text: &str) -> Option<Self> {
        let (sign, digits) = match text.as_bytes().first()? {
            b'-' => (-1, text.get(1..)?),
            b'+' => (1, text.get(1..)?),
            _ => (1, text),
        };
        let (whole, part) = digits.split_once('.').unwrap_or((digits, ""));
        let places = u32::try_from(part.len()).ok().filter(|places| *places <= MOST_DECIMALS)?;
        let written: String = [whole, part].concat();
        if written.is_empty() || written.len() > 36 || !written.bytes().all(|byte| byte.is_ascii_digit()) {
            return None;
        }
        Some(Self { units: sign * written.parse::<i128>().ok()?, places })
    }

    fn units_at(self, places: u32) -> Option<i128> {
        self.units.checked_mul(power_of_ten(places - self.places)?)
    }
}

fn power_of_ten(places: u32) -> Option<i128> {
    10_i128.checked_pow(places)
}

/// Correctly rounded wherever both fit 53 bits, which whatever a person measures does.
#[expect(clippy::cast_precision_loss, reason = "rounding happens here and only here")]
fn quotient(units: i128, unit: i128) -> f64 {
    units as f64 / unit as f64
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::float_cmp, reason = "exactness is what is tested")]

    use super::*;

    #[test]
    fn differences_are_exact() {
        let response =
            Response::from_texts(&[Some("1000000000000.4"), None, Some("1000000000000.25")]).unwrap();
        assert_eq!(response.above(), [Some(0.0), None, Some(-0.15)]);
        assert_eq!(response.origin(), 1_000_000_000_000.4);
    }

    #[test]
    fn other_ways_of_writing_are_read_as_numbers() {
        let response = Response::from_texts(&[Some("1e3"), Some("-2.5"), Some("+.5")]).unwrap();
        assert_eq!(response.values(), [Some(1000.0), Some(-2.5), Some(0.5)]);
    }

    #[test]
    fn what_is_no_number_is_named() {
        for text in ["many", "", "1,5", "inf", "NaN", "1.2.3"] {
            let wrong = Response::from_texts(&[Some("1"), Some(text)]).unwrap_err();
            assert_eq!(wrong, NotANumber { index: 1, text: text.to_owned() });
        }
    }
}
