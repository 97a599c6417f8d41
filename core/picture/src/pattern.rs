//! Patterns that fill an outline: lines and dots, told apart without colour.

use crate::list::{DisplayList, Role};

/// Between two lines, pixels.
const STEP_PX: f64 = 6.0;
/// Between two dots.
const DOTS_PX: f64 = 7.0;
const DOT_PX: f64 = 1.3;
/// Most lines of one pattern in one outline: a picture stays small whatever is drawn.
const MOST_LINES: usize = 400;

/// How an outline is filled.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Pattern {
    /// Not at all.
    Empty,
    /// Level lines.
    Level,
    /// Upright lines.
    Upright,
    /// Lines that rise to the right.
    Rising,
    /// Lines that fall to the right.
    Falling,
    /// Both of these.
    Crossed,
    /// Dots.
    Dots,
}

/// Half of the root of two: sine and cosine of 45 degrees.
const HALF: f64 = core::f64::consts::FRAC_1_SQRT_2;

/// Fills the ground within an odd number of the rings.
pub(crate) fn fill(list: &mut DisplayList, rings: &[&[(f64, f64)]], pattern: Pattern) {
    match pattern {
        Pattern::Empty => {}
        Pattern::Level => lines(list, rings, (1.0, 0.0)),
        Pattern::Upright => lines(list, rings, (0.0, 1.0)),
        Pattern::Rising => lines(list, rings, (HALF, -HALF)),
        Pattern::Falling => lines(list, rings, (HALF, HALF)),
        Pattern::Crossed => {
            lines(list, rings, (HALF, -HALF));
            lines(list, rings, (HALF, HALF));
        }
        Pattern::Dots => dots(list, rings),
    }
}

/// Lines along a direction of length one, cut where they leave the rings.
fn lines(list: &mut DisplayList, rings: &[&[(f64, f64)]], (dx, dy): (f64, f64)) {
    // Along the direction, and across it.
    let turned = |(x, y): (f64, f64)| (x * dx + y * dy, y * dx - x * dy);
    for (across, from, to) in cuts(rings, STEP_PX, turned) {
        let back = |along: f64| (along * dx - across * dy, along * dy + across * dx);
        list.line(Role::Pattern, back(from), back(to));
    }
}

fn dots(list: &mut DisplayList, rings: &[&[(f64, f64)]]) {
    for (across, from, to) in cuts(rings, DOTS_PX, |at| at) {
        // Every other line is shifted by half a step.
        let odd = (across / DOTS_PX).round().rem_euclid(2.0) > 0.5;
        let shift = if odd { DOTS_PX / 2.0 } else { 0.0 };
        let mut along = ((from + DOT_PX - shift) / DOTS_PX).ceil() * DOTS_PX + shift;
        while along <= to - DOT_PX {
            list.circle(Role::Pattern, (along, across), DOT_PX, true);
            along += DOTS_PX;
        }
    }
}

/// Whether a point lies within a ring, well off its edge to left and right.
pub(crate) fn within(ring: &[(f64, f64)], (x, y): (f64, f64)) -> bool {
    let next = ring.iter().cycle().skip(1);
    let right = |clear: f64| {
        let crossed = ring.iter().zip(next.clone()).filter(|(from, to)| {
            (from.1 > y) != (to.1 > y)
                && from.0 + (y - from.1) / (to.1 - from.1) * (to.0 - from.0) > x + clear
        });
        crossed.count() % 2 == 1
    };
    right(-STEP_PX) && right(STEP_PX)
}

/// Where lines at multiples of a step lie within the rings: across, and from where to where along.
fn cuts(
    rings: &[&[(f64, f64)]],
    step: f64,
    turned: impl Fn((f64, f64)) -> (f64, f64),
) -> Vec<(f64, f64, f64)> {
    let edges: Vec<((f64, f64), (f64, f64))> = rings
        .iter()
        .flat_map(|ring| {
            let next = ring.iter().cycle().skip(1);
            ring.iter().zip(next).map(|(from, to)| (turned(*from), turned(*to)))
        })
        .collect();
    let low = edges.iter().map(|(from, _)| from.1).fold(f64::INFINITY, f64::min);
    let high = edges.iter().map(|(from, _)| from.1).fold(f64::NEG_INFINITY, f64::max);
    let mut found = Vec::new();
    let mut across = (low / step).ceil() * step;
    for _ in 0..MOST_LINES {
        if across.is_nan() || across > high {
            break;
        }
        let mut crossed: Vec<f64> = edges
            .iter()
            .filter(|(from, to)| (from.1 > across) != (to.1 > across))
            .map(|(from, to)| from.0 + (across - from.1) / (to.1 - from.1) * (to.0 - from.0))
            .collect();
        crossed.sort_by(f64::total_cmp);
        let (pairs, _) = crossed.as_chunks::<2>();
        found
            .extend(pairs.iter().filter(|[from, to]| to - from > 0.5).map(|[from, to]| (across, *from, *to)));
        across += step;
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    const SQUARE: [(f64, f64); 4] = [(10.0, 10.0), (50.0, 10.0), (50.0, 50.0), (10.0, 50.0)];
    const HOLE: [(f64, f64); 4] = [(20.0, 20.0), (40.0, 20.0), (40.0, 40.0), (20.0, 40.0)];

    #[test]
    fn lines_end_at_the_outline_and_leave_holes_open() {
        let found = cuts(&[&SQUARE, &HOLE], 6.0, |at| at);
        assert!(found.iter().all(|(_, from, to)| *from >= 10.0 && *to <= 50.0));
        let through: Vec<_> = found.iter().filter(|(across, ..)| (*across - 30.0).abs() < 1e-9).collect();
        assert_eq!(through, [&(30.0, 10.0, 20.0), &(30.0, 40.0, 50.0)]);
    }

    #[test]
    fn a_corner_cut_out_is_outside() {
        let corner = [(0.0, 0.0), (40.0, 0.0), (40.0, 20.0), (20.0, 20.0), (20.0, 40.0), (0.0, 40.0)];
        assert!(within(&corner, (10.0, 30.0)) && within(&corner, (30.0, 10.0)));
        assert!(
            !within(&corner, (30.0, 30.0)) && !within(&corner, (20.0, 30.0)) && !within(&corner, (-9.0, 1.0))
        );
    }

    #[test]
    fn what_is_no_outline_has_no_lines() {
        assert!(cuts(&[], 6.0, |at| at).is_empty());
        assert!(cuts(&[&[(f64::NAN, 1.0), (2.0, f64::NAN)]], 6.0, |at| at).is_empty());
        assert!(cuts(&[&[(0.0, 0.0), (1e12, 1e12), (0.0, 1e12)]], 6.0, |at| at).len() <= MOST_LINES);
    }
}
