//! The union of many discs, exact: no polygons, no double counting.
//!
//! Every circle adds its arcs outside all other discs (Green's theorem); what a disc adds depends on its neighbours
//! alone and is kept, so that moving one disc works out only those near it.

use super::arc::{Arcs, Rim};
use super::disc::{Chord, Disc};
use super::grid::Grid;

/// So many arcs of a circle are gathered before it is looked whether they cover it all.
const FIRST_LOOK: usize = 32;

/// Discs and the area that they cover together.
#[derive(Debug, Clone)]
pub struct Discs {
    all: Vec<Disc>,
    /// What each disc adds to the area, m².
    parts: Vec<f64>,
    grid: Grid,
    origin: [f64; 2],
}

impl Discs {
    /// Works the union out: O(n k log k) for n discs of k neighbours each.
    pub fn new(discs: Vec<Disc>) -> Self {
        let mut union = Self::gathered(discs);
        let mut covered = Arcs::default();
        union.parts = (0..).zip(&union.all).map(|(index, _)| union.part(index, &mut covered)).collect();
        union
    }

    /// The discs in their grid, nothing worked out.
    pub(super) fn gathered(discs: Vec<Disc>) -> Self {
        let mut grid = Grid::over(&discs);
        // The largest of a cell is put in last and so comes first: what lies in another is found out soon.
        let mut by_size: Vec<(u32, Disc)> = (0..).zip(discs.iter().copied()).collect();
        by_size.sort_by(|(_, a), (_, b)| a.radius_m.total_cmp(&b.radius_m));
        for (index, disc) in by_size {
            grid.add(index, disc);
        }
        Self { parts: Vec::new(), origin: middle(&discs), grid, all: discs }
    }

    /// Where x and y are counted from.
    pub(super) const fn origin(&self) -> [f64; 2] {
        self.origin
    }

    /// The discs.
    pub fn discs(&self) -> &[Disc] {
        &self.all
    }

    /// Area covered, m²: what lies under several discs counts once.
    pub fn area_m2(&self) -> f64 {
        sum(&self.parts)
    }

    /// Sum of the single areas, m².
    pub fn sum_m2(&self) -> f64 {
        let areas: Vec<f64> = self.all.iter().map(|disc| disc.area_m2()).collect();
        sum(&areas)
    }

    /// Puts a disc where another was, and gives back how many discs had to be worked out again; nothing happens and 0
    /// comes back where there is no such disc.
    pub fn replace(&mut self, index: usize, disc: Disc) -> usize {
        let (Some(place), Ok(key)) = (self.all.get_mut(index), u32::try_from(index)) else { return 0 };
        let before = core::mem::replace(place, disc);
        self.grid.remove(key, before);
        self.grid.add(key, disc);
        self.refresh(&[before, disc])
    }

    /// Adds a disc, and gives back how many discs had to be worked out again.
    pub fn push(&mut self, disc: Disc) -> usize {
        if let Ok(key) = u32::try_from(self.all.len()) {
            self.all.push(disc);
            self.parts.push(0.0);
            self.grid.add(key, disc);
        }
        self.refresh(&[disc])
    }

    /// Works out again what the discs near these add.
    fn refresh(&mut self, changed: &[Disc]) -> usize {
        let mut stale = Vec::new();
        for disc in changed {
            self.grid.near(*disc, |index| {
                if self
                    .get(index)
                    .is_some_and(|other| other.distance(*disc) <= other.radius_m + disc.radius_m)
                {
                    stale.push(index);
                }
                true
            });
        }
        stale.sort_unstable();
        stale.dedup();
        let mut covered = Arcs::default();
        for index in &stale {
            let part = self.part(*index, &mut covered);
            if let Some(kept) = self.parts.get_mut(*index as usize) {
                *kept = part;
            }
        }
        stale.len()
    }

    fn get(&self, index: u32) -> Option<Disc> {
        self.all.get(index as usize).copied()
    }

    /// What a disc adds to the area.
    fn part(&self, index: u32, covered: &mut Arcs) -> f64 {
        let Some(disc) = self.get(index) else { return 0.0 };
        if self.cover(index, covered) { covered.free_area(disc, self.origin) } else { 0.0 }
    }

    /// Gathers the arcs of a disc's circle that lie in other discs; false where nothing of it is left. Of equal discs the
    /// first stands.
    pub(super) fn cover(&self, index: u32, covered: &mut Arcs) -> bool {
        covered.clear();
        let Some(disc) = self.get(index) else { return false };
        let mut stands = true;
        // Where very many discs lie on each other a few of them cover most circles: look now and then, ever more seldom.
        let mut look_at = FIRST_LOOK;
        self.grid.near(disc, |other_index| {
            let Some(other) = self.get(other_index).filter(|_| other_index != index) else { return true };
            let square = disc.square_distance(other);
            let (sum, difference) = (disc.radius_m + other.radius_m, disc.radius_m - other.radius_m);
            // Most of what is near is apart, and that shows without a root.
            if square >= sum * sum {
                return true;
            }
            let distance = square.sqrt();
            if distance >= sum {
                return true;
            }
            if distance <= difference.abs() {
                let is_in_it = difference < 0.0 || (difference <= 0.0 && other_index < index);
                stands = !is_in_it;
                return stands;
            }
            let chord = Chord::of(disc.radius_m, other.radius_m, distance);
            let towards = [(other.x_m - disc.x_m) / distance, (other.y_m - disc.y_m) / distance];
            let foot = [towards[0] * chord.apart, towards[1] * chord.apart];
            let side = [towards[1] * chord.half, towards[0] * chord.half];
            covered.add(
                disc.radius_m,
                Rim::new(foot[0] + side[0], foot[1] - side[1]),
                Rim::new(foot[0] - side[0], foot[1] + side[1]),
                chord.apart < 0.0,
            );
            if covered.count() >= look_at {
                look_at *= 2;
                stands = !covered.are_whole(disc.radius_m);
            }
            stands
        });
        stands
    }
}

/// The middle of the box around the discs; the origin where there are none.
fn middle(discs: &[Disc]) -> [f64; 2] {
    let middle_of = |at: fn(&Disc) -> f64| {
        let least = discs.iter().map(at).fold(f64::INFINITY, f64::min);
        let most = discs.iter().map(at).fold(f64::NEG_INFINITY, f64::max);
        if discs.is_empty() { 0.0 } else { f64::midpoint(least, most) }
    };
    [middle_of(|disc| disc.x_m), middle_of(|disc| disc.y_m)]
}

/// A sum that keeps its low digits (Neumaier 1974): parts of a union have both signs.
pub(super) fn sum(parts: &[f64]) -> f64 {
    let (mut sum, mut lost) = (0.0_f64, 0.0);
    for part in parts {
        let next = sum + part;
        lost += if sum.abs() >= part.abs() { (sum - next) + part } else { (part - next) + sum };
        sum = next;
    }
    sum + lost
}
