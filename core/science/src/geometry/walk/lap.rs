//! One time round: area and its variance, kept up with constant work a corner.
//!
//! Errors of an axis follow a first-order autoregression, so the covariance of corners i and j is
//! `s_i s_j exp(-|t_i - t_j| / tau)`. The area is half the sum of cross products, its gradient at a corner half the
//! chord between the neighbours turned by 90 degrees, and its variance the double sum of covariance times products
//! of gradients. A decayed sum carries that double sum forward in one step a corner; what the closing edge changes
//! (the first corner and the last) is added when it is read.

use crate::geometry::frame::Point;
use crate::source::{Source, Sourced};

/// Part of the error that is new with every fix, metres an axis.
const WHITE_M: Sourced<f64> = Sourced::new(0.3, Source::ASSUMPTION);
/// The running perimeter steps over noise: metres, and accuracies, that a step has at least.
const STEP_M: Sourced<f64> = Sourced::new(2.0, Source::ASSUMPTION);
const STEP_ACCURACIES: Sourced<f64> = Sourced::new(1.5, Source::ASSUMPTION);

/// A corner of the outline.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(super) struct Vertex {
    pub point: Point,
    pub time_s: f64,
    /// Standard deviation of an axis, metres.
    pub sd_m: f64,
    /// Accuracy as reported, metres.
    pub accuracy_m: f64,
}

/// Sums over the corners of a lap. Points and times count from the first corner.
#[derive(Debug, Clone, Copy)]
pub(super) struct Lap {
    correlation_s: f64,
    pub corners: usize,
    pub first: Vertex,
    second: Point,
    before: Point,
    before_s: f64,
    pub last: Vertex,
    /// Correlation of the last corner with the one before, and with the first.
    with_before: f64,
    with_first: f64,
    /// Twice the area.
    twice_m2: f64,
    /// Sum of `t_(i+1) p_i - t_i p_(i+1)`: how spreading the gap over time changes the area.
    leaned: Point,
    /// Over the inner corners: decayed sum of s g; the double sum; sum of s g by correlation with the first corner;
    /// sum of t g; sum of g squared.
    decayed: Point,
    variance: f64,
    by_first: Point,
    timed: Point,
    squares: f64,
    /// Sum of squared standard deviations and of accuracies.
    sd2: f64,
    accuracy: f64,
    /// Length so far and where its last step ended.
    length_m: f64,
    stepped: Point,
}

/// A lap as it stands.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Measured {
    pub signed_m2: f64,
    pub variance_m4: f64,
}

/// A quarter turn to the right, halved: a chord becomes the gradient of the area at the corner between.
const fn gradient(chord: Point) -> Point {
    Point::new(chord.y / 2.0, -chord.x / 2.0)
}

impl Lap {
    pub(super) fn starting(first: Vertex, correlation_s: f64) -> Self {
        Self {
            correlation_s,
            corners: 1,
            first,
            second: Point::default(),
            before: Point::default(),
            before_s: 0.0,
            last: first,
            with_before: 1.0,
            with_first: 1.0,
            twice_m2: 0.0,
            leaned: Point::default(),
            decayed: Point::default(),
            variance: 0.0,
            by_first: Point::default(),
            timed: Point::default(),
            squares: 0.0,
            sd2: first.sd_m * first.sd_m,
            accuracy: first.accuracy_m,
            length_m: 0.0,
            stepped: Point::default(),
        }
    }

    pub(super) fn push(&mut self, vertex: Vertex) {
        let (last, next) = (self.last.point - self.first.point, vertex.point - self.first.point);
        let (last_s, next_s) = (self.since_start(self.last), self.since_start(vertex));
        if self.corners == 1 {
            self.second = next;
        } else {
            // Only now are both neighbours of the last corner known.
            let slope = gradient(next - self.before);
            let weighed = slope * correlated(self.last.sd_m);
            self.decayed = self.decayed * self.with_before;
            self.variance += 2.0 * weighed.dot(self.decayed) + weighed.dot(weighed);
            self.decayed = self.decayed + weighed;
            self.by_first = self.by_first + weighed * self.with_first;
            self.timed = self.timed + slope * last_s;
            self.squares += slope.dot(slope);
        }
        self.twice_m2 += last.cross(next);
        self.leaned = self.leaned + last * next_s - next * last_s;
        self.with_before = libm::exp(-(next_s - last_s) / self.correlation_s);
        self.with_first *= self.with_before;
        self.before = last;
        self.before_s = last_s;
        self.last = vertex;
        self.corners += 1;
        self.sd2 += vertex.sd_m * vertex.sd_m;
        self.accuracy += vertex.accuracy_m;
        let step = self.stepped.distance(next);
        if step >= STEP_M.value.max(STEP_ACCURACIES.value * vertex.accuracy_m) {
            self.length_m += step;
            self.stepped = next;
        }
    }

