//! An orchard worked load by load: "this trailer: row 12, tree 9 to row 14, tree 3".

/// Most rows of a block, and most trees of a row.
const MOST: usize = 100_000;

/// How rows follow each other on the drive.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Drive {
    /// Up one row and down the next: the first row of the block from tree 1 on, the second from its last tree back.
    Serpentine,
    /// Every row from tree 1 on.
    SameWay,
}

/// A tree by row and number, both from 1.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Tree {
    /// Row.
    pub row: u32,
    /// Number within the row; tree 1 of every row stands at the same side of the block.
    pub tree: u32,
}

/// Rows of trees and the way they are driven.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Block {
    /// Number of the first row.
    first_row: u32,
    /// Places for trees in each row.
    trees: Vec<u32>,
    /// Places without a tree, in order.
    missing: Vec<Tree>,
    drive: Drive,
}

/// What one row has of a run.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Stretch {
    /// Row.
    pub row: u32,
    /// Number of the tree at which it begins, on the drive.
    pub first: u32,
    /// Number of the tree at which it ends.
    pub last: u32,
    /// Trees that stand there.
    pub trees: u32,
}

/// Where a load ends.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum End {
    /// At this tree, which still gets its part.
    At(Tree),
    /// The block ends first, at this tree; so many trees' worth is left on the trailer.
    BlockEnds {
        /// The last tree.
        at: Tree,
        /// Trees' worth left over.
        left: u64,
    },
}

/// Why a run is none.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum RunError {
    /// A block of no rows or too many.
    #[error("{count} rows: a block has 1 to {MOST}, and rows have at most {MOST} trees")]
    Rows {
        /// As given.
        count: usize,
    },
    /// A tree that the block does not have.
    #[error("there is no tree {} in row {} of this block", .0.tree, .0.row)]
    NoTree(Tree),
    /// A run whose end comes before its start on this drive.
    #[error("row {}, tree {} comes before row {}, tree {} on this drive: swap them, or check how the rows are driven", .to.row, .to.tree, .from.row, .from.tree)]
    Backwards {
        /// Start.
        from: Tree,
        /// End.
        to: Tree,
    },
    /// A load for no tree.
    #[error("a load for no tree: give at least one")]
    NoTrees,
}

impl Block {
    /// A block of rows that count up from `first_row`, with so many places in each.
    ///
    /// # Errors
    /// No row, more than 100 000, or a row of more than 100 000 places; a missing tree that is not in the block.
    pub fn new(
        first_row: u32,
        trees: Vec<u32>,
        mut missing: Vec<Tree>,
        drive: Drive,
    ) -> Result<Self, RunError> {
        let rows = trees.len();
        let fits = first_row.checked_add(u32::try_from(rows).unwrap_or(u32::MAX)).is_some();
        if !(1..=MOST).contains(&rows) || !fits || trees.iter().any(|count| *count as usize > MOST) {
            return Err(RunError::Rows { count: rows });
        }
        missing.sort_unstable();
        missing.dedup();
        let block = Self { first_row, trees, missing, drive };
        match block.missing.iter().find(|tree| !block.has_place(**tree)) {
            Some(tree) => Err(RunError::NoTree(*tree)),
            None => Ok(block),
        }
    }

    /// How many trees stand from one to another, both included.
    ///
    /// # Errors
    /// As [`Block::stretches`].
    pub fn count(&self, from: Tree, to: Tree) -> Result<u64, RunError> {
        Ok(self.stretches(from, to)?.iter().map(|stretch| u64::from(stretch.trees)).sum())
    }

