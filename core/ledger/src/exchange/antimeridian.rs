//! Outlines for files: cut where they cross the antimeridian (RFC 7946, 3.1.9), counter-clockwise outside, holes clockwise.
//!
//! Degrees are taken as a plane here. A ring is first unrolled, so that its longitudes go on beyond 180 degrees; then it
//! is cut along every meridian that is the antimeridian, and what lies beyond is brought back.

use super::feature::{Polygon, Ring};

/// Rings with their longitudes unrolled belong to sheets of so many degrees.
const TURN: f64 = 360.0;
const HALF: f64 = 180.0;

/// The same ground in polygons of which none crosses the antimeridian. Rings of fewer than three points are left out.
pub fn cut(polygons: &[Polygon]) -> Vec<Polygon> {
    polygons.iter().flat_map(cut_one).collect()
}

fn cut_one(polygon: &Polygon) -> Vec<Polygon> {
    let Some(outer) = unrolled(&polygon.outer, None) else { return Vec::new() };
    let middle = f64::midpoint(least(&outer, 0), most(&outer, 0));
    let mut rings = vec![wound(outer, true)];
    for hole in &polygon.holes {
        rings.extend(unrolled(hole, Some(middle)).map(|hole| wound(hole, false)));
    }
    let crossed = |meridian: f64| {
        rings.first().is_some_and(|outer| least(outer, 0) < meridian && meridian < most(outer, 0))
    };
    // An unrolled ring reaches one turn to either side at most.
    let meridians: Vec<f64> =
        [-HALF - TURN, -HALF, HALF, HALF + TURN].into_iter().filter(|at| crossed(*at)).collect();
    let mut parts = vec![rings];
    for meridian in meridians {
        parts = parts
            .into_iter()
            .flat_map(|rings| [half(&rings, meridian, false), half(&rings, meridian, true)])
            .filter(|rings| !rings.is_empty())
            .collect();
    }
    parts.into_iter().flat_map(grouped).map(rolled).collect()
}

/// A ring that is open, whose longitudes go on without a jump; one that goes round a pole is led along it. Nothing for
/// fewer than three points.
fn unrolled(ring: &Ring, near: Option<f64>) -> Option<Ring> {
    let mut points: Ring = ring.clone();
    while points.len() > 1 && points.first() == points.last() {
        points.pop();
    }
    let [start, _, _, ..] = *points.as_slice() else { return None };
    let mut last = start[0];
    for point in &mut points {
        point[0] = near_to(point[0], last);
        last = point[0];
    }
    let round = near_to(start[0], last) - start[0];
    if round.abs() > HALF {
        // Once round: up to the pole that it holds, and back along it. Which one, the mean latitude tells.
        let mean = points.iter().map(|point| point[1]).sum::<f64>();
        let pole = 90.0_f64.copysign(mean);
        points.extend([[start[0] + round, start[1]], [start[0] + round, pole], [start[0], pole]]);
    }
    if let Some(near) = near {
        let shift = near_to(start[0], near) - start[0];
        for point in &mut points {
            point[0] += shift;
        }
    }
    Some(points)
}

/// The same longitude, whole turns away, that is nearest to another.
fn near_to(longitude: f64, other: f64) -> f64 {
    longitude - TURN * ((longitude - other) / TURN).round()
}

fn least(ring: &Ring, axis: usize) -> f64 {
    ring.iter().filter_map(|point| point.get(axis)).copied().fold(f64::INFINITY, f64::min)
}

fn most(ring: &Ring, axis: usize) -> f64 {
    ring.iter().filter_map(|point| point.get(axis)).copied().fold(f64::NEG_INFINITY, f64::max)
}

/// Twice the signed area, square degrees; taken from the first point, so that a far origin costs no digits.
fn twice_area(ring: &Ring) -> f64 {
    let Some([x, y]) = ring.first().copied() else { return 0.0 };
    let pairs = ring.iter().zip(ring.iter().skip(1));
    pairs.map(|(a, b)| (a[0] - x) * (b[1] - y) - (b[0] - x) * (a[1] - y)).sum()
}

fn wound(mut ring: Ring, counter_clockwise: bool) -> Ring {
    if (twice_area(&ring) < 0.0) == counter_clockwise {
        ring.reverse();
    }
    ring
}

