//! Which fixes count: the first rules of a walk. The caller keeps every raw fix; what is turned away here is only
//! left out of the outline.

use std::collections::VecDeque;

use crate::geometry::frame::{Point, Position};
use crate::source::{Source, Sourced, Standing};

/// Fixes less accurate than this are left out, metres.
pub const WORST_ACCURACY_M: Sourced<f64> = Sourced::new(25.0, Source::COMMON_PRACTICE);
/// Nobody walks a boundary faster than this, m/s.
pub const MOST_SPEED_M_S: Sourced<f64> = Sourced::new(3.0, Source::COMMON_PRACTICE);
/// A fix that departs from the median of its neighbours by this many times its accuracy is a spike.
pub const SPIKE_ACCURACIES: Sourced<f64> = Sourced::new(3.0, Source::COMMON_PRACTICE);
/// Accuracy taken at least when looking for spikes, metres.
pub const SPIKE_LEAST_ACCURACY_M: Sourced<f64> = Sourced::new(3.0, Source::COMMON_PRACTICE);
/// The speed of a fix is taken over a window of fixes.
pub const MOVING_WINDOW_SOURCE: Source = Source::new(
    "Song & Lee",
    2015,
    "moving-window test of implied speed for tracked positions",
    "PLoS ONE 10(12) e0143618",
    Standing::SecondHand,
);
/// Speed is taken over at least this time, s, so that quick receivers do not look fast by their noise.
const SPEED_OVER_S: Sourced<f64> = Sourced::new(2.0, Source::ASSUMPTION);
/// After so many fixes too fast in a row the place they agree on is believed.
const BELIEVED_AFTER: Sourced<u32> = Sourced::new(5, Source::ASSUMPTION);

/// Fixes that a median is taken over.
const WINDOW: usize = 5;

/// A reading of the receiver.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fix {
    /// Where.
    pub position: Position,
    /// When, milliseconds from any start that all fixes of a walk share.
    pub time_ms: i64,
    /// Accuracy as the receiver reports it, metres: the radius that holds 68 %.
    pub accuracy_m: f64,
}

/// A fix in the frame of its walk.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Place {
    pub point: Point,
    pub time_s: f64,
    pub accuracy_m: f64,
}

/// Fixes left out, by reason.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct LeftOut {
    /// No accuracy, or a worse one than [`WORST_ACCURACY_M`].
    pub inaccurate: u32,
    /// No later than the fix before.
    pub out_of_time: u32,
    /// Far from all its neighbours.
    pub spikes: u32,
    /// Further from the fixes before than anyone walks.
    pub too_fast: u32,
}

impl LeftOut {
    /// All of them.
    pub const fn all(self) -> u32 {
        self.inaccurate
            .saturating_add(self.out_of_time)
            .saturating_add(self.spikes)
            .saturating_add(self.too_fast)
    }
}

/// Lets fixes through in order, two later than they came.
#[derive(Debug, Clone)]
pub(super) struct Gate {
    most_speed: f64,
    window: VecDeque<Place>,
    /// How many at the front of the window have been decided on.
    decided: usize,
    /// Fixes let through that speed is taken from.
    before: VecDeque<Place>,
    fast_in_a_row: u32,
    last_time_s: f64,
    pub left_out: LeftOut,
}

impl Gate {
    pub(super) fn new(most_speed: f64) -> Self {
        Self {
            most_speed,
            window: VecDeque::with_capacity(WINDOW + 1),
            decided: 0,
            before: VecDeque::with_capacity(8),
            fast_in_a_row: 0,
            last_time_s: f64::NEG_INFINITY,
            left_out: LeftOut::default(),
        }
    }

    /// Takes a fix; those that can be decided on now go to `through`.
    pub(super) fn take(&mut self, place: Place, through: &mut impl FnMut(Place)) {
        if !(place.accuracy_m > 0.0 && place.accuracy_m <= WORST_ACCURACY_M.value && place.point.is_finite())
        {
            self.left_out.inaccurate += 1;
        } else if place.time_s <= self.last_time_s {
            self.left_out.out_of_time += 1;
        } else {
            self.last_time_s = place.time_s;
            self.window.push_back(place);
            if self.window.len() > WINDOW {
                self.window.pop_front();
                self.decided = self.decided.saturating_sub(1);
            }
            if self.window.len() == WINDOW {
                self.decide(WINDOW / 2 + 1, through);
            }
        }
    }

    /// Decides on all that wait: the walk pauses or ends here.
    pub(super) fn flush(&mut self, through: &mut impl FnMut(Place)) {
        self.decide(self.window.len(), through);
        self.window.clear();
        self.decided = 0;
    }

    /// Decides on what waits as if the walk ended here, and changes nothing.
    pub(super) fn waiting(&self, mut through: impl FnMut(Place), left_out: &mut LeftOut) {
        let mut ahead = self.clone();
        ahead.flush(&mut through);
        *left_out = ahead.left_out;
    }

    fn decide(&mut self, until: usize, through: &mut impl FnMut(Place)) {
        while self.decided < until {
            let Some(place) = self.window.get(self.decided).copied() else { return };
            self.decided += 1;
            if self.is_spike(place) {
                self.left_out.spikes += 1;
            } else if self.is_too_fast(place) {
                self.left_out.too_fast += 1;
            } else {
                through(place);
            }
        }
    }

    fn is_spike(&self, place: Place) -> bool {
        if self.window.len() < 3 {
            return false;
        }
        let median = Point::new(self.median(|at| at.point.x), self.median(|at| at.point.y));
        let accuracy = place.accuracy_m.max(SPIKE_LEAST_ACCURACY_M.value);
        // Where fixes are far apart in time, what can be walked between them is no spike.
        let apart = self.window.iter().map(|at| (at.time_s - place.time_s).abs()).fold(0.0, f64::max);
        place.point.distance(median) > (SPIKE_ACCURACIES.value * accuracy).max(self.most_speed * apart)
    }

    fn median(&self, figure: impl Fn(&Place) -> f64) -> f64 {
        let mut figures = [0.0; WINDOW];
        let count = self.window.len().min(WINDOW);
        for (slot, place) in figures.iter_mut().zip(&self.window) {
            *slot = figure(place);
        }
        let figures = figures.get_mut(..count).unwrap_or_default();
        figures.sort_unstable_by(f64::total_cmp);
        figures.get(count / 2).copied().unwrap_or_default()
    }

    fn is_too_fast(&mut self, place: Place) -> bool {
        // The window starts two fixes back, or further where those are too close in time.
        while self.before.len() > 2
            && self.before.get(1).is_some_and(|later| place.time_s - later.time_s >= SPEED_OVER_S.value)
        {
            self.before.pop_front();
        }
        let fast = self.before.front().is_some_and(|from| {
            place.point.distance(from.point) > self.most_speed * (place.time_s - from.time_s)
        });
        if fast {
            self.fast_in_a_row += 1;
            if self.fast_in_a_row < BELIEVED_AFTER.value {
                return true;
            }
            self.before.clear();
        }
        self.fast_in_a_row = 0;
        self.before.push_back(place);
        false
    }
}