    fn since_start(&self, vertex: Vertex) -> f64 {
        vertex.time_s - self.first.time_s
    }

    /// Seconds from the first corner to the last.
    pub(super) fn duration_s(&self) -> f64 {
        self.since_start(self.last)
    }

    /// Metres from the last corner to the first.
    pub(super) fn gap_m(&self) -> f64 {
        self.last.point.distance(self.first.point)
    }

    /// About the length of the closed outline, metres.
    pub(super) fn perimeter_m(&self) -> f64 {
        let last = self.last.point - self.first.point;
        self.length_m + self.stepped.distance(last) + last.length()
    }

    /// Root mean square distance of fixes from the truth, metres.
    pub(super) fn drms_m(&self) -> f64 {
        (2.0 * self.sd2 / as_figure(self.corners)).sqrt()
    }

    /// Mean accuracy as reported, metres.
    pub(super) fn accuracy_m(&self) -> f64 {
        self.accuracy / as_figure(self.corners)
    }

    /// Area and variance with a straight closing edge.
    pub(super) fn closed(&self) -> Measured {
        let last = self.last.point - self.first.point;
        let ends = [gradient(self.second - last), gradient(Point::default() - self.before)];
        Measured { signed_m2: self.twice_m2 / 2.0, variance_m4: self.variance_with(ends, Point::default()) }
    }

    /// Area and variance with the gap spread evenly over the time of the lap, so that it ends where it began.
    pub(super) fn spread(&self) -> Measured {
        let duration = self.duration_s();
        if duration <= 0.0 || self.corners < 3 {
            return self.closed();
        }
        let gap = self.last.point - self.first.point;
        let twice = self.twice_m2 - self.leaned.cross(gap) / duration;
        let before = self.before - gap * (self.before_s / duration);
        let ends = [gradient(self.second), gradient(Point::default() - before)];
        // A corner moves against the gap by its part of the time; the first and the last fix make the gap.
        let moved = self.timed * (1.0 / duration) + ends[1];
        Measured { signed_m2: twice / 2.0, variance_m4: self.variance_with(ends, moved) }
    }

    /// The double sum with the gradients of the first and the last corner, and a gradient that the gap adds to the
    /// first and takes from the last.
    fn variance_with(&self, [of_first, of_last]: [Point; 2], moved: Point) -> f64 {
        if self.corners < 3 {
            return 0.0;
        }
        let (first_sd, last_sd) = (correlated(self.first.sd_m), correlated(self.last.sd_m));
        let (first, last) = ((of_first + moved) * first_sd, (of_last - moved) * last_sd);
        let decayed = self.decayed * self.with_before;
        let correlated = self.variance
            + 2.0 * last.dot(decayed)
            + last.dot(last)
            + 2.0 * first.dot(self.by_first + last * self.with_first)
            + first.dot(first);
        let (first, last) = (of_first + moved, of_last - moved);
        let white = WHITE_M.value * WHITE_M.value * (self.squares + first.dot(first) + last.dot(last));
        (correlated + white).max(0.0)
    }
}

/// The part of a standard deviation that lasts from fix to fix.
fn correlated(sd_m: f64) -> f64 {
    (sd_m * sd_m - WHITE_M.value * WHITE_M.value).max(0.0).sqrt()
}

