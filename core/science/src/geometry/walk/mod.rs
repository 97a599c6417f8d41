//! Walking a boundary with a receiver: constant work a fix, readable at any time.
//!
//! The rules, in order: raw fixes stay with the caller; fixes that cannot be are left out ([`fix`]); a pause is one
//! corner; nothing is smoothed, for smoothing shrinks areas; the gap of a short lap is spread over it; laps are told
//! apart and averaged; the outline kept is simplified, and repaired where it crosses itself; the edge may lie beside
//! the walked line. Accuracies change how sure the area is, never where its corners are.

pub mod fix;
mod lap;
mod outline;
mod pause;

pub use fix::{Fix, LeftOut};
pub use outline::{Outline, WalkError};

use lap::{Lap, Measured, Vertex};

use super::advice::{self, Advice};
use super::averaging;
use super::frame::QuickFrame;
use crate::source::{Source, Sourced};
use crate::units::{Area, Length};

/// A gap up to this many root mean square distances is the receiver's, not the walker's: it holds 99 % of them.
pub const CLOSED_WITHIN_DRMS: Sourced<f64> = Sourced::new(3.0, SIMULATED);
/// And this part of the perimeter.
pub const CLOSED_WITHIN_PERIMETER: Sourced<f64> = Sourced::new(0.10, Source::COMMON_PRACTICE);
/// The gap of a lap shorter than this is spread over it, s: longer ones are hurt by it.
pub const SPREAD_BELOW_S: Sourced<f64> = Sourced::new(300.0, SIMULATED);
/// Laps that start closer in time than this share their errors and count as one, s.
pub const LAPS_APART_S: Sourced<f64> = Sourced::new(300.0, SIMULATED);
/// Laps further apart than this many standard deviations disagree: 95 % of differences are smaller.
pub const DISAGREE_BEYOND: Sourced<f64> = Sourced::new(2.8, Source::ASSUMPTION);
/// Normal quantile of a 95 % interval.
pub const QUANTILE_95: f64 = 1.96;
/// A lap begins again when the start is neared after having been this many nearnesses away.
const AWAY: f64 = 2.0;
/// Standing this long near the start ends a lap, s.
const LAP_BREAK_S: Sourced<f64> = Sourced::new(60.0, Source::COMMON_PRACTICE);

/// Walks of several sizes with errors as of [`averaging::CORRELATION_S`], 300 to 800 each.
const SIMULATED: Source = Source {
    author: "",
    year: 0,
    title: "simulated walks",
    place: "",
    standing: crate::source::Standing::Recomputed,
};

/// How a walk is taken.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Manner {
    /// Time after which the receiver's errors forget themselves, s.
    pub correlation_s: f64,
    /// The walk goes under trees, so no accuracy better than 5 m is believed.
    pub under_trees: bool,
    /// Fastest believed, m/s.
    pub most_speed_m_s: f64,
    /// How far the edge lies outside the walked line; below zero where it lies inside.
    pub edge_outside: Length,
}

impl Default for Manner {
    fn default() -> Self {
        Self {
            correlation_s: averaging::CORRELATION_S.value,
            under_trees: false,
            most_speed_m_s: fix::MOST_SPEED_M_S.value,
            edge_outside: Length::default(),
        }
    }
}

/// One time round.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LapReading {
    /// Its area, whichever way it was walked.
    pub area: Area,
    /// Standard deviation of the area.
    pub sd: Area,
    /// Seconds it took.
    pub seconds: f64,
}

/// A walk as it stands.
#[derive(Debug, Clone, PartialEq)]
pub struct Reading {
    /// Area, the edge's offset included.
    pub area: Area,
    /// Half-width of its 95 % interval.
    pub half_width_95: Area,
    /// About the length of the boundary.
    pub perimeter: Length,
    /// From the last fix to the start of this lap.
    pub gap: Length,
    /// Whether the gap is the receiver's rather than the walker's.
    pub closed: bool,
    /// Root mean square distance of fixes from the truth, as believed.
    pub drms: Length,
    /// Laps that count: those that were closed, or the one under way where none was.
    pub laps: Vec<LapReading>,
    /// Largest lap less smallest.
    pub spread: Area,
    /// Fixes taken into the outline; a pause is one.
    pub corners: usize,
    /// Fixes left out.
    pub left_out: LeftOut,
    /// What to do.
    pub advice: Vec<Advice>,
}