/// The rings on one side of a meridian: pieces of rings that cross it are joined along it, two crossings at a time in
/// order of latitude, for between them lies the inside.
fn half(rings: &[Ring], meridian: f64, east: bool) -> Vec<Ring> {
    let on_side = |point: &[f64; 2]| (point[0] >= meridian) == east;
    let mut whole = Vec::new();
    let mut chains: Vec<Ring> = Vec::new();
    for ring in rings {
        let Some(begin) = ring.iter().position(|point| !on_side(point)) else {
            whole.push(ring.clone());
            continue;
        };
        let mut chain = Ring::new();
        let turned = ring.iter().cycle().skip(begin).take(ring.len() + 1);
        let mut before = [0.0; 2];
        for (index, point) in turned.enumerate() {
            let (was, is) = (index > 0 && on_side(&before), on_side(point));
            if index > 0 && was != is {
                let part = (meridian - before[0]) / (point[0] - before[0]);
                chain.push([meridian, before[1] + part * (point[1] - before[1])]);
            }
            if is {
                chain.push(*point);
            } else if was {
                chains.push(std::mem::take(&mut chain));
            }
            before = *point;
        }
    }
    whole.extend(joined(&chains));
    whole.retain(|ring| ring.len() > 2 && twice_area(ring) != 0.0);
    whole
}

/// Chains whose ends lie on one meridian, joined to rings.
fn joined(chains: &[Ring]) -> Vec<Ring> {
    // Every end by latitude: chain, and whether it is its start.
    let mut ends: Vec<(f64, usize, bool)> = Vec::new();
    for (index, chain) in chains.iter().enumerate() {
        if let (Some(first), Some(last)) = (chain.first(), chain.last()) {
            ends.extend([(first[1], index, true), (last[1], index, false)]);
        }
    }
    ends.sort_by(|a, b| a.0.total_cmp(&b.0));
    let (pairs, _) = ends.as_chunks::<2>();
    let mut partner = vec![[None; 2]; chains.len()];
    for [one, other] in pairs {
        for ((_, chain, start), (_, to, to_start)) in [(one, other), (other, one)] {
            if let Some(ends) = partner.get_mut(*chain) {
                ends[usize::from(*start)] = Some((*to, *to_start));
            }
        }
    }
    let mut used = vec![false; chains.len()];
    let mut rings = Vec::new();
    for start in 0..chains.len() {
        let mut ring = Ring::new();
        let (mut at, mut forwards) = (start, true);
        while let (Some(chain), Some(false)) = (chains.get(at), used.get(at)) {
            if let Some(used) = used.get_mut(at) {
                *used = true;
            }
            if forwards {
                ring.extend(chain);
            } else {
                ring.extend(chain.iter().rev());
            }
            // From where this chain ends to its neighbour on the meridian.
            let ends = partner.get(at).copied().unwrap_or_default();
            match ends[usize::from(!forwards)] {
                Some((to, to_start)) => (at, forwards) = (to, to_start),
                None => break,
            }
        }
        if !ring.is_empty() {
            rings.push(ring);
        }
    }
    rings
}

/// Rings of one part as polygons: each hole in the smallest outer ring around it.
fn grouped(rings: Vec<Ring>) -> Vec<Polygon> {
    let (outers, holes): (Vec<Ring>, Vec<Ring>) = rings.into_iter().partition(|ring| twice_area(ring) > 0.0);
    let mut polygons: Vec<Polygon> =
        outers.into_iter().map(|outer| Polygon { outer, holes: Vec::new() }).collect();
    for hole in holes {
        let around = polygons
            .iter_mut()
            .filter(|polygon| hole.first().is_some_and(|point| holds(&polygon.outer, *point)))
            .min_by(|a, b| twice_area(&a.outer).total_cmp(&twice_area(&b.outer)));
        if let Some(polygon) = around {
            polygon.holes.push(hole);
        }
    }
    polygons
}

/// Whether a point lies in a ring: a line westwards from it crosses the ring an odd number of times.
pub fn holds(ring: &[[f64; 2]], [x, y]: [f64; 2]) -> bool {
    let after = ring.iter().cycle().skip(1);
    let crossings = ring
        .iter()
        .zip(after)
        .filter(|(a, b)| (a[1] > y) != (b[1] > y) && a[0] + (y - a[1]) / (b[1] - a[1]) * (b[0] - a[0]) < x);
    crossings.count() % 2 == 1
}

