//! The middle of the runs with the ends of their range.

use serde::Serialize;

/// Figures beyond this are no figures of a field and are not drawn.
const LARGEST: f64 = 1e12;

/// The middle of the runs, with eight runs in ten between the ends.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize)]
pub struct Range {
    /// A tenth of the runs is below.
    pub p10: f64,
    /// The middle one.
    pub p50: f64,
    /// A tenth of the runs is above.
    pub p90: f64,
}

impl Range {
    /// The ends with the middle between them, or nothing where one of the three cannot be drawn.
    pub(crate) fn drawable(self) -> Option<Self> {
        let low = drawable(self.p10)?.min(drawable(self.p90)?);
        let high = self.p10.max(self.p90);
        Some(Self { p10: low, p50: drawable(self.p50)?.clamp(low, high), p90: high })
    }
}

/// The value, where it can be drawn.
pub(crate) fn drawable(value: f64) -> Option<f64> {
    (value.is_finite() && value.abs() <= LARGEST).then_some(value)
}