/// Where a lap is: leaving its start, away from it, or near it again.
#[derive(Debug, Clone)]
enum Stage {
    Leaving,
    Away,
    /// Near the start again.
    Back(Box<Nearest>),
}

/// The corner of a lap that is nearest to its start.
#[derive(Debug, Clone)]
struct Nearest {
    /// The lap as it was there.
    lap: Lap,
    index: usize,
    distance_m: f64,
    /// A long stand has ended the lap.
    rested: bool,
}

/// A lap that was closed.
#[derive(Debug, Clone, Copy)]
struct Closed {
    lap: Lap,
    /// Its corners.
    from: usize,
    to: usize,
}

/// A walk under way.
#[derive(Debug, Clone)]
pub struct Walk {
    manner: Manner,
    frame: Option<QuickFrame>,
    gate: fix::Gate,
    pauses: pause::Pauses,
    round: Round,
}

/// The corners so far, and their laps.
#[derive(Debug, Clone)]
struct Round {
    correlation_s: f64,
    corners: Vec<Vertex>,
    laps: Vec<Closed>,
    lap: Option<Lap>,
    from: usize,
    stage: Stage,
    /// Which way the lap left its start.
    heading: super::frame::Point,
}

impl Walk {
    /// A walk that has not begun.
    pub fn new(manner: Manner) -> Self {
        let usable =
            |figure: f64, otherwise: f64| if figure > 0.0 && figure.is_finite() { figure } else { otherwise };
        let usual = Manner::default();
        let correlation_s = usable(manner.correlation_s, usual.correlation_s);
        let most_speed_m_s = usable(manner.most_speed_m_s, usual.most_speed_m_s);
        Self {
            manner: Manner { correlation_s, most_speed_m_s, ..manner },
            frame: None,
            gate: fix::Gate::new(most_speed_m_s),
            pauses: pause::Pauses::new(correlation_s),
            round: Round::new(correlation_s),
        }
    }

    /// Takes the next fix.
    pub fn take(&mut self, fix: Fix) {
        let frame = self.frame.get_or_insert_with(|| QuickFrame::about(fix.position));
        let place = fix::Place {
            point: frame.point(fix.position),
            time_s: seconds(fix.time_ms),
            accuracy_m: fix.accuracy_m,
        };
        let Self { manner, gate, pauses, round, .. } = self;
        gate.take(place, &mut |place| pauses.take(manner.vertex(place), &mut |vertex| round.push(vertex)));
    }

    /// The receiver lost its signal, or the person stopped the walk: fixes to come are no neighbours of those before.
    pub fn interrupted(&mut self) {
        let Self { manner, gate, pauses, round, .. } = self;
        gate.flush(&mut |place| pauses.take(manner.vertex(place), &mut |vertex| round.push(vertex)));
        pauses.flush(&mut |vertex| round.push(vertex));
    }

    /// The walk as it stands.
    pub fn reading(&self) -> Reading {
        let mut left_out = self.gate.left_out;
        let mut current = self.round.lap;
        let mut corners = self.round.corners.len();
        {
            // What is still held back counts as well.
            let mut on = |vertex| {
                corners += 1;
                match &mut current {
                    Some(lap) => lap.push(vertex),
                    None => current = Some(Lap::starting(vertex, self.manner.correlation_s)),
                }
            };
            let mut pauses = self.pauses.clone();
            self.gate.waiting(|place| pauses.take(self.manner.vertex(place), &mut on), &mut left_out);
            pauses.flush(&mut on);
        }
        let laps: Vec<Lap> = self.round.laps.iter().map(|closed| closed.lap).collect();
        summary(&laps, current.as_ref(), &self.manner, corners, left_out)
    }

    /// Ends the walk.
    ///
    /// # Errors
    /// No fix that counts, or an outline that bounds nothing.
    pub fn finish(mut self) -> Result<Outline, WalkError> {
        self.interrupted();
        outline::of(&self)
    }
}

impl Manner {
    fn vertex(&self, place: fix::Place) -> Vertex {
        Vertex {
            point: place.point,
            time_s: place.time_s,
            sd_m: averaging::axis_sd_m(place.accuracy_m, self.under_trees),
            accuracy_m: place.accuracy_m,
        }
    }
}

