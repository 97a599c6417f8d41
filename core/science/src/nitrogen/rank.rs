//! Which unknown decides a result: rank correlation of the parameters with it.

/// The ranks of a list over the runs: infinite values rank last, equal values share their mean rank.
#[derive(Debug, Clone)]
pub struct Ranks(Vec<f64>);

impl Ranks {
    /// Of a value a run.
    pub fn of(values: &[f64]) -> Self {
        Self(ranks(values))
    }

    /// Spearman's rank correlation; none where either has no spread, or where they are not of one length.
    pub fn correlation(&self, other: &Self) -> Option<f64> {
        let (Self(a), Self(b)) = (self, other);
        if a.len() != b.len() || a.len() < 2 {
            return None;
        }
        // Ranks have the same mean whatever the ties.
        #[expect(clippy::cast_precision_loss, reason = "a number of runs")]
        let mean = (a.len() + 1) as f64 / 2.0;
        let sum = |a: &[f64], b: &[f64]| a.iter().zip(b).map(|(a, b)| (a - mean) * (b - mean)).sum::<f64>();
        let spread = (sum(a, a) * sum(b, b)).sqrt();
        (spread > 0.0).then(|| sum(a, b) / spread)
    }
}

/// Ranks from 1; equal values share their mean rank.
fn ranks(values: &[f64]) -> Vec<f64> {
    let mut order: Vec<usize> = (0..values.len()).collect();
    order.sort_by(|a, b| values[*a].total_cmp(&values[*b]));
    let mut ranks = vec![0.0; values.len()];
    let mut start = 0;
    for same in order.chunk_by(|a, b| values[*a].total_cmp(&values[*b]).is_eq()) {
        #[expect(clippy::cast_precision_loss, reason = "a number of runs")]
        let rank = start as f64 + (same.len() + 1) as f64 / 2.0;
        for run in same {
            ranks[*run] = rank;
        }
        start += same.len();
    }
    ranks
}
