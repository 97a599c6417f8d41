//! One number a plot from scores over time: the area under their curve and its relatives.

use super::real;

/// Scores of one plot over its visits.
#[derive(Debug, Clone, PartialEq)]
pub struct Curve {
    days: Vec<f64>,
    scores: Vec<f64>,
}

/// Scores that make no curve.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum CurveError {
    /// A curve needs two ends.
    #[error("fewer than two visits; a curve over time needs at least two")]
    OneVisit,
    /// Visits are not in order of days.
    #[error("two visits on one day, or days out of order")]
    Order,
    /// A number is not finite, or the lists differ in length.
    #[error("a day or a score is no finite number")]
    NotANumber,
}

impl Curve {
    /// Scores on days in rising order.
    ///
    /// # Errors
    /// [`CurveError`].
    pub fn new(days: &[f64], scores: &[f64]) -> Result<Self, CurveError> {
        if days.len() != scores.len() || !days.iter().chain(scores).all(|value| value.is_finite()) {
            return Err(CurveError::NotANumber);
        }
        if days.len() < 2 {
            return Err(CurveError::OneVisit);
        }
        if days.windows(2).any(|pair| pair[1] <= pair[0]) {
            return Err(CurveError::Order);
        }
        Ok(Self { days: days.to_vec(), scores: scores.to_vec() })
    }

    /// Days from the first visit to the last.
    pub fn days(&self) -> f64 {
        self.days[self.days.len() - 1] - self.days[0]
    }

    /// Area under the curve by the trapezoid, score days (Madden, Hughes & van den Bosch 2007; Shaner & Finney 1977,
    /// Phytopathology 67:1051).
    pub fn area(&self) -> f64 {
        let steps = self.days.windows(2).zip(self.scores.windows(2));
        steps.map(|(days, scores)| f64::midpoint(scores[0], scores[1]) * (days[1] - days[0])).sum()
    }

    /// The area over its days: a season mean in units of the score.
    pub fn season_mean(&self) -> f64 {
        self.area() / self.days()
    }

    /// The stairs: first and last visits weigh as much as the others (Simko & Piepho 2012, Phytopathology 102:381-389).
    pub fn stairs(&self) -> f64 {
        let visits = real(self.scores.len());
        let ends = f64::midpoint(self.scores[0], self.scores[self.scores.len() - 1]);
        self.area() + ends * self.days() / (visits - 1.0)
    }

    /// The stairs over their days, in units of the score.
    pub fn stairs_mean(&self) -> f64 {
        let visits = real(self.scores.len());
        self.stairs() / (self.days() * visits / (visits - 1.0))
    }

    /// The highest score.
    pub fn highest(&self) -> f64 {
        self.scores.iter().copied().fold(f64::NEG_INFINITY, f64::max)
    }

    /// The last score.
    pub fn last(&self) -> f64 {
        self.scores[self.scores.len() - 1]
    }

    /// The first visit at or above a score; `None` is "not before the last visit", never 0.
    pub fn first_at(&self, score: f64) -> Option<f64> {
        self.days.iter().zip(&self.scores).find(|(_, own)| **own >= score).map(|(day, _)| *day)
    }
}

/// From this share of yellow on a plot counts as showing it, per cent. Common practice, no source.
pub const FIRST_YELLOW_PCT: f64 = 5.0;

/// The scores of several plots brought to the same visits: what was missed between two visits is drawn straight and
/// counted, what was missed at an end is not invented, so all plots are compared over the window that all have.
#[derive(Debug, Clone, PartialEq)]
pub struct CommonVisits {
    /// One curve a plot.
    pub curves: Vec<Curve>,
    /// Days that all plots are compared over.
    pub days: Vec<f64>,
    /// Visits of single plots that were drawn straight.
    pub drawn: usize,
    /// Visits at an end that some plots lack and all were compared without.
    pub left_out: usize,
}

/// Brings plots to common visits; every plot has its own days with their scores, in any order.
///
/// # Errors
/// [`CurveError::OneVisit`] where fewer than two visits are common, [`CurveError::Order`] where a plot has two scores of
/// one day, [`CurveError::NotANumber`].
pub fn common_visits(plots: &[Vec<(f64, f64)>]) -> Result<CommonVisits, CurveError> {
    let mut sorted: Vec<Vec<(f64, f64)>> = plots.to_vec();
    for visits in &mut sorted {
        if visits.iter().any(|(day, score)| !day.is_finite() || !score.is_finite()) {
            return Err(CurveError::NotANumber);
        }
        visits.sort_by(|a, b| a.0.total_cmp(&b.0));
        if visits.windows(2).any(|pair| pair[1].0 <= pair[0].0) {
            return Err(CurveError::Order);
        }
    }
    let mut all: Vec<f64> = sorted.iter().flatten().map(|(day, _)| *day).collect();
    all.sort_by(f64::total_cmp);
    all.dedup();
    let ends = |visits: &Vec<(f64, f64)>| Some((visits.first()?.0, visits.last()?.0));
    let window = sorted.iter().map(ends).collect::<Option<Vec<_>>>().ok_or(CurveError::OneVisit)?;
    let from = window.iter().map(|(first, _)| *first).fold(f64::NEG_INFINITY, f64::max);
    let to = window.iter().map(|(_, last)| *last).fold(f64::INFINITY, f64::min);
    let days: Vec<f64> = all.iter().copied().filter(|day| (from..=to).contains(day)).collect();
    let left_out = all.len() - days.len();
    let mut drawn = 0;
    let mut curves = Vec::with_capacity(sorted.len());
    for visits in &sorted {
        let mut scores = Vec::with_capacity(days.len());
        for &day in &days {
            let after = visits.partition_point(|(own, _)| *own < day).min(visits.len() - 1);
            let (next_day, next) = visits[after];
            if next_day <= day {
                scores.push(next);
            } else {
                let (before_day, before) = visits[after.saturating_sub(1)];
                scores.push(before + (next - before) * (day - before_day) / (next_day - before_day));
                drawn += 1;
            }
        }
        curves.push(Curve::new(&days, &scores)?);
    }
    Ok(CommonVisits { curves, days, drawn, left_out })
}