impl Round {
    fn new(correlation_s: f64) -> Self {
        Self {
            correlation_s,
            corners: Vec::new(),
            laps: Vec::new(),
            lap: None,
            from: 0,
            stage: Stage::Leaving,
            heading: super::frame::Point::default(),
        }
    }

    fn push(&mut self, vertex: Vertex) {
        self.corners.push(vertex);
        self.advance(vertex, self.corners.len() - 1);
    }

    fn advance(&mut self, vertex: Vertex, index: usize) {
        let Some(lap) = &mut self.lap else {
            self.lap = Some(Lap::starting(vertex, self.correlation_s));
            self.from = index;
            self.stage = Stage::Leaving;
            return;
        };
        let waited_s = vertex.time_s - lap.last.time_s;
        let before = *lap;
        lap.push(vertex);
        let near_m = CLOSED_WITHIN_DRMS.value * lap.drms_m();
        let distance_m = lap.gap_m();
        match &mut self.stage {
            Stage::Leaving => {
                if distance_m <= near_m {
                    self.heading = vertex.point - lap.first.point;
                } else if distance_m > AWAY * near_m {
                    self.stage = Stage::Away;
                }
            }
            Stage::Away => {
                if distance_m < near_m {
                    let nearest = Nearest { lap: *lap, index, distance_m, rested: false };
                    self.stage = Stage::Back(Box::new(nearest));
                }
            }
            Stage::Back(nearest) => {
                if !nearest.rested && waited_s > LAP_BREAK_S.value {
                    **nearest =
                        Nearest { lap: before, index: index - 1, distance_m: before.gap_m(), rested: true };
                } else if !nearest.rested && distance_m < nearest.distance_m {
                    **nearest = Nearest { lap: *lap, index, distance_m, rested: false };
                } else if distance_m > near_m {
                    let same_way = (vertex.point - nearest.lap.last.point).dot(self.heading) > 0.0;
                    if let Stage::Back(nearest) = std::mem::replace(&mut self.stage, Stage::Away)
                        && same_way
                    {
                        self.begin_again(&nearest);
                    }
                }
            }
        }
    }

    /// Ends a lap at a corner, and begins the next with it, or after it where the walker had stood.
    fn begin_again(&mut self, nearest: &Nearest) {
        let at = nearest.index;
        self.laps.push(Closed { lap: nearest.lap, from: self.from, to: at });
        self.lap = None;
        let from = if nearest.rested { at + 1 } else { at };
        for index in from..self.corners.len() {
            if let Some(vertex) = self.corners.get(index).copied() {
                self.advance(vertex, index);
            }
        }
    }
}

/// A lap's area: the gap spread over a short lap that came back to its start.
fn measured(lap: &Lap) -> Measured {
    if lap.duration_s() < SPREAD_BELOW_S.value && is_back(lap) { lap.spread() } else { lap.closed() }
}

fn is_back(lap: &Lap) -> bool {
    lap.corners > 3 && lap.gap_m() <= CLOSED_WITHIN_DRMS.value * lap.drms_m()
}

/// The laps that count: all that were closed, and the one under way if it is closed, or none was.
fn counted(closed: &[Lap], current: Option<&Lap>) -> Vec<Lap> {
    let mut laps = closed.to_vec();
    if let Some(current) = current {
        let typical = laps.iter().map(|lap| measured(lap).signed_m2.abs()).fold(0.0, f64::max);
        let whole = is_back(current) && measured(current).signed_m2.abs() > typical / 2.0;
        if laps.is_empty() || whole {
            laps.push(*current);
        }
    }
    laps
}

/// The area of laps and its variance: each weighed by how sure it is; laps close in time are as good as one.
fn average(laps: &[Lap]) -> Measured {
    let (mut sum, mut weights) = (0.0, 0.0);
    let mut rest = laps;
    while !rest.is_empty() {
        // Laps of one group start within five minutes, each of the one before.
        let mut size = 1;
        for (a, b) in rest.iter().zip(rest.iter().skip(1)) {
            if b.first.time_s - a.first.time_s >= LAPS_APART_S.value {
                break;
            }
            size += 1;
        }
        let (group, others) = rest.split_at(size);
        rest = others;
        let (mut area, mut weight) = (0.0, 0.0);
        for lap in group {
            let Measured { signed_m2, variance_m4 } = measured(lap);
            let sure = 1.0 / variance_m4.max(f64::MIN_POSITIVE);
            area += sure * signed_m2.abs();
            weight += sure;
        }
        let mean_weight = weight / lap::as_figure(size);
        sum += area / weight * mean_weight;
        weights += mean_weight;
    }
    if weights > 0.0 {
        Measured { signed_m2: sum / weights, variance_m4: 1.0 / weights }
    } else {
        Measured { signed_m2: 0.0, variance_m4: 0.0 }
    }
}

