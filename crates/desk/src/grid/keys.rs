//! What keys, typing and the clipboard do in a grid, one event at a time.

use egui::{Event, Key, Modifiers};

use super::{
    block_text::{read_block, write_block},
    model::{CellState, GridAsk, GridModel, SetWhy},
    view::{CellAt, Draft, GridView},
};

/// A grid at work on the events of one frame.
pub(super) struct Keys<'a, M: ?Sized> {
    pub(super) model: &'a M,
    pub(super) view: &'a mut GridView,
    pub(super) asks: &'a mut Vec<GridAsk>,
    /// What was copied, for the clipboard.
    pub(super) copied: Option<String>,
    /// Esc with nothing left to leave: the keyboard goes elsewhere.
    pub(super) released: bool,
}

/// Whether a key pressed with these modifiers is the grid's while it has the keyboard.
#[must_use]
pub fn uses_key(key: Key, modifiers: Modifiers) -> bool {
    match key {
        Key::A | Key::D => is_command_only(modifiers),
        Key::Delete => !modifiers.alt,
        Key::Space => modifiers.shift && !modifiers.command,
        Key::ArrowUp | Key::ArrowDown | Key::ArrowLeft | Key::ArrowRight => !modifiers.alt,
        Key::Home | Key::End => !modifiers.alt,
        Key::PageUp | Key::PageDown | Key::Tab | Key::Enter => !modifiers.command,
        Key::F2 | Key::Backspace | Key::Escape | Key::Insert => !modifiers.command,
        _ => false,
    }
}

/// Whether an event is the grid's while no cell is being edited.
pub(super) fn is_for_grid(event: &Event) -> bool {
    match event {
        Event::Copy | Event::Cut | Event::Paste(_) | Event::Text(_) => true,
        Event::Key {
            key,
            pressed: true,
            modifiers,
            ..
        } => uses_key(*key, *modifiers),
        _ => false,
    }
}

/// Whether an event ends the editing of a cell.
pub(super) fn ends_draft(event: &Event, in_text: bool) -> bool {
    match event {
        Event::Paste(text) => is_many_cells(text),
        Event::Key {
            key, pressed: true, ..
        } => match key {
            Key::Enter | Key::Tab | Key::Escape => true,
            Key::ArrowUp | Key::ArrowDown | Key::PageUp | Key::PageDown => true,
            Key::ArrowLeft | Key::ArrowRight => !in_text,
            _ => false,
        },
        _ => false,
    }
}

