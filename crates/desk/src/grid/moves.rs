//! Where keys move the cursor to.

use egui::{Key, Modifiers};

use super::{at_work::AtWork, model::GridModel, view::GridAt};

impl<M: GridModel + ?Sized> AtWork<'_, M> {
    /// The last cell of the table.
    pub(super) fn last(&self) -> GridAt {
        GridAt::new(
            self.rows().saturating_sub(1),
            self.model.columns().len().saturating_sub(1),
        )
    }

    /// The cell that a key moves to, `far` with the command key; none where it moves nowhere.
    pub(super) fn target(&self, key: Key, far: bool) -> Option<GridAt> {
        let (at, last) = (self.view.cursor, self.last());
        let page = self.view.page.max(2) - 1;
        let target = match key {
            Key::ArrowUp if far => GridAt::new(0, at.col),
            Key::ArrowDown if far => GridAt::new(last.row, at.col),
            Key::ArrowLeft if far => GridAt::new(at.row, 0),
            Key::ArrowRight if far => GridAt::new(at.row, last.col),
            Key::ArrowUp => GridAt::new(at.row.saturating_sub(1), at.col),
            Key::ArrowDown => GridAt::new(at.row + 1, at.col),
            Key::ArrowLeft => GridAt::new(at.row, at.col.saturating_sub(1)),
            Key::ArrowRight => GridAt::new(at.row, at.col + 1),
            Key::Home => GridAt::new(if far { 0 } else { at.row }, 0),
            Key::End => GridAt::new(if far { last.row } else { at.row }, last.col),
            Key::PageUp => GridAt::new(at.row.saturating_sub(page), at.col),
            Key::PageDown => GridAt::new(at.row + page, at.col),
            _ => return None,
        };
        Some(GridAt::new(
            target.row.min(last.row),
            target.col.min(last.col),
        ))
    }

    /// Puts the cursor on a cell; with `shift` the block grows to it.
    pub(super) fn go(&mut self, target: GridAt, shift: bool) {
        self.view.tab_from = None;
        self.view.cursor = target;
        if !shift {
            self.view.anchor = self.view.cursor;
        }
        self.view.follow = true;
    }

    /// Tab: a column on, or `back`; from the end of a row to the next one.
    pub(super) fn tab(&mut self, back: bool, last: GridAt) {
        let at = self.view.cursor;
        let from = self.view.tab_from.unwrap_or(at.col);
        let target = match (back, at.col) {
            (false, col) if col < last.col => GridAt::new(at.row, col + 1),
            (false, _) if at.row < last.row => GridAt::new(at.row + 1, 0),
            (true, col) if col > 0 => GridAt::new(at.row, col - 1),
            (true, _) if at.row > 0 => GridAt::new(at.row - 1, last.col),
            _ => at,
        };
        self.view.go_to(target);
        self.view.tab_from = Some(from);
    }

    /// Enter: a row down, a row up with Shift, back in the column a run of Tab keys began in.
    pub(super) fn step_down(&mut self, modifiers: Modifiers, grown: bool) {
        let at = self.view.cursor;
        let col = self.view.tab_from.unwrap_or(at.col);
        if modifiers.shift {
            self.move_to(at.row.saturating_sub(1), col, false);
        } else {
            self.move_to(at.row + 1, col, grown);
        }
    }

    /// Goes to a row and a column; a row that was just begun counts, too.
    pub(super) fn move_to(&mut self, row: usize, col: usize, grown: bool) {
        let last_row = (self.rows() + usize::from(grown)).saturating_sub(1);
        self.view.go_to(GridAt::new(row.min(last_row), col));
        self.view.tab_from = None;
    }
}