    /// The rows of a run with the trees in them, in the order of the drive.
    ///
    /// # Errors
    /// A place that the block does not have; an end before the start.
    pub fn stretches(&self, from: Tree, to: Tree) -> Result<Vec<Stretch>, RunError> {
        for tree in [from, to] {
            if !self.has_place(tree) {
                return Err(RunError::NoTree(tree));
            }
        }
        let starts_late = from.row == to.row && self.steps(from) > self.steps(to);
        if from.row > to.row || starts_late {
            return Err(RunError::Backwards { from, to });
        }
        let stretch = |row: u32| {
            let places = self.places(row);
            let (first, last) = if self.is_up(row) { (1, places) } else { (places, 1) };
            let first = if row == from.row { from.tree } else { first };
            let last = if row == to.row { to.tree } else { last };
            Stretch { row, first, last, trees: self.standing(row, first, last) }
        };
        Ok((from.row..=to.row).filter(|row| self.places(*row) > 0).map(stretch).collect())
    }

    /// Where a load that begins at a tree and is enough for so many ends. Places without a tree take nothing.
    ///
    /// # Errors
    /// A place that the block does not have; a load for no tree.
    pub fn end(&self, from: Tree, trees: u64) -> Result<End, RunError> {
        if !self.has_place(from) {
            return Err(RunError::NoTree(from));
        }
        if trees == 0 {
            return Err(RunError::NoTrees);
        }
        let (mut left, mut at) = (trees, from);
        let last_row = self.first_row + u32::try_from(self.trees.len()).unwrap_or(u32::MAX) - 1;
        for row in from.row..=last_row {
            let places = self.places(row);
            let start = if row == from.row { self.steps(from) } else { 0 };
            if start >= places {
                continue;
            }
            let tree = |steps: u32| Tree { row, tree: self.number(row, steps) };
            let standing =
                u64::from(self.standing(row, self.number(row, start), self.number(row, places - 1)));
            if standing < left {
                left -= standing;
                at = (start..places).rev().map(tree).find(|tree| self.stands(*tree)).unwrap_or(at);
                continue;
            }
            for tree in (start..places).map(tree).filter(|tree| self.stands(*tree)) {
                at = tree;
                left -= 1;
                if left == 0 {
                    return Ok(End::At(at));
                }
            }
        }
        Ok(End::BlockEnds { at, left })
    }

    /// The tree after one on the drive, where the next load begins; nothing after the last.
    pub fn next(&self, after: Tree) -> Option<Tree> {
        match self.end(after, if self.stands(after) { 2 } else { 1 }) {
            Ok(End::At(tree)) => Some(tree),
            _ => None,
        }
    }

    /// Places in a row; 0 for a row that is not of the block.
    fn places(&self, row: u32) -> u32 {
        let index = row.checked_sub(self.first_row).map(|index| index as usize);
        index.and_then(|index| self.trees.get(index)).copied().unwrap_or(0)
    }

    fn has_place(&self, tree: Tree) -> bool {
        (1..=self.places(tree.row)).contains(&tree.tree)
    }

    fn stands(&self, tree: Tree) -> bool {
        self.has_place(tree) && self.missing.binary_search(&tree).is_err()
    }

    /// Whether a row is driven from tree 1 on.
    const fn is_up(&self, row: u32) -> bool {
        match self.drive {
            Drive::SameWay => true,
            Drive::Serpentine => row.wrapping_sub(self.first_row).is_multiple_of(2),
        }
    }

    /// Places passed in its row before a tree.
    fn steps(&self, tree: Tree) -> u32 {
        if self.is_up(tree.row) {
            tree.tree.saturating_sub(1)
        } else {
            self.places(tree.row).saturating_sub(tree.tree)
        }
    }

    /// The tree after so many places of a row.
    fn number(&self, row: u32, steps: u32) -> u32 {
        if self.is_up(row) { steps + 1 } else { self.places(row).saturating_sub(steps) }
    }

    /// Trees that stand in a row between two places, both included.
    fn standing(&self, row: u32, first: u32, last: u32) -> u32 {
        let (low, high) = (first.min(last), first.max(last));
        let from = self.missing.partition_point(|tree| *tree < Tree { row, tree: low });
        let to = self.missing.partition_point(|tree| *tree <= Tree { row, tree: high });
        high - low + 1 - u32::try_from(to - from).unwrap_or(u32::MAX)
    }
}

#[cfg(test)]
#[expect(clippy::unwrap_used, reason = "a test may stop where it stands")]
mod tests {
    use super::*;