impl<M: GridModel + ?Sized> Keys<'_, M> {
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
            return;
        }
        self.view.anchor = at;
        self.view.follow = true;
        self.view.draft = Some(Draft {
            text: new_text.map_or_else(|| self.text_at(at), str::to_owned),
            in_text: new_text.is_none(),
            new: true,
        });
    }

    /// The rows on the table: the model's, and the empty one where a new one starts.
    fn rows(&self) -> usize {
        self.model.row_count() + usize::from(self.model.grows())
    }

    fn text_at(&self, at: CellAt) -> String {
        if at.row < self.model.row_count() {
            self.model.text(at).into_owned()
        } else {
            String::new()
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
            Key::D => self.fill_down(),
            _ => self.press_other(key, Modifiers::NONE, block.to),
        }
        true
    }

    fn press(&mut self, key: Key, modifiers: Modifiers) {
        let at = self.view.cursor;
        let last = CellAt::new(
            self.rows().saturating_sub(1),
            self.model.columns().len().saturating_sub(1),
        );
        let far = modifiers.command;
        let page = self.view.page.max(2) - 1;
        let target = match key {
            Key::ArrowUp if far => CellAt::new(0, at.col),
            Key::ArrowDown if far => CellAt::new(last.row, at.col),
            Key::ArrowLeft if far => CellAt::new(at.row, 0),
            Key::ArrowRight if far => CellAt::new(at.row, last.col),
            Key::ArrowUp => CellAt::new(at.row.saturating_sub(1), at.col),
            Key::ArrowDown => CellAt::new(at.row + 1, at.col),
            Key::ArrowLeft => CellAt::new(at.row, at.col.saturating_sub(1)),
            Key::ArrowRight => CellAt::new(at.row, at.col + 1),
            Key::Home => CellAt::new(if far { 0 } else { at.row }, 0),
            Key::End => CellAt::new(if far { last.row } else { at.row }, last.col),
            Key::PageUp => CellAt::new(at.row.saturating_sub(page), at.col),
            Key::PageDown => CellAt::new(at.row + page, at.col),
            _ => {
                self.press_other(key, modifiers, last);
                return;
            }
        };
        self.view.tab_from = None;
        self.view.cursor = CellAt::new(target.row.min(last.row), target.col.min(last.col));
        if !modifiers.shift {
            self.view.anchor = self.view.cursor;
        }
        self.view.follow = true;
    }

    fn press_other(&mut self, key: Key, modifiers: Modifiers, last: CellAt) {
        let block = self.view.block();
        match key {
            Key::Tab => self.tab(modifiers.shift, last),
            Key::Enter if self.is_computed() => {
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
                self.view.anchor = CellAt::default();
                let rows = self.model.row_count().max(1);
                self.view.cursor = CellAt::new(rows - 1, last.col);
            }
            Key::D => self.fill_down(),
            Key::Space => {
                self.view.anchor = CellAt::new(block.from.row, 0);
                self.view.cursor = CellAt::new(block.to.row, last.col);
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

    /// Takes the selected rows away.
    fn delete_rows(&mut self) {
        let block = self.view.block();
        let end = (block.to.row + 1).min(self.model.row_count());
        if end > block.from.row {
            self.asks.push(GridAsk::DeleteRows {
                at: block.from.row,
                count: end - block.from.row,
            });
            self.view.go_to(block.from);
        }
    }

    fn tab(&mut self, back: bool, last: CellAt) {
        let at = self.view.cursor;
        let from = self.view.tab_from.unwrap_or(at.col);
        let target = match (back, at.col) {
            (false, col) if col < last.col => CellAt::new(at.row, col + 1),
            (false, _) if at.row < last.row => CellAt::new(at.row + 1, 0),
            (true, col) if col > 0 => CellAt::new(at.row, col - 1),
            (true, _) if at.row > 0 => CellAt::new(at.row - 1, last.col),
            _ => at,
        };
        self.view.go_to(target);
        self.view.tab_from = Some(from);
    }

    fn is_computed(&self) -> bool {
        let at = self.view.cursor;
        at.row < self.model.row_count()
            && matches!(
                self.model.state(at),
                CellState::Computed | CellState::Overruled
            )
    }

    /// Enter: a row down, a row up with Shift, back in the column a run of Tab keys began in.
    fn step_down(&mut self, modifiers: Modifiers, grown: bool) {
        let at = self.view.cursor;
        let col = self.view.tab_from.unwrap_or(at.col);
        if modifiers.shift {
            self.move_to(at.row.saturating_sub(1), col, false);
        } else {
            self.move_to(at.row + 1, col, grown);
        }
    }

    fn move_to(&mut self, row: usize, col: usize, grown: bool) {
        let last_row = (self.rows() + usize::from(grown)).saturating_sub(1);
        self.view.go_to(CellAt::new(row.min(last_row), col));
        self.view.tab_from = None;
    }

    fn block_text(&self) -> String {
        let block = self.view.block();
        let rows: Vec<Vec<String>> = (block.from.row..=block.to.row)
            .map(|row| {
                (block.from.col..=block.to.col)
                    .map(|col| self.text_at(CellAt::new(row, col)))
                    .collect()
            })
            .collect();
        write_block(&rows)
    }

    fn copy(&mut self) {
        let text = self.block_text();
        self.view.own_copy = Some(text.clone());
        self.copied = Some(text);
    }

    fn clear(&mut self, why: SetWhy) {
        let block = self.view.block();
        let end = (block.to.row + 1).min(self.model.row_count());
        let cols = block.to.col - block.from.col + 1;
        let rows: Vec<Vec<String>> = (block.from.row..end)
            .map(|_| vec![String::new(); cols])
            .collect();
        if !rows.is_empty() {
            self.asks.push(GridAsk::SetCells {
                at: block.from,
                rows,
                why,
            });
        }
    }

    /// Pastes a block at the upper left of the selection; one cell fills the whole selection.
    fn paste(&mut self, text: &str) {
        let mut rows = read_block(text);
        let block = self.view.block();
        let cols = block.to.col - block.from.col + 1;
        let own = self.view.own_copy.as_deref().map(read_block);
        let mut why = if own.as_ref() == Some(&rows) {
            SetWhy::Repeated
        } else {
            SetWhy::Pasted
        };
        if let [row] = rows.as_slice()
            && let [cell] = row.as_slice()
            && !block.is_one_cell()
        {
            rows = vec![vec![cell.clone(); cols]; block.row_count()];
            why = SetWhy::Filled;
        }
        let width = rows.iter().map(Vec::len).max().unwrap_or(1);
        let last_col = self.model.columns().len().saturating_sub(1);
        self.view.anchor = block.from;
        self.view.cursor = CellAt::new(
            block.from.row + rows.len() - 1,
            (block.from.col + width - 1).min(last_col),
        );
        self.asks.push(GridAsk::SetCells {
            at: block.from,
            rows,
            why,
        });
    }

    /// Repeats the first row of the selection below it; one row takes the row above it.
    fn fill_down(&mut self) {
        let mut block = self.view.block();
        if block.row_count() == 1 {
            let Some(above) = block.from.row.checked_sub(1) else {
                return;
            };
            block.from.row = above;
        }
        let first: Vec<String> = (block.from.col..=block.to.col)
            .map(|col| self.text_at(CellAt::new(block.from.row, col)))
            .collect();
        self.asks.push(GridAsk::SetCells {
            at: CellAt::new(block.from.row + 1, block.from.col),
            rows: vec![first; block.row_count() - 1],
            why: SetWhy::Filled,
        });
    }
}

fn is_command_only(modifiers: Modifiers) -> bool {
    modifiers.command && !modifiers.shift && !modifiers.alt
}

/// Whether clipboard text is more than one cell; a single cell may end in a line end.
fn is_many_cells(text: &str) -> bool {
    trim_line_end(text).contains(['\t', '\n', '\r'])
}

fn trim_line_end(text: &str) -> &str {
    let text = text.strip_suffix('\n').unwrap_or(text);
    text.strip_suffix('\r').unwrap_or(text)
}
