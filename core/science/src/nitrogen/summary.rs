//! Quantiles and chances over runs.

use serde::Serialize;

/// Ten, fifty and ninety per cent of the runs are at or below these; none where the quantile touches a run
/// that never got there.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Spread3 {
    /// One in ten is lower.
    pub p10: Option<f64>,
    /// Half are lower.
    pub p50: Option<f64>,
    /// Nine in ten are lower.
    pub p90: Option<f64>,
}

/// The three quantiles of the values of all runs; infinite values stand for "never" and sort last.
pub fn spread(values: &[f64]) -> Spread3 {
    let mut work = values.to_vec();
    let mut at = |p| select(&mut work, p);
    // From the top down: what a selection leaves below its place is all the next one needs.
    let p90 = at(0.9);
    let p50 = at(0.5);
    Spread3 { p10: at(0.1), p50, p90 }
}

/// Quantile of type 7 (Hyndman & Fan 1996, The American Statistician 50:361-365) of the values, 0 <= p <= 1;
/// infinite values stand for "never" and sort last; none where it touches one, or where there are no values.
pub fn quantile(values: &[f64], p: f64) -> Option<f64> {
    select(&mut values.to_vec(), p)
}

fn select(values: &mut [f64], p: f64) -> Option<f64> {
    let last = values.len().checked_sub(1)?;
    #[expect(clippy::cast_precision_loss, reason = "a number of runs")]
    let height = last as f64 * p.clamp(0.0, 1.0);
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "between 0 and the last index"
    )]
    let below = (height.floor() as usize).min(last);
    let weight = height - height.floor();
    let (_, low, above) = values.select_nth_unstable_by(below, f64::total_cmp);
    let low = *low;
    let value = if weight > 0.0 {
        let high = above.iter().copied().fold(f64::INFINITY, f64::min);
        low + weight * (high - low)
    } else {
        low
    };
    value.is_finite().then_some(value)
}

/// The share of runs in which something happened: whose day is finite.
#[expect(clippy::cast_precision_loss, reason = "a number of runs")]
pub fn chance(days: &[f64]) -> f64 {
    if days.is_empty() {
        return 0.0;
    }
    days.iter().filter(|day| day.is_finite()).count() as f64 / days.len() as f64
}
