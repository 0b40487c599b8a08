//! What keys, typing and the clipboard do in a grid, one event at a time.

use egui::{Event, Key, Modifiers};

use super::{
    at_work::AtWork,
    hears::{ends_draft, is_many_cells, trim_line_end},
    model::{GridAsk, GridModel, SetWhy},
    view::GridAt,
};

impl<M: GridModel + ?Sized> AtWork<'_, M> {
    /// Does what one event asks.
    pub(super) fn handle(&mut self, event: &Event) {
        if self.view.draft.is_some() {
            self.handle_in_draft(event);
            return;
        }
        match event {
            Event::Text(text) => self.open_draft(Some(text)),
            Event::Paste(text) => self.paste(text),
            Event::Copy => self.copy(),
            Event::Cut => {
                self.copy();
                self.clear(SetWhy::Cut);
            }
            Event::Key {
                key,
                pressed: true,
                modifiers,
                ..
            } => self.press(*key, *modifiers),
            _ => {}
        }
    }

    fn handle_in_draft(&mut self, event: &Event) {
        match event {
            Event::Text(text) => {
                if let Some(draft) = &mut self.view.draft {
                    draft.text.push_str(text);
                }
            }
            Event::Paste(text) if is_many_cells(text) => {
                self.view.draft = None;
                self.paste(text);
            }
            Event::Paste(text) => {
                if let Some(draft) = &mut self.view.draft {
                    draft.text.push_str(trim_line_end(text));
                }
            }
            Event::Key {
                key: Key::Backspace,
                pressed: true,
                ..
            } => {
                if let Some(draft) = &mut self.view.draft {
                    draft.text.pop();
                }
            }
            Event::Key {
                key: Key::Escape,
                pressed: true,
                ..
            } => self.view.draft = None,
            Event::Key {
                key,
                pressed: true,
                modifiers,
                ..
            } => {
                let in_text = self.view.draft.as_ref().is_some_and(|d| d.in_text);
                if ends_draft(event, in_text) {
                    self.commit();
                    // The row just begun is not in the model before the ask is done.
                    self.press_after_commit(*key, *modifiers);
                }
            }
            _ => {}
        }
    }

    fn press_after_commit(&mut self, key: Key, modifiers: Modifiers) {
        let grown = self.view.cursor.row >= self.model.row_count() && !self.asks.is_empty();
        match key {
            Key::Enter => self.step_down(modifiers, grown),
            Key::ArrowDown => self.move_to(self.view.cursor.row + 1, self.view.cursor.col, grown),
            _ => self.press(key, modifiers),
        }
    }

    /// Does what a word outside the grid stands for.
    pub(super) fn press_pending(&mut self) -> bool {
        let Some(key) = self.view.pressed.take() else {
            return false;
        };
        self.commit();
        let block = self.view.block();
        match key {
            Key::Delete => self.delete_rows(),
            _ => self.press_other(key, Modifiers::NONE, block.to),
        }
        true
    }

    fn press(&mut self, key: Key, modifiers: Modifiers) {
        match self.target(key, modifiers.command) {
            Some(target) => self.go(target, modifiers.shift),
            None => self.press_other(key, modifiers, self.last()),
        }
    }

    fn press_other(&mut self, key: Key, modifiers: Modifiers, last: GridAt) {
        let block = self.view.block();
        match key {
            Key::Tab => self.tab(modifiers.shift, last),
            Key::Enter if self.is_computed(self.view.cursor) => {
                self.asks.push(GridAsk::OpenWorking(self.view.cursor));
            }
            Key::Enter => self.step_down(modifiers, false),
            Key::F2 => self.open_draft(None),
            Key::Delete if modifiers.command => self.delete_rows(),
            Key::Delete | Key::Backspace => self.clear(SetWhy::Cleared),
            Key::Insert => self.asks.push(GridAsk::InsertRows {
                at: block.from.row.min(self.model.row_count()),
                count: block.row_count(),
            }),
            Key::A => {
                self.view.anchor = GridAt::default();
                let rows = self.model.row_count().max(1);
                self.view.cursor = GridAt::new(rows - 1, last.col);
            }
            Key::D => self.fill_down(),
            Key::Space => {
                self.view.anchor = GridAt::new(block.from.row, 0);
                self.view.cursor = GridAt::new(block.to.row, last.col);
            }
            Key::Escape => {
                if block.is_one_cell() {
                    self.released = true;
                }
                self.view.anchor = self.view.cursor;
            }
            _ => {}
        }
    }
}
