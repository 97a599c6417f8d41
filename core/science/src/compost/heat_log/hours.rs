//! Heat held for hours without a break.

use chrono::NaiveDate;

use super::Reading;
use crate::source::{Source, Sourced};

/// Two readings further apart than this part of the time to be held do not show that the heat held between them.
pub(super) const GAP: Sourced<f64> = Sourced::new(0.25, Source::ASSUMPTION);

/// What is known of hours.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Held {
    /// So many hours without a break.
    Hours(f64),
    /// It was hot enough, but nobody wrote down when.
    Untimed,
}

/// The longest time for which readings were hot enough, for a rule that wants `wanted` hours.
#[expect(clippy::cast_precision_loss, reason = "minutes between two readings")]
pub(super) fn longest(readings: &[&Reading], wanted: f64, hot: impl Fn(&Reading) -> bool) -> Held {
    let mut timed: Vec<(i64, bool)> = readings
        .iter()
        .filter_map(|reading| Some((minutes(reading.date, reading.minute?), hot(reading))))
        .collect();
    timed.sort_unstable();
    let untimed_hot = readings.iter().any(|reading| reading.minute.is_none() && hot(reading));
    let most_gap = wanted * GAP.value * 60.0;
    let (mut best, mut stretch): (i64, Option<(i64, i64)>) = (0, None);
    for (at, hot) in timed {
        stretch = match stretch {
            _ if !hot => None,
            Some((from, last)) if (at - last) as f64 <= most_gap => Some((from, at)),
            _ => Some((at, at)),
        };
        if let Some((from, last)) = stretch {
            best = best.max(last - from);
        }
    }
    let hours = best as f64 / 60.0;
    if hours < wanted && untimed_hot { Held::Untimed } else { Held::Hours(hours) }
}

fn minutes(date: NaiveDate, minute: u16) -> i64 {
    i64::from(date.to_epoch_days()) * 1440 + i64::from(minute)
}
