//! Rings under trees: the ground within the drip lines, less the bare gaps around the trunks.

use super::disc::{Disc, DiscError};
use super::discs::Discs;

/// The ring of one tree.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ring {
    drip: Disc,
    gap: Option<Disc>,
}

impl Ring {
    /// A tree at a place, its drip-line radius and the gap kept bare around its trunk, all in metres; no gap is 0.
    ///
    /// # Errors
    /// As [`Disc::new`]; a gap may be 0.
    pub fn new(x_m: f64, y_m: f64, radius_m: f64, gap_m: f64) -> Result<Self, DiscError> {
        let drip = Disc::new(x_m, y_m, radius_m)?;
        let gap = if gap_m == 0.0 { None } else { Some(Disc::new(x_m, y_m, gap_m)?) };
        Ok(Self { drip, gap })
    }

    /// The disc within the drip line.
    pub const fn drip(self) -> Disc {
        self.drip
    }

    /// The disc kept bare around the trunk.
    pub const fn gap(self) -> Option<Disc> {
        self.gap
    }
}

/// Ground under rings, m².
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RingArea {
    /// Within any drip line.
    pub union_m2: f64,
    /// Within any drip line and in no gap: what gets mulched.
    pub net_m2: f64,
    /// Sum of the discs within the drip lines: what counting tree by tree makes of it.
    pub sum_m2: f64,
}

/// The ground under rings.
///
/// Bare is bare: where the gap of one tree reaches into the ring of another, or out of a ring smaller than itself, all
/// ground within it stays out of `net_m2`, and no ground outside every drip line is taken off.
pub fn ring_area(rings: &[Ring]) -> RingArea {
    let drips: Vec<Disc> = rings.iter().map(|ring| ring.drip).collect();
    let gaps: Vec<Disc> = rings.iter().filter_map(|ring| ring.gap).collect();
    let wider = |ring: &Ring| ring.gap.filter(|gap| gap.radius_m() > ring.drip.radius_m());
    let sticking_out: Vec<Disc> = rings.iter().filter_map(wider).collect();
    let union = Discs::new(drips.clone());
    let union_m2 = union.area_m2();
    // What is under drip lines or gaps, less what is in gaps, is what is under drip lines alone.
    let with_gaps =
        if sticking_out.is_empty() { union_m2 } else { Discs::new([drips, sticking_out].concat()).area_m2() };
    let net_m2 = (with_gaps - Discs::new(gaps).area_m2()).clamp(0.0, union_m2);
    RingArea { union_m2, net_m2, sum_m2: union.sum_m2() }
}
