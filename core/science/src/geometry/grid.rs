//! Which discs are near a disc: grids of square cells, one for each class of radius, so that a large disc among small
//! ones costs no more than itself.

use super::disc::Disc;

/// Classes of radius, each half the one before; the last takes what is smaller.
const CLASSES: usize = 12;
/// Most cells of a grid for each disc in it.
const CELLS_A_DISC: f64 = 4.0;

/// Discs by where they lie.
#[derive(Debug, Clone)]
pub(super) struct Grid {
    largest: f64,
    classes: Vec<Class>,
}

#[derive(Debug, Clone, Default)]
struct Class {
    /// Largest radius in it; none, no disc.
    reach: f64,
    west: f64,
    south: f64,
    cell: f64,
    columns: usize,
    rows: usize,
    cells: Vec<Vec<u32>>,
}

impl Grid {
    /// A grid that has room for these discs and is still empty.
    pub(super) fn over(discs: &[Disc]) -> Self {
        let largest = discs.iter().map(|disc| disc.radius_m).fold(0.0, f64::max);
        let mut grid = Self { largest, classes: vec![Class::default(); CLASSES] };
        let mut extents = [Extent::NONE; CLASSES];
        for disc in discs {
            if let Some(extent) = extents.get_mut(grid.class(disc.radius_m)) {
                extent.take_in(disc);
            }
        }
        for (class, extent) in grid.classes.iter_mut().zip(extents) {
            *class = Class::over(&extent);
        }
        grid
    }

    fn class(&self, radius: f64) -> usize {
        let mut class = 0;
        let mut half = self.largest * 0.5;
        while radius <= half && class + 1 < CLASSES {
            half *= 0.5;
            class += 1;
        }
        class
    }

    /// Puts a disc in; the last one put in comes first.
    pub(super) fn add(&mut self, index: u32, disc: Disc) {
        let class = self.class(disc.radius_m);
        if let Some(class) = self.classes.get_mut(class) {
            class.add(index, disc);
        }
    }

    /// Takes a disc out.
    pub(super) fn remove(&mut self, index: u32, disc: Disc) {
        let class = self.class(disc.radius_m);
        if let Some(cell) = self.classes.get_mut(class).and_then(|class| class.cell_of(disc)) {
            cell.retain(|other| *other != index);
        }
    }

    /// Goes through the discs that may touch a disc, and maybe through others; ends early when told so.
    pub(super) fn near(&self, disc: Disc, mut visit: impl FnMut(u32) -> bool) {
        for class in self.classes.iter().filter(|class| class.reach > 0.0) {
            let far = disc.radius_m + class.reach;
            let columns = class.column(disc.x_m - far)..=class.column(disc.x_m + far);
            for row in class.row(disc.y_m - far)..=class.row(disc.y_m + far) {
                let start = row * class.columns;
                let Some(cells) = class.cells.get(start + columns.start()..=start + columns.end()) else {
                    continue;
                };
                for index in cells.iter().flatten().rev() {
                    if !visit(*index) {
                        return;
                    }
                }
            }
        }
    }
}

impl Class {
    fn over(extent: &Extent) -> Self {
        if extent.count == 0 {
            return Self { columns: 1, rows: 1, cell: 1.0, cells: vec![Vec::new()], ..Self::default() };
        }
        let (width, height) = (extent.east - extent.west, extent.north - extent.south);
        let most = CELLS_A_DISC * f64::from(extent.count);
        // Two radii hold a neighbourhood in three by three cells; coarser where the discs lie far apart.
        let cell = (2.0 * extent.reach).max((width * height / most).sqrt()).max(width.max(height) / most);
        let mut class = Self {
            reach: extent.reach,
            west: extent.west,
            south: extent.south,
            cell,
            columns: usize::MAX,
            rows: usize::MAX,
            cells: Vec::new(),
        };
        class.columns = class.column(extent.east) + 1;
        class.rows = class.row(extent.north) + 1;
        class.cells = vec![Vec::new(); class.columns * class.rows];
        class
    }

    fn column(&self, x: f64) -> usize {
        clamped((x - self.west) / self.cell, self.columns)
    }

    fn row(&self, y: f64) -> usize {
        clamped((y - self.south) / self.cell, self.rows)
    }

    fn cell_of(&mut self, disc: Disc) -> Option<&mut Vec<u32>> {
        let at = self.row(disc.y_m) * self.columns + self.column(disc.x_m);
        self.cells.get_mut(at)
    }

    fn add(&mut self, index: u32, disc: Disc) {
        self.reach = self.reach.max(disc.radius_m);
        if let Some(cell) = self.cell_of(disc) {
            cell.push(index);
        }
    }
}

/// The cell of a coordinate; what lies outside counts to the cell at the edge, on both sides of a search alike.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a cast from float saturates")]
fn clamped(cells: f64, count: usize) -> usize {
    (cells.floor() as usize).min(count.saturating_sub(1))
}

#[derive(Debug, Clone, Copy)]
struct Extent {
    count: u32,
    reach: f64,
    west: f64,
    east: f64,
    south: f64,
    north: f64,
}

impl Extent {
    const NONE: Self = Self {
        count: 0,
        reach: 0.0,
        west: f64::INFINITY,
        east: f64::NEG_INFINITY,
        south: f64::INFINITY,
        north: f64::NEG_INFINITY,
    };

    fn take_in(&mut self, disc: &Disc) {
        self.count = self.count.saturating_add(1);
        self.reach = self.reach.max(disc.radius_m);
        self.west = self.west.min(disc.x_m);
        self.east = self.east.max(disc.x_m);
        self.south = self.south.min(disc.y_m);
        self.north = self.north.max(disc.y_m);
    }
}