/// How much wider the edge makes the area of a walked line: a strip along it and round its corners.
fn beside(perimeter_m: f64, outside_m: f64) -> f64 {
    outside_m * perimeter_m + core::f64::consts::PI * outside_m * outside_m
}

fn summary(
    closed: &[Lap],
    current: Option<&Lap>,
    manner: &Manner,
    corners: usize,
    left_out: LeftOut,
) -> Reading {
    let laps = counted(closed, current);
    let average = average(&laps);
    let under_way = current.or(closed.last());
    let number = lap::as_figure(laps.len().max(1));
    let drms_m = (laps.iter().map(|lap| lap.drms_m() * lap.drms_m()).sum::<f64>() / number).sqrt();
    let perimeter_m = laps.iter().map(Lap::perimeter_m).sum::<f64>() / number;
    let outside_m = manner.edge_outside.m();
    let area_m2 = (average.signed_m2 + beside(perimeter_m, outside_m)).max(0.0);
    let half_width_m2 = QUANTILE_95 * average.variance_m4.sqrt();
    let readings: Vec<LapReading> = laps
        .iter()
        .map(|lap| {
            let measured = measured(lap);
            LapReading {
                area: Area::from_m2(measured.signed_m2.abs()),
                sd: Area::from_m2(measured.variance_m4.sqrt()),
                seconds: lap.duration_s(),
            }
        })
        .collect();
    let areas = || readings.iter().map(|lap| lap.area.m2());
    let spread_m2 =
        areas().fold(0.0, f64::max) - areas().fold(f64::INFINITY, f64::min).min(areas().fold(0.0, f64::max));
    let gap_m = under_way.map_or(0.0, Lap::gap_m);
    let limit_m = (CLOSED_WITHIN_DRMS.value * drms_m).min(CLOSED_WITHIN_PERIMETER.value * perimeter_m);
    let is_closed = !closed.is_empty() || (gap_m <= limit_m && under_way.is_some_and(|lap| lap.corners > 3));
    let mut reading = Reading {
        area: Area::from_m2(area_m2),
        half_width_95: Area::from_m2(half_width_m2),
        perimeter: Length::from_m(perimeter_m),
        gap: Length::from_m(gap_m),
        closed: is_closed,
        drms: Length::from_m(drms_m),
        laps: readings,
        spread: Area::from_m2(spread_m2),
        corners,
        left_out,
        advice: Vec::new(),
    };
    reading.advise();
    reading
}

impl Reading {
    /// Says what to do, from the figures.
    fn advise(&mut self) {
        let mut advice = Vec::new();
        let taken = u32::try_from(self.corners).unwrap_or(u32::MAX);
        if self.left_out.too_fast > taken {
            advice.push(Advice::TooFast);
        }
        if !self.closed {
            advice.push(Advice::FinishLoop { gap: self.gap });
        }
        let sure = self.laps.iter().map(|lap| lap.sd.m2() * lap.sd.m2()).sum::<f64>()
            / lap::as_figure(self.laps.len().max(1));
        if self.spread.m2() > DISAGREE_BEYOND.value * sure.sqrt() {
            advice.push(Advice::LapsDisagree { spread: self.spread });
        }
        if self.closed {
            let width_m = advice::width_m(self.area.m2(), self.perimeter.m());
            let of_size = advice::of_size(self.area.m2(), self.half_width_95.m2(), width_m, self.drms.m());
            if of_size != Advice::Fine || advice.is_empty() {
                advice.push(of_size);
            }
        }
        self.advice = advice;
    }
}

#[expect(clippy::cast_precision_loss, reason = "times of a walk in milliseconds fit a double exactly")]
const fn seconds(time_ms: i64) -> f64 {
    time_ms as f64 / 1_000.0
}
