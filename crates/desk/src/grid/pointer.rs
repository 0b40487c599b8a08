//! What the pointer does in a grid.

use egui::{Pos2, Ui};

use super::{
    at_work::AtWork,
    model::{GridAsk, GridModel},
    view::GridAt,
};

/// What the pointer did in this frame.
#[derive(Default)]
pub(super) struct Pointer {
    pub(super) pressed: Option<GridAt>,
    pub(super) over: Option<GridAt>,
    pub(super) doubled: Option<GridAt>,
    pub(super) head: Option<usize>,
    /// Where a row was asked what can be done to it.
    pub(super) menu: Option<Pos2>,
}

impl<M: GridModel + ?Sized> AtWork<'_, M> {
    /// Moves cursor and selection by what the pointer did; true if it was in the grid.
    pub(super) fn follow_pointer(&mut self, pointer: &Pointer, ui: &Ui) -> bool {
        let (shift, down, click) = ui.input(|i| {
            (
                i.modifiers.shift,
                i.pointer.primary_down(),
                i.pointer.any_click(),
            )
        });
        if let Some(col) = pointer.head {
            self.commit();
            self.view.cursor = GridAt::new(0, col);
            self.view.anchor = GridAt::new(self.model.row_count().saturating_sub(1), col);
            return true;
        }
        if let Some(at) = pointer.pressed {
            if self.view.draft.is_some() && at == self.view.cursor {
                return false;
            }
            self.commit();
            self.view.tab_from = None;
            self.view.cursor = at;
            if !shift {
                self.view.anchor = at;
                if self.is_computed(at) {
                    self.asks.push(GridAsk::OpenWorking(at));
                }
            }
            self.view.dragging = down;
        }
        if !down {
            self.view.dragging = false;
        } else if self.view.dragging
            && let Some(at) = pointer.over
        {
            self.view.cursor = at;
        }
        if let Some(at) = pointer.doubled
            && self.view.draft.is_none()
        {
            self.view.go_to(at);
            self.open_draft(None);
        }
        // A click takes the keyboard from whatever it is not on, and cells lie over the grid.
        let kept = click && pointer.over.is_some() && self.view.active;
        pointer.pressed.is_some() || pointer.doubled.is_some() || kept
    }
}