#[expect(clippy::cast_precision_loss, reason = "a count of corners")]
pub(super) const fn as_figure(count: usize) -> f64 {
    count as f64
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::nitrogen::uniform;

    const CORRELATION_S: f64 = 60.0;

    /// A wobbly round of uneven times and accuracies.
    #[expect(clippy::cast_precision_loss, reason = "small counts")]
    fn vertices(number: usize) -> Vec<Vertex> {
        let mut time_s = 0.0;
        (0..number)
            .map(|index| {
                let at = |which| uniform(7, index as u64, which);
                let angle = 6.2 * index as f64 / number as f64;
                time_s += 0.2 + 1.6 * at(0);
                let (sine, cosine) = libm::sincos(angle);
                Vertex {
                    point: Point::new(50.0 * cosine + 2.0 * at(1), 30.0 * sine + 2.0 * at(2)),
                    time_s,
                    sd_m: 1.0 + 3.0 * at(3),
                    accuracy_m: 3.0,
                }
            })
            .collect()
    }

    fn lap_of(vertices: &[Vertex]) -> Lap {
        let mut lap = Lap::starting(vertices[0], CORRELATION_S);
        for vertex in &vertices[1..] {
            lap.push(*vertex);
        }
        lap
    }

    fn area(points: &[Point]) -> f64 {
        let next = points.iter().cycle().skip(1);
        points.iter().zip(next).map(|(a, b)| a.cross(*b)).sum::<f64>() / 2.0
    }

    /// The area with the gap spread over time.
    fn spread_area(vertices: &[Vertex], points: &[Point]) -> f64 {
        let (first, last) = (vertices[0], vertices[vertices.len() - 1]);
        let gap = points[points.len() - 1] - points[0];
        let moved: Vec<Point> = points
            .iter()
            .zip(vertices)
            .map(|(point, vertex)| {
                *point - gap * ((vertex.time_s - first.time_s) / (last.time_s - first.time_s))
            })
            .collect();
        area(&moved)
    }

    /// The whole double sum, with gradients by differences of the area.
    fn variance(vertices: &[Vertex], of: impl Fn(&[Point]) -> f64) -> f64 {
        let points: Vec<Point> = vertices.iter().map(|vertex| vertex.point).collect();
        let slope = |index: usize| {
            let by = |step: Point| {
                let moved = |sign: f64| {
                    let mut points = points.clone();
                    points[index] = points[index] + step * sign;
                    of(&points)
                };
                (moved(1.0) - moved(-1.0)) / 2.0
            };
            Point::new(by(Point::new(1.0, 0.0)), by(Point::new(0.0, 1.0)))
        };
        let slopes: Vec<Point> = (0..points.len()).map(slope).collect();
        let mut sum = 0.0;
        for (a, one) in vertices.iter().zip(&slopes) {
            for (b, other) in vertices.iter().zip(&slopes) {
                let lasting = libm::exp(-(a.time_s - b.time_s).abs() / CORRELATION_S);
                sum += correlated(a.sd_m) * correlated(b.sd_m) * lasting * one.dot(*other);
            }
            sum += WHITE_M.value * WHITE_M.value * one.dot(*one);
        }
        sum
    }

    #[test]
    fn the_recursion_is_the_whole_covariance_sum() {
        for number in [3, 4, 5, 200] {
            let vertices = vertices(number);
            let points: Vec<Point> = vertices.iter().map(|vertex| vertex.point).collect();
            let closed = lap_of(&vertices).closed();
            let whole = variance(&vertices, area);
            assert!((closed.variance_m4 / whole - 1.0).abs() < 1e-9, "{} {whole}", closed.variance_m4);
            assert!((closed.signed_m2 - area(&points)).abs() < 1e-9);
        }
    }

    #[test]
    fn spreading_the_gap_is_told_in_the_variance() {
        let mut vertices = vertices(200);
        // The lap ends a few metres from its start.
        let last = vertices.len() - 1;
        vertices[last].point = vertices[0].point + Point::new(-2.0, 3.0);
        let points: Vec<Point> = vertices.iter().map(|vertex| vertex.point).collect();
        let spread = lap_of(&vertices).spread();
        let whole = variance(&vertices, |points| spread_area(&vertices, points));
        assert!((spread.signed_m2 - spread_area(&vertices, &points)).abs() < 1e-9);
        // Inner gradients are taken at the walked corners rather than at the moved ones: a gap's part of a step.
        assert!((spread.variance_m4 / whole - 1.0).abs() < 0.01, "{} {whole}", spread.variance_m4);
    }
}
