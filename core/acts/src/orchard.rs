//! An orchard by the load: how many trees a load is enough for, where it ends, how deep it lies, how the spreader goes.

use kerfbook_science::geometry::load::{passes, reach, trees_per_load};
use kerfbook_science::geometry::run::{End, RunError, Stretch, Tree};
use kerfbook_science::units::{Area, Length, Volume};

use crate::error::ActError;
use crate::load::Load;
use crate::scenario::{Containers, Ground, Orchard};

/// Most loads that are told one by one.
pub const MOST_TOLD: usize = 100;

/// One load on its run.
#[derive(Debug, Clone, PartialEq)]
pub struct Run {
    /// Where it begins.
    pub from: Tree,
    /// Where it ends; that tree still gets its part.
    pub to: Tree,
    /// Trees that stand there.
    pub trees: u64,
    /// Row by row, in the order of the drive.
    pub rows: Vec<Stretch>,
}

/// How a spreader goes over a band.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spreading {
    /// Passes over the band.
    pub passes: u64,
    /// Depth that each lays.
    pub depth: Length,
    /// How far along the row one load reaches in one pass.
    pub reach: Length,
}

/// The loads of a run.
#[derive(Debug, Clone, PartialEq)]
pub struct ByLoad {
    /// One load: the trailer, or all there is.
    pub load: Volume,
    /// Ground covered at one tree.
    pub ground: Area,
    /// What one tree takes at the depth wanted.
    pub tree: Volume,
    /// Whole trees that a load is enough for at that depth.
    pub trees_per_load: u64,
    /// Loads there are.
    pub loads: f64,
    /// Each load with its run, the first as it was spread where that is known. Not more than [`MOST_TOLD`].
    pub runs: Vec<Run>,
    /// Depth on the first run: as wanted, or as it lies where the load's end is known.
    pub depth: Length,
    /// Where the next load after those begins; none after the last tree.
    pub next: Option<Tree>,
    /// Trees' worth that is left when the block ends before the loads do.
    pub left_trees: u64,
    /// How the spreader goes, where its width is known and a band is covered.
    pub spreading: Option<Spreading>,
}

/// Works the loads of a run out.
///
/// # Errors
/// A tree that the block does not have, a run backwards, a ring of nothing, or a load that is not enough for one tree.
pub fn by_load(orchard: &Orchard, load: &Load, containers: &Containers) -> Result<ByLoad, ActError> {
    let ground = ground(orchard.ground)?;
    let one = one_load(load, containers);
    let tree = ground.volume_of(orchard.depth);
    let per_load = trees_per_load(one, tree);
    let mut made = ByLoad {
        load: one,
        ground,
        tree,
        trees_per_load: per_load,
        loads: load.loose.m3() / one.m3(),
        runs: Vec::new(),
        depth: orchard.depth,
        next: Some(orchard.from),
        left_trees: 0,
        spreading: spreading(orchard, one),
    };
    let loads = count(made.loads);
    if let Some(to) = orchard.to {
        let run = run(orchard, orchard.from, to)?;
        if run.trees == 0 {
            return Err(RunError::NoTrees.into());
        }
        made.depth = one.depth_over(ground * trees(run.trees));
        made.next = orchard.block.next(to);
        made.runs.push(run);
    }
    if per_load == 0 {
        // One that was spread is told all the same: it only lies thinner than wanted.
        return if made.runs.is_empty() { Err(RunError::NoTrees.into()) } else { Ok(made) };
    }
    while made.runs.len() < loads.min(MOST_TOLD) {
        let Some(from) = made.next else { break };
        let (to, left) = match orchard.block.end(from, per_load)? {
            End::At(to) => (to, 0),
            End::BlockEnds { at, left } => (at, left),
        };
        made.runs.push(run(orchard, from, to)?);
        made.next = if left == 0 { orchard.block.next(to) } else { None };
        made.left_trees = left;
    }
    if made.next.is_none() {
        let unused = u64::try_from(loads.saturating_sub(made.runs.len())).unwrap_or(u64::MAX);
        made.left_trees = made.left_trees.saturating_add(unused.saturating_mul(per_load));
    }
    Ok(made)
}

/// One load: a trailer, or all there is where that is less or where there is no trailer.
pub(crate) fn one_load(load: &Load, containers: &Containers) -> Volume {
    containers.trailer.map_or(load.loose, |trailer| if trailer < load.loose { trailer } else { load.loose })
}

fn run(orchard: &Orchard, from: Tree, to: Tree) -> Result<Run, ActError> {
    let rows = orchard.block.stretches(from, to)?;
    let trees = rows.iter().map(|row| u64::from(row.trees)).sum();
    Ok(Run { from, to, trees, rows })
}

/// Ground covered at one tree.
fn ground(ground: Ground) -> Result<Area, ActError> {
    let m2 = match ground {
        Ground::Rings { radius, gap } => {
            core::f64::consts::PI * (radius.m() * radius.m() - gap.m() * gap.m())
        }
        Ground::Band { width, spacing } => width.m() * spacing.m(),
    };
    if m2 > 0.0 && m2.is_finite() {
        Ok(Area::from_m2(m2))
    } else {
        Err(ActError::Missing {
            key: "orchard.ring_radius_m",
            why: "a ring is wider than the gap at its trunk",
        })
    }
}

fn spreading(orchard: &Orchard, load: Volume) -> Option<Spreading> {
    let (Ground::Band { width, .. }, Some(spreader)) = (orchard.ground, orchard.spreader) else {
        return None;
    };
    let (passes, depth) = passes(width, spreader, orchard.depth)?;
    Some(Spreading { passes, depth, reach: reach(load, spreader, depth) })
}

/// Loads begun.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a cast from float saturates")]
fn count(loads: f64) -> usize {
    (loads - 1e-9).ceil().max(1.0) as usize
}

#[expect(clippy::cast_precision_loss, reason = "a block has at most ten thousand million trees")]
const fn trees(count: u64) -> f64 {
    count as f64
}