    const fn tree(row: u32, tree: u32) -> Tree {
        Tree { row, tree }
    }

    fn block(drive: Drive, missing: &[Tree]) -> Block {
        Block::new(12, vec![20; 4], missing.to_vec(), drive).unwrap()
    }

    #[test]
    fn a_trailer_goes_up_and_down() {
        let block = block(Drive::Serpentine, &[]);
        let run = block.stretches(tree(12, 9), tree(14, 3)).unwrap();
        let told: Vec<_> = run.iter().map(|part| (part.row, part.first, part.last, part.trees)).collect();
        assert_eq!(told, [(12, 9, 20, 12), (13, 20, 1, 20), (14, 1, 3, 3)]);
        assert_eq!(block.count(tree(12, 9), tree(13, 15)), Ok(12 + 6));
        assert_eq!(block.end(tree(12, 9), 35), Ok(End::At(tree(14, 3))));
        assert_eq!(block.next(tree(12, 20)), Some(tree(13, 20)));
        assert_eq!(block.next(tree(15, 1)), None);
    }

    #[test]
    fn rows_driven_the_same_way_begin_at_tree_one() {
        let block = block(Drive::SameWay, &[]);
        assert_eq!(block.count(tree(12, 9), tree(13, 15)), Ok(12 + 15));
        assert_eq!(block.next(tree(12, 20)), Some(tree(13, 1)));
    }

    #[test]
    fn places_without_a_tree_take_nothing() {
        let block = block(Drive::Serpentine, &[tree(13, 20), tree(12, 10), tree(12, 10)]);
        assert_eq!(block.count(tree(12, 9), tree(14, 3)), Ok(33));
        assert_eq!(block.next(tree(12, 20)), Some(tree(13, 19)));
        assert_eq!(block.end(tree(12, 10), 1), Ok(End::At(tree(12, 11))));
    }

    #[test]
    fn the_end_of_the_block_leaves_the_rest_on_the_trailer() {
        let block = block(Drive::Serpentine, &[]);
        assert_eq!(block.end(tree(15, 2), 10), Ok(End::BlockEnds { at: tree(15, 1), left: 8 }));
    }

    #[test]
    fn end_and_count_agree() {
        for drive in [Drive::Serpentine, Drive::SameWay] {
            let block = block(drive, &[tree(13, 4), tree(14, 20)]);
            for trees in 1..60 {
                if let End::At(end) = block.end(tree(12, 3), trees).unwrap() {
                    assert_eq!(block.count(tree(12, 3), end), Ok(trees));
                }
            }
        }
    }

    #[test]
    fn what_is_no_run_is_refused() {
        let block = block(Drive::Serpentine, &[]);
        assert_eq!(block.count(tree(12, 21), tree(13, 1)), Err(RunError::NoTree(tree(12, 21))));
        assert!(matches!(block.count(tree(13, 2), tree(13, 9)), Err(RunError::Backwards { .. })));
        assert!(matches!(block.count(tree(14, 2), tree(13, 9)), Err(RunError::Backwards { .. })));
        assert_eq!(block.end(tree(12, 1), 0), Err(RunError::NoTrees));
        assert!(Block::new(1, vec![], vec![], Drive::SameWay).is_err());
        assert!(Block::new(u32::MAX, vec![3, 3], vec![], Drive::SameWay).is_err());
        assert!(Block::new(1, vec![3], vec![tree(2, 1)], Drive::SameWay).is_err());
    }

    #[test]
    fn a_block_of_any_size_is_worked_out_by_the_row() {
        let large = Block::new(1, vec![100_000; 100_000], vec![tree(100_000, 1)], Drive::Serpentine).unwrap();
        let end = large.end(tree(1, 1), u64::MAX).unwrap();
        assert_eq!(end, End::BlockEnds { at: tree(100_000, 2), left: u64::MAX - 9_999_999_999 });
        assert_eq!(large.end(tree(1, 1), 250_000), Ok(End::At(tree(3, 50_000))));
    }
}
