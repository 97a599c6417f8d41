//! Standing still on a walk: fixes of a pause become one corner at their mean. It leaves the area as it is and keeps
//! perimeter and count clean.

use std::collections::VecDeque;

use super::lap::Vertex;
use crate::geometry::averaging;
use crate::geometry::frame::Point;
use crate::source::{Source, Sourced};

/// Fixes of a pause lie within this many accuracies of their mean.
const WITHIN_ACCURACIES: Sourced<f64> = Sourced::new(1.5, Source::COMMON_PRACTICE);
/// Slower than this is standing, m/s.
const STANDING_M_S: Sourced<f64> = Sourced::new(0.3, Source::COMMON_PRACTICE);
/// A pause lasts longer than this, s.
const LEAST_PAUSE_S: Sourced<f64> = Sourced::new(10.0, Source::COMMON_PRACTICE);

/// Holds back the fixes of the last ten seconds, in which a pause would show.
#[derive(Debug, Clone)]
pub(super) struct Pauses {
    correlation_s: f64,
    held: VecDeque<Vertex>,
    rest: Option<Rest>,
}

/// A pause that goes on.
#[derive(Debug, Clone, Copy)]
struct Rest {
    count: f64,
    sum: Point,
    variance: f64,
    from_s: f64,
    to_s: f64,
}

impl Rest {
    fn mean(&self) -> Point {
        self.sum * (1.0 / self.count)
    }

    fn join(&mut self, vertex: Vertex) {
        self.count += 1.0;
        self.sum = self.sum + vertex.point;
        self.variance += vertex.sd_m * vertex.sd_m;
        self.to_s = vertex.time_s;
    }

    /// The pause as one corner: its mean, surer the longer it lasted.
    fn vertex(&self, correlation_s: f64) -> Vertex {
        let left = averaging::left_of_variance(self.to_s - self.from_s, correlation_s);
        let sd_m = (self.variance / self.count * left).sqrt();
        Vertex { point: self.mean(), time_s: f64::midpoint(self.from_s, self.to_s), sd_m, accuracy_m: 0.0 }
    }
}

impl Pauses {
    pub(super) fn new(correlation_s: f64) -> Self {
        Self { correlation_s, held: VecDeque::with_capacity(16), rest: None }
    }

    /// Takes a fix; corners of the outline go to `on`.
    pub(super) fn take(&mut self, vertex: Vertex, on: &mut impl FnMut(Vertex)) {
        if let Some(rest) = &mut self.rest
            && vertex.point.distance(rest.mean()) <= WITHIN_ACCURACIES.value * vertex.accuracy_m
        {
            rest.join(vertex);
            return;
        }
        if let Some(rest) = self.rest.take() {
            on(self.settled(rest, vertex.accuracy_m));
        }
        self.held.push_back(vertex);
        while let Some(first) = self.held.front().copied()
            && vertex.time_s - first.time_s > LEAST_PAUSE_S.value
        {
            if let Some(rest) = self.resting(first, vertex) {
                self.rest = Some(rest);
                self.held.clear();
            } else {
                on(first);
                self.held.pop_front();
            }
        }
    }

    /// Lets go of all that is held back.
    pub(super) fn flush(&mut self, on: &mut impl FnMut(Vertex)) {
        for vertex in self.held() {
            on(vertex);
        }
        self.held.clear();
        self.rest = None;
    }

    /// What is held back.
    pub(super) fn held(&self) -> impl Iterator<Item = Vertex> {
        let rest = self.rest.map(|rest| self.settled(rest, (2.0 * rest.variance / rest.count).sqrt()));
        rest.into_iter().chain(self.held.iter().copied())
    }

    fn settled(&self, rest: Rest, accuracy_m: f64) -> Vertex {
        Vertex { accuracy_m, ..rest.vertex(self.correlation_s) }
    }

    fn resting(&self, first: Vertex, last: Vertex) -> Option<Rest> {
        let span = last.time_s - first.time_s;
        if first.point.distance(last.point) >= STANDING_M_S.value * span {
            return None;
        }
        let mut rest = Rest {
            count: 0.0,
            sum: Point::default(),
            variance: 0.0,
            from_s: first.time_s,
            to_s: last.time_s,
        };
        for vertex in &self.held {
            rest.join(*vertex);
        }
        let mean = rest.mean();
        let within =
            |vertex: &Vertex| vertex.point.distance(mean) <= WITHIN_ACCURACIES.value * vertex.accuracy_m;
        self.held.iter().all(within).then_some(rest)
    }
}
