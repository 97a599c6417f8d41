//! A map of plots: where each stands, what its number is, and a letter or a figure in it.

use crate::list::{Anchor, DisplayList, Role, Screen};

/// One plot.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct FieldCell {
    /// Row, from 0 at the near edge.
    pub row: usize,
    /// Place in its row, from 0 at the left.
    pub column: usize,
    /// What stands on its stake.
    pub number: String,
    /// A letter or a figure.
    pub label: String,
    /// Shaded: the darker, the more; 0 to 1.
    pub shade: f64,
    /// Picked out with a rim.
    pub chosen: bool,
}

/// A field of plots.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct FieldMap {
    /// What it is, in a few words.
    pub title: String,
    /// What it shows, in a sentence or two.
    pub description: String,
    /// The plots.
    pub cells: Vec<FieldCell>,
    /// The way that is walked, as places in `cells`; empty for none.
    pub walk: Vec<usize>,
    /// Word at its beginning.
    pub start: String,
}

const TOP: f64 = 34.0;
const EDGE: f64 = 12.0;
const TALL: f64 = 58.0;
const GAP: f64 = 14.0;
/// A plot is no wider than this.
const WIDEST: f64 = 110.0;

impl FieldMap {
    /// Draws it, the near edge below.
    pub fn draw(&self, screen: Screen) -> DisplayList {
        let width = screen.width();
        let mut list = DisplayList::new(width, &self.title, &self.description);
        let rows = self.cells.iter().map(|cell| cell.row + 1).max().unwrap_or(0);
        let columns = self.cells.iter().map(|cell| cell.column + 1).max().unwrap_or(1);
        let wide = ((width - 2.0 * EDGE) / columns as f64).min(WIDEST);
        let corner = |cell: &FieldCell| {
            let from_top = rows - 1 - cell.row;
            (EDGE + cell.column as f64 * wide, TOP + from_top as f64 * (TALL + GAP))
        };
        list.height = TOP + rows as f64 * (TALL + GAP) + EDGE;
        list.text(Role::Heading, (EDGE, 20.0), Anchor::Start, &self.title);
        let middle = |cell: &FieldCell| {
            let (x, y) = corner(cell);
            (x + wide / 2.0, y + TALL)
        };
        for cell in &self.cells {
            let (x, y) = corner(cell);
            let tall = TALL * cell.shade.clamp(0.0, 1.0);
            if tall > 0.0 {
                // A bar from below, so that shade is not told by colour alone.
                list.rect(Role::Bar, (x + 2.0, y + TALL - tall), (wide - 4.0, tall));
            }
            let role = if cell.chosen { Role::Chosen } else { Role::Axis };
            let corners =
                [(x + 2.0, y), (x + wide - 2.0, y), (x + wide - 2.0, y + TALL), (x + 2.0, y + TALL)];
            for (at, from) in corners.iter().enumerate() {
                list.line(role, *from, corners[(at + 1) % 4]);
            }
            list.text(Role::Label, (x + wide / 2.0, y + 17.0), Anchor::Middle, &cell.number);
            list.text(Role::Strong, (x + wide / 2.0, y + 40.0), Anchor::Middle, &cell.label);
        }
        let walked: Vec<&FieldCell> = self.walk.iter().filter_map(|&at| self.cells.get(at)).collect();
        if let Some(first) = walked.first() {
            let (x, y) = middle(first);
            list.text(Role::Tick, (x - 6.0, y + 11.0), Anchor::End, &self.start);
        }
        for pair in walked.windows(2) {
            let ((x1, y1), (x2, y2)) = (middle(pair[0]), middle(pair[1]));
            // Below the plots, and round their ends, where no number stands.
            let (y1, y2) = (y1 + 4.0, y2 + 4.0);
            if pair[0].row == pair[1].row {
                list.line(Role::Look, (x1, y1), (x2, y2));
                continue;
            }
            let out = wide / 2.0 + 4.0;
            let end = if 2 * pair[0].column + 1 >= columns { x1 + out } else { x1 - out };
            list.line(Role::Look, (x1, y1), (end, y1));
            list.line(Role::Look, (end, y1), (end, y2));
            list.line(Role::Look, (end, y2), (x2, y2));
        }
        list
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn plots_stand_where_they_are_and_fit_the_picture() {
        let cell =
            |row, column| FieldCell { row, column, number: format!("{row}{column}"), ..FieldCell::default() };
        let map = FieldMap {
            cells: vec![cell(0, 0), cell(0, 11), cell(3, 5)],
            walk: vec![0, 1, 2],
            ..FieldMap::default()
        };
        for screen in [Screen::Phone, Screen::Desk] {
            let list = map.draw(screen);
            let texts: Vec<_> = list
                .items
                .iter()
                .filter_map(|item| match item {
                    crate::list::Item::Text { at, text, .. } => Some((text.clone(), *at)),
                    _ => None,
                })
                .collect();
            assert_eq!(texts.len(), 3);
            for (_, at) in &texts {
                assert!(at.x > 0.0 && at.x < list.width && at.y < list.height);
            }
            let height = |name: &str| texts.iter().find(|(text, _)| text == name).map(|(_, at)| at.y);
            assert!(height("35") < height("00"), "the near row is below");
        }
        assert!(FieldMap::default().draw(Screen::Desk).items.is_empty());
    }
}
