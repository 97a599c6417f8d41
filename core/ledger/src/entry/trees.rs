//! Rows of trees as one place: where they stand, how wide their rings are, and the single trees that differ.

use super::field::{codes, record};
use super::outline::Outline;

codes! {
    /// Why a tree has no ring.
    TreeState, "state of a tree" {
        /// No tree stands there.
        Missing = 1, "missing";
        /// It stands and is dead.
        Dead = 2, "dead";
    }
}

codes! {
    /// How rows follow each other on the drive.
    Drive, "drive" {
        /// Up one row and down the next.
        Serpentine = 1, "serpentine";
        /// Every row from tree 1 on.
        SameWay = 2, "same-way";
    }
}

record! {
    /// One row.
    TreeRow {
        /// Its number.
        row: u32,
        /// Places for trees, from 1.
        trees: u32,
        /// Its line from tree 1 to the last, mm of the place's frame; empty where it is not known. Where the place has
        /// no spacing, every point of it is a stem.
        line: Outline,
    }
}

record! {
    /// A tree that is not like the others.
    UnlikeTree {
        /// Its row.
        row: u32,
        /// Its place in the row, from 1.
        tree: u32,
        /// Why it has no ring; none where it has one.
        state: Option<TreeState>,
        /// Its own radius, mm.
        radius_mm: Option<u32>,
        /// Its own gap, mm.
        gap_mm: Option<u32>,
    }
}

record! {
    /// The trees of a place.
    Trees {
        /// From tree to tree in a row, mm.
        spacing_mm: Option<u32>,
        /// Radius of the drip line, mm.
        radius_mm: Option<u32>,
        /// Radius of the gap kept bare at the trunk, mm.
        gap_mm: Option<u32>,
        /// The rows.
        rows: Vec<TreeRow>,
        /// The trees that differ.
        unlike: Vec<UnlikeTree>,
    }
}

impl Trees {
    /// Places for trees, missing ones included.
    pub fn places(&self) -> u64 {
        self.rows.iter().map(|row| u64::from(row.trees)).sum()
    }

    /// Trees that have a ring.
    pub fn standing(&self) -> u64 {
        let gone = self.unlike.iter().filter(|tree| tree.state.is_some()).count();
        self.places().saturating_sub(u64::try_from(gone).unwrap_or(u64::MAX))
    }
}

record! {
    /// From one tree to another, both included: "row 12, tree 9 to row 14, tree 3".
    TreeRun {
        /// Row of the first.
        from_row: u32,
        /// The first.
        from_tree: u32,
        /// Row of the last.
        to_row: u32,
        /// The last.
        to_tree: u32,
        /// How the rows are driven.
        drive: Drive,
    }
}
