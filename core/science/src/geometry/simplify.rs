//! Fewer corners for the same line: Ramer 1972 and Douglas & Peucker 1973.

use super::frame::Point;

/// Distances computed for each point at most, on average; beyond it what is left stays as it is. A walk needs
/// about twenty.
const MOST_PER_POINT: usize = 200;

/// Which points of a line to keep so that none of the others lies further than `within_m` from it; first and last
/// always. Work grows with the number of points and stays bounded for any input.
pub fn kept(line: &[Point], within_m: f64) -> Vec<usize> {
    let Some(last) = line.len().checked_sub(1) else { return Vec::new() };
    let mut keep = vec![false; line.len()];
    let mut left = line.len().saturating_mul(MOST_PER_POINT);
    let mut spans = vec![(0, last)];
    for end in [0, last] {
        if let Some(flag) = keep.get_mut(end) {
            *flag = true;
        }
    }
    while let Some((from, to)) = spans.pop() {
        let (Some(a), Some(b), Some(inner)) = (line.get(from), line.get(to), line.get(from + 1..to)) else {
            continue;
        };
        if inner.len() > left {
            for flag in keep.get_mut(from..to).unwrap_or_default() {
                *flag = true;
            }
            continue;
        }
        left -= inner.len();
        let mut furthest = (within_m * within_m, None);
        for (offset, point) in inner.iter().enumerate() {
            let squared = squared_distance(*point, *a, *b);
            if squared > furthest.0 {
                furthest = (squared, Some(from + 1 + offset));
            }
        }
        if let (_, Some(at)) = furthest {
            if let Some(flag) = keep.get_mut(at) {
                *flag = true;
            }
            spans.push((from, at));
            spans.push((at, to));
        }
    }
    keep.iter().enumerate().filter_map(|(index, keep)| keep.then_some(index)).collect()
}

/// Which corners of a ring, its first not repeated, to keep. It is cut at its first corner and the one furthest
/// from it.
pub fn kept_of_ring(ring: &[Point], within_m: f64) -> Vec<usize> {
    let Some(first) = ring.first() else { return Vec::new() };
    let far =
        ring.iter().enumerate().max_by(|(_, a), (_, b)| a.distance(*first).total_cmp(&b.distance(*first)));
    let cut = far.map_or(0, |(index, _)| index);
    let mut back: Vec<Point> = ring.get(cut..).unwrap_or_default().to_vec();
    back.push(*first);
    let mut keep = kept(ring.get(..=cut).unwrap_or_default(), within_m);
    keep.pop();
    keep.extend(kept(&back, within_m).into_iter().map(|index| index + cut));
    keep.retain(|index| *index < ring.len());
    keep
}

/// Squared metres from a point to the stretch between two others.
fn squared_distance(point: Point, a: Point, b: Point) -> f64 {
    let (along, to) = (b - a, point - a);
    let length = along.dot(along);
    let share = if length > 0.0 { (along.dot(to) / length).clamp(0.0, 1.0) } else { 0.0 };
    let off = to - along * share;
    off.dot(off)
}