/// Brings a polygon back within 180 degrees, by whole turns.
fn rolled(mut polygon: Polygon) -> Polygon {
    let middle = f64::midpoint(least(&polygon.outer, 0), most(&polygon.outer, 0));
    let shift = near_to(middle, 0.0) - middle;
    if shift != 0.0 {
        let rings = std::iter::once(&mut polygon.outer).chain(&mut polygon.holes);
        rings.flatten().for_each(|point| point[0] = (point[0] + shift).clamp(-HALF, HALF));
    }
    polygon
}

#[cfg(test)]
mod tests {
    use super::*;

    fn area(polygons: &[Polygon]) -> f64 {
        let of = |polygon: &Polygon| {
            twice_area(&polygon.outer) / 2.0
                + polygon.holes.iter().map(|hole| twice_area(hole) / 2.0).sum::<f64>()
        };
        polygons.iter().map(of).sum()
    }

    #[test]
    fn what_does_not_cross_stays_and_is_wound() {
        let clockwise = vec![[0.0, 0.0], [0.0, 1.0], [1.0, 1.0], [1.0, 0.0], [0.0, 0.0]];
        let hole = vec![[0.2, 0.2], [0.4, 0.2], [0.4, 0.4]];
        let made = cut(&[Polygon { outer: clockwise, holes: vec![hole] }]);
        assert_eq!(made.len(), 1);
        assert!(twice_area(&made[0].outer) > 0.0 && twice_area(&made[0].holes[0]) < 0.0);
        assert!((area(&made) - 0.98).abs() < 1e-12);
    }

    #[test]
    fn a_crossing_outline_is_cut_with_its_holes() {
        // A hole on the line, one on either side of it.
        let square =
            |x: f64, y: f64, size: f64| vec![[x, y], [x + size, y], [x + size, y + size], [x, y + size]];
        let wrap = |ring: Ring| -> Ring {
            ring.into_iter().map(|[x, y]| [if x > 180.0 { x - 360.0 } else { x }, y]).collect()
        };
        let polygon = Polygon {
            outer: wrap(square(179.0, 10.0, 2.0)),
            holes: vec![
                wrap(square(179.8, 11.0, 0.5)),
                wrap(square(179.2, 10.2, 0.25)),
                wrap(square(180.5, 10.2, 0.25)),
            ],
        };
        let made = cut(&[polygon]);
        assert_eq!(made.len(), 2);
        assert!((area(&made) - (4.0 - 0.25 - 2.0 * 0.0625)).abs() < 1e-12);
        for polygon in &made {
            let (west, east) = (least(&polygon.outer, 0), most(&polygon.outer, 0));
            assert!((-180.0..=180.0).contains(&west) && east - west <= 1.0, "{west} {east}");
            assert_eq!(polygon.holes.len(), 1);
        }
    }

    #[test]
    fn a_comb_across_the_line_falls_into_teeth() {
        // A spine west of the line, three teeth over it.
        let mut outer = vec![[179.0, 0.0]];
        for tooth in 0..3 {
            let y = f64::from(tooth) * 2.0;
            outer.extend([[179.5, y], [-179.5, y], [-179.5, y + 1.0], [179.5, y + 1.0]]);
        }
        outer.push([179.0, 5.0]);
        let before = area(&[Polygon { outer: unrolled(&outer, None).unwrap(), holes: Vec::new() }]).abs();
        let made = cut(&[Polygon { outer, holes: Vec::new() }]);
        assert_eq!(made.len(), 4);
        assert!((area(&made) - before).abs() < 1e-12);
    }

    #[test]
    fn a_pole_is_held() {
        let ring: Ring = (0..36).map(|step| [f64::from(step) * 10.0 - 175.0, 80.0]).collect();
        let made = cut(&[Polygon { outer: ring, holes: Vec::new() }]);
        assert!((area(&made) - 3_600.0).abs() < 1e-9, "{made:?}");
        assert!(made.iter().flat_map(|polygon| &polygon.outer).all(|point| point[0].abs() <= 180.0));
    }
}
