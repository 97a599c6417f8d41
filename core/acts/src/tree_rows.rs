//! Rows of trees as one place: their ground, and the part of it that one load went to.

use std::collections::BTreeMap;

use kerfbook_ledger::kind::{Measured, PlaceKind, PlaceOutlined};
use kerfbook_ledger::{
    Book, Drive, EntryId, Label, Outline, PlaceView, TreeRow, TreeRun, TreeState, Trees, UnlikeTree,
};
use kerfbook_science::geometry::run::{self, Block, End, Tree};
use kerfbook_science::geometry::tree_rings::{Ring, ring_area};
use kerfbook_science::units::{Area, Length};

use crate::error::ActError;
use crate::figure::{above_zero, between, whole, whole_u32};
use crate::moment::Moment;
use crate::take_in_load::first;

/// Trees of a place, at most.
const MOST_TREES: u64 = 100_000;
/// Rows of unknown distance are taken to lie so far apart that their rings do not meet, m.
const APART_M: f64 = 1_000.0;

/// Rows of trees to write down.
#[derive(Debug, Clone, PartialEq)]
pub struct NewRows<'a> {
    /// What the place is called.
    pub label: &'a str,
    /// Number of the first row; the others follow it.
    pub first_row: u32,
    /// Places for trees in each row, missing ones included.
    pub trees: Vec<u32>,
    /// From tree to tree.
    pub spacing: Length,
    /// From row to row, where it is known.
    pub row_spacing: Option<Length>,
    /// Radius of the drip line.
    pub radius: Length,
    /// Radius of the gap kept bare at the trunk.
    pub gap: Length,
    /// Trees that differ.
    pub unlike: Vec<UnlikeTree>,
}

/// Opens a place of rings under rows of trees; its area is that of the rings, what overlaps counted once and the gaps
/// left out.
///
/// # Errors
/// Rows or trees that cannot be, a label that is too long, or a book that cannot be written.
pub fn outline(book: &mut Book, new: &NewRows<'_>, moment: Moment) -> Result<EntryId, ActError> {
    above_zero("spacing_m", Some(new.spacing.m()), 100.0)?;
    above_zero("row_spacing_m", new.row_spacing.map(Length::m), 100.0)?;
    above_zero("radius_m", Some(new.radius.m()), 50.0)?;
    between("gap_cm", Some(new.gap.cm()), 0.0, 500.0)?;
    let mm = |length: f64| whole_u32(length * 1e3);
    #[expect(clippy::cast_possible_truncation, reason = "rows of at most 100,000 trees 100 m apart")]
    let along = |metres: f64| (metres * 1e3).round().min(f64::from(i32::MAX)) as i32;
    let rows = new.trees.iter().zip(0_u32..).map(|(trees, index)| {
        let north = new.row_spacing.map(|apart| along(apart.m() * f64::from(index)));
        let end = along(new.spacing.m() * f64::from(trees.saturating_sub(1)));
        // Without the distance of rows nothing is known of where they lie.
        let line = north.map(|north| vec![[0, north], [end, north]]).unwrap_or_default();
        TreeRow { row: new.first_row.saturating_add(index), trees: *trees, line: Outline(line) }
    });
    let trees = Trees {
        spacing_mm: Some(mm(new.spacing.m())),
        radius_mm: Some(mm(new.radius.m())),
        gap_mm: Some(mm(new.gap.m())),
        rows: rows.collect(),
        unlike: new.unlike.clone(),
    };
    // Every tree that differs has to be one.
    let block = block(&trees, run::Drive::SameWay)?;
    for tree in &new.unlike {
        let at = Tree { row: tree.row, tree: tree.tree };
        block.stretches(at, at)?;
    }
    if trees.places() > MOST_TREES {
        let value = trees.places() as f64;
        return Err(ActError::Figure { key: "trees", value, low: 1.0, high: MOST_TREES as f64 });
    }
    let area_mm2 = whole(net(&trees, |_| true)?.m2() * 1e6);
    if area_mm2 == 0 {
        return Err(ActError::Missing { key: "place.trees", why: "a place has a size" });
    }
    let body = PlaceOutlined {
        containers: Some(u32::try_from(trees.standing()).unwrap_or(u32::MAX)),
        trees: Some(trees),
        ..PlaceOutlined::of(Label::new(new.label)?, PlaceKind::Rings, Measured::Rings, area_mm2)
    };
    first(&book.append(&[moment.draft(body)?], &[], moment.wall_ms)?)
}

/// The ground of a run of trees, and how many trees stand in it.
///
/// # Errors
/// A place without rows of trees, a tree that it does not have, an end before the start.
pub fn ground(place: &PlaceView, run: &TreeRun) -> Result<(Area, u64), ActError> {
    let trees = place.measures.last().and_then(|last| last.trees.as_ref());
    let trees =
        trees.ok_or(ActError::Missing { key: "place.row_trees", why: "a run goes along rows of trees" })?;
    let block = block(trees, drive_of(run.drive))?;
    let (from, to) = ends(run);
    let stretches: BTreeMap<u32, (u32, u32)> = block
        .stretches(from, to)?
        .iter()
        .map(|stretch| (stretch.row, (stretch.first.min(stretch.last), stretch.first.max(stretch.last))))
        .collect();
    let within =
        |tree: Tree| stretches.get(&tree.row).is_some_and(|(low, high)| (*low..=*high).contains(&tree.tree));
    Ok((net(trees, within)?, block.count(from, to)?))
}

