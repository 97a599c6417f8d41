//! Axes: from values to pixels, and round numbers to write beside them.

/// From values to pixels, in a straight line.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Scale {
    low: f64,
    high: f64,
    from: f64,
    to: f64,
}

impl Scale {
    /// Values `low` to `high` (which is more) on pixels `from` to `to`.
    pub(crate) const fn new(low: f64, high: f64, from: f64, to: f64) -> Self {
        Self { low, high, from, to }
    }

    /// The pixel of a value; values beyond the ends lie on the ends.
    pub(crate) fn place(&self, value: f64) -> f64 {
        let share = ((value - self.low) / (self.high - self.low)).clamp(0.0, 1.0);
        self.from + share * (self.to - self.from)
    }
}

/// Round numbers in even steps of 1, 2 or 5 times a power of ten, from at or below `low` to at or above `high`,
/// in at most `steps` steps and two more.
pub(crate) fn round_numbers(low: f64, high: f64, steps: u32) -> Vec<f64> {
    let high = if high > low { high } else { low + 1.0 };
    let step = round_step((high - low) / f64::from(steps.max(1)));
    let (mut count, last) = ((low / step).floor(), (high / step).ceil());
    let mut numbers = Vec::new();
    while count <= last {
        // Dividing by a whole number keeps 0.3 from becoming 0.30000000000000004.
        numbers.push(if step < 1.0 { count / (1.0 / step).round() } else { count * step } + 0.0);
        count += 1.0;
    }
    numbers
}

/// The smallest of 1, 2, 5 times a power of ten that is not below a width.
fn round_step(width: f64) -> f64 {
    let width = width.clamp(1e-6, 1e15);
    let mut power = 1.0;
    while power > width {
        power /= 10.0;
    }
    while power * 10.0 <= width {
        power *= 10.0;
    }
    [1.0, 2.0, 5.0].into_iter().map(|unit| unit * power).find(|step| *step >= width).unwrap_or(power * 10.0)
}

/// Every how many labels can be written so that none touches the next.
///
/// `places` are the middles of the labels, rising, and `widths` what they need.
pub(crate) fn every(places: &[f64], widths: &[f64], gap: f64) -> usize {
    let clear = |every: usize| {
        let shown: Vec<(f64, f64)> =
            places.iter().copied().zip(widths.iter().copied()).step_by(every).collect();
        shown.windows(2).all(|pair| match pair {
            [(a, wide), (b, next)] => a + wide / 2.0 + gap <= b - next / 2.0,
            _ => true,
        })
    };
    (1..=places.len().max(1)).find(|every| clear(*every)).unwrap_or(1)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn round_numbers_enclose_the_values_in_even_steps() {
        assert_eq!(round_numbers(0.0, 64.0, 5), [0.0, 20.0, 40.0, 60.0, 80.0]);
        assert_eq!(round_numbers(-3.0, 1.2, 4), [-4.0, -2.0, 0.0, 2.0]);
        assert_eq!(round_numbers(0.0, 0.5, 5), [0.0, 0.1, 0.2, 0.3, 0.4, 0.5]);
        assert_eq!(round_numbers(0.0, 0.0, 4), [0.0, 0.5, 1.0]);
    }

    #[test]
    fn labels_are_thinned_only_as_far_as_they_touch() {
        let places: Vec<f64> = (0..12).map(|month| f64::from(month) * 25.0).collect();
        assert_eq!(every(&places, &[20.0; 12], 2.0), 1);
        assert_eq!(every(&places, &[30.0; 12], 2.0), 2);
        assert_eq!(every(&[], &[], 2.0), 1);
    }
}
