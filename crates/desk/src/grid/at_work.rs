//! A grid at work on the events of one frame: what it reads, what it asks, and the draft it types in.

use super::{
    model::{CellState, GridAsk, GridModel, SetWhy},
    view::{CellDraft, GridAt, GridView},
};

/// A grid at work on the events of one frame.
pub(super) struct AtWork<'a, M: ?Sized> {
    pub(super) model: &'a M,
    pub(super) view: &'a mut GridView,
    pub(super) asks: &'a mut Vec<GridAsk>,
    /// What was copied, for the clipboard.
    pub(super) copied: Option<String>,
    /// Esc with nothing left to leave: the keyboard goes elsewhere.
    pub(super) released: bool,
}

impl<'a, M: ?Sized> AtWork<'a, M> {
    pub(super) fn new(model: &'a M, view: &'a mut GridView, asks: &'a mut Vec<GridAsk>) -> Self {
        Self {
            model,
            view,
            asks,
            copied: None,
            released: false,
        }
    }
}

impl<M: GridModel + ?Sized> AtWork<'_, M> {
    /// Puts the draft in its cell, if it changed anything.
    pub(super) fn commit(&mut self) {
        let Some(draft) = self.view.draft.take() else {
            return;
        };
        let at = self.view.cursor;
        if draft.text == self.text_at(at) {
            return;
        }
        self.asks.push(GridAsk::SetCells {
            at,
            rows: vec![vec![draft.text]],
            why: SetWhy::Typed,
        });
        self.view.anchor = at;
    }

    /// Opens the cursor's cell for editing, on a new text or on the one it holds.
    pub(super) fn open_draft(&mut self, new_text: Option<&str>) {
        let at = self.view.cursor;
        let read_only = self
            .model
            .columns()
            .get(at.col)
            .is_none_or(|column| column.read_only);
        if read_only {
            if new_text.is_some() {
                self.asks.push(GridAsk::NotTyped(at));
            }
            return;
        }
        self.view.anchor = at;
        self.view.follow = true;
        self.view.draft = Some(CellDraft {
            text: new_text.map_or_else(|| self.text_at(at), str::to_owned),
            in_text: new_text.is_none(),
            new: true,
        });
    }

    /// The rows on the table: the model's, and the empty one where a new one starts.
    pub(super) fn rows(&self) -> usize {
        self.model.row_count() + 1
    }

    pub(super) fn text_at(&self, at: GridAt) -> String {
        if at.row < self.model.row_count() {
            self.model.typed(at).into_owned()
        } else {
            String::new()
        }
    }

    /// Whether what stands in a cell opens its working.
    pub(super) fn is_computed(&self, at: GridAt) -> bool {
        at.row < self.model.row_count()
            && matches!(
                self.model.state(at),
                CellState::Computed | CellState::Overruled
            )
    }
}