/// The run that goes on where one ended, along as many trees, or as many as are left; none after the last tree.
///
/// # Errors
/// As [`ground`].
pub fn onward(place: &PlaceView, run: &TreeRun) -> Result<Option<TreeRun>, ActError> {
    let Some(trees) = place.measures.last().and_then(|last| last.trees.as_ref()) else { return Ok(None) };
    let block = block(trees, drive_of(run.drive))?;
    let (from, to) = ends(run);
    let count = block.count(from, to)?;
    let Some(next) = block.next(to).filter(|_| count > 0) else { return Ok(None) };
    let end = match block.end(next, count)? {
        End::At(end) | End::BlockEnds { at: end, .. } => end,
    };
    Ok(Some(TreeRun {
        from_row: next.row,
        from_tree: next.tree,
        to_row: end.row,
        to_tree: end.tree,
        drive: run.drive,
    }))
}

const fn ends(run: &TreeRun) -> (Tree, Tree) {
    (Tree { row: run.from_row, tree: run.from_tree }, Tree { row: run.to_row, tree: run.to_tree })
}

const fn drive_of(drive: Drive) -> run::Drive {
    match drive {
        Drive::Serpentine => run::Drive::Serpentine,
        Drive::SameWay => run::Drive::SameWay,
    }
}

/// Rows as the drive knows them; rows between that are not there have no trees.
fn block(trees: &Trees, drive: run::Drive) -> Result<Block, ActError> {
    let first = trees.rows.iter().map(|row| row.row).min().unwrap_or(0);
    let last = trees.rows.iter().map(|row| row.row).max().unwrap_or(0);
    let rows = u64::from(last - first) + 1;
    if rows > MOST_TREES {
        return Err(run::RunError::Rows { count: usize::try_from(rows).unwrap_or(usize::MAX) }.into());
    }
    let mut counts = vec![0; usize::try_from(rows).unwrap_or(0)];
    for row in &trees.rows {
        if let Some(count) = counts.get_mut((row.row - first) as usize) {
            *count = row.trees;
        }
    }
    let gone = trees.unlike.iter().filter(|tree| tree.state.is_some());
    let missing = gone.map(|tree| Tree { row: tree.row, tree: tree.tree }).collect();
    Ok(Block::new(first, counts, missing, drive)?)
}

/// The rings of trees that are asked for, less their gaps.
fn net(trees: &Trees, asked: impl Fn(Tree) -> bool) -> Result<Area, ActError> {
    let metres = |mm: u32| f64::from(mm) / 1e3;
    let unlike: BTreeMap<Tree, &UnlikeTree> =
        trees.unlike.iter().map(|one| (Tree { row: one.row, tree: one.tree }, one)).collect();
    let mut rings = Vec::new();
    for (row, index) in trees.rows.iter().zip(1_u32..) {
        for number in 1..=row.trees {
            let tree = Tree { row: row.row, tree: number };
            let own = unlike.get(&tree);
            if !asked(tree) || own.is_some_and(|own| own.state.is_some()) {
                continue;
            }
            let radius = own.and_then(|own| own.radius_mm).or(trees.radius_mm).unwrap_or(0);
            let gap = own.and_then(|own| own.gap_mm).or(trees.gap_mm).unwrap_or(0);
            let [x, y] = at(trees, row, number, f64::from(index) * APART_M);
            let ring = Ring::new(x, y, metres(radius), metres(gap)).map_err(|_| ActError::Figure {
                key: "radius_m",
                value: metres(radius),
                low: 0.0,
                high: 50.0,
            })?;
            rings.push(ring);
        }
    }
    Ok(Area::from_m2(ring_area(&rings).net_m2))
}

/// Where a tree stands, m: a stem by itself, or so far along its row.
fn at(trees: &Trees, row: &TreeRow, number: u32, apart_m: f64) -> [f64; 2] {
    let points = &row.line.0;
    let metres = |point: &[i32; 2]| point.map(|mm| f64::from(mm) / 1e3);
    let steps = f64::from(number - 1);
    let Some(spacing_mm) = trees.spacing_mm else {
        let stem = points.get((number - 1) as usize).map(metres);
        return stem.unwrap_or([steps * APART_M, apart_m]);
    };
    let along = steps * f64::from(spacing_mm) / 1e3;
    match (points.first().map(metres), points.last().map(metres)) {
        (Some([x, y]), Some([to_x, to_y])) if points.len() > 1 => {
            let (east, north) = (to_x - x, to_y - y);
            let length = (east * east + north * north).sqrt();
            if length > 0.0 {
                [x + along * east / length, y + along * north / length]
            } else {
                [x + along, y]
            }
        }
        (Some([x, y]), _) => [x + along, y],
        _ => [along, apart_m],
    }
}

/// A tree that has no ring.
pub const fn gone(row: u32, tree: u32, state: TreeState) -> UnlikeTree {
    UnlikeTree { row, tree, state: Some(state), radius_mm: None, gap_mm: None }
}

/// A tree whose ring has a radius of its own.
pub fn wide(row: u32, tree: u32, radius: Length) -> UnlikeTree {
    UnlikeTree { row, tree, state: None, radius_mm: Some(whole_u32(radius.mm())), gap_mm: None }
}
