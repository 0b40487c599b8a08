//! What is done with a block of cells: copied, emptied, pasted, filled down, its rows taken away.

use super::{
    at_work::AtWork,
    block_text::{read_block, write_block},
    model::{GridAsk, GridModel, SetWhy},
    view::GridAt,
};

impl<M: GridModel + ?Sized> AtWork<'_, M> {
    /// Takes the selected rows away.
    pub(super) fn delete_rows(&mut self) {
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

    fn block_text(&self) -> String {
        let block = self.view.block();
        let rows: Vec<Vec<String>> = (block.from.row..=block.to.row)
            .map(|row| {
                (block.from.col..=block.to.col)
                    .map(|col| self.text_at(GridAt::new(row, col)))
                    .collect()
            })
            .collect();
        write_block(&rows)
    }

    pub(super) fn copy(&mut self) {
        let text = self.block_text();
        self.view.own_copy = Some(text.clone());
        self.copied = Some(text);
    }

    pub(super) fn clear(&mut self, why: SetWhy) {
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
    pub(super) fn paste(&mut self, text: &str) {
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
        self.view.cursor = GridAt::new(
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
    pub(super) fn fill_down(&mut self) {
        let mut block = self.view.block();
        if block.row_count() == 1 {
            let Some(above) = block.from.row.checked_sub(1) else {
                return;
            };
            block.from.row = above;
        }
        // A fill that begins among the rows ends with them: to the end of the table is no new row.
        let last = self.model.row_count().saturating_sub(1);
        if block.from.row < last {
            block.to.row = block.to.row.min(last);
        }
        let first: Vec<String> = (block.from.col..=block.to.col)
            .map(|col| self.text_at(GridAt::new(block.from.row, col)))
            .collect();
        self.asks.push(GridAsk::SetCells {
            at: GridAt::new(block.from.row + 1, block.from.col),
            rows: vec![first; block.row_count() - 1],
            why: SetWhy::Filled,
        });
    }
}
